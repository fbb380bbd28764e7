/* rooms: physics base */
/* Propeller and rotor: the model's own fixed cases, its table, its laws, hostile input. */
#include "near.h"
#include "published_props.h"

#include <float.h>
#include <math.h>
#include <string.h>

#include "physics/prop.h"
#include "physics/rotor.h"

#define PI     3.14159265358979323846
#define INCH_M 0.0254

/* The fixed cases were computed in this simple closed form of the atmosphere, which differs from the
 * standard in the fifth digit. */
static const double simple_gas_j_kg_k = 287.05;

static pare_air simple_air(void)
{
    const double kelvin = 288.15, pressure_pa = 101325;
    return (pare_air){.temperature_degc = 15,
                      .pressure_pa = pressure_pa,
                      .density_kg_m3 = pressure_pa / (simple_gas_j_kg_k * kelvin),
                      .viscosity_pa_s =
                          1.716e-5 * pow(kelvin / 273.15, 1.5) * 383.55 / (kelvin + 110.4),
                      .sound_m_s = sqrt(1.4 * simple_gas_j_kg_k * kelvin)};
}

static pare_prop sized(double diameter_in, double pitch_in, int blades)
{
    const pare_prop_size size = {
        .diameter_m = diameter_in * INCH_M, .pitch_m = pitch_in * INCH_M, .blades = blades};
    pare_prop prop;
    assert_int_equal(pare_prop_from_size(&size, &published_family, &prop, NULL), PARE_OK);
    return prop;
}

/* ---- the model's own fixed cases: they check the code against the model's description ---- */

static void the_simple_atmosphere_is_the_one_of_the_fixed_cases(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    assert_within(air.density_kg_m3, 1.225012, 1e-6);
    assert_within(air.viscosity_pa_s, 1.789298e-5, 1e-6);
    assert_within(air.sound_m_s, 340.2923, 1e-6);
}

static void sized_propellers_give_their_fixed_thrust_and_torque(void **state)
{
    (void)state;
    static const struct {
        double diameter_in, pitch_in;
        int blades;
        double speed_rad_s, ct, cp, thrust_n, torque_nm;
    } fixed[] = {
        {5.1, 4.3, 3, 2500, 0.1668752, 0.1056905, 9.113139, 0.1189971},
        {10, 4.5, 2, 700, 0.08540604, 0.03331075, 5.405056, 0.08522165},
        {3, 3, 3, 4000, 0.175722, 0.1338401, 2.94135, 0.02716953},
        {2.5, 2, 4, 5000, 0.2068178, 0.1309383, 2.608576, 0.01669076},
    };
    const pare_air air = simple_air();
    for (size_t i = 0; i < sizeof fixed / sizeof fixed[0]; i++) {
        const pare_prop prop = sized(fixed[i].diameter_in, fixed[i].pitch_in, fixed[i].blades);
        pare_prop_table table;
        double ct, cp;
        pare_prop_table_build(&prop, &table);
        pare_prop_coefficients(&prop, 0, fixed[i].speed_rad_s, &air, &ct, &cp);
        assert_within(ct, fixed[i].ct, 1e-5);
        assert_within(cp, fixed[i].cp, 1e-5);
        for (int tabled = 0; tabled <= 1; tabled++) {
            const pare_rotor rotor = {&prop, tabled ? &table : NULL, 1, 1};
            const double tolerance = tabled ? 5e-3 : 1e-5;
            pare_rotor_state s;
            pare_rotor_at(&rotor, &air, fixed[i].speed_rad_s, 0, 0, &s);
            assert_within(s.thrust_n, fixed[i].thrust_n, tolerance);
            assert_within(s.torque_nm, fixed[i].torque_nm, tolerance);
            assert_near(s.drag_n, 0, 0);
            assert_near(s.speed_rad_s, fixed[i].speed_rad_s, 0);
        }
    }
}

