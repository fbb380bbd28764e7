/* warmth.c: how warm a flight leaves the motors' windings and the pack (see warmth.h). */
#include "craft/warmth.h"

#include <math.h>

#include "craft/flight.h"

#define RPM_PER_RAD_S 9.549296585513721 /* 60 / 2 pi */
#define PACK_J_KG_K   1000.0 /* a lithium cell's heat capacity, 900 to 1100; from memory */

pare_status pare_winding_degc(const pare_rig *rig, double hover_rad_s, double motor_rms_a,
                              double *degc, pare_error *err)
{
    const double torque_nm = motor_rms_a * RPM_PER_RAD_S / rig->motor.kv_rpm_per_v;
    pare_motor_state state;
    const pare_status status =
        pare_motor_at(&rig->motor, rig->esc.on_ohm, hover_rad_s, torque_nm, 1, &state, err);
    if (status == PARE_OK)
        *degc = state.winding_degc;
    return status;
}

double pare_pack_begins_degc(const pare_rig *rig)
{
    return fmax(rig->pack.temperature_degc, rig->air.temperature_degc);
}

double pare_pack_warms_k(const pare_rig *rig, double mean_a, double rms_a, double charge_c)
{
    const double ohm = pare_pack_ohm(&rig->pack, PARE_CHARGE_HALF, 1) - rig->pack.lead_ohm;
    return rig->pack.mass_kg > 0
               ? rms_a * rms_a / mean_a * ohm * charge_c / (rig->pack.mass_kg * PACK_J_KG_K)
               : 0;
}
