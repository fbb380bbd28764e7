/* learned.h: what flights say about a craft, as text and JSON. */
#ifndef PARE_SHOW_LEARNED_H
#define PARE_SHOW_LEARNED_H

#include <jansson.h>

#include "advise/learn.h"
#include "base/text.h"
#include "show/screen.h"

void pare_learned_text(const pare_craft *craft, const pare_learned_all *learned,
                       const pare_screen *screen, pare_text *out);

/** {"craft", "flights": [...], "learned": [...], "packs": [...], "flown_min", ..., "next": [...]} */
json_t *pare_learned_object(const pare_craft *craft, const pare_learned_all *learned);

#endif
