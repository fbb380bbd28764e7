/* best_dive.c: the other items of a group, depth first (see best.h). */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/best_inside.h"
#include "advise/stand_in.h"
#include "craft/arm_facts.h"

enum {
    NODES_BETWEEN_QUESTIONS = 64,
    REFUSALS_WORTH_A_LIMIT = 4,
    SLOTS_BETWEEN_FLIGHTS =
        3,              /* a flight costs as much as four states, and screws are held against it */
    NODES_AT_ONCE = 20, /* that a dive may take and still go on at once, a step higher */
    FINE = 100          /* 10 mg */
};

#define MINUTES_NEARLY (1 + 1e-9) /* sums in another order */

bool best_is_over(double work_min, double most_min)
{
    return work_min > most_min * MINUTES_NEARLY;
}

static int by_names(size_t a_count, const pare_swap_name a[], size_t b_count,
                    const pare_swap_name b[])
{
    for (size_t i = 0; i < a_count && i < b_count; i++) {
        const int order = strcmp(a[i].id, b[i].id);
        if (order != 0)
            return order;
    }
    return a_count < b_count ? -1 : a_count > b_count;
}

bool best_is_better(const best_set *best, int64_t units, int64_t cents, size_t swaps,
                    const pare_swap_name swap[])
{
    if (!best->found || units != best->units)
        return !best->found || units < best->units;
    if (cents != best->cents)
        return cents < best->cents;
    return by_names(swaps, swap, best->swaps, best->swap) < 0;
}

bool best_is_left(best_worker *worker, int64_t least)
{
    if (least <= worker->ceiling)
        return false;
    worker->left_least = least < worker->left_least ? least : worker->left_least;
    return true;
}

/* Whether sets below a state that weigh so much fail, are no better than the best, or are left for later. */
static bool goes_too_far(best_worker *worker, const best_state *state, int64_t least)
{
    return least > state->most || (worker->best.found && least > worker->best.units) ||
           best_is_left(worker, least);
}

/* Whether nothing below a state can be better: what is bought stays bought, and names that come later than
 * the best's stay later. */
bool best_is_hopeless(best_worker *worker, const best_state *state, int64_t least)
{
    const best_set *best = &worker->best;
    if (least > state->most || (best->found && least > best->units) ||
        best_is_too_dear(worker->search, state))
        return true;
    if (best_is_left(worker, least))
        return true;
    if (!best->found || least != best->units)
        return false;
    const int64_t cents = best_cents_least(worker->search, state);
    if (cents != best->cents)
        return cents > best->cents;
    for (size_t i = 0; i < state->swaps && i < best->swaps; i++) {
        const int order = strcmp(state->swap[i].id, best->swap[i].id);
        if (order != 0)
            return order > 0;
    }
    return state->swaps > best->swaps;
}

bool best_go_on(best_worker *worker)
{
    const pare_best_ask *ask = worker->search->ask;
    if (worker->stopped || ((ask->any || ask->raised) && best_has_found(&worker->best)))
        return false;
    if (worker->patience && worker->nodes - worker->begun >= worker->patience) {
        worker->tired = worker->stopped = true;
        return false;
    }
    if (++worker->nodes % NODES_BETWEEN_QUESTIONS != 0)
        return true;
    const pare_progress *progress = worker->search->ask->progress;
    bool stop = atomic_load(worker->search->stop);
#ifdef _OPENMP
#pragma omp critical(pare_best_asks)
#endif
    {
        if (!stop && progress && !progress->step(progress->context, NULL, 0, 0))
            stop = true;
    }
    if (stop)
        atomic_store(worker->search->stop, true);
    worker->stopped = stop;
    return !stop;
}

/* Choices of what drives the motors: how warm that gets, only a flight says. */
static bool is_driver(const best_search *search, size_t slot)
{
    const pare_part *part = search->desk->loaded.item[search->slot[slot].item].part;
    return part->kind == PARE_ESC_FOUR || part->kind == PARE_ESC_ONE ||
           search->slot[slot].moves_wires;
}

