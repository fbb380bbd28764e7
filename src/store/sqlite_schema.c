/* sqlite_schema.c: the tables of a bench in an SQLite file, and their version.
 *
 * What is true stands in doc, as text (of a file: its bytes); the other columns are there to find and
 * to keep whole: a part that a craft uses cannot vanish, nor a craft that was weighed. facts are a
 * part's numbers for searching, NULL where nobody has worked them out. mesh and prop_table are caches.
 *
 * Every list has a row number, and triggers put down what a row was before it changed, once a change
 * (see change.h): so whatever writes is undone alike. Rows that came into being need no trigger: their
 * numbers are the ones above those that were there. change_open is empty but within a change.
 *
 * Version 1 had no history, and names as keys; such a bench is taken over when it is opened. */
#include "store/sqlite.h"

enum { SCHEMA_VERSION = 2 };

#define BEFORE(list, name, doc, happens, when)                                                     \
    "CREATE TRIGGER " list "_" happens " AFTER " happens " ON " list when                          \
    " BEGIN INSERT OR IGNORE INTO change_old(change, list, row, name, was)"                        \
    " SELECT change, '" list "', old.row, " name ", old." doc                                      \
    " FROM change_open WHERE list = '" list "' AND old.row < first; END;"
#define KEPT(list, name, doc)                                                                      \
    BEFORE(list, name, doc, "DELETE", "")                                                          \
    BEFORE(list, name, doc, "UPDATE", " WHEN old." doc " IS NOT new." doc)

static const char TABLES[] =
    "CREATE TABLE setting(row INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE, value TEXT NOT NULL)"
    " STRICT;"
    "CREATE TABLE part(row INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, kind TEXT NOT NULL,"
    " maker TEXT, mass_kg REAL NOT NULL CHECK (mass_kg > 0), facts BLOB, doc TEXT NOT NULL) STRICT;"
    "CREATE TABLE craft(row INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE, doc TEXT NOT NULL)"
    " STRICT;"
    "CREATE TABLE craft_part("
    " craft TEXT NOT NULL REFERENCES craft(name) ON DELETE CASCADE,"
    " part TEXT NOT NULL REFERENCES part(id),"
    " PRIMARY KEY (craft, part)) STRICT, WITHOUT ROWID;"
    "CREATE INDEX craft_part_part ON craft_part(part);"
    "CREATE TABLE file(row INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE, bytes BLOB NOT NULL)"
    " STRICT;"
    "CREATE TABLE part_file("
    " part TEXT NOT NULL REFERENCES part(id) ON DELETE CASCADE,"
    " file TEXT NOT NULL REFERENCES file(name),"
    " PRIMARY KEY (part, file)) STRICT, WITHOUT ROWID;"
    "CREATE INDEX part_file_file ON part_file(file);"
    "CREATE TABLE mesh("
    " file TEXT NOT NULL REFERENCES file(name) ON DELETE CASCADE,"
    " unit_m REAL NOT NULL, layout INTEGER NOT NULL, facts BLOB NOT NULL,"
    " PRIMARY KEY (file, unit_m)) STRICT;"
    "CREATE TABLE prop_table(key INTEGER PRIMARY KEY, bytes BLOB NOT NULL) STRICT;"
    "CREATE TABLE scale(row INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, doc TEXT NOT NULL) "
    "STRICT;"
    "CREATE TABLE weigh_in(row INTEGER PRIMARY KEY, craft TEXT NOT NULL REFERENCES craft(name),"
    " scale TEXT REFERENCES scale(id), date TEXT NOT NULL, doc TEXT NOT NULL) STRICT;"
    "CREATE TABLE flight(row INTEGER PRIMARY KEY, craft TEXT NOT NULL REFERENCES craft(name),"
    " pack TEXT REFERENCES part(id), date TEXT NOT NULL, doc TEXT NOT NULL) STRICT;"
    "CREATE TABLE stand_table(row INTEGER PRIMARY KEY, motor TEXT NOT NULL REFERENCES part(id),"
    " propeller TEXT NOT NULL REFERENCES part(id), doc TEXT NOT NULL) STRICT;"
    "CREATE INDEX weigh_in_doc ON weigh_in(doc);"
    "CREATE INDEX flight_doc ON flight(doc);"
    "CREATE INDEX stand_table_doc ON stand_table(doc);"
    "CREATE INDEX weigh_in_craft ON weigh_in(craft);"
    "CREATE INDEX flight_craft ON flight(craft);"
    "CREATE INDEX flight_pack ON flight(pack);"
    "CREATE INDEX stand_table_motor ON stand_table(motor);"
    "CREATE INDEX stand_table_propeller ON stand_table(propeller);"
    "CREATE TABLE change(number INTEGER PRIMARY KEY, time TEXT NOT NULL, what TEXT NOT NULL,"
    " why TEXT, undone INTEGER NOT NULL DEFAULT 0) STRICT;"
    "CREATE TABLE change_new(change INTEGER NOT NULL REFERENCES change(number) ON DELETE CASCADE,"
    " list TEXT NOT NULL, first INTEGER NOT NULL, last INTEGER NOT NULL,"
    " PRIMARY KEY (change, list)) STRICT, WITHOUT ROWID;"
    "CREATE TABLE change_old(change INTEGER NOT NULL REFERENCES change(number) ON DELETE CASCADE,"
    " list TEXT NOT NULL, row INTEGER NOT NULL, name TEXT, was ANY,"
    " PRIMARY KEY (change, list, row)) STRICT, WITHOUT ROWID;"
    "CREATE TABLE change_open(list TEXT PRIMARY KEY, change INTEGER NOT NULL,"
    " first INTEGER NOT NULL) STRICT, WITHOUT ROWID;" /* clang-format off */
    KEPT("setting", "old.name", "value")
    KEPT("file", "old.name", "bytes")
    KEPT("part", "old.id", "doc")
    KEPT("craft", "old.name", "doc")
    KEPT("scale", "old.id", "doc")
    KEPT("weigh_in", "NULL", "doc")
    KEPT("flight", "NULL", "doc")
    KEPT("stand_table", "NULL", "doc"); /* clang-format on */

