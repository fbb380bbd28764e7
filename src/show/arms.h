/* arms.h: at what speeds a craft's arms ring, as text and JSON. */
#ifndef PARE_SHOW_ARMS_H
#define PARE_SHOW_ARMS_H

#include <jansson.h>

#include "base/text.h"
#include "show/screen.h"
#include "show/sheet_view.h"

/** A block of a sheet: the arms' first frequencies as bands beside the rotors' turns and their blades'
 * passing over the speeds as flown, and what of the craft's drag is theirs; nothing where the frame
 * states no arms. */
void pare_arms_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out);

/** {bending_low_hz, bending_high_hz, twist_low_hz, ...}; null where the frame states no arms */
json_t *pare_arms_json(const pare_sheet_view *view);

#endif
