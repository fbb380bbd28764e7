/* study_share.h: jobs shared out among ranks, dearest first, and their answers kept in a journal.
 *
 * Rank 0 hands out jobs and takes answers; every other rank asks by being idle. Where there are few ranks it
 * works too, and looks for messages meanwhile. A job is told in a line and answered with a line, so that it
 * does not matter which rank does it, nor whether it was done in an earlier run. */
#ifndef PARE_CLI_STUDY_SHARE_H
#define PARE_CLI_STUDY_SHARE_H

#include "base/progress.h"
#include "base/text.h"
#include "ranks/ranks.h"

/** What a rank knows how to do. @param told  a line  @param[out] answer  put at its end, a line without an end */
typedef pare_status (*study_work)(void *context, const char *told, const pare_progress *progress,
                                  pare_text *answer, pare_error *err);

typedef struct study_jobs {
    const char *what; /* "tasks", for the progress */
    size_t count;
    const unsigned long long *key; /* [count] of all that the answer depends on */
    size_t sorts;
    const unsigned *sort; /* [count] below sorts: jobs of like cost */
    void *context;
    void (*tell)(void *context, size_t job, pare_text *line);
    /** @param answer  good until it returns, and may be cut up */
    pare_status (*take)(void *context, size_t job, char *answer, pare_error *err);
} study_jobs;

typedef struct study_share study_share;

/** On every rank; study_share_close() also after a failure. */
pare_status study_share_open(pare_ranks *ranks, const pare_progress *progress, study_share **share,
                             pare_error *err);
/** On every other rank: waits until rank 0 is ready. False: it has ended. */
bool study_share_wait(study_share *share);
/** Then, on every rank: what it works on.
 * @param mark  of the study and its benches: all ranks must have the same */
void study_share_ready(study_share *share, unsigned long long mark, study_work work, void *context);

/** On rank 0: the journal that answers go into, and come from. @param title  one line */
pare_status study_share_journal(study_share *share, const char *path, const char *title,
                                pare_error *err);
/** Lines of the journal that are not what they were. */
size_t study_share_damaged(const study_share *share);
/** How many of some jobs the journal has an answer to. */
size_t study_share_known(const study_share *share, const study_jobs *jobs);

/** On rank 0: all jobs, those first that the journal knows. @return PARE_OK; PARE_STOPPED; what failed on a rank */
pare_status study_share_do(study_share *share, const study_jobs *jobs, pare_error *err);

/** On every other rank: works until it is told to end. A rank that has `failed` says so to rank 0. */
void study_share_serve(study_share *share, pare_status failed, const pare_error *err);

/** On rank 0 tells all others to end; on every rank closes. NULL is fine. */
pare_status study_share_close(study_share *share, pare_status status, pare_error *err);

#endif
