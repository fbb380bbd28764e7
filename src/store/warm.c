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

/* Something of so many bytes that may be kept under a key. */
typedef struct wanted {
    long long key;
    size_t length;
    void *bytes; /* [length] */
    bool found;
} wanted;

enum { AT_ONCE = 8 };

/* So many keys at once; one that is short of it is filled up with its last. */
static void read_some(const pare_store *store, size_t count, wanted want[])
{
    pare_statement *statement = NULL;
    long long key[AT_ONCE];
    bool row = true;
    for (size_t i = 0; i < AT_ONCE; i++)
        key[i] = want[i < count ? i : count - 1].key;
    pare_status status = pare_sql_prepare(
        store, &statement, NULL,
        "SELECT key, bytes FROM prop_table WHERE key IN (?, ?, ?, ?, ?, ?, ?, ?)", "iiiiiiii",
        key[0], key[1], key[2], key[3], key[4], key[5], key[6], key[7]);
    while (status == PARE_OK) {
        status = pare_sql_step(store, statement, &row, NULL);
        if (status != PARE_OK || !row)
            break;
        const long long is = pare_sql_int(statement, 0);
        for (size_t i = 0; i < count; i++)
            if (want[i].key == is && pare_sql_length(statement, 1) == want[i].length) {
                memcpy(want[i].bytes, pare_sql_bytes(statement, 1), want[i].length);
                want[i].found = true;
            }
    }
    pare_sql_finish(statement);
}

/* What the cache has of them. */
static void read_cache(const pare_store *store, size_t count, wanted want[])
{
    for (size_t i = 0; i < count; i += AT_ONCE)
        read_some(store, count - i < AT_ONCE ? count - i : AT_ONCE, want + i);
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
        const pare_prop_doubt doubt = pare_prop_model_doubt(part->blade, false, 1);
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

/* Tables of one pair, and the fit that is wanted of them. */
typedef struct pair {
    size_t first, count; /* of the bench's tables */
    pare_stand_fitting fitting;
} pair;

/* Its fit, or with all of its tables why there is none. */
static pare_status warm_pair(pare_bench *bench, const pair *of, const wanted *want, made_fit *made,
                             size_t *mades, pare_error *err)
{
    pare_stand_table *table = &bench->stand[of->first];
    pare_pair_fit *fit = want->bytes;
    if (!want->found || !pare_pair_fit_is_sound(fit, of->fitting.propeller->blade)) {
        pare_error why = {0};
        memset(fit, 0, sizeof *fit);
        const pare_status status = pare_stand_fit(&of->fitting, bench->arena, fit, &why);
        if (status == PARE_UNAVAILABLE)
            return pare_no_memory(err);
        if (status != PARE_OK) {
            const char *fault = pare_arena_text(bench->arena, why.text);
            for (size_t i = 0; i < of->count && fault; i++)
                if (!table[i].fault)
                    table[i].fault = fault;
            return fault ? PARE_OK : pare_no_memory(err);
        }
        made[(*mades)++] = (made_fit){want->key, fit};
    }
    for (size_t i = 0; i < of->count; i++)
        table[i].pair = fit;
    return PARE_OK;
}

/* Pairs without a fit whose parts are there. */
static pare_status list_pairs(pare_bench *bench, size_t *pairs, pair list[], wanted want[],
                              pare_error *err)
{
    for (size_t first = 0; first < bench->stands;) {
        size_t count;
        pare_stand_table *table = &bench->stand[first];
        pare_stand_of(bench->stands - first, table, table->motor, table->propeller, &count);
        const pare_stand_fitting fitting = {pare_bench_part(bench, table->motor),
                                            pare_bench_part(bench, table->propeller), count, table};
        if (!table->pair && fitting.motor && fitting.propeller && fitting.propeller->table) {
            list[*pairs] = (pair){first, count, fitting};
            want[*pairs] = (wanted){.key = as_signed(pare_stand_fit_key(&fitting)),
                                    .length = sizeof(pare_pair_fit),
                                    .bytes = pare_arena_zeros(bench->arena, sizeof(pare_pair_fit))};
            if (!want[(*pairs)++].bytes)
                return pare_no_memory(err);
        }
        first += count;
    }
    return PARE_OK;
}

static pare_status warm_pairs(pare_store *store, pare_bench *bench, pare_error *err)
{
    const size_t room = bench->stands + 1;
    made_fit *made = pare_arena_array(bench->arena, room, sizeof *made);
    pair *list = pare_arena_array(bench->arena, room, sizeof *list);
    wanted *want = pare_arena_array(bench->arena, room, sizeof *want);
    size_t pairs = 0, mades = 0;
    if (!made || !list || !want)
        return pare_no_memory(err);
    pare_status status = list_pairs(bench, &pairs, list, want, err);
    if (status == PARE_OK)
        read_cache(store, pairs, want);
    for (size_t i = 0; i < pairs && status == PARE_OK; i++) {
        status = warm_pair(bench, &list[i], &want[i], made, &mades, err);
        if (status == PARE_OK)
            status = pare_store_step(store, "stand tables", mades, 0, err);
    }
    if (status == PARE_OK && mades > 0 && store->writable) {
        pare_sql_wait(store, false);
        keep_fits(store, mades, made);
        pare_store_watch(store, store->progress);
    }
    return status;
}

/* Blades without a table, each once. @param[out] want  [*count] with an empty table each */
static pare_status list_blades(const pare_bench *bench, size_t *count, wanted want[],
                               pare_error *err)
{
    for (size_t i = 0; i < bench->parts; i++) {
        const pare_part *part = bench->part[i];
        if (!part->blade || part->table)
            continue;
        const long long key = key_of(part->blade);
        bool listed = shared(bench, i, key) != NULL;
        for (size_t k = 0; k < *count && !listed; k++)
            listed = want[k].key == key;
        if (listed)
            continue;
        want[*count] = (wanted){.key = key,
                                .length = sizeof(pare_prop_table),
                                .bytes = pare_arena_zeros(bench->arena, sizeof(pare_prop_table))};
        if (!want[(*count)++].bytes)
            return pare_no_memory(err);
    }
    return PARE_OK;
}

pare_status pare_store_warm(pare_store *store, pare_bench *bench, pare_error *err)
{
    bool *built = pare_arena_array(bench->arena, bench->parts, sizeof *built);
    bool *fresh = pare_arena_array(bench->arena, bench->parts, sizeof *fresh);
    wanted *want = pare_arena_array(bench->arena, bench->parts + 1, sizeof *want);
    size_t blades = 0, next = 0;
    if (!built || !fresh || !want)
        return pare_no_memory(err);
    pare_status status = list_blades(bench, &blades, want, err);
    if (status != PARE_OK)
        return status;
    read_cache(store, blades, want);
    bool any = false;
    size_t tables = 0;
    for (size_t i = 0; i < bench->parts; i++) {
        pare_part *part = bench->part[i];
        if (!part->blade || part->table)
            continue;
        fresh[i] = true;
        part->table = shared(bench, i, key_of(part->blade));
        if (part->table)
            continue;
        const wanted *one = &want[next++]; /* they are listed in the same order */
        pare_prop_table *table = one->bytes;
        if (!one->found || !pare_prop_table_is_sound(table, part->blade)) {
            memset(table, 0, sizeof *table);
            pare_prop_table_build(part->blade, table);
            any = built[i] = true;
            status = pare_store_step(store, "propeller tables", ++tables, 0, err);
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
    status = bend_parts(bench, fresh, err);
    return status == PARE_OK ? warm_pairs(store, bench, err) : status;
}
