/* edit.c: one part or craft of the bench at a time (see bench.h, edit.h).
 *
 * What is in use does not vanish: the schema would refuse it anyway, but only here is there somebody
 * who can say where it is used. */
#include "store/edit.h"

#include <string.h>

#include "store/change.h"
#include "store/file.h"
#include "store/load.h"
#include "store/read_craft.h"
#include "store/row.h"

static pare_status unknown(pare_store *store, bool part, const char *name, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    size_t count = 0;
    const char *const *known = NULL;
    const char *what = part ? "part" : "craft";
    pare_status status = part ? pare_store_part_ids(store, arena, &count, &known, err)
                              : pare_store_craft_names(store, arena, &count, &known, err);
    const char *near = status == PARE_OK ? pare_nearest(name, count, known) : NULL;
    if (status == PARE_OK && near)
        status = pare_fail(err, PARE_UNKNOWN, "no %s '%.48s'; did you mean %s?", what, name, near);
    else if (status == PARE_OK)
        status = pare_fail(err, PARE_UNKNOWN, "no %s '%.48s'; pare %s lists them", what, name,
                           part ? "parts" : "craft");
    pare_arena_close(arena);
    return status;
}

static pare_status text_of(pare_store *store, bool part, const char *name, pare_text *text,
                           pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(store, &statement, err,
                                          part ? "SELECT doc FROM part WHERE id = ?"
                                               : "SELECT doc FROM craft WHERE name = ?",
                                          "t", name);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    if (row)
        pare_text_put(text, pare_sql_chars(statement, 0), pare_sql_length(statement, 0));
    else if (status == PARE_OK)
        status = unknown(store, part, name, err);
    pare_sql_finish(statement);
    return status == PARE_OK && text->failed ? pare_no_memory(err) : status;
}

pare_status pare_store_part_text(pare_store *store, const char *id, pare_text *text,
                                 pare_error *err)
{
    return text_of(store, true, id, text, err);
}

pare_status pare_store_craft_text(pare_store *store, const char *name, pare_text *text,
                                  pare_error *err)
{
    return text_of(store, false, name, text, err);
}

/* ---- a craft's text, changed ---- */

pare_status pare_craft_tree(pare_store *store, const char *name, pare_arena *arena,
                            const pare_node **root, pare_error *err)
{
    pare_text text = {0};
    pare_status status = pare_store_craft_text(store, name, &text, err);
    if (status == PARE_OK)
        status = pare_tree_parse_map(pare_text_all(&text), text.length, name, arena, root, err);
    pare_text_free(&text);
    return status;
}

/* The first scalar that says a text; trees were read within their limits. */
static const pare_node *saying(const pare_node *node, const char *text)
{
    if (node->form == PARE_NODE_SCALAR)
        return strcmp(node->text, text) == 0 ? node : NULL;
    const pare_node *found = NULL;
    for (const pare_node *one = node->first; one && !found; one = one->next)
        found = saying(one, text);
    return found;
}

static pare_status no_such_part(pare_store *store, const pare_reading *reading,
                                const pare_node *root, const char *id, pare_error *err)
{
    size_t count = 0;
    const char *const *known = NULL;
    const pare_status status = pare_store_part_ids(store, reading->arena, &count, &known, err);
    if (status != PARE_OK)
        return status;
    const pare_node *at = saying(root, id);
    const char *near = pare_nearest(id, count, known);
    if (near)
        return pare_refuse(reading, at ? at : root, PARE_UNKNOWN, err,
                           "no part '%.48s' on the bench; is it '%s'?", id, near);
    return pare_refuse(reading, at ? at : root, PARE_UNKNOWN, err,
                       "no part '%.48s' on the bench; pare parts lists them", id);
}

/* Said before the schema would refuse it, which cannot say where. */
static pare_status check_parts(pare_store *store, const pare_reading *reading,
                               const pare_node *root, pare_error *err)
{
    size_t count = 0;
    const char **ids = NULL;
    pare_status status = pare_craft_part_ids(reading, root, &count, &ids, err);
    for (size_t i = 0; i < count && status == PARE_OK; i++) {
        pare_statement *statement = NULL;
        bool row = false;
        status = pare_sql_prepare(store, &statement, err, "SELECT 1 FROM part WHERE id = ?", "t",
                                  ids[i]);
        if (status == PARE_OK)
            status = pare_sql_step(store, statement, &row, err);
        pare_sql_finish(statement);
        if (status == PARE_OK && !row)
            status = no_such_part(store, reading, root, ids[i], err);
    }
    return status;
}

pare_status pare_craft_put(pare_store *store, const pare_reading *reading, const char *name,
                           const pare_node *root, const char *doc, pare_error *err)
{
    pare_craft *craft = NULL;
    pare_bench *bench = pare_load_empty();
    if (!bench)
        return pare_no_memory(err);
    pare_status status = check_parts(store, reading, root, err);
    if (status == PARE_OK)
        status = pare_row_put_craft(store, 0, reading, root, name, doc, err);
    if (status == PARE_OK)
        status = pare_load_parts(store, name, bench, err);
    if (status == PARE_OK)
        status = pare_read_craft(reading, root, bench, &craft, err);
    if (status == PARE_OK && strcmp(craft->name, name) != 0)
        status =
            pare_fail(err, PARE_BAD_DATA, "the text of %s says the name %s", name, craft->name);
    pare_bench_close(bench);
    return status;
}

