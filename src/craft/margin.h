/* margin.h: limits and ratings, and how far off each is. */
#ifndef PARE_CRAFT_MARGIN_H
#define PARE_CRAFT_MARGIN_H

#include "craft/sheet.h"

/** Fills the sheet's margins, worst first: the brief's limits, ESC and motor current ratings, and
 * voltage ratings of everything on the pack. Figures must be there; chances need their u. */
void pare_sheet_margins(const pare_craft *craft, pare_sheet *sheet);

#endif
