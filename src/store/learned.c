/* learned.c: what was learned of a craft, put into its own text or taken out again (see bench.h).
 *
 * As limits are (limit.c): one branch is made anew, all else is the nodes as they were read. */
#include "store/change.h"
#include "store/edit.h"
#include "store/tree_edit.h"

enum { DIGITS = 10 };

static bool put_numbers(pare_arena *arena, pare_node *map, const pare_taught *kept)
{
    pare_node *numbers = pare_node_made(arena, PARE_NODE_MAP, "numbers", NULL);
    bool made = numbers != NULL;
    for (int n = 0; n < PARE_TAUGHTS && made; n++) {
        bool any = kept->change[n] != 0;
        for (int s = 0; s < PARE_TAUGHT_SOURCES; s++)
            any = any || kept->root[n][s] != 0;
        if (!any)
            continue;
        pare_node *list =
            pare_node_made(arena, PARE_NODE_LIST, pare_taught_name((pare_taught_number)n), NULL);
        made = list && pare_node_append_number(arena, list, DIGITS, kept->change[n]);
        for (int s = 0; s < PARE_TAUGHT_SOURCES && made; s++)
            made = pare_node_append_number(arena, list, DIGITS, kept->root[n][s]);
        if (made)
            pare_node_set(numbers, list);
    }
    if (made)
        pare_node_set(map, numbers);
    return made;
}

static pare_node *node_of(pare_arena *arena, const pare_taught *kept)
{
    pare_node *map = pare_node_made(arena, PARE_NODE_MAP, "learned", NULL);
    const bool made =
        map && pare_node_put_text(arena, map, "date", kept->date) &&
        pare_node_put_text(arena, map, "flights", pare_arena_printf(arena, "%d", kept->flights)) &&
        pare_node_put_text(arena, map, "motor", kept->motor) &&
        pare_node_put_text(arena, map, "propeller", kept->propeller) &&
        pare_node_put_text(arena, map, "stand", kept->stand ? "true" : "false") &&
        (!kept->pack || pare_node_put_text(arena, map, "pack", kept->pack)) &&
        (!kept->esc || pare_node_put_text(arena, map, "esc", kept->esc)) &&
        put_numbers(arena, map, kept);
    return made ? map : NULL;
}

static pare_status change_stored(pare_store *store, const char *craft, const pare_taught *kept,
                                 pare_arena *arena, pare_error *err)
{
    const pare_node *root = NULL;
    pare_status status = pare_craft_tree(store, craft, arena, &root, err);
    if (status != PARE_OK)
        return status;
    if (!kept && !pare_node_get(root, "learned"))
        return pare_fail(
            err, PARE_BAD_DATA,
            "craft '%.48s': nothing learned is kept; pare learn %.48s --keep does that", craft,
            craft);
    pare_node *changed = pare_node_without(arena, root, kept ? NULL : "learned");
    pare_node *made = kept ? node_of(arena, kept) : NULL;
    if (!changed || (kept && !made))
        return pare_no_memory(err);
    if (made)
        pare_node_set(changed, made);
    return pare_craft_replace(store, craft, changed, err);
}

pare_status pare_store_set_learned(pare_store *store, const char *craft, const pare_taught *kept,
                                   const pare_change *change, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    pare_status status = pare_change_begin(store, change, false, err);
    if (status == PARE_OK)
        status = pare_change_end(store, change_stored(store, craft, kept, arena, err), true, err);
    pare_arena_close(arena);
    return status;
}
