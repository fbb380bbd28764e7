/* weigh_in.h: what scales said, and what is known of the scales. */
#ifndef PARE_CRAFT_WEIGH_IN_H
#define PARE_CRAFT_WEIGH_IN_H

#include <stdbool.h>
#include <stddef.h>

/** Standard uncertainties as shares: masses that one maker states are off together [E]; readings of a scale
 * that states nothing of its own are (common practice: calibration of a kitchen or letter scale). */
#define PARE_MAKER_BIAS_U   0.01
#define PARE_SCALE_COMMON_U 0.001

/** A scale held against a known mass. */
typedef struct pare_scale_check {
    const char *date;
    double known_kg, known_u_kg, reads_kg;
} pare_scale_check;

typedef struct pare_scale {
    const char *id;
    double resolution_kg;    /* of its last digit */
    double repeatability_kg; /* standard deviation of the same thing, put on again */
    double common; /* standard uncertainty, as a share, that all its readings have alike */
    size_t checks;
    const pare_scale_check *check; /* [checks] */
} pare_scale;

/** Things of a craft that lay on a scale together: an item, "joint.NAME" or "run.NAME", so many. */
typedef struct pare_weighed_thing {
    const char *name;
    int count;
} pare_weighed_thing;

typedef struct pare_weigh_in {
    const char *craft, *date;
    const char *scale;   /* NULL: not said */
    const char *loadout; /* NULL: not said; of the whole craft: the first */
    bool all;            /* the whole craft; otherwise things */
    size_t things;
    const pare_weighed_thing *thing; /* [things] */
    const char *reads;               /* as typed: "153.7 g" */
    double reads_kg;
    double step_kg; /* one in its last digit */
    bool promised;  /* what was said before it follows */
    double low_kg, high_kg;
} pare_weigh_in;

/** All that a bench has of them. */
typedef struct pare_weighings {
    size_t scales;
    const pare_scale *scale; /* by id */
    size_t count;
    const pare_weigh_in *weigh_in; /* by date, those of a day as they came */
} pare_weighings;

#endif
