/* printed.h: what a gram of a printed part bears, as text and JSON. */
#ifndef PARE_SHOW_PRINTED_H
#define PARE_SHOW_PRINTED_H

#include <jansson.h>

#include "base/text.h"
#include "craft/part.h"
#include "show/screen.h"

/** Lines of a part that is printed from a mesh: grams of walls and infill, and what a gram of it bears
 * beside a tie, a plate and screws; nothing for other parts. */
void pare_printed_text(const pare_part *part, const pare_screen *screen, pare_text *out);

/** {walls_g, infill_g, bears_n_per_g ...}, or NULL for other parts */
json_t *pare_printed_json(const pare_part *part);

#endif
