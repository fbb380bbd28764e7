/* surprise.h: parts that weigh more than the law of their kind predicts: the first place to look for
 * grams, or for a misread scale. */
#ifndef PARE_CRAFT_SURPRISE_H
#define PARE_CRAFT_SURPRISE_H

#include "craft/law.h"

/** From here on a part is a surprise. */
#define PARE_SURPRISING_SIGMAS 2.0

typedef struct pare_surprise {
    pare_typical law_kg; /* what the law says, and its scatter between real parts */
    double sigmas; /* how far above it the part is, by scatter and the mass's own uncertainty */
} pare_surprise;

/** How far a completed part's mass is above its kind's law.
 *
 * Of a mass that somebody weighed or stated only: one that a law or the geometry gave says nothing.
 * The law is for a typical part, so half a sigma for a silent maker is not in it.
 * @param[out] surprise  law and sigmas (below 0: lighter), where true
 * @return false where the mass is of another sort, or no law knows the kind */
bool pare_surprise_of(const pare_part *part, pare_surprise *surprise);

typedef enum pare_surprising {
    PARE_NOT_SURPRISING,    /* whatever else the part says */
    PARE_SURPRISING,        /* over PARE_SURPRISING_SIGMAS, and the surprise is filled */
    PARE_PERHAPS_SURPRISING /* the law of its kind takes more: the whole part must be asked */
} pare_surprising;

/** The same of a part of which only kind, specs and mass are known, the rest zero.
 * @param part  its other fields are changed */
pare_surprising pare_surprise_by_specs(pare_part *part, pare_surprise *surprise);

#endif
