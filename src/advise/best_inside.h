/* best_inside.h: what the files of the search share (see best.h for the design). */
#ifndef PARE_ADVISE_BEST_INSIDE_H
#define PARE_ADVISE_BEST_INSIDE_H

#include <stdatomic.h>

#include "advise/best.h"
#include "advise/candidates.h"
#include "advise/row.h"
#include "advise/shopping.h"
#include "craft/gauges.h"

enum {
    BEST_SLOTS = PARE_ITEMS,
    BEST_GROUPED = 4, /* frame, motor, propeller, pack */
    BEST_NONE = 255,
    BEST_CLASSES = 8, /* of sets, by what moves; of more than so many nothing is kept */
    BEST_BROUGHT =
        64, /* names of runs and joints that parts bring; the last stands for all that come after */
    BEST_STEP_PARTS = 1000, /* a first dive's ceiling is so much of the bound above it */
    BEST_STATES = 2 * BEST_SLOTS + PARE_RUNS + 8,
    BEST_ROUNDED =
        PARE_LINES / 2 + 1 /* units: each line of a ledger is rounded by half of one at most */
};
#define BEST_UNITS_PER_KG 1e7
#define BEST_NO_BOUND     INT64_MAX

/** The least that a craft truly weighs whose lines, each rounded, come to so much. */
static inline double best_least_kg(int64_t units)
{
    return (double)(units - BEST_ROUNDED) / BEST_UNITS_PER_KG;
}

/** And the most. */
static inline double best_most_kg(int64_t units)
{
    return (double)(units + BEST_ROUNDED) / BEST_UNITS_PER_KG;
}

/** One option of an item. */
typedef struct best_option {
    const pare_swap_name *name; /* NULL: it stays */
    const pare_part *part;      /* NULL: it comes off */
    int64_t least;  /* of its line, less all that may come in it and be taken out again */
    double power_w; /* at least */
    int64_t
        more; /* of a frame or motor: what a set with it weighs more at the least, by what goes with it */
    const bool *never; /* and what does not: [options of all slots]; NULL: not known */
    bool moves; /* it takes more along than others of its choice: an ESC of another sort or with the
                       controller, a camera that comes with its transmitter */
} best_option;

/** A run or a joint that a part may bring instead of the craft's own of that name. */
typedef struct best_brought {
    const char *name;
    double longest_m; /* of a run's wires */
} best_brought;

/** One item's choice. Options are in the order of least, then of names. */
typedef struct best_slot {
    size_t item; /* of the craft */
    size_t options;
    best_option *option;
    int64_t least, most; /* of all options; most: of the line itself */
    int64_t least_plain,
        least_driving; /* of those without, and with, an ESC that the part now has not;
                                           BEST_NO_BOUND: none */
    double power_w, power_most_w;
    unsigned
        drags, /* kinds, bit (1u << kind), of items that an option may take along or bring down */
        drags_calm;      /* and of those, by options that do not move */
    uint64_t brings;     /* of best_search.brought, a bit each: options bring their own */
    bool may_go;         /* an option takes it off */
    bool off_moves;      /* and that one moves */
    unsigned off_needs;  /* work that something else must do then; 0: nothing */
    int64_t least_on[2]; /* of the options that do not: of those that stay calm, and that move */
    const pare_part *lightest[2]; /* of the same two; NULL: none */
    unsigned work, work_calm;     /* of all options, and of those that do not move */
    bool moves;                   /* an option does */
    bool moves_wires;             /* an option is an ESC of another sort, or brings or drops one */
    bool may_be_single;           /* an option is an ESC for one motor */
    bool
        moving_drives; /* options move, and each that does has its own ESCs: then no other has any */
    bool other_threads; /* an option may change the screws that hold it */
    bool counts_change; /* an option counts otherwise: two ties for a print, one ESC for four */
    bool feeds;         /* it has to do with volts and regulators */
    bool states_drag;   /* an option, or what it is now, states a drag area */
    bool elsewhere; /* an option may sit elsewhere: it is of another kind, or takes others along */
    double off_m;   /* how far an option's own centre is from where it sits, at most */
    int64_t comes_in; /* the most that an option's least is less than its line */
    size_t first;     /* of its options among those of all slots */
} best_slot;

