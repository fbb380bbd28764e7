/* rooms: physics base */
/* Laws that every propeller keeps, whatever its constants: momentum theory's bounds, similarity, limits
 * with a closed form, and signs that are measured. */
#include <math.h>

#include "dice.h"
#include "near.h"
#include "physics/rotor.h"
#include "published_props.h"

#define PI     3.14159265358979323846
#define INCH_M 0.0254
#define RPM    (PI / 30)

static pare_air sea_level(void)
{
    pare_air air;
    assert_int_equal(pare_air_standard(0, &air, NULL), PARE_OK);
    return air;
}

static double between(unsigned *state, double low, double high)
{
    return low + (high - low) * dice(state, 1 << 20) / (1 << 20);
}

static pare_prop sized(double diameter_in, double pitch_in, int blades,
                       const pare_prop_constants *constants)
{
    const pare_prop_size size = {
        .diameter_m = diameter_in * INCH_M, .pitch_m = pitch_in * INCH_M, .blades = blades};
    pare_prop prop;
    assert_int_equal(pare_prop_from_size(&size, constants, &prop, NULL), PARE_OK);
    return prop;
}

static pare_prop some_size(unsigned *state)
{
    const double diameter_in = between(state, 1.5, 20);
    return sized(diameter_in, between(state, 0.2, 1.2) * diameter_in, 2 + (int)dice(state, 7),
                 &pare_prop_family);
}

/* A blade that nobody would build, but could. */
static pare_prop some_blade(unsigned *state)
{
    enum { COUNT = 6 };
    double radius[COUNT], chord[COUNT], twist_rad[COUNT];
    for (int i = 0; i < COUNT; i++) {
        radius[i] = 0.15 + 0.17 * i;
        chord[i] = between(state, 0.05, 0.4);
        twist_rad[i] = between(state, 0.02, 0.8);
    }
    pare_prop prop;
    assert_int_equal(pare_prop_from_stations(between(state, 0.05, 0.5), 2 + (int)dice(state, 5),
                                             PARE_LINE_UNKNOWN, COUNT, radius, chord, twist_rad,
                                             &pare_prop_true, &prop, NULL),
                     PARE_OK);
    return prop;
}

static pare_prop some_prop(unsigned *state)
{
    return dice(state, 2) ? some_size(state) : some_blade(state);
}

static double some_speed(unsigned *state, const pare_prop *prop)
{
    return between(state, 15, 250) / (prop->diameter_m / 2);
}

/* ---- bounds ---- */

static void no_propeller_at_rest_beats_the_ideal_rotor(void **state)
{
    (void)state;
    /* Momentum theory (Rankine, Froude): T^1.5/sqrt(2 rho A) is the least power of a thrust at rest. */
    const pare_air air = sea_level();
    unsigned roll = 1;
    for (int i = 0; i < 400; i++) {
        const pare_prop prop = some_prop(&roll);
        const pare_rotor rotor = {&prop, NULL, 1, 1};
        pare_rotor_state s;
        pare_rotor_at(&rotor, &air, some_speed(&roll, &prop), 0, 0, &s);
        if (s.thrust_n <= 0)
            continue;
        const double ideal_w =
            pare_rotor_ideal_hover_w(s.thrust_n, prop.diameter_m, air.density_kg_m3);
        assert_between(ideal_w / (s.torque_nm * s.speed_rad_s), 0, 0.95);
    }
}

static void no_propeller_in_flight_beats_froudes_efficiency(void **state)
{
    (void)state;
    /* Froude: efficiency is at most 2/(1 + sqrt(1 + 8 CT/(pi J^2))) (Glauert, Airplane Propellers,
     * 1935; from memory). */
    const pare_air air = sea_level();
    unsigned roll = 2;
    int pulling = 0;
    for (int i = 0; i < 600; i++) {
        const pare_prop prop = some_prop(&roll);
        const double advance = between(&roll, 0.02, 1.2), speed = some_speed(&roll, &prop);
        double ct, cp;
        pare_prop_coefficients(&prop, advance, speed, &air, &ct, &cp);
        if (ct <= 0)
            continue;
        pulling++;
        assert_true(cp > 0);
        assert_between(advance * ct / cp, 0, 2 / (1 + sqrt(1 + 8 * ct / (PI * advance * advance))));
    }
    assert_true(pulling > 200);
}

static void no_windmill_beats_betz(void **state)
{
    (void)state;
    /* Betz, 1920: at most 16/27 of the stream's power, rho A V^3/2, can be taken out of it; in propeller
     * coefficients -CP <= 16/27 pi/8 J^3. */
    const pare_air air = sea_level();
    unsigned roll = 3;
    int driven = 0;
    for (int i = 0; i < 600; i++) {
        const pare_prop prop = some_prop(&roll);
        const double advance = between(&roll, 0.5, 6), speed = some_speed(&roll, &prop);
        double ct, cp;
        pare_prop_coefficients(&prop, advance, speed, &air, &ct, &cp);
        if (cp >= 0)
            continue;
        driven++;
        assert_true(ct < 0);
        assert_between(-cp / (PI / 8 * advance * advance * advance), 0, 16.0 / 27);
    }
    assert_true(driven > 200);
}

