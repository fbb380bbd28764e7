/* compare.c: side by side, differences first (see compare.h).
 *
 * Many columns do not fit abreast. The first is the one that others are held against, so each block
 * starts with it; what is alike is the same in all of them and stands once, at the end. A margin is
 * compared by its ratio, which is what a swap leaves of it whatever its unit. */
#include "show/compare.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/mass_change.h"
#include "craft/crash.h"
#include "craft/gauges.h"
#include "show/crash.h"
#include "show/digits.h"
#include "show/sheet_json.h"

enum { WORDS = 30, UNIT = 8, WIDE = 14, NARROW = 10, LETTER = 8 };

/* Which columns stand in a block, and how wide each is. */
typedef struct block {
    size_t count; /* 1 or more; the first is column 0 */
    size_t from;  /* the second and further ones are from here on */
    int width;
    bool change; /* a column of differences behind the two that there are */
} block;

static size_t room_for(const pare_screen *screen, int width)
{
    return (size_t)((screen->width - WORDS - UNIT) / width); /* 60 columns: 2 narrow ones */
}

/* Wide where all fit abreast; otherwise as many narrow ones as do. */
static block first_block(const pare_screen *screen, size_t count, const pare_compared columns[])
{
    const bool dated = count == 2 && (columns[0].date || columns[1].date);
    const bool change = dated && room_for(screen, NARROW) > 2;
    const size_t wanted = count + change;
    block b = {
        .from = 1, .width = wanted <= room_for(screen, WIDE) ? WIDE : NARROW, .change = change};
    const size_t room = room_for(screen, b.width);
    b.count = count < room ? count : room;
    return b;
}

/* Whether there is a block behind this one, which it becomes. */
static bool next_block(block *b, size_t count)
{
    b->from += b->count - 1;
    if (b->count < 2 || b->from >= count)
        return false;
    if (b->count - 1 > count - b->from)
        b->count = count - b->from + 1;
    return true;
}

static size_t column_of(const block *b, size_t place)
{
    return place == 0 ? 0 : b->from + place - 1;
}

/* "(a)" to "(z)", then "(aa)". */
static const char *letter(size_t column, char text[LETTER])
{
    enum { LETTERS = 26 };
    if (column < LETTERS)
        snprintf(text, LETTER, "(%c)", (char)('a' + column));
    else
        snprintf(text, LETTER, "(%c%c)", (char)('a' + column / LETTERS % LETTERS - 1),
                 (char)('a' + column % LETTERS));
    return text;
}

static void put_names(size_t count, const pare_compared columns[], const pare_screen *screen,
                      pare_text *out)
{
    enum { INDENT = 6 };
    char text[LETTER];
    for (size_t i = 0; i < count; i++) {
        pare_text_printf(out, "  %s ", letter(i, text));
        pare_put_wrapped(screen, out, 3 + pare_columns(text), INDENT, columns[i].name);
    }
}

static void put_letters(const block *b, pare_text *out)
{
    char text[LETTER];
    pare_put_spaces(out, WORDS + UNIT);
    for (size_t i = 0; i < b->count; i++)
        pare_put_right(out, letter(column_of(b, i), text), b->width);
    if (b->change)
        pare_put_right(out, "change", b->width);
    pare_text_add(out, "\n");
}

static int decimals_of(const char *number)
{
    const char *point = strchr(number, '.');
    return point ? (int)strspn(point + 1, "0123456789") : 0;
}

/* What the second has more than the first, with a digit more than they are written with, for what both are
 * in doubt of is alike; nothing where one of them has none. */
static void put_change(const block *b, double first, double second, const char *written,
                       pare_text *out)
{
    enum { SIGNIFICANT = 2 };
    char text[PARE_DIGITS];
    pare_put_right(out,
                   isfinite(second - first) ? pare_digits_change(text, second - first, SIGNIFICANT,
                                                                 decimals_of(written) + 1)
                                            : "",
                   b->width);
}

static double scale_of(int figure)
{
    if (figure >= PARE_IXX && figure <= PARE_IYZ)
        return 1e6;
    return pare_figure_table[figure].scale * (figure == PARE_HOVER_OUTPUT ? 100 : 1);
}

