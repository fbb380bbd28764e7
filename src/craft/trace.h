/* trace.h: how one flight goes: one line over speed or over time, with the craft's own point marked.
 *
 * Where curve.h asks what would be with other grams, this follows the craft as it is. */
#ifndef PARE_CRAFT_TRACE_H
#define PARE_CRAFT_TRACE_H

#include "craft/curve.h"

typedef enum pare_trace_of {
    PARE_TRACE_MINUTES, /* s until it lands, by m/s, all of it flown level at that speed */
    PARE_TRACE_CURRENT, /* A of the pack, by m/s of level flight, at half charge */
    PARE_TRACE_SAG,     /* V of a cell under the hardest load as flown, by s since take-off */
    PARE_TRACE_WIRE,    /* degC of the hottest power wire's copper, by the same */
    PARE_TRACE_ROLL,    /* rad/s, by s since full roll stick, from hover on a fresh pack */
    PARE_TRACES
} pare_trace_of;

/** One trace. Its first mark is the craft's own: as it is flown, as it lands, at its hottest, 0.1 s after
 * the stick; others may follow it. A wire's line is named after its run.
 *
 * A trace without points says why; nothing fails. In the trace of a wire the entries of the brief are
 * flown in their order, each in one piece: hotter than the same in turns.
 * @param craft  settled and loaded, as its sheet was computed from
 * Costs some fifty evaluations of the flight. Allocates nothing. */
void pare_trace(const pare_craft *craft, const pare_sheet *sheet, pare_trace_of which,
                pare_curve_chart *chart);

#endif
