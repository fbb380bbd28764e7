/* draw_curves.c: one curve of a craft on a small chart, with its own working points marked.
 *
 * No frame around it and no key beside it: each line and each mark is named where it is. A mark's
 * bar is the figure's standard uncertainty, which the whole curve shares. */
#include <math.h>
#include <stdio.h>

#include "show/curve_words.h"
#include "show/digits.h"
#include "show/draw_inside.h"

#define LEFT_MM   8.5 /* for the numbers beside the axis */
#define TOP_MM    6.0
#define BOTTOM_MM 6.2
#define LABEL_MM  2.8

typedef struct chart {
    pare_page *page;
    const pare_curve_chart *curve;
    const pare_curve_row *row;
    pare_box plot;
    double x_low, x_high, y_low, y_high; /* in the units that are shown */
    double u_share;
    pare_placed placed;
} chart;

static double on_x(const chart *c, double x)
{
    return c->plot.x + c->plot.width * (c->row->x.scale * x - c->x_low) / (c->x_high - c->x_low);
}

static double on_y(const chart *c, double y)
{
    return c->plot.y + c->plot.height -
           c->plot.height * (c->row->y.scale * y - c->y_low) / (c->y_high - c->y_low);
}

static void widen(double value, double *low, double *high)
{
    *low = fmin(*low, value);
    *high = fmax(*high, value);
}

/* @return whether there is anything to draw */
static bool find_span(chart *c)
{
    c->x_low = c->y_low = INFINITY;
    c->x_high = c->y_high = -INFINITY;
    for (size_t i = 0; i < c->curve->lines; i++)
        for (size_t k = 0; k < c->curve->line[i].points; k++) {
            widen(c->row->x.scale * c->curve->line[i].x[k], &c->x_low, &c->x_high);
            widen(c->row->y.scale * c->curve->line[i].y[k], &c->y_low, &c->y_high);
        }
    if (isfinite(c->curve->level))
        widen(c->row->y.scale * c->curve->level, &c->y_low, &c->y_high);
    if (!(c->x_low <= c->x_high))
        return false;
    if (c->row->from_zero)
        c->y_low = 0;
    const double room = c->y_high > c->y_low ? 0.06 * (c->y_high - c->y_low) : 0.5;
    c->y_high += room;
    c->y_low -= c->row->from_zero ? 0 : room;
    if (!(c->x_high > c->x_low)) {
        c->x_low -= 0.5;
        c->x_high += 0.5;
    }
    return true;
}

static void put_axis(const chart *c)
{
    const pare_pen axis = {PARE_INK_GREY, PARE_HAIR_MM, 0}, grid = {PARE_INK_PALE, 0.08, 0};
    const pare_box p = c->plot;
    const double bottom = p.y + p.height;
    const double x_step = pare_nice_step(c->x_high - c->x_low, 5),
                 y_step = pare_nice_step(c->y_high - c->y_low, 5);
    char digits[PARE_DIGITS], text[PARE_DIGITS + 48];
    pare_type type = {.size_mm = 2, .ink = PARE_INK_GREY, .align = PARE_ALIGN_RIGHT};
    for (double k = ceil(c->y_low / y_step - 1e-9) + 0.0; k * y_step <= c->y_high; k += 1) {
        const double y = on_y(c, k * y_step / c->row->y.scale);
        pare_page_line(c->page, p.x, y, p.x + p.width, y, grid);
        pare_page_text(c->page, p.x - 0.9, y + 0.7, &type, pare_digits_limit(digits, k * y_step));
    }
    type.align = PARE_ALIGN_MIDDLE;
    for (double k = ceil(c->x_low / x_step - 1e-9) + 0.0; k * x_step <= c->x_high; k += 1) {
        const double x = on_x(c, k * x_step / c->row->x.scale);
        pare_page_line(c->page, x, bottom, x, bottom + 0.8, axis);
        pare_page_text(c->page, x, bottom + 2.8, &type, pare_digits_limit(digits, k * x_step));
    }
    pare_page_line(c->page, p.x, bottom, p.x + p.width, bottom, axis);
    type.align = PARE_ALIGN_RIGHT;
    snprintf(text, sizeof text, "%s, %s", c->row->x.words, c->row->x.unit);
    pare_page_text(c->page, p.x + p.width, bottom + 5.4, &type, text);
}

