/* pick_stream.c: choices in the order of their mass, made when they are asked for (see pick_stream.h).
 *
 * Each class has its options in order, and each choice is the first option everywhere but in some
 * classes. Number the classes by how much their second option is worse than their first. Then every
 * choice but the first of all comes from exactly one that is no worse, by one of three moves on its last
 * class that departs from the first option: to that class's next option; a departure in the next class as
 * well; or, where it stands on its second option, back to the first and a departure in the next class
 * instead. So a heap that starts with the first choice, and takes in at most three for each that it gives
 * out, gives all out in order, each once (Lawler, Management Science 18, 1972, for the principle; the
 * three moves are folklore, from memory).
 *
 * Order is by mass, then money, then options class after class. That is an order of sums: give an
 * option of class k the row (mass, money, 0 .. its place .. 0), and rows compare number by number; so
 * what is better stays better whatever is added to both, and the moves are right for ties as well.
 *
 * A combination keeps only its last departure and which one it departed from, so it costs the same with
 * any number of classes. Before one goes into the heap, the least that it and all that will ever come
 * from it amount to is held against the limits. */
#include "advise/pick_stream.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "advise/pick_inside.h"

enum { STEPS_BETWEEN_LOOKS = 1 << 16 };
#define NOTHING UINT32_MAX

/* A class with more than one option. */
typedef struct turn {
    size_t class;
    uint32_t options;
    size_t first;     /* of its items */
    int64_t worse[2]; /* the second option over the first */
    int64_t places;   /* and its place less the first's */
} turn;

/* The first choice, or one more departure from another. */
typedef struct made {
    uint32_t from, turn, rank; /* from, turn: NOTHING for the first choice */
} made;

typedef struct waiting {
    int64_t mass;
    uint32_t made;
} waiting;

struct pare_pick_stream {
    pare_arena *arena; /* what does not grow */
    const pare_progress *progress;
    size_t classes, dims, turns, room;
    int64_t most[PARE_PICK_DIMS], least;
    turn *turn;           /* [turns] */
    pare_pick_item *item; /* of all classes, each in order */
    int64_t *least_from;  /* [items][dims]: over this and later options of the class */
    size_t *first_item;   /* [classes] */
    int64_t *first_after; /* [turns + 1][dims]: first options of this turn and later ones */
    int64_t *least_after; /* [turns + 1][dims]: the least of them */
    int64_t *most_after;  /* [turns + 1]: the greatest mass of them */
    size_t *choice[2];    /* [classes], to compare by */
    size_t count, size;   /* of made */
    made *made;
    int64_t *sum; /* [count][dims] */
    size_t held, held_size;
    waiting *heap;
    size_t steps;
};

/* ---- order ---- */

static void write_choice(const pare_pick_stream *s, uint32_t which, size_t choice[])
{
    for (size_t c = 0; c < s->classes; c++)
        choice[c] = s->item[s->first_item[c]].place;
    for (; s->made[which].turn != NOTHING; which = s->made[which].from) {
        const made *m = &s->made[which];
        const turn *t = &s->turn[m->turn];
        choice[t->class] = s->item[t->first + m->rank].place;
    }
}

static bool before(pare_pick_stream *s, const waiting *a, const waiting *b)
{
    if (a->mass != b->mass)
        return a->mass < b->mass;
    const int64_t money_a = s->sum[a->made * s->dims + 1], money_b = s->sum[b->made * s->dims + 1];
    if (money_a != money_b)
        return money_a < money_b;
    write_choice(s, a->made, s->choice[0]);
    write_choice(s, b->made, s->choice[1]);
    size_t c = 0;
    while (c + 1 < s->classes && s->choice[0][c] == s->choice[1][c])
        c++;
    return s->choice[0][c] < s->choice[1][c];
}

