/* best.h: the lightest set of swaps that a craft's brief allows, with proof that there is none lighter.
 *
 * What is lent by pointer is good until its set is closed. Do not make values of these types yourself:
 * members may be added at their end. Threads: a set never changes, so any number may read it. */
#ifndef PARE_BEST_H
#define PARE_BEST_H

#include <pare/snapshot.h>

PARE_BEGIN

typedef struct pare_best_set pare_best_set;

/** What was found. Masses are all-up. */
typedef struct pare_best_facts {
    int found;       /* there is a set that meets the brief */
    int proven;      /* nothing can be lighter; without found: no set meets the brief */
    int stopped;     /* go_on said so: what is told is the best so far */
    double before_g; /* of the craft as it is */
    double after_g;  /* with the set; NaN: none was found */
    double bound_g;  /* no set is lighter than this; NaN: not known */
    double
        money; /* for all of it, as it must be bought; NaN: none found, or a price is not known */
    double work_min;   /* for all of it; NaN: none found */
    const char *swaps; /* to be tried with pare_craft_sheet_compute(); NULL: none found */
} pare_best_facts;

/** One swap of the set, as it goes on after those before it. */
typedef struct pare_best_step {
    const char *id, *from, *to;
    double grams; /* saved */
    double money; /* NaN: a price is not known */
    double work_min;
} pare_best_step;

/** Asked again and again, on whichever thread is at it but never on two at once.
 * @return 0: stop now, and answer with the best so far */
typedef int (*pare_go_on)(void *context);

/** Searches, as `pare best` does: every limit of the brief holds on the set, and no job is lost that the
 * brief keeps.
 *
 * @param craft, loadout  as for pare_craft_sheet_compute()
 * @param go_on  NULL: search until it is proven, which mostly takes under a second but may take minutes
 * @param[out] set  close with pare_best_set_close(); NULL on failure
 * @return PARE_OK, also where no set meets the brief; PARE_UNKNOWN: no such craft or loadout;
 *         PARE_BAD_DATA: the craft cannot be weighed; PARE_UNAVAILABLE: no memory */
PARE_PUBLIC pare_status pare_best_set_find(const pare_snapshot *snapshot, const char *craft,
                                           const char *loadout, pare_go_on go_on, void *context,
                                           pare_best_set **set, pare_error *err);
/** NULL is fine. */
PARE_PUBLIC void pare_best_set_close(pare_best_set *set);

PARE_PUBLIC const pare_best_facts *pare_best_set_facts(const pare_best_set *set);
/** Its swaps in the order in which they go on. @param index  from 0; NULL is returned beyond the last */
PARE_PUBLIC const pare_best_step *pare_best_set_step(const pare_best_set *set, size_t index);
/** Names of the margins that kept lighter sets out, tightest first; likewise. */
PARE_PUBLIC const char *pare_best_set_bind(const pare_best_set *set, size_t index);

PARE_END

#endif
