/* rooms: show store advise craft physics base */
/* Without room in an arena, drawings: the nth place asked of one is refused, for every n, while a craft is seen from
 * each side, a plate of it by its outline; what fits and how likely a limit is met are said beside it. */
#include "arena_fails.h"
#include "craft_fixture.h"

#include "advise/promise.h"
#include "show/silhouette.h"
#include "show/spec_show.h"

static const double plate_m[][2] = {{-0.04, -0.02}, {0.04, -0.02}, {0.04, 0.02}, {-0.04, 0.02}};
static const double hole_m[][2] = {{-0.01, -0.01}, {-0.01, 0.01}, {0.01, 0.01}, {0.01, -0.01}};

static int open_craft(void **state)
{
    *state = fixture_open("every-key.yaml", "weir-5");
    return 0;
}

static void a_view_is_whole_or_refused(void **state)
{
    const fixture *f = *state;
    const pare_outline loops[] = {{4, plate_m}, {4, hole_m}};
    const pare_plate_outline outline[] = {
        {"another.dxf", 1, loops}, {"fr-w-base.dxf", 2, loops}, {"fr-w-base.dxf", 0, NULL}};
    for (int seen = 0; seen < PARE_SEEN; seen++) {
        size_t pieces = 0;
        long n = 0;
        for (bool done = false; !done; n++) {
            pare_error err = {0};
            pare_view view;
            pare_arena *arena = pare_arena_open();
            until_failure = n;
            const pare_status status =
                pare_view_of(f->craft, (pare_seen)seen, 3, outline, arena, &view, &err);
            done = until_failure >= 0;
            until_failure = -1;
            expect_answer(status, &err, done);
            pieces = status == PARE_OK ? view.count : pieces;
            pare_arena_close(arena);
            assert_true(n < 20000);
        }
        assert_true(n > 10);
        assert_true(pieces > 10);
    }
}

static void what_fits_is_said_in_its_own_measure(void **state)
{
    (void)state;
    static const struct {
        pare_fit_key key;
        pare_fit fit;
        const char *says;
    } rows[] = {
        {PARE_FIT_CELLS, {1, {{4, 4, NULL}}}, "4 cells"},
        {PARE_FIT_CELLS, {1, {{1, 1, NULL}}}, "1 cell"},
        {PARE_FIT_CELLS, {1, {{4, 6, NULL}}}, "4 .. 6 cells"},
        {PARE_FIT_CONNECTOR, {1, {{60, 60, NULL}}}, "60 A class"},
        {PARE_FIT_THREAD, {2, {{3e-3, 3e-3, NULL}, {2e-3, 2e-3, NULL}}}, "M3 or M2"},
        {PARE_FIT_PROPELLER, {1, {{0.127, 0.127, NULL}}}, "5 in"},
        {PARE_FIT_PROPELLER, {1, {{0.0762, 0.127, NULL}}}, "3 in .. 5 in"},
        {PARE_FIT_STACK,
         {2, {{0.02, 0.02, NULL}, {0.025, 0.0305, NULL}}},
         "20 mm or 25 mm .. 30.5 mm"},
        {PARE_FIT_ANTENNA, {1, {{0, 0, "snap"}}}, "snap"},
        {PARE_FIT_ANTENNA, {0, {{0, 0, NULL}}}, ""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char text[160];
        assert_string_equal(pare_fit_shown(rows[i].key, &rows[i].fit, text), rows[i].says);
    }
}

/* A mass without a doubt is below a limit or it is not. */
static void a_certain_mass_meets_a_limit_or_breaks_it(void **state)
{
    (void)state;
    const pare_promise certain = {.kg = 0.5};
    assert_near(pare_promise_chance(&certain, 0.51), 1, 0);
    assert_near(pare_promise_chance(&certain, 0.5), 1, 0);
    assert_near(pare_promise_chance(&certain, 0.49), 0, 0);
    const pare_promise doubtful = {.kg = 0.5, .u_kg = 0.01};
    assert_near(pare_promise_chance(&doubtful, 0.5), 0.5, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_view_is_whole_or_refused, open_craft, fixture_close),
        cmocka_unit_test(what_fits_is_said_in_its_own_measure),
        cmocka_unit_test(a_certain_mass_meets_a_limit_or_breaks_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
