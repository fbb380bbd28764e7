/* recall.c: what was measured of all files that a bench keeps, read at once (see recall.h). */
#include "store/recall.h"

#include <stdlib.h>
#include <string.h>

#include "base/grow.h"

static const char ALL[] = "SELECT file, unit_m, layout, facts FROM mesh ORDER BY file, unit_m";

static pare_status take_row(pare_recall *recall, pare_statement *statement, pare_arena *arena,
                            pare_error *err)
{
    const void *facts = pare_sql_bytes(statement, 3);
    const size_t length = pare_sql_length(statement, 3);
    recall->one = pare_grown(arena, recall->one, recall->count, &recall->room, sizeof *recall->one);
    if (!recall->one)
        return pare_no_memory(err);
    pare_recalled *one = &recall->one[recall->count++];
    *one = (pare_recalled){.file = pare_sql_text(statement, 0, arena),
                           .unit_m = pare_sql_real(statement, 1),
                           .layout = pare_sql_int(statement, 2),
                           .length = length,
                           .facts = pare_arena_copy(arena, facts ? facts : "", length)};
    return one->file && one->facts ? PARE_OK : pare_no_memory(err);
}

static pare_status read_all(pare_recall *recall, const pare_store *store, pare_arena *arena,
                            pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    pare_status status = pare_sql_prepare(store, &statement, err, ALL, "");
    while (status == PARE_OK) {
        status = pare_sql_step(store, statement, &row, err);
        if (status != PARE_OK || !row)
            break;
        status = take_row(recall, statement, arena, err);
    }
    pare_sql_finish(statement);
    recall->done = status == PARE_OK;
    return status;
}

static int by_file(const void *a, const void *b)
{
    const pare_recalled *x = a, *y = b;
    const int order = strcmp(x->file, y->file);
    return order ? order : (x->unit_m > y->unit_m) - (x->unit_m < y->unit_m);
}

pare_status pare_recall_find(pare_recall *recall, const pare_store *store, pare_arena *arena,
                             const char *file, double unit_m, const pare_recalled **found,
                             pare_error *err)
{
    const pare_recalled wanted = {.file = file, .unit_m = unit_m};
    const pare_status status = recall->done ? PARE_OK : read_all(recall, store, arena, err);
    *found = status == PARE_OK && recall->count
                 ? bsearch(&wanted, recall->one, recall->count, sizeof wanted, by_file)
                 : NULL;
    return status;
}

void pare_recall_ahead(const pare_store *store)
{
    pare_sql_ahead(store, ALL, "");
}
