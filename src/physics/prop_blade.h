/* prop_blade.h: the blade elements in dimensionless terms, for the table and for prop.h. */
#ifndef PARE_PHYSICS_PROP_BLADE_H
#define PARE_PHYSICS_PROP_BLADE_H

#include "physics/prop.h"

/* The advance ratio is held from here on: a propeller that barely turns in a gale. */
#define PARE_PROP_ADVANCE_MOST 50.0

/** CT and CP.
 *
 * @param advance       J, 0 .. PARE_PROP_ADVANCE_MOST
 * @param tip_reynolds  rho Omega R^2 / mu, more than 0
 * @param tip_mach      Omega R / a, 0 or more
 * @param tolerance     on the inflow angle, rad: 1e-11 for the last digit, 1e-5 for a table */
void pare_prop_blade(const pare_prop *prop, double advance, double tip_reynolds, double tip_mach,
                     double tolerance, double *ct, double *cp);

#endif
