/* prop_sets.h: the four sets of propeller constants: what each may know, and how freely it moves. */
#ifndef FIT_PROP_SETS_H
#define FIT_PROP_SETS_H

#include "prop_model.h"

/* How freely a set moves, where the sets differ. `own` and `odd` are small: a propeller's rows are then
 * believed nearly as if apart, and a propeller counts by the size of its error more than by the square,
 * so that the middle propeller is met and not the mean of a few odd ones. */
typedef struct fit_latitude {
    double own;        /* of spread_u below: how far a propeller's rows are off together */
    double odd;        /* own levers so many of these off make a propeller count half */
    double global;     /* times global_u */
    double reynolds_u; /* of the powers of the Reynolds number on the last factors */
    double many;       /* times the trend with the blade count */
    double bend;       /* times the line's second powers */
    double research;   /* what a propeller made for a study counts */
} fit_latitude;

typedef struct fit_prop_set {
    const char *variable, *name, *source;
    const char *picture; /* how its pictures' names begin; NULL: it has none */
    bool measured, known;
    fit_latitude latitude;
} fit_prop_set;

enum { FIT_SIZE, FIT_SIZE_AND_LINE, FIT_BLADE, FIT_BLADE_AND_LINE, FIT_SETS };
extern const fit_prop_set fit_prop_sets[FIT_SETS];

/** How a set is fitted. */
fit_how fit_how_of(const fit_prop_set *set);

#endif
