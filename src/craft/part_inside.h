/* part_inside.h: inside the craft room: the steps of completing a part. */
#ifndef PARE_CRAFT_PART_INSIDE_H
#define PARE_CRAFT_PART_INSIDE_H

#include "craft/part.h"

/** Refuses what cannot be: a needed spec that is missing, a value out of its range, a spec of another
 * kind, a range that runs backwards, a body with impossible sizes. */
pare_status pare_part_check(const pare_part *part, pare_error *err);

/** Whether an ESC is on the part, so that it needs a current rating. */
bool pare_part_drives(const pare_part *part);

/** What the pieces weigh by their volume and density.
 *
 * @param[out] mass_kg  known PARE_COMPUTED, or PARE_ESTIMATED where a mesh is open; given false
 * @return false when a piece's volume or density is not known, there is none, or parts of the kind are
 * not of one material */
bool pare_pieces_weigh(const pare_part *part, pare_value *mass_kg);

/** The usual body of a part of its kind and mass; for a frame from its wheelbase. Sets pieces, piece
 * and body_estimated. The mass is filled. */
pare_status pare_part_usual_body(pare_part *part, pare_arena *arena, pare_error *err);

/** Copies the pieces with a density in each that has none, and a plate as the box that it is. */
pare_status pare_part_densities(pare_part *part, pare_arena *arena, pare_error *err);

#endif
