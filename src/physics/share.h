/* share.h: how the rotors of a craft share its weight. */
#ifndef PARE_PHYSICS_SHARE_H
#define PARE_PHYSICS_SHARE_H

#include <stddef.h>

#include "base/error.h"
#include "base/vec.h"

enum { PARE_SHARES = 16 };

/** Each rotor's share of the thrust when a craft holds still in the air.
 *
 * @param count    rotors, 3 to PARE_SHARES, in order around the craft: their senses of turning alternate
 * @param at_m     [count] axes; heights do not matter
 * @param x_m, y_m the centre of mass
 * @param[out] share  [count], summing to 1; one below 0 would have to pull down: see pare_share_least()
 * @return PARE_OK, or PARE_BAD_DATA where no thrusts balance, with the reason; share is then untouched
 *
 * Forces and moments about the centre of mass balance, and torques about the yaw axis where the count is
 * even (with an odd count something else holds yaw). Of all such thrusts those with the least sum of
 * squares, which is what a mixer's pseudo-inverse gives. Torque is taken to go with thrust. */
pare_status pare_thrust_shares(size_t count, const pare_vec3 at_m[], double x_m, double y_m,
                               double share[], pare_error *err);

/** Standard deviation of the shares over their mean: 0 where all carry alike; INFINITY where one is not
 * above 0, so that the craft cannot hold still. */
double pare_share_uneven(size_t count, const double share[]);

#endif
