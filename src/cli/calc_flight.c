/* calc_flight.c: `pare calc air | prop`. */
#include <math.h>

#include "cli/calc.h"
#include "physics/air.h"
#include "physics/prop.h"
#include "physics/rotor.h"

#define RPM_PER_RAD_S 9.549296585513721

enum { AIR_ALTITUDE, AIR_TEMPERATURE, AIR_PRESSURE, AIR_SEA_LEVEL, AIR_HUMIDITY };
static const key air_keys[] = {
    [AIR_ALTITUDE] = {"altitude", PARE_DIM_LENGTH, -2000, 11000, "-2000 m .. 11000 m", true, NAN,
                      false},
    [AIR_TEMPERATURE] = {"temperature", PARE_DIM_TEMPERATURE, -60, 60, "-60 degC .. 60 degC", false,
                         NAN, false},
    [AIR_PRESSURE] = {"pressure", PARE_DIM_PRESSURE, 15e3, 110e3, "150 hPa .. 1100 hPa", false, NAN,
                      false},
    [AIR_SEA_LEVEL] = {"sea_level_pressure", PARE_DIM_PRESSURE, 85e3, 110e3, "850 hPa .. 1100 hPa",
                       false, NAN, false},
    [AIR_HUMIDITY] = {"humidity", PARE_DIM_SHARE, 0, 1, "0 % .. 100 %", false, NAN, false},
};

static pare_status air_answer(const key_values *given, pare_units *units, pare_answer *answer,
                              pare_error *err)
{
    (void)units;
    pare_air air;
    const double *v = given->value;
    const pare_weather weather = {.altitude_m = v[AIR_ALTITUDE],
                                  .temperature_degc = v[AIR_TEMPERATURE],
                                  .pressure_pa = v[AIR_PRESSURE],
                                  .sea_level_pa = v[AIR_SEA_LEVEL],
                                  .humidity = v[AIR_HUMIDITY]};
    const pare_status status = pare_air_in(&weather, &air, err);
    if (status != PARE_OK)
        return status;
    pare_answer_add(answer, "density_kg_m3", "density", "kg/m3", air.density_kg_m3);
    pare_answer_add(answer, "pressure_pa", "pressure", "Pa", air.pressure_pa);
    pare_answer_add(answer, "temperature_c", "temperature", "degC", air.temperature_degc);
    pare_answer_add(answer, "viscosity_pa_s", "viscosity", "Pa s", air.viscosity_pa_s);
    pare_answer_add(answer, "sound_m_s", "speed of sound", "m/s", air.sound_m_s);
    pare_answer_add(answer, "density_altitude_m", "density altitude", "m",
                    pare_air_density_altitude_m(air.density_kg_m3));
    return PARE_OK;
}

const calc_thing calc_air = {"air", sizeof air_keys / sizeof air_keys[0], air_keys, air_answer};

enum {
    PROP_DIAMETER,
    PROP_PITCH,
    PROP_BLADES,
    PROP_RPM,
    PROP_SPEED,
    PROP_ALTITUDE,
    PROP_CHORD,
    PROP_LINE
};
static const key prop_keys[] = {
    [PROP_DIAMETER] = {"diameter", PARE_DIM_LENGTH, 0.02, 1, "20 mm .. 1 m", true, NAN, false},
    [PROP_PITCH] = {"pitch", PARE_DIM_LENGTH, 0, 2, "0 mm .. 2 m", true, NAN, false},
    [PROP_BLADES] = {"blades", PARE_DIM_COUNT, 2, 8, "2 .. 8", true, NAN, false},
    [PROP_RPM] = {"rpm", PARE_DIM_ROTATION, 1, 20000, "10 .. 190000 rpm", true, NAN, false},
    [PROP_SPEED] = {"speed", PARE_DIM_SPEED, 0, 150, "0 m/s .. 150 m/s", false, 0, false},
    [PROP_ALTITUDE] = {"altitude", PARE_DIM_LENGTH, -2000, 11000, "-2000 m .. 11000 m", false, 0,
                       false},
    [PROP_CHORD] = {"chord", PARE_DIM_LENGTH, 1e-3, 0.2, "1 mm .. 200 mm", false, 0, false},
    [PROP_LINE] = {"line", PARE_DIM_NUMBER, 0, 1,
                   "thin, slim, sport, slow, park, direct, folding, classic, scimitar or broad",
                   false, 0, true},
};

#define RUNNING_FROM    0.1 /* J */
#define THRUST_MEASURED 0.3 /* of its thrust at rest: with less the model's errors are not known */

/* Shares of the coefficients that they are uncertain by; of a product of powers of both, likewise. */
typedef struct prop_u {
    double thrust, power, correlation;
    bool line_known;
} prop_u;

