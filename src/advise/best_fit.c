/* best_fit.c: what of the other choices goes with a frame or a motor (see best.h).
 *
 * A controller that a frame has no holes for, or a nut of another thread than the motor's, is in no set with
 * them. That follows from the table of who meets whom alone, so it is asked once for each frame and motor, and
 * what a set with one of them weighs more at the least is added to its groups before any is put together. A
 * frame's is the least of the classes (best_dive.c), each by its own lightest; a motor's is of its nuts, which
 * no frame decides: so the two add up. */
#include <stdlib.h>

#include "advise/best_inside.h"
#include "advise/fits.h"

enum { FRAME, MOTOR, ASKED };

/* What does not go with a frame, and with a motor: [options of all slots] each, or NULL. */
typedef struct rows {
    const bool *of[ASKED];
    bool together;   /* of a whole group: what is counted need not add up with another's */
    best_pair *pair; /* then what moves others is put on, not only counted; or NULL */
} rows;

static bool is_never(const rows *never, size_t option)
{
    return (never->of[FRAME] && never->of[FRAME][option]) ||
           (never->of[MOTOR] && never->of[MOTOR][option]);
}

static rows rows_of(const best_search *search, const best_group *group)
{
    rows never = {{NULL, NULL}, true, NULL};
    for (size_t g = 0; g < ASKED; g++)
        if (best_grouped(search, g))
            never.of[g] = best_grouped(search, g)->option[group->option[g]].never;
    return never;
}

bool best_never_with(const best_search *search, const best_group *group, size_t slot, size_t index)
{
    const rows never = rows_of(search, group);
    return is_never(&never, search->slot[slot].first + index);
}

/* The least that a slot may be with one of the two, of a class. False: nothing. */
static bool lightest_with(const best_search *search, const rows *never, const best_state *state,
                          size_t slot, int64_t *least)
{
    const best_slot *of = &search->slot[slot];
    for (size_t i = 0; i < of->options; i++)
        if (!is_never(never, of->first + i) && best_may_be(search, state, slot, &of->option[i])) {
            *least = of->option[i].least;
            return true;
        }
    return false;
}

/* Nuts go by the motor, all else by the frame. */
static bool goes_by(const best_search *search, const rows *never, size_t slot)
{
    const pare_part *part = search->desk->loaded.item[search->slot[slot].item].part;
    return never->together || never->of[part->kind == PARE_PROPELLER_NUT ? MOTOR : FRAME] != NULL;
}

/* Raises what open slots count to what may be with one of the two. False: one has nothing. */
static bool count_with(const best_search *search, const rows *never, best_state *state)
{
    for (size_t s = 0; s < search->slots; s++) {
        int64_t least;
        if (best_is_grouped(search, s) || !best_open(state, s) ||
            !best_state_stands(search, state, s) || !goes_by(search, never, s))
            continue;
        if (lightest_with(search, never, state, s, &least)) {
            if (least > state->slot_least[s])
                state->slot_least[s] = least;
        } else if (!best_is_dragged(search, state,
                                    search->desk->loaded.item[search->slot[s].item].part)) {
            return false;
        }
    }
    return true;
}

/* The least of a class by one choice that moves others: only with that put on is it known which wires and screws
 * there are, and what they weigh. BEST_NO_BOUND: none of its options goes on. Works in the state after. */
static int64_t least_put_on(const best_search *search, const rows *never, best_state *state,
                            size_t slot)
{
    const best_slot *of = &search->slot[slot];
    int64_t least = BEST_NO_BOUND;
    for (size_t i = 0; i < of->options; i++) {
        const best_option *option = &of->option[i];
        if (is_never(never, of->first + i) || !best_may_be(search, state, slot, option))
            continue;
        if (best_least_with(search, state, slot, option) >= least)
            break;
        int64_t its = state->sum;
        if (best_state_choose(search, state, slot, option, state + 1))
            its = state[1].sum;
        else if (best_goes_never(search, state, slot, option, state + 1))
            continue;
        least = its < least ? its : least;
    }
    return least;
}

/* The least of a class by all such choices. */
static int64_t least_of_moving(const best_search *search, const rows *never, best_state *state)
{
    int64_t least = state->sum;
    for (size_t s = 0; s < search->slots && least < BEST_NO_BOUND; s++)
        if ((state->moving >> s & 1) && best_open(state, s) &&
            best_state_stands(search, state, s) &&
            !best_is_draggable(search, state, search->slot[s].item, search->slots)) {
            const int64_t its = least_put_on(search, never, state, s);
            least = its > least ? its : least;
        }
    return least;
}

static int64_t least_of_class(const best_search *search, const rows *never, best_state *state)
{
    int64_t least = BEST_NO_BOUND;
    if (count_with(search, never, state)) {
        best_state_bound(search, state);
        least = never->pair ? least_of_moving(search, never, state) : state->sum;
    }
    best_pair *pair = never->pair;
    if (pair && pair->classes < BEST_CLASSES)
        pair->of[pair->classes++] = (struct best_class){state->calm, state->moving, least};
    return least;
}

