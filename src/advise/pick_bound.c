/* pick_bound.c: what the classes that are not chosen yet can reach at best (see pick_inside.h).
 *
 * The relaxed question lets each class mix its options, at one limit, on the second number (money).
 * Its answer walks down the lower hulls of all classes, the steepest step first, until the limit is met
 * (Sinha and Zoltners, Operations Research 27, 1979); the steepness of the step where that happens is
 * the price of one unit of the limit, and with this price every class can be judged alone: wish plus
 * price times money, least over its options, is what it adds at best. That is a Lagrangian bound, safe
 * for any price of 0 and more, so the price may be rounded to whole numbers that keep products within 64
 * bits. Limits on further loads are left out of the bound: it stays safe, but weaker.
 *
 * The walk also gives a choice: all steps before the one that no longer fits, and, where later ones still
 * fit, those too. */
#include "advise/pick_inside.h"

#include <stdlib.h>

/* Products of times and sums stay below twice this. */
#define LARGEST_PRODUCT (INT64_C(1) << 60)

/* From one corner of a class's hull to the next: less of the wish, for more of the other. */
typedef struct stretch {
    int64_t less, more;
    size_t class, from, to; /* options */
} stretch;

static int steepest_first(const void *left, const void *right)
{
    const stretch *a = left, *b = right;
    /* Amounts are within 2^30, differences within 2^31, products within 2^62. */
    const int64_t x = a->less * b->more, y = b->less * a->more;
    if (x != y)
        return x > y ? -1 : 1;
    if (a->class != b->class)
        return a->class < b->class ? -1 : 1;
    return (a->from < b->from) - (a->from > b->from);
}

static const int64_t *row_of(const pare_pick_options *o, size_t option)
{
    return &o->row[option * o->dims];
}

/* The hull of one class, from its cheapest corner, as stretches. Options are in the order of the wish; seen
 * from the last, those that are no cheaper than a lighter one are no corners.
 * @param corner  room for the options of the class
 * @param[out] cheapest  the first corner */
static size_t hull(const pare_pick_options *o, size_t class, size_t corner[], stretch out[],
                   size_t *cheapest)
{
    size_t corners = 1;
    corner[0] = o->first[class];
    for (size_t i = o->first[class] + 1; i < o->first[class + 1]; i++) {
        const int64_t *p = row_of(o, i);
        if (p[1] >= row_of(o, corner[corners - 1])[1])
            continue;
        /* The way over the last corner must bend the right way: steeper from it on to here, where the
         * wish grows, means less money for each unit of it; else the corner lies above the hull. */
        while (corners >= 2) {
            const int64_t *a = row_of(o, corner[corners - 2]), *b = row_of(o, corner[corners - 1]);
            if ((b[0] - a[0]) * (b[1] - p[1]) < (p[0] - b[0]) * (a[1] - b[1]))
                break;
            corners--;
        }
        corner[corners++] = i;
    }
    *cheapest = corner[corners - 1];
    size_t count = 0;
    for (size_t i = corners - 1; i > 0; i--) {
        const int64_t *from = row_of(o, corner[i]), *to = row_of(o, corner[i - 1]);
        out[count++] = (stretch){.less = from[0] - to[0],
                                 .more = to[1] - from[1],
                                 .class = class,
                                 .from = corner[i],
                                 .to = corner[i - 1]};
    }
    return count;
}

static void add_row(int64_t sum[], const int64_t row[], size_t dims, int sign)
{
    for (size_t d = 0; d < dims; d++)
        sum[d] += sign * row[d];
}

static void note_best(const pare_pick_options *o, const int64_t sum[], pare_pick_bound *bound)
{
    for (size_t d = 0; d < o->dims; d++)
        if (sum[d] > o->most[d])
            return;
    if (sum[0] < bound->best)
        bound->best = sum[0];
}

/* Down the stretches as far as the limit goes.
 * @param now  [classes]: in, the cheapest option of each; where it stands */
