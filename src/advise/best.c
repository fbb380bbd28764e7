/* best.c: the rounds of the search, and its answer (see best.h).
 *
 * A round takes the least groups, in their order. Those that were only summed are put together, bounded again and
 * tested; those that have been are searched to the end. What is dived into could be the best for all that is known,
 * and while one thread is in a long dive the others refine what comes after it. In a round every group is held
 * against the best from before it; what they find is merged in their order. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "advise/best_inside.h"
#include "advise/threads.h"
#include "base/plain_locale.h"
#include "base/text.h"
#include "craft/to_rig.h"

enum {
    REFINED_A_ROUND = 64,
    DIVED_A_ROUND = 4,
    ROUND_MOST = REFINED_A_ROUND + DIVED_A_ROUND,
    MOST_REACH = 24,
    LEAST_REACH = -40,    /* less than a unit */
    ONE_DIVE_MORE = 2,    /* of reach */
    FIRST_PATIENCE = 500, /* nodes */
    FIRST_BUDGET = 500,
    MORE_THAN_LAST = 4,
    FIRST_SET_NODES = 100, /* a group */
    FIRST_SET_MOST = 2000,
    FIRST_SET_TURNS = 3,
    MOST_TURNS = 20
};

/* What came of one group in a round. */
typedef struct outcome {
    best_group group;
    bool dives; /* into the group, which is refined; or refines it */
    bool fits, built, cut;
    bool again; /* its motor, or this and its frame, have been weighed: its turn may come later */
    best_pair *pair; /* what is known of its motor and frame */
    char by[48];
    best_set best;
    bool stopped, tired;
    size_t nodes;
    int64_t open_least, left_least;
} outcome;

typedef struct rounds {
    best_search search;
    best_groups groups;
    best_state *first;
    size_t workers;
    best_worker *worker;
    outcome *outcome; /* [ROUND_MOST] */
    best_set best;
    double stopped_promise; /* where figures are raised, of these */
    int64_t stopped_least;  /* of groups that a stop left unfinished */
    atomic_bool stop;
    pare_best *answer;
} rounds;

/* ---- choices and parts by name ---- */

static bool is_choice(const pare_craft *craft, const char *hold)
{
    char of[PARE_SWAP_NAME];
    const bool joint = strncmp(hold, "joint.", 6) == 0, run = strncmp(hold, "run.", 4) == 0;
    const char *begins = joint ? hold + 6 : run ? hold + 4 : hold;
    const size_t length = strcspn(begins, ".");
    if (length == 0 || length >= sizeof of)
        return false;
    memcpy(of, begins, length);
    of[length] = '\0';
    const char *property = begins[length] ? begins + length + 1 : NULL;
    if (joint)
        return pare_craft_joint(craft, of) >= 0 &&
               (!property || strcmp(property, "material") == 0 || strcmp(property, "count") == 0 ||
                strcmp(property, "length") == 0);
    if (run)
        return pare_craft_run(craft, of) >= 0 &&
               (!property || strcmp(property, "gauge") == 0 || strcmp(property, "length") == 0);
    return pare_craft_item(craft, of) >= 0 && (!property || strcmp(property, "length") == 0);
}

static pare_status no_such_choice(const pare_craft *craft, const char *hold, pare_arena *arena,
                                  pare_error *err)
{
    const char *known[PARE_ITEMS + PARE_JOINTS + PARE_RUNS];
    size_t count = 0;
    for (size_t i = 0; i < craft->items; i++)
        known[count++] = craft->item[i].name;
    for (size_t i = 0; i < craft->joints; i++)
        known[count++] = pare_arena_printf(arena, "joint.%s", craft->joint[i].name);
    for (size_t i = 0; i < craft->runs; i++)
        known[count++] = pare_arena_printf(arena, "run.%s", craft->run[i].name);
    const char *near = pare_nearest(hold, count, known);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "craft '%s' has no choice '%s'; did you mean '%s'?",
                         craft->name, hold, near);
    return pare_fail(err, PARE_UNKNOWN,
                     "craft '%s' has no choice '%s'; say an item, joint.NAME or run.NAME",
                     craft->name, hold);
}