static void edgewise_flow_leaves_a_wings_induced_velocity(void **state)
{
    (void)state;
    /* Glauert, ARC R&M 1111, 1926: fast across the disc it is a wing as wide, vi = T/(2 rho A V), which
     * over the hover's is 1/mu; the next term is -1/(2 mu^5). */
    for (double mu = 4; mu < 100; mu *= 1.5)
        assert_near(pare_rotor_induced(0, mu) * mu, 1 - 0.5 / pow(mu, 4), 2 / pow(mu, 8));
}

/* ---- similarity ---- */

static void coefficients_are_the_same_at_the_same_reynolds_and_mach_number(void **state)
{
    (void)state;
    /* Dimensional analysis: twice the size at half the speed in air as dense has the same Mach number
     * and Reynolds number; so has twice the density at twice the viscosity. */
    const pare_air air = sea_level();
    pare_air thick = air;
    thick.density_kg_m3 *= 2;
    thick.viscosity_pa_s *= 2;
    unsigned roll = 4;
    for (int i = 0; i < 100; i++) {
        const pare_prop prop = some_blade(&roll);
        pare_prop large = prop;
        large.diameter_m *= 2;
        pare_air thin = air;
        thin.density_kg_m3 /= 2;
        const double advance = between(&roll, 0, 0.8), speed = some_speed(&roll, &prop);
        double ct, cp, same_ct, same_cp;
        pare_prop_coefficients(&prop, advance, speed, &air, &ct, &cp);
        pare_prop_coefficients(&prop, advance, speed, &thick, &same_ct, &same_cp);
        assert_near(same_ct, ct, 1e-9);
        assert_near(same_cp, cp, 1e-9);
        pare_prop_coefficients(&large, advance, speed / 2, &thin, &same_ct, &same_cp);
        assert_near(same_ct, ct, 1e-9);
        assert_near(same_cp, cp, 1e-9);
    }
}

/* Constants of a blade that feels neither Reynolds nor Mach number, nor its stall before it is near. */
static pare_prop_constants unchanging(void)
{
    pare_prop_constants k = published_family;
    k.lift_slope_exponent = k.lift_most_exponent = k.drag_least_exponent = 0;
    k.mach_most = 0;
    k.stall_width = 0.02;
    return k;
}

static double hover_w(double diameter_in, double thrust_n, double density_kg_m3)
{
    const pare_prop_constants k = unchanging();
    pare_prop_size size = {.diameter_m = diameter_in * INCH_M,
                           .pitch_m = 0.5 * diameter_in * INCH_M,
                           .blades = 2,
                           .chord_m = 0.1 * diameter_in * INCH_M};
    pare_prop prop;
    assert_int_equal(pare_prop_from_size(&size, &k, &prop, NULL), PARE_OK);
    pare_air air = sea_level();
    air.density_kg_m3 = density_kg_m3;
    const pare_rotor rotor = {&prop, NULL, 1, 1};
    pare_rotor_state s;
    assert_int_equal(pare_rotor_for_thrust(&rotor, &air, thrust_n, 0, 0, 0, &s, NULL), PARE_OK);
    return s.torque_nm * s.speed_rad_s;
}

static void hover_power_goes_with_thrust_density_and_diameter_as_momentum_theory_says(void **state)
{
    (void)state;
    /* At fixed coefficients P ~ T^1.5 rho^-0.5 D^-1 (closed form). */
    const double base_w = hover_w(6, 4, 1.225);
    assert_within(hover_w(6, 8, 1.225) / base_w, pow(2, 1.5), 1e-9);
    assert_within(hover_w(6, 4, 1.225 / 2) / base_w, sqrt(2), 1e-9);
    assert_within(hover_w(12, 4, 1.225) / base_w, 0.5, 1e-9);
    /* 2000 m of the US Standard Atmosphere 1976: 1.006553754 for 1.2250000 kg/m3 */
    assert_within(hover_w(6, 4, 1.006553754) / base_w, 1.103188073, 1e-8);
}

/* ---- limits ---- */

/* A blade of one chord and one angle of attack at rest. */
static pare_prop even_blade(double chord, double twist_rad, const pare_prop_constants *k)
{
    const double radius[] = {0.15, 1}, chords[] = {chord, chord}, twists[] = {twist_rad, twist_rad};
    pare_prop prop;
    assert_int_equal(pare_prop_from_stations(0.25, 2, PARE_LINE_UNKNOWN, 2, radius, chords, twists,
                                             k, &prop, NULL),
                     PARE_OK);
    return prop;
}

