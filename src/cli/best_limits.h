/* best_limits.h: what the limits of a best set cost, and what must give way where there is none. Only
 * best.c uses it. */
#ifndef PARE_CLI_BEST_LIMITS_H
#define PARE_CLI_BEST_LIMITS_H

#include "advise/loosen.h"
#include "advise/relief.h"
#include "cli/command.h"

typedef struct best_limits {
    size_t loosens;
    pare_loosened loosened[PARE_BEST_LIMITS];
    bool relieved;
    pare_reliefs reliefs;
} best_limits;

/** After a search: --binds loosens what binds, one limit after another; a brief that no set meets is told
 * what must give way.
 * @param left_s  that --time leaves; INFINITY: each limit has its own ten seconds, a brief a minute */
pare_status best_limits_ask(const options *given, const pare_bench *bench, const pare_craft *craft,
                            const pare_best_ask *ask, const pare_best *best, double left_s,
                            best_limits *limits, pare_error *err);

#endif
