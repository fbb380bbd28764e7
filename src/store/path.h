/* path.h: KEY=VALUE words, where a key is a path into the text form: "mass.u=0.1g". Inside the room
 * only.
 *
 * Every node that comes from a word has the line -n for the nth word, so that a reader says the word
 * and not a line of a text that nobody has seen (see pare_reading.typed). */
#ifndef PARE_STORE_PATH_H
#define PARE_STORE_PATH_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/error.h"
#include "store/tree.h"

enum { PARE_PATH_MOST = 8 };

typedef struct pare_path {
    int line;         /* of its nodes: below zero */
    const char *word; /* as typed */
    size_t segments;
    const char *segment[PARE_PATH_MOST];
    const char *text;       /* the value as typed; NULL: what stands there goes ("off") */
    const pare_node *value; /* the same as a tree, without a key; NULL likewise */
} pare_path;

/** Reads words.
 *
 * A value is one text as it stands, or, where it begins with {, [ or a quote, YAML's flow style. off
 * takes the entry away; "'off'" is the word itself.
 * @param like  a right word, for the message
 * @return PARE_OK; PARE_BAD_DATA, naming the word */
pare_status pare_paths_read(pare_arena *arena, size_t count, const char *const word[],
                            const char *like, pare_path path[], pare_error *err);

/** "a.b.c" of a path, for messages and for comparing. */
void pare_path_text(const pare_path *path, char text[PARE_TREE_KEY]);

/** Puts one more segment in front. @return false where there is no room */
bool pare_path_under(pare_path *path, const char *segment);

/** Shorter paths first, otherwise as typed: mass=12g before mass.u=0.1g, whichever came first; refuses
 * two for one entry. */
pare_status pare_paths_order(size_t count, pare_path path[], pare_error *err);

/** Puts a path's value into a tree, or takes away what stands there and maps that are empty then.
 *
 * Below a single value stand value, u and known (mass.u), or the keys of a price.
 * @param root   a map of the arena that may be changed; what hangs below it is copied as needed
 * @param order  [keys] of the root, in the order in which they are usually written
 * @return PARE_OK; PARE_UNKNOWN: nothing there to take away, with the nearest; PARE_BAD_DATA */
pare_status pare_path_put(pare_arena *arena, pare_node *root, const pare_path *path, size_t keys,
                          const char *const order[], pare_error *err);

/** What stands in a tree at a path's first so many segments, or NULL. */
const pare_node *pare_path_find(const pare_node *root, const pare_path *path, size_t segments);

#endif
