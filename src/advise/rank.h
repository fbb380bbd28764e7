/* rank.h: the order of a list of swaps. Only this room uses it. */
#ifndef PARE_ADVISE_RANK_H
#define PARE_ADVISE_RANK_H

#include "advise/swap.h"

/** Puts rows in order: free first, sought last, by wish, then money, then name: never a tie.
 * @param arena  holds the sorted rows */
pare_status pare_rank(pare_arena *arena, pare_wish wish, size_t count, const pare_swap rows[],
                      pare_swap **sorted, pare_error *err);

#endif