static void a_measured_blade_gives_its_fixed_coefficients(void **state)
{
    (void)state;
    static const double radius[] = {0.15, 0.2,  0.25, 0.3,  0.35, 0.4,  0.45, 0.5,  0.55,
                                    0.6,  0.65, 0.7,  0.75, 0.8,  0.85, 0.9,  0.95, 1.0};
    static const double chord[] = {0.13,  0.149, 0.173, 0.189, 0.197, 0.201, 0.2,   0.194, 0.186,
                                   0.174, 0.16,  0.145, 0.128, 0.112, 0.096, 0.081, 0.061, 0.041};
    static const double twist_deg[] = {32.76, 37.19, 33.54, 29.25, 25.64, 22.54,
                                       20.27, 18.46, 17.05, 15.97, 14.87, 14.09,
                                       13.39, 12.84, 12.25, 11.37, 10.19, 8.99};
    double twist_rad[18];
    for (int i = 0; i < 18; i++)
        twist_rad[i] = twist_deg[i] * PI / 180;
    const pare_air air = simple_air();
    pare_prop prop;
    pare_prop_table table;
    double ct, cp;
    assert_int_equal(pare_prop_from_stations(10 * INCH_M, 2, PARE_LINE_UNKNOWN, 18, radius, chord,
                                             twist_rad, &published_true, &prop, NULL),
                     PARE_OK);
    pare_prop_coefficients(&prop, 0, 5000 * PI / 30, &air, &ct, &cp);
    assert_within(ct, 0.08844063, 1e-5);
    assert_within(cp, 0.03538903, 1e-5);
    pare_prop_table_build(&prop, &table);
    pare_prop_table_coefficients(&table, 0, 5000 * PI / 30, &air, &ct, &cp);
    assert_within(ct, 0.08844063, 5e-3);
    assert_within(cp, 0.03538903, 5e-3);
}

static void inclined_rotors_give_their_fixed_thrust_torque_and_drag(void **state)
{
    (void)state;
    static const struct {
        double diameter_in, pitch_in;
        int blades;
        double speed_rad_s, axial_m_s, inplane_m_s, thrust_n, torque_nm, drag_n;
    } fixed[] = {
        {5.1, 4.3, 3, 1300, 0, 8, 2.442015, 0.02833377, 0.04307945},
        {10, 4.5, 2, 600, 1.5, 10, 4.481764, 0.06190895, 0.05209136},
    };
    const pare_air air = simple_air();
    for (size_t i = 0; i < sizeof fixed / sizeof fixed[0]; i++) {
        const pare_prop prop = sized(fixed[i].diameter_in, fixed[i].pitch_in, fixed[i].blades);
        pare_prop_table table;
        pare_prop_table_build(&prop, &table);
        for (int tabled = 0; tabled <= 1; tabled++) {
            const pare_rotor rotor = {&prop, tabled ? &table : NULL, 1, 1};
            const double tolerance = tabled ? 5e-3 : 1e-5;
            pare_rotor_state s;
            pare_rotor_at(&rotor, &air, fixed[i].speed_rad_s, fixed[i].axial_m_s,
                          fixed[i].inplane_m_s, &s);
            assert_within(s.thrust_n, fixed[i].thrust_n, tolerance);
            assert_within(s.torque_nm, fixed[i].torque_nm, tolerance);
            assert_within(s.drag_n, fixed[i].drag_n, tolerance);
        }
    }
}

/* ---- the table ---- */

static void the_table_follows_the_blade_elements(void **state)
{
    (void)state;
    static const struct {
        double diameter_in, pitch_in;
        int blades;
    } kind[] = {{5.1, 4.3, 3}, {10, 4.5, 2}, {3, 3, 3},  {7, 4, 2},
                {15, 5, 2},    {6, 4, 5},    {2.5, 2, 4}};
    pare_air airs[2];
    assert_int_equal(pare_air_standard(0, &airs[0], NULL), PARE_OK);
    assert_int_equal(pare_air_standard(3000, &airs[1], NULL), PARE_OK);
    for (size_t i = 0; i < sizeof kind / sizeof kind[0]; i++) {
        const pare_prop prop = sized(kind[i].diameter_in, kind[i].pitch_in, kind[i].blades);
        pare_prop_table table;
        pare_prop_table_build(&prop, &table);
        double still_ct, still_cp;
        pare_prop_coefficients(&prop, 0, 100 / (0.5 * prop.diameter_m), &airs[0], &still_ct,
                               &still_cp);
        /* Off the table's own points in all three directions. */
        for (int air = 0; air < 2; air++)
            for (double tip_m_s = 45; tip_m_s < 225; tip_m_s += 29)
                for (double advance = 0; advance < 1; advance += 0.047) {
                    const double speed_rad_s = tip_m_s / (0.5 * prop.diameter_m);
                    double ct, cp, table_ct, table_cp;
                    pare_prop_coefficients(&prop, advance, speed_rad_s, &airs[air], &ct, &cp);
                    if (ct < 0.2 * still_ct)
                        continue;
                    pare_prop_table_coefficients(&table, advance, speed_rad_s, &airs[air],
                                                 &table_ct, &table_cp);
                    assert_within(table_ct, ct, 5e-3);
                    assert_within(table_cp, cp, 5e-3);
                }
    }
}

