/* checklist.h: the work that taken swaps ask for, in the order in which a builder would do it.
 *
 * What is to be done is read off the craft before and after each swap, with all that comes or goes
 * along, and gathered by how far the craft must be opened for it, so that it is opened once. Where work
 * can hurt, the usual cautions stand; they are no more than reminders. */
#ifndef PARE_ADVISE_CHECKLIST_H
#define PARE_ADVISE_CHECKLIST_H

#include "advise/work.h"
#include "craft/craft.h"

enum { PARE_CHECK_STEPS = 48, PARE_CHECK_TOOLS = 12, PARE_CHECK_LINES = 20 };

/** One opening of the craft. */
typedef struct pare_check_group {
    double minutes;
    int solder_joints;
    size_t steps, tools;
    const char *step[PARE_CHECK_STEPS];
    const char *tool[PARE_CHECK_TOOLS];
} pare_check_group;

typedef struct pare_checklist {
    size_t swaps; /* that it is for */
    bool work;    /* something is still to be done by hand */
    double minutes;
    int solder_joints;
    size_t firsts, checks;
    const char *first[PARE_CHECK_LINES]; /* before any work */
    pare_check_group group[PARE_OPENINGS];
    const char *check[PARE_CHECK_LINES]; /* before it flies, and on its first flight */
} pare_checklist;

/** The list for some of the swaps taken on a craft.
 *
 * For those that are on the craft already there is no work left, but what must be looked at before it
 * flies. A plan that does not go on as things are is left out.
 * @param first   as first described
 * @param wanted  [first->takens]
 * @param arena   holds the texts
 * @return PARE_OK; as pare_taken_as_built() where the craft cannot be built */
pare_status pare_checklist_make(const pare_bench *bench, const pare_craft *first,
                                const bool wanted[], pare_arena *arena, pare_checklist *list,
                                pare_error *err);

/** The list for swaps that nobody has taken yet, in the order in which they go on.
 * @param craft    as it is: settled, in no loadout
 * @param opening  [count] out: how far the craft is opened for each */
pare_status pare_checklist_plan(const pare_bench *bench, const pare_craft *craft, size_t count,
                                const char *const swap[], pare_arena *arena, pare_checklist *list,
                                pare_opening opening[], pare_error *err);

/** The minutes of some swaps one after another, without a word on them. Zero-initialise. */
typedef struct pare_work_sum {
    double minutes[PARE_OPENINGS];
    bool opened[PARE_OPENINGS]; /* some of them are worked on in there */
} pare_work_sum;

/** Adds the work between two states of a craft. Allocates nothing. */
void pare_check_minutes(const pare_craft *before, const pare_craft *after, pare_work_sum *sum);

/** All minutes of swaps that make a craft, as the checklist for them has them. */
double pare_work_sum_min(const pare_work_sum *sum, const pare_craft *after);

/** What no further swap makes less: all but propellers that only come off to be put on again. */
double pare_work_sum_least_min(const pare_work_sum *sum);

#endif
