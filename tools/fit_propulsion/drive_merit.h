/* drive_merit.h: what the 5 in stand's propellers take at the shaft, by the fit of motors and ESCs.
 *
 * That stand measured no torque. The drive's fit finds all motors' losses together with a figure of merit
 * of each propeller, over twelve motors and two voltages; both are right or wrong together, so the
 * propellers are fitted to that power and to no other. */
#ifndef FIT_DRIVE_MERIT_H
#define FIT_DRIVE_MERIT_H

#include "drive_model.h"

typedef struct drive_merit {
    drive_model model; /* its bench is gone */
    double x[DRIVE_PARAMETERS];
} drive_merit;

/** Reads both stands and fits all their motors.
 * @return false where data are missing or the fit failed, said on stderr */
bool drive_merit_fit(const char *data_folder, drive_merit *merit);

/** Shaft torque of a propeller (by number, from 0) of the 5 in stand at a speed. */
double drive_merit_torque(const drive_merit *merit, int propeller, double speed_rad_s);

#endif
