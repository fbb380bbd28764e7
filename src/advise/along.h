/* along.h: what another part brings along, and what it makes needless. Only this room uses it. Each
 * function here follows once a part has been put in for an item. */
#ifndef PARE_ADVISE_ALONG_H
#define PARE_ADVISE_ALONG_H

#include "advise/edit.h"

/** One print is two ties' work; and back. */
void pare_along_ties(pare_item *item, const pare_part *old);
/** Boards of another thread get screws of that thread, where the screws are theirs alone. */
void pare_along_screws(pare_edit *edit, size_t index);
/** A board or camera that the frame, or the board below, has no place for sits on something that has
 * both patterns. @return PARE_BAD_DATA, with both sides, where it fits in no way */
pare_status pare_along_bridge(pare_edit *edit, size_t index, pare_error *err);
/** What lay between the old part and the frame, and lies between nothing now, goes. */
void pare_along_idle_bridge(pare_edit *edit, size_t index);
/** Work that only the old part did is done by something else. @return PARE_BAD_DATA: by nothing */
pare_status pare_along_lost_work(pare_edit *edit, size_t index, const pare_part *old,
                                 pare_error *err);
/** A set that brings its own camera or receiver makes the one on the craft needless. */
void pare_along_doubled_work(pare_edit *edit, size_t index, const pare_part *old);
/** A pack of another plug gets its mate. @return PARE_BAD_DATA where there is none */
pare_status pare_along_plug(pare_edit *edit, size_t index, const pare_part *old, pare_error *err);

#endif
