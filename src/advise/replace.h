/* replace.h: which parts of the bench can replace an item of a craft, and what each saves. */
#ifndef PARE_ADVISE_REPLACE_H
#define PARE_ADVISE_REPLACE_H

#include "advise/swap.h"

typedef struct pare_replacement {
    const pare_part *part;
    double saved_kg; /* with all that comes and goes along; lighter is positive */
    pare_applied applied;
} pare_replacement;

/** The parts that pare_swaps_find() would try for an item and that fit there, most grams saved first;
 * also those that are heavier or break a limit. Propellers need no tables: nothing is flown.
 *
 * @param loadout   -1 or an index into the craft's loadouts
 * @param item      its name
 * @param[out] list [count], in the arena
 * @return PARE_OK; PARE_UNKNOWN: no such item, with the nearest; PARE_BAD_DATA: an item that is not
 *         flown in the loadout, or that comes with another part */
pare_status pare_replacements_find(const pare_bench *bench, const pare_craft *craft, int loadout,
                                   const char *item, pare_arena *arena, size_t *count,
                                   pare_replacement **list, pare_error *err);

#endif
