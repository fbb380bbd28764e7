/* sought.h: parts that are on no shelf: what to look for. Only this room uses it. */
#ifndef PARE_ADVISE_SOUGHT_H
#define PARE_ADVISE_SOUGHT_H

#include "craft/craft.h"

/** What to look for in place of a part: its kind's typical mass where the part is heavier, one
 * scatter below it where a light one would still save something.
 *
 * @param[out] mass_kg  rounded to what a shop lists: 1 g, below 10 g 0.1 g
 * @return false where no law knows the kind or the part is light already */
bool pare_sought_kg(const pare_part *now, double *mass_kg);

/** The part itself: like the one now but for its mass and what only a real one has (maker, price).
 * @param arena  holds it
 * @return PARE_OK; PARE_BAD_DATA where no law knows the kind or the mass is out of all proportion
 *         (0.4 to 2.5 of the law's); PARE_UNAVAILABLE without memory */
pare_status pare_sought_part(pare_arena *arena, const pare_part *now, double mass_kg,
                             const pare_part **sought, pare_error *err);

#endif
