/* best_group.c: groups of frame, motor, propeller and pack, lightest conceivable first (see best.h).
 *
 * They are a tree: motor, propeller, pack, frame. A branch stands in the heap by the least of the groups on
 * it, so only branches that could hold the best are followed. One that is taken puts its next sibling in,
 * and, when it could fit and does not fail by what it has, its first child: options stand by their least, so
 * nothing is passed over. */
#include <stdlib.h>
#include <string.h>

#include "advise/best_inside.h"

/* ---- the heap ---- */

static bool comes_before(const best_group *a, const best_group *b)
{
    if (a->turn != b->turn)
        return a->turn < b->turn;
    if (a->promise != b->promise)
        return a->promise > b->promise;
    if (a->least != b->least)
        return a->least < b->least;
    if (a->refined != b->refined)
        return a->refined;
    if (a->depth != b->depth)
        return a->depth > b->depth;
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

enum { FRAME, MOTOR, PROPELLER, PACK };
static const size_t level[BEST_GROUPED] = {MOTOR, PROPELLER, PACK, FRAME};

static size_t options_of(const best_search *search, size_t g)
{
    const best_slot *slot = best_grouped(search, g);
    return slot ? slot->options : 1;
}

static int64_t least_of(const best_search *search, size_t g, size_t option)
{
    const best_slot *slot = best_grouped(search, g);
    return slot ? slot->option[option].least + slot->option[option].more : 0;
}

static const pare_part *part_of(const best_search *search, const best_group *group, size_t g)
{
    const best_slot *slot = best_grouped(search, g);
    if (slot)
        return slot->option[group->option[g]].part;
    static const pare_kind kinds[BEST_GROUPED] = {PARE_FRAME, PARE_MOTOR, PARE_PROPELLER,
                                                  PARE_PACK};
    const int item = pare_craft_doing(&search->desk->loaded, kinds[g]);
    return item >= 0 ? search->desk->loaded.item[item].part : NULL;
}

static bool agree(const pare_part *a, const pare_part *b, pare_fit_key key)
{
    return !a || !b || pare_fit_agrees(&a->fit[key], &b->fit[key]);
}

static bool frame_takes(const pare_part *frame, const pare_part *propeller)
{
    pare_fit size = {0};
    if (!frame || !propeller || !(propeller->spec[PARE_SPEC_DIAMETER].value > 0))
        return true;
    size.count = 1;
    size.any[0].low = size.any[0].high = propeller->spec[PARE_SPEC_DIAMETER].value;
    return pare_fit_agrees(&size, &frame->fit[PARE_FIT_PROPELLER]);
}

bool best_group_fits(const best_search *search, const best_group *group)
{
    const pare_part *part[BEST_GROUPED] = {NULL};
    for (size_t d = 0; d < group->depth; d++) {
        part[level[d]] = part_of(search, group, level[d]);
        if (!part[level[d]])
            return false; /* off: it would not fly */
    }
    return agree(part[FRAME], part[MOTOR], PARE_FIT_BOLT_CIRCLE) &&
           agree(part[PROPELLER], part[MOTOR], PARE_FIT_SHAFT) &&
           frame_takes(part[FRAME], part[PROPELLER]);
}

bool best_groups_open(const best_search *search, const best_state *first, best_groups *groups)
{
    int64_t least = first->sum;
    const size_t pairs = options_of(search, MOTOR) * options_of(search, FRAME);
    *groups = (best_groups){.search = search};
    for (size_t g = 0; g < BEST_GROUPED; g++) {
        if (options_of(search, g) == 0)
            return true;
        if (best_grouped(search, g))
            least += least_of(search, g, 0) - first->slot_least[search->grouped[g]];
    }
    groups->root = least;
    groups->pair = calloc(pairs, sizeof(best_pair *));
    best_groups_put(groups, (best_group){.least = least, .plain = least, .depth = 1});
    return groups->pair && !groups->failed;
}

void best_groups_close(best_groups *groups)
{
    const size_t pairs =
        groups->pair ? options_of(groups->search, MOTOR) * options_of(groups->search, FRAME) : 0;
    for (size_t i = 0; i < pairs; i++)
        free(groups->pair[i]);
    free(groups->pair);
    free(groups->heap);
}

int64_t best_groups_least(const best_groups *groups)
{
    return groups->count > 0 ? groups->heap[0].least : BEST_NO_BOUND;
}

/* Motors are weighed one by one; what any frame means with one is in all that begins with it. */
static void bound(best_group *group)
{
    const int64_t sum = group->plain + group->more;
    group->least = sum > group->floor ? sum : group->floor;
}

best_group best_groups_next(best_groups *groups)
{
    best_group group = take(groups);
    const size_t g = level[group.depth - 1];
    if (!group.followed && group.option[g] + 1 < options_of(groups->search, g)) {
        best_group next = group;
        next.option[g]++;
        next.plain += least_of(groups->search, g, next.option[g]) -
                      least_of(groups->search, g, group.option[g]);
        if (g == MOTOR || g == FRAME) {
            next.more = 0;
            next.weighed = false;
        }
        bound(&next);
        best_groups_put(groups, next);
    }
    group.followed = true;
    return group;
}

void best_groups_deeper(best_groups *groups, best_group group)
{
    group.depth++;
    group.followed = false;
    if (level[group.depth - 1] == FRAME) {
        group.floor = group.least;
        group.more = 0;
        group.weighed = false;
    }
    best_groups_put(groups, group);
}

/* ---- what cannot go on at all ---- */

/* Whether an option fits some of the others' options that may be on. */
static bool fits_some(const best_search *search, size_t g, const pare_part *part,
                      bool *const may[BEST_GROUPED])
{
    for (size_t other = 0; other < BEST_GROUPED; other++) {
        bool any = other == g || other == PACK || g == PACK || !best_grouped(search, other);
        for (size_t i = 0; !any && i < options_of(search, other); i++) {
            const pare_part *with = best_grouped(search, other)->option[i].part;
            if (!may[other][i] || !with)
                continue;
            const pare_part *frame = g == FRAME ? part : other == FRAME ? with : NULL;
            const pare_part *motor = g == MOTOR ? part : other == MOTOR ? with : NULL;
            const pare_part *propeller = g == PROPELLER ? part : other == PROPELLER ? with : NULL;
            any = agree(frame, motor, PARE_FIT_BOLT_CIRCLE) &&
                  agree(propeller, motor, PARE_FIT_SHAFT) && frame_takes(frame, propeller);
        }
        if (!any)
            return false;
    }
    return true;
}

/* An option that goes on the craft as it is: what comes in it is then known, and what of that can be saved. */
static void weigh_with_all_in_it(const best_search *search, best_state *state, size_t item,
                                 best_option *option)
{
    if (!best_state_weigh(search, state))
        return;
    state->open &= ~((uint64_t)1 << search->slot_of[item]);
    best_state_bound(search, state);
    const int64_t least = best_state_own(search, state, item);
    option->least = least > option->least ? least : option->least;
}

/* Options go on one after another. Those that go on the craft as it is may be first; any other needs
 * neighbours that fit it, which must be among those that may have gone on before it. A pack's neighbours are
 * none of the four. */
void best_slots_reach(best_search *search, best_state *first, best_state *state)
{
    bool *may[BEST_GROUPED] = {NULL};
    bool changed = true;
    for (size_t g = 0; g < BEST_GROUPED; g++) {
        may[g] = pare_arena_array(search->arena, options_of(search, g) + 1, sizeof may[g][0]);
        if (!may[g])
            return; /* all stay in: it only takes longer */
        for (size_t i = 0; best_grouped(search, g) && i < options_of(search, g); i++) {
            best_option *option = &search->slot[search->grouped[g]].option[i];
            if (!option->name)
                best_state_copy(search, first, state);
            may[g][i] = option->part &&
                        (!option->name || best_state_edit(search, first, option->name, state));
            if (may[g][i])
                weigh_with_all_in_it(search, state, best_grouped(search, g)->item, option);
        }
    }
    while (changed) {
        changed = false;
        for (size_t g = 0; g < PACK; g++)
            for (size_t i = 0; best_grouped(search, g) && i < options_of(search, g); i++) {
                const pare_part *part = best_grouped(search, g)->option[i].part;
                if (may[g][i] || !part || !fits_some(search, g, part, may))
                    continue;
                may[g][i] = changed = true;
            }
    }
    for (size_t g = 0; g < BEST_GROUPED; g++) {
        if (!best_grouped(search, g))
            continue;
        best_slot *slot = &search->slot[search->grouped[g]];
        size_t kept = 0;
        for (size_t i = 0; i < slot->options; i++)
            if (may[g][i])
                slot->option[kept++] = slot->option[i];
        slot->options = kept;
        qsort(slot->option, kept, sizeof slot->option[0], best_by_least);
        if (kept > 0)
            first->slot_least[search->grouped[g]] = slot->least = slot->option[0].least;
    }
}

/* A group's four may change what an option has to fit, so only what is decided later counts. */
void best_slots_drop(best_search *search, best_state *first, best_state *state)
{
    for (size_t s = 0; s < search->slots; s++) {
        best_slot *slot = &search->slot[s];
        size_t kept = 0;
        if (best_is_grouped(search, s))
            continue;
        for (size_t i = 0; i < slot->options; i++)
            if (!best_goes_never(search, first, s, &slot->option[i], state))
                slot->option[kept++] = slot->option[i];
        slot->options = kept;
        best_slot_sum(search, slot);
        if (kept > 0)
            first->slot_least[s] = slot->least;
    }
}

/* ---- a first flight ---- */

bool best_group_fails(best_worker *worker, const best_group *group, char by[48])
{
    const best_search *search = worker->search;
    best_state *state = &worker->state[0];
    best_state_copy(search, worker->first, state);
    pare_craft *craft = search->desk->loadout >= 0 ? &state->trial.loaded : &state->trial.changed;
    for (size_t d = 0; d < group->depth; d++) {
        const size_t g = level[d];
        if (!best_grouped(search, g))
            continue;
        craft->item[best_grouped(search, g)->item].part = part_of(search, group, g);
        state->open &= ~((uint64_t)1 << search->grouped[g]);
    }
    if (pare_sheet_weigh(craft, &state->trial.sheet, NULL) != PARE_OK)
        return false;
    pare_rig *rig = &state->trial.sheet.rig;
    rig->pack.lead_ohm = 0;
    rig->motor.resistance_ohm = best_bare_ohm(part_of(search, group, MOTOR), rig);
    rig->blockage = 0;
    state->rough = true;
    state->least = group->least;
    const bool fails = best_refuted(search, state, worker->probe, worker->lightest, by);
    state->rough = false;
    return fails;
}

/* ---- putting one together ---- */

static bool go_on(best_worker *worker, const best_group *group, unsigned left, size_t depth)
{
    const best_search *search = worker->search;
    for (size_t g = 0; g < BEST_GROUPED; g++) {
        if ((left & 1u << g) == 0)
            continue;
        const pare_swap_name *name = best_grouped(search, g)->option[group->option[g]].name;
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

/* ---- a motor and a frame ---- */

static int64_t beyond(int64_t least, int64_t by_themselves)
{
    if (least == BEST_NO_BOUND)
        return BEST_NO_BOUND;
    return least > by_themselves ? least - by_themselves : 0;
}

best_pair **best_pair_of(const best_groups *groups, const best_group *group)
{
    return &groups->pair[group->option[MOTOR] * options_of(groups->search, FRAME) +
                         group->option[FRAME]];
}

/* The propeller on the craft fits both: then only the two themselves, and what stays on the craft, can be
 * why they do not go on, and no other propeller or pack helps. */
static void ask_pair(best_worker *worker, const best_groups *groups, const best_group *group,
                     best_pair *pair)
{
    const best_search *search = worker->search;
    const int now = pare_craft_doing(search->desk->craft, PARE_PROPELLER);
    const pare_part *propeller = now >= 0 ? search->desk->craft->item[now].part : NULL;
    *pair = (best_pair){.more = 0};
    if (!frame_takes(part_of(search, group, FRAME), propeller) ||
        !agree(propeller, part_of(search, group, MOTOR), PARE_FIT_SHAFT))
        return;
    best_state *both = worker->state;
    uint64_t closed = 0;
    unsigned left = 0;
    int64_t by_themselves = groups->root;
    for (size_t g = FRAME; g <= MOTOR; g++) {
        if (!best_grouped(search, g))
            continue;
        closed |= (uint64_t)1 << search->grouped[g];
        left |= best_grouped(search, g)->option[group->option[g]].name ? 1u << g : 0;
        by_themselves += least_of(search, g, group->option[g]) - least_of(search, g, 0);
    }
    best_state_copy(search, worker->first, left ? &both[1] : both);
    pair->more = BEST_NO_BOUND;
    if (left != 0 && !go_on(worker, group, left, 1))
        return;
    both->open &= ~closed;
    best_fit_classes(search, group, both, pair);
    pair->more = beyond(pair->more, by_themselves);
    for (size_t i = 0; i < pair->classes; i++)
        pair->of[i].more = beyond(pair->of[i].more, by_themselves);
}

best_pair *best_pair_ask(best_worker *worker, const best_groups *groups, const best_group *group)
{
    best_pair *pair = malloc(sizeof *pair);
    if (pair)
        ask_pair(worker, groups, group, pair);
    return pair;
}

void best_group_weigh(best_group *group, int64_t more)
{
    group->more = more;
    group->weighed = true;
    bound(group);
}

/* Frames stand by what they weigh, so most need not be asked. */
bool best_motor_weigh(best_worker *worker, const best_groups *groups, best_group *group)
{
    const best_search *search = worker->search;
    int64_t least = BEST_NO_BOUND;
    best_group with = *group;
    for (uint32_t i = 0; i < options_of(search, FRAME); i++) {
        const int64_t heavier = least_of(search, FRAME, i) - least_of(search, FRAME, 0);
        if (heavier >= least)
            break;
        with.option[FRAME] = i;
        with.depth = BEST_GROUPED;
        if (!agree(part_of(search, &with, FRAME), part_of(search, &with, MOTOR),
                   PARE_FIT_BOLT_CIRCLE))
            continue;
        best_pair **pair = best_pair_of(groups, &with);
        if (!*pair)
            *pair = best_pair_ask(worker, groups, &with);
        const int64_t more = *pair ? (*pair)->more : 0;
        if (more != BEST_NO_BOUND && heavier + more < least)
            least = heavier + more;
    }
    if (least == BEST_NO_BOUND)
        return false;
    best_group_weigh(group, least);
    return true;
}

bool best_group_build(best_worker *worker, const best_group *group)
{
    const best_search *search = worker->search;
    unsigned left = 0;
    for (size_t g = 0; g < BEST_GROUPED; g++)
        if (best_grouped(search, g) && best_grouped(search, g)->option[group->option[g]].name)
            left |= 1u << g;
    best_state_copy(search, worker->first, &worker->state[0]);
    worker->state[0].rough = false;
    if (left != 0) {
        best_state_copy(search, worker->first, &worker->state[1]);
        if (!go_on(worker, group, left, 1))
            return false;
    }
    for (size_t g = 0; g < BEST_GROUPED; g++)
        if (search->grouped[g] != BEST_NONE)
            worker->state[0].open &= ~((uint64_t)1 << search->grouped[g]);
    worker->group = group;
    if (group->least > worker->state[0].raised)
        worker->state[0].raised = group->least;
    const int64_t least = best_fit_least(search, group, worker->state);
    if (least == BEST_NO_BOUND)
        return false;
    if (least > worker->state[0].raised)
        worker->state[0].raised = least;
    best_state_bound(search, &worker->state[0]);
    return true;
}
