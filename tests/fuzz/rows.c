/* rooms: store craft physics base; with: bench */
/* rows.c: a bench whose file is sound, but whose rows somebody else has written.
 *
 * The input is a list of changes, each: the column (a byte, among all that the schema has), the row (a
 * byte), what it becomes (a byte: nothing, a whole number, a fraction, text, bytes) and how long that is
 * (two bytes), then that. Checks and foreign keys are off, as for somebody who wants to do harm. */
#include <sqlite3.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "fuzz.h"
#include "fuzz_bench.h"

enum { COLUMNS = 128, HEAD = 5, CHANGES = 16 };

typedef struct column {
    char list[32], name[32];
} column;

/* Caches, too: a damaged one is to be built anew. */
static size_t columns_of(sqlite3 *db, column out[COLUMNS])
{
    static const char ask[] =
        "SELECT m.name, c.name FROM sqlite_schema m, pragma_table_info(m.name) c"
        " WHERE m.type = 'table' AND m.name NOT LIKE 'sqlite%' ORDER BY 1, c.cid";
    sqlite3_stmt *rows = NULL;
    size_t count = 0;
    fuzz_expect(sqlite3_prepare_v2(db, ask, -1, &rows, NULL) == SQLITE_OK,
                "the schema can be read");
    while (count < COLUMNS && sqlite3_step(rows) == SQLITE_ROW) {
        snprintf(out[count].list, sizeof out->list, "%s",
                 (const char *)sqlite3_column_text(rows, 0));
        snprintf(out[count].name, sizeof out->name, "%s",
                 (const char *)sqlite3_column_text(rows, 1));
        count++;
    }
    sqlite3_finalize(rows);
    return count;
}

static void bind(sqlite3_stmt *change, unsigned kind, const uint8_t *bytes, size_t length)
{
    double fraction = 0;
    int64_t whole = 0;
    switch (kind % 5) {
    case 0:
        sqlite3_bind_null(change, 1);
        break;
    case 1:
        memcpy(&whole, bytes, length < sizeof whole ? length : sizeof whole);
        sqlite3_bind_int64(change, 1, whole);
        break;
    case 2:
        memcpy(&fraction, bytes, length < sizeof fraction ? length : sizeof fraction);
        sqlite3_bind_double(change, 1, fraction);
        break;
    case 3:
        sqlite3_bind_text(change, 1, (const char *)bytes, (int)length, SQLITE_TRANSIENT);
        break;
    default:
        sqlite3_bind_blob(change, 1, bytes, (int)length, SQLITE_TRANSIENT);
        break;
    }
}

static void meddle(sqlite3 *db, const uint8_t *bytes, size_t length)
{
    static column all[COLUMNS];
    static size_t columns;
    if (columns == 0)
        columns = columns_of(db, all);
    for (int i = 0; i < CHANGES && length >= HEAD; i++) {
        const column *at = &all[bytes[0] % columns];
        size_t of = (size_t)bytes[3] << 8 | bytes[4];
        if (of > length - HEAD)
            of = length - HEAD;
        char sql[256];
        snprintf(sql, sizeof sql,
                 "UPDATE \"%s\" SET \"%s\" = ?1 WHERE rowid = (SELECT rowid FROM \"%s\" LIMIT 1"
                 " OFFSET %u)",
                 at->list, at->name, at->list, (unsigned)bytes[1] % 64);
        sqlite3_stmt *change = NULL;
        if (sqlite3_prepare_v2(db, sql, -1, &change, NULL) == SQLITE_OK) {
            bind(change, bytes[2], bytes + HEAD, of);
            (void)sqlite3_step(change);
        }
        sqlite3_finalize(change);
        bytes += HEAD + of;
        length -= HEAD + of;
    }
}

/* The sound bench's bytes, read once. */
static const unsigned char *sound(sqlite3_int64 *length)
{
    static unsigned char *bytes;
    static sqlite3_int64 size;
    if (!bytes) {
        (void)fuzz_store_filled();
        sqlite3 *db = NULL;
        fuzz_expect(sqlite3_open(fuzz_path("bench.sqlite"), &db) == SQLITE_OK, "the bench opens");
        bytes = sqlite3_serialize(db, "main", &size, 0);
        sqlite3_close(db);
        fuzz_expect(bytes != NULL, "the bench is a file");
    }
    *length = size;
    return bytes;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    sqlite3_int64 size = 0;
    const unsigned char *file = sound(&size);
    fuzz_write(fuzz_path("meddled.sqlite"), file, (size_t)size);
    sqlite3 *db = NULL;
    fuzz_expect(sqlite3_open(fuzz_path("meddled.sqlite"), &db) == SQLITE_OK, "its copy opens");
    sqlite3_exec(db, "PRAGMA journal_mode = MEMORY; PRAGMA ignore_check_constraints = ON; BEGIN;",
                 NULL, NULL, NULL);
    meddle(db, bytes, length);
    sqlite3_exec(db, "COMMIT", NULL, NULL, NULL);
    sqlite3_close(db);
    pare_store *store = NULL;
    pare_error err = {0};
    if (fuzz_answered(pare_store_open(fuzz_path("meddled.sqlite"), PARE_STORE_READ, &store, &err),
                      &err)) {
        fuzz_look_through(store, bytes, length);
        pare_text text = {0};
        (void)fuzz_answered(pare_store_export_yaml(store, &text, &err), &err);
        pare_text_free(&text);
    }
    pare_store_close(store);
    return 0;
}
