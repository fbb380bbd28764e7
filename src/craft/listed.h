/* listed.h: a part as a list of many shows it: little enough for 100,000 of them. */
#ifndef PARE_CRAFT_LISTED_H
#define PARE_CRAFT_LISTED_H

#include "craft/surprise.h"

typedef struct pare_listed {
    const char *id, *maker; /* maker NULL: not said */
    pare_kind kind;
    bool sought;
    pare_value mass_kg;
    double price; /* each; NAN: not said */
    int owned;
    bool judged; /* the next is filled */
    pare_surprise surprise;
} pare_listed;

/** A completed part as it is listed; its texts are lent. */
pare_listed pare_listed_of(const pare_part *part);

#endif