static void a_blade_too_narrow_to_move_the_air_has_the_forces_of_its_sections(void **state)
{
    (void)state;
    /* Closed form without induced flow: CT = B pi^2/8 c/R a (beta - aL0) (1 - x0^3)/3, and
     * CP = B pi^3/8 c/R cd (1 - x0^4)/4. */
    pare_prop_constants k = unchanging();
    k.drag_curve = 0;
    const double chord = 1e-7, beta = 0.05, x0 = k.inner;
    const pare_prop prop = even_blade(chord, beta, &k);
    const pare_air air = sea_level();
    double ct, cp;
    pare_prop_coefficients(&prop, 0, 500, &air, &ct, &cp);
    const double lift = k.lift_slope * (beta - k.zero_lift_rad);
    assert_within(ct / chord, 2 * PI * PI / 8 * lift * (1 - pow(x0, 3)) / 3, 2e-3);
    assert_within(cp / chord, 2 * PI * PI * PI / 8 * k.drag_least * (1 - pow(x0, 4)) / 4, 2e-2);
}

static void lift_grows_with_mach_number_as_prandtl_and_glauert_say(void **state)
{
    (void)state;
    /* Over the same blade in air that carries no sound's limit: the integral of x^2/sqrt(1 - M^2 x^2),
     * whose antiderivative is (asin(M x)/M - x sqrt(1 - M^2 x^2))/(2 M^2). */
    pare_prop_constants k = unchanging();
    const pare_air air = sea_level();
    const double chord = 1e-7, tip_m_s = 170, mach = tip_m_s / air.sound_m_s;
    const pare_prop slow = even_blade(chord, 0.05, &k);
    double slow_ct, fast_ct, cp;
    pare_prop_coefficients(&slow, 0, tip_m_s / 0.125, &air, &slow_ct, &cp);
    k.mach_most = 0.75;
    const pare_prop fast = even_blade(chord, 0.05, &k);
    pare_prop_coefficients(&fast, 0, tip_m_s / 0.125, &air, &fast_ct, &cp);
    const double x0 = k.inner;
    double sum = 0;
    for (int end = 0; end < 2; end++) {
        const double x = end ? 1 : x0, root = sqrt(1 - mach * mach * x * x);
        sum += (end ? 1 : -1) * (asin(mach * x) / mach - x * root) / (2 * mach * mach);
    }
    assert_within(fast_ct / slow_ct, sum / ((1 - pow(x0, 3)) / 3), 1e-3);
}

static void a_frictionless_rotor_of_ideal_twist_nearly_is_the_ideal_rotor(void **state)
{
    (void)state;
    /* Twist that goes with 1/x and even chord give an even inflow (Gessow and Myers; Leishman, sec. 3.3,
     * from memory): eight such blades without drag lose only at tip, hub and in swirl. */
    pare_prop_constants k = unchanging();
    k.drag_least = k.drag_curve = 0;
    k.loss_factor = 1;
    enum { COUNT = 30 };
    double radius[COUNT], chord[COUNT], twist_rad[COUNT];
    for (int i = 0; i < COUNT; i++) {
        radius[i] = fmin(1, 0.15 + 0.85 * i / (COUNT - 1));
        chord[i] = 0.04;
        twist_rad[i] = atan(0.08 / radius[i]) + k.zero_lift_rad;
    }
    pare_prop prop;
    assert_int_equal(pare_prop_from_stations(0.25, 8, PARE_LINE_UNKNOWN, COUNT, radius, chord,
                                             twist_rad, &k, &prop, NULL),
                     PARE_OK);
    const pare_air air = sea_level();
    double ct, cp;
    pare_prop_coefficients(&prop, 0, 500, &air, &ct, &cp);
    const double merit = ct * sqrt(ct) / cp * sqrt(2 / PI);
    assert_between(merit, 0.88, 1);
}

/* ---- signs ---- */

static void thrust_and_power_at_rest_rise_with_pitch(void **state)
{
    (void)state;
    /* UIUC Propeller Data Site, volume 1, thin electric 9 in at 4.5, 6 and 7.5 in of pitch, near
     * 6000 rpm: CT 0.0996, 0.1159, 0.1256; CP 0.0387, 0.0515, 0.0837. Below 0.75 diameters all do. */
    const pare_air air = sea_level();
    for (double diameter_in = 3; diameter_in <= 15; diameter_in += 2)
        for (int blades = 2; blades <= 4; blades++) {
            double last_ct = 0, last_cp = 0;
            for (double ratio = 0.25; ratio < 0.76; ratio += 0.05) {
                const pare_prop prop =
                    sized(diameter_in, ratio * diameter_in, blades, &pare_prop_family);
                double ct, cp;
                pare_prop_coefficients(&prop, 0, 60 / (diameter_in / 2 * INCH_M), &air, &ct, &cp);
                assert_true(ct > last_ct && cp > last_cp);
                last_ct = ct;
                last_cp = cp;
            }
        }
}

