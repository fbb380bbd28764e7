/* inflow.h: inside the physics room: a rotor's state from its inflow.
 *
 * In inclined flow the inflow is what an equation has to be solved for, and with it the flow is given
 * by a formula. So where something else is to be solved as well (a tilt, a speed), the inflow joins the
 * unknowns and each evaluation costs a look-up in place of a solution. */
#ifndef PARE_PHYSICS_INFLOW_H
#define PARE_PHYSICS_INFLOW_H

#include "physics/rotor.h"

/** A rotor's state and the flow that goes with it, with their slopes: with ln of the rotor speed, with
 * the advance ratio of the inflow, and with the flow across the disc. */
typedef struct pare_slopes {
    double speed, advance, inplane;
} pare_slopes;

typedef struct pare_through {
    pare_rotor_state rotor;
    double axial_m_s; /* the flow along the axis at which this is the rotor's state */
    pare_slopes thrust_n, torque_nm, drag_n, axial;
} pare_through;

/** Thrust, torque and in-plane drag of a rotor with the inflow of an advance ratio.
 *
 * @param speed_rad_s  more than 0
 * @param advance      above 0: the inflow of climb along the axis at that J; 0: of hover; below:
 *                     less than hover's, on the straight line through J = 0 and 0.15
 * Slopes are exact but for what Reynolds number does to the lift slope; through a table they cost half
 * a look-up, without one four more evaluations. */
void pare_rotor_through(const pare_rotor *rotor, const pare_air *air, double speed_rad_s,
                        double advance, double inplane_m_s, pare_through *through);

#endif
