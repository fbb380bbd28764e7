/* unit_table.c: the trade's own units (see unit_table.h).
 *
 * Factors are exact by definition unless marked: the international inch and pound (1959), the
 * nautical mile of 1852 m (1929), standard gravity 9.80665 m/s2 (3rd CGPM, 1901). */
#include "base/unit_table.h"

#include <string.h>
#include <strings.h>

#define PI 3.14159265358979323846

static const struct {
    const char *name, *units, *library_unit;
} DIMENSIONS[PARE_DIMENSIONS] = {
    [PARE_DIM_COUNT] = {"a count", "a bare number", NULL},
    [PARE_DIM_NUMBER] = {"a number", "no unit", NULL},
    [PARE_DIM_SHARE] = {"a share", "%, a bare number", NULL},
    [PARE_DIM_MASS] = {"a mass", "g, kg, oz, lb", "kg"},
    [PARE_DIM_LENGTH] = {"a length", "mm, cm, m, in, ft", "m"},
    [PARE_DIM_AREA] = {"an area", "mm2, cm2, m2", "m2"},
    [PARE_DIM_VOLUME] = {"a volume", "mm3, cm3, ml", "m3"},
    [PARE_DIM_TIME] = {"a time", "s, min, h, ms", "s"},
    [PARE_DIM_ANGLE] = {"an angle", "deg, rad", "rad"},
    [PARE_DIM_SPEED] = {"a speed", "m/s, km/h, mph, kn, ft/min", "m/s"},
    [PARE_DIM_ACCELERATION] = {"an acceleration", "m/s2, g", "m/s2"},
    [PARE_DIM_ROTATION] = {"a speed of rotation", "rpm, rad/s, a bare number of rpm", NULL},
    [PARE_DIM_TEMPERATURE] = {"a temperature", "degC, K, degF", "degC"},
    [PARE_DIM_FORCE] = {"a force", "N, gf, kgf, lbf", "N"},
    [PARE_DIM_TORQUE] = {"a torque", "N m, mN m, N cm, kgf cm", "N m"},
    [PARE_DIM_PRESSURE] = {"a pressure", "Pa, hPa, kPa, MPa, GPa, bar", "Pa"},
    [PARE_DIM_DENSITY] = {"a density", "g/cm3, kg/m3", "kg/m3"},
    [PARE_DIM_ENERGY] = {"an energy", "Wh, kWh, J", "J"},
    [PARE_DIM_POWER] = {"a power", "W, mW, kW", "W"},
    [PARE_DIM_VOLTAGE] = {"a voltage", "V, mV", "V"},
    [PARE_DIM_CURRENT] = {"a current", "A, mA", "A"},
    [PARE_DIM_CHARGE] = {"a charge", "mAh, Ah, C", "C"},
    [PARE_DIM_RESISTANCE] = {"a resistance", "mohm, ohm, kohm", "ohm"},
    [PARE_DIM_CAPACITANCE] = {"a capacitance", "uF, nF, pF, mF, F", "F"},
    [PARE_DIM_HEAT] = {"a heat capacity", "J/K, kJ/K", "J/K"},
    [PARE_DIM_FREQUENCY] = {"a frequency", "Hz, kHz, MHz, GHz", NULL},
    [PARE_DIM_GAIN] = {"a gain", "dB, dBi", NULL},
    [PARE_DIM_KV] = {"a motor constant", "rpm/V, KV, a bare number", NULL},
    [PARE_DIM_GAUGE] = {"a wire gauge", "AWG, a bare number", NULL},
    [PARE_DIM_MONEY] = {"a sum of money", "a bare number", NULL},
};

