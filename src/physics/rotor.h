/* rotor.h: a turning propeller in any flow: along its axis, inclined, edgewise. */
#ifndef PARE_PHYSICS_ROTOR_H
#define PARE_PHYSICS_ROTOR_H

#include "physics/prop.h"

/** Where thrust and torque come from. thrust_factor and power_factor scale the model (1 unless
 * learned from flights, or shifted to propagate the model's own error). */
typedef struct pare_rotor {
    const pare_prop *prop;
    const pare_prop_table *table; /* NULL: evaluate the blade elements directly */
    double thrust_factor, power_factor;
} pare_rotor;

typedef struct pare_rotor_state {
    double speed_rad_s;
    double thrust_n;
    double torque_nm;
    double drag_n; /* H, in the disc's plane, against the flow */
} pare_rotor_state;

/** Thrust, torque and in-plane drag at a rotor speed.
 *
 * @param axial_m_s    flow through the disc, positive in climb
 * @param inplane_m_s  flow across it, 0 or more; beyond mu = 0.5 the mu^2 terms are held
 * speed_rad_s <= 0 gives zeros. */
void pare_rotor_at(const pare_rotor *rotor, const pare_air *air, double speed_rad_s,
                   double axial_m_s, double inplane_m_s, pare_rotor_state *state);

/** The rotor speed that gives a thrust in that flow.
 *
 * @param near_rad_s  a guess to start from; 0: none
 * @return PARE_OK, or PARE_BAD_DATA for a thrust of 0 or less or one that no speed gives */
pare_status pare_rotor_for_thrust(const pare_rotor *rotor, const pare_air *air, double thrust_n,
                                  double axial_m_s, double inplane_m_s, double near_rad_s,
                                  pare_rotor_state *state, pare_error *err);

/** The power that an ideal rotor needs to hover: T sqrt(T / (2 rho A)). */
double pare_rotor_ideal_hover_w(double thrust_n, double diameter_m, double density_kg_m3);

/** Glauert's induced velocity over that in hover, flow axial and in-plane in the same measure;
 * NAN where momentum theory has no answer (between -2 and 0 along the axis without edgewise flow).*/
double pare_rotor_induced(double axial_over_hover, double inplane_over_hover);

#endif
