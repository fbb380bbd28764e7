/* workbook_sheet.c: a sheet's cells as lines of text (see workbook.h).
 *
 * Cells come in the order of their rows, or the file is refused: nothing is held but the line at hand.
 * What a sheet says of its own size is not asked. A number of three decimals gets a fourth, so that no
 * reader of "1.234" has to ask whether it is thousands. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/day.h"
#include "base/xstring.h"
#include "store/csv.h"
#include "store/workbook_inside.h"

#define CSV_BYTES ((size_t)64 << 20)

enum { ROWS_MOST = 1048576, NUMBER = 64 };

typedef enum cell_kind { OF_NUMBER, OF_SHARED, OF_TEXT, OF_TRUTH, OF_ERROR, OF_DAY } cell_kind;

typedef struct reading {
    const pare_workbook *book;
    bool comma;
    pare_text *csv;
    bool any;
    long row;    /* at hand, from 1; 0: none yet */
    long column; /* the last that was read, from 1; 0: none in this row */
    long put;    /* of the line, the last field that was put */
    long
        widest; /* of all lines so far: what a row leaves empty at its end stands as empty fields */
    /* the cell at hand */
    bool in_cell, in_value, in_text, formula, has_value;
    int aside;
    char why[160]; /* what is wrong with it; "": nothing */
    cell_kind kind;
    unsigned long style;
    pare_text value, plain;
} reading;

/* In the words of who sees the sheet: where in its XML that is helps nobody. */
static void refuse(reading *r, pare_xml *xml, const char *what)
{
    char letters[8] = "";
    long column = r->column;
    for (size_t used = 0; column > 0 && used + 1 < sizeof letters; used++) {
        memmove(letters + 1, letters, used + 1);
        letters[0] = (char)('A' + (column - 1) % 26);
        column = (column - 1) / 26;
    }
    snprintf(r->why, sizeof r->why, "cell %s%ld: %s", letters, r->row, what);
    pare_xml_refuse(xml, "%s", r->why);
}

/* ---- the text ---- */

static void put(reading *r, pare_xml *xml, const char *bytes, size_t length)
{
    pare_text_put(r->csv, bytes, length);
    if (r->csv->failed)
        pare_xml_no_memory(xml);
    else if (r->csv->length > CSV_BYTES)
        pare_xml_refuse(xml, "over %zu MiB of text in one sheet; right would be less",
                        CSV_BYTES >> 20);
}

/* A field: a line break within is a blank, so that lines stay rows. */
static void put_field(reading *r, pare_xml *xml, const char *text)
{
    const size_t length = strlen(text);
    if (length == 0)
        return;
    if (r->column > PARE_CSV_COLUMNS) {
        refuse(r, xml, "beyond 200 columns; right would be fewer");
        return;
    }
    for (; r->put < r->column; r->put++)
        if (r->put > 0)
            put(r, xml, ",", 1);
    r->any = true;
    if (!strpbrk(text, ",\"\r\n\t")) {
        put(r, xml, text, length);
        return;
    }
    put(r, xml, "\"", 1);
    for (const char *c = text; *c && !pare_xml_refused(xml); c++)
        put(r, xml,
            *c == '"'                                ? "\"\""
            : *c == '\n' || *c == '\r' || *c == '\t' ? " "
                                                     : c,
            *c == '"' ? 2 : 1);
    put(r, xml, "\"", 1);
}

/* One of the first 65,536 characters as UTF-8. @return bytes; 0: no character of a text */
static size_t character_of(unsigned code, char bytes[3])
{
    if (code == 0 || (code >= 0xd800 && code < 0xe000))
        return 0;
    if (code < 0x80) {
        bytes[0] = (char)code;
        return 1;
    }
    if (code < 0x800) {
        bytes[0] = (char)(0xc0 | code >> 6);
        bytes[1] = (char)(0x80 | (code & 0x3f));
        return 2;
    }
    bytes[0] = (char)(0xe0 | code >> 12);
    bytes[1] = (char)(0x80 | (code >> 6 & 0x3f));
    bytes[2] = (char)(0x80 | (code & 0x3f));
    return 3;
}

/* A text, in which characters may stand as their number; what is none stays as it is written. */
static void put_text(reading *r, pare_xml *xml, const char *text)
{
    if (!strstr(text, "_x")) {
        put_field(r, xml, text);
        return;
    }
    r->plain.length = 0;
    for (const char *c = text; *c;) {
        unsigned code;
        char bytes[3];
        const size_t length = pare_xstring_is_escape(c, &code) ? character_of(code, bytes) : 0;
        pare_text_put(&r->plain, length ? bytes : c, length ? length : 1);
        c += length ? PARE_XSTRING_ESCAPE : 1;
    }
    if (r->plain.failed)
        pare_xml_no_memory(xml);
    else
        put_field(r, xml, r->plain.bytes);
}

