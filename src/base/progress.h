/* progress.h: how long work says how far it is, and hears that it is to stop.
 *
 * The library neither prints nor looks at a clock or a signal: at each turn of a loop that can be long
 * it calls a function that its caller gave it. */
#ifndef PARE_BASE_PROGRESS_H
#define PARE_BASE_PROGRESS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

typedef struct pare_progress {
    /** @param doing  what is counted, in a word or two: "parts"; NULL: only asks whether to go on;
     *               "": the work is over
     * @param done    of them
     * @param all     how many there are; 0: not known, or nothing to count
     * @return false: stop, leaving everything as it was */
    bool (*step)(void *context, const char *doing, size_t done, size_t all);
    void *context;
    /** How a search closes in on its answer; NULL: nobody wants to know.
     * @param best   of what was found; NaN: nothing yet
     * @param bound  nothing better than this is left; NaN: not known. Both in grams */
    void (*closing)(void *context, double best, double bound);
} pare_progress;

/** One step. Cheap enough for each row of a list.
 * @param progress  NULL: nobody wants to know
 * @return PARE_OK, or PARE_STOPPED, which the caller hands up like any failure */
pare_status pare_progress_step(const pare_progress *progress, const char *doing, size_t done,
                               size_t all, pare_error *err);

/** Says how a search closes in, where somebody wants to know. */
void pare_progress_closing(const pare_progress *progress, double best, double bound);

/** The work is over: who shows it clears that away, so that something else can be printed. */
void pare_progress_over(const pare_progress *progress);

#endif