static void the_tables_slope_has_no_jumps(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    const pare_prop prop = sized(5.1, 4.3, 3);
    pare_prop_table table;
    pare_prop_table_build(&prop, &table);
    const double h = 1e-5;
    double last = NAN;
    for (double advance = 0.05; advance < 2.5; advance += 1e-3) {
        double before, after, cp;
        pare_prop_table_coefficients(&table, advance - h, 1500, &air, &before, &cp);
        pare_prop_table_coefficients(&table, advance + h, 1500, &air, &after, &cp);
        const double slope = (after - before) / (2 * h);
        /* CT bends by less than 2 a J^2; a corner would show as 0.01 and more. */
        if (!isnan(last))
            assert_near(slope, last, 2e-3);
        last = slope;
    }
}

static void beyond_the_table_thrust_goes_on_without_a_jump_and_falls(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    static const double ratio[] = {0.4, 0.8, 1.2};
    for (int i = 0; i < 3; i++) {
        const pare_prop prop = sized(5, 5 * ratio[i], 2);
        pare_prop_table table;
        pare_prop_table_build(&prop, &table);
        double last = INFINITY;
        for (double advance = 1.55; advance < 8; advance += 0.01) {
            double ct, cp, direct_ct, direct_cp;
            pare_prop_table_coefficients(&table, advance, 1500, &air, &ct, &cp);
            assert_true(ct < last);
            if (!isinf(last))
                assert_true(last - ct < 0.02);
            last = ct;
            if (advance > 3.3)
                continue;
            pare_prop_coefficients(&prop, advance, 1500, &air, &direct_ct, &direct_cp);
            assert_near(ct, direct_ct, 0.06 * fabs(direct_ct) + 0.005);
        }
    }
}

static void outside_its_reynolds_and_mach_numbers_the_table_holds_still(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    const pare_prop prop = sized(5.1, 4.3, 3);
    pare_prop_table table;
    pare_prop_table_build(&prop, &table);
    double last_ct = NAN, last_cp = NAN;
    for (double speed_rad_s = 1e-6; speed_rad_s < 1e7; speed_rad_s *= 1.01) {
        double ct, cp;
        pare_prop_table_coefficients(&table, 0.2, speed_rad_s, &air, &ct, &cp);
        assert_between(ct, 0.08, 0.3);
        assert_between(cp, 0.05, 0.3);
        if (!isnan(last_ct)) {
            assert_within(ct, last_ct, 6e-3);
            assert_within(cp, last_cp, 6e-3);
        }
        last_ct = ct;
        last_cp = cp;
    }
}

static void a_table_is_known_again_by_its_key_and_only_by_that(void **state)
{
    (void)state;
    const pare_prop prop = sized(5.1, 4.3, 3);
    pare_prop other = sized(5.1, 4.3, 3);
    assert_true(pare_prop_table_key(&prop) == pare_prop_table_key(&other));
    other = sized(5.1, 4.31, 3);
    assert_false(pare_prop_table_key(&prop) == pare_prop_table_key(&other));
    other = prop;
    other.blades = 2;
    assert_false(pare_prop_table_key(&prop) == pare_prop_table_key(&other));
    other = prop;
    other.constants = &published_true;
    assert_false(pare_prop_table_key(&prop) == pare_prop_table_key(&other));
    other = prop;
    other.diameter_m *= 1 + 1e-15;
    assert_false(pare_prop_table_key(&prop) == pare_prop_table_key(&other));
}

static void a_table_is_built_to_the_same_bytes_and_checked_before_use(void **state)
{
    (void)state;
    const pare_prop prop = sized(5.1, 4.3, 3), other = sized(5.2, 4.3, 3);
    pare_prop_table table, again;
    memset(&again, 0xff, sizeof again);
    pare_prop_table_build(&prop, &table);
    pare_prop_table_build(&prop, &again);
    assert_memory_equal(&table, &again, sizeof table);
    assert_true(pare_prop_table_is_sound(&table, &prop));
    assert_false(pare_prop_table_is_sound(&table, &other));
    table.piece[3][1][2][0] = NAN;
    assert_false(pare_prop_table_is_sound(&table, &prop));
    memset(&again, 0, sizeof again);
    assert_false(pare_prop_table_is_sound(&again, &prop));
}