static int turn_order(const void *left, const void *right)
{
    const turn *a = left, *b = right;
    for (int i = 0; i < 2; i++)
        if (a->worse[i] != b->worse[i])
            return a->worse[i] < b->worse[i] ? -1 : 1;
    /* Alike in sums: then the place in the class that comes first decides, against none in the other. */
    const turn *early = a->class < b->class ? a : b;
    const int sign = early->places > 0 ? 1 : -1;
    return early == a ? sign : -sign;
}

static void hold(pare_pick_stream *s, waiting new)
{
    size_t at = s->held++;
    while (at > 0 && before(s, &new, &s->heap[(at - 1) / 2])) {
        s->heap[at] = s->heap[(at - 1) / 2];
        at = (at - 1) / 2;
    }
    s->heap[at] = new;
}

static void let_go(pare_pick_stream *s)
{
    const waiting moved = s->heap[--s->held];
    size_t at = 0;
    for (;;) {
        size_t child = 2 * at + 1;
        if (child >= s->held)
            break;
        if (child + 1 < s->held && before(s, &s->heap[child + 1], &s->heap[child]))
            child++;
        if (!before(s, &s->heap[child], &moved))
            break;
        s->heap[at] = s->heap[child];
        at = child;
    }
    if (s->held)
        s->heap[at] = moved;
}

/* ---- moves ---- */

/* Room for three more, so that a step is taken whole or not at all. */
static pare_status make_room(pare_pick_stream *s, pare_error *err)
{
    if (s->count + 3 > s->room)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "after %zu combinations of %zu classes there is no room for more: fewer "
                         "options, tighter limits or more room would help",
                         s->count, s->classes);
    if (s->count + 3 > s->size) {
        const size_t size = 2 * s->size;
        made *more_made = realloc(s->made, size * sizeof *more_made);
        s->made = more_made ? more_made : s->made;
        int64_t *more_sum = realloc(s->sum, size * s->dims * sizeof *more_sum);
        s->sum = more_sum ? more_sum : s->sum;
        if (!more_made || !more_sum)
            return pare_no_memory(err);
        s->size = size;
    }
    if (s->held + 3 > s->held_size) {
        const size_t size = 2 * s->held_size;
        waiting *heap = realloc(s->heap, size * sizeof *heap);
        if (!heap)
            return pare_no_memory(err);
        s->heap = heap;
        s->held_size = size;
    }
    return PARE_OK;
}

/* Whether this combination, or any that comes from it, can be within the limits. On its second option a
 * class may still go back to the first. */
static bool can_hold(const pare_pick_stream *s, const turn *t, size_t number, uint32_t rank,
                     const int64_t sum[])
{
    if (sum[0] > s->most[0])
        return false; /* nothing that comes from it is lighter */
    const size_t dims = s->dims, item = t->first + rank;
    const int64_t *after = &s->first_after[(number + 1) * dims];
    const int64_t *least = &s->least_after[(number + 1) * dims];
    const int64_t *this = &s->least_from[(rank == 1 ? t->first : item) * dims];
    for (size_t d = 1; d < dims; d++)
        if (sum[d] - s->item[item].row[d] - after[d] + this[d] + least[d] > s->most[d])
            return false;
    const int64_t heaviest = s->item[t->first + t->options - 1].row[0];
    return sum[0] - s->item[item].row[0] - after[0] + heaviest + s->most_after[number + 1] >=
           s->least;
}

/* @param base  what the combination amounts to with the class on its first option */
static void offer(pare_pick_stream *s, uint32_t from, size_t number, uint32_t rank,
                  const int64_t base[])
{
    const turn *t = &s->turn[number];
    int64_t *sum = &s->sum[s->count * s->dims];
    for (size_t d = 0; d < s->dims; d++)
        sum[d] = base[d] - s->item[t->first].row[d] + s->item[t->first + rank].row[d];
    if (!can_hold(s, t, number, rank, sum))
        return;
    s->made[s->count] = (made){.from = from, .turn = (uint32_t)number, .rank = rank};
    hold(s, (waiting){.mass = sum[0], .made = (uint32_t)s->count++});
}

