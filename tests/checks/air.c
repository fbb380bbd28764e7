/* rooms: physics base */
/* Air against the published standard atmosphere and a pilot's rule. */
#include "near.h"

#include <math.h>

#include "physics/air.h"

static void the_air_is_that_of_the_1976_standard(void **state)
{
    (void)state;
    /* U.S. Standard Atmosphere, 1976 (NOAA-S/T 76-1562), geometric altitude, as computed by the open
     * library ambiance: K, Pa, kg/m3, Pa s, m/s. */
    static const struct {
        double altitude_m, kelvin, pressure_pa, density, viscosity, sound;
    } table[] = {
        {0, 288.15, 101325, 1.2250000, 1.789380e-05, 340.2940},
        {1000, 281.651022, 89876.2776, 1.111659674, 1.757850e-05, 336.4346},
        {2000, 275.154089, 79501.4111, 1.006553754, 1.725982e-05, 332.5316},
        {3000, 268.659198, 70121.1441, 0.909254345, NAN, NAN},
        {5000, 255.675543, 54048.2622, 0.736428613, NAN, NAN},
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        pare_air air;
        assert_int_equal(pare_air_standard(table[i].altitude_m, &air, NULL), PARE_OK);
        assert_within(air.temperature_degc + 273.15, table[i].kelvin, 1e-6);
        assert_within(air.pressure_pa, table[i].pressure_pa, 1e-6);
        assert_within(air.density_kg_m3, table[i].density, 1e-6);
        if (isnan(table[i].sound))
            continue;
        assert_within(air.viscosity_pa_s, table[i].viscosity, 1e-6);
        assert_within(air.sound_m_s, table[i].sound, 1e-6);
    }
}

static void altitude_is_geometric_not_geopotential(void **state)
{
    (void)state;
    /* Same standard, 2000 geopotential metres: 79495.2019 Pa, 1.006490097 kg/m3. They are
     * r0 h / (r0 - h) geometric ones, 0.63 m more. */
    const double geometric_m = 6356766.0 * 2000 / (6356766.0 - 2000);
    pare_air air;
    assert_int_equal(pare_air_standard(geometric_m, &air, NULL), PARE_OK);
    assert_within(air.pressure_pa, 79495.2019, 1e-6);
    assert_within(air.density_kg_m3, 1.006490097, 1e-6);
}

static void the_upper_end_is_that_of_the_printed_tables(void **state)
{
    (void)state;
    /* U.S. Standard Atmosphere, 1976, table I at 10 000 m geometric (from memory): 223.252 K,
     * 264.99 mbar, 0.41351 kg/m3, 299.53 m/s, 1.4577e-5 Pa s; half a unit of the last digit. */
    pare_air air;
    assert_int_equal(pare_air_standard(10000, &air, NULL), PARE_OK);
    assert_near(air.temperature_degc + 273.15, 223.252, 5e-4);
    assert_near(air.pressure_pa, 26499, 1);
    assert_near(air.density_kg_m3, 0.41351, 5e-6);
    assert_near(air.sound_m_s, 299.53, 5e-3);
    assert_near(air.viscosity_pa_s, 1.4577e-5, 6e-10);
}

static void density_altitude_reaches_the_printed_densities_of_the_stratosphere(void **state)
{
    (void)state;
    /* Same table (from memory): 0.19476 kg/m3 at 15 000 m, 0.088910 at 20 000 m. Half a unit of the
     * last digit is 0.2 m at 15 km; 20 km is the edge, so a hair inside it. */
    assert_near(pare_air_density_altitude_m(0.19476), 15000, 0.4);
    assert_near(pare_air_density_altitude_m(0.088911), 20000, 0.4);
}

static void a_hot_day_raises_density_altitude_by_the_pilots_rule(void **state)
{
    (void)state;
    /* Pilots' rule: 120 ft of density altitude a degree above the standard (FAA-H-8083-25, ch. 11;
     * from memory). The rule is a chord of a curve: 10 %. */
    pare_air air;
    assert_int_equal(pare_air_at(0, 35, &air, NULL), PARE_OK);
    assert_within(pare_air_density_altitude_m(air.density_kg_m3), 20 * 120 * 0.3048, 0.1);
    assert_int_equal(pare_air_at(1500, 25, &air, NULL), PARE_OK);
    const double above_degc = 25 - (15 - 0.0065 * 1500);
    assert_within(pare_air_density_altitude_m(air.density_kg_m3) - 1500, above_degc * 120 * 0.3048,
                  0.1);
}

