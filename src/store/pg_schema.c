/* pg_schema.c: the tables of a bench in a PostgreSQL database, and their version (see pg.h).
 *
 * The tables are those of sqlite_schema.c, in a schema of their own, so that a database may hold other
 * things beside. What SQLite does by itself is said here: names are compared byte by byte (the domain word);
 * a new row's number is one above the highest; change_old keeps bytes, of texts too.
 *
 * Who changed something and when is put down by the server, whatever a client says.
 *
 * pare.allow() grants: "read", "weigh" (records and scales besides), "edit" (all), or "none"; pare.members()
 * tells that from the grants, so that nothing else has to be kept.
 *
 * A new bench goes through all versions that there were, one step after another, and an older one through
 * those that it lacks: so both are the same. Only who owns the tables may do that. What members may do is
 * granted anew at the end, since a step may have brought tables. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/pg.h"
#include "store/reading.h"

/* New rows get a number. */
#define NUMBERED(list)                                                                             \
    "CREATE FUNCTION pare.number_" list "() RETURNS trigger LANGUAGE plpgsql AS $$BEGIN "          \
    "IF new.row IS NULL THEN new.row := (SELECT 1 + coalesce(max(row), 0) FROM pare." list ");"    \
    " END IF; RETURN new; END$$;"                                                                  \
    "CREATE TRIGGER numbered BEFORE INSERT ON " list                                               \
    " FOR EACH ROW EXECUTE FUNCTION pare.number_" list "();"

/* What a row was before it changed is kept, once a change. */
#define KEPT(list, name, doc)                                                                      \
    NUMBERED(list)                                                                                 \
    "CREATE FUNCTION pare.keep_" list "() RETURNS trigger LANGUAGE plpgsql AS $$BEGIN "            \
    "INSERT INTO pare.change_old(change, list, row, name, was) "                                   \
    "SELECT o.change, '" list "', old.row, " name ", pare.bytes_of(old." doc ") "                  \
    "FROM pare.change_open o WHERE o.list = '" list "' AND old.row < o.first "                     \
    "ON CONFLICT DO NOTHING; RETURN NULL; END$$;"                                                  \
    "CREATE TRIGGER kept_deleted AFTER DELETE ON " list                                            \
    " FOR EACH ROW EXECUTE FUNCTION pare.keep_" list "();"                                         \
    "CREATE TRIGGER kept_updated AFTER UPDATE ON " list " FOR EACH ROW WHEN (old." doc             \
    " IS DISTINCT FROM new." doc ") EXECUTE FUNCTION pare.keep_" list "();"

