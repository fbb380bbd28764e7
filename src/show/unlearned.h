/* unlearned.h: where what flights taught about one thing stands beside what is only thought of another. */
#ifndef PARE_SHOW_UNLEARNED_H
#define PARE_SHOW_UNLEARNED_H

#include "advise/swap.h"
#include "base/text.h"

/** Whether a swap puts another motor or propeller on in the place of those that flew and were learned from. */
bool pare_swap_is_unlearned(const pare_craft *craft, const char *id);

/** The one note that says so: by what the craft goes, by what the other, and which figures compare the
 * two; nothing where the craft's own was not learned. */
void pare_unlearned_words(const pare_craft *craft, pare_text *line);

#endif
