/* outline.c: strokes of a drawing made into one outline with its holes (see outline.h).
 *
 * Curves become chords in pairs. Both ends of a pair lie on the curve; the corner between them is
 * moved off it, square to the chord over the pair, until the triangle has the very area that the
 * curve cuts off. So an area is right to rounding whatever the number of chords, and the errors that
 * are left in the moments fall with the fourth power of the step: 64 pairs a turn give 1e-7. Corners
 * on the curve would need 2600 a turn for an area right to 1e-6. Affine maps keep ratios of areas,
 * so this may be done before the map.
 *
 * Ends are found by cells as wide as the gap that is allowed: a partner is in the same cell or next
 * to it. Crossings are found by a sweep along x with the edges that are still open, and with a limit
 * on the work: plates have short edges, a hostile file need not.
 *
 * Anything that touches is refused, not only what crosses: a figure of eight may have a corner in
 * its waist, and a loop drawn twice lies on itself. So loops are either inside one another or apart
 * when they are told apart. */
#include "store/outline.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "base/grow.h"
#include "store/dxf.h"
#include "store/svg.h"

enum {
    MOST_POINTS = 200000,
    MOST_LOOPS = 2000,
    PAIRS_A_TURN = 64,
    MOST_CUBIC_PAIRS = 64,
};

#define MOST_COMPARED 100000000u
#define FURTHEST_M    100.0 /* of a point from the origin: beyond it places lose digits */
#define SMALLEST_M    1e-4
#define LARGEST_M     2.0 /* as for plates whose size is stated */

static const double pi = 3.14159265358979323846;

/* ---- drawing ---- */

static void add_point(pare_drawing *d, double x, double y)
{
    if (d->fault || d->strokes == 0)
        return;
    const double *m = d->map.m;
    const double at[2] = {m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]};
    pare_stroke *stroke = &d->stroke[d->strokes - 1];
    if (!(fabs(at[0]) <= FURTHEST_M && fabs(at[1]) <= FURTHEST_M)) {
        d->fault = PARE_DRAWN_NOWHERE;
        return;
    }
    if (stroke->count) {
        const double *last = d->at_m[d->points - 1];
        if (last[0] == at[0] && last[1] == at[1])
            return;
    }
    if (d->points == MOST_POINTS) {
        d->fault = PARE_DRAWN_TOO_MUCH;
        return;
    }
    double(*wider)[2] = pare_grown(d->arena, d->at_m, d->points, &d->points_size, sizeof *wider);
    if (!wider) {
        d->fault = PARE_DRAWN_NO_MEMORY;
        return;
    }
    d->at_m = wider;
    d->at_m[d->points][0] = at[0];
    d->at_m[d->points][1] = at[1];
    d->points++;
    stroke->count++;
}

void pare_draw_from(pare_drawing *d, double x, double y)
{
    if (d->fault)
        return;
    if (d->strokes == MOST_POINTS) {
        d->fault = PARE_DRAWN_TOO_MUCH;
        return;
    }
    pare_stroke *wider =
        pare_grown(d->arena, d->stroke, d->strokes, &d->strokes_size, sizeof *wider);
    if (!wider) {
        d->fault = PARE_DRAWN_NO_MEMORY;
        return;
    }
    d->stroke = wider;
    d->stroke[d->strokes++] = (pare_stroke){.from = d->points};
    add_point(d, x, y);
}

void pare_draw_line(pare_drawing *d, double x, double y)
{
    add_point(d, x, y);
}

void pare_draw_arc(pare_drawing *d, const double c[2], const double u[2], const double v[2],
                   double from_rad, double to_rad)
{
    const double whole = to_rad - from_rad;
    if (!(fabs(whole) <= 64 * pi)) {
        d->fault = d->fault ? d->fault : PARE_DRAWN_NOWHERE;
        return;
    }
    const int pairs = (int)fmax(1, ceil(fabs(whole) / (2 * pi) * PAIRS_A_TURN - 1e-9));
    const double half = whole / (2 * pairs);
    const double out = half != 0 ? half / sin(half) : 1; /* two triangles as large as the sector */
    for (int i = 1; i <= 2 * pairs; i++) {
        const double a = i == 2 * pairs ? to_rad : from_rad + i * half, r = i % 2 ? out : 1;
        add_point(d, c[0] + r * (u[0] * cos(a) + v[0] * sin(a)),
                  c[1] + r * (u[1] * cos(a) + v[1] * sin(a)));
    }
}

