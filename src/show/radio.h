/* radio.h: what a craft's antenna chains lose, as text and JSON. */
#ifndef PARE_SHOW_RADIO_H
#define PARE_SHOW_RADIO_H

#include <jansson.h>

#include "base/text.h"
#include "show/screen.h"
#include "show/sheet_view.h"

/** A line of the first screen where a trial, or what was fitted, changes a chain; nothing otherwise. */
void pare_radio_lines(const pare_sheet_view *view, const pare_screen *screen, pare_text *out);

/** A block of a sheet, a paragraph a chain; nothing where the craft has none. */
void pare_radio_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out);

/** [{antenna, transmitter, band_ghz, loss_db, gain_db, range_ratio, ...}] */
json_t *pare_radio_json(const pare_sheet_view *view);

#endif
