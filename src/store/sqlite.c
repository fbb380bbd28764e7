/* sqlite.c: a bench in an SQLite file: statements and errors (see sqlite.h, sql_driver.h).
 *
 * SQLite's codes are many; a person can do something about seven of them. */
#include "store/sqlite.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

typedef struct sqlite_statement {
    pare_statement head;
    sqlite3_stmt *own;
} sqlite_statement;

static const char *as_it_was(const pare_store *store)
{
    return store->changing ? "; the bench is as it was" : "";
}

pare_status pare_sqlite_failed(const pare_store *store, pare_error *err)
{
    sqlite3 *db = pare_sqlite_of(store);
    if (pare_store_stopped(store))
        return pare_fail(err, PARE_STOPPED, "stopped");
    int why;
    switch (sqlite3_errcode(db) & 0xff) {
    case SQLITE_NOMEM:
        return pare_no_memory(err);
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return pare_fail(err, PARE_UNAVAILABLE,
                         "%s: locked by another program for over %d s; close it, then try again",
                         store->path, PARE_SQLITE_WAIT_MS / 1000);
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
        return pare_fail(err, PARE_UNAVAILABLE,
                         "%s: can only be read; a file and folder that you may write would be "
                         "right",
                         store->path);
    case SQLITE_FULL:
        return pare_fail(err, PARE_UNAVAILABLE, "%s: the disk is full%s", store->path,
                         as_it_was(store));
    case SQLITE_IOERR:
        why = sqlite3_system_errno(db);
        return pare_fail(err, PARE_UNAVAILABLE, "%s: the disk did not read or write (%s)%s",
                         store->path, why && why != EFBIG ? strerror(why) : "is there room on it?",
                         as_it_was(store));
    case SQLITE_CANTOPEN:
        return pare_fail(err, PARE_UNAVAILABLE, "%s: cannot be opened (%s)", store->path,
                         strerror(sqlite3_system_errno(db)));
    case SQLITE_NOTADB:
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: not a bench but some other file; right would be a file that Pare "
                         "made",
                         store->path);
    default:
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: a damaged bench (%s); right would be a copy, or an import of its "
                         "exported text",
                         store->path, sqlite3_errmsg(db));
    }
}

static pare_status answered(const pare_store *store, int code, pare_error *err)
{
    return code == SQLITE_OK ? PARE_OK : pare_sqlite_failed(store, err);
}

static pare_status run(const pare_store *store, const char *sql, pare_error *err)
{
    return answered(store, sqlite3_exec(pare_sqlite_of(store), sql, NULL, NULL, NULL), err);
}

static pare_status begin(const pare_store *store, pare_sql_mode mode, pare_error *err)
{
    return run(store, mode == PARE_SQL_WRITE ? "BEGIN IMMEDIATE" : "BEGIN", err);
}

static pare_status commit(const pare_store *store, pare_error *err)
{
    const pare_status status = run(store, "COMMIT", err);
    /* All was written but the disk did not say that it has it: whether the next program to open the
     * bench finds it, nobody can know. */
    const int code = sqlite3_extended_errcode(pare_sqlite_of(store));
    if (status != PARE_OK && (code == SQLITE_IOERR_FSYNC || code == SQLITE_IOERR_DIR_FSYNC))
        return pare_fail(err, status,
                         "%s: the disk does not confirm what was written (%s); pare history says "
                         "whether it is kept",
                         store->path, strerror(sqlite3_system_errno(pare_sqlite_of(store))));
    return status;
}

static void rollback(const pare_store *store)
{
    /* SQLite has rolled back by itself after some failures; then there is nothing left to do. */
    if (!sqlite3_get_autocommit(pare_sqlite_of(store)))
        sqlite3_exec(pare_sqlite_of(store), "ROLLBACK", NULL, NULL, NULL);
}

/* ---- statements ---- */

static sqlite3_stmt *own(pare_statement *statement)
{
    return ((sqlite_statement *)statement)->own;
}

static pare_status prepare(const pare_store *store, const char *sql, pare_statement **statement,
                           pare_error *err)
{
    sqlite_statement *made = calloc(1, sizeof *made);
    *statement = NULL;
    if (!made)
        return pare_no_memory(err);
    if (sqlite3_prepare_v2(pare_sqlite_of(store), sql, -1, &made->own, NULL) != SQLITE_OK) {
        free(made);
        return pare_sqlite_failed(store, err);
    }
    made->head = (pare_statement){store, sqlite3_sql(made->own)};
    *statement = &made->head;
    return PARE_OK;
}

static void finish(pare_statement *statement)
{
    sqlite3_finalize(own(statement));
    free(statement);
}

