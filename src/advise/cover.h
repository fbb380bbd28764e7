/* cover.h: which few of many craft cover the most customers; or all of them with the least.
 *
 * Both are hard in general (maximum coverage and set cover: Karp, Reducibility among combinatorial problems,
 * 1972), and mostly easy in fact. All counting is in whole numbers, so what is called proven holds exactly. */
#ifndef PARE_ADVISE_COVER_H
#define PARE_ADVISE_COVER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/progress.h"

/** Amounts are 0 .. PARE_COVER_AMOUNT, and so are their sums. */
#define PARE_COVER_AMOUNT (INT64_C(1) << 36)

typedef struct pare_cover_ask {
    size_t candidates, customers;
    const uint64_t *covers; /* [candidates][pare_cover_words(customers)] bit k: customer k */
    const int64_t *weight;  /* [customers] */
    const int64_t *cost;    /* [candidates] */
    bool all; /* all customers that can be covered, at the least cost; else the greatest weight */
    size_t most;  /* candidates, where not all are asked for */
    size_t nodes; /* of the search, at most: what is found by then, with how far off it may be */
    const pare_progress *progress;
} pare_cover_ask;

typedef struct pare_cover {
    size_t count;
    size_t *chosen;       /* [count] ascending, in the arena */
    int64_t weight, cost; /* of those covered; of those chosen */
    int64_t bound;        /* no choice has more weight, or less cost */
    bool proven;          /* none is better */
    size_t nodes;
} pare_cover;

static inline size_t pare_cover_words(size_t customers)
{
    return (customers + 63) / 64;
}

/** The same answer each time. Of equal ones the one that is found first.
 * @return PARE_OK, also where the search ran out of nodes or was stopped; PARE_BAD_DATA: an amount or a sum of them
 *         beyond PARE_COVER_AMOUNT, or below 0; PARE_UNAVAILABLE without memory */
pare_status pare_cover_find(const pare_cover_ask *ask, pare_arena *arena, pare_cover *cover,
                            pare_error *err);

#endif
