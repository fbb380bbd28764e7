/* rooms: physics base */
/* Air: ranges, refusals, and the two directions against each other. */
#include "near.h"

#include <math.h>
#include <string.h>

#include "physics/air.h"

static void density_altitude_undoes_the_standard(void **state)
{
    (void)state;
    for (double altitude_m = -2000; altitude_m <= 11000; altitude_m += 250) {
        pare_air air;
        assert_int_equal(pare_air_standard(altitude_m, &air, NULL), PARE_OK);
        assert_near(pare_air_density_altitude_m(air.density_kg_m3), altitude_m, 1e-6);
    }
}

static void density_altitude_rises_as_the_air_thins_across_the_tropopause(void **state)
{
    (void)state;
    double last_m = -1e9;
    for (double density = 1.9; density > 0.09; density *= 0.999) {
        const double altitude_m = pare_air_density_altitude_m(density);
        assert_true(altitude_m > last_m);
        last_m = altitude_m;
    }
    assert_between(last_m, 19900, 20000);
}

static void a_density_that_no_altitude_has_is_not_a_number(void **state)
{
    (void)state;
    static const double density[] = {0, -1, NAN, INFINITY, -INFINITY, 1e300, 1e-300, 2.5, 0.08};
    for (size_t i = 0; i < sizeof density / sizeof density[0]; i++)
        assert_true(isnan(pare_air_density_altitude_m(density[i])));
}

static void an_altitude_outside_the_range_is_refused_and_nothing_written(void **state)
{
    (void)state;
    static const double altitude_m[] = {-2000.1, 11000.1, NAN, INFINITY, -INFINITY, 1e308};
    for (size_t i = 0; i < sizeof altitude_m / sizeof altitude_m[0]; i++) {
        pare_air air = {1, 2, 3, 4, 5};
        const pare_air before = air;
        pare_error err;
        assert_int_equal(pare_air_standard(altitude_m[i], &air, &err), PARE_BAD_DATA);
        assert_non_null(strstr(err.text, "is outside -2000 .. 11000 m"));
        assert_int_equal(pare_air_at(altitude_m[i], 15, &air, &err), PARE_BAD_DATA);
        assert_memory_equal(&air, &before, sizeof air);
    }
}

static void a_temperature_outside_the_range_is_refused_and_nothing_written(void **state)
{
    (void)state;
    static const double degc[] = {-60.1, 60.1, NAN, INFINITY};
    for (size_t i = 0; i < sizeof degc / sizeof degc[0]; i++) {
        pare_air air = {1, 2, 3, 4, 5};
        const pare_air before = air;
        pare_error err;
        assert_int_equal(pare_air_at(0, degc[i], &air, &err), PARE_BAD_DATA);
        assert_non_null(strstr(err.text, "is outside -60 .. 60 degC"));
        assert_memory_equal(&air, &before, sizeof air);
    }
}

static void the_standards_own_temperature_gives_the_standard(void **state)
{
    (void)state;
    pare_air standard, at;
    assert_int_equal(pare_air_standard(1200, &standard, NULL), PARE_OK);
    assert_int_equal(pare_air_at(1200, standard.temperature_degc, &at, NULL), PARE_OK);
    assert_within(at.density_kg_m3, standard.density_kg_m3, 1e-14);
    assert_within(at.viscosity_pa_s, standard.viscosity_pa_s, 1e-14);
    assert_within(at.sound_m_s, standard.sound_m_s, 1e-14);
}

static void warmer_air_keeps_its_pressure_and_thins_as_an_ideal_gas(void **state)
{
    (void)state;
    pare_air cold, warm;
    assert_int_equal(pare_air_at(500, -10, &cold, NULL), PARE_OK);
    assert_int_equal(pare_air_at(500, 35, &warm, NULL), PARE_OK);
    assert_near(warm.pressure_pa, cold.pressure_pa, 0);
    assert_within(cold.density_kg_m3 / warm.density_kg_m3, (35 + 273.15) / (-10 + 273.15), 1e-14);
    assert_true(warm.viscosity_pa_s > cold.viscosity_pa_s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(density_altitude_undoes_the_standard),
        cmocka_unit_test(density_altitude_rises_as_the_air_thins_across_the_tropopause),
        cmocka_unit_test(a_density_that_no_altitude_has_is_not_a_number),
        cmocka_unit_test(an_altitude_outside_the_range_is_refused_and_nothing_written),
        cmocka_unit_test(a_temperature_outside_the_range_is_refused_and_nothing_written),
        cmocka_unit_test(the_standards_own_temperature_gives_the_standard),
        cmocka_unit_test(warmer_air_keeps_its_pressure_and_thins_as_an_ideal_gas),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
