/* budget.c: the power of a steady state, taken apart (see budget.h).
 *
 * From the shaft down it is the rotor model's own energy balance. Shaft power is profile power plus
 * thrust times the whole inflow, and in level flight thrust times the axial flow pays the body's drag
 * and the discs' own. So n T v and D v are found by themselves and the rest is profile: no share is
 * found as a share of another, and their sum is the shaft's.
 *
 * From the shaft up each loss is what its own equation says: windings I^2 R, the unloaded current's
 * torque times speed, what the ESCs pass on less than they take, both parts of the pack's resistance.
 * That these add up to what the pack's chemistry gives is then a check of all of them. */
#include "physics/budget.h"

#include <math.h>

#include "physics/operate.h"

static double disc_m2(const pare_rig *rig)
{
    const double diameter_m = rig->rotor.prop->diameter_m;
    return atan(1) * diameter_m * diameter_m;
}

/* Ideal induced velocity at a rotor's thrust and flow. */
static double induced_m_s(const pare_rig *rig, double thrust_n, double axial_m_s,
                          double inplane_m_s)
{
    const double hover_m_s = sqrt(thrust_n / (2 * rig->air.density_kg_m3 * disc_m2(rig)));
    return hover_m_s * pare_rotor_induced(axial_m_s / hover_m_s, inplane_m_s / hover_m_s);
}

pare_status pare_rig_budget(const pare_rig *rig, double speed_m_s, double charge,
                            pare_budget *budget, pare_error *err)
{
    pare_operating point;
    pare_flight flight;
    const pare_status status = speed_m_s == 0 ? pare_rig_thrust(rig, 1, charge, &point, err)
                                              : pare_rig_level(rig, speed_m_s, charge, &point, err);
    if (status != PARE_OK || pare_flight_begin(rig, &flight, err) != PARE_OK)
        return PARE_BAD_DATA;
    const pare_rotor_state *rotor = &point.rotor;
    const pare_motor_state *motor = &point.motor;
    const double n = rig->rotors, motor_a = motor->current_a;
    const double shaft_w = n * rotor->torque_nm * rotor->speed_rad_s;
    const double induced = induced_m_s(rig, rotor->thrust_n, speed_m_s * sin(point.tilt_rad),
                                       speed_m_s * cos(point.tilt_rad));
    pare_budget b = {.induced_w = n * rotor->thrust_n * induced,
                     .drag_w = point.drag_n * speed_m_s,
                     .copper_w = n * motor_a * motor_a * motor->resistance_ohm,
                     .electronics_w = rig->always_w,
                     .output = point.duty,
                     .download_n = n * rotor->thrust_n * rig->blockage};
    b.profile_w = shaft_w - b.induced_w - b.drag_w;
    b.iron_w = n * flight.steady.ke_v_s * rotor->speed_rad_s *
               pare_motor_loss_a(&flight.steady, rotor->speed_rad_s);
    /* The motor's volts are taken at the ESC's rails, so they hold the drop in its switches. */
    const pare_draw draw = pare_draw_of(&flight, motor->volts_v, motor_a);
    const double into_motors_w = n * (motor->volts_v - motor_a * rig->esc.on_ohm) * motor_a;
    b.esc_w = draw.always_a * point.pack_v + draw.through_w - rig->always_w - into_motors_w;
    const double square_a2 = point.pack_a * point.pack_a;
    const pare_source source = pare_source_at(&flight, charge, 1);
    b.lead_w = square_a2 * rig->pack.lead_ohm;
    b.pack_w = square_a2 * (source.ohm - rig->pack.lead_ohm);
    b.open_w = source.open_v * point.pack_a;
    *budget = b;
    return PARE_OK;
}
