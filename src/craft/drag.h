/* drag.h: the drag area of a craft in level flight, and what parts that state their own change of it. */
#ifndef PARE_CRAFT_DRAG_H
#define PARE_CRAFT_DRAG_H

#include "craft/craft.h"

typedef enum pare_drag_from {
    PARE_DRAG_OF_CRAFT,
    PARE_DRAG_OF_PARTS,
    PARE_DRAG_BY_LAW
} pare_drag_from;

/** Takes the drag area of a craft as it stands: the craft's own where it is said; else the sum of what parts
 * state where the frame is one of them; else the law's at that mass, or that sum where it is more. Keeps what
 * each item stated then. Does nothing the second time. */
void pare_drag_settle(pare_craft *craft, double mass_kg);

/** The drag area of a craft as it is now: as it stood, with what stated parts that came or went since bring
 * and take. A part that states its own in the place of one that did not changes nothing: what the other had
 * is not known. */
double pare_craft_drag_m2(const pare_craft *craft);

/** Its standard uncertainty: 15 % of a craft's own, 30 % of the law's, each part's. */
double pare_craft_drag_u_m2(const pare_craft *craft);

pare_drag_from pare_craft_drag_from(const pare_craft *craft);

/** An item's drag area now, all copies; 0 where it is off or its part states none. */
double pare_item_drag_m2(const pare_item *item);

#endif
