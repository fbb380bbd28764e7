/* plot.c: pictures of measured and predicted values (see plot.h), drawn by cairo.
 *
 * They are kept beside the text that they illustrate, so they must be small and the same bytes for the
 * same data: a dot is a line of no length with a round end, all dots of a class are one path, and a
 * dot that would fall on another of its class is left out. The errors in the key are of all points. */
#include "plot.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include <cairo-svg.h>

#define WIDTH  560.0
#define HEIGHT 592.0
#define LEFT   74.0
#define RIGHT  22.0
#define TOP    66.0
#define BOTTOM 62.0
#define DOT    3.4
#define BAND   0.10

#define STEP 4.0 /* places on the page are whole quarters of a point: fewer digits */

/* Squares of which each holds one dot of a class: of four points for a cloud, of six for a run, whose
 * line is to be seen. */
#define CLOUD_CELL 4.0
#define RUN_CELL   6.0
enum { CELLS_ACROSS = (int)(WIDTH / CLOUD_CELL) + 1, CELLS_DOWN = (int)(HEIGHT / CLOUD_CELL) + 1 };

typedef struct axis {
    double low, high; /* of the values, or of their logarithms */
    double from, to;  /* on the page */
    bool log;
} axis;

typedef struct page {
    char path[4096];
    cairo_surface_t *surface;
    cairo_t *cairo;
    axis x, y;
} page;

typedef struct colour {
    double red, green, blue;
} colour;

/* Told apart by people who see few colours: Okabe and Ito, Color Universal Design, 2008 (values from
 * memory), the yellow made darker. */
static const colour colours[FIT_PLOT_CLASSES] = {
    {0.00, 0.45, 0.70}, {0.84, 0.37, 0.00}, {0.00, 0.62, 0.45}, {0.80, 0.47, 0.65},
    {0.34, 0.71, 0.91}, {0.90, 0.62, 0.00}, {0.45, 0.45, 0.45}, {0.55, 0.50, 0.00}};

static void ink(cairo_t *cairo, colour c)
{
    cairo_set_source_rgb(cairo, c.red, c.green, c.blue);
}

static void grey(cairo_t *cairo, double shade)
{
    cairo_set_source_rgb(cairo, shade, shade, shade);
}

static double on_page(const axis *a, double value)
{
    const double v = a->log ? log10(value) : value;
    return round(STEP * (a->from + (a->to - a->from) * (v - a->low) / (a->high - a->low))) / STEP;
}

/* ---- text ---- */

typedef enum anchor { AT_LEFT, AT_MIDDLE, AT_RIGHT } anchor;

static void say(cairo_t *cairo, double x, double y, double size, anchor where, const char *text)
{
    cairo_text_extents_t extents;
    cairo_set_font_size(cairo, size);
    cairo_text_extents(cairo, text, &extents);
    const double share = where == AT_LEFT ? 0 : where == AT_MIDDLE ? 0.5 : 1;
    cairo_move_to(cairo, x - share * extents.x_advance, y);
    cairo_show_text(cairo, text);
}

static void say_upwards(cairo_t *cairo, double x, double y, double size, const char *text)
{
    cairo_save(cairo);
    cairo_translate(cairo, x, y);
    cairo_rotate(cairo, -1.57079632679489662);
    say(cairo, 0, 0, size, AT_MIDDLE, text);
    cairo_restore(cairo);
}

/* ---- axes ---- */

static void tick(page *p, bool across, double value)
{
    const axis *a = across ? &p->x : &p->y;
    const double at = round(on_page(a, value)) + 0.5;
    char text[32];
    grey(p->cairo, 0.88);
    cairo_set_line_width(p->cairo, 1);
    cairo_move_to(p->cairo, across ? at : p->x.from, across ? p->y.from : at);
    cairo_line_to(p->cairo, across ? at : p->x.to, across ? p->y.to : at);
    cairo_stroke(p->cairo);
    snprintf(text, sizeof text, "%.6g", value);
    grey(p->cairo, 0.2);
    if (across)
        say(p->cairo, at, p->y.from + 18, 12, AT_MIDDLE, text);
    else
        say(p->cairo, p->x.from - 8, at + 4, 12, AT_RIGHT, text);
}