static const char *cell(const pare_compared *column, int figure, char text[PARE_DIGITS])
{
    const pare_sheet_figure *f = &column->sheet->figure[figure];
    const double scale = scale_of(figure);
    if (!f->exists)
        strcpy(text, "none");
    else
        pare_digits(text, scale * f->value, figure == PARE_MONEY ? 0.01 : scale * f->u);
    return text;
}

static double shown(const pare_compared *column, int figure)
{
    const pare_sheet_figure *f = &column->sheet->figure[figure];
    return f->exists ? scale_of(figure) * f->value : (double)NAN;
}

static const char *unit(int figure)
{
    if (figure >= PARE_IXX && figure <= PARE_IYZ)
        return "kg mm2";
    return figure == PARE_HOVER_OUTPUT ? "%" : pare_figure_table[figure].unit;
}

static bool differs(size_t count, const pare_compared columns[], int figure)
{
    char first[PARE_DIGITS], other[PARE_DIGITS];
    cell(&columns[0], figure, first);
    for (size_t i = 1; i < count; i++)
        if (strcmp(first, cell(&columns[i], figure, other)) != 0)
            return true;
    return false;
}

static void put_figure(int figure, pare_text *out)
{
    pare_put_left(out, pare_figure_table[figure].words, WORDS + 1);
    pare_put_left(out, unit(figure), UNIT - 1);
}

static bool any_figure(size_t count, const pare_compared columns[])
{
    for (int f = 0; f < PARE_FIGURES; f++)
        if (differs(count, columns, f))
            return true;
    return false;
}

static void figures_apart(size_t count, const pare_compared columns[], const block *b,
                          pare_text *out)
{
    char text[PARE_DIGITS];
    for (int f = 0; f < PARE_FIGURES; f++) {
        if (!differs(count, columns, f))
            continue;
        put_figure(f, out);
        for (size_t i = 0; i < b->count; i++)
            pare_put_right(out, cell(&columns[column_of(b, i)], f, text), b->width);
        if (b->change)
            put_change(b, shown(&columns[0], f), shown(&columns[1], f), text, out);
        pare_text_add(out, "\n");
    }
}

static void figures_alike(size_t count, const pare_compared columns[], int width, pare_text *out)
{
    char text[PARE_DIGITS];
    for (int f = 0; f < PARE_FIGURES; f++) {
        if (differs(count, columns, f))
            continue;
        put_figure(f, out);
        pare_put_right(out, cell(&columns[0], f, text), width);
        pare_text_add(out, "\n");
    }
}

/* ---- lines of the ledgers ---- */

static const pare_line *line_named(const pare_compared *column, const char *name, pare_line_of of)
{
    for (size_t i = 0; i < column->sheet->assembly.lines; i++) {
        const pare_line *line = &column->sheet->assembly.line[i];
        if (line->of == of && strcmp(line->name, name) == 0)
            return line;
    }
    return NULL;
}

/* Grams of a line; none where it is off. */
static double line_g(const pare_compared *column, const pare_line *like)
{
    const pare_line *line = line_named(column, like->name, like->of);
    return line ? 1e3 * line->mass_kg.value : 0;
}

static const char *grams(const pare_compared *column, const pare_line *like, char text[PARE_DIGITS])
{
    const pare_line *line = line_named(column, like->name, like->of);
    if (!line)
        strcpy(text, "off");
    else
        pare_digits_at(text, 1e3 * line->mass_kg.value, 1);
    return text;
}

static bool line_differs(size_t count, const pare_compared columns[], const pare_line *like)
{
    char first[PARE_DIGITS], other[PARE_DIGITS];
    grams(&columns[0], like, first);
    for (size_t i = 1; i < count; i++)
        if (strcmp(first, grams(&columns[i], like, other)) != 0)
            return true;
    return false;
}

/* Calls `take` for each line of any ledger, once, of those that differ or are alike.
 * @return how many */
typedef void (*take_line)(const pare_compared columns[], const pare_line *line, const block *b,
                          pare_text *out);
