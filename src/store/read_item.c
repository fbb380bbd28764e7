/* read_item.c: the items of a craft out of their text: which part, how many, where, for what. */
#include <stdio.h>
#include <string.h>

#include "store/read_craft.h"

/* Standard uncertainty of each coordinate: somebody measured with a rule, or nobody said. */
#define SAID_U_M     0.003
#define NOT_SAID_U_M 0.020

pare_status pare_read_part_id(const pare_reading *reading, const pare_node *node,
                              const pare_bench *bench, const pare_part **part, pare_error *err)
{
    const char *id = NULL;
    const pare_status status = pare_read_text(reading, node, "part", &id, err);
    if (status != PARE_OK)
        return status;
    *part = pare_bench_part(bench, id);
    if (*part)
        return PARE_OK;
    const char *nearest = NULL;
    const char **ids = pare_arena_array(reading->arena, bench->parts, sizeof *ids);
    if (ids) {
        for (size_t i = 0; i < bench->parts; i++)
            ids[i] = bench->part[i]->id;
        nearest = pare_nearest(id, bench->parts, ids);
    }
    if (nearest)
        return pare_refuse(reading, node, PARE_UNKNOWN, err,
                           "no part '%.48s' on the bench; is it '%s'?", id, nearest);
    return pare_refuse(reading, node, PARE_UNKNOWN, err,
                       "no part '%.48s' on the bench; right would be the id of a part", id);
}

pare_status pare_read_item_name(const pare_reading *reading, const pare_node *node,
                                const char *what, const pare_craft *craft, const char *also,
                                const char **name, pare_error *err)
{
    const char *known[PARE_ITEMS + 1], *text = NULL;
    const pare_status status = pare_read_text(reading, node, what, &text, err);
    if (status != PARE_OK)
        return status;
    size_t count = 0;
    for (size_t i = 0; i < craft->items; i++)
        known[count++] = craft->item[i].name;
    if (also)
        known[count++] = also;
    for (size_t i = 0; i < count; i++)
        if (strcmp(known[i], text) == 0) {
            *name = text;
            return PARE_OK;
        }
    const char *nearest = pare_nearest(text, count, known);
    if (nearest)
        return pare_refuse(reading, node, PARE_UNKNOWN, err,
                           "%s: no item '%.48s' on this craft; is it '%s'?", what, text, nearest);
    return pare_refuse(reading, node, PARE_UNKNOWN, err,
                       "%s: no item '%.48s' on this craft; right would be the name of one", what,
                       text);
}

/* {arms: 100 %}, or the word arms: at a share of the way to the motor's axis. */
static pare_status read_at_arms(const pare_reading *reading, const pare_node *node, pare_item *item,
                                pare_error *err)
{
    static const char *const keys[] = {"arms"};
    item->place = PARE_AT_ARMS;
    item->along_arm = 1;
    if (node->form == PARE_NODE_SCALAR && strcmp(node->text, "arms") == 0)
        return PARE_OK;
    if (node->form == PARE_NODE_SCALAR)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "at cannot be '%.40s'; right would be arms, {arms: 60 %%} or a place "
                           "like [10 mm, 0 mm, 5 mm]",
                           node->text);
    const pare_status status = pare_read_keys(reading, node, "at", 1, keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *share = pare_node_get(node, "arms");
    if (!share)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "at is empty; right would be like {arms: 100 %%}, or [10 mm, 0 mm, 5 "
                           "mm]");
    return pare_read_quantity(reading, share, "arms", PARE_DIM_SHARE, 0, 1.5, &item->along_arm,
                              err);
}

static pare_status read_at(const pare_reading *reading, const pare_node *node, pare_item *item,
                           pare_error *err)
{
    item->at_u_m = node ? SAID_U_M : NOT_SAID_U_M;
    item->place = PARE_AT_DEFAULT;
    if (!node)
        return PARE_OK;
    if (node->form != PARE_NODE_LIST)
        return read_at_arms(reading, node, item, err);
    const bool several = node->first && node->first->form == PARE_NODE_LIST;
    const size_t count = several ? node->count : 1;
    if (count > PARE_STATIONS || (several && count != 1 && count != (size_t)item->count))
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%zu stations for a count of %d; right would be one, or one each (%d at "
                           "most)",
                           count, item->count, PARE_STATIONS);
    item->place = PARE_AT_POINTS;
    item->stations = count;
    pare_status status = PARE_OK;
    size_t n = 0;
    for (const pare_node *one = several ? node->first : node; one && status == PARE_OK;
         one = several ? one->next : NULL)
        status = pare_read_point(reading, one, "at", 3, &item->at_m[n++], err);
    return status;
}