static pare_status find_parts(const best_search *search, size_t count, const char *const id[],
                              const pare_part ***found, pare_error *err)
{
    const pare_part **parts = pare_arena_array(search->arena, count + 1, sizeof parts[0]);
    if (!parts)
        return pare_no_memory(err);
    for (size_t i = 0; i < count; i++) {
        parts[i] = pare_bench_part(search->bench, id[i]);
        if (parts[i])
            continue;
        const char **known =
            pare_arena_array(search->arena, search->bench->parts + 1, sizeof known[0]);
        for (size_t p = 0; known && p < search->bench->parts; p++)
            known[p] = search->bench->part[p]->id;
        const char *near = known ? pare_nearest(id[i], search->bench->parts, known) : NULL;
        if (near)
            return pare_fail(err, PARE_UNKNOWN, "the bench has no part '%s'; did you mean '%s'?",
                             id[i], near);
        return pare_fail(err, PARE_UNKNOWN, "the bench has no part '%s'; pare parts lists them",
                         id[i]);
    }
    *found = parts;
    return PARE_OK;
}

/* Where the brief says how much it may weigh, what is heavier fails; as a sheet sums it. */
static int64_t most_asked(const pare_brief *brief)
{
    const pare_limit *limit = pare_brief_limit(brief, "all_up");
    return limit && !limit->at_least ? best_units(limit->value) + BEST_ROUNDED : BEST_NO_BOUND;
}

/* What a bench has no part for is not known. */
static double efficiency_most(const best_search *search)
{
    double most = pare_regulator_usual();
    for (size_t i = 0; i < search->bench->parts; i++)
        most = fmax(most, search->bench->part[i]->spec[PARE_SPEC_EFFICIENCY].value);
    return search->ask->sought ? fmax(most, 1) : most;
}

static pare_status read_ask(best_search *search, pare_error *err)
{
    const pare_best_ask *ask = search->ask;
    const pare_craft *craft = search->desk->craft;
    for (size_t i = 0; i < ask->holds; i++)
        if (!is_choice(craft, ask->hold[i]))
            return no_such_choice(craft, ask->hold[i], search->arena, err);
    search->nevers = ask->nevers;
    search->musts = ask->musts;
    pare_status status = find_parts(search, ask->nevers, ask->never, &search->never_part, err);
    if (status == PARE_OK)
        status = find_parts(search, ask->musts, ask->must, &search->must_part, err);
    for (size_t i = 0; status == PARE_OK && i < ask->nevers; i++)
        for (size_t k = 0; k < ask->musts; k++)
            if (search->never_part[i] == search->must_part[k])
                return pare_fail(err, PARE_BAD_DATA,
                                 "part '%s' must be on and must never be: one of them",
                                 ask->never[i]);
    const pare_limit *margin = pare_brief_limit(&craft->brief, "margin");
    search->margin_least = margin ? margin->value : 0;
    search->most = most_asked(&craft->brief);
    search->efficiency_most = efficiency_most(search);
    return status;
}

/* ---- loadouts ---- */

pare_status pare_best_heaviest(const pare_craft *craft, int *loadout, pare_error *err)
{
    pare_craft *loaded = malloc(sizeof *loaded);
    pare_sheet *sheet = malloc(sizeof *sheet);
    pare_status status = loaded && sheet ? PARE_OK : pare_no_memory(err);
    int64_t most = -1;
    *loadout = -1;
    for (size_t i = 0; status == PARE_OK && i < craft->loadouts; i++) {
        status = pare_craft_load(craft, (int)i, loaded, err);
        if (status == PARE_OK)
            status = pare_sheet_weigh(loaded, sheet, err);
        if (status == PARE_OK && pare_best_100ug(&sheet->assembly) > most) {
            most = pare_best_100ug(&sheet->assembly);
            *loadout = (int)i;
        }
    }
    free(sheet);
    free(loaded);
    return status;
}

/* Once the choices are gathered, which are the same. */
static pare_status open_others(best_search *search, pare_error *err)
{
    const pare_craft *craft = search->desk->craft;
    pare_status status = PARE_OK;
    size_t others = 0;
    for (size_t i = 0; status == PARE_OK && search->ask->every && i < craft->loadouts; i++) {
        pare_desk *desk;
        if ((int)i == search->ask->loadout)
            continue;
        best_search *there = pare_arena_zeros(search->arena, sizeof *there);
        status = there ? pare_desk_open(search->bench, craft, (int)i, search->arena, &desk, err)
                       : pare_no_memory(err);
        if (status == PARE_OK) {
            *there = *search;
            there->desk = desk;
            there->others = 0;
            search->other[others++] = there;
        }
    }
    search->others = others;
    return status;
}

