/* kept.h: what a craft's sheet says with what flights taught, against what it said without. */
#ifndef PARE_SHOW_KEPT_H
#define PARE_SHOW_KEPT_H

#include <jansson.h>

#include "base/text.h"
#include "craft/sheet.h"
#include "show/screen.h"

/** @param thought, learned  with all their figures */
void pare_kept_text(const pare_sheet *thought, const pare_sheet *learned, const pare_screen *screen,
                    pare_text *out);

/** [{"figure": "hover_a", "thought", "thought_u", "learned", "learned_u", "moved_u"}] */
json_t *pare_kept_array(const pare_sheet *thought, const pare_sheet *learned);

#endif
