/* rooms: physics base */
/* A propeller's model bent to a wind tunnel's points: what was left out is predicted, what is far off
 * stays the model's, and the doubt holds. */
#include <math.h>

#include "dice.h"
#include "near.h"
#include "physics/tunnel.h"
#include "published_props.h"

#define PI   3.14159265358979323846
#define INCH 0.0254

enum { POINTS = 120 };

static pare_prop_table model_table, true_table;
static pare_air air;

static pare_prop_table table_of(double chord_share, double turned_rad)
{
    const pare_prop_size size = {.diameter_m = 9 * INCH, .pitch_m = 4.7 * INCH, .blades = 2};
    pare_prop prop;
    assert_int_equal(pare_prop_from_size(&size, &published_family, &prop, NULL), PARE_OK);
    for (int i = 0; i < PARE_PROP_NODES; i++) {
        prop.chord[i] *= chord_share;
        prop.twist[i] += turned_rad;
    }
    pare_prop_table table;
    pare_prop_table_build(&prop, &table);
    return table;
}

static int build_tables(void **state)
{
    (void)state;
    model_table = table_of(1, 0);
    true_table = table_of(1.1, 0.025);
    return pare_air_standard(0, &air, NULL);
}

static const pare_prop_doubt model_doubt = {0.13, 0.18, 0.7};

/* Points of the true propeller over J at a speed, each off by a share of the value at rest. */
static size_t measure(double rpm, double from, double to, double off, unsigned *run,
                      pare_tunnel_row row[])
{
    size_t rows = 0;
    double still[2];
    pare_prop_table_coefficients(&true_table, 0, rpm * PI / 30, &air, &still[0], &still[1]);
    for (double advance = from; advance <= to; advance += 0.05) {
        double ct, cp;
        pare_prop_table_coefficients(&true_table, advance, rpm * PI / 30, &air, &ct, &cp);
        const double wrong[2] = {off * (dice(run, 2001) / 1000.0 - 1),
                                 off * (dice(run, 2001) / 1000.0 - 1)};
        row[rows++] = (pare_tunnel_row){advance, rpm * PI / 30, ct + still[0] * wrong[0],
                                        cp + still[1] * wrong[1]};
    }
    return rows;
}

