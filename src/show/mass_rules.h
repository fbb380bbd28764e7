/* mass_rules.h: on which side of some rules by mass a craft is, as text and JSON. */
#ifndef PARE_SHOW_MASS_RULES_H
#define PARE_SHOW_MASS_RULES_H

#include <jansson.h>

#include "base/text.h"
#include "show/screen.h"
#include "show/sheet_view.h"

/** A block of a sheet: each rule, its mass, and the chance that the craft as flown stays below. */
void pare_mass_rules_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out);

/** [{where, what, limit_g, chance, most_speed_m_s, read}] */
json_t *pare_mass_rules_json(const pare_sheet_view *view);

#endif
