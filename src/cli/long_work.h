/* long_work.h: what a terminal shows of work that takes long, and how it is stopped. */
#ifndef PARE_CLI_LONG_WORK_H
#define PARE_CLI_LONG_WORK_H

#include <time.h>

#include "base/progress.h"

typedef struct long_work {
    bool shows; /* there is somebody who looks */
    bool shown; /* a line stands on the terminal */
    struct timespec started, last;
} long_work;

/** Begins to count the time. Shows nothing before a second has gone by.
 * @param json  the answer will be JSON: then only where it goes to a terminal too */
void long_work_begin(long_work *work, bool json);

/** For the library; the work must outlive it. */
pare_progress long_work_progress(long_work *work);

/** From here on the first interruption (Ctrl-C, or SIGTERM) is heard at the next step instead of
 * ending the program at once; the second ends it. For what changes a bench or writes a file. */
void long_work_catch(void);
/** From here on an interruption ends the program again. One that came too late to stop the work is
 * forgotten: the work is done, and its answer says so. */
void long_work_release(pare_status status);

/** Takes the line off the terminal. */
void long_work_end(long_work *work);

/** Ends the program by the signal that stopped the work, as if it had not been caught: a shell then
 * says 130 or 143, and a script around it stops too. Returns where there was none. */
void long_work_die(void);

#endif
