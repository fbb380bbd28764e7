/* hover.h: the output at which a craft will hover, said before it does, and how often that held. */
#ifndef PARE_ADVISE_HOVER_H
#define PARE_ADVISE_HOVER_H

#include "craft/craft.h"
#include "craft/flight_record.h"
#include "craft/sheet.h"

/** How far one hover's output is off from another's of the same craft, as a share: air that moves, a pilot
 * who corrects, the charge at which it was read. Common practice, no source. */
#define PARE_HOVER_OUTPUT_U 0.03

/** The output that a hover showed: as its pilot read it, otherwise the mean of its log's throttle while it
 * hovered. NAN: it did not hover, or nobody knows. */
double pare_hover_output(const pare_flight_record *flight);

/** Between which outputs nine of ten hovers of a sheet's craft will lie, half a pack down, as many below as
 * above. @return PARE_BAD_DATA where it cannot hover */
pare_status pare_hover_between(const pare_sheet *sheet, double *low, double *high, pare_error *err);

/** Says what a hover will show, from the craft's sheet in the loadout, pack, air and take-off mass of that
 * flight and from nothing that was measured in it: fills promised, low and high, within which nine of
 * ten lie, as many below as above.
 *
 * Where it is said how long it hovered, the charge at the middle of that counts; half a pack otherwise, in
 * doubt by what the charge makes of it from full to landing.
 * @param craft  settled, in no loadout
 * @return PARE_OK; PARE_BAD_DATA where it cannot hover; PARE_UNAVAILABLE. Nothing is promised then */
pare_status pare_hover_promise(const pare_craft *craft, pare_flight_record *flight,
                               pare_error *err);

/** pare_hover_promise() of one that shows an output, which is then put into it; leaves all others alone. */
void pare_hover_foretell(const pare_craft *craft, pare_flight_record *flight);

typedef struct pare_hover_score {
    size_t made, held;
} pare_hover_score;

/** How often it was foretold, of all craft, and how many of these held. @param hover  [count] */
pare_hover_score pare_hover_score_of(size_t count, const pare_hovered hover[]);

#endif
