/* rank.h: the order of a list of swaps. Only this room uses it. */
#ifndef PARE_ADVISE_RANK_H
#define PARE_ADVISE_RANK_H

#include "advise/swap.h"

/** Free swaps first, then the paid, sought ones last; within each by the wish, then money, then name.
 * @param rows   [count]
 * @param[out] order  [count], from the arena: the place in rows of the best, of the next ... */
pare_status pare_rank(pare_arena *arena, pare_wish wish, size_t count,
                      const pare_swap *const rows[], const size_t **order, pare_error *err);

#endif
