/* relief.h: what a brief that no set meets would have to give way by.
 *
 * Each limit is loosened alone, all others as they are: by how little it may be for a set to exist, if any
 * loosening of it helps. Then pairs give way together, both by up to the same share of themselves; the pair
 * that needs the least share is the cheapest, and is told where no single limit needs less. Only what the
 * brief says gives way: a rating is what a part bears. */
#ifndef PARE_ADVISE_RELIEF_H
#define PARE_ADVISE_RELIEF_H

#include "advise/best.h"

enum { PARE_RELIEFS = PARE_LIMITS };

/** One limit of the brief, given way. */
typedef struct pare_relief {
    const char *key;
    int figure; /* -1: the least margin of all ratings */
    bool at_least;
    bool helps; /* a set exists */
    bool
        exact; /* `to` is the least: to within a tenth of the limit's unit; false: stopped, or only a bound */
    double from, to;    /* SI */
    int64_t best_100ug; /* the lightest set with it */
} pare_relief;

typedef struct pare_reliefs {
    bool stopped;
    size_t count;
    pare_relief alone[PARE_RELIEFS]; /* in the brief's order */
    bool pair;           /* two together give way by less of themselves than any alone */
    double share;        /* of themselves, at most */
    pare_relief both[2]; /* where they come to */
} pare_reliefs;

/** @param ask  as the best set was asked for that was not found, with proof
 *  @return as pare_best_find() */
pare_status pare_best_relieve(const pare_bench *bench, const pare_craft *craft,
                              const pare_best_ask *ask, pare_reliefs *reliefs, pare_error *err);

#endif