static void walk(const pare_pick_options *o, const stretch stretches[], size_t count, size_t now[],
                 pare_pick_bound *bound)
{
    int64_t sum[PARE_PICK_DIMS] = {0};
    for (size_t i = 0; i < o->classes; i++)
        add_row(sum, row_of(o, now[i]), o->dims, 1);
    note_best(o, sum, bound);
    bool full = false;
    bound->times[0] = 1;
    bound->times[1] = 0;
    for (size_t i = 0; i < count; i++) {
        const stretch *s = &stretches[i];
        const bool fits = s->more <= o->most[1] - sum[1];
        if (!fits && !full) {
            full = true;
            bound->times[0] = s->more;
            bound->times[1] = s->less;
            note_best(o, sum, bound);
            for (size_t c = 0; c < o->classes; c++) {
                const int64_t *from = &bound->known_before[c * o->dims];
                int64_t *to = &bound->known_before[(c + 1) * o->dims];
                for (size_t d = 0; d < o->dims; d++)
                    to[d] = from[d] + row_of(o, now[c])[d];
            }
        }
        if (!fits || now[s->class] != s->from)
            continue;
        add_row(sum, row_of(o, s->from), o->dims, -1);
        add_row(sum, row_of(o, s->to), o->dims, 1);
        now[s->class] = s->to;
    }
    note_best(o, sum, bound);
    if (!full)
        for (size_t c = 0; c < o->classes; c++)
            for (size_t d = 0; d < o->dims; d++)
                bound->known_before[(c + 1) * o->dims + d] =
                    bound->known_before[c * o->dims + d] + row_of(o, now[c])[d];
}

static int64_t largest(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

static int64_t size_of(int64_t a)
{
    return a < 0 ? -a : a;
}

/* Times that keep every product small. */
static void shrink_times(const pare_pick_options *o, pare_pick_bound *bound)
{
    int64_t most[2] = {1, 1};
    for (size_t c = 0; c < o->classes; c++)
        for (int d = 0; d < 2; d++) {
            int64_t class_most = 0;
            for (size_t i = o->first[c]; i < o->first[c + 1]; i++)
                class_most = largest(class_most, size_of(row_of(o, i)[d]));
            most[d] += class_most;
        }
    most[1] = largest(most[1], size_of(o->most[1]));
    while (bound->times[0] > LARGEST_PRODUCT / most[0] ||
           bound->times[1] > LARGEST_PRODUCT / most[1]) {
        bound->times[0] /= 2;
        bound->times[1] /= 2;
    }
    bound->times[0] = largest(bound->times[0], 1);
}

static int64_t priced(const pare_pick_bound *bound, const int64_t row[])
{
    return bound->times[0] * row[0] + bound->times[1] * row[1];
}

pare_status pare_pick_bound_make(const pare_pick_options *o, pare_arena *arena,
                                 pare_pick_bound *bound, pare_error *err)
{
    for (size_t d = 0; d < o->dims; d++)
        if (o->least_before[o->classes * o->dims + d] > o->most[d])
            return pare_fail(err, PARE_NO, "no choice is within the limits");
    *bound = (pare_pick_bound){
        .best = INT64_MAX,
        .least_before = pare_arena_array(arena, o->classes + 1, sizeof bound->least_before[0]),
        .known_before =
            pare_arena_array(arena, o->classes + 1, o->dims * sizeof bound->known_before[0])};
    const size_t options = o->first[o->classes];
    stretch *stretches = malloc((options + 1) * sizeof *stretches);
    size_t *corner = malloc((options + 1) * sizeof *corner);
    size_t *now = malloc((o->classes + 1) * sizeof *now);
    pare_status status = PARE_OK;
    if (!bound->least_before || !bound->known_before || !stretches || !corner || !now)
        status = pare_no_memory(err);
    if (status == PARE_OK) {
        size_t count = 0;
        for (size_t c = 0; c < o->classes; c++)
            count += hull(o, c, corner, &stretches[count], &now[c]);
        qsort(stretches, count, sizeof *stretches, steepest_first);
        walk(o, stretches, count, now, bound);
        shrink_times(o, bound);
        for (size_t c = 0; c < o->classes; c++) {
            int64_t least = INT64_MAX;
            for (size_t i = o->first[c]; i < o->first[c + 1]; i++)
                if (priced(bound, row_of(o, i)) < least)
                    least = priced(bound, row_of(o, i));
            bound->least_before[c + 1] = bound->least_before[c] + least;
        }
    }
    free(stretches);
    free(corner);
    free(now);
    return status;
}

void pare_pick_bound_reduce(const pare_pick_bound *bound, pare_pick_options *o)
{
    if (bound->best == INT64_MAX)
        return;
    const int64_t gap = bound->times[0] * bound->best + bound->times[1] * o->most[1] -
                        bound->least_before[o->classes];
    size_t end = 0, from = 0;
    for (size_t c = 0; c < o->classes; c++) {
        const size_t next = o->first[c + 1];
        const int64_t least = bound->least_before[c + 1] - bound->least_before[c];
        o->first[c] = end;
        for (; from < next; from++) {
            if (priced(bound, row_of(o, from)) - least > gap)
                continue;
            for (size_t d = 0; d < o->dims; d++)
                o->row[end * o->dims + d] = o->row[from * o->dims + d];
            o->place[end++] = o->place[from];
        }
    }
    o->first[o->classes] = end;
}
