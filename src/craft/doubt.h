/* doubt.h: how uncertain each figure of a sheet is. */
#ifndef PARE_CRAFT_DOUBT_H
#define PARE_CRAFT_DOUBT_H

#include "craft/sheet.h"

/** Fills u of every figure that exists, by propagating the uncertainty of every input.
 *
 * Law of propagation (JCGM 100:2008, eq. 10 and 13): independent sources, each with its signed
 * effect on all figures at once, so that copies of a part share one error, a maker's stated masses
 * share a maker's bias, weighed masses share a scale, and thrust and power errors go together.
 * Costs about forty plain sheets. Allocates nothing. */
void pare_sheet_doubt(const pare_craft *craft, pare_sheet *sheet);

#endif
