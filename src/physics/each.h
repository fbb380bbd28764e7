/* each.h: each motor of a craft that hovers with its centre of mass off the middle of its rotors. */
#ifndef PARE_PHYSICS_EACH_H
#define PARE_PHYSICS_EACH_H

#include "physics/rig.h"

/** One motor in hover. */
typedef struct pare_each {
    double share; /* of the thrust that carries the craft */
    double
        carries_kg;   /* its rotor's thrust less the arm's download, as the mass that it holds up */
    double output;    /* 0 to 1 */
    double current_a; /* the motor's */
} pare_each;

/** Each motor of a hovering craft, all on one pack.
 *
 * @param share  [rig->rotors], summing to 1, each over 0 (physics/share.h)
 * @param[out] each  [rig->rotors]; untouched on failure
 * @param[out] pack_a  all that the pack gives
 * @return PARE_OK; PARE_BAD_DATA where it cannot hover so, with the reason */
pare_status pare_rig_each(const pare_rig *rig, const double share[], double charge,
                          pare_each each[], double *pack_a, pare_error *err);

#endif
