/* load.c: from the store's rows into a bench in memory (see load.h, bench.h).
 *
 * Each row's text is read as an imported one is, with the same checks: a bench file may come from
 * anywhere. One craft needs only its own parts, which the rows of craft_part name. */
#include "store/load.h"

#include <string.h>

#include "base/grow.h"
#include "store/file.h"
#include "store/read_craft.h"
#include "store/read_part.h"
#include "store/read_stand.h"
#include "store/record.h"

enum { FIRST_ROOM = 64 };

/* What is asked when a craft is read, or all of them. */
static const char OWN_PARTS[] = "SELECT id, doc FROM part JOIN craft_part ON part.id = "
                                "craft_part.part WHERE craft_part.craft = ? "
                                "ORDER BY id";
static const char ALL_PARTS[] = "SELECT id, doc FROM part ORDER BY id";
static const char ONE_CRAFT[] = "SELECT name, doc FROM craft WHERE name = ?";
static const char ALL_CRAFT[] = "SELECT name, doc FROM craft ORDER BY name";
static const char NAMES[] = "SELECT name FROM craft ORDER BY name";
static const char SETTING[] = "SELECT value FROM setting WHERE name = ?";
#define STANDS  "SELECT motor, propeller, doc FROM stand_table"
#define IN_ROWS " ORDER BY motor, propeller, row"
static const char OWN_STANDS[] =
    STANDS " WHERE motor IN (SELECT part FROM craft_part WHERE craft = ?1) AND propeller IN"
           " (SELECT part FROM craft_part WHERE craft = ?1)" IN_ROWS;
static const char ALL_STANDS[] = STANDS IN_ROWS;
#define WEIGHED " IN (SELECT craft FROM weigh_in)"
static const char ANY_WEIGH_IN[] = "SELECT 1 FROM weigh_in LIMIT 1";
static const char WEIGHED_PARTS[] =
    "SELECT id, doc FROM part WHERE id IN (SELECT part FROM craft_part WHERE craft = ?1 OR "
    "craft" WEIGHED ") ORDER BY id";
static const char USED_PARTS[] =
    "SELECT id, doc FROM part WHERE id IN (SELECT part FROM craft_part) ORDER BY id";
static const char WEIGHED_CRAFT[] =
    "SELECT name, doc FROM craft WHERE name = ?1 OR name" WEIGHED " ORDER BY name";

pare_bench *pare_load_empty(void)
{
    pare_arena *arena = pare_arena_open();
    pare_bench *bench = arena ? pare_arena_zeros(arena, sizeof *bench) : NULL;
    if (!bench) {
        pare_arena_close(arena);
        return NULL;
    }
    bench->arena = arena;
    bench->money = "";
    return bench;
}

void pare_bench_close(pare_bench *bench)
{
    if (bench)
        pare_arena_close(bench->arena);
}

/* Room for one more pointer in a list whose room doubles. */
static void *one_more(pare_arena *arena, void *list, size_t count)
{
    const bool full = count == 0 || (count >= FIRST_ROOM && (count & (count - 1)) == 0);
    if (!full)
        return list;
    void *larger = pare_arena_array(arena, count ? 2 * count : FIRST_ROOM, sizeof(void *));
    if (larger && count)
        memcpy(larger, list, count * sizeof(void *));
    return larger;
}

static pare_status parse_row(pare_reading *reading, pare_statement *statement, const char *store,
                             const char *what, const pare_node **root, pare_error *err)
{
    const char *id = pare_sql_text(statement, 0, reading->arena);
    const char *doc = pare_sql_chars(statement, 1);
    if (!id)
        return pare_no_memory(err);
    reading->name = pare_arena_printf(reading->arena, "%s: %s '%.60s'", store, what, id);
    if (!reading->name)
        return pare_no_memory(err);
    return pare_tree_parse(doc ? doc : "", doc ? pare_sql_length(statement, 1) : 0, reading->name,
                           reading->arena, root, err);
}

