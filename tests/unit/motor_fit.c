/* rooms: physics base */
/* The fit of a motor to a stand's rows: made-up stands of a motor whose numbers are known, a thousand
 * of them, and whether the intervals hold them; limits with closed forms; rows that cannot be. */
#include <math.h>
#include <string.h>

#include "dice.h"
#include "near.h"
#include "physics/motor_fit.h"

#define PI 3.14159265358979323846

static const pare_motor truth = {.kv_rpm_per_v = 1830,
                                 .resistance_ohm = 0.081,
                                 .no_load_a = 1.55,
                                 .no_load_at_v = 10,
                                 .mass_kg = 0.033,
                                 .iron_share = 0.9,
                                 .ambient_degc = 20};
static const pare_esc esc = {.on_ohm = 0.003, .switching = 0.05, .idle_a = 0.02};

static pare_motor_prior stated(void)
{
    pare_motor_prior prior = {.motor = truth,
                              .kv_u = 0.08,
                              .resistance_u = 0.25,
                              .no_load_u = 0.40,
                              .esc = esc,
                              .heat = 0.3};
    prior.motor.kv_rpm_per_v = 1950;
    prior.motor.resistance_ohm = 0.065;
    prior.motor.no_load_a = 1.2;
    return prior;
}

/* A full-throttle reading with nothing wrong: the volts that a speed and torque need. */
static pare_stand_row exact_full(double speed_rad_s, double torque_nm)
{
    pare_motor_state s;
    assert_int_equal(pare_motor_at(&truth, esc.on_ohm, speed_rad_s, torque_nm, 0.3, &s, NULL),
                     PARE_OK);
    return (pare_stand_row){.volts_v = s.volts_v,
                            .throttle = 1,
                            .thrust_n = (double)NAN,
                            .current_a = s.current_a + esc.idle_a,
                            .speed_rad_s = speed_rad_s,
                            .torque_nm = torque_nm};
}

/* Below full throttle, on fixed volts: by the ESC's own equation, written out again. */
static pare_stand_row exact_part(double speed_rad_s, double torque_nm, double volts_v)
{
    const pare_stand_row full = exact_full(speed_rad_s, torque_nm);
    const double motor_a = full.current_a - esc.idle_a, duty = full.volts_v / volts_v;
    pare_stand_row row = full;
    row.throttle = 0.5;
    row.volts_v = volts_v;
    row.current_a = motor_a * (duty + esc.switching * (1 - duty)) + esc.idle_a;
    return row;
}

enum { FULLS = 6, PARTS = 6 };

static void exact_stand(pare_stand_row row[FULLS + PARTS])
{
    for (int i = 0; i < FULLS; i++) {
        const double speed = 1300 + 200 * i;
        row[i] = exact_full(speed, 2.0e-8 * speed * speed * (1 + 0.1 * (i % 2)));
    }
    for (int i = 0; i < PARTS; i++) {
        const double speed = 600 + 150 * i;
        row[FULLS + i] = exact_part(speed, 2.0e-8 * speed * speed, 14.8);
    }
}

static void exact_readings_give_the_motor_back(void **state)
{
    (void)state;
    pare_stand_row row[FULLS + PARTS];
    exact_stand(row);
    pare_motor_prior prior = stated();
    /* so good a stand that the prior does not pull */
    prior.volts_u = prior.current_u = prior.speed_u = prior.torque_u = 1e-5;
    prior.kv_u = prior.resistance_u = prior.no_load_u = 1;
    pare_motor_fitted fitted;
    assert_int_equal(pare_motor_fit(FULLS + PARTS, row, &prior, &fitted, NULL), PARE_OK);
    assert_within(fitted.motor.kv_rpm_per_v, truth.kv_rpm_per_v, 1e-4);
    assert_within(fitted.motor.resistance_ohm, truth.resistance_ohm, 1e-3);
    assert_within(fitted.motor.no_load_a, truth.no_load_a, 1e-3);
    assert_within(fitted.kv_ratio, 1830.0 / 1950, 1e-4);
    assert_true(fitted.chi_square < 1);
    assert_int_equal(fitted.freedom, 2 * FULLS + PARTS - 3);
}

static double dice_share(unsigned *d)
{
    return (dice(d, 1u << 24) + 0.5) / (1u << 24);
}

static double gauss(unsigned *d)
{
    const double u = dice_share(d);
    return sqrt(-2 * log(u)) * cos(2 * PI * dice_share(d));
}

