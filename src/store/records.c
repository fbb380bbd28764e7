/* records.c: records into the bench (see records.h). */
#include "store/records.h"

#include <string.h>

#include "store/change.h"
#include "store/edit.h"
#include "store/file.h"
#include "store/read_part.h"
#include "store/read_stand.h"
#include "store/row.h"
#include "store/tree_diff.h"
#include "store/weighed_of.h"

static const struct {
    const char *table, *count;
} RECORD_SQL[PARE_RECORDS] = {
    [PARE_RECORD_SCALE] = {"scale", "SELECT count(*) FROM scale WHERE doc = ?"},
    [PARE_RECORD_WEIGH_IN] = {"weigh_in", "SELECT count(*) FROM weigh_in WHERE doc = ?"},
    [PARE_RECORD_FLIGHT] = {"flight", "SELECT count(*) FROM flight WHERE doc = ?"},
    [PARE_RECORD_STAND_TABLE] = {"stand_table", "SELECT count(*) FROM stand_table WHERE doc = ?"},
};

static const struct {
    const char *key, *what, *sql, *all;
} REFERENCES[] = {
    {"craft", "craft", "SELECT count(*) FROM craft WHERE name = ?", "SELECT name FROM craft"},
    {"scale", "scale", "SELECT count(*) FROM scale WHERE id = ?", "SELECT id FROM scale"},
    {"pack", "part", "SELECT count(*) FROM part WHERE id = ?", "SELECT id FROM part"},
    {"motor", "part", "SELECT count(*) FROM part WHERE id = ?", "SELECT id FROM part"},
    {"propeller", "part", "SELECT count(*) FROM part WHERE id = ?", "SELECT id FROM part"},
};

static pare_status count_rows(const pare_store *store, const char *sql, const char *key,
                              long long *count, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(store, &statement, err, sql, "t", key);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    *count = row ? pare_sql_int(statement, 0) : 0;
    pare_sql_finish(statement);
    return status;
}

/* The nearest of the names that a query gives, in the list's arena; NULL where none is near. */
static const char *nearest_of(const pare_records *records, const char *all, const char *name)
{
    pare_statement *statement = NULL;
    pare_error none;
    bool row = true;
    const char *best = NULL;
    pare_status status = pare_sql_prepare(records->store, &statement, &none, all, "");
    while (status == PARE_OK &&
           (status = pare_sql_step(records->store, statement, &row, &none)) == PARE_OK && row) {
        /* The best so far stays the better one unless this one is nearer. */
        const char *both[2] = {best, pare_sql_text(statement, 0, records->arena)};
        best = pare_nearest(name, 2, both);
    }
    pare_sql_finish(statement);
    return best;
}

static pare_status check_references(const pare_records *records, const pare_node *node,
                                    pare_error *err)
{
    pare_status status = PARE_OK;
    for (size_t i = 0; i < PARE_COUNT(REFERENCES) && status == PARE_OK; i++) {
        const pare_node *name = pare_node_get(node, REFERENCES[i].key);
        long long there = 1;
        if (name)
            status = count_rows(records->store, REFERENCES[i].sql, name->text, &there, err);
        const char *near =
            status == PARE_OK && !there ? nearest_of(records, REFERENCES[i].all, name->text) : NULL;
        if (near)
            status = pare_refuse(records->reading, name, PARE_UNKNOWN, err,
                                 "no %s '%.48s' on the bench; is it '%s'?", REFERENCES[i].what,
                                 name->text, near);
        else if (status == PARE_OK && !there)
            status = pare_refuse(records->reading, name, PARE_UNKNOWN, err,
                                 "no %s '%.48s' on the bench; right would be one that is there",
                                 REFERENCES[i].what, name->text);
    }
    return status;
}

/* ---- flights and weigh-ins ---- */

/* What a flight flew on is a pack. */
static pare_status check_pack(const pare_records *records, const pare_node *pack, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status = pare_sql_prepare(records->store, &statement, err,
                                          "SELECT kind FROM part WHERE id = ?", "t", pack->text);
    if (status == PARE_OK)
        status = pare_sql_step(records->store, statement, &row, err);
    const char *kind = row ? pare_sql_chars(statement, 0) : NULL;
    if (status == PARE_OK && kind && strcmp(kind, pare_kind_name(PARE_PACK)) != 0)
        status =
            pare_refuse(records->reading, pack, PARE_BAD_DATA, err,
                        "'%.48s' is a part of kind %.24s; right would be a pack", pack->text, kind);
    pare_sql_finish(statement);
    return status;
}

