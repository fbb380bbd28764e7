/* study.h: what a study found: on a screen, as JSON, and each task as a row. */
#ifndef PARE_SHOW_STUDY_H
#define PARE_SHOW_STUDY_H

#include "advise/tasks.h"
#include "show/json.h"
#include "show/screen.h"

/** A craft that was chosen to cover briefs. */
typedef struct pare_covers {
    size_t task;                               /* that it came of, from 0 */
    const char *craft, *loadout, *tries, *set; /* loadout, tries NULL: the first, none */
    double grams, money;                       /* NAN: not known */
    size_t briefs;
    const size_t *brief; /* [briefs] that it covers, of the study */
} pare_covers;

typedef struct pare_cover_view {
    size_t candidates; /* craft that differ */
    size_t chosen;
    const pare_covers *covers; /* [chosen] */
    long long customers, covered,
        bound; /* all, of those chosen, and what none can be better than */
    double total,
        total_bound; /* of craft, money or grams, where that is to be least; NAN: not known */
    bool proven;
    size_t lefts;
    const size_t *left; /* [lefts] briefs that none of the chosen covers */
    const char *const
        *left_why; /* [lefts] what keeps the craft that comes nearest out; NULL: another could */
} pare_cover_view;

typedef struct pare_study_view {
    const pare_study *study;
    const char *money;             /* of its first bench; "" or NULL: not said */
    const char *results, *journal; /* files; NULL: none */
    size_t tasks, known, damaged;  /* known: that the journal had; damaged: its lines */
    int ranks;
    double seconds;
    const char *const *loadout;    /* [offers] as flown; NULL: the craft has none */
    const unsigned long long *key; /* [tasks] */
    void *context;
    /** The answer to a task, good until the next is asked for. */
    void (*answer)(void *context, size_t task, pare_task_answer *answer);
    const pare_cover_view *cover; /* NULL: not asked */
    size_t moved;
    const char *const *bench_moved; /* [moved] benches that are no longer what was read */
} pare_study_view;

/** The summary, brief by brief, then who is covered. */
void pare_study_text(const pare_study_view *view, const pare_screen *screen, pare_text *out);

/** How many tasks there are, of what, and how many are answered: what a run would do.
 * @param screen  NULL: as JSON */
void pare_study_plan(const pare_study_view *view, const pare_screen *screen, pare_text *out);

/** {"study", "cover": {}, ..., "tasks": [...]}: all of it. */
void pare_study_json(const pare_study_view *view, pare_text *out);

/** A task's row, field by field, head first.
 * @param put  called for each field  @param task  from 0; -1: the head */
typedef void (*pare_study_put)(void *context, const char *field);
void pare_study_row(const pare_study_view *view, long long task, pare_study_put put, void *context);

#endif
