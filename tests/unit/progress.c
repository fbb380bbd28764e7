/* rooms: store craft physics base */
/* Long work that is told to stop: wherever it stops, the bench is as it was, and an import that is not
 * stopped is not changed by being watched. Own rules. */
#include "near.h"
#include "store_bench.h"

#define BEFORE                                                                                     \
    "pare: 1\n"                                                                                    \
    "parts:\n"                                                                                     \
    "- {id: fr, kind: frame, mass: 95 g, spec: {wheelbase: 226 mm}}\n"                             \
    "- {id: mo, kind: motor, mass: 30 g, spec: {stator: 22 mm x 7 mm, kv: 1950}}\n"                \
    "- {id: pr, kind: propeller, spec: {diameter: 5.1 in, pitch: 4.3 in, blades: 3}}\n"            \
    "- {id: es, kind: esc_four, mass: 11 g, spec: {continuous: 45 A}}\n"                           \
    "- {id: pa, kind: pack, spec: {chemistry: lipo, cells: 6, capacity: 1050 mAh}}\n"              \
    "craft:\n"                                                                                     \
    "- name: plain\n"                                                                              \
    "  items:\n"                                                                                   \
    "    frame: {part: fr}\n"                                                                      \
    "    motor: {part: mo, count: 4, at: arms}\n"                                                  \
    "    propeller: {part: pr, count: 4, at: arms}\n"                                              \
    "    esc: {part: es}\n"                                                                        \
    "    pack: {part: pa}\n"

#define AFTER                                                                                      \
    "pare: 1\n"                                                                                    \
    "money: EUR\n"                                                                                 \
    "parts:\n"                                                                                     \
    "- {id: mo, kind: motor, mass: 31 g, spec: {stator: 22 mm x 7 mm, kv: 1950}}\n"                \
    "- {id: mo-2, kind: motor, mass: 28 g, spec: {stator: 22 mm x 6 mm, kv: 2400}}\n"              \
    "- {id: pa-2, kind: pack, spec: {chemistry: lipo, cells: 4, capacity: 1300 mAh}}\n"            \
    "craft:\n"                                                                                     \
    "- name: other\n"                                                                              \
    "  items:\n"                                                                                   \
    "    frame: {part: fr}\n"                                                                      \
    "    motor: {part: mo-2, count: 4, at: arms}\n"                                                \
    "    propeller: {part: pr, count: 4, at: arms}\n"                                              \
    "    esc: {part: es}\n"                                                                        \
    "    pack: {part: pa-2}\n"                                                                     \
    "scales:\n"                                                                                    \
    "- {id: kitchen, resolution: 1 g}\n"

/* Stops at one of its steps. */
typedef struct patience {
    size_t steps, last; /* taken so far; the one that stops, from 1, or 0: none */
    size_t counted;     /* of them, those that said how far it is */
    bool never_back;    /* what is done of one thing only grows, up to all */
    const char *doing;
    size_t done;
} patience;

static bool step(void *context, const char *doing, size_t done, size_t all)
{
    patience *p = context;
    if (doing) {
        const bool same = p->doing && strcmp(p->doing, doing) == 0;
        p->never_back =
            p->never_back && (!same || all == 0 || done >= p->done) && (all == 0 || done <= all);
        p->doing = doing;
        p->done = done;
        p->counted++;
    }
    return ++p->steps != p->last;
}

static pare_status take_watched(pare_store *store, patience *p, bool empty_first, pare_error *err)
{
    const pare_progress progress = {.step = step, .context = p};
    const pare_import import = {.bytes = AFTER,
                                .length = strlen(AFTER),
                                .name = "b.yaml",
                                .empty_first = empty_first,
                                .change = {.what = "import"}};
    pare_import_summary summary;
    pare_arena *arena = pare_arena_open();
    pare_store_watch(store, &progress);
    const pare_status status = pare_store_import_yaml(store, &import, arena, &summary, err);
    pare_store_watch(store, NULL);
    pare_arena_close(arena);
    return status;
}

static void an_import_that_is_stopped_anywhere_leaves_the_bench_as_it_was(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    assert_int_equal(store_take(store, BEFORE, &err), PARE_OK);
    char *before = store_text(store);
    pare_status status = PARE_STOPPED;
    size_t stops = 0;
    for (; status == PARE_STOPPED; stops++) {
        patience p = {.last = stops + 1, .never_back = true};
        status = take_watched(store, &p, false, &err);
        char *now = store_text(store);
        if (status == PARE_STOPPED) {
            assert_string_equal(err.text, "stopped");
            assert_string_equal(now, before);
        } else {
            assert_int_equal(status, PARE_OK);
            assert_non_null(strstr(now, "mo-2"));
            assert_true(p.never_back);
        }
        free(now);
    }
    /* Three parts, a craft and a scale are a step each, and craft are read again. */
    assert_true(stops > 5);
    free(before);
}

static void a_bench_is_not_emptied_for_an_import_that_is_stopped(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    assert_int_equal(store_take(store, BEFORE, &err), PARE_OK);
    char *before = store_text(store);
    patience p = {.last = 1};
    assert_int_equal(take_watched(store, &p, true, &err), PARE_STOPPED);
    char *now = store_text(store);
    assert_string_equal(now, before);
    free(now);
    free(before);
}

static void an_import_that_nobody_watches_takes_the_same(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    patience p = {.never_back = true};
    assert_int_equal(store_take(store, BEFORE, &err), PARE_OK);
    assert_int_equal(take_watched(store, &p, false, &err), PARE_OK);
    char *watched = store_text(store);
    assert_int_equal(store_take(store, AFTER, &err), PARE_OK);
    char *alone = store_text(store);
    assert_string_equal(watched, alone);
    assert_true(p.counted > 0);
    free(watched);
    free(alone);
}

static void reading_and_exporting_can_be_stopped(void **state)
{
    pare_store *store = store_of(state);
    pare_error err = {0};
    pare_bench *bench = NULL;
    pare_text text = {0};
    patience p = {.last = 2};
    const pare_progress progress = {.step = step, .context = &p};
    assert_int_equal(store_take(store, BEFORE, &err), PARE_OK);
    pare_store_watch(store, &progress);
    assert_int_equal(pare_store_read(store, &bench, &err), PARE_STOPPED);
    assert_null(bench);
    p.steps = 0;
    assert_int_equal(pare_store_export_yaml(store, &text, &err), PARE_STOPPED);
    pare_text_free(&text);
    pare_store_watch(store, NULL);
    assert_int_equal(pare_store_read(store, &bench, &err), PARE_OK);
    pare_bench_close(bench);
}

static void a_step_that_nobody_watches_goes_on(void **state)
{
    (void)state;
    pare_error err = {0};
    assert_int_equal(pare_progress_step(NULL, "parts", 1, 2, &err), PARE_OK);
    pare_progress_over(NULL);
}

#define WITH_BENCH(name) cmocka_unit_test_setup_teardown(name, store_setup, store_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_BENCH(an_import_that_is_stopped_anywhere_leaves_the_bench_as_it_was),
        WITH_BENCH(a_bench_is_not_emptied_for_an_import_that_is_stopped),
        WITH_BENCH(an_import_that_nobody_watches_takes_the_same),
        WITH_BENCH(reading_and_exporting_can_be_stopped),
        cmocka_unit_test(a_step_that_nobody_watches_goes_on),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
