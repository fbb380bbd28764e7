/* export.c: the bench as text, and its mesh files (see bench.h).
 *
 * Rows hold their text as it is written, so an export only strings it together, pushed in by two under
 * a dash. */
#include <string.h>

#include "store/disk.h"
#include "store/load.h"
#include "store/studies.h"
#include "store/weighed_of.h"

const pare_export_list pare_export_lists[PARE_EXPORT_LISTS] = {
    {"parts", "SELECT doc FROM part ORDER BY id"},
    {"craft", "SELECT doc FROM craft ORDER BY name"},
    {"scales", "SELECT doc FROM scale ORDER BY id"},
    {"weigh_ins", "SELECT doc FROM weigh_in ORDER BY craft, date, row"},
    {"flights", "SELECT doc FROM flight ORDER BY craft, date, row"},
    {"stand_tables", "SELECT doc FROM stand_table ORDER BY motor, propeller, row"},
};

static void put_entry(const char *doc, pare_text *out)
{
    pare_text_add(out, "- ");
    for (const char *line = doc; line;) {
        const char *end = strchr(line, '\n');
        if (line != doc)
            pare_text_add(out, "  ");
        pare_text_put(out, line, end ? (size_t)(end - line) : strlen(line));
        pare_text_add(out, "\n");
        line = end ? end + 1 : NULL;
    }
}

/* A row's text under its dash; of weigh-ins as they go out. */
static pare_status put_row(pare_store *store, const char *key, const char *doc, pare_text *out,
                           pare_error *err)
{
    pare_status status = PARE_OK;
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    if (strcmp(key, "weigh_ins") == 0)
        status = pare_weighed_of_out(store, doc, arena, &doc, err);
    if (status == PARE_OK)
        put_entry(doc ? doc : "{}", out);
    pare_arena_close(arena);
    return status;
}

static pare_status put_list(pare_store *store, const char *key, const char *sql, pare_text *out,
                            pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    pare_status status = pare_sql_prepare(store, &statement, err, sql, "");
    for (size_t n = 0; status == PARE_OK; n++) {
        status = pare_sql_step(store, statement, &row, err);
        if (!row)
            break;
        if (n == 0)
            pare_text_printf(out, "%s:\n", key);
        status = put_row(store, key, pare_sql_chars(statement, 0), out, err);
        if (status == PARE_OK)
            status = pare_store_step(store, key, n + 1, 0, err);
    }
    pare_sql_finish(statement);
    return status;
}

pare_status pare_store_export_yaml(pare_store *store, pare_text *out, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    const char *money = "";
    if (!arena)
        return pare_no_memory(err);
    pare_status status = pare_sql_begin_reading(store, err);
    if (status == PARE_OK)
        status = pare_load_setting(store, "money", arena, &money, err);
    if (status == PARE_OK) {
        pare_text_add(out, "pare: 1\n");
        if (*money)
            pare_text_printf(out, "money: %s\n", money);
    }
    for (size_t i = 0; i < PARE_EXPORT_LISTS && status == PARE_OK; i++)
        status = put_list(store, pare_export_lists[i].key, pare_export_lists[i].sql, out, err);
    pare_sql_rollback(store);
    pare_arena_close(arena);
    if (status == PARE_OK && out->failed)
        status = pare_no_memory(err);
    return status;
}

static pare_status write_file(const char *folder, pare_statement *statement, pare_error *err)
{
    const char *name = pare_sql_chars(statement, 0);
    pare_text path = {0};
    pare_text_printf(&path, "%s/%s", folder, name ? name : "");
    pare_status status = path.failed ? pare_no_memory(err) : PARE_OK;
    /* Names were checked when they came in; a bench from elsewhere may hold others. */
    if (status == PARE_OK && (!name || !*name || name[0] == '/' || strstr(name, "..")))
        status = pare_fail(err, PARE_BAD_DATA,
                           "the bench keeps a file under the name '%.80s', which is none", name);
    if (status == PARE_OK)
        status = pare_disk_folders(path.bytes, err);
    if (status == PARE_OK)
        status = pare_disk_write(path.bytes, pare_sql_bytes(statement, 1),
                                 pare_sql_length(statement, 1), err);
    pare_text_free(&path);
    return status;
}

pare_status pare_store_export_files(pare_store *store, const char *folder, size_t *count,
                                    pare_error *err)
{
    pare_statement *statement = NULL;
    bool row = true;
    size_t written = 0;
    pare_status status =
        pare_sql_prepare(store, &statement, err,
                         "SELECT name, bytes FROM file WHERE name NOT LIKE '" PARE_STUDIES "' "
                         "ORDER BY name",
                         "");
    while (status == PARE_OK) {
        status = pare_sql_step(store, statement, &row, err);
        if (!row)
            break;
        status = write_file(folder, statement, err);
        written += status == PARE_OK;
    }
    pare_sql_finish(statement);
    if (status == PARE_OK && count)
        *count = written;
    return status;
}
