/* study_do.h: the work of a study: what a rank does when it is told a job, and the tasks as jobs. */
#ifndef PARE_CLI_STUDY_DO_H
#define PARE_CLI_STUDY_DO_H

#include "cli/study_open.h"
#include "cli/study_share.h"

/** Does a job: "t TASK" answers a task (study_line.h); "f TASK SET" says of each brief whether the craft that came of
 * a task does what it asks in all that varies of it: "+", or what refuses, with tabs between.
 * @param context  a study_open */
pare_status study_work_on(void *context, const char *told, const pare_progress *progress,
                          pare_text *answer, pare_error *err);

/** The answers so far, each on its line. */
typedef struct study_answers {
    const study_open *open;
    size_t tasks;
    const unsigned long long *key; /* [tasks] */
    char **line;                   /* [tasks] NULL: none yet */
    pare_arena *arena;
    char *room; /* of the one that was asked for last */
    size_t size;
} study_answers;

/** @param answers  its arena and open are set */
pare_status study_tasks_open(study_answers *answers, study_jobs *jobs, pare_error *err);
void study_tasks_close(study_answers *answers);

/** An answer, good until the next is asked for. @param context  a study_answers */
void study_answer_of(void *context, size_t task, pare_task_answer *answer);

#endif
