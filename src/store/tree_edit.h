/* tree_edit.h: a tree changed without touching the one that was read: what changes is made anew, all
 * else is shared. Inside the room only. */
#ifndef PARE_STORE_TREE_EDIT_H
#define PARE_STORE_TREE_EDIT_H

#include "store/tree.h"

/** A new scalar, or an empty map or list, in the arena; NULL without memory. */
pare_node *pare_node_made(pare_arena *arena, pare_node_form form, const char *key,
                          const char *text);

/** A map or list again, without the entry of one key (NULL: all of them): its entries are copies that
 * share what hangs below them, so they may be put elsewhere. NULL without memory. */
pare_node *pare_node_without(pare_arena *arena, const pare_node *map, const char *key);

/** Puts an entry where one of its key stands, or at the end. */
void pare_node_set(pare_node *map, pare_node *entry);

/** Puts an entry at the end of a list. */
void pare_node_append(pare_node *list, pare_node *entry);

/** Puts a scalar under a key of a map. False without memory, also where the text is NULL for want of it. */
bool pare_node_put_text(pare_arena *arena, pare_node *map, const char *key, const char *text);

/** Puts a number, to so many digits, at the end of a list. False without memory. */
bool pare_node_append_number(pare_arena *arena, pare_node *list, int digits, double value);

/** The map under a key, copied so that it may be changed, and put back in its place; an empty one
 * where there is none. NULL without memory, or where something other than a map stands there. */
pare_node *pare_node_branch(pare_arena *arena, pare_node *map, const char *key);

#endif
