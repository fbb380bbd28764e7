/* store_fails.h: a work of the store (store_works.h) of whose calls one fails (fails.h). */
#ifndef PARE_TESTS_STORE_FAILS_H
#define PARE_TESTS_STORE_FAILS_H

#include "fails.h"
#include "store_works.h"

/* Does it with the nth call failing.
 * @param[out] done  it has fewer calls than that, so none failed */
static inline pare_status fails_at(long n, pare_store *store, store_work does, bool *done,
                                   pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    *err = (pare_error){0};
    until_failure = n;
    const pare_status status = does(store, arena, err);
    *done = until_failure >= 0;
    until_failure = -1;
    pare_arena_close(arena);
    return status;
}

/* The bench is as its text was before. */
static inline void expect_bench(pare_store *store, const char *before)
{
    char *after = store_text(store);
    assert_string_equal(after, before);
    free(after);
}

#endif