/* ---- laws ---- */

static void thrust_goes_with_density_at_one_reynolds_number(void **state)
{
    (void)state;
    const pare_prop prop = sized(7, 4, 2);
    const pare_rotor rotor = {&prop, NULL, 1, 1};
    pare_air thick = simple_air(), thin = thick;
    thin.density_kg_m3 *= 0.5;
    thin.viscosity_pa_s *= 0.5;
    pare_rotor_state in_thick, in_thin;
    for (double inplane_m_s = 0; inplane_m_s < 15; inplane_m_s += 7) {
        pare_rotor_at(&rotor, &thick, 900, 1, inplane_m_s, &in_thick);
        pare_rotor_at(&rotor, &thin, 900, 1, inplane_m_s, &in_thin);
        assert_within(in_thin.thrust_n, 0.5 * in_thick.thrust_n, 1e-9);
        assert_within(in_thin.torque_nm, 0.5 * in_thick.torque_nm, 1e-9);
        assert_near(in_thin.drag_n, 0.5 * in_thick.drag_n, 1e-9 * in_thick.drag_n);
    }
}

static void more_blades_pull_more_but_not_in_proportion(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    double last_ct = 0, last_cp = 0, first_ct = 0;
    for (int blades = 3; blades <= 8; blades++) {
        const pare_prop prop = sized(5, 4, blades);
        double ct, cp;
        pare_prop_coefficients(&prop, 0, 1500, &air, &ct, &cp);
        assert_true(ct > last_ct && cp > last_cp);
        if (blades == 3)
            first_ct = ct;
        else
            assert_true(ct < first_ct * blades / 3);
        last_ct = ct;
        last_cp = cp;
    }
}

static void a_propeller_at_rest_pushes_and_takes_more_than_ideal_power(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    for (double diameter_in = 1; diameter_in < 30; diameter_in *= 1.7)
        for (double ratio = 0; ratio <= 2; ratio += 0.125)
            for (int blades = 2; blades <= 8; blades += 2) {
                const pare_prop prop = sized(diameter_in, ratio * diameter_in, blades);
                const pare_rotor rotor = {&prop, NULL, 1, 1};
                const double speed_rad_s = 80 / (0.5 * prop.diameter_m);
                pare_rotor_state s;
                pare_rotor_at(&rotor, &air, speed_rad_s, 0, 0, &s);
                assert_true(s.thrust_n >= 0);
                assert_true(
                    s.torque_nm * speed_rad_s >
                    pare_rotor_ideal_hover_w(s.thrust_n, prop.diameter_m, air.density_kg_m3));
            }
}

static void thrust_may_rise_with_advance_where_pitch_nears_the_diameter(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    const pare_prop prop = sized(3, 3, 3);
    double still, slow, fast, cp;
    pare_prop_coefficients(&prop, 0, 2500, &air, &still, &cp);
    pare_prop_coefficients(&prop, 0.06, 2500, &air, &slow, &cp);
    pare_prop_coefficients(&prop, 0.6, 2500, &air, &fast, &cp);
    assert_true(slow > still);
    assert_true(fast < still);
}

static void a_little_flow_across_changes_little(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    const pare_prop prop = sized(5.1, 4.3, 3);
    pare_prop_table table;
    pare_prop_table_build(&prop, &table);
    for (int tabled = 0; tabled <= 1; tabled++)
        for (double axial_m_s = 0; axial_m_s <= 20; axial_m_s += 4) {
            const pare_rotor rotor = {&prop, tabled ? &table : NULL, 1, 1};
            const double tip_m_s = 1300 * 0.5 * prop.diameter_m;
            pare_rotor_state along, across;
            pare_rotor_at(&rotor, &air, 1300, axial_m_s, 0, &along);
            pare_rotor_at(&rotor, &air, 1300, axial_m_s, 2e-6 * tip_m_s, &across);
            assert_within(across.thrust_n, along.thrust_n, 1e-8);
            assert_within(across.torque_nm, along.torque_nm, 1e-8);
        }
}