static double cross(const double a[2], const double b[2])
{
    return a[0] * b[1] - a[1] * b[0];
}

static void between(const double a[2], const double b[2], double share, double at[2])
{
    for (int k = 0; k < 2; k++)
        at[k] = a[k] + share * (b[k] - a[k]);
}

/* Cuts a curve in two (de Casteljau): `left` is what comes first. */
static void cut_cubic(const double p[4][2], double share, double left[4][2], double right[4][2])
{
    double middle[2];
    memcpy(left[0], p[0], sizeof left[0]);
    memcpy(right[3], p[3], sizeof right[3]);
    between(p[0], p[1], share, left[1]);
    between(p[1], p[2], share, middle);
    between(p[2], p[3], share, right[2]);
    between(left[1], middle, share, left[2]);
    between(middle, right[2], share, right[1]);
    between(left[2], right[1], share, left[3]);
    memcpy(right[0], left[3], sizeof right[0]);
}

/* A pair of chords for a piece of a curve. The area between a cubic and its chord, by Green's theorem
 * over the Bernstein polynomials, is 3/20 (2 a x b + 3 a x c + 2 b x c) with the legs a, b, c of
 * its control polygon. */
static void add_pair(pare_drawing *d, const double p[4][2])
{
    double a[2], b[2], c[2], chord[2], left[4][2], right[4][2];
    for (int k = 0; k < 2; k++) {
        a[k] = p[1][k] - p[0][k];
        b[k] = p[2][k] - p[1][k];
        c[k] = p[3][k] - p[2][k];
        chord[k] = p[3][k] - p[0][k];
    }
    cut_cubic(p, 0.5, left, right);
    double *corner = left[3];
    const double arm[2] = {corner[0] - p[0][0], corner[1] - p[0][1]};
    const double area = 3.0 / 20 * (2 * cross(a, b) + 3 * cross(a, c) + 2 * cross(b, c));
    const double square = chord[0] * chord[0] + chord[1] * chord[1];
    /* The triangle's is half of arm x chord; a curve that comes back to its start has none to mend. */
    const double lacks = 2 * area - cross(arm, chord);
    if (square > 0 && fabs(lacks) < square) {
        corner[0] += lacks / square * chord[1];
        corner[1] -= lacks / square * chord[0];
    }
    add_point(d, corner[0], corner[1]);
    add_point(d, p[3][0], p[3][1]);
}

void pare_draw_cubic(pare_drawing *d, const double p[4][2])
{
    double bend = 0, length = 0;
    for (int i = 0; i < 3; i++)
        length += hypot(p[i + 1][0] - p[i][0], p[i + 1][1] - p[i][1]);
    for (int i = 0; i < 2; i++)
        bend = fmax(bend, hypot(p[i][0] - 2 * p[i + 1][0] + p[i + 2][0],
                                p[i][1] - 2 * p[i + 1][1] + p[i + 2][1]));
    if (!isfinite(length)) {
        d->fault = d->fault ? d->fault : PARE_DRAWN_NOWHERE;
        return;
    }
    if (bend <= 1e-12 * length) { /* evenly along a straight line */
        add_point(d, p[3][0], p[3][1]);
        return;
    }
    const int pairs = (int)fmin(MOST_CUBIC_PAIRS, ceil(MOST_CUBIC_PAIRS * sqrt(bend / length)));
    double rest[4][2], piece[4][2];
    memcpy(rest, p, sizeof rest);
    for (int i = 0; i < pairs; i++) {
        double after[4][2];
        cut_cubic((const double(*)[2])rest, 1.0 / (pairs - i), piece, after);
        add_pair(d, (const double(*)[2])piece);
        memcpy(rest, after, sizeof rest);
    }
}

static double apart(const double a[2], const double b[2])
{
    return hypot(a[0] - b[0], a[1] - b[1]);
}