/* From version 1: the same rows in the tables of today. */
static const char SET_ASIDE[] =
    "PRAGMA defer_foreign_keys = ON;"
    "DROP INDEX craft_part_part; DROP INDEX part_file_file; DROP INDEX weigh_in_doc;"
    "DROP INDEX flight_doc; DROP INDEX stand_table_doc; DROP TABLE mesh; DROP TABLE prop_table;"
    "ALTER TABLE setting RENAME TO setting_1; ALTER TABLE part RENAME TO part_1;"
    "ALTER TABLE craft RENAME TO craft_1; ALTER TABLE craft_part RENAME TO craft_part_1;"
    "ALTER TABLE file RENAME TO file_1; ALTER TABLE part_file RENAME TO part_file_1;"
    "ALTER TABLE scale RENAME TO scale_1; ALTER TABLE weigh_in RENAME TO weigh_in_1;"
    "ALTER TABLE flight RENAME TO flight_1; ALTER TABLE stand_table RENAME TO stand_table_1;";
static const char TAKE_OVER[] =
    "INSERT INTO setting(name, value) SELECT name, value FROM setting_1 ORDER BY name;"
    "INSERT INTO part(id, kind, mass_kg, doc) SELECT id, kind, mass_kg, doc FROM part_1 ORDER BY "
    "id;"
    "INSERT INTO craft(name, doc) SELECT name, doc FROM craft_1 ORDER BY name;"
    "INSERT INTO craft_part(craft, part) SELECT craft, part FROM craft_part_1;"
    "INSERT INTO file(name, bytes) SELECT name, bytes FROM file_1 ORDER BY name;"
    "INSERT INTO part_file(part, file) SELECT part, file FROM part_file_1;"
    "INSERT INTO scale(id, doc) SELECT id, doc FROM scale_1 ORDER BY id;"
    "INSERT INTO weigh_in SELECT row, craft, scale, date, doc FROM weigh_in_1;"
    "INSERT INTO flight SELECT row, craft, pack, date, doc FROM flight_1;"
    "INSERT INTO stand_table SELECT row, motor, propeller, doc FROM stand_table_1;"
    "DROP TABLE weigh_in_1; DROP TABLE flight_1; DROP TABLE stand_table_1; DROP TABLE part_file_1;"
    "DROP TABLE craft_part_1; DROP TABLE file_1; DROP TABLE craft_1; DROP TABLE part_1;"
    "DROP TABLE scale_1; DROP TABLE setting_1;";

static pare_status version_of(const pare_store *store, int *version, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(store, &statement, err, "PRAGMA user_version", "");
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    *version = row ? (int)pare_sql_int(statement, 0) : 0;
    pare_sql_finish(statement);
    return status;
}

/* The tables of today in place of nothing or of those of version 1; what another process has made
 * while we waited for the lock is left alone. */
static pare_status make(const pare_store *store, int *version, pare_error *err)
{
    char numbers[96];
    sqlite3_snprintf(sizeof numbers, numbers, "PRAGMA application_id=%d; PRAGMA user_version=%d",
                     PARE_APPLICATION_ID, SCHEMA_VERSION);
    pare_status status = version_of(store, version, err);
    if (status != PARE_OK || *version > 1)
        return status;
    if (*version == 1)
        status = pare_sql_run(store, SET_ASIDE, err);
    if (status == PARE_OK)
        status = pare_sql_run(store, TABLES, err);
    if (status == PARE_OK && *version == 1)
        status = pare_sql_run(store, TAKE_OVER, err);
    if (status == PARE_OK)
        status = pare_sql_run(store, numbers, err);
    if (status == PARE_OK)
        *version = SCHEMA_VERSION;
    return status;
}

static pare_status make_whole(const pare_store *store, int *version, pare_error *err)
{
    pare_status status = pare_sql_begin(store, err);
    if (status != PARE_OK)
        return status;
    status = make(store, version, err);
    if (status == PARE_OK)
        status = pare_sql_commit(store, err);
    if (status != PARE_OK)
        pare_sql_rollback(store);
    return status;
}

pare_status pare_sqlite_make(const pare_store *store, pare_error *err)
{
    int version = 0;
    const pare_status status = make_whole(store, &version, err);
    /* Readers go on while one writes; kept in the file from here on. */
    return status == PARE_OK ? pare_sql_run(store, "PRAGMA journal_mode=WAL", err) : status;
}

pare_status pare_sqlite_check(const pare_store *store, pare_error *err)
{
    int version = 0;
    pare_status status = version_of(store, &version, err);
    if (status == PARE_OK && version == 1)
        status = make_whole(store, &version, err);
    if (status != PARE_OK)
        return status;
    if (version > SCHEMA_VERSION)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: a bench of a newer Pare (version %d, this one knows %d); update Pare",
                         store->path, version, SCHEMA_VERSION);
    if (version < 1)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s: a damaged bench (version %d); right would be a copy, or an import of "
                         "its exported text",
                         store->path, version);
    return PARE_OK;
}
