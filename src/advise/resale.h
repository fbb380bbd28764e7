/* resale.h: what comes off a craft for good may be sold. */
#ifndef PARE_ADVISE_RESALE_H
#define PARE_ADVISE_RESALE_H

#include <stdint.h>

#include "craft/craft.h"

enum { PARE_RESALES = 32 };

/** What comes back for a part. */
typedef struct pare_resale {
    double share; /* of its price, of parts that are not named; 0: nothing */
    size_t parts;
    struct {
        const pare_part *part;
        int64_t cents; /* each */
    } of[PARE_RESALES];
} pare_resale;

/** One piece, in cents; 0 where it has no price and is not named. */
int64_t pare_resale_each_cents(const pare_resale *resale, const pare_part *part);

/** For all pieces that the craft before has and the craft after has not. @param resale  NULL: 0 */
int64_t pare_resale_cents(const pare_resale *resale, const pare_craft *before,
                          const pare_craft *after);

#endif
