/* weigh_view.c: what an answer about weigh-ins shows (see weigh.h).
 *
 * A forgotten part is looked for among parts that somebody owns and no craft has: of those it names the
 * ones whose mass is what the closure leaves open. It says no more than that. */
#include "show/weigh.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/swap.h"

#define USUAL_KG   8.7e-3 /* solder, heat-shrink and wire of a craft that does not list them */
#define USUAL_U_KG 3e-3   /* common practice, no source: 5 to 15 g */
#define MOST_KG    15e-3  /* of it, in nineteen of twenty craft */
#define ONE_SIDED  1.6449 /* of a normal: one in twenty lies beyond */
#define LIKE       2.0    /* sigmas: a part that may be it */

static pare_status masses(pare_weigh_view *view, pare_pile *asked, pare_error *err)
{
    const pare_craft *craft = view->craft;
    const size_t count = craft->loadouts ? craft->loadouts : 1;
    pare_pile pile;
    for (size_t i = 0; i < count; i++) {
        const int loadout = craft->loadouts ? (int)i : -1;
        pare_weigh_loadout *one = &view->mass[i];
        const pare_status status =
            pare_closure_now(view->closure, craft->name, loadout, &pile, err);
        if (status != PARE_OK)
            return status;
        one->name = craft->loadouts ? craft->loadout[i].name : NULL;
        one->mass = pare_promise_of(view->closure, &pile, NULL);
        one->chance = isfinite(view->limit_kg) ? pare_promise_chance(&one->mass, view->limit_kg)
                                               : (double)NAN;
        if (loadout != view->loadout)
            continue;
        view->here = i;
        *asked = pile;
        view->solder = pile.solder;
        view->whole = pare_promise_of(view->closure, &pile, &view->scale);
        if (view->forgotten >= 0)
            pile.terms--; /* the last, by pare_closure_now() */
        pile.whole = false;
        view->written = pare_promise_of(view->closure, &pile, NULL);
    }
    view->loadouts = count;
    return PARE_OK;
}

/* ---- other packs ---- */

/* A pile with one part in the place of another: as adjusted where readings or other craft know of it,
 * otherwise as it is written down, by itself. */
static pare_promise with_other(const pare_weigh_view *view, const pare_pile *pile,
                               const pare_part *old, const pare_part *other)
{
    const pare_closure *closure = view->closure;
    pare_pile changed = *pile;
    size_t known = closure->unknowns;
    double own_u_kg = 0;
    for (size_t i = 0; i < closure->unknowns; i++)
        if (closure->unknown[i].part == other)
            known = i;
    changed.terms = 0;
    for (size_t i = 0; i < pile->terms; i++) {
        pare_term term = pile->term[i];
        if (closure->unknown[term.unknown].part == old) {
            changed.fixed_kg += known < closure->unknowns ? 0 : term.factor * other->mass_kg.value;
            own_u_kg += known < closure->unknowns ? 0 : term.factor * other->mass_kg.u;
            term.unknown = known;
        }
        if (term.unknown < closure->unknowns)
            changed.term[changed.terms++] = term;
    }
    return pare_promise_wider(pare_promise_of(closure, &changed, NULL), own_u_kg);
}

static int by_mass(const void *a, const void *b)
{
    const pare_weigh_pack *one = a, *other = b;
    return (one->mass.kg > other->mass.kg) - (one->mass.kg < other->mass.kg);
}

static pare_status packs(pare_weigh_view *view, const pare_pile *pile, pare_arena *arena,
                         pare_error *err)
{
    const pare_bench *bench = view->closure->of.bench;
    pare_craft *loaded = pare_arena_zeros(arena, sizeof *loaded);
    pare_craft *changed = pare_arena_zeros(arena, sizeof *changed);
    view->pack = pare_arena_array(arena, bench->parts + 1, sizeof *view->pack);
    if (!loaded || !changed || !view->pack)
        return pare_no_memory(err);
    const pare_status status = pare_craft_load(view->craft, view->loadout, loaded, err);
    const int at = status == PARE_OK ? pare_craft_doing(loaded, PARE_PACK) : -1;
    if (at < 0)
        return status;
    const pare_part *old = loaded->item[at].part;
    for (size_t p = 0; p < bench->parts; p++) {
        const pare_part *other = bench->part[p];
        char swap[PARE_SWAP_NAME];
        pare_error why = {0};
        if (other->kind != PARE_PACK || other == old || other->sought)
            continue;
        snprintf(swap, sizeof swap, "%.48s=%.64s", loaded->item[at].name, other->id);
        if (pare_swap_apply(bench, view->craft, swap, changed, NULL, &why) != PARE_OK)
            continue;
        pare_weigh_pack *one = &view->pack[view->packs++];
        one->pack = other;
        one->mass = with_other(view, pile, old, other);
        one->chance = pare_promise_chance(&one->mass, view->limit_kg);
    }
    qsort(view->pack, view->packs, sizeof *view->pack, by_mass);
    return PARE_OK;
}

