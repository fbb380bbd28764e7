/* rooms: physics base */
/* Motors and sources against values from outside. */
#include <math.h>

#include "near.h"
#include "physics/rig.h"

#define PI 3.14159265358979323846

/* The first-order motor (constant no-load current, cold winding) has closed forms: speed kV (V - I R),
 * torque (I - I0) / kV, efficiency (1 - I R/V)(1 - I0/I), best at I = sqrt(V I0/R). Textbook, e.g.
 * Hendershot and Miller, Design of Brushless Permanent-Magnet Motors (from memory); the figures below
 * are those forms in ten digits at 2300 rpm/V, 0.060 ohm, 1.2 A, 14.8 V. */
static const pare_motor first_order = {.kv_rpm_per_v = 2300,
                                       .resistance_ohm = 0.060,
                                       .no_load_a = 1.2,
                                       .no_load_at_v = 14.8,
                                       .mass_kg = 0.03,
                                       .iron_share = 0,
                                       .ambient_degc = 20};

static void motor_at_10_a_has_the_closed_form(void **state)
{
    (void)state;
    pare_motor_state s;
    assert_int_equal(pare_motor_on(&first_order, 14.8, 10, 0, &s, NULL), PARE_OK);
    assert_within(s.speed_rad_s * 30 / PI, 32660, 1e-9);
    assert_within(s.torque_nm, 0.036536439, 2e-8);
    assert_within(s.torque_nm * s.speed_rad_s, 124.96, 1e-9);
    assert_within(s.torque_nm * s.speed_rad_s / 148, 0.844324324, 1e-9);
}

static void best_current_has_the_closed_form(void **state)
{
    (void)state;
    double current, efficiency;
    assert_int_equal(pare_motor_best(&first_order, 14.8, 0, &current, &efficiency, NULL), PARE_OK);
    /* the top is flat: a double tells efficiencies apart only to about 1e-7 of the current */
    assert_within(current, 17.204650534, 1e-6);
    assert_within(current, sqrt(14.8 * 1.2 / 0.060), 1e-6);
    assert_within(efficiency, 0.865367698, 1e-9);
}

/* With a loss current that does not change and a cold winding the best efficiency on fixed volts is
 * (1 - sqrt(I0 R/V))^2 at sqrt(V I0/R), for every motor (textbook, as above). */
static void best_efficiency_of_any_motor_has_the_closed_form(void **state)
{
    (void)state;
    for (double kv = 200; kv < 30000; kv *= 2)
        for (double ohm = 0.01; ohm < 0.5; ohm *= 2)
            for (double loss_a = 0.1; loss_a < 3; loss_a *= 2) {
                pare_motor motor = first_order;
                double current, efficiency;
                motor.kv_rpm_per_v = kv;
                motor.resistance_ohm = ohm;
                motor.no_load_a = loss_a;
                assert_int_equal(pare_motor_best(&motor, 14.8, 0, &current, &efficiency, NULL),
                                 PARE_OK);
                assert_within(current, sqrt(14.8 * loss_a / ohm), 1e-9);
                assert_within(efficiency, pow(1 - sqrt(loss_a * ohm / 14.8), 2), 1e-9);
            }
}

/* Without loss current a motor gives most at half the stall current, V/2R, where half of the power is
 * lost in the winding: V^2/4R (textbook, as above). */
static void a_motor_gives_most_at_half_its_stall_current(void **state)
{
    (void)state;
    pare_motor motor = first_order;
    motor.no_load_a = 0;
    const double half_a = 14.8 / (2 * 0.060);
    double most_w = 0, at_a = 0;
    for (double share = 0.1; share < 2; share += 0.01) {
        pare_motor_state s;
        assert_int_equal(pare_motor_on(&motor, 14.8, share * half_a, 0, &s, NULL), PARE_OK);
        if (s.torque_nm * s.speed_rad_s > most_w) {
            most_w = s.torque_nm * s.speed_rad_s;
            at_a = s.current_a;
        }
    }
    assert_within(most_w, 14.8 * 14.8 / (4 * 0.060), 1e-9);
    assert_within(at_a, half_a, 1e-9);
}

/* The volt-second and the newton metre an ampere are one unit: a motor of 60/2pi = 9.549297 rpm/V turns
 * with 1 N m an ampere (SI; definition of the constants). */
static void torque_constant_and_voltage_constant_are_one(void **state)
{
    (void)state;
    pare_motor motor = first_order;
    pare_motor_state s;
    motor.kv_rpm_per_v = 9.549296586;
    motor.no_load_a = 0;
    assert_int_equal(pare_motor_at(&motor, 0, 10, 2.5, 0, &s, NULL), PARE_OK);
    assert_within(s.current_a, 2.5, 1e-9);
    assert_within(s.volts_v, 10 + 2.5 * 0.060, 1e-9);
}

