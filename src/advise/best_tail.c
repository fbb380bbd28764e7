/* best_tail.c: coax, screws and wires of a craft whose items are decided, lightest first (see best.h).
 *
 * Each of these changes its own line of the ledger and no other, so here masses add up. Wires that carry the
 * pack's or the motors' current reach the flight: their few combinations come first, and each is tested
 * once. The rest is a sum of small lists, followed depth first with the least of what is left as the bound;
 * screws that would not hold at the least mass are left out before.
 *
 * A whole set is put on as a user would put it on, name by name, and judged in full. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/best_inside.h"
#include "base/text.h"
#include "craft/arm_facts.h"
#include "craft/margin.h"

enum {
    MOST_THINGS = PARE_ITEMS + PARE_JOINTS + PARE_RUNS,
    MOST_WAYS = (PARE_LIGHTER_METALS + 1) * 4, /* metals, counts, lengths of one joint */
    MOST_NAMES = 3                             /* of one way */
};

/* One way that a thing's properties may be. */
typedef struct way {
    int64_t units;
    pare_basket bought; /* screws and wire; where money or work is limited */
    pare_work_sum work;
    size_t names;
    char name[MOST_NAMES][PARE_SWAP_NAME];
} way;

typedef struct thing {
    pare_line_of of;
    size_t index; /* of the craft's items, joints or runs */
    size_t ways;
    way way[MOST_WAYS]; /* lightest first */
} thing;

typedef struct best_tail_work {
    best_worker *worker;
    best_state *state; /* wires decided */
    size_t things;
    thing *thing;
    int64_t fixed; /* of all other lines */
    /* The least and the most of the things from one on. */
    int64_t after[MOST_THINGS + 1], after_most[MOST_THINGS + 1];
    size_t chosen[MOST_THINGS];
    pare_basket
        basket[MOST_THINGS + 1]; /* with the things before one; where money or work is limited */
    pare_work_sum work[MOST_THINGS + 1];
    int64_t back; /* cents, for what came off */
    int64_t most; /* sets of more than this fail: see all_heavier_fail() */
    size_t tips;  /* how many things are at the tips of arms; they come first */
    bool tips_known;
    best_tips tip;   /* of all sets here, but for the screws at the tips that are chosen */
    best_band rings; /* sets in it fail, with these */
} tail;

/* ---- ways ---- */

static int by_units(const void *left, const void *right)
{
    const way *a = left, *b = right;
    if (a->units != b->units)
        return a->units < b->units ? -1 : 1;
    for (size_t i = 0; i < a->names && i < b->names; i++) {
        const int order = strcmp(a->name[i], b->name[i]);
        if (order != 0)
            return order;
    }
    return (a->names > b->names) - (a->names < b->names);
}

#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
static void
put_name(way *w, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    vsnprintf(w->name[w->names++], PARE_SWAP_NAME, format, args);
    va_end(args);
}

static void put_joint(const best_search *search, const best_state *state, const pare_sheet *flown,
                      size_t index, thing *to)
{
    const pare_craft *craft = state->trial.flown;
    const pare_joint *now = &craft->joint[index];
    const pare_joint_choices c = best_joint_choices(search, craft, now);
    to->ways = 0;
    for (size_t m = 0; m <= c.materials; m++)
        for (int few = 0; few <= (c.count > 0); few++)
            for (int cut = 0; cut <= (c.length_m > 0); cut++) {
                way *w = &to->way[to->ways];
                pare_joint joint = *now;
                w->names = 0;
                if (m > 0) {
                    joint.material = c.material[m - 1];
                    joint.grade = NULL;
                    put_name(w, "joint.%s.material=%s", now->name,
                             pare_screw_material_name(joint.material));
                }
                if (few) {
                    joint.count = c.count;
                    put_name(w, "joint.%s.count=%d", now->name, c.count);
                }
                if (cut) {
                    joint.length_m = c.length_m;
                    put_name(w, "joint.%s.length=%.0fmm", now->name, 1e3 * c.length_m);
                }
                w->units = best_joint_units(&joint);
                to->ways += best_screws_hold(search, craft, flown, &joint, NULL);
            }
}

