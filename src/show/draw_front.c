/* draw_front.c: a front on a page of its own (see front_chart.h).
 *
 * The same picture as on a terminal: steps, and a shade over what no set reaches. Knees, the ends and the
 * craft as it is are named where they are. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "show/digits.h"
#include "show/draw_inside.h"
#include "show/front_scale.h"

#define EDGE_MM  8.0
#define LEFT_MM  14.0
#define TOP_MM   14.0
#define BELOW_MM 12.0
#define NAME_MM  3.2

typedef struct drawing {
    pare_page *page;
    const pare_front_chart *chart;
    pare_front_scale scale;
    pare_box plot;
    pare_placed placed;
} drawing;

static double on_x(const drawing *d, double across)
{
    return d->plot.x +
           d->plot.width * (across - d->scale.low[0]) / (d->scale.high[0] - d->scale.low[0]);
}

static double on_y(const drawing *d, double up)
{
    return d->plot.y + d->plot.height -
           d->plot.height * (up - d->scale.low[1]) / (d->scale.high[1] - d->scale.low[1]);
}

static void put_axes(const drawing *d)
{
    const pare_pen axis = {PARE_INK_GREY, PARE_HAIR_MM, 0}, grid = {PARE_INK_PALE, 0.08, 0};
    const pare_front_scale *s = &d->scale;
    const pare_box p = d->plot;
    const double bottom = p.y + p.height;
    char digits[PARE_DIGITS], unit[48];
    pare_type type = {.size_mm = 2.6, .ink = PARE_INK_GREY, .align = PARE_ALIGN_RIGHT};
    for (double k = ceil(s->low[1] / s->step[1] - 1e-9); k * s->step[1] <= s->high[1]; k += 1) {
        const double y = on_y(d, k * s->step[1]);
        pare_page_line(d->page, p.x, y, p.x + p.width, y, grid);
        pare_page_text(d->page, p.x - 1.2, y + 0.9, &type,
                       pare_digits_limit(digits, k * s->step[1] + 0.0));
    }
    type.align = PARE_ALIGN_MIDDLE;
    for (double k = ceil(s->low[0] / s->step[0] - 1e-9); k * s->step[0] <= s->high[0]; k += 1) {
        const double x = on_x(d, k * s->step[0]);
        pare_page_line(d->page, x, bottom, x, bottom + 1, axis);
        pare_page_text(d->page, x, bottom + 3.8, &type,
                       pare_digits_limit(digits, k * s->step[0] + 0.0));
    }
    pare_page_line(d->page, p.x, bottom, p.x + p.width, bottom, axis);
    type.align = PARE_ALIGN_RIGHT;
    pare_page_text(d->page, p.x + p.width, bottom + 7.8, &type,
                   pare_front_unit(d->chart, s->across, unit));
    type.align = PARE_ALIGN_LEFT;
    pare_page_text(d->page, p.x - 1.2, p.y - 1.8, &type, pare_front_unit(d->chart, s->up, unit));
}

/* From one side of the plot to the other: where the step goes up or down next, and the best until there.
 * Points in the order of the axis that goes across. */
static const pare_front_point *along(const drawing *d, size_t i)
{
    const pare_front_point *first = &d->chart->point[0],
                           *last = &d->chart->point[d->chart->count - 1];
    const bool rises =
        pare_front_shown(first, d->scale.across) <= pare_front_shown(last, d->scale.across);
    return rises ? first + i : last - i;
}

/* The steps: from the left of the plot to the right, two corners for each stretch in which one set is the
 * best to be had, at the top of the plot where none is.
 * @param[out] at  [2 (count + 1)]
 * @return where the first corner of a stretch with a set is; reached_to: behind the last */
static size_t steps(const drawing *d, double (*at)[2], size_t *reached_to)
{
    const bool more_is_better = d->scale.across == PARE_FRONT_MINUTES;
    const size_t count = d->chart->count;
    double from = d->plot.x;
    for (size_t i = 0; i <= count; i++) {
        /* With minutes a stretch ends at the set that is best in it, else it begins there. */
        const bool reached = more_is_better ? i < count : i > 0;
        const double to = i < count ? on_x(d, pare_front_shown(along(d, i), d->scale.across))
                                    : d->plot.x + d->plot.width;
        const pare_front_point *best = reached ? along(d, more_is_better ? i : i - 1) : NULL;
        const double y = best ? on_y(d, pare_front_shown(best, d->scale.up)) : d->plot.y;
        at[2 * i][0] = from;
        at[2 * i + 1][0] = to;
        at[2 * i][1] = at[2 * i + 1][1] = y;
        from = to;
    }
    *reached_to = 2 * (count + (more_is_better ? 0 : 1));
    return more_is_better ? 0 : 2;
}