/* The same copper in fewer turns: kV times k, resistance over k^2, loss current times k. On 1/k of the
 * volts it does the same work with the same loss and heat (closed form; Hendershot and Miller, as
 * above). */
static void a_rewound_motor_does_the_same_on_its_own_volts(void **state)
{
    (void)state;
    for (double share = 0; share <= 1; share += 0.5)
        for (double k = 0.5; k < 3; k *= 1.5) {
            pare_motor one = first_order, rewound = first_order;
            pare_motor_state a, b;
            one.iron_share = rewound.iron_share = share;
            rewound.kv_rpm_per_v *= k;
            rewound.resistance_ohm /= k * k;
            rewound.no_load_a *= k;
            rewound.no_load_at_v /= k;
            assert_int_equal(pare_motor_at(&one, 0, 2500, 0.05, 1, &a, NULL), PARE_OK);
            assert_int_equal(pare_motor_at(&rewound, 0, 2500, 0.05, 1, &b, NULL), PARE_OK);
            assert_within(b.volts_v * k, a.volts_v, 1e-12);
            assert_within(b.current_a / k, a.current_a, 1e-12);
            assert_within(b.winding_degc, a.winding_degc, 1e-12);
        }
}

/* OpenStax, College Physics, sec. 21.2, example 21.6: a 12.0 V battery of 0.100 ohm inside on a load of
 * 0.500 ohm gives 20.0 A, 10.0 V and 200 W; with 0.500 ohm inside, 12.0 A, 6.00 V and 72.0 W, which is
 * the most that battery gives, since the load matches. */
static void battery_on_a_load_is_the_textbook_example(void **state)
{
    (void)state;
    double current, volts;
    assert_int_equal(pare_pack_current(12, 0.1, 200, &current, &volts, NULL), PARE_OK);
    assert_within(current, 20.0, 1e-12);
    assert_within(volts, 10.0, 1e-12);
    assert_int_equal(pare_pack_current(12, 0.5, 72, &current, &volts, NULL), PARE_OK);
    assert_within(current, 12.0, 1e-7);
    assert_within(volts, 6.0, 1e-7);
    assert_within(pare_pack_most_w(12, 0.5), 72.0, 1e-12);
}

/* The smaller root of 0.020 I^2 - 14.8 I + 300 = 0, in closed form to eleven digits. */
static void constant_power_has_the_closed_form(void **state)
{
    (void)state;
    double current, volts;
    assert_int_equal(pare_pack_current(14.8, 0.020, 300, &current, &volts, NULL), PARE_OK);
    assert_within(current, 20.858194998, 1e-10);
    assert_within(volts, 14.382836100, 1e-10);
    assert_within(pare_pack_most_w(14.8, 0.020), 2738, 1e-12);
}

/* IEC 60028 (1925): copper's resistance rises by 0.00393 of its value at 20 degC a kelvin. A winding in
 * air of 45 degC, not warmed by its own losses, has 1.09825 of it. */
static void copper_warms_as_the_standard_says(void **state)
{
    (void)state;
    pare_motor motor = first_order;
    pare_motor_state s;
    motor.ambient_degc = 45;
    assert_int_equal(pare_motor_at(&motor, 0, 1000, 0.01, 0, &s, NULL), PARE_OK);
    assert_within(s.resistance_ohm, 0.060 * 1.09825, 1e-12);
    assert_within(s.winding_degc, 45, 1e-12);
}

/* Bounds known to the trade (common practice, no source): full cells 4.20, 4.35 and 4.2 V; a rested
 * lithium-polymer cell at 3.8 V is about half full. */
static void cell_volts_are_the_trades(void **state)
{
    (void)state;
    assert_near(pare_chemistry_full_v(PARE_LIPO), 4.20, 1e-9);
    assert_near(pare_chemistry_full_v(PARE_LIHV), 4.35, 1e-9);
    assert_near(pare_chemistry_full_v(PARE_LIION), 4.20, 0.03);
    assert_between(pare_pack_cell_v(PARE_LIPO, 0.5), 3.75, 3.85);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(motor_at_10_a_has_the_closed_form),
        cmocka_unit_test(best_current_has_the_closed_form),
        cmocka_unit_test(best_efficiency_of_any_motor_has_the_closed_form),
        cmocka_unit_test(a_motor_gives_most_at_half_its_stall_current),
        cmocka_unit_test(torque_constant_and_voltage_constant_are_one),
        cmocka_unit_test(a_rewound_motor_does_the_same_on_its_own_volts),
        cmocka_unit_test(battery_on_a_load_is_the_textbook_example),
        cmocka_unit_test(constant_power_has_the_closed_form),
        cmocka_unit_test(copper_warms_as_the_standard_says),
        cmocka_unit_test(cell_volts_are_the_trades),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
