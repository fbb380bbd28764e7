/* weigh_in.c: weigh-ins and scales of the bench, read and added (see bench.h).
 *
 * Only what was checked when it came in is here, so what does not read is a damaged bench. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "store/change.h"
#include "store/load.h"
#include "store/records.h"
#include "store/tree_edit.h"

#define GRAM          1e-3
#define PROMISE_PLACE "%.2f"

/* ---- reading ---- */

typedef struct gather {
    pare_reading reading; /* its arena holds what is made */
    size_t scales, scale_room, count, room;
    pare_scale *scale;
    pare_weigh_in *weigh_in;
} gather;

static double mass_kg(const gather *g, const pare_node *node, double otherwise)
{
    double value = otherwise;
    pare_error none;
    if (node)
        pare_quantity(g->reading.units, node->text, PARE_DIM_MASS, &value, &none);
    return value;
}

/* One in the last digit of a number as typed: its digits but for that one become 0. */
static double step_kg(const gather *g, const char *text)
{
    char step[64];
    double value = 0;
    pare_error none;
    snprintf(step, sizeof step, "%s", text);
    const size_t number = strspn(step, " +0123456789.");
    bool last = true;
    for (size_t i = number; i-- > 0;)
        if (step[i] >= '0' && step[i] <= '9') {
            step[i] = last ? '1' : '0';
            last = false;
        }
    return pare_quantity(g->reading.units, step, PARE_DIM_MASS, &value, &none) == PARE_OK ? value
                                                                                          : GRAM;
}

static bool read_checks(const gather *g, const pare_node *list, pare_scale *scale)
{
    pare_scale_check *check =
        pare_arena_array(g->reading.arena, (list ? list->count : 0) + 1, sizeof *check);
    if (!check)
        return false;
    scale->check = check;
    for (const pare_node *one = list ? list->first : NULL; one; one = one->next) {
        const pare_node *date = pare_node_get(one, "date");
        check[scale->checks++] =
            (pare_scale_check){.date = date ? date->text : "",
                               .known_kg = mass_kg(g, pare_node_get(one, "known"), 0),
                               .known_u_kg = mass_kg(g, pare_node_get(one, "known_u"), 0),
                               .reads_kg = mass_kg(g, pare_node_get(one, "reads"), 0)};
    }
    return true;
}

static bool take_scale(gather *g, const pare_node *node)
{
    g->scale = pare_grown(g->reading.arena, g->scale, g->scales, &g->scale_room, sizeof *g->scale);
    const pare_node *id = pare_node_get(node, "id"), *common = pare_node_get(node, "common");
    if (!g->scale)
        return false;
    pare_scale *scale = &g->scale[g->scales++];
    *scale = (pare_scale){.id = id ? id->text : "", .common = PARE_SCALE_COMMON_U};
    scale->resolution_kg = mass_kg(g, pare_node_get(node, "resolution"), GRAM);
    scale->repeatability_kg =
        mass_kg(g, pare_node_get(node, "repeatability"), scale->resolution_kg);
    pare_error none;
    if (common)
        pare_quantity(g->reading.units, common->text, PARE_DIM_SHARE, &scale->common, &none);
    return read_checks(g, pare_node_get(node, "checks"), scale);
}

static bool read_things(const gather *g, const pare_node *of, pare_weigh_in *w)
{
    pare_weighed_thing *thing = pare_arena_array(g->reading.arena, of->count + 1, sizeof *thing);
    if (!thing)
        return false;
    w->thing = thing;
    for (const pare_node *one = of->first; one; one = one->next)
        thing[w->things++] = (pare_weighed_thing){one->key, (int)strtol(one->text, NULL, 10)};
    return true;
}

static const char *text_at(const pare_node *node, const char *key)
{
    const pare_node *one = pare_node_get(node, key);
    return one ? one->text : NULL;
}

static bool take_weigh_in(gather *g, const pare_node *node)
{
    const pare_node *of = pare_node_get(node, "of");
    const char *promise = text_at(node, "promise");
    g->weigh_in =
        pare_grown(g->reading.arena, g->weigh_in, g->count, &g->room, sizeof *g->weigh_in);
    if (!g->weigh_in)
        return false;
    pare_weigh_in *w = &g->weigh_in[g->count++];
    *w = (pare_weigh_in){.craft = text_at(node, "craft"),
                         .date = text_at(node, "date"),
                         .scale = text_at(node, "scale"),
                         .loadout = text_at(node, "loadout"),
                         .reads = text_at(node, "reads")};
    if (!of || !w->reads)
        return false;
    w->all = of->form == PARE_NODE_SCALAR;
    w->reads_kg = mass_kg(g, pare_node_get(node, "reads"), 0);
    w->step_kg = step_kg(g, w->reads);
    pare_error none;
    w->promised = promise && pare_range(g->reading.units, promise, PARE_DIM_MASS, &w->low_kg,
                                        &w->high_kg, &none) == PARE_OK;
    return w->all || read_things(g, of, w);
}

static pare_status read_rows(pare_store *store, gather *g, const char *sql,
                             bool (*take)(gather *, const pare_node *), pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    pare_status status = pare_sql_prepare(store, &statement, err, sql, "");
    while (status == PARE_OK) {
        const pare_node *node = NULL;
        status = pare_sql_step(store, statement, &row, err);
        if (status != PARE_OK || !row)
            break;
        const char *doc = pare_sql_text(statement, 0, g->reading.arena);
        status =
            doc ? pare_tree_parse_map(doc, strlen(doc), store->path, g->reading.arena, &node, err)
                : pare_no_memory(err);
        if (status == PARE_OK && !take(g, node))
            status = pare_no_memory(err);
    }
    pare_sql_finish(statement);
    return status;
}

