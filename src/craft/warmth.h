/* warmth.h: how warm a flight leaves the motors' windings and the pack. */
#ifndef PARE_CRAFT_WARMTH_H
#define PARE_CRAFT_WARMTH_H

#include "physics/rig.h"

/** The winding of a motor that turns as in hover and carries the rms current of a whole flight, held
 * until its heat settles.
 *
 * @param motor_rms_a  one motor's, more than 0
 * @param[out] degc    untouched on failure
 * @return PARE_BAD_DATA where the motor cannot carry that, in words */
pare_status pare_winding_degc(const pare_rig *rig, double hover_rad_s, double motor_rms_a,
                              double *degc, pare_error *err);

/** Where the pack starts: as warm as it is kept, or as the air. */
double pare_pack_begins_degc(const pare_rig *rig);

/** By how much a flight warms the pack when all of its inner heat stays inside, in kelvin.
 *
 * Cells are wrapped, and a flight is short against their cooling: an upper bound, little above the
 * truth. The charge is what may be drawn, not what a flight drew that its volts ended early: a pack whose
 * resistance is thought too high would look cooler for it.
 *
 * @param mean_a, rms_a  current as flown, more than 0
 * @param charge_c       drawn so
 * @return 0 for a pack without a mass */
double pare_pack_warms_k(const pare_rig *rig, double mean_a, double rms_a, double charge_c);

#endif
