/* calc_motor.c: `pare calc motor`: a motor on fixed volts at a current.
 *
 * Bare, it is the equivalent circuit of what was typed. With drive=on it is the motor as an ESC runs
 * it: more resistance than the winding's own, iron loss that goes with speed (physics/drive.h).
 *
 * With measured= rows of a stand at full throttle, kV, winding and unloaded current are fitted to them
 * (physics/motor_fit.h) from what was stated, and said with their doubt.
 *
 * Each figure is worked out again with kV, winding, unloaded current and, where it matters, heating off
 * by their standard uncertainties; the squares add up, with what a fit says of how they hang together. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/calc.h"
#include "physics/drive.h"
#include "physics/motor_fit.h"
#include "physics/rig.h"

#define RPM_PER_RAD_S   9.549296585513721
#define MEASURED_SOURCE "rows of a stand"
#define STATED_U                                                                                   \
    0.15 /* of a stated winding or unloaded current: with or without leads, cold or
                              warm; estimate, as for a part */

enum { MEASURED_MOST = 32 };

enum {
    MOTOR_KV,
    MOTOR_RESISTANCE,
    MOTOR_NO_LOAD,
    MOTOR_VOLTS,
    MOTOR_CURRENT,
    MOTOR_NO_LOAD_AT,
    MOTOR_MASS,
    MOTOR_IRON_SHARE,
    MOTOR_HEAT,
    MOTOR_DRIVE,
    MOTOR_MEASURED
};
static const key motor_keys[] = {
    [MOTOR_KV] = {"kv", PARE_DIM_KV, 20, 40000, "20 .. 40000 rpm/V", true, NAN, false},
    [MOTOR_RESISTANCE] = {"resistance", PARE_DIM_RESISTANCE, 1e-4, 10, "0.1 mohm .. 10 ohm", true,
                          NAN, false},
    [MOTOR_NO_LOAD] = {"no_load", PARE_DIM_CURRENT, 0, 20, "0 A .. 20 A", true, NAN, false},
    [MOTOR_VOLTS] = {"volts", PARE_DIM_VOLTAGE, 0.1, 120, "0.1 V .. 120 V", true, NAN, false},
    [MOTOR_CURRENT] = {"current", PARE_DIM_CURRENT, 0, 1000, "0 A .. 1000 A", true, NAN, false},
    [MOTOR_NO_LOAD_AT] = {"no_load_at", PARE_DIM_VOLTAGE, 0.5, 100, "0.5 V .. 100 V", false, 10,
                          false},
    [MOTOR_MASS] = {"mass", PARE_DIM_MASS, 1e-3, 5, "1 g .. 5 kg", false, 0.030, false},
    [MOTOR_IRON_SHARE] = {"iron_share", PARE_DIM_SHARE, 0, 1, "0 .. 1", false, 0, false},
    [MOTOR_HEAT] = {"heat", PARE_DIM_NUMBER, 0, 1, "on or off", false, 0, true},
    [MOTOR_DRIVE] = {"drive", PARE_DIM_NUMBER, 0, 1, "on or off", false, 0, true},
    [MOTOR_MEASURED] = {"measured", PARE_DIM_NUMBER, 0, 1, "volts/amperes/rpm,...", false, 0, true},
};

enum { SPEED, TORQUE, SHAFT, EFFICIENCY, BEST_A, BEST_EFFICIENCY, WINDING, FIGURES };

static const struct {
    const char *key, *words, *unit;
} figure[FIGURES] = {
    [SPEED] = {"speed_rpm", "speed", "rpm"},
    [TORQUE] = {"torque_nm", "torque", "N m"},
    [SHAFT] = {"shaft_w", "shaft power", "W"},
    [EFFICIENCY] = {"efficiency", "efficiency", ""},
    [BEST_A] = {"best_a", "current of best efficiency", "A"},
    [BEST_EFFICIENCY] = {"best_efficiency", "best efficiency", ""},
    [WINDING] = {"winding_c", "winding, steady", "degC"},
};

typedef struct run {
    pare_motor motor;
    double volts_v, current_a, heat;
} run;

/* Shares by which kV, winding and unloaded current are off, and how they hang together. */
enum { BY_KV, BY_WINDING, BY_NO_LOAD, BY };
typedef struct doubts {
    double u[BY], kv_winding, kv_no_load, winding_no_load;
} doubts;

