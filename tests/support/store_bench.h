/* store_bench.h: a bench in a temporary folder, for tests of the store. */
#ifndef PARE_TESTS_STORE_BENCH_H
#define PARE_TESTS_STORE_BENCH_H

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "near.h"
#include "store/bench.h"

typedef struct store_fixture {
    char folder[64], path[96]; /* of the bench */
    pare_store *store;
} store_fixture;

static inline int store_setup(void **state)
{
    store_fixture *f = calloc(1, sizeof *f);
    pare_error err = {0};
    assert_non_null(f);
    strcpy(f->folder, "/tmp/pare-store-XXXXXX");
    assert_non_null(mkdtemp(f->folder));
    chmod(f->folder, 0755); /* tests may look at it as another user */
    snprintf(f->path, sizeof f->path, "%s/bench.sqlite", f->folder);
    if (pare_store_open(f->path, PARE_STORE_CREATE, &f->store, &err) != PARE_OK)
        fail_msg("%s", err.text);
    *state = f;
    return 0;
}

static inline int store_teardown(void **state)
{
    store_fixture *f = *state;
    pare_store_close(f->store);
    DIR *folder = opendir(f->folder);
    assert_non_null(folder);
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        char path[400];
        snprintf(path, sizeof path, "%s/%s", f->folder, entry->d_name);
        unlink(path);
    }
    closedir(folder);
    rmdir(f->folder);
    free(f);
    return 0;
}

static inline pare_store *store_of(void **state)
{
    return ((store_fixture *)*state)->store;
}

/* Imports a text under the name b.yaml. */
static inline pare_status store_take(pare_store *store, const char *text, pare_error *err)
{
    const pare_import import = {.bytes = text, .length = strlen(text), .name = "b.yaml"};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    const pare_status status = pare_store_import_yaml(store, &import, arena, &summary, err);
    pare_arena_close(arena);
    return status;
}

/* The bench as text; the caller frees it. */
static inline char *store_text(pare_store *store)
{
    pare_text text = {0};
    pare_error err = {0};
    if (pare_store_export_yaml(store, &text, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return text.bytes;
}

/* The number of the last change in the history; 0: none. */
static inline long long store_newest(pare_store *store)
{
    pare_change_row *rows = NULL;
    size_t count = 0;
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    assert_int_equal(pare_store_history(store, 1, arena, &count, &rows, &err), PARE_OK);
    const long long number = count ? rows[0].number : 0;
    pare_arena_close(arena);
    return number;
}

/* Undoes, or does again. */
static inline pare_status store_turn(pare_store *store, bool undo, pare_error *err)
{
    pare_change_row row;
    pare_arena *arena = pare_arena_open();
    const pare_status status =
        undo ? pare_store_undo(store, arena, &row, err) : pare_store_redo(store, arena, &row, err);
    pare_arena_close(arena);
    return status;
}

/* The bench has just this text. @param run, at  for the message */
static inline void store_expect_text(pare_store *store, const char *wanted, unsigned run, size_t at)
{
    char *text = store_text(store);
    if (strcmp(text, wanted) != 0)
        fail_msg("run %u: not the bench of step %zu", run, at);
    free(text);
}

#endif
