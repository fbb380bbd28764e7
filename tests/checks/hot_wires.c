/* rooms: physics base */
/* Heat of wires: convection against textbook examples, the whole against an independent solution. */
#include <math.h>

#include "near.h"

#include "physics/wire_heat.h"

static pare_wire_load load_of(double gauge, double outer_mm, double current_a)
{
    pare_wire_load load = pare_wire_load_defaults();
    load.gauge = gauge;
    load.outer_m = outer_mm * 1e-3;
    load.current_a = current_a;
    return load;
}

static void a_pipe_in_still_air_loses_heat_as_in_a_textbook(void **state)
{
    (void)state;
    /* Incropera et al., Fundamentals of Heat and Mass Transfer, 7th ed., example 9.4 (from memory):
     * cylinder of 0.1 m at 165 degC in air of 23 degC: Nu 23.3 with k 0.0313 W/(m K) at film
     * temperature. */
    assert_within(pare_cylinder_convection(0.1, 165, 23, 101325, 0) * 0.1 / 0.0313, 23.3, 0.02);
}

static void a_thin_wire_in_still_air_loses_heat_as_a_textbooks_simple_law(void **state)
{
    (void)state;
    /* Incropera et al., 7th ed., problem 3.53: a wire of 2 mm in air of 293 K is given
     * h = 1.25 (dT / D)^(1/4), and settles at 331 K: 14.7 W/(m2 K). A fourth root for all sizes is rough
     * for so thin a wire, hence the tolerance. */
    const double degc = 331.006 - 273.15, air = 293 - 273.15;
    const double simple = 1.25 * pow((degc - air) / 2e-3, 0.25);
    assert_within(pare_cylinder_convection(2e-3, degc, air, 101325, 0), simple, 0.25);
}

static void a_cylinder_across_a_wind_loses_heat_as_in_a_textbook(void **state)
{
    (void)state;
    /* The same, example 7.4 (from memory): 12.7 mm, 10 m/s, 26.2 degC, surface 128.4 degC:
     * Churchill and Bernstein give Nu 40.6, with air at film temperature (k 0.0300 W/(m K)). */
    assert_within(pare_cylinder_convection(0.0127, 128.4, 26.2, 101325, 10) * 0.0127 / 0.0300, 40.6,
                  0.02);
}

static void settled_conductors_are_those_of_an_independent_solution(void **state)
{
    (void)state;
    /* The same equations solved apart from this code; 25 degC, still air. */
    static const struct {
        double gauge, outer_mm, current_a, degc;
    } table[] = {{12, 4.5, 40, 67.655},  {12, 4.5, 60, 122.017}, {14, 3.5, 30, 69.355},
                 {14, 3.5, 40, 104.012}, {16, 3.0, 20, 60.073},  {16, 3.0, 30, 103.779}};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        const pare_wire_load load = load_of(table[i].gauge, table[i].outer_mm, table[i].current_a);
        pare_wire_heat heat;
        assert_int_equal(pare_wire_steady(&load, &heat, NULL), PARE_OK);
        assert_near(heat.conductor_degc, table[i].degc, 1.5e-3);
        assert_true(heat.surface_degc < heat.conductor_degc);
    }
}

static void bursts_are_those_of_an_independent_solution(void **state)
{
    (void)state;
    static const struct {
        double gauge, outer_mm, seconds, degc;
    } table[] = {
        {12, 4.5, 5, 45.938}, {14, 3.5, 5, 74.875}, {12, 4.5, 2, 35.430}, {14, 3.5, 2, 49.140}};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        const pare_wire_load load = load_of(table[i].gauge, table[i].outer_mm, 120);
        pare_wire_heat heat;
        assert_int_equal(pare_wire_after(&load, 25, table[i].seconds, &heat, NULL), PARE_OK);
        assert_near(heat.conductor_degc, table[i].degc, 1.5e-3);
    }
}

static void a_short_burst_keeps_its_heat_in_the_copper(void **state)
{
    (void)state;
    /* Closed form: adiabatic copper rises by I^2 rho/(A^2 c) a second, IEC 60949's beginning. */
    const pare_wire_load load = load_of(12, 4.5, 120);
    pare_wire_heat heat;
    assert_int_equal(pare_wire_after(&load, 20, 0.01, &heat, NULL), PARE_OK);
    const double area_m2 = 3.3088e-6;
    const double rise = 120.0 * 120 * 1.724e-8 / (area_m2 * area_m2 * 8890 * 385) * 0.01;
    assert_within(heat.conductor_degc - 20, rise, 5e-3);
}

static void a_long_burst_settles(void **state)
{
    (void)state;
    const pare_wire_load load = load_of(16, 3, 25);
    pare_wire_heat settled, after;
    assert_int_equal(pare_wire_steady(&load, &settled, NULL), PARE_OK);
    assert_int_equal(pare_wire_after(&load, 25, 1200, &after, NULL), PARE_OK);
    assert_near(after.conductor_degc, settled.conductor_degc, 2e-3);
    assert_near(after.surface_degc, settled.surface_degc, 2e-3);
}