static pare_status read_item(const pare_reading *reading, const pare_node *node,
                             const pare_bench *bench, pare_item *item, pare_error *err)
{
    static const char *const keys[] = {"part", "count", "at",          "turn",
                                       "job",  "feeds", "included_in", "length"};
    pare_status status = pare_check_key_name(reading, node, "item", err);
    if (status == PARE_OK)
        status = pare_read_keys(reading, node, "an item", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    item->name = node->key;
    item->count = 1;
    item->turn = pare_turn_zyx(0, 0, 0);
    const pare_node *part = pare_node_get(node, "part"), *turn = pare_node_get(node, "turn"),
                    *job = pare_node_get(node, "job");
    if (!part)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "item '%s' without part; right would be like {part: mo-a, count: 4}",
                           item->name);
    status = pare_read_part_id(reading, part, bench, &item->part, err);
    if (status == PARE_OK)
        status = pare_read_count(reading, pare_node_get(node, "count"), "count", 1, 1000,
                                 &item->count, err);
    if (status == PARE_OK)
        status = read_at(reading, pare_node_get(node, "at"), item, err);
    if (status == PARE_OK && turn)
        status = pare_read_turn(reading, turn, &item->turn, err);
    if (status == PARE_OK)
        item->job = pare_kind_job(item->part->kind);
    if (status == PARE_OK && job) {
        const char *names[PARE_JOBS];
        int index = 0;
        for (int i = 0; i < PARE_JOBS; i++)
            names[i] = pare_job_name((pare_job)i);
        status = pare_read_choice(reading, job, "job", PARE_JOBS, names, &index, err);
        item->job = (pare_job)index;
    }
    if (status == PARE_OK)
        status = pare_read_quantity(reading, pare_node_get(node, "length"), "length",
                                    PARE_DIM_LENGTH, 0.001, 5, &item->cut_length_m, err);
    return status;
}

/* What refers to other items, once all of them have their names. */
static pare_status read_links(const pare_reading *reading, const pare_node *node,
                              const pare_craft *craft, pare_item *item, pare_error *err)
{
    const pare_node *feeds = pare_node_get(node, "feeds"),
                    *included_in = pare_node_get(node, "included_in");
    pare_status status = PARE_OK;
    if (included_in)
        status = pare_read_item_name(reading, included_in, "included_in", craft, NULL,
                                     &item->included_in, err);
    if (status == PARE_OK && included_in && strcmp(item->included_in, item->name) == 0)
        return pare_refuse(reading, included_in, PARE_BAD_DATA, err,
                           "item '%s' is included in itself; right would be another item",
                           item->name);
    if (status != PARE_OK || !feeds)
        return status;
    const bool single = feeds->form == PARE_NODE_SCALAR;
    if (!single && (feeds->form != PARE_NODE_LIST || feeds->count > PARE_FEEDS))
        return pare_refuse(reading, feeds, PARE_BAD_DATA, err,
                           "feeds is a list of %d items at most, in order, like [video, pigtail]",
                           PARE_FEEDS);
    for (const pare_node *one = single ? feeds : feeds->first; one && status == PARE_OK;
         one = single ? NULL : one->next)
        status = pare_read_item_name(reading, one, "feeds", craft, NULL, &item->feed[item->feeds++],
                                     err);
    return status;
}

pare_status pare_read_items(const pare_reading *reading, const pare_node *node,
                            const pare_bench *bench, pare_craft *craft, pare_error *err)
{
    pare_status status = pare_need_map(reading, node, "items", err);
    if (status == PARE_OK && (node->count == 0 || node->count > PARE_ITEMS))
        return pare_refuse(reading, node, PARE_BAD_DATA, err, "%zu items; right would be 1 to %d",
                           node->count, PARE_ITEMS);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next)
        status = read_item(reading, one, bench, &craft->item[craft->items++], err);
    size_t n = 0;
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next)
        status = read_links(reading, one, craft, &craft->item[n++], err);
    return status;
}
