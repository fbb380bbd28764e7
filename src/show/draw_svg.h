/* draw_svg.h: the names within an SVG that cairo wrote. Inside the room only. */
#ifndef PARE_SHOW_DRAW_SVG_H
#define PARE_SHOW_DRAW_SVG_H

#include "base/text.h"

/** Puts an SVG to the end of `out` with its ids named n1, n2, ... in the order in which they stand, and
 * what refers to them likewise; all else as it is. out->failed when memory runs out.
 * @param svg  [length] of cairo's: double quotes, and no text of anybody else in it */
void pare_svg_named_anew(const char *svg, size_t length, pare_text *out);

#endif
