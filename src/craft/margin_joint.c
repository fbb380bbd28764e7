/* margin_joint.c: whether the screws hold, and whether they are of the right length (see
 * margin_inside.h and holding.h).
 *
 * A screw that is too long touches the winding, one that is too short strips: both ends of its length
 * are margins, so that another arm under the same screws shows at once. */
#include "craft/margin_inside.h"

#include <math.h>

#include "craft/flight.h"
#include "craft/holding.h"

#define SCREW_SHARE_U 0.05
#define CRASH_SHARE_U 0.4 /* of the crash's load: stopping distance and who takes it are guesses */
#define ENTERS_U_MM   0.18
#define LEAST_MM      1e-3 /* of a screw that does not come through */

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

/* From winding and thread. Standard lengths are a quarter of a millimetre off at most (ISO 4759-1,
 * js15), plates a tenth. */
static void put_length(const pare_craft *craft, pare_sheet *sheet, const pare_joint *joint)
{
    const double enters_m = pare_joint_enters_m(craft, joint);
    if (!pare_is_screw(joint->standard) || isnan(enters_m))
        return;
    const double enters_mm = fmax(1e3 * enters_m, LEAST_MM);
    const pare_value depth_m = pare_joint_depth_m(craft, joint);
    if (depth_m.value > 0) {
        const pare_bound b = {
            .value = enters_mm,
            .own_share = ENTERS_U_MM / enters_mm,
            .limit = 1e3 * depth_m.value,
            .limit_u = 1e3 * depth_m.u,
            .unit = "mm",
            .from = depth_m.given
                        ? "the motor's screw depth, stated by the maker, against what "
                          "reaches beyond arm and washer"
                        : "the motor's screw depth, estimated from its stator: measure it",
            .caution = "too long a screw touches the winding: a short, and often a dead ESC"};
        pare_margin_add(sheet, &b, "screw_depth", joint->name);
    }
    if (!joint->into)
        return;
    const pare_bound b = {.value = enters_mm,
                          .own_share = ENTERS_U_MM / enters_mm,
                          .limit = 1e3 * pare_joint_least_m(joint),
                          .at_least = true,
                          .unit = "mm",
                          .from = "a thread as deep as a full nut, 0.8 of its diameter (ISO 898-2)",
                          .caution = "too short a screw pulls its thread out"};
    pare_margin_add(sheet, &b, "screw_grip", joint->name);
}

void pare_joint_margins(const pare_craft *craft, pare_sheet *sheet)
{
    const double speed_m_s = pare_brief_crash_m_s(&craft->brief);
    for (size_t i = 0; i < craft->joints; i++) {
        const pare_joint *joint = &craft->joint[i];
        pare_holding h;
        put_length(craft, sheet, joint);
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