/* Keyed and kept in order by id, so a row whose text says another id would break the order. */
static pare_status check_key(const pare_reading *reading, pare_statement *statement, const char *id,
                             pare_error *err)
{
    const char *key = pare_sql_chars(statement, 0);
    if (key && strcmp(key, id) == 0)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA, "%s: a damaged bench (its text is of '%.48s')",
                     reading->name, id);
}

pare_status pare_load_part_row(pare_reading *reading, pare_statement *statement, const char *store,
                               pare_part **part, pare_error *err)
{
    const pare_node *root = NULL;
    pare_status status = parse_row(reading, statement, store, "part", &root, err);
    if (status == PARE_OK)
        status = pare_read_part(reading, root, part, err);
    return status == PARE_OK ? check_key(reading, statement, (*part)->id, err) : status;
}

static pare_status load_part(pare_reading *reading, pare_statement *statement, const char *store,
                             pare_bench *bench, pare_error *err)
{
    pare_part *part = NULL;
    const pare_status status = pare_load_part_row(reading, statement, store, &part, err);
    if (status != PARE_OK)
        return status;
    bench->part = one_more(bench->arena, bench->part, bench->parts);
    if (!bench->part)
        return pare_no_memory(err);
    bench->part[bench->parts++] = part;
    return PARE_OK;
}

static pare_status load_one_craft(pare_reading *reading, pare_statement *statement,
                                  const char *store, pare_bench *bench, pare_error *err)
{
    const pare_node *root = NULL;
    pare_craft *craft = NULL;
    pare_status status = parse_row(reading, statement, store, "craft", &root, err);
    if (status == PARE_OK)
        status = pare_read_craft(reading, root, bench, &craft, err);
    if (status == PARE_OK)
        status = check_key(reading, statement, craft->name, err);
    if (status != PARE_OK)
        return status;
    bench->craft = one_more(bench->arena, bench->craft, bench->crafts);
    if (!bench->craft)
        return pare_no_memory(err);
    bench->craft[bench->crafts++] = craft;
    return PARE_OK;
}

typedef pare_status (*load_row)(pare_reading *, pare_statement *, const char *, pare_bench *,
                                pare_error *);

static pare_status load_rows(pare_store *store, const char *sql, const char *name, load_row load,
                             pare_bench *bench, pare_error *err)
{
    pare_recall recall = {0};
    pare_files files = {.store = store, .arena = bench->arena, .recall = &recall};
    pare_reading reading = {.arena = bench->arena,
                            .units = pare_units_open(),
                            .find_file = pare_files_find,
                            .find_context = &files,
                            .check_craft = store->check};
    if (!reading.units)
        return pare_no_memory(err);
    pare_statement *statement = NULL;
    bool row = true;
    size_t done = 0;
    pare_status status = name ? pare_sql_prepare(store, &statement, err, sql, "t", name)
                              : pare_sql_prepare(store, &statement, err, sql, "");
    while (status == PARE_OK) {
        status = pare_sql_step(store, statement, &row, err);
        if (!row)
            break;
        status = load(&reading, statement, store->path, bench, err);
        if (status == PARE_OK)
            status = pare_store_step(store, "reading the bench:", ++done, 0, err);
    }
    pare_sql_finish(statement);
    pare_units_close(reading.units);
    return status;
}

pare_status pare_load_parts(pare_store *store, const char *craft, pare_bench *bench,
                            pare_error *err)
{
    return load_rows(store, craft ? OWN_PARTS : ALL_PARTS, craft, load_part, bench, err);
}

pare_status pare_load_craft(pare_store *store, const char *name, pare_bench *bench, pare_error *err)
{
    return load_rows(store, name ? ONE_CRAFT : ALL_CRAFT, name, load_one_craft, bench, err);
}

/* ---- stand tables ---- */

/* A table that was right when it came in may be wrong once its motor's kV was put right: it is lent
 * with that said, for a sheet that ends with an error would help nobody. */
