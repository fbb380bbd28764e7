/* read_craft.c: a craft out of its text: items first, then what refers to them. */
#include "store/read_craft.h"

#include <string.h>

const char *const pare_craft_keys[PARE_CRAFT_KEYS] = {
    "name", "brief", "drag_area", "loadouts", "items", "joints", "runs", "taken", "learned"};

enum { USES = sizeof((pare_loadout *)0)->use / sizeof((pare_loadout *)0)->use[0] };

static pare_status read_use(const pare_reading *reading, const pare_node *node,
                            const pare_bench *bench, const pare_craft *craft, pare_loadout *loadout,
                            pare_error *err)
{
    pare_status status = pare_need_map(reading, node, "use, {item: part},", err);
    if (status == PARE_OK && node->count > USES)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "a loadout uses %zu other parts; right would be %d at most", node->count,
                           USES);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next) {
        /* The key is checked as a value would be, at its own place. */
        const pare_node key = {.text = one->key, .line = one->key_line, .column = one->key_column};
        const size_t n = loadout->uses++;
        status = pare_read_item_name(reading, &key, "use", craft, NULL, &loadout->use[n].item, err);
        if (status == PARE_OK)
            status = pare_read_part_id(reading, one, bench, &loadout->use[n].part, err);
    }
    return status;
}

static pare_status read_loadout(const pare_reading *reading, const pare_node *node,
                                const pare_bench *bench, const pare_craft *craft,
                                pare_loadout *loadout, pare_error *err)
{
    static const char *const keys[] = {"without", "use"};
    pare_status status = pare_check_key_name(reading, node, "loadout", err);
    if (status == PARE_OK)
        status = pare_read_keys(reading, node, "a loadout", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    loadout->name = node->key;
    const pare_node *without = pare_node_get(node, "without"), *use = pare_node_get(node, "use");
    if (without) {
        status = pare_need_list(reading, without, "without", err);
        if (status == PARE_OK && without->count > PARE_ITEMS)
            return pare_refuse(reading, without, PARE_BAD_DATA, err,
                               "without %zu items; right would be %d at most", without->count,
                               PARE_ITEMS);
        for (const pare_node *one = without->first; one && status == PARE_OK; one = one->next)
            status = pare_read_item_name(reading, one, "without", craft, NULL,
                                         &loadout->off[loadout->without++], err);
    }
    if (status == PARE_OK && use)
        status = read_use(reading, use, bench, craft, loadout, err);
    return status;
}

static pare_status read_loadouts(const pare_reading *reading, const pare_node *node,
                                 const pare_bench *bench, pare_craft *craft, pare_error *err)
{
    if (!node)
        return PARE_OK;
    pare_status status = pare_need_map(reading, node, "loadouts", err);
    if (status == PARE_OK && node->count > PARE_LOADOUTS)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%zu loadouts; right would be %d at most", node->count, PARE_LOADOUTS);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next)
        status = read_loadout(reading, one, bench, craft, &craft->loadout[craft->loadouts++], err);
    return status;
}

static pare_status read_all(const pare_reading *reading, const pare_node *node,
                            const pare_bench *bench, pare_craft *craft, pare_error *err)
{
    const pare_node *items = pare_node_get(node, "items"), *drag = pare_node_get(node, "drag_area");
    if (!items)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "craft '%s' without items; right would be like items: {frame: {part: "
                           "fr-5a}}",
                           craft->name);
    craft->drag_given = drag != NULL;
    pare_status status = pare_read_quantity(reading, drag, "drag_area", PARE_DIM_AREA, 1e-5, 1,
                                            &craft->drag_m2, err);
    if (status == PARE_OK)
        status = pare_read_brief(reading, pare_node_get(node, "brief"), &craft->brief, err);
    if (status == PARE_OK)
        status = pare_read_items(reading, items, bench, craft, err);
    if (status == PARE_OK)
        status = pare_read_joints(reading, pare_node_get(node, "joints"), craft, err);
    if (status == PARE_OK)
        status = pare_read_runs(reading, pare_node_get(node, "runs"), craft, err);
    if (status == PARE_OK)
        status = read_loadouts(reading, pare_node_get(node, "loadouts"), bench, craft, err);
    if (status == PARE_OK)
        status = pare_read_takens(reading, pare_node_get(node, "taken"), bench, craft, err);
    if (status == PARE_OK)
        status = pare_read_learned(reading, pare_node_get(node, "learned"), craft, err);
    return status;
}

