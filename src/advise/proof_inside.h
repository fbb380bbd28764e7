/* proof_inside.h: what the files of the certificate share (see proof.h for the design). */
#ifndef PARE_ADVISE_PROOF_INSIDE_H
#define PARE_ADVISE_PROOF_INSIDE_H

#include "advise/candidates.h"
#include "advise/proof.h"
#include "advise/row.h"

enum {
    PROOF_VERSION = 1,
    PROOF_CHOICES = PARE_ITEMS,
    PROOF_GROUP = 4, /* motor, propeller, pack, frame: decided first, in this order */
    PROOF_SWAPS = 48,
    PROOF_DEPTH = 320, /* of a tree: every choice, twice, and what may stand between */
    PROOF_NAMES = 3,   /* of one way of a joint */
    PROOF_LABEL = 192
};
#define PROOF_NONE  255
#define PROOF_NEVER INT64_MAX /* heavier than anything */

/** What an option, or any of several, may do and weighs at the least. */
typedef struct proof_sum {
    int64_t least; /* of its line, less all that may come in it and be taken out again */
    double power_w, power_most_w;
    unsigned drops; /* kinds that it may take off the craft, bit (1u << kind) */
    bool named;     /* it is a change */
    bool off;       /* it takes the item off */
    bool shifts;    /* it may be another sort of board: wires then end elsewhere */
    bool threads;   /* it may change the screws that hold it */
    bool between;   /* it may lie between two that do not fit each other */
    bool brings;    /* wire or screws come in it */
} proof_sum;

/** One option of an item. */
typedef struct proof_option {
    const pare_swap_name *name; /* NULL: it stays */
    const pare_part *part;      /* NULL: it comes off */
    bool plain;                 /* it takes nothing along */
    proof_sum sum;
} proof_option;

typedef enum proof_allow { PROOF_ALL, PROOF_PLAIN, PROOF_OTHER, PROOF_ONE } proof_allow;

/** One item's choice: options by least, then by names. */
typedef struct proof_choice {
    size_t item;
    size_t options;
    proof_option *option;
    proof_sum sum[PROOF_ONE]; /* of all, of the plain ones, of the others */
    int turn;
    unsigned quiet; /* kinds that any change may leave without work: an adapter, a link, a plug */
    bool splits;    /* has options of both sorts */
} proof_choice;

typedef struct proof_space {
    const pare_bench *bench;
    const pare_proof_claim *claim;
    pare_desk *desk;
    pare_arena *arena;
    size_t choices;
    proof_choice choice[PROOF_CHOICES];
    unsigned char choice_of[PARE_ITEMS];
    unsigned char group[PROOF_GROUP]; /* places of those; PROOF_NONE: not to be chosen */
    size_t boards;       /* how many choices are decided before the wires that carry power */
    double margin_least; /* that the brief asks of every rating */
} proof_space;

/** What is decided next. */
typedef enum proof_step {
    PROOF_STEP_GROUP,
    PROOF_STEP_ITEM,
    PROOF_STEP_POWER, /* a run that carries power */
    PROOF_STEP_TIP,   /* the joint of what swings at the arms' tips */
    PROOF_STEP_COAX,
    PROOF_STEP_JOINT,
    PROOF_STEP_RUN,
    PROOF_STEP_SET /* nothing: a whole set */
} proof_step;

/** A node: a craft on the way. */
typedef struct proof_state {
    pare_trial trial;                   /* weighed */
    uint64_t open;                      /* choices that are not decided, a bit each */
    unsigned char allow[PROOF_CHOICES]; /* a proof_allow */
    uint32_t one[PROOF_CHOICES];
    bool built; /* the group is on */
    proof_step step;
    size_t at;              /* the choice, joint, item or run that is decided next */
    bool held[PARE_JOINTS]; /* what its screws weigh at the least is known */
    int64_t held_least[PARE_JOINTS];
    int64_t units;   /* as it stands */
    int64_t floor;   /* what is lighter rings */
    int64_t ceiling; /* what is as heavy is not lighter than the claim, or fails */
    int64_t bound;   /* what can become of it weighs no less */
    size_t swaps;    /* names on it, in the room's list */
} proof_state;

/** One way of a joint, run or coax. */
typedef struct proof_way {
    char label[PROOF_LABEL];
    size_t names;
    char name[PROOF_NAMES][PARE_SWAP_NAME];
    pare_joint joint; /* of a joint: so */
} proof_way;