/* ---- threads ---- */

static void close_workers(rounds *r)
{
    for (size_t i = 0; r->worker && i < r->workers; i++) {
        pare_units_close(r->worker[i].reader);
        free(r->worker[i].state);
        free(r->worker[i].spare);
        free(r->worker[i].knows);
        free(r->worker[i].probe);
        free(r->worker[i].lightest);
        free(r->worker[i].shopping);
        best_tail_free(r->worker[i].tail);
        free(r->worker[i].rungs);
    }
    free(r->worker);
    free(r->outcome);
    free(r->first);
    best_groups_close(&r->groups);
}

static pare_status open_workers(rounds *r, pare_error *err)
{
    r->workers = r->search.ask->alone ? 1 : (size_t)pare_threads(ROUND_MOST, 1);
    r->worker = calloc(r->workers, sizeof r->worker[0]);
    r->outcome = calloc(ROUND_MOST, sizeof r->outcome[0]);
    r->first = calloc(1, sizeof *r->first);
    if (!r->worker || !r->outcome || !r->first)
        return pare_no_memory(err);
    for (size_t i = 0; i < r->workers; i++) {
        best_worker *w = &r->worker[i];
        *w = (best_worker){.search = &r->search,
                           .reader = pare_units_open(),
                           .first = r->first,
                           .state = calloc(BEST_STATES, sizeof w->state[0]),
                           .spare = calloc(3, sizeof w->spare[0]),
                           .knows = calloc(r->search.options + 1, 1),
                           .probe = calloc(1, sizeof *w->probe),
                           .lightest = calloc(1, sizeof *w->lightest),
                           .shopping = calloc(1, sizeof *w->shopping),
                           .tail = best_tail_room(),
                           .rungs = best_rungs_room()};
        if (!w->reader || !w->state || !w->spare || !w->probe || !w->lightest || !w->tail ||
            !w->rungs || !w->knows || !w->shopping)
            return pare_no_memory(err);
    }
    return PARE_OK;
}

static best_worker *worker_here(const rounds *r)
{
#ifdef _OPENMP
    return &r->worker[omp_get_thread_num()];
#else
    return &r->worker[0];
#endif
}

/* ---- rounds ---- */

static void refine(best_worker *worker, const rounds *r, outcome *out)
{
    const best_set *best = &r->best;
    out->built = out->cut = out->again = false;
    out->fits = best_group_fits(worker->search, &out->group);
    if (!out->fits)
        return;
    if (out->group.depth < BEST_GROUPED) {
        if (!out->group.weighed) {
            out->fits = out->again = best_motor_weigh(worker, &r->groups, &out->group);
            return;
        }
        out->cut =
            out->group.depth + 1 == BEST_GROUPED && best_group_fails(worker, &out->group, out->by);
        return;
    }
    if (!out->pair)
        out->pair = best_pair_ask(worker, &r->groups, &out->group);
    if (!out->pair || out->pair->more == BEST_NO_BOUND)
        return;
    if (!out->group.weighed) {
        best_group_weigh(&out->group, out->pair->more);
        out->again = true;
        return;
    }
    out->built = best_group_build(worker, &out->group) &&
                 !best_is_too_dear(worker->search, &worker->state[0]);
    if (!out->built)
        return;
    out->group.refined = true;
    out->group.least = worker->state[0].least;
    if (!worker->search->ask->raised && best->found && out->group.least > best->units)
        return;
    out->cut = best_refuted_elsewhere(worker, &worker->state[0], out->by) ||
               best_flown_out(worker, &worker->state[0], out->by);
    out->group.least = worker->state[0].least;
    if (worker->search->ask->raised) {
        out->group.turn = 1;
        out->group.promise = best_promise(worker->search, &worker->state[0], worker->probe);
    }
}

/* A dive goes a little beyond the group's bound, and each one that follows four times as far: what is looked into
 * before anything has been found would else be all that the group can be. One that tires goes back. */
