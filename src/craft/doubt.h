/* doubt.h: how uncertain each figure of a sheet is. */
#ifndef PARE_CRAFT_DOUBT_H
#define PARE_CRAFT_DOUBT_H

#include "craft/doubt_flight.h"
#include "craft/sheet.h"

/** What is doubted of the numbers of a rig, of themselves: what masses and stations do to them comes
 * on top. Standard uncertainties. */
typedef struct pare_doubts {
    double u[PARE_DOUBTED];        /* of logarithms; of thrust and power those at rest */
    pare_prop_doubt still, moving; /* of the propellers' model */
} pare_doubts;

/** @param sheet  at least weighed */
void pare_doubts_of(const pare_craft *craft, const pare_sheet *sheet, pare_doubts *doubts);

/** Fills u of every figure that exists, by propagating the uncertainty of every input.
 *
 * Law of propagation (JCGM 100:2008, eq. 10 and 13, and the second-order term where doubt is wide):
 * independent sources, each with its signed effect on all figures at once, so that copies of a part
 * share one error, a maker's stated masses share a maker's bias, weighed masses share a scale, and
 * thrust and power errors go together.
 *
 * @param sheet  with all its figures
 * Costs about thirteen plain sheets. Accuracy: within 10 % of flights of all inputs drawn together
 * (tests/unit/doubt.c). Allocates nothing. */
void pare_sheet_doubt(const pare_craft *craft, pare_sheet *sheet);

/** The same with other doubts about the rig. */
void pare_sheet_doubt_with(const pare_craft *craft, const pare_doubts *doubts, pare_sheet *sheet);

#endif
