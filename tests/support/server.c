/* server.c: benches on a PostgreSQL of the tests' own (see server.h). */
#include "server.h"

#include <libpq-fe.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "near.h"

bool on_server(void)
{
    return getenv("PARE_TEST_SERVER") != NULL;
}

static void must(PGconn *conn, const char *sql)
{
    PGresult *result = PQexec(conn, sql);
    const ExecStatusType status = PQresultStatus(result);
    if (status != PGRES_COMMAND_OK && status != PGRES_TUPLES_OK)
        fail_msg("%s: %s", sql, PQerrorMessage(conn));
    PQclear(result);
}

static void address_of(const char *database, char *address, size_t size)
{
    snprintf(address, size, "postgresql://postgres@/%s?host=%s", database,
             getenv("PARE_TEST_SERVER"));
}

/* Bytes as SQLite writes them, x'00', in PostgreSQL's way. */
static void must_translated(PGconn *conn, const char *sql)
{
    char text[1024], *to = text;
    assert_true(strlen(sql) < sizeof text / 4);
    for (const char *c = sql; *c; c++) {
        const bool bytes = *c == 'x' && c[1] == '\'' && (c == sql || strchr(" (,", c[-1]));
        if (bytes)
            to += sprintf(to, "bytea '\\x");
        else
            *to++ = *c;
        c += bytes;
    }
    *to = '\0';
    must(conn, text);
}

void server_run(const char *address, const char *sql)
{
    PGconn *conn = PQconnectdb(address);
    must(conn, "SET client_min_messages = error; SET search_path = pare, public");
    must_translated(conn, sql);
    PQfinish(conn);
}

void server_run_file(const char *address, const char *path)
{
    enum { MOST = 65536 };
    char *text = calloc(1, MOST);
    FILE *file = fopen(path, "rb");
    assert_true(text && file && fread(text, 1, MOST - 1, file) > 0);
    fclose(file);
    PGconn *conn = PQconnectdb(address);
    must(conn, text);
    PQfinish(conn);
    free(text);
}

long long server_ask(const char *address, const char *sql)
{
    PGconn *conn = PQconnectdb(address);
    must(conn, "SET search_path = pare");
    PGresult *result = PQexec(conn, sql);
    if (PQresultStatus(result) != PGRES_TUPLES_OK || PQntuples(result) < 1)
        fail_msg("%s: %s", sql, PQerrorMessage(conn));
    const long long number = strtoll(PQgetvalue(result, 0, 0), NULL, 10);
    PQclear(result);
    PQfinish(conn);
    return number;
}

void server_bench(int which, char *address, size_t size)
{
    char name[32], sql[64], all[160];
    snprintf(name, sizeof name, "t%d_%d", (int)getpid(), which);
    address_of(name, address, size);
    PGconn *conn = PQconnectdb(address);
    const bool there = PQstatus(conn) == CONNECTION_OK;
    PQfinish(conn);
    if (there) {
        server_run(address, "DROP SCHEMA IF EXISTS pare CASCADE");
        return;
    }
    address_of("postgres", all, sizeof all);
    snprintf(sql, sizeof sql, "CREATE DATABASE %s", name);
    server_run(all, sql);
    /* What tests call by SQLite's names. */
    server_run(address, "CREATE DOMAIN public.blob AS bytea;"
                        "CREATE FUNCTION public.zeroblob(integer) RETURNS bytea LANGUAGE sql AS "
                        "$$SELECT decode(repeat('00', $1), 'hex')$$");
}

void server_user(const char *address, const char *user, const char *allow, char *other, size_t size)
{
    char sql[256];
    const char *at = strchr(address, '@');
    assert_non_null(at);
    snprintf(other, size, "postgresql://%s%s", user, at);
    if (!allow)
        return;
    snprintf(sql, sizeof sql,
             "DO $$BEGIN IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = '%s') THEN"
             " CREATE ROLE %s LOGIN; END IF; END$$",
             user, user);
    server_run(address, sql);
    snprintf(sql, sizeof sql, "SELECT pare.allow('%s', '%s')", user, allow);
    server_run(address, sql);
}
