/* margin_power.c: what flying does to the motors and the pack (see margin_inside.h).
 *
 * Winding: the motor at hover speed with the rms current of the whole flight, held until its heat
 * settles. Pack: its own heat in a flight. Sag: a cell's volts at full throttle on a half empty pack
 * against the volts below which it is damaged. All three are figures of the flight, and uncertain as
 * those are; the rating on a pack's label enters nothing here. */
#include "craft/margin_inside.h"
#include "craft/warmth.h"

#define WINDING_DEGC 180.0 /* enamel of class H, IEC 60085; motors seldom state theirs */
#define WINDING_U    10.0
#define MELTED_DEGC  1000.0
#define PACK_DEGC    60.0 /* common practice, no source */
#define PACK_SHARE_U 0.10 /* of the rise: what a cell's heat capacity is known to */
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

static void pack_sag(pare_sheet *sheet)
{
    const pare_sheet_figure *cell = &sheet->figure[PARE_FULL_CELL_V];
    if (!cell->exists)
        return;
    const pare_bound b = {.value = cell->value,
                          .figures_u = cell->u,
                          .limit = pare_chemistry_cutoff_v(sheet->rig.pack.chemistry),
                          .limit_u = CUTOFF_U,
                          .at_least = true,
                          .unit = "V",
                          .from =
                              "a cell's least volts under load, at full throttle on a half pack",
                          .caution = "cells below their least volts are damaged, and may burn when "
                                     "charged"};
    pare_margin_add(sheet, &b, "pack.sag", NULL);
}

void pare_power_margins(pare_sheet *sheet)
{
    winding(sheet);
    pack_heat(sheet);
    pack_sag(sheet);
}
