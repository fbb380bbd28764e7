/* calc_wire.c: `pare calc wire`. */
#include <math.h>
#include <stdlib.h>

#include "cli/calc.h"
#include "physics/wire.h"
#include "physics/wire_heat.h"

enum { GAUGE, LENGTH, OUTER, CURRENT, AMBIENT, FLOW, BURST, FLOWN };
static const key keys[] = {
    [GAUGE] = {"gauge", PARE_DIM_GAUGE, 4, 40, "4 .. 40 AWG", true, NAN, false},
    [LENGTH] = {"length", PARE_DIM_LENGTH, 1e-3, 100, "1 mm .. 100 m", true, NAN, false},
    [OUTER] = {"outer", PARE_DIM_LENGTH, 1e-4, 0.05, "0.1 mm .. 50 mm", false, 0, false},
    [CURRENT] = {"current", PARE_DIM_CURRENT, 0, 2000, "0 A .. 2000 A", true, NAN, false},
    [AMBIENT] = {"ambient", PARE_DIM_TEMPERATURE, -60, 100, "-60 degC .. 100 degC", false, 25,
                 false},
    [FLOW] = {"flow", PARE_DIM_SPEED, 0, 150, "0 m/s .. 150 m/s", false, 0, false},
    [BURST] = {"burst", PARE_DIM_TIME, 0, 3600, "0 s .. 3600 s", false, NAN, false},
    [FLOWN] = {.name = "flown", .is_word = true},
};

enum { STRETCHES = 64 };

#define SILICONE_DEGC 200.0 /* the class of silicone insulation; common practice, no source */
#define JOINT_DEGC    105.0 /* connector housings and solder joints, unless stated */

static void say_what_it_bears(double degc, pare_answer *answer)
{
    if (degc > SILICONE_DEGC)
        pare_answer_note(answer,
                         "hotter than silicone insulation commonly bears (%g degC): it "
                         "burns fingers and starts fires",
                         SILICONE_DEGC);
    else if (degc > JOINT_DEGC)
        pare_answer_note(answer,
                         "the wire bears it, connectors and solder joints may not (%g degC "
                         "unless theirs is stated)",
                         JOINT_DEGC);
}

/* "9/50,110/3": amperes and seconds, one stretch after another. */
static pare_status read_flown(const char *text, pare_wire_stretch stretch[], size_t *stretches,
                              pare_error *err)
{
    const char *at = text;
    for (*stretches = 0; *stretches < STRETCHES;) {
        pare_wire_stretch *one = &stretch[*stretches];
        char *end;
        one->current_a = strtod(at, &end);
        if (end == at || *end != '/')
            break;
        at = end + 1;
        one->seconds = strtod(at, &end);
        if (end == at || (*end != ',' && *end != '\0'))
            break;
        ++*stretches;
        if (*end == '\0')
            return PARE_OK;
        at = end + 1;
    }
    return pare_fail(
        err, PARE_BAD_DATA,
        "flown=%.60s: amperes/seconds with commas between, %d stretches at most, would "
        "be right",
        text, STRETCHES);
}

/* What the whole flight does to it, from the air's temperature. */
static pare_status flown_of(const pare_wire_load *load, const char *text, pare_answer *answer,
                            pare_error *err)
{
    pare_wire_stretch stretch[STRETCHES];
    size_t stretches;
    pare_wire_heat end;
    double hottest, seconds = 0, squares = 0;
    if (read_flown(text, stretch, &stretches, err) != PARE_OK)
        return err->status;
    if (pare_wire_flown(load, load->ambient_degc, stretches, stretch, &end, &hottest, err) !=
        PARE_OK)
        return pare_within(err, "flown");
    for (size_t i = 0; i < stretches; i++) {
        seconds += stretch[i].seconds;
        squares += stretch[i].seconds * stretch[i].current_a * stretch[i].current_a;
    }
    pare_answer_add(answer, "flown_hottest_c", "conductor, hottest as flown", "degC", hottest);
    pare_answer_add(answer, "flown_end_c", "conductor, at the flight's end", "degC",
                    end.conductor_degc);
    pare_answer_add(answer, "flown_rms_a", "rms as flown", "A",
                    seconds > 0 ? sqrt(squares / seconds) : 0);
    return PARE_OK;
}

static pare_status answer_of(const key_values *given, pare_units *units, pare_answer *answer,
                             pare_error *err)
{
    (void)units;
    const double *v = given->value;
    pare_wire_load load = pare_wire_load_defaults();
    load.gauge = v[GAUGE];
    load.outer_m = v[OUTER];
    load.current_a = v[CURRENT];
    load.ambient_degc = v[AMBIENT];
    load.flow_m_s = v[FLOW];
    pare_wire_heat steady, burst = {0};
    pare_status status = PARE_OK;
    /* A burst may pass where the same current held would melt the wire: then only that is missing. */
    pare_error melts;
    const bool settles = pare_wire_steady(&load, &steady, &melts) == PARE_OK;
    if (given->given[BURST])
        status = pare_wire_after(&load, load.ambient_degc, v[BURST], &burst, err);
    if (status != PARE_OK)
        return status;
    if (!settles && !given->given[BURST]) {
        *err = melts;
        return melts.status;
    }
    const double cold_ohm = v[LENGTH] * pare_wire_ohm_per_m(v[GAUGE], 20);
    pare_answer_add(answer, "resistance_mohm", "resistance at 20 degC", "mohm", 1e3 * cold_ohm);
    pare_answer_add(answer, "drop_v", "volts lost, at 20 degC", "V", v[CURRENT] * cold_ohm);
    pare_answer_add(answer, "mass_g", "mass", "g",
                    1e3 * v[LENGTH] * pare_wire_kg_per_m(v[GAUGE], v[OUTER]));
    pare_answer_add(answer, "steady_c", "conductor, settled", "degC",
                    settles ? steady.conductor_degc : (double)NAN);
    if (settles) {
        pare_answer_add(answer, "surface_c", "its surface, settled", "degC", steady.surface_degc);
        pare_answer_add(answer, "hot_drop_v", "volts lost, settled", "V",
                        v[CURRENT] * v[LENGTH] *
                            pare_wire_ohm_per_m(v[GAUGE], steady.conductor_degc));
    } else {
        pare_answer_note(answer, "held without end, this current melts the wire");
    }
    if (given->given[BURST])
        pare_answer_add(answer, "burst_c", "conductor after the burst", "degC",
                        burst.conductor_degc);
    if (given->given[FLOWN])
        status = flown_of(&load, given->text[FLOWN], answer, err);
    if (status != PARE_OK)
        return status;
    say_what_it_bears(settles ? steady.conductor_degc : burst.conductor_degc, answer);
    pare_answer_note(answer, "alone in the air: bundled or wrapped it runs hotter; the laws of "
                             "convection are good to some 15 %% of the rise");
    return PARE_OK;
}

const calc_thing calc_wire = {"wire", sizeof keys / sizeof keys[0], keys, answer_of};