static void put_run(const best_search *search, const best_state *state, size_t index, thing *to)
{
    const pare_craft *craft = state->trial.flown;
    const pare_run *now = &craft->run[index];
    const pare_run_choices c = best_run_choices(search, craft, now);
    to->ways = 0;
    for (size_t g = 0; g <= c.gauges; g++)
        for (int cut = 0; cut <= (c.length_m > 0); cut++) {
            way *w = &to->way[to->ways++];
            pare_run run = *now;
            w->names = 0;
            if (g > 0) {
                run.gauge = c.gauge[g - 1];
                run.outer_m = 0;
                put_name(w, "run.%s.gauge=%d", now->name, c.gauge[g - 1]);
            }
            for (size_t i = 0; cut && i < run.ways; i++)
                run.way_m[i] = c.length_m;
            if (cut)
                put_name(w, "run.%s.length=%.0fmm", now->name, 1e3 * c.length_m);
            w->units = best_run_units(&run);
        }
    qsort(to->way, to->ways, sizeof to->way[0], by_units);
}

static bool put_coax(const best_search *search, const best_state *state, size_t index, thing *to)
{
    const pare_item *item = &state->trial.flown->item[index];
    const double cut_m = best_coax_choice_m(search, state->trial.flown, item);
    to->ways = 0;
    if (!(cut_m > 0) || item->included_in)
        return false;
    pare_item cut = *item;
    cut.cut_length_m = cut_m;
    to->way[to->ways].names = 0;
    to->way[to->ways++].units = best_units(item->count * pare_item_each_kg(item));
    to->way[to->ways].names = 0;
    to->way[to->ways].units = best_units(item->count * pare_item_each_kg(&cut));
    put_name(&to->way[to->ways++], "%s.length=%.0fmm", item->name, 1e3 * cut_m);
    qsort(to->way, to->ways, sizeof to->way[0], by_units);
    return true;
}

/* ---- what it costs ---- */

static void add_to(pare_basket *basket, const pare_basket *more)
{
    for (size_t i = 0; i < more->parts; i++)
        if (more->part[i].count)
            pare_basket_part(basket, more->part[i].part, more->part[i].count);
    for (size_t i = 0; i < more->screws; i++) {
        const pare_joint like = {.standard = more->screw[i].standard,
                                 .material = more->screw[i].material,
                                 .thread.nominal_m = more->screw[i].nominal_m,
                                 .length_m = more->screw[i].length_m};
        if (more->screw[i].count)
            pare_basket_screws(basket, &like, more->screw[i].count);
    }
    for (size_t i = 0; i < more->wires; i++)
        if (more->wire[i].length_m > 0)
            pare_basket_wire(basket, more->wire[i].gauge, more->wire[i].length_m);
    basket->full = basket->full || more->full;
}

/* The same of work: each way has its own. */
static pare_work_sum more_work(const pare_work_sum *all, const pare_work_sum *before)
{
    pare_work_sum more = *all;
    for (int g = 0; g < PARE_OPENINGS; g++) {
        more.minutes[g] -= before->minutes[g];
        more.opened[g] = more.minutes[g] > 0;
    }
    return more;
}

static void add_work(pare_work_sum *sum, const pare_work_sum *more)
{
    for (int g = 0; g < PARE_OPENINGS; g++) {
        sum->minutes[g] += more->minutes[g];
        sum->opened[g] = sum->opened[g] || more->opened[g];
    }
}

/* ---- whole sets ---- */

static bool has_what_it_must(const best_search *search, const pare_craft *craft)
{
    for (size_t i = 0; i < craft->items; i++)
        for (size_t n = 0; n < search->nevers; n++)
            if (!craft->item[i].off && craft->item[i].part == search->never_part[n])
                return false;
    for (size_t m = 0; m < search->musts; m++) {
        bool has = false;
        for (size_t i = 0; i < craft->items; i++)
            has = has || (!craft->item[i].off && craft->item[i].part == search->must_part[m]);
        if (!has)
            return false;
    }
    return true;
}

/* After a set has failed: whether all that weigh as much or more fail, by what refutes a state. */
static bool all_heavier_fail(tail *t, int64_t units)
{
    const best_search *search = t->worker->search;
    best_state *state = t->state;
    const int64_t least = state->least;
    char by[48];
    best_balance(t->worker, t->fixed + t->after_most[0], state);
    state->least = units;
    const bool fail = best_refuted(search, state, t->worker->probe, t->worker->lightest, by);
    state->least = least;
    return fail;
}

/* Puts the names of a way on, by two spare states in turn. @return where it stands; NULL: one does not go
 * on */
