/* pg.c: a bench in a PostgreSQL database: statements (see pg.h, sql_driver.h).
 *
 * A round trip to a server costs more than most of our statements, so there are few: a result comes whole,
 * the beginning of a transaction that only reads goes along with its first statement, and the answer to its
 * end is read when the next one is sent. A statement that runs a second time is prepared then, in the same
 * round trip. Values travel in binary both ways. The rejected alternative, a row at a time, would leave the
 * connection busy while each row is read, and reading a part asks for its files in between.
 *
 * While somebody watches the work, an answer is waited for in small steps, and cancelled where that is wished. */
#include "store/pg.h"

#include <poll.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PARAMETERS = 16, STEP_MS = 50, NAME = 16, CELL = 8, AHEAD_TEXT = 64 };

/* Types of parameters: PostgreSQL's own numbers for them (src/include/catalog/pg_type.dat). */
enum { OF_BYTES = 17, OF_INT8 = 20, OF_TEXT = 25, OF_FLOAT8 = 701 };

typedef struct pg_statement {
    pare_statement head;
    char *sql; /* with $1 in the place of ? */
    char name[NAME];
    unsigned runs;
    int count; /* of what is bound */
    const char *value[PARAMETERS];
    int length[PARAMETERS];
    unsigned char number[PARAMETERS][CELL];
    Oid type[PARAMETERS];
    enum { NOT_AHEAD, SOON, ANSWERED } ahead;
    char text[AHEAD_TEXT]; /* what is bound, where it is asked ahead */
    PGresult *result;      /* NULL: has not run */
    int row;
} pg_statement;

static pg_statement *own(pare_statement *statement)
{
    return (pg_statement *)statement;
}

/* ---- answers ---- */

/* Waits until the next answer is there. @return false: it was stopped, and what runs is cancelled */
static bool wait_for_answer(const pare_store *store)
{
    pare_pg *pg = pare_pg_of(store);
    bool stopped = false;
    while (store->progress && !stopped && pg->is.PQisBusy(pg->conn)) {
        struct pollfd ready = {.fd = pg->is.PQsocket(pg->conn), .events = POLLIN};
        if (poll(&ready, 1, STEP_MS) > 0 && !pg->is.PQconsumeInput(pg->conn))
            return true; /* the connection is gone, which PQgetResult() says */
        stopped = pare_store_stopped(store);
    }
    PGcancel *cancel = stopped ? pg->is.PQgetCancel(pg->conn) : NULL;
    if (cancel) {
        char unused[256];
        pg->is.PQcancel(cancel, unused, sizeof unused);
        pg->is.PQfreeCancel(cancel);
    }
    return !stopped;
}

static bool is_good(const pare_pg *pg, const PGresult *result)
{
    const ExecStatusType status = pg->is.PQresultStatus(result);
    return status == PGRES_COMMAND_OK || status == PGRES_TUPLES_OK || status == PGRES_PIPELINE_SYNC;
}

/* All answers to what was sent, up to `ends` of their ends (NULL); the last good one with rows or without is
 * kept. @return false: one failed, which is noted */
static bool take_answers(const pare_store *store, int ends, PGresult **kept)
{
    pare_pg *pg = pare_pg_of(store);
    bool good = true, synced = false, stopped = false;
    while (ends > 0 && !synced) {
        stopped = stopped || !wait_for_answer(store);
        PGresult *result = pg->is.PQgetResult(pg->conn);
        if (!result) {
            ends--;
            if (pg->is.PQstatus(pg->conn) == CONNECTION_BAD) {
                if (good)
                    pare_pg_note(pg, NULL);
                return false;
            }
            continue;
        }
        synced = pg->is.PQresultStatus(result) == PGRES_PIPELINE_SYNC;
        if (!is_good(pg, result) && pg->is.PQresultStatus(result) != PGRES_PIPELINE_ABORTED) {
            if (good)
                pare_pg_note(pg, result);
            good = false;
        }
        if (synced || !is_good(pg, result) || !kept) {
            pg->is.PQclear(result);
        } else {
            pg->is.PQclear(*kept);
            *kept = result;
        }
    }
    return good;
}

