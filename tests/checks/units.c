/* rooms: base */
/* units.c: the trade's units against GNU units (another program with another table) and against
 * published definitions. */
#include "near.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/units.h"
#include "read_units.h"

static const struct {
    const char *text;
    pare_dimension dimension;
    const char *theirs, *inside; /* the same question in the words of GNU units */
} CONVERSIONS[] = {
    {"0.42 oz", PARE_DIM_MASS, "0.42 oz", "kg"},
    {"1.4 lb", PARE_DIM_MASS, "1.4 lb", "kg"},
    {"31.4 g", PARE_DIM_MASS, "31.4 g", "kg"},
    {"250 mg", PARE_DIM_MASS, "250 mg", "kg"},
    {"50 grain", PARE_DIM_MASS, "50 grain", "kg"},
    {"5.1 in", PARE_DIM_LENGTH, "5.1 in", "m"},
    {"400 ft", PARE_DIM_LENGTH, "400 ft", "m"},
    {"2.5 mile", PARE_DIM_LENGTH, "2.5 mile", "m"},
    {"2.08 mm2", PARE_DIM_AREA, "2.08 mm^2", "m^2"},
    {"3388 mm3", PARE_DIM_VOLUME, "3388 mm^3", "m^3"},
    {"1.5 ml", PARE_DIM_VOLUME, "1.5 ml", "m^3"},
    {"4.1 min", PARE_DIM_TIME, "4.1 min", "s"},
    {"1.5 h", PARE_DIM_TIME, "1.5 hour", "s"},
    {"-25 deg", PARE_DIM_ANGLE, "-25 degree", "radian"},
    {"60 mph", PARE_DIM_SPEED, "60 mph", "m/s"},
    {"100 km/h", PARE_DIM_SPEED, "100 km/hour", "m/s"},
    {"12 kn", PARE_DIM_SPEED, "12 knot", "m/s"},
    {"500 ft/min", PARE_DIM_SPEED, "500 ft/min", "m/s"},
    {"2.5 g", PARE_DIM_ACCELERATION, "2.5 gravity", "m/s^2"},
    {"14000 rpm", PARE_DIM_ROTATION, "14000 rpm", "radian/s"},
    {"600 deg/s", PARE_DIM_ROTATION, "600 degree/s", "radian/s"},
    {"64 degF", PARE_DIM_TEMPERATURE, "tempF(64)", "tempC"},
    {"291.15 K", PARE_DIM_TEMPERATURE, "tempK(291.15)", "tempC"},
    {"890 gf", PARE_DIM_FORCE, "0.890 kgf", "N"},
    {"1.2 kgf", PARE_DIM_FORCE, "1.2 kgf", "N"},
    {"2.2 lbf", PARE_DIM_FORCE, "2.2 lbf", "N"},
    {"31 ozf", PARE_DIM_FORCE, "31 oz force", "N"},
    {"0.7 N m", PARE_DIM_TORQUE, "0.7 N m", "N m"},
    {"4 N cm", PARE_DIM_TORQUE, "4 N cm", "N m"},
    {"2.5 kgf cm", PARE_DIM_TORQUE, "2.5 kgf cm", "N m"},
    {"6 ft lbf", PARE_DIM_TORQUE, "6 ft lbf", "N m"},
    {"1013.25 hPa", PARE_DIM_PRESSURE, "1013.25 hPa", "Pa"},
    {"14.7 psi", PARE_DIM_PRESSURE, "14.7 psi", "Pa"},
    {"55 GPa", PARE_DIM_PRESSURE, "55 GPa", "Pa"},
    {"1.24 g/cm3", PARE_DIM_DENSITY, "1.24 g/cm^3", "kg/m^3"},
    {"97 lb/ft3", PARE_DIM_DENSITY, "97 lb/ft^3", "kg/m^3"},
    {"0.7 oz/in3", PARE_DIM_DENSITY, "0.7 oz/in^3", "kg/m^3"},
    {"19.24 Wh", PARE_DIM_ENERGY, "19.24 W hour", "J"},
    {"0.1 kWh", PARE_DIM_ENERGY, "0.1 kW hour", "J"},
    {"500 kV mA s", PARE_DIM_ENERGY, "500 kV mA s", "J"},
    {"0.5 hp", PARE_DIM_POWER, "0.5 hp", "W"},
    {"25 mW", PARE_DIM_POWER, "25 mW", "W"},
    {"1300 mAh", PARE_DIM_CHARGE, "1300 mA hour", "coulomb"},
    {"4.2 Ah", PARE_DIM_CHARGE, "4.2 A hour", "coulomb"},
    {"62 mohm", PARE_DIM_RESISTANCE, "62 milliohm", "ohm"},
    {"470 uF", PARE_DIM_CAPACITANCE, "470 microfarad", "farad"},
    {"9 J/K", PARE_DIM_HEAT, "9 J/K", "J/K"},
    {"5.8 GHz", PARE_DIM_FREQUENCY, "5.8 GHz", "Hz"},
};