typedef struct best_search {
    const pare_bench *bench;
    const pare_best_ask *ask;
    const pare_desk *desk; /* the craft as it is, judged */
    size_t others;         /* loadouts that a set must do its job in as well */
    const struct best_search *other[PARE_LOADOUTS]; /* the same with another desk */
    pare_arena *arena;
    size_t slots;
    best_slot slot[BEST_SLOTS];
    size_t grouped[BEST_GROUPED]; /* places of those four slots, in the order of kinds above */
    size_t wirers;                /* how many slots are decided before the wires that carry power */
    unsigned char slot_of[PARE_ITEMS]; /* of an item: BEST_NONE: none */
    bool never[PARE_ITEMS];            /* an item that must not stay the part that it is */
    uint64_t all;                      /* every slot, a bit each */
    size_t options;                    /* of all slots */
    /* An antenna and its transmitter, and for each option of this the least of the antenna with what joins the
     * two (best_link.c); NULL: there are none. */
    size_t antenna, sender;
    const int64_t *with_sender;
    /* Where one link of its chain is kept: by the sort of that, what the antenna weighs with what joins the two. */
    const struct best_links *links;
    size_t broughts;
    best_brought brought[BEST_BROUGHT];
    double longest_phase_m; /* from any motor to any board, on any frame */
    double margin_least;    /* that the brief asks of every rating; 0: nothing */
    int64_t most;           /* that it lets the craft weigh; BEST_NO_BOUND: it does not say */
    double efficiency_most; /* of what feeds electronics, by any part of the bench */
    size_t nevers, musts;
    const pare_part **never_part, **must_part;
    atomic_bool *stop; /* somebody asked for it */
} best_search;

/** By what share of themselves figures are doubted, where that was last asked. */
typedef struct best_shares {
    bool known;
    double of[PARE_FIGURES];
} best_shares;

/** A craft on the way. */
typedef struct best_state {
    pare_trial trial; /* weighed */
    pare_basket basket;
    pare_work_sum work;    /* of its swaps, where the work is limited */
    uint64_t open;         /* slots that are not decided, a bit each */
    uint64_t calm, moving; /* open slots whose option will not move, or will */
    uint64_t put_on;       /* slots that a part was put into by name */
    bool wires_open;       /* runs that carry the pack's or the motors' current are not decided */
    bool tail_open;        /* coax, joints and the other runs are not */
    bool
        rough; /* no craft, but parts put in the places of others: only thrust can be asked of it */
    double uneven_least;            /* of the rotors' load, whatever is still decided */
    int64_t slot_least[BEST_SLOTS]; /* of the options that may still be chosen */
    /* What the leads, and leads and phase wires together, weigh at the least with what the flight asks of
     * them; INT64_MIN: not asked yet. How many runs that was: of others it says nothing. */
    int64_t lead_least, power_least;
    size_t lead_runs, power_runs;
    /* Of joints, by their place: the least that one may weigh with screws that hold, once that was asked
     * for; see best_state_hold(). */
    bool held[PARE_JOINTS];
    int64_t held_least[PARE_JOINTS];
    best_shares shares; /* where limits have to hold surely */
    size_t swaps;
    pare_swap_name swap[PARE_BEST_SWAPS];
    int64_t units;       /* as it stands */
    int64_t sum, raised; /* the least by the ledger, and because what is lighter rings */
    int64_t
        either; /* of the sum: of an ESC or what drives in its place, beyond what their lines say */
    int64_t linked; /* and of a transmitter, its antenna and what joins them (best_link.c) */
    int64_t
        tips_less; /* how much less than they weigh now the sum counts what swings at the arms' tips */
    int64_t least; /* of what can become of it: the greater of sum and raised */
    int64_t
        most; /* what weighs more fails, or is no better than the best; BEST_NO_BOUND: not known */
} best_state;

