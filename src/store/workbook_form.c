/* workbook_form.c: what the formats of a workbook's cells say of their numbers (see workbook_inside.h).
 *
 * A day is a number with a format that has a year or a day in it; a share is shown in per cent; and people
 * keep units in formats: 0.0" g" shows 12.3 as "12.3 g". Source: ECMA-376 part 1, 18.8.30 and 18.8.31, from
 * memory; numbers of the formats that are built in: 9 and 10 per cent, 14 to 17 and 22 days. */
#include <stdlib.h>
#include <string.h>

#include "store/workbook_inside.h"

enum { FORMATS = 2000, STYLES = 70000, UNIT = 16 };

typedef struct format {
    unsigned long number;
    pare_cell_form form;
} format;

typedef struct styling {
    pare_workbook *book;
    bool in_cells; /* within cellXfs */
    size_t formats, room;
    format *format;
} styling;

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* What stands for itself at a place of a code: a quoted text or one behind a backslash. Where it ends. */
static const char *literal(const char *at, char text[UNIT], size_t *used)
{
    const bool quoted = *at == '"';
    at++;
    while (*at && (!quoted || *at != '"')) {
        if (*used + 1 < UNIT)
            text[(*used)++] = *at;
        at++;
        if (!quoted)
            return at;
    }
    return *at ? at + 1 : at;
}

/* A unit is letters, as they stand behind a number: "g", "mm", "mAh"; blanks around it taken off. */
static void keep_unit(char unit[UNIT], size_t used)
{
    while (used > 0 && unit[used - 1] == ' ')
        used--;
    unit[used] = '\0';
    const size_t blanks = strspn(unit, " ");
    memmove(unit, unit + blanks, used - blanks + 1);
    for (const char *c = unit; *c; c++)
        if (!is_letter(*c) && *c != '/')
            unit[0] = '\0';
}

pare_number_form pare_workbook_form_of(const char *code, char unit[UNIT])
{
    bool digits = false, day = false, share = false;
    size_t used = 0;
    for (const char *c = code; *c && *c != ';';) { /* the first section is of positive numbers */
        if (*c == '"' || *c == '\\') {
            char before[UNIT];
            size_t ignored = 0;
            c = digits ? literal(c, unit, &used) : literal(c, before, &ignored);
            continue;
        }
        if (*c == '[') { /* a colour, a condition or a currency */
            c += strcspn(c, "]");
            c += *c == ']';
            continue;
        }
        digits = digits || *c == '0' || *c == '#' || *c == '?';
        day = day || *c == 'y' || *c == 'Y' || *c == 'd' || *c == 'D';
        share = share || *c == '%';
        if (*c == ' ' && digits && used + 1 < UNIT)
            unit[used++] = ' ';
        c += *c == '_' || *c == '*' ? 1 + (c[1] != '\0') : 1;
    }
    unit[used] = '\0';
    keep_unit(unit, used);
    return day && !digits ? PARE_FORM_DAY : share ? PARE_FORM_SHARE : PARE_FORM_PLAIN;
}

static pare_cell_form form_of(const styling *s, unsigned long number)
{
    for (size_t i = 0; i < s->formats; i++)
        if (s->format[i].number == number)
            return s->format[i].form;
    const bool day = (number >= 14 && number <= 17) || number == 22;
    return (pare_cell_form){.form = day                           ? PARE_FORM_DAY
                                    : number == 9 || number == 10 ? PARE_FORM_SHARE
                                                                  : PARE_FORM_PLAIN};
}

static void add_format(styling *s, pare_xml *xml, const char *const *attributes)
{
    const char *number = pare_xml_attribute(attributes, "numFmtId"),
               *code = pare_xml_attribute(attributes, "formatCode");
    char unit[UNIT] = "";
    if (!number || !code)
        return;
    if (s->formats == FORMATS) {
        pare_xml_refuse(xml, "over %d number formats; right would be fewer", FORMATS);
        return;
    }
    if (s->formats == s->room) {
        const size_t room = s->room ? 2 * s->room : 64;
        format *more = realloc(s->format, room * sizeof *more);
        if (!more) {
            pare_xml_no_memory(xml);
            return;
        }
        s->format = more;
        s->room = room;
    }
    format *made = &s->format[s->formats++];
    *made = (format){.number = strtoul(number, NULL, 10)};
    made->form.form = pare_workbook_form_of(code, unit);
    if (*unit && !(made->form.unit = pare_arena_text(s->book->arena, unit)))
        pare_xml_no_memory(xml);
}

static void add_style(styling *s, pare_xml *xml, const char *const *attributes)
{
    pare_workbook *book = s->book;
    const char *number = pare_xml_attribute(attributes, "numFmtId");
    if (book->forms == STYLES) {
        pare_xml_refuse(xml, "over %d cell formats; right would be fewer", STYLES);
        return;
    }
    if (book->forms == book->form_room) {
        const size_t room = book->form_room ? 2 * book->form_room : 64;
        pare_cell_form *more = realloc(book->form, room * sizeof *more);
        if (!more) {
            pare_xml_no_memory(xml);
            return;
        }
        book->form = more;
        book->form_room = room;
    }
    book->form[book->forms++] = form_of(s, number ? strtoul(number, NULL, 10) : 0);
}

static void begin(void *context, pare_xml *xml, const char *element, const char *const *attributes)
{
    styling *s = context;
    const char *name = pare_xml_bare(element);
    if (strcmp(name, "numFmt") == 0)
        add_format(s, xml, attributes);
    else if (strcmp(name, "cellXfs") == 0)
        s->in_cells = true;
    else if (s->in_cells && strcmp(name, "xf") == 0)
        add_style(s, xml, attributes);
}

static void end(void *context, pare_xml *xml, const char *element)
{
    styling *s = context;
    (void)xml;
    if (strcmp(pare_xml_bare(element), "cellXfs") == 0)
        s->in_cells = false;
}

pare_status pare_workbook_forms(pare_workbook *book, pare_error *err)
{
    styling s = {.book = book};
    const pare_xml_reader reader = {.context = &s, .begin = begin, .end = end};
    const pare_status status = pare_workbook_part_read(book, "xl/styles.xml", false, &reader, err);
    free(s.format);
    return status;
}
