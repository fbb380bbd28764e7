/* drive_judge.h: how well drive.c's fit foretells motors that it never saw. */
#ifndef FIT_DRIVE_JUDGE_H
#define FIT_DRIVE_JUDGE_H

#include "drive_model.h"
#include "plot.h"

/** How motors scatter about the laws: standard deviations of natural logarithms. */
typedef struct drive_scatter {
    double kv, winding, no_load;
    double correlation; /* of winding and unloaded current */
} drive_scatter;

drive_scatter drive_scatter_of(const drive_model *model, const double x[], const double u[]);

typedef struct drive_judged {
    /* median and 90th percentile of errors, shares; modelled: the propeller too only by its size */
    double at_thrust[2], modelled[2], at_speed[2], volts[2];
    double scatter_times;                 /* how much of the motors' scatter the intervals take */
    double within[2];                     /* of readings, in the 50 and 90 % intervals */
    double jackknife_u[DRIVE_PARAMETERS]; /* from leaving each motor out in turn */
} drive_judged;

/** Leaves out each motor of the 5 in stand in turn and foretells its readings from its stated kV and
 * size alone, its propellers being known from other motors. Prints a line a motor where asked.
 * @param points  power at thrust is added to these, by blade count less two; NULL: no */
bool drive_judge(const drive_bench *bench, drive_form form, bool print, fit_points *points,
                 drive_judged *judged);

#endif