enum { CONVERSION_COUNT = sizeof CONVERSIONS / sizeof *CONVERSIONS };

/* Asks GNU units everything at once: pairs of lines in, one number a line out. */
static void ask_gnu_units(double answers[CONVERSION_COUNT])
{
    char path[] = "/tmp/pare-units-XXXXXX", command[128], line[128];
    const int file = mkstemp(path);
    assert_true(file >= 0);
    FILE *questions = fdopen(file, "w");
    assert_non_null(questions);
    for (int i = 0; i < CONVERSION_COUNT; i++)
        fprintf(questions, "%s\n%s\n", CONVERSIONS[i].theirs, CONVERSIONS[i].inside);
    assert_int_equal(fclose(questions), 0);
    snprintf(command, sizeof command, "LC_ALL=C.UTF-8 units -q -t -o %%.17g < %s", path);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    int read = 0;
    while (fgets(line, sizeof line, pipe)) {
        char *end;
        if (read == CONVERSION_COUNT)
            fail_msg("units says too much: %s", line);
        answers[read] = strtod(line, &end);
        if (end == line || strcmp(end, "\n") != 0)
            fail_msg("units answers '%s' with %s", CONVERSIONS[read].theirs, line);
        read++;
    }
    const int status = pclose(pipe);
    unlink(path);
    if (status != 0 || read != CONVERSION_COUNT)
        fail_msg("GNU units (Debian package units) gave %d of %d answers, status %d", read,
                 CONVERSION_COUNT, status);
}

static void gnu_units_gives_the_same_values(void **state)
{
    (void)state;
    double theirs[CONVERSION_COUNT];
    ask_gnu_units(theirs);
    for (int i = 0; i < CONVERSION_COUNT; i++) {
        const double ours = quantity(CONVERSIONS[i].text, CONVERSIONS[i].dimension);
        /* Rounding alone, except where udunits2 writes a constant with seven digits. */
        const double share = strstr(CONVERSIONS[i].text, "hp") ? 1e-6 : 1e-12;
        if (!(fabs(ours - theirs[i]) <= share * fabs(theirs[i]) + 1e-13))
            fail_msg("%s is %.17g, GNU units says %.17g", CONVERSIONS[i].text, ours, theirs[i]);
    }
}

static void the_inch_the_pound_and_their_parts_are_those_of_1959(void **state)
{
    (void)state;
    /* International yard and pound agreement, 1 July 1959 (24 FR 5348): 1 yd = 0.9144 m and
     * 1 lb = 0.45359237 kg exactly; hence the inch, a 36th, and the ounce, a 16th. */
    assert_true(quantity("1 in", PARE_DIM_LENGTH) == 0.0254);
    assert_true(quantity("36 in", PARE_DIM_LENGTH) == 0.9144);
    assert_true(quantity("3 ft", PARE_DIM_LENGTH) == 0.9144);
    assert_true(quantity("1 lb", PARE_DIM_MASS) == 0.45359237);
    assert_true(quantity("1 oz", PARE_DIM_MASS) == 0.028349523125);
    assert_true(quantity("16 oz", PARE_DIM_MASS) == 0.45359237);
    assert_near(quantity("60 mph", PARE_DIM_SPEED), 26.8224, 1e-14);
}

