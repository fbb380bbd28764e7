/* fits.h: which parts do the same work, and whether an item mates with its neighbours. Only this
 * room uses it. */
#ifndef PARE_ADVISE_FITS_H
#define PARE_ADVISE_FITS_H

#include "craft/craft.h"

/** The kinds of work that a part does, bit (1u << kind), each sort of work under one kind: any ESC
 * counts as PARE_ESC_FOUR, what holds as PARE_HOLDER, what joins an antenna as PARE_PIGTAIL. */
unsigned pare_work_of(const pare_part *part);
/** The work that an item is there for, as one such bit. */
unsigned pare_main_work(const pare_part *part);

/** Whether one part may stand in for another at all: the same main work, and what it is made for
 * (an antenna's band, a standoff's length, what a holder holds) where both say so. */
bool pare_stands_in(const pare_part *part, const pare_part *now);

/** Looks at each interface of one item with the items and screws that it must mate with.
 * @return PARE_OK, or PARE_BAD_DATA with both sides in words */
pare_status pare_fits_item(const pare_craft *craft, size_t index, pare_error *err);

/** The item that this one meets the frame, or the board on the same screws, through; -1: none. */
int pare_fits_bridge(const pare_craft *craft, size_t index);
/** Whether a part could lie between two that do not agree at a key. */
bool pare_may_bridge(const pare_part *part, pare_fit_key key);
/** The other board that shares a controller's or ESC's stack screws, or -1. */
int pare_stack_partner(const pare_craft *craft, size_t index);

/** The full pack's volts, and whether a part is rated for them. */
double pare_full_v(const pare_part *pack);
typedef enum pare_rated { PARE_RATED_HOLDS, PARE_RATED_LOW, PARE_RATED_HIGH } pare_rated;
/** HIGH: the pack is above what it takes; LOW: below. What is not stated holds. */
pare_rated pare_volts_rated(const pare_part *part, const pare_part *pack);
/** Whether an item that runs off the pack's volts, rather than a regulator's, gets what it takes. */
bool pare_fed_well(const pare_craft *craft, size_t index, const pare_part *pack);
/** An ESC, motor or capacitor beyond its rating is listed with what it breaks, not left out. */
bool pare_rating_is_margin(const pare_part *part);

#endif
