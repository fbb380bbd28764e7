/* warm.c: propellers' tables and the fits of what stands measured, from the store's cache or made and
 * kept there.
 *
 * The cache is a convenience: whatever goes wrong with it, a table can be built. So a lock is not
 * waited for, and a row that is not as it should be counts as missing. */
#include <string.h>

#include "craft/stand_fit.h"
#include "store/sql.h"

/* Under its key, in place of what may stand there. */
#define KEEP_TABLE                                                                                 \
    "INSERT INTO prop_table(key, bytes) VALUES (?, ?) "                                            \
    "ON CONFLICT (key) DO UPDATE SET bytes = excluded.bytes"

static long long as_signed(unsigned long long key)
{
    long long signed_key;
    memcpy(&signed_key, &key, sizeof signed_key);
    return signed_key;
}

static long long key_of(const pare_prop *blade)
{
    return as_signed(pare_prop_table_key(blade));
}

/* The bytes kept under a key, or false. */
static bool bytes_from_cache(const pare_store *store, long long key, size_t length, void *bytes)
{
    pare_statement *statement = NULL;
    bool row = false;
    const bool found =
        pare_sql_prepare(store, &statement, NULL, "SELECT bytes FROM prop_table WHERE key = ?", "i",
                         key) == PARE_OK &&
        pare_sql_step(store, statement, &row, NULL) == PARE_OK && row &&
        pare_sql_length(statement, 0) == length;
    if (found)
        memcpy(bytes, pare_sql_bytes(statement, 0), length);
    pare_sql_finish(statement);
    return found;
}

static bool from_cache(const pare_store *store, long long key, const pare_prop *blade,
                       pare_prop_table *table)
{
    return bytes_from_cache(store, key, sizeof *table, table) &&
           pare_prop_table_is_sound(table, blade);
}

/* Tables that were built here go into the cache together, or not at all. */
static void keep(const pare_store *store, const pare_bench *bench, const bool built[])
{
    pare_status status = pare_sql_begin(store, NULL);
    for (size_t i = 0; i < bench->parts && status == PARE_OK; i++)
        if (built[i])
            status =
                pare_sql_change(store, NULL, KEEP_TABLE, "ib", key_of(bench->part[i]->blade),
                                (const void *)bench->part[i]->table, sizeof *bench->part[i]->table);
    if (status == PARE_OK)
        status = pare_sql_commit(store, NULL);
    if (status != PARE_OK)
        pare_sql_rollback(store);
}

/* The table of an earlier part with the same blade that no tunnel has bent, or NULL. */
static const pare_prop_table *shared(const pare_bench *bench, size_t before, long long key)
{
    for (size_t i = 0; i < before; i++)
        if (bench->part[i]->blade && bench->part[i]->table && !bench->part[i]->bent &&
            key_of(bench->part[i]->blade) == key)
            return bench->part[i]->table;
    return NULL;
}

/* ---- what tunnels and stands measured ---- */

static pare_status bend_parts(pare_bench *bench, const bool fresh[], pare_error *err)
{
    for (size_t i = 0; i < bench->parts; i++) {
        pare_part *part = bench->part[i];
        if (!fresh[i] || !part->tunnel)
            continue;
        pare_tunnel_fit *bent = pare_arena_zeros(bench->arena, sizeof *bent);
        if (!bent)
            return pare_no_memory(err);
        const pare_prop_doubt doubt = pare_prop_model_doubt(part->blade, false);
        if (pare_tunnel_fit_points(part->table, &doubt, part->tunnel, bent, NULL) != PARE_OK)
            continue; /* the model then stands as it is, and the sheet says that it is the model */
        part->bent = bent;
        part->table = &bent->table;
    }
    return PARE_OK;
}

/* A fit that was made here; kept in a list until all are made. */
typedef struct made_fit {
    long long key;
    const pare_pair_fit *fit;
} made_fit;

