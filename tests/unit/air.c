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

static void weather_of_which_nothing_is_known_is_the_standard(void **state)
{
    (void)state;
    pare_weather weather = pare_weather_at(900);
    pare_air standard, air;
    assert_int_equal(pare_air_standard(900, &standard, NULL), PARE_OK);
    assert_int_equal(pare_air_in(&weather, &air, NULL), PARE_OK);
    assert_memory_equal(&air, &standard, sizeof air);
    weather.temperature_degc = 31;
    assert_int_equal(pare_air_at(900, 31, &standard, NULL), PARE_OK);
    assert_int_equal(pare_air_in(&weather, &air, NULL), PARE_OK);
    assert_memory_equal(&air, &standard, sizeof air);
    /* the standard's own pressure, said either way, changes nothing */
    weather.pressure_pa = standard.pressure_pa;
    assert_int_equal(pare_air_in(&weather, &air, NULL), PARE_OK);
    assert_within(air.density_kg_m3, standard.density_kg_m3, 1e-15);
    weather.pressure_pa = (double)NAN;
    weather.sea_level_pa = 101325;
    assert_int_equal(pare_air_in(&weather, &air, NULL), PARE_OK);
    assert_within(air.density_kg_m3, standard.density_kg_m3, 1e-14);
}

static void weather_that_cannot_be_is_refused_and_nothing_written(void **state)
{
    (void)state;
    static const struct {
        double altitude_m, temperature_degc, pressure_pa, sea_level_pa, humidity;
        const char *words;
    } bad[] = {
        {12000, NAN, NAN, NAN, NAN, "altitude 12000 m is outside -2000 .. 11000 m"},
        {0, 70, NAN, NAN, NAN, "air temperature 70 degC is outside -60 .. 60 degC"},
        {0, INFINITY, NAN, NAN, NAN, "air temperature inf degC is outside -60 .. 60 degC"},
        {0, NAN, 1013, NAN, NAN, "air pressure 10.13 hPa is outside 150 .. 1100 hPa"},
        {0, NAN, NAN, 50e3, NAN, "air pressure at sea level 500 hPa is outside 850 .. 1100 hPa"},
        {0, NAN, NAN, NAN, 50, "humidity 5000 % is outside 0 .. 100 %"},
        {0, NAN, NAN, NAN, -0.1, "humidity -10 % is outside 0 .. 100 %"},
        {0, 60, 15e3, NAN, 1, "humidity 100 % at 60 degC and 150 hPa is more water than air holds"},
        {0, NAN, 1e5, 1e5, NAN,
         "air has a pressure at the place or one reduced to sea level, not both"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        const pare_weather weather = {bad[i].altitude_m, bad[i].temperature_degc,
                                      bad[i].pressure_pa, bad[i].sea_level_pa, bad[i].humidity};
        pare_air air = {1, 2, 3, 4, 5};
        const pare_air before = air;
        pare_error err;
        assert_int_equal(pare_air_in(&weather, &air, &err), PARE_BAD_DATA);
        assert_string_equal(err.text, bad[i].words);
        assert_memory_equal(&air, &before, sizeof air);
    }
}

static void any_weather_in_range_is_air(void **state)
{
    (void)state;
    for (double degc = -60; degc <= 60; degc += 20)
        for (double pressure_pa = 15e3; pressure_pa <= 110e3; pressure_pa += 19e3)
            for (double humidity = 0; humidity <= 1; humidity += 0.5) {
                const pare_weather weather = {0, degc, pressure_pa, (double)NAN, humidity};
                pare_air air;
                if (pare_air_in(&weather, &air, NULL) != PARE_OK) {
                    assert_true(degc > 30 && pressure_pa < 90e3 && humidity > 0);
                    continue;
                }
                const double dry_kg_m3 = pressure_pa / (287.05 * (degc + 273.15));
                assert_between(air.density_kg_m3, 0.88 * dry_kg_m3, 1.01 * dry_kg_m3);
                assert_between(air.sound_m_s, 280, 500);
            }
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
        cmocka_unit_test(weather_of_which_nothing_is_known_is_the_standard),
        cmocka_unit_test(weather_that_cannot_be_is_refused_and_nothing_written),
        cmocka_unit_test(any_weather_in_range_is_air),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
