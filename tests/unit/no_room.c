/* rooms: store craft physics base */
/* Without room in an arena: the nth place asked of one is refused, for every n, and each time the answer is one
 * line, and the bench is as it was. */
#include "arena_fails.h"
#include "share.h"
#include "store_fails.h"

static void each_place_is_refused_once(pare_store *store, store_work does, bool changes,
                                       size_t which)
{
    enum { MOST = 20000 };
    char *before = store_text(store);
    long n = 0;
    for (bool done = false; !done; n += PARE_TEST_SHARE) {
        assert_true(n < MOST);
        pare_error err;
        const pare_status status = fails_at(n, store, does, &done, &err);
        if (status != PARE_OK && !strstr(err.text, "memory"))
            print_error("work %zu, place %ld\n", which, n);
        expect_answer(status, &err, done);
        /* What was wanted for a note alone may be refused unsaid: the change then stands. */
        if (status == PARE_OK && changes && !done && store_turn(store, true, &err) != PARE_OK)
            fail_msg("%s", err.text);
        if (changes && !done)
            expect_bench(store, before);
    }
    if (!changes)
        expect_bench(store, before);
    free(before);
}

static void whatever_the_store_does_without_room_fails_whole(void **state)
{
    for (size_t i = 0; i < sizeof STORE_WORKS / sizeof *STORE_WORKS; i++) {
        fill(state);
        each_place_is_refused_once(store_of(state), STORE_WORKS[i].does, STORE_WORKS[i].changes, i);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(whatever_the_store_does_without_room_fails_whole,
                                        store_setup, store_teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
