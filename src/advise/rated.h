/* rated.h: whether parts take the volts of a pack. Only this room uses it. */
#ifndef PARE_ADVISE_RATED_H
#define PARE_ADVISE_RATED_H

#include "craft/craft.h"

/** The full pack's volts. */
double pare_full_v(const pare_part *pack);
typedef enum pare_rated { PARE_RATED_HOLDS, PARE_RATED_LOW, PARE_RATED_HIGH } pare_rated;
/** HIGH: the pack is above what the part takes; LOW: below. What is not stated holds. */
pare_rated pare_volts_rated(const pare_part *part, const pare_part *pack);
/** Whether an item that runs off the pack's volts, or a regulator's, gets what it takes. */
bool pare_fed_well(const pare_craft *craft, size_t index, const pare_part *pack);
/** An ESC, motor or capacitor beyond its rating is listed with what it breaks, not left out. */
bool pare_rating_is_margin(const pare_part *part);

#endif
