/* rooms: advise base */
/* Nonlinear least squares where there is little to find: closed forms with edges, unknowns that nothing says, and
 * where no answer is. NIST's reference sets are in tests/checks/nonlinear.c. */
#include "advise/nonlinear.h"

#include <math.h>
#include <string.h>

#include "near.h"

static pare_status solve(pare_residuals *residuals, size_t rows, size_t unknowns, double usual,
                         double x[], pare_nonlinear_fit *fit, pare_arena *arena, pare_error *err)
{
    const pare_nonlinear problem = {
        .unknowns = unknowns, .rows = rows, .residuals = residuals, .step = 1e-6, .usual = usual};
    return pare_nonlinear_solve(&problem, x, arena, fit, err);
}

/* sqrt is no number below 0: (sqrt(x) - 0.1) begun at 9 has its root at 0.01, and whole steps go past 0. */
static bool root_of_x(const void *context, const double x[], double row[])
{
    (void)context;
    if (x[0] < 0)
        return false;
    row[0] = sqrt(x[0]) - 0.1;
    row[1] = 0;
    return true;
}

static bool root_or_nan(const void *context, const double x[], double row[])
{
    (void)context;
    row[0] = sqrt(x[0]) - 0.1; /* NAN below 0 */
    row[1] = 0;
    return true;
}

static void a_step_to_where_there_is_no_answer_is_taken_back(void **state)
{
    (void)state;
    pare_residuals *const way[] = {root_of_x, root_or_nan};
    for (size_t i = 0; i < 2; i++) {
        pare_arena *arena = pare_arena_open();
        pare_nonlinear_fit fit;
        pare_error err = {0};
        double x[] = {9};
        if (solve(way[i], 2, 1, 1e-3, x, &fit, arena, &err) != PARE_OK)
            fail_msg("%s", err.text);
        assert_near(x[0], 0.01, 1e-9);
        assert_near(fit.sum, 0, 1e-15);
        /* 1 over the square of the slope 1 / (2 sqrt(x)) = 5 */
        assert_within(fit.covariance[0], 1.0 / 25, 1e-4);
        pare_arena_close(arena);
    }
}

static bool line_through(const void *context, const double x[], double row[])
{
    (void)context;
    for (int i = 0; i < 3; i++)
        row[i] = x[0] + x[1] * i - (i == 1 ? 2 : 0);
    return true;
}

/* Begun at 0 with no usual size, slopes are taken over a step of the unit: 2 at the middle of three, 0 beside it, has
 * the level line at 2/3 (normal equations by hand), with u2 = 5/6 and 1/2. */
static void an_unknown_may_begin_at_nothing(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    pare_nonlinear_fit fit;
    pare_error err = {0};
    double x[] = {0, 0};
    if (solve(line_through, 3, 2, 0, x, &fit, arena, &err) != PARE_OK)
        fail_msg("%s", err.text);
    /* Slopes over steps of a millionth are good to 1e-9 or so, of rows of 1. */
    assert_near(x[0], 2.0 / 3, 1e-5);
    assert_near(x[1], 0, 1e-5);
    assert_near(fit.sum, 4.0 / 9 + 16.0 / 9 + 4.0 / 9, 1e-9);
    assert_within(fit.covariance[0], 5.0 / 6,
                  1e-3); /* over steps of a millionth of next to nothing */
    assert_within(fit.covariance[3], 0.5, 1e-3);
    /* Begun at the solution it stays there. */
    assert_int_equal(solve(line_through, 3, 2, 0, x, &fit, arena, &err), PARE_OK);
    assert_near(x[0], 2.0 / 3, 1e-5);
    pare_arena_close(arena);
}

static bool says_only_a_sum(const void *context, const double x[], double row[])
{
    (void)context;
    for (int i = 0; i < 3; i++)
        row[i] = x[0] + x[1] - 1;
    return true;
}

static bool says_nothing_of_one(const void *context, const double x[], double row[])
{
    (void)context;
    row[0] = x[0] - 1;
    row[1] = x[0] - 2;
    return true;
}

static void an_unknown_that_nothing_says_is_told(void **state)
{
    (void)state;
    pare_residuals *const way[] = {says_only_a_sum, says_nothing_of_one};
    for (size_t i = 0; i < 2; i++) {
        pare_arena *arena = pare_arena_open();
        pare_nonlinear_fit fit;
        pare_error err = {0};
        double x[] = {3, 4};
        assert_int_equal(solve(way[i], i == 0 ? 3 : 2, 2, 1, x, &fit, arena, &err), PARE_BAD_DATA);
        assert_string_equal(err.text, "the readings leave an unknown free");
        pare_arena_close(arena);
    }
}

static bool no_answer_at_all(const void *context, const double x[], double row[])
{
    (void)context;
    row[0] = row[1] = x[0];
    return false;
}

static void where_there_is_no_answer_none_is_given(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    pare_nonlinear_fit fit;
    pare_error err = {0};
    double x[] = {2};
    assert_int_equal(solve(no_answer_at_all, 2, 1, 1, x, &fit, arena, &err), PARE_BAD_DATA);
    assert_true(err.text[0] != '\0');
    pare_arena_close(arena);
}

static void as_many_readings_as_unknowns_are_needed(void **state)
{
    (void)state;
    pare_arena *arena = pare_arena_open();
    pare_nonlinear_fit fit;
    pare_error err = {0};
    double x[] = {0, 0};
    assert_int_equal(solve(line_through, 1, 2, 1, x, &fit, arena, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "1 readings for 2 unknowns: as many are needed");
    assert_int_equal(solve(line_through, 3, 0, 1, x, &fit, arena, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "3 readings for 0 unknowns: as many are needed");
    pare_arena_close(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_step_to_where_there_is_no_answer_is_taken_back),
        cmocka_unit_test(an_unknown_may_begin_at_nothing),
        cmocka_unit_test(an_unknown_that_nothing_says_is_told),
        cmocka_unit_test(where_there_is_no_answer_none_is_given),
        cmocka_unit_test(as_many_readings_as_unknowns_are_needed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
