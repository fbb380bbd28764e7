/* compare.c: side by side, differences first (see compare.h). */
#include "show/compare.h"

#include <stdio.h>
#include <string.h>

#include "show/digits.h"
#include "show/sheet_json.h"

enum { WORDS = 30, COLUMN = 14 };

/* How many columns stand abreast; further ones follow in a block below. */
static size_t abreast(const pare_screen *screen)
{
    const int room = (screen->width - WORDS - 8) / COLUMN;
    return room < 2 ? 2 : (size_t)room;
}

static void put_names(size_t count, const pare_compared columns[], pare_text *out)
{
    for (size_t i = 0; i < count; i++)
        pare_text_printf(out, "  (%c) %s\n", (char)('a' + i), columns[i].name);
}

static void put_letters(size_t from, size_t to, pare_text *out)
{
    pare_put_spaces(out, WORDS + 8);
    for (size_t i = from; i < to; i++) {
        char letter[8];
        snprintf(letter, sizeof letter, "(%c)", (char)('a' + i));
        pare_put_right(out, letter, COLUMN);
    }
    pare_text_add(out, "\n");
}

static const char *cell(const pare_compared *column, int figure, char text[PARE_DIGITS])
{
    const pare_sheet_figure *f = &column->sheet->figure[figure];
    const double scale = pare_figure_table[figure].scale * (figure == PARE_HOVER_OUTPUT ? 100 : 1);
    if (!f->exists)
        strcpy(text, "none");
    else if (figure >= PARE_IXX && figure <= PARE_IYZ)
        pare_digits(text, 1e6 * f->value, 1e6 * f->u);
    else
        pare_digits(text, scale * f->value, figure == PARE_MONEY ? 0.01 : scale * f->u);
    return text;
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

static void figures(size_t count, const pare_compared columns[], size_t from, size_t to,
                    bool differing, pare_text *out)
{
    char text[PARE_DIGITS];
    for (int f = 0; f < PARE_FIGURES; f++) {
        if (differs(count, columns, f) != differing)
            continue;
        pare_put_left(out, pare_figure_table[f].words, WORDS + 1);
        pare_put_left(out, unit(f), 7);
        for (size_t i = from; i < to; i++)
            pare_put_right(out, cell(&columns[i], f, text), COLUMN);
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

static void ledgers(size_t count, const pare_compared columns[], size_t from, size_t to,
                    const pare_screen *screen, pare_text *out)
{
    char text[PARE_DIGITS];
    bool any = false;
    for (size_t c = 0; c < count; c++)
        for (size_t i = 0; i < columns[c].sheet->assembly.lines; i++) {
            const pare_line *line = &columns[c].sheet->assembly.line[i];
            bool seen = false;
            for (size_t before = 0; before < c && !seen; before++)
                seen = line_named(&columns[before], line->name, line->of) != NULL;
            if (seen || !line_differs(count, columns, line))
                continue;
            if (!any) {
                pare_text_add(out, "\n");
                pare_put_heading(screen, out, "What weighs otherwise, in grams");
                put_letters(from, to, out);
            }
            any = true;
            pare_put_left(out, line->name, WORDS + 8);
            for (size_t k = from; k < to; k++)
                pare_put_right(out, grams(&columns[k], line, text), COLUMN);
            pare_text_add(out, "\n");
        }
}

void pare_compare_text(size_t count, const pare_compared columns[], const pare_screen *screen,
                       pare_text *out)
{
    put_names(count, columns, out);
    const size_t most = abreast(screen);
    for (size_t from = 0; from < count; from += most) {
        const size_t to = from + most < count ? from + most : count;
        pare_text_add(out, "\n");
        pare_put_heading(screen, out, "What differs");
        put_letters(from, to, out);
        figures(count, columns, from, to, true, out);
        ledgers(count, columns, from, to, screen, out);
        pare_text_add(out, "\n");
        pare_put_heading(screen, out, "What is alike");
        figures(count, columns, from, to, false, out);
    }
}

json_t *pare_compare_object(size_t count, const pare_compared columns[])
{
    json_t *object = json_object(), *list = json_array();
    for (size_t i = 0; i < count; i++) {
        json_t *one = json_object();
        json_object_set_new(one, "name", json_string(columns[i].name));
        json_object_set_new(one, "craft", json_string(columns[i].craft->name));
        pare_figures_into(one, columns[i].sheet);
        json_array_append_new(list, one);
    }
    json_object_set_new(object, "compare", list);
    return object;
}
