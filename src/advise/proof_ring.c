/* proof_ring.c: masses at which arms ring, and screws that hold in no way (see proof.h).
 *
 * With all items decided, how fast rotors turn follows from the mass alone, and only rises with it. An arm's
 * band follows from what swings at its tip: a lighter tip rings higher. So where the turns lie inside what is
 * common to the lightest tip's band and the heaviest's, at one mass and at another, every set between fails.
 *
 * What a joint must hold in a crash grows with the craft's mass and with what stands on it, so screws that fail
 * on the lightest of all fail on each. Nuts and washers have a choice of their own: with these nothing is said. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/proof_inside.h"
#include "base/text.h"
#include "craft/arm_facts.h"
#include "craft/flight.h"
#include "craft/holding.h"

#define FIGURE(f)         ((pare_figures)1 << (f))
#define SURELY            (1 - 1e-6)
#define SHORTEST_ENTERS_M 2e-4 /* below, the margin counts with a least */
#define INSIDE                                                                                     \
    2e-3 /* of a speed: how far inside the band it must be; what lines are rounded by is far less */
#define PI 3.14159265358979323846

/* By how much the joints at the tips may make all tips lighter, or heavier. */
static void tips_may(const proof_space *space, const proof_state *state, double *less_kg,
                     double *more_kg)
{
    const pare_assembly *a = &state->trial.sheet.assembly;
    *less_kg = *more_kg = 0;
    for (size_t i = 0; i < a->lines; i++) {
        const pare_line *line = &a->line[i];
        if (line->of != PARE_LINE_JOINT || state->step > PROOF_STEP_TIP ||
            (state->step == PROOF_STEP_TIP && line->index < state->at) ||
            !pare_joint_at_tips(state->trial.flown, &state->trial.flown->joint[line->index]))
            continue;
        const double now_kg = line->mass_kg.value;
        double least_kg = now_kg, most_kg = now_kg;
        const size_t ways = proof_joint_ways(space, state, line->index);
        for (size_t k = 0; k < ways; k++) {
            proof_way way;
            double mass_kg;
            proof_joint_way(space, state, line->index, k, &way);
            if (pare_joint_kg(&way.joint, &mass_kg, NULL) != PARE_OK)
                continue;
            mass_kg -= way.joint.included_in ? way.joint.included_kg : 0;
            least_kg = fmin(least_kg, mass_kg);
            most_kg = fmax(most_kg, mass_kg);
        }
        *less_kg += now_kg - least_kg;
        *more_kg += most_kg - now_kg;
    }
}

static bool turns_inside(proof_room *room, const proof_state *state, pare_figure turns,
                         unsigned groups, int64_t units, double low_hz, double high_hz)
{
    pare_sheet *probe = &room->full;
    pare_sheet_copy(&state->trial.sheet, probe);
    probe->rig.mass_kg = 1e-7 * (double)units;
    probe->rig.uneven = 0;
    probe->flown &= ~groups;
    pare_sheet_fly(state->trial.flown, FIGURE(turns), probe);
    const pare_sheet_figure *rpm = &probe->figure[turns];
    const double turn_hz = rpm->value / (2 * PI);
    return rpm->exists && turn_hz > low_hz * (1 + INSIDE) && turn_hz < high_hz * (1 - INSIDE);
}

bool proof_rings(const proof_space *space, proof_room *room, const proof_state *state,
                 const char *margin, int64_t below)
{
    pare_arm_facts arm;
    double less_kg, more_kg, low_hz, high_hz;
    const bool cruise = pare_same_name(margin, "arm.ring_cruise");
    if (!proof_items_done(state) || (!cruise && !pare_same_name(margin, "arm.ring")) ||
        !pare_craft_arm_facts(state->trial.flown, &state->trial.sheet, &arm) || !(arm.tip_kg > 0) ||
        state->trial.sheet.assembly.arms == 0)
        return false;
    tips_may(space, state, &less_kg, &more_kg);
    less_kg /= (double)state->trial.sheet.assembly.arms;
    more_kg /= (double)state->trial.sheet.assembly.arms;
    if (!(less_kg < arm.tip_kg))
        return false;
    pare_arm_ring_band(&arm, &low_hz, &high_hz);
    const double need = proof_need(space, margin);
    /* The margin counts in whole hertz. */
    low_hz = floor(low_hz * sqrt(arm.tip_kg / (arm.tip_kg - less_kg))) / need;
    high_hz = ceil(high_hz * sqrt(arm.tip_kg / (arm.tip_kg + more_kg))) * need;
    const pare_figure turns = cruise ? PARE_CRUISE_RPM : PARE_HOVER_RPM;
    const unsigned groups =
        cruise ? PARE_FLY_HOVER | PARE_FLY_MINUTES | PARE_FLY_RANGE : PARE_FLY_HOVER;
    return low_hz < high_hz &&
           turns_inside(room, state, turns, groups, state->bound, low_hz, high_hz) &&
           turns_inside(room, state, turns, groups, below, low_hz, high_hz);
}

/* Into a motor's winding, or with too little thread. */
static bool of_wrong_length(const proof_space *space, const pare_craft *craft,
                            const pare_joint *joint)
{
    char name[64];
    const double enters_m = pare_joint_enters_m(craft, joint);
    const double depth_m = pare_joint_depth_m(craft, joint).value;
    if (!pare_is_screw(joint->standard) || !(enters_m > SHORTEST_ENTERS_M))
        return false;
    snprintf(name, 48, "screw_depth.%s", joint->name);
    if (depth_m > 0 && depth_m / enters_m < proof_need(space, name) * SURELY)
        return true;
    snprintf(name, 48, "screw_grip.%s", joint->name);
    return joint->into && enters_m / pare_joint_least_m(joint) < proof_need(space, name) * SURELY;
}

bool proof_screws_fail(const proof_space *space, proof_room *room, const proof_state *state,
                       const pare_joint *joint, bool flown)
{
    pare_holding h;
    char name[64];
    const pare_craft *craft = &room->lightest;
    if (pare_joint_nuts(craft, joint) || pare_joint_washers(craft, joint))
        return false;
    if (of_wrong_length(space, craft, joint))
        return true;
    room->probe.rig.mass_kg = proof_least_kg(state->bound);
    if (pare_craft_holding(craft, &room->probe, joint, pare_brief_crash_m_s(&craft->brief), &h,
                           NULL) != PARE_OK)
        return false;
    snprintf(name, 48, "joint_crash.%s", joint->name);
    const double crash = pare_holding_ratio(&h, &h.crash);
    if (isfinite(crash) && crash < proof_need(space, name) * SURELY)
        return true;
    snprintf(name, 48, "joint_flight.%s", joint->name);
    /* More load on the pack is less thrust. */
    if (!flown || !room->flown_current ||
        pare_craft_holding(craft, &room->full, joint, pare_brief_crash_m_s(&craft->brief), &h,
                           NULL) != PARE_OK)
        return false;
    const double flight = pare_holding_ratio(&h, &h.flight);
    return isfinite(flight) && flight < proof_need(space, name) * SURELY;
}
