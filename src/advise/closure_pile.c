/* closure_pile.c: what lies on a scale, in unknowns (see closure.h).
 *
 * A weigh-in names items, joints and runs. What they are made of is asked of the craft as it was built on
 * that day: swaps that were fitted later are not on it yet. What is included in an item lies on the scale
 * with it, as far as it was changed since. */
#include <string.h>

#include "advise/closure_inside.h"
#include "advise/taken.h"
#include "base/text.h"

/* A craft on a day, in a loadout, loaded and assembled. */
struct pare_state {
    const pare_craft *first;
    size_t on; /* how many of its swaps */
    int loadout;
    bool good;
    pare_craft craft, built;
    pare_assembly assembly;
};

struct pare_state *pare_closure_state(pare_arena *arena)
{
    return pare_arena_zeros(arena, sizeof(struct pare_state));
}

static const pare_craft *first_of(const pare_closure *closure, const char *name)
{
    for (size_t i = 0; i < closure->of.crafts; i++)
        if (strcmp(closure->of.first[i]->name, name) == 0)
            return closure->of.first[i];
    return NULL;
}

/* Fitted on that day or before; on the craft without a day: always. */
static bool was_on(const pare_taken *taken, const char *date)
{
    if (!pare_taken_is_on(taken))
        return false;
    for (int s = PARE_STAGE_FITTED; s < PARE_STAGES; s++)
        if (taken->date[s])
            return !date || strcmp(taken->date[s], date) <= 0;
    return true;
}

/* @param date  NULL: as it is now */
static pare_status look_at(pare_closure *closure, const char *name, const char *date, int loadout,
                           pare_error *err)
{
    struct pare_state *s = closure->state;
    const pare_craft *first = first_of(closure, name);
    size_t on = 0;
    if (!first)
        return pare_fail(err, PARE_UNKNOWN, "no craft '%.48s' on the bench", name);
    for (size_t i = 0; i < first->takens; i++)
        on += was_on(&first->taken[i], date);
    if (s->good && s->first == first && s->on == on && s->loadout == loadout)
        return PARE_OK;
    s->good = false;
    s->craft = *first;
    s->craft.takens = 0;
    for (size_t i = 0; i < first->takens; i++)
        if (was_on(&first->taken[i], date))
            s->craft.taken[s->craft.takens++] = first->taken[i];
    pare_status status = pare_taken_as_built(closure->of.bench, &s->craft, &s->built, NULL, err);
    if (status == PARE_OK)
        status = pare_craft_load(&s->built, loadout, &s->craft, err);
    if (status == PARE_OK)
        status = pare_assemble(&s->craft, &s->assembly, err);
    s->first = first;
    s->on = on;
    s->loadout = loadout;
    s->good = status == PARE_OK;
    return status;
}

pare_status pare_closure_look(pare_closure *closure, const char *craft, int loadout,
                              const pare_craft **loaded, const pare_assembly **assembly,
                              pare_error *err)
{
    const pare_status status = look_at(closure, craft, NULL, loadout, err);
    *loaded = &closure->state->craft;
    *assembly = &closure->state->assembly;
    return status;
}

/* ---- terms ---- */

static pare_status add(const pare_closure *closure, pare_pile *pile, size_t unknown, double factor,
                       pare_error *err)
{
    if (unknown == closure->unknowns)
        return closure->settled ? pare_fail(err, PARE_BAD_DATA, "a thing that was not asked about")
                                : pare_no_memory(err);
    if (pile->terms == PARE_PILE)
        return pare_fail(err, PARE_BAD_DATA, "more than %d things on the scale", PARE_PILE);
    pile->term[pile->terms++] = (pare_term){unknown, factor};
    return PARE_OK;
}

static const char *line_name(const pare_closure *closure, const pare_line *line)
{
    return pare_arena_printf(closure->arena, "%s.%s", line->of == PARE_LINE_JOINT ? "joint" : "run",
                             line->name);
}

/* So many pieces of a line of the ledger. */
static pare_status add_line(pare_closure *closure, const pare_line *line, double pieces,
                            pare_pile *pile, pare_error *err)
{
    const struct pare_state *s = closure->state;
    if (line->of == PARE_LINE_ITEM) {
        const pare_item *item = &s->craft.item[line->index];
        if (!item->included_in)
            pile->fixed_kg -= pieces * (item->part->mass_kg.value - line->each_kg);
        return add(closure, pile, pare_closure_part(closure, item->part), pieces, err);
    }
    const double each_kg = line->count > 0 ? line->mass_kg.value / line->count : 0;
    if (each_kg == 0)
        return PARE_OK;
    const char *name = line_name(closure, line);
    if (!name)
        return pare_no_memory(err);
    const double share_u = line->mass_kg.value != 0 ? line->mass_kg.u / line->mass_kg.value : 0;
    return add(closure, pile, pare_closure_line(closure, s->first->name, name, each_kg, share_u),
               pieces, err);
}

static bool is_included(const struct pare_state *s, const pare_line *line)
{
    return line->of == PARE_LINE_ITEM && s->craft.item[line->index].included_in;
}

bool pare_item_is_solder(const pare_item *item)
{
    return strstr(item->name, "solder") || strstr(item->part->id, "solder");
}

