/* flights.c: a craft's flights out of the store (see bench.h). */
#include <string.h>

#include "base/grow.h"
#include "store/bench.h"
#include "store/read_flight.h"
#include "store/record.h"
#include "store/sql.h"
#include "store/tree.h"

static pare_status load_flight(pare_reading *reading, pare_statement *statement, const char *store,
                               const pare_bench *bench, const pare_craft *craft,
                               pare_flight_record *flight, pare_error *err)
{
    const pare_node *root = NULL;
    const char *doc = pare_sql_chars(statement, 0);
    const char *date = pare_sql_chars(statement, 1);
    reading->name = pare_arena_printf(reading->arena, "%s: flight of %.48s on %.16s", store,
                                      craft->name, date ? date : "");
    if (!reading->name)
        return pare_no_memory(err);
    pare_status status =
        pare_tree_parse_map(doc ? doc : "", doc ? pare_sql_length(statement, 0) : 0, reading->name,
                            reading->arena, &root, err);
    if (status == PARE_OK)
        status = pare_record_check(reading, PARE_RECORD_FLIGHT, root, err);
    if (status == PARE_OK)
        status = pare_read_flight(reading, root, bench, craft, flight, err);
    return status;
}

pare_status pare_store_read_flights(pare_store *store, const pare_bench *bench,
                                    const pare_craft *craft, size_t *count,
                                    const pare_flight_record **flights, pare_error *err)
{
    pare_statement *statement = NULL;
    pare_reading reading = {.arena = pare_arena_open(), .units = pare_units_open()};
    pare_flight_record *list = NULL;
    size_t room = 0;
    *count = 0;
    pare_status status = reading.arena && reading.units ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_sql_prepare(store, &statement, err,
                                  "SELECT doc, date FROM flight WHERE craft = ? ORDER BY date, row",
                                  "t", craft->name);
    for (bool row = true; status == PARE_OK;) {
        status = pare_sql_step(store, statement, &row, err);
        if (status != PARE_OK || !row)
            break;
        list = pare_grown(bench->arena, list, *count, &room, sizeof *list);
        status =
            list ? load_flight(&reading, statement, store->path, bench, craft, &list[*count], err)
                 : pare_no_memory(err);
        *count += status == PARE_OK;
        pare_arena_clear(reading.arena);
    }
    pare_sql_finish(statement);
    pare_units_close(reading.units);
    pare_arena_close(reading.arena);
    *flights = list;
    return status;
}