pare_status pare_craft_replace(pare_store *store, const char *name, const pare_node *root,
                               pare_error *err)
{
    pare_text text = {0};
    pare_arena *arena = pare_arena_open();
    pare_units *units = pare_units_open();
    pare_tree_write(root, PARE_CRAFT_BLOCK, &text);
    pare_files files = {.store = store, .arena = arena};
    const pare_reading reading = {.name = name,
                                  .arena = arena,
                                  .units = units,
                                  .find_file = pare_files_find,
                                  .find_context = &files,
                                  .check_craft = store->check};
    const pare_status status = !arena || !units || text.failed
                                   ? pare_no_memory(err)
                                   : pare_craft_put(store, &reading, name, root, text.bytes, err);
    pare_units_close(units);
    pare_arena_close(arena);
    pare_text_free(&text);
    return status;
}

/* ---- off the bench ---- */

/* Whose rows name a part: "craft hedgerow, craft thimble, a flight of hedgerow". */
static const char PART_USED[] =
    "SELECT 'craft ' || craft FROM craft_part WHERE part = ?1 UNION ALL "
    "SELECT 'a flight of ' || craft || ' on ' || date FROM flight WHERE pack = ?1 UNION ALL "
    "SELECT 'the stand table of ' || motor || ' with ' || propeller FROM stand_table "
    "WHERE motor = ?1 OR propeller = ?1";
static const char CRAFT_USED[] =
    "SELECT CASE count(*) WHEN 1 THEN 'a weigh-in' ELSE count(*) || ' weigh-ins' END "
    "FROM weigh_in WHERE craft = ?1 HAVING count(*) > 0 UNION ALL "
    "SELECT CASE count(*) WHEN 1 THEN 'a flight' ELSE count(*) || ' flights' END "
    "FROM flight WHERE craft = ?1 HAVING count(*) > 0";

static pare_status check_unused(const pare_store *store, const char *sql, const char *name,
                                const char *instead, pare_error *err)
{
    enum { NAMED = 4 };
    pare_statement *statement = NULL;
    bool row = true;
    size_t uses = 0;
    pare_text list = {0};
    pare_status status = pare_sql_prepare(store, &statement, err, sql, "t", name);
    while (status == PARE_OK) {
        status = pare_sql_step(store, statement, &row, err);
        if (!row)
            break;
        if (uses++ < NAMED)
            pare_text_printf(&list, "%s%.100s", uses > 1 ? ", " : "", pare_sql_chars(statement, 0));
    }
    pare_sql_finish(statement);
    if (status == PARE_OK && list.failed)
        status = pare_no_memory(err);
    else if (status == PARE_OK && uses > NAMED)
        status = pare_fail(err, PARE_BAD_DATA, "%.48s is in use by %s and %zu more; %s", name,
                           list.bytes, uses - NAMED, instead);
    else if (status == PARE_OK && uses)
        status =
            pare_fail(err, PARE_BAD_DATA, "%.48s is in use by %s; %s", name, list.bytes, instead);
    pare_text_free(&list);
    return status;
}

static pare_status remove_part(pare_store *store, const char *id, pare_error *err)
{
    pare_text text = {0};
    pare_status status = pare_store_part_text(store, id, &text, err);
    if (status == PARE_OK)
        status = check_unused(store, PART_USED, id, "take it off there first", err);
    if (status == PARE_OK)
        status = pare_sql_change(store, err, "DELETE FROM part WHERE id = ?", "t", id);
    pare_text_free(&text);
    return status == PARE_OK ? pare_files_sweep(store, err) : status;
}

static pare_status remove_craft(pare_store *store, const char *name, bool records, pare_error *err)
{
    pare_text text = {0};
    pare_status status = pare_store_craft_text(store, name, &text, err);
    if (status == PARE_OK && !records)
        status = check_unused(store, CRAFT_USED, name,
                              "right would be --records, which takes those off too", err);
    if (status == PARE_OK)
        status = pare_sql_change(store, err, "DELETE FROM weigh_in WHERE craft = ?", "t", name);
    if (status == PARE_OK)
        status = pare_sql_change(store, err, "DELETE FROM flight WHERE craft = ?", "t", name);
    if (status == PARE_OK)
        status = pare_sql_change(store, err, "DELETE FROM craft WHERE name = ?", "t", name);
    pare_text_free(&text);
    return status;
}

pare_status pare_store_remove_part(pare_store *store, const char *id, const pare_change *change,
                                   pare_error *err)
{
    const pare_status status = pare_change_begin(store, change, false, err);
    if (status != PARE_OK)
        return status;
    return pare_change_end(store, remove_part(store, id, err), true, err);
}

pare_status pare_store_remove_craft(pare_store *store, const char *name, bool records,
                                    const pare_change *change, pare_error *err)
{
    const pare_status status = pare_change_begin(store, change, false, err);
    if (status != PARE_OK)
        return status;
    return pare_change_end(store, remove_craft(store, name, records, err), true, err);
}
