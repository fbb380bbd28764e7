/* reading.h: what every reader of a tree needs: the place in a message, keys, quantities.
 *
 * Each function that can fail says "file:line:column: what; what would be right". */
#ifndef PARE_STORE_READING_H
#define PARE_STORE_READING_H

#include <stdbool.h>

#include "base/units.h"
#include "physics/solid.h"
#include "store/bench.h"
#include "store/outline.h"
#include "store/tree.h"

/** Texts for the person, kept in the order in which they came up. */
typedef struct pare_notes {
    pare_arena *arena;
    size_t count, size;
    const char **text;
} pare_notes;

/** Adds one line; does nothing without memory or with notes NULL. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void
pare_note(pare_notes *notes, const char *format, ...);

/** Finds what is known of a mesh file or outline that a part names.
 *
 * @param unit_m  length of a mesh file's unit; 0: the file says, as 3MF and drawings do
 * @param[out] mesh, outline  one of the two, the other NULL: which of them the file is to be
 * @param[out] found  whether it was filled; a file that is not there is no error
 * @return PARE_BAD_DATA for a file that is there and is none, or a name that is not allowed */
typedef pare_status (*pare_find_file)(void *context, const char *file, double unit_m,
                                      pare_mesh_facts *mesh, pare_outline_facts *outline,
                                      bool *found, pare_notes *notes, pare_error *err);

/** One reading: whose text it is, where what is made goes, who knows files. */
typedef struct pare_reading {
    const char *name; /* in front of line and column */
    pare_arena *arena;
    pare_units *units;
    pare_notes *notes; /* NULL: nobody wants them */
    pare_find_file find_file;
    void *find_context;
    pare_craft_check check_craft; /* NULL: nobody asks more of a craft than that it reads */
    /* Words that were typed, "mass=12g": a node of line -n came from typed[n - 1], and lines of the
     * text around it, which nobody has seen, are not spoken of. NULL: all of it is a text. */
    const char *const *typed;
} pare_reading;

/** Where something stands: "name:line:column", or the word that was typed. */
enum { PARE_WHERE = 400 };
const char *pare_where(const pare_reading *reading, int line, int column, char place[PARE_WHERE]);

/** Fails with the place of a node in front; a map's entry is placed at its value. */
#if defined(__GNUC__)
__attribute__((format(printf, 5, 6)))
#endif
pare_status
pare_refuse(const pare_reading *reading, const pare_node *at, pare_status status, pare_error *err,
            const char *format, ...);

/** Puts the place of a node, and what the node is about, in front of an error. */
pare_status pare_refused_at(const pare_reading *reading, const pare_node *at, const char *what,
                            pare_error *err);

/** Whether the node is a map, with no key but these. @param what  "an item", for the message */
pare_status pare_read_keys(const pare_reading *reading, const pare_node *map, const char *what,
                           size_t count, const char *const known[], pare_error *err);

/** A word out of a list. @param[out] index  its place in it */
pare_status pare_read_choice(const pare_reading *reading, const pare_node *node, const char *what,
                             size_t count, const char *const known[], int *index, pare_error *err);

/** Whether the node is of a form; the message says which would be right. */
pare_status pare_need_list(const pare_reading *reading, const pare_node *node, const char *what,
                           pare_error *err);
pare_status pare_need_map(const pare_reading *reading, const pare_node *node, const char *what,
                          pare_error *err);

/** Free text: a maker, a seller. Not empty. */
pare_status pare_read_text(const pare_reading *reading, const pare_node *node, const char *what,
                           const char **text, pare_error *err);
/** A name that can be typed in a swap: letters, digits, '-', '_', and '.' where dots is true; 48
 * bytes at most. */
pare_status pare_read_name(const pare_reading *reading, const pare_node *node, const char *what,
                           bool dots, const char **name, pare_error *err);
/** The same check on a map's key. */
pare_status pare_check_key_name(const pare_reading *reading, const pare_node *entry,
                                const char *what, pare_error *err);
/** A day, 2026-03-01. */
pare_status pare_read_date(const pare_reading *reading, const pare_node *node, const char *what,
                           const char **date, pare_error *err);
pare_status pare_read_bool(const pare_reading *reading, const pare_node *node, const char *what,
                           bool *value, pare_error *err);

/** Whether what a scalar says lies within low .. high (SI, inclusive). */
pare_status pare_check_range(const pare_reading *reading, const pare_node *node, const char *what,
                             pare_dimension dimension, double low, double high, double value,
                             pare_error *err);
/** A quantity within low .. high (SI, inclusive). A missing node (NULL) leaves value alone. */
pare_status pare_read_quantity(const pare_reading *reading, const pare_node *node, const char *what,
                               pare_dimension dimension, double low, double high, double *value,
                               pare_error *err);
/** A count within low .. high, likewise. */
pare_status pare_read_count(const pare_reading *reading, const pare_node *node, const char *what,
                            int low, int high, int *value, pare_error *err);
/** A list of quantities, or one: least .. most of them. @param[out] count */
pare_status pare_read_quantities(const pare_reading *reading, const pare_node *node,
                                 const char *what, pare_dimension dimension, double low,
                                 double high, size_t least, size_t most, double value[],
                                 size_t *count, pare_error *err);
/** A point [x, y, z] in length; least is 2 where z may be left out, 3 otherwise. */
pare_status pare_read_point(const pare_reading *reading, const pare_node *node, const char *what,
                            size_t least, pare_vec3 *point_m, pare_error *err);
/** A rotation [about z, y, x] in angles. */
pare_status pare_read_turn(const pare_reading *reading, const pare_node *node, pare_mat3 *turn,
                           pare_error *err);

#define PARE_COUNT(array) (sizeof(array) / sizeof *(array))

#endif