/* A craft that had such a loadout once may have lost it since, so the record is kept; but it is said. */
static pare_status note_loadout(const pare_records *records, const pare_node *node, pare_error *err)
{
    const pare_node *loadout = pare_node_get(node, "loadout"),
                    *craft = pare_node_get(node, "craft");
    const pare_node *root = NULL;
    if (!loadout || !records->reading->notes)
        return PARE_OK;
    const pare_status status =
        pare_craft_tree(records->store, craft->text, records->reading->arena, &root, err);
    const pare_node *all = status == PARE_OK ? pare_node_get(root, "loadouts") : NULL;
    if (status != PARE_OK || (all && pare_node_get(all, loadout->text)))
        return status;
    char place[PARE_WHERE];
    pare_text names = {0};
    for (const pare_node *one = all ? all->first : NULL; one; one = one->next)
        pare_text_printf(&names, "%s%.48s", names.length ? ", " : "", one->key);
    pare_note(records->reading->notes,
              "%s: %.48s has no loadout '%.48s', so this is kept but not used; right would be %s",
              pare_where(records->reading, loadout->line, loadout->column, place), craft->text,
              loadout->text, names.length ? pare_text_all(&names) : "none: it has no loadouts");
    pare_text_free(&names);
    return PARE_OK;
}

/* ---- stand tables ---- */

/* A part that a record names, which is there. */
static pare_status part_of(const pare_records *records, const pare_node *name, pare_part **part,
                           pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = false;
    const pare_node *root = NULL;
    pare_files files = {.store = records->store, .arena = records->arena};
    pare_reading reading = *records->reading;
    reading.name = name->text;
    reading.arena = records->arena;
    reading.notes = NULL;
    reading.typed = NULL;
    reading.find_file = pare_files_find;
    reading.find_context = &files;
    pare_status status = pare_sql_prepare(records->store, &statement, err,
                                          "SELECT doc FROM part WHERE id = ?", "t", name->text);
    if (status == PARE_OK)
        status = pare_sql_step(records->store, statement, &row, err);
    const char *doc = row ? pare_sql_text(statement, 0, records->arena) : NULL;
    pare_sql_finish(statement);
    if (status == PARE_OK && !doc)
        return pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_tree_parse_map(doc, strlen(doc), name->text, records->arena, &root, err);
    return status == PARE_OK ? pare_read_part(&reading, root, part, err) : status;
}

/* Whether such a motor with such a propeller can have given these numbers. */
static pare_status check_stand(const pare_records *records, const pare_node *node, pare_error *err)
{
    const pare_node *at = NULL;
    pare_part *motor = NULL, *propeller = NULL;
    pare_stand_table table;
    pare_reading reading = *records->reading;
    pare_status status = part_of(records, pare_node_get(node, "motor"), &motor, err);
    if (status == PARE_OK)
        status = part_of(records, pare_node_get(node, "propeller"), &propeller, err);
    if (status != PARE_OK)
        return status;
    pare_arena *arena = pare_arena_open();
    reading.arena = arena;
    status = arena ? pare_read_stand(&reading, node, motor, propeller, arena, &table, &at, err)
                   : pare_no_memory(err);
    pare_arena_close(arena);
    return status == PARE_BAD_DATA && at ? pare_refused_at(records->reading, at, NULL, err)
                                         : status;
}

/* The text of a record, among those of the list. */
static pare_status add_text(pare_records *records, const pare_node *node, const char **doc,
                            pare_error *err)
{
    pare_text text = {0};
    pare_tree_write(node, 0, &text);
    *doc = text.failed ? NULL : pare_arena_copy(records->arena, text.bytes, text.length);
    pare_text_free(&text);
    if (records->count == records->size) {
        const size_t size = records->size ? 2 * records->size : 64;
        const char **docs = pare_arena_array(records->arena, size, sizeof *docs);
        if (!docs)
            return pare_no_memory(err);
        if (records->count)
            memcpy(docs, records->docs, records->count * sizeof *docs);
        records->docs = docs;
        records->size = size;
    }
    records->docs[records->count++] = *doc;
    return *doc ? PARE_OK : pare_no_memory(err);
}