/* Priors are drawn too: a maker's numbers about the true ones, as wide as they say. */
static void intervals_hold_the_truth_as_often_as_they_say(void **state)
{
    (void)state;
    enum { STANDS = 1000 };
    unsigned d = 7;
    int within_1[3] = {0}, within_2[3] = {0};
    double prior_u[3] = {0.08, 0.25, 0.40}, mean_u[3] = {0};
    for (int n = 0; n < STANDS; n++) {
        pare_stand_row row[FULLS + PARTS];
        exact_stand(row);
        for (int i = 0; i < FULLS + PARTS; i++) {
            row[i].volts_v += hypot(0.005 * row[i].volts_v, 0.01) * gauss(&d);
            row[i].current_a += hypot(0.015 * row[i].current_a, 0.03) * gauss(&d);
            row[i].speed_rad_s *= 1 + 0.003 * gauss(&d);
            row[i].torque_nm *= 1 + 0.02 * gauss(&d);
        }
        pare_motor_prior prior = stated();
        prior.motor.kv_rpm_per_v = truth.kv_rpm_per_v * exp(prior_u[0] * gauss(&d));
        prior.motor.resistance_ohm = truth.resistance_ohm * exp(prior_u[1] * gauss(&d));
        prior.motor.no_load_a = truth.no_load_a * exp(prior_u[2] * gauss(&d));
        pare_motor_fitted f;
        pare_error err;
        if (pare_motor_fit(FULLS + PARTS, row, &prior, &f, &err) != PARE_OK)
            fail_msg("stand %d: %s", n, err.text);
        const double off[3] = {log(f.motor.kv_rpm_per_v / truth.kv_rpm_per_v) / f.kv_u,
                               log(f.motor.resistance_ohm / truth.resistance_ohm) / f.resistance_u,
                               log(f.motor.no_load_a / truth.no_load_a) / f.no_load_u};
        const double u[3] = {f.kv_u, f.resistance_u, f.no_load_u};
        for (int p = 0; p < 3; p++) {
            within_1[p] += fabs(off[p]) < 0.6745;
            within_2[p] += fabs(off[p]) < 1.6449;
            mean_u[p] += u[p] / STANDS;
        }
    }
    /* 50 and 90 % of a thousand have a standard deviation of 1.6 and 0.9 %; uncertainties that grow with
     * chance scatter (Birge) are right or a little wide, so more room above. And they say something. */
    for (int p = 0; p < 3; p++) {
        assert_between(within_1[p] / (double)STANDS, 0.45, 0.62);
        assert_between(within_2[p] / (double)STANDS, 0.87, 0.97);
        assert_true(mean_u[p] < 0.5 * prior_u[p]);
    }
}

static void without_torque_the_unloaded_current_stays_as_stated(void **state)
{
    (void)state;
    pare_stand_row row[FULLS + PARTS];
    exact_stand(row);
    for (int i = 0; i < FULLS; i++)
        row[i].torque_nm = (double)NAN;
    const pare_motor_prior prior = stated();
    pare_motor_fitted f;
    assert_int_equal(pare_motor_fit(FULLS, row, &prior, &f, NULL), PARE_OK);
    assert_within(f.no_load_u, prior.no_load_u, 0.01);
    assert_within(f.motor.no_load_a, prior.motor.no_load_a, 0.05); /* by its heat alone */
    /* one propeller's narrow currents: kV and winding go together */
    assert_true(f.kv_resistance > 0.5);
    assert_true(fabs(f.kv_ratio - 1830.0 / 1950) < 2 * f.kv_ratio_u);
    assert_true(f.kv_ratio_u < 0.04);
}

static void one_unloaded_row_is_the_makers_own_measurement(void **state)
{
    (void)state;
    /* Unloaded at 10 V: w = (V - I R)/Ke and the current is the unloaded one, by definition. */
    const double ke = 60 / (2 * PI * truth.kv_rpm_per_v);
    const double on = truth.resistance_ohm + esc.on_ohm;
    pare_motor_prior prior = stated();
    prior.heat = 0;
    prior.kv_u = prior.no_load_u = 1;
    prior.volts_u = prior.current_u = prior.speed_u = prior.torque_u = 1e-5;
    prior.motor.resistance_ohm = truth.resistance_ohm;
    const double speed = (10 - 1.55 * on) / ke;
    const pare_stand_row row = {.volts_v = 10,
                                .throttle = 1,
                                .thrust_n = (double)NAN,
                                .current_a = 1.55 + esc.idle_a,
                                .speed_rad_s = speed,
                                .torque_nm = 0};
    pare_motor_fitted f;
    assert_int_equal(pare_motor_fit(1, &row, &prior, &f, NULL), PARE_OK);
    assert_within(f.motor.kv_rpm_per_v, 1830, 2e-3);
    assert_within(f.motor.no_load_a, 1.55, 5e-3);
}

static void scatter_beyond_the_stands_own_widens_the_intervals(void **state)
{
    (void)state;
    pare_stand_row row[FULLS + PARTS], rough[FULLS + PARTS];
    exact_stand(row);
    memcpy(rough, row, sizeof rough);
    for (int i = 0; i < FULLS + PARTS; i++)
        rough[i].current_a *= i % 2 ? 1.12 : 0.88;
    const pare_motor_prior prior = stated();
    pare_motor_fitted fine, wide;
    assert_int_equal(pare_motor_fit(FULLS + PARTS, row, &prior, &fine, NULL), PARE_OK);
    assert_int_equal(pare_motor_fit(FULLS + PARTS, rough, &prior, &wide, NULL), PARE_OK);
    assert_true(wide.chi_square > 4 * wide.freedom);
    assert_true(wide.resistance_u > 1.5 * fine.resistance_u);
    assert_true(wide.kv_u <= prior.kv_u);
}

