/* pg_copy.c: a bench on a server, copied into one in memory (see pg.h).
 *
 * Table by table, in the order in which they refer to each other, in one transaction there. */
#include <string.h>

#include "store/pg.h"
#include "store/reading.h"
#include "store/sqlite.h"

enum { COLUMNS = 7 };

/* A table's columns, and a letter for each as in pare_sql_prepare(). */
static const struct {
    const char *select, *insert, *types;
} TABLES[] = {
    {"SELECT row, name, value FROM setting", "INSERT INTO setting VALUES (?, ?, ?)", "iss"},
    {"SELECT row, name, bytes FROM file", "INSERT INTO file VALUES (?, ?, ?)", "isb"},
    {"SELECT row, id, kind, maker, mass_kg, facts, doc FROM part",
     "INSERT INTO part VALUES (?, ?, ?, ?, ?, ?, ?)", "isssdbs"},
    {"SELECT row, name, doc FROM craft", "INSERT INTO craft VALUES (?, ?, ?)", "iss"},
    {"SELECT craft, part FROM craft_part", "INSERT INTO craft_part VALUES (?, ?)", "ss"},
    {"SELECT part, file FROM part_file", "INSERT INTO part_file VALUES (?, ?)", "ss"},
    {"SELECT file, unit_m, layout, facts FROM mesh", "INSERT INTO mesh VALUES (?, ?, ?, ?)",
     "sdib"},
    {"SELECT key, bytes FROM prop_table", "INSERT INTO prop_table VALUES (?, ?)", "ib"},
    {"SELECT row, id, doc FROM scale", "INSERT INTO scale VALUES (?, ?, ?)", "iss"},
    {"SELECT row, craft, scale, date, doc FROM weigh_in",
     "INSERT INTO weigh_in VALUES (?, ?, ?, ?, ?)", "issss"},
    {"SELECT row, craft, pack, date, doc FROM flight", "INSERT INTO flight VALUES (?, ?, ?, ?, ?)",
     "issss"},
    {"SELECT row, motor, propeller, doc FROM stand_table",
     "INSERT INTO stand_table VALUES (?, ?, ?, ?)", "isss"},
    {"SELECT number, time, what, why, undone FROM change",
     "INSERT INTO change VALUES (?, ?, ?, ?, ?)", "isssi"},
    {"SELECT change, list, first, last FROM change_new",
     "INSERT INTO change_new VALUES (?, ?, ?, ?)", "isii"},
    {"SELECT change, list, row, name, was FROM change_old WHERE list = 'file'",
     "INSERT INTO change_old VALUES (?, ?, ?, ?, ?)", "isisb"},
    {"SELECT change, list, row, name, was FROM change_old WHERE list <> 'file'",
     "INSERT INTO change_old VALUES (?, ?, ?, ?, ?)", "isiss"},
};

static pare_status put_row(pare_statement *from, pare_statement *to, const char *types,
                           pare_error *err)
{
    pare_sql_value value[COLUMNS];
    bool row = false;
    size_t count = 0;
    for (; types[count]; count++) {
        const int column = (int)count;
        value[count] = (pare_sql_value){.type = types[count],
                                        .bytes = pare_sql_bytes(from, column),
                                        .length = pare_sql_length(from, column),
                                        .integer = pare_sql_int(from, column),
                                        .real = pare_sql_real(from, column)};
    }
    const pare_status status = to->store->driver->bind(to, count, value, err);
    return status == PARE_OK ? pare_sql_step(to->store, to, &row, err) : status;
}

static pare_status copy_table(const pare_store *store, const pare_store *into, size_t table,
                              pare_error *err)
{
    pare_statement *from = NULL, *to = NULL;
    bool row = true;
    pare_status status = pare_sql_prepare(store, &from, err, TABLES[table].select, "");
    if (status == PARE_OK)
        status = pare_sql_prepare(into, &to, err, TABLES[table].insert, "");
    while (status == PARE_OK) {
        status = pare_sql_step(store, from, &row, err);
        if (status != PARE_OK || !row)
            break;
        status = put_row(from, to, TABLES[table].types, err);
    }
    pare_sql_finish(from);
    pare_sql_finish(to);
    return status;
}

pare_status pare_pg_copy(const pare_store *store, pare_store *into, pare_error *err)
{
    pare_status status = pare_sqlite_make(into, err);
    if (status == PARE_OK)
        status = pare_sql_begin_reading(store, err);
    if (status == PARE_OK)
        status = pare_sql_begin(into, err);
    for (size_t i = 0; i < PARE_COUNT(TABLES) && status == PARE_OK; i++)
        status = copy_table(store, into, i, err);
    pare_sql_rollback(store);
    if (status == PARE_OK)
        status = pare_sql_commit(into, err);
    if (status != PARE_OK)
        pare_sql_rollback(into);
    return status;
}
