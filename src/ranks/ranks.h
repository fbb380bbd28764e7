/* ranks.h: several processes of one program that know each other by number, and send each other bytes.
 *
 * Where a launcher has started several (mpirun), a module does the talking that is loaded only then, so that
 * the program itself needs no MPI to run, nor any time for it. Else there is one rank. */
#ifndef PARE_RANKS_RANKS_H
#define PARE_RANKS_RANKS_H

#include "base/error.h"
#include "ranks/module.h"

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
