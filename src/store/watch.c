/* watch.c: long work on a bench says how far it is, and stops when told (see bench.h).
 *
 * The loops of this room call pare_store_step(). What SQLite does in one piece is asked now and then by
 * its progress handler, and while another program holds the lock by its busy handler; both end the
 * statement, and the transaction around it is rolled back like after any failure. */
#include <time.h>

#include "store/sql.h"

enum {
    ASK_EVERY = 100000, /* steps of SQLite's machine: some milliseconds */
    WAIT_STEP_MS = 20
};

static int ask(void *context)
{
    return pare_store_stopped(context);
}

/* SQLite's own waiting, but told of. Called again and again while the bench is locked. */
static int wait_for_lock(void *context, int times)
{
    const pare_store *store = context;
    const pare_progress *progress = store->progress;
    const struct timespec pause = {.tv_nsec = WAIT_STEP_MS * 1000000L};
    if (times * WAIT_STEP_MS >= PARE_STORE_WAIT_MS)
        return 0;
    if (progress &&
        !progress->step(progress->context, "waiting for another program that writes", 0, 0))
        return 0;
    nanosleep(&pause, NULL);
    return 1;
}

void pare_store_watch(pare_store *store, const pare_progress *progress)
{
    store->progress = progress;
    sqlite3_progress_handler(store->db, progress ? ASK_EVERY : 0, progress ? ask : NULL, store);
    if (progress)
        sqlite3_busy_handler(store->db, wait_for_lock, store);
    else
        sqlite3_busy_timeout(store->db, PARE_STORE_WAIT_MS);
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