/* clang-format off */
/* Version 1. */
static const char TABLES[] =
    "CREATE DOMAIN word AS text COLLATE \"C\";"
    "CREATE FUNCTION bytes_of(text) RETURNS bytea LANGUAGE sql IMMUTABLE STRICT AS"
    " $$SELECT convert_to($1, 'UTF8')$$;"
    "CREATE FUNCTION bytes_of(bytea) RETURNS bytea LANGUAGE sql IMMUTABLE STRICT AS $$SELECT $1$$;"
    "CREATE TABLE bench(only_one boolean PRIMARY KEY DEFAULT true CHECK (only_one),"
    " version bigint NOT NULL, stamp bigint NOT NULL);"
    "CREATE TABLE setting(row bigint PRIMARY KEY, name word NOT NULL UNIQUE, value text NOT NULL);"
    "CREATE TABLE part(row bigint PRIMARY KEY, id word NOT NULL UNIQUE, kind word NOT NULL,"
    " maker text, mass_kg double precision NOT NULL CHECK (mass_kg > 0), facts bytea,"
    " doc text NOT NULL);"
    "CREATE TABLE craft(row bigint PRIMARY KEY, name word NOT NULL UNIQUE, doc text NOT NULL);"
    "CREATE TABLE craft_part("
    " craft word NOT NULL REFERENCES craft(name) ON DELETE CASCADE DEFERRABLE,"
    " part word NOT NULL REFERENCES part(id) DEFERRABLE, PRIMARY KEY (craft, part));"
    "CREATE INDEX craft_part_part ON craft_part(part);"
    "CREATE TABLE file(row bigint PRIMARY KEY, name word NOT NULL UNIQUE, bytes bytea NOT NULL);"
    "CREATE TABLE part_file("
    " part word NOT NULL REFERENCES part(id) ON DELETE CASCADE DEFERRABLE,"
    " file word NOT NULL REFERENCES file(name) DEFERRABLE, PRIMARY KEY (part, file));"
    "CREATE INDEX part_file_file ON part_file(file);"
    "CREATE TABLE mesh(file word NOT NULL REFERENCES file(name) ON DELETE CASCADE DEFERRABLE,"
    " unit_m double precision NOT NULL, layout bigint NOT NULL, facts bytea NOT NULL,"
    " PRIMARY KEY (file, unit_m));"
    "CREATE TABLE prop_table(key bigint PRIMARY KEY, bytes bytea NOT NULL);"
    /* Numbers and meshes pack badly: trying it would only take time at each reading. */
    "ALTER TABLE prop_table ALTER bytes SET STORAGE EXTERNAL;"
    "ALTER TABLE file ALTER bytes SET STORAGE EXTERNAL;"
    "CREATE TABLE scale(row bigint PRIMARY KEY, id word NOT NULL UNIQUE, doc text NOT NULL);"
    "CREATE TABLE weigh_in(row bigint PRIMARY KEY,"
    " craft word NOT NULL REFERENCES craft(name) DEFERRABLE,"
    " scale word REFERENCES scale(id) DEFERRABLE, date word NOT NULL, doc text NOT NULL);"
    "CREATE TABLE flight(row bigint PRIMARY KEY,"
    " craft word NOT NULL REFERENCES craft(name) DEFERRABLE,"
    " pack word REFERENCES part(id) DEFERRABLE, date word NOT NULL, doc text NOT NULL);"
    "CREATE TABLE stand_table(row bigint PRIMARY KEY,"
    " motor word NOT NULL REFERENCES part(id) DEFERRABLE,"
    " propeller word NOT NULL REFERENCES part(id) DEFERRABLE, doc text NOT NULL);"
    /* Texts may be longer than a sorted index takes. */
    "CREATE INDEX weigh_in_doc ON weigh_in USING hash (doc);"
    "CREATE INDEX flight_doc ON flight USING hash (doc);"
    "CREATE INDEX stand_table_doc ON stand_table USING hash (doc);"
    "CREATE INDEX weigh_in_craft ON weigh_in(craft);"
    "CREATE INDEX weigh_in_scale ON weigh_in(scale);"
    "CREATE INDEX flight_craft ON flight(craft);"
    "CREATE INDEX flight_pack ON flight(pack);"
    "CREATE INDEX stand_table_motor ON stand_table(motor);"
    "CREATE INDEX stand_table_propeller ON stand_table(propeller);"
    "CREATE TABLE change(number bigint PRIMARY KEY, time word NOT NULL, what text NOT NULL,"
    " why text, undone bigint NOT NULL DEFAULT 0, who text, turned_by text);"
    "CREATE TABLE change_new("
    " change bigint NOT NULL REFERENCES change(number) ON DELETE CASCADE DEFERRABLE,"
    " list word NOT NULL, first bigint NOT NULL, last bigint NOT NULL, PRIMARY KEY (change, list));"
    "CREATE TABLE change_old("
    " change bigint NOT NULL REFERENCES change(number) ON DELETE CASCADE DEFERRABLE,"
    " list word NOT NULL, row bigint NOT NULL, name text, was bytea,"
    " PRIMARY KEY (change, list, row));"
    "CREATE TABLE change_open(list word PRIMARY KEY, change bigint NOT NULL,"
    " first bigint NOT NULL);"
    "CREATE TABLE touched(list word NOT NULL, row bigint NOT NULL, name text, now bytea,"
    " PRIMARY KEY (list, row));"
    KEPT("setting", "old.name", "value")
    KEPT("file", "old.name", "bytes")
    KEPT("part", "old.id", "doc")
    KEPT("craft", "old.name", "doc")
    KEPT("scale", "old.id", "doc")
    KEPT("weigh_in", "NULL", "doc")
    KEPT("flight", "NULL", "doc")
    KEPT("stand_table", "NULL", "doc")
    "CREATE FUNCTION pare.sign() RETURNS trigger LANGUAGE plpgsql AS $$BEGIN"
    " IF tg_op = 'INSERT' THEN new.who := session_user; new.turned_by := NULL;"
    " new.time := to_char(clock_timestamp() AT TIME ZONE 'UTC', 'YYYY-MM-DD\"T\"HH24:MI:SS\"Z\"');"
    " ELSE new.who := old.who; new.time := old.time; new.turned_by := session_user; END IF;"
    " RETURN new; END$$;"
    "CREATE TRIGGER signed BEFORE INSERT OR UPDATE ON change"
    " FOR EACH ROW EXECUTE FUNCTION pare.sign();";
