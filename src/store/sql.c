/* sql.c: statements and errors of SQLite (see sql.h).
 *
 * SQLite's codes are many; a person can do something about seven of them.
 *
 * Statements that run again and again are kept, prepared, in a small table under the address of their
 * text: the same line of the program finds its own again. Two texts may share a place, and a text that
 * is made up may stand where another stood before, so the text itself is compared. One that is lent is
 * left alone: what wants its place meanwhile is prepared and finished. */
#include "store/sql.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { KEPT = 64 };

struct pare_sql_kept {
    struct {
        sqlite3_stmt *statement;
        bool lent;
    } place[KEPT];
};

struct pare_sql_kept *pare_sql_keep(void)
{
    return calloc(1, sizeof(struct pare_sql_kept));
}

void pare_sql_close(pare_store *store)
{
    for (size_t i = 0; store->kept && i < KEPT; i++) {
        sqlite3_finalize(store->kept->place[i].statement);
        store->kept->place[i].statement = NULL;
    }
    sqlite3_close(store->db);
    store->db = NULL;
}

static const char *as_it_was(const pare_store *store)
{
    return store->changing ? "; the bench is as it was" : "";
}

pare_status pare_sql_failed(const pare_store *store, pare_error *err)
{
    if (pare_store_stopped(store))
        return pare_fail(err, PARE_STOPPED, "stopped");
    int why;
    switch (sqlite3_errcode(store->db) & 0xff) {
    case SQLITE_NOMEM:
        return pare_no_memory(err);
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return pare_fail(err, PARE_UNAVAILABLE,
                         "%s: locked by another program for over %d s; close it, then try again",
                         store->path, PARE_STORE_WAIT_MS / 1000);
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
        why = sqlite3_system_errno(store->db);
        return pare_fail(err, PARE_UNAVAILABLE, "%s: the disk did not read or write (%s)%s",
                         store->path, why ? strerror(why) : "is there room on it?",
                         as_it_was(store));
    case SQLITE_CANTOPEN:
        return pare_fail(err, PARE_UNAVAILABLE, "%s: cannot be opened (%s)", store->path,
                         strerror(sqlite3_system_errno(store->db)));
    case SQLITE_NOTADB:
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: not a bench but some other file; right would be a file that Pare "
                         "made",
                         store->path);
    default:
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: a damaged bench (%s); right would be a copy, or an import of its "
                         "exported text",
                         store->path, sqlite3_errmsg(store->db));
    }
}

pare_status pare_sql_run(const pare_store *store, const char *sql, pare_error *err)
{
    if (sqlite3_exec(store->db, sql, NULL, NULL, NULL) == SQLITE_OK)
        return PARE_OK;
    return pare_sql_failed(store, err);
}

pare_status pare_sql_begin(const pare_store *store, pare_error *err)
{
    return pare_sql_run(store, "BEGIN IMMEDIATE", err);
}

pare_status pare_sql_commit(const pare_store *store, pare_error *err)
{
    const pare_status status = pare_sql_run(store, "COMMIT", err);
    /* All was written but the disk did not say that it has it: whether the next program to open the
     * bench finds it, nobody can know. */
    const int code = sqlite3_extended_errcode(store->db);
    if (status != PARE_OK && (code == SQLITE_IOERR_FSYNC || code == SQLITE_IOERR_DIR_FSYNC))
        return pare_fail(err, status,
                         "%s: the disk does not confirm what was written (%s); pare history says "
                         "whether it is kept",
                         store->path, strerror(sqlite3_system_errno(store->db)));
    return status;
}

void pare_sql_rollback(const pare_store *store)
{
    /* SQLite has rolled back by itself after some failures; then there is nothing left to do. */
    if (!sqlite3_get_autocommit(store->db))
        sqlite3_exec(store->db, "ROLLBACK", NULL, NULL, NULL);
}

static int bind_one(sqlite3_stmt *statement, int place, char type, va_list *args)
{
    const char *text;
    const void *bytes;
    switch (type) {
    case 't':
        text = va_arg(*args, const char *);
        return sqlite3_bind_text(statement, place, text, -1, SQLITE_STATIC);
    case 'b':
        bytes = va_arg(*args, const void *);
        return sqlite3_bind_blob64(statement, place, bytes, va_arg(*args, size_t), SQLITE_STATIC);
    case 'i':
        return sqlite3_bind_int64(statement, place, va_arg(*args, sqlite3_int64));
    default:
        return sqlite3_bind_double(statement, place, va_arg(*args, double));
    }
}

