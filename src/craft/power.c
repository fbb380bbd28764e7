/* power.c: the states whose power is taken apart (see power.h). */
#include "craft/power.h"

#include <stdio.h>
#include <string.h>

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
}