static pare_tunnel_fit fitted(const pare_tunnel_row row[], size_t rows)
{
    const pare_tunnel_table tunnel = {rows, row};
    pare_tunnel_fit fit;
    pare_error err = {0};
    if (pare_tunnel_fit_points(&model_table, &model_doubt, &tunnel, &fit, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return fit;
}

/* Greatest misses of CT and CP over some advance ratios, as shares of the values at rest. */
static void miss(const pare_prop_table *table, double rpm, double from, double to, double worst[2])
{
    double still[2];
    pare_prop_table_coefficients(&true_table, 0, rpm * PI / 30, &air, &still[0], &still[1]);
    worst[0] = worst[1] = 0;
    for (double advance = from; advance <= to; advance += 0.04) {
        double is[2], said[2];
        pare_prop_table_coefficients(&true_table, advance, rpm * PI / 30, &air, &is[0], &is[1]);
        pare_prop_table_coefficients(table, advance, rpm * PI / 30, &air, &said[0], &said[1]);
        for (int which = 0; which < 2; which++)
            worst[which] = fmax(worst[which], fabs(said[which] - is[which]) / still[which]);
    }
}

static void points_are_followed_and_another_speed_with_them(void **state)
{
    (void)state;
    unsigned run = 3;
    pare_tunnel_row row[POINTS];
    size_t rows = measure(4000, 0, 0, 0.01, &run, row);
    rows += measure(5000, 0.15, 0.6, 0.01, &run, row + rows);
    const pare_tunnel_fit fit = fitted(row, rows);
    static const double rpm[] = {5000, 4000, 7000};
    for (int i = 0; i < 3; i++) {
        double now[2], before[2];
        miss(&fit.table, rpm[i], 0, 0.6, now);
        miss(&model_table, rpm[i], 0, 0.6, before);
        for (int which = 0; which < 2; which++) {
            assert_between(now[which], 0, 0.02);
            assert_between(before[which], 0.06, 1);
        }
    }
    assert_between(fit.ct_rms, 0.002, 0.01);
    assert_between(fit.advance_high, 0.59, 0.601);
}

/* Far beyond the points, where the flow drives the propeller, the fit is the model. */
static void far_from_the_points_the_model_goes_on(void **state)
{
    (void)state;
    unsigned run = 5;
    pare_tunnel_row row[POINTS];
    const size_t rows = measure(5000, 0, 0.4, 0.01, &run, row);
    const pare_tunnel_fit fit = fitted(row, rows);
    double now[2], before[2];
    miss(&fit.table, 5000, 1.3, 2.5, now);
    miss(&model_table, 5000, 1.3, 2.5, before);
    assert_between(now[0], 0, 1.2 * before[0]);
    assert_between(now[1], 0, 1.2 * before[1]);
}

static void nothing_that_agrees_changes_nothing(void **state)
{
    (void)state;
    pare_tunnel_row row[POINTS];
    size_t rows = 0;
    for (double advance = 0; advance < 0.7; advance += 0.1, rows++) {
        row[rows] = (pare_tunnel_row){.advance = advance, .speed_rad_s = 500};
        pare_prop_table_coefficients(&model_table, advance, 500, &air, &row[rows].ct,
                                     &row[rows].cp);
    }
    const pare_tunnel_fit fit = fitted(row, rows);
    for (double advance = 0; advance < 3; advance += 0.17) {
        double is[2], said[2];
        pare_prop_table_coefficients(&model_table, advance, 700, &air, &is[0], &is[1]);
        pare_prop_table_coefficients(&fit.table, advance, 700, &air, &said[0], &said[1]);
        assert_near(said[0], is[0], 1e-9);
        assert_near(said[1], is[1], 1e-9);
    }
}

static void doubt_shrinks_with_points_and_grows_without(void **state)
{
    (void)state;
    unsigned run = 7;
    pare_tunnel_row row[POINTS];
    size_t rows = measure(5000, 0, 0.6, 0.01, &run, row);
    const pare_tunnel_fit whole = fitted(row, rows);
    assert_between(whole.still.thrust_u, 0.022, 0.04);
    assert_between(whole.running.thrust_u, whole.still.thrust_u, 0.08);
    rows = measure(5000, 0.4, 0.6, 0.01, &run, row);
    const pare_tunnel_fit part = fitted(row, rows);
    assert_true(part.still.thrust_u > 1.3 * whole.still.thrust_u);
    assert_true(part.still.thrust_u < model_doubt.thrust_u);
    assert_true(part.still.power_u > 1.3 * whole.still.power_u);
    rows = measure(5000, 0, 0.6, 0.15, &run, row);
    const pare_tunnel_fit rough = fitted(row, rows);
    assert_true(rough.still.thrust_u > 1.3 * whole.still.thrust_u);
}

static void what_is_no_number_is_refused(void **state)
{
    (void)state;
    const pare_tunnel_row row[2] = {{0, 500, NAN, 0.05}, {0.2, 500, 0.1, 0.05}};
    const pare_tunnel_table tunnel = {2, row}, none = {0, NULL};
    pare_tunnel_fit fit;
    pare_error err = {0};
    assert_int_equal(pare_tunnel_fit_points(&model_table, &model_doubt, &tunnel, &fit, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "its 2 tunnel points cannot be fitted: the model has no thrust at "
                        "rest, or a point is no number");
    assert_int_equal(pare_tunnel_fit_points(&model_table, &model_doubt, &none, &fit, NULL),
                     PARE_BAD_DATA);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(points_are_followed_and_another_speed_with_them),
        cmocka_unit_test(far_from_the_points_the_model_goes_on),
        cmocka_unit_test(nothing_that_agrees_changes_nothing),
        cmocka_unit_test(doubt_shrinks_with_points_and_grows_without),
        cmocka_unit_test(what_is_no_number_is_refused),
    };
    return cmocka_run_group_tests(tests, build_tables, NULL);
}
