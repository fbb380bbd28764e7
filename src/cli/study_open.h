/* study_open.h: a study with its benches open: what each task asks, and what its answer depends on. */
#ifndef PARE_CLI_STUDY_OPEN_H
#define PARE_CLI_STUDY_OPEN_H

#include "advise/tasks.h"
#include "cli/use.h"
#include "store/read_study.h"

/** What varies, read: choices, a number, a wish. */
typedef struct study_value {
    size_t choices;
    const char *choice[PARE_STUDY_CHOICES];
    int64_t cents;
    double work_min;
    int wish;
} study_value;

typedef struct study_open {
    pare_study_file *file;
    const pare_study *study;
    bench_in_use *use; /* [study->benches] */
    size_t used;
    const pare_craft **craft;  /* [offers] as built */
    int *loadout;              /* [offers] */
    unsigned long long *bench; /* [benches] of all that stands on each */
    pare_store_mark *stood;    /* [benches] as it was read */
    unsigned long long mark;   /* of the study and its benches */
    study_value *value[PARE_STUDY_AXES];
    pare_arena *arena;
} study_open;

/** Opens a study and all that it is about. Zeros first; study_leave() also after a failure. */
pare_status study_open_all(const options *given, const char *path, study_open *s, pare_error *err);
void study_leave(study_open *s);

/** What a task asks, of its number.
 * @param[out] brief  that the ask points to  @param arena  holds the rest
 * @return as pare_study_brief_of() */
pare_status study_ask_of(const study_open *s, size_t number, pare_arena *arena, pare_brief *brief,
                         pare_task_ask *ask, pare_error *err);

/** A brief as one offer meets it in one of the conditions.
 * @param condition  below pare_study_conditions()
 * @param[out] text  what it says, put at its end  @param arena  holds the rest
 * @return as pare_study_brief_of() */
pare_status study_brief_in(const study_open *s, size_t offer, size_t number, size_t condition,
                           pare_arena *arena, pare_brief *brief, pare_text *text, pare_error *err);

/** Of each task a number for all that its answer depends on.
 * @param[out] key  [tasks], in the study's arena */
pare_status study_keys(const study_open *s, unsigned long long **key, pare_error *err);

/** A number for all briefs, in all that varies of them: what a fit depends on. */
pare_status study_briefs_mark(const study_open *s, unsigned long long *mark, pare_error *err);

/** Whether a bench is no longer the one that was read: changed, or gone. */
bool study_bench_moved(const study_open *s, size_t bench);

#endif