/* How many points of the lines lie within a box. */
static size_t crosses(const chart *c, pare_box box)
{
    size_t in = 0;
    for (size_t i = 0; i < c->curve->lines; i++)
        for (size_t k = 0; k < c->curve->line[i].points; k++) {
            const double x = on_x(c, c->curve->line[i].x[k]), y = on_y(c, c->curve->line[i].y[k]);
            in += x > box.x && x < box.x + box.width && y > box.y && y < box.y + box.height;
        }
    return in;
}

/* The line that ties a name to its point where the name is not beside it. */
typedef struct tie {
    double x0, y0, x1, y1; /* from the name to the point; y0 = y1: none */
} tie;

static tie tie_of(double x, double y, pare_box name)
{
    const double from = fmin(fmax(x, name.x + 0.5), name.x + name.width - 0.5);
    if (name.y + LABEL_MM < y - 1.2)
        return (tie){from, name.y + LABEL_MM, x, y - 0.95};
    if (name.y > y + 1.2)
        return (tie){from, name.y, x, y + 0.95};
    return (tie){x, y, x, y};
}

static pare_box around(tie t)
{
    return (pare_box){fmin(t.x0, t.x1), fmin(t.y0, t.y1), fabs(t.x1 - t.x0) + 0.1,
                      fabs(t.y1 - t.y0)};
}

/* How bad a place for a name is: outside, on other names or their ties, on the lines. */
static double cost_of(const chart *c, double x, double y, pare_box box)
{
    const pare_box p = c->plot;
    const pare_box wide = {box.x - 0.5, box.y + 0.2, box.width + 1, LABEL_MM - 0.4};
    const bool out = box.x < p.x || box.x + box.width > p.x + p.width + 1 || box.y < p.y - 2 ||
                     box.y + LABEL_MM > p.y + p.height;
    const size_t meets = pare_placed_meets(&c->placed, wide) +
                         pare_placed_meets(&c->placed, around(tie_of(x, y, box)));
    return 1000 * out + 300 * (double)meets + 60 * (double)crosses(c, wide);
}

/* Names a point where that costs least; `up` is tried first, 1 above the point or -1 below it. */
static void put_label(chart *c, double x, double y, double up, pare_ink ink, const char *text)
{
    const pare_type type = {.size_mm = 2.1, .ink = ink};
    const double width = pare_page_text_width(c->page, &type, text);
    pare_box best = {0};
    double least = INFINITY;
    for (int i = 0; i < 72; i++) {
        /* Above and below, to the right, to the left, in the middle, ever further away. */
        const int away = i / 6 + 1, side = i % 3;
        const double row = i / 3 % 2 ? -up * away : up * away;
        const double left = side == 0 ? 1.1 : side == 1 ? -1.1 - width : -width / 2;
        const pare_box box = {x + left, y - LABEL_MM / 2 - 2 * row, width, LABEL_MM};
        const double cost =
            cost_of(c, x, y, box) + 3 * away + (i / 3 % 2 ? 8 : 0) + 20 * (side > 0);
        if (cost < least) {
            least = cost;
            best = box;
        }
    }
    const tie t = tie_of(x, y, best);
    pare_page_text(c->page, best.x, best.y + 2.1, &type, text);
    pare_page_line(c->page, t.x0, t.y0, t.x1, t.y1, (pare_pen){PARE_INK_GREY, 0.08, 0});
    pare_placed_add(&c->placed, best);
    if (t.y0 != t.y1)
        pare_placed_add(&c->placed, around(t));
}

static void put_lines(chart *c)
{
    static const double dash[PARE_CURVE_LINES] = {0, 1.6, 0.6};
    for (size_t i = 0; i < c->curve->lines && i < PARE_CURVE_LINES; i++) {
        const pare_curve_line *line = &c->curve->line[i];
        double at[PARE_CURVE_POINTS][2];
        for (size_t k = 0; k < line->points; k++) {
            at[k][0] = on_x(c, line->x[k]);
            at[k][1] = on_y(c, line->y[k]);
        }
        pare_page_lines(c->page, line->points, (const double(*)[2])at,
                        (pare_pen){PARE_INK_BLACK, PARE_STRONG_MM, dash[i]});
    }
}