static int64_t ceiling_of(const best_group *group)
{
    const int64_t step = group->least / BEST_STEP_PARTS;
    if (group->reach >= MOST_REACH)
        return BEST_NO_BOUND;
    return group->least + (group->reach >= 0 ? step << group->reach : step >> -group->reach);
}

/* What lies below a ceiling grows by powers of it: a dive that takes many times as long as the one before went
 * too far at once. Each time that it tires it may take longer, so it comes to an end. */
static size_t budget_of(const best_group *group)
{
    return (FIRST_BUDGET + MORE_THAN_LAST * (size_t)group->nodes) << group->tired;
}

/* Where figures are raised a group that takes long waits until all others have had their turn. */
static size_t patience_of(const best_group *group)
{
    return (size_t)FIRST_PATIENCE << (2 * (group->turn - 1));
}

/* Before a dive: what is to be beaten, how many nodes it may take, and how far it goes. */
static void begin_dive(best_worker *worker, const best_set *best, size_t patience, int64_t ceiling)
{
    worker->best = *best;
    worker->stopped = worker->tired = false;
    worker->begun = worker->nodes;
    worker->patience = patience;
    worker->open_least = worker->left_least = BEST_NO_BOUND;
    worker->ceiling = ceiling;
}

static void dive(best_worker *worker, const best_set *best, outcome *out)
{
    static const best_set none = {0};
    const bool raises = worker->search->ask->raised;
    begin_dive(worker, raises ? &none : best,
               raises ? patience_of(&out->group) : budget_of(&out->group), ceiling_of(&out->group));
    worker->pair = out->pair;
    worker->tips_first = out->group.tips_first;
    if (best_group_build(worker, &out->group))
        best_dive(worker);
    worker->pair = NULL;
    worker->tips_first = false;
    out->best = worker->best;

    out->stopped = worker->stopped;
    out->tired = worker->tired;
    out->nodes = worker->nodes - worker->begun;
    out->open_least = worker->open_least;
    out->left_least = worker->left_least;
}

static void look_at(rounds *r, outcome *out)
{
    const locale_t before = pare_plain_locale_enter();
    if (out->dives)
        dive(worker_here(r), &r->best, out);
    else
        refine(worker_here(r), r, out);
    pare_plain_locale_leave(before);
}

/* Dives take longest, so they are begun first. */
static void do_round(rounds *r, size_t count)
{
    outcome *order[ROUND_MOST];
    size_t ordered = 0;
    for (int dives = 1; dives >= 0; dives--)
        for (size_t i = 0; i < count; i++)
            if (r->outcome[i].dives == (dives == 1))
                order[ordered++] = &r->outcome[i];
    const int threads = (int)(count < r->workers ? count : r->workers);
#ifdef _OPENMP
#pragma omp parallel for num_threads(threads) schedule(dynamic, 1)
#else
    (void)threads;
#endif
    for (size_t i = 0; i < ordered; i++)
        look_at(r, order[i]);
}

/* Others of the round may have found out the same. */
static void keep_pair(rounds *r, const outcome *out)
{
    best_pair **kept = best_pair_of(&r->groups, &out->group);
    if (!*kept)
        *kept = out->pair;
    else if (*kept != out->pair)
        free(out->pair);
    r->groups.failed = r->groups.failed || !out->pair;
}

static void merge_refined(rounds *r, const outcome *out)
{
    const bool whole = out->group.depth == BEST_GROUPED;
    if (whole && out->fits)
        keep_pair(r, out);
    r->answer->opened += out->built;
    r->groups.made += whole && out->fits && !out->again;
    if (out->cut)
        best_count(&r->answer->cuts, r->answer->cut, out->by, 1);
    else if (out->built || out->again)
        best_groups_put(&r->groups, out->group);
    else if (out->fits && !whole)
        best_groups_deeper(&r->groups, out->group);
}

