/* solvers.h: two general solvers of mixed integer programmes on the question that advise/pick.h answers. */
#ifndef PARE_SPEED_SOLVERS_H
#define PARE_SPEED_SOLVERS_H

#include <stdbool.h>

#include "advise/pick.h"

typedef struct solved {
    bool proven;   /* to the optimum, within the time */
    double took_s; /* the solver's own work: not the making of its model */
    int64_t mass_100ug,
        money_cents; /* of its choice, added up again in integers; where it has one */
    size_t *choice;  /* [classes], the caller's, or NULL: which option of each class */
} solved;

/** The lightest within pick->most's money and loads, by GLPK's branch and cut, or by CBC's, on one thread.
 * @param most_s  when it is to give up
 * @param out  its choice is where to write the choice */
typedef bool solver(const pare_pick *pick, double most_s, solved *out);
solver solve_by_glpk, solve_by_cbc;

#endif