static pare_status add_whole(pare_closure *closure, pare_pile *pile, pare_error *err)
{
    const struct pare_state *s = closure->state;
    pare_status status = PARE_OK;
    pile->whole = true;
    for (size_t i = 0; i < s->craft.items; i++)
        pile->solder =
            pile->solder || (!s->craft.item[i].off && pare_item_is_solder(&s->craft.item[i]));
    for (size_t i = 0; i < s->assembly.lines && status == PARE_OK; i++) {
        const pare_line *line = &s->assembly.line[i];
        if (!is_included(s, line))
            status = add_line(closure, line, line->count, pile, err);
    }
    return status;
}

/* What a joint or run is included in; NULL: nothing, or the line is an item's. */
static const char *host_of(const pare_craft *craft, const pare_line *line)
{
    return line->of == PARE_LINE_JOINT ? craft->joint[line->index].included_in
           : line->of == PARE_LINE_RUN ? craft->run[line->index].included_in
                                       : NULL;
}

/* An item's own joints and runs, as far as they were changed. */
static pare_status add_guests(pare_closure *closure, const pare_line *host, double share,
                              pare_pile *pile, pare_error *err)
{
    const struct pare_state *s = closure->state;
    pare_status status = PARE_OK;
    for (size_t i = 0; i < s->assembly.lines && status == PARE_OK; i++) {
        const pare_line *line = &s->assembly.line[i];
        const char *in = host_of(&s->craft, line);
        if (in && strcmp(in, host->name) == 0)
            status = add_line(closure, line, share * line->count, pile, err);
    }
    return status;
}

static bool is_named(const pare_line *line, const char *name)
{
    static const char joint[] = "joint.", run[] = "run.";
    if (strncmp(name, joint, sizeof joint - 1) == 0)
        return line->of == PARE_LINE_JOINT && strcmp(line->name, name + sizeof joint - 1) == 0;
    if (strncmp(name, run, sizeof run - 1) == 0)
        return line->of == PARE_LINE_RUN && strcmp(line->name, name + sizeof run - 1) == 0;
    return line->of == PARE_LINE_ITEM && strcmp(line->name, name) == 0;
}

static pare_status no_such(const pare_closure *closure, const char *name, pare_error *err)
{
    const struct pare_state *s = closure->state;
    const char *known[PARE_LINES], *craft = s->first->name;
    size_t count = 0;
    for (size_t i = 0; i < s->assembly.lines; i++) {
        const pare_line *line = &s->assembly.line[i];
        known[count++] = line->of == PARE_LINE_ITEM ? line->name : line_name(closure, line);
    }
    const char *near = pare_nearest(name, count, known);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "nothing '%.48s' on %s; did you mean %s?", name, craft,
                         near);
    return pare_fail(err, PARE_UNKNOWN,
                     "nothing '%.48s' on %s; pare sheet %s --all lists what is there", name, craft,
                     craft);
}

static pare_status add_thing(pare_closure *closure, const pare_weighed_thing *thing,
                             pare_pile *pile, pare_error *err)
{
    const struct pare_state *s = closure->state;
    const pare_line *line = NULL;
    for (size_t i = 0; i < s->assembly.lines && !line; i++)
        if (is_named(&s->assembly.line[i], thing->name))
            line = &s->assembly.line[i];
    if (!line)
        return no_such(closure, thing->name, err);
    const char *host = host_of(&s->craft, line);
    if (host && line->mass_kg.value == 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s is in the mass of %s already; right would be to weigh %s", thing->name,
                         host, host);
    pare_status status = add_line(closure, line, thing->count, pile, err);
    if (status == PARE_OK && line->of == PARE_LINE_ITEM && line->count > 0)
        status = add_guests(closure, line, (double)thing->count / line->count, pile, err);
    return status;
}

/* ---- piles ---- */

static pare_status loadout_of(const pare_closure *closure, const pare_weigh_in *what, int *loadout,
                              pare_error *err)
{
    const pare_craft *first = first_of(closure, what->craft);
    *loadout = first && first->loadouts && what->all ? 0 : -1;
    if (!first || !what->loadout)
        return PARE_OK;
    *loadout = pare_craft_loadout(first, what->loadout);
    return *loadout >= 0 ? PARE_OK
                         : pare_fail(err, PARE_UNKNOWN, "no loadout '%.48s' of %s", what->loadout,
                                     what->craft);
}

pare_status pare_closure_pile(pare_closure *closure, const pare_weigh_in *what, pare_pile *pile,
                              pare_error *err)
{
    int loadout = -1;
    *pile = (pare_pile){0};
    pare_status status = loadout_of(closure, what, &loadout, err);
    if (status == PARE_OK)
        status = look_at(closure, what->craft, what->date, loadout, err);
    if (status != PARE_OK)
        return status;
    if (what->all) {
        status = add_whole(closure, pile, err);
        const int forgotten = pare_closure_forgotten(closure, what->craft);
        return status == PARE_OK && forgotten >= 0 ? add(closure, pile, (size_t)forgotten, 1, err)
                                                   : status;
    }
    for (size_t i = 0; i < what->things && status == PARE_OK; i++)
        status = add_thing(closure, &what->thing[i], pile, err);
    return status;
}

pare_status pare_closure_now(pare_closure *closure, const char *craft, int loadout, pare_pile *pile,
                             pare_error *err)
{
    *pile = (pare_pile){0};
    pare_status status = look_at(closure, craft, NULL, loadout, err);
    if (status == PARE_OK)
        status = add_whole(closure, pile, err);
    const int forgotten = status == PARE_OK ? pare_closure_forgotten(closure, craft) : -1;
    return forgotten >= 0 ? add(closure, pile, (size_t)forgotten, 1, err) : status;
}
