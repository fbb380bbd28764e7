/* wires.h: a craft's power wires in other gauges, as text and JSON. */
#ifndef PARE_SHOW_WIRES_H
#define PARE_SHOW_WIRES_H

#include <jansson.h>

#include "base/text.h"
#include "show/screen.h"
#include "show/sheet_view.h"

/** A block of a sheet: each power wire from two sizes thicker to three thinner, with its grams, degrees,
 * volts, and the seconds and thrust that it costs; the thinnest and shortest that do. Nothing where the
 * craft describes none. */
void pare_wires_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out);

/** [{run, now_gauge, thinnest_gauge, longest_mm, needed_mm, costs{}, gauges[]}] */
json_t *pare_wires_json(const pare_sheet_view *view);

#endif
