/* stand_fit.h: the stand tables of one pair and its parts, as one fit of the model. */
#ifndef PARE_CRAFT_STAND_FIT_H
#define PARE_CRAFT_STAND_FIT_H

#include "base/arena.h"
#include "craft/part.h"
#include "craft/stand_table.h"

/** The tables of one pair, and the parts that they name. */
typedef struct pare_stand_fitting {
    const pare_part *motor, *propeller; /* completed; the propeller's table is warm */
    size_t tables;
    const pare_stand_table *table; /* [tables]; those with a fault say nothing */
} pare_stand_fitting;

/** Bends the model of two parts to what a stand measured of them (physics/pair.h).
 *
 * @param arena  for the work
 * @return PARE_BAD_DATA where the tables say nothing that a fit could use, with the reason */
pare_status pare_stand_fit(const pare_stand_fitting *fitting, pare_arena *arena, pare_pair_fit *fit,
                           pare_error *err);

/** A number that changes when anything that the fit depends on does. For the key under which a bench
 * keeps it. */
unsigned long long pare_stand_fit_key(const pare_stand_fitting *fitting);

#endif