static pare_status load_stand(pare_reading *reading, const char *doc, size_t length,
                              pare_bench *bench, pare_stand_table *table, pare_error *err)
{
    const pare_node *root = NULL;
    pare_status status = pare_tree_parse(doc, length, reading->name, reading->arena, &root, err);
    if (status == PARE_OK)
        status = pare_record_check(reading, PARE_RECORD_STAND_TABLE, root, err);
    if (status != PARE_OK)
        return status;
    const pare_part *motor = pare_bench_part(bench, pare_node_get(root, "motor")->text);
    const pare_part *propeller = pare_bench_part(bench, pare_node_get(root, "propeller")->text);
    if (!motor || !propeller)
        return pare_fail(err, PARE_BAD_DATA, "%s: a damaged bench (its parts are not there)",
                         reading->name);
    const pare_node *at = NULL;
    pare_error why = {0};
    status = pare_read_stand(reading, root, motor, propeller, bench->arena, table, &at, &why);
    if (status == PARE_OK)
        return status;
    if (status != PARE_BAD_DATA)
        return pare_fail(err, status, "%s", why.text);
    table->rows = 0;
    table->fault = pare_arena_text(bench->arena, why.text);
    return table->fault ? PARE_OK : pare_no_memory(err);
}

static pare_status load_stand_row(pare_reading *reading, pare_statement *statement,
                                  const char *store, pare_bench *bench, size_t *room,
                                  pare_error *err)
{
    const char *motor = pare_sql_chars(statement, 0);
    const char *propeller = pare_sql_chars(statement, 1);
    const char *doc = pare_sql_chars(statement, 2);
    reading->name = pare_arena_printf(reading->arena, "%s: stand table of %.48s with %.48s", store,
                                      motor ? motor : "", propeller ? propeller : "");
    bench->stand =
        pare_grown(bench->arena, bench->stand, bench->stands, room, sizeof *bench->stand);
    if (!reading->name || !bench->stand)
        return pare_no_memory(err);
    return load_stand(reading, doc ? doc : "", doc ? pare_sql_length(statement, 2) : 0, bench,
                      &bench->stand[bench->stands++], err);
}

static pare_status load_stand_rows(pare_store *store, pare_reading *reading,
                                   pare_statement *statement, pare_bench *bench, pare_error *err)
{
    pare_status status = PARE_OK;
    size_t room = 0;
    for (bool row = true; status == PARE_OK;) {
        status = pare_sql_step(store, statement, &row, err);
        if (status != PARE_OK || !row)
            break;
        if (!reading->arena)
            reading->arena = pare_arena_open();
        if (!reading->units)
            reading->units = pare_units_open();
        if (!reading->arena || !reading->units)
            return pare_no_memory(err);
        status = load_stand_row(reading, statement, store->path, bench, &room, err);
        pare_arena_clear(reading->arena);
    }
    return status;
}

static pare_status load_stands(pare_store *store, const char *sql, const char *name,
                               pare_bench *bench, pare_error *err)
{
    pare_statement *statement = NULL;
    pare_reading reading = {0};
    pare_status status = name ? pare_sql_prepare(store, &statement, err, sql, "t", name)
                              : pare_sql_prepare(store, &statement, err, sql, "");
    if (status == PARE_OK)
        status = load_stand_rows(store, &reading, statement, bench, err);
    pare_sql_finish(statement);
    pare_units_close(reading.units);
    pare_arena_close(reading.arena);
    return status;
}

pare_status pare_load_stands(pare_store *store, const char *craft, pare_bench *bench,
                             pare_error *err)
{
    return load_stands(store, craft ? OWN_STANDS : ALL_STANDS, craft, bench, err);
}

pare_status pare_store_read_stands(pare_store *store, const char *part, pare_bench **bench,
                                   pare_error *err)
{
    static const char parts[] =
        "SELECT id, doc FROM part WHERE id IN (SELECT motor FROM stand_table WHERE propeller = ?1"
        " UNION SELECT propeller FROM stand_table WHERE motor = ?1 UNION SELECT ?1) ORDER BY id";
    static const char tables[] = STANDS " WHERE motor = ?1 OR propeller = ?1" IN_ROWS;
    pare_bench *made = pare_load_empty();
    *bench = NULL;
    if (!made)
        return pare_no_memory(err);
    pare_status status = load_rows(store, parts, part, load_part, made, err);
    if (status == PARE_OK)
        status = load_stands(store, tables, part, made, err);
    if (status == PARE_OK)
        *bench = made;
    else
        pare_bench_close(made);
    return status;
}

