/* linger.c: a craft that is left to itself: at idle, and in a gust (see aloft.h).
 *
 * Both grow as a craft gets lighter, which is what lighter costs: an ESC idles at a share of the pack's
 * volts whatever it lifts, and the wind's push does not shrink with the mass. */
#include <math.h>

#include "physics/aloft.h"

enum { STEPS = 4 };

pare_status pare_flight_idle(pare_flight *flight, double output, double charge, double *weights,
                             pare_error *err)
{
    pare_rotor_state hover;
    if (!(output > 0 && output <= 1))
        return pare_fail(err, PARE_BAD_DATA, "an output of %g: more than 0, to 1, would be right",
                         output);
    if (pare_charge_check(charge, err) != PARE_OK || pare_hover(flight, &hover, err) != PARE_OK)
        return PARE_BAD_DATA;
    const pare_motor_law *law = &flight->burst;
    const double volts = output * pare_source_at(flight, charge, 0).open_v;
    /* Nearly all of it is the motor's own voltage: what resistance takes is put back in a few steps. */
    double speed = volts / law->ke_v_s;
    for (int i = 0; i < STEPS; i++) {
        const double share = speed / hover.speed_rad_s;
        double current, needed_v, ohm;
        pare_motor_run(law, speed, hover.torque_nm * share * share, &current, &needed_v, &ohm);
        const double slope = law->ke_v_s + (ohm + law->on_ohm) * 2 * hover.torque_nm * share /
                                               (hover.speed_rad_s * law->ke_v_s);
        speed = fmax(speed - (needed_v - volts) / slope, 0);
    }
    *weights = (speed / hover.speed_rad_s) * (speed / hover.speed_rad_s);
    return PARE_OK;
}

pare_status pare_flight_gust(pare_flight *flight, double wind_m_s, double *pushed_m_s2,
                             pare_error *err)
{
    const pare_rig *rig = flight->rig;
    pare_rotor_state hover, blown;
    if (!(wind_m_s >= 0 && wind_m_s <= PARE_SPEED_MOST))
        return pare_fail(err, PARE_BAD_DATA, "a wind of %g m/s: 0 to %d m/s would be right",
                         wind_m_s, PARE_SPEED_MOST);
    if (pare_hover(flight, &hover, err) != PARE_OK ||
        pare_rotor_for_thrust(&rig->rotor, &rig->air, hover.thrust_n, 0, wind_m_s,
                              hover.speed_rad_s, &blown, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double body_n = 0.5 * rig->air.density_kg_m3 * wind_m_s * wind_m_s * rig->drag_m2;
    *pushed_m_s2 = (body_n + rig->rotors * blown.drag_n) / rig->mass_kg;
    return PARE_OK;
}