static const best_state *put_names(const tail *t, const best_state *now, const way *w, size_t *turn)
{
    best_worker *worker = t->worker;
    for (size_t n = 0; n < w->names; n++) {
        pare_swap_name name;
        best_state *next = &worker->spare[*turn];
        *turn = 1 - *turn;
        if (pare_swap_name_read(worker->reader, w->name[n], &name, NULL) != PARE_OK ||
            !best_state_edit(worker->search, now, &name, next))
            return NULL;
        now = next;
    }
    return now;
}

/* Puts all names of the chosen ways on. @return NULL: one does not go on */
static best_state *put_on(const tail *t)
{
    best_worker *worker = t->worker;
    const best_state *now = t->state;
    size_t turn = 0;
    for (size_t i = 0; i < t->things; i++) {
        now = put_names(t, now, &t->thing[i].way[t->chosen[i]], &turn);
        if (!now)
            return NULL;
    }
    best_state *whole = &worker->spare[1 - turn];
    if (now == t->state)
        best_state_copy(worker->search, now, whole);
    return best_state_weigh(worker->search, whole) ? whole : NULL;
}

/* With propellers that come off to be put on again, which a state below may yet save. */
static bool takes_too_long(const best_search *search, const best_state *whole)
{
    const double *most_min = search->ask->most_work_min;
    return most_min && best_is_over(pare_work_sum_min(&whole->work, whole->trial.flown), *most_min);
}

static const pare_line *find_line(const pare_assembly *a, pare_line_of of, size_t index)
{
    for (size_t i = 0; i < a->lines; i++)
        if (a->line[i].of == of && a->line[i].index == index)
            return &a->line[i];
    return NULL;
}

static int64_t line_units(const pare_assembly *assembly, pare_line_of of, size_t index)
{
    const pare_line *line = find_line(assembly, of, index);
    return line ? best_units(line->mass_kg.value) : 0;
}

/* By how much less, and more, than this one other sets of the tail may weigh that in another loadout weigh the same:
 * by what is not on the craft there. False: not known. */
static bool may_differ(const tail *t, const best_state *whole, const best_state *there,
                       int64_t *less, int64_t *more)
{
    *less = *more = 0;
    for (size_t i = 0; i < t->things; i++) {
        const thing *one = &t->thing[i];
        const pare_line *here = find_line(&whole->trial.sheet.assembly, one->of, one->index),
                        *other = find_line(&there->trial.sheet.assembly, one->of, one->index);
        const int64_t units = one->way[t->chosen[i]].units;
        if (!here || (other && best_units(other->mass_kg.value) != units))
            return false;
        *less += other ? 0 : units - one->way[0].units;
        *more += other ? 0 : one->way[one->ways - 1].units - units;
    }
    return true;
}

/* Whether a whole set does its job in the other loadouts too. Where it rings in one, others with the same tips ring
 * there as well. */
static bool meets_elsewhere(tail *t, const best_state *whole, char by[48])
{
    best_worker *worker = t->worker;
    const best_search *search = worker->search;
    best_state *there = &worker->spare[2];
    for (size_t i = 0; i < search->others; i++) {
        const best_search *other = search->other[i];
        best_state_copy(search, whole, there);
        if (!best_state_weigh(other, there))
            return false;
        pare_sheet_judge(there->trial.flown, &there->trial.sheet);
        if (pare_best_meets(search->ask, other->desk->craft, &other->desk->sheet,
                            &there->trial.sheet, by)) {
            if (best_is_sure(other, there->trial.flown, &there->trial.sheet, worker->probe, by))
                continue;
            return false;
        }
        int64_t less, more;
        const int64_t rings = may_differ(t, whole, there, &less, &more)
                                  ? best_rings_until(other, there, by, worker->probe)
                                  : 0;
        const best_band band = {whole->units + more, rings + whole->units - there->units - less};
        if (rings > 0 && band.until >= band.from)
            t->rings = best_band_join(t->rings, band);
        return false;
    }
    return true;
}

static void note_ring(tail *t, best_band band)
{
    t->rings = best_band_join(t->rings, band);
    if (t->tips_known)
        best_rung_keep(t->worker->rungs, &t->tip, band);
}

/* With the tips' screws chosen: where sets with such tips have rung before. */
static void recall_ring(tail *t)
{
    for (size_t i = 0; i < t->tips; i++)
        t->tip.units[i] = t->thing[i].way[t->chosen[i]].units;
    t->rings = t->tips_known ? best_rung_of(t->worker->rungs, &t->tip) : (best_band){0, 0};
}