static void the_knot_is_a_nautical_mile_an_hour(void **state)
{
    (void)state;
    /* International Extraordinary Hydrographic Conference, Monaco, 1929: 1852 m. */
    assert_true(quantity("1 kn", PARE_DIM_SPEED) == 1852.0 / 3600);
    assert_true(quantity("3600 kt", PARE_DIM_SPEED) == 1852);
}

static void a_kilogram_force_weighs_at_standard_gravity(void **state)
{
    (void)state;
    /* 3rd General Conference on Weights and Measures, 1901: 9.80665 m/s2. */
    assert_true(quantity("1 kgf", PARE_DIM_FORCE) == 9.80665);
    assert_true(quantity("1000 gf", PARE_DIM_FORCE) == 9.80665);
    assert_true(quantity("1 g", PARE_DIM_ACCELERATION) == 9.80665);
}

static void common_factors_are_those_of_nist_sp_811(void **state)
{
    (void)state;
    /* NIST Special Publication 811 (2008), appendix B.8, printed to seven digits (values from
     * memory); half a unit in the seventh is at most 5e-7 of it. */
    static const struct {
        const char *text;
        pare_dimension dimension;
        double printed;
    } ROWS[] = {
        {"1 oz", PARE_DIM_MASS, 2.834952e-02},        {"1 lb/ft3", PARE_DIM_DENSITY, 1.601846e+01},
        {"1 oz/in3", PARE_DIM_DENSITY, 1.729994e+03}, {"1 ft/min", PARE_DIM_SPEED, 5.08e-03},
        {"1 mph", PARE_DIM_SPEED, 4.4704e-01},        {"1 kn", PARE_DIM_SPEED, 5.144444e-01},
        {"1 lbf", PARE_DIM_FORCE, 4.448222e+00},      {"1 ozf", PARE_DIM_FORCE, 2.780139e-01},
        {"1 ft lbf", PARE_DIM_TORQUE, 1.355818e+00},  {"1 psi", PARE_DIM_PRESSURE, 6.894757e+03},
        {"1 rpm", PARE_DIM_ROTATION, 1.047198e-01},   {"1 deg", PARE_DIM_ANGLE, 1.745329e-02},
        {"1 Wh", PARE_DIM_ENERGY, 3.6e+03},           {"1 Ah", PARE_DIM_CHARGE, 3.6e+03},
        {"1 hp", PARE_DIM_POWER, 7.456999e+02},
    };
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++)
        assert_within(quantity(ROWS[i].text, ROWS[i].dimension), ROWS[i].printed, 5e-7);
}

static void temperatures_meet_at_their_fixed_points(void **state)
{
    (void)state;
    /* BIPM, The International System of Units, 9th ed., 2.3.1: t/degC = T/K - 273.15. Fahrenheit's
     * 32, 212 and the crossing at -40 follow from t/degF = 9/5 t/degC + 32 (NIST SP 811, B.8). */
    assert_true(quantity("273.15 K", PARE_DIM_TEMPERATURE) == 0);
    assert_true(quantity("32 F", PARE_DIM_TEMPERATURE) == 0);
    assert_true(quantity("212 degF", PARE_DIM_TEMPERATURE) == 100);
    assert_true(quantity("-40 F", PARE_DIM_TEMPERATURE) == -40);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gnu_units_gives_the_same_values),
        cmocka_unit_test(the_inch_the_pound_and_their_parts_are_those_of_1959),
        cmocka_unit_test(the_knot_is_a_nautical_mile_an_hour),
        cmocka_unit_test(a_kilogram_force_weighs_at_standard_gravity),
        cmocka_unit_test(common_factors_are_those_of_nist_sp_811),
        cmocka_unit_test(temperatures_meet_at_their_fixed_points),
    };
    return cmocka_run_group_tests(tests, open_units, close_units);
}
