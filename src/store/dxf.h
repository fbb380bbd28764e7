/* dxf.h: the outline of a plate from a DXF drawing in text form. Inside the room only. */
#ifndef PARE_STORE_DXF_H
#define PARE_STORE_DXF_H

#include "store/outline.h"

/** Reads what is drawn in the ENTITIES section and measures it (pare_drawing_measure()).
 *
 * Lines, arcs, circles, ellipses and polylines with bulges; texts, dimensions, points, hatches and
 * views are no outline and left out; anything else is refused, for a missing line would change the
 * area unsaid. Layers make no difference. Units by $INSUNITS, millimetres where it is missing or 0.
 * @param name  put in front of messages
 * @param keep  gets the loops, too; NULL: not wanted
 * @return PARE_OK; PARE_BAD_DATA as name:line: what, what would be right; PARE_UNAVAILABLE */
pare_status pare_dxf_measure(const char *name, const char *bytes, size_t length, pare_loops *keep,
                             pare_outline_facts *facts, pare_error *err);

#endif
