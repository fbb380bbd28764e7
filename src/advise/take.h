/* take.h: swaps accepted for a craft, moved on from stage to stage, or left again. */
#ifndef PARE_ADVISE_TAKE_H
#define PARE_ADVISE_TAKE_H

#include "advise/swap.h"

/** One swap of those asked for. */
typedef struct pare_take_one {
    size_t entry;         /* its place in the new list; where it was left: in the old one */
    const pare_swap *row; /* what it does, as its promise says; NULL: it had been taken before */
} pare_take_one;

/** A craft's list of taken swaps, changed. */
typedef struct pare_taking {
    size_t count;
    pare_taken taken[PARE_TAKENS];
    int was[PARE_TAKENS]; /* place in the craft's list before; -1: a new one */
    size_t ones;
    pare_take_one one[PARE_TAKENS];
} pare_taking;

/** Takes swaps, or moves on those that were taken.
 *
 * A new one's promise is what it changes on the craft as it then is, in its first loadout: with all
 * that is on it and, unless the new one goes on at once, with all that is planned. A swap that goes onto
 * the craft moves behind those that are on it already, and what it brings along is looked for once
 * more, on the bench of that day.
 * @param bench  all of it
 * @param craft  as first described
 * @param list   "bumper=off,motor=mo-b"
 * @param date   days for the stages, NULL: not this one; at least one of them
 * @param arena  holds what the taking points to
 * @return PARE_OK; PARE_UNKNOWN: no such swap, or it clashes with one that waits; PARE_BAD_DATA: it
 *         changes nothing, does not fit, rests on a part that is on no shelf, days that go
 *         backwards, no room in the list */
pare_status pare_take(const pare_bench *bench, const pare_craft *craft, const char *list,
                      const char *const date[PARE_STAGES], pare_arena *arena, pare_taking *taking,
                      pare_error *err);

/** Takes swaps off the list that are not on the craft yet.
 * @return PARE_OK; PARE_UNKNOWN: not on the list (with what is); PARE_BAD_DATA: it is on the craft, or
 *         another one that waits rests on it */
pare_status pare_take_leave(const pare_bench *bench, const pare_craft *craft, const char *list,
                            pare_arena *arena, pare_taking *taking, pare_error *err);

#endif