/** The best set that somebody has found. */
typedef struct best_set {
    bool found;
    int64_t units, cents; /* unknown prices count as more than any known */
    double value;         /* of what is raised */
    size_t swaps;
    pare_swap_name swap[PARE_BEST_SWAPS];
} best_set;

/* The money of a mass that a set must be below: no set of that mass is better. */
#define BEST_TO_BEAT INT64_MIN
static inline bool best_has_found(const best_set *best)
{
    return best->found && best->cents != BEST_TO_BEAT;
}

/** A group, or what begins one: the first `depth` of motor, propeller, pack and frame are decided, and stand
 * for all groups that begin so. */
typedef struct best_group {
    int64_t least;
    int64_t plain; /* by what each of its parts weighs at the least, added up */
    int64_t
        more; /* of that, by what its motor and frame mean together; the frame open: the least of all */
    int64_t floor; /* of what it begins with, when the frame was still open */
    /* Where figures are raised groups stand by these first: what is put together behind what is not, by
     * how often it has tired a dive, and then by the most that any of its sets can have. */
    unsigned char turn;
    double promise;
    unsigned char depth; /* 1 to BEST_GROUPED */
    int reach;           /* how far the next dive goes beyond: a step, so many times doubled */
    unsigned char tired; /* how often the last that went so far took too long */
    bool tips_first;     /* the next one begins with what swings at the tips of arms */
    uint32_t nodes;      /* of the last that did not */
    bool weighed;        /* motor and frame together: `more` is known */
    bool followed;       /* what comes after it in its place has been put in */
    bool refined;        /* put together, bounded again, tested */
    uint32_t option[BEST_GROUPED]; /* in the order of best_search.grouped */
} best_group;

/** What sets with a motor and a frame weigh beyond what the two add by themselves; BEST_NO_BOUND: they do not go on
 * one after the other. */
typedef struct best_pair {
    int64_t more;
    size_t classes;
    struct best_class {
        uint64_t calm, moving; /* the choices that will not move, and that will, as in a state */
        int64_t more;
    } of[BEST_CLASSES];
} best_pair;

/** Room for best_tail.c. */
typedef struct best_tail_work best_tail_work;

/** Masses that ring, both included; until 0: none. */
typedef struct best_band {
    int64_t from, until;
} best_band;

/** What of a set decides at which masses its arms ring. */
typedef struct best_tips {
    uint32_t option[BEST_GROUPED];
    double low_hz, high_hz, tip_kg; /* of the arm, with the screws that a state has */
    double drag_m2;
    int64_t units[PARE_JOINTS]; /* that a set has of each joint at the tips instead */
} best_tips;

/** Bands that have been found by sets that rang (best_rung.c). */
typedef struct best_rungs best_rungs;

/** What one thread works with. */
typedef struct best_worker {
    const best_search *search;
    pare_units *reader;
    const best_state *first; /* the craft as it is */
    best_state *state;       /* [BEST_STATES] */
    best_state *spare;       /* [3] */
    pare_sheet *probe;       /* for tests */
    pare_craft *lightest;
    best_tail_work *tail;
    best_rungs *rungs;
    pare_shopping *shopping;
    best_set best;           /* to be beaten */
    const best_group *group; /* that is put together */
    const best_pair *pair;   /* its motor and frame, in a dive */
    size_t sets, misses, nodes;
    size_t patience, begun; /* nodes that this dive may try, 0: all; nodes at its beginning */
    bool stopped, tired;    /* tired: stopped because of its patience */
    int64_t open_least;     /* of what was not looked at when stopped */
    int64_t ceiling;        /* what weighs more is left for another dive into the same group */
    int64_t left_least;     /* of what was left */
    unsigned char
        *knows;      /* [options of all slots]: of the group that is dived into, a best_known */
    bool tips_first; /* this dive begins with what swings at the tips of arms */
    size_t culprit;  /* the slot whose every option was just refuted; BEST_NONE: none */
    size_t refused;
    size_t refusals;
    pare_best_limit refusal[PARE_BEST_LIMITS]; /* of whole sets that would have been lighter */
} best_worker;

