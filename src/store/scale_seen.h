/* scale_seen.h: what a scale says while something lies on it, however it is connected. */
#ifndef PARE_STORE_SCALE_SEEN_H
#define PARE_STORE_SCALE_SEEN_H

#include <stdbool.h>

typedef enum pare_scale_state {
    PARE_SCALE_UNSAID, /* it does not say whether it is at rest */
    PARE_SCALE_STABLE,
    PARE_SCALE_ZERO, /* at rest, and empty */
    PARE_SCALE_MOVING,
    PARE_SCALE_UNDER, /* less than nothing */
    PARE_SCALE_OVER,  /* more than it bears */
    PARE_SCALE_FAULT,
    PARE_SCALE_CALIBRATE,
    PARE_SCALE_REZERO,
} pare_scale_state;

enum { PARE_SCALE_TEXT = 48 };

typedef struct pare_scale_seen {
    pare_scale_state state;
    bool weighs;                /* there is a weight: the rest is filled */
    char text[PARE_SCALE_TEXT]; /* as the scale has it: "96.2 g" */
    double kg, step_kg;         /* step: one in its last digit */
} pare_scale_seen;

#endif
