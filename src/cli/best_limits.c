/* best_limits.c: searches after the search (see best_limits.h).
 *
 * Each has a time of its own, so that one limit whose proof is long does not take it from all others; one
 * that is stopped is told as such. */
#include "cli/best_limits.h"

#include <math.h>

#include "cli/timed.h"

#define A_LIMIT_S 10.0
#define A_BRIEF_S 60.0

static pare_status loosen_all(const options *given, const pare_bench *bench,
                              const pare_craft *craft, const pare_best_ask *ask,
                              const pare_best *best, double left_s, best_limits *limits,
                              pare_error *err)
{
    pare_status status = PARE_OK;
    size_t give_way = 0;
    for (size_t i = 0; i < best->binds; i++)
        give_way += pare_best_gives_way(best->bind[i].name);
    const double each_s = isfinite(left_s) ? left_s / (double)(give_way + 1) : A_LIMIT_S;
    for (size_t i = 0; status == PARE_OK && i < best->binds; i++) {
        if (!pare_best_gives_way(best->bind[i].name))
            continue;
        timed t = timed_start(given->progress, each_s);
        const pare_progress progress = timed_progress(&t);
        pare_best_ask asked = *ask;
        asked.progress = &progress;
        status = pare_best_loosen(bench, craft, &asked, best, best->bind[i].name,
                                  &limits->loosened[limits->loosens++], err);
    }
    return status;
}

pare_status best_limits_ask(const options *given, const pare_bench *bench, const pare_craft *craft,
                            const pare_best_ask *ask, const pare_best *best, double left_s,
                            best_limits *limits, pare_error *err)
{
    if (best->found)
        return given->given & OPTION_BINDS
                   ? loosen_all(given, bench, craft, ask, best, left_s, limits, err)
                   : PARE_OK;
    limits->relieved = best->proven && craft->brief.limits > 0;
    if (!limits->relieved)
        return PARE_OK;
    timed t = timed_start(given->progress, isfinite(left_s) ? left_s : A_BRIEF_S);
    const pare_progress progress = timed_progress(&t);
    pare_best_ask asked = *ask;
    asked.progress = &progress;
    return pare_best_relieve(bench, craft, &asked, &limits->reliefs, err);
}
