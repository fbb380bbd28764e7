/* change.c: changes, undo and redo (see change.h, bench.h; what is read of their history, history.c).
 *
 * A change that made nothing new and altered nothing leaves no trace. Otherwise it keeps, for each
 * row that it touched, what was there before (change_old), and the numbers of the rows that it made
 * (change_new). An exchange, undo or redo, turns that round: what is there now goes into change_old,
 * with NULL for a row that is not there, and what was kept comes back through row.c, which works out
 * all that follows from a text. Foreign keys are judged at the end of it.
 *
 * Rejected: SQLite's session extension, which keeps every new row a second time in memory. */
#include "store/change.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "store/row.h"
#include "store/sql_driver.h"

/* In the order in which rows come back: what others refer to goes first. */
static const char *const LISTS[] = {"setting", "file",     "part",   "craft",
                                    "scale",   "weigh_in", "flight", "stand_table"};

static void now(char text[32])
{
    const time_t seconds = time(NULL);
    struct tm parts;
    if (!gmtime_r(&seconds, &parts) || strftime(text, 32, "%Y-%m-%dT%H:%M:%SZ", &parts) == 0)
        strcpy(text, "1970-01-01T00:00:00Z");
}

static pare_status one_number(const pare_store *store, const char *sql, long long *number,
                              bool *there, pare_error *err)
{
    pare_statement *statement = NULL;
    pare_status status = pare_sql_prepare(store, &statement, err, sql, "");
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, there, err);
    *number = *there ? pare_sql_int(statement, 0) : 0;
    pare_sql_finish(statement);
    return status;
}

/* The number of the change under way. */
static pare_status open_number(const pare_store *store, long long *number, pare_error *err)
{
    bool there = false;
    return one_number(store, "SELECT change FROM change_open LIMIT 1", number, &there, err);
}

/* The same of each list, with something between. */
#define EACH_LIST(of, between)                                                                     \
    of("setting") between of("file") between of("part") between of("craft") between of("scale")    \
        between of("weigh_in") between of("flight") between of("stand_table")

static pare_status open_lists(const pare_store *store, long long number, pare_error *err)
{
#define FIRST(list) "SELECT '" list "', ?1, 1 + coalesce(max(row), 0) FROM " list
    static const char sql[] =
        "INSERT INTO change_open(list, change, first) " EACH_LIST(FIRST, " UNION ALL ");
#undef FIRST
    const pare_status status = pare_sql_run(store, "DELETE FROM change_open", err);
    return status == PARE_OK ? pare_sql_change(store, err, sql, "i", number) : status;
}

static pare_status begin(const pare_store *store, const pare_change *change, pare_error *err)
{
    long long number = 0;
    bool there = false;
    char time[32];
    now(time);
    pare_status status =
        one_number(store, "SELECT 1 + coalesce(max(number), 0) FROM change", &number, &there, err);
    if (status == PARE_OK)
        status = pare_sql_change(
            store, err, "INSERT INTO change(number, time, what, why) VALUES (?, ?, ?, ?)", "ittt",
            number, time, change->what ? change->what : "changed", change->why);
    return status == PARE_OK ? open_lists(store, number, err) : status;
}

/* Its history goes with it: nothing is left that could be undone. */
static pare_status empty(const pare_store *store, pare_error *err)
{
    return pare_sql_run(store,
                        "DELETE FROM weigh_in; DELETE FROM flight; DELETE FROM stand_table;"
                        "DELETE FROM scale; DELETE FROM craft; DELETE FROM part_file;"
                        "DELETE FROM part; DELETE FROM file; DELETE FROM setting; "
                        "DELETE FROM change",
                        err);
}

pare_status pare_change_begin(pare_store *store, const pare_change *change, bool empty_first,
                              pare_error *err)
{
    store->changing = true;
    pare_status status = pare_sql_begin(store, err);
    if (status == PARE_OK && change->craft)
        status = pare_history_check(store, change, err);
    if (status == PARE_OK && empty_first)
        status = empty(store, err);
    if (status == PARE_OK)
        status = begin(store, change, err);
    if (status != PARE_OK) {
        pare_sql_rollback(store);
        store->changing = false;
    }
    return status;
}

