/* best_wish.h: the set that is best in a wish other than grams, and what is proven of it.
 *
 * The search (best.h) makes grams least. Another wish is asked of it as a limit: is there any set that is
 * better than the best so far? Each one that is found raises what is asked next, and none, with proof, ends
 * it: no set of these parts is better. Of the sets that are as good the lightest is the answer.
 *
 *   grams      the lightest: the search itself
 *   minutes    as flown
 *   thrust     to weight, half charged
 *   quickness  the slower of roll and pitch
 *   crash      the least energy; it grows with the mass alone, so the lightest has it
 *   money      the least of it that meets the brief; a mass goal is a limit of the brief on all-up mass
 *   evening    the lightest within hours of work
 *
 * What is asked for by halves ends at PARE_WISH_GRAIN: sets whose figures are nearer than that are equal. */
#ifndef PARE_ADVISE_BEST_WISH_H
#define PARE_ADVISE_BEST_WISH_H

#include "advise/best.h"

#define PARE_WISH_GRAIN 1e-5 /* of the figure; far below what anybody can know of it */

enum { PARE_WISH_EVENING = PARE_WISHES, PARE_BEST_WISHES };

/** The wish for a best set that is named so, or -1; "evening" is one here. */
int pare_best_wish_named(const char *name);
const char *pare_best_wish_name(int wish);

/** Whether the lightest set, within what it may take, is the best in a wish. */
bool pare_best_wish_by_grams(int wish);

typedef struct pare_best_wished {
    int wish;
    int figure;  /* that was made best; -1: money */
    bool exists; /* was, value and bound are good */
    double was, value,
        bound;   /* of the craft, of the set, and what no set is better than: SI, or money */
    bool proven; /* value is the best there is */
    size_t searches;
} pare_best_wished;

/** @param ask  as for pare_best_find(); with an evening its most_work_min has to be there
 *  @param[out] best  the lightest of those that are best; where it was stopped, the best so far. Its own
 *                    proof is of grams, among sets that are as good
 *  @return as pare_best_find(); PARE_BAD_DATA: the brief has no room for a limit more, or the craft does not
 *          have the figure */
pare_status pare_best_wish_find(const pare_bench *bench, const pare_craft *craft,
                                const pare_best_ask *ask, int wish, pare_arena *arena,
                                pare_best *best, pare_best_wished *wished, pare_error *err);

/** The craft with a limit of its own on a figure, or the brief's own to be changed.
 * @param[out] limit  in *limited; as it was, or one that all fulfil
 * @return PARE_BAD_DATA: there are PARE_LIMITS already */
pare_status pare_best_limit_figure(const pare_craft *craft, int figure, pare_arena *arena,
                                   pare_craft **limited, pare_limit **limit, pare_error *err);

#endif
