/* knock_on.h: what follows a saved gram, in parts that can be bought.
 *
 * Everything stays as it is but what carries the rest: motors, propellers, pack, ESCs and the pack's lead. The brief
 * holds (what is broken now is no worse), and minutes as flown and thrust to weight are no less than now. What
 * these could shed so with nothing saved is no knock-on, so the best of them is found first. Then grams are taken off the craft at its centre of mass, more and more, and the best is found
 * again: at each tenth of a gram at which it changes something smaller will do, and that is a step. Beside it
 * stands what the scaling laws say (pare_rig_growth), as if motors and packs came in all sizes. */
#ifndef PARE_ADVISE_KNOCK_ON_H
#define PARE_ADVISE_KNOCK_ON_H

#include "advise/best.h"

enum { PARE_KNOCKS = 24, PARE_KNOCK_PARTS = 16 };

/** What one line of the ledger lost in a step; negative: what it gained. */
typedef struct pare_knock_part {
    const char *name; /* of the item, joint or run */
    const char *to;   /* a part's id, "20 AWG"; NULL: the same, less of it */
    double less_kg;
} pare_knock_part;

typedef struct pare_knock {
    int64_t saved_100ug;   /* from which on this is the best */
    int64_t follows_100ug; /* that it weighs less than the best with nothing saved */
    double estimate_kg;    /* that would follow by the laws */
    size_t parts;
    pare_knock_part part[PARE_KNOCK_PARTS]; /* what changed against the step before */
} pare_knock;

typedef struct pare_knock_on {
    bool found; /* there is a set with nothing saved */
    bool
        proven; /* each best set is, and no step is left out that is wider than a tenth of a gram */
    int64_t sheds_100ug; /* what the best weighs less than the craft with nothing saved */
    int64_t saved_100ug, follows_100ug; /* all of it */
    bool growth_known;
    double growth; /* by the laws: grams in the end for one that is saved */
    size_t knocks; /* steps, the first with nothing saved */
    pare_knock knock[PARE_KNOCKS];
    /* The best with nothing saved; the same with the grams off; and with all that follows. */
    const pare_sheet *before, *lighter, *after;
    bool pack_shrinks;
    double
        spends; /* the share of the minutes won by the saved grams that what follows spends; 1: all */
} pare_knock_on;

/** @param ask    as for pare_best_find(); what it holds stays held
 *  @param saved_kg  more than 0, below half of what the craft weighs
 *  @return PARE_OK, also where there is no set or it was stopped; PARE_BAD_DATA: more grams than can be off;
 *          else as pare_best_find() */
pare_status pare_knock_on_find(const pare_bench *bench, const pare_craft *craft,
                               const pare_best_ask *ask, double saved_kg, pare_arena *arena,
                               pare_knock_on *knock_on, pare_error *err);

#endif
