/* learned.h: what flights say about a craft, as text and JSON. */
#ifndef PARE_SHOW_LEARNED_H
#define PARE_SHOW_LEARNED_H

#include <jansson.h>

#include "advise/hover.h"
#include "advise/learn.h"
#include "base/text.h"
#include "craft/sheet.h"
#include "show/screen.h"

/** @param sheet  by which its next hover is foretold, with uncertainties
 *  @param score  of hovers foretold before, of all craft */
void pare_learned_text(const pare_craft *craft, const pare_learned_all *learned,
                       const pare_sheet *sheet, pare_hover_score score, const pare_screen *screen,
                       pare_text *out);

/** "hovered at 31 % output, promised 25 to 34 %, held": of a flight whose output somebody read. */
void pare_hovered_words(const pare_flight_record *flight, pare_text *line);

/** {"craft", "hover_output", "hover_a", "flights": [...], "learned": [...], "packs": [...], "flown_min", ...,
 * "next": [...]} */
json_t *pare_learned_object(const pare_craft *craft, const pare_learned_all *learned,
                            const pare_sheet *sheet, pare_hover_score score);

#endif
