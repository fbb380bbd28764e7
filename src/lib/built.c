/* built.c: a bench in memory as questions are asked of it (see built.h). */
#include "lib/built.h"

#include <string.h>

#include "advise/taken.h"
#include "lib/by_scale.h"
#include "lib/named.h"

static const char *see(size_t crafts)
{
    return crafts ? "pare craft lists them" : "this bench has none yet";
}

pare_status pare_craft_is_there(pare_store *store, const char *name, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    const char *const *names;
    size_t count = 0;
    bool there = false;
    pare_status status = pare_store_craft_names(store, arena, &count, &names, err);
    for (size_t i = 0; status == PARE_OK && i < count; i++)
        there = there || strcmp(names[i], name) == 0;
    if (status == PARE_OK && !there)
        status = pare_unknown_name("craft", name, count, names, see(count), err);
    pare_arena_close(arena);
    return status;
}

/* Puts a craft as built in the place of the one described; what cannot be built is said when somebody
 * asks for it. */
static pare_status build_one(pare_bench *bench, size_t index, pare_first_craft *first,
                             pare_error *err)
{
    pare_error why = {0};
    *first = (pare_first_craft){.craft = bench->craft[index]};
    if (first->craft->takens == 0)
        return PARE_OK;
    pare_craft *built = pare_arena_zeros(bench->arena, sizeof *built);
    if (!built)
        return pare_no_memory(err);
    first->status = pare_taken_as_built(bench, first->craft, built, NULL, &why);
    if (first->status == PARE_OK) {
        bench->craft[index] = built;
        return PARE_OK;
    }
    if (first->status == PARE_UNAVAILABLE) /* no fault of the craft's */
        return pare_fail(err, first->status, "%s", why.text);
    first->why = pare_arena_text(bench->arena, why.text);
    return first->why ? PARE_OK : pare_no_memory(err);
}

static pare_status build(pare_built *built, pare_error *err)
{
    const size_t crafts = built->bench->crafts;
    built->first = pare_arena_array(built->bench->arena, crafts + 1, sizeof *built->first);
    pare_status status = built->first ? PARE_OK : pare_no_memory(err);
    for (size_t i = 0; i < crafts && status == PARE_OK; i++)
        status = build_one(built->bench, i, &built->first[i], err);
    return status;
}

pare_status pare_built_read(pare_store *store, const char *craft, bool as_written,
                            pare_built *built, pare_error *err)
{
    *built = (pare_built){0};
    pare_status status = pare_store_hold(store, craft, err);
    if (status != PARE_OK)
        return status;
    if (craft)
        status = pare_craft_is_there(store, craft, err);
    if (status == PARE_OK)
        status = craft ? pare_store_read_craft(store, craft, &built->bench, err)
                       : pare_store_read(store, &built->bench, err);
    if (status == PARE_OK)
        status = build(built, err);
    if (status == PARE_OK && !as_written)
        status = pare_by_scale(store, craft, built, err);
    pare_store_release(store);
    if (status == PARE_OK)
        status = pare_store_warm(store, built->bench, err);
    return status;
}

/* The place of a craft on the bench, or its number of craft. */
static size_t place_of(const pare_bench *bench, const char *name)
{
    size_t i = 0;
    while (i < bench->crafts && strcmp(bench->craft[i]->name, name) != 0)
        i++;
    return i;
}

const pare_craft *pare_built_first(const pare_built *built, const char *name)
{
    const size_t i = place_of(built->bench, name);
    return i < built->bench->crafts ? built->first[i].craft : NULL;
}

static pare_status no_craft(const pare_bench *bench, const char *name, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    const char **names = arena ? pare_arena_array(arena, bench->crafts + 1, sizeof *names) : NULL;
    pare_status status = names ? PARE_OK : pare_no_memory(err);
    for (size_t i = 0; status == PARE_OK && i < bench->crafts; i++)
        names[i] = bench->craft[i]->name;
    if (status == PARE_OK)
        status = pare_unknown_name("craft", name, bench->crafts, names, see(bench->crafts), err);
    pare_arena_close(arena);
    return status;
}

pare_status pare_built_craft(const pare_built *built, const char *name, const pare_craft **craft,
                             pare_error *err)
{
    const pare_bench *bench = built->bench;
    const size_t place = place_of(bench, name);
    if (place == bench->crafts)
        return no_craft(bench, name, err);
    const pare_first_craft *first = &built->first[place];
    *craft = bench->craft[place];
    if (first->status == PARE_OK)
        return PARE_OK;
    return pare_fail(err, first->status, "craft '%s' cannot be built as taken: %s", name,
                     first->why);
}
