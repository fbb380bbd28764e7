/* walk.h: in which order to buy the best set, so that every craft on the way can be flown.
 *
 * Nobody buys thirty things at once. Every step leaves a craft that flies, keeps its jobs and meets every
 * limit and rating that the craft meets now; where that one falls short, no step is worse. What is bought is
 * paid as it is sold: a bag of screws or a metre of wire that an earlier step opened serves a later one.
 *
 * The best order wastes the fewest grams times money: each step's money counts with the grams that are
 * still too many while it is being paid, so what saves much for little comes early (Smith, Naval Research
 * Logistics Quarterly 3 (1956), 59-66, for jobs of known length and weight). Of equal orders the one in more
 * steps, then the one that sheds its grams earlier, is taken.
 *
 * Up to PARE_WALK_EXACT swaps every subset is judged and the order is the best there is (Held and Karp,
 * Journal of the Society for Industrial and Applied Mathematics 10 (1962), 196-210); a step may be several
 * swaps that are safe only together. With more swaps each next step is the safe one with the most grams for
 * its money, what is free first; where no swap is safe by itself, a pair; where no pair is, all that is left.
 *
 * With a budget the first steps lead to the lightest craft that it pays for, and the others follow. */
#ifndef PARE_ADVISE_WALK_H
#define PARE_ADVISE_WALK_H

#include "advise/best.h"

enum { PARE_WALK_EXACT = 12 };

typedef struct pare_walk_step {
    size_t swaps;
    size_t swap[PARE_BEST_SWAPS]; /* places in the best set, in the order in which they go on */
    int64_t saved_100ug;
    int64_t cents;                   /* to be paid for it */
    bool priced;                     /* false: a price is not known, and the money is of the rest */
    int64_t mass_100ug, spent_cents; /* once it is done */
} pare_walk_step;

typedef struct pare_walk {
    bool exact;   /* no order is better */
    bool stopped; /* somebody asked for it: what was not put in order is the last step */
    int64_t was_100ug;
    size_t now; /* how many steps the budget pays for; without one: all */
    size_t steps;
    pare_walk_step step[PARE_BEST_SWAPS];
} pare_walk;

/** @param ask     as it was for pare_best_find(); its progress is asked whether to go on
 *  @param best    found
 *  @param budget  cents to spend now; NULL: no matter
 *  @return PARE_OK; PARE_UNAVAILABLE: no memory; PARE_BAD_DATA: the craft cannot be weighed */
pare_status pare_walk_find(const pare_bench *bench, const pare_craft *craft,
                           const pare_best_ask *ask, const pare_best *best, const int64_t *budget,
                           pare_walk *walk, pare_error *err);

#endif
