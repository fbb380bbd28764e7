/* three_mf.h: solids from 3MF files, an open standard for printed parts. Inside the room, and for
 * `pare calc mesh`. */
#ifndef PARE_STORE_THREE_MF_H
#define PARE_STORE_THREE_MF_H

#include "physics/solid.h"

/** Reads the model and measures all that its build holds, each object where it is placed.
 *
 * Objects with meshes, components with transforms, several items; the file's own unit, millimetres
 * where it states none. Supports are left out. Each placed mesh is measured by itself
 * (pare_mesh_figures()) and they are added up: parts that overlap count twice where they do.
 * @param name  put in front of messages
 * @return PARE_OK; PARE_BAD_DATA: no archive or a damaged one, not well-formed, a document type, an
 *         extension that is needed and not known, an index, object or transform that cannot be,
 *         nothing to build, over 1.5 million triangles; PARE_UNAVAILABLE when there is no memory */
pare_status pare_three_mf_measure(const char *name, const char *bytes, size_t length,
                                  pare_mesh_facts *facts, pare_error *err);

/** The same from a file of 64 MiB at most. */
pare_status pare_three_mf_measure_file(const char *path, pare_mesh_facts *facts, pare_error *err);

#endif
