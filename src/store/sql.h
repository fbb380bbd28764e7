/* sql.h: how the store speaks to a database: one connection, its errors as ours, statements. Inside
 * the room only.
 *
 * All statements are written once, in the SQL that every kind of bench understands: parameters are ? or
 * ?1, texts are compared byte by byte, what stands there already is met by ON CONFLICT, a truth is 0 or 1,
 * and a new row whose number is NULL gets the next one. Where kinds differ, sql_driver.h says how. */
#ifndef PARE_STORE_SQL_H
#define PARE_STORE_SQL_H

#include "store/bench.h"

typedef struct pare_sql_driver pare_sql_driver;

struct pare_store {
    const pare_sql_driver *driver; /* of this kind of bench */
    void *connection;              /* the driver's */
    char *path;                    /* as messages name the bench */
    bool writable;
    bool changing; /* between pare_change_begin() and its end: what fails then changes nothing */
    const pare_progress *progress; /* NULL: nobody watches */
    pare_craft_check check;        /* NULL: none */
    struct pare_sql_kept *kept;    /* statements for the next time */
};

/** Whether who watches the work wants it to stop. */
bool pare_store_stopped(const pare_store *store);

/** A step of long work on this store: see pare_progress_step(). */
pare_status pare_store_step(const pare_store *store, const char *doing, size_t done, size_t all,
                            pare_error *err);

/** A store with nothing open yet. Close with pare_store_close().
 * @param driver  of its kind
 * @param path    copied */
pare_status pare_store_made(const pare_sql_driver *driver, const char *path, pare_store **store,
                            pare_error *err);

/** Finishes all statements that are kept and closes the connection. */
void pare_sql_close(pare_store *store);

/* ---- transactions ---- */

/** Everything until the end is one change; nobody else can change the bench meanwhile. A failure in between
 * wants pare_sql_rollback(). */
pare_status pare_sql_begin(const pare_store *store, pare_error *err);
pare_status pare_sql_commit(const pare_store *store, pare_error *err);

/** What is read until pare_sql_rollback() is one state of the bench. Within such a one another begins and
 * ends without more ado. */
pare_status pare_sql_begin_reading(const pare_store *store, pare_error *err);

/** Ends either; nothing is left to do where a failure has ended it. */
void pare_sql_rollback(const pare_store *store);

/** Whether another program's lock is waited for (it is, at first). */
void pare_sql_wait(const pare_store *store, bool wait);

/* ---- statements ---- */

/** A statement at work; its row at hand. */
typedef struct pare_statement pare_statement;

/** Runs statements that give no rows. */
pare_status pare_sql_run(const pare_store *store, const char *sql, pare_error *err);

/** A statement, its parameters bound in order: 't' const char *, 's' const char * and size_t, 'b' const
 * void * and size_t, 'i' long long, 'd' double. NULL as a text binds NULL. Bound bytes must live until
 * the statement is finished. The store keeps it for the next time: what runs for each of 100,000 rows is
 * prepared once.
 * @param[out] statement  give it back with pare_sql_finish(); NULL on failure */
pare_status pare_sql_prepare(const pare_store *store, pare_statement **statement, pare_error *err,
                             const char *sql, const char *types, ...);

/** What will be asked soon, while reading: on a server it goes along with the next statement, which spares
 * a way there and back each. A hint: whatever fails is said when it is asked.
 * @param sql  the very text, by its address, that will be asked, with the same parameters */
void pare_sql_ahead(const pare_store *store, const char *sql, const char *types, ...);

/** Binds anew, for a statement that runs again; it is rewound. */
pare_status pare_sql_bind(pare_statement *statement, pare_error *err, const char *types, ...);

/** One row further. @param[out] row  false at the end */
pare_status pare_sql_step(const pare_store *store, pare_statement *statement, bool *row,
                          pare_error *err);

/** Lets go of its rows; what is bound stays. */
void pare_sql_rewind(pare_statement *statement);

/** NULL is fine. */
void pare_sql_finish(pare_statement *statement);

/** Runs a statement that changes something to its end. */
pare_status pare_sql_change(const pare_store *store, pare_error *err, const char *sql,
                            const char *types, ...);

/** How many rows the last statement changed. */
long long pare_sql_changed(const pare_store *store);

/* ---- the row at hand ---- */

/** Lent until the next step. A NULL column is NULL as text or bytes, and 0 as a number; so is one whose
 * type is another. The text ends with a zero. */
const char *pare_sql_chars(pare_statement *statement, int column);
const void *pare_sql_bytes(pare_statement *statement, int column);
size_t pare_sql_length(pare_statement *statement, int column);
long long pare_sql_int(pare_statement *statement, int column);
double pare_sql_real(pare_statement *statement, int column);
bool pare_sql_is_null(pare_statement *statement, int column);

/** A column's text, copied into an arena; NULL without memory. A NULL column gives "". */
char *pare_sql_text(pare_statement *statement, int column, pare_arena *arena);

#endif