/* How many flights in the store are that one, whatever was foretold of them then. */
static pare_status count_foretold(const pare_records *records, const pare_node *node,
                                  long long *count, pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    pare_arena *arena = records->reading->arena;
    const pare_node *plain = pare_foretold_without(arena, node);
    pare_status status =
        plain ? pare_sql_prepare(records->store, &statement, err,
                                 "SELECT doc FROM flight WHERE craft = ? AND date = ?", "tt",
                                 pare_node_get(node, "craft")->text,
                                 pare_node_get(node, "date")->text)
              : pare_no_memory(err);
    *count = 0;
    while (status == PARE_OK) {
        const pare_node *there = NULL;
        status = pare_sql_step(records->store, statement, &row, err);
        if (status != PARE_OK || !row)
            break;
        const char *doc = pare_sql_text(statement, 0, arena);
        status = doc ? pare_tree_parse_map(doc, strlen(doc), "flight", arena, &there, err)
                     : pare_no_memory(err);
        const pare_node *its = status == PARE_OK ? pare_foretold_without(arena, there) : NULL;
        if (status == PARE_OK && !its)
            status = pare_no_memory(err);
        *count += its && pare_node_same(its, plain);
    }
    pare_sql_finish(statement);
    return status;
}

/* How often this text stands in the list up to now, and how often in the store. */
static pare_status is_new(const pare_records *records, const pare_node *node, const char *doc,
                          bool foretold, bool *fresh, pare_error *err)
{
    long long listed = 0, kept = 0;
    for (size_t i = 0; i < records->count; i++)
        listed += strcmp(records->docs[i], doc) == 0;
    pare_status status =
        count_rows(records->store, RECORD_SQL[records->record].count, doc, &kept, err);
    if (status == PARE_OK && foretold && kept < listed)
        status = count_foretold(records, node, &kept, err);
    *fresh = records->again || kept < listed;
    return status;
}

pare_status pare_records_keep(pare_records *records, const pare_node *node, pare_error *err)
{
    const char *doc = NULL;
    bool fresh = false, held = false;
    const pare_node *typed = node;
    const bool weighed = records->record == PARE_RECORD_WEIGH_IN;
    pare_status status = pare_record_check(records->reading, records->record, node, err);
    if (status == PARE_OK)
        status = check_references(records, node, err);
    if (status == PARE_OK && weighed)
        status = pare_weighed_of_kept(records->reading, typed, &node, err);
    const pare_node *said = node;
    const pare_node *pack = pare_node_get(node, "pack");
    if (status == PARE_OK && pack)
        status = check_pack(records, pack, err);
    if (status == PARE_OK)
        status = note_loadout(records, node, err);
    if (status == PARE_OK && records->record == PARE_RECORD_STAND_TABLE)
        status = check_stand(records, node, err);
    if (status == PARE_OK && records->record == PARE_RECORD_FLIGHT)
        status = pare_foretell(records->foreteller, records->reading, node, &said, &held, err);
    if (status == PARE_OK)
        status = add_text(records, said, &doc, err);
    if (status == PARE_OK)
        status = is_new(records, node, doc, said != node, &fresh, err);
    /* What came in while the craft had it may come in again. */
    if (status == PARE_OK && weighed && fresh)
        status = pare_weighed_of_check(records->store, records->reading, typed, err);
    if (status == PARE_OK && fresh)
        status = pare_row_put_record(records->store, RECORD_SQL[records->record].table,
                                     records->row, said, doc, err);
    if (status == PARE_OK)
        ++*(fresh ? &records->added : &records->same);
    if (status == PARE_OK && fresh && said != node) {
        records->foretold++;
        records->held += held;
    }
    return status;
}

pare_status pare_records_add(pare_store *store, pare_record record, size_t count,
                             pare_node *const node[], pare_arena *arena, const pare_change *change,
                             pare_error *err)
{
    const pare_reading reading = {
        .name = pare_record_list(record), .arena = arena, .units = pare_units_open()};
    pare_records records = {
        .store = store, .reading = &reading, .arena = arena, .record = record, .again = true};
    pare_status status =
        reading.units ? pare_change_begin(store, change, false, err) : pare_no_memory(err);
    if (status == PARE_OK) {
        for (size_t i = 0; i < count && status == PARE_OK; i++)
            status = pare_records_keep(&records, node[i], err);
        status = pare_change_end(store, status, true, err);
    }
    pare_units_close(reading.units);
    return status;
}