static pare_status lines(pare_weigh_view *view, pare_arena *arena, pare_error *err)
{
    pare_closure *closure = view->closure;
    pare_craft *loaded = pare_arena_zeros(arena, sizeof *loaded);
    pare_assembly *assembly = pare_arena_zeros(arena, sizeof *assembly);
    view->line = pare_arena_array(arena, PARE_LINES, sizeof *view->line);
    if (!loaded || !assembly || !view->line)
        return pare_no_memory(err);
    pare_status status = pare_craft_load(view->craft, view->loadout, loaded, err);
    if (status == PARE_OK)
        status = pare_assemble(loaded, assembly, err);
    for (size_t i = 0; status == PARE_OK && i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        const char *prefix = line->of == PARE_LINE_ITEM    ? ""
                             : line->of == PARE_LINE_JOINT ? "joint."
                                                           : "run.";
        const char *name = pare_arena_printf(arena, "%s%s", prefix, line->name);
        if (!name)
            return pare_no_memory(err);
        const pare_weighed_thing thing = {name, line->count};
        const pare_weigh_in what = {
            .craft = view->craft->name,
            .loadout = view->loadout >= 0 ? view->craft->loadout[view->loadout].name : NULL,
            .things = 1,
            .thing = &thing};
        pare_pile pile;
        if (line->mass_kg.value == 0 || line->count < 1 ||
            pare_closure_pile(closure, &what, &pile, err) != PARE_OK || pile.terms == 0)
            continue;
        const pare_unknown *unknown = &closure->unknown[pile.term[0].unknown];
        pare_weigh_line *made = &view->line[view->lines++];
        *made = (pare_weigh_line){.name = name,
                                  .count = line->count,
                                  .prior_kg = line->mass_kg.value,
                                  .readings = unknown->readings,
                                  .known = unknown->readings ? PARE_WEIGHED : unknown->known};
        pile.terms = 1; /* the thing itself, without what it brings */
        pare_closure_mass(closure, &pile, &made->kg, &made->u_kg);
    }
    return status;
}

/* Whether any craft of the bench has it on, now or in a loadout: a spare is a spare. */
static bool used(const pare_bench *bench, const pare_part *part)
{
    for (size_t c = 0; c < bench->crafts; c++) {
        const pare_craft *craft = bench->craft[c];
        for (size_t i = 0; i < craft->items; i++)
            if (!craft->item[i].off && craft->item[i].part == part)
                return true;
        for (size_t l = 0; l < craft->loadouts; l++)
            for (size_t i = 0; i < craft->loadout[l].uses; i++)
                if (craft->loadout[l].use[i].part == part)
                    return true;
    }
    return false;
}

static double unlike(const pare_weigh_view *view, const pare_part *part)
{
    const double usual_kg = view->solder ? 0 : USUAL_KG, usual_u = view->solder ? 0 : USUAL_U_KG;
    const double u = hypot(hypot(view->forgotten_u_kg, usual_u), part->mass_kg.u);
    return u > 0 ? fabs(view->forgotten_kg - usual_kg - part->mass_kg.value) / u : (double)INFINITY;
}

static void suspects(pare_weigh_view *view)
{
    const pare_bench *bench = view->closure->of.bench;
    for (size_t p = 0; p < bench->parts && view->more; p++) {
        const pare_part *part = bench->part[p];
        if (part->sought || part->owned < 1 || used(bench, part) || unlike(view, part) > LIKE)
            continue;
        size_t at = view->suspects < PARE_SUSPECTS ? view->suspects++ : PARE_SUSPECTS - 1;
        if (view->suspect[at] && unlike(view, view->suspect[at]) <= unlike(view, part))
            continue;
        for (; at > 0 && unlike(view, view->suspect[at - 1]) > unlike(view, part); at--)
            view->suspect[at] = view->suspect[at - 1];
        view->suspect[at] = part;
    }
}

static void forgotten(pare_weigh_view *view)
{
    if (view->forgotten < 0)
        return;
    const pare_adjusted *adjusted = &view->closure->adjusted;
    view->forgotten_kg = adjusted->value[view->forgotten];
    view->forgotten_u_kg = adjusted->u[view->forgotten];
    const double doubt = ONE_SIDED * view->forgotten_u_kg;
    view->more = view->forgotten_kg - doubt > (view->solder ? 0 : MOST_KG);
    view->less = view->forgotten_kg + doubt < 0;
}

pare_status pare_weigh_view_fill(pare_closure *closure, const pare_craft *craft, int loadout,
                                 const pare_scale *scale, pare_hover_score hovers,
                                 pare_arena *arena, pare_weigh_view *view, pare_error *err)
{
    const pare_limit *limit = pare_brief_limit(&craft->brief, "all_up");
    *view = (pare_weigh_view){.craft = craft,
                              .loadout = loadout,
                              .closure = closure,
                              .scale = *scale,
                              .limit_kg = limit && !limit->at_least ? limit->value : (double)NAN,
                              .forgotten = pare_closure_forgotten(closure, craft->name)};
    pare_pile *asked = pare_arena_zeros(arena, sizeof *asked);
    pare_status status = asked ? masses(view, asked, err) : pare_no_memory(err);
    if (status == PARE_OK && isfinite(view->limit_kg))
        status = packs(view, asked, arena, err);
    if (status == PARE_OK)
        status = lines(view, arena, err);
    if (status == PARE_OK)
        status = pare_weigh_next(closure, craft->name, loadout, scale, PARE_WEIGH_NEXT, &view->next,
                                 err);
    if (status != PARE_OK)
        return status;
    forgotten(view);
    suspects(view);
    pare_promise_score(closure->of.weighings, &view->promised, &view->held);
    view->hovers = hovers;
    view->promised += hovers.made;
    view->held += hovers.held;
    return PARE_OK;
}
