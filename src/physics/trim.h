/* trim.h: inside the physics room: level flight. */
#ifndef PARE_PHYSICS_TRIM_H
#define PARE_PHYSICS_TRIM_H

#include "physics/lean.h"

/** Level flight: tilt, drag and one rotor's state. The unknowns stay in joint, where the next speed
 * starts from; begin with pare_trim_begin(). */
typedef struct pare_trim {
    const pare_flight *flight;
    double tilt_rad, drag_n;
    pare_rotor_state hover, rotor;
    pare_lean lean;
    pare_unknowns joint;
    double speed_m_s, last_m_s; /* the flight speed, and one that joint.x solves; 0: none */
} pare_trim;

/** @param hover  one rotor at hover */
void pare_trim_begin(const pare_flight *flight, const pare_rotor_state *hover, pare_trim *trim);

/** @param enough  what may be left of the balances; PARE_LEFT_MOST, or more for a first look */
pare_status pare_trim_at(pare_trim *trim, double speed_m_s, double enough, pare_error *err);

#endif