static void name_lines(chart *c)
{
    /* Where on the line, and on which side: the middle one lies close below the first. */
    static const double along[PARE_CURVE_LINES] = {0.6, 0.72, 0.6},
                        up[PARE_CURVE_LINES] = {1, -1, 1};
    for (size_t i = 0; i < c->curve->lines && i < PARE_CURVE_LINES; i++) {
        const pare_curve_line *line = &c->curve->line[i];
        if (!line->name || line->points == 0)
            continue;
        const size_t at = (size_t)(along[i] * (double)line->points);
        put_label(c, on_x(c, line->x[at]), on_y(c, line->y[at]), up[i], PARE_INK_BLACK, line->name);
    }
}

/* From the right: a name stands to the right of its tie, so the next one, above it, crosses none. */
static void name_marks(chart *c)
{
    size_t order[PARE_CURVE_MARKS] = {0};
    for (size_t i = 0; i < c->curve->marks; i++) {
        size_t at = i;
        for (; at > 0 && c->curve->mark[order[at - 1]].x < c->curve->mark[i].x; at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
    for (size_t i = 0; i < c->curve->marks; i++) {
        const pare_curve_mark *mark = &c->curve->mark[order[i]];
        char digits[PARE_DIGITS], text[PARE_DIGITS + 64];
        const double y = c->row->y.scale * mark->y;
        snprintf(text, sizeof text, "%s %s%s%s", mark->name, pare_digits(digits, y, c->u_share * y),
                 c->row->y.unit[0] ? " " : "", c->row->y.unit);
        put_label(c, on_x(c, mark->x), on_y(c, mark->y), 1, PARE_INK_BLACK, text);
    }
}

static void put_marks(chart *c)
{
    const pare_pen hair = {PARE_INK_BLACK, PARE_THIN_MM, 0};
    for (size_t i = 0; i < c->curve->marks; i++) {
        const pare_curve_mark *mark = &c->curve->mark[i];
        const double x = on_x(c, mark->x), y = on_y(c, mark->y);
        const double u = mark->y * c->u_share;
        if (u > 0)
            pare_page_line(c->page, x, fmax(on_y(c, mark->y + u), c->plot.y - TOP_MM / 2), x,
                           fmin(on_y(c, mark->y - u), c->plot.y + c->plot.height), hair);
        pare_page_ellipse(c->page, x, y, 0.75, 0.75, 0, i == 0 ? PARE_INK_BLACK : PARE_INK_PAPER,
                          (pare_pen){PARE_INK_BLACK, PARE_THIN_MM, 0});
        pare_placed_add(&c->placed, (pare_box){x - 0.9, y - 0.9, 1.8, 1.8});
    }
    name_marks(c);
}

static void put_level(chart *c)
{
    const double y = on_y(c, c->curve->level);
    char digits[PARE_DIGITS], text[PARE_DIGITS + 32];
    snprintf(text, sizeof text, "lands at %s %s",
             pare_digits_limit(digits, c->row->y.scale * c->curve->level), c->row->y.unit);
    pare_page_line(c->page, c->plot.x, y, c->plot.x + c->plot.width, y,
                   (pare_pen){PARE_INK_CLAY, PARE_THIN_MM, 1.2});
    put_label(c, c->plot.x + 0.34 * c->plot.width, y, -1, PARE_INK_CLAY, text);
}

void pare_draw_curve(pare_page *page, pare_box box, const pare_report *report, pare_curve_of which)
{
    chart c = {.page = page,
               .curve = &report->curve[which],
               .row = &pare_curve_table[which],
               .plot = {box.x + LEFT_MM, box.y + TOP_MM, box.width - LEFT_MM - 1,
                        box.height - TOP_MM - BOTTOM_MM},
               .u_share = pare_curve_u_share(&report->view->sheet, which)};
    char title[96];
    snprintf(title, sizeof title, "%s%s%s", c.row->words, c.row->y.unit[0] ? ", " : "",
             c.row->y.unit);
    pare_page_text(page, box.x, box.y + 2.5,
                   &(pare_type){.size_mm = 2.5, .ink = PARE_INK_BLACK, .bold = true}, title);
    if (!find_span(&c)) {
        pare_text why = {0};
        pare_text_printf(&why, "none: %s", c.curve->why);
        pare_page_words(
            page, box.x, box.y + TOP_MM + 2,
            &(pare_type){.size_mm = 2.1, .ink = PARE_INK_GREY, .most_mm = box.width - 2},
            pare_page_line_of(page, &why));
        pare_text_free(&why);
        return;
    }
    put_axis(&c);
    if (isfinite(c.curve->level))
        put_level(&c);
    put_lines(&c);
    put_marks(&c);
    name_lines(&c);
}