static pare_status put_shade(drawing *d, pare_error *err)
{
    const pare_box p = d->plot;
    const size_t corners = 2 * (d->chart->count + 1);
    double(*at)[2] = calloc(corners + 2, sizeof *at);
    if (!at)
        return pare_no_memory(err);
    size_t to = 0;
    const size_t from = steps(d, at, &to);
    at[corners][0] = p.x + p.width;
    at[corners + 1][0] = p.x;
    at[corners][1] = at[corners + 1][1] = p.y + p.height;
    const pare_outline loop = {corners + 2, (const double(*)[2])at};
    pare_page_area(d->page, 1, &loop, PARE_INK_FAINT, (pare_pen){PARE_INK_NONE, 0, 0});
    put_axes(d);
    pare_page_lines(d->page, to - from, (const double(*)[2])(at + from),
                    (pare_pen){PARE_INK_BLACK, PARE_STRONG_MM, 0});
    for (size_t i = from; i + 1 < to; i++) /* names keep off them */
        pare_placed_add(&d->placed,
                        (pare_box){fmin(at[i][0], at[i + 1][0]), fmin(at[i][1], at[i + 1][1]),
                                   fabs(at[i + 1][0] - at[i][0]) + 0.1,
                                   fabs(at[i + 1][1] - at[i][1]) + 0.1});
    free(at);
    return PARE_OK;
}

/* Beside the point where no other name is: above on the right first, which is the side that sets are on. */
static void put_name(drawing *d, double x, double y, pare_ink ink, const char *text)
{
    const pare_type type = {.size_mm = 2.6, .ink = ink};
    const double width = pare_page_text_width(d->page, &type, text);
    for (int away = 1; away <= 8; away++)
        for (int side = 0; side < 2; side++) {
            const double left = side == 0 ? x + 1.4 : x - 1.4 - width;
            const pare_box box = {left, y - NAME_MM * away - 0.3, width, NAME_MM};
            if (left < d->plot.x || left + width > d->plot.x + d->plot.width ||
                box.y < d->plot.y - 4 || pare_placed_meets(&d->placed, box))
                continue;
            pare_page_text(d->page, left, box.y + 2.4, &type, text);
            if (away > 1)
                pare_page_line(d->page, side == 0 ? left : left + width, box.y + NAME_MM, x, y - 1,
                               (pare_pen){PARE_INK_GREY, 0.08, 0});
            pare_placed_add(&d->placed, box);
            return;
        }
}

static void put_point(drawing *d, const pare_front_point *point, pare_ink fill, double radius,
                      const char *name)
{
    const double x = on_x(d, pare_front_shown(point, d->scale.across));
    const double y = on_y(d, pare_front_shown(point, d->scale.up));
    pare_page_ellipse(d->page, x, y, radius, radius, 0, fill,
                      (pare_pen){PARE_INK_BLACK, PARE_THIN_MM, 0});
    pare_placed_add(&d->placed, (pare_box){x - radius, y - radius, 2 * radius, 2 * radius});
    if (!name)
        return;
    char up[64], across[64], text[192];
    snprintf(text, sizeof text, "%s%s%s, %s", name, *name ? " " : "",
             pare_front_amount(d->chart, point, d->scale.up, up),
             pare_front_amount(d->chart, point, d->scale.across, across));
    put_name(d, x, y, PARE_INK_BLACK, text);
}

static void put_points(drawing *d)
{
    const pare_front_chart *chart = d->chart;
    for (size_t i = 0; i < chart->count; i++)
        if (!chart->point[i].knee)
            put_point(d, &chart->point[i], PARE_INK_BLACK, 0.7, NULL);
    /* Names last, so that they find every point placed. */
    if (chart->now)
        put_point(d, chart->now, PARE_INK_PAPER, 1, "as it is");
    for (size_t i = 0; i < chart->count; i++)
        if (chart->point[i].knee)
            put_point(d, &chart->point[i], PARE_INK_CLAY, 1.1, "knee");
    put_point(d, &chart->point[0], PARE_INK_BLACK, 0.7, "");
    if (chart->count > 1)
        put_point(d, &chart->point[chart->count - 1], PARE_INK_BLACK, 0.7, "");
}

pare_status pare_front_page(const pare_front_chart *chart, pare_page_form form, pare_text *out,
                            pare_error *err)
{
    static const int numbers[2] = {9, 7};
    drawing d = {.chart = chart,
                 .plot = {LEFT_MM + EDGE_MM, TOP_MM + EDGE_MM,
                          PARE_FRONT_WIDTH_MM - LEFT_MM - 2 * EDGE_MM,
                          PARE_FRONT_HEIGHT_MM - TOP_MM - BELOW_MM - 2 * EDGE_MM + 4}};
    const bool drawn = pare_front_scale_of(chart, numbers, &d.scale);
    pare_status status =
        pare_page_open(form, PARE_FRONT_WIDTH_MM, PARE_FRONT_HEIGHT_MM, &d.page, err);
    if (status != PARE_OK)
        return status;
    pare_text words = {0};
    pare_front_sentence(chart, &words);
    const double most = PARE_FRONT_WIDTH_MM - 2 * EDGE_MM;
    pare_page_text(
        d.page, EDGE_MM, EDGE_MM + 3,
        &(pare_type){.size_mm = 3.6, .ink = PARE_INK_BLACK, .bold = true, .most_mm = most},
        chart->title);
    pare_page_text(d.page, EDGE_MM, EDGE_MM + 8,
                   &(pare_type){.size_mm = 2.8, .ink = PARE_INK_GREY, .most_mm = most},
                   pare_page_line_of(d.page, &words));
    if (drawn)
        status = put_shade(&d, err);
    if (drawn && status == PARE_OK)
        put_points(&d);
    if (status == PARE_OK)
        status = pare_page_finish(d.page, chart->title, pare_text_all(&words), out, err);
    pare_text_free(&words);
    pare_page_close(d.page);
    return status;
}
