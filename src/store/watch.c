/* watch.c: long work on a bench says how far it is, and stops when told (see bench.h).
 *
 * The loops of this room call pare_store_step(); what a database does in one piece, its driver asks about. */
#include "store/sql_driver.h"

void pare_store_watch(pare_store *store, const pare_progress *progress)
{
    store->progress = progress;
    store->driver->watch(store);
}

bool pare_store_stopped(const pare_store *store)
{
    const pare_progress *progress = store->progress;
    return progress && !progress->step(progress->context, NULL, 0, 0);
}

pare_status pare_store_step(const pare_store *store, const char *doing, size_t done, size_t all,
                            pare_error *err)
{
    return pare_progress_step(store->progress, doing, done, all, err);
}