/* Choices whose ratings are worth a flight once they are made. */
static bool is_rated(const best_search *search, size_t slot)
{
    const pare_part *part = search->desk->loaded.item[search->slot[slot].item].part;
    return part->spec[PARE_SPEC_VOLTS_HIGH].value > 0 || search->slot[slot].feeds ||
           is_driver(search, slot);
}

/* Whether an option's own ratings refute a state that it was just put on. */
static bool is_overtaxed(best_worker *worker, size_t slot, best_state *with, char by[48])
{
    const best_search *search = worker->search;
    if (is_driver(search, slot))
        return best_refuted(search, with, worker->probe, worker->lightest, by);
    return is_rated(search, slot) && best_volts_fail(search, with, worker->probe, by);
}

void best_refusal(best_worker *worker, const char *by)
{
    worker->refused++;
    best_count(&worker->refusals, worker->refusal, by, 1);
}

/* Finds the most that a state's craft may weigh and not be refuted, to 10 mg: where much below it has failed,
 * it is worth knowing, for then the rest fails by its bound alone. */
static void find_most(best_worker *worker, best_state *state)
{
    char by[48];
    const int64_t least = state->least;
    int64_t holds = least, fails = worker->best.found ? worker->best.units : state->units;
    if (fails <= holds)
        return;
    for (bool first = true; fails - holds > FINE; first = false) {
        state->least = first ? fails : holds + (fails - holds) / 2;
        const bool fail = best_refuted(worker->search, state, worker->probe, worker->lightest, by);
        if (first && !fail)
            fails = holds = BEST_NO_BOUND;
        else if (fail)
            fails = state->least;
        else
            holds = state->least;
    }
    state->least = least;
    state->most = fails < state->most ? fails : state->most;
}

/* The most that a set below a state may weigh and be of any worth. */
static int64_t worth_most(const best_worker *worker, const best_state *state)
{
    int64_t most = state->most < worker->search->most ? state->most : worker->search->most;
    return worker->best.found && worker->best.units < most ? worker->best.units : most;
}

void best_balance(const best_worker *worker, int64_t most, best_state *state)
{
    const int64_t worth = worth_most(worker, state);
    const double uneven = best_uneven_least(worker->search, state, most < worth ? most : worth);
    state->uneven_least = fmax(state->uneven_least, uneven);
}

bool best_flown_out(best_worker *worker, best_state *state, char by[48])
{
    const best_search *search = worker->search;
    best_balance(worker, BEST_NO_BOUND, state);
    if (best_refuted(search, state, worker->probe, worker->lightest, by))
        return true;
    const int64_t least = state->least;
    if (best_wires_fail(search, state, &worker->spare[0].trial.sheet, by) ||
        (state->least > least &&
         best_refuted(search, state, worker->probe, worker->lightest, by)) ||
        (best_raise(search, state) &&
         best_refuted(search, state, worker->probe, worker->lightest, by)))
        return true;
    worker->probe->rig.mass_kg = best_least_kg(state->least);
    best_state_hold(search, state, worker->probe);
    return false;
}

/* Raises a state's bound to what it has to weigh in another loadout, and what is not on there besides. */
static void raise_by(const best_search *search, const best_state *there, best_state *state)
{
    int64_t more;
    if (!best_loads_more(search, state, there, &more) || there->raised + more <= state->raised)
        return;
    state->raised = there->raised + more;
    state->least = state->raised > state->sum ? state->raised : state->sum;
}

