/* calc.h: one thing that `pare calc` can answer. */
#ifndef PARE_CLI_CALC_H
#define PARE_CLI_CALC_H

#include "cli/keys.h"
#include "show/answer.h"

typedef struct calc_thing {
    const char *name;
    size_t keys;
    const key *key;
    pare_status (*answer)(const key_values *given, pare_units *units, pare_answer *answer,
                          pare_error *err);
} calc_thing;

extern const calc_thing calc_air, calc_prop;   /* calc_flight.c */
extern const calc_thing calc_solid, calc_mesh; /* calc_body.c */
extern const calc_thing calc_motor, calc_pack, calc_wire, calc_esc, calc_screw, calc_joint,
    calc_arm, calc_coax; /* a file each */

#endif
