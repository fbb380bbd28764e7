/* knock_on.h: what follows saved grams, as text and JSON. */
#ifndef PARE_SHOW_KNOCK_ON_H
#define PARE_SHOW_KNOCK_ON_H

#include "advise/knock_on.h"
#include "show/json.h"
#include "show/screen.h"

typedef struct pare_knock_on_view {
    const char *craft, *loadout; /* NULL: none */
    const pare_knock_on *knock_on;
} pare_knock_on_view;

/** Step by step what may shrink from which saved gram on, beside what the laws say, and what becomes of the
 * minutes. */
void pare_knock_on_text(const pare_knock_on_view *view, const pare_screen *screen, pare_text *out);

/** {"craft", "loadout", "found", "proven", "saved_g", "sheds_g", "follows_g", "estimate_g", "growth", "steps": [{"saved_g",
 * "follows_g", "estimate_g", "parts": [{"name", "to", "grams"}]}], "minutes": {"before", "lighter", "after"},
 * "spends"}: a new reference. */
json_t *pare_knock_on_object(const pare_knock_on_view *view);

#endif