/* ---- best_slots.c ---- */
/** The order of a choice's options, for qsort. */
int best_by_least(const void *left, const void *right);
/** Sums up what a slot's options are. */
void best_slot_sum(const best_search *search, best_slot *slot);
pare_status best_slots_gather(best_search *search, pare_error *err);
/** Takes out of the other slots what goes on in no case. @param state  room */
void best_slots_drop(best_search *search, best_state *first, best_state *state);
/** Takes out of the four slots of a group what can go on in no group. @param state  room */
void best_slots_reach(best_search *search, best_state *first, best_state *state);

/* ---- best_lines.c ---- */
/** Whether something is to stay as it is: all of it, or a property.
 * @param what  "joint.", "run." or nothing
 * @param property  NULL: all of it is asked for */
bool best_is_held(const best_search *search, const char *what, const char *name,
                  const char *property);
/** Where a name stands among what parts bring; best_search.broughts: none does. */
size_t best_brought_at(const best_search *search, const char *name);
/** What open choices may bring, a bit each. */
uint64_t best_brings(const best_search *search, const best_state *state);
/** Whether one of those comes instead of the craft's own run or joint of a name, which then goes. NULL: none.
 * @param included_in  the part that the craft's own came in; then it is not replaced */
const best_brought *best_is_brought(const best_search *search, uint64_t brings, const char *name,
                                    const char *included_in);
/** What of a joint, a run or coax may be another way: what a craft has a choice of, less what is to stay. */
pare_joint_choices best_joint_choices(const best_search *search, const pare_craft *craft,
                                      const pare_joint *joint);
pare_run_choices best_run_choices(const best_search *search, const pare_craft *craft,
                                  const pare_run *run);
/** @return 0: none */
double best_coax_choice_m(const best_search *search, const pare_craft *craft,
                          const pare_item *item);
/** What a joint's line, or a run's, or coax's, weighs at the least on the craft of a state. */
int64_t best_joint_least(const best_search *search, const best_state *state, size_t joint);
typedef bool best_screws_may(void *context, const pare_joint *joint);
/** The least of the ways that `may` lets pass; BEST_NO_BOUND: none. */
int64_t best_joint_least_of(const best_search *search, const pare_craft *craft, size_t joint,
                            best_screws_may *may, void *context);
/** A run as short as it may be cut. @param boards_move  the ESC may yet be another board */
void best_run_shortest(const best_search *search, const best_state *state, size_t run,
                       bool boards_move, pare_run *shortest);
int64_t best_run_least(const best_search *search, const best_state *state, size_t run,
                       bool boards_move);
int64_t best_joint_units(const pare_joint *joint);
int64_t best_run_units(const pare_run *run);

/* ---- best_state.c ---- */
/** The craft as it is, nothing decided. */
pare_status best_state_first(const best_search *search, best_state *state, pare_error *err);
/** One swap more, not weighed yet. False: it does not go on, or must not. */
bool best_state_edit(const best_search *search, const best_state *from, const pare_swap_name *name,
                     best_state *to);
bool best_state_weigh(const best_search *search, best_state *state);
/** Two different states. */
void best_state_copy(const best_search *search, const best_state *from, best_state *to);
/** Whether a slot's item is as it was at first: nothing has taken it off or changed it. */
bool best_state_stands(const best_search *search, const best_state *state, size_t slot);
/** Decides a slot. NULL name: it stays. */
bool best_state_choose(const best_search *search, const best_state *from, size_t slot,
                       const best_option *option, best_state *to);
/** Works out state->least. */
void best_state_bound(const best_search *search, best_state *state);
/** What each line of a state's ledger weighs at the least in every set below it. */
void best_lines_least(const best_search *search, const best_state *state,
                      int64_t least[PARE_LINES]);
/** Asks of each joint which of its screws hold at the least mass, and bounds the state once more.
 * @param flown  as best_screws_hold() */
