/* prop_solve.h: one set of propeller constants fitted to many propellers, with and without some. */
#ifndef FIT_PROP_SOLVE_H
#define FIT_PROP_SOLVE_H

#include "prop_model.h"

/** A set as fitted to all propellers that can be described. */
typedef struct fit_set {
    fit_how how;
    pare_prop_hull hull;
    size_t count;
    const fit_blade **blade; /* [count] */
    fit_sums *sums;          /* [count] at the solution */
    double *weight;          /* [count] by how odd each is */
    double x[FIT_PARAMETERS];
    double next[FIT_PARAMETERS]; /* where one more step with all would go */
} fit_set;

/** @return false where memory ran out or nothing can be fitted, said on stderr */
bool fit_set_solve(const fit_blades *blades, const fit_how *how, fit_set *set);
void fit_set_free(fit_set *set);

/** The constants without the propellers that are left out: one step from the solution.
 * @param out  [count] which ones */
bool fit_set_without(const fit_set *set, const bool out[], pare_prop_constants *constants);

#endif
