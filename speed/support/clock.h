/* clock.h: seconds of a clock, and a search that may take so many of the processor's. */
#ifndef PARE_SPEED_CLOCK_H
#define PARE_SPEED_CLOCK_H

#include <stdbool.h>
#include <stddef.h>
#include <time.h>

/** @param clock  CLOCK_MONOTONIC, or CLOCK_PROCESS_CPUTIME_ID: what all threads have computed, which others' work on
 *                the machine does not change */
static inline double seconds_of(clockid_t clock)
{
    struct timespec t;
    clock_gettime(clock, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static inline double processor_s(void)
{
    return seconds_of(CLOCK_PROCESS_CPUTIME_ID);
}

/** The step of a pare_progress. @param context  processor_s() at which it ends, a double */
static inline bool until_processor_s(void *context, const char *doing, size_t done, size_t all)
{
    (void)doing;
    (void)done;
    (void)all;
    return processor_s() < *(const double *)context;
}

#endif
