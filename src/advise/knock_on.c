/* knock_on.c: the search asked again with grams off the craft (see knock_on.h).
 *
 * Grams that are off are a line of less than nothing among what nobody wrote down: it sits where the rest
 * balances, has no doubt, and whatever is put on or taken off leaves it alone. The lighter a craft, the smaller
 * what carries it, so where both ends of a stretch have the same best all of it has; other stretches are
 * halved. An arm's ringing is no such limit, and may hide a step between two ends that are alike. */
#include "advise/knock_on.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/best_wish.h"
#include "base/text.h"
#include "craft/flight.h"

#define MOST_SHARE 0.5
#define SHOWN_KG   5e-5 /* 0.05 g */
#define NEARLY     (1 - 1e-6)

enum { FINE_100UG = 1000, SEARCHES_MOST = 200 };

typedef struct asking {
    const pare_bench *bench;
    const pare_craft *craft;
    pare_best_ask ask;
    pare_arena *arena;
    pare_knock_on *told;
    const pare_best *last; /* of the step before */
    size_t searches;
    pare_error *err;
} asking;

/* ---- the craft with grams off ---- */

static pare_status take_off(const asking *a, const pare_craft *craft, int64_t saved_100ug,
                            pare_craft *lighter)
{
    const pare_weighed *was = craft->weighed;
    const size_t masses = was ? was->masses : 0;
    const bool listed = was && was->forgotten < masses;
    const size_t all = masses + !listed;
    pare_weighed *now = pare_arena_zeros(a->arena, sizeof *now);
    pare_weighed_mass *mass = pare_arena_array(a->arena, all, sizeof mass[0]);
    double *root = pare_arena_array(a->arena, all * all, sizeof root[0]);
    if (!now || !mass || !root)
        return pare_no_memory(a->err);
    memset(root, 0, all * all * sizeof root[0]);
    for (size_t i = 0; i < masses; i++) {
        mass[i] = was->mass[i];
        memcpy(&root[i * all], &was->root_kg[i * masses], masses * sizeof root[0]);
    }
    if (was)
        *now = *was;
    if (!listed)
        mass[masses] = (pare_weighed_mass){.read = true};
    now->forgotten = listed ? was->forgotten : masses;
    mass[now->forgotten].kg -= 1e-7 * (double)saved_100ug;
    now->masses = all;
    now->mass = mass;
    now->root_kg = root;
    pare_craft_copy(craft, lighter);
    lighter->weighed = now;
    return PARE_OK;
}

static pare_status best_with(asking *a, int64_t saved_100ug, const pare_best **found)
{
    pare_craft *lighter = pare_arena_zeros(a->arena, sizeof *lighter);
    pare_best *best = pare_arena_zeros(a->arena, sizeof *best);
    pare_status status = lighter && best ? PARE_OK : pare_no_memory(a->err);
    if (status == PARE_OK)
        status = take_off(a, a->craft, saved_100ug, lighter);
    if (status == PARE_OK)
        status = pare_best_find(a->bench, lighter, &a->ask, a->arena, best, a->err);
    a->searches++;
    a->told->proven = a->told->proven && status == PARE_OK && best->proven;
    *found = best;
    return status;
}

/* ---- what may shrink ---- */

static bool may_shrink(const pare_item *item)
{
    switch (item->part->kind) {
    case PARE_MOTOR:
    case PARE_PROPELLER:
    case PARE_PACK:
    case PARE_ESC_FOUR:
    case PARE_ESC_ONE:
        return true;
    default:
        return false;
    }
}

static pare_status hold_the_rest(asking *a)
{
    const pare_craft *craft = a->craft;
    const size_t most = a->ask.holds + craft->items + craft->joints + craft->runs;
    const char **hold = pare_arena_array(a->arena, most, sizeof hold[0]);
    size_t holds = a->ask.holds;
    if (!hold)
        return pare_no_memory(a->err);
    for (size_t i = 0; i < holds; i++)
        hold[i] = a->ask.hold[i];
    for (size_t i = 0; i < craft->items; i++)
        if (!may_shrink(&craft->item[i]))
            hold[holds++] = craft->item[i].name;
    for (size_t i = 0; i < craft->joints; i++)
        hold[holds++] = pare_arena_printf(a->arena, "joint.%s", craft->joint[i].name);
    for (size_t i = 0; i < craft->runs; i++)
        if (!craft->run[i].carries || !pare_same_name(craft->run[i].carries, "pack"))
            hold[holds++] = pare_arena_printf(a->arena, "run.%s", craft->run[i].name);
    for (size_t i = 0; i < holds; i++)
        if (!hold[i])
            return pare_no_memory(a->err);
    a->ask.hold = hold;
    a->ask.holds = holds;
    return PARE_OK;
}

