/* read_taken.c: the swaps taken on a craft, out of their text.
 *
 * What a swap does is not this room's to know, but which parts it needs is: the one that it names and
 * those that it brought along must be on the bench for as long as the craft says so. Whether it
 * still goes onto the craft is asked of whoever knows (pare_store_check_with). */
#include <string.h>

#include "craft/figure.h"
#include "store/read_craft.h"

enum { LONGEST = 120 }; /* letters of a swap */
#define SOUGHT "sought-"
#define CENTRE "cg_mm" /* the three figures of the centre of mass are one place */

const char *pare_taken_part(const char *swap)
{
    const char *equals = strchr(swap, '=');
    if (!equals || memchr(swap, '.', (size_t)(equals - swap)))
        return NULL;
    const char *value = equals + 1;
    if (!*value || strcmp(value, "off") == 0 || strncmp(value, SOUGHT, sizeof SOUGHT - 1) == 0)
        return NULL;
    return value;
}

static pare_status read_swap(const pare_reading *reading, const pare_node *entry,
                             const pare_bench *bench, pare_taken *taken, pare_error *err)
{
    const pare_node *node = pare_node_get(entry, "swap");
    if (!node)
        return pare_refuse(reading, entry, PARE_BAD_DATA, err,
                           "taken without swap; right would be like {swap: bumper=off, chosen: "
                           "2026-04-01}");
    pare_status status = pare_read_text(reading, node, "swap", &taken->swap, err);
    if (status != PARE_OK)
        return status;
    const char *swap = taken->swap, *equals = strchr(swap, '=');
    if (!equals || equals == swap || !equals[1] || strpbrk(swap, " ,") || strlen(swap) > LONGEST)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "swap '%.48s'; right would be WHAT=VALUE in one word, like bumper=off",
                           swap);
    const char *id = pare_taken_part(swap);
    if (!id)
        return PARE_OK;
    const pare_node named = {.text = id, .line = node->line, .column = node->column};
    return pare_read_part_id(reading, &named, bench, &taken->part, err);
}

static pare_status read_days(const pare_reading *reading, const pare_node *entry, pare_taken *taken,
                             pare_error *err)
{
    pare_status status = PARE_OK;
    for (int s = 0; s < PARE_STAGES && status == PARE_OK; s++) {
        const char *stage = pare_stage_name((pare_stage)s);
        const pare_node *day = pare_node_get(entry, stage);
        if (day)
            status = pare_read_date(reading, day, stage, &taken->date[s], err);
    }
    if (status == PARE_OK && pare_taken_check_days(taken, err) != PARE_OK)
        return pare_refused_at(reading, entry, taken->swap, err);
    return status;
}

static pare_status read_brings(const pare_reading *reading, const pare_node *entry,
                               const pare_bench *bench, pare_taken *taken, pare_error *err)
{
    const pare_node *node = pare_node_get(entry, "brings");
    if (!node)
        return PARE_OK;
    pare_status status = pare_need_list(reading, node, "brings, the parts that came along,", err);
    if (status != PARE_OK)
        return status;
    if (node->count > PARE_TAKEN_BRINGS)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "a swap brings %zu parts; right would be %d at most", node->count,
                           PARE_TAKEN_BRINGS);
    const pare_part **bring = pare_arena_array(reading->arena, node->count + 1, sizeof(void *));
    if (!bring)
        return pare_no_memory(err);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next)
        status = pare_read_part_id(reading, one, bench, &bring[taken->brings++], err);
    taken->bring = bring;
    return status;
}

/* ---- the promise ---- */

/* A key less the "_u" of an uncertainty. */
static bool is_key_of(const char *key, const char *figure)
{
    const size_t length = strlen(figure);
    return strncmp(key, figure, length) == 0 &&
           (key[length] == '\0' || strcmp(key + length, "_u") == 0);
}

static pare_status check_key(const pare_reading *reading, const pare_node *one, pare_error *err)
{
    const char *known[PARE_FIGURES + 1];
    for (int f = 0; f < PARE_FIGURES; f++)
        known[f] = pare_figure_table[f].key;
    known[PARE_FIGURES] = CENTRE;
    for (int f = 0; f <= PARE_FIGURES; f++)
        if (is_key_of(one->key, known[f]))
            return PARE_OK;
    const char *near = pare_nearest(one->key, PARE_FIGURES + 1, known);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "%s:%d:%d: a promise knows no '%.48s'; is it '%s'?",
                         reading->name, one->key_line, one->key_column, one->key, near);
    return pare_fail(err, PARE_UNKNOWN,
                     "%s:%d:%d: a promise knows no '%.48s'; right would be a figure of the sheet, "
                     "like all_up_g",
                     reading->name, one->key_line, one->key_column, one->key);
}

static pare_status read_promise(const pare_reading *reading, const pare_node *entry,
                                pare_taken *taken, pare_error *err)
{
    const double most = 1e12;
    const pare_node *node = pare_node_get(entry, "promise");
    if (!node)
        return PARE_OK;
    pare_status status = pare_need_map(reading, node, "promise", err);
    if (status != PARE_OK)
        return status;
    pare_promised *made = pare_arena_array(reading->arena, node->count + 1, sizeof *made);
    if (!made)
        return pare_no_memory(err);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next) {
        pare_promised *promised = &made[taken->promises++];
        const size_t values = is_key_of(one->key, CENTRE) ? 3 : 1;
        promised->key = one->key;
        status = check_key(reading, one, err);
        if (status == PARE_OK)
            status = pare_read_quantities(reading, one, one->key, PARE_DIM_NUMBER, -most, most,
                                          values, values, promised->value, &promised->count, err);
    }
    taken->promise = made;
    return status;
}

/* ---- the list ---- */

static pare_status read_taken(const pare_reading *reading, const pare_node *entry,
                              const pare_bench *bench, pare_taken *taken, pare_error *err)
{
    static const char *const keys[] = {"swap",    "chosen", "ordered", "fitted",
                                       "weighed", "flown",  "brings",  "promise"};
    *taken = (pare_taken){.line = entry->line, .column = entry->column};
    pare_status status = pare_read_keys(reading, entry, "taken", PARE_COUNT(keys), keys, err);
    if (status == PARE_OK)
        status = read_swap(reading, entry, bench, taken, err);
    if (status == PARE_OK)
        status = read_days(reading, entry, taken, err);
    if (status == PARE_OK)
        status = read_brings(reading, entry, bench, taken, err);
    if (status == PARE_OK)
        status = read_promise(reading, entry, taken, err);
    return status;
}

pare_status pare_read_takens(const pare_reading *reading, const pare_node *node,
                             const pare_bench *bench, pare_craft *craft, pare_error *err)
{
    if (!node)
        return PARE_OK;
    pare_status status = pare_need_list(reading, node, "taken", err);
    if (status == PARE_OK && node->count > PARE_TAKENS)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "%zu swaps taken; right would be %d at most", node->count, PARE_TAKENS);
    for (const pare_node *one = node->first; one && status == PARE_OK; one = one->next)
        status = read_taken(reading, one, bench, &craft->taken[craft->takens++], err);
    return status;
}
