/* laminate.h: how stiff a plate of fibre layers is along one direction, pulled and bent. */
#ifndef PARE_PHYSICS_LAMINATE_H
#define PARE_PHYSICS_LAMINATE_H

#include <stddef.h>

#include "base/error.h"

/** One layer: unidirectional, or a cloth with as much fibre both ways (along_pa = across_pa). */
typedef struct pare_ply {
    double along_pa, across_pa;
    double shear_pa;
    double poisson; /* shortening across by lengthening along */
} pare_ply;

enum { PARE_PLIES = 64 };

/** Young's modulus, and shear modulus, of one layer at an angle to its fibres.
 * Source: Jones, Mechanics of Composite Materials, 2nd ed., eq. 2.97 (from memory). */
double pare_ply_modulus_pa(const pare_ply *ply, double angle_rad);
double pare_ply_shear_pa(const pare_ply *ply, double angle_rad);

typedef struct pare_laminate {
    double stretch_pa; /* pulled along the direction, free to narrow */
    double bend_pa;    /* bent along it as a narrow strip: the outer layers decide */
} pare_laminate;

/** Layers of one thickness and kind, from the top down, as angles to the direction asked for.
 *
 * @param count  1 to PARE_PLIES
 * @return PARE_BAD_DATA for a count or ply out of range, and for layers that are not the same from the
 *         top as from the bottom: such a plate warps, and bends as it is pulled
 * Source: classical laminate theory, as in Jones, ch. 4 (from memory). Allocates nothing. */
pare_status pare_laminate_work_out(const pare_ply *ply, size_t count, const double angle_rad[],
                                   pare_laminate *laminate, pare_error *err);

#endif
