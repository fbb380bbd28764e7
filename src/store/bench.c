/* bench.c: which kind of bench a name means, and what all kinds have in common (see bench.h). */
#include "store/bench.h"

#include <stdlib.h>
#include <string.h>

#include "store/pg.h"
#include "store/sqlite.h"

pare_status pare_store_open(const char *path, pare_store_mode mode, pare_store **store,
                            pare_error *err)
{
    *store = NULL;
    if (!*path)
        return pare_fail(err, PARE_BAD_DATA, "an empty name for a bench; right would be a file");
    return pare_store_on_server(path) ? pare_pg_open(path, mode, store, err)
                                      : pare_sqlite_open(path, mode, store, err);
}

bool pare_store_on_server(const char *path)
{
    return strncmp(path, "postgresql://", 13) == 0 || strncmp(path, "postgres://", 11) == 0;
}

pare_status pare_store_shown(const char *path, pare_text *shown, pare_error *err)
{
    if (pare_store_on_server(path))
        return pare_pg_shown(path, shown, err);
    pare_text_add(shown, path);
    return shown->failed ? pare_no_memory(err) : PARE_OK;
}

pare_status pare_store_in_memory(pare_store **store, pare_error *err)
{
    pare_status status = pare_sqlite_open_memory("the bench in memory", store, err);
    if (status == PARE_OK)
        status = pare_sqlite_make(*store, err);
    if (status == PARE_OK)
        return status;
    pare_store_close(*store);
    *store = NULL;
    return status;
}

void pare_store_check_with(pare_store *store, pare_craft_check check)
{
    store->check = check;
}

void pare_store_close(pare_store *store)
{
    if (!store)
        return;
    pare_sql_close(store);
    free(store->kept);
    free(store->path);
    free(store);
}

pare_status pare_store_default_path(bool demo, pare_text *path, pare_error *err)
{
    const char *data = getenv("XDG_DATA_HOME"), *home = getenv("HOME");
    const char *file = demo ? "demo.sqlite" : "bench.sqlite";
    /* The XDG base directory specification: a relative path there is to be ignored. */
    if (data && data[0] == '/')
        pare_text_printf(path, "%s/pare/%s", data, file);
    else if (home && home[0])
        pare_text_printf(path, "%s/.local/share/pare/%s", home, file);
    else
        return pare_fail(err, PARE_BAD_DATA,
                         "neither XDG_DATA_HOME nor HOME says where the bench is; right would be "
                         "--bench FILE");
    return path->failed ? pare_no_memory(err) : PARE_OK;
}
