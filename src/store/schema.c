/* schema.c: the tables of a bench, and their version.
 *
 * What is true stands in doc, as text; the other columns are there to find and to keep whole: a part
 * that a craft uses cannot vanish, nor a craft that was weighed. mesh and prop_table are caches. */
#include "store/sql.h"

enum { SCHEMA_VERSION = 1 };

static const char TABLES[] =
    "CREATE TABLE setting(name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;"
    "CREATE TABLE part(id TEXT PRIMARY KEY, kind TEXT NOT NULL,"
    " mass_kg REAL NOT NULL CHECK (mass_kg > 0), doc TEXT NOT NULL) STRICT;"
    "CREATE TABLE craft(name TEXT PRIMARY KEY, doc TEXT NOT NULL) STRICT;"
    "CREATE TABLE craft_part("
    " craft TEXT NOT NULL REFERENCES craft(name) ON DELETE CASCADE,"
    " part TEXT NOT NULL REFERENCES part(id),"
    " PRIMARY KEY (craft, part)) STRICT, WITHOUT ROWID;"
    "CREATE INDEX craft_part_part ON craft_part(part);"
    "CREATE TABLE file(name TEXT PRIMARY KEY, bytes BLOB NOT NULL) STRICT;"
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
    "CREATE TABLE scale(id TEXT PRIMARY KEY, doc TEXT NOT NULL) STRICT;"
    "CREATE TABLE weigh_in(row INTEGER PRIMARY KEY, craft TEXT NOT NULL REFERENCES craft(name),"
    " scale TEXT REFERENCES scale(id), date TEXT NOT NULL, doc TEXT NOT NULL) STRICT;"
    "CREATE TABLE flight(row INTEGER PRIMARY KEY, craft TEXT NOT NULL REFERENCES craft(name),"
    " pack TEXT REFERENCES part(id), date TEXT NOT NULL, doc TEXT NOT NULL) STRICT;"
    "CREATE TABLE stand_table(row INTEGER PRIMARY KEY, motor TEXT NOT NULL REFERENCES part(id),"
    " propeller TEXT NOT NULL REFERENCES part(id), doc TEXT NOT NULL) STRICT;"
    "CREATE INDEX weigh_in_doc ON weigh_in(doc);"
    "CREATE INDEX flight_doc ON flight(doc);"
    "CREATE INDEX stand_table_doc ON stand_table(doc);";

static pare_status version_of(const pare_store *store, int *version, pare_error *err)
{
    sqlite3_stmt *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(store, &statement, err, "PRAGMA user_version", "");
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    *version = row ? sqlite3_column_int(statement, 0) : 0;
    sqlite3_finalize(statement);
    return status;
}

pare_status pare_schema_make(const pare_store *store, pare_error *err)
{
    int version = 0;
    char numbers[96];
    pare_status status = pare_sql_begin(store, err);
    if (status != PARE_OK)
        return status;
    /* Another process may have made it while we waited for the lock. */
    status = version_of(store, &version, err);
    if (status == PARE_OK && version == 0) {
        sqlite3_snprintf(sizeof numbers, numbers,
                         "PRAGMA application_id=%d; PRAGMA user_version=%d", PARE_APPLICATION_ID,
                         SCHEMA_VERSION);
        status = pare_sql_run(store, TABLES, err);
        if (status == PARE_OK)
            status = pare_sql_run(store, numbers, err);
    }
    if (status == PARE_OK)
        status = pare_sql_commit(store, err);
    if (status != PARE_OK) {
        pare_sql_rollback(store);
        return status;
    }
    /* Readers go on while one writes; kept in the file from here on. */
    return pare_sql_run(store, "PRAGMA journal_mode=WAL", err);
}

pare_status pare_schema_check(const pare_store *store, pare_error *err)
{
    int version = 0;
    const pare_status status = version_of(store, &version, err);
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
