/* coax.h: what a radio chain loses on its way to the antenna. */
#ifndef PARE_PHYSICS_COAX_H
#define PARE_PHYSICS_COAX_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

/** Loss of a metre of cable, dB: skin effect with the root of frequency, dielectric with frequency.
 *
 * @param cable  "RG178", "RG316", "RG402" (0.141 in semi-rigid), "RG405" (0.086 in) or "1.13" (mm)
 * @param hz     1e8 .. 1e10
 * @return PARE_BAD_DATA for another cable or frequency, naming what is known
 * Accuracy: through the makers' tabled points, 5 %; RG405 and 1.13 from one point each, from memory,
 * 10 %. */
pare_status pare_coax_db_per_m(const char *cable, double hz, double *db_per_m, pare_error *err);

/** Names of the cables. @return how many; `most` at most are put */
size_t pare_coax_names(size_t most, const char *name[]);

/** Free-space path loss of a distance, dB. */
double pare_free_space_db(double hz, double distance_m);

/** Free-space range with a loss over the range without it. */
double pare_range_share(double loss_db);

typedef enum pare_hand { PARE_HAND_LINEAR, PARE_HAND_RIGHT, PARE_HAND_LEFT } pare_hand;

/** Polarisation loss between two antennas, dB: alike 0, linear to circular 3, opposite hands 15 to 20
 * (17.5 here; ideal ones would not hear each other at all). The last is common practice, no source. */
double pare_polarisation_db(pare_hand one, pare_hand other);

#endif
