/* take_inside.h: one taken swap on a craft. Only taken.c, take.c and checklist*.c use it. */
#ifndef PARE_ADVISE_TAKE_INSIDE_H
#define PARE_ADVISE_TAKE_INSIDE_H

#include "advise/edit.h"

/** Applies a taken swap with no other parts in sight than its own (see taken.h).
 * @param craft, changed  two different craft
 * @return as pare_swap_apply(), with the swap in front; PARE_BAD_DATA for a part on no shelf */
pare_status pare_taken_apply(pare_units *units, const pare_bench *bench, const pare_taken *taken,
                             const pare_craft *craft, pare_craft *changed, pare_error *err);

#endif