/* ---- what the craft does now ---- */

/* A limit that is broken now is to be broken no further. */
static void as_now(const pare_sheet *now, pare_brief *brief)
{
    for (size_t i = 0; i < brief->limits; i++) {
        char name[64];
        pare_limit *limit = &brief->limit[i];
        const int figure = pare_figure_of_limit(limit->key);
        snprintf(name, sizeof name, "limit.%.40s", limit->key);
        const pare_margin *margin = pare_sheet_margin(now, name);
        if (margin && margin->ratio < 1)
            limit->value = margin->value / (figure < 0 ? 1 : pare_figure_table[figure].scale) *
                           (limit->at_least ? NEARLY : 1 / NEARLY);
    }
}

/* What follows may cost neither minutes nor thrust: the laws keep both, too. */
static pare_status keep_what_it_does(asking *a)
{
    static const pare_figure kept[] = {PARE_FLOWN_TIME, PARE_TWR_HALF};
    pare_craft *loaded = pare_arena_zeros(a->arena, sizeof *loaded), *limited = NULL;
    pare_sheet *now = pare_arena_zeros(a->arena, sizeof *now);
    pare_status status = loaded && now ? PARE_OK : pare_no_memory(a->err);
    if (status == PARE_OK)
        status = pare_craft_load(a->craft, a->ask.loadout, loaded, a->err);
    if (status == PARE_OK)
        status = pare_sheet_compute(loaded, false, now, a->err);
    for (size_t i = 0; status == PARE_OK && i < sizeof kept / sizeof kept[0]; i++) {
        pare_limit *limit;
        status = pare_best_limit_figure(a->craft, kept[i], a->arena, &limited, &limit, a->err);
        if (status == PARE_OK && now->figure[kept[i]].exists)
            limit->value = fmax(limit->value, now->figure[kept[i]].value * NEARLY);
    }
    if (status == PARE_OK) {
        as_now(now, &limited->brief);
        a->craft = limited;
    }
    return status;
}

/* ---- steps ---- */

static const pare_line *line_named(const pare_assembly *assembly, const pare_line *like)
{
    for (size_t i = 0; i < assembly->lines; i++)
        if (assembly->line[i].of == like->of && strcmp(assembly->line[i].name, like->name) == 0)
            return &assembly->line[i];
    return NULL;
}

/* What a line has become; NULL: it is what it was. */
static const char *became(const asking *a, const pare_best *was, const pare_best *is,
                          const pare_line *before, const pare_line *after)
{
    if (!after)
        return "off";
    if (after->of == PARE_LINE_ITEM) {
        const pare_part *from = was->after->item[before->index].part;
        const pare_part *to = is->after->item[after->index].part;
        return from == to ? NULL : to->id;
    }
    if (after->of == PARE_LINE_RUN &&
        was->after->run[before->index].gauge != is->after->run[after->index].gauge)
        return pare_arena_printf(a->arena, "%g AWG", is->after->run[after->index].gauge);
    return NULL;
}

static void tell_parts(const asking *a, const pare_best *is, pare_knock *knock)
{
    const pare_assembly *from = &a->last->sheet_after->assembly;
    const pare_assembly *to = &is->sheet_after->assembly;
    for (size_t i = 0; i < from->lines && knock->parts < PARE_KNOCK_PARTS; i++) {
        const pare_line *before = &from->line[i];
        if (before->of == PARE_LINE_UNLISTED)
            continue;
        const pare_line *after = line_named(to, before);
        const double less_kg = before->mass_kg.value - (after ? after->mass_kg.value : 0);
        const char *now = became(a, a->last, is, before, after);
        if (!now && fabs(less_kg) < SHOWN_KG)
            continue;
        knock->part[knock->parts++] =
            (pare_knock_part){.name = before->name, .to = now, .less_kg = less_kg};
    }
}

static int64_t follows(const pare_best *first, const pare_best *best, int64_t saved_100ug)
{
    return first->best_100ug - saved_100ug - best->best_100ug;
}

static void add_step(asking *a, const pare_best *first, const pare_best *best, int64_t saved_100ug)
{
    pare_knock_on *told = a->told;
    if (told->knocks == PARE_KNOCKS) {
        told->proven = false;
        return;
    }
    pare_knock *knock = &told->knock[told->knocks++];
    *knock = (pare_knock){.saved_100ug = saved_100ug,
                          .follows_100ug = follows(first, best, saved_100ug),
                          .estimate_kg = 1e-7 * (double)saved_100ug * (told->growth - 1)};
    if (a->last)
        tell_parts(a, best, knock);
    a->last = best;
}

