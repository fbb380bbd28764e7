/* built.h: a bench in memory as questions are asked of it: its craft as built, by the scale, their
 * propellers' tables at hand. */
#ifndef PARE_LIB_BUILT_H
#define PARE_LIB_BUILT_H

#include "craft/craft.h"
#include "store/bench.h"

/** A craft before any taken swap went on. */
typedef struct pare_first_craft {
    pare_craft *craft;
    pare_status status; /* PARE_OK: the bench's is the craft as built */
    const char *why;    /* where it cannot be built: the bench's is then the one as described */
} pare_first_craft;

typedef struct pare_built {
    pare_bench *bench;       /* NULL: nothing was read */
    pare_first_craft *first; /* [bench->crafts] */
} pare_built;

/** Reads a bench.
 *
 * @param craft       one by its name, and only the parts that it names: quicker; NULL: all
 * @param as_written  masses as they are written, whatever scales said
 * @param[out] built  close its bench with pare_bench_close(), also after a failure
 * @return as pare_store_read(); PARE_UNKNOWN where there is no such craft */
pare_status pare_built_read(pare_store *store, const char *craft, bool as_written,
                            pare_built *built, pare_error *err);

/** Whether a bench has a craft, by looking at names alone; PARE_UNKNOWN as below. */
pare_status pare_craft_is_there(pare_store *store, const char *name, pare_error *err);

/** A craft as built, by name; PARE_UNKNOWN with the nearest, or with all names where there are few; as
 * pare_taken_as_built() where a swap that was fitted no longer goes on. */
pare_status pare_built_craft(const pare_built *built, const char *name, const pare_craft **craft,
                             pare_error *err);
/** The same craft as first described, without the swaps taken since; NULL: there is none. */
const pare_craft *pare_built_first(const pare_built *built, const char *name);

#endif
