/* candidates.h: the names of all swaps that are worth trying. Only this room uses it. */
#ifndef PARE_ADVISE_CANDIDATES_H
#define PARE_ADVISE_CANDIDATES_H

#include "advise/shelf.h"

/** @param part  the part that the name puts in, or NULL. @return false to stop */
typedef bool pare_take_name(void *context, const char *name, const pare_part *part);

/** Calls `take` with each name, in a fixed order: items, then joints, then runs, as the craft lists
 * them; an item's parts by id, then off, then its coax, then a sought part last.
 *
 * Not each fits: applying it says so. An item that the loadout takes off or gives another part is
 * left out, for changing it changes nothing that is flown.
 * @param loaded  the craft in the loadout
 * @return whether it was never stopped */
bool pare_candidates(const pare_shelf *shelf, const pare_craft *craft, const pare_craft *loaded,
                     pare_take_name *take, void *context);

#endif