/* The craft that all groups begin with asks for more than the best set has. */
static void raise_limits(rounds *r)
{
    const pare_best_raised *raised = r->search.ask->raised;
    pare_brief *briefs[2] = {&r->first->trial.changed.brief, &r->first->trial.loaded.brief};
    for (int b = 0; b < 2; b++)
        for (size_t i = 0; i < briefs[b]->limits; i++) {
            pare_limit *limit = &briefs[b]->limit[i];
            const int figure = pare_figure_of_limit(limit->key);
            if (limit->at_least && (figure == raised->figure[0] || figure == raised->figure[1]))
                limit->value = fmax(limit->value, r->best.value * (1 + raised->grain));
        }
}

/* A dive ended with the first set that it found, or with its patience: the group is looked into again. */
static void merge_raised(rounds *r, const outcome *out)
{
    best_group again = out->group;
    if (out->best.found && (!r->best.found || out->best.value > r->best.value)) {
        r->best = out->best;
        raise_limits(r);
    }
    if (out->stopped && !out->tired) {
        r->stopped_promise = fmax(r->stopped_promise, again.promise);
        return;
    }
    if (!out->best.found && !out->tired && out->left_least == BEST_NO_BOUND)
        return;
    if (out->tired && again.turn < MOST_TURNS)
        again.turn++;
    else if (!out->best.found && !out->tired && again.reach < MOST_REACH)
        again.reach += ONE_DIVE_MORE;
    best_groups_put(&r->groups, again);
}

static void merge_dived(rounds *r, const outcome *out)
{
    r->answer->dived++;
    if (r->search.ask->raised) {
        merge_raised(r, out);
        return;
    }
    if (out->best.found &&
        best_is_better(&r->best, out->best.units, out->best.cents, out->best.swaps, out->best.swap))
        r->best = out->best;
    best_group again = out->group;
    if (out->tired) {
        again.tips_first = !out->group.tips_first;
        if (out->group.tips_first) {
            again.reach -= again.reach > LEAST_REACH;
            again.tired++;
        }
        best_groups_put(&r->groups, again);
    } else if (out->stopped) {
        if (out->open_least < r->stopped_least)
            r->stopped_least = out->open_least;
    } else if (out->left_least != BEST_NO_BOUND) {
        again.least = out->left_least > again.least ? out->left_least : again.least;
        again.nodes = (uint32_t)out->nodes;
        again.tired = 0;
        again.reach += ONE_DIVE_MORE;
        best_groups_put(&r->groups, again);
    }
}

/* Of all that was not looked into to its end. */
static int64_t least_left(const rounds *r)
{
    const int64_t waits = best_groups_least(&r->groups);
    return r->stopped_least < waits ? r->stopped_least : waits;
}

/* How near best and bound are, in grams. */
static void tell_closing(const rounds *r, const pare_progress *progress)
{
    const int64_t left = least_left(r);
    const bool found = best_has_found(&r->best);
    const int64_t bound = found && left > r->best.units ? r->best.units : left;
    pare_progress_closing(progress, found ? pare_best_grams(r->best.units) : (double)NAN,
                          bound == BEST_NO_BOUND ? (double)NAN : pare_best_grams(bound));
}

static bool told_to_stop(rounds *r)
{
    const pare_progress *progress = r->search.ask->progress;
    tell_closing(r, progress);
    if (progress && !progress->step(progress->context, "groups", r->answer->opened, r->groups.made))
        atomic_store(&r->stop, true);
    return atomic_load(&r->stop);
}

/* Where figures are raised: whether no set of a group has enough of them. */
static bool is_too_little(const rounds *r, const best_group *group)
{
    return group->refined && r->best.found &&
           group->promise < r->best.value * (1 + r->search.ask->raised->grain);
}

/* Takes the least groups, a few to be dived into and many to be refined. Where figures are raised each dive may raise
 * what is asked of all others, so there only one sort. */
static size_t take_round(rounds *r)
{
    const bool raises = r->search.ask->raised;
    size_t count = 0, dives = 0, refines = 0;
    while (best_groups_least(&r->groups) != BEST_NO_BOUND) {
        const best_group *top = &r->groups.heap[0];
        if (raises ? is_too_little(r, top) : r->best.found && top->least > r->best.units) {
            if (!raises)
                break;
            (void)best_groups_next(&r->groups);
            continue;
        }
        if (top->refined ? dives == DIVED_A_ROUND || (raises && refines > 0)
                         : refines == REFINED_A_ROUND || (raises && dives > 0))
            break;
        best_group group = best_groups_next(&r->groups);
        best_pair *pair = NULL;
        if (group.depth == BEST_GROUPED)
            pair = *best_pair_of(&r->groups, &group);
        if (pair && pair->more == BEST_NO_BOUND)
            continue;
        if (pair && !group.weighed) {
            best_group_weigh(&group, pair->more);
            best_groups_put(&r->groups, group);
            continue;
        }
        *(group.refined ? &dives : &refines) += 1;
        r->outcome[count].group = group;
        r->outcome[count].dives = group.refined;
        r->outcome[count++].pair = pair;
    }
    return count;
}

