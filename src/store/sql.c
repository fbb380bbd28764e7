/* sql.c: statements of any kind of bench (see sql.h).
 *
 * Statements are kept, prepared, in a small table under the address of their text: the same line of the
 * program finds its own again. Two texts may share a place, and a text that is made up may stand where
 * another stood before, so the text itself is compared. One that is lent is left alone: what wants its
 * place meanwhile is prepared and finished. */
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "store/sql_driver.h"

enum { KEPT = 128, PARAMETERS = 16 };

struct pare_sql_kept {
    int reading; /* so many transactions that only read, one within another */
    struct {
        pare_statement *statement;
        bool lent;
    } place[KEPT];
};

pare_status pare_store_made(const pare_sql_driver *driver, const char *path, pare_store **store,
                            pare_error *err)
{
    pare_store *made = calloc(1, sizeof *made);
    *store = made;
    if (!made)
        return pare_no_memory(err);
    made->driver = driver;
    made->path = malloc(strlen(path) + 1);
    made->kept = calloc(1, sizeof *made->kept);
    if (!made->path || !made->kept) {
        pare_store_close(made);
        *store = NULL;
        return pare_no_memory(err);
    }
    strcpy(made->path, path);
    return PARE_OK;
}

void pare_sql_close(pare_store *store)
{
    for (size_t i = 0; store->kept && i < KEPT; i++) {
        if (store->kept->place[i].statement)
            store->driver->finish(store->kept->place[i].statement);
        store->kept->place[i].statement = NULL;
    }
    store->driver->close(store);
    store->connection = NULL;
}

/* ---- transactions ---- */

pare_status pare_sql_begin(const pare_store *store, pare_error *err)
{
    return store->driver->begin(store, PARE_SQL_WRITE, err);
}

pare_status pare_sql_begin_reading(const pare_store *store, pare_error *err)
{
    int *reading = &store->kept->reading;
    const pare_status status =
        *reading > 0 ? PARE_OK : store->driver->begin(store, PARE_SQL_READ, err);
    *reading += status == PARE_OK;
    return status;
}

pare_status pare_sql_commit(const pare_store *store, pare_error *err)
{
    return store->driver->commit(store, err);
}

void pare_sql_rollback(const pare_store *store)
{
    int *reading = &store->kept->reading;
    *reading -= *reading > 0;
    if (*reading > 0)
        return;
    store->driver->rollback(store);
}

void pare_sql_wait(const pare_store *store, bool wait)
{
    store->driver->wait(store, wait);
}

/* ---- statements ---- */

pare_status pare_sql_run(const pare_store *store, const char *sql, pare_error *err)
{
    return store->driver->run(store, sql, err);
}

static size_t place_of(const char *sql)
{
    const uintptr_t address = (uintptr_t)sql;
    return (address ^ address >> 7) % KEPT;
}

/* A statement of this text, kept or made now. */
static pare_status borrow(const pare_store *store, const char *sql, pare_statement **statement,
                          pare_error *err)
{
    const size_t i = place_of(sql);
    pare_statement *kept = store->kept->place[i].statement;
    const bool lent = store->kept->place[i].lent;
    if (!lent && kept && strcmp(kept->sql, sql) != 0) {
        store->driver->finish(kept);
        kept = store->kept->place[i].statement = NULL;
    }
    if (!lent && kept) {
        store->kept->place[i].lent = true;
        *statement = kept;
        return PARE_OK;
    }
    const pare_status status = store->driver->prepare(store, sql, statement, err);
    if (status == PARE_OK && !lent) {
        store->kept->place[i].statement = *statement;
        store->kept->place[i].lent = true;
    }
    return status;
}

/* @return whether the store keeps it, which is true as long as its place is not another's */
static bool give_back(pare_statement *statement)
{
    struct pare_sql_kept *kept = statement->store->kept;
    size_t i = 0;
    while (i < KEPT && kept->place[i].statement != statement)
        i++;
    if (i < KEPT)
        kept->place[i].lent = false;
    return i < KEPT;
}

void pare_sql_finish(pare_statement *statement)
{
    if (!statement)
        return;
    if (give_back(statement))
        statement->store->driver->rest(statement);
    else
        statement->store->driver->finish(statement);
}