static void try_whole(tail *t, int64_t units)
{
    best_worker *worker = t->worker;
    const best_search *search = worker->search;
    char by[48];
    best_state *whole = put_on(t);
    worker->sets++;
    if (!whole)
        return;
    if (whole->units != units)
        worker->misses++;
    const int64_t cents = best_set_cents(search, whole, worker->shopping);
    if (!has_what_it_must(search, whole->trial.flown) ||
        (search->ask->most_cents && cents > *search->ask->most_cents) ||
        takes_too_long(search, whole))
        return;
    pare_sheet_judge(whole->trial.flown, &whole->trial.sheet);
    if (!pare_best_meets(search->ask, search->desk->craft, &search->desk->sheet,
                         &whole->trial.sheet, by)) {
        best_refusal(worker, by);
        const int64_t rings = best_rings_until(search, whole, by, worker->probe);
        if (rings > 0)
            note_ring(t, (best_band){whole->units, rings});
        else if (all_heavier_fail(t, units) && units - 1 < t->most)
            t->most = units - 1;
        return;
    }
    if (!best_is_sure(search, whole->trial.flown, &whole->trial.sheet, worker->probe, by)) {
        best_refusal(worker, by);
        if (all_heavier_fail(t, units) && units - 1 < t->most)
            t->most = units - 1;
        return;
    }
    if (!meets_elsewhere(t, whole, by)) {
        best_refusal(worker, by);
        return;
    }
    if (!best_is_better(&worker->best, whole->units, cents, whole->swaps, whole->swap))
        return;
    worker->best.found = true;
    worker->best.units = whole->units;
    worker->best.cents = cents;
    worker->best.value = best_raised_value(search, &whole->trial.sheet);
    worker->best.swaps = whole->swaps;
    memcpy(worker->best.swap, whole->swap, whole->swaps * sizeof whole->swap[0]);
}

static bool is_limited(const best_search *search)
{
    return search->ask->most_cents || search->ask->most_work_min;
}

/* Whether a way costs more than the set may, or takes longer, with the things before it. */
static bool is_beyond(tail *t, size_t from, const way *w)
{
    const best_search *search = t->worker->search;
    t->basket[from + 1] = t->basket[from];
    t->work[from + 1] = t->work[from];
    add_to(&t->basket[from + 1], &w->bought);
    add_work(&t->work[from + 1], &w->work);
    const int64_t *most = search->ask->most_cents;
    const double *most_min = search->ask->most_work_min;
    const int64_t cents = most ? best_basket_cents(search, &t->basket[from + 1]) : 0;
    return (most && (cents == INT64_MAX || cents - t->back > *most)) ||
           (most_min && best_is_over(pare_work_sum_least_min(&t->work[from + 1]), *most_min));
}

