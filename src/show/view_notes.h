/* view_notes.h: what stands in, in a view of a craft, for what is not known of it. */
#ifndef PARE_SHOW_VIEW_NOTES_H
#define PARE_SHOW_VIEW_NOTES_H

#include "show/silhouette.h"

enum { PARE_VIEW_NOTE = 240 };

/** A line each: sizes guessed, places unknown, boxes, what is left out.
 * @param above  the craft from above
 * @param[out] note  [most] @return how many */
size_t pare_view_notes(const pare_craft *craft, const pare_view *above, size_t most,
                       char note[][PARE_VIEW_NOTE]);

#endif