const pare_unit_row pare_unit_rows[] = {
    {"", PARE_DIM_COUNT, 1, 1, 0},
    {"", PARE_DIM_NUMBER, 1, 1, 0},
    {"", PARE_DIM_SHARE, 1, 1, 0},
    {"%", PARE_DIM_SHARE, 1, 100, 0},

    {"g", PARE_DIM_MASS, 1, 1000, 0},
    {"mg", PARE_DIM_MASS, 1, 1e6, 0},
    {"kg", PARE_DIM_MASS, 1, 1, 0},
    {"oz", PARE_DIM_MASS, 28349523125, 1e12, 0}, /* avoirdupois, a sixteenth of a pound */
    {"lb", PARE_DIM_MASS, 45359237, 1e8, 0},
    {"lbs", PARE_DIM_MASS, 45359237, 1e8, 0},

    {"mm", PARE_DIM_LENGTH, 1, 1000, 0},
    {"um", PARE_DIM_LENGTH, 1, 1e6, 0},
    {"cm", PARE_DIM_LENGTH, 1, 100, 0},
    {"m", PARE_DIM_LENGTH, 1, 1, 0},
    {"km", PARE_DIM_LENGTH, 1000, 1, 0},
    {"in", PARE_DIM_LENGTH, 254, 1e4, 0},
    {"inch", PARE_DIM_LENGTH, 254, 1e4, 0},
    {"\"", PARE_DIM_LENGTH, 254, 1e4, 0},
    {"ft", PARE_DIM_LENGTH, 3048, 1e4, 0},
    {"'", PARE_DIM_LENGTH, 3048, 1e4, 0},

    {"mm2", PARE_DIM_AREA, 1, 1e6, 0},
    {"cm2", PARE_DIM_AREA, 1, 1e4, 0},
    {"m2", PARE_DIM_AREA, 1, 1, 0},
    {"mm3", PARE_DIM_VOLUME, 1, 1e9, 0},
    {"cm3", PARE_DIM_VOLUME, 1, 1e6, 0},
    {"ml", PARE_DIM_VOLUME, 1, 1e6, 0},
    {"m3", PARE_DIM_VOLUME, 1, 1, 0},

    {"s", PARE_DIM_TIME, 1, 1, 0},
    {"ms", PARE_DIM_TIME, 1, 1000, 0},
    {"us", PARE_DIM_TIME, 1, 1e6, 0},
    {"min", PARE_DIM_TIME, 60, 1, 0},
    {"h", PARE_DIM_TIME, 3600, 1, 0},

    {"deg", PARE_DIM_ANGLE, PI, 180, 0},
    {"rad", PARE_DIM_ANGLE, 1, 1, 0},
    {"mrad", PARE_DIM_ANGLE, 1, 1000, 0},

    {"m/s", PARE_DIM_SPEED, 1, 1, 0},
    {"km/h", PARE_DIM_SPEED, 10, 36, 0},
    {"kph", PARE_DIM_SPEED, 10, 36, 0},
    {"mph", PARE_DIM_SPEED, 44704, 1e5, 0},
    {"kn", PARE_DIM_SPEED, 1852, 3600, 0},
    {"kt", PARE_DIM_SPEED, 1852, 3600, 0},
    {"ft/s", PARE_DIM_SPEED, 3048, 1e4, 0},
    {"ft/min", PARE_DIM_SPEED, 508, 1e5, 0},

    {"m/s2", PARE_DIM_ACCELERATION, 1, 1, 0},
    {"g", PARE_DIM_ACCELERATION, 980665, 1e5, 0},

    {"", PARE_DIM_ROTATION, PI, 30, 0},
    {"rpm", PARE_DIM_ROTATION, PI, 30, 0},
    {"rad/s", PARE_DIM_ROTATION, 1, 1, 0},
    {"deg/s", PARE_DIM_ROTATION, PI, 180, 0},

    {"degC", PARE_DIM_TEMPERATURE, 1, 1, 0},
    {"C", PARE_DIM_TEMPERATURE, 1, 1, 0},
    {"K", PARE_DIM_TEMPERATURE, 1, 1, 273.15},
    {"degF", PARE_DIM_TEMPERATURE, 5, 9, 32},
    {"F", PARE_DIM_TEMPERATURE, 5, 9, 32},

    {"N", PARE_DIM_FORCE, 1, 1, 0},
    {"mN", PARE_DIM_FORCE, 1, 1000, 0},
    {"kN", PARE_DIM_FORCE, 1000, 1, 0},
    {"gf", PARE_DIM_FORCE, 980665, 1e8, 0},
    {"kgf", PARE_DIM_FORCE, 980665, 1e5, 0},
    {"lbf", PARE_DIM_FORCE, 44482216152605, 1e13, 0},
    {"ozf", PARE_DIM_FORCE, 44482216152605, 16e13, 0},

    {"N m", PARE_DIM_TORQUE, 1, 1, 0},
    {"Nm", PARE_DIM_TORQUE, 1, 1, 0},
    {"mN m", PARE_DIM_TORQUE, 1, 1000, 0},
    {"mNm", PARE_DIM_TORQUE, 1, 1000, 0},
    {"N cm", PARE_DIM_TORQUE, 1, 100, 0},
    {"Ncm", PARE_DIM_TORQUE, 1, 100, 0},
    {"N mm", PARE_DIM_TORQUE, 1, 1000, 0},
    {"kgf cm", PARE_DIM_TORQUE, 980665, 1e7, 0},

    {"Pa", PARE_DIM_PRESSURE, 1, 1, 0},
    {"hPa", PARE_DIM_PRESSURE, 100, 1, 0},
    {"kPa", PARE_DIM_PRESSURE, 1000, 1, 0},
    {"MPa", PARE_DIM_PRESSURE, 1e6, 1, 0},
    {"GPa", PARE_DIM_PRESSURE, 1e9, 1, 0},
    {"mbar", PARE_DIM_PRESSURE, 100, 1, 0},
    {"bar", PARE_DIM_PRESSURE, 1e5, 1, 0},
    {"N/mm2", PARE_DIM_PRESSURE, 1e6, 1, 0},

    {"g/cm3", PARE_DIM_DENSITY, 1000, 1, 0},
    {"kg/m3", PARE_DIM_DENSITY, 1, 1, 0},

    {"Wh", PARE_DIM_ENERGY, 3600, 1, 0},
    {"mWh", PARE_DIM_ENERGY, 36, 10, 0},
    {"kWh", PARE_DIM_ENERGY, 3.6e6, 1, 0},
    {"J", PARE_DIM_ENERGY, 1, 1, 0},
    {"kJ", PARE_DIM_ENERGY, 1000, 1, 0},

    {"W", PARE_DIM_POWER, 1, 1, 0},
    {"mW", PARE_DIM_POWER, 1, 1000, 0},
    {"kW", PARE_DIM_POWER, 1000, 1, 0},
    {"V", PARE_DIM_VOLTAGE, 1, 1, 0},
    {"mV", PARE_DIM_VOLTAGE, 1, 1000, 0},
    {"A", PARE_DIM_CURRENT, 1, 1, 0},
    {"mA", PARE_DIM_CURRENT, 1, 1000, 0},
    {"uA", PARE_DIM_CURRENT, 1, 1e6, 0},

    {"mAh", PARE_DIM_CHARGE, 36, 10, 0},
    {"Ah", PARE_DIM_CHARGE, 3600, 1, 0},
    {"C", PARE_DIM_CHARGE, 1, 1, 0},

    {"ohm", PARE_DIM_RESISTANCE, 1, 1, 0},
    {"mohm", PARE_DIM_RESISTANCE, 1, 1000, 0},
    {"uohm", PARE_DIM_RESISTANCE, 1, 1e6, 0},
    {"kohm", PARE_DIM_RESISTANCE, 1000, 1, 0},

    {"F", PARE_DIM_CAPACITANCE, 1, 1, 0},
    {"mF", PARE_DIM_CAPACITANCE, 1, 1000, 0},
    {"uF", PARE_DIM_CAPACITANCE, 1, 1e6, 0},
    {"nF", PARE_DIM_CAPACITANCE, 1, 1e9, 0},
    {"pF", PARE_DIM_CAPACITANCE, 1, 1e12, 0},

    {"J/K", PARE_DIM_HEAT, 1, 1, 0},
    {"kJ/K", PARE_DIM_HEAT, 1000, 1, 0},

    {"Hz", PARE_DIM_FREQUENCY, 1, 1, 0},
    {"kHz", PARE_DIM_FREQUENCY, 1000, 1, 0},
    {"MHz", PARE_DIM_FREQUENCY, 1e6, 1, 0},
    {"GHz", PARE_DIM_FREQUENCY, 1e9, 1, 0},

    {"dB", PARE_DIM_GAIN, 1, 1, 0},
    {"dBi", PARE_DIM_GAIN, 1, 1, 0},

    {"", PARE_DIM_KV, 1, 1, 0},
    {"rpm/V", PARE_DIM_KV, 1, 1, 0},
    {"KV", PARE_DIM_KV, 1, 1, 0},
    {"Kv", PARE_DIM_KV, 1, 1, 0},
    {"kv", PARE_DIM_KV, 1, 1, 0},
    {"kV", PARE_DIM_KV, 1, 1, 0}, /* the trade's spelling: a kilovolt makes no sense here */

    {"", PARE_DIM_GAUGE, 1, 1, 0},
    {"AWG", PARE_DIM_GAUGE, 1, 1, 0},
    {"awg", PARE_DIM_GAUGE, 1, 1, 0},
    {"", PARE_DIM_MONEY, 1, 1, 0},
};