static void refused(pare_stand_row row, const char *with)
{
    pare_stand_row rows[3];
    for (int i = 0; i < 3; i++)
        rows[i] = exact_full(1500 + 100 * i, 0.05);
    rows[1] = row;
    const pare_motor_prior prior = stated();
    pare_motor_fitted f = {.chi_square = 42};
    pare_error err = {PARE_OK, ""};
    assert_int_equal(pare_motor_fit(3, rows, &prior, &f, &err), PARE_BAD_DATA);
    if (!strstr(err.text, with))
        fail_msg("'%s' is not in '%s'", with, err.text);
    assert_near(f.chi_square, 42, 0);
}

static void rows_that_cannot_be_are_named(void **state)
{
    (void)state;
    pare_stand_row row = exact_full(1500, 0.05);
    row.volts_v = (double)NAN;
    refused(row, "row 2: its volts is nan V");
    row = exact_full(1500, 0.05);
    row.current_a = -1;
    refused(row, "row 2: its current is -1 A");
    row = exact_full(1500, 0.05);
    row.speed_rad_s = -100;
    refused(row, "row 2: its speed is -100 rad/s");
    row.speed_rad_s = HUGE_VAL;
    refused(row, "row 2: its speed is inf rad/s");
    row = exact_full(1500, 0.05);
    row.throttle = 1.2;
    refused(row, "row 2: a throttle of 1.2");
    row = exact_full(1500, 0.05);
    row.torque_nm = -0.1;
    refused(row, "row 2: a torque of -0.1 N m");
    /* 1950 rpm/V stated on 10 V: 19500 rpm unloaded */
    row = exact_full(1500, 0.05);
    row.volts_v = 10;
    row.speed_rad_s = 30000 * PI / 30;
    refused(row, "row 2: 30000 rpm on 10 V: a motor of 1950 rpm/V does not turn faster than about "
                 "19500 rpm unloaded");
}

static void rows_that_say_nothing_are_refused(void **state)
{
    (void)state;
    pare_stand_row row = exact_full(1500, 0.05);
    row.throttle = 0.5;
    row.torque_nm = (double)NAN;
    pare_motor_prior prior = stated();
    pare_motor_fitted f;
    pare_error err;
    assert_int_equal(pare_motor_fit(1, &row, &prior, &f, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "no row is at full throttle or has a torque"));
    assert_int_equal(pare_motor_fit(0, &row, &prior, &f, &err), PARE_BAD_DATA);
    prior.kv_u = 0;
    assert_int_equal(pare_motor_fit(1, &row, &prior, &f, &err), PARE_BAD_DATA);
    prior = stated();
    prior.motor.no_load_a = 0;
    assert_int_equal(pare_motor_fit(1, &row, &prior, &f, &err), PARE_BAD_DATA);
}

static void odd_rows_give_finite_answers_or_none(void **state)
{
    (void)state;
    unsigned d = 11;
    for (int n = 0; n < 3000; n++) {
        pare_stand_row row[4];
        for (int i = 0; i < 4; i++)
            row[i] = (pare_stand_row){
                .volts_v = pow(10, 6 * dice_share(&d) - 3),
                .throttle = dice_share(&d) < 0.5 ? 1 : 0.3,
                .current_a = pow(10, 8 * dice_share(&d) - 4),
                .speed_rad_s = pow(10, 7 * dice_share(&d) - 3),
                .torque_nm = dice_share(&d) < 0.5 ? (double)NAN : pow(10, 8 * dice_share(&d) - 6)};
        const pare_motor_prior prior = stated();
        pare_motor_fitted f;
        if (pare_motor_fit(4, row, &prior, &f, NULL) != PARE_OK)
            continue;
        assert_true(isfinite(f.motor.kv_rpm_per_v) && f.motor.kv_rpm_per_v > 0);
        assert_true(isfinite(f.motor.resistance_ohm) && f.motor.resistance_ohm > 0);
        assert_true(isfinite(f.motor.no_load_a) && f.motor.no_load_a > 0);
        assert_true(f.kv_u > 0 && f.kv_u <= prior.kv_u && f.resistance_u > 0 && f.no_load_u > 0);
        assert_true(fabs(f.kv_resistance) <= 1 + 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exact_readings_give_the_motor_back),
        cmocka_unit_test(intervals_hold_the_truth_as_often_as_they_say),
        cmocka_unit_test(without_torque_the_unloaded_current_stays_as_stated),
        cmocka_unit_test(one_unloaded_row_is_the_makers_own_measurement),
        cmocka_unit_test(scatter_beyond_the_stands_own_widens_the_intervals),
        cmocka_unit_test(rows_that_cannot_be_are_named),
        cmocka_unit_test(rows_that_say_nothing_are_refused),
        cmocka_unit_test(odd_rows_give_finite_answers_or_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
