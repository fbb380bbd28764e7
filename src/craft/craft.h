/* craft.h: one aircraft: its items, joints, wire runs, loadouts and brief.
 *
 * Plain data with fixed room, so that a changed craft is a copy and a few assignments: a swap is
 * tried without allocating anything. Names and parts are lent by the bench that the craft came from. */
#ifndef PARE_CRAFT_CRAFT_H
#define PARE_CRAFT_CRAFT_H

#include <stdbool.h>
#include <stddef.h>

#include "craft/learned.h"
#include "craft/part.h"
#include "craft/stand_table.h"
#include "craft/taken.h"
#include "craft/weighed.h"
#include "physics/rig.h"

enum {
    PARE_ITEMS = 48,
    PARE_JOINTS = 24,
    PARE_RUNS = 24,
    PARE_LOADOUTS = 8,
    PARE_LIMITS = 24,
    PARE_FLOWN = 12,
    PARE_STATIONS = 16, /* of one item */
    PARE_WAYS = 4,
    PARE_FEEDS = 4
};

typedef enum pare_place {
    PARE_AT_DEFAULT, /* nothing said: its kind's usual place, with a wide uncertainty */
    PARE_AT_POINTS,
    PARE_AT_ARMS /* at a share of the way along each arm, 1: the motor's axis */
} pare_place;

typedef struct pare_item {
    const char *name;
    const pare_part *part;
    int count;
    bool off; /* taken off by a swap or a loadout */
    pare_place place;
    double along_arm;
    double at_u_m; /* standard uncertainty of each coordinate: 3 mm said, 20 mm not said */
    pare_mat3 turn;
    pare_job job;
    size_t feeds; /* an antenna's chain, in order, by item name */
    const char *feed[PARE_FEEDS];
    double cut_length_m; /* coax cut shorter than the part's own length; 0: as it came */
    double drag_then_m2; /* that its part stated when the craft was settled first */
    bool drag_known, drag_settled;
    const char *included_in;  /* an item that this one came with: adds no mass; NULL otherwise */
    const pare_part *body_of; /* whose body follows; NULL: pare_craft_settle() works it out */
    pare_body body;           /* one of the part, turned, at its own origin, scaled to 1 kg */
    size_t stations;
    pare_vec3 at_m[PARE_STATIONS]; /* last: a copy needs only those that are used */
} pare_item;

typedef struct pare_joint {
    const char *name;
    pare_fastener standard;
    pare_thread thread;
    double length_m;           /* 0: a nut or washer */
    double across_m, tapped_m; /* a standoff: see physics/nut.h */
    pare_screw_material material;
    const char *grade; /* class as typed: "12.9"; NULL: not said */
    int count;
    bool none;               /* a swap took all of its washers off: count is 0 and stays so */
    const char *holds;       /* item name, or "arm" */
    const char *into;        /* material of the other side, as typed; NULL: not said */
    double engaged_m;        /* thread in thread as it should be; 0: one diameter, as is usual */
    const char *included_in; /* item whose mass already has these screws; NULL: none */
    double included_kg;      /* of the described screws as they came, all of them; 0 with
                                included_in set: pare_craft_settle() works it out */
    bool at_given;
    pare_vec3 at_m;
    double needed_m;               /* stack to be gripped plus engagement; 0: not known */
    double written_kg, weighed_kg; /* of one screw: by geometry as it was weighed, and by the scale;
                                      0: never weighed */
} pare_joint;

typedef struct pare_run {
    const char *name;
    double gauge;
    double outer_m; /* 0: usual for the gauge */
    size_t ways;    /* how many conductors, each with its length */
    double way_m[PARE_WAYS];
    int times;           /* the set repeated, once a motor for phase wires */
    const char *carries; /* "pack", "motor", or an item name: whose current */
    const char *included_in;
    double included_kg;  /* as it came, all of it; 0: pare_craft_settle() works it out */
    double included_ohm; /* as it came: one set, all ways in series, at 20 degC */
    bool at_given;
    pare_vec3 at_m;
    double needed_m;               /* what its stations ask for, a way; 0: not known */
    double written_kg, weighed_kg; /* of one set, likewise */
} pare_run;

typedef struct pare_loadout {
    const char *name;
    size_t without;
    const char *off[PARE_ITEMS];
    size_t uses;
    struct {
        const char *item;
        const pare_part *part;
    } use[8];
} pare_loadout;

/** A limit of the brief: a figure's key less its unit, and which side is allowed. */
typedef struct pare_limit {
    const char *key; /* "all_up", "flown", "margin" */
    bool at_least;   /* >= ; otherwise <= */
    double value;    /* SI */
    int line, column;
} pare_limit;

typedef struct pare_brief {
    double altitude_m, temperature_degc, humidity;
    double pressure_pa, sea_level_pa; /* 0: not said */
    bool temperature_given;           /* otherwise the standard's at that altitude */
    bool humidity_given;              /* otherwise dry */
    size_t entries;
    pare_flown flown[PARE_FLOWN];
    pare_landing landing; /* cell_v 0: the chemistry's own */
    double crash_speed_m_s;
    size_t limits;
    pare_limit limit[PARE_LIMITS];
    unsigned keep; /* bit (1u << job); flies is always kept */
} pare_brief;

