/* filled.h: which specs of a part a law has filled in, by name. */
#ifndef PARE_SHOW_FILLED_H
#define PARE_SHOW_FILLED_H

#include "craft/craft.h"

/** Names as they are typed, "mass" first where the mass is a law's.
 * @param[out] names  [PARE_SPECS + 1]
 * @return how many */
size_t pare_filled_names(const pare_part *part, const char *names[]);

/** Whether an earlier item that is on has the same part, so that it was listed already. */
bool pare_filled_before(const pare_craft *craft, size_t item);

#endif
