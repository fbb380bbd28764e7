/* rooms: store craft physics base */
/* SQLite fails at its nth call, for every n, once: the answer is an error, the bench is as it was and can
 * be used, and nothing leaks. The linker puts the functions below in the place of SQLite's. */
#include <sqlite3.h>

#include "near.h"
#include "store_fails.h"

int __real_sqlite3_step(sqlite3_stmt *statement);
int __real_sqlite3_prepare_v2(sqlite3 *db, const char *sql, int bytes, sqlite3_stmt **statement,
                              const char **tail);
int __real_sqlite3_exec(sqlite3 *db, const char *sql, int (*row)(void *, int, char **, char **),
                        void *context, char **message);
int __wrap_sqlite3_step(sqlite3_stmt *statement);
int __wrap_sqlite3_prepare_v2(sqlite3 *db, const char *sql, int bytes, sqlite3_stmt **statement,
                              const char **tail);
int __wrap_sqlite3_exec(sqlite3 *db, const char *sql, int (*row)(void *, int, char **, char **),
                        void *context, char **message);

int __wrap_sqlite3_step(sqlite3_stmt *statement)
{
    return fails() ? SQLITE_IOERR : __real_sqlite3_step(statement);
}

int __wrap_sqlite3_prepare_v2(sqlite3 *db, const char *sql, int bytes, sqlite3_stmt **statement,
                              const char **tail)
{
    *statement = NULL;
    return fails() ? SQLITE_IOERR : __real_sqlite3_prepare_v2(db, sql, bytes, statement, tail);
}

/* Rolling back cannot be answered with an error by anyone: SQLite does it by itself after one. */
int __wrap_sqlite3_exec(sqlite3 *db, const char *sql, int (*row)(void *, int, char **, char **),
                        void *context, char **message)
{
    const bool back = strcmp(sql, "ROLLBACK") == 0;
    return !back && fails() ? SQLITE_IOERR : __real_sqlite3_exec(db, sql, row, context, message);
}

static void each_call_fails_once(pare_store *store, store_work does, bool changes, size_t which)
{
    enum { MOST = 20000 };
    char *before = store_text(store);
    long n = 0;
    for (bool done = false; !done; n++) {
        assert_true(n < MOST);
        pare_error err;
        const pare_status status = fails_at(n, store, does, &done, &err);
        if (done && status != PARE_OK)
            fail_msg("work %zu: %s", which, err.text);
        if (status != PARE_OK && !*err.text)
            fail_msg("work %zu, call %ld: an error without words", which, n);
        if (status != PARE_OK || !changes) {
            char *after = store_text(store);
            if (strcmp(after, before) != 0)
                fail_msg("work %zu, call %ld: the bench is another", which, n);
            free(after);
        }
        /* A failure that nobody needs to hear of (a cache) may have been passed over, and the change
         * then stands: what is to be altered next is there no more. */
        if (status == PARE_OK && changes)
            break;
    }
    assert_true(n > 0);
    free(before);
}

static void whatever_the_store_does_fails_whole(void **state)
{
    for (size_t i = 0; i < sizeof STORE_WORKS / sizeof *STORE_WORKS; i++) {
        fill(state);
        each_call_fails_once(store_of(state), STORE_WORKS[i].does, STORE_WORKS[i].changes, i);
    }
}

static pare_status undo(pare_store *store, pare_arena *arena, pare_error *err)
{
    pare_change_row row;
    return pare_store_undo(store, arena, &row, err);
}

static void an_undo_that_fails_has_undone_nothing(void **state)
{
    pare_store *store = store_of(state);
    fill(state);
    char *before = store_text(store);
    bool done = false;
    for (long n = 0; !done; n++) {
        pare_error err;
        const pare_status status = fails_at(n, store, undo, &done, &err);
        assert_int_equal(status == PARE_OK, done);
        char *after = store_text(store);
        assert_int_equal(strcmp(after, before) == 0, !done);
        free(after);
    }
    free(before);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(whatever_the_store_does_fails_whole, store_setup,
                                        store_teardown),
        cmocka_unit_test_setup_teardown(an_undo_that_fails_has_undone_nothing, store_setup,
                                        store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
