/* tunnel_table.h: whether what a tunnel measured of a propeller can be, and in order. */
#ifndef PARE_CRAFT_TUNNEL_TABLE_H
#define PARE_CRAFT_TUNNEL_TABLE_H

#include "base/error.h"
#include "physics/tunnel.h"

enum { PARE_TUNNEL_ROWS = 1000 }; /* of one propeller at most */

/** Checks points and puts them in order; those that stand twice are kept once.
 *
 * @param[in,out] row  [count]; in another order only on success
 * @param[out] rows    how many are left
 * @param[out] bad     on failure: the point, from 0; count: all of them
 * @return PARE_OK; PARE_BAD_DATA: fewer than 2 points or more than PARE_TUNNEL_ROWS; a value out of
 *         its range; less power than the ideal rotor takes in that flow, which also keeps the
 *         efficiency below 1 */
pare_status pare_tunnel_check(size_t count, pare_tunnel_row row[], double diameter_m, size_t *rows,
                              size_t *bad, pare_error *err);

#endif
