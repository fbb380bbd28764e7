/* nonlinear.h: nonlinear least squares of a few unknowns. */
#ifndef PARE_ADVISE_NONLINEAR_H
#define PARE_ADVISE_NONLINEAR_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/error.h"

/** What to make small: rows, each a difference over its standard uncertainty.
 * @param[out] row  [rows]
 * @return false: x is where there is no answer; a shorter step is tried */
typedef bool pare_residuals(const void *context, const double x[], double row[]);

typedef struct pare_nonlinear {
    size_t unknowns, rows; /* at least as many rows as unknowns: priors are rows as well */
    pare_residuals *residuals;
    const void *context;
    /* For slopes, an unknown moves both ways by step times itself, or times `usual` where that is more: a
     * step must be far above the noise of the rows and far below where they bend. */
    double step, usual;
} pare_nonlinear;

typedef struct pare_nonlinear_fit {
    double sum;         /* of squares */
    double *row;        /* [rows] at the solution */
    double *slope;      /* [rows][unknowns] there */
    double *covariance; /* [unknowns][unknowns]: inverse of slope' slope; times sum over degrees of
                           freedom where the rows' own uncertainties are not known */
    size_t iterations;
} pare_nonlinear_fit;

/** The unknowns that make the sum of squares least.
 *
 * Levenberg and Marquardt's steps in a trust region with geodesic acceleration off, slopes by central
 * differences, unknowns scaled by their slopes (Moré): GSL's multifit_nlinear.
 *
 * @param[in,out] x   [unknowns]; where to begin, and the solution
 * @param arena       holds what *fit points to
 * @return PARE_OK; PARE_BAD_DATA where it does not settle or rows leave an unknown free, in words */
pare_status pare_nonlinear_solve(const pare_nonlinear *problem, double x[], pare_arena *arena,
                                 pare_nonlinear_fit *fit, pare_error *err);

#endif
