/* shelf.h: the bench's parts by the work that they are there for. Only this room uses it. */
#ifndef PARE_ADVISE_SHELF_H
#define PARE_ADVISE_SHELF_H

#include "craft/craft.h"

/** Parts that can be had (none that is sought), those of one main work together, by id within. */
typedef struct pare_shelf {
    const pare_bench *bench;
    const pare_part **part;
    size_t first[PARE_KINDS + 1]; /* by pare_main_kind() */
} pare_shelf;

/** @param arena  holds the shelf's list; the parts stay the bench's */
pare_status pare_shelf_fill(const pare_bench *bench, pare_arena *arena, pare_shelf *shelf,
                            pare_error *err);

/** Those that may do a kind's main work: [*count], by id. */
const pare_part *const *pare_shelf_row(const pare_shelf *shelf, pare_kind kind, size_t *count);

#endif
