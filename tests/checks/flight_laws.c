/* rooms: physics base */
/* Whole craft against laws with a closed form: power, time and turns of a multirotor whose losses are
 * taken out one by one. */
#include <math.h>

#include "near.h"
#include "physics/rig.h"
#include "published_props.h"

#define GRAVITY_M_S2 9.80665

typedef struct craft {
    pare_prop_constants constants;
    pare_prop prop;
    pare_rig rig;
} craft;

/* A craft of 10 in propellers that loses nothing in motor, ESC and pack, whose blades feel neither
 * Reynolds nor Mach number. */
static void lossless(craft *c)
{
    const pare_prop_size size = {
        .diameter_m = 0.254, .pitch_m = 0.12, .blades = 2, .chord_m = 0.028};
    pare_prop_constants *k = &c->constants;
    *k = published_family;
    k->lift_slope_exponent = k->lift_most_exponent = k->drag_least_exponent = 0;
    k->mach_most = 0;
    assert_int_equal(pare_prop_from_size(&size, k, &c->prop, NULL), PARE_OK);
    pare_rig_defaults(&c->rig);
    pare_rig *rig = &c->rig;
    assert_int_equal(pare_air_standard(0, &rig->air, NULL), PARE_OK);
    rig->rotor.prop = &c->prop;
    rig->mass_kg = 1.2;
    rig->motor.kv_rpm_per_v = 900;
    rig->motor.resistance_ohm = 0;
    rig->motor.no_load_a = 0;
    rig->motor.mass_kg = 0.05;
    rig->esc = (pare_esc){0};
    rig->pack.cells = 4;
    rig->pack.capacity_c = 5 * 3600;
    rig->pack.group_ohm = 1e-12;
    rig->pack.lead_ohm = 0;
    rig->drag_m2 = 0.02;
    rig->drag_top_m2 = 0.04;
    rig->blockage = 0;
}

static double hover_w(const pare_rig *rig)
{
    pare_operating point;
    assert_int_equal(pare_rig_thrust(rig, 1, 0.5, &point, NULL), PARE_OK);
    return point.pack_w;
}

static double hover_s(const pare_rig *rig)
{
    const pare_flown hover = {PARE_FLOWN_THRUST, 1, 1};
    const pare_landing landing = {.cell_v = 0.1, .charge = 0};
    pare_endurance e;
    assert_int_equal(pare_rig_endure(rig, 1, &hover, &landing, &e, NULL), PARE_OK);
    /* the cut-off is never reached by a pack without resistance */
    assert_near(e.charge_end, 0, 1e-9);
    return e.time_s;
}

static void pack_power_at_hover_goes_with_mass_to_the_three_halves(void **state)
{
    (void)state;
    /* Momentum theory, closed form: P ~ m^1.5 / sqrt(rho). */
    craft c;
    lossless(&c);
    const double base_w = hover_w(&c.rig);
    c.rig.mass_kg *= 1.5;
    assert_within(hover_w(&c.rig) / base_w, pow(1.5, 1.5), 1e-8);
    c.rig.mass_kg /= 1.5;
    c.rig.air.density_kg_m3 *= 0.8;
    assert_within(hover_w(&c.rig) / base_w, 1 / sqrt(0.8), 1e-8);
}

static void twice_the_rotors_of_one_size_hover_on_the_root_of_half_the_power(void **state)
{
    (void)state;
    /* Closed form: the same weight on twice the disc area. */
    craft c;
    lossless(&c);
    const double four_w = hover_w(&c.rig);
    c.rig.rotors = 8;
    assert_within(hover_w(&c.rig) / four_w, sqrt(0.5), 1e-8);
}

static void a_lossless_craft_hovers_for_the_energy_over_the_power(void **state)
{
    (void)state;
    /* Energy over power, closed form. */
    craft c;
    lossless(&c);
    assert_within(hover_s(&c.rig), pare_pack_energy_j(&c.rig.pack, 0) / hover_w(&c.rig), 1e-5);
}

