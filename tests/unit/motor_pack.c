/* rooms: physics base */
/* Motor and pack: the check cases of the published description (sections C and D, 1e-6 where it prints
 * seven digits), laws that any motor and pack must keep, and what is refused, word for word. */
#include <math.h>
#include <string.h>

#include "near.h"
#include "physics/rig.h"
#include "published_cells.h"

static const pare_motor five_inch = {.kv_rpm_per_v = 1950,
                                     .resistance_ohm = 0.065,
                                     .no_load_a = 1.2,
                                     .no_load_at_v = 10,
                                     .mass_kg = 0.033,
                                     .iron_share = 0.5,
                                     .ambient_degc = 25};
static const pare_motor ten_inch = {.kv_rpm_per_v = 920,
                                    .resistance_ohm = 0.11,
                                    .no_load_a = 0.6,
                                    .no_load_at_v = 10,
                                    .mass_kg = 0.056,
                                    .iron_share = 0.5,
                                    .ambient_degc = 15};

static pare_pack lithium(pare_chemistry chemistry, int cells, double ah)
{
    return (pare_pack){.chemistry = chemistry,
                       .cells = cells,
                       .capacity_c = ah * 3600,
                       .temperature_degc = 25,
                       .resistance_factor = 1,
                       .lead_ohm = 0.004};
}

static void five_inch_motor_is_case_c1(void **state)
{
    (void)state;
    pare_motor_state s;
    assert_int_equal(pare_motor_at(&five_inch, 0.003, 1300, 0.03, 1, &s, NULL), PARE_OK);
    assert_within(s.current_a, 7.11108, 1e-6);
    assert_within(s.resistance_ohm, 0.07246964, 1e-6);
    assert_within(s.volts_v, 6.902868, 1e-6);
    assert_within(s.winding_degc, 49.24112, 1e-6);
}

static void ten_inch_motor_is_case_c3(void **state)
{
    (void)state;
    pare_motor_state s;
    assert_int_equal(pare_motor_at(&ten_inch, 0.003, 550, 0.07, 1, &s, NULL), PARE_OK);
    assert_within(s.current_a, 7.216355, 1e-6);
    assert_within(s.resistance_ohm, 0.1142489, 1e-6);
    assert_within(s.volts_v, 6.554928, 1e-6);
    assert_within(s.winding_degc, 29.82861, 1e-6);
}

/* What goes in comes out as work, copper heat and iron heat. */
static void motor_power_balances(void **state)
{
    (void)state;
    for (int i = 1; i <= 6; i++) {
        pare_motor_state s;
        const double speed = 250 * i, torque = 0.008 * i;
        assert_int_equal(pare_motor_at(&five_inch, 0.003, speed, torque, 1, &s, NULL), PARE_OK);
        const double ke = 60 / (2 * 3.14159265358979 * 1950);
        const double iron_w = ke * speed * (s.current_a - torque / ke);
        const double copper_w = s.current_a * s.current_a * (s.resistance_ohm + 0.003);
        assert_within(s.volts_v * s.current_a, torque * speed + iron_w + copper_w, 1e-12);
        /* and the winding is as warm as those losses make it (its own copper only) */
        const double k_per_w = 2.6 * pow(0.033 / 0.030, -2.0 / 3);
        const double warmer_k = k_per_w * (iron_w + s.current_a * s.current_a * s.resistance_ohm);
        assert_near(s.winding_degc, 25 + warmer_k, 1e-6);
    }
}

static void motor_on_volts_agrees_with_motor_at_speed(void **state)
{
    (void)state;
    for (double heat = 0; heat <= 1; heat += 0.5) {
        pare_motor_state on, at;
        assert_int_equal(pare_motor_on(&five_inch, 14.8, 12, heat, &on, NULL), PARE_OK);
        assert_int_equal(
            pare_motor_at(&five_inch, 0, on.speed_rad_s, on.torque_nm, heat, &at, NULL), PARE_OK);
        assert_within(on.volts_v, 14.8, 1e-12);
        assert_within(at.volts_v, 14.8, 1e-12);
        assert_within(at.current_a, 12, 1e-12);
    }
}

static double efficiency_at(const pare_motor *motor, double volts, double current, double heat)
{
    pare_motor_state s;
    assert_int_equal(pare_motor_on(motor, volts, current, heat, &s, NULL), PARE_OK);
    return s.torque_nm * s.speed_rad_s / (volts * current);
}

