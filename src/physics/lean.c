/* lean.c: a craft leaning into its flight (see lean.h).
 *
 * The tilt is known by its tangent, since that spares every step its sine and cosine. Slopes are the
 * chain rule on those of pare_rotor_through(): tilt and flight speed reach the rotor through the flow
 * across the disc alone, because the flow along it is what the inflow's equation compares. */
#include "physics/lean.h"

#include <math.h>

#define TURN        6.28318530717958648
#define PITCH_NODE  10 /* at about three quarters of the radius */
#define PITCH_SHARE 0.75
#define LEAST_MOST  0.1

static void chain(const pare_lean *lean, double scale, const pare_slopes *of, double rotor_share,
                  pare_lean_slopes out)
{
    out[PARE_LEAN_TILT] = scale * of->inplane * lean->speed_m_s * lean->cosine_rise;
    out[PARE_LEAN_ROTOR] = scale * of->speed / rotor_share;
    out[PARE_LEAN_INFLOW] = scale * of->advance;
    out[PARE_LEAN_SPEED] = scale * of->inplane * lean->cosine * lean->speed_scale_m_s;
}

void pare_lean_at(pare_lean *lean, double speed_m_s, const double x[])
{
    const pare_flight *flight = lean->flight;
    const pare_rig *rig = flight->rig;
    const double tangent = x[PARE_LEAN_TILT], share = x[PARE_LEAN_ROTOR];
    const double cosine = 1 / sqrt(1 + tangent * tangent), sine = tangent * cosine;
    lean->speed_m_s = speed_m_s;
    lean->sine = sine;
    lean->cosine = cosine;
    lean->sine_rise = cosine * cosine * cosine;
    lean->cosine_rise = -sine * cosine * cosine;
    pare_through through;
    pare_rotor_through(&rig->rotor, &rig->air, share * lean->rotor_scale_rad_s, x[PARE_LEAN_INFLOW],
                       speed_m_s * cosine, &through);
    lean->rotor = through.rotor;
    lean->axial_m_s = through.axial_m_s;
    lean->thrust_n = flight->lift_share * through.rotor.thrust_n;
    lean->inplane_n = flight->rotors * through.rotor.drag_n;
    chain(lean, flight->lift_share, &through.thrust_n, share, lean->thrust);
    chain(lean, flight->rotors, &through.drag_n, share, lean->inplane);
    chain(lean, 1, &through.torque_nm, share, lean->torque);
    chain(lean, 1, &through.axial, share, lean->axial);
    const double half_rho_v = 0.5 * rig->air.density_kg_m3 * speed_m_s;
    const double area_m2 = pare_drag_area(rig, sine);
    lean->drag_n = half_rho_v * speed_m_s * area_m2;
    lean->drag[PARE_LEAN_TILT] =
        half_rho_v * speed_m_s * (rig->drag_top_m2 - rig->drag_m2) * 2 * sine * lean->sine_rise;
    lean->drag[PARE_LEAN_ROTOR] = lean->drag[PARE_LEAN_INFLOW] = 0;
    lean->drag[PARE_LEAN_SPEED] = 2 * half_rho_v * area_m2 * lean->speed_scale_m_s;
}

double pare_lean_start_inflow(const pare_lean *lean, double axial_m_s)
{
    const pare_prop *prop = lean->flight->rig->rotor.prop;
    const double advance = TURN * axial_m_s / (lean->rotor_scale_rad_s * prop->diameter_m);
    const double pitch = 0.5 * TURN * prop->radius[PITCH_NODE] * tan(prop->twist[PITCH_NODE]);
    const double most = fmax(PITCH_SHARE * pitch, LEAST_MOST);
    return advance < most ? advance : most;
}

double pare_lean_inflow_left(const pare_lean *lean, double slope[])
{
    const double over = 1 / lean->induced_m_s;
    for (int i = 0; i < PARE_JOINT_MOST; i++)
        slope[i] = over * lean->axial[i];
    slope[PARE_LEAN_TILT] -= over * lean->speed_m_s * lean->sine_rise;
    slope[PARE_LEAN_SPEED] -= over * lean->sine * lean->speed_scale_m_s;
    return over * (lean->axial_m_s - lean->speed_m_s * lean->sine);
}
