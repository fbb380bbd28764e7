/* sqlite.h: a bench in an SQLite file. Inside the room only. */
#ifndef PARE_STORE_SQLITE_H
#define PARE_STORE_SQLITE_H

#include <sqlite3.h>

#include "store/sql_driver.h"

extern const pare_sql_driver pare_sqlite_driver;

/** How long another program's lock is waited for. */
#define PARE_SQLITE_WAIT_MS 2000

/** "PARE" as a number: the application id in the header of a bench. */
#define PARE_APPLICATION_ID 0x50415245

/** The connection of such a store. */
static inline sqlite3 *pare_sqlite_of(const pare_store *store)
{
    return store->connection;
}

/** Opens the bench in a file: see pare_store_open(). */
pare_status pare_sqlite_open(const char *path, pare_store_mode mode, pare_store **store,
                             pare_error *err);

/** A bench in memory, without tables yet.
 * @param path  as messages shall name it */
pare_status pare_sqlite_open_memory(const char *path, pare_store **store, pare_error *err);

/** The driver's part in pare_store_watch() and pare_sql_wait(). */
void pare_sqlite_watch(pare_store *store);

/** Says what SQLite's last failure on this connection means to the person. */
pare_status pare_sqlite_failed(const pare_store *store, pare_error *err);

/** Makes the tables in an empty database, or checks that it is a bench of a version we know. */
pare_status pare_sqlite_make(const pare_store *store, pare_error *err);
pare_status pare_sqlite_check(const pare_store *store, pare_error *err);

#endif
