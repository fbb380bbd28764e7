/* margin_joint.c: whether the screws hold (see margin_inside.h and holding.h). */
#include "craft/margin_inside.h"

#include <math.h>

#include "craft/flight.h"
#include "craft/holding.h"

#define SCREW_SHARE_U 0.05
#define CRASH_SHARE_U 0.4 /* of the crash's load: stopping distance and who takes it are guesses */

/* The share of what a screw bears that a load uses, in per cent. */
static void put(pare_sheet *sheet, const pare_holding *h, const pare_screw_load *load,
                double load_share_u, double own_share, const char *first, const char *name,
                const char *from, const char *caution)
{
    const double ratio = pare_holding_ratio(h, load);
    if (!isfinite(ratio))
        return;
    const pare_bound b = {.value = 100 / ratio,
                          .figures_u = 100 / ratio * load_share_u,
                          .own_share = own_share,
                          .limit = 100,
                          .unit = "%",
                          .from = from,
                          .caution = caution};
    pare_margin_add(sheet, &b, first, name);
}

/* The pull goes with thrust, the shear with the motor's torque, and they add by squares. */
static double flight_share_u(const pare_sheet *sheet, const pare_holding *h)
{
    const double pull = h->flight.pull_n / h->breaks_n, shear = h->flight.shear_n / h->shears_n;
    const double squares = pull * pull + shear * shear;
    if (!(squares > 0))
        return 0;
    return pare_together_share_u(sheet, PARE_TOGETHER_THRUST, pull * pull / squares,
                                 shear * shear / squares);
}

void pare_joint_margins(const pare_craft *craft, pare_sheet *sheet)
{
    const double speed_m_s = pare_brief_crash_m_s(&craft->brief);
    for (size_t i = 0; i < craft->joints; i++) {
        const pare_joint *joint = &craft->joint[i];
        pare_holding h;
        if (pare_craft_holding(craft, sheet, joint, speed_m_s, &h, NULL) != PARE_OK)
            continue;
        put(sheet, &h, &h.flight, flight_share_u(sheet, &h), SCREW_SHARE_U, "joint_flight",
            joint->name, "the screws' strength, by thrust and torque at full throttle", NULL);
        put(sheet, &h, &h.crash, 0, hypot(CRASH_SHARE_U, SCREW_SHARE_U), "joint_crash", joint->name,
            "the screws' strength, in the brief's crash stopped in 30 mm: an estimate, best read "
            "as a "
            "ratio",
            h.holds == PARE_HOLDS_MOTOR || h.holds == PARE_HOLDS_ARM
                ? "look for bent or loose screws after every crash, with the pack off"
                : NULL);
    }
}
