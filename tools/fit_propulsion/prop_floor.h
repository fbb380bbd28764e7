/* prop_floor.h: how well the measurements agree with themselves: no model does better. */
#ifndef FIT_PROP_FLOOR_H
#define FIT_PROP_FLOOR_H

#include "blade.h"

void fit_floor_print(const fit_blades *blades);

#endif
