/* front_text.c: a front on a terminal (see front_chart.h).
 *
 * Each column of the chart is a stretch of one wish and shows the best of the other that is to be had with
 * it; what lies below is out of reach and shaded. So the chart is right at any width, and a step is a step
 * and no slope. Points go on top; a knee has a sign of its own, and the row of the table says it too. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/digits.h"
#include "show/front_scale.h"

enum { ROWS = 14, MARGIN = 8, MOST_COLUMNS = 96, SHORTEST = 40 };

typedef enum sign { BLANK, SHADE, FLAT, WALL, SET, KNEE, NOW, SIGNS } sign;
static const char *const sign_utf8[SIGNS] = {" ",      "\u2591", "\u2500", "\u2502",
                                             "\u25cf", "\u25c6", "\u25cb"};
static const char *const sign_ascii[SIGNS] = {" ", ".", "-", "|", "o", "K", "+"};

typedef struct canvas {
    const pare_front_chart *chart;
    const pare_screen *screen;
    pare_front_scale scale;
    int columns;
    unsigned char sign[ROWS][MOST_COLUMNS];
} canvas;

/* The column or the row of an amount, between the first and the last of so many. */
static int place(double value, double low, double high, int count)
{
    const double at = (value - low) / (high - low) * (count - 1);
    return at <= 0 ? 0 : at >= count - 1 ? count - 1 : (int)lround(at);
}

static int column_of(const canvas *c, double across)
{
    return place(across, c->scale.low[0], c->scale.high[0], c->columns);
}

static int row_of(const canvas *c, double up)
{
    return ROWS - 1 - place(up, c->scale.low[1], c->scale.high[1], ROWS);
}

/* The shade and its edge. A column that no set reaches is all shade. */
static void put_edge(canvas *c)
{
    int before = -1;
    const double wide = (c->scale.high[0] - c->scale.low[0]) / (c->columns - 1);
    /* The better end of what a column stands for, so that a set is at the edge of its own column. */
    const double better = c->scale.across == PARE_FRONT_MINUTES ? -0.5 : 0.5;
    for (int column = 0; column < c->columns; column++) {
        const double across = c->scale.low[0] + wide * (column + better);
        const double reach = pare_front_reach(c->chart, &c->scale, across);
        const int edge = isfinite(reach) ? row_of(c, reach) : -1;
        for (int row = edge + 1; row < ROWS; row++)
            c->sign[row][column] = SHADE;
        if (edge >= 0)
            c->sign[edge][column] = FLAT;
        if (edge >= 0 && before >= 0)
            for (int row = (edge < before ? edge : before) + 1;
                 row < (edge < before ? before : edge); row++)
                c->sign[row][column] = WALL;
        before = edge;
    }
}

static void put_sign(canvas *c, const pare_front_point *point, sign which)
{
    unsigned char *at = &c->sign[row_of(c, pare_front_shown(point, c->scale.up))]
                                [column_of(c, pare_front_shown(point, c->scale.across))];
    if (*at < which)
        *at = (unsigned char)which;
}

/* The number that belongs to a row: that of the step which lies in it. */
static bool number_in_row(const canvas *c, int row, char text[PARE_DIGITS])
{
    const double step = c->scale.step[1];
    for (double k = ceil(c->scale.low[1] / step - 1e-9); k * step <= c->scale.high[1]; k += 1)
        if (row_of(c, k * step) == row) {
            pare_digits_limit(text, k * step + 0.0);
            return true;
        }
    return false;
}

static void put_rows(const canvas *c, pare_text *out)
{
    const char *const *signs = c->screen->utf8 ? sign_utf8 : sign_ascii;
    for (int row = 0; row < ROWS; row++) {
        char number[PARE_DIGITS];
        const bool numbered = number_in_row(c, row, number);
        pare_put_right(out, numbered ? number : "", MARGIN - 2);
        pare_text_add(out, numbered ? (c->screen->utf8 ? " \u2524" : " +")
                                    : (c->screen->utf8 ? " \u2502" : " |"));
        int last = c->columns - 1;
        while (last >= 0 && c->sign[row][last] == BLANK)
            last--;
        for (int column = 0; column <= last; column++)
            pare_text_add(out, signs[c->sign[row][column]]);
        pare_text_add(out, "\n");
    }
}

/* Numbers below, each under its column, where there is room for it. */
static void put_numbers(const canvas *c, pare_text *out)
{
    char unit[48];
    const double step = c->scale.step[0];
    int at = 0;
    pare_put_spaces(out, MARGIN);
    for (double k = ceil(c->scale.low[0] / step - 1e-9); k * step <= c->scale.high[0]; k += 1) {
        char number[PARE_DIGITS];
        pare_digits_limit(number, k * step + 0.0);
        const int wide = pare_columns(number);
        const int from = column_of(c, k * step) - wide / 2;
        if (from < at || from + wide > c->columns)
            continue;
        pare_put_spaces(out, from - at);
        pare_text_add(out, number);
        at = from + wide;
        pare_text_add(out, " ");
        at++;
    }
    pare_text_printf(out, " %s\n", pare_front_unit(c->chart, c->scale.across, unit));
}