pare_status pare_load_setting(const pare_store *store, const char *name, pare_arena *arena,
                              const char **value, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    *value = "";
    pare_status status = pare_sql_prepare(store, &statement, err, SETTING, "t", name);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    if (row) {
        *value = pare_sql_text(statement, 0, arena);
        if (!*value)
            status = pare_no_memory(err);
    }
    pare_sql_finish(statement);
    return status;
}

pare_status pare_store_money(pare_store *store, pare_arena *arena, const char **money,
                             pare_error *err)
{
    return pare_load_setting(store, "money", arena, money, err);
}

/* One transaction around the reads, so that they see one state of the bench. */
static pare_status load(pare_store *store, const char *craft, pare_bench *bench, pare_error *err)
{
    pare_status status = pare_sql_begin_reading(store, err);
    if (status != PARE_OK)
        return status;
    status = pare_load_setting(store, "money", bench->arena, &bench->money, err);
    if (status == PARE_OK)
        status = pare_load_parts(store, craft, bench, err);
    if (status == PARE_OK)
        status = pare_load_stands(store, craft, bench, err);
    if (status == PARE_OK)
        status = pare_load_craft(store, craft, bench, err);
    pare_sql_rollback(store);
    return status;
}

pare_status pare_store_read(pare_store *store, pare_bench **bench, pare_error *err)
{
    *bench = NULL;
    pare_bench *made = pare_load_empty();
    if (!made)
        return pare_no_memory(err);
    const pare_status status = load(store, NULL, made, err);
    if (status == PARE_OK)
        *bench = made;
    else
        pare_bench_close(made);
    return status;
}

static pare_status names(const pare_store *store, const char *sql, pare_arena *arena, size_t *count,
                         const char *const **list, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    size_t n = 0;
    const char **found = NULL;
    pare_status status = pare_sql_prepare(store, &statement, err, sql, "");
    while (status == PARE_OK) {
        status = pare_sql_step(store, statement, &row, err);
        if (!row)
            break;
        found = one_more(arena, found, n);
        if (!found || !(found[n++] = pare_sql_text(statement, 0, arena)))
            status = pare_no_memory(err);
    }
    pare_sql_finish(statement);
    if (status == PARE_OK) {
        *count = n;
        *list = found;
    }
    return status;
}

pare_status pare_store_craft_names(pare_store *store, pare_arena *arena, size_t *count,
                                   const char *const **list, pare_error *err)
{
    return names(store, NAMES, arena, count, list, err);
}

pare_status pare_store_part_ids(pare_store *store, pare_arena *arena, size_t *count,
                                const char *const **ids, pare_error *err)
{
    return names(store, "SELECT id FROM part ORDER BY id", arena, count, ids, err);
}

/* Craft by craft, so that only the parts of one are in memory. */
pare_status pare_load_check(pare_store *store, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    size_t count = 0;
    const char *const *name = NULL;
    pare_status status =
        arena ? pare_store_craft_names(store, arena, &count, &name, err) : pare_no_memory(err);
    for (size_t i = 0; i < count && status == PARE_OK; i++) {
        pare_bench *bench = pare_load_empty();
        status = bench ? pare_load_parts(store, name[i], bench, err) : pare_no_memory(err);
        if (status == PARE_OK)
            status = pare_load_craft(store, name[i], bench, err);
        pare_bench_close(bench);
    }
    pare_arena_close(arena);
    return status;
}