static const char SCALES[] = "SELECT doc FROM scale ORDER BY id";
static const char WEIGH_INS[] = "SELECT doc FROM weigh_in ORDER BY date, row";

void pare_weighings_ahead(const pare_store *store)
{
    pare_sql_ahead(store, SCALES, "");
    pare_sql_ahead(store, WEIGH_INS, "");
}

pare_status pare_store_weighings(pare_store *store, pare_arena *arena, pare_weighings *weighings,
                                 pare_error *err)
{
    gather g = {.reading = {.name = store->path, .arena = arena, .units = pare_units_open()}};
    pare_status status = g.reading.units ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = read_rows(store, &g, SCALES, take_scale, err);
    if (status == PARE_OK)
        status = read_rows(store, &g, WEIGH_INS, take_weigh_in, err);
    pare_units_close(g.reading.units);
    *weighings = (pare_weighings){g.scales, g.scale, g.count, g.weigh_in};
    return status;
}

/* ---- adding ---- */

/* @param text  NULL: it is not there, which is no failure */
static bool put(pare_arena *arena, pare_node *map, const char *key, const char *text)
{
    if (!text)
        return true;
    pare_node *entry = pare_node_made(arena, PARE_NODE_SCALAR, key, text);
    if (entry)
        pare_node_set(map, entry);
    return entry != NULL;
}

static bool put_things(pare_arena *arena, pare_node *map, const pare_weigh_in *w)
{
    if (w->all)
        return put(arena, map, "of", "all");
    pare_node *of = pare_node_made(arena, PARE_NODE_MAP, "of", NULL);
    bool made = of != NULL;
    for (size_t i = 0; i < w->things && made; i++) {
        const char *count = pare_arena_printf(arena, "%d", w->thing[i].count);
        made = count && put(arena, of, w->thing[i].name, count);
    }
    if (made)
        pare_node_set(map, of);
    return made;
}

static pare_node *node_of(pare_arena *arena, const pare_weigh_in *w)
{
    pare_node *map = pare_node_made(arena, PARE_NODE_MAP, NULL, NULL);
    const char *promise = w->promised
                              ? pare_arena_printf(arena, PROMISE_PLACE " g .. " PROMISE_PLACE " g",
                                                  w->low_kg / GRAM, w->high_kg / GRAM)
                              : NULL;
    const bool made = map && (promise || !w->promised) && put(arena, map, "craft", w->craft) &&
                      put(arena, map, "date", w->date) && put(arena, map, "scale", w->scale) &&
                      put_things(arena, map, w) && put(arena, map, "loadout", w->loadout) &&
                      put(arena, map, "reads", w->reads) && put(arena, map, "promise", promise);
    return made ? map : NULL;
}

pare_status pare_store_add_weigh_ins(pare_store *store, size_t count,
                                     const pare_weigh_in weigh_in[], const pare_change *change,
                                     pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    pare_node **node = arena ? pare_arena_array(arena, count + 1, sizeof(pare_node *)) : NULL;
    pare_status status = node ? PARE_OK : pare_no_memory(err);
    for (size_t i = 0; i < count && status == PARE_OK; i++) {
        node[i] = node_of(arena, &weigh_in[i]);
        status = node[i] ? PARE_OK : pare_no_memory(err);
    }
    if (status == PARE_OK)
        status = pare_records_add(store, PARE_RECORD_WEIGH_IN, count, node, arena, change, err);
    pare_arena_close(arena);
    return status;
}

static bool put_grams(pare_arena *arena, pare_node *map, const char *key, double kg)
{
    const char *text = pare_arena_printf(arena, "%.10g g", kg / GRAM);
    return text && put(arena, map, key, text);
}

static bool put_checks(pare_arena *arena, pare_node *map, const pare_scale *scale)
{
    pare_node *list = pare_node_made(arena, PARE_NODE_LIST, "checks", NULL);
    bool made = list != NULL;
    for (size_t i = 0; i < scale->checks && made; i++) {
        const pare_scale_check *check = &scale->check[i];
        pare_node *one = pare_node_made(arena, PARE_NODE_MAP, NULL, NULL);
        made = one && put(arena, one, "date", check->date) &&
               put_grams(arena, one, "known", check->known_kg) &&
               put_grams(arena, one, "known_u", check->known_u_kg) &&
               put_grams(arena, one, "reads", check->reads_kg);
        if (made)
            pare_node_append(list, one);
    }
    if (made && scale->checks)
        pare_node_set(map, list);
    return made;
}

pare_status pare_store_put_scale(pare_store *store, const pare_scale *scale,
                                 const pare_change *change, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    pare_node *map = arena ? pare_node_made(arena, PARE_NODE_MAP, NULL, NULL) : NULL;
    const char *common = map ? pare_arena_printf(arena, "%.10g %%", 100 * scale->common) : NULL;
    const bool made = common && put(arena, map, "id", scale->id) &&
                      put_grams(arena, map, "resolution", scale->resolution_kg) &&
                      put_grams(arena, map, "repeatability", scale->repeatability_kg) &&
                      put(arena, map, "common", common) && put_checks(arena, map, scale);
    const pare_status status =
        made ? pare_records_add(store, PARE_RECORD_SCALE, 1, &map, arena, change, err)
             : pare_no_memory(err);
    pare_arena_close(arena);
    return status;
}
