/* stl.h: triangle meshes from STL files, text and binary. */
#ifndef PARE_STORE_STL_H
#define PARE_STORE_STL_H

#include "base/arena.h"
#include "physics/solid.h"

/** Larger files are refused: a printed part of a craft has a few MB. */
#define PARE_STL_MOST_BYTES ((size_t)128 * 1024 * 1024)

/** Reads STL from memory.
 *
 * Binary when the length fits the count in its header exactly (such a file may well begin with
 * "solid"), text when it begins with "solid" and holds no zero bytes. Normals are not used: the
 * order of the corners says which side is out. Text may hold several solids, read as one mesh.
 * @param name    put in front of messages, as a path would be
 * @param bytes   [length], not ended by a zero
 * @param unit_m  what one unit of the file is in metres; the file does not say: 0.001 unless known
 * @param arena   where the triangles live
 * @return PARE_OK; PARE_BAD_DATA naming line and column of a text or the triangle of a binary file:
 *         neither kind, cut short, a count that the length denies, no triangles, a coordinate that
 *         is no finite number; PARE_UNAVAILABLE when there is no memory */
pare_status pare_stl_read(const char *name, const char *bytes, size_t length, double unit_m,
                          pare_arena *arena, pare_mesh *mesh, pare_error *err);

/** The same from a file. A path that is no regular file, cannot be opened, or is larger than
 * PARE_STL_MOST_BYTES is PARE_BAD_DATA. */
pare_status pare_stl_load(const char *path, double unit_m, pare_arena *arena, pare_mesh *mesh,
                          pare_error *err);

/** Reads a file and measures it, as pare_mesh_figures() (store/hull.h): an open mesh is answered
 * with its hull's figures, marked in facts->estimated. */
pare_status pare_stl_measure(const char *path, double unit_m, pare_mesh_facts *facts,
                             pare_error *err);

#endif
