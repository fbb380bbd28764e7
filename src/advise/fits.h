/* fits.h: whether an item mates with its neighbours. Only this room uses it. */
#ifndef PARE_ADVISE_FITS_H
#define PARE_ADVISE_FITS_H

#include "craft/craft.h"

/** Looks at each interface of one item with the items and screws that it must mate with.
 * @return PARE_OK, or PARE_BAD_DATA with both sides in words */
pare_status pare_fits_item(const pare_craft *craft, size_t index, pare_error *err);

/** The keys, bit (1u << key), at which an item does not agree with its neighbours and something between
 * could help; 0: it fits, or nothing between would make it fit. */
unsigned pare_fits_gaps(const pare_craft *craft, size_t index);

/** The item that this one meets the frame, or the board on the same screws, through; -1: none. */
int pare_fits_bridge(const pare_craft *craft, size_t index);
/** Whether two parts meet somewhere, do not agree there, and nothing could lie between: then no craft has both.
 * @param between  parts that may yet be on it */
bool pare_fits_never(const pare_part *a, const pare_part *b, size_t count,
                     const pare_part *const between[]);
/** Whether a part could lie between two that do not agree at a key. */
bool pare_may_bridge(const pare_part *part, pare_fit_key key);
/** The other board that shares a controller's or ESC's stack screws, or -1. */
int pare_stack_partner(const pare_craft *craft, size_t index);

#endif
