/* source_words.h: where a sheet's thrust and power come from, in words and as JSON. */
#ifndef PARE_SHOW_SOURCE_WORDS_H
#define PARE_SHOW_SOURCE_WORDS_H

#include <jansson.h>

#include "base/text.h"
#include "show/sheet_view.h"

/** One line: "from the stand table of mo-a with pr-51 (14.8 to 16.6 V, 24 rows), uncertain by 4 % in
 * thrust and 5 % in power"; also why a table is not used, and what a trial did to one. */
void pare_source_words(const pare_sheet_view *view, pare_text *line);

/** {from, words, motor, propeller, thrust_u, power_u}, and of a stand's table its volts and rows.
 * NULL where memory ran out. */
json_t *pare_source_object(const pare_sheet_view *view);

/** Each flight figure's key and what its rotors were known from: "stand", "tunnel", "blade", "line",
 * "size". */
json_t *pare_sources_object(const pare_sheet *sheet);

#endif