static void hover_lasts_longest_where_the_pack_is_two_thirds_of_the_mass(void **state)
{
    (void)state;
    /* Closed form: time ~ mb/(m0 + mb)^1.5 has its top at mb = 2 m0, which is 1.0887 of that at mb = m0. */
    craft c;
    lossless(&c);
    const double rest_kg = 0.4, c_per_kg = 20000;
    const double share[] = {1, 1.8, 2, 2.2};
    double time_s[4];
    for (int i = 0; i < 4; i++) {
        c.rig.mass_kg = rest_kg * (1 + share[i]);
        c.rig.pack.capacity_c = c_per_kg * rest_kg * share[i];
        time_s[i] = hover_s(&c.rig);
    }
    assert_true(time_s[2] > time_s[1] && time_s[2] > time_s[3]);
    assert_within(time_s[2] / time_s[0], 2 * pow(2.0 / 3, 1.5), 1e-6);
}

static void a_level_turn_has_the_textbooks_rate_and_radius(void **state)
{
    (void)state;
    /* Anderson, Aircraft Performance and Design, sec. 6.2 (from memory): rate g sqrt(n^2 - 1)/v, radius
     * v^2/(g sqrt(n^2 - 1)). */
    craft c;
    lossless(&c);
    pare_turn turn;
    assert_int_equal(pare_rig_turn(&c.rig, 8, 0.8, &turn, NULL), PARE_OK);
    assert_true(turn.load_factor > 1.2);
    const double across_m_s2 = GRAVITY_M_S2 * sqrt(turn.load_factor * turn.load_factor - 1);
    assert_within(turn.rate_rad_s, across_m_s2 / 8, 1e-9);
    assert_within(turn.radius_m, 64 / across_m_s2, 1e-9);
}

static void a_craft_in_level_flight_leans_until_its_thrust_carries_weight_and_drag(void **state)
{
    (void)state;
    /* Statics: thrust is the root of weight and the forces along the flow squared; the drag is
     * rho v^2 A/2. */
    craft c;
    lossless(&c);
    c.rig.drag_top_m2 = c.rig.drag_m2;
    pare_operating point;
    assert_int_equal(pare_rig_level(&c.rig, 10, 0.8, &point, NULL), PARE_OK);
    assert_within(point.drag_n, 0.5 * 1.225 * 100 * 0.02, 1e-6);
    const double weight_n = c.rig.mass_kg * GRAVITY_M_S2;
    const double thrust_n = 4 * point.rotor.thrust_n, across_n = 4 * point.rotor.drag_n;
    const double along_n = point.drag_n;
    assert_within(hypot(thrust_n, across_n), hypot(weight_n, along_n), 1e-6);
}

static void no_burst_is_faster_than_its_first_push_would_be(void **state)
{
    (void)state;
    /* Galilei: 30 m at the acceleration of full thrust at rest takes sqrt(2 h/a); thrust that falls with
     * speed, drag and rotors that must spin up only add to it. */
    craft c;
    lossless(&c);
    c.rig.motor.resistance_ohm = 0.08;
    c.rig.motor.no_load_a = 0.5;
    c.rig.spin_kg_m2 = 5e-5;
    pare_operating full;
    pare_burst burst;
    assert_int_equal(pare_rig_full(&c.rig, 1, 0.3, 0, 0, 0, &full, NULL), PARE_OK);
    assert_int_equal(pare_rig_burst(&c.rig, 30, 1, 0, &burst, NULL), PARE_OK);
    const double first_m_s2 = GRAVITY_M_S2 * (pare_rig_thrust_to_weight(&c.rig, &full) - 1);
    assert_between(burst.time_s, sqrt(60 / first_m_s2), 3 * sqrt(60 / first_m_s2));
    assert_true(burst.end_m_s < 2 * 30 / burst.time_s * 1.2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pack_power_at_hover_goes_with_mass_to_the_three_halves),
        cmocka_unit_test(twice_the_rotors_of_one_size_hover_on_the_root_of_half_the_power),
        cmocka_unit_test(a_lossless_craft_hovers_for_the_energy_over_the_power),
        cmocka_unit_test(hover_lasts_longest_where_the_pack_is_two_thirds_of_the_mass),
        cmocka_unit_test(a_level_turn_has_the_textbooks_rate_and_radius),
        cmocka_unit_test(a_craft_in_level_flight_leans_until_its_thrust_carries_weight_and_drag),
        cmocka_unit_test(no_burst_is_faster_than_its_first_push_would_be),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
