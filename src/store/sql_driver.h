/* sql_driver.h: what differs between kinds of benches. Inside the room only; a kind of bench is one table
 * of these functions and what opens it. */
#ifndef PARE_STORE_SQL_DRIVER_H
#define PARE_STORE_SQL_DRIVER_H

#include "store/sql.h"

/** Each driver's own statement begins with this. */
struct pare_statement {
    const pare_store *store;
    const char *sql; /* as the store wrote it */
};

/** A value for a parameter, as it was handed over. */
typedef struct pare_sql_value {
    char type;         /* as in pare_sql_prepare(); 's' for 't' too */
    const void *bytes; /* [length]; NULL: NULL */
    size_t length;
    long long integer;
    double real;
} pare_sql_value;

/** What a transaction is for. */
typedef enum pare_sql_mode { PARE_SQL_READ, PARE_SQL_WRITE } pare_sql_mode;

/** Errors are put into words by the driver, which knows what its database's codes mean. A driver's statement
 * is prepared without parameters; `bind` rewinds it, with value [count]. */
struct pare_sql_driver {
    pare_status (*run)(const pare_store *store, const char *sql, pare_error *err);
    pare_status (*begin)(const pare_store *store, pare_sql_mode mode, pare_error *err);
    pare_status (*commit)(const pare_store *store, pare_error *err);
    void (*rollback)(const pare_store *store);
    void (*wait)(const pare_store *store, bool wait);
    void (*watch)(pare_store *store); /* store->progress is another */
    pare_status (*prepare)(const pare_store *store, const char *sql, pare_statement **statement,
                           pare_error *err);
    pare_status (*bind)(pare_statement *statement, size_t count, const pare_sql_value value[],
                        pare_error *err);
    /** What is bound will be asked soon, and may be asked along with the next statement; until the end of the
     * transaction, binding the same again is answered by that. NULL: that would spare nothing. */
    void (*ahead)(pare_statement *statement);
    pare_status (*step)(pare_statement *statement, bool *row, pare_error *err);
    void (*rewind)(pare_statement *statement);
    void (*rest)(pare_statement *statement); /* rewound, and nothing is bound */
    void (*finish)(pare_statement *statement);
    long long (*changed)(const pare_store *store);
    const char *(*chars)(pare_statement *statement, int column);
    const void *(*bytes)(pare_statement *statement, int column);
    size_t (*length)(pare_statement *statement, int column);
    long long (*integer)(pare_statement *statement, int column);
    double (*real)(pare_statement *statement, int column);
    bool (*is_null)(pare_statement *statement, int column);
    void (*close)(pare_store *store); /* the connection; there may be none */

    bool signs; /* changes are signed: change has the columns who and turned_by */
    /** A function of SQL that makes what change_old keeps out of a text or bytes; "": they are kept as they are. */
    const char *kept;
    /** Foreign keys are judged at the end of this transaction, and table `touched` (list, row, name, now)
     * is there and empty (change.c). */
    pare_status (*loosen)(const pare_store *store, pare_error *err);
    /** Another number whenever somebody else has written to the bench since it was opened. */
    pare_status (*stamp)(const pare_store *store, long long *stamp, pare_error *err);
    /** pare_store_turn(); NULL: nobody waits. */
    pare_status (*turn)(const pare_store *store, bool mine, pare_error *err);
    /** Made ready for so many new rows that pages would not stay in memory. NULL: it is ready. */
    pare_status (*make_room)(const pare_store *store, pare_error *err);
    /** All of it into an SQLite bench in memory, open and as empty as it is at first (past.c). */
    pare_status (*copy)(const pare_store *store, pare_store *into, pare_error *err);
};

#endif
