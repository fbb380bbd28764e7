/* shopping_inside.h: the two halves of a shopping list. Only shopping.c and cutting.c use it. */
#ifndef PARE_ADVISE_SHOPPING_INSIDE_H
#define PARE_ADVISE_SHOPPING_INSIDE_H

#include "advise/shopping.h"

/** Fills what is to be cut. */
void pare_cutting_of(const pare_craft *before, const pare_craft *after, pare_shopping *shopping);

#endif
