/* svg_path.h: the path data and the transforms of SVG. Inside the room only. */
#ifndef PARE_STORE_SVG_PATH_H
#define PARE_STORE_SVG_PATH_H

#include "store/outline.h"

/** Draws path data (SVG 1.1, chapter 8: M L H V C S Q T A Z, absolute and relative).
 * @return NULL, or where the data stops making sense */
const char *pare_svg_draw_path(const char *data, pare_drawing *drawing);

/** Draws a list of points, "x,y x,y ...". @return as pare_svg_draw_path() */
const char *pare_svg_draw_points(const char *points, bool closed, pare_drawing *drawing);

/** Puts a list of transforms behind a map. @return NULL, or where the list stops making sense */
const char *pare_svg_transform(const char *list, pare_affine *map);

/** b first, then a. */
pare_affine pare_affine_after(const pare_affine *a, const pare_affine *b);

/** A finite number at *at, past blanks and one comma; moves *at past it. */
bool pare_svg_number(const char **at, double *value);

#endif