static int bind_one(sqlite3_stmt *to, int place, const pare_sql_value *value)
{
    switch (value->type) {
    case 's':
        return sqlite3_bind_text64(to, place, value->bytes, value->length, SQLITE_STATIC,
                                   SQLITE_UTF8);
    case 'b':
        return sqlite3_bind_blob64(to, place, value->bytes, value->length, SQLITE_STATIC);
    case 'i':
        return sqlite3_bind_int64(to, place, value->integer);
    default:
        return sqlite3_bind_double(to, place, value->real);
    }
}

static pare_status bind(pare_statement *statement, size_t count, const pare_sql_value value[],
                        pare_error *err)
{
    sqlite3_stmt *to = own(statement);
    int code = SQLITE_OK;
    /* Reset gives the code of the last run again, which was said then. */
    sqlite3_reset(to);
    for (size_t i = 0; code == SQLITE_OK && i < count; i++)
        code = bind_one(to, (int)i + 1, &value[i]);
    return answered(statement->store, code, err);
}

static pare_status step(pare_statement *statement, bool *row, pare_error *err)
{
    const int code = sqlite3_step(own(statement));
    *row = code == SQLITE_ROW;
    return code == SQLITE_ROW || code == SQLITE_DONE ? PARE_OK
                                                     : pare_sqlite_failed(statement->store, err);
}

static void rewind_it(pare_statement *statement)
{
    sqlite3_reset(own(statement));
}

static void rest(pare_statement *statement)
{
    sqlite3_reset(own(statement));
    sqlite3_clear_bindings(own(statement));
}

static long long changed(const pare_store *store)
{
    return sqlite3_changes(pare_sqlite_of(store));
}

static const char *chars(pare_statement *statement, int column)
{
    return (const char *)sqlite3_column_text(own(statement), column);
}

static const void *bytes(pare_statement *statement, int column)
{
    return sqlite3_column_blob(own(statement), column);
}

static size_t length(pare_statement *statement, int column)
{
    return (size_t)sqlite3_column_bytes(own(statement), column);
}

static long long integer(pare_statement *statement, int column)
{
    return sqlite3_column_int64(own(statement), column);
}

static double real(pare_statement *statement, int column)
{
    return sqlite3_column_double(own(statement), column);
}

static bool is_null(pare_statement *statement, int column)
{
    return sqlite3_column_type(own(statement), column) == SQLITE_NULL;
}

static void close_it(pare_store *store)
{
    sqlite3_close(pare_sqlite_of(store));
}

/* ---- where kinds of benches differ ---- */

static void wait(const pare_store *store, bool wait)
{
    sqlite3_busy_timeout(pare_sqlite_of(store), wait ? PARE_SQLITE_WAIT_MS : 0);
}

static pare_status loosen(const pare_store *store, pare_error *err)
{
    return run(store,
               "PRAGMA defer_foreign_keys = ON;"
               "CREATE TEMP TABLE IF NOT EXISTS touched(list TEXT NOT NULL, row INTEGER NOT NULL,"
               " name TEXT, now ANY, PRIMARY KEY (list, row)) STRICT, WITHOUT ROWID;"
               "DELETE FROM touched",
               err);
}

static pare_status stamp(const pare_store *store, long long *stamp, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(store, &statement, err, "PRAGMA data_version", "");
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    *stamp = row ? pare_sql_int(statement, 0) : 0;
    pare_sql_finish(statement);
    return status;
}

/* Ids come in no order, so the pages of their index have to stay: 16 MiB hold those of 600,000. */
static pare_status make_room(const pare_store *store, pare_error *err)
{
    return run(store, "PRAGMA cache_size = -16384", err);
}

static pare_status copy(const pare_store *store, pare_store *into, pare_error *err)
{
    sqlite3_backup *backup =
        sqlite3_backup_init(pare_sqlite_of(into), "main", pare_sqlite_of(store), "main");
    if (!backup)
        return pare_sqlite_failed(into, err);
    sqlite3_backup_step(backup, -1);
    return answered(into, sqlite3_backup_finish(backup), err);
}

const pare_sql_driver pare_sqlite_driver = {
    .run = run,
    .begin = begin,
    .commit = commit,
    .rollback = rollback,
    .wait = wait,
    .watch = pare_sqlite_watch,
    .prepare = prepare,
    .bind = bind,
    .step = step,
    .rewind = rewind_it,
    .rest = rest,
    .finish = finish,
    .changed = changed,
    .chars = chars,
    .bytes = bytes,
    .length = length,
    .integer = integer,
    .real = real,
    .is_null = is_null,
    .close = close_it,
    .kept = "",
    .loosen = loosen,
    .stamp = stamp,
    .make_room = make_room,
    .copy = copy,
};
