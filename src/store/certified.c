/* certified.c: a number for all that a certificate of a craft rests on (see bench.h). */
#include <string.h>

#include "base/hash.h"
#include "store/sql.h"

static const struct {
    const char *sql;
    bool of_craft;
} lists[] = {
    {"SELECT doc FROM craft WHERE name = ?", true},
    {"SELECT doc FROM part ORDER BY id", false},
    {"SELECT doc FROM scale ORDER BY id", false},
    {"SELECT doc FROM weigh_in WHERE craft = ? ORDER BY date, row", true},
    {"SELECT doc FROM stand_table ORDER BY motor, propeller, row", false},
};

/* Rows with their ends, and lists with theirs, so that nothing passes for another. */
static pare_status add_list(const pare_store *store, const char *sql, const char *craft,
                            unsigned long long *sum, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    pare_status status = craft ? pare_sql_prepare(store, &statement, err, sql, "t", craft)
                               : pare_sql_prepare(store, &statement, err, sql, "");
    while (status == PARE_OK && row) {
        status = pare_sql_step(store, statement, &row, err);
        const char *doc = status == PARE_OK && row ? pare_sql_chars(statement, 0) : NULL;
        if (doc)
            *sum = pare_hash(*sum, doc, strlen(doc) + 1);
    }
    pare_sql_finish(statement);
    *sum = pare_hash(*sum, "\n", 1);
    return status;
}

pare_status pare_store_certified(pare_store *store, const char *craft, unsigned long long *mark,
                                 pare_error *err)
{
    *mark = PARE_HASH_START;
    pare_status status = pare_sql_begin_reading(store, err);
    for (size_t i = 0; status == PARE_OK && i < sizeof lists / sizeof lists[0]; i++)
        status = add_list(store, lists[i].sql, lists[i].of_craft ? craft : NULL, mark, err);
    pare_sql_rollback(store);
    return status;
}