static pare_status bind(pare_statement *statement, pare_error *err, const char *types,
                        va_list *args)
{
    pare_sql_value value[PARAMETERS];
    size_t count = 0;
    for (; count < PARAMETERS && types[count]; count++) {
        pare_sql_value *v = &value[count];
        *v = (pare_sql_value){.type = types[count]};
        switch (types[count]) {
        case 't':
            v->type = 's';
            v->bytes = va_arg(*args, const char *);
            v->length = v->bytes ? strlen(v->bytes) : 0;
            break;
        case 's':
        case 'b':
            v->bytes = va_arg(*args, const void *);
            v->length = va_arg(*args, size_t);
            break;
        case 'i':
            v->integer = va_arg(*args, long long);
            break;
        default:
            v->real = va_arg(*args, double);
        }
    }
    return statement->store->driver->bind(statement, count, value, err);
}

pare_status pare_sql_bind(pare_statement *statement, pare_error *err, const char *types, ...)
{
    va_list args;
    va_start(args, types);
    const pare_status status = bind(statement, err, types, &args);
    va_end(args);
    return status;
}

static pare_status prepare(const pare_store *store, pare_statement **statement, pare_error *err,
                           const char *sql, const char *types, va_list *args)
{
    *statement = NULL;
    pare_status status = borrow(store, sql, statement, err);
    if (status == PARE_OK)
        status = bind(*statement, err, types, args);
    if (status != PARE_OK) {
        pare_sql_finish(*statement);
        *statement = NULL;
    }
    return status;
}

pare_status pare_sql_prepare(const pare_store *store, pare_statement **statement, pare_error *err,
                             const char *sql, const char *types, ...)
{
    va_list args;
    va_start(args, types);
    const pare_status status = prepare(store, statement, err, sql, types, &args);
    va_end(args);
    return status;
}

void pare_sql_ahead(const pare_store *store, const char *sql, const char *types, ...)
{
    pare_statement *statement = NULL;
    pare_error none;
    va_list args;
    if (!store->driver->ahead)
        return;
    va_start(args, types);
    const pare_status status = prepare(store, &statement, &none, sql, types, &args);
    va_end(args);
    if (status != PARE_OK)
        return;
    store->driver->ahead(statement);
    if (!give_back(statement))
        store->driver->finish(statement);
}

pare_status pare_sql_step(const pare_store *store, pare_statement *statement, bool *row,
                          pare_error *err)
{
    return store->driver->step(statement, row, err);
}

void pare_sql_rewind(pare_statement *statement)
{
    statement->store->driver->rewind(statement);
}

pare_status pare_sql_change(const pare_store *store, pare_error *err, const char *sql,
                            const char *types, ...)
{
    pare_statement *statement = NULL;
    bool row = true;
    va_list args;
    va_start(args, types);
    pare_status status = prepare(store, &statement, err, sql, types, &args);
    va_end(args);
    while (status == PARE_OK && row)
        status = pare_sql_step(store, statement, &row, err);
    pare_sql_finish(statement);
    return status;
}

long long pare_sql_changed(const pare_store *store)
{
    return store->driver->changed(store);
}

/* ---- the row at hand ---- */

const char *pare_sql_chars(pare_statement *statement, int column)
{
    return statement->store->driver->chars(statement, column);
}

const void *pare_sql_bytes(pare_statement *statement, int column)
{
    return statement->store->driver->bytes(statement, column);
}

size_t pare_sql_length(pare_statement *statement, int column)
{
    return statement->store->driver->length(statement, column);
}

long long pare_sql_int(pare_statement *statement, int column)
{
    return statement->store->driver->integer(statement, column);
}

double pare_sql_real(pare_statement *statement, int column)
{
    return statement->store->driver->real(statement, column);
}

bool pare_sql_is_null(pare_statement *statement, int column)
{
    return statement->store->driver->is_null(statement, column);
}

char *pare_sql_text(pare_statement *statement, int column, pare_arena *arena)
{
    const char *text = pare_sql_chars(statement, column);
    return pare_arena_copy(arena, text ? text : "", text ? pare_sql_length(statement, column) : 0);
}
