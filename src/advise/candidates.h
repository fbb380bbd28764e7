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

/** What those names say of one joint's screws, one run's wire and one item's coax, untyped; less what is
 * never counted on: metals that are spent after one crash where that must not be. */
enum { PARE_LIGHTER_METALS = 4, PARE_THINNER_GAUGES = 2 };
typedef struct pare_joint_choices {
    size_t materials;
    pare_screw_material material[PARE_LIGHTER_METALS];
    int count;       /* fewer of them; 0: none should go */
    double length_m; /* another, mostly shorter; 0: not */
} pare_joint_choices;
typedef struct pare_run_choices {
    size_t gauges;
    int gauge[PARE_THINNER_GAUGES];
    double length_m; /* shorter; 0: not */
} pare_run_choices;
pare_joint_choices pare_joint_choices_of(const pare_craft *craft, const pare_joint *joint);
pare_run_choices pare_run_choices_of(const pare_craft *craft, const pare_run *run);
/** 0: not to be cut. */
double pare_coax_choice_m(const pare_craft *craft, const pare_item *item);

#endif
