/* motor_fit.h: a motor's kV, winding and unloaded current from a stand's readings. */
#ifndef PARE_PHYSICS_MOTOR_FIT_H
#define PARE_PHYSICS_MOTOR_FIT_H

#include "physics/pair.h"

/** A motor as stated or by the laws, on an ESC, with relative standard uncertainties, and how well
 * the stand measures. */
typedef struct pare_motor_prior {
    pare_motor motor; /* with the drive's constants; they stay */
    double kv_u, resistance_u, no_load_u;
    pare_esc esc;
    double heat; /* share of steady heating while a row is held, 0 to 1 */
    double volts_u, current_u, speed_u, torque_u; /* relative, of a reading; 0: the defaults */
} pare_motor_prior;

/** A fitted motor. Relative uncertainties; correlations of the logarithms. */
typedef struct pare_motor_fitted {
    pare_motor motor; /* the prior's, with kV, resistance and unloaded current as fitted */
    double kv_u, resistance_u, no_load_u;
    double kv_resistance, kv_no_load, resistance_no_load;
    double chi_square; /* of the readings about the fit, in their own uncertainties */
    int freedom;       /* readings less the three unknowns; 0 or less: the prior decides */
    double kv_ratio;   /* fitted over the prior's kV */
    double kv_ratio_u;
} pare_motor_fitted;

/** Fits kV, winding and unloaded current to a stand's rows, held by what was stated.
 *
 * Rows at full throttle (0.995 and up) say V = Ke w + I R, with the ESC's switches in R. Rows with
 * torque say what current that torque takes: at full throttle the motor's, below it by the power that
 * goes in. A row that says neither (part throttle, no torque) is passed over. Torque 0 is a motor
 * turning unloaded. Where readings scatter more than they should, the uncertainties grow by that.
 *
 * @param count  rows, 1 to 10000
 * @param row    [count], volts, current and speed more than 0; throttle and torque may be NAN
 * @return PARE_BAD_DATA naming the row (1 the first) that cannot be: not finite, negative, or faster
 *         than its volts turn the motor unloaded; or where no row says anything. The output is then
 *         untouched.
 * Accuracy: first order in the uncertainties. Allocates nothing; 1 us a row and step. */
pare_status pare_motor_fit(size_t count, const pare_stand_row row[], const pare_motor_prior *prior,
                           pare_motor_fitted *fitted, pare_error *err);

#endif
