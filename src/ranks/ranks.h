/* ranks.h: several processes of one program that know each other by number, and send each other bytes.
 *
 * Where a launcher has started several (mpirun), a module does the talking that is loaded only then, so that
 * the program itself needs no MPI to run, nor any time for it. Else there is one rank. */
#ifndef PARE_RANKS_RANKS_H
#define PARE_RANKS_RANKS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

/** What a module gives; both sides of it are built together. */
typedef struct pare_ranks_module {
    int rank, ranks; /* 0 .. ranks - 1 */
    void *context;
    /** @return false: it cannot be sent */
    bool (*send)(void *context, int to, const char *bytes, size_t length);
    /** A message that has come, whoever sent it, good until the next one is asked for.
     * @param wait_us  so long at most for one to come, sleeping
     * @return 1; 0: none has come; -1: none can come any more */
    int (*take)(void *context, long wait_us, int *from, const char **bytes, size_t *length);
    /** Waits for all ranks, and ends. */
    void (*end)(void *context);
} pare_ranks_module;

/** What a module exports, by the name "pare_ranks_module_begin". @return NULL, or why it cannot begin */
typedef const char *pare_ranks_begin_it(pare_ranks_module *module);

typedef struct pare_ranks {
    pare_ranks_module of;
    void *library; /* NULL: one rank */
} pare_ranks;

/** All ranks that the launcher has started; one, where there was none.
 * @return PARE_OK; PARE_UNAVAILABLE: there are several and no module for them, or it cannot begin */
pare_status pare_ranks_begin(pare_ranks *ranks, pare_error *err);
/** Every rank must come here; zeros are fine. */
void pare_ranks_end(pare_ranks *ranks);

#endif
