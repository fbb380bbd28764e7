/* best.h: the best set of a craft, as text and JSON. */
#ifndef PARE_SHOW_BEST_H
#define PARE_SHOW_BEST_H

#include "advise/best.h"
#include "show/json.h"
#include "show/screen.h"

typedef struct pare_best_view {
    const char *loadout; /* NULL: none */
    const char *money;   /* the bench's: "EUR"; NULL: not said */
    bool all;            /* the work step by step, and how the proof went */
    double seconds;      /* that the search took */
    const pare_best *best;
} pare_best_view;

/** What to do, opening by opening and free first; before and after; what binds; the proof in a line. */
void pare_best_text(const pare_best_view *view, const pare_screen *screen, pare_text *out);

/** {"craft", "loadout", "found", "proven", "was_g", "best_g", "bound_g", "money", "swaps": [], "binds":
 * [], ...}: a new reference. */
json_t *pare_best_object(const pare_best_view *view);

#endif
