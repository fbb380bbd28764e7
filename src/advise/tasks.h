/* tasks.h: one task of a study, answered; and whether a craft that came of one does what another brief asks.
 *
 * An answer is the same bits on every machine of a kind: one thread, no clock. What bounds a search is its
 * effort, counted in the questions that it asks whether to go on (after 64 nodes, and between rounds). */
#ifndef PARE_ADVISE_TASKS_H
#define PARE_ADVISE_TASKS_H

#include "advise/best_wish.h"
#include "craft/study.h"

typedef enum pare_task_says {
    PARE_TASK_YES,   /* it does what the brief asks, or a set does */
    PARE_TASK_NO,    /* it does not; no set does, or none was found */
    PARE_TASK_CANNOT /* there is no such craft: what is to be tried does not go on */
} pare_task_says;

typedef struct pare_task_ask {
    const pare_bench *bench;
    const pare_craft *craft; /* as built */
    int loadout;             /* -1 or an index */
    const pare_brief *brief;
    const char *tries; /* swaps that are put on first; NULL: none */
    bool best;         /* the best set is asked, with what follows; else the sheet */
    int wish;          /* as pare_best_wish_named() */
    size_t holds, nevers, musts;
    const char *const *hold, *const *never, *const *must;
    const int64_t *most_cents;
    const double *most_work_min;
    int effort; /* 0: until it is done */
    size_t figures;
    const int *figure; /* [figures] pare_figure */
    const pare_progress *progress;
} pare_task_ask;

typedef struct pare_task_answer {
    pare_task_says says;
    const char
        *why;    /* what refuses, in the words of a margin's name, or why it cannot be; NULL: yes */
    bool proven; /* of a best set, or of there being none */
    const char *set;               /* "bumper=off,skid=off"; "": as it is; NULL: no set */
    double was_g, mass_g, bound_g; /* all-up; NAN: not known */
    double worth;          /* money in the craft as it then is, as a brief's limit on it counts */
    double pays, work_min; /* for the set */
    size_t figures;
    double value[PARE_STUDY_FIGURES],
        u[PARE_STUDY_FIGURES]; /* in the figure's own unit; NAN: none */
} pare_task_answer;

/** @param arena  holds what the answer points to
 *  @return PARE_OK, also where the answer is that it cannot be; PARE_STOPPED; PARE_UNAVAILABLE without memory */
pare_status pare_task_answer_it(const pare_task_ask *ask, pare_arena *arena,
                                pare_task_answer *answer, pare_error *err);

/** A craft that came of a task, to be held against other briefs. */
typedef struct pare_task_craft {
    pare_craft *before, *after, *loaded; /* in the task's brief */
    pare_sheet *sheet_before, *sheet_after;
    int loadout;
} pare_task_craft;

/** Makes it again: as built, with what was tried, then the set.
 * @param set  "" or NULL: none  @return as pare_swap_apply_list() */
pare_status pare_task_craft_make(const pare_task_ask *ask, const char *set, pare_arena *arena,
                                 pare_task_craft *made, pare_error *err);

/** Whether it does what a brief asks: every limit, every job that the brief keeps; and no rating worse than on
 * the craft as it was built. Allocates nothing.
 * @param[out] why  what refuses: a margin's name, "keep.films", "hover" */
bool pare_task_craft_does(pare_task_craft *made, const pare_brief *brief, char why[48]);

#endif