/* ---- numbers ---- */

/* 1900 had no 29 February, but the first spreadsheets counted one: from March on days are off by one. */
static bool day_text(const reading *r, double serial, char text[NUMBER])
{
    const long from_1900 = -25569, from_1904 = -24107; /* their day 0, from 1970-01-01 */
    char day[16];
    if (!(serial >= 1 && serial < 2958466)) /* to the year 9999 */
        return false;
    long number = (long)floor(serial);
    number += r->book->from_1904 ? from_1904 : from_1900 + (number < 60);
    snprintf(text, NUMBER, "%s", pare_day_text(number, day));
    return true;
}

static void number_text(const reading *r, double value, const pare_cell_form *form,
                        char text[NUMBER])
{
    const bool share = form->form == PARE_FORM_SHARE;
    char digits[NUMBER - 20];
    snprintf(digits, sizeof digits, "%.15g", share ? 100 * value : value);
    char *point = strchr(digits, '.');
    if (point && strlen(point) == 4 && strspn(point + 1, "0123456789") == 3)
        strcat(digits, "0");
    if (point && r->comma)
        *point = ',';
    snprintf(text, NUMBER, "%s%s%.16s", digits,
             share        ? " %"
             : form->unit ? " "
                          : "",
             share || !form->unit ? "" : form->unit);
}

static void put_number(reading *r, pare_xml *xml, const char *typed)
{
    static const pare_cell_form plain = {.form = PARE_FORM_PLAIN};
    const pare_cell_form *form = r->style < r->book->forms ? &r->book->form[r->style] : &plain;
    char text[NUMBER], *end = NULL;
    const double value = strtod(typed, &end);
    if (*end || end == typed || !isfinite(value)) {
        refuse(r, xml, "no number, though the cell says so; right would be one");
        return;
    }
    if (form->form != PARE_FORM_DAY || !day_text(r, value, text))
        number_text(r, value, form, text);
    put_field(r, xml, text);
}

/* ---- cells ---- */

static void put_cell(reading *r, pare_xml *xml)
{
    const char *value = r->value.bytes && r->value.length ? r->value.bytes : "";
    char *end = NULL, day[11];
    if (r->formula && !r->has_value) {
        refuse(r, xml,
               "a formula without its value; right would be the workbook saved by a spreadsheet");
        return;
    }
    switch (r->kind) {
    case OF_SHARED: {
        const unsigned long which = strtoul(value, &end, 10);
        if (!r->has_value)
            return;
        if (*value < '0' || *value > '9' || *end || which >= r->book->texts ||
            !r->book->text.bytes) {
            refuse(r, xml,
                   "a shared text that the workbook does not have; right would be one of "
                   "its own");
            return;
        }
        put_text(r, xml, r->book->text.bytes + r->book->text_at[which]);
        return;
    }
    case OF_NUMBER:
        if (*value)
            put_number(r, xml, value);
        return;
    case OF_DAY: /* ISO 8601, with the time of day behind it */
        snprintf(day, sizeof day, "%.10s", value);
        put_field(r, xml, day);
        return;
    case OF_TRUTH:
        put_field(r, xml, strcmp(value, "1") == 0 ? "yes" : "no");
        return;
    case OF_ERROR: /* #N/A says that nothing is known; others are told as they are */
        put_field(r, xml, strcmp(value, "#N/A") == 0 ? "n/a" : value);
        return;
    case OF_TEXT:
        put_text(r, xml, value);
        return;
    }
}

static cell_kind kind_of(const char *type)
{
    static const struct {
        const char *type;
        cell_kind kind;
    } kinds[] = {{"s", OF_SHARED}, {"str", OF_TEXT}, {"inlineStr", OF_TEXT},
                 {"b", OF_TRUTH},  {"e", OF_ERROR},  {"d", OF_DAY}};
    for (size_t i = 0; type && i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(type, kinds[i].type) == 0)
            return kinds[i].kind;
    return OF_NUMBER;
}

