/* timed.c: the clock beside the command's own progress (see timed.h). */
#include "cli/timed.h"

#include <errno.h>
#include <stdlib.h>

bool timed_read(const char *text, double most_s, double *seconds)
{
    char *end;
    errno = 0;
    *seconds = strtod(text, &end);
    return end != text && !*end && !errno && *seconds >= 0 && *seconds <= most_s;
}

double timed_s(const timed *t)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - t->started.tv_sec) +
           1e-9 * (double)(now.tv_nsec - t->started.tv_nsec);
}

static bool step(void *context, const char *doing, size_t done, size_t all)
{
    const timed *t = context;
    const bool goes_on = !t->under || t->under->step(t->under->context, doing, done, all);
    return goes_on && timed_s(t) < t->most_s;
}

static void closing(void *context, double best, double bound)
{
    const timed *t = context;
    pare_progress_closing(t->under, best, bound);
}

timed timed_start(const pare_progress *under, double most_s)
{
    timed t = {.under = under, .most_s = most_s};
    clock_gettime(CLOCK_MONOTONIC, &t.started);
    return t;
}

pare_progress timed_progress(timed *t)
{
    return (pare_progress){.step = step, .context = t, .closing = closing};
}
