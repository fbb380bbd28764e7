/* pg_open.c: connecting to a bench on a server, and what its refusals mean (see pg.h).
 *
 * An address may hold a password, so no message repeats it: what is shown is put together anew from what libpq
 * read in it, and where libpq could not read it, its own words, which quote it, are left out. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/pg.h"
#include "store/reading.h"

/* ---- the address ---- */

/* Options that stand in an address's own places, and those that are nobody's business. */
static bool is_placed(const char *keyword)
{
    static const char *const placed[] = {"user",   "host",     "port",
                                         "dbname", "password", "sslpassword"};
    bool is = false;
    for (size_t i = 0; i < PARE_COUNT(placed); i++)
        is = is || strcmp(keyword, placed[i]) == 0;
    return is;
}

static const char *option(const PQconninfoOption *options, const char *keyword)
{
    for (const PQconninfoOption *o = options; o->keyword; o++)
        if (strcmp(o->keyword, keyword) == 0)
            return o->val && *o->val ? o->val : NULL;
    return NULL;
}

static void put_value(pare_text *shown, const char *before, const char *value)
{
    pare_text_add(shown, value ? before : "");
    for (const char *c = value; c && *c; c++)
        if ((unsigned char)*c <= ' ' || strchr("%&?#@\x7f", *c))
            pare_text_printf(shown, "%%%02x", (unsigned)(unsigned char)*c);
        else
            pare_text_put(shown, c, 1);
}

static void put_address(const PQconninfoOption *options, pare_text *shown)
{
    const char *host = option(options, "host"), *mark = "?";
    const bool folder = host && *host == '/'; /* of a socket */
    put_value(shown, "postgresql://", option(options, "user") ? option(options, "user") : "");
    put_value(shown, option(options, "user") ? "@" : "", folder ? NULL : host);
    if (option(options, "user") && (folder || !host))
        pare_text_add(shown, "@");
    put_value(shown, folder ? "" : ":", folder ? NULL : option(options, "port"));
    put_value(shown, "/", option(options, "dbname"));
    for (const PQconninfoOption *o = options; o->keyword; o++) {
        const bool socket = folder && (o->val == host || strcmp(o->keyword, "port") == 0);
        if (!o->val || !*o->val || (is_placed(o->keyword) && !socket))
            continue;
        pare_text_printf(shown, "%s%s", mark, o->keyword);
        put_value(shown, "=", o->val);
        mark = "&";
    }
}

static pare_status show(const pare_pg_library *is, const char *address, pare_text *shown,
                        pare_error *err)
{
    char *why = NULL; /* stays so where there was no memory to say it */
    PQconninfoOption *options = is->PQconninfoParse(address, &why);
    if (!options && !why)
        return pare_no_memory(err);
    is->PQfreemem(why);
    if (!options)
        return pare_fail(err, PARE_BAD_DATA,
                         "that is no address of a bench; right would be like "
                         "postgresql://anna@server/club");
    put_address(options, shown);
    is->PQconninfoFree(options);
    return shown->failed ? pare_no_memory(err) : PARE_OK;
}

pare_status pare_pg_shown(const char *address, pare_text *shown, pare_error *err)
{
    pare_pg_library is;
    const pare_status status = pare_pg_library_open(&is, err);
    return status == PARE_OK ? show(&is, address, shown, err) : status;
}

/* ---- failures ---- */

void pare_pg_note(pare_pg *pg, const PGresult *result)
{
    const char *why = result ? pg->is.PQresultErrorField(result, PG_DIAG_SQLSTATE) : NULL;
    const char *words = result ? pg->is.PQresultErrorField(result, PG_DIAG_MESSAGE_PRIMARY) : NULL;
    if (!words)
        words = pg->is.PQerrorMessage(pg->conn);
    /* "connection to server at "x" (1.2.3.4), port 5432 failed: FATAL:  password ..." */
    const char *fatal = strstr(words, "FATAL:  ");
    words = fatal ? fatal + strlen("FATAL:  ") : words;
    snprintf(pg->why, sizeof pg->why, "%.5s", why ? why : "");
    snprintf(pg->words, sizeof pg->words, "%.*s", (int)strcspn(words, "\n"), words);
}

