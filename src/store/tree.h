/* tree.h: a document as people type it: maps, lists and scalars, each with its line and column.
 *
 * Read by libyaml from bytes (JSON is YAML too), and written again in one canonical way. Only what a
 * bench needs of YAML is let in: one document, no anchors, no tags, each key once. */
#ifndef PARE_STORE_TREE_H
#define PARE_STORE_TREE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/error.h"
#include "base/text.h"

/** Limits of what is read: bytes, nesting, values at a time, and bytes of a key. */
#define PARE_TREE_BYTES  (64u << 20)
#define PARE_TREE_DEPTH  32
#define PARE_TREE_VALUES 1000000u
#define PARE_TREE_KEY    128

typedef enum pare_node_form { PARE_NODE_SCALAR, PARE_NODE_LIST, PARE_NODE_MAP } pare_node_form;

typedef struct pare_node {
    pare_node_form form;
    int line, column;         /* from 1; columns count characters */
    const char *key;          /* of a map's entry; NULL otherwise */
    int key_line, key_column; /* of that key */
    const char *text;         /* of a scalar: one line of UTF-8 without control characters */
    size_t count;             /* entries of a list or map */
    struct pare_node *first, *next;
} pare_node;

/** Reads one document.
 *
 * @param bytes  [length], UTF-8
 * @param name   said in front of line and column in errors
 * @param arena  holds the tree
 * @return PARE_OK; PARE_BAD_DATA as "name:line:column: what; what would be right";
 *         PARE_UNAVAILABLE without memory */
pare_status pare_tree_parse(const char *bytes, size_t length, const char *name, pare_arena *arena,
                            const pare_node **root, pare_error *err);

/** The same of a document in a bench, which is a map of keys unless somebody meddled with it.
 * @return likewise; PARE_BAD_DATA also for anything but a map */
pare_status pare_tree_parse_map(const char *bytes, size_t length, const char *name,
                                pare_arena *arena, const pare_node **root, pare_error *err);

/** A long list at the top of a document, whose entries are handed over one by one instead of being
 * kept, so that memory does not grow with it. */
typedef struct pare_tree_each {
    const char *key;   /* where it stands in the document's map */
    pare_arena *arena; /* of the entry at hand, taken back after it */
    void *context;
    /** @param root   the document's map as far as it has come
     *  @param entry  good until this returns
     *  @param[out] keep  the entry stays in the tree like any other; false before */
    pare_status (*take)(void *context, const pare_node *root, const pare_node *entry, bool *keep,
                        pare_error *err);
} pare_tree_each;

/** The same, with the entries of one list handed over; the list itself holds those that were kept. */
pare_status pare_tree_parse_each(const char *bytes, size_t length, const char *name,
                                 pare_arena *arena, const pare_tree_each *each,
                                 const pare_node **root, pare_error *err);

/** A map's entry, or NULL. */
const pare_node *pare_node_get(const pare_node *map, const char *key);

/** Writes a tree as YAML, without a newline at its end: what was read from it writes the same.
 *
 * Maps and lists that fit on a line are written in flow style, {a: 1, b: [2, 3]}, others a line an
 * entry. Comments are not kept.
 * @param block  levels from the root that are a line an entry even where they would fit */
void pare_tree_write(const pare_node *node, int block, pare_text *out);

/** Writes it on one line, however long: flow style. */
void pare_tree_write_line(const pare_node *node, pare_text *out);

/** Whether text is one line that a tree may hold: UTF-8 without control characters. */
int pare_tree_is_line(const char *text);

#endif