static void best_current_beats_its_neighbours(void **state)
{
    (void)state;
    double current, efficiency;
    assert_int_equal(pare_motor_best(&five_inch, 14.8, 1, &current, &efficiency, NULL), PARE_OK);
    assert_within(efficiency_at(&five_inch, 14.8, current, 1), efficiency, 1e-12);
    assert_true(efficiency_at(&five_inch, 14.8, 0.99 * current, 1) < efficiency);
    assert_true(efficiency_at(&five_inch, 14.8, 1.01 * current, 1) < efficiency);
}

static void a_hotter_motor_is_less_efficient(void **state)
{
    (void)state;
    double current, cold, warm;
    assert_int_equal(pare_motor_best(&five_inch, 14.8, 0, &current, &cold, NULL), PARE_OK);
    assert_int_equal(pare_motor_best(&five_inch, 14.8, 1, &current, &warm, NULL), PARE_OK);
    assert_true(warm < cold);
}

static void motor_refusals_say_both_numbers(void **state)
{
    (void)state;
    pare_motor_state s;
    pare_error err;
    assert_int_equal(pare_motor_at(&five_inch, 0.003, 1300, 0.4, 1, &s, &err), PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "at 82.7 A a motor's winding heats itself without end: 31 A is the "
                        "most that it bears");
    assert_int_equal(pare_motor_on(&five_inch, 5, 90, 0, &s, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "90 A through the winding takes 5.965 V, 5 V is there: the motor "
                                  "stands still");
    assert_int_equal(pare_motor_on(&five_inch, 14.8, 0.5, 0, &s, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "0.5 A is less than the 1.4"));
    pare_motor motor = five_inch;
    motor.no_load_a = 200;
    assert_int_equal(pare_motor_at(&motor, 0.003, 1300, 0.03, 1, &s, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "200 A through 0.065 ohm takes 13 V, more than the 10 V at which "
                                  "the motor turns unloaded");
    motor = five_inch;
    motor.kv_rpm_per_v = NAN;
    assert_int_equal(pare_motor_on(&motor, 14.8, 10, 0, &s, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "more than 0 rpm/V would be right"));
}

static void lipo_pack_is_case_d1(void **state)
{
    (void)state;
    pare_pack pack = lithium(PARE_LIPO, 6, 1.3);
    pack.cell = &published_cells[PARE_LIPO];
    assert_within(pare_pack_open_v(&pack, 0.5), 22.68, 1e-6);
    assert_within(pare_pack_group_ohm(&pack, 0.5), 0.005772879, 1e-6);
    assert_within(pare_pack_ohm(&pack, 0.5, 0), 0.03863728, 1e-6);
    assert_within(pare_pack_ohm(&pack, 0.5, 1), 0.05249219, 1e-6);
    assert_within(pare_pack_energy_j(&pack, 0), 29.64585 * 3600, 1e-6);
    assert_within(pare_pack_energy_j(&pack, 0.2), 24.1098 * 3600, 1e-6);
}

static void lithium_ion_pack_is_case_d3(void **state)
{
    (void)state;
    pare_pack pack = lithium(PARE_LIION, 6, 4);
    pack.cell = &published_cells[PARE_LIION];
    assert_within(pare_pack_open_v(&pack, 0.8), 23.7, 1e-6);
    assert_within(pare_pack_group_ohm(&pack, 0.8), 0.01950017, 1e-6);
    assert_within(pare_pack_ohm(&pack, 0.8, 0), 0.121001, 1e-6);
    assert_within(pare_pack_ohm(&pack, 0.8, 1), 0.1678014, 1e-6);
    assert_within(pare_pack_energy_j(&pack, 0), 87.654 * 3600, 1e-6);
    assert_within(pare_pack_energy_j(&pack, 0.2), 72.342 * 3600, 1e-6);
}

static void pack_energy_is_the_integral_of_open_volts(void **state)
{
    (void)state;
    for (int kind = 0; kind < PARE_CHEMISTRIES; kind++) {
        const pare_pack pack = lithium((pare_chemistry)kind, 4, 2);
        for (double low = 0; low < 1; low += 0.13) {
            double sum = 0;
            const int steps = 20000;
            for (int i = 0; i < steps; i++)
                sum += pare_pack_open_v(&pack, low + (1 - low) * (i + 0.5) / steps);
            assert_within(pare_pack_energy_j(&pack, low), sum / steps * (1 - low) * pack.capacity_c,
                          1e-6);
        }
        assert_near(pare_pack_energy_j(&pack, 1), 0, 0);
    }
}

static void volts_rise_with_charge_and_hold_at_the_ends(void **state)
{
    (void)state;
    for (int kind = 0; kind < PARE_CHEMISTRIES; kind++) {
        const pare_chemistry chemistry = (pare_chemistry)kind;
        for (int i = 0; i < 1000; i++)
            assert_true(pare_pack_cell_v(chemistry, (i + 1) / 1000.0) >
                        pare_pack_cell_v(chemistry, i / 1000.0));
        assert_near(pare_pack_cell_v(chemistry, 2), pare_chemistry_full_v(chemistry), 0);
        assert_near(pare_pack_cell_v(chemistry, -1), pare_pack_cell_v(chemistry, 0), 0);
        assert_true(pare_chemistry_cutoff_v(chemistry) < pare_chemistry_landing_v(chemistry));
    }
    /* knots of the published table */
    assert_near(pare_cell_open_v(&published_cells[PARE_LIPO], 0.7), 3.88, 1e-12);
    assert_near(pare_cell_open_v(&published_cells[PARE_LIPO], 0.3), 3.72, 1e-12);
    assert_near(pare_cell_open_v(&published_cells[PARE_LIHV], 0.95), 4.27, 1e-12);
    assert_near(pare_cell_open_v(&published_cells[PARE_LIION], 0.05), 3.10, 1e-12);
}

static void a_stated_group_resistance_is_at_half_charge_and_25_degc(void **state)
{
    (void)state;
    pare_pack pack = lithium(PARE_LIPO, 4, 1.5);
    pack.cell = &published_cells[PARE_LIPO];
    pack.group_ohm = 0.004;
    assert_within(pare_pack_group_ohm(&pack, 0.5), 0.004, 1e-12);
    assert_true(pare_pack_group_ohm(&pack, 0.05) > 0.005);
    pack.temperature_degc = 5;
    /* Arrhenius with 2400 K: exp(2400 (1/278.15 - 1/298.15)) */
    assert_within(pare_pack_group_ohm(&pack, 0.5), 0.004 * exp(2400 * (1 / 278.15 - 1 / 298.15)),
                  1e-12);
}

static void current_at_constant_power_gives_that_power(void **state)
{
    (void)state;
    const double most = pare_pack_most_w(14.8, 0.02);
    for (int i = 0; i <= 1000; i++) {
        double current, volts;
        const double power = most * i / 1000;
        assert_int_equal(pare_pack_current(14.8, 0.02, power, &current, &volts, NULL), PARE_OK);
        assert_near(volts * current, power, 1e-12 * most);
        assert_near(volts, 14.8 - 0.02 * current, 1e-12);
        assert_true(current <= 14.8 / (2 * 0.02) * (1 + 1e-12));
    }
}

static void a_pack_without_resistance_gives_any_power(void **state)
{
    (void)state;
    double current, volts;
    assert_int_equal(pare_pack_current(10, 0, 1e6, &current, &volts, NULL), PARE_OK);
    assert_near(current, 1e5, 0);
    assert_near(volts, 10, 0);
    assert_true(isinf(pare_pack_most_w(10, 0)));
}

static void power_past_the_most_is_refused(void **state)
{
    (void)state;
    double current = 7, volts = 8;
    pare_error err;
    assert_int_equal(pare_pack_current(14.8, 0.02, 3000, &current, &volts, &err), PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "3000 W asked, 2738 W is the most it gives at 14.8 V and 0.02 ohm");
    assert_near(current, 7, 0);
    assert_int_equal(pare_pack_current(14.8, -1, 3, &current, &volts, &err), PARE_BAD_DATA);
    assert_int_equal(pare_pack_current(NAN, 1, 3, &current, &volts, &err), PARE_BAD_DATA);
    assert_int_equal(pare_pack_current(14.8, 1, NAN, &current, &volts, &err), PARE_BAD_DATA);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(five_inch_motor_is_case_c1),
        cmocka_unit_test(ten_inch_motor_is_case_c3),
        cmocka_unit_test(motor_power_balances),
        cmocka_unit_test(motor_on_volts_agrees_with_motor_at_speed),
        cmocka_unit_test(best_current_beats_its_neighbours),
        cmocka_unit_test(a_hotter_motor_is_less_efficient),
        cmocka_unit_test(motor_refusals_say_both_numbers),
        cmocka_unit_test(lipo_pack_is_case_d1),
        cmocka_unit_test(lithium_ion_pack_is_case_d3),
        cmocka_unit_test(pack_energy_is_the_integral_of_open_volts),
        cmocka_unit_test(volts_rise_with_charge_and_hold_at_the_ends),
        cmocka_unit_test(a_stated_group_resistance_is_at_half_charge_and_25_degc),
        cmocka_unit_test(current_at_constant_power_gives_that_power),
        cmocka_unit_test(a_pack_without_resistance_gives_any_power),
        cmocka_unit_test(power_past_the_most_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