static void keep_fits(const pare_store *store, size_t count, const made_fit made[])
{
    pare_status status = pare_sql_begin(store, NULL);
    for (size_t i = 0; i < count && status == PARE_OK; i++)
        status = pare_sql_change(store, NULL, KEEP_TABLE, "ib", made[i].key,
                                 (const void *)made[i].fit, sizeof *made[i].fit);
    if (status == PARE_OK)
        status = pare_sql_commit(store, NULL);
    if (status != PARE_OK)
        pare_sql_rollback(store);
}

/* One pair's tables: their fit, or with all of them why there is none. */
static pare_status warm_pair(const pare_store *store, pare_bench *bench, size_t first, size_t count,
                             made_fit *made, size_t *mades, pare_error *err)
{
    pare_stand_table *table = &bench->stand[first];
    const pare_stand_fitting fitting = {pare_bench_part(bench, table->motor),
                                        pare_bench_part(bench, table->propeller), count, table};
    if (!fitting.motor || !fitting.propeller || !fitting.propeller->table)
        return PARE_OK;
    pare_pair_fit *fit = pare_arena_zeros(bench->arena, sizeof *fit);
    if (!fit)
        return pare_no_memory(err);
    const long long key = as_signed(pare_stand_fit_key(&fitting));
    if (!bytes_from_cache(store, key, sizeof *fit, fit) ||
        !pare_pair_fit_is_sound(fit, fitting.propeller->blade)) {
        pare_error why = {0};
        const pare_status status = pare_stand_fit(&fitting, bench->arena, fit, &why);
        if (status == PARE_UNAVAILABLE)
            return pare_no_memory(err);
        if (status != PARE_OK) {
            const char *fault = pare_arena_text(bench->arena, why.text);
            for (size_t i = 0; i < count && fault; i++)
                if (!table[i].fault)
                    table[i].fault = fault;
            return fault ? PARE_OK : pare_no_memory(err);
        }
        made[(*mades)++] = (made_fit){key, fit};
    }
    for (size_t i = 0; i < count; i++)
        table[i].pair = fit;
    return PARE_OK;
}

static pare_status warm_pairs(pare_store *store, pare_bench *bench, pare_error *err)
{
    made_fit *made = pare_arena_array(bench->arena, bench->stands + 1, sizeof *made);
    if (!made)
        return pare_no_memory(err);
    size_t mades = 0;
    for (size_t first = 0; first < bench->stands;) {
        size_t count;
        const pare_stand_table *table = &bench->stand[first];
        pare_stand_of(bench->stands - first, table, table->motor, table->propeller, &count);
        pare_status status =
            table->pair ? PARE_OK : warm_pair(store, bench, first, count, made, &mades, err);
        if (status == PARE_OK)
            status = pare_store_step(store, "stand tables", mades, 0, err);
        if (status != PARE_OK)
            return status;
        first += count;
    }
    if (mades > 0 && store->writable) {
        pare_sql_wait(store, false);
        keep_fits(store, mades, made);
        pare_store_watch(store, store->progress);
    }
    return PARE_OK;
}

pare_status pare_store_warm(pare_store *store, pare_bench *bench, pare_error *err)
{
    bool *built = pare_arena_array(bench->arena, bench->parts, sizeof *built);
    bool *fresh = pare_arena_array(bench->arena, bench->parts, sizeof *fresh);
    if (!built || !fresh)
        return pare_no_memory(err);
    bool any = false;
    size_t tables = 0;
    for (size_t i = 0; i < bench->parts; i++) {
        pare_part *part = bench->part[i];
        if (!part->blade || part->table)
            continue;
        fresh[i] = true;
        const long long key = key_of(part->blade);
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
        pare_sql_wait(store, false);
        keep(store, bench, built);
        pare_store_watch(store, store->progress); /* waits for locks as before */
    }
    const pare_status status = bend_parts(bench, fresh, err);
    return status == PARE_OK ? warm_pairs(store, bench, err) : status;
}
