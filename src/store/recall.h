/* recall.h: what was measured of all files that a bench keeps, read at once. Inside the room only.
 *
 * Reading a bench asks for each file of each part; on a server every question is a way there and back. */
#ifndef PARE_STORE_RECALL_H
#define PARE_STORE_RECALL_H

#include "base/arena.h"
#include "store/sql.h"

/** Figures of one file, as they were kept. */
typedef struct pare_recalled {
    const char *file;
    double unit_m;
    long long layout;
    size_t length;
    const void *facts; /* [length] */
} pare_recalled;

/** Zero-initialise. */
typedef struct pare_recall {
    bool done;
    size_t count, room;
    pare_recalled *one; /* [count], by file, then unit */
} pare_recall;

/** Those of one file in one unit; all are read when the first is asked for.
 * @param arena  keeps them
 * @param[out] found  NULL: nothing is kept of it
 * @return PARE_OK or PARE_UNAVAILABLE */
pare_status pare_recall_find(pare_recall *recall, const pare_store *store, pare_arena *arena,
                             const char *file, double unit_m, const pare_recalled **found,
                             pare_error *err);

/** It will be asked for: see pare_sql_ahead(). */
void pare_recall_ahead(const pare_store *store);

#endif
