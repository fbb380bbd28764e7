/* row.c: rows of the bench (see row.h).
 *
 * A text is what is kept; kind, maker, mass, facts, and which parts and files it names follow from it
 * and are worked out here, whoever writes: an import, an edit, or the history. */
#include "store/row.h"

#include <stdlib.h>
#include <string.h>

#include "store/facts.h"
#include "store/file.h"
#include "store/read_craft.h"
#include "store/read_part.h"

pare_status pare_row_put_part(const pare_store *store, long long row, const pare_part *part,
                              const char *doc, pare_error *err)
{
    unsigned char facts[PARE_FACTS_MOST];
    const size_t length = pare_facts_pack(part, facts);
    return pare_sql_change(
        store, err,
        "INSERT INTO part(row, id, kind, maker, mass_kg, facts, doc) "
        "VALUES (nullif(?, 0), ?, ?, ?, ?, ?, ?) "
        "ON CONFLICT (id) DO UPDATE SET kind = excluded.kind, maker = excluded.maker, "
        "mass_kg = excluded.mass_kg, facts = excluded.facts, doc = excluded.doc",
        "itttdbt", row, part->id, pare_kind_name(part->kind), part->maker, part->mass_kg.value,
        (const void *)facts, length, doc);
}

pare_status pare_row_add_part(const pare_store *store, const pare_part *part, const char *doc,
                              bool *there, pare_error *err)
{
    unsigned char facts[PARE_FACTS_MOST];
    const size_t length = pare_facts_pack(part, facts);
    const pare_status status =
        pare_sql_change(store, err,
                        "INSERT INTO part(id, kind, maker, mass_kg, facts, doc) "
                        "VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING",
                        "tttdbt", part->id, pare_kind_name(part->kind), part->maker,
                        part->mass_kg.value, (const void *)facts, length, doc);
    *there = status == PARE_OK && pare_sql_changed(store) == 0;
    return status;
}

static pare_status tie_parts(const pare_store *store, const pare_reading *reading,
                             const pare_node *node, const char *craft, pare_error *err)
{
    const char **ids = NULL;
    size_t count = 0;
    pare_status status = pare_craft_part_ids(reading, node, &count, &ids, err);
    if (status == PARE_OK)
        status = pare_sql_change(store, err, "DELETE FROM craft_part WHERE craft = ?", "t", craft);
    for (size_t i = 0; i < count && status == PARE_OK; i++)
        status = pare_sql_change(store, err, "INSERT INTO craft_part(craft, part) VALUES (?, ?)",
                                 "tt", craft, ids[i]);
    return status;
}

pare_status pare_row_put_craft(const pare_store *store, long long row, const pare_reading *reading,
                               const pare_node *node, const char *name, const char *doc,
                               pare_error *err)
{
    const pare_status status =
        pare_sql_change(store, err,
                        "INSERT INTO craft(row, name, doc) "
                        "VALUES (nullif(?, 0), ?, ?) "
                        "ON CONFLICT (name) DO UPDATE SET doc = excluded.doc",
                        "itt", row, name, doc);
    return status == PARE_OK ? tie_parts(store, reading, node, name, err) : status;
}

/* Where the rows of a list stand, and which keys of their text have a column of their own. */
static const struct {
    const char *list, *name, *text;
    const char *insert;  /* of a record */
    const char *keys[3]; /* bound after number and text, in this order; NULL: none */
} LISTS[] = {
    {"setting", "name", "value", NULL, {NULL}},
    {"file", "name", "bytes", NULL, {NULL}},
    {"part", "id", "doc", NULL, {NULL}},
    {"craft", "name", "doc", NULL, {NULL}},
    {"scale",
     "id",
     "doc",
     "INSERT INTO scale(row, doc, id) VALUES (nullif(?, 0), ?, ?) "
     "ON CONFLICT (id) DO UPDATE SET doc = excluded.doc",
     {"id"}},
    {"weigh_in",
     "NULL",
     "doc",
     "INSERT INTO weigh_in(row, doc, craft, date, scale) VALUES (nullif(?, 0), ?, ?, ?, ?)",
     {"craft", "date", "scale"}},
    {"flight",
     "NULL",
     "doc",
     "INSERT INTO flight(row, doc, craft, date, pack) VALUES (nullif(?, 0), ?, ?, ?, ?) "
     "ON CONFLICT (row) DO UPDATE SET doc = excluded.doc, pack = excluded.pack",
     {"craft", "date", "pack"}},
    {"stand_table",
     "NULL",
     "doc",
     "INSERT INTO stand_table(row, doc, motor, propeller) VALUES (nullif(?, 0), ?, ?, ?)",
     {"motor", "propeller"}},
};