static size_t each_line(size_t count, const pare_compared columns[], bool differing, const block *b,
                        take_line take, pare_text *out)
{
    size_t lines = 0;
    for (size_t c = 0; c < count; c++)
        for (size_t i = 0; i < columns[c].sheet->assembly.lines; i++) {
            const pare_line *line = &columns[c].sheet->assembly.line[i];
            bool seen = false;
            for (size_t before = 0; before < c && !seen; before++)
                seen = line_named(&columns[before], line->name, line->of) != NULL;
            if (seen || line_differs(count, columns, line) != differing)
                continue;
            lines++;
            if (take)
                take(columns, line, b, out);
        }
    return lines;
}

static void line_apart(const pare_compared columns[], const pare_line *line, const block *b,
                       pare_text *out)
{
    char text[PARE_DIGITS];
    pare_put_left(out, line->name, WORDS + UNIT);
    for (size_t i = 0; i < b->count; i++)
        pare_put_right(out, grams(&columns[column_of(b, i)], line, text), b->width);
    if (b->change)
        put_change(b, line_g(&columns[0], line), line_g(&columns[1], line), text, out);
    pare_text_add(out, "\n");
}

static void line_alike(const pare_compared columns[], const pare_line *line, const block *b,
                       pare_text *out)
{
    char text[PARE_DIGITS];
    pare_put_left(out, line->name, WORDS + UNIT);
    pare_put_right(out, grams(&columns[0], line, text), b->width);
    pare_text_add(out, "\n");
}

/* ---- margins; the brief's own limits are figures already ---- */

static const char *ratio(const pare_compared *column, const char *name, char text[PARE_DIGITS])
{
    const pare_margin *margin = pare_sheet_margin(column->sheet, name);
    if (!margin)
        strcpy(text, "none");
    else
        pare_digits(text, margin->ratio, margin->ratio_u);
    return text;
}

static double ratio_value(const pare_compared *column, const char *name)
{
    const pare_margin *margin = pare_sheet_margin(column->sheet, name);
    return margin ? margin->ratio : (double)NAN;
}

static bool margin_differs(size_t count, const pare_compared columns[], const char *name)
{
    char first[PARE_DIGITS], other[PARE_DIGITS];
    ratio(&columns[0], name, first);
    for (size_t i = 1; i < count; i++)
        if (strcmp(first, ratio(&columns[i], name, other)) != 0)
            return true;
    return false;
}

/* Each that differs, once, worst of its first column first. With a NULL block only counted. */
static size_t margins_apart(size_t count, const pare_compared columns[], const block *b,
                            pare_text *out)
{
    char text[PARE_DIGITS], words[64];
    size_t rows = 0;
    for (size_t c = 0; c < count; c++)
        for (size_t i = 0; i < columns[c].sheet->margins; i++) {
            const pare_margin *margin = &columns[c].sheet->margin[i];
            bool seen = strncmp(margin->name, "limit.", 6) == 0;
            for (size_t before = 0; before < c && !seen; before++)
                seen = pare_sheet_margin(columns[before].sheet, margin->name) != NULL;
            if (seen || !margin_differs(count, columns, margin->name))
                continue;
            rows++;
            if (!b)
                continue;
            pare_put_left(out, pare_margin_words(margin, words), WORDS + UNIT);
            for (size_t k = 0; k < b->count; k++)
                pare_put_right(out, ratio(&columns[column_of(b, k)], margin->name, text), b->width);
            if (b->change)
                put_change(b, ratio_value(&columns[0], margin->name),
                           ratio_value(&columns[1], margin->name), text, out);
            pare_text_add(out, "\n");
        }
    return rows;
}

/* ---- the lead in other gauges ---- */

/* Of each column its first lead of the pack; run NULL: it describes none. */
static pare_gauges *leads_of(size_t count, const pare_compared columns[])
{
    pare_gauges *leads = calloc(count, sizeof *leads);
    pare_gauges_room *room = malloc(sizeof *room);
    for (size_t c = 0; c < count && leads && room; c++)
        for (size_t i = 0; i < columns[c].craft->runs && !leads[c].run; i++)
            if (pare_run_of_pack(columns[c].craft, &columns[c].craft->run[i]))
                pare_craft_gauges(columns[c].craft, columns[c].sheet, i, room, &leads[c]);
    if (!room) {
        free(leads);
        leads = NULL;
    }
    free(room);
    return leads;
}

