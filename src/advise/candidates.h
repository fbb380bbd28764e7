/* candidates.h: the names of all swaps that are worth trying. Only this room uses it. */
#ifndef PARE_ADVISE_CANDIDATES_H
#define PARE_ADVISE_CANDIDATES_H

#include "craft/craft.h"

/** Calls `take` with each name, in a fixed order: items, then joints, then runs, as the craft lists
 * them; an item's parts by id, then off, then its coax, then a sought part last.
 *
 * Not each fits: applying it says so. An item that the loadout takes off or gives another part is
 * left out, for changing it changes nothing that is flown.
 * @param loaded  the craft in the loadout
 * @param take    returns false to stop */
void pare_candidates(const pare_bench *bench, const pare_craft *craft, const pare_craft *loaded,
                     bool (*take)(void *context, const char *name), void *context);

#endif