static void inclined_flow_has_no_jumps_from_descent_to_climb(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    const pare_prop prop = sized(10, 4.5, 2);
    pare_prop_table table;
    pare_prop_table_build(&prop, &table);
    const pare_rotor rotor = {&prop, &table, 1, 1};
    for (double inplane_m_s = 1; inplane_m_s < 40; inplane_m_s += 3) {
        pare_rotor_state last = {0};
        for (double axial_m_s = -12; axial_m_s < 14; axial_m_s += 0.02) {
            pare_rotor_state s;
            pare_rotor_at(&rotor, &air, 600, axial_m_s, inplane_m_s, &s);
            assert_true(isfinite(s.thrust_n) && isfinite(s.torque_nm) && isfinite(s.drag_n));
            if (last.speed_rad_s > 0) {
                assert_near(s.thrust_n, last.thrust_n, 0.04);
                assert_near(s.torque_nm, last.torque_nm, 1e-3);
            }
            last = s;
        }
    }
}

static void flow_across_lifts_a_hovering_rotor_and_drags_on_it(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    const pare_prop prop = sized(7, 4, 2);
    const pare_rotor rotor = {&prop, NULL, 1, 1};
    pare_rotor_state last;
    pare_rotor_at(&rotor, &air, 860, 0, 0, &last);
    for (double inplane_m_s = 3; inplane_m_s < 30; inplane_m_s += 3) {
        pare_rotor_state s;
        pare_rotor_at(&rotor, &air, 860, 0, inplane_m_s, &s);
        assert_true(s.thrust_n > last.thrust_n);
        assert_true(s.drag_n > last.drag_n);
        last = s;
    }
}

static void learned_factors_scale_thrust_and_power(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    const pare_prop prop = sized(5.1, 4.3, 3);
    const pare_rotor plain = {&prop, NULL, 1, 1}, learned = {&prop, NULL, 1.1, 0.9};
    pare_rotor_state a, b;
    pare_rotor_at(&plain, &air, 1300, 3, 0, &a);
    pare_rotor_at(&learned, &air, 1300, 3, 0, &b);
    assert_within(b.thrust_n, 1.1 * a.thrust_n, 1e-12);
    assert_within(b.torque_nm, 0.9 * a.torque_nm, 1e-12);
    /* Across the flow the induced velocity grows with the thrust, so it gains a little less. */
    pare_rotor_at(&plain, &air, 1300, 3, 10, &a);
    pare_rotor_at(&learned, &air, 1300, 3, 10, &b);
    assert_between(b.thrust_n / a.thrust_n, 1.03, 1.15);
}

static void the_speed_for_a_thrust_gives_that_thrust(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    static const double flow[][2] = {{0, 0},  {5, 0},  {20, 0}, {0, 8},   {1.5, 12},
                                     {6, 16}, {15, 3}, {-2, 6}, {-3, 0.5}};
    static const double guess[] = {0, 1, 700, 1150, 3000, 1e9};
    for (int pitch_in = 3; pitch_in <= 6; pitch_in++) {
        const pare_prop prop = sized(5.1, pitch_in, 3);
        pare_prop_table table;
        pare_prop_table_build(&prop, &table);
        const pare_rotor rotor = {&prop, &table, 1, 1};
        for (size_t f = 0; f < sizeof flow / sizeof flow[0]; f++)
            for (double thrust_n = 0.5; thrust_n < 12; thrust_n *= 1.7) {
                double first = 0;
                for (size_t g = 0; g < sizeof guess / sizeof guess[0]; g++) {
                    pare_rotor_state s, at;
                    assert_int_equal(pare_rotor_for_thrust(&rotor, &air, thrust_n, flow[f][0],
                                                           flow[f][1], guess[g], &s, NULL),
                                     PARE_OK);
                    assert_within(s.thrust_n, thrust_n, 1e-8);
                    pare_rotor_at(&rotor, &air, s.speed_rad_s, flow[f][0], flow[f][1], &at);
                    assert_within(at.thrust_n, thrust_n, 1e-7);
                    assert_within(at.torque_nm, s.torque_nm, 1e-7);
                    assert_near(at.drag_n, s.drag_n, 1e-7 * thrust_n);
                    if (g == 0)
                        first = s.speed_rad_s;
                    assert_within(s.speed_rad_s, first, 1e-7);
                }
            }
    }
}

static void the_speed_for_a_thrust_is_found_without_a_table_too(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    const pare_prop prop = sized(10, 4.5, 2);
    const pare_rotor rotor = {&prop, NULL, 1, 1};
    pare_rotor_state s, at;
    assert_int_equal(pare_rotor_for_thrust(&rotor, &air, 3.5, 1.5, 10, 0, &s, NULL), PARE_OK);
    pare_rotor_at(&rotor, &air, s.speed_rad_s, 1.5, 10, &at);
    assert_within(at.thrust_n, 3.5, 1e-7);
}