/* "BC12": its column; 0: it is none. */
static long column_of(const char *place)
{
    long column = 0;
    size_t letters = 0;
    for (; place[letters] >= 'A' && place[letters] <= 'Z' && letters < 3; letters++)
        column = 26 * column + (place[letters] - 'A' + 1);
    return letters && place[letters] >= '0' && place[letters] <= '9' ? column : 0;
}

static void end_row(reading *r, pare_xml *xml)
{
    for (; r->put > 0 && r->put < r->widest; r->put++)
        put(r, xml, ",", 1);
    r->widest = r->put > r->widest ? r->put : r->widest;
}

static void begin_row(reading *r, pare_xml *xml, const char *number)
{
    char *end = NULL;
    const long row = number ? strtol(number, &end, 10) : r->row + 1;
    if (row <= r->row || row > ROWS_MOST || (number && *end)) {
        pare_xml_refuse(xml, "row '%.20s' after row %ld; right would be a later one, up to %d",
                        number ? number : "", r->row, ROWS_MOST);
        return;
    }
    for (long i = r->row ? r->row : 1; i < row && !pare_xml_refused(xml); i++)
        put(r, xml, "\n", 1);
    r->row = row;
    r->column = r->put = 0;
}

static void begin_cell(reading *r, pare_xml *xml, const char *const *attributes)
{
    const char *place = pare_xml_attribute(attributes, "r"),
               *style = pare_xml_attribute(attributes, "s");
    const long column = place ? column_of(place) : r->column + 1;
    if (column <= r->column || r->row == 0) {
        refuse(r, xml,
               "another cell behind it that does not follow; right would be cells in order");
        return;
    }
    r->column = column;
    r->in_cell = true;
    r->formula = r->has_value = false;
    r->kind = kind_of(pare_xml_attribute(attributes, "t"));
    r->style = style ? strtoul(style, NULL, 10) : 0;
    r->value.length = 0;
}

static void begin(void *context, pare_xml *xml, const char *element, const char *const *attributes)
{
    reading *r = context;
    const char *name = pare_xml_bare(element);
    if (strcmp(name, "row") == 0)
        begin_row(r, xml, pare_xml_attribute(attributes, "r"));
    else if (strcmp(name, "c") == 0)
        begin_cell(r, xml, attributes);
    else if (r->in_cell && strcmp(name, "f") == 0)
        r->formula = true;
    else if (r->in_cell && strcmp(name, "v") == 0)
        r->in_value = r->has_value = true;
    else if (r->in_cell && strcmp(name, "t") == 0)
        r->in_text = r->has_value = true;
    else if (strcmp(name, "rPh") == 0)
        r->aside++;
}

static void text(void *context, pare_xml *xml, const char *piece, size_t length)
{
    reading *r = context;
    if (!(r->in_value || r->in_text) || r->aside)
        return;
    pare_text_put(&r->value, piece, length);
    if (r->value.failed)
        pare_xml_no_memory(xml);
    else if (r->value.length > PARE_CSV_FIELD)
        refuse(r, xml, "over 16 KiB of text; right would be less");
}

static void end(void *context, pare_xml *xml, const char *element)
{
    reading *r = context;
    const char *name = pare_xml_bare(element);
    if (strcmp(name, "v") == 0)
        r->in_value = false;
    else if (strcmp(name, "t") == 0)
        r->in_text = false;
    else if (strcmp(name, "rPh") == 0)
        r->aside -= r->aside > 0;
    else if (strcmp(name, "row") == 0)
        end_row(r, xml);
    else if (strcmp(name, "c") == 0 && r->in_cell) {
        r->in_cell = false;
        put_cell(r, xml);
    }
}

pare_status pare_workbook_sheet(const pare_workbook *book, size_t sheet, bool comma, pare_text *csv,
                                bool *any, pare_error *err)
{
    reading r = {.book = book, .comma = comma, .csv = csv};
    const pare_xml_reader reader = {.context = &r, .begin = begin, .end = end, .text = text};
    if (!book->sheet[sheet].place)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: nothing says where sheet '%.60s' is; right would be a whole workbook",
                         book->path, book->sheet[sheet].name);
    pare_status status =
        pare_workbook_part_read(book, book->sheet[sheet].place, true, &reader, err);
    if (r.why[0])
        status =
            pare_fail(err, PARE_BAD_DATA, "%s#%s: %s", book->path, book->sheet[sheet].name, r.why);
    pare_text_put(csv, "\n", 1);
    if (status == PARE_OK && csv->failed)
        status = pare_no_memory(err);
    *any = r.any;
    pare_text_free(&r.value);
    pare_text_free(&r.plain);
    return status;
}