void best_state_hold(const best_search *search, best_state *state, const pare_sheet *flown);
/** The craft with the lightest of each open choice, whether or not it fits: for what things weigh at the
 * least where they are held. */
void best_lightest(const best_search *search, const best_state *state, pare_craft *lightest);
int64_t best_units(double mass_kg);
/** Whether an open run carries power and no open choice can take it away. @param[out] lead  the pack's */
bool best_run_gives(const best_search *search, const best_state *state, size_t run, bool *lead);
/** Whether no open choice can take a joint away or change it. */
bool best_joint_stands(const best_search *search, const best_state *state, size_t joint);
/** A slot is decided. */
static inline bool best_open(const best_state *state, size_t slot)
{
    return (state->open & (uint64_t)1 << slot) != 0;
}

/** The slot of frame, motor, propeller or pack; NULL: it is no choice. */
static inline const best_slot *best_grouped(const best_search *search, size_t g)
{
    return search->grouped[g] == BEST_NONE ? NULL : &search->slot[search->grouped[g]];
}

/** Whether a slot is one of the four of a group. */
static inline bool best_is_grouped(const best_search *search, size_t slot)
{
    for (size_t g = 0; g < BEST_GROUPED; g++)
        if (search->grouped[g] == slot)
            return true;
    return false;
}

/** Frame and motors are decided, so it is known where the motors are. */
static inline bool best_arms_decided(const best_search *search, const best_state *state)
{
    for (size_t g = 0; g < 2; g++)
        if (search->grouped[g] != BEST_NONE && best_open(state, search->grouped[g]))
            return false;
    return true;
}

static inline bool best_may_move(const best_search *search, const best_state *state, size_t slot)
{
    return search->slot[slot].moves_wires && (state->calm & (uint64_t)1 << slot) == 0;
}

/** Whether an open choice may move wires or boards. */
static inline bool best_any_moves(const best_search *search, const best_state *state)
{
    for (size_t s = 0; s < search->slots; s++)
        if (best_open(state, s) && best_may_move(search, state, s))
            return true;
    return false;
}

static inline unsigned best_drags(const best_search *search, const best_state *state, size_t slot)
{
    return state->calm & (uint64_t)1 << slot ? search->slot[slot].drags_calm
                                             : search->slot[slot].drags;
}
/** Whether an open choice may still take its item off: nothing keeps it, or something else may do its work. */
bool best_may_go(const best_search *search, const best_state *state, size_t slot);
/** Whether an open choice may still be an option. */
static inline bool best_may_be(const best_search *search, const best_state *state, size_t slot,
                               const best_option *option)
{
    if ((option->moves ? state->calm : state->moving) >> slot & 1)
        return false;
    return option->part || best_may_go(search, state, slot);
}
/** What an item of the four weighs at the least with all that comes in it; a pack with its connector,
 * where that counts as nothing while the pack is open. */
int64_t best_state_own(const best_search *search, const best_state *state, size_t item);
/** What an open choice's item counts in a state's sum. */
int64_t best_open_counts(const best_search *search, const best_state *state, size_t slot);
/** Whether an open choice may take a part's item along or bring it down. */
bool best_is_dragged(const best_search *search, const best_state *state, const pare_part *part);

/** How much more the sets below a state weigh than they do in another loadout, at the least. False: not known.
 * @param there  the state's craft, weighed in that */
bool best_loads_more(const best_search *search, const best_state *state, const best_state *there,
                     int64_t *more);

/** Decides whether a slot's option will move. */
void best_set_class(const best_search *search, best_state *state, size_t slot, bool moves);

/* ---- best_rule.c ---- */
/** The ratio that a margin needs. */
double best_need(const best_search *search, const char *name);
void best_count(size_t *limits, pare_best_limit limit[PARE_BEST_LIMITS], const char *name,
                size_t more);
/** The name of a limit's margin. */
void best_limit_name(char name[48], const char *key);

/* ---- best_asked.c ---- */
/** Whether a limit on a figure is on the side where the flattering flight flatters it. */
bool best_is_flattered(int figure, bool at_least);
/** Whether an entry of the profile is held at full throttle while items or wires are open: then a flight with the
 * least resistance flatters no minutes. */