/* No longer than what ends may be apart: to join it would be to guess which of its ends is which. */
static bool is_speck(const pare_drawing *d, const pare_stroke *stroke)
{
    double length = 0;
    for (size_t i = 1; i < stroke->count && length <= PARE_OUTLINE_GAP_M; i++)
        length += apart(d->at_m[stroke->from + i - 1], d->at_m[stroke->from + i]);
    return length <= PARE_OUTLINE_GAP_M;
}

void pare_draw_end(pare_drawing *d, bool closed)
{
    if (d->fault || d->strokes == 0)
        return;
    pare_stroke *stroke = &d->stroke[d->strokes - 1];
    if (is_speck(d, stroke)) {
        d->points = stroke->from;
        d->strokes--;
        return;
    }
    stroke->closed = closed;
}

/* ---- joining ---- */

/* What is being made of a drawing. */
typedef struct work {
    const char *name;
    pare_arena *arena;
    const pare_drawing *drawing;
    size_t loops, points;
    pare_outline *loop;
    double (*at_m)[2]; /* of all loops, one after the other */
} work;

typedef struct end_point {
    double cell[2];
    const double *at_m;
    size_t number; /* 2 x stroke, + 1 at its far end */
} end_point;

static int by_cell(const void *a, const void *b)
{
    const end_point *one = a, *two = b;
    for (int k = 0; k < 2; k++)
        if (one->cell[k] != two->cell[k])
            return one->cell[k] < two->cell[k] ? -1 : 1;
    return 0;
}

