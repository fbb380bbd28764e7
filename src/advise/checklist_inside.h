/* checklist_inside.h: the steps of a checklist. Only checklist*.c use it. */
#ifndef PARE_ADVISE_CHECKLIST_INSIDE_H
#define PARE_ADVISE_CHECKLIST_INSIDE_H

#include "advise/checklist.h"

/** A checklist being made, with what its later lines depend on. */
typedef struct pare_checking {
    pare_checklist *list;
    pare_arena *arena;
    bool quiet;        /* what is seen now is done already: no steps of it */
    bool bare;         /* only minutes are asked for: steps are counted, with no texts */
    bool failed;       /* memory ran out */
    bool wiring;       /* lead, ESC or other power wiring */
    bool motor_screws; /* their length, metal or number, or what they go into */
    bool aluminium;    /* screws of it came in */
    bool fewer;        /* screws than before */
    bool pack;         /* another one */
    bool propellers;
    bool antenna;     /* a part of its chain */
    int motor_joints; /* wires of new motors; the same ones as those of a new ESC */
    bool esc;         /* another board with ESCs for all motors */
} pare_checking;

/** Adds the work between a craft before one swap and after it. */
void pare_check_difference(pare_checking *checking, const pare_craft *before,
                           const pare_craft *after);

/** Adds the keys of the screws that hold something. */
void pare_check_keys(pare_checking *checking, pare_opening opening, const pare_craft *craft,
                     const char *held);

#endif