/* Steps between two amounts, whose bests are known. */
static pare_status find_steps(asking *a, const pare_best *first, int64_t low,
                              const pare_best *at_low, int64_t high, const pare_best *at_high)
{
    if (follows(first, at_low, low) == follows(first, at_high, high))
        return PARE_OK;
    if (high - low <= FINE_100UG || a->searches >= SEARCHES_MOST || !a->told->proven) {
        a->told->proven = a->told->proven && high - low <= FINE_100UG;
        add_step(a, first, at_high, high);
        return PARE_OK;
    }
    const int64_t middle = low + (high - low) / 2;
    const pare_best *at_middle;
    pare_status status = best_with(a, middle, &at_middle);
    if (status != PARE_OK || !at_middle->found) {
        a->told->proven = false;
        return status;
    }
    status = find_steps(a, first, low, at_low, middle, at_middle);
    return status == PARE_OK ? find_steps(a, first, middle, at_middle, high, at_high) : status;
}

/* ---- */

static pare_status sheet_with(const asking *a, const pare_best *first, int64_t saved_100ug,
                              const pare_sheet **sheet)
{
    pare_craft *lighter = pare_arena_zeros(a->arena, sizeof *lighter);
    pare_craft *loaded = pare_arena_zeros(a->arena, sizeof *loaded);
    pare_sheet *made = pare_arena_zeros(a->arena, sizeof *made);
    pare_status status = lighter && loaded && made ? PARE_OK : pare_no_memory(a->err);
    if (status == PARE_OK)
        status = take_off(a, first->after, saved_100ug, lighter);
    if (status == PARE_OK)
        status = pare_craft_load(lighter, a->ask.loadout, loaded, a->err);
    if (status == PARE_OK)
        status = pare_sheet_compute(loaded, true, made, a->err);
    *sheet = made;
    return status;
}

/* What becomes of the minutes that the saved grams win. */
static void tell_minutes(pare_knock_on *told)
{
    const pare_figure f = PARE_FLOWN_TIME;
    const double before = told->before->figure[f].value, lighter = told->lighter->figure[f].value;
    const double after = told->after->figure[f].value;
    told->pack_shrinks = told->after->figure[PARE_PACK_ENERGY].value <
                         told->lighter->figure[PARE_PACK_ENERGY].value * (1 - 1e-9);
    told->spends = lighter > before ? (lighter - after) / (lighter - before) : 0;
}

static void tell_growth(const asking *a, const pare_best *first)
{
    const pare_rig *rig = &first->sheet_after->rig;
    const pare_landing landing = pare_brief_landing(&a->craft->brief, rig->pack.chemistry);
    pare_growth growth;
    a->told->growth_known = pare_rig_growth(rig, &landing, &growth, NULL) == PARE_OK;
    a->told->growth = a->told->growth_known ? growth.growth : 1;
}

pare_status pare_knock_on_find(const pare_bench *bench, const pare_craft *craft,
                               const pare_best_ask *ask, double saved_kg, pare_arena *arena,
                               pare_knock_on *told, pare_error *err)
{
    asking a = {
        .bench = bench, .craft = craft, .ask = *ask, .arena = arena, .told = told, .err = err};
    const int64_t saved_100ug = llround(1e7 * saved_kg);
    const pare_best *first = NULL, *last = NULL;
    *told = (pare_knock_on){.proven = true, .saved_100ug = saved_100ug};
    pare_status status = hold_the_rest(&a);
    if (status == PARE_OK)
        status = keep_what_it_does(&a);
    if (status == PARE_OK)
        status = best_with(&a, 0, &first);
    if (status != PARE_OK || !first->found)
        return status;
    if (!(saved_kg > 0) || saved_kg >= MOST_SHARE * 1e-7 * (double)first->best_100ug)
        return pare_fail(err, PARE_BAD_DATA,
                         "%g g to be saved: more than 0 and less than half of %.1f g",
                         1e3 * saved_kg, pare_best_grams(first->best_100ug));
    told->found = true;
    told->sheds_100ug = first->was_100ug - first->best_100ug;
    tell_growth(&a, first);
    add_step(&a, first, first, 0);
    status = best_with(&a, saved_100ug, &last);
    if (status == PARE_OK)
        status = sheet_with(&a, first, saved_100ug, &told->lighter);
    told->before = first->sheet_after;
    if (status != PARE_OK || !last->found) {
        told->after = told->lighter;
        told->proven = false;
        return status;
    }
    told->follows_100ug = follows(first, last, saved_100ug);
    told->after = last->sheet_after;
    tell_minutes(told);
    return find_steps(&a, first, 0, first, saved_100ug, last);
}
