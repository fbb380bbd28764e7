/* history.c: what is read of the history of changes (see change.h, bench.h).
 *
 * Somebody reads a craft, thinks, and changes it: what others did to the craft or its parts in between was not
 * thought of. Since the history keeps each text that a change has replaced, it is asked whether there is one. */
#include <limits.h>

#include "base/grow.h"
#include "store/change.h"
#include "store/sql_driver.h"

/* How many rows of each list, then who, then the rest is up to who asks. */
#define TOUCHED(lists)                                                                             \
    "(SELECT CAST(coalesce(sum(n), 0) AS bigint) FROM counted WHERE list IN (" lists               \
    ") AND change = number), "
#define SELECT_ROW(signatures, rest)                                                               \
    "WITH counted AS (SELECT change, list, last - first + 1 AS n FROM change_new UNION ALL "       \
    "SELECT change, list, count(*) FROM change_old GROUP BY change, list) "                        \
    "SELECT number, time, what, why, undone, " TOUCHED("'part'") TOUCHED("'craft'")                \
        TOUCHED("'scale', 'weigh_in', 'flight', 'stand_table'") TOUCHED("'file'") signatures       \
        " FROM change " rest

enum { NUMBER, TIME, WHAT, WHY, UNDONE, PARTS, CRAFT, RECORDS, FILES, WHO, TURNED_BY };

/* What a question is for a bench whose changes are signed, and for one where they are not. */
#define BOTH(store, rest)                                                                          \
    ((store)->driver->signs ? SELECT_ROW("who, turned_by", rest) : SELECT_ROW("NULL, NULL", rest))

static bool text_or_null(pare_statement *statement, int column, pare_arena *arena,
                         const char **text)
{
    const bool null = pare_sql_is_null(statement, column);
    *text = null ? NULL : pare_sql_text(statement, column, arena);
    return null || *text;
}

static pare_status row_of(pare_statement *statement, pare_arena *arena, pare_change_row *row,
                          pare_error *err)
{
    *row = (pare_change_row){
        .number = pare_sql_int(statement, NUMBER),
        .time = pare_sql_text(statement, TIME, arena),
        .what = pare_sql_text(statement, WHAT, arena),
        .undone = pare_sql_int(statement, UNDONE) != 0,
        .parts = (size_t)pare_sql_int(statement, PARTS),
        .craft = (size_t)pare_sql_int(statement, CRAFT),
        .records = (size_t)pare_sql_int(statement, RECORDS),
        .files = (size_t)pare_sql_int(statement, FILES),
    };
    return row->time && row->what && text_or_null(statement, WHY, arena, &row->why) &&
                   text_or_null(statement, WHO, arena, &row->who) &&
                   text_or_null(statement, TURNED_BY, arena, &row->turned_by)
               ? PARE_OK
               : pare_no_memory(err);
}

pare_status pare_store_history(pare_store *store, size_t most, pare_arena *arena, size_t *count,
                               pare_change_row **rows, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    size_t n = 0, size = 0;
    pare_change_row *list = NULL;
    pare_status status =
        pare_sql_prepare(store, &statement, err, BOTH(store, "ORDER BY number DESC LIMIT ?"), "i",
                         most ? (long long)most : LLONG_MAX);
    while (status == PARE_OK) {
        status = pare_sql_step(store, statement, &row, err);
        if (!row)
            break;
        list = pare_grown(arena, list, n, &size, sizeof *list);
        status = list ? row_of(statement, arena, &list[n++], err) : pare_no_memory(err);
    }
    pare_sql_finish(statement);
    if (status == PARE_OK) {
        *count = n;
        *rows = list;
    }
    return status;
}

pare_status pare_history_find(const pare_store *store, bool undone, pare_arena *arena,
                              pare_change_row *found, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status =
        pare_sql_prepare(store, &statement, err,
                         undone ? BOTH(store, "WHERE undone <> 0 ORDER BY number LIMIT 1")
                                : BOTH(store, "WHERE undone = 0 ORDER BY number DESC LIMIT 1"),
                         "");
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    if (row)
        status = row_of(statement, arena, found, err);
    else if (status == PARE_OK && undone)
        status = pare_fail(err, PARE_BAD_DATA,
                           "nothing to redo: no change was undone, or another came after it");
    else if (status == PARE_OK)
        status =
            pare_fail(err, PARE_BAD_DATA, "nothing to undo: the history of this bench begins here");
    pare_sql_finish(statement);
    return status;
}

/* ---- since something was read ---- */

pare_status pare_store_read_since(pare_store *store, pare_store_since *since, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(
        store, &statement, err,
        "SELECT coalesce(max(number), 0), CAST(coalesce(sum(undone), 0) AS bigint) FROM change",
        "");
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    *since = (pare_store_since){row ? pare_sql_int(statement, 0) : 0,
                                row ? pare_sql_int(statement, 1) : 0};
    pare_sql_finish(statement);
    return status;
}

pare_status pare_store_turn(pare_store *store, bool mine, pare_error *err)
{
    return store->driver->turn ? store->driver->turn(store, mine, err) : PARE_OK;
}

/* The first change since then that has replaced the text of the craft or of one of its parts; one that was
 * taken back or done again replaces texts of before, so it counts whatever its number is. */
pare_status pare_history_check(const pare_store *store, const pare_change *change, pare_error *err)
{
    static const char sql[] =
        "SELECT what FROM change WHERE (number > ?1 OR ?2 <> (SELECT CAST(coalesce(sum(undone), 0) "
        "AS bigint) FROM change)) AND EXISTS (SELECT 1 FROM change_old WHERE change = number AND "
        "(list = 'craft' AND name = ?3 OR list = 'part' AND name IN (SELECT part FROM craft_part "
        "WHERE craft = ?3))) ORDER BY number DESC LIMIT 1";
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(store, &statement, err, sql, "iit", change->since.number,
                                          change->since.undone, change->craft);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    if (row && change->late)
        *change->late = true;
    if (row)
        status =
            pare_fail(err, PARE_UNAVAILABLE,
                      "craft '%.48s' was changed meanwhile (%.60s), and nothing was done; look "
                      "at it as it is now, then try again",
                      change->craft, pare_sql_chars(statement, 0));
    pare_sql_finish(statement);
    return status;
}
