/* margin_joint.c: whether the screws hold (see margin_inside.h and holding.h). */
#include "craft/margin_inside.h"

#include <math.h>

#include "craft/flight.h"
#include "craft/holding.h"

#define CRASH_SHARE_U 0.4 /* of the crash's load: stopping distance and who takes it are guesses */
#define SCREW_SHARE_U 0.05

/* The share of what a screw bears that a load uses, in per cent. */
static void put(pare_sheet *sheet, const pare_holding *h, const pare_screw_load *load,
                double load_share_u, const char *first, const char *name, const char *from,
                const char *caution)
{
    const double ratio = pare_holding_ratio(h, load);
    if (!isfinite(ratio))
        return;
    const pare_bound b = {.value = 100 / ratio,
                          .value_u = 100 / ratio * hypot(load_share_u, SCREW_SHARE_U),
                          .limit = 100,
                          .unit = "%",
                          .from = from,
                          .caution = caution};
    pare_margin_add(sheet, &b, first, name);
}

void pare_joint_margins(const pare_craft *craft, pare_sheet *sheet)
{
    const double speed_m_s = pare_brief_crash_m_s(&craft->brief);
    for (size_t i = 0; i < craft->joints; i++) {
        const pare_joint *joint = &craft->joint[i];
        pare_holding h;
        if (pare_craft_holding(craft, sheet, joint, speed_m_s, &h, NULL) != PARE_OK)
            continue;
        put(sheet, &h, &h.flight, pare_figure_share_u(sheet, PARE_THRUST_FRESH), "joint_flight",
            joint->name, "the screws' strength, by thrust and torque at full throttle", NULL);
        put(sheet, &h, &h.crash, CRASH_SHARE_U, "joint_crash", joint->name,
            "the screws' strength, in the brief's crash stopped in 30 mm: an estimate, best read "
            "as a "
            "ratio",
            h.holds == PARE_HOLDS_MOTOR || h.holds == PARE_HOLDS_ARM
                ? "look for bent or loose screws after every crash, with the pack off"
                : NULL);
    }
}
