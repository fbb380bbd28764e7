/* warm.c: propellers' tables, from the store's cache or built and kept there.
 *
 * The cache is a convenience: whatever goes wrong with it, a table can be built. So a lock is not
 * waited for, and a row that is not as it should be counts as missing. */
#include <string.h>

#include "store/sql.h"

static sqlite3_int64 key_of(const pare_prop *blade)
{
    const unsigned long long key = pare_prop_table_key(blade);
    sqlite3_int64 signed_key;
    memcpy(&signed_key, &key, sizeof signed_key);
    return signed_key;
}

static bool from_cache(const pare_store *store, sqlite3_int64 key, const pare_prop *blade,
                       pare_prop_table *table)
{
    sqlite3_stmt *statement = NULL;
    bool row = false, sound = false;
    if (pare_sql_prepare(store, &statement, NULL, "SELECT bytes FROM prop_table WHERE key = ?", "i",
                         key) == PARE_OK &&
        pare_sql_step(store, statement, &row, NULL) == PARE_OK && row &&
        sqlite3_column_bytes(statement, 0) == (int)sizeof *table) {
        memcpy(table, sqlite3_column_blob(statement, 0), sizeof *table);
        sound = pare_prop_table_is_sound(table, blade);
    }
    sqlite3_finalize(statement);
    return sound;
}

/* Tables that were built here go into the cache together, or not at all. */
static void keep(const pare_store *store, const pare_bench *bench, const bool built[])
{
    pare_status status = pare_sql_begin(store, NULL);
    for (size_t i = 0; i < bench->parts && status == PARE_OK; i++)
        if (built[i])
            status = pare_sql_change(
                store, NULL, "INSERT OR REPLACE INTO prop_table(key, bytes) VALUES (?, ?)", "ib",
                key_of(bench->part[i]->blade), (const void *)bench->part[i]->table,
                sizeof *bench->part[i]->table);
    if (status == PARE_OK)
        status = pare_sql_commit(store, NULL);
    if (status != PARE_OK)
        pare_sql_rollback(store);
}

/* The table of an earlier part with the same blade, or NULL. */
static const pare_prop_table *shared(const pare_bench *bench, size_t before, sqlite3_int64 key)
{
    for (size_t i = 0; i < before; i++)
        if (bench->part[i]->blade && bench->part[i]->table && key_of(bench->part[i]->blade) == key)
            return bench->part[i]->table;
    return NULL;
}

pare_status pare_store_warm(pare_store *store, pare_bench *bench, pare_error *err)
{
    bool *built = pare_arena_array(bench->arena, bench->parts, sizeof *built);
    if (!built)
        return pare_no_memory(err);
    bool any = false;
    size_t tables = 0;
    for (size_t i = 0; i < bench->parts; i++) {
        pare_part *part = bench->part[i];
        if (!part->blade || part->table)
            continue;
        const sqlite3_int64 key = key_of(part->blade);
        part->table = shared(bench, i, key);
        if (part->table)
            continue;
        pare_prop_table *table = pare_arena_zeros(bench->arena, sizeof *table);
        if (!table)
            return pare_no_memory(err);
        if (!from_cache(store, key, part->blade, table)) {
            memset(table, 0, sizeof *table);
            pare_prop_table_build(part->blade, table);
            any = built[i] = true;
            const pare_status status = pare_store_step(store, "propeller tables", ++tables, 0, err);
            if (status != PARE_OK)
                return status;
        }
        part->table = table;
    }
    if (any && store->writable) {
        sqlite3_busy_timeout(store->db, 0);
        keep(store, bench, built);
        pare_store_watch(store, store->progress); /* waits for locks as before */
    }
    return PARE_OK;
}