static void put_chart(canvas *c, pare_text *out)
{
    char unit[48];
    const char *const *signs = c->screen->utf8 ? sign_utf8 : sign_ascii;
    put_edge(c);
    for (size_t i = 0; i < c->chart->count; i++)
        put_sign(c, &c->chart->point[i], c->chart->point[i].knee ? KNEE : SET);
    if (c->chart->now)
        put_sign(c, c->chart->now, NOW);
    pare_text_printf(out, "%s\n", pare_front_unit(c->chart, c->scale.up, unit));
    put_rows(c, out);
    put_numbers(c, out);
    pare_text_printf(out, "%s set   %s knee   ", signs[SET], signs[KNEE]);
    if (c->chart->now)
        pare_text_printf(out, "%s as it is   ", signs[NOW]);
    pare_text_printf(out, "%s no set reaches\n", signs[SHADE]);
}

/* ---- rows ---- */

/* The next of the swaps of a set, which are separated by ", ". @return NULL: there is none */
static const char *next_swap(const char *words, size_t *length)
{
    while (*words == ',' || *words == ' ')
        words++;
    *length = strcspn(words, ",");
    return *words ? words : NULL;
}

/* Whether one of the swaps begins with so many letters and ends there, or goes on with "=". */
static bool has_swap(const char *words, const char *begins, size_t length, bool whole)
{
    size_t long_as = 0;
    for (const char *swap = next_swap(words, &long_as); swap;
         swap = next_swap(swap + long_as, &long_as))
        if (long_as >= length && strncmp(swap, begins, length) == 0 &&
            (whole ? long_as == length : swap[length] == '='))
            return true;
    return false;
}

/* What a set does that the one before it did not, and what it leaves as it was. */
static void put_change(const char *words, const char *before, pare_text *out)
{
    size_t length = 0, count = 0;
    for (const char *swap = next_swap(words, &length); swap;
         swap = next_swap(swap + length, &length))
        if (!has_swap(before, swap, length, true))
            pare_text_printf(out, "%s%.*s", count++ ? ", " : "", (int)length, swap);
    for (const char *swap = next_swap(before, &length); swap;
         swap = next_swap(swap + length, &length)) {
        const size_t left = strcspn(swap, "=");
        if (left < length && !has_swap(words, swap, left, false))
            pare_text_printf(out, "%s%.*s as it was", count++ ? ", " : "", (int)left, swap);
    }
}

static void put_point(const pare_front_point *point, const pare_screen *screen, const char *words,
                      pare_text *out)
{
    char number[64];
    snprintf(number, sizeof number, "%.1f", pare_front_shown(point, PARE_FRONT_GRAMS));
    pare_put_right(out, number, 9);
    snprintf(number, sizeof number, "%.2f", pare_front_shown(point, PARE_FRONT_MONEY));
    pare_put_right(out, number, 10);
    snprintf(number, sizeof number, "%.1f", pare_front_shown(point, PARE_FRONT_MINUTES));
    pare_put_right(out, number, 9);
    pare_text_add(out, point->knee ? "  knee  " : "        ");
    pare_put_wrapped(screen, out, 36, 36, words);
}

/* From left to right as on the chart. Neighbours share most of their swaps, so a row says what is new in
 * it. */
static void put_points(const canvas *c, pare_text *out)
{
    const pare_front_chart *chart = c->chart;
    const size_t last = chart->count - 1;
    const bool rises = pare_front_shown(&chart->point[0], c->scale.across) <=
                       pare_front_shown(&chart->point[last], c->scale.across);
    const char *before = "";
    for (size_t i = 0; i < chart->count; i++) {
        const pare_front_point *point = &chart->point[rises ? i : last - i];
        const char *words = chart->words ? chart->words[point->set] : "";
        pare_text change = {0};
        put_change(words, before, &change);
        put_point(point, c->screen, pare_text_all(&change), out);
        out->failed |= change.failed;
        pare_text_free(&change);
        before = words;
    }
}

void pare_front_text(const pare_front_chart *chart, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    pare_text_printf(&line, "%s: ", chart->title);
    pare_front_sentence(chart, &line);
    pare_put_line(screen, out, 0, 0, &line);

    static const int numbers[2] = {8, 6};
    char unit[48];
    canvas c = {.chart = chart, .screen = screen, .columns = screen->width - MARGIN - 10};
    c.columns = c.columns > MOST_COLUMNS ? MOST_COLUMNS
                : c.columns < SHORTEST   ? SHORTEST
                                         : c.columns;
    if (!pare_front_scale_of(chart, numbers, &c.scale))
        return;
    pare_text_add(out, "\n");
    put_chart(&c, out);
    pare_text_add(out, "\n");
    pare_put_right(out, "grams", 9);
    pare_put_right(out, pare_front_unit(chart, PARE_FRONT_MONEY, unit), 10);
    pare_put_right(out, "minutes", 9);
    pare_text_add(out, "\n");
    if (chart->now)
        put_point(chart->now, screen, "as it is", out);
    put_points(&c, out);
}
