/* store_bench.h: a bench in a temporary folder, for tests of the store. */
#ifndef PARE_TESTS_STORE_BENCH_H
#define PARE_TESTS_STORE_BENCH_H

#include <dirent.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "near.h"
#include "server.h"
#include "store/bench.h"

typedef struct store_fixture {
    char folder[64], path[160]; /* of the bench, which may be on a server */
    pare_store *store;
} store_fixture;

/* Benches on the server have a database each while they are there. */
static int stores_in_use;

static inline int store_setup(void **state)
{
    store_fixture *f = calloc(1, sizeof *f);
    pare_error err = {0};
    assert_non_null(f);
    strcpy(f->folder, "/tmp/pare-store-XXXXXX");
    assert_non_null(mkdtemp(f->folder));
    chmod(f->folder, 0755); /* tests may look at it as another user */
    if (on_server())
        server_bench(2 + stores_in_use++, f->path, sizeof f->path);
    else
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
    stores_in_use -= on_server();
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

/* Meddles with the bench past the store. */
static inline void store_meddle(const store_fixture *f, const char *sql)
{
    sqlite3 *db = NULL;
    if (on_server()) {
        server_run(f->path, sql);
        return;
    }
    assert_int_equal(sqlite3_open(f->path, &db), SQLITE_OK);
    if (sqlite3_exec(db, sql, NULL, NULL, NULL) != SQLITE_OK)
        fail_msg("%s", sqlite3_errmsg(db));
    sqlite3_close(db);
}

/* The first number of an answer, past the store. */
static inline long long store_ask(const store_fixture *f, const char *sql)
{
    sqlite3 *db = NULL;
    sqlite3_stmt *statement = NULL;
    if (on_server())
        return server_ask(f->path, sql);
    assert_int_equal(sqlite3_open(f->path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &statement, NULL), SQLITE_OK);
    assert_int_equal(sqlite3_step(statement), SQLITE_ROW);
    const long long answer = sqlite3_column_int64(statement, 0);
    sqlite3_finalize(statement);
    sqlite3_close(db);
    return answer;
}

/* A test of what only a file does. */
#define ONLY_FILE()                                                                                \
    do {                                                                                           \
        if (on_server())                                                                           \
            skip();                                                                                \
    } while (0)

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