/* ---- a first set ---- */

/* The group of the craft as it is. False: one of its parts may not stay. */
static bool group_as_is(const best_search *search, best_group *group)
{
    *group = (best_group){.depth = BEST_GROUPED};
    for (size_t g = 0; g < BEST_GROUPED; g++) {
        const best_slot *slot = best_grouped(search, g);
        while (slot && group->option[g] < slot->options && slot->option[group->option[g]].name)
            group->option[g]++;
        if (slot && group->option[g] == slot->options)
            return false;
    }
    return true;
}

/* Looks into one group for a set that is better than the best so far, for a while. */
static bool look_into(rounds *r, const best_group *group)
{
    best_worker *worker = &r->worker[0];
    begin_dive(worker, &r->best, FIRST_SET_NODES, BEST_NO_BOUND);
    if (!best_group_fits(&r->search, group) || !best_group_build(worker, group))
        return false;
    best_dive(worker);
    const best_set *found = &worker->best;
    if (!best_has_found(found) ||
        !best_is_better(&r->best, found->units, found->cents, found->swaps, found->swap))
        return false;
    r->best = *found;
    return true;
}

/* The lightest option of one of the four that still makes a better set, with the others as they are. */
static bool put_lighter(rounds *r, best_group *now, size_t g)
{
    best_group other = *now;
    for (uint32_t i = 0; i < now->option[g]; i++) {
        other.option[g] = i;
        if (look_into(r, &other)) {
            *now = other;
            return true;
        }
    }
    return false;
}

/* From the craft as it is, one of the four after another is put lighter as long as a set comes of it: with a set
 * to be beaten, all that weighs more is passed over from the first group on, and who stops the search early has
 * something. What refuses here is heavier than the best, and decides nothing. */
static void find_first(rounds *r)
{
    best_group now;
    best_worker *worker = &r->worker[0];
    if (r->search.ask->raised || !group_as_is(&r->search, &now))
        return;
    (void)look_into(r, &now);
    bool better = best_has_found(&r->best);
    for (int turn = 0; better && turn < FIRST_SET_TURNS; turn++) {
        better = false;
        for (size_t g = 0; g < BEST_GROUPED && worker->nodes < FIRST_SET_MOST; g++)
            better = (r->search.grouped[g] != BEST_NONE && put_lighter(r, &now, g)) || better;
    }
    worker->refusals = 0;
}

static pare_status search_all(rounds *r, pare_error *err)
{
    if (!told_to_stop(r))
        find_first(r);
    while (!told_to_stop(r) && !(r->search.ask->any && best_has_found(&r->best))) {
        const size_t count = take_round(r);
        if (count == 0 || r->groups.failed)
            break;
        do_round(r, count);
        for (size_t i = 0; i < count; i++)
            (r->outcome[i].dives ? merge_dived : merge_refined)(r, &r->outcome[i]);
    }
    return r->groups.failed ? pare_no_memory(err) : PARE_OK;
}

/* ---- the answer ---- */

/* The sheet of a craft in the loadout, with uncertainties: for people. */
static pare_status make_sheet(const rounds *r, const pare_craft *craft, const pare_sheet **sheet,
                              pare_error *err)
{
    const pare_desk *desk = r->search.desk;
    pare_craft *loaded = pare_arena_zeros(r->search.arena, sizeof *loaded);
    pare_sheet *made = pare_arena_zeros(r->search.arena, sizeof *made);
    if (!loaded || !made)
        return pare_no_memory(err);
    pare_status status = pare_craft_load(craft, desk->loadout, loaded, err);
    if (status == PARE_OK)
        status = pare_sheet_compute(loaded, true, made, err);
    *sheet = made;
    return status;
}

