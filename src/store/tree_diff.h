/* tree_diff.h: where two trees differ, entry by entry. Inside the room only. */
#ifndef PARE_STORE_TREE_DIFF_H
#define PARE_STORE_TREE_DIFF_H

#include "store/by_key.h"
#include "store/tree.h"

/** Whether two trees say the same, in the same order. */
bool pare_node_same(const pare_node *one, const pare_node *two);

/** The entries that differ, each by its path, a map's one by one; entries in another order only do not.
 *
 * @param was, is  maps
 * @param[out] list  [count], in the arena */
pare_status pare_tree_diff(pare_arena *arena, const pare_node *was, const pare_node *is,
                           size_t *count, const pare_entry_change **list, pare_error *err);

#endif
