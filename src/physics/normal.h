/* normal.h: inside the physics room: least squares of few unknowns by their normal equations.
 *
 * The unknowns here are scaled to order one and held by priors, so that the squared condition of the
 * normal equations costs nothing that matters; in return no row is kept, and nothing is allocated. */
#ifndef PARE_PHYSICS_NORMAL_H
#define PARE_PHYSICS_NORMAL_H

#include <stdbool.h>
#include <stddef.h>

enum { PARE_UNKNOWNS = 24 };

/** A symmetric matrix, full, and a right side. */
typedef struct pare_normal {
    size_t n;
    double a[PARE_UNKNOWNS][PARE_UNKNOWNS];
    double b[PARE_UNKNOWNS];
} pare_normal;

/** Adds one equation: slope . x = value, times a weight (one over its variance). */
void pare_normal_add(pare_normal *normal, const double slope[], double value, double weight);

/** Lower triangle L of a = L L'. @return false where a is not positive definite */
bool pare_cholesky(size_t n, const double a[PARE_UNKNOWNS][PARE_UNKNOWNS],
                   double root[PARE_UNKNOWNS][PARE_UNKNOWNS]);
/** x of L L' x = b; b and x may be the same. */
void pare_cholesky_solve(size_t n, const double root[PARE_UNKNOWNS][PARE_UNKNOWNS],
                         const double b[], double x[]);
/** The inverse of L L'. */
void pare_cholesky_inverse(size_t n, const double root[PARE_UNKNOWNS][PARE_UNKNOWNS],
                           double inverse[PARE_UNKNOWNS][PARE_UNKNOWNS]);

#endif