/* The advance ratio where thrust ends, and the power there. */
static double thrust_ends(const pare_prop *prop, double speed_rad_s, double *cp)
{
    const pare_air air = sea_level();
    double low = 0.05, high = 3, ct;
    while (high - low > 1e-9) {
        const double middle = (low + high) / 2;
        pare_prop_coefficients(prop, middle, speed_rad_s, &air, &ct, cp);
        *(ct > 0 ? &low : &high) = middle;
    }
    return low;
}

static void a_propeller_that_gives_no_thrust_still_takes_power(void **state)
{
    (void)state;
    /* Drag of the blades is left. UIUC, volumes 1 and 4, CP where CT passes 0: 0.009 for 10 x 5, 0.010 for
     * 14 x 10 in (thin electric). */
    for (double diameter_in = 3; diameter_in <= 15; diameter_in += 3)
        for (double ratio = 0.4; ratio < 1.05; ratio += 0.2) {
            const pare_prop prop = sized(diameter_in, ratio * diameter_in, 2, &pare_prop_family);
            double cp;
            thrust_ends(&prop, 60 / (diameter_in / 2 * INCH_M), &cp);
            assert_between(cp, 0.002, 0.05);
        }
}

static void a_steeper_propeller_pulls_to_a_higher_advance_ratio(void **state)
{
    (void)state;
    /* UIUC, volume 1, thin electric 10 in: thrust ends at J 0.662 with 5 in of pitch and 0.823 with 7. The
     * rise, 0.81 of the pitch ratio's, is held to a third. */
    double cp, last = 0;
    const pare_prop five = sized(10, 5, 2, &pare_prop_family);
    const pare_prop seven = sized(10, 7, 2, &pare_prop_family);
    assert_within(thrust_ends(&seven, 5000 * RPM, &cp) - thrust_ends(&five, 5000 * RPM, &cp),
                  0.823 - 0.662, 0.34);
    for (double pitch_in = 3; pitch_in < 12; pitch_in++) {
        const pare_prop prop = sized(10, pitch_in, 2, &pare_prop_family);
        const double advance = thrust_ends(&prop, 5000 * RPM, &cp);
        assert_true(advance > last);
        last = advance;
    }
}

static void merit_never_falls_with_reynolds_number(void **state)
{
    (void)state;
    /* The sign that UIUC's static tables show for each size and kind (volume 2, research 9 in: figure of
     * merit from 0.403 at 1547 rpm to 0.507 at 4213): drag falls, lift rises. Without Mach number. */
    pare_prop_constants k = published_family;
    k.mach_most = 0;
    const pare_air air = sea_level();
    for (double diameter_in = 3; diameter_in <= 15; diameter_in += 2)
        for (double ratio = 0.4; ratio < 0.75; ratio += 0.1) {
            const pare_prop prop = sized(diameter_in, ratio * diameter_in, 2, &k);
            double last = 0;
            for (double tip_m_s = 20; tip_m_s < 200; tip_m_s *= 1.3) {
                double ct, cp;
                pare_prop_coefficients(&prop, 0, tip_m_s / (diameter_in / 2 * INCH_M), &air, &ct,
                                       &cp);
                const double merit = ct * sqrt(ct) / cp * sqrt(2 / PI);
                assert_true(merit > last);
                last = merit;
            }
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_propeller_at_rest_beats_the_ideal_rotor),
        cmocka_unit_test(no_propeller_in_flight_beats_froudes_efficiency),
        cmocka_unit_test(no_windmill_beats_betz),
        cmocka_unit_test(edgewise_flow_leaves_a_wings_induced_velocity),
        cmocka_unit_test(coefficients_are_the_same_at_the_same_reynolds_and_mach_number),
        cmocka_unit_test(hover_power_goes_with_thrust_density_and_diameter_as_momentum_theory_says),
        cmocka_unit_test(a_blade_too_narrow_to_move_the_air_has_the_forces_of_its_sections),
        cmocka_unit_test(lift_grows_with_mach_number_as_prandtl_and_glauert_say),
        cmocka_unit_test(a_frictionless_rotor_of_ideal_twist_nearly_is_the_ideal_rotor),
        cmocka_unit_test(thrust_and_power_at_rest_rise_with_pitch),
        cmocka_unit_test(a_propeller_that_gives_no_thrust_still_takes_power),
        cmocka_unit_test(a_steeper_propeller_pulls_to_a_higher_advance_ratio),
        cmocka_unit_test(merit_never_falls_with_reynolds_number),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
