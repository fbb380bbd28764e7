/* drive_floor.h: what motors differ by with one propeller: no model that knows no more does better. */
#ifndef FIT_DRIVE_FLOOR_H
#define FIT_DRIVE_FLOOR_H

#include "drive_bench.h"

/** Prints the scatter of each propeller's power from motor to motor, and a table of what motors differ by
 * that are alike in what a model may know of them.
 * @return false: no memory, or nowhere to put it on the page (page.h) */
bool drive_floors(const drive_bench *bench, const char *page);

#endif
