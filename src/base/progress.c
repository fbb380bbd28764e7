/* progress.c: one step of long work (see progress.h). */
#include "base/progress.h"

pare_status pare_progress_step(const pare_progress *progress, const char *doing, size_t done,
                               size_t all, pare_error *err)
{
    if (!progress || progress->step(progress->context, doing, done, all))
        return PARE_OK;
    return pare_fail(err, PARE_STOPPED, "stopped");
}

void pare_progress_closing(const pare_progress *progress, double best, double bound)
{
    if (progress && progress->closing)
        progress->closing(progress->context, best, bound);
}

void pare_progress_over(const pare_progress *progress)
{
    if (progress)
        progress->step(progress->context, "", 0, 0);
}
