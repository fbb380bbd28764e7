/* loosen.h: what a limit costs: the best set once more, with that limit one unit looser.
 *
 * A limit of the brief is loosened by a unit that a builder would give way by (a tenth of a minute, one
 * of money, a tenth of thrust to weight), a rating by a hundredth of what it must hold. Most sets change in
 * steps, so ten units are tried too: first, since where they win nothing one wins nothing. Each is a search
 * of its own for what is lighter than the best, with its own proof. */
#ifndef PARE_ADVISE_LOOSEN_H
#define PARE_ADVISE_LOOSEN_H

#include "advise/best.h"

/** One limit, loosened. */
typedef struct pare_loosened {
    char name[48]; /* of the margin */
    int figure; /* pare_figure of a limit of the brief; -1: a rating, or the brief's least margin */
    double by;  /* in the figure's SI unit; a share of what it must hold where there is no figure */
    bool proven;       /* nothing lighter than what was won is left; false: stopped */
    int64_t won_100ug; /* 0: nothing, even ten units looser */
    char next[48];     /* what binds then, tightest first; "": nothing, or nothing was won */
} pare_loosened;

/** One unit of a limit of the brief by its key, in SI. */
double pare_limit_unit(const char *key);

/** Whether a limit that binds can be loosened: the mass is what is searched for, and without flight nothing
 * is a craft. */
bool pare_best_gives_way(const char *name);

/** Searches once or twice more for what is lighter than a best set.
 * @param ask   as the best set was asked for
 * @param best  found
 * @param name  of a limit that gives way
 * @return as pare_best_find() */
pare_status pare_best_loosen(const pare_bench *bench, const pare_craft *craft,
                             const pare_best_ask *ask, const pare_best *best, const char *name,
                             pare_loosened *loosened, pare_error *err);

#endif