static pare_status tell_work(rounds *r, pare_error *err)
{
    pare_best *answer = r->answer;
    pare_checklist *list = pare_arena_zeros(r->search.arena, sizeof *list);
    const char *ids[PARE_BEST_SWAPS];
    pare_opening opening[PARE_BEST_SWAPS];
    if (!list)
        return pare_no_memory(err);
    for (size_t i = 0; i < answer->swaps; i++)
        ids[i] = answer->swap[i].applied.id;
    const pare_status status = pare_checklist_plan(r->search.bench, answer->before, answer->swaps,
                                                   ids, r->search.arena, list, opening, err);
    for (size_t i = 0; status == PARE_OK && i < answer->swaps; i++)
        answer->swap[i].opening = opening[i];
    answer->work = list;
    return status;
}

/* What a swap adds to the order of those before it. */
static void tell_money(const rounds *r, const pare_craft *after, pare_best_swap *one)
{
    pare_best *answer = r->answer;
    const pare_craft *before = r->search.desk->craft;
    pare_shopping *shopping = r->worker[0].shopping;
    pare_shopping_of(r->search.bench, before, NULL, after, shopping);
    answer->back = 1e-2 * (double)pare_resale_cents(r->search.ask->resale, before, after);
    const double money = shopping->money - answer->back;
    one->applied.money = money - answer->money;
    one->applied.priced = shopping->priced;
    answer->money = money;
    answer->priced = shopping->priced;
}

/* Puts the best set on once more, to say what each swap does. */
static pare_status tell_set(rounds *r, pare_error *err)
{
    pare_best *answer = r->answer;
    const pare_desk *desk = r->search.desk;
    pare_trial *trial = pare_arena_zeros(r->search.arena, sizeof *trial);
    pare_craft *after = pare_arena_zeros(r->search.arena, sizeof *after);
    answer->swap = pare_arena_array(r->search.arena, r->best.swaps + 1, sizeof answer->swap[0]);
    if (!after || !trial || !answer->swap)
        return pare_no_memory(err);
    pare_basket basket = {0};
    int64_t units = answer->was_100ug;
    answer->priced = true;
    pare_craft_copy(desk->craft, after);
    for (size_t i = 0; i < r->best.swaps; i++) {
        pare_best_swap *one = &answer->swap[i];
        pare_status status = pare_swap_edit(&desk->shelf, after, &r->best.swap[i], &trial->changed,
                                            &one->applied, &basket, err);
        if (status == PARE_OK)
            status = pare_trial_weigh(desk, trial, err);
        if (status != PARE_OK)
            return status;
        pare_craft_copy(&trial->changed, after);
        one->saved_100ug = units - pare_best_100ug(&trial->sheet.assembly);
        units -= one->saved_100ug;
        tell_money(r, after, one);
    }
    answer->swaps = r->best.swaps;
    answer->after = after;
    pare_status status = make_sheet(r, after, &answer->sheet_after, err);
    if (status == PARE_OK)
        status = tell_work(r, err);
    return status;
}

static int most_first(const void *left, const void *right)
{
    const pare_best_limit *a = left, *b = right;
    if (a->groups != b->groups)
        return a->groups > b->groups ? -1 : 1;
    return strcmp(a->name, b->name);
}

static void count_work(rounds *r)
{
    pare_best *answer = r->answer;
    for (size_t k = 0; k < answer->cuts; k++)
        best_count(&answer->binds, answer->bind, answer->cut[k].name, answer->cut[k].groups);
    for (size_t i = 0; i < r->workers; i++) {
        const best_worker *w = &r->worker[i];
        answer->sets += w->sets;
        answer->misses += w->misses;
        for (size_t k = 0; k < w->refusals; k++)
            best_count(&answer->binds, answer->bind, w->refusal[k].name, w->refusal[k].groups);
    }
    if (best_has_found(&r->best) && !r->search.ask->raised)
        best_binds_find(&r->worker[0], &r->best, answer);
    answer->groups = r->groups.made;
    qsort(answer->cut, answer->cuts, sizeof answer->cut[0], most_first);
    qsort(answer->bind, answer->binds, sizeof answer->bind[0], most_first);
}

