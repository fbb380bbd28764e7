/* solve.h: nonlinear least squares with priors: the one solver of all fits. */
#ifndef FIT_SOLVE_H
#define FIT_SOLVE_H

#include <stdbool.h>
#include <stddef.h>

/** What is fitted. Residuals are in units of their own standard uncertainty, or alike. */
typedef struct fit_problem {
    size_t parameters, residuals;
    const double *start;   /* [parameters] */
    const double *prior;   /* [parameters] NULL: no priors */
    const double *prior_u; /* [parameters] standard uncertainty of each prior; 0: free of it */
    /** Fills r [residuals] from x [parameters]. Called from several threads at once. */
    void (*residual)(const void *context, const double x[], double r[]);
    const void *context;
    double soften; /* residuals past this count by their size, not its square; 0: all by square */
    size_t steps;  /* 0: up to 100 */
} fit_problem;

/** Solves it by a trust region (GSL, multifit nonlinear), with differences for the slopes.
 *
 * Same answer bit for bit for any number of threads.
 * @param x           [parameters] out
 * @param covariance  [parameters * parameters] out, or NULL: (J'J)^-1, to be times chi-square over
 *                    degrees of freedom where the residuals' unit is not known
 * @return false where memory or convergence failed, said on stderr */
bool fit_solve(const fit_problem *problem, double x[], double covariance[]);

#endif