/** Room for one that walks the tree. */
typedef struct proof_room {
    pare_units *reader;
    pare_swap_name name[PROOF_SWAPS]; /* on the way to the node that is looked at */
    proof_state *spare;               /* [3] */
    pare_sheet probe, sag, full;      /* see proof_fly() */
    pare_sheet light;                 /* as full, with the least load */
    bool flown_sag, flown_current;
    bool flown_fast; /* the profile has an entry that a heavier craft might fly on less */
    pare_craft lightest;
    size_t states;
    proof_state *state[PROOF_DEPTH]; /* made when first used */
} proof_room;

/* ---- proof_space.c ---- */
/** Of the options that a state allows. */
static inline const proof_sum *proof_sum_of(const proof_space *space, const proof_state *state,
                                            size_t choice)
{
    const proof_choice *of = &space->choice[choice];
    return state->allow[choice] == PROOF_ONE ? &of->option[state->one[choice]].sum
                                             : &of->sum[state->allow[choice]];
}
/** @param claim  stands as long as the space */
pare_status proof_space_open(const pare_bench *bench, const pare_craft *craft,
                             const pare_proof_claim *claim, pare_arena *arena, proof_space **space,
                             pare_error *err);
pare_status proof_room_open(proof_room **room, pare_error *err);
void proof_room_close(proof_room *room);
/** The state of a depth. NULL: no memory, or deeper than any tree is. */
proof_state *proof_room_at(proof_room *room, size_t depth);
/** The craft as it is. */
pare_status proof_first(const proof_space *space, proof_state *state, pare_error *err);
void proof_copy(const proof_space *space, const proof_state *from, proof_state *to);
/** How many there are of what a state decides next. 0: it is a whole set. */
size_t proof_ways(const proof_space *space, const proof_state *state);
/** What that is called: "motor", "run.lead", "joint.posts", "antenna.length". */
void proof_what(const proof_space *space, const proof_state *state, char what[PROOF_LABEL]);
/** What the nth is called: a part's id, "stay", "off", "gauge=16+length=83mm". */
void proof_label(const proof_space *space, const proof_state *state, size_t nth,
                 char label[PROOF_LABEL]);
/** Whether an option is among those that a state allows: others are not below it. */
bool proof_allowed(const proof_space *space, const proof_state *state, size_t choice, size_t nth);
/** Decides it. @return false: it does not go on, or must not */
bool proof_enter(const proof_space *space, proof_room *room, const proof_state *from, size_t nth,
                 proof_state *to);
/** A way of the joint, run or coax that is next. */
void proof_way_of(const proof_space *space, const proof_state *state, size_t nth, proof_way *way);
/** All ways of a joint, whatever is next. */
size_t proof_joint_ways(const proof_space *space, const proof_state *state, size_t joint);
void proof_joint_way(const proof_space *space, const proof_state *state, size_t joint, size_t nth,
                     proof_way *way);
/** Whether a part may lie between two that do not fit each other, or an antenna and its transmitter. */
bool proof_lies_between(const pare_part *part);
/** Whether what is decided of a group cannot mate, whatever else is on. */
bool proof_apart(const proof_space *space, const proof_state *state, size_t nth);
/** Whether a choice, by the left side of its swaps, is to stay as it is. */
bool proof_held(const proof_space *space, const char *left);
/** Puts one swap on. False: it does not go on, or must not. */
bool proof_edit(const proof_space *space, proof_room *room, const proof_state *from,
                const pare_swap_name *name, proof_state *to);
static inline bool proof_open(const proof_state *state, size_t choice)
{
    return (state->open >> choice & 1) != 0;
}
/** Whether boards and the wires that carry power are decided; whether all items are. */
static inline bool proof_wired(const proof_space *space, const proof_state *state)
{
    return state->step > PROOF_STEP_POWER ||
           (state->step == PROOF_STEP_ITEM && state->at >= space->boards);
}
static inline bool proof_items_done(const proof_state *state)
{
    return state->step > PROOF_STEP_POWER;
}

