/* advise_fails.h: a work of advice (advise_works.h) of whose calls each fails once (fails.h). */
#ifndef PARE_TESTS_ADVISE_FAILS_H
#define PARE_TESTS_ADVISE_FAILS_H

#include "advise_works.h"
#include "fails.h"

static inline void each_fails_once(fixture *f, work does)
{
    enum { MOST = 50000 };
    long n = 0;
    for (bool done = false; !done; n++) {
        assert_true(n < MOST);
        pare_error err = {0};
        pare_arena *arena = pare_arena_open();
        until_failure = n;
        const pare_status status = does(f, arena, &err);
        done = until_failure >= 0;
        until_failure = -1;
        pare_arena_close(arena);
        expect_answer(status, &err, done);
    }
    assert_true(n > 1);
}

#endif