/* The least of all classes from a slot on; BEST_NO_BOUND: there is none. Works in the states after this one. */
static int64_t least_of_classes(const best_search *search, const rows *never, best_state *state,
                                size_t slot)
{
    while (slot < search->slots &&
           (!search->slot[slot].moves || best_is_grouped(search, slot) || !best_open(state, slot) ||
            !best_state_stands(search, state, slot)))
        slot++;
    if (slot == search->slots)
        return least_of_class(search, never, state);
    int64_t least = BEST_NO_BOUND;
    for (int moves = 0; moves < 2; moves++) {
        best_state_copy(search, state, state + 1);
        best_set_class(search, state + 1, slot, moves);
        const int64_t its = least_of_classes(search, never, state + 1, slot + 1);
        least = its < least ? its : least;
    }
    return least;
}

/* All that might lie between two parts. */
typedef struct bridges {
    size_t count;
    const pare_part **part;
} bridges;

static void keep_bridge(bridges *all, const pare_part *part)
{
    if (pare_may_bridge(part, PARE_FIT_STACK) || pare_may_bridge(part, PARE_FIT_CAMERA))
        all->part[all->count++] = part;
}

/* False: out of memory. */
static bool find_bridges(const best_search *search, bridges *all)
{
    const pare_craft *craft = search->desk->craft;
    all->part = pare_arena_array(search->arena, search->bench->parts + craft->items + 1,
                                 sizeof all->part[0]);
    for (size_t i = 0; all->part && i < search->bench->parts; i++)
        keep_bridge(all, search->bench->part[i]);
    for (size_t i = 0; all->part && i < craft->items; i++)
        keep_bridge(all, craft->item[i].part);
    return all->part != NULL;
}

/* Marks what does not go with one option. Of what stays on the craft nobody asks whether it fits. */
static void mark(const best_search *search, const best_option *with, const bridges *between,
                 bool never[])
{
    for (size_t s = 0; s < search->slots; s++)
        for (size_t i = 0; i < search->slot[s].options; i++) {
            const best_option *other = &search->slot[s].option[i];
            never[search->slot[s].first + i] =
                other->part && (with->name || other->name) && !best_is_grouped(search, s) &&
                pare_fits_never(with->part, other->part, between->count, between->part);
        }
}

/* Nuts are of no class: of a motor the end of the classes is all that is asked. */
static int64_t least_with(const best_search *search, const rows *never, best_state *state, size_t g)
{
    return least_of_classes(search, never, state, g == FRAME ? 0 : search->slots);
}

static int by_all(const void *left, const void *right)
{
    const best_option *a = left, *b = right;
    const int64_t its = a->least + a->more, others = b->least + b->more;
    return its != others ? (its < others ? -1 : 1) : best_by_least(left, right);
}

/* Options in the order of what a set with them weighs at the least; without those that no set can have. */
static void put_in_order(best_slot *of)
{
    size_t kept = 0;
    for (size_t i = 0; i < of->options; i++)
        if (of->option[i].more != BEST_NO_BOUND)
            of->option[kept++] = of->option[i];
    of->options = kept;
    qsort(of->option, kept, sizeof of->option[0], by_all);
}

pare_status best_fit_find(best_search *search, const best_state *first, best_state room[],
                          pare_error *err)
{
    bridges between = {0, NULL};
    if (!find_bridges(search, &between))
        return pare_no_memory(err);
    for (size_t g = 0; g < ASKED; g++) {
        best_slot *of = search->grouped[g] == BEST_NONE ? NULL : &search->slot[search->grouped[g]];
        for (size_t i = 0; of && i < of->options; i++) {
            bool *never = pare_arena_array(search->arena, search->options + 1, sizeof *never);
            if (!never)
                return pare_no_memory(err);
            if (!of->option[i].part)
                continue;
            mark(search, &of->option[i], &between, never);
            best_state_copy(search, first, room);
            rows own = {{NULL, NULL}, false, NULL};
            own.of[g] = never;
            const int64_t least = least_with(search, &own, room, g);
            of->option[i].never = never;
            of->option[i].more = least == BEST_NO_BOUND ? BEST_NO_BOUND
                                 : least > first->sum   ? least - first->sum
                                                        : 0;
        }
        if (of)
            put_in_order(of);
    }
    return PARE_OK;
}

static int64_t least_by(const best_search *search, const rows *never, best_state *state)
{
    if (!count_with(search, never, state))
        return BEST_NO_BOUND;
    best_state_copy(search, state, state + 1);
    return least_of_classes(search, never, state + 1, 0);
}

int64_t best_fit_least(const best_search *search, const best_group *group, best_state state[])
{
    const rows never = rows_of(search, group);
    return least_by(search, &never, state);
}

void best_fit_classes(const best_search *search, const best_group *group, best_state state[],
                      best_pair *pair)
{
    rows never = rows_of(search, group);
    never.pair = pair;
    pair->classes = 0;
    pair->more = least_by(search, &never, state);
}
