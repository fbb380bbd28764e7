/* joint.h: inside the physics room: roots, of one equation or of up to four at once. */
#ifndef PARE_PHYSICS_JOINT_H
#define PARE_PHYSICS_JOINT_H

#include <stdbool.h>

typedef double (*pare_curve)(void *context, double x);

/** Root of a curve between two ends of opposite sign.
 *
 * @param low_y, high_y  the curve there; the signs must differ
 * @param share  stop when the bracket is this share of x
 * @return the root; always within the bracket, after 200 steps at most */
double pare_root(pare_curve curve, void *context, double low, double low_y, double high,
                 double high_y, double share);

enum { PARE_JOINT_MOST = 4 };

/** Equations to be met together, in unknowns of order 1. */
typedef struct pare_unknowns {
    int count; /* 2 to 4 */
    double x[PARE_JOINT_MOST];
    double low[PARE_JOINT_MOST], high[PARE_JOINT_MOST];
} pare_unknowns;

/** Writes what is left of each equation, in measures of order 1, and its slope with each unknown.
 * False: x has no answer. */
typedef bool (*pare_equations)(void *context, const double x[], double left[],
                               double slope[][PARE_JOINT_MOST]);

/** Solves by Newton's method from x.
 *
 * @param context  keeps what the last call of equations made of it, which is the solution's
 * @return whether every equation is left with less than tolerance; false after 30 calls, where the
 *         caller falls back on brackets */
bool pare_unknowns_solve(pare_unknowns *joint, pare_equations equations, void *context,
                         double tolerance);

#endif