/* The first entry that is not before a cell. */
static size_t first_of(const end_point *ends, size_t count, double x, double y)
{
    size_t low = 0, high = count;
    const end_point sought = {.cell = {x, y}};
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (by_cell(&ends[middle], &sought) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

static pare_status refuse_meeting(const work *w, const double at[2], pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA,
                     "%s: three or more lines end at (%.6g, %.6g) mm; right would be two, and no "
                     "line drawn twice",
                     w->name, 1e3 * at[0], 1e3 * at[1]);
}

static pare_status refuse_open(const work *w, const end_point *ends, size_t count,
                               const end_point *end, pare_error *err)
{
    double nearest = INFINITY;
    const double *there = NULL;
    for (size_t i = 0; i < count; i++)
        if (ends[i].number != end->number && apart(ends[i].at_m, end->at_m) < nearest) {
            nearest = apart(ends[i].at_m, end->at_m);
            there = ends[i].at_m;
        }
    if (!there)
        there = end->at_m;
    return pare_fail(
        err, PARE_BAD_DATA,
        "%s: the outline is open at (%.6g, %.6g) mm, the next end is at (%.6g, %.6g) mm; "
        "right would be closed loops, ends within %g mm",
        w->name, 1e3 * end->at_m[0], 1e3 * end->at_m[1], 1e3 * there[0], 1e3 * there[1],
        1e3 * PARE_OUTLINE_GAP_M);
}

/* For each end of an open stroke the one end that it joins. */
static pare_status find_partners(const work *w, size_t partner[], pare_error *err)
{
    const pare_drawing *d = w->drawing;
    end_point *ends = pare_arena_array(w->arena, 2 * d->strokes, sizeof *ends);
    if (!ends)
        return pare_no_memory(err);
    size_t count = 0;
    for (size_t i = 0; i < 2 * d->strokes; i++) {
        const pare_stroke *stroke = &d->stroke[i / 2];
        if (stroke->closed)
            continue;
        const double *at = d->at_m[stroke->from + (i % 2 ? stroke->count - 1 : 0)];
        ends[count++] = (end_point){
            {floor(at[0] / PARE_OUTLINE_GAP_M), floor(at[1] / PARE_OUTLINE_GAP_M)}, at, i};
    }
    qsort(ends, count, sizeof *ends, by_cell);
    for (size_t i = 0; i < count; i++) {
        size_t found = 0;
        for (int column = -1; column <= 1; column++) {
            const double x = ends[i].cell[0] + column, y = ends[i].cell[1];
            for (size_t k = first_of(ends, count, x, y - 1);
                 k < count && ends[k].cell[0] == x && ends[k].cell[1] <= y + 1; k++) {
                if (k == i || apart(ends[k].at_m, ends[i].at_m) > PARE_OUTLINE_GAP_M)
                    continue;
                partner[ends[i].number] = ends[k].number;
                if (++found > 1)
                    return refuse_meeting(w, ends[i].at_m, err);
            }
        }
        if (!found)
            return refuse_open(w, ends, count, &ends[i], err);
    }
    /* a is near b alone, b near a and c: c would have seen b, and b has seen two. */
    return PARE_OK;
}

/* Adds a stroke to the loop under way, without the point where it joins what is there. */
static void take_stroke(work *w, size_t stroke, bool backwards, bool joins)
{
    const pare_stroke *s = &w->drawing->stroke[stroke];
    for (size_t i = joins ? 1 : 0; i < s->count; i++)
        memcpy(w->at_m[w->points++], w->drawing->at_m[s->from + (backwards ? s->count - 1 - i : i)],
               sizeof *w->at_m);
}

static pare_status end_loop(work *w, size_t from, pare_error *err)
{
    if (w->points - from > 1 && apart(w->at_m[from], w->at_m[w->points - 1]) <= PARE_OUTLINE_GAP_M)
        w->points--;
    if (w->points - from < 3)
        return pare_fail(
            err, PARE_BAD_DATA,
            "%s: a loop at (%.6g, %.6g) mm encloses no area; right would be an outline "
            "of three sides or more",
            w->name, 1e3 * w->at_m[from][0], 1e3 * w->at_m[from][1]);
    if (w->loops == MOST_LOOPS)
        return pare_fail(err, PARE_BAD_DATA, "%s: over %d loops; right would be one plate", w->name,
                         MOST_LOOPS);
    w->loop[w->loops++] = (pare_outline){w->points - from, (const double(*)[2])(w->at_m + from)};
    return PARE_OK;
}

static pare_status join(work *w, pare_error *err)
{
    const pare_drawing *d = w->drawing;
    size_t *partner = pare_arena_array(w->arena, 2 * d->strokes, sizeof *partner);
    bool *taken = pare_arena_array(w->arena, d->strokes, sizeof *taken);
    w->loop = pare_arena_array(w->arena, MOST_LOOPS, sizeof *w->loop);
    w->at_m = pare_arena_array(w->arena, d->points, sizeof *w->at_m);
    if (!partner || !taken || !w->loop || !w->at_m)
        return pare_no_memory(err);
    pare_status status = find_partners(w, partner, err);
    for (size_t i = 0; i < d->strokes && status == PARE_OK; i++) {
        if (taken[i])
            continue;
        const size_t from = w->points;
        size_t number = 2 * i; /* the end at which we enter a stroke */
        do {
            taken[number / 2] = true;
            take_stroke(w, number / 2, number % 2, w->points > from);
            if (d->stroke[number / 2].closed)
                break;
            number = partner[number ^ 1];
        } while (!taken[number / 2]);
        status = end_loop(w, from, err);
    }
    return status;
}

/* ---- what crosses ---- */

typedef struct edge {
    const double *p, *q;
    double low[2], high[2];
    size_t loop, number, sides;
} edge;

static int by_low_x(const void *a, const void *b)
{
    const edge *one = a, *two = b;
    return (one->low[0] > two->low[0]) - (one->low[0] < two->low[0]);
}

static double side(const double a[2], const double b[2], const double c[2])
{
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

static bool meet(const edge *a, const edge *b)
{
    const double p = side(a->p, a->q, b->p), q = side(a->p, a->q, b->q);
    const double r = side(b->p, b->q, a->p), s = side(b->p, b->q, a->q);
    if ((p > 0 && q > 0) || (p < 0 && q < 0) || (r > 0 && s > 0) || (r < 0 && s < 0))
        return false;
    return a->low[0] <= b->high[0] && b->low[0] <= a->high[0] && a->low[1] <= b->high[1] &&
           b->low[1] <= a->high[1];
}

static bool neighbours(const edge *a, const edge *b)
{
    if (a->loop != b->loop)
        return false;
    const size_t gap = a->number > b->number ? a->number - b->number : b->number - a->number;
    return gap == 1 || gap == a->sides - 1;
}

static pare_status refuse_crossing(const work *w, const edge *a, const edge *b, pare_error *err)
{
    /* Where they cross, or, for edges that lie on each other, the middle of what they share. */
    double at[2];
    const double turn =
        (a->q[0] - a->p[0]) * (b->q[1] - b->p[1]) - (a->q[1] - a->p[1]) * (b->q[0] - b->p[0]);
    const double share = turn != 0 ? side(b->p, b->q, a->p) / turn : 0;
    for (int k = 0; k < 2; k++)
        at[k] = turn != 0 ? a->p[k] + share * (a->q[k] - a->p[k])
                          : (fmax(a->low[k], b->low[k]) + fmin(a->high[k], b->high[k])) / 2;
    return pare_fail(err, PARE_BAD_DATA,
                     "%s: %s near (%.6g, %.6g) mm; right would be loops that neither cross nor "
                     "touch, each drawn once",
                     w->name,
                     a->loop == b->loop ? "the outline crosses itself"
                                        : "two loops of the outline cross",
                     1e3 * at[0], 1e3 * at[1]);
}

static size_t list_edges(const work *w, edge edges[])
{
    size_t n = 0;
    for (size_t k = 0; k < w->loops; k++)
        for (size_t i = 0; i < w->loop[k].points; i++) {
            const double *p = w->loop[k].at_m[i], *q = w->loop[k].at_m[(i + 1) % w->loop[k].points];
            edges[n++] = (edge){.p = p,
                                .q = q,
                                .low = {fmin(p[0], q[0]), fmin(p[1], q[1])},
                                .high = {fmax(p[0], q[0]), fmax(p[1], q[1])},
                                .loop = k,
                                .number = i,
                                .sides = w->loop[k].points};
        }
    return n;
}

static pare_status check_crossings(const work *w, pare_error *err)
{
    edge *edges = pare_arena_array(w->arena, w->points, sizeof *edges);
    const edge **open = pare_arena_array(w->arena, w->points, sizeof *open);
    if (!edges || !open)
        return pare_no_memory(err);
    const size_t count = list_edges(w, edges);
    qsort(edges, count, sizeof *edges, by_low_x);
    size_t opened = 0, compared = 0;
    for (size_t i = 0; i < count; i++) {
        const edge *one = &edges[i];
        compared += opened;
        if (compared > MOST_COMPARED)
            return pare_fail(err, PARE_BAD_DATA,
                             "%s: too many long lines side by side to look for crossings; right "
                             "would be a simpler outline",
                             w->name);
        for (size_t k = 0; k < opened;) {
            if (open[k]->high[0] < one->low[0]) {
                open[k] = open[--opened];
                continue;
            }
            if (!neighbours(one, open[k]) && meet(one, open[k]))
                return refuse_crossing(w, one, open[k], err);
            k++;
        }
        open[opened++] = one;
    }
    return PARE_OK;
}

/* ---- outer loop and holes ---- */

static bool holds(const pare_outline *outline, const double at[2])
{
    bool in = false;
    for (size_t i = 0; i < outline->points; i++) {
        const double *p = outline->at_m[i], *q = outline->at_m[(i + 1) % outline->points];
        if ((p[1] > at[1]) != (q[1] > at[1]) &&
            at[0] < p[0] + (at[1] - p[1]) / (q[1] - p[1]) * (q[0] - p[0]))
            in = !in;
    }
    return in;
}

static pare_status check_nesting(const work *w, size_t outer, pare_error *err)
{
    for (size_t k = 0; k < w->loops; k++) {
        const double *at = w->loop[k].at_m[0];
        if (k != outer && !holds(&w->loop[outer], at))
            return pare_fail(err, PARE_BAD_DATA,
                             "%s: a second plate beside the first, at (%.6g, %.6g) mm; right would "
                             "be one outline with its holes",
                             w->name, 1e3 * at[0], 1e3 * at[1]);
        for (size_t i = 0; k != outer && i < w->loops; i++)
            if (i != outer && i != k && holds(&w->loop[i], at))
                return pare_fail(err, PARE_BAD_DATA,
                                 "%s: a loop within a hole, at (%.6g, %.6g) mm; right would be one "
                                 "outline with its holes",
                                 w->name, 1e3 * at[0], 1e3 * at[1]);
    }
    return PARE_OK;
}

static void take_box(const pare_outline *outline, pare_outline_facts *facts)
{
    for (int k = 0; k < 2; k++) {
        facts->low_m[k] = INFINITY;
        facts->high_m[k] = -INFINITY;
        for (size_t i = 0; i < outline->points; i++) {
            facts->low_m[k] = fmin(facts->low_m[k], outline->at_m[i][k]);
            facts->high_m[k] = fmax(facts->high_m[k], outline->at_m[i][k]);
        }
    }
}

static double edge_length(const pare_outline *outline)
{
    double length = 0;
    for (size_t i = 0; i < outline->points; i++)
        length += apart(outline->at_m[i], outline->at_m[(i + 1) % outline->points]);
    return length;
}

static pare_status check_size(const work *w, const pare_outline_facts *facts, pare_error *err)
{
    const double x = facts->high_m[0] - facts->low_m[0], y = facts->high_m[1] - facts->low_m[1];
    if (x >= SMALLEST_M && x <= LARGEST_M && y >= SMALLEST_M && y <= LARGEST_M)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA,
                     "%s: the outline is %.4g x %.4g mm; right would be %g .. %g mm (does the file "
                     "state its unit?)",
                     w->name, 1e3 * x, 1e3 * y, 1e3 * SMALLEST_M, 1e3 * LARGEST_M);
}

/* Each loop as a plate of 1 kg/m2, the holes' taken away. */
static pare_status add_up(const work *w, size_t outer, const pare_body plates[],
                          pare_outline_facts *facts, pare_error *err)
{
    pare_body *bodies = pare_arena_array(w->arena, w->loops, sizeof *bodies);
    if (!bodies)
        return pare_no_memory(err);
    for (size_t k = 0; k < w->loops; k++) {
        bodies[k] = plates[k];
        if (k != outer) {
            bodies[k].mass_kg = -plates[k].mass_kg;
            bodies[k].inertia_kg_m2 = pare_sym3_times(-1, plates[k].inertia_kg_m2);
        }
        facts->edge_m += edge_length(&w->loop[k]);
    }
    const pare_body sum = pare_body_sum(w->loops, bodies);
    facts->area_m2 = sum.mass_kg;
    facts->centre_m[0] = sum.at_m.x;
    facts->centre_m[1] = sum.at_m.y;
    facts->xx_m4 = sum.inertia_kg_m2.yy;
    facts->yy_m4 = sum.inertia_kg_m2.xx;
    facts->xy_m4 = -sum.inertia_kg_m2.xy;
    facts->holes = w->loops - 1;
    if (!(facts->area_m2 > 0 && facts->xx_m4 > 0 && facts->yy_m4 > 0))
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: the holes leave nothing of the plate; right would be smaller ones",
                         w->name);
    return PARE_OK;
}