bool best_refuted_elsewhere(best_worker *worker, best_state *state, char by[48])
{
    const best_search *search = worker->search;
    best_state *there = &worker->spare[2];
    for (size_t i = 0; i < search->others; i++) {
        const best_search *other = search->other[i];
        best_state_copy(search, state, there);
        there->raised = 0;
        there->most = BEST_NO_BOUND;
        there->uneven_least = 0;
        there->shares.known = false;
        there->lead_least = there->power_least = INT64_MIN;
        memset(there->held, 0, sizeof there->held);
        if (pare_trial_weigh(other->desk, &there->trial, NULL) != PARE_OK)
            continue;
        best_state_bound(other, there);
        if (best_refuted(other, there, worker->probe, worker->lightest, by))
            return true;
        if (best_raise(other, there)) {
            if (best_refuted(other, there, worker->probe, worker->lightest, by))
                return true;
            raise_by(search, there, state);
        }
    }
    return false;
}

/* Whether a state is done for, after a flight with what is decided by now. */
static bool is_refuted(best_worker *worker, best_state *state)
{
    char by[48];
    if (best_refuted_elsewhere(worker, state, by) || best_flown_out(worker, state, by)) {
        best_refusal(worker, by);
        return true;
    }
    return best_is_hopeless(worker, state, state->least);
}

bool best_is_draggable(const best_search *search, const best_state *state, size_t item,
                       size_t before)
{
    const pare_part *part = state->trial.flown->item[item].part;
    for (size_t s = 0; s < before; s++)
        if (search->slot[s].item != item && best_open(state, s) &&
            (best_drags(search, state, s) & (1u << part->kind | part->does)))
            return true;
    return false;
}

bool best_goes_never(const best_search *search, const best_state *state, size_t slot,
                     const best_option *option, best_state *room)
{
    const pare_craft *craft = &state->trial.changed;
    pare_applied applied;
    pare_error err = {0};
    pare_basket basket = {0};
    bool named = false;
    if (!option->name || pare_swap_edit(&search->desk->shelf, craft, option->name,
                                        &room->trial.changed, &applied, &basket, &err) == PARE_OK)
        return false;
    for (size_t i = 0; i < craft->items; i++) {
        char quoted[80];
        if (craft->item[i].off || i == search->slot[slot].item ||
            craft->item[i].part == option->part)
            continue;
        snprintf(quoted, sizeof quoted, "'%.60s'", craft->item[i].part->id);
        if (!strstr(err.text, quoted))
            continue;
        const unsigned char its = search->slot_of[i];
        if ((its != BEST_NONE && its < slot && best_open(state, its)) ||
            best_is_draggable(search, state, i, slot))
            return false;
        named = true;
    }
    return named;
}

/* ---- options that no set of the group can have ---- */

typedef enum best_known { NOT_KNOWN, MAY_BE, IS_NEVER } best_known;

/* Whether an option is refuted where nothing but the group's four is decided: then it is in all of the
 * group's sets. Asked once a dive. */
static bool is_never_of_group(best_worker *worker, size_t slot, size_t index)
{
    const best_search *search = worker->search;
    unsigned char *knows = &worker->knows[search->slot[slot].first + index];
    const best_option *option = &search->slot[slot].option[index];
    best_state *with = &worker->spare[2];
    char by[48];
    if (*knows != NOT_KNOWN)
        return *knows == IS_NEVER;
    bool never = best_never_with(search, worker->group, slot, index);
    if (!never && best_open(&worker->state[0], slot) &&
        best_state_stands(search, &worker->state[0], slot)) {
        if (!best_state_choose(search, &worker->state[0], slot, option, with))
            never = best_goes_never(search, &worker->state[0], slot, option, with);
        else if (worker->best.found && with->least > worker->best.units)
            never = true;
        else if (is_overtaxed(worker, slot, with, by)) {
            never = true;
            best_refusal(worker, by);
        }
    }
    *knows = (unsigned char)(never ? IS_NEVER : MAY_BE);
    return never;
}

/* Counts each open choice as the lightest of its options that the group may have. False: one has none. */
static bool sharpen(best_worker *worker)
{
    const best_search *search = worker->search;
    best_state *state = &worker->state[0];
    for (size_t s = 0; s < search->slots; s++) {
        const best_slot *slot = &search->slot[s];
        size_t first = 0;
        if (!best_open(state, s) || !best_state_stands(search, state, s))
            continue;
        while (first < slot->options && is_never_of_group(worker, s, first))
            first++;
        if (first < slot->options)
            state->slot_least[s] = slot->option[first].least;
        else if (!best_is_draggable(search, state, slot->item, search->slots))
            return false;
    }
    best_state_bound(search, state);
    return true;
}