static size_t list_of(const char *list)
{
    size_t i = 0;
    while (i + 1 < PARE_COUNT(LISTS) && strcmp(LISTS[i].list, list) != 0)
        i++;
    return i;
}

const char *pare_row_name_column(const char *list)
{
    return LISTS[list_of(list)].name;
}

const char *pare_row_text_column(const char *list)
{
    return LISTS[list_of(list)].text;
}

pare_status pare_row_put_record(const pare_store *store, const char *list, long long row,
                                const pare_node *node, const char *doc, pare_error *err)
{
    static const char *const types[] = {"it", "itt", "ittt", "itttt"};
    const size_t at = list_of(list);
    const char *value[3] = {NULL, NULL, NULL};
    size_t count = 0;
    for (; count < 3 && LISTS[at].keys[count]; count++) {
        const pare_node *key = pare_node_get(node, LISTS[at].keys[count]);
        value[count] = key ? key->text : NULL;
    }
    return pare_sql_change(store, err, LISTS[at].insert, types[count], row, doc, value[0], value[1],
                           value[2]);
}

/* ---- back from the history ---- */

struct pare_rows {
    pare_store *store;
    pare_units *units;
    pare_arena *arena; /* of the row at hand */
};

pare_status pare_rows_open(pare_store *store, pare_rows **rows, pare_error *err)
{
    pare_rows *made = calloc(1, sizeof *made);
    *rows = made;
    if (made)
        *made = (pare_rows){.store = store, .units = pare_units_open()};
    return made && made->units ? PARE_OK : pare_no_memory(err);
}

void pare_rows_close(pare_rows *rows)
{
    if (!rows)
        return;
    pare_units_close(rows->units);
    pare_arena_close(rows->arena);
    free(rows);
}

static pare_status part_back(const pare_reading *reading, pare_files *files, long long row,
                             const pare_node *node, const char *doc, pare_error *err)
{
    pare_part *part = NULL;
    pare_status status = pare_read_part(reading, node, &part, err);
    if (status == PARE_OK)
        status = pare_row_put_part(files->store, row, part, doc, err);
    return status == PARE_OK ? pare_files_tie(files, part->id, err) : status;
}

static pare_status read_back(pare_rows *rows, const char *list, long long row, const char *name,
                             const char *doc, pare_error *err)
{
    pare_files files = {.store = rows->store, .arena = rows->arena, .may_keep = true};
    const pare_reading reading = {.name = rows->store->path,
                                  .arena = rows->arena,
                                  .units = rows->units,
                                  .find_file = pare_files_find,
                                  .find_context = &files};
    const pare_node *node = NULL;
    pare_status status = pare_tree_parse(doc, strlen(doc), reading.name, rows->arena, &node, err);
    if (status != PARE_OK)
        return status;
    if (strcmp(list, "part") == 0)
        return part_back(&reading, &files, row, node, doc, err);
    if (strcmp(list, "craft") == 0)
        return pare_row_put_craft(rows->store, row, &reading, node, name, doc, err);
    return pare_row_put_record(rows->store, list, row, node, doc, err);
}

pare_status pare_rows_bring_back(pare_rows *rows, const char *list, pare_statement *statement,
                                 pare_error *err)
{
    const long long row = pare_sql_int(statement, 0);
    pare_arena_close(rows->arena);
    rows->arena = pare_arena_open();
    if (!rows->arena)
        return pare_no_memory(err);
    if (strcmp(list, "file") == 0)
        return pare_sql_change(rows->store, err,
                               "INSERT INTO file(row, name, bytes) VALUES (?, ?, ?)", "itb", row,
                               pare_sql_chars(statement, 1), pare_sql_bytes(statement, 2),
                               pare_sql_length(statement, 2));
    const char *name = pare_sql_text(statement, 1, rows->arena);
    const char *doc = pare_sql_text(statement, 2, rows->arena);
    if (!name || !doc)
        return pare_no_memory(err);
    if (strcmp(list, "setting") == 0)
        return pare_sql_change(rows->store, err,
                               "INSERT INTO setting(row, name, value) VALUES (?, ?, ?)", "itt", row,
                               name, doc);
    return read_back(rows, list, row, name, doc, err);
}
