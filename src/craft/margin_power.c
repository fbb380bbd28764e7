/* margin_power.c: what flying does to the motors and the pack (see margin_inside.h).
 *
 * Winding: the motor at hover speed with the rms current of the whole flight, held until its heat
 * settles. Pack: all of its inner heat stays inside for the minutes of a flight, since cells are wrapped
 * and a flight is short against their cooling; that is an upper bound, and little above the truth.
 * Sag: a cell's volts at full throttle on a half empty pack against the volts below which it is
 * damaged. The rating on a pack's label enters nothing here. */
#include "craft/margin_inside.h"

#include <math.h>

#include "craft/flight.h"

#define WINDING_DEGC 180.0 /* enamel of class H, IEC 60085; motors seldom state theirs */
#define WINDING_U    10.0
#define HEAT_SHARE_U 0.30   /* of the rise: a motor's thermal resistance is an estimate */
#define PACK_DEGC    60.0   /* common practice, no source */
#define PACK_J_KG_K  1000.0 /* a lithium cell's heat capacity, 900 to 1100; from memory */
#define PACK_SHARE_U 0.10
#define CUTOFF_U     0.05

static void winding(double motor_rms_a, pare_sheet *sheet)
{
    const pare_rig *rig = &sheet->rig;
    const pare_sheet_figure *rpm = &sheet->figure[PARE_HOVER_RPM];
    if (!rpm->exists || !(motor_rms_a > 0))
        return;
    pare_motor_state state;
    const double torque_nm =
        motor_rms_a * 60 / (2 * 3.14159265358979323846 * rig->motor.kv_rpm_per_v);
    double degc = 1000;
    if (pare_motor_at(&rig->motor, rig->esc.on_ohm, rpm->value, torque_nm, 1, &state, NULL) ==
        PARE_OK)
        degc = state.winding_degc;
    const double rise = degc - rig->air.temperature_degc;
    const double share_u = hypot(HEAT_SHARE_U, 2 * pare_figure_share_u(sheet, PARE_FLOWN_RMS_A));
    const pare_bound b = {.value = degc,
                          .value_u = share_u * rise,
                          .limit = WINDING_DEGC,
                          .limit_u = WINDING_U,
                          .from_zero = rig->air.temperature_degc,
                          .unit = "C",
                          .from = "enamel of class H (IEC 60085), at the rms as flown without end; "
                                  "the motor's cooling is an estimate",
                          .caution = "a motor too hot to hold loses its magnets' strength"};
    pare_margin_add(sheet, &b, "motor.winding", NULL);
}

static void pack_heat(pare_sheet *sheet)
{
    const pare_rig *rig = &sheet->rig;
    const pare_sheet_figure *rms = &sheet->figure[PARE_FLOWN_RMS_A];
    const pare_sheet_figure *time = &sheet->figure[PARE_FLOWN_TIME];
    if (!rms->exists || !time->exists || !(rig->pack.mass_kg > 0))
        return;
    const double ohm = pare_pack_ohm(&rig->pack, PARE_CHARGE_HALF, 1) - rig->pack.lead_ohm;
    const double rise =
        rms->value * rms->value * ohm * time->value / (rig->pack.mass_kg * PACK_J_KG_K);
    const double begins = fmax(rig->pack.temperature_degc, rig->air.temperature_degc);
    const pare_bound b = {
        .value = begins + rise,
        .value_u = rise * hypot(PACK_SHARE_U, pare_figure_share_u(sheet, PARE_FLOWN_RMS_A)),
        .limit = PACK_DEGC,
        .from_zero = begins,
        .unit = "C",
        .from = "common practice, with the heat of a whole flight kept inside",
        .caution = "a pack over 60 degC ages fast and may swell: let it cool before "
                   "charging, on something that does not burn"};
    pare_margin_add(sheet, &b, "pack.heat", NULL);
}

static void pack_sag(pare_sheet *sheet)
{
    const pare_rig *rig = &sheet->rig;
    pare_operating full;
    if (pare_rig_full(rig, PARE_CHARGE_HALF, 0.3, 0, 0, 0, &full, NULL) != PARE_OK)
        return;
    const double open_v = pare_pack_open_v(&rig->pack, PARE_CHARGE_HALF);
    const double cell_v = full.pack_v / rig->pack.cells;
    const double sag_v = (open_v - full.pack_v) / rig->pack.cells;
    const pare_bound b = {.value = cell_v,
                          .value_u = sag_v * pare_figure_share_u(sheet, PARE_FULL_A),
                          .limit = pare_chemistry_cutoff_v(rig->pack.chemistry),
                          .limit_u = CUTOFF_U,
                          .at_least = true,
                          .unit = "V",
                          .from =
                              "a cell's least volts under load, at full throttle on a half pack",
                          .caution = "cells below their least volts are damaged, and may burn when "
                                     "charged"};
    pare_margin_add(sheet, &b, "pack.sag", NULL);
}

void pare_power_margins(double motor_rms_a, pare_sheet *sheet)
{
    winding(motor_rms_a, sheet);
    pack_heat(sheet);
    pack_sag(sheet);
}