static pare_status check_taken(const pare_reading *reading, const pare_bench *bench,
                               const pare_craft *craft, pare_error *err)
{
    size_t taken = 0;
    if (!reading->check_craft || craft->takens == 0)
        return PARE_OK;
    const pare_status status = reading->check_craft(bench, craft, &taken, err);
    if (status == PARE_OK)
        return PARE_OK;
    const pare_node at = {.line = craft->taken[taken].line, .column = craft->taken[taken].column};
    return pare_refused_at(reading, &at, NULL, err);
}

pare_status pare_read_craft(const pare_reading *reading, const pare_node *node,
                            const pare_bench *bench, pare_craft **craft, pare_error *err)
{
    *craft = NULL;
    pare_craft *made = pare_arena_zeros(reading->arena, sizeof *made);
    if (!made)
        return pare_no_memory(err);
    pare_status status =
        pare_read_keys(reading, node, "a craft", PARE_CRAFT_KEYS, pare_craft_keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *name = pare_node_get(node, "name");
    if (!name)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "a craft without name; right would be like name: slalom-5");
    status = pare_read_name(reading, name, "name", true, &made->name, err);
    if (status == PARE_OK)
        status = read_all(reading, node, bench, made, err);
    if (status != PARE_OK)
        return status;
    made->stands = bench->stands;
    made->stand = bench->stand;
    status = pare_craft_settle(made, err);
    if (status != PARE_OK)
        return pare_refused_at(reading, node, NULL, err);
    status = check_taken(reading, bench, made, err);
    if (status != PARE_OK)
        return status;
    *craft = made;
    return PARE_OK;
}

static void add_once(const char **ids, size_t *count, const char *id)
{
    for (size_t i = 0; i < *count; i++)
        if (strcmp(ids[i], id) == 0)
            return;
    ids[(*count)++] = id;
}

static void add_node(const char **ids, size_t *count, const pare_node *node)
{
    if (node && node->form == PARE_NODE_SCALAR)
        add_once(ids, count, node->text);
}

/* What taken swaps put on: the part that each names, and those that came along. */
static void add_taken(const char **ids, size_t *count, const pare_node *taken)
{
    size_t seen = 0;
    for (const pare_node *one = taken ? taken->first : NULL; one && seen < PARE_TAKENS;
         one = one->next, seen++) {
        const pare_node *swap = pare_node_get(one, "swap"), *brings = pare_node_get(one, "brings");
        const char *id =
            swap && swap->form == PARE_NODE_SCALAR ? pare_taken_part(swap->text) : NULL;
        if (id)
            add_once(ids, count, id);
        size_t brought = 0;
        for (const pare_node *part = brings ? brings->first : NULL;
             part && brought < PARE_TAKEN_BRINGS; part = part->next, brought++)
            add_node(ids, count, part);
    }
}

pare_status pare_craft_part_ids(const pare_reading *reading, const pare_node *node, size_t *count,
                                const char ***ids, pare_error *err)
{
    const pare_node *items = pare_node_get(node, "items"),
                    *loadouts = pare_node_get(node, "loadouts");
    const size_t most = PARE_ITEMS + PARE_LOADOUTS * USES + PARE_TAKENS * (1 + PARE_TAKEN_BRINGS);
    const char **found = pare_arena_array(reading->arena, most, sizeof *found);
    if (!found)
        return pare_no_memory(err);
    size_t n = 0, seen = 0;
    for (const pare_node *one = items ? items->first : NULL; one && seen < PARE_ITEMS;
         one = one->next, seen++)
        add_node(found, &n, pare_node_get(one, "part"));
    seen = 0;
    for (const pare_node *one = loadouts ? loadouts->first : NULL; one && seen < PARE_LOADOUTS;
         one = one->next, seen++) {
        const pare_node *use = pare_node_get(one, "use");
        size_t used = 0;
        for (const pare_node *part = use ? use->first : NULL; part && used < USES;
             part = part->next, used++)
            add_node(found, &n, part);
    }
    add_taken(found, &n, pare_node_get(node, "taken"));
    *count = n;
    *ids = found;
    return PARE_OK;
}
