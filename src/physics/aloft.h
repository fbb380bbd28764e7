/* aloft.h: the flight figures of rig.h, asked one after another of one rig.
 *
 * Each means what its namesake pare_rig_...() means and gives the same bits; but the rig is checked
 * once, by pare_flight_begin(), and what several figures share is worked out once. */
#ifndef PARE_PHYSICS_ALOFT_H
#define PARE_PHYSICS_ALOFT_H

#include "physics/operate.h"

pare_status pare_flight_thrust(pare_flight *flight, double weights, double charge,
                               pare_operating *point, pare_error *err);
/** pare_rig_full() of a moment, at rest: heat 0.3, steady 0. */
pare_status pare_flight_rest(pare_flight *flight, double charge, pare_operating *point,
                             pare_error *err);
pare_status pare_flight_endure(pare_flight *flight, size_t count, const pare_flown entries[],
                               const pare_landing *landing, pare_endurance *result,
                               pare_error *err);
pare_status pare_flight_best_range(pare_flight *flight, const pare_landing *landing,
                                   pare_best_range *result, pare_error *err);
pare_status pare_flight_burst(pare_flight *flight, double height_m, double charge, double step_s,
                              pare_burst *result, pare_error *err);
pare_status pare_flight_quickness(pare_flight *flight, double charge, pare_quickness *result,
                                  pare_error *err);
pare_status pare_flight_turn(pare_flight *flight, double speed_m_s, double charge,
                             pare_turn *result, pare_error *err);
pare_status pare_flight_climb(pare_flight *flight, double charge, double *climb_m_s,
                              pare_error *err);
pare_status pare_flight_top_speed(pare_flight *flight, double charge, double *speed_m_s,
                                  pare_error *err);
/** Thrust over weight at an output at rest, burst heat: what is left where the sticks are all the way
 * down. The rotor's torque is taken to go with the square of its speed from hover on. */
pare_status pare_flight_idle(pare_flight *flight, double output, double charge, double *weights,
                             pare_error *err);
/** How a hovering craft is pushed by a level wind that comes at once: drag of body and rotors over mass.
 * The rotors hold their thrust; the craft has not tilted yet. */
pare_status pare_flight_gust(pare_flight *flight, double wind_m_s, double *pushed_m_s2,
                             pare_error *err);

#endif