static void move_on(pare_pick_stream *s, uint32_t which)
{
    const made m = s->made[which];
    if (m.turn == NOTHING) {
        if (s->turns)
            offer(s, which, 0, 1, &s->sum[which * s->dims]);
        return;
    }
    const int64_t *from = &s->sum[m.from * s->dims];
    if (m.rank + 1 < s->turn[m.turn].options)
        offer(s, m.from, m.turn, m.rank + 1, from);
    if (m.turn + 1 < s->turns) {
        offer(s, which, m.turn + 1, 1, &s->sum[which * s->dims]);
        if (m.rank == 1)
            offer(s, m.from, m.turn + 1, 1, from);
    }
}

static bool is_within(const pare_pick_stream *s, const int64_t sum[])
{
    for (size_t d = 0; d < s->dims; d++)
        if (sum[d] > s->most[d])
            return false;
    return sum[0] >= s->least;
}

pare_status pare_pick_stream_next(pare_pick_stream *s, size_t choice[], pare_pick_amounts *sum,
                                  bool *more, pare_error *err)
{
    *more = false;
    while (s->held && s->heap[0].mass <= s->most[0]) {
        pare_status status = make_room(s, err);
        if (status == PARE_OK && s->steps++ % STEPS_BETWEEN_LOOKS == 0)
            status = pare_progress_step(s->progress, NULL, 0, 0, err);
        if (status != PARE_OK)
            return status;
        const uint32_t which = s->heap[0].made;
        let_go(s);
        move_on(s, which);
        if (!is_within(s, &s->sum[which * s->dims]))
            continue;
        write_choice(s, which, choice);
        *sum = pare_pick_unrow(&s->sum[which * s->dims], PARE_PICK_MASS, s->dims);
        *more = true;
        return PARE_OK;
    }
    return PARE_OK;
}

int64_t pare_pick_stream_bound(const pare_pick_stream *s)
{
    return s->held && s->heap[0].mass <= s->most[0] ? s->heap[0].mass : INT64_MAX;
}

/* ---- before the first ---- */

/* The options of one class in order, and the least from each on. */
static void order_class(pare_pick_stream *s, const pare_pick_class *class, size_t first)
{
    for (size_t i = 0; i < class->count; i++) {
        pare_pick_row(&class->option[i], PARE_PICK_MASS, s->dims, s->item[first + i].row);
        s->item[first + i].place = (uint32_t)i;
    }
    /* Loads do not order, so they are set aside while sorting. */
    pare_pick_item *item = &s->item[first];
    for (size_t i = 0; i < class->count; i++)
        memset(&item[i].row[2], 0, PARE_PICK_LOADS * sizeof item[i].row[2]);
    qsort(item, class->count, sizeof *item, pare_pick_item_order);
    for (size_t i = class->count; i-- > 0;) {
        pare_pick_row(&class->option[item[i].place], PARE_PICK_MASS, s->dims, item[i].row);
        int64_t *least = &s->least_from[(first + i) * s->dims];
        for (size_t d = 0; d < s->dims; d++)
            least[d] = i + 1 < class->count && least[s->dims + d] < item[i].row[d]
                           ? least[s->dims + d]
                           : item[i].row[d];
    }
}

static void order_turns(pare_pick_stream *s)
{
    qsort(s->turn, s->turns, sizeof s->turn[0], turn_order);
    for (size_t i = s->turns; i-- > 0;) {
        const turn *t = &s->turn[i];
        for (size_t d = 0; d < s->dims; d++) {
            const size_t at = i * s->dims + d, after = at + s->dims;
            s->first_after[at] = s->first_after[after] + s->item[t->first].row[d];
            s->least_after[at] = s->least_after[after] + s->least_from[t->first * s->dims + d];
        }
        s->most_after[i] = s->most_after[i + 1] + s->item[t->first + t->options - 1].row[0];
    }
}

