/* difference.h: how one joint, wire run or coax differs between two states of a craft, as it matters to
 * who does the work. Only this room uses it. */
#ifndef PARE_ADVISE_DIFFERENCE_H
#define PARE_ADVISE_DIFFERENCE_H

#include "craft/craft.h"

/** What becomes of screws. */
typedef enum pare_screws_change {
    PARE_SCREWS_SAME,
    PARE_SCREWS_NEW,     /* other ones for all of them */
    PARE_SCREWS_MORE,    /* some more of the same */
    PARE_SCREWS_SHORTER, /* the same ones, cut */
    PARE_SCREWS_FEWER
} pare_screws_change;

/** What becomes of a joint's screws.
 *
 * Where the part that they came with was exchanged, they are held against what the new one brings: the
 * same ones as before stay, other ones are new.
 * @param is        a joint of the craft after
 * @param[out] was  what it is held against; good unless the answer is PARE_SCREWS_SAME */
pare_screws_change pare_screws_differ(const pare_craft *before, const pare_craft *after,
                                      const pare_joint *is, pare_joint *was);

typedef enum pare_wires_change {
    PARE_WIRES_SAME,
    PARE_WIRES_NEW,    /* made anew: none were there, another gauge, or longer */
    PARE_WIRES_SHORTER /* the same ones, cut */
} pare_wires_change;

/** The same of a run's wires.
 * @param[out] was_m  how long the longest was where they are cut; may be NULL */
pare_wires_change pare_wires_differ(const pare_craft *before, const pare_craft *after,
                                    const pare_run *is, double *was_m);

/** The longest way of a run. */
double pare_run_longest_m(const pare_run *run);

/** Whether an item's coax is cut to another length, its part being what it was. */
bool pare_coax_differs(const pare_craft *before, size_t item, const pare_item *is);

#endif