/* clang-format on */

/* What each may do besides what the one before it may. Version 2 has it otherwise. */
static const char ROLES[] =
    "CREATE FUNCTION pare.allow(who name, what text) RETURNS void LANGUAGE plpgsql AS $$BEGIN "
    "IF who = (SELECT tableowner FROM pg_tables WHERE schemaname = 'pare' AND tablename = 'bench')"
    " THEN RAISE EXCEPTION '%', who || ' owns this bench and may do all'; END IF;"
    "IF what NOT IN ('none', 'read', 'weigh', 'edit') THEN"
    " RAISE EXCEPTION 'allow ''%''; right would be none, read, weigh or edit', what; END IF;"
    "EXECUTE format('REVOKE ALL ON ALL TABLES IN SCHEMA pare FROM %I', who);"
    "EXECUTE format('REVOKE ALL ON SCHEMA pare FROM %I', who);"
    "IF what = 'none' THEN RETURN; END IF;"
    "EXECUTE format('GRANT USAGE ON SCHEMA pare TO %I', who);"
    "EXECUTE format('GRANT SELECT ON ALL TABLES IN SCHEMA pare TO %I', who);"
    "IF what = 'read' THEN RETURN; END IF;"
    "EXECUTE format('GRANT UPDATE (stamp) ON pare.bench TO %I', who);"
    "EXECUTE format('GRANT INSERT, UPDATE, DELETE ON pare.scale, pare.weigh_in, pare.flight,"
    " pare.prop_table, pare.mesh, pare.change, pare.change_new, pare.change_old,"
    " pare.change_open, pare.touched TO %I', who);"
    "IF what = 'weigh' THEN RETURN; END IF;"
    "EXECUTE format('GRANT INSERT, UPDATE, DELETE ON pare.setting, pare.part, pare.craft,"
    " pare.craft_part, pare.file, pare.part_file, pare.stand_table TO %I', who);"
    "END$$;"
    "REVOKE EXECUTE ON FUNCTION pare.allow FROM PUBLIC;";