static void tick_powers(page *p, bool across)
{
    static const double of_ten[] = {1, 2, 5, 3, 7}; /* the last two where there is room */
    const axis *a = across ? &p->x : &p->y;
    const int count = a->high - a->low > 1.3 ? 3 : 5;
    for (int power = (int)floor(a->low); power <= (int)ceil(a->high); power++)
        for (int i = 0; i < count; i++) {
            const double value = of_ten[i] * pow(10, power);
            if (log10(value) >= a->low && log10(value) <= a->high)
                tick(p, across, value);
        }
}

static void ticks(page *p, bool across)
{
    const axis *a = across ? &p->x : &p->y;
    if (a->log) {
        tick_powers(p, across);
        return;
    }
    const double rough = (a->high - a->low) / 6, power = pow(10, floor(log10(rough)));
    const double step = power * (rough / power > 5   ? 10
                                 : rough / power > 2 ? 5
                                 : rough / power > 1 ? 2
                                                     : 1);
    for (double i = ceil(a->low / step); i * step <= a->high + 1e-9 * step; i++)
        tick(p, across, i == 0 ? 0 : i * step);
}

static void frame(page *p, const fit_plot *plot, const char *x_label, const char *y_label)
{
    cairo_t *cairo = p->cairo;
    grey(cairo, 1);
    cairo_paint(cairo);
    cairo_select_font_face(cairo, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
    ticks(p, true);
    ticks(p, false);
    grey(cairo, 0.1);
    say(cairo, LEFT, 28, 16, AT_LEFT, plot->title);
    if (plot->note) {
        grey(cairo, 0.35);
        say(cairo, LEFT, 49, 12, AT_LEFT, plot->note);
    }
    grey(cairo, 0.1);
    say(cairo, (p->x.from + p->x.to) / 2, HEIGHT - 16, 13, AT_MIDDLE, x_label);
    say_upwards(cairo, 20, (p->y.from + p->y.to) / 2, 13, y_label);
}

static void border(page *p)
{
    grey(p->cairo, 0.4);
    cairo_set_line_width(p->cairo, 1);
    cairo_rectangle(p->cairo, p->x.from + 0.5, p->y.to + 0.5, p->x.to - p->x.from,
                    p->y.from - p->y.to);
    cairo_stroke(p->cairo);
}

static void open_page(page *p, const char *folder, const char *name)
{
    snprintf(p->path, sizeof p->path, "%s/%s.svg", folder, name);
    p->x.from = LEFT;
    p->x.to = WIDTH - RIGHT;
    p->y.from = HEIGHT - BOTTOM;
    p->y.to = TOP;
    p->surface = cairo_svg_surface_create(p->path, WIDTH, HEIGHT);
    p->cairo = cairo_create(p->surface);
    cairo_set_line_cap(p->cairo, CAIRO_LINE_CAP_ROUND);
}

static bool close_page(page *p)
{
    cairo_destroy(p->cairo);
    cairo_surface_finish(p->surface);
    const cairo_status_t status = cairo_surface_status(p->surface);
    cairo_surface_destroy(p->surface);
    if (status == CAIRO_STATUS_SUCCESS)
        return true;
    fprintf(stderr, "%s: %s\n", p->path, cairo_status_to_string(status));
    return false;
}

/* ---- points ---- */

static unsigned kind_of(const fit_plot *plot, size_t i)
{
    return plot->kind ? plot->kind[i] : 0;
}

static bool shown(const fit_plot *plot, size_t i)
{
    return plot->x ? isfinite(plot->x[i]) && isfinite(plot->measured[i])
                   : plot->measured[i] > 0 && plot->predicted[i] > 0 &&
                         isfinite(plot->measured[i]) && isfinite(plot->predicted[i]);
}

/* Whether no dot of this class stands here yet. */
static bool claim(unsigned char *taken, double cell, double x, double y)
{
    if (!(x >= 0 && x < WIDTH && y >= 0 && y < HEIGHT))
        return false;
    unsigned char *here = taken + (size_t)(y / cell) * CELLS_ACROSS + (size_t)(x / cell);
    const bool was_free = *here == 0;
    *here = 1;
    return was_free;
}

static bool dots(page *p, const fit_plot *plot, unsigned kind, double cell, const double x[],
                 const double y[])
{
    unsigned char *taken = calloc(CELLS_ACROSS, CELLS_DOWN);
    if (!taken)
        return false;
    for (size_t i = 0; i < plot->count; i++) {
        if (kind_of(plot, i) != kind || !shown(plot, i))
            continue;
        const double at_x = on_page(&p->x, x[i]), at_y = on_page(&p->y, y[i]);
        if (!claim(taken, cell, at_x, at_y))
            continue;
        cairo_move_to(p->cairo, at_x, at_y);
        cairo_line_to(p->cairo, at_x, at_y);
    }
    free(taken);
    ink(p->cairo, colours[kind]);
    cairo_set_line_width(p->cairo, DOT);
    cairo_stroke(p->cairo);
    return true;
}

/* ---- the key ---- */

static int rising(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* "name (n): median and 90th percentile" of a class. */
static bool key_text(const fit_plot *plot, unsigned kind, bool relative, char text[], size_t room)
{
    double *error = malloc((plot->count + 1) * sizeof *error);
    size_t n = 0;
    if (!error)
        return false;
    for (size_t i = 0; i < plot->count; i++)
        if (kind_of(plot, i) == kind && shown(plot, i))
            error[n++] = fabs(plot->predicted[i] / (relative ? plot->measured[i] : 1) -
                              (relative ? 1 : plot->measured[i]));
    qsort(error, n, sizeof *error, rising);
    if (n > 0 && relative)
        snprintf(text, room, "%s: %.1f %%, %.0f %%", plot->kind_name[kind], 100 * error[n / 2],
                 100 * error[(size_t)(0.9 * (double)n)]);
    else
        snprintf(text, room, "%s", plot->kind_name[kind]);
    free(error);
    return n > 0;
}

static void key(page *p, const fit_plot *plot, bool relative, double x, double y)
{
    const double step = 18;
    if (relative) {
        grey(p->cairo, 0.35);
        say(p->cairo, x, y, 11, AT_LEFT, "error, median and 90th percentile; band: 10 %");
        y += step;
    }
    for (unsigned kind = 0; kind < plot->kinds; kind++) {
        char text[160];
        if (!key_text(plot, kind, relative, text, sizeof text))
            continue;
        ink(p->cairo, colours[kind]);
        cairo_set_line_width(p->cairo, 8);
        cairo_move_to(p->cairo, x + 5, y - 4);
        cairo_line_to(p->cairo, x + 5, y - 4);
        cairo_stroke(p->cairo);
        grey(p->cairo, 0.15);
        say(p->cairo, x + 15, y, 12, AT_LEFT, text);
        y += step;
    }
}

static size_t kinds_shown(const fit_plot *plot)
{
    bool seen[FIT_PLOT_CLASSES] = {false};
    size_t count = 0;
    for (size_t i = 0; i < plot->count; i++)
        if (shown(plot, i) && kind_of(plot, i) < plot->kinds && !seen[kind_of(plot, i)]) {
            seen[kind_of(plot, i)] = true;
            count++;
        }
    return count;
}

static bool none(const char *name)
{
    fprintf(stderr, "%s.svg: there is no point to draw\n", name);
    return false;
}

/* ---- what callers ask ---- */

static bool grow(double **values, size_t room)
{
    double *grown = realloc(*values, room * sizeof *grown);
    if (grown)
        *values = grown;
    return grown != NULL;
}

static bool make_room(fit_points *points)
{
    const size_t room = points->room ? 2 * points->room : 256;
    unsigned *kind = realloc(points->kind, room * sizeof *kind);
    if (!kind)
        return false;
    points->kind = kind;
    if (!grow(&points->x, room) || !grow(&points->measured, room) ||
        !grow(&points->predicted, room))
        return false;
    points->room = room;
    return true;
}

void fit_points_add(fit_points *points, double x, double measured, double predicted, unsigned kind)
{
    if (points->count == points->room && !make_room(points)) {
        points->lost = true;
        return;
    }
    points->x[points->count] = x;
    points->measured[points->count] = measured;
    points->predicted[points->count] = predicted;
    points->kind[points->count++] = kind;
}

void fit_points_free(fit_points *points)
{
    free(points->x);
    free(points->measured);
    free(points->predicted);
    free(points->kind);
    *points = (fit_points){0};
}

static void equal_line(page *p)
{
    cairo_t *cairo = p->cairo;
    const double low = pow(10, p->x.low), high = pow(10, p->x.high);
    cairo_save(cairo);
    cairo_rectangle(cairo, p->x.from, p->y.to, p->x.to - p->x.from, p->y.from - p->y.to);
    cairo_clip(cairo);
    cairo_move_to(cairo, on_page(&p->x, low), on_page(&p->y, low * (1 - BAND)));
    cairo_line_to(cairo, on_page(&p->x, high), on_page(&p->y, high * (1 - BAND)));
    cairo_line_to(cairo, on_page(&p->x, high), on_page(&p->y, high * (1 + BAND)));
    cairo_line_to(cairo, on_page(&p->x, low), on_page(&p->y, low * (1 + BAND)));
    cairo_close_path(cairo);
    cairo_set_source_rgba(cairo, 0.5, 0.5, 0.5, 0.25);
    cairo_fill(cairo);
    cairo_move_to(cairo, on_page(&p->x, low), on_page(&p->y, low));
    cairo_line_to(cairo, on_page(&p->x, high), on_page(&p->y, high));
    grey(cairo, 0.3);
    cairo_set_line_width(cairo, 1.2);
    cairo_stroke(cairo);
    cairo_restore(cairo);
}

bool fit_plot_agreement(const char *folder, const char *name, const fit_plot *plot)
{
    double low = INFINITY, high = 0;
    for (size_t i = 0; i < plot->count; i++)
        if (shown(plot, i)) {
            low = fmin(low, fmin(plot->measured[i], plot->predicted[i]));
            high = fmax(high, fmax(plot->measured[i], plot->predicted[i]));
        }
    if (!(high > 0))
        return none(name);
    const axis both = {.low = log10(low) - 0.03, .high = log10(high) + 0.03, .log = true};
    page p = {.x = both, .y = both};
    char measured[128], predicted[128];
    snprintf(measured, sizeof measured, "%s, measured", plot->quantity);
    snprintf(predicted, sizeof predicted, "%s, predicted", plot->quantity);
    bool fine = true;
    open_page(&p, folder, name);
    frame(&p, plot, measured, predicted);
    equal_line(&p);
    for (unsigned kind = 0; kind < plot->kinds; kind++)
        fine = dots(&p, plot, kind, CLOUD_CELL, plot->measured, plot->predicted) && fine;
    border(&p);
    key(&p, plot, true, p.x.from + 14, p.y.to + 22);
    return close_page(&p) && fine;
}

/* Through all predictions, but none so near the last that it could not be seen. */
static void line(page *p, const fit_plot *plot, unsigned kind)
{
    bool begun = false;
    double last_x = 0, last_y = 0;
    for (size_t i = 0; i < plot->count; i++) {
        if (kind_of(plot, i) != kind || !isfinite(plot->x[i]) || !isfinite(plot->predicted[i]))
            continue;
        const double x = on_page(&p->x, plot->x[i]), y = on_page(&p->y, plot->predicted[i]);
        if (begun && hypot(x - last_x, y - last_y) < 2)
            continue;
        if (begun)
            cairo_line_to(p->cairo, x, y);
        else
            cairo_move_to(p->cairo, x, y);
        begun = true;
        last_x = x;
        last_y = y;
    }
    ink(p->cairo, colours[kind]);
    cairo_set_line_width(p->cairo, 1.3);
    cairo_stroke(p->cairo);
}

static axis around(double low, double high)
{
    const double margin = high > low ? 0.04 * (high - low) : 1;
    return (axis){.low = low - margin, .high = high + margin};
}

bool fit_plot_runs(const char *folder, const char *name, const fit_plot *plot)
{
    double left = INFINITY, right = -INFINITY, low = INFINITY, high = -INFINITY;
    for (size_t i = 0; i < plot->count; i++)
        if (shown(plot, i)) {
            left = fmin(left, plot->x[i]);
            right = fmax(right, plot->x[i]);
            low = fmin(low, fmin(plot->measured[i], plot->predicted[i]));
            high = fmax(high, fmax(plot->measured[i], plot->predicted[i]));
        }
    if (!(right >= left))
        return none(name);
    page p = {.x = around(left, right), .y = around(low, high)};
    bool fine = true;
    open_page(&p, folder, name);
    frame(&p, plot, plot->x_label, plot->quantity);
    for (unsigned kind = 0; kind < plot->kinds; kind++) {
        fine = dots(&p, plot, kind, RUN_CELL, plot->x, plot->measured) && fine;
        line(&p, plot, kind);
    }
    border(&p);
    key(&p, plot, false, p.x.from + 14, p.y.from - 14 - 18 * (double)(kinds_shown(plot) - 1));
    return close_page(&p) && fine;
}
