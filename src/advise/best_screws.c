/* best_screws.c: screws that hold in no set below a state, whatever is still open of them. */
#include <math.h>
#include <stdio.h>

#include "advise/best_met.h"
#include "craft/flight.h"
#include "craft/holding.h"
#include "craft/margin.h"

#define SHORTEST_ENTERS_M 2e-4 /* below, the margin counts with a least */

/* Neither into a motor's winding nor with too little thread. Where there are washers their number, which may
 * change, counts too. */
static bool is_of_length(const best_search *search, const pare_craft *craft,
                         const pare_joint *joint, char by[48])
{
    char name[64];
    const double enters_m = pare_joint_enters_m(craft, joint);
    const double depth_m = pare_joint_depth_m(craft, joint).value;
    if (!pare_is_screw(joint->standard) || !(enters_m > SHORTEST_ENTERS_M) ||
        pare_joint_washers(craft, joint))
        return true;
    snprintf(name, 48, "screw_depth.%s", joint->name);
    if (depth_m > 0 && depth_m / enters_m < best_need(search, name) * BEST_SURELY)
        return best_refuse(by, name);
    snprintf(name, 48, "screw_grip.%s", joint->name);
    if (joint->into && enters_m / pare_joint_least_m(joint) < best_need(search, name) * BEST_SURELY)
        return best_refuse(by, name);
    return true;
}

bool best_screws_hold(const best_search *search, const pare_craft *lightest,
                      const pare_sheet *flown, const pare_joint *joint, char by[48])
{
    char name[64];
    pare_holding h;
    if (!is_of_length(search, lightest, joint, by))
        return false;
    if (pare_craft_holding(lightest, flown, joint, pare_brief_crash_m_s(&lightest->brief), &h,
                           NULL) != PARE_OK)
        return true; /* it has no margin: nothing is known to compare */
    const struct {
        const char *what;
        double ratio;
    } tests[] = {{"joint_flight.", pare_holding_ratio(&h, &h.flight)},
                 {"joint_crash.", pare_holding_ratio(&h, &h.crash)}};
    for (size_t i = 0; i < sizeof tests / sizeof tests[0]; i++) {
        snprintf(name, 48, "%s%s", tests[i].what, joint->name);
        if (isfinite(tests[i].ratio) && !(tests[i].ratio >= best_need(search, name) * BEST_NEARLY))
            return best_refuse(by, name);
    }
    return true;
}

/* What one ask of a joint's ways needs. */
typedef struct screws_ask {
    const best_search *search;
    const pare_craft *lightest;
    const pare_sheet *flown;
    char *by;
} screws_ask;

static bool holds(void *context, const pare_joint *joint)
{
    const screws_ask *of = context;
    return best_screws_hold(of->search, of->lightest, of->flown, joint, of->by);
}

bool best_screws_fail(const best_search *search, const best_state *state, const pare_sheet *probe,
                      pare_craft *lightest, char by[48])
{
    screws_ask asked = {search, lightest, probe, by};
    if (!state->tail_open)
        return false;
    best_lightest(search, state, lightest);
    for (size_t i = 0; i < state->trial.flown->joints; i++)
        if (best_joint_stands(search, state, i) &&
            !best_screws_hold(search, lightest, probe, &state->trial.flown->joint[i], by) &&
            best_joint_least_of(search, state->trial.flown, i, holds, &asked) == BEST_NO_BOUND)
            return true;
    return false;
}