/* The rows that have come into being since the beginning. */
static pare_status note_new(const pare_store *store, pare_error *err)
{
#define LAST(list) "SELECT '" list "' AS list, max(row) AS last FROM " list
    static const char sql[] =
        "INSERT INTO change_new(change, list, first, last) "
        "SELECT change, change_open.list, first, last FROM change_open JOIN "
        "(" EACH_LIST(LAST, " UNION ALL ") ") AS newest ON change_open.list = newest.list "
                                           "WHERE first <= last";
#undef LAST
    return pare_sql_change(store, err, sql, "", 0);
}

/* Written into the history, which forgets what was undone; or forgotten, where nothing changed. */
static pare_status finish(const pare_store *store, pare_error *err)
{
    long long number = 0, rows = 0;
    bool there = false;
    pare_status status = open_number(store, &number, err);
    if (status == PARE_OK)
        status = note_new(store, err);
    if (status == PARE_OK)
        status = one_number(store,
                            "SELECT (SELECT count(*) FROM change_open JOIN change_new USING "
                            "(change, list)) + (SELECT count(*) FROM (SELECT 1 FROM change_old "
                            "WHERE change = (SELECT change FROM change_open LIMIT 1) LIMIT 1) AS "
                            "one)",
                            &rows, &there, err);
    if (status == PARE_OK)
        status =
            rows ? pare_sql_run(store, "DELETE FROM change WHERE undone <> 0", err)
                 : pare_sql_change(store, err, "DELETE FROM change WHERE number = ?", "i", number);
    if (status == PARE_OK)
        status = pare_sql_run(store, "DELETE FROM change_open", err);
    return status;
}

pare_status pare_change_end(pare_store *store, pare_status status, bool keep, pare_error *err)
{
    if (status == PARE_OK && keep)
        status = finish(store, err);
    if (status == PARE_OK && keep)
        status = pare_sql_commit(store, err);
    if (status != PARE_OK || !keep)
        pare_sql_rollback(store);
    store->changing = false;
    return status;
}

/* ---- undo and redo ---- */

/* Runs a statement about one list, whose tables and columns are put in by name. @param types  "i" where
 * the change's number is its parameter, "" otherwise */
static pare_status about_list(const pare_store *store, const char *types, long long number,
                              pare_error *err, const char *format, ...)
{
    char sql[800];
    va_list args;
    va_start(args, format);
    const int length = vsnprintf(sql, sizeof sql, format, args);
    va_end(args);
    assert(length > 0 && (size_t)length < sizeof sql);
    return pare_sql_change(store, err, sql, types, number);
}

/* What a change touched, with what stands there now; NULL: nothing does. */
static pare_status look(const pare_store *store, long long number, pare_error *err)
{
    pare_status status = pare_sql_change(store, err,
                                         "INSERT INTO touched(list, row, name) "
                                         "SELECT list, row, name FROM change_old WHERE change = ?",
                                         "i", number);
    for (size_t i = 0; i < PARE_COUNT(LISTS) && status == PARE_OK; i++) {
        const char *name = pare_row_name_column(LISTS[i]), *text = pare_row_text_column(LISTS[i]);
        status = about_list(
            store, "i", number, err,
            "INSERT INTO touched(list, row, name, now) SELECT '%s', row, %s, %s(%s) "
            "FROM %s WHERE row IN (SELECT row FROM touched WHERE list = '%s') OR "
            "row BETWEEN (SELECT first FROM change_new WHERE change = ?1 AND list = "
            "'%s') AND (SELECT last FROM change_new WHERE change = ?1 AND list = "
            "'%s') ON CONFLICT (list, row) DO UPDATE SET now = excluded.now, name = excluded.name",
            LISTS[i], name, store->driver->kept, text, LISTS[i], LISTS[i], LISTS[i], LISTS[i]);
    }
    return status;
}

