/* margin_arm.c: whether the arms ring with the rotors or break under them (see margin_inside.h).
 *
 * A carbon plate's modulus along the arm is known to a quarter of itself unless its frame states it, so
 * its frequency is a band. The rotor drives it once a turn; where the hover speed falls in the band,
 * widened by a tenth, the arm may ring. The margin is how far the speed is from the nearer edge. Root
 * stress is that of one rotor at full throttle. Only frames that state their arms have either. */
#include "craft/margin_inside.h"

#include <math.h>

#include "physics/arm.h"

#define PI             3.14159265358979323846
#define BAND_LEAST     0.79 /* of the middle modulus: 45 of 57 GPa, common practice, no source */
#define BAND_MOST      1.23 /* 70 of 57 GPa */
#define STATED_SHARE   0.10 /* of a stated modulus, either way */
#define WIDENED        0.10
#define STRENGTH_PA    400e6 /* the low end of carbon plate, 400 to 700 MPa */
#define STRENGTH_SHARE 0.15

static double tip_kg(const pare_craft *craft)
{
    double sum_kg = 0;
    static const pare_kind at_tip[] = {PARE_MOTOR, PARE_PROPELLER};
    for (size_t i = 0; i < sizeof at_tip / sizeof at_tip[0]; i++) {
        const int item = pare_craft_doing(craft, at_tip[i]);
        if (item >= 0)
            sum_kg += craft->item[item].part->mass_kg.value;
    }
    return sum_kg;
}

static bool arm_of(const pare_craft *craft, const pare_sheet *sheet, pare_arm *arm,
                   bool *modulus_stated)
{
    const pare_piece *piece = pare_craft_arm_piece(craft);
    if (!piece || sheet->assembly.arms == 0 || !(piece->section_m[0] > 0))
        return false;
    *arm = pare_arm_defaults();
    *modulus_stated = piece->flexural_pa > 0;
    if (*modulus_stated)
        arm->flexural_pa = piece->flexural_pa;
    arm->width_m = piece->section_m[0];
    arm->thickness_m = piece->section_m[1];
    arm->length_m = hypot(piece->at_m[0].x, piece->at_m[0].y) - piece->root_m;
    arm->tip_kg = tip_kg(craft);
    return true;
}

static void ringing(const pare_arm_figures *arm, bool stated, pare_sheet *sheet)
{
    const pare_sheet_figure *hover = &sheet->figure[PARE_HOVER_RPM];
    if (!hover->exists)
        return;
    const double turn_hz = hover->value / (2 * PI);
    const double low =
        arm->bending_hz * (1 - WIDENED) * sqrt(stated ? 1 - STATED_SHARE : BAND_LEAST);
    const double high =
        arm->bending_hz * (1 + WIDENED) * sqrt(stated ? 1 + STATED_SHARE : BAND_MOST);
    const bool above = turn_hz > sqrt(low * high);
    const pare_bound b = {
        .value = turn_hz,
        .figures_u = turn_hz * pare_figure_share_u(sheet, PARE_HOVER_RPM),
        .limit = above ? ceil(high) : floor(low),
        .at_least = above,
        .unit = "Hz",
        .from = "the arm's first bending frequency, its band widened by 10 %, against "
                "one turn of a rotor in hover",
        .caution = "an arm that rings with its rotor shakes the gyro: listen and "
                   "look at its log"};
    pare_margin_add(sheet, &b, "arm.ring", NULL);
}

static void stress(const pare_arm_figures *arm, pare_sheet *sheet)
{
    const pare_sheet_figure *thrust = &sheet->figure[PARE_THRUST_FRESH];
    if (!thrust->exists)
        return;
    const double one_n = thrust->value / sheet->rig.rotors / (1 - sheet->rig.blockage);
    const double stress_mpa = 1e-6 * one_n * arm->pa_per_n;
    const pare_bound b = {.value = stress_mpa,
                          .figures_u = stress_mpa * pare_figure_share_u(sheet, PARE_THRUST_FRESH),
                          .limit = 1e-6 * STRENGTH_PA,
                          .limit_u = 1e-6 * STRENGTH_PA * STRENGTH_SHARE,
                          .unit = "MPa",
                          .from = "the low end of carbon plate in bending, at full throttle"};
    pare_margin_add(sheet, &b, "arm.stress", NULL);
}

void pare_arm_margins(const pare_craft *craft, pare_sheet *sheet)
{
    pare_arm arm;
    pare_arm_figures figures;
    bool stated = false;
    if (!arm_of(craft, sheet, &arm, &stated) || pare_arm_work_out(&arm, &figures, NULL) != PARE_OK)
        return;
    ringing(&figures, stated, sheet);
    stress(&figures, sheet);
}