bool best_is_held_full(const best_state *state);

/* ---- best_screws.c ---- */
/** Whether a joint's screws, as they are or would be, hold as far as they must.
 * @param lightest  best_lightest() of a state
 * @param flown     a sheet of its craft with the least mass and the least thrust of all below it
 * @param[out] by   the margin that says no; may be NULL */
bool best_screws_hold(const best_search *search, const pare_craft *lightest,
                      const pare_sheet *flown, const pare_joint *joint, char by[48]);

/* ---- best_met.c ---- */
/** A motor's winding with no wire on it and no drive before it. */
double best_bare_ohm(const pare_part *motor, const pare_rig *rig);
/** Whether every set below a weighed state fails. @param[out] by  the limit that it fails */
bool best_refuted(const best_search *search, best_state *state, pare_sheet *probe,
                  pare_craft *lightest, char by[48]);
/** The same by the ratings alone that no flight changes: what volts an item may get. */
bool best_volts_fail(const best_search *search, const best_state *state, pare_sheet *probe,
                     char by[48]);
/** The most that any set below a state has of what is raised; HUGE_VAL: not known. Works in the probe. */
double best_promise(const best_search *search, const best_state *state, pare_sheet *probe);
/** What a judged sheet has of what is raised: the lesser of its figures. */
double best_raised_value(const best_search *search, const pare_sheet *sheet);
/** Raises a state's bound to the lightest power wires that the flight allows: it counts the thinnest, which
 * the pack's sag may forbid. @return whether none will do */
bool best_wires_fail(const best_search *search, best_state *state, pare_sheet *room, char by[48]);

/* ---- best_balance.c ---- */
/** How unevenly the rotors of every set below a state carry at the least (pare_rig.uneven), of those sets that
 * weigh at most so much; BEST_NO_BOUND: 0. */
double best_uneven_least(const best_search *search, const best_state *state, int64_t most);

/* ---- best_ring.c ---- */
/** Raises a state's least over the masses at which its arms ring. What is raised may then be refuted.
 * @return whether it was raised */
bool best_raise(const best_search *search, best_state *state);
/** The greatest mass up to which a whole set that has failed by an arm's ringing fails so, were it heavier:
 * another with the same tips that weighs no less rings as well. 0: not surely, or by something else.
 * @param margin  that it failed by */
int64_t best_rings_until(const best_search *search, const best_state *whole, const char *margin,
                         pare_sheet *probe);

/* ---- best_rung.c ---- */
/** @return NULL: out of memory. Free it with free(). */
best_rungs *best_rungs_room(void);
/** What is common to sets that a state's tail makes, but for the screws at their tips. False: nothing swings, or no
 * group is dived into. */
bool best_tips_of(const best_worker *worker, const best_state *state, best_tips *tips);
/** Both as one where they touch; else the second. */
best_band best_band_join(best_band a, best_band b);
void best_rung_keep(best_rungs *rungs, const best_tips *tips, best_band band);
/** The band that sets with these tips are known to ring in. */
best_band best_rung_of(best_rungs *rungs, const best_tips *tips);

/* ---- best_money.c ---- */
/** What a whole set costs, with money back for what comes off; INT64_MAX: something has no price. */
int64_t best_set_cents(const best_search *search, const best_state *whole, pare_shopping *room);
/** What every set that comes of a state costs at the least. */
int64_t best_cents_least(const best_search *search, const best_state *state);
int64_t best_basket_cents(const best_search *search, const pare_basket *basket);
/** Parts that are bought whatever is still decided. */
void best_surely_bought(const best_search *search, const best_state *state, pare_basket *basket);
/** Money back for all that may still come off. */
int64_t best_most_back_cents(const best_search *search, const best_state *state);
/** Adds what a joint's screws, or a run's wire, ask to be bought as they are on a craft. */
void best_screws_bought(const best_search *search, const pare_craft *craft, const pare_joint *joint,
                        pare_basket *basket);
