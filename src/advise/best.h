/* best.h: the lightest set of swaps that a brief allows, with a proof that there is none lighter.
 *
 * What a set is. A craft's items are its first choices, each to stay, to be another part or to come off;
 * what its screws, wires and coax may then be changed to follows from the craft so changed. One option of
 * each choice is a set. The names are those of pare_candidates(): those on the items of the craft as it is,
 * then those on coax, joints and runs of the craft with the items changed. Frame, motors, propeller
 * and pack go on first, in whichever order one after another fits; then controller, ESC, connector and capacitor; then the wires
 * that carry power; then items that may take others down with them, those at the tips of arms, those that draw
 * power; then the other items, coax, screws and signal wires; where that says no more, in the order of the craft's lists. An item that another choice has
 * taken off, or put something else in for, is decided by that.
 *
 * Sought parts and swaps that leave a question open are in no set.
 *
 * What a set must do. The craft that pare_swap_apply_list() makes of it keeps the brief's jobs, and its
 * whole sheet is judged: best_rule.c has the rule. Mass counts in integers of 0.1 mg, each line of the
 * ledger rounded by itself, so that it adds up exactly; ties go by money, then by names.
 *
 * How it is found (a file each, best_inside.h between them):
 *
 *   best_slots.c  choices, options, and what each line of the ledger weighs at the least
 *   best_state.c  one swap more on a craft, and the least that can still become of it
 *   best_rule.c   whether a craft does its job
 *   best_open.c   the least and the most that open choices leave of resistance, load and drag
 *   best_asked.c  which limits are asked of which flight
 *   best_screws.c screws that hold in no way that is open
 *   best_met.c    whether none that follows from a state can do the job
 *   best_ring.c   masses at which arms ring
 *   best_fit.c    what goes with a frame and with a motor, by the table of who meets whom
 *   best_link.c   what a transmitter, its antenna and what joins them weigh together
 *   best_group.c  groups of motor, propeller, pack and frame as a tree, lightest conceivable first
 *   best_dive.c   inside a group: the other items, depth first
 *   best_tail.c   inside a choice of items: coax, screws and wires, lightest first
 *   best_binds.c  what keeps the best from being lighter by one part more
 *   best.c        a first set; the rounds: groups refined and dived into, threads, stopping, the answer
 *
 * A bound is a sum over the ledger: a line that is decided counts as it is, one that is open as the
 * lightest that any option of it makes, and nothing where it could come off along with something else. No
 * set below a state can weigh less, whatever drags what along. A state is dropped when its bound is above
 * the best known, or when a test refutes all sets below it: its flight is worked out with the bound for
 * its mass and with the least drag, load and resistance that are still open, and what fails then fails in
 * all of them, since each such limit is monotone in those.
 *
 * Where arms would ring at the bound, it is raised to the mass at which they no longer do.
 *
 * Groups are taken by their bounds, so when the least of those left is above the best known, that one is
 * proven. Rounds have a fixed size, and in a round nobody looks at what the others find: any number of
 * threads gives the same bits. */
#ifndef PARE_ADVISE_BEST_H
#define PARE_ADVISE_BEST_H

#include <stdint.h>

#include "advise/checklist.h"
#include "advise/resale.h"
#include "advise/swap.h"
#include "base/progress.h"

/** A rating that need not hold whole. */
typedef struct pare_best_eased {
    const char *name; /* of a margin that is no limit of the brief */
    double share;     /* of what it would have to hold: 0.99 lets it miss by a hundredth */
} pare_best_eased;

/** What is to be most, in place of the least grams: each set that is found raises the limits that the
 * craft's brief has on these figures by a grain above the lesser of them, until none is left. */
typedef struct pare_best_raised {
    int figure[2]; /* pare_figure; the second -1: there is one */
    double grain;  /* a share */
} pare_best_raised;

/** Parts that were found together: no set may have these swaps of parts, all of them and no others. */
typedef struct pare_best_bar {
    size_t ids;
    const char *const *id;
} pare_best_bar;

