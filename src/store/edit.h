/* edit.h: a craft's own text, fetched, changed and put back. Inside the room only. */
#ifndef PARE_STORE_EDIT_H
#define PARE_STORE_EDIT_H

#include "store/bench.h"
#include "store/tree.h"

/** Levels of a craft's text that are always a line an entry. */
enum { PARE_CRAFT_BLOCK = 2 };

/** The text of a craft on the bench, as a tree in the arena.
 * @return PARE_OK; PARE_UNKNOWN with the nearest name */
pare_status pare_craft_tree(pare_store *store, const char *name, pare_arena *arena,
                            const pare_node **root, pare_error *err);

/** Puts a changed one in its place, within a change, once it has been read as a sheet would read it.
 * @param root  must still say this name */
pare_status pare_craft_replace(pare_store *store, const char *name, const pare_node *root,
                               pare_error *err);

#endif