static void a_flight_in_closed_form_keeps_to_the_differential_equation(void **state)
{
    (void)state;
    /* Against the Runge-Kutta solution of the same equations, stretch by stretch. */
    static const struct {
        double gauge, outer_mm;
        pare_wire_stretch stretch;
    } table[] = {
        {12, 4.5, {60, 240}}, {14, 3.5, {40, 120}},  {16, 3.0, {30, 60}}, {16, 3.0, {90, 3}},
        {20, 1.8, {25, 10}},  {12, 4.5, {120, 4.5}}, {28, 1.2, {2, 600}}, {10, 5.5, {150, 20}},
    };
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        const pare_wire_load load =
            load_of(table[i].gauge, table[i].outer_mm, table[i].stretch.current_a);
        pare_wire_heat slow, quick;
        assert_int_equal(pare_wire_after(&load, 25, table[i].stretch.seconds, &slow, NULL),
                         PARE_OK);
        assert_int_equal(pare_wire_flown(&load, 25, 1, &table[i].stretch, &quick, NULL, NULL),
                         PARE_OK);
        assert_near(quick.conductor_degc, slow.conductor_degc, 0.5);
        assert_near(quick.surface_degc, slow.surface_degc, 0.7);
    }
}

static void a_burst_on_a_warm_wire_starts_where_it_settled(void **state)
{
    (void)state;
    const pare_wire_load load = load_of(14, 3.5, 25);
    pare_wire_heat settled, alone, burst;
    assert_int_equal(pare_wire_steady(&load, &settled, NULL), PARE_OK);
    assert_int_equal(pare_wire_burst(&load, 110, 1e-6, &alone, &burst, NULL), PARE_OK);
    assert_near(burst.conductor_degc, settled.conductor_degc, 1e-3);
    assert_int_equal(pare_wire_burst(&load, 110, 3, &alone, &burst, NULL), PARE_OK);
    /* Adiabatic copper is the most that it may rise (I^2 rho/(A^2 c), copper at 100 degC or so). */
    const double area_m2 = 2.0809e-6;
    const double most = 110.0 * 110 * 1.724e-8 * 1.4 / (area_m2 * area_m2 * 8890 * 385) * 3;
    assert_between(burst.conductor_degc - settled.conductor_degc, 0.4 * most, most);
    const pare_wire_stretch stretches[] = {{25, 3000}, {110, 3}, {10, 60}};
    double hottest = 0;
    pare_wire_heat end;
    assert_int_equal(pare_wire_flown(&load, 25, 3, stretches, &end, &hottest, NULL), PARE_OK);
    assert_near(hottest, burst.conductor_degc, 0.5);
    assert_true(end.conductor_degc < hottest);
}

static void wind_cools_and_current_heats(void **state)
{
    (void)state;
    pare_wire_heat last = {0, 0};
    for (int a = 0; a <= 40; a += 5) {
        const pare_wire_load load = load_of(14, 3.5, a);
        pare_wire_heat heat;
        assert_int_equal(pare_wire_steady(&load, &heat, NULL), PARE_OK);
        assert_true(heat.conductor_degc > last.conductor_degc);
        last = heat;
    }
    for (int v = 1; v <= 30; v += 5) {
        pare_wire_load load = load_of(14, 3.5, 40);
        load.flow_m_s = v;
        pare_wire_heat heat;
        assert_int_equal(pare_wire_steady(&load, &heat, NULL), PARE_OK);
        assert_true(heat.conductor_degc < last.conductor_degc);
        last = heat;
    }
}

static void loads_that_cannot_be_are_refused(void **state)
{
    (void)state;
    pare_wire_heat heat;
    pare_error err;
    pare_wire_load load = load_of(99, 3, 10);
    assert_int_equal(pare_wire_steady(&load, &heat, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "gauge 99: 4 to 40 AWG would be right");
    load = load_of(12, 2, 10);
    assert_int_equal(pare_wire_steady(&load, &heat, &err), PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "outer diameter 2 mm: AWG 12 takes 2.37 mm for its strands alone, "
                        "and 50 mm is the most");
    load = load_of(20, 0, 200);
    assert_int_equal(pare_wire_steady(&load, &heat, &err), PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "200 A melts AWG 20: thicker wire or less current would be right");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_pipe_in_still_air_loses_heat_as_in_a_textbook),
        cmocka_unit_test(a_thin_wire_in_still_air_loses_heat_as_a_textbooks_simple_law),
        cmocka_unit_test(a_cylinder_across_a_wind_loses_heat_as_in_a_textbook),
        cmocka_unit_test(settled_conductors_are_those_of_an_independent_solution),
        cmocka_unit_test(bursts_are_those_of_an_independent_solution),
        cmocka_unit_test(a_short_burst_keeps_its_heat_in_the_copper),
        cmocka_unit_test(a_long_burst_settles),
        cmocka_unit_test(a_flight_in_closed_form_keeps_to_the_differential_equation),
        cmocka_unit_test(a_burst_on_a_warm_wire_starts_where_it_settled),
        cmocka_unit_test(wind_cools_and_current_heats),
        cmocka_unit_test(loads_that_cannot_be_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