typedef struct pare_best_ask {
    int loadout; /* -1 or an index into the craft's loadouts */
    bool
        every; /* the brief is met in each of the craft's loadouts; mass and choices are those of `loadout` */
    size_t holds, nevers, musts;
    const char *const *hold;  /* choices that stay as they are: an item, "joint.x", "run.x.gauge" */
    const char *const *never; /* ids of parts that the craft must not have */
    const char *const *must;  /* and of those that it must have */
    const int64_t *most_cents; /* what the set may cost; NULL: any money */
    const pare_resale *resale; /* what comes back for what comes off; NULL: nothing */
    const double
        *most_work_min; /* what the work on it may take, as its checklist says; NULL: any time */
    double
        sure; /* the chance with which the brief's limits on figures hold together, 0.5 to below 1, by
                    the linear model (sure.h); 0: they hold as computed, and that is enough */
    int64_t below_100ug; /* only sets lighter than this are of interest; 0: all */
    bool
        any; /* one set is enough, the lightest or not: so found and not proven, or none and proven */
    const pare_best_raised
        *raised; /* what is to be most, and not the grams to be least; NULL: these */
    bool sought; /* parts that nobody sells may be in a set: then nothing of it is worth a proof */
    bool alone;  /* one thread: where it stops after so many questions is then the same each time */
    size_t bars;
    const pare_best_bar *bar;
    size_t eases;
    const pare_best_eased *ease;
    /* Asked between rounds and inside long ones whether to go on; then the best so far is the answer. */
    const pare_progress *progress;
} pare_best_ask;

enum { PARE_BEST_SWAPS = 48, PARE_BEST_LIMITS = 48 };

/** A limit and how often it decided. */
typedef struct pare_best_limit {
    char name[48]; /* of a margin, as on a sheet */
    size_t groups;
} pare_best_limit;

/** One swap of a set, as it goes on after those before it. */
typedef struct pare_best_swap {
    pare_applied applied; /* its money: what it adds to what was bought before it */
    int64_t saved_100ug;
    pare_opening opening; /* how far the craft must be opened for it */
} pare_best_swap;

typedef struct pare_best {
    bool found;  /* swaps and after are good */
    bool proven; /* nothing that was not looked at can be lighter; without found: there is no set */
    bool stopped;                               /* somebody asked for it */
    int64_t was_100ug, best_100ug, bound_100ug; /* all-up, 0.1 mg */
    size_t swaps;
    pare_best_swap *swap;   /* in the order in which they go on */
    double money, work_min; /* money: of one order, less what comes back */
    double back;            /* that comes back */
    bool priced;
    double raised; /* where figures are raised: what no set has more of, HUGE_VAL: not known */
    const pare_craft *before, *after;             /* in no loadout */
    const pare_sheet *sheet_before, *sheet_after; /* as flown in the loadout, with uncertainties */
    const pare_checklist *work;
    size_t binds;
    pare_best_limit
        bind[PARE_BEST_LIMITS]; /* what kept lighter sets out, tightest on the best first;
                                               how often: a group or a set each */
    size_t groups;              /* of frame, motor, propeller and pack */
    size_t opened;              /* put together and looked into */
    size_t dived;               /* searched to the last screw */
    size_t cuts;
    pare_best_limit cut[PARE_BEST_LIMITS]; /* groups cut by a limit, most first */
    size_t sets;                           /* judged in full */
    size_t misses; /* lines that did not add up: must be 0, and then nothing is called proven */
} pare_best;

/** @param craft  as it is: settled, in no loadout, of the bench
 *  @param arena  holds what the answer points to
 *  @return PARE_OK, also where no set meets the brief or where it was stopped; PARE_UNKNOWN: no such
 *          choice or part, with the nearest; PARE_BAD_DATA: the craft cannot be weighed */
pare_status pare_best_find(const pare_bench *bench, const pare_craft *craft,
                           const pare_best_ask *ask, pare_arena *arena, pare_best *best,
                           pare_error *err);

/** The loadout in which a craft is heaviest now; of equal ones the first. -1: it has none.
 * @return PARE_OK; PARE_BAD_DATA: it cannot be weighed in one */
pare_status pare_best_heaviest(const pare_craft *craft, int *loadout, pare_error *err);

/** A craft's all-up mass as sets are compared: each line rounded to 0.1 mg. */
int64_t pare_best_100ug(const pare_assembly *assembly);
/** Such a mass in grams. */
double pare_best_grams(int64_t mass_100ug);

/** Whether a craft does what its brief asks and no rating worse than the craft before it.
 * @param ask  what it says of ratings that are eased; NULL: none are
 * @param before, after  judged sheets of the same brief
 * @param[out] refuses   the first margin that refuses, worst first; PARE_WHY bytes or NULL */
bool pare_best_meets(const pare_best_ask *ask, const pare_craft *craft, const pare_sheet *before,
                     const pare_sheet *after, char refuses[48]);

/** Whether a craft on the way to a set may fly: it meets what the craft before it met, and where that one
 * fell short it is no worse. */
bool pare_best_keeps(const pare_craft *craft, const pare_sheet *before, const pare_sheet *after);

#endif
