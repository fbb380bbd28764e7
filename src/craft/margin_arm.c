/* margin_arm.c: whether the arms ring with the rotors, bend or break under them (see margin_inside.h).
 *
 * A carbon plate's modulus along the arm is known to a quarter of itself unless its frame states it, so
 * its frequency is a band. The rotor drives it once a turn; where the speed at hover or at the cruise of
 * the brief falls in the band, widened by a tenth, the arm may ring. The margin is how far the speed
 * is from the nearer edge. Torsion and the blades' passing are on the sheet beside these and no margins:
 * their bands are so wide that most craft hover in one. Stress and deflection are those of one rotor at
 * full throttle. Only frames that state their arms have any. */
#include "craft/margin_inside.h"

#include <math.h>

#include "craft/arm_facts.h"

#define PI            3.14159265358979323846
#define WIDENED       0.10
#define BENDS_SHARE   0.02 /* of its length: the motor tilts by 1.7 degrees; estimate */
#define BENDS_SHARE_U 0.005

void pare_arm_ring_band(const pare_arm_facts *arm, double *low_hz, double *high_hz)
{
    *low_hz = arm->low_hz * (1 - WIDENED);
    *high_hz = arm->high_hz * (1 + WIDENED);
}

static void ringing(const pare_arm_facts *arm, pare_figure speed, const char *name,
                    const char *from, pare_sheet *sheet)
{
    if (!sheet->figure[speed].exists)
        return;
    const double turn_hz = sheet->figure[speed].value / (2 * PI);
    double low, high;
    pare_arm_ring_band(arm, &low, &high);
    const bool above = turn_hz > sqrt(low * high);
    const pare_bound b = {.value = turn_hz,
                          .figures_u = turn_hz * pare_figure_share_u(sheet, speed),
                          .limit = above ? ceil(high) : floor(low),
                          .at_least = above,
                          .unit = "Hz",
                          .from = from,
                          .caution = "an arm that rings with its rotor shakes the gyro: listen and "
                                     "look at its log"};
    pare_margin_add(sheet, &b, "arm", name);
}

static void loaded(const pare_arm_facts *arm, pare_sheet *sheet)
{
    const pare_sheet_figure *thrust = &sheet->figure[PARE_THRUST_FRESH];
    if (!thrust->exists)
        return;
    const double one_n = thrust->value / sheet->rig.rotors / (1 - sheet->rig.blockage);
    const double thrust_share_u = pare_figure_share_u(sheet, PARE_THRUST_FRESH);
    const double stress_mpa = 1e-6 * one_n * arm->figures.pa_per_n;
    const double limit_mpa = 1e-6 * arm->arm.strength_pa;
    const pare_bound stress = {.value = stress_mpa,
                               .figures_u = stress_mpa * thrust_share_u,
                               .limit = limit_mpa,
                               .limit_u = limit_mpa * arm->strength_share_u,
                               .unit = "MPa",
                               .from = "the arm's material in bending, carbon plate at its low "
                                       "end, at full throttle"};
    pare_margin_add(sheet, &stress, "arm.stress", NULL);
    const double bends_mm = 1e3 * one_n * arm->most_m_per_n;
    const double length_mm = 1e3 * arm->arm.length_m;
    const pare_bound bends = {.value = bends_mm,
                              .figures_u = bends_mm * thrust_share_u,
                              .own_share = arm->m_per_n_share_u,
                              .limit = floor(10 * BENDS_SHARE * length_mm) / 10,
                              .limit_u = BENDS_SHARE_U * length_mm,
                              .unit = "mm",
                              .from = "an estimate: past 2 % of an arm's length its motor tilts by "
                                      "2 degrees, at full throttle and the least stiff cloth"};
    pare_margin_add(sheet, &bends, "arm.bends", NULL);
}

void pare_arm_margins(const pare_craft *craft, pare_sheet *sheet)
{
    pare_arm_facts arm;
    if (!pare_craft_arm_facts(craft, sheet, &arm))
        return;
    ringing(&arm, PARE_HOVER_RPM, "ring",
            "the arm's first bending frequency, its band widened by 10 %, against one turn of a "
            "rotor in hover",
            sheet);
    ringing(&arm, PARE_CRUISE_RPM, "ring_cruise",
            "the arm's first bending frequency, likewise, against one turn of a rotor at the speed "
            "flown at for the longest",
            sheet);
    loaded(&arm, sheet);
}