/* ---- */

int64_t best_least_with(const best_search *search, const best_state *state, size_t slot,
                        const best_option *option)
{
    int64_t sum = state->sum - state->either;
    const bool link = option && option->part && best_is_antenna_link(option->part);
    if (search->with_sender && (link || slot == search->antenna || slot == search->sender))
        sum -= state->linked;
    /* A link that is put on stays on. */
    if (option && option->least > state->slot_least[slot] && state->either == 0 &&
        ((link && option->name) ||
         !best_is_draggable(search, state, search->slot[slot].item, search->slots))) {
        const int64_t more = option->least - best_open_counts(search, state, slot);
        sum += more > 0 ? more : 0;
    }
    return sum > state->raised ? sum : state->raised;
}

/* Whether the slot that refused all below refuses here already, whatever is decided in between. Without that
 * question, a camera that draws a little too much would be tried again with every buzzer and strap. An
 * option that does not go on now may with another choice, so then only its mass is asked. Works in the
 * state above. */
bool best_culprit_refuses(best_worker *worker, size_t depth)
{
    const best_search *search = worker->search;
    const best_state *state = &worker->state[depth];
    best_state *next = &worker->state[depth + 1];
    const size_t slot = worker->culprit;
    char by[48];
    if (!best_open(state, slot) || !best_state_stands(search, state, slot) ||
        best_is_draggable(search, state, search->slot[slot].item, search->slots))
        return false;
    for (size_t i = 0; i < search->slot[slot].options; i++) {
        const best_option *option = &search->slot[slot].option[i];
        if (!best_may_be(search, state, slot, option))
            continue;
        if (!best_state_choose(search, state, slot, option, next)) {
            if (best_goes_never(search, state, slot, option, next))
                continue;
            best_state_copy(search, state, next);
            next->least = best_least_with(search, state, slot, option);
        }
        if (!best_is_hopeless(worker, next, next->least) && !best_flown_out(worker, next, by) &&
            !best_is_hopeless(worker, next, next->least))
            return false;
    }
    return true;
}

/* Whether what sets weigh at the least rises along a slot's options. A link that stays as it is may still be taken
 * off, and then weighs less than a lighter one that is put on. */
static bool do_options_rise(const best_search *search, size_t slot)
{
    return !best_is_antenna_link(search->desk->loaded.item[search->slot[slot].item].part);
}

/* Counts an open choice as the lightest of its options that still go on, and all below the state as no lighter
 * than what the best of them leaves. False: none goes on. */
static bool probe(best_worker *worker, size_t depth, size_t slot)
{
    const best_search *search = worker->search;
    best_state *state = &worker->state[depth], *with = &worker->spare[2];
    const best_slot *choice = &search->slot[slot];
    const bool draggable = best_is_draggable(search, state, choice->item, search->slots);
    const bool rises = do_options_rise(search, slot);
    const best_option *lightest = NULL;
    int64_t leaves = BEST_NO_BOUND;
    for (size_t i = 0; i < choice->options; i++) {
        const best_option *option = &choice->option[i];
        if (!best_may_be(search, state, slot, option) || is_never_of_group(worker, slot, i))
            continue;
        int64_t least = best_least_with(search, state, slot, option);
        if (least >= leaves && rises)
            break;
        if (least >= leaves)
            continue;
        if (best_state_choose(search, state, slot, option, with))
            least = with->least > least ? with->least : least;
        else if (best_goes_never(search, state, slot, option, with))
            continue;
        lightest = lightest ? lightest : option;
        leaves = least < leaves ? least : leaves;
    }
    if (!lightest)
        return draggable;
    if (!draggable && lightest->least > state->slot_least[slot])
        state->slot_least[slot] = lightest->least;
    if (!draggable && leaves > state->raised)
        state->raised = leaves;
    return true;
}

