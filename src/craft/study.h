/* study.h: many questions at once: which craft, in which briefs, with what varied, and what is asked.
 *
 * A task is one combination: an offer (a craft of a bench, in a loadout), a brief, and a value of each
 * thing that varies. Tasks are numbered from 1 in the order of the text: offers change slowest, what
 * varies last changes fastest. */
#ifndef PARE_CRAFT_STUDY_H
#define PARE_CRAFT_STUDY_H

#include <stdbool.h>
#include <stddef.h>

#include "craft/craft.h"

enum {
    PARE_STUDY_BYTES = 64 << 20, /* of its text */
    PARE_STUDY_TASKS = 1000000,
    PARE_STUDY_AXES = 16,
    PARE_STUDY_FIGURES = 32,
    PARE_STUDY_CHOICES = 32 /* held, forbidden or wanted in one value */
};

/** What an axis varies. */
typedef enum pare_vary {
    PARE_VARY_BRIEF, /* something in the brief, by its path: "air.temperature", "limits.flown" */
    PARE_VARY_TRY,   /* swaps that are put on first, "bumper=off,skid=off" */
    PARE_VARY_HOLD,  /* the rest only where best sets are asked */
    PARE_VARY_NEVER,
    PARE_VARY_MUST,
    PARE_VARY_WISH,
    PARE_VARY_BUDGET,
    PARE_VARY_HOURS
} pare_vary;

/** A place in the study's text, for what is found out only with a bench. */
typedef struct pare_study_place {
    int line, column;
} pare_study_place;

typedef struct pare_study_axis {
    const char *name; /* as typed */
    pare_vary of;
    size_t count;
    const char *const *word; /* [count] a value as typed; "none" or "any" where there is none */
    const pare_study_place *place;
} pare_study_axis;

/** A craft in a loadout, of a bench. */
typedef struct pare_study_offer {
    size_t bench;
    const char *craft, *loadout; /* NULL: the craft's first */
    pare_study_place place;
} pare_study_offer;

typedef struct pare_study_bench {
    const char *name, *file; /* NULL: the command's own */
    bool every_craft; /* its offers are not listed: all of its craft, each in its first loadout */
    pare_study_place place;
} pare_study_bench;

typedef struct pare_study_brief {
    const char *name; /* NULL: each craft's own */
    int customers;    /* so many want this */
} pare_study_brief;

/** Which craft cover the briefs. */
typedef enum pare_cover_wish {
    PARE_COVER_CUSTOMERS,
    PARE_COVER_CRAFT,
    PARE_COVER_MONEY,
    PARE_COVER_GRAMS
} pare_cover_wish;

typedef struct pare_study_cover {
    bool asked;
    int most; /* craft; 0: as many as it takes to cover all that can be */
    pare_cover_wish
        wish; /* most customers; or all of them with the fewest craft, least money or grams */
} pare_study_cover;

typedef struct pare_study {
    const char *name;
    bool best;  /* asked: the best set; otherwise the sheet */
    int effort; /* of a search; 0: until it is done */
    size_t figures;
    int figure[PARE_STUDY_FIGURES];
    size_t benches, offers, briefs, axes;
    const pare_study_bench *bench;
    const pare_study_offer *offer;
    const pare_study_brief *brief;
    pare_study_axis axis[PARE_STUDY_AXES];
    pare_study_cover cover;
    const char *results; /* a file; NULL: not said */
} pare_study;

typedef struct pare_study_task {
    size_t offer, brief, value[PARE_STUDY_AXES];
} pare_study_task;

/** How many tasks there are; 0 where they are more than PARE_STUDY_TASKS. */
size_t pare_study_tasks(const pare_study *study);

/** The task of a number, from 0. */
pare_study_task pare_study_task_at(const pare_study *study, size_t number);

/** How many combinations of what varies in briefs there are, and that of a number, from 0, in the order of
 * tasks; what varies else stays at its first value. */
size_t pare_study_conditions(const pare_study *study);
void pare_study_condition(const pare_study *study, size_t number, pare_study_task *task);

/** The value of the axis of a sort that a task has; NULL: nothing of the sort varies. */
const char *pare_study_word(const pare_study *study, const pare_study_task *task, pare_vary of);

#endif