static void a_thrust_that_cannot_be_is_refused_with_the_reason(void **state)
{
    (void)state;
    const pare_air air = simple_air();
    const pare_prop prop = sized(5.1, 4.3, 3);
    pare_prop_table table;
    pare_prop_table_build(&prop, &table);
    const pare_rotor rotor = {&prop, &table, 1, 1};
    static const double wrong[] = {0, -1, NAN, INFINITY, -INFINITY};
    pare_rotor_state s;
    pare_error err;
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        assert_int_equal(pare_rotor_for_thrust(&rotor, &air, wrong[i], 0, 0, 1000, &s, &err),
                         PARE_BAD_DATA);
        assert_non_null(strstr(err.text, "where more than 0 is right"));
    }
    assert_int_equal(pare_rotor_for_thrust(&rotor, &air, 1000, 0, 0, 1000, &s, &err),
                     PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "1000 N of thrust asked of a rotor"));
    assert_non_null(strstr(err.text, "before its tips reach the speed of sound"));
    /* So fast across that even the slowest rotor within the model's reach pulls more. */
    assert_int_equal(pare_rotor_for_thrust(&rotor, &air, 0.01, 0, 40, 1000, &s, &err),
                     PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "where the flow alone gives"));
    assert_int_equal(pare_rotor_for_thrust(&rotor, &air, 1, NAN, 0, 1000, &s, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "is not finite"));
}

/* ---- hostile input ---- */

static void no_number_hangs_or_crashes_a_rotor(void **state)
{
    (void)state;
    static const double odd[] = {0,    -1,    1,      1300,    NAN,     INFINITY, -INFINITY,
                                 1e30, 1e300, 1e-300, -1e-300, DBL_MAX, -DBL_MAX, 40};
    enum { ODD = sizeof odd / sizeof odd[0] };
    const pare_prop prop = sized(5.1, 4.3, 3);
    pare_prop_table table;
    pare_prop_table_build(&prop, &table);
    const pare_air good = simple_air();
    for (int tabled = 0; tabled <= 1; tabled++) {
        pare_rotor rotor = {&prop, tabled ? &table : NULL, 1, 1};
        for (int i = 0; i < ODD; i++)
            for (int j = 0; j < ODD; j++) {
                pare_rotor_state s;
                double ct, cp;
                pare_prop_coefficients(&prop, odd[i], odd[j], &good, &ct, &cp);
                pare_prop_table_coefficients(&table, odd[i], odd[j], &good, &ct, &cp);
                for (int k = 0; k < ODD; k++) {
                    pare_rotor_at(&rotor, &good, odd[i], odd[j], odd[k], &s);
                    if (odd[i] <= 0)
                        assert_near(s.thrust_n, 0, 0);
                }
                pare_rotor_for_thrust(&rotor, &good, 2, odd[i], odd[j], 1000, &s, NULL);
                pare_rotor_for_thrust(&rotor, &good, odd[i], 3, 4, odd[j], &s, NULL);
                pare_rotor_induced(odd[i], odd[j]);
                pare_air air = good;
                air.density_kg_m3 = odd[i];
                air.viscosity_pa_s = odd[j];
                pare_rotor_at(&rotor, &air, 1300, 2, 5, &s);
                pare_rotor_for_thrust(&rotor, &air, 2, 0, 0, 0, &s, NULL);
                air = good;
                air.sound_m_s = odd[j];
                rotor.thrust_factor = odd[i];
                pare_rotor_at(&rotor, &air, 1300, 2, 5, &s);
                pare_rotor_at(&rotor, &air, 1300, 20, 5, &s);
                pare_rotor_for_thrust(&rotor, &air, 2, 1, 5, 0, &s, NULL);
                rotor.thrust_factor = 1;
            }
    }
}