/* Version 2: who may do what can be asked, and whoever edits may do so in tables yet to come. */
static const char MEMBERS[] =
    "CREATE FUNCTION pare.members(OUT who name, OUT may text) RETURNS SETOF record LANGUAGE sql "
    "STABLE AS $$"
    "WITH granted AS (SELECT c.relname, (aclexplode(c.relacl)).* FROM pg_class c"
    " JOIN pg_namespace n ON n.oid = c.relnamespace WHERE n.nspname = 'pare'"
    " AND c.relname IN ('part', 'weigh_in')),"
    " owner AS (SELECT tableowner FROM pg_tables WHERE schemaname = 'pare' AND tablename = 'bench')"
    " SELECT rolname, CASE WHEN rolname = (SELECT tableowner FROM owner) THEN 'own'"
    " WHEN EXISTS (SELECT FROM granted WHERE grantee = r.oid AND relname = 'part'"
    " AND privilege_type = 'INSERT') THEN 'edit'"
    " WHEN EXISTS (SELECT FROM granted WHERE grantee = r.oid AND relname = 'weigh_in'"
    " AND privilege_type = 'INSERT') THEN 'weigh' ELSE 'read' END FROM pg_roles r"
    " WHERE rolname = (SELECT tableowner FROM owner) OR EXISTS (SELECT FROM granted"
    " WHERE grantee = r.oid AND privilege_type = 'SELECT')$$;"
    "CREATE OR REPLACE FUNCTION pare.allow(who name, what text) RETURNS void LANGUAGE plpgsql AS "
    "$$BEGIN "
    "IF who = (SELECT tableowner FROM pg_tables WHERE schemaname = 'pare' AND tablename = 'bench')"
    " THEN RAISE EXCEPTION '%', who || ' owns this bench and may do all'; END IF;"
    "IF what NOT IN ('none', 'read', 'weigh', 'edit') THEN"
    " RAISE EXCEPTION 'allow ''%''; right would be none, read, weigh or edit', what; END IF;"
    "EXECUTE format('REVOKE ALL ON ALL TABLES IN SCHEMA pare FROM %I', who);"
    "EXECUTE format('REVOKE ALL ON SCHEMA pare FROM %I', who);"
    "IF what = 'none' THEN RETURN; END IF;"
    "EXECUTE format('GRANT USAGE ON SCHEMA pare TO %I', who);"
    "EXECUTE format('GRANT SELECT ON ALL TABLES IN SCHEMA pare TO %I', who);"
    "IF what = 'read' THEN RETURN; END IF;"
    "IF what = 'edit' THEN"
    " EXECUTE format('GRANT INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA pare TO %I', who);"
    " EXECUTE format('REVOKE INSERT, UPDATE, DELETE ON pare.bench FROM %I', who); ELSE"
    " EXECUTE format('GRANT INSERT, UPDATE, DELETE ON pare.scale, pare.weigh_in, pare.flight,"
    " pare.prop_table, pare.mesh, pare.change, pare.change_new, pare.change_old,"
    " pare.change_open, pare.touched TO %I', who); END IF;"
    "EXECUTE format('GRANT UPDATE (stamp) ON pare.bench TO %I', who); END$$;";

/* [version - 1] what makes it of the one before, in one piece or two. */
static const char *const STEPS[][2] = {{TABLES, ROLES}, {MEMBERS}};
enum { SCHEMA_VERSION = PARE_COUNT(STEPS) };

/* Some number for the lock that whoever makes tables holds. */
#define MAKING "SELECT pg_advisory_xact_lock(1346458181)" /* "PARE" */

pare_status pare_pg_look(const pare_store *store, pare_pg_found *found, pare_error *err)
{
    /* The path has none but our own names in it, and the server's. */
    static const char look[] =
        "SET search_path = pare, pg_temp; SET client_min_messages = error; SET lock_timeout = "
        "'30s'; "
        "SELECT version, has_column_privilege('pare.bench', 'stamp', 'UPDATE')"
        " AND NOT pg_is_in_recovery() FROM pare.bench";
    const pare_pg *pg = pare_pg_of(store);
    PGresult *result = NULL;
    pare_error none;
    *found = (pare_pg_found){0};
    const pare_status status = pare_pg_simply(store, look, &result, &none);
    const bool missing = strcmp(pg->why, "42P01") == 0 || strcmp(pg->why, "3F000") == 0;
    if (status != PARE_OK)
        return missing ? PARE_OK : pare_pg_failed(store, err);
    if (pg->is.PQntuples(result) == 1 && pg->is.PQnfields(result) == 2) {
        found->version = strtoll(pg->is.PQgetvalue(result, 0, 0), NULL, 10);
        found->may_change = *pg->is.PQgetvalue(result, 0, 1) == 't';
    }
    if (found->version < 1)
        found->version = -1;
    pg->is.PQclear(result);
    return PARE_OK;
}

/* The tables' owner, whoever asks; only who is one of those may be that.
 * @return PARE_UNAVAILABLE: may not, and whom to ask */
