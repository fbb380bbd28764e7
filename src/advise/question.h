/* question.h: what a swap leaves for a person to see to. Only this room uses it. */
#ifndef PARE_ADVISE_QUESTION_H
#define PARE_ADVISE_QUESTION_H

#include "advise/edit.h"

/** Notes on a part that was put in: screws that no longer suit, stations beyond a frame, a mass that
 * no such part has, the other hand of an antenna, a smaller capacitor, volts.
 * @return PARE_BAD_DATA where the volts would kill a board */
pare_status pare_question(pare_edit *edit, size_t index, const pare_part *old, pare_error *err);

/** Whether a part leaves an open question in the place of another, whatever else is on the craft. */
bool pare_is_questioned(const pare_part *part, const pare_part *old);

/** Says what to look for: a sought part's wish. */
void pare_question_sought(pare_edit *edit, const pare_item *item, const pare_part *old);

/** What a changed antenna chain does to the range, as a note. */
void pare_question_radio(pare_edit *edit);

#endif