static const pare_in_gauge *in_gauge(const pare_gauges *lead, double gauge)
{
    for (size_t i = 0; i < lead->count; i++)
        if (lead->row[i].gauge == gauge)
            return &lead->row[i];
    return NULL;
}

enum { LEAD_GRAMS, LEAD_FLOWN, LEAD_BURST, LEAD_LOST, LEAD_TIME, LEAD_ROWS };

static const char *lead_cell(const pare_compared *column, const pare_in_gauge *row, int what,
                             char text[PARE_DIGITS])
{
    const double rise_u = 0.15, air = column->sheet->rig.air.temperature_degc;
    const double degc = row && what == LEAD_BURST ? row->burst_degc : row ? row->flown_degc : 0;
    if (!row)
        return "none";
    switch (what) {
    case LEAD_GRAMS:
        return pare_digits_at(text, 1e3 * row->run_kg, 1);
    case LEAD_LOST:
        return pare_digits_at(text, row->lost_v, 2);
    case LEAD_TIME:
        return pare_digits_at(text, column->sheet->figure[PARE_FLOWN_TIME].value + row->time_s, 0);
    default:
        return degc >= PARE_MELTED_DEGC ? "melts" : pare_digits(text, degc, rise_u * (degc - air));
    }
}

static void leads_apart(const pare_compared columns[], const pare_gauges leads[], const block *b,
                        pare_text *out)
{
    static const char *const words[LEAD_ROWS] = {"", "hottest as flown", "after 3 s full throttle",
                                                 "lost at full throttle", "your minutes"};
    static const char *const units[LEAD_ROWS] = {"g", "C", "C", "V", "s"};
    char text[PARE_DIGITS], field[48];
    for (size_t i = 0; i < leads[0].count; i++)
        for (int what = 0; what < LEAD_ROWS; what++) {
            const double gauge = leads[0].row[i].gauge;
            if (what == LEAD_GRAMS)
                snprintf(field, sizeof field, "AWG %g", gauge);
            else
                snprintf(field, sizeof field, "  %s", words[what]);
            pare_put_left(out, field, WORDS + 1);
            pare_put_left(out, units[what], UNIT - 1);
            for (size_t k = 0; k < b->count; k++) {
                const size_t c = column_of(b, k);
                pare_put_right(out, lead_cell(&columns[c], in_gauge(&leads[c], gauge), what, text),
                               b->width);
            }
            pare_text_add(out, "\n");
        }
}

static void put_heading(const char *text, const pare_screen *screen, pare_text *out)
{
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, text);
}

/* ---- crashes ---- */

static void crash_of(const pare_compared *first, const pare_compared *column,
                     pare_crash_facts *facts)
{
    const double change_u_kg = pare_mass_change_u_kg(first->craft, &first->sheet->assembly,
                                                     column->craft, &column->sheet->assembly);
    pare_craft_crash(column->craft, column->sheet, first->craft, first->sheet, change_u_kg, facts);
}

/* Rows of ratios to the first column. */
static const struct {
    const char *words;
    int at; /* of pare_crash_at; -1: the least of the screws, -2: roll by the same output */
} crash_rows[] = {{"arms bear the brief's crash", PARE_CRASH_STATED},
                  {"the same in its own cruise", PARE_CRASH_CRUISE},
                  {"the same at its own top speed", PARE_CRASH_TOP},
                  {"least of the screws bears", -1},
                  {"roll by the same output", -2}};

static pare_ratio crash_cell(const pare_crash_facts *facts, int at)
{
    if (at == -2)
        return facts->roll;
    if (at == -1)
        return facts->joints ? facts->joint[0].bears : (pare_ratio){(double)NAN, 0};
    return facts->at[at].arm;
}

