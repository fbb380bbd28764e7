/* svg.h: the outline of a plate from an SVG drawing. Inside the room only. */
#ifndef PARE_STORE_SVG_H
#define PARE_STORE_SVG_H

#include "store/outline.h"

/** Reads every shape and measures them together (pare_drawing_measure()).
 *
 * Paths, rectangles, circles, ellipses, polygons, polylines and lines, with transforms on elements
 * and groups; definitions, texts, pictures, and what is not displayed are left out. Scripts, `use`,
 * nested drawings and style sheets that move things are refused. The unit is that of width, height
 * and viewBox; 96 pixels an inch where they say nothing. y is turned up; the drawing's origin stays
 * where its user coordinates have it.
 * @param name  put in front of messages
 * @param keep  gets the loops, too; NULL: not wanted
 * @return PARE_OK; PARE_BAD_DATA as name:line:column: what, what would be right; PARE_UNAVAILABLE */
pare_status pare_svg_measure(const char *name, const char *bytes, size_t length, pare_loops *keep,
                             pare_outline_facts *facts, pare_error *err);

#endif
