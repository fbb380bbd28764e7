/* crash.h: what a crash asks of a craft, beside what it asked of another.
 *
 * Nobody knows how hard a crash is: the same energy stops in 30 mm of grass or 3 mm of concrete. But
 * whatever it is, it is the same for two craft that hit the same thing, so the ratio of two crashes is
 * known as well as the ratio of their masses, and that is what is said here. */
#ifndef PARE_CRAFT_CRASH_H
#define PARE_CRAFT_CRASH_H

#include "craft/sheet.h"

/** What it bears over what it must, now over then: more than 1 is tougher. NAN: one of them is not
 * there. */
typedef struct pare_ratio {
    double value, u;
} pare_ratio;

typedef enum pare_crash_at {
    PARE_CRASH_STATED, /* the brief's speed, for both the one of the craft now */
    PARE_CRASH_CRUISE, /* each at the speed that it flies at for the longest; at best range where its
                          brief flies at none */
    PARE_CRASH_TOP,    /* each at its own top speed: a lighter craft flies faster */
    PARE_CRASHES
} pare_crash_at;
const char *pare_crash_name(pare_crash_at at);

typedef struct pare_crash {
    double speed_m_s;                 /* NAN: it has no such speed */
    double energy_j, drop_m, force_n; /* mean force over PARE_STOPPING_M */
    double then_m_s, then_j;          /* of the reference; NAN: none */
    pare_ratio energy;                /* now over then */
    pare_ratio arm; /* the root of an arm that takes it all: strength over stress */
} pare_crash;

typedef struct pare_crash_joint {
    const char *name;
    pare_ratio bears; /* at the stated speed */
} pare_crash_joint;

/** Something that a strap, a pad or a holder keeps in place. */
typedef struct pare_crash_held {
    const char *name;
    pare_kind kind;
    double pulls_n;      /* mean force on what holds it, at the stated speed */
    pare_ratio bears;    /* what holds it, taken to be as strong by the piece */
    int ways, ways_then; /* straps about a pack; 0: not counted */
    bool pad, pad_then;  /* under a pack */
} pare_crash_held;

enum { PARE_CRASH_HELD = 3 };

typedef struct pare_crash_facts {
    bool against; /* there is a reference */
    pare_crash at[PARE_CRASHES];
    bool plates;                     /* the reference's arms are plates */
    double arm_then_m;               /* their thickness */
    double arm_same_m, arm_same_u_m; /* that bears the same crash at the mass now */
    double arm_spare_kg;             /* what all arms would be lighter by; less than 0: heavier */
    size_t joints;
    pare_crash_joint joint[PARE_JOINTS]; /* those that both have, weakest first */
    size_t held;
    pare_crash_held hold[PARE_CRASH_HELD]; /* pack, camera, action camera */
    double propellers,
        frame; /* money: two propellers; the frame for one broken arm; NAN: no price */
    pare_ratio roll, pitch, yaw; /* angular acceleration by the same output, now over then */
} pare_crash_facts;

/** Propellers that a hard landing costs, of a craft; common practice, no source. */
#define PARE_CRASH_PROPELLERS 2

/** @param then, then_sheet  the reference, loaded and flown; both NULL: none, and ratios are NAN
 *  @param change_u_kg       of the mass now less then (advise/mass_change.h)
 * Allocates nothing. */
void pare_craft_crash(const pare_craft *craft, const pare_sheet *sheet, const pare_craft *then,
                      const pare_sheet *then_sheet, double change_u_kg, pare_crash_facts *facts);

/** The thickness of arm that bears at another mass what a craft's own bears now, at the same speed;
 * NAN where it has none of plate. */
double pare_crash_arm_at_m(const pare_craft *craft, const pare_sheet *sheet, double mass_kg);

#endif