static pare_status no_such_craft(pare_store *store, const char *name, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    size_t count = 0;
    const char *const *known = NULL;
    pare_status status = pare_store_craft_names(store, arena, &count, &known, err);
    const char *nearest = status == PARE_OK ? pare_nearest(name, count, known) : NULL;
    if (status == PARE_OK && nearest)
        status = pare_fail(err, PARE_UNKNOWN, "no craft '%.48s' on the bench; is it '%s'?", name,
                           nearest);
    else if (status == PARE_OK)
        status = pare_fail(err, PARE_UNKNOWN,
                           "no craft '%.48s' on the bench; `pare craft` lists the %zu that are "
                           "there",
                           name, count);
    pare_arena_close(arena);
    return status;
}

pare_status pare_store_read_craft(pare_store *store, const char *name, pare_bench **bench,
                                  pare_error *err)
{
    *bench = NULL;
    pare_bench *made = pare_load_empty();
    if (!made)
        return pare_no_memory(err);
    pare_status status = load(store, name, made, err);
    if (status == PARE_OK && made->crafts == 0)
        status = no_such_craft(store, name, err);
    if (status == PARE_OK)
        *bench = made;
    else
        pare_bench_close(made);
    return status;
}

static pare_status load_weighed(pare_store *store, const char *name, pare_bench *bench,
                                pare_error *err)
{
    pare_status status = pare_sql_begin_reading(store, err);
    if (status != PARE_OK)
        return status;
    status = load_rows(store, name ? WEIGHED_PARTS : USED_PARTS, name, load_part, bench, err);
    if (status == PARE_OK)
        status =
            load_rows(store, name ? WEIGHED_CRAFT : ALL_CRAFT, name, load_one_craft, bench, err);
    pare_sql_rollback(store);
    return status;
}

static pare_status any_weigh_in(const pare_store *store, bool *any, pare_error *err)
{
    pare_statement *statement = NULL;
    pare_status status = pare_sql_prepare(store, &statement, err, ANY_WEIGH_IN, "");
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, any, err);
    pare_sql_finish(statement);
    return status;
}

pare_status pare_store_read_weighed(pare_store *store, const char *name, pare_bench **bench,
                                    pare_error *err)
{
    bool any = false;
    *bench = NULL;
    pare_status status = any_weigh_in(store, &any, err);
    if (status != PARE_OK || !any)
        return status;
    pare_bench *made = pare_load_empty();
    status = made ? load_weighed(store, name, made, err) : pare_no_memory(err);
    if (status == PARE_OK)
        *bench = made;
    else
        pare_bench_close(made);
    return status;
}

pare_status pare_store_read_part(pare_store *store, const char *id, pare_bench **bench,
                                 pare_error *err)
{
    *bench = NULL;
    pare_bench *made = pare_load_empty();
    if (!made)
        return pare_no_memory(err);
    pare_status status = pare_load_setting(store, "money", made->arena, &made->money, err);
    if (status == PARE_OK)
        status =
            load_rows(store, "SELECT id, doc FROM part WHERE id = ?", id, load_part, made, err);
    if (status == PARE_OK)
        *bench = made;
    else
        pare_bench_close(made);
    return status;
}

/* ---- all of it in one state ---- */

pare_status pare_store_hold(pare_store *store, const char *craft, pare_error *err)
{
    const pare_status status = pare_sql_begin_reading(store, err);
    if (status != PARE_OK)
        return status;
    const char *types = craft ? "t" : "";
    pare_sql_ahead(store, NAMES, "");
    pare_sql_ahead(store, SETTING, "t", "money");
    pare_sql_ahead(store, craft ? OWN_PARTS : ALL_PARTS, types, craft);
    pare_sql_ahead(store, craft ? OWN_STANDS : ALL_STANDS, types, craft);
    pare_sql_ahead(store, craft ? ONE_CRAFT : ALL_CRAFT, types, craft);
    pare_sql_ahead(store, ANY_WEIGH_IN, "");
    pare_sql_ahead(store, craft ? WEIGHED_PARTS : USED_PARTS, types, craft);
    if (craft)
        pare_sql_ahead(store, WEIGHED_CRAFT, types, craft);
    pare_weighings_ahead(store);
    pare_recall_ahead(store);
    return PARE_OK;
}

void pare_store_release(pare_store *store)
{
    pare_sql_rollback(store);
}
