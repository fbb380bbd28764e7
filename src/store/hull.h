/* hull.h: figures of any triangle mesh, its convex hull's where it is no solid.
 *
 * Here and not in physics because finding a hull needs memory. */
#ifndef PARE_STORE_HULL_H
#define PARE_STORE_HULL_H

#include "base/arena.h"
#include "physics/solid.h"

/** The convex hull of a mesh's corners as triangles, which may face either way.
 *
 * @param mesh       corners finite, as pare_mesh_measure() has found them
 * @param arena      where the triangles live
 * @param[out] hull  0 triangles when the corners lie in a plane (or a line, or a point)
 * @return PARE_OK, or PARE_UNAVAILABLE when there is no memory
 * Threads: safe. Source: the Quickhull library (Barber, Dobkin, Huhdanpaa, ACM TOMS 22, 1996). */
pare_status pare_hull_of(const pare_mesh *mesh, pare_arena *arena, pare_mesh *hull,
                         pare_error *err);

/** Measures a mesh: its own figures when it is a solid; else its convex hull's, or its bounding
 * box's when that is flat, both said in facts->estimated.
 *
 * @return PARE_OK; PARE_BAD_DATA as pare_mesh_measure(), and for a mesh of which not even the box
 *         has a volume; PARE_UNAVAILABLE when there is no memory */
pare_status pare_mesh_figures(const pare_mesh *mesh, pare_mesh_facts *facts, pare_error *err);

#endif
