/* best_ways.h: the best few sets that truly differ, and how far things must move before another one wins.
 *
 * Two sets truly differ when a part does; screws and wire are the same way to build. The search is asked
 * again with the parts of all ways that were found barred, so each is proven as the first one is: no set with
 * other parts than these is better than the last of them. */
#ifndef PARE_ADVISE_BEST_WAYS_H
#define PARE_ADVISE_BEST_WAYS_H

#include "advise/best_wish.h"

enum { PARE_WAYS_MOST = 20 };

typedef struct pare_best_ways {
    size_t count;
    const pare_best *way; /* [count], best first; the first is *best as it was handed in */
    const pare_best_wished *wished; /* [count] */
    bool proven; /* every way is, and where they are all, that there are no more */
    bool all;    /* no set has other parts than these */
} pare_best_ways;

/** @param best    found, by the same question
 *  @param wanted  1 to PARE_WAYS_MOST, with the first
 *  @return as pare_best_find(). Where it was stopped, the ways so far, not proven */
pare_status pare_best_ways_find(const pare_bench *bench, const pare_craft *craft,
                                const pare_best_ask *ask, int wish, const pare_best *best,
                                const pare_best_wished *wished, size_t wanted, pare_arena *arena,
                                pare_best_ways *ways, pare_error *err);

/** A choice of a part, as far as it stands. */
typedef struct pare_best_stand {
    size_t swap; /* of the best set */
    size_t way;  /* the first without it, which wins then; 0: none of the ways is */
    double
        gap; /* by how much it, and with it the best set, may get worse until then, in all its pieces; at
                    least, where no way is without it. g, or money where that is the wish */
    int pieces;
} pare_best_stand;

/** @param[out] stand  [PARE_BEST_SWAPS]; nearest to another set first
 *  @return how many: those that put a part in, where grams or money are the wish */
size_t pare_best_stands(const pare_best_ways *ways, pare_best_stand stand[]);

/** Whether one of a way's swaps is in another. */
bool pare_best_has_swap(const pare_best *best, const char *id);
/** Whether a swap is of a part, not of screws, wire or coax. */
bool pare_best_is_part(const char *id);

#endif
