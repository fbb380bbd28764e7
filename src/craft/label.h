/* label.h: what discharge rating a pack can be believed to have, beside the one on its label. */
#ifndef PARE_CRAFT_LABEL_H
#define PARE_CRAFT_LABEL_H

#include "craft/craft.h"

/** In currents over capacity (1 empties the pack in an hour), with standard uncertainties. */
typedef struct pare_believable {
    double whole, whole_u; /* from full to a fifth without passing 60 degC, from 25 */
    double burst, burst_u; /* for a second at half charge, no cell below its least volts */
} pare_believable;

/** A label this many standard uncertainties above the burst is one that physics does not keep. */
#define PARE_BOAST_SIGMAS 2.0

/** Of a completed pack: by its mass, capacity and resistance (read, stated or by the law of its kind).
 *
 * The label's rating does not enter. A wrapped pack keeps nearly all of its heat for the few minutes
 * that such a current lasts; the heat capacity of lithium cells is 900 to 1100 J/(kg K) (from memory),
 * and 60 degC common practice, no source.
 * @return false for a part that is no pack */
bool pare_pack_believable(const pare_part *part, pare_believable *believable);

/** The same of the pack that a craft has on, by what its flights taught of the charge that it holds.
 *
 * Flights say nothing of a pack's resistance: volts under load are not logged, and resting ones do not show
 * it. So they move the heat of a whole pack only, whose current goes on for longer in one that holds more.
 * @param[out] flights  that taught it; 0: none did */
bool pare_craft_believable(const pare_craft *craft, pare_believable *believable, int *flights);

/** Whether its label claims more than that. */
bool pare_pack_boasts(const pare_part *part, const pare_believable *believable);

#endif