static pare_status prepare(pare_pick_stream *s, const pare_pick *pick, pare_error *err)
{
    size_t all = 0;
    for (size_t c = 0; c < pick->classes; c++)
        all += pick->class[c].count;
    const size_t n = pick->classes + 1, wide = s->dims * sizeof(int64_t);
    s->turn = pare_arena_array(s->arena, n, sizeof s->turn[0]);
    s->item = pare_arena_array(s->arena, all, sizeof s->item[0]);
    s->least_from = pare_arena_array(s->arena, all, wide);
    s->first_item = pare_arena_array(s->arena, n, sizeof s->first_item[0]);
    s->first_after = pare_arena_array(s->arena, n, wide);
    s->least_after = pare_arena_array(s->arena, n, wide);
    s->most_after = pare_arena_array(s->arena, n, sizeof s->most_after[0]);
    s->choice[0] = pare_arena_array(s->arena, n, sizeof s->choice[0][0]);
    s->choice[1] = pare_arena_array(s->arena, n, sizeof s->choice[1][0]);
    s->size = s->held_size = 64;
    s->made = malloc(s->size * sizeof s->made[0]);
    s->sum = calloc(s->size, wide);
    s->heap = malloc(s->held_size * sizeof s->heap[0]);
    if (!s->turn || !s->item || !s->least_from || !s->first_item || !s->first_after ||
        !s->least_after || !s->most_after || !s->choice[0] || !s->choice[1] || !s->made ||
        !s->sum || !s->heap)
        return pare_no_memory(err);

    int64_t *sum = s->sum;
    size_t first = 0;
    for (size_t c = 0; c < pick->classes; c++) {
        const size_t options = pick->class[c].count;
        order_class(s, &pick->class[c], first);
        s->first_item[c] = first;
        for (size_t d = 0; d < s->dims; d++)
            sum[d] += s->item[first].row[d];
        if (options > 1) {
            turn *t = &s->turn[s->turns++];
            const pare_pick_item *item = &s->item[first];
            *t = (turn){.class = c, .options = (uint32_t)options, .first = first};
            for (int d = 0; d < 2; d++)
                t->worse[d] = item[1].row[d] - item[0].row[d];
            t->places = (int64_t)item[1].place - (int64_t)item[0].place;
        }
        first += options;
    }
    order_turns(s);
    s->made[0] = (made){.from = NOTHING, .turn = NOTHING};
    s->count = 1;
    s->heap[0] = (waiting){.mass = sum[0], .made = 0};
    s->held = 1;
    return PARE_OK;
}

pare_status pare_pick_stream_open(const pare_pick *pick, int64_t least_100ug,
                                  pare_pick_stream **stream, pare_error *err)
{
    *stream = NULL;
    pare_status status = pare_pick_check(pick, err);
    if (status != PARE_OK)
        return status;
    pare_pick_stream *s = calloc(1, sizeof *s);
    if (!s)
        return pare_no_memory(err);
    s->progress = pick->progress;
    s->classes = pick->classes;
    s->dims = 2 + pick->loads;
    s->room = pick->room ? pick->room : PARE_PICK_ROOM;
    s->room = s->room < NOTHING ? s->room : NOTHING;
    s->least = least_100ug;
    pare_pick_row(&pick->most, PARE_PICK_MASS, s->dims, s->most);
    s->arena = pare_arena_open();
    status = s->arena ? prepare(s, pick, err) : pare_no_memory(err);
    if (status == PARE_OK)
        *stream = s;
    else
        pare_pick_stream_close(s);
    return status;
}

void pare_pick_stream_close(pare_pick_stream *s)
{
    if (!s)
        return;
    pare_arena_close(s->arena);
    free(s->made);
    free(s->sum);
    free(s->heap);
    free(s);
}