static double product_u(const prop_u *u, double thrust_power, double power_power)
{
    const double a = thrust_power * u->thrust, b = power_power * u->power;
    return sqrt(a * a + b * b + 2 * u->correlation * a * b);
}

/* Near no thrust at all a share of it says nothing: it is then held at that of the least measured. */
static prop_u prop_doubt(const pare_prop *prop, double advance, double omega, const pare_air *air,
                         double ct, double cp)
{
    double still_ct, still_cp;
    pare_prop_coefficients(prop, 0, omega, air, &still_ct, &still_cp);
    const pare_prop_doubt model =
        pare_prop_model_doubt(prop, advance >= RUNNING_FROM, ct / still_ct);
    const double least_ct = THRUST_MEASURED * still_ct, least_cp = THRUST_MEASURED * still_cp;
    return (prop_u){model.thrust_u * fmax(fabs(ct), least_ct) / fabs(ct),
                    model.power_u * fmax(fabs(cp), least_cp) / fabs(cp), model.correlation,
                    prop->line != PARE_LINE_UNKNOWN};
}

/* A figure that goes with CT^a CP^b. */
static void prop_figure(pare_answer *answer, const prop_u *u, const char *name, const char *words,
                        const char *unit, double value, double a, double b)
{
    const char *source = u->line_known ? "model with known line" : "model from size";
    pare_answer_add(answer, name, words, unit, value);
    pare_answer_doubt(answer, product_u(u, a, b) * fabs(value), PARE_ESTIMATED, source);
}

static void prop_figures(const pare_prop *prop, double speed_m_s, double omega, const pare_air *air,
                         pare_answer *answer)
{
    const double turns = omega * RPM_PER_RAD_S / 60, d = prop->diameter_m, d2 = d * d;
    const double advance = speed_m_s / (turns * d), rho = air->density_kg_m3;
    double ct, cp;
    pare_prop_coefficients(prop, advance, omega, air, &ct, &cp);
    const double thrust = ct * rho * turns * turns * d2 * d2;
    const double power = cp * rho * turns * turns * turns * d2 * d2 * d;
    const prop_u u = prop_doubt(prop, advance, omega, air, ct, cp);
    prop_figure(answer, &u, "thrust_n", "thrust", "N", thrust, 1, 0);
    prop_figure(answer, &u, "power_w", "shaft power", "W", power, 0, 1);
    prop_figure(answer, &u, "torque_nm", "torque", "N m", power / omega, 0, 1);
    prop_figure(answer, &u, "ct", "thrust coefficient CT", "", ct, 1, 0);
    prop_figure(answer, &u, "cp", "power coefficient CP", "", cp, 0, 1);
    if (ct <= 0 || cp <= 0)
        pare_answer_note(answer, "at this speed the propeller gives no thrust: it windmills");
    else if (speed_m_s > 0)
        prop_figure(answer, &u, "efficiency", "efficiency", "", advance * ct / cp, 1, -1);
    else
        prop_figure(answer, &u, "figure_of_merit", "figure of merit", "",
                    pare_rotor_ideal_hover_w(thrust, d, rho) / power, 1.5, -1);
}

static pare_status prop_line(const key_values *given, pare_prop_line *line, pare_error *err)
{
    *line =
        given->given[PROP_LINE] ? pare_prop_line_named(given->text[PROP_LINE]) : PARE_LINE_UNKNOWN;
    if (*line == PARE_PROP_LINES)
        return pare_fail(err, PARE_BAD_DATA, "line=%s is none of %s", given->text[PROP_LINE],
                         prop_keys[PROP_LINE].allowed);
    return PARE_OK;
}

static pare_status prop_answer(const key_values *given, pare_units *units, pare_answer *answer,
                               pare_error *err)
{
    (void)units;
    const double *v = given->value;
    pare_prop_line line;
    pare_status status = prop_line(given, &line, err);
    if (status != PARE_OK)
        return status;
    const pare_prop_size size = {.diameter_m = v[PROP_DIAMETER],
                                 .pitch_m = v[PROP_PITCH],
                                 .blades = (int)v[PROP_BLADES],
                                 .chord_m = v[PROP_CHORD],
                                 .line = line};
    pare_prop prop;
    pare_air air;
    status = pare_air_standard(v[PROP_ALTITUDE], &air, err);
    if (status == PARE_OK)
        status = pare_prop_from_size(&size, pare_prop_set(false, size.line), &prop, err);
    if (status != PARE_OK)
        return status;
    prop_figures(&prop, v[PROP_SPEED], v[PROP_RPM], &air, answer);
    const char *outside = pare_prop_outside(&prop);
    if (outside)
        pare_answer_note(answer, "%s is outside the range of the propellers measured", outside);
    return PARE_OK;
}

const calc_thing calc_prop = {"prop", sizeof prop_keys / sizeof prop_keys[0], prop_keys,
                              prop_answer};
