/* sql.h: how the store speaks to SQLite: one connection, its errors as ours, statements. Inside the
 * room only. */
#ifndef PARE_STORE_SQL_H
#define PARE_STORE_SQL_H

#include <sqlite3.h>

#include "store/bench.h"

struct pare_store {
    sqlite3 *db;
    char *path;
    bool writable;
    bool changing; /* between pare_change_begin() and its end: what fails then changes nothing */
    const pare_progress *progress; /* NULL: nobody watches */
    pare_craft_check check;        /* NULL: none */
    struct pare_sql_kept *kept;    /* statements for the next time */
};

/** How long another program's lock is waited for. */
#define PARE_STORE_WAIT_MS 2000

/** Whether who watches the work wants it to stop. */
bool pare_store_stopped(const pare_store *store);

/** A step of long work on this store: see pare_progress_step(). */
pare_status pare_store_step(const pare_store *store, const char *doing, size_t done, size_t all,
                            pare_error *err);

/** Says what SQLite's last failure on this connection means to the person. */
pare_status pare_sql_failed(const pare_store *store, pare_error *err);

/** Runs statements that give no rows. */
pare_status pare_sql_run(const pare_store *store, const char *sql, pare_error *err);

/** Everything until the end is one change. A failure in between wants pare_sql_rollback(). */
pare_status pare_sql_begin(const pare_store *store, pare_error *err);
pare_status pare_sql_commit(const pare_store *store, pare_error *err);
void pare_sql_rollback(const pare_store *store);

/** A statement, its parameters bound in order: 't' const char *, 'b' const void * and size_t,
 * 'i' sqlite3_int64, 'd' double. NULL as a text binds NULL. Bound bytes must live until the statement
 * is finished.
 * @param[out] statement  finish with sqlite3_finalize(); NULL on failure */
pare_status pare_sql_prepare(const pare_store *store, sqlite3_stmt **statement, pare_error *err,
                             const char *sql, const char *types, ...);

/** Room for statements that are kept; free() it at the end. */
struct pare_sql_kept *pare_sql_keep(void);

/** Finishes all that are kept and closes the connection. */
void pare_sql_close(pare_store *store);

/** One row further. @param[out] row  false at the end */
pare_status pare_sql_step(const pare_store *store, sqlite3_stmt *statement, bool *row,
                          pare_error *err);

/** The same, but the statement is the store's own, which keeps it for the next time: what runs for
 * each of 100,000 rows is prepared once. What is bound must live until it is given back.
 * @param[out] statement  give it back with pare_sql_rest(); NULL on failure, which is fine there */
pare_status pare_sql_again(const pare_store *store, sqlite3_stmt **statement, pare_error *err,
                           const char *sql, const char *types, ...);
void pare_sql_rest(const pare_store *store, sqlite3_stmt *statement);

/** Runs a statement that changes something to its end; it is prepared once, as above. */
pare_status pare_sql_change(const pare_store *store, pare_error *err, const char *sql,
                            const char *types, ...);

/** A column's text, copied into an arena; NULL without memory. A NULL column gives "". */
char *pare_sql_text(sqlite3_stmt *statement, int column, pare_arena *arena);

/** Makes the tables in an empty database, or checks that it is a bench of a version we know. */
pare_status pare_schema_make(const pare_store *store, pare_error *err);
pare_status pare_schema_check(const pare_store *store, pare_error *err);

/** "PARE" as a number: the application id in the header of a bench. */
#define PARE_APPLICATION_ID 0x50415245

#endif