static void moist_air_is_that_of_cipm_2007(void **state)
{
    (void)state;
    /* CIPM-2007 (Picard and others, Metrologia 45, 2008, 149), computed: 20 degC, 101325 Pa, 50 %:
     * 1.1993139 kg/m3; the formula itself is good to 2e-5. */
    pare_weather weather = pare_weather_at(0);
    pare_air air;
    weather.temperature_degc = 20;
    weather.humidity = 0.5;
    assert_int_equal(pare_air_in(&weather, &air, NULL), PARE_OK);
    assert_within(air.density_kg_m3, 1.1993139, 2e-7);
}

static void dry_air_by_cipm_2007_is_the_mass_of_a_real_gas(void **state)
{
    (void)state;
    /* Dry air at 0 degC and 101325 Pa weighs 1.2930 kg/m3 (standard density of air in handbooks, from
     * memory: 1.2929 to 1.2932 by carbon dioxide). The ideal gas of the 1976 standard is 0.06 % lighter. */
    pare_weather weather = pare_weather_at(0);
    pare_air moist, standard;
    weather.temperature_degc = 0;
    assert_int_equal(pare_air_in(&weather, &standard, NULL), PARE_OK);
    weather.humidity = 0;
    assert_int_equal(pare_air_in(&weather, &moist, NULL), PARE_OK);
    assert_near(moist.density_kg_m3, 1.2930, 2.5e-4);
    assert_within(standard.density_kg_m3, moist.density_kg_m3, 1e-3);
}

static void damp_air_is_as_much_lighter_as_its_water_says(void **state)
{
    (void)state;
    /* Saturated at 30 degC: vapour at 4246 Pa (steam tables, from memory: 4.246 kPa) weighs 18.015 where
     * air weighs 28.965. */
    pare_weather weather = pare_weather_at(0);
    pare_air dry, damp;
    weather.temperature_degc = 30;
    weather.humidity = 0;
    assert_int_equal(pare_air_in(&weather, &dry, NULL), PARE_OK);
    weather.humidity = 1;
    assert_int_equal(pare_air_in(&weather, &damp, NULL), PARE_OK);
    const double lighter = 4246.0 / 101325 * (1 - 18.015 / 28.965);
    assert_within(1 - damp.density_kg_m3 / dry.density_kg_m3, lighter, 0.01);
    assert_true(damp.sound_m_s > dry.sound_m_s);
}

static void a_reports_pressure_is_brought_up_as_it_was_brought_down(void **state)
{
    (void)state;
    /* The weather services' altimeter setting (from memory, without the 0.3 hPa of its instrument):
     * A = P (1 + (1013.25^n 0.0065/288) h / P^n)^(1/n), n = 0.190284, P in hPa, h in metres. */
    const double n = 0.190284, station_hpa = 845.0, altitude_m = 1500;
    const double setting_hpa =
        station_hpa *
        pow(1 + pow(1013.25, n) * 0.0065 / 288 * altitude_m / pow(station_hpa, n), 1 / n);
    pare_weather weather = pare_weather_at(altitude_m);
    pare_air air;
    weather.sea_level_pa = 100 * setting_hpa;
    assert_int_equal(pare_air_in(&weather, &air, NULL), PARE_OK);
    assert_within(air.pressure_pa, 100 * station_hpa, 2e-4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_air_is_that_of_the_1976_standard),
        cmocka_unit_test(altitude_is_geometric_not_geopotential),
        cmocka_unit_test(the_upper_end_is_that_of_the_printed_tables),
        cmocka_unit_test(density_altitude_reaches_the_printed_densities_of_the_stratosphere),
        cmocka_unit_test(a_hot_day_raises_density_altitude_by_the_pilots_rule),
        cmocka_unit_test(moist_air_is_that_of_cipm_2007),
        cmocka_unit_test(dry_air_by_cipm_2007_is_the_mass_of_a_real_gas),
        cmocka_unit_test(damp_air_is_as_much_lighter_as_its_water_says),
        cmocka_unit_test(a_reports_pressure_is_brought_up_as_it_was_brought_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
