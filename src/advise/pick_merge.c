/* pick_merge.c: class by class, the points that nothing beats (see pick_inside.h).
 *
 * Start with one point, nothing chosen, and add the classes from the last to the first: the new points
 * are the sums of an option and an old point, less those that another beats (Nemhauser and Ullmann,
 * Management Science 15, 1969, for the knapsack). Each option walks along the old points, which are in
 * order; a heap of the walkers hands out all sums in order, so that a sieve sees at once what is beaten
 * and no sum is ever stored that is.
 *
 * From the last to the first, because of ties: two ways to one sum differ first in the class that is
 * added now, where the earlier option is the answer, or they share option and old point. So a tie is one
 * comparison, whatever went before.
 *
 * With a bound (pick_bound.c) sums are dropped that no choice as good as the best known can contain. All
 * that tie with the best stay, for the rule on ties to choose among. */
#include "advise/pick_inside.h"

#include <stdlib.h>
#include <string.h>

enum { STEPS_BETWEEN_LOOKS = 1 << 16 };

typedef struct points {
    size_t count, size;
    int64_t *row; /* [count][dims] */
    pare_pick_step *step;
} points;

/* An option on its way along the old points. */
typedef struct walker {
    int64_t row[PARE_PICK_DIMS]; /* the sum where it stands */
    size_t option, at;
    uint32_t place;
} walker;

typedef struct merger {
    const pare_pick_options *options;
    pare_pick_bound *bound;
    size_t dims, class;
    int64_t limit[PARE_PICK_DIMS]; /* what the classes so far may amount to */
    const points *old;
    points *new;
    pare_pick_sieve sieve;
    walker *heap;
    size_t walkers, room, used;
} merger;

static bool before(const walker *a, const walker *b, size_t dims)
{
    for (size_t d = 0; d < dims; d++)
        if (a->row[d] != b->row[d])
            return a->row[d] < b->row[d];
    return a->place < b->place;
}

/* The first walker has changed. */
static void sink(merger *m)
{
    const walker moved = m->heap[0];
    size_t at = 0;
    for (;;) {
        size_t child = 2 * at + 1;
        if (child >= m->walkers)
            break;
        if (child + 1 < m->walkers && before(&m->heap[child + 1], &m->heap[child], m->dims))
            child++;
        if (!before(&m->heap[child], &moved, m->dims))
            break;
        m->heap[at] = m->heap[child];
        at = child;
    }
    m->heap[at] = moved;
}

static void add_walker(merger *m, const walker *new)
{
    size_t at = m->walkers++;
    while (at > 0 && before(new, &m->heap[(at - 1) / 2], m->dims)) {
        m->heap[at] = m->heap[(at - 1) / 2];
        at = (at - 1) / 2;
    }
    m->heap[at] = *new;
}

/* Whether a sum may still lead to what is asked for. */
static bool worth_keeping(const merger *m, const int64_t row[])
{
    for (size_t d = 1; d < m->dims; d++)
        if (row[d] > m->limit[d])
            return false;
    const pare_pick_bound *b = m->bound;
    if (!b || b->best == INT64_MAX)
        return true;
    return b->times[0] * row[0] + b->times[1] * row[1] + b->least_before[m->class] <=
           b->times[0] * b->best + b->times[1] * m->options->most[1];
}

/* Puts a walker on its next sum that is not beaten yet, from where it stands on; false at its end.
 * With more than two numbers that question is not cheap, and is left to when its turn has come. */
static bool stand(const merger *m, walker *w)
{
    const int64_t *option = &m->options->row[w->option * m->dims];
    for (; w->at < m->old->count; w->at++) {
        const int64_t *point = &m->old->row[w->at * m->dims];
        for (size_t d = 0; d < m->dims; d++)
            w->row[d] = option[d] + point[d];
        if (w->row[0] > m->limit[0])
            return false;
        if (worth_keeping(m, w->row) && (m->dims > 2 || !pare_pick_sieve_beaten(&m->sieve, w->row)))
            return true;
    }
    return false;
}

/* The best known, when the classes before take what is known to be good there. */
static void improve(const merger *m, const int64_t row[])
{
    const int64_t *known = &m->bound->known_before[m->class * m->dims];
    for (size_t d = 0; d < m->dims; d++)
        if (row[d] + known[d] > m->options->most[d])
            return;
    if (row[0] + known[0] < m->bound->best)
        m->bound->best = row[0] + known[0];
}