/* The same of all choices that are open, as far as any may still be worth it. */
static bool probe_all(best_worker *worker, size_t depth)
{
    const best_search *search = worker->search;
    best_state *state = &worker->state[depth];
    for (size_t s = 0; s < search->slots; s++)
        if (best_open(state, s) && best_state_stands(search, state, s) &&
            (!probe(worker, depth, s) || best_is_hopeless(worker, state, state->raised)))
            return false;
    best_state_bound(search, state);
    return !best_is_hopeless(worker, state, state->least);
}

void best_dive_from(best_worker *worker, size_t depth, size_t slot)
{
    const best_search *search = worker->search;
    best_state *state = &worker->state[depth], *next = &worker->state[depth + 1];
    while (slot < search->slots && !best_open(state, slot))
        slot++;
    if (slot >= search->wirers && state->wires_open) {
        worker->culprit = BEST_NONE;
        if (probe_all(worker, depth))
            best_wires(worker, depth, slot);
        return;
    }
    if (slot == search->slots) {
        best_tail(worker, depth);
        return;
    }
    const best_slot *choice = &search->slot[slot];
    const bool stands = best_state_stands(search, state, slot),
               rises = do_options_rise(search, slot);
    const size_t options = stands ? choice->options : 1, refused = worker->refused;
    bool limited = false, any_goes_on = false, refutes = false;
    for (size_t i = 0; i < options && best_go_on(worker); i++) {
        const best_option *option = stands ? &choice->option[i] : NULL;
        const int64_t least = best_least_with(search, state, slot, option);
        if (option && !best_may_be(search, state, slot, option))
            continue;
        if (option && is_never_of_group(worker, slot, i)) {
            refutes = true;
            continue;
        }
        if (!limited && worker->refused - refused >= REFUSALS_WORTH_A_LIMIT) {
            find_most(worker, state);
            limited = true;
        }
        if (goes_too_far(worker, state, least)) {
            if (rises)
                break;
            continue;
        }
        if (!best_state_choose(search, state, slot, option, next) ||
            best_is_hopeless(worker, next, next->least))
            continue;
        if ((is_rated(search, slot) || slot % SLOTS_BETWEEN_FLIGHTS == 0) &&
            is_refuted(worker, next)) {
            refutes = true;
            continue;
        }
        any_goes_on = true;
        worker->culprit = BEST_NONE;
        best_dive_from(worker, depth + 1, slot + 1);
        if (worker->culprit != BEST_NONE && best_culprit_refuses(worker, depth))
            return;
        worker->culprit = BEST_NONE;
    }
    if (refutes && !any_goes_on)
        worker->culprit = slot;
}

bool best_wired(best_worker *worker, size_t depth)
{
    return !is_refuted(worker, &worker->state[depth]);
}

/* ---- classes ---- */

/* The least option of a class that the group may have. False: it has none. */
static bool sharpen_class(best_worker *worker, best_state *state, size_t slot)
{
    const best_slot *choice = &worker->search->slot[slot];
    for (size_t i = 0; i < choice->options; i++)
        if (best_may_be(worker->search, state, slot, &choice->option[i]) &&
            !is_never_of_group(worker, slot, i)) {
            state->slot_least[slot] = choice->option[i].least;
            return true;
        }
    return false;
}

/* Raises a class to what was found out of it with the group's motor and frame. False: nothing goes on with them. */
static bool raise_to_class(const best_worker *worker, best_state *state)
{
    const best_pair *pair = worker->pair;
    for (size_t i = 0; pair && i < pair->classes; i++) {
        if (pair->of[i].moving != state->moving || pair->of[i].calm != state->calm)
            continue;
        if (pair->of[i].more == BEST_NO_BOUND)
            return false;
        const int64_t least = worker->group->plain + pair->of[i].more;
        state->raised = least > state->raised ? least : state->raised;
        state->least = state->raised > state->least ? state->raised : state->least;
    }
    return true;
}

