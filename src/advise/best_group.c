/* best_group.c: groups of frame, motor, propeller and pack, lightest conceivable first (see best.h).
 *
 * Options stand by their least, so the sums are made in their order with a heap and without making all of
 * them: after a group comes the same with one option moved on, in the place of its last moved one or in one
 * behind that, so each comes once. What cannot fit, whatever goes on in between, is passed over unseen. */
#include <stdlib.h>
#include <string.h>

#include "advise/best_inside.h"

/* ---- the heap ---- */

static bool comes_before(const best_group *a, const best_group *b)
{
    if (a->least != b->least)
        return a->least < b->least;
    if (a->refined != b->refined)
        return a->refined;
    return memcmp(a->option, b->option, sizeof a->option) < 0;
}

void best_groups_put(best_groups *groups, best_group group)
{
    if (groups->count == groups->room) {
        const size_t room = groups->room ? 2 * groups->room : 1024;
        best_group *more = realloc(groups->heap, room * sizeof *more);
        if (!more) {
            groups->failed = true;
            return;
        }
        groups->heap = more;
        groups->room = room;
    }
    size_t at = groups->count++;
    while (at > 0 && comes_before(&group, &groups->heap[(at - 1) / 2])) {
        groups->heap[at] = groups->heap[(at - 1) / 2];
        at = (at - 1) / 2;
    }
    groups->heap[at] = group;
}

static best_group take(best_groups *groups)
{
    const best_group top = groups->heap[0], last = groups->heap[--groups->count];
    size_t at = 0;
    for (;;) {
        size_t child = 2 * at + 1;
        if (child >= groups->count)
            break;
        if (child + 1 < groups->count &&
            comes_before(&groups->heap[child + 1], &groups->heap[child]))
            child++;
        if (!comes_before(&groups->heap[child], &last))
            break;
        groups->heap[at] = groups->heap[child];
        at = child;
    }
    groups->heap[at] = last;
    return top;
}

/* ---- what comes after what ---- */

static const best_slot *slot_of(const best_search *search, size_t g)
{
    return search->grouped[g] == BEST_NONE ? NULL : &search->slot[search->grouped[g]];
}

static size_t options_of(const best_search *search, size_t g)
{
    const best_slot *slot = slot_of(search, g);
    return slot ? slot->options : 1;
}

static int64_t least_of(const best_search *search, size_t g, size_t option)
{
    const best_slot *slot = slot_of(search, g);
    return slot ? slot->option[option].least : 0;
}

static void put_next(best_groups *groups, const best_group *group)
{
    const best_search *search = groups->search;
    size_t moved = 0;
    for (size_t g = 0; g < BEST_GROUPED; g++)
        if (group->option[g] > 0)
            moved = g;
    for (size_t g = moved; g < BEST_GROUPED; g++) {
        best_group next = *group;
        if (group->option[g] + 1 >= options_of(search, g))
            continue;
        next.option[g]++;
        next.least += least_of(search, g, next.option[g]) - least_of(search, g, group->option[g]);
        best_groups_put(groups, next);
    }
}

static const pare_part *part_of(const best_search *search, const best_group *group, size_t g)
{
    const best_slot *slot = slot_of(search, g);
    return slot ? slot->option[group->option[g]].part : NULL;
}

static bool agree(const pare_part *a, const pare_part *b, pare_fit_key key)
{
    return !a || !b || pare_fit_agrees(&a->fit[key], &b->fit[key]);
}

/* The interfaces that nothing can lie between. */
static bool could_fit(const best_search *search, const best_group *group)
{
    const pare_part *frame = part_of(search, group, 0), *motor = part_of(search, group, 1);
    const pare_part *propeller = part_of(search, group, 2);
    pare_fit size = {0};
    for (size_t g = 0; g < BEST_GROUPED; g++)
        if (slot_of(search, g) && !part_of(search, group, g))
            return false; /* off: it would not fly */
    if (propeller && propeller->spec[PARE_SPEC_DIAMETER].value > 0) {
        size.count = 1;
        size.any[0].low = size.any[0].high = propeller->spec[PARE_SPEC_DIAMETER].value;
    }
    return agree(frame, motor, PARE_FIT_BOLT_CIRCLE) && agree(propeller, motor, PARE_FIT_SHAFT) &&
           (!frame || pare_fit_agrees(&size, &frame->fit[PARE_FIT_PROPELLER]));
}

/* ---- the list ---- */

bool best_groups_open(const best_search *search, int64_t least, best_groups *groups)
{
    best_group first = {.least = least};
    *groups = (best_groups){.search = search};
    for (size_t g = 0; g < BEST_GROUPED; g++)
        if (options_of(search, g) == 0)
            return true;
    best_groups_put(groups, first);
    return !groups->failed;
}

void best_groups_close(best_groups *groups)
{
    free(groups->heap);
}

/* Passes over what cannot fit. */
static void settle(best_groups *groups)
{
    while (groups->count > 0 && !groups->failed && !groups->heap[0].refined &&
           !could_fit(groups->search, &groups->heap[0])) {
        const best_group group = take(groups);
        put_next(groups, &group);
    }
}

int64_t best_groups_least(best_groups *groups)
{
    settle(groups);
    return groups->count > 0 ? groups->heap[0].least : BEST_NO_BOUND;
}

best_group best_groups_next(best_groups *groups)
{
    settle(groups);
    const best_group group = take(groups);
    if (!group.refined) {
        groups->made++;
        put_next(groups, &group);
    }
    return group;
}

/* ---- putting one together ---- */

static bool go_on(best_worker *worker, const best_group *group, unsigned left, size_t depth)
{
    const best_search *search = worker->search;
    for (size_t g = 0; g < BEST_GROUPED; g++) {
        if ((left & 1u << g) == 0)
            continue;
        const pare_swap_name *name = slot_of(search, g)->option[group->option[g]].name;
        if (!best_state_edit(search, &worker->state[depth], name, &worker->state[depth + 1]))
            continue;
        if ((left & ~(1u << g)) == 0) {
            best_state_weigh(search, &worker->state[depth + 1]);
            best_state_copy(search, &worker->state[depth + 1], &worker->state[0]);
            return true;
        }
        if (go_on(worker, group, left & ~(1u << g), depth + 1))
            return true;
    }
    return false;
}

bool best_group_build(best_worker *worker, const best_group *group)
{
    const best_search *search = worker->search;
    unsigned left = 0;
    for (size_t g = 0; g < BEST_GROUPED; g++)
        if (slot_of(search, g) && slot_of(search, g)->option[group->option[g]].name)
            left |= 1u << g;
    best_state_copy(search, worker->first, &worker->state[0]);
    if (left != 0) {
        best_state_copy(search, worker->first, &worker->state[1]);
        if (!go_on(worker, group, left, 1))
            return false;
    }
    for (size_t g = 0; g < BEST_GROUPED; g++)
        if (search->grouped[g] != BEST_NONE)
            worker->state[0].open &= ~((uint64_t)1 << search->grouped[g]);
    best_state_bound(search, &worker->state[0]);
    return true;
}
