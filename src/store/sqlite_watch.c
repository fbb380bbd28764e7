/* sqlite_watch.c: what SQLite does in one piece is asked now and then by its progress handler, and while
 * another program holds the lock by its busy handler; both end the statement, and the transaction around
 * it is rolled back like after any failure. */
#include <time.h>

#include "store/sqlite.h"

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
    if (times * WAIT_STEP_MS >= PARE_SQLITE_WAIT_MS)
        return 0;
    if (progress &&
        !progress->step(progress->context, "waiting for another program that writes", 0, 0))
        return 0;
    nanosleep(&pause, NULL);
    return 1;
}

void pare_sqlite_watch(pare_store *store)
{
    sqlite3 *db = pare_sqlite_of(store);
    const pare_progress *progress = store->progress;
    sqlite3_progress_handler(db, progress ? ASK_EVERY : 0, progress ? ask : NULL, store);
    if (progress)
        sqlite3_busy_handler(db, wait_for_lock, store);
    else
        sqlite3_busy_timeout(db, PARE_SQLITE_WAIT_MS);
}
