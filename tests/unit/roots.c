/* rooms: physics base */
/* Roots of one equation: closed forms, how few evaluations they take, and curves made to stall them. */
#include <math.h>

#include "near.h"
#include "physics/joint.h"

typedef struct counted {
    double (*curve)(double x);
    int asked;
} counted;

static double ask(void *context, double x)
{
    counted *c = context;
    c->asked++;
    return c->curve(x);
}

static double root_of(double (*curve)(double x), double low, double high, int *asked)
{
    counted c = {.curve = curve};
    const double root = pare_root(ask, &c, low, curve(low), high, curve(high), 1e-10);
    *asked = c.asked;
    return root;
}

static double square_less_2(double x)
{
    return x * x - 2;
}

static double own_cosine(double x)
{
    return x - cos(x);
}

/* A cell's volts over those at which it lands: nearly straight, as in endure.c. */
static double sags(double charge)
{
    const double open_v = 3.69 + 0.4 * (charge - 0.2), ohm = 0.02 * (1 + 1.5 * exp(-charge / 0.1));
    return (open_v + sqrt(open_v * open_v - 4 * ohm * 30)) / 2 - 3.5;
}

static double ninth_power(double x)
{
    return pow(x, 9) - 1e-9;
}

static void a_smooth_curves_root_takes_a_dozen_evaluations(void **state)
{
    (void)state;
    /* Closed form; and the number that is its own cosine, 0.7390851332151607 (OEIS A003957). */
    int asked;
    assert_within(root_of(square_less_2, 1, 2, &asked), sqrt(2), 1e-10);
    assert_in_range(asked, 1, 12);
    assert_within(root_of(own_cosine, 0, 1, &asked), 0.7390851332151607, 1e-10);
    assert_in_range(asked, 1, 12);
    /* Halving the bracket alone would take 30. */
    const double charge = root_of(sags, 0.2, 0.3, &asked);
    assert_within(sags(charge), 0, 1e-11);
    assert_in_range(asked, 1, 12);
}

static void a_curve_that_stalls_false_position_is_still_solved(void **state)
{
    (void)state;
    int asked;
    assert_within(root_of(ninth_power, 0, 1, &asked), 0.1, 1e-9);
    assert_in_range(asked, 1, 80);
}

static void an_end_that_is_a_root_is_given_back(void **state)
{
    (void)state;
    int asked;
    assert_true(root_of(ninth_power, -1, 1, &asked) > 0);
    counted c = {.curve = square_less_2};
    assert_near(pare_root(ask, &c, 1, 0, 2, 1, 1e-10), 1, 0);
    assert_near(pare_root(ask, &c, 1, -1, 2, 0, 1e-10), 2, 0);
    assert_int_equal(c.asked, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_smooth_curves_root_takes_a_dozen_evaluations),
        cmocka_unit_test(a_curve_that_stalls_false_position_is_still_solved),
        cmocka_unit_test(an_end_that_is_a_root_is_given_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