static pare_status figures(const run *r, double value[FIGURES], pare_error *err)
{
    pare_motor_state state;
    pare_status status = pare_motor_on(&r->motor, r->volts_v, r->current_a, r->heat, &state, err);
    if (status == PARE_OK)
        status = pare_motor_best(&r->motor, r->volts_v, r->heat, &value[BEST_A],
                                 &value[BEST_EFFICIENCY], err);
    if (status != PARE_OK)
        return status;
    const double input_w = r->volts_v * r->current_a;
    value[SPEED] = state.speed_rad_s * RPM_PER_RAD_S;
    value[TORQUE] = state.torque_nm;
    value[SHAFT] = state.torque_nm * state.speed_rad_s;
    value[EFFICIENCY] = input_w > 0 ? value[SHAFT] / input_w : 0;
    value[WINDING] = state.winding_degc;
    return PARE_OK;
}

/* One input moved up and down by a share: what it does to each figure. A side on which the motor would
 * not run counts as not moved. */
static void move(const run *r, double *input, double share, const double middle[FIGURES],
                 double moved[FIGURES])
{
    const double was = *input;
    double high[FIGURES], low[FIGURES];
    *input = was * (1 + share);
    const bool above = figures(r, high, NULL) == PARE_OK;
    *input = was * (1 - share);
    const bool below = figures(r, low, NULL) == PARE_OK;
    *input = was;
    for (int f = 0; f < FIGURES; f++) {
        const double up = above ? high[f] - middle[f] : 0, down = below ? middle[f] - low[f] : 0;
        moved[f] = above && below ? (up + down) / 2 : up + down;
    }
}

static void doubt_of(run *r, const doubts *d, const double value[FIGURES], double u[FIGURES])
{
    double moved[BY][FIGURES], cooler[FIGURES];
    move(r, &r->motor.kv_rpm_per_v, d->u[BY_KV], value, moved[BY_KV]);
    move(r, &r->motor.resistance_ohm, d->u[BY_WINDING], value, moved[BY_WINDING]);
    move(r, &r->motor.no_load_a, d->u[BY_NO_LOAD], value, moved[BY_NO_LOAD]);
    const double heat = r->heat;
    r->heat = heat * (1 - pare_drive_fitted.heat_u);
    const bool runs = heat > 0 && figures(r, cooler, NULL) == PARE_OK;
    r->heat = heat;
    for (int f = 0; f < FIGURES; f++) {
        const double kv = moved[BY_KV][f], ohm = moved[BY_WINDING][f], loss = moved[BY_NO_LOAD][f];
        const double warm = runs ? value[f] - cooler[f] : 0;
        u[f] = sqrt(fmax(kv * kv + ohm * ohm + loss * loss + warm * warm +
                             2 * (d->kv_winding * kv * ohm + d->kv_no_load * kv * loss +
                                  d->winding_no_load * ohm * loss),
                         0));
    }
}

/* One number and the mark after it. */
static bool take(const char **at, char mark, double *value)
{
    char *end;
    *value = strtod(*at, &end);
    if (end == *at || *end != mark)
        return false;
    *at = end + 1;
    return true;
}

static pare_status read_rows(const char *text, pare_stand_row row[], size_t *rows, pare_error *err)
{
    const char *at = text;
    *rows = 0;
    while (*rows < MEASURED_MOST) {
        pare_stand_row *r = &row[*rows];
        *r = (pare_stand_row){.throttle = 1, .thrust_n = (double)NAN, .torque_nm = (double)NAN};
        if (!take(&at, '/', &r->volts_v) || !take(&at, '/', &r->current_a))
            break;
        char *end;
        const double rpm = strtod(at, &end);
        r->speed_rad_s = rpm / RPM_PER_RAD_S;
        if (end == at || (*end != ',' && *end != '\0'))
            break;
        ++*rows;
        if (*end == '\0')
            return PARE_OK;
        at = end + 1;
    }
    return pare_fail(err, PARE_BAD_DATA,
                     "measured=%.60s: rows of volts/amperes/rpm at full throttle with commas "
                     "between, %d at most, would be right",
                     text, MEASURED_MOST);
}