static int64_t lesser(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

/* Whether all sets ring that weigh from so much to so much and are of any worth; those beyond the band may be for
 * another dive. */
static bool all_ring(tail *t, int64_t from, int64_t to)
{
    const best_set *best = &t->worker->best;
    const int64_t least = from > t->state->raised ? from : t->state->raised;
    const int64_t most = lesser(lesser(to, t->most), best->found ? best->units : BEST_NO_BOUND);
    return least >= t->rings.from &&
           (most <= t->rings.until || best_is_left(t->worker, t->rings.until + 1));
}

static void choose(tail *t, size_t from, int64_t units)
{
    if (from == t->tips)
        recall_ring(t);
    if (from == t->things) {
        if (units < t->rings.from || units > t->rings.until)
            try_whole(t, units);
        return;
    }
    const best_search *search = t->worker->search;
    const thing *here = &t->thing[from];
    for (size_t i = 0; i < here->ways && best_go_on(t->worker); i++) {
        const int64_t with = units + here->way[i].units;
        if (with + t->after[from + 1] > t->most ||
            best_is_hopeless(t->worker, t->state, with + t->after[from + 1]))
            break;
        if (with + t->after_most[from + 1] < t->state->raised ||
            (from >= t->tips &&
             all_ring(t, with + t->after[from + 1], with + t->after_most[from + 1])))
            continue;
        t->chosen[from] = i;
        if (is_limited(search) && is_beyond(t, from, &here->way[i]))
            continue;
        choose(t, from + 1, with);
    }
}

/* ---- the rest, with the wires decided ---- */

static void sum_least(tail *t)
{
    t->after[t->things] = t->after_most[t->things] = 0;
    for (size_t i = t->things; i-- > 0;) {
        const thing *here = &t->thing[i];
        t->after[i] = t->after[i + 1] + here->way[0].units;
        t->after_most[i] = t->after_most[i + 1] + here->way[here->ways - 1].units;
    }
}

/* What a thing asks to be bought as it is on a craft. */
static pare_basket bought_for(const best_search *search, const pare_craft *craft, const thing *of)
{
    pare_basket basket = {0};
    if (of->of == PARE_LINE_JOINT)
        best_screws_bought(search, craft, &craft->joint[of->index], &basket);
    else if (of->of == PARE_LINE_RUN)
        best_wire_bought(search, craft, &craft->run[of->index], &basket);
    return basket;
}

/* What each way asks to be bought. One that does not go on by itself is left for put_on(). */
static void price_ways(tail *t)
{
    const best_search *search = t->worker->search;
    const pare_craft *craft = &t->state->trial.changed;
    best_surely_bought(search, t->state, &t->basket[0]);
    for (size_t i = 0; i < craft->runs; i++)
        if (pare_run_of_power(craft, &craft->run[i]))
            best_wire_bought(search, craft, &craft->run[i], &t->basket[0]);
    t->back = best_most_back_cents(search, t->state);
    t->work[0] = t->state->work;
    for (size_t i = 0; i < t->things; i++)
        for (size_t k = 0; k < t->thing[i].ways; k++) {
            way *w = &t->thing[i].way[k];
            size_t turn = 0;
            const best_state *with = put_names(t, t->state, w, &turn);
            w->bought =
                with ? bought_for(search, &with->trial.changed, &t->thing[i]) : (pare_basket){0};
            w->work = with ? more_work(&with->work, &t->state->work) : (pare_work_sum){0};
        }
}

/* The ways of a joint. False: it can be in none. */
static bool gather_joint(tail *t, const pare_sheet *flown, size_t index)
{
    const best_search *search = t->worker->search;
    const pare_craft *craft = t->state->trial.flown;
    const pare_assembly *a = &t->state->trial.sheet.assembly;
    thing *here = &t->thing[t->things];
    here->of = PARE_LINE_JOINT;
    here->index = index;
    put_joint(search, t->state, flown, index, here);
    qsort(here->way, here->ways, sizeof here->way[0], by_units);
    if (here->ways == 0) {
        char by[48];
        if (!best_screws_hold(search, craft, flown, &craft->joint[index], by))
            best_refusal(t->worker, by);
        return false;
    }
    t->fixed -= line_units(a, PARE_LINE_JOINT, index);
    t->things++;
    return true;
}

/* False: something can be in no way. */
static bool gather_rest(tail *t, const pare_sheet *flown)
{
    const best_search *search = t->worker->search;
    const pare_craft *craft = t->state->trial.flown;
    const pare_assembly *a = &t->state->trial.sheet.assembly;
    t->things = 0;
    t->tips_known = best_tips_of(t->worker, t->state, &t->tip);
    t->fixed = t->state->units;
    for (size_t i = 0; i < craft->joints; i++)
        if (find_line(a, PARE_LINE_JOINT, i) && pare_joint_at_tips(craft, &craft->joint[i]) &&
            !gather_joint(t, flown, i))
            return false;
    t->tips = t->things;
    for (size_t i = 0; i < craft->items; i++)
        if (!craft->item[i].off && put_coax(search, t->state, i, &t->thing[t->things])) {
            t->fixed -= line_units(a, PARE_LINE_ITEM, i);
            t->thing[t->things].of = PARE_LINE_ITEM;
            t->thing[t->things++].index = i;
        }
    for (size_t i = 0; i < craft->joints; i++)
        if (find_line(a, PARE_LINE_JOINT, i) && !pare_joint_at_tips(craft, &craft->joint[i]) &&
            !gather_joint(t, flown, i))
            return false;
    for (size_t i = 0; i < craft->runs; i++) {
        if (!find_line(a, PARE_LINE_RUN, i) || pare_run_of_power(craft, &craft->run[i]))
            continue;
        put_run(search, t->state, i, &t->thing[t->things]);
        t->fixed -= line_units(a, PARE_LINE_RUN, i);
        t->thing[t->things].of = PARE_LINE_RUN;
        t->thing[t->things++].index = i;
    }
    sum_least(t);
    return true;
}

static bool has_swap(const best_state *state, const char *id)
{
    for (size_t i = 0; i < state->swaps; i++)
        if (strcmp(state->swap[i].id, id) == 0)
            return true;
    return false;
}

/* Whether a state whose items are decided has just the parts of a set that is barred. */
static bool is_barred(const best_search *search, const best_state *state)
{
    size_t parts = 0;
    for (size_t i = 0; i < state->swaps; i++)
        parts += state->swap[i].what == PARE_WHAT_ITEM;
    for (size_t b = 0; b < search->ask->bars; b++) {
        const pare_best_bar *bar = &search->ask->bar[b];
        size_t has = 0;
        while (has < bar->ids && has_swap(state, bar->id[has]))
            has++;
        if (has == bar->ids && parts == bar->ids)
            return true;
    }
    return false;
}

void best_tail(best_worker *worker, size_t depth)
{
    char by[48];
    tail *t = worker->tail;
    best_state *state = &worker->state[depth];
    if (is_barred(worker->search, state))
        return;
    best_balance(worker, BEST_NO_BOUND, state);
    if (best_refuted_elsewhere(worker, state, by) ||
        best_refuted(worker->search, state, worker->probe, worker->lightest, by)) {
        best_refusal(worker, by);
        return;
    }
    if (best_raise(worker->search, state) &&
        best_refuted(worker->search, state, worker->probe, worker->lightest, by)) {
        best_refusal(worker, by);
        return;
    }
    worker->probe->rig.mass_kg = best_least_kg(state->least);
    t->worker = worker;
    t->state = state;
    t->most = BEST_NO_BOUND;
    const bool any = gather_rest(t, worker->probe);
    if (any && is_limited(worker->search))
        price_ways(t);
    if (any)
        choose(t, 0, t->fixed);
}

/* ---- the wires that carry power ---- */

/* One run decided, in the state above. False: a name does not go on. */
static bool put_way(best_worker *worker, size_t depth, const way *w)
{
    const best_search *search = worker->search;
    best_state *next = &worker->state[depth + 1];
    best_state_copy(search, &worker->state[depth], next);
    for (size_t n = 0; n < w->names; n++) {
        pare_swap_name name;
        best_state *spare = &worker->spare[0];
        if (pare_swap_name_read(worker->reader, w->name[n], &name, NULL) != PARE_OK ||
            !best_state_edit(search, next, &name, spare) || !best_state_weigh(search, spare))
            return false;
        best_state_copy(search, spare, next);
    }
    return true;
}

static void decide_wires(best_worker *worker, size_t depth, size_t run, size_t slot)
{
    const best_search *search = worker->search;
    best_state *state = &worker->state[depth];
    const pare_craft *craft = state->trial.flown;
    while (run < craft->runs && !pare_run_of_power(craft, &craft->run[run]))
        run++;
    if (run == craft->runs) {
        best_state *next = &worker->state[depth + 1];
        best_state_copy(search, state, next);
        next->wires_open = false;
        best_state_bound(search, next);
        if (!best_is_hopeless(worker, next, next->least) && best_wired(worker, depth + 1))
            best_dive_from(worker, depth + 1, slot);
        return;
    }
    thing wires;
    put_run(search, state, run, &wires);
    for (size_t i = 0; i < wires.ways && best_go_on(worker); i++) {
        if (!put_way(worker, depth, &wires.way[i]))
            continue;
        worker->culprit = BEST_NONE;
        decide_wires(worker, depth + 1, run + 1, slot);
        if (worker->culprit != BEST_NONE && best_culprit_refuses(worker, depth))
            return;
    }
    worker->culprit = BEST_NONE;
}

void best_wires(best_worker *worker, size_t depth, size_t slot)
{
    worker->culprit = BEST_NONE;
    if (!best_wired(worker, depth))
        return;
    decide_wires(worker, depth, 0, slot);
}

best_tail_work *best_tail_room(void)
{
    tail *t = calloc(1, sizeof *t);
    thing *things = calloc(MOST_THINGS, sizeof *things);
    if (!t || !things) {
        free(t);
        free(things);
        return NULL;
    }
    t->thing = things;
    return t;
}

void best_tail_free(best_tail_work *t)
{
    if (t)
        free(t->thing);
    free(t);
}
