/* growth_plot.c: see growth_plot.h. */
#include "support/growth_plot.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/draw_page.h"

#define WIDTH_MM  180
#define HEIGHT_MM 85
#define EDGE_MM   6
#define PLOT_MM   60 /* high */
#define TOP_MM    14
#define DOT_MM    1.0

/* One axis, in powers of ten. */
typedef struct axis {
    double low, high;
    int step; /* powers between two words */
} axis;

typedef struct chart {
    pare_page *page;
    pare_box box;
    axis x, y;
} chart;

static double along_x(const chart *c, double power)
{
    return c->box.x + c->box.width * (power - c->x.low) / (c->x.high - c->x.low);
}

static double along_y(const chart *c, double power)
{
    return c->box.y + c->box.height * (c->y.high - power) / (c->y.high - c->y.low);
}

static void put_word(const chart *c, double x, double y, double power, pare_align align)
{
    static const char *const plain[] = {"0.01", "0.1", "1", "10", "100", "1,000", "10,000"};
    char word[24];
    if (power >= -2 && power <= 4)
        snprintf(word, sizeof word, "%s", plain[(int)power + 2]);
    else
        snprintf(word, sizeof word, "1e%.0f", power);
    pare_page_text(c->page, x, y,
                   &(pare_type){.size_mm = 2.6, .ink = PARE_INK_GREY, .align = align}, word);
}

static void put_axes(const chart *c, const char *title)
{
    const pare_pen grid = {PARE_INK_PALE, 0.12, 0};
    for (double p = ceil(c->x.low); p <= c->x.high; p += c->x.step) {
        pare_page_line(c->page, along_x(c, p), c->box.y, along_x(c, p), c->box.y + c->box.height,
                       grid);
        put_word(c, along_x(c, p), c->box.y + c->box.height + 4, p, PARE_ALIGN_MIDDLE);
    }
    for (double p = ceil(c->y.low); p <= c->y.high; p += c->y.step) {
        pare_page_line(c->page, c->box.x, along_y(c, p), c->box.x + c->box.width, along_y(c, p),
                       grid);
        put_word(c, c->box.x - 1.5, along_y(c, p) + 0.9, p, PARE_ALIGN_RIGHT);
    }
    pare_page_text(c->page, c->box.x, c->box.y - 2,
                   &(pare_type){.size_mm = 2.8, .ink = PARE_INK_BLACK}, title);
}

static void put_points(const chart *c, size_t count, const growth of[], bool by_parts)
{
    double last[2] = {0, 0};
    for (size_t i = 0; i < count; i++) {
        const double power = by_parts ? log10((double)of[i].parts) : of[i].combinations_log10;
        const double at[2] = {along_x(c, power), along_y(c, log10(of[i].spent_s))};
        if (i > 0)
            pare_page_line(c->page, last[0], last[1], at[0], at[1],
                           (pare_pen){PARE_INK_GREY, 0.22, of[i].proven ? 0 : 1.0});
        memcpy(last, at, sizeof last);
    }
    for (size_t i = 0; i < count; i++) {
        const double power = by_parts ? log10((double)of[i].parts) : of[i].combinations_log10;
        pare_page_ellipse(c->page, along_x(c, power), along_y(c, log10(of[i].spent_s)), DOT_MM,
                          DOT_MM, 0, of[i].proven ? PARE_INK_BLACK : PARE_INK_PAPER,
                          (pare_pen){PARE_INK_BLACK, 0.3, 0});
    }
}

static void put_charts(pare_page *page, size_t count, const growth of[])
{
    const double wide = (WIDTH_MM - 4 * EDGE_MM - 8) / 2.0;
    double most = 0;
    axis time = {-1, 2, 1};
    for (size_t i = 0; i < count; i++) {
        most = fmax(most, of[i].combinations_log10);
        time.low = fmin(time.low, floor(log10(of[i].spent_s)));
        time.high = fmax(time.high, ceil(log10(of[i].spent_s)));
    }
    const chart by_parts = {
        page, {2 * EDGE_MM, TOP_MM + 8, wide, PLOT_MM - 4}, {1.8, 4.5, 1}, time};
    const chart by_sets = {page,
                           {4 * EDGE_MM + wide, TOP_MM + 8, wide, PLOT_MM - 4},
                           {0, 5 * ceil(most / 5 + 0.1), 10},
                           time};
    put_axes(&by_parts, "seconds, against parts on the bench");
    put_points(&by_parts, count, of, true);
    put_axes(&by_sets, "seconds, against combinations");
    put_points(&by_sets, count, of, false);
}

pare_status growth_draw(size_t count, const growth of[], const char *path, pare_error *err)
{
    static const char title[] = "A best set, to the proof: processor time on one thread";
    static const char words[] = "A dot: proven. A ring: stopped before it was.";
    pare_page *page;
    pare_text out = {0};
    pare_status status = pare_page_open(PARE_PAGE_SVG, WIDTH_MM, HEIGHT_MM, &page, err);
    if (status != PARE_OK)
        return status;
    pare_page_text(page, EDGE_MM, EDGE_MM + 3,
                   &(pare_type){.size_mm = 3.6, .ink = PARE_INK_BLACK, .bold = true}, title);
    pare_page_text(page, EDGE_MM, EDGE_MM + 8, &(pare_type){.size_mm = 2.8, .ink = PARE_INK_GREY},
                   words);
    put_charts(page, count, of);
    status = pare_page_finish(page, title, words, &out, err);
    pare_page_close(page);
    FILE *file = status == PARE_OK ? fopen(path, "w") : NULL;
    if (status == PARE_OK && (!file || fwrite(out.bytes, 1, out.length, file) != out.length))
        status = pare_fail(err, PARE_UNAVAILABLE, "'%s' cannot be written", path);
    if (file && fclose(file) != 0 && status == PARE_OK)
        status = pare_fail(err, PARE_UNAVAILABLE, "'%s' cannot be written", path);
    pare_text_free(&out);
    return status;
}
