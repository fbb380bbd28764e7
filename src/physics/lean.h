/* lean.h: inside the physics room: a craft leaning into its flight: forces at a speed, a tilt, a rotor
 * speed and an inflow, with their slopes, for the joint solutions of level flight and of manoeuvres. */
#ifndef PARE_PHYSICS_LEAN_H
#define PARE_PHYSICS_LEAN_H

#include "physics/inflow.h"
#include "physics/joint.h"
#include "physics/operate.h"

/** The joint's unknowns, each of order 1. */
enum {
    PARE_LEAN_TILT,   /* tangent of the tilt */
    PARE_LEAN_ROTOR,  /* rotor speed over rotor_scale_rad_s */
    PARE_LEAN_INFLOW, /* advance ratio of the inflow */
    PARE_LEAN_SPEED   /* flight speed over speed_scale_m_s, where it is unknown */
};

/** Slopes of one quantity with the unknowns. */
typedef double pare_lean_slopes[PARE_JOINT_MOST];

typedef struct pare_lean {
    const pare_flight *flight;
    double rotor_scale_rad_s, speed_scale_m_s;
    double induced_m_s; /* of hover, which measures what is left of the inflow's equation */
    double speed_m_s, sine, cosine;
    pare_rotor_state rotor;
    double axial_m_s;              /* the flow that makes this inflow */
    double thrust_n, drag_n;       /* the craft's thrust, the body's drag */
    double inplane_n;              /* H of all rotors */
    double sine_rise, cosine_rise; /* with the tangent */
    pare_lean_slopes thrust, inplane, drag, torque, axial;
} pare_lean;

/** @param x  the unknowns; x[PARE_LEAN_SPEED] is not read: the speed is speed_m_s */
void pare_lean_at(pare_lean *lean, double speed_m_s, const double x[]);

/** Where a search for the inflow of a flow along the axis starts: its advance ratio at the scale of
 * rotor speed, but no more than leaves the propeller some thrust. */
double pare_lean_start_inflow(const pare_lean *lean, double axial_m_s);

/** What is left of the inflow's equation; fills in one row of slopes. */
double pare_lean_inflow_left(const pare_lean *lean, double slope[]);

#endif
