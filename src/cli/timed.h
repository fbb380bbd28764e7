/* timed.h: progress with a clock: a search that has had its time is told to stop. */
#ifndef PARE_CLI_TIMED_H
#define PARE_CLI_TIMED_H

#include <time.h>

#include "base/progress.h"

typedef struct timed {
    const pare_progress *under; /* the command's own; NULL: none */
    struct timespec started;
    double most_s; /* after that */
} timed;

/** A number of seconds, 0 to so many, as it is typed. False: it is none. */
bool timed_read(const char *text, double most_s, double *seconds);
timed timed_start(const pare_progress *under, double most_s);
double timed_s(const timed *t);
/** What a search is asked with; stands as long as *t does. */
pare_progress timed_progress(timed *t);

#endif
