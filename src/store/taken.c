/* taken.c: the swaps taken on a craft, put into its own text (see bench.h).
 *
 * As limits are (limit.c): the list is made anew, entries that did not change are the nodes as they
 * were read, and the craft is read again, with its parts and with the check of the store, before it is
 * kept. A promise is written once and from then on only copied. */
#include <stdbool.h>
#include <string.h>

#include "store/change.h"
#include "store/edit.h"
#include "store/read_craft.h"
#include "store/tree_edit.h"

enum { DIGITS = 6 /* of a promised figure: more than any of them is known to */ };

static pare_node *promise_node(pare_arena *arena, const pare_taken *taken)
{
    pare_node *map = pare_node_made(arena, PARE_NODE_MAP, "promise", NULL);
    bool made = map != NULL;
    for (size_t i = 0; i < taken->promises && made; i++) {
        const pare_promised *p = &taken->promise[i];
        if (p->count == 1) {
            made = pare_node_put_text(arena, map, p->key,
                                      pare_arena_printf(arena, "%.*g", DIGITS, p->value[0] + 0));
            continue;
        }
        pare_node *list = pare_node_made(arena, PARE_NODE_LIST, p->key, NULL);
        made = list != NULL;
        for (size_t k = 0; k < p->count && made; k++)
            made = pare_node_append_number(arena, list, DIGITS, p->value[k]);
        if (made)
            pare_node_set(map, list);
    }
    return made ? map : NULL;
}

static pare_node *brings_node(pare_arena *arena, const pare_taken *taken)
{
    pare_node *list = pare_node_made(arena, PARE_NODE_LIST, "brings", NULL);
    for (size_t i = 0; i < taken->brings && list; i++) {
        pare_node *one = pare_node_made(arena, PARE_NODE_SCALAR, NULL, taken->bring[i]->id);
        if (!one)
            return NULL;
        pare_node_append(list, one);
    }
    return list;
}

/* An entry in its one order of keys. @param was  as stored; NULL: a new one */
static pare_node *entry_node(pare_arena *arena, const pare_taken *taken, const pare_node *was)
{
    pare_node *map = pare_node_made(arena, PARE_NODE_MAP, NULL, NULL), *one = NULL;
    bool made = map && pare_node_put_text(arena, map, "swap", taken->swap);
    for (int s = 0; s < PARE_STAGES && made; s++)
        if (taken->date[s])
            made = pare_node_put_text(arena, map, pare_stage_name((pare_stage)s), taken->date[s]);
    if (made && taken->brings) {
        one = brings_node(arena, taken);
        made = one != NULL;
        if (made)
            pare_node_set(map, one);
    }
    const pare_node *kept = was ? pare_node_get(was, "promise") : NULL;
    if (!made || (was && !kept) || (!was && taken->promises == 0))
        return made ? map : NULL;
    one = kept ? pare_arena_zeros(arena, sizeof *one) : promise_node(arena, taken);
    if (!one)
        return NULL;
    if (kept)
        *one = *kept;
    pare_node_set(map, one);
    return map;
}

/* Whether an entry as stored says what it is to say. */
static bool says(const pare_node *was, const pare_taken *taken)
{
    for (int s = 0; s < PARE_STAGES; s++) {
        const pare_node *day = pare_node_get(was, pare_stage_name((pare_stage)s));
        if (!day != !taken->date[s] || (day && strcmp(day->text, taken->date[s]) != 0))
            return false;
    }
    const pare_node *brings = pare_node_get(was, "brings");
    if ((brings ? brings->count : 0) != taken->brings)
        return false;
    const pare_node *one = brings ? brings->first : NULL;
    for (size_t i = 0; one; i++, one = one->next)
        if (strcmp(one->text, taken->bring[i]->id) != 0)
            return false;
    return true;
}

static const pare_node *nth(const pare_node *list, int n)
{
    const pare_node *one = list ? list->first : NULL;
    while (one && n-- > 0)
        one = one->next;
    return one;
}

/* The list as it was read is the list as it is stored. */
static pare_status check_same(const pare_node *stored, const pare_taken_list *list,
                              const char *craft, pare_error *err)
{
    bool same = (stored ? stored->count : 0) == list->were;
    for (size_t i = 0; i < list->count && same; i++) {
        const pare_node *there = list->was[i] >= 0 ? nth(stored, list->was[i]) : NULL;
        const pare_node *swap = there ? pare_node_get(there, "swap") : NULL;
        same = list->was[i] < 0 || (swap && strcmp(swap->text, list->taken[i].swap) == 0);
    }
    if (same)
        return PARE_OK;
    return pare_fail(err, PARE_UNAVAILABLE,
                     "what is taken on '%.48s' has just been changed by another program; try again",
                     craft);
}

static pare_node *list_node(pare_arena *arena, const pare_node *stored, const pare_taken_list *list)
{
    pare_node *made = pare_node_made(arena, PARE_NODE_LIST, "taken", NULL);
    for (size_t i = 0; i < list->count && made; i++) {
        const pare_node *there = list->was[i] >= 0 ? nth(stored, list->was[i]) : NULL;
        pare_node *entry = NULL;
        if (there && says(there, &list->taken[i])) {
            entry = pare_arena_zeros(arena, sizeof *entry);
            if (entry)
                *entry = *there;
        } else {
            entry = entry_node(arena, &list->taken[i], there);
        }
        if (!entry)
            return NULL;
        pare_node_append(made, entry);
    }
    return made;
}

static pare_status change_stored(pare_store *store, const char *craft, const pare_taken_list *list,
                                 pare_arena *arena, pare_error *err)
{
    const pare_node *root = NULL;
    pare_status status = pare_craft_tree(store, craft, arena, &root, err);
    if (status != PARE_OK)
        return status;
    const pare_node *stored = pare_node_get(root, "taken");
    status = check_same(stored, list, craft, err);
    if (status != PARE_OK)
        return status;
    pare_node *changed = pare_node_without(arena, root, list->count ? NULL : "taken");
    pare_node *made = list_node(arena, stored, list);
    if (!changed || !made)
        return pare_no_memory(err);
    if (list->count)
        pare_node_set(changed, made);
    return pare_craft_replace(store, craft, changed, err);
}

pare_status pare_store_set_taken(pare_store *store, const char *craft, const pare_taken_list *list,
                                 const pare_change *change, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    pare_status status = pare_change_begin(store, change, false, err);
    if (status == PARE_OK)
        status = pare_change_end(store, change_stored(store, craft, list, arena, err), true, err);
    pare_arena_close(arena);
    return status;
}