/* What a code of PostgreSQL's, or the beginning of one, means (its manual, appendix A), and what is right. */
static const struct {
    const char *code;
    pare_status status;
    const char *what, *right;
} MEANINGS[] = {
    {"42501", PARE_UNAVAILABLE, "you may not do that on this bench",
     "; its owner can let you, with pare members"},
    {"25006", PARE_UNAVAILABLE, "can only be read",
     "; right would be the server that is written to"},
    {"55P03", PARE_UNAVAILABLE, "somebody else has been changing it all the time", "; try again"},
    {"42704", PARE_UNKNOWN, "not known to this server", ""},
    {"P0001", PARE_BAD_DATA, "refused", ""},
    {"40", PARE_UNAVAILABLE, "somebody else changed it at the same time", "; try again"},
    {"57014", PARE_UNAVAILABLE, "the server broke off", ""},
    {"57", PARE_UNAVAILABLE, "the server is gone", ""},
    {"53100", PARE_UNAVAILABLE, "the server's disk is full", ""},
    {"53", PARE_UNAVAILABLE, "the server has no room", ""},
    {"54", PARE_UNAVAILABLE, "too large for the server", ""},
    {"", PARE_BAD_DATA, "a damaged bench",
     "; right would be a copy, or an import of its exported text"},
};

pare_status pare_pg_failed(const pare_store *store, pare_error *err)
{
    const pare_pg *pg = pare_pg_of(store);
    const char *kept = store->changing ? "; the bench is as it was" : "";
    size_t i = 0;
    if (pare_store_stopped(store))
        return pare_fail(err, PARE_STOPPED, "stopped");
    if (!*pg->why)
        return pare_fail(err, PARE_UNAVAILABLE, "%s: the server is gone (%s)%s", store->path,
                         pg->words, kept);
    while (strncmp(pg->why, MEANINGS[i].code, strlen(MEANINGS[i].code)) != 0)
        i++;
    return pare_fail(err, MEANINGS[i].status, "%s: %s (%s)%s%s", store->path, MEANINGS[i].what,
                     pg->words, MEANINGS[i].right, *MEANINGS[i].right ? "" : kept);
}

/* ---- connecting ---- */

static void say_nothing(void *context, const char *message)
{
    (void)context;
    (void)message;
}

/* Later ones go before earlier ones, and the address, which libpq takes apart, before our defaults. */
static pare_status connect_to(pare_store *store, const char *address, pare_error *err)
{
    static const char *const keyword[] = {"connect_timeout",
                                          "keepalives_idle",
                                          "tcp_user_timeout",
                                          "dbname",
                                          "client_encoding",
                                          "fallback_application_name",
                                          NULL};
    const char *const value[] = {"10", "30", "30000", address, "UTF8", "pare", NULL};
    pare_pg *pg = pare_pg_of(store);
    pg->conn = pg->is.PQconnectdbParams(keyword, value, 1);
    if (!pg->conn)
        return pare_no_memory(err);
    pg->is.PQsetNoticeProcessor(pg->conn, say_nothing, NULL);
    if (pg->is.PQstatus(pg->conn) == CONNECTION_OK)
        return PARE_OK;
    pare_pg_note(pg, NULL);
    return pare_fail(err, PARE_UNAVAILABLE, "%s: no connection (%s)", store->path, pg->words);
}

static pare_status no_bench(const pare_store *store, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA,
                     "%s: no bench in this database yet; try `pare import FILE --bench` and its "
                     "address",
                     store->path);
}

static pare_status settle(pare_store *store, pare_store_mode mode, pare_error *err)
{
    pare_pg_found found = {0};
    pare_status status = pare_pg_look(store, &found, err);
    if (status == PARE_OK &&
        ((found.version == 0 && mode == PARE_STORE_CREATE) || pare_pg_is_older(found.version))) {
        status = pare_pg_make(store, err);
        if (status == PARE_OK)
            status = pare_pg_look(store, &found, err);
    }
    if (status != PARE_OK)
        return status;
    if (found.version == 0)
        return no_bench(store, err);
    status = pare_pg_check(store, found.version, err);
    store->writable = found.may_change;
    if (status == PARE_OK && mode != PARE_STORE_READ && !store->writable)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "%s: you may only read this bench; its owner can let you change it, with "
                         "pare members",
                         store->path);
    return status;
}

pare_status pare_pg_open(const char *address, pare_store_mode mode, pare_store **store,
                         pare_error *err)
{
    pare_text shown = {0};
    pare_store *made = NULL;
    pare_pg *pg = calloc(1, sizeof *pg);
    *store = NULL;
    pare_status status = pg ? pare_pg_library_open(&pg->is, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = show(&pg->is, address, &shown, err);
    if (status == PARE_OK)
        status = pare_store_made(&pare_pg_driver, shown.bytes, &made, err);
    if (status == PARE_OK) {
        made->connection = pg;
        pg->wait = true;
        pg = NULL;
        status = connect_to(made, address, err);
    }
    if (status == PARE_OK)
        status = settle(made, mode, err);
    if (status == PARE_OK)
        *store = made;
    else
        pare_store_close(made);
    pare_text_free(&shown);
    free(pg);
    return status;
}