/* While the ESC may be of another sort, or come with the controller, no line of wires or boards is sure; while
 * a camera may come with the transmitter, the camera's is not. So sets are parted by whether each such choice
 * moves what others have, before it is made. */
static void dive_by_class(best_worker *worker, size_t depth, size_t slot)
{
    const best_search *search = worker->search;
    best_state *state = &worker->state[depth], *next = &worker->state[depth + 1];
    while (slot < search->slots && (!search->slot[slot].moves || !best_open(state, slot) ||
                                    !best_state_stands(search, state, slot)))
        slot++;
    if (slot == search->slots) {
        worker->culprit = BEST_NONE;
        if (raise_to_class(worker, state) && !best_is_hopeless(worker, state, state->least) &&
            probe_all(worker, depth) && (depth == 0 || !is_refuted(worker, &worker->state[depth])))
            best_dive_from(worker, depth, 0);
        return;
    }
    for (int moves = 0; moves < 2; moves++) {
        best_state_copy(search, state, next);
        best_set_class(search, next, slot, moves != 0);
        if (!sharpen_class(worker, next, slot))
            continue;
        best_state_bound(search, next);
        if (!best_is_hopeless(worker, next, next->least))
            dive_by_class(worker, depth + 1, slot + 1);
    }
}

/* ---- tips ---- */

static bool swings(const best_search *search, const best_state *state, size_t slot)
{
    return !best_is_grouped(search, slot) && best_open(state, slot) &&
           best_state_stands(search, state, slot) &&
           pare_item_at_tips(&state->trial.flown->item[search->slot[slot].item]);
}

/* What swings at the tips of the arms decides at which masses they ring, and that may be why a group has no set where
 * all else is tried in vain. */
static void dive_by_tips(best_worker *worker, size_t depth, size_t slot)
{
    const best_search *search = worker->search;
    best_state *state = &worker->state[depth], *next = &worker->state[depth + 1];
    while (slot < search->slots && !swings(search, state, slot))
        slot++;
    if (slot == search->slots) {
        dive_by_class(worker, depth, 0);
        return;
    }
    const best_slot *choice = &search->slot[slot];
    for (size_t i = 0; i < choice->options && best_go_on(worker); i++) {
        const best_option *option = &choice->option[i];
        if (!best_may_be(search, state, slot, option) || is_never_of_group(worker, slot, i))
            continue;
        const int64_t least = best_least_with(search, state, slot, option);
        if (goes_too_far(worker, state, least))
            break;
        if (best_state_choose(search, state, slot, option, next) &&
            !best_is_hopeless(worker, next, next->least) && !is_refuted(worker, next))
            dive_by_tips(worker, depth + 1, slot + 1);
    }
}

/* What was passed over at once, before anything was tried, lies higher than the ceiling: to put the group together
 * and to ask what it can have would cost more another time than to go on from here. */
static bool goes_higher(best_worker *worker, size_t nodes)
{
    const int64_t left = worker->left_least;
    if (worker->stopped || left == BEST_NO_BOUND || worker->nodes - nodes > NODES_AT_ONCE)
        return false;
    worker->ceiling = left + left / BEST_STEP_PARTS;
    worker->left_least = BEST_NO_BOUND;
    return true;
}

void best_dive(best_worker *worker)
{
    memset(worker->knows, NOT_KNOWN, worker->search->options);
    if (!is_refuted(worker, &worker->state[0]) && sharpen(worker) &&
        !is_refuted(worker, &worker->state[0])) {
        const size_t nodes = worker->nodes;
        void (*const begins)(best_worker *, size_t, size_t) =
            worker->tips_first ? dive_by_tips : dive_by_class;
        begins(worker, 0, 0);
        if (goes_higher(worker, nodes))
            begins(worker, 0, 0);
    }
    if (worker->stopped && worker->state[0].least < worker->open_least)
        worker->open_least = worker->state[0].least;
}