static pare_status keep_loops(const work *w, size_t outer, pare_loops *keep, pare_error *err)
{
    pare_outline *loop = pare_arena_array(keep->arena, w->loops, sizeof *loop);
    double(*at_m)[2] = pare_arena_array(keep->arena, w->points, sizeof *at_m);
    if (!loop || !at_m)
        return pare_no_memory(err);
    for (size_t k = 0; k < w->loops; k++) {
        const size_t from = k == 0 ? outer : k <= outer ? k - 1 : k;
        memcpy(at_m, w->loop[from].at_m, w->loop[from].points * sizeof *at_m);
        loop[k] = (pare_outline){w->loop[from].points, (const double(*)[2])at_m};
        at_m += w->loop[from].points;
    }
    keep->count = w->loops;
    keep->loop = loop;
    return PARE_OK;
}

#define SHEET_M 1e-9 /* so thin that its own thickness adds nothing to its inertia */

static pare_status measure(work *w, pare_outline_facts *facts, pare_error *err)
{
    pare_status status = join(w, err);
    if (status != PARE_OK)
        return status;
    if (w->loops == 0)
        return pare_fail(err, PARE_BAD_DATA, "%s: no outline in it; right would be closed lines",
                         w->name);
    pare_body *plates = pare_arena_array(w->arena, w->loops, sizeof *plates);
    if (!plates)
        return pare_no_memory(err);
    size_t outer = 0;
    double widest = -1;
    for (size_t k = 0; k < w->loops; k++) {
        pare_outline_facts box;
        take_box(&w->loop[k], &box);
        const double across = hypot(box.high_m[0] - box.low_m[0], box.high_m[1] - box.low_m[1]);
        if (across > widest) {
            widest = across;
            outer = k;
        }
    }
    take_box(&w->loop[outer], facts);
    status = check_size(w, facts, err);
    if (status == PARE_OK)
        status = check_crossings(w, err);
    for (size_t k = 0; k < w->loops && status == PARE_OK; k++)
        if (pare_plate(&w->loop[k], 0, NULL, SHEET_M, 1 / SHEET_M, &plates[k], err) != PARE_OK)
            status = pare_within(err, "%s", w->name);
    if (status == PARE_OK)
        status = check_nesting(w, outer, err);
    if (status == PARE_OK)
        status = add_up(w, outer, plates, facts, err);
    if (status == PARE_OK && w->drawing->keep)
        status = keep_loops(w, outer, w->drawing->keep, err);
    return status;
}

