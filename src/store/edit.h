/* edit.h: a craft's own text, fetched, changed and put back. Inside the room only. */
#ifndef PARE_STORE_EDIT_H
#define PARE_STORE_EDIT_H

#include "store/bench.h"
#include "store/reading.h"

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

/** Keeps a craft's text, within a change, and reads it then as a sheet would, with its parts alone: what
 * is wrong undoes the change.
 * @param reading  whose place is said
 * @param name     that the text must say
 * @param doc      the tree's canonical text */
pare_status pare_craft_put(pare_store *store, const pare_reading *reading, const char *name,
                           const pare_node *root, const char *doc, pare_error *err);

#endif