/* The answer to the end of the last transaction, where it was not waited for. */
static void read_unread(const pare_store *store)
{
    pare_pg *pg = pare_pg_of(store);
    if (!pg->unread)
        return;
    pg->unread = false;
    take_answers(store, 1, NULL);
}

pare_status pare_pg_simply(const pare_store *store, const char *sql, PGresult **result,
                           pare_error *err)
{
    pare_pg *pg = pare_pg_of(store);
    PGresult *answer = NULL;
    read_unread(store);
    const bool sent = pg->is.PQsendQuery(pg->conn, sql) == 1;
    if (!sent)
        pare_pg_note(pg, NULL);
    const bool good = sent && take_answers(store, 1, &answer);
    if (good && result)
        *result = answer;
    else
        pg->is.PQclear(answer);
    return good ? PARE_OK : pare_pg_failed(store, err);
}

/* ---- what is asked ahead ---- */

/* It is ahead no longer. */
static void drop(pg_statement *s)
{
    pare_pg *pg = pare_pg_of(s->head.store);
    size_t kept = 0;
    if (s->ahead == NOT_AHEAD)
        return;
    for (size_t i = 0; i < pg->ahead; i++)
        if (pg->asked[i] != &s->head)
            pg->asked[kept++] = pg->asked[i];
    pg->ahead = kept;
    s->ahead = NOT_AHEAD;
    pg->is.PQclear(s->result);
    s->result = NULL;
}

/* What was answered is good in its transaction only. */
static void drop_all(const pare_store *store)
{
    pare_pg *pg = pare_pg_of(store);
    while (pg->ahead > 0)
        drop(own(pg->asked[pg->ahead - 1]));
}

/* Only with parameters that can be kept: none, or one short text. */
static void ahead(pare_statement *statement)
{
    pg_statement *s = own(statement);
    pare_pg *pg = pare_pg_of(s->head.store);
    const bool text =
        s->count == 1 && s->type[0] == OF_TEXT && s->value[0] && s->length[0] < AHEAD_TEXT;
    if (s->ahead != NOT_AHEAD || pg->ahead == PARE_PG_AHEAD || (s->count > 0 && !text))
        return;
    if (text) {
        memcpy(s->text, s->value[0], (size_t)s->length[0]);
        s->value[0] = s->text;
    }
    s->ahead = SOON;
    pg->asked[pg->ahead++] = statement;
}

/* Whether the same is asked that was asked ahead. */
static bool is_same(const pg_statement *s, size_t count, const pare_sql_value value[])
{
    return (size_t)s->count == count &&
           (count == 0 ||
            (value[0].type == 's' && value[0].bytes && value[0].length == (size_t)s->length[0] &&
             memcmp(value[0].bytes, s->text, value[0].length) == 0));
}

/* ---- transactions ---- */

#define READING "BEGIN ISOLATION LEVEL REPEATABLE READ, READ ONLY"

static pare_status run(const pare_store *store, const char *sql, pare_error *err)
{
    return pare_pg_simply(store, sql, NULL, err);
}

static pare_status begin(const pare_store *store, pare_sql_mode mode, pare_error *err)
{
    pare_pg *pg = pare_pg_of(store);
    drop_all(store);
    if (mode == PARE_SQL_READ) {
        pg->begins = true;
        return PARE_OK;
    }
    return run(store,
               pg->wait ? "BEGIN; UPDATE pare.bench SET stamp = stamp + 1"
                        : "BEGIN; SET LOCAL lock_timeout = 1; "
                          "UPDATE pare.bench SET stamp = stamp + 1; SET LOCAL lock_timeout = 0",
               err);
}

static pare_status commit(const pare_store *store, pare_error *err)
{
    pare_pg *pg = pare_pg_of(store);
    PGresult *result = NULL;
    const pare_status status = pare_pg_simply(store, "COMMIT", &result, err);
    if (status == PARE_OK) {
        /* What had failed before is rolled back instead, which is no error to the server. */
        const bool kept = strcmp(pg->is.PQcmdStatus(result), "COMMIT") == 0;
        pg->is.PQclear(result);
        return kept ? PARE_OK : pare_pg_failed(store, err);
    }
    if (*pg->why && strncmp(pg->why, "57P", 3) != 0)
        return status;
    return pare_fail(err, PARE_UNAVAILABLE,
                     "%s: the server was gone before it confirmed (%s); pare history says whether "
                     "the change is kept",
                     store->path, pg->words);
}

