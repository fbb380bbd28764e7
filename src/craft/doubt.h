/* doubt.h: how uncertain each figure of a sheet is. */
#ifndef PARE_CRAFT_DOUBT_H
#define PARE_CRAFT_DOUBT_H

#include "craft/doubt_flight.h"
#include "craft/learned.h"
#include "craft/sheet.h"
#include "physics/pair.h"

/** How propellers move: not at all; at the brief's speed, or on a short way up at full throttle; at the
 * speed of best range, or in the fastest climb and level flight. */
typedef enum pare_motion { PARE_STILL, PARE_MOVING, PARE_FAST, PARE_MOTIONS } pare_motion;

/** What is doubted of the numbers of a rig, of themselves: what masses and stations do to them comes
 * on top. Standard uncertainties. */
typedef struct pare_doubts {
    double u[PARE_DOUBTED]; /* of thrust and power at hover */
    /* How thrust, power and the motor's numbers are off together: held or at full throttle, by motion. What
     * is here is in u as well. */
    pare_pair_doubt drive[2][PARE_MOTIONS];
    /* What flights left in doubt of what they taught (learned.h), held or at full throttle, by
     * motion, number and source. Of a drive it is in drive as well, less how it goes with the rest. */
    bool learned[PARE_TAUGHTS];
    double root[2][PARE_MOTIONS][PARE_TAUGHTS][PARE_TAUGHT_SOURCES];
} pare_doubts;

/** The number that something learned is about. */
extern const pare_doubted pare_doubted_of_taught[PARE_TAUGHTS];

/** @param sheet  with its speed of rotors in hover and its thrust to weight, fresh */
void pare_doubts_of(const pare_craft *craft, const pare_sheet *sheet, pare_doubts *doubts);

/** Fills u of every figure that exists, by propagating the uncertainty of every input.
 *
 * Law of propagation (JCGM 100:2008, eq. 10 and 13, and the second-order term where doubt is wide):
 * independent sources, each with its signed effect on all figures at once, so that copies of a part
 * share one error, a maker's stated masses share a maker's bias, weighed masses share a scale, and
 * thrust and power errors go together.
 *
 * @param sheet  with all its figures, or with some groups of them (craft/flight.h) and what
 *               pare_doubts_of() needs: then that is all that is flown
 * Costs about thirteen plain sheets. Accuracy: within 10 % of flights of all inputs drawn together,
 * thrust to weight at landing within 16 % (tests/unit/doubt.c). Allocates nothing. */
void pare_sheet_doubt(const pare_craft *craft, pare_sheet *sheet);

/** The same without what masses and stations do: never more than that. */
void pare_sheet_doubt_flight(const pare_craft *craft, pare_sheet *sheet);

/** The same with other doubts about the rig. */
void pare_sheet_doubt_with(const pare_craft *craft, const pare_doubts *doubts, pare_sheet *sheet);

#endif
