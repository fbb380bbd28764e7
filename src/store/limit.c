/* limit.c: the limits of a brief, changed in the craft's own text (see bench.h).
 *
 * The text is the truth, so it is what is changed: the branch craft, brief, limits is made anew with
 * the entries set, replaced or left out, all else is the nodes as they were read, and the result is
 * written in the one canonical way and read again as a sheet would read it before it is kept. */
#include <string.h>

#include "store/change.h"
#include "store/edit.h"
#include "store/tree_edit.h"

static pare_status change_tree(pare_arena *arena, const pare_node *root, size_t count,
                               const pare_limit_change limit[], pare_node **changed,
                               pare_error *err)
{
    pare_node *craft = pare_node_without(arena, root, NULL);
    pare_node *brief = craft ? pare_node_branch(arena, craft, "brief") : NULL;
    pare_node *limits = brief ? pare_node_branch(arena, brief, "limits") : NULL;
    for (size_t i = 0; i < count && limits; i++) {
        pare_node *entry = NULL;
        if (!limit[i].text) {
            limits = pare_node_without(arena, limits, limit[i].key);
        } else {
            entry = pare_node_made(arena, PARE_NODE_SCALAR, limit[i].key, limit[i].text);
            if (!entry)
                return pare_no_memory(err);
            pare_node_set(limits, entry);
        }
        if (limits)
            pare_node_set(brief, limits);
    }
    if (!limits)
        return pare_no_memory(err);
    if (limits->count == 0)
        brief = pare_node_without(arena, brief, "limits");
    if (brief)
        pare_node_set(craft, brief);
    if (brief && brief->count == 0)
        craft = pare_node_without(arena, craft, "brief");
    *changed = craft;
    return brief && craft ? PARE_OK : pare_no_memory(err);
}

static pare_status change_stored(pare_store *store, const char *craft, size_t count,
                                 const pare_limit_change limit[], pare_arena *arena,
                                 pare_error *err)
{
    const pare_node *root = NULL;
    pare_node *changed = NULL;
    pare_status status = pare_craft_tree(store, craft, arena, &root, err);
    if (status == PARE_OK)
        status = change_tree(arena, root, count, limit, &changed, err);
    return status == PARE_OK ? pare_craft_replace(store, craft, changed, err) : status;
}

pare_status pare_store_set_limits(pare_store *store, const char *craft, size_t count,
                                  const pare_limit_change limit[], const pare_change *change,
                                  pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    pare_status status = pare_change_begin(store, change, false, err);
    if (status == PARE_OK)
        status = pare_change_end(store, change_stored(store, craft, count, limit, arena, err), true,
                                 err);
    pare_arena_close(arena);
    return status;
}
