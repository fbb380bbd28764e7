/* log_flight.c: the flight that a log was written in (see log_flight.h).
 *
 * A pilot writes his flights down in the evening and reads the log out later, or the other way round; taken
 * for two flights, one charge would be learned from twice. So a log joins the flight that agrees with all
 * that was told of it. A flight that has the same log already is the same again. */
#include "store/log_flight.h"

#include <string.h>

#include "store/tree_diff.h"
#include "store/tree_edit.h"

static bool is_log(const char *key)
{
    return strcmp(key, "log") == 0 || strcmp(key, "logged") == 0;
}

/* Whether nothing that both say differs. */
static bool agrees(const pare_node *flight, const pare_node *log)
{
    for (const pare_node *one = log->first; one; one = one->next) {
        const pare_node *said = pare_node_get(flight, one->key);
        if (said && !is_log(one->key) && !pare_node_same(said, one))
            return false;
    }
    return true;
}

static pare_node *joined(pare_arena *arena, const pare_node *flight, const pare_node *log)
{
    pare_node *made = pare_node_without(arena, flight, NULL);
    pare_node *more = pare_node_without(arena, log, NULL);
    if (!made || !more)
        return NULL;
    for (pare_node *one = more->first, *next; one; one = next) {
        next = one->next;
        pare_node_set(made, one);
    }
    made->line = log->line;
    made->column = log->column;
    return made;
}

pare_status pare_log_find_flight(const pare_store *store, const pare_reading *reading,
                                 const pare_node *log, long long *row, pare_node **merged,
                                 pare_error *err)
{
    pare_statement *statement = NULL;
    const pare_node *found = NULL, *logged = pare_node_get(log, "logged");
    const char *craft = pare_node_get(log, "craft")->text, *date = pare_node_get(log, "date")->text;
    size_t may_be = 0;
    bool there = true, same = false;
    *row = 0;
    pare_status status = pare_sql_prepare(
        store, &statement, err,
        "SELECT row, doc FROM flight WHERE craft = ? AND date = ? ORDER BY row", "tt", craft, date);
    while (status == PARE_OK && !same) {
        const pare_node *flight = NULL;
        status = pare_sql_step(store, statement, &there, err);
        if (status != PARE_OK || !there)
            break;
        const char *doc = pare_sql_text(statement, 1, reading->arena);
        status = doc ? pare_tree_parse_map(doc, strlen(doc), "flight", reading->arena, &flight, err)
                     : pare_no_memory(err);
        if (status != PARE_OK || !agrees(flight, log))
            continue;
        const pare_node *its = pare_node_get(flight, "logged");
        same = its && pare_node_same(its, logged);
        if (its && !same)
            continue;
        found = flight;
        may_be = same ? 1 : may_be + 1;
        *row = pare_sql_int(statement, 0);
    }
    pare_sql_finish(statement);
    if (status == PARE_OK && may_be > 1)
        return pare_refuse(
            reading, log, PARE_BAD_DATA, err,
            "%zu flights of %.48s on %s may be the log's; right would be to say more "
            "of it: --set pack=ID, which=1, put_back=905mAh or flown=hover",
            may_be, craft, date);
    if (status != PARE_OK)
        return status;
    /* The same again keeps the name under which it came first. */
    *merged = found && !same ? joined(reading->arena, found, log)
              : found        ? pare_node_without(reading->arena, found, NULL)
                             : pare_node_without(reading->arena, log, NULL);
    *row = found && !same ? *row : 0;
    return *merged ? PARE_OK : pare_no_memory(err);
}