const size_t pare_unit_row_count = sizeof pare_unit_rows / sizeof *pare_unit_rows;

const pare_unit_row *pare_unit_find(const char *symbol, pare_dimension dimension)
{
    for (size_t i = 0; i < pare_unit_row_count; i++)
        if (pare_unit_rows[i].dimension == dimension &&
            strcmp(pare_unit_rows[i].symbol, symbol) == 0)
            return &pare_unit_rows[i];
    return NULL;
}

const pare_unit_row *pare_unit_find_any(const char *symbol)
{
    for (size_t i = 0; i < pare_unit_row_count; i++)
        if (strcmp(pare_unit_rows[i].symbol, symbol) == 0)
            return &pare_unit_rows[i];
    return NULL;
}

const pare_unit_row *pare_unit_find_other_case(const char *symbol, pare_dimension dimension)
{
    for (size_t i = 0; i < pare_unit_row_count; i++)
        if (pare_unit_rows[i].dimension == dimension &&
            strcasecmp(pare_unit_rows[i].symbol, symbol) == 0)
            return &pare_unit_rows[i];
    return NULL;
}

const char *pare_dimension_library_unit(pare_dimension dimension)
{
    return DIMENSIONS[dimension].library_unit;
}

const char *pare_dimension_units(pare_dimension dimension)
{
    return DIMENSIONS[dimension].units;
}

const char *pare_dimension_name(pare_dimension dimension)
{
    return DIMENSIONS[dimension].name;
}
