/* bench_of.c: a bench from a text (see bench_of.h). */
#include "bench_of.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "near.h"
#include "server.h"
#include "store/bench.h"

static void must(pare_status status, const pare_error *err)
{
    if (status != PARE_OK)
        fail_msg("%s", err->text);
}

static pare_bench *read_all(const pare_import *import)
{
    char folder[] = "/tmp/pare-test-XXXXXX";
    assert_non_null(mkdtemp(folder));
    char path[160];
    if (on_server())
        server_bench(1, path, sizeof path);
    else
        snprintf(path, sizeof path, "%s/bench.sqlite", folder);
    pare_error err = {0};
    pare_store *store = NULL;
    pare_bench *bench = NULL;
    pare_arena *arena = pare_arena_open();
    pare_import_summary summary;
    must(pare_store_open(path, PARE_STORE_CREATE, &store, &err), &err);
    must(pare_store_import_yaml(store, import, arena, &summary, &err), &err);
    must(pare_store_read(store, &bench, &err), &err);
    must(pare_store_warm(store, bench, &err), &err);
    pare_store_close(store);
    pare_arena_close(arena);
    const char *const suffix[] = {"", "-wal", "-shm"};
    for (size_t i = 0; i < sizeof suffix / sizeof suffix[0]; i++) {
        char file[176];
        snprintf(file, sizeof file, "%s%s", path, suffix[i]);
        unlink(file);
    }
    rmdir(folder);
    return bench;
}

pare_bench *bench_of(const char *file)
{
    char path[512];
    snprintf(path, sizeof path, "%s/tests/data/%s", PARE_SOURCE_DIR, file);
    const pare_import import = {.path = path};
    return read_all(&import);
}

pare_bench *bench_of_text(const char *text)
{
    const pare_import import = {.bytes = text, .length = strlen(text), .name = "text"};
    return read_all(&import);
}
