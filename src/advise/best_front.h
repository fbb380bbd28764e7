/* best_front.h: all sets that nothing beats in two wishes, each of them proven.
 *
 * The search for the best set (best.h) is asked again and again, each time within a tighter limit on the
 * other wish (front.h): on the money that the set costs, or on the minutes that are flown. Where neither wish
 * is grams it is asked twice for a point (best_wish.h): for the least money that flies so long, then for the most
 * minutes that this money buys. */
#ifndef PARE_ADVISE_BEST_FRONT_H
#define PARE_ADVISE_BEST_FRONT_H

#include "advise/best.h"
#include "advise/front.h"

/* Sets whose minutes differ by less are not told apart: a tenth of a minute, far below their doubt. */
#define PARE_BEST_FRONT_MS 6000

enum { PARE_BEST_FRONT_POINTS = 200 };

typedef struct pare_best_front {
    size_t count;
    pare_front_point *point; /* [count], knees marked */
    const char *const
        *words;           /* [by set]: its swaps, "bumper=off, strap=st-180"; "as it is" for none */
    pare_front_point now; /* the craft as it is, of no set */
    bool whole;           /* all of them, and each is proven */
    bool stopped;         /* somebody asked for it: there may be more */
} pare_best_front;

/** @param ask   as for pare_best_find(), which it is handed on to, but for the money
 *  @param pair  two wishes, in any order
 *  @return PARE_OK, also where there is no point or it was stopped; PARE_BAD_DATA: the craft's own brief is
 *          full; else as pare_best_find() */
pare_status pare_best_front_find(const pare_bench *bench, const pare_craft *craft,
                                 const pare_best_ask *ask, const pare_front_wish pair[2],
                                 pare_arena *arena, pare_best_front *front, pare_error *err);

#endif