typedef struct pare_craft {
    const char *name;
    pare_brief brief;
    size_t items, joints, runs, loadouts;
    double drag_m2;  /* in level flight as it stood when it was settled first: craft/drag.h */
    bool drag_given; /* the craft says it */
    bool drag_of_parts, drag_settled;
    const pare_weighed *weighed; /* what scales said of it; NULL: nothing */
    const pare_taught *learned;  /* what flights taught; NULL: nothing was kept */
    size_t stands;
    const pare_stand_table *stand; /* [stands] of all pairs that the bench has measured; see
                                      pare_craft_stands() */
    pare_item item[PARE_ITEMS];
    pare_joint joint[PARE_JOINTS];
    pare_run run[PARE_RUNS];
    pare_loadout loadout[PARE_LOADOUTS];
    size_t takens;
    pare_taken taken[PARE_TAKENS]; /* not applied here: advise/taken.h makes the craft as built */
} pare_craft;

/** *to = *from, less the room that is not used: a third of the bytes. Two different craft. */
void pare_craft_copy(const pare_craft *from, pare_craft *to);

/** The limit of the brief on a figure, by its key, or NULL. */
const pare_limit *pare_brief_limit(const pare_brief *brief, const char *stem);

/** The place of a named item, joint, run or loadout, or -1. */
int pare_craft_item(const pare_craft *craft, const char *name);
int pare_craft_joint(const pare_craft *craft, const char *name);
int pare_craft_run(const pare_craft *craft, const char *name);
int pare_craft_loadout(const pare_craft *craft, const char *name);
/** The first item that is on and does a kind's work, or -1. */
int pare_craft_doing(const pare_craft *craft, pare_kind kind);
/** The item that drives the motors, all on one board or one for each, or -1. */
int pare_craft_esc(const pare_craft *craft);

/** The stand tables of the motor and propeller that are on now: none of what was there before a swap.
 * @param[out] found  how many, from the one returned on; 0 with NULL */
const pare_stand_table *pare_craft_stands(const pare_craft *craft, size_t *found);

/** Everything that one bench holds, in memory. The store fills it; all else lends from it. */
typedef struct pare_bench {
    pare_arena *arena;
    const char *money; /* "EUR" */
    size_t parts, crafts;
    pare_part **part;   /* by id, ascending */
    pare_craft **craft; /* by name, ascending */
    size_t stands;
    pare_stand_table *stand; /* [stands] by motor, then propeller */
} pare_bench;
const pare_part *pare_bench_part(const pare_bench *bench, const char *id);
const pare_craft *pare_bench_craft(const pare_bench *bench, const char *name);

/** Checks a craft as a whole once its parts are known, and fills what follows from them: included
 * runs and joints take their geometry from the part that brings them; something included twice is an
 * error that names both; a craft without frame, motor, propeller, pack or ESC says which is missing. */
pare_status pare_craft_settle(pare_craft *craft, pare_error *err);

/** The length that a joint's screws need: the stack that they grip plus their engagement, as stated
 * or, for motor screws, from the frame's arm and the washers on it; 0 where it is not known. */
double pare_joint_needed_m(const pare_craft *craft, const pare_joint *joint);
/** How far its screws reach beyond what they grip, below 0 where they do not; NAN: not known. */
double pare_joint_enters_m(const pare_craft *craft, const pare_joint *joint);
/** The least thread in thread that holds: a full nut's, or what the joint says where that is less. */
double pare_joint_least_m(const pare_joint *joint);
/** How deep they may go, by the motor that they hold; 0: nothing is in the way. */
pare_value pare_joint_depth_m(const pare_craft *craft, const pare_joint *joint);
/** Nuts or washers that sit on a joint's screws: joints that hold the same and have the same thread.
 * @return the first, or NULL */
const pare_joint *pare_joint_nuts(const pare_craft *craft, const pare_joint *joint);
const pare_joint *pare_joint_washers(const pare_craft *craft, const pare_joint *joint);
/** The length that one way of a run needs between its stations, slack included; 0: not known. */
double pare_run_needed_m(const pare_craft *craft, const pare_run *run);
/** The length of coax that an antenna or pigtail needs between its stations, slack included; 0: not
 * known. */
double pare_coax_needed_m(const pare_craft *craft, const pare_item *item);

/** The frame's motor axes, front left first, clockwise from above; how many (0: no frame on). */
size_t pare_craft_arms(const pare_craft *craft, size_t most, pare_vec3 arm_m[]);
/** The frame's arm piece, or NULL when it states none. */
const pare_piece *pare_craft_arm_piece(const pare_craft *craft);
/** How many of a part are on the craft by themselves, not as what another part brings. */
int pare_craft_pieces(const pare_craft *craft, const pare_part *part);
/** At how many places the copies of an item sit: 1 where all of them share one. */
int pare_item_places(const pare_item *item);
/** Where copy `which` of an item sits, in craft axes. */
pare_vec3 pare_item_station(const pare_craft *craft, const pare_item *item, size_t which);

/** The craft as flown in a loadout: items off and parts used as it says. index -1: none. */
pare_status pare_craft_load(const pare_craft *craft, int index, pare_craft *loaded,
                            pare_error *err);

#endif