pare_status pare_drawing_measure(const char *name, const pare_drawing *drawing,
                                 pare_outline_facts *facts, pare_error *err)
{
    pare_outline_facts found = {0};
    work w = {.name = name, .arena = drawing->arena, .drawing = drawing};
    switch (drawing->fault) {
    case PARE_DRAWN:
        break;
    case PARE_DRAWN_NO_MEMORY:
        return pare_no_memory(err);
    case PARE_DRAWN_TOO_MUCH:
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: over %d points; right would be the outline of one plate", name,
                         MOST_POINTS);
    case PARE_DRAWN_NOWHERE:
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: a place that is no number or over %g m from the origin; right would "
                         "be a plate near the drawing's origin",
                         name, FURTHEST_M);
    }
    const pare_status status = measure(&w, &found, err);
    if (status == PARE_OK)
        *facts = found;
    return status;
}

pare_mesh_facts pare_outline_thick(const pare_outline_facts *f, double thick_m, bool from_middle)
{
    const double along = f->area_m2 * thick_m * thick_m / 12;
    const double x = from_middle ? -(f->low_m[0] + f->high_m[0]) / 2 : 0,
                 y = from_middle ? -(f->low_m[1] + f->high_m[1]) / 2 : 0;
    return (pare_mesh_facts){
        .volume_m3 = f->area_m2 * thick_m,
        .area_m2 = 2 * f->area_m2 + f->edge_m * thick_m,
        .centre_m = {f->centre_m[0] + x, f->centre_m[1] + y, 0},
        .inertia_m5 = {.xx = thick_m * (f->yy_m4 + along),
                       .yy = thick_m * (f->xx_m4 + along),
                       .zz = thick_m * (f->xx_m4 + f->yy_m4),
                       .xy = -thick_m * f->xy_m4},
        .low_m = {f->low_m[0] + x, f->low_m[1] + y, -thick_m / 2},
        .high_m = {f->high_m[0] + x, f->high_m[1] + y, thick_m / 2},
    };
}

bool pare_name_ends(const char *name, const char *ending)
{
    const size_t length = strlen(name), end = strlen(ending);
    return length > end && strcasecmp(name + length - end, ending) == 0;
}

pare_status pare_outline_measure(const char *name, const char *bytes, size_t length,
                                 pare_loops *keep, pare_outline_facts *facts, pare_error *err)
{
    if (pare_name_ends(name, ".dxf"))
        return pare_dxf_measure(name, bytes, length, keep, facts, err);
    if (pare_name_ends(name, ".svg"))
        return pare_svg_measure(name, bytes, length, keep, facts, err);
    return pare_fail(err, PARE_BAD_DATA,
                     "%.80s: no kind of drawing that is known; right would be an outline in a .dxf "
                     "or .svg file",
                     name);
}
