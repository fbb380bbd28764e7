/* margin_power.c: what flying does to the motors and the pack (see margin_inside.h).
 *
 * Winding: the motor at hover speed with the rms current of the whole flight, held until its heat
 * settles; a burst then leaves its heat in the copper and the stator that it is wound on, as the bell and
 * the arm are slow to take it. Pack: its own heat in a flight. A cell's volts at full throttle on a half
 * empty pack, and in the hardest of the flight as it lands, against the volts below which it is damaged.
 * All are figures of the flight or follow from them, and uncertain as those are; the rating on a pack's
 * label enters nothing here. */
#include "craft/margin_inside.h"

#include <math.h>

#include "craft/warmth.h"

#define WINDING_DEGC 180.0 /* enamel of class H, IEC 60085; motors seldom state theirs */
#define WINDING_U    10.0
#define MELTED_DEGC  1000.0
#define WOUND_SHARE  0.4     /* of a motor's mass: copper and stator; from memory */
#define WOUND_J_KG_K 420.0   /* between copper and iron */
#define WOUND_U      0.25    /* of what a burst adds */
#define COPPER_PER_K 0.00393 /* at 20 degC, IEC 60028 */
#define PACK_DEGC    60.0    /* common practice, no source */
#define PACK_SHARE_U 0.10    /* of the rise: what a cell's heat capacity is known to */
#define CUTOFF_U     0.05

/* A motor that cannot carry the current at all is as good as molten. */
static void winding(pare_sheet *sheet)
{
    const pare_sheet_figure *degc = &sheet->figure[PARE_WINDING];
    if (!sheet->figure[PARE_FLOWN_MOTOR_A].exists)
        return;
    const pare_bound b = {.value = degc->exists ? degc->value : MELTED_DEGC,
                          .figures_u = degc->u,
                          .limit = WINDING_DEGC,
                          .limit_u = WINDING_U,
                          .from_zero = sheet->rig.air.temperature_degc,
                          .unit = "C",
                          .from = "enamel of class H (IEC 60085), at the rms as flown without end; "
                                  "the motor's cooling is an estimate",
                          .caution = "a motor too hot to hold loses its magnets' strength"};
    pare_margin_add(sheet, &b, "motor.winding", NULL);
}

/* In closed form: the resistance grows with the copper's own heat. Winding and mass are the part's, and
 * their doubt the law's own. */
static void winding_burst(const pare_craft *craft, pare_sheet *sheet)
{
    const int item = pare_craft_doing(craft, PARE_MOTOR);
    const pare_sheet_figure *full = &sheet->figure[PARE_MOTOR_FULL_A];
    const pare_sheet_figure *flown = &sheet->figure[PARE_WINDING];
    const double air = sheet->rig.air.temperature_degc;
    if (item < 0 || !full->exists || !flown->exists)
        return;
    const pare_part *motor = craft->item[item].part;
    const pare_value *winding = &motor->spec[PARE_SPEC_RESISTANCE];
    const double speed_k_s = full->value * full->value * winding->value /
                             (WOUND_SHARE * motor->mass_kg.value * WOUND_J_KG_K);
    const double warms = expm1(COPPER_PER_K * speed_k_s * PARE_BURST_S);
    const double more = (1 / COPPER_PER_K + flown->value - 20) * warms;
    const double degc = fmin(flown->value + more, MELTED_DEGC);
    /* More by a share more of what makes the heat: the current counts twice. */
    const double by_heat_k =
        PARE_BURST_S * speed_k_s * (1 + COPPER_PER_K * (flown->value + more - 20));
    const pare_bound b = {
        .value = degc,
        .figures_u = hypot((1 + warms) * flown->u,
                           2 * by_heat_k * pare_figure_share_u(sheet, PARE_MOTOR_FULL_A)),
        .own_share = by_heat_k * hypot(WOUND_U, winding->u / winding->value) / (degc - air),
        .limit = WINDING_DEGC,
        .limit_u = WINDING_U,
        .from_zero = air,
        .unit = "C",
        .from = "enamel of class H (IEC 60085), after 3 s of full throttle with its heat kept in "
                "winding and stator; how much of these there is is an estimate"};
    pare_margin_add(sheet, &b, "motor.winding_burst", NULL);
}

static void pack_heat(pare_sheet *sheet)
{
    const pare_sheet_figure *degc = &sheet->figure[PARE_PACK_WARMTH];
    if (!degc->exists || !(sheet->rig.pack.mass_kg > 0))
        return;
    const pare_bound b = {.value = degc->value,
                          .figures_u = degc->u,
                          .own_share = PACK_SHARE_U,
                          .limit = PACK_DEGC,
                          .from_zero = pare_pack_begins_degc(&sheet->rig),
                          .unit = "C",
                          .from = "common practice, with the heat of a whole flight kept inside",
                          .caution =
                              "a pack over 60 degC ages fast and may swell: let it cool before "
                              "charging, on something that does not burn"};
    pare_margin_add(sheet, &b, "pack.heat", NULL);
}

static void cell_volts(pare_figure figure, const char *name, const char *from, pare_sheet *sheet)
{
    const pare_sheet_figure *cell = &sheet->figure[figure];
    if (!cell->exists)
        return;
    const pare_bound b = {.value = cell->value,
                          .figures_u = cell->u,
                          .limit = pare_chemistry_cutoff_v(sheet->rig.pack.chemistry),
                          .limit_u = CUTOFF_U,
                          .at_least = true,
                          .unit = "V",
                          .from = from,
                          .caution = "cells below their least volts are damaged, and may burn when "
                                     "charged"};
    pare_margin_add(sheet, &b, name, NULL);
}

void pare_power_margins(const pare_craft *craft, pare_sheet *sheet)
{
    winding(sheet);
    winding_burst(craft, sheet);
    pack_heat(sheet);
    cell_volts(PARE_FULL_CELL_V, "pack.sag",
               "a cell's least volts under load, at full throttle on a half pack", sheet);
    cell_volts(PARE_LANDING_CELL_V, "pack.landing",
               "a cell's least volts under load, in the hardest of the flight as it lands", sheet);
}
