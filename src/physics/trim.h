/* trim.h: inside the physics room: level flight. */
#ifndef PARE_PHYSICS_TRIM_H
#define PARE_PHYSICS_TRIM_H

#include "physics/lean.h"

/** Level flight: tilt, drag and one rotor's state. The last two solutions stay, on whose line the next
 * speed starts; begin with pare_trim_begin(). */
typedef struct pare_trim {
    const pare_flight *flight;
    double tilt_rad, drag_n;
    pare_rotor_state hover, rotor;
    pare_lean lean;
    pare_unknowns joint;
    double speed_m_s;
    int solved; /* how many of the two are known: the last flight speed solved, and the one before */
    double solved_m_s[2], solution[2][3];
} pare_trim;

/** @param hover  one rotor at hover */
void pare_trim_begin(const pare_flight *flight, const pare_rotor_state *hover, pare_trim *trim);

/** @param enough  what may be left of the balances; PARE_LEFT_MOST, or more for a first look */
pare_status pare_trim_at(pare_trim *trim, double speed_m_s, double enough, pare_error *err);

#endif
