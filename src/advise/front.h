/* front.h: sets that nothing beats in two or three wishes at once, and where such a front bends.
 *
 * Who asks for grams alone never learns that a tenth of a gram more would have cost half the money. A
 * front has for every amount of one wish the best of the other, and nothing else. */
#ifndef PARE_ADVISE_FRONT_H
#define PARE_ADVISE_FRONT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/error.h"

typedef enum pare_front_wish {
    PARE_FRONT_GRAMS,   /* the fewer the better */
    PARE_FRONT_MONEY,   /* the less */
    PARE_FRONT_MINUTES, /* the more */
    PARE_FRONT_WISHES
} pare_front_wish;
const char *pare_front_wish_name(pare_front_wish wish); /* "grams" */

/** "grams-money": two different wishes, in the order in which they were named.
 * @return PARE_OK, or PARE_UNKNOWN, which says what there is */
pare_status pare_front_pair(const char *name, pare_front_wish pair[2], pare_error *err);

/** A set on a front, or one that may be. Whole numbers, so that what is equal is equal. */
typedef struct pare_front_point {
    int64_t mass_100ug, money_cents, flown_ms;
    size_t set; /* whatever the caller keeps the set by */
    bool knee;
} pare_front_point;

/** What a wish costs at a point: less is better, so minutes count negative. */
int64_t pare_front_cost(const pare_front_point *point, pare_front_wish wish);

/** Puts the points that nothing beats in front, best in the first wish first; of those that are equal in
 * all wishes, the one with the lowest set.
 * @param wishes     2 or 3
 * @param[in,out] count  how many; how many are kept */
pare_status pare_front_keep(size_t wishes, const pare_front_wish wish[], pare_front_point point[],
                            size_t *count, pare_error *err);

/** Marks the knees of a front of two wishes, as pare_front_keep() leaves it.
 *
 * A knee lies farthest from the straight line between the two ends, on the good side of it, with both wishes
 * stretched so that the front is one wide and one high (Das, Structural Optimization 18 (1999), 107-115). The
 * same is asked again of the pieces on either side, each between its own ends, and counts there from
 * PARE_FRONT_BULGE on. A front that bulges nowhere has none.
 * @param most  knees at most, 1 or more */
void pare_front_knees(const pare_front_wish pair[2], pare_front_point point[], size_t count,
                      size_t most);
#define PARE_FRONT_BULGE 0.05 /* [E] a step less than a line of a chart twenty lines high */

/** The best in the first wish of all sets whose cost in the second is at most this.
 * @param[out] found  false: there is none */
typedef pare_status pare_front_solve(void *context, int64_t most, pare_front_point *point,
                                     bool *found, pare_error *err);

/** A whole front of two wishes, by asking for its points one after another: each time the best in the
 * first wish among what is better in the second than the last point was (Haimes, Lasdon and Wismer, IEEE
 * Transactions on Systems, Man, and Cybernetics 1 (1971), 296-297). As exact as the answers are.
 *
 * @param grain   how much better in the second wish the next one has to be, 1 or more; with more than 1
 *                sets that differ by less may be passed over
 * @param most    points at most, 1 or more
 * @param[out] point  [count], from the arena, as pare_front_keep() leaves them
 * @param[out] whole  false: `most` were found, and more may follow
 * @return PARE_OK; what `solve` said; or PARE_UNAVAILABLE: no memory */
pare_status pare_front_walk(const pare_front_wish pair[2], pare_front_solve *solve, void *context,
                            int64_t grain, size_t most, pare_arena *arena, pare_front_point **point,
                            size_t *count, bool *whole, pare_error *err);

#endif