static void crashes(const pare_compared columns[], const block *b, pare_text *out)
{
    char text[PARE_DIGITS];
    for (size_t row = 0; row < sizeof crash_rows / sizeof crash_rows[0]; row++) {
        pare_put_left(out, crash_rows[row].words, WORDS + UNIT);
        for (size_t i = 0; i < b->count; i++) {
            pare_crash_facts facts;
            crash_of(&columns[0], &columns[column_of(b, i)], &facts);
            const pare_ratio r = crash_cell(&facts, crash_rows[row].at);
            pare_put_right(out, pare_digits(text, r.value, fmax(r.u, 0.01)), b->width);
        }
        pare_text_add(out, "\n");
    }
}

static void apart(size_t count, const pare_compared columns[], const pare_screen *screen,
                  pare_text *out)
{
    const bool figures = any_figure(count, columns);
    block b = first_block(screen, count, columns);
    const size_t lines = each_line(count, columns, true, &b, NULL, out);
    const bool margins = margins_apart(count, columns, NULL, out) > 0;
    if (!figures && lines == 0 && !margins) {
        pare_text_add(out, "\nNothing differs.\n");
        return;
    }
    do {
        if (figures) {
            put_heading("What differs", screen, out);
            put_letters(&b, out);
            figures_apart(count, columns, &b, out);
        }
        if (lines > 0) {
            put_heading("What weighs otherwise, in grams", screen, out);
            put_letters(&b, out);
            each_line(count, columns, true, &b, line_apart, out);
        }
        if (margins) {
            put_heading("Other margins: what it bears over what it must bear", screen, out);
            put_letters(&b, out);
            margins_apart(count, columns, &b, out);
        }
        put_heading("In a crash, times what the first of them, (a), bears", screen, out);
        b.change = false;
        put_letters(&b, out);
        crashes(columns, &b, out);
    } while (next_block(&b, count));
}

static void leads(size_t count, const pare_compared columns[], const pare_screen *screen,
                  pare_text *out)
{
    pare_gauges *found = leads_of(count, columns);
    block b = first_block(screen, count, columns);
    if (!found)
        out->failed = true;
    else if (found[0].run)
        do {
            put_heading("The pack's lead in other gauges", screen, out);
            put_letters(&b, out);
            leads_apart(columns, found, &b, out);
        } while (next_block(&b, count));
    free(found);
}

void pare_compare_text(size_t count, const pare_compared columns[], bool all,
                       const pare_screen *screen, pare_text *out)
{
    const block b = first_block(screen, count, columns);
    put_names(count, columns, screen, out);
    apart(count, columns, screen, out);
    if (all)
        leads(count, columns, screen, out);
    put_heading("What is alike", screen, out);
    figures_alike(count, columns, b.width, out);
    const size_t lines = each_line(count, columns, false, &b, NULL, out);
    if (all && lines > 0) {
        put_heading("What weighs alike, in grams", screen, out);
        each_line(count, columns, false, &b, line_alike, out);
    } else if (lines > 0) {
        pare_text_printf(out, "\n%zu line%s of the ledgers weigh%s alike: --all has %s.\n", lines,
                         lines > 1 ? "s" : "", lines > 1 ? "" : "s", lines > 1 ? "them" : "it");
    }
}

json_t *pare_compare_object(size_t count, const pare_compared columns[])
{
    json_t *object = json_object(), *list = json_array();
    for (size_t i = 0; i < count; i++) {
        json_t *one = json_object();
        json_object_set_new(one, "name", json_string(columns[i].name));
        json_object_set_new(one, "craft", json_string(columns[i].craft->name));
        json_object_set_new(one, "loadout", pare_text_or_null(columns[i].loadout));
        json_object_set_new(one, "tried", pare_text_or_null(columns[i].tried));
        if (columns[i].date)
            json_object_set_new(one, "date", json_string(columns[i].date));
        pare_figures_into(one, columns[i].sheet);
        json_object_set_new(one, "margins", pare_margins_json(columns[i].sheet));
        pare_crash_facts facts;
        crash_of(&columns[0], &columns[i], &facts);
        json_object_set_new(one, "crash", pare_crash_json(&facts));
        json_array_append_new(list, one);
    }
    json_object_set_new(object, "compare", list);
    return object;
}
