/* adjust.h: least squares on many unknowns of which each equation has few. */
#ifndef PARE_ADVISE_ADJUST_H
#define PARE_ADVISE_ADJUST_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/error.h"

typedef struct pare_term {
    size_t unknown;
    double factor;
} pare_term;

/** sum(factor x unknown) = value, with a standard uncertainty. A prior is an equation like any other. */
typedef struct pare_equation {
    double value, u; /* u above 0 */
    size_t terms;
    const pare_term *term; /* [terms]; an unknown may stand there twice */
    bool out;              /* left out of the adjustment; its residual is worked out all the same */
} pare_equation;

/** What came of it. All in the arena. */
typedef struct pare_adjusted {
    size_t unknowns, equations;
    double *value, *u;  /* [unknowns] */
    double *residual;   /* [equations] value less what the unknowns give */
    double *residual_u; /* [equations] its standard deviation where all is as supposed: less
                                     than the equation's own, 0 where nothing else speaks of it; more
                                     for one that is out */
    double chi2;        /* of those that are in */
    size_t spare;       /* equations that are in, less unknowns */
    struct pare_elimination *own; /* for pare_adjusted_times() */
} pare_adjusted;

/** Adjusts.
 *
 * The covariance of the unknowns is that of the equations as stated; it is not scaled by chi2.
 * @param[out] undetermined  which unknown no equation tells apart from others, on PARE_BAD_DATA; may
 *                           be NULL
 * @return PARE_OK; PARE_BAD_DATA: the equations leave an unknown open; PARE_UNAVAILABLE
 * Accuracy: the unknowns to some 1e-10 of their uncertainty where one pair of unknowns is not told
 * apart a million times worse than it is read. Threads: safe. */
pare_status pare_adjust(size_t unknowns, size_t equations, const pare_equation equation[],
                        pare_arena *arena, pare_adjusted *adjusted, size_t *undetermined,
                        pare_error *err);

/** The covariance of the unknowns times a vector, in place: [unknowns]. */
void pare_adjusted_times(const pare_adjusted *adjusted, double vector[]);

#endif
