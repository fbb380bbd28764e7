/* studies.c: see studies.h. */
#include "store/studies.h"

#include <string.h>

#include "base/grow.h"
#include "store/change.h"
#include "store/path.h"
#include "store/sql.h"

/* "/studies/%" without its last letter. */
enum { BEFORE_NAME = sizeof PARE_STUDIES - 2 };

static const char *file_of(pare_arena *arena, const char *name)
{
    return pare_arena_printf(arena, "%.*s%s", BEFORE_NAME, PARE_STUDIES, name);
}

pare_status pare_store_kept_studies(pare_store *store, pare_arena *arena, size_t *count,
                                    const char *const **names, pare_error *err)
{
    pare_statement *statement = NULL;
    const char **list = NULL;
    size_t n = 0, size = 0;
    bool row = true;
    pare_status status = pare_sql_prepare(
        store, &statement, err,
        "SELECT name FROM file WHERE name LIKE '" PARE_STUDIES "' ORDER BY name", "");
    while (status == PARE_OK) {
        status = pare_sql_step(store, statement, &row, err);
        if (status != PARE_OK || !row)
            break;
        list = pare_grown(arena, list, n, &size, sizeof *list);
        const char *file = list ? pare_sql_text(statement, 0, arena) : NULL;
        if (!file)
            status = pare_no_memory(err);
        else
            list[n++] = file + BEFORE_NAME;
    }
    pare_sql_finish(statement);
    if (status == PARE_OK) {
        *count = n;
        *names = list;
    }
    return status;
}

static pare_status none_kept(pare_store *store, const char *name, pare_arena *arena,
                             pare_error *err)
{
    size_t count = 0;
    const char *const *names = NULL;
    const pare_status status = pare_store_kept_studies(store, arena, &count, &names, err);
    if (status != PARE_OK)
        return status;
    const char *near = pare_nearest(name, count, names);
    return pare_fail(err, PARE_UNKNOWN,
                     near ? "no study '%.48s' is kept on this bench; did you mean %.48s?"
                          : "no study '%.48s' is kept on this bench; pare study lists them",
                     name, near);
}

pare_status pare_store_kept_study(pare_store *store, const char *name, pare_arena *arena,
                                  const char **bytes, size_t *length, pare_error *err)
{
    const char *file = file_of(arena, name);
    pare_statement *statement = NULL;
    bool row = false;
    pare_status status = file ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_sql_prepare(store, &statement, err, "SELECT bytes FROM file WHERE name = ?",
                                  "t", file);
    if (status == PARE_OK)
        status = pare_sql_step(store, statement, &row, err);
    if (row) {
        *length = pare_sql_length(statement, 0);
        *bytes = pare_arena_copy(arena, pare_sql_bytes(statement, 0), *length);
        if (!*bytes)
            status = pare_no_memory(err);
    }
    pare_sql_finish(statement);
    return status == PARE_OK && !row ? none_kept(store, name, arena, err) : status;
}

static pare_status keep(pare_store *store, const char *name, const void *bytes, size_t length,
                        pare_arena *arena, pare_error *err)
{
    const char *file = file_of(arena, name);
    if (!file)
        return pare_no_memory(err);
    if (bytes)
        return pare_sql_change(store, err,
                               "INSERT INTO file(name, bytes) VALUES (?, ?) ON CONFLICT (name) DO "
                               "UPDATE SET bytes = excluded.bytes",
                               "tb", file, bytes, length);
    const pare_status status =
        pare_sql_change(store, err, "DELETE FROM file WHERE name = ?", "t", file);
    return status == PARE_OK && pare_sql_changed(store) == 0 ? none_kept(store, name, arena, err)
                                                             : status;
}

pare_status pare_store_keep_study(pare_store *store, const char *name, const void *bytes,
                                  size_t length, const pare_change *change, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? pare_change_begin(store, change, false, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_change_end(store, keep(store, name, bytes, length, arena, err), true, err);
    pare_arena_close(arena);
    return status;
}
