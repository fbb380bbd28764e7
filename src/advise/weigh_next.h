/* weigh_next.h: which reading would tell most. */
#ifndef PARE_ADVISE_WEIGH_NEXT_H
#define PARE_ADVISE_WEIGH_NEXT_H

#include "advise/promise.h"
#include "craft/sheet.h"

/** Readings, one after another, each the one that leaves least doubt about a sum.
 *
 * @param count   possible readings
 * @param cover   [count x count] covariance of what would lie on the scale
 * @param noise   [count] variance of each reading itself, above 0
 * @param with    [count] covariance of each with the sum
 * @param var     variance of the sum
 * @param picks   how many, count at most
 * @param[out] pick  [picks] which
 * @param[out] left  [picks] variance of the sum after it and those before
 * cover and with are changed: by what a reading tells, exactly (a rank-one update). Allocates nothing. */
void pare_weigh_greedy(size_t count, double cover[], const double noise[], double with[],
                       double var, size_t picks, size_t pick[], double left[]);

typedef struct pare_weigh_choice {
    const char *name; /* as it is typed: "motor", "joint.motor_base", "whole" */
    int count;
    pare_promise promise; /* of the reading */
    double left_kg;       /* doubt about the sum once it and those before it are weighed */
    double right;         /* the chance that a verdict about the limit is right then; of CHANCE */
} pare_weigh_choice;

/** What a list is ranked by. */
typedef enum pare_weigh_for {
    PARE_WEIGH_FOR_ALL_UP,  /* doubt about all-up mass, of a craft that was never weighed whole */
    PARE_WEIGH_FOR_CLOSURE, /* about what is not written down, of one that was */
    PARE_WEIGH_FOR_CHANCE   /* whether the limit holds: it is near */
} pare_weigh_for;

typedef struct pare_weigh_list {
    pare_weigh_for by;
    double now_kg;    /* doubt about the sum */
    double limit_kg;  /* of CHANCE */
    double now_right; /* the chance that a verdict about it is right, as things are */
    size_t count;
    const pare_weigh_choice *choice; /* [count] the best first */
} pare_weigh_list;

/** What to weigh next of a craft as it is, so that the sum of what is written down is known better: its
 * all-up mass where it was never weighed whole, what is not written down where it was. Where it is open
 * whether its brief's limit of mass holds (a chance of 1 to 99 %), so that this becomes surer instead: the
 * whole craft on the scale is then a reading like others.
 * @param loadout  -1: none
 * @param scale    for the readings
 * @param most     so many at most */
pare_status pare_weigh_next(pare_closure *closure, const char *craft, int loadout,
                            const pare_scale *scale, size_t most, pare_weigh_list *list,
                            pare_error *err);

/** The same of a sheet's lines, which know what scales said of them: each by the share that it takes off
 * the variance of all that is written down, the best first.
 * @param craft  that the sheet is of
 * @param[out] order, share  [most]
 * @return how many, `most` at most; what takes next to nothing off is left out */
size_t pare_weigh_lines(const pare_craft *craft, const pare_sheet *sheet, size_t most,
                        size_t order[], double share[]);

#endif