/* The lists that a change touched: who may not change the others need not. */
static pare_status touched_lists(const pare_store *store, bool is[PARE_COUNT(LISTS)],
                                 pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    memset(is, 0, PARE_COUNT(LISTS) * sizeof *is);
    pare_status status =
        pare_sql_prepare(store, &statement, err, "SELECT DISTINCT list FROM touched", "");
    while (status == PARE_OK) {
        status = pare_sql_step(store, statement, &row, err);
        if (status != PARE_OK || !row)
            break;
        const char *list = pare_sql_chars(statement, 0);
        for (size_t i = 0; list && i < PARE_COUNT(LISTS); i++)
            is[i] = is[i] || strcmp(list, LISTS[i]) == 0;
    }
    pare_sql_finish(statement);
    return status;
}

static pare_status take_away(const pare_store *store, const bool touched[], pare_error *err)
{
    pare_status status = PARE_OK;
    for (size_t i = PARE_COUNT(LISTS); i > 0 && status == PARE_OK; i--)
        if (touched[i - 1])
            status = about_list(
                store, "", 0, err,
                "DELETE FROM %s WHERE row IN (SELECT row FROM touched WHERE list = '%s')",
                LISTS[i - 1], LISTS[i - 1]);
    return status;
}

static pare_status bring_back(pare_store *store, const bool touched[], long long number,
                              pare_error *err)
{
    pare_rows *rows = NULL;
    pare_status status = pare_rows_open(store, &rows, err);
    for (size_t i = 0; i < PARE_COUNT(LISTS) && status == PARE_OK; i++) {
        if (!touched[i])
            continue;
        pare_statement *statement = NULL;
        bool row = true;
        status = pare_sql_prepare(store, &statement, err,
                                  "SELECT row, name, was FROM change_old WHERE change = ? AND "
                                  "list = ? AND was IS NOT NULL ORDER BY row",
                                  "it", number, LISTS[i]);
        while (status == PARE_OK) {
            status = pare_sql_step(store, statement, &row, err);
            if (!row)
                break;
            status = pare_rows_bring_back(rows, LISTS[i], statement, err);
        }
        pare_sql_finish(statement);
    }
    pare_rows_close(rows);
    return status;
}

pare_status pare_change_exchange(pare_store *store, long long number, bool undone, pare_error *err)
{
    bool touched[PARE_COUNT(LISTS)];
    pare_status status = store->driver->loosen(store, err);
    if (status == PARE_OK)
        status = look(store, number, err);
    if (status == PARE_OK)
        status = touched_lists(store, touched, err);
    if (status == PARE_OK)
        status = take_away(store, touched, err);
    if (status == PARE_OK)
        status = bring_back(store, touched, number, err);
    if (status == PARE_OK)
        status =
            pare_sql_change(store, err, "DELETE FROM change_old WHERE change = ?", "i", number);
    if (status == PARE_OK)
        status =
            pare_sql_change(store, err, "DELETE FROM change_new WHERE change = ?", "i", number);
    if (status == PARE_OK)
        status = pare_sql_change(store, err,
                                 "INSERT INTO change_old(change, list, row, name, was) "
                                 "SELECT ?, list, row, name, now FROM touched",
                                 "i", number);
    if (status == PARE_OK)
        status = pare_sql_change(store, err, "UPDATE change SET undone = ? WHERE number = ?", "ii",
                                 (long long)undone, number);
    return status == PARE_OK ? pare_sql_run(store, "DELETE FROM touched", err) : status;
}

static pare_status turn(pare_store *store, bool undo, pare_arena *arena, pare_change_row *row,
                        pare_error *err)
{
    pare_change_row found = {0};
    store->changing = true;
    pare_status status = pare_sql_begin(store, err);
    if (status == PARE_OK)
        status = pare_history_find(store, !undo, arena, &found, err);
    if (status == PARE_OK)
        status = pare_change_exchange(store, found.number, undo, err);
    if (status == PARE_OK)
        status = pare_sql_commit(store, err);
    store->changing = false;
    if (status != PARE_OK) {
        pare_sql_rollback(store);
        return status;
    }
    found.undone = undo;
    *row = found;
    return PARE_OK;
}

pare_status pare_store_undo(pare_store *store, pare_arena *arena, pare_change_row *row,
                            pare_error *err)
{
    return turn(store, true, arena, row, err);
}

pare_status pare_store_redo(pare_store *store, pare_arena *arena, pare_change_row *row,
                            pare_error *err)
{
    return turn(store, false, arena, row, err);
}
