/* crash.h: what a crash asks of a craft, and what being lighter costs, as text and JSON. */
#ifndef PARE_SHOW_CRASH_H
#define PARE_SHOW_CRASH_H

#include <jansson.h>

#include "base/text.h"
#include "show/screen.h"
#include "show/sheet_view.h"

/** Two lines of a sheet's first screen, where there is a craft to compare with: what arms, screws and
 * straps bear of the same crash, and what gains to expect; nothing otherwise. */
void pare_crash_lines(const pare_sheet_view *view, const pare_screen *screen, pare_text *out);

/** A block of a sheet: energy and force at the brief's crash speed, in cruise and at top speed, all that
 * holds as a ratio to the craft before, and the money that a crash costs. */
void pare_crash_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out);

/** {stated: {speed_m_s, energy_j, ...}, cruise: {}, top: {}, joints: [], held: [], ...} */
json_t *pare_crash_json(const pare_crash_facts *crash);

/** The cautions of a light craft, where they hold: little output in hover, much thrust at idle. */
void pare_light_cautions(const pare_sheet *sheet, const pare_screen *screen, pare_text *out);

#endif