void best_wire_bought(const best_search *search, const pare_craft *craft, const pare_run *run,
                      pare_basket *basket);
/** Whether a state costs more than the set may, or takes longer; then so does all that comes of it. */
bool best_is_too_dear(const best_search *search, const best_state *state);

/* ---- best_binds.c ---- */
/** Counts what refuses each lighter part on the best set among what decides. Works in the worker's states. */
void best_binds_find(best_worker *worker, const best_set *best, pare_best *answer);

/* ---- best_sure.c ---- */
/** Whether every set below a state keeps the brief's limits less surely than asked for.
 * @param probe  flown as best_refuted() does, thrust flattered; figures' u are changed
 * @param shares  of the state, brought up to date
 * @param[out] by  the limit that is least sure */
bool best_unsure(const best_search *search, const best_state *state, pare_sheet *probe,
                 best_shares *shares, char by[48]);
/** Whether a whole set keeps them surely enough. @param judged  its sheet @param room  for another */
bool best_is_sure(const best_search *search, const pare_craft *craft, const pare_sheet *judged,
                  pare_sheet *room, char by[48]);

/* ---- best_group.c ---- */
typedef struct best_groups {
    const best_search *search;
    int64_t root; /* the least of the first group */
    size_t count, room;
    best_group *heap;
    size_t made;      /* groups that fit by themselves */
    best_pair **pair; /* [motors][frames]: what is known of the two together, or NULL */
    bool failed;      /* out of memory */
} best_groups;
/** @param first  the craft as it is, bounded */
bool best_groups_open(const best_search *search, const best_state *first, best_groups *groups);
void best_groups_close(best_groups *groups);
/** The least of those left; BEST_NO_BOUND: none are. */
int64_t best_groups_least(const best_groups *groups);
/** Takes the least one; what comes after it in its place is put in. */
best_group best_groups_next(best_groups *groups);
void best_groups_put(best_groups *groups, best_group group);
/** Puts the first of those in that begin with this one. */
void best_groups_deeper(best_groups *groups, best_group group);
/** Whether what is decided of a group could fit together, whatever goes on in between. */
bool best_group_fits(const best_search *search, const best_group *group);
/** Works a pair out, to be freed. Works in the worker's states. NULL: out of memory. */
best_pair *best_pair_ask(best_worker *worker, const best_groups *groups, const best_group *group);
/** What is known of a whole group's pair, to be read and set. */
best_pair **best_pair_of(const best_groups *groups, const best_group *group);
/** Adds to a group what its motor and frame mean together. */
void best_group_weigh(best_group *group, int64_t more);
/** Adds to all groups that begin with a motor what any frame means with it at the least; what is found out of its pairs
 * is kept. False: no frame goes on with it. */
bool best_motor_weigh(best_worker *worker, const best_groups *groups, best_group *group);
/** Whether all groups that begin so fail: motor, propeller and pack are flown at the least mass, with no
 * resistance in any wire and no arm below the propellers. */
bool best_group_fails(best_worker *worker, const best_group *group, char by[48]);
/** Puts its four together in the worker's state[0]. False: they do not go on in any order. */
bool best_group_build(best_worker *worker, const best_group *group);

/* ---- best_fit.c ---- */
/** Finds what goes with each frame and motor, and puts those two slots' options in the order of the least that
 * sets with them weigh. @param room  states, one more than slots that move */
pare_status best_fit_find(best_search *search, const best_state *first, best_state room[],
                          pare_error *err);
/** Whether an option of another slot is in no set with a whole group's frame or motor. */
bool best_never_with(const best_search *search, const best_group *group, size_t slot, size_t index);
/** The least by the ledger of all below the first of some states, which has a group's frame and motor: of each class
 * by the lightest that goes with them; BEST_NO_BOUND: something has nothing that goes. The state's slots are
 * counted so, too. */
int64_t best_fit_least(const best_search *search, const best_group *group, best_state state[]);
/** The same, with each choice that moves others put on, and by class. @param[out] pair  `more` is such a least */
void best_fit_classes(const best_search *search, const best_group *group, best_state state[],
                      best_pair *pair);

