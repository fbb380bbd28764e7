/* calc_motor.c: `pare calc motor`: a motor on fixed volts at a current.
 *
 * Bare, it is the equivalent circuit of what was typed. With drive=on it is the motor as an ESC runs
 * it: more resistance than the winding's own, iron loss that goes with speed (physics/drive.h).
 *
 * Each figure is worked out again with kV, winding, unloaded current and, where it matters, drive and
 * heating off by their standard uncertainties; the squares add up. */
#include <math.h>
#include <string.h>

#include "cli/calc.h"
#include "physics/drive.h"
#include "physics/rig.h"

#define RPM_PER_RAD_S 9.549296585513721
#define STATED_U                                                                                   \
    0.15 /* of a stated winding or unloaded current: with or without leads, cold or
                              warm; estimate, as for a part */

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
    MOTOR_DRIVE
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

/* One input moved up and down by a share; a side on which the motor would not run counts as not moved. */
static void add_square(const run *r, double *input, double share, const double middle[FIGURES],
                       double square[FIGURES])
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
        const double moved = above && below ? (up + down) / 2 : up + down;
        square[f] += moved * moved;
    }
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
    double value[FIGURES], square[FIGURES] = {0};
    if (figures(&r, value, err) != PARE_OK)
        return PARE_BAD_DATA;
    add_square(&r, &r.motor.kv_rpm_per_v, fitted->kv_u, value, square);
    add_square(&r, &r.motor.resistance_ohm, driven ? hypot(STATED_U, fitted->drive_u) : STATED_U,
               value, square);
    add_square(&r, &r.motor.no_load_a, STATED_U, value, square);
    if (hot) {
        r.heat = 1 - fitted->heat_u;
        double cooler[FIGURES];
        if (figures(&r, cooler, NULL) == PARE_OK)
            for (int f = 0; f < FIGURES; f++)
                square[f] += (value[f] - cooler[f]) * (value[f] - cooler[f]);
    }
    for (int f = 0; f < FIGURES; f++) {
        if (f == WINDING && !hot)
            continue;
        pare_answer_add(answer, figure[f].key, figure[f].words, figure[f].unit, value[f]);
        pare_answer_doubt(answer, sqrt(square[f]), PARE_ESTIMATED,
                          driven ? "motor as stated, on an ESC" : "motor as stated");
    }
    return PARE_OK;
}

const calc_thing calc_motor = {"motor", sizeof motor_keys / sizeof motor_keys[0], motor_keys,
                               motor_answer};
