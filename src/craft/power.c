/* power.c: the states whose power is taken apart (see power.h). */
#include "craft/power.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "craft/doubt.h"
#include "craft/flight.h"

#define PART(name, words) {#name, words, offsetof(pare_budget, name)}
const pare_power_row pare_power_table[PARE_POWER_ROWS] = {
    PART(induced_w, "lift (induced)"),    PART(profile_w, "blades (profile)"),
    PART(drag_w, "the body's drag"),      PART(copper_w, "motor windings"),
    PART(iron_w, "motor iron, bearings"), PART(esc_w, "ESC"),
    PART(electronics_w, "electronics"),   PART(lead_w, "leads and contacts"),
    PART(pack_w, "inside the pack"),
};

const char *pare_powered_name(pare_powered_as as)
{
    static const char *const names[PARE_POWERED] = {
        [PARE_POWERED_HOVER] = "hover",
        [PARE_POWERED_CRUISE] = "cruise",
        [PARE_POWERED_RANGE] = "range",
    };
    return names[as];
}

static void missing(pare_powered *state, const char *why)
{
    state->exists = false;
    snprintf(state->why, sizeof state->why, "%.*s", (int)sizeof state->why - 1, why);
}

static void at_speed(const pare_rig *rig, double speed_m_s, pare_powered *state)
{
    pare_error err = {PARE_OK, ""};
    state->speed_m_s = speed_m_s;
    state->exists =
        pare_rig_budget(rig, speed_m_s, PARE_CHARGE_HALF, &state->budget, &err) == PARE_OK;
    if (!state->exists)
        missing(state, err.text);
}

/* 0 where it is flown at no set speed. */
static double cruise_m_s(const pare_brief *brief)
{
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(brief, &flown);
    double speed_m_s = 0, most = 0;
    for (size_t i = 0; i < entries; i++)
        if (flown[i].as == PARE_FLOWN_SPEED && flown[i].share > most) {
            most = flown[i].share;
            speed_m_s = flown[i].level;
        }
    return speed_m_s;
}

enum { VALUES = PARE_POWER_ROWS + 1 };

static bool moved_w(const pare_powered *state, const pare_rig *from, pare_doubted which,
                    double change, double watts[VALUES])
{
    pare_moved_rig moved = {.rig = *from};
    pare_budget budget;
    pare_doubted_move(&moved, which, change);
    if (pare_rig_budget(&moved.rig, state->speed_m_s, PARE_CHARGE_HALF, &budget, NULL) != PARE_OK)
        return false;
    for (size_t row = 0; row < PARE_POWER_ROWS; row++)
        watts[row] = pare_power_part(&budget, row);
    watts[PARE_POWER_ROWS] = budget.open_w;
    return true;
}

/* By how much each part moves for one standard uncertainty of a number. */
static bool step_w(const pare_powered *state, const pare_rig *rig, pare_doubted which, double u,
                   double step[VALUES])
{
    double high[VALUES], low[VALUES];
    if (!(u > 0) || !moved_w(state, rig, which, u, high) || !moved_w(state, rig, which, -u, low))
        return false;
    for (int row = 0; row < VALUES; row++)
        step[row] = (high[row] - low[row]) / 2;
    return true;
}

/* Rotors and motors are off together, so their steps add by each source before they are squared. */
static void doubt_drive(const pare_rig *rig, const pare_pair_doubt *drive, pare_powered *state,
                        double square[VALUES])
{
    static const pare_doubted of[PARE_PAIR_NUMBERS] = {
        [PARE_PAIR_THRUST] = PARE_DOUBTED_THRUST,
        [PARE_PAIR_POWER] = PARE_DOUBTED_POWER,
        [PARE_PAIR_KV] = PARE_DOUBTED_KV,
        [PARE_PAIR_RESISTANCE] = PARE_DOUBTED_RESISTANCE,
        [PARE_PAIR_NO_LOAD] = PARE_DOUBTED_NO_LOAD,
    };
    double moved[PARE_PAIR_NUMBERS][VALUES] = {{0}};
    for (int n = 0; n < PARE_PAIR_NUMBERS; n++) {
        double all = 0, step[VALUES];
        for (int source = 0; source < PARE_PAIR_NUMBERS; source++)
            all += drive->root[n][source] * drive->root[n][source];
        all = sqrt(all);
        if (!step_w(state, rig, of[n], all, step))
            continue;
        for (int source = 0; source < PARE_PAIR_NUMBERS; source++)
            for (int row = 0; row < VALUES; row++)
                moved[source][row] += step[row] * drive->root[n][source] / all;
    }
    for (int source = 0; source < PARE_PAIR_NUMBERS; source++)
        for (int row = 0; row < VALUES; row++)
            square[row] += moved[source][row] * moved[source][row];
}

static void doubt(const pare_sheet *sheet, const pare_doubts *doubts, pare_motion motion,
                  pare_powered *state)
{
    static const pare_doubted alone[] = {
        PARE_DOUBTED_COOLING, PARE_DOUBTED_PACK_OHM,  PARE_DOUBTED_CELL_V, PARE_DOUBTED_DRAG,
        PARE_DOUBTED_ALWAYS,  PARE_DOUBTED_SWITCHING, PARE_DOUBTED_LEAD,   PARE_DOUBTED_BLOCKAGE,
        PARE_DOUBTED_ESC_OHM, PARE_DOUBTED_ESC_IDLE};
    const pare_sheet_figure *mass = &sheet->figure[PARE_ALL_UP];
    double square[VALUES] = {0}, step[VALUES];
    doubt_drive(&sheet->rig, &doubts->drive[0][motion], state, square);
    for (size_t i = 0; i <= sizeof alone / sizeof alone[0]; i++) {
        const bool of_mass = i == sizeof alone / sizeof alone[0];
        const pare_doubted which = of_mass ? PARE_DOUBTED_MASS : alone[i];
        const double u = of_mass ? mass->u / mass->value : doubts->u[which];
        if (!step_w(state, &sheet->rig, which, u, step))
            continue;
        for (int row = 0; row < VALUES; row++)
            square[row] += step[row] * step[row];
    }
    for (int row = 0; row < VALUES; row++)
        state->u_w[row] = sqrt(square[row]);
}

void pare_craft_power(const pare_craft *craft, const pare_sheet *sheet,
                      pare_powered power[PARE_POWERED])
{
    memset(power, 0, PARE_POWERED * sizeof power[0]);
    at_speed(&sheet->rig, 0, &power[PARE_POWERED_HOVER]);
    const double cruise = cruise_m_s(&craft->brief);
    if (cruise > 0)
        at_speed(&sheet->rig, cruise, &power[PARE_POWERED_CRUISE]);
    else
        missing(&power[PARE_POWERED_CRUISE], "the brief flies it at no set speed");
    const pare_sheet_figure *range = &sheet->figure[PARE_BEST_RANGE_SPEED];
    if (range->exists)
        at_speed(&sheet->rig, range->value, &power[PARE_POWERED_RANGE]);
    else
        missing(&power[PARE_POWERED_RANGE], range->why);
    if (!sheet->with_u)
        return;
    static const pare_motion motion[PARE_POWERED] = {[PARE_POWERED_HOVER] = PARE_STILL,
                                                     [PARE_POWERED_CRUISE] = PARE_MOVING,
                                                     [PARE_POWERED_RANGE] = PARE_FAST};
    pare_doubts doubts;
    pare_doubts_of(craft, sheet, &doubts);
    for (int i = 0; i < PARE_POWERED; i++)
        if (power[i].exists)
            doubt(sheet, &doubts, motion[i], &power[i]);
}
