/* pg.h: a bench in a PostgreSQL database, for a club or a shop. Inside the room only.
 *
 * Its tables are in the database's schema "pare" (pg_schema.c). Who changes it waits for who changes it now:
 * each change begins by counting up bench.stamp, and the lock of that one row is held to its end. So changes
 * come one after another, each sees what the one before it left, and none is lost. Reading waits for nobody:
 * it sees one state, that of its beginning. */
#ifndef PARE_STORE_PG_H
#define PARE_STORE_PG_H

#include "store/pg_library.h"
#include "store/sql_driver.h"

extern const pare_sql_driver pare_pg_driver;

/** How long somebody else's change is waited for. */
#define PARE_PG_WAIT_S 30

enum { PARE_PG_AHEAD = 16 };

typedef struct pare_pg {
    pare_pg_library is; /* libpq */
    PGconn *conn;
    bool wait; /* for somebody else's change */
    bool
        begins; /* a transaction that only reads has been asked for, and nothing was read in it yet */
    size_t ahead;                                /* statements asked ahead in this transaction */
    struct pare_statement *asked[PARE_PG_AHEAD]; /* [ahead] */
    bool unread;       /* the answer to the end of such a one was not waited for */
    unsigned prepared; /* statements up to now, for their names */
    long long changed; /* rows, by the last statement */
    char why[6];       /* SQLSTATE of the last failure; "": the connection itself */
    char words[200];   /* of the last failure, one line */
} pare_pg;

static inline pare_pg *pare_pg_of(const pare_store *store)
{
    return store->connection;
}

/** Opens the bench at an address: see pare_store_open(). */
pare_status pare_pg_open(const char *address, pare_store_mode mode, pare_store **store,
                         pare_error *err);

/** An address as it may be shown: all of it but passwords. */
pare_status pare_pg_shown(const char *address, pare_text *shown, pare_error *err);

/** Takes the words and the code of a failure from its answer; NULL: from the connection. */
void pare_pg_note(pare_pg *pg, const PGresult *result);

/** Says what the last failure on this connection means to the person. */
pare_status pare_pg_failed(const pare_store *store, pare_error *err);

/** Sends statements as one piece, without parameters, and waits for the last one's answer.
 * @param[out] result  for PQclear(), with the last one's rows as text; NULL: not wanted */
pare_status pare_pg_simply(const pare_store *store, const char *sql, PGresult **result,
                           pare_error *err);

/** What a database has for us. */
typedef struct pare_pg_found {
    long long version; /* of its tables; 0: there are none */
    bool may_change;
} pare_pg_found;

/** Looks for a bench. */
pare_status pare_pg_look(const pare_store *store, pare_pg_found *found, pare_error *err);

/** Whether a version is one that pare_pg_make() brings up to date. */
bool pare_pg_is_older(long long version);

/** Makes the tables, or those of an older version into those of today, unless somebody else has just done so.
 * @return also PARE_UNAVAILABLE: they are somebody else's, who is named */
pare_status pare_pg_make(const pare_store *store, pare_error *err);

/** Refuses a version that is not that of today. */
pare_status pare_pg_check(const pare_store *store, long long version, pare_error *err);

/** All rows into a bench in memory. */
pare_status pare_pg_copy(const pare_store *store, pare_store *into, pare_error *err);

#endif