static pare_status become_owner(const pare_store *store, long long version, pare_error *err)
{
    static const char who[] = "SELECT tableowner, format('SET LOCAL ROLE %I', tableowner),"
                              " pg_has_role(tableowner, 'MEMBER') FROM pg_tables"
                              " WHERE schemaname = 'pare' AND tablename = 'bench'";
    const pare_pg *pg = pare_pg_of(store);
    PGresult *result = NULL;
    pare_status status = pare_pg_simply(store, who, &result, err);
    if (status == PARE_OK && pg->is.PQntuples(result) != 1)
        status = pare_pg_check(store, -1, err);
    else if (status == PARE_OK && *pg->is.PQgetvalue(result, 0, 2) != 't')
        status = pare_fail(err, PARE_UNAVAILABLE,
                           "%s: a bench of an older Pare (version %lld, this one knows %d); its "
                           "owner, %s, brings it up to date by opening it with this one",
                           store->path, version, SCHEMA_VERSION, pg->is.PQgetvalue(result, 0, 0));
    else if (status == PARE_OK)
        status = pare_sql_run(store, pg->is.PQgetvalue(result, 0, 1), err);
    pg->is.PQclear(result);
    return status;
}

/* Whoever changes the bench now is waited for, and whoever would, waits. */
static pare_status begin_step(const pare_store *store, long long version, pare_error *err)
{
    char count_up[96];
    if (version == 0)
        return pare_sql_run(store, "CREATE SCHEMA pare; SET LOCAL search_path = pare, pg_temp",
                            err);
    snprintf(count_up, sizeof count_up, "UPDATE bench SET version = %d, stamp = stamp + 1",
             SCHEMA_VERSION);
    pare_status status = become_owner(store, version, err);
    if (status == PARE_OK)
        status =
            pare_sql_run(store,
                         "SET LOCAL search_path = pare, pg_temp; "
                         "SET LOCAL client_min_messages = error; SET LOCAL lock_timeout = '30s'",
                         err);
    return status == PARE_OK ? pare_sql_run(store, count_up, err) : status;
}

static pare_status end_step(const pare_store *store, long long version, pare_error *err)
{
    char bench[96];
    if (version > 0)
        return pare_sql_run(store, "SELECT allow(who, may) FROM members() WHERE may <> 'own'", err);
    snprintf(bench, sizeof bench, "INSERT INTO bench(version, stamp) VALUES (%d, 0)",
             SCHEMA_VERSION);
    return pare_sql_run(store, bench, err);
}

static pare_status make(const pare_store *store, pare_error *err)
{
    pare_pg_found found;
    pare_status status = pare_sql_run(store, "BEGIN; " MAKING "; SAVEPOINT looking", err);
    if (status == PARE_OK)
        status = pare_pg_look(store, &found, err);
    if (status != PARE_OK || found.version < 0 || found.version >= SCHEMA_VERSION)
        return status;
    status = pare_sql_run(store, "ROLLBACK TO looking", err);
    if (status == PARE_OK)
        status = begin_step(store, found.version, err);
    for (long long i = found.version; i < SCHEMA_VERSION && status == PARE_OK; i++) {
        status = pare_sql_run(store, STEPS[i][0], err);
        if (status == PARE_OK && STEPS[i][1])
            status = pare_sql_run(store, STEPS[i][1], err);
    }
    return status == PARE_OK ? end_step(store, found.version, err) : status;
}

pare_status pare_pg_make(const pare_store *store, pare_error *err)
{
    pare_status status = make(store, err);
    if (status == PARE_OK)
        status = pare_sql_commit(store, err);
    if (status != PARE_OK)
        pare_sql_rollback(store);
    return status;
}

bool pare_pg_is_older(long long version)
{
    return version > 0 && version < SCHEMA_VERSION;
}

pare_status pare_pg_check(const pare_store *store, long long version, pare_error *err)
{
    if (version > SCHEMA_VERSION)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: a bench of a newer Pare (version %lld, this one knows %d); update "
                         "Pare",
                         store->path, version, SCHEMA_VERSION);
    if (version < SCHEMA_VERSION)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: a damaged bench (version %lld); right would be a copy, or an import "
                         "of its exported text",
                         store->path, version);
    return PARE_OK;
}
