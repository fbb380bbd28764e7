/* prop_floor.h: how well the measurements agree with themselves: no model does better. */
#ifndef FIT_PROP_FLOOR_H
#define FIT_PROP_FLOOR_H

#include "blade.h"

/** @return false: no memory, or nowhere to put it on the page (page.h) */
bool fit_floor_print(const fit_blades *blades, const char *page);

#endif
