/* promise.h: what a scale will show, said before it shows it, and how often that held. */
#ifndef PARE_ADVISE_PROMISE_H
#define PARE_ADVISE_PROMISE_H

#include "advise/closure.h"

/** The share of readings that should lie within what is promised. */
#define PARE_PROMISE_SHARE 0.9

typedef struct pare_promise {
    double kg, u_kg;        /* what is written down and weighed; of the reading, scale and all */
    double low_kg, high_kg; /* PARE_PROMISE_SHARE of the readings, as many below as above */
    bool
        allowed; /* with an allowance for solder and ties, which is why the interval leans upwards */
} pare_promise;

/** What a scale will show of a pile.
 *
 * A craft that was never weighed whole, and lists no solder, is heavier than its parts by what nobody
 * lists: 5 to 15 g (common practice, no source), never less than nothing.
 * @param scale  its readings; NULL: the mass itself, not a reading of it */
pare_promise pare_promise_of(const pare_closure *closure, const pare_pile *pile,
                             const pare_scale *scale);

/** The same with something on top that is off by itself. */
pare_promise pare_promise_wider(pare_promise promise, double u_kg);

/** The chance that a pile, or what is promised of it, weighs at most so much. */
double pare_promise_chance(const pare_promise *promise, double limit_kg);

/** The chance that a verdict about a limit, met or broken, is right once readings have left so much doubt of
 * what is written down; of a mass, not of a reading of it. More than the half that a guess has.
 * @param left_kg   0 to the promise's own u_kg: that is the chance now
 * @param whole     the whole was read, so that what nobody lists is in it
 * Accuracy: 1e-3, by 64 slices of what the readings will say. */
double pare_promise_right(const pare_promise *promise, double limit_kg, double left_kg, bool whole);

/** Variance of what nobody lists; 0 where that is not in the promise. */
double pare_promise_allowance_kg2(const pare_promise *promise);

/** How many readings there were a promise for, of all craft, and how many of them it held for. */
void pare_promise_score(const pare_weighings *weighings, size_t *made, size_t *held);

#endif