static void rollback(const pare_store *store)
{
    pare_pg *pg = pare_pg_of(store);
    drop_all(store);
    if (pg->begins) {
        pg->begins = false;
        return;
    }
    read_unread(store);
    if (pg->is.PQtransactionStatus(pg->conn) != PQTRANS_IDLE &&
        pg->is.PQstatus(pg->conn) == CONNECTION_OK)
        pg->unread = pg->is.PQsendQuery(pg->conn, "ROLLBACK") == 1;
}

static void wait_or_not(const pare_store *store, bool wait)
{
    pare_pg_of(store)->wait = wait;
}

static void watch(pare_store *store)
{
    pare_pg_of(store)->wait = true;
}

/* ---- statements ---- */

/* "?" and "?1" become "$1"; nothing of ours has either in a quoted text. */
static char *translated(const char *sql)
{
    enum { MORE = 3 };
    size_t marks = 0;
    for (const char *c = sql; *c; c++)
        marks += *c == '?';
    char *made = malloc(strlen(sql) + MORE * marks + 1), *to = made;
    int next = 1;
    for (const char *c = sql; made && *c; c++) {
        if (*c != '?')
            *to++ = *c;
        else if (c[1] >= '1' && c[1] <= '9')
            *to++ = '$';
        else
            to += snprintf(to, MORE + 1, "$%d", next++);
    }
    if (made)
        *to = '\0';
    return made;
}

/* What was prepared stays so on the server until the connection closes: few statements lose their place. */
static void finish(pare_statement *statement)
{
    pg_statement *s = own(statement);
    drop(s);
    pare_pg_of(s->head.store)->is.PQclear(s->result);
    free((char *)(uintptr_t)s->head.sql);
    free(s->sql);
    free(s);
}

static pare_status prepare(const pare_store *store, const char *sql, pare_statement **statement,
                           pare_error *err)
{
    pg_statement *made = calloc(1, sizeof *made);
    *statement = NULL;
    if (!made)
        return pare_no_memory(err);
    made->head = (pare_statement){store, strdup(sql)};
    made->sql = translated(sql);
    if (!made->head.sql || !made->sql) {
        free((char *)(uintptr_t)made->head.sql);
        free(made->sql);
        free(made);
        return pare_no_memory(err);
    }
    *statement = &made->head;
    return PARE_OK;
}

static void put_number(unsigned char cell[CELL], uint64_t bits)
{
    for (int i = 0; i < CELL; i++)
        cell[i] = (unsigned char)(bits >> 8 * (CELL - 1 - i));
}

static void bind_one(pg_statement *s, int i, const pare_sql_value *value)
{
    uint64_t bits = 0;
    s->value[i] = (const char *)s->number[i];
    s->length[i] = CELL;
    switch (value->type) {
    case 's':
    case 'b':
        s->type[i] = value->type == 's' ? OF_TEXT : OF_BYTES;
        s->value[i] = value->bytes;
        s->length[i] = (int)value->length;
        break;
    case 'i':
        s->type[i] = OF_INT8;
        put_number(s->number[i], (uint64_t)value->integer);
        break;
    default:
        s->type[i] = OF_FLOAT8;
        memcpy(&bits, &value->real, sizeof bits);
        put_number(s->number[i], bits);
    }
}

static void rewind_it(pare_statement *statement)
{
    pg_statement *s = own(statement);
    drop(s);
    pare_pg_of(s->head.store)->is.PQclear(s->result);
    s->result = NULL;
}

static void rest(pare_statement *statement)
{
    if (own(statement)->ahead == NOT_AHEAD)
        rewind_it(statement);
}