static pare_status keep(merger *m, const walker *w, pare_error *err)
{
    points *p = m->new;
    if (m->used == m->room)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "more than %zu points would have to be held to choose one of each of %zu "
                         "classes: fewer options, tighter limits or more room would help",
                         m->room, m->options->classes);
    if (p->count == p->size) {
        const size_t size = p->size ? 2 * p->size : 256;
        int64_t *row = realloc(p->row, size * m->dims * sizeof *row);
        p->row = row ? row : p->row;
        pare_pick_step *step = realloc(p->step, size * sizeof *step);
        p->step = step ? step : p->step;
        if (!row || !step)
            return pare_no_memory(err);
        p->size = size;
    }
    memcpy(&p->row[p->count * m->dims], w->row, m->dims * sizeof w->row[0]);
    p->step[p->count++] = (pare_pick_step){.place = w->place, .next = (uint32_t)w->at};
    m->used++;
    if (m->bound)
        improve(m, w->row);
    return pare_pick_sieve_keep(&m->sieve, w->row, err);
}

/* One class more. */
static pare_status add_class(merger *m, const pare_progress *progress, pare_error *err)
{
    const pare_pick_options *o = m->options;
    for (size_t d = 0; d < m->dims; d++)
        m->limit[d] = o->most[d] - o->least_before[m->class * m->dims + d];
    pare_pick_sieve_clear(&m->sieve);
    m->new->count = 0;
    m->walkers = 0;
    for (size_t i = o->first[m->class]; i < o->first[m->class + 1]; i++) {
        walker w = {.option = i, .place = o->place[i]};
        if (stand(m, &w))
            add_walker(m, &w);
    }
    pare_status status = PARE_OK;
    for (size_t steps = 0; status == PARE_OK && m->walkers; steps++) {
        walker *first = &m->heap[0];
        if (steps % STEPS_BETWEEN_LOOKS == 0)
            status =
                pare_progress_step(progress, "classes", o->classes - m->class - 1, o->classes, err);
        if (status == PARE_OK && worth_keeping(m, first->row) &&
            !pare_pick_sieve_beaten(&m->sieve, first->row))
            status = keep(m, first, err);
        first->at++;
        if (!stand(m, first))
            *first = m->heap[--m->walkers];
        sink(m);
    }
    return status;
}

static pare_status merge_all(merger *m, const pare_pick *pick, points *const pair[2],
                             pare_arena *arena, const pare_pick_step **step, pare_error *err)
{
    pare_status status = PARE_OK;
    for (size_t class = m->options->classes; status == PARE_OK && class --> 0;) {
        m->class = class;
        m->old = pair[(class + 1) % 2];
        m->new = pair[class % 2];
        status = add_class(m, pick->progress, err);
        if (status != PARE_OK)
            break;
        pare_pick_step *made = pare_arena_array(arena, m->new->count, sizeof *made);
        if (!made)
            return pare_no_memory(err);
        if (m->new->count)
            memcpy(made, m->new->step, m->new->count * sizeof *made);
        step[class] = made;
    }
    return status;
}

static size_t most_options(const pare_pick_options *options)
{
    size_t most = 0;
    for (size_t i = 0; i < options->classes; i++)
        if (options->first[i + 1] - options->first[i] > most)
            most = options->first[i + 1] - options->first[i];
    return most;
}

/* Nothing chosen yet: one point, all zeros; none where the least of all classes is too much. */
static pare_status begin(points *p, const pare_pick_options *o, pare_error *err)
{
    p->row = calloc(o->dims, sizeof p->row[0]);
    p->step = calloc(1, sizeof p->step[0]);
    if (!p->row || !p->step)
        return pare_no_memory(err);
    p->count = p->size = 1;
    for (size_t d = 0; d < o->dims; d++)
        if (o->least_before[o->classes * o->dims + d] > o->most[d])
            p->count = 0;
    return PARE_OK;
}

pare_status pare_pick_merge(const pare_pick *pick, const pare_pick_options *options,
                            pare_pick_bound *bound, pare_arena *arena, const pare_pick_step ***step,
                            int64_t **row, size_t *count, pare_error *err)
{
    points even = {0}, odd = {0}, *const pair[2] = {&even, &odd};
    merger m = {.options = options,
                .bound = bound,
                .dims = options->dims,
                .room = pick->room ? pick->room : PARE_PICK_ROOM};
    const pare_pick_step **steps = pare_arena_array(arena, options->classes, sizeof *steps);
    m.heap = malloc((most_options(options) + 1) * sizeof m.heap[0]);
    pare_status status = steps && m.heap ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_pick_sieve_open(&m.sieve, m.dims, err);
    if (status == PARE_OK)
        status = begin(pair[options->classes % 2], options, err);
    if (status == PARE_OK)
        status = merge_all(&m, pick, pair, arena, steps, err);
    if (status == PARE_OK) {
        *count = even.count;
        *row = pare_arena_array(arena, even.count, m.dims * sizeof **row);
        *step = steps;
        if (!*row)
            status = pare_no_memory(err);
        else if (*count)
            memcpy(*row, even.row, *count * m.dims * sizeof **row);
    }
    pare_pick_sieve_close(&m.sieve);
    free(m.heap);
    free(even.row);
    free(even.step);
    free(odd.row);
    free(odd.step);
    return status;
}
