/* body.h: one part as a body: its shape turned into a centre and an inertia. */
#ifndef PARE_CRAFT_BODY_H
#define PARE_CRAFT_BODY_H

#include "craft/part.h"
#include "physics/solid.h"

/** The part scaled to 1 kg, about its own station, turned as the item says.
 *
 * Pieces weigh by their volume and density; what they weigh together is then scaled, so that the
 * shape says where the grams sit and the scale says how many there are. A part without pieces, or
 * with pieces of no volume, is a point. @return PARE_OK or PARE_BAD_DATA, naming the part */
pare_status pare_part_body(const pare_part *part, const pare_mat3 *turn, pare_body *body,
                           pare_error *err);

#endif