static pare_status fit_rows(const char *text, const pare_esc *esc, run *r, doubts *d,
                            pare_answer *answer, pare_error *err)
{
    pare_stand_row row[MEASURED_MOST];
    size_t rows;
    pare_motor_fitted fitted;
    const pare_motor_prior prior = {.motor = r->motor,
                                    .kv_u = d->u[BY_KV],
                                    .resistance_u = d->u[BY_WINDING],
                                    .no_load_u = d->u[BY_NO_LOAD],
                                    .esc = *esc};
    if (read_rows(text, row, &rows, err) != PARE_OK ||
        pare_motor_fit(rows, row, &prior, &fitted, err) != PARE_OK)
        return PARE_BAD_DATA;
    r->motor = fitted.motor;
    *d = (doubts){{fitted.kv_u, fitted.resistance_u, fitted.no_load_u},
                  fitted.kv_resistance,
                  fitted.kv_no_load,
                  fitted.resistance_no_load};
    pare_answer_add(answer, "kv_rpm_per_v", "measured kV", "rpm/V", fitted.motor.kv_rpm_per_v);
    pare_answer_doubt(answer, fitted.kv_u * fitted.motor.kv_rpm_per_v, PARE_MEASURED,
                      MEASURED_SOURCE);
    pare_answer_add(answer, "kv_ratio", "measured over stated kV", "", fitted.kv_ratio);
    pare_answer_doubt(answer, fitted.kv_ratio_u, PARE_MEASURED, MEASURED_SOURCE);
    pare_answer_add(answer, "resistance_ohm", "measured winding at 20 degC", "ohm",
                    fitted.motor.resistance_ohm);
    pare_answer_doubt(answer, fitted.resistance_u * fitted.motor.resistance_ohm, PARE_MEASURED,
                      MEASURED_SOURCE);
    return PARE_OK;
}

static pare_status on_or_off(const key_values *given, int which, bool *on, pare_error *err)
{
    const char *word = given->given[which] ? given->text[which] : "off";
    *on = strcmp(word, "on") == 0;
    if (!*on && strcmp(word, "off") != 0)
        return pare_fail(err, PARE_BAD_DATA, "%s=%s is neither on nor off", motor_keys[which].name,
                         word);
    return PARE_OK;
}

static pare_status motor_answer(const key_values *given, pare_units *units, pare_answer *answer,
                                pare_error *err)
{
    (void)units;
    const double *v = given->value;
    const pare_drive *fitted = &pare_drive_fitted;
    bool hot, driven;
    if (on_or_off(given, MOTOR_HEAT, &hot, err) != PARE_OK ||
        on_or_off(given, MOTOR_DRIVE, &driven, err) != PARE_OK)
        return PARE_BAD_DATA;
    pare_rig rig;
    pare_rig_defaults(&rig);
    run r = {rig.motor, v[MOTOR_VOLTS], v[MOTOR_CURRENT], hot ? 1 : 0};
    r.motor.kv_rpm_per_v = v[MOTOR_KV];
    r.motor.resistance_ohm = v[MOTOR_RESISTANCE];
    r.motor.no_load_a = v[MOTOR_NO_LOAD];
    r.motor.no_load_at_v = v[MOTOR_NO_LOAD_AT];
    r.motor.mass_kg = v[MOTOR_MASS];
    r.motor.iron_share =
        driven && !given->given[MOTOR_IRON_SHARE] ? fitted->iron_share : v[MOTOR_IRON_SHARE];
    r.motor.drive_excess = driven ? fitted->drive_excess : 0;
    /* Without heat the winding has the resistance as stated, which is at 20 degC. */
    if (!hot)
        r.motor.ambient_degc = 20;
    doubts d = {
        {fitted->kv_u, driven ? hypot(STATED_U, fitted->drive_u) : STATED_U, STATED_U}, 0, 0, 0};
    const bool measured = given->given[MOTOR_MEASURED];
    if (measured && fit_rows(given->text[MOTOR_MEASURED], &rig.esc, &r, &d, answer, err) != PARE_OK)
        return PARE_BAD_DATA;
    double value[FIGURES], u[FIGURES];
    if (figures(&r, value, err) != PARE_OK)
        return PARE_BAD_DATA;
    doubt_of(&r, &d, value, u);
    const char *source =
        measured ? MEASURED_SOURCE : (driven ? "motor as stated, on an ESC" : "motor as stated");
    for (int f = 0; f < FIGURES; f++) {
        if (f == WINDING && !hot)
            continue;
        pare_answer_add(answer, figure[f].key, figure[f].words, figure[f].unit, value[f]);
        pare_answer_doubt(answer, u[f], PARE_ESTIMATED, source);
    }
    return PARE_OK;
}

const calc_thing calc_motor = {"motor", sizeof motor_keys / sizeof motor_keys[0], motor_keys,
                               motor_answer};
