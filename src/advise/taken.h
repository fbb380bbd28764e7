/* taken.h: a craft as built, which is as first described and with the swaps that were fitted since;
 * and as planned, with those as well that were only chosen or ordered. */
#ifndef PARE_ADVISE_TAKEN_H
#define PARE_ADVISE_TAKEN_H

#include "base/units.h"
#include "craft/craft.h"
#include "craft/sheet.h"

/** The craft with the swaps that are on it, in the order of its list.
 *
 * A swap is applied with no other parts in sight than the one it names and those it brought along when
 * it was taken, so that what is added to the bench later never changes a craft that is built.
 * @param bench  holds those parts
 * @param craft  as first described: settled, not loaded
 * @param[out] built   may be the same as craft; untouched on failure
 * @param[out] failed  on failure, the place in the list of the swap that does not go on; may be NULL
 * @return as pare_swap_apply(), with the swap in front; also PARE_BAD_DATA for one that rests on a
 *         part that is on no shelf
 * Allocates nothing but a reader of units, and in the bench's arena for a message. */
pare_status pare_taken_as_built(const pare_bench *bench, const pare_craft *craft, pare_craft *built,
                                size_t *failed, pare_error *err);
/** The same with all that is taken: first what is on the craft, then the rest. */
pare_status pare_taken_as_planned(const pare_bench *bench, const pare_craft *craft,
                                  pare_craft *planned, size_t *failed, pare_error *err);

/** Whether every swap taken is one, and the craft can be built: for pare_store_check_with(). A plan may
 * wait for its turn: whether it still goes on is said where it is asked for. */
pare_status pare_taken_check(const pare_bench *bench, const pare_craft *craft, size_t *failed,
                             pare_error *err);

/** What a sheet says of the swaps taken. */
typedef struct pare_taken_facts {
    size_t on, chosen, ordered;
    bool planned;      /* the next two are good: something is chosen or ordered, and goes on */
    double planned_kg; /* all-up once it is */
    double planned_u_kg;
    char why[PARE_WHY]; /* where it does not go on */
    /* quickness as first described; NAN where nothing is on or it does not exist */
    double first_roll_rad_s2, first_pitch_rad_s2, first_kg;
} pare_taken_facts;

/** @param first    as first described
 *  @param loadout  -1, or an index into the craft's loadouts */
pare_status pare_taken_facts_fill(const pare_bench *bench, const pare_craft *first, int loadout,
                                  pare_taken_facts *facts, pare_error *err);

#endif