/* ---- best_link.c ---- */
/** Finds a transmitter and its antenna among the slots, and what they weigh together. */
pare_status best_link_find(best_search *search, pare_error *err);
/** What those two weigh more, with what joins them, than a state counts while the antenna is open.
 * @param links  what all links on the craft are counted as
 * @param kept   and of those the ones that are kept */
int64_t best_link_more(const best_search *search, const best_state *state, int64_t links,
                       int64_t kept);
/** Whether a part may be a link of an antenna's chain. */
bool best_is_antenna_link(const pare_part *part);
/** Whether a slot has a link that was put on by name: what would take it off clashes with that name, so it stays. */
bool best_is_kept_link(const best_search *search, const best_state *state, size_t slot);
/** What a link of an antenna's chain weighs at the least. */
int64_t best_link_units(const pare_part *part);

/* ---- best_dive.c ---- */
/** Whether an option goes on in no case: the item that it does not fit, which the refusal names, is decided later
 * than it, or has been, and is nothing that another choice takes along. */
bool best_goes_never(const best_search *search, const best_state *state, size_t slot,
                     const best_option *option, best_state *room);
/** Whether a choice that is open, and comes before a slot, may take an item along or bring it down. */
bool best_is_draggable(const best_search *search, const best_state *state, size_t item,
                       size_t before);
/** What a state with one option more weighs at the least, before it is put on. One that another choice may
 * still take off counts as nothing, and an ESC or what drives in its place by the lesser of the two. NULL: it has
 * been decided by another choice. */
int64_t best_least_with(const best_search *search, const best_state *state, size_t slot,
                        const best_option *option);
/** All sets of a group whose four are decided in worker->state[0], up to the worker's ceiling. */
void best_dive(best_worker *worker);
/** All sets of a state whose slots before this one are decided. */
void best_dive_from(best_worker *worker, size_t depth, size_t slot);
/** Whether every set below a state fails in another loadout; raises its bound over masses at which it rings there.
 * @param[out] by  the limit that it fails there */
bool best_refuted_elsewhere(best_worker *worker, best_state *state, char by[48]);
/** Whether the slot that refused all below a state refuses there already. Works in the state above. */
bool best_culprit_refuses(best_worker *worker, size_t depth);
/** Raises what is known of how unevenly the sets below a state carry, of those that weigh at most so much and are
 * better than the worker's best. */
void best_balance(const best_worker *worker, int64_t most, best_state *state);
/** Whether a state is done for after a flight; raises its bound by all that the flight says.
 * @param[out] by  the limit that it fails; its probe is left as best_refuted() does */
bool best_flown_out(best_worker *worker, best_state *state, char by[48]);
/** Whether a state may go on, when its wires are decided next or just have been. */
bool best_wired(best_worker *worker, size_t depth);

/* ---- best_tail.c ---- */
/** All sets of a state whose items are decided. */
void best_tail(best_worker *worker, size_t depth);
/** Decides the wires that carry power, then dives on from a slot. */
void best_wires(best_worker *worker, size_t depth, size_t slot);
best_tail_work *best_tail_room(void);
void best_tail_free(best_tail_work *work);

/** Whether the set would be the better answer. */
bool best_is_better(const best_set *best, int64_t units, int64_t cents, size_t swaps,
                    const pare_swap_name swap[]);
/** Whether nothing below a state, which may weigh so much at the least, can be, or is for this dive. */
bool best_is_hopeless(best_worker *worker, const best_state *state, int64_t least);
/** Whether a mass is above what this dive goes to; a later one goes there. */
bool best_is_left(best_worker *worker, int64_t least);
/** Whether so many minutes of work are more than there may be. */
bool best_is_over(double work_min, double most_min);
/** Notes what refused something that would have been lighter. */
void best_refusal(best_worker *worker, const char *by);
/** Asks now and then. */
bool best_go_on(best_worker *worker);

#endif