/* ---- proof_bound.c ---- */
int64_t proof_units(double mass_kg);
int64_t proof_weigh(const pare_assembly *assembly);
/** The least that a craft truly weighs whose lines, each rounded to 0.1 mg, come to so much. */
double proof_least_kg(int64_t units);
void proof_weigh_option(const pare_item *now, const pare_part *part, proof_sum *sum);
/** Works out state->bound. */
void proof_bound(const proof_space *space, proof_state *state);
/** What the bound were, were a choice that is open decided so; not put on. */
int64_t proof_bound_with(const proof_space *space, proof_state *state, size_t choice, size_t nth);
/** Whether an open choice may take an item off, or put something else in for it. */
bool proof_at_risk(const proof_space *space, const proof_state *state, size_t item);
/** Whether everything that does some work is decided, and nothing open can change it. */
bool proof_done(const proof_space *space, const proof_state *state, unsigned work);
/** A run as short, and as thin, as its ways allow. False: something open may yet take it off, bring another or
 * move its ends. */
bool proof_run_range(const proof_space *space, const proof_state *state, size_t run,
                     pare_run *shortest, pare_run *thinnest);
/** Whether a run of a name is there and decided, and nothing open can change it. */
bool proof_run_done(const proof_space *space, const proof_state *state, const char *name);
/** Whether nothing that is open can take a joint away or change it. */
bool proof_joint_sure(const proof_space *space, const proof_state *state, size_t joint);
/** Which ways of each joint hold at the least mass: what screws weigh is known better then. */
void proof_hold(const proof_space *space, proof_room *room, proof_state *state);
/** The lightest that each item may be, whether or not it fits: what is held weighs no less. */
void proof_lightest(const proof_space *space, const proof_state *state, pare_craft *lightest);

/* ---- proof_flight.c ---- */
/** Flies a state's craft at a mass, with all that is open as it flatters most: in room->probe; in room->sag what
 * flatters a cell's volts, in room->full and room->light what flatters currents, where wires are known well enough. */
void proof_fly(const proof_space *space, proof_room *room, const proof_state *state, int64_t units);
/** The first limit, worst first, by which all of a state's sets of that mass or more fail; NULL: none.
 * @param only  that limit alone; NULL: any @param[out] ratio  of what it bears to what it must bear */
const char *proof_fails(const proof_space *space, proof_room *room, const proof_state *state,
                        const char *only, double *ratio);
/** The ratio that a rating needs. */
double proof_need(const proof_space *space, const char *name);
/** Whether a craft whose sheet is judged does what it must. @param[out] by  what refuses; ratio  its */
bool proof_does_its_job(const proof_space *space, const pare_sheet *sheet, const char **by,
                        double *ratio);
/** Whether it has what it must have and nothing that it never may. */
bool proof_has_its_parts(const proof_space *space, const pare_craft *craft);

/* ---- proof_ring.c ---- */
/** Whether all sets from the bound up to a mass fail because an arm rings. @param margin  "arm.ring" or
 * "arm.ring_cruise" */
bool proof_rings(const proof_space *space, proof_room *room, const proof_state *state,
                 const char *margin, int64_t below);
/** Whether screws hold in no set of a state. @param joint  as it would be; room->lightest and room->probe are
 * the state's @param flown  whether the thrust is known */
bool proof_screws_fail(const proof_space *space, proof_room *room, const proof_state *state,
                       const pare_joint *joint, bool flown);

/* ---- proof_leaf.c: what a line of a certificate says of a node, worked out ---- */
/** A joint that is sure and holds in none of its ways; NULL: each may. @param only  NULL: any */
const char *proof_loose(const proof_space *space, proof_room *room, const proof_state *state,
                        const char *only);
/** A part that is asked for and that no set of a state has; NULL: each may. @param only  NULL: any */
const char *proof_lacks(const proof_space *space, const proof_state *state, const char *only);
/** The bound of the lightest of an item's options from one on, none of them put on; PROOF_NEVER: none are. */
int64_t proof_rest(const proof_space *space, proof_state *state, size_t from);
/** Restricts a choice to its plain options, or the others. */
void proof_part(const proof_space *space, const proof_state *from, size_t choice, bool plain,
                proof_state *to);
/** Judges a whole set. @return false: it does not do what it must, by `by` */
bool proof_judge(const proof_space *space, proof_state *state, const char **by, double *ratio);
/** Whether a certificate's claim holds of the set that it names: it goes on, does what it must and weighs so.
 * @param room  its first two states are made
 * @param[out] why  what does not, in words */
bool proof_claimed(const proof_space *space, proof_room *room, char why[256]);

#endif