/* How far a limit is off on the best set, over what it must be. */
static double slack(const pare_best *answer, const pare_best_limit *limit)
{
    const pare_margin *margin = pare_sheet_margin(answer->sheet_after, limit->name);
    return margin ? margin->ratio : HUGE_VAL;
}

static void tightest_first(pare_best *answer)
{
    for (size_t i = 1; i < answer->binds; i++) {
        const pare_best_limit moving = answer->bind[i];
        size_t at = i;
        for (; at > 0 && slack(answer, &answer->bind[at - 1]) > slack(answer, &moving); at--)
            answer->bind[at] = answer->bind[at - 1];
        answer->bind[at] = moving;
    }
}

/* What no set has more of than by a grain. */
static double raised_bound(const rounds *r)
{
    double most = fmax(r->best.found ? r->best.value : 0, r->stopped_promise);
    for (size_t i = 0; i < r->groups.count; i++) {
        const best_group *left = &r->groups.heap[i];
        most = fmax(most, left->refined ? left->promise : HUGE_VAL);
    }
    return most;
}

static pare_status tell(rounds *r, pare_error *err)
{
    pare_best *answer = r->answer;
    const int64_t bound = least_left(r);
    count_work(r);
    answer->stopped = atomic_load(&r->stop);
    answer->found = best_has_found(&r->best);
    answer->best_100ug = answer->found ? r->best.units : 0;
    answer->bound_100ug = r->best.found && bound > r->best.units ? r->best.units : bound;
    const bool raises = r->search.ask->raised;
    if (raises || (answer->found && r->search.ask->any))
        answer->bound_100ug = BEST_NO_BOUND; /* nobody asked for the lightest */
    answer->raised = raises ? raised_bound(r) : HUGE_VAL;
    const bool finished = raises ? r->groups.count == 0 && r->stopped_promise == 0
                          : r->best.found
                              ? bound > r->best.units || answer->bound_100ug == r->best.units
                              : bound == BEST_NO_BOUND;
    answer->proven = finished && answer->misses == 0 && !(answer->found && r->search.ask->any);
    if (!answer->found)
        return PARE_OK;
    const pare_status status = tell_set(r, err);
    if (status == PARE_OK)
        tightest_first(answer);
    return status;
}

pare_status pare_best_find(const pare_bench *bench, const pare_craft *craft,
                           const pare_best_ask *ask, pare_arena *arena, pare_best *best,
                           pare_error *err)
{
    pare_desk *desk;
    rounds r = {.search = {.bench = bench, .ask = ask, .arena = arena},
                .stopped_least = BEST_NO_BOUND,
                .answer = best};
    *best = (pare_best){0};
    atomic_init(&r.stop, false);
    r.search.stop = &r.stop;
    pare_status status = pare_desk_open(bench, craft, ask->loadout, arena, &desk, err);
    if (status != PARE_OK)
        return status;
    r.search.desk = desk;
    best->before = craft;
    best->was_100ug = pare_best_100ug(&desk->sheet.assembly);
    status = make_sheet(&r, craft, &best->sheet_before, err);
    if (status == PARE_OK)
        status = read_ask(&r.search, err);
    if (status == PARE_OK)
        status = best_slots_gather(&r.search, err);
    if (status == PARE_OK)
        status = open_others(&r.search, err);
    if (status == PARE_OK)
        status = open_workers(&r, err);
    if (status == PARE_OK)
        status = best_state_first(&r.search, r.first, err);
    if (status == PARE_OK) {
        best_slots_reach(&r.search, r.first, &r.worker[0].state[0]);
        best_slots_drop(&r.search, r.first, &r.worker[0].state[0]);
        status = best_link_find(&r.search, err);
    }
    if (status == PARE_OK) {
        best_state_bound(&r.search, r.first);
        status = best_fit_find(&r.search, r.first, r.worker[0].state, err);
    }
    if (status == PARE_OK && !best_groups_open(&r.search, r.first, &r.groups))
        status = pare_no_memory(err);
    if (ask->below_100ug > 0)
        r.best = (best_set){.found = true, .units = ask->below_100ug, .cents = BEST_TO_BEAT};
    if (status == PARE_OK)
        status = search_all(&r, err);
    if (status == PARE_OK)
        status = tell(&r, err);
    close_workers(&r);
    return status;
}