static void a_size_out_of_range_is_refused_and_nothing_written(void **state)
{
    (void)state;
    static const struct {
        pare_prop_size size;
        const char *says;
    } wrong[] = {
        {{.diameter_m = 0.019, .pitch_m = 0.01, .blades = 2}, "outside 0.02 .. 1 m"},
        {{.diameter_m = NAN, .pitch_m = 0.01, .blades = 2}, "outside 0.02 .. 1 m"},
        {{.diameter_m = INFINITY, .pitch_m = 0.01, .blades = 2}, "outside 0.02 .. 1 m"},
        {{.diameter_m = 0.1, .pitch_m = 0.1, .blades = 1}, "1 blades"},
        {{.diameter_m = 0.1, .pitch_m = 0.1, .blades = 9}, "9 blades"},
        {{.diameter_m = 0.1, .pitch_m = -0.1, .blades = 2}, "0 .. 2 diameters"},
        {{.diameter_m = 0.1, .pitch_m = 0.3, .blades = 2}, "0 .. 2 diameters (0.2 m)"},
        {{.diameter_m = 0.1, .pitch_m = NAN, .blades = 2}, "0 .. 2 diameters"},
        {{.diameter_m = 0.1, .pitch_m = 0.1, .blades = 2, .chord_m = 0.05}, "greatest chord"},
        {{.diameter_m = 0.1, .pitch_m = 0.1, .blades = 2, .chord_m = -0.01}, "greatest chord"},
        {{.diameter_m = 0.1, .pitch_m = 0.1, .blades = 2, .chord_m = NAN}, "greatest chord"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        pare_prop prop = {.diameter_m = 7};
        pare_error err;
        assert_int_equal(pare_prop_from_size(&wrong[i].size, &published_family, &prop, &err),
                         PARE_BAD_DATA);
        assert_non_null(strstr(err.text, wrong[i].says));
        assert_near(prop.diameter_m, 7, 0);
    }
}

static void blade_stations_that_make_no_blade_are_refused_by_number(void **state)
{
    (void)state;
    static const struct {
        size_t count;
        double radius[3], chord[3], twist_rad[3];
        const char *says;
    } wrong[] = {
        {1, {0.2}, {0.1}, {0.3}, "1 blade stations, where 2 .. 32"},
        {33, {0.2}, {0.1}, {0.3}, "33 blade stations"},
        {3, {0.2, 0.2, 1}, {0.1, 0.1, 0.1}, {0.3, 0.3, 0.3}, "station 2: r/R 0.2"},
        {3, {0.2, 0.5, 1.1}, {0.1, 0.1, 0.1}, {0.3, 0.3, 0.3}, "station 3: r/R 1.1"},
        {3, {0.2, NAN, 1}, {0.1, 0.1, 0.1}, {0.3, 0.3, 0.3}, "station 2: r/R"},
        {3, {0.2, 0.5, 1}, {0.1, 0, 0.1}, {0.3, 0.3, 0.3}, "station 2: c/R 0"},
        {3, {0.2, 0.5, 1}, {0.1, 0.1, NAN}, {0.3, 0.3, 0.3}, "station 3: c/R"},
        {3, {0.2, 0.5, 1}, {0.1, 0.1, 0.1}, {2, 0.3, 0.3}, "station 1: twist"},
        {3, {0.2, 0.5, 1}, {0.1, 0.1, 0.1}, {0.3, 0.3, INFINITY}, "station 3: twist"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        pare_prop prop = {.diameter_m = 7};
        pare_error err;
        assert_int_equal(pare_prop_from_stations(0.127, 2, PARE_LINE_UNKNOWN, wrong[i].count,
                                                 wrong[i].radius, wrong[i].chord,
                                                 wrong[i].twist_rad, &published_true, &prop, &err),
                         PARE_BAD_DATA);
        assert_non_null(strstr(err.text, wrong[i].says));
        assert_near(prop.diameter_m, 7, 0);
    }
}

/* ---- what is known of a blade ---- */

static void a_known_chord_sets_the_blade_whatever_the_family_says(void **state)
{
    (void)state;
    pare_prop_size size = {.diameter_m = 0.127, .pitch_m = 0.1, .blades = 3, .chord_m = 0.0127};
    pare_prop narrow, broad;
    assert_int_equal(pare_prop_from_size(&size, &published_family, &narrow, NULL), PARE_OK);
    size.chord_m *= 1.5;
    assert_int_equal(pare_prop_from_size(&size, &published_family, &broad, NULL), PARE_OK);
    double greatest = 0;
    for (int i = 0; i < PARE_PROP_NODES; i++) {
        assert_within(broad.chord[i], 1.5 * narrow.chord[i], 1e-12);
        assert_near(broad.twist[i], narrow.twist[i], 0);
        greatest = fmax(greatest, narrow.chord[i]);
    }
    /* 0.2 R as stated; the shape's own greatest lies between two of the 16 stations. */
    assert_within(greatest, 0.2, 0.01);
}

static void a_slow_blade_is_broader_and_flatter_by_size_steeper_by_measure(void **state)
{
    (void)state;
    pare_prop_size size = {.diameter_m = 0.254, .pitch_m = 0.12, .blades = 2};
    pare_prop fast, slow;
    assert_int_equal(pare_prop_from_size(&size, &published_family, &fast, NULL), PARE_OK);
    size.line = PARE_LINE_SLOW;
    assert_int_equal(pare_prop_from_size(&size, &published_family, &slow, NULL), PARE_OK);
    for (int i = 0; i < PARE_PROP_NODES; i++) {
        assert_true(slow.chord[i] > fast.chord[i]);
        assert_near(slow.twist[i] - fast.twist[i], -0.0147646707444, 1e-12);
    }
    static const double radius[] = {0.2, 1}, chord[] = {0.2, 0.1}, twist_rad[] = {0.5, 0.2};
    assert_int_equal(pare_prop_from_stations(0.254, 2, PARE_LINE_UNKNOWN, 2, radius, chord,
                                             twist_rad, &published_true, &fast, NULL),
                     PARE_OK);
    assert_int_equal(pare_prop_from_stations(0.254, 2, PARE_LINE_SLOW, 2, radius, chord, twist_rad,
                                             &published_true, &slow, NULL),
                     PARE_OK);
    for (int i = 0; i < PARE_PROP_NODES; i++)
        assert_near(slow.twist[i] - fast.twist[i], 0.0478582711138, 1e-12);
}

static void stations_are_gauss_legendre_and_sum_to_the_blade(void **state)
{
    (void)state;
    const pare_prop prop = sized(5, 4, 3);
    double length = 0, square = 0, high = 0;
    for (int i = 0; i < PARE_PROP_NODES; i++) {
        const double x = prop.radius[i];
        if (i > 0)
            assert_true(x > prop.radius[i - 1]);
        length += prop.weight[i];
        square += prop.weight[i] * x * x;
        high += prop.weight[i] * pow(x, 31); /* 16 points are exact to degree 31 */
    }
    assert_near(length, 1 - 0.15, 1e-14);
    assert_near(square, (1 - pow(0.15, 3)) / 3, 1e-14);
    assert_near(high, (1 - pow(0.15, 32)) / 32, 1e-14);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_simple_atmosphere_is_the_one_of_the_fixed_cases),
        cmocka_unit_test(sized_propellers_give_their_fixed_thrust_and_torque),
        cmocka_unit_test(a_measured_blade_gives_its_fixed_coefficients),
        cmocka_unit_test(inclined_rotors_give_their_fixed_thrust_torque_and_drag),
        cmocka_unit_test(the_table_follows_the_blade_elements),
        cmocka_unit_test(the_tables_slope_has_no_jumps),
        cmocka_unit_test(beyond_the_table_thrust_goes_on_without_a_jump_and_falls),
        cmocka_unit_test(outside_its_reynolds_and_mach_numbers_the_table_holds_still),
        cmocka_unit_test(a_table_is_known_again_by_its_key_and_only_by_that),
        cmocka_unit_test(a_table_is_built_to_the_same_bytes_and_checked_before_use),
        cmocka_unit_test(thrust_goes_with_density_at_one_reynolds_number),
        cmocka_unit_test(more_blades_pull_more_but_not_in_proportion),
        cmocka_unit_test(a_propeller_at_rest_pushes_and_takes_more_than_ideal_power),
        cmocka_unit_test(thrust_may_rise_with_advance_where_pitch_nears_the_diameter),
        cmocka_unit_test(a_little_flow_across_changes_little),
        cmocka_unit_test(inclined_flow_has_no_jumps_from_descent_to_climb),
        cmocka_unit_test(flow_across_lifts_a_hovering_rotor_and_drags_on_it),
        cmocka_unit_test(learned_factors_scale_thrust_and_power),
        cmocka_unit_test(the_speed_for_a_thrust_gives_that_thrust),
        cmocka_unit_test(the_speed_for_a_thrust_is_found_without_a_table_too),
        cmocka_unit_test(a_thrust_that_cannot_be_is_refused_with_the_reason),
        cmocka_unit_test(no_number_hangs_or_crashes_a_rotor),
        cmocka_unit_test(a_size_out_of_range_is_refused_and_nothing_written),
        cmocka_unit_test(blade_stations_that_make_no_blade_are_refused_by_number),
        cmocka_unit_test(a_known_chord_sets_the_blade_whatever_the_family_says),
        cmocka_unit_test(a_slow_blade_is_broader_and_flatter_by_size_steeper_by_measure),
        cmocka_unit_test(stations_are_gauss_legendre_and_sum_to_the_blade),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