static pare_status bind(pare_statement *statement, size_t count, const pare_sql_value value[],
                        pare_error *err)
{
    pg_statement *s = own(statement);
    s->row = -1;
    if (s->ahead != NOT_AHEAD && is_same(s, count, value))
        return PARE_OK;
    rewind_it(statement);
    s->count = 0;
    for (size_t i = 0; i < count && i < PARAMETERS; i++) {
        if (value[i].length > INT32_MAX)
            return pare_no_memory(err);
        bind_one(s, s->count++, &value[i]);
    }
    return PARE_OK;
}

/* ---- running ---- */

/* The second time it is prepared, under a name. */
static bool is_second(const pg_statement *s)
{
    return s->runs > 0 && !*s->name;
}

static bool send_one(pg_statement *s)
{
    static const int binary[PARAMETERS] = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1};
    pare_pg *pg = pare_pg_of(s->head.store);
    bool sent = true;
    if (is_second(s)) {
        snprintf(s->name, sizeof s->name, "p%u", ++pg->prepared);
        sent = pg->is.PQsendPrepare(pg->conn, s->name, s->sql, s->count, s->type) == 1;
    }
    s->runs++;
    if (*s->name)
        return sent && pg->is.PQsendQueryPrepared(pg->conn, s->name, s->count, s->value, s->length,
                                                  binary, 1) == 1;
    return pg->is.PQsendQueryParams(pg->conn, s->sql, s->count, s->type, s->value, s->length,
                                    binary, 1) == 1;
}

/* What goes to the server at once, and comes back in the same order. */
typedef struct batch {
    bool begins; /* with the beginning of a transaction before it */
    bool alone;  /* one answer, with nothing around it */
    size_t count;
    pg_statement *one[PARE_PG_AHEAD + 1];
    bool second[PARE_PG_AHEAD + 1];
} batch;

static batch batch_of(pg_statement *s)
{
    pare_pg *pg = pare_pg_of(s->head.store);
    batch b = {.begins = pg->begins};
    for (size_t i = 0; i < pg->ahead; i++)
        if (pg->asked[i] != &s->head && own(pg->asked[i])->ahead == SOON)
            b.one[b.count++] = own(pg->asked[i]);
    b.one[b.count++] = s;
    for (size_t i = 0; i < b.count; i++)
        b.second[i] = is_second(b.one[i]);
    b.alone = b.count == 1 && !b.begins && !b.second[0];
    pg->begins = false;
    return b;
}

static bool send_batch(pare_pg *pg, const batch *b)
{
    bool sent = b->alone || pg->is.PQenterPipelineMode(pg->conn) == 1;
    if (sent && b->begins)
        sent = pg->is.PQsendQueryParams(pg->conn, READING, 0, NULL, NULL, NULL, NULL, 0) == 1;
    for (size_t i = 0; sent && i < b->count; i++)
        sent = send_one(b->one[i]);
    if (sent && !b->alone)
        sent = pg->is.PQpipelineSync(pg->conn) == 1;
    if (!sent)
        pare_pg_note(pg, NULL);
    return sent;
}

/* All answers are taken, whatever fails. */
static bool receive_batch(const pare_store *store, const batch *b)
{
    bool good = !b->begins || take_answers(store, 1, NULL);
    for (size_t i = 0; i < b->count; i++) {
        good = (!b->second[i] || take_answers(store, 1, NULL)) && good;
        good = take_answers(store, 1, &b->one[i]->result) && good;
    }
    return (b->alone || take_answers(store, 1, NULL)) && good;
}

static pare_status execute(pg_statement *s, pare_error *err)
{
    const pare_store *store = s->head.store;
    pare_pg *pg = pare_pg_of(store);
    read_unread(store);
    const batch b = batch_of(s);
    const bool good = send_batch(pg, &b) && receive_batch(store, &b);
    pg->is.PQexitPipelineMode(pg->conn);
    for (size_t i = 0; i < b.count; i++) {
        pg_statement *one = b.one[i];
        if (good && one->ahead == SOON)
            one->ahead = ANSWERED;
        if (good)
            continue;
        if (b.second[i])
            one->name[0] = '\0'; /* whether it was prepared is not known: another name next time */
        rewind_it(&one->head);
    }
    if (!good)
        return pare_pg_failed(store, err);
    pg->changed = strtoll(pg->is.PQcmdTuples(s->result), NULL, 10);
    return PARE_OK;
}

