/* margin.h: limits and ratings, and how far off each is. */
#ifndef PARE_CRAFT_MARGIN_H
#define PARE_CRAFT_MARGIN_H

#include "craft/sheet.h"

/** The figures that a craft's margins are made of. */
pare_figures pare_margin_figures(const pare_craft *craft);

/** Whether a thing of this kind is on the pack itself: no regulator comes between. */
bool pare_margin_on_pack(pare_kind kind);

/** Fills the sheet's margins, worst first: the brief's limits, ESC and motor current ratings, and
 * voltage ratings of everything on the pack. Figures must be there; chances need their u. */
void pare_sheet_margins(const pare_craft *craft, pare_sheet *sheet);

#endif