static pare_status bind(const pare_store *store, sqlite3_stmt *statement, pare_error *err,
                        const char *types, va_list *args)
{
    int code = SQLITE_OK;
    for (int i = 0; code == SQLITE_OK && types[i]; i++)
        code = bind_one(statement, i + 1, types[i], args);
    return code == SQLITE_OK ? PARE_OK : pare_sql_failed(store, err);
}

pare_status pare_sql_prepare(const pare_store *store, sqlite3_stmt **statement, pare_error *err,
                             const char *sql, const char *types, ...)
{
    va_list args;
    *statement = NULL;
    if (sqlite3_prepare_v2(store->db, sql, -1, statement, NULL) != SQLITE_OK)
        return pare_sql_failed(store, err);
    va_start(args, types);
    const pare_status status = bind(store, *statement, err, types, &args);
    va_end(args);
    if (status != PARE_OK) {
        sqlite3_finalize(*statement);
        *statement = NULL;
    }
    return status;
}

/* A statement of this text, kept or made now; NULL on failure. */
static sqlite3_stmt *borrow(const pare_store *store, const char *sql)
{
    const uintptr_t address = (uintptr_t)sql;
    const size_t i = (address ^ address >> 6) % KEPT;
    sqlite3_stmt *statement = store->kept->place[i].statement;
    const bool lent = store->kept->place[i].lent;
    if (!lent && statement && strcmp(sqlite3_sql(statement), sql) != 0) {
        sqlite3_finalize(statement);
        statement = store->kept->place[i].statement = NULL;
    }
    if (!lent && statement) {
        store->kept->place[i].lent = true;
        return statement;
    }
    statement = NULL;
    if (sqlite3_prepare_v2(store->db, sql, -1, &statement, NULL) == SQLITE_OK && !lent) {
        store->kept->place[i].statement = statement;
        store->kept->place[i].lent = true;
    }
    return statement;
}

void pare_sql_rest(const pare_store *store, sqlite3_stmt *statement)
{
    size_t i = 0;
    while (i < KEPT && store->kept->place[i].statement != statement)
        i++;
    if (i == KEPT || !statement) {
        sqlite3_finalize(statement);
        return;
    }
    store->kept->place[i].lent = false;
    sqlite3_reset(statement);
    sqlite3_clear_bindings(statement);
}

static pare_status again(const pare_store *store, sqlite3_stmt **statement, pare_error *err,
                         const char *sql, const char *types, va_list *args)
{
    *statement = borrow(store, sql);
    if (!*statement)
        return pare_sql_failed(store, err);
    const pare_status status = bind(store, *statement, err, types, args);
    if (status != PARE_OK) {
        pare_sql_rest(store, *statement);
        *statement = NULL;
    }
    return status;
}

pare_status pare_sql_again(const pare_store *store, sqlite3_stmt **statement, pare_error *err,
                           const char *sql, const char *types, ...)
{
    va_list args;
    va_start(args, types);
    const pare_status status = again(store, statement, err, sql, types, &args);
    va_end(args);
    return status;
}

pare_status pare_sql_step(const pare_store *store, sqlite3_stmt *statement, bool *row,
                          pare_error *err)
{
    const int code = sqlite3_step(statement);
    *row = code == SQLITE_ROW;
    return code == SQLITE_ROW || code == SQLITE_DONE ? PARE_OK : pare_sql_failed(store, err);
}

pare_status pare_sql_change(const pare_store *store, pare_error *err, const char *sql,
                            const char *types, ...)
{
    sqlite3_stmt *statement = NULL;
    bool row = true;
    va_list args;
    va_start(args, types);
    pare_status status = again(store, &statement, err, sql, types, &args);
    va_end(args);
    while (status == PARE_OK && row)
        status = pare_sql_step(store, statement, &row, err);
    pare_sql_rest(store, statement);
    return status;
}

char *pare_sql_text(sqlite3_stmt *statement, int column, pare_arena *arena)
{
    const char *text = (const char *)sqlite3_column_text(statement, column);
    return pare_arena_copy(arena, text ? text : "",
                           text ? (size_t)sqlite3_column_bytes(statement, column) : 0);
}