static pare_status step(pare_statement *statement, bool *row, pare_error *err)
{
    pg_statement *s = own(statement);
    *row = false;
    if (!s->result) {
        const pare_status status = execute(s, err);
        if (status != PARE_OK)
            return status;
        s->row = -1;
    }
    const int rows = pare_pg_of(s->head.store)->is.PQntuples(s->result);
    if (s->row < rows)
        s->row++;
    *row = s->row < rows;
    return PARE_OK;
}

static long long changed(const pare_store *store)
{
    return pare_pg_of(store)->changed;
}

/* ---- the row at hand: whatever type a column has, no byte beyond it is read ---- */

/* @return false: NULL, or no such column or row */
static bool has(const pg_statement *s, int column)
{
    const pare_pg *pg = pare_pg_of(s->head.store);
    return s->result && s->row >= 0 && s->row < pg->is.PQntuples(s->result) &&
           column < pg->is.PQnfields(s->result) && !pg->is.PQgetisnull(s->result, s->row, column);
}

static const char *chars(pare_statement *statement, int column)
{
    const pg_statement *s = own(statement);
    return has(s, column) ? pare_pg_of(s->head.store)->is.PQgetvalue(s->result, s->row, column)
                          : NULL;
}

static const void *bytes(pare_statement *statement, int column)
{
    return chars(statement, column);
}

static size_t length(pare_statement *statement, int column)
{
    const pg_statement *s = own(statement);
    return has(s, column)
               ? (size_t)pare_pg_of(s->head.store)->is.PQgetlength(s->result, s->row, column)
               : 0;
}

/* A number's bits, the highest first; 0 where it has not as many bytes. */
static uint64_t bits_of(pare_statement *statement, int column, size_t wanted)
{
    const unsigned char *value = bytes(statement, column);
    uint64_t bits = 0;
    if (!value || length(statement, column) != wanted)
        return 0;
    for (size_t i = 0; i < wanted; i++)
        bits = bits << 8 | value[i];
    return bits;
}

static long long integer(pare_statement *statement, int column)
{
    switch (length(statement, column)) {
    case 8:
        return (long long)bits_of(statement, column, 8);
    case 4:
        return (int32_t)bits_of(statement, column, 4);
    default:
        return 0;
    }
}

static double real(pare_statement *statement, int column)
{
    const uint64_t bits = bits_of(statement, column, 8);
    double value;
    memcpy(&value, &bits, sizeof value);
    return value;
}

static bool is_null(pare_statement *statement, int column)
{
    return !has(own(statement), column);
}

/* ---- where kinds of benches differ ---- */

static void close_it(pare_store *store)
{
    pare_pg *pg = pare_pg_of(store);
    if (pg && pg->conn)
        pg->is.PQfinish(pg->conn);
    free(pg);
}

static pare_status loosen(const pare_store *store, pare_error *err)
{
    return run(store, "SET CONSTRAINTS ALL DEFERRED; DELETE FROM touched", err);
}

static pare_status stamp(const pare_store *store, long long *stamp, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(store, &statement, err, "SELECT stamp FROM bench", "");
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    *stamp = row ? pare_sql_int(statement, 0) : 0;
    pare_sql_finish(statement);
    return status;
}

/* A lock of the server's that is about nothing else; it goes with the connection. A queue moves on, so it is
 * waited for longer than a change. */
static pare_status turn(const pare_store *store, bool mine, pare_error *err)
{
    return run(store,
               mine ? "SET lock_timeout = '10min'; SELECT pg_advisory_lock(1346458182); "
                      "SET lock_timeout = '30s'"
                    : "SELECT pg_advisory_unlock(1346458182)",
               err);
}

const pare_sql_driver pare_pg_driver = {
    .run = run,
    .begin = begin,
    .commit = commit,
    .rollback = rollback,
    .wait = wait_or_not,
    .watch = watch,
    .prepare = prepare,
    .bind = bind,
    .step = step,
    .ahead = ahead,
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
    .signs = true,
    .kept = "bytes_of",
    .loosen = loosen,
    .stamp = stamp,
    .turn = turn,
    .copy = pare_pg_copy,
};
