/* best.h: the best set of a craft, as text and JSON. */
#ifndef PARE_SHOW_BEST_H
#define PARE_SHOW_BEST_H

#include "advise/loosen.h"
#include "advise/relief.h"
#include "show/json.h"
#include "show/screen.h"

typedef struct pare_best_view {
    const char *loadout; /* NULL: none */
    const char *money;   /* the bench's: "EUR"; NULL: not said */
    bool all;            /* the work step by step, and how the proof went */
    double seconds;      /* that the search took */
    const pare_best *best;
    size_t loosens;
    const pare_loosened *loosened; /* what limits of the best set cost; NULL: not asked */
    const pare_reliefs *reliefs;   /* what must give way where there is no set; NULL: not asked */
} pare_best_view;

/** What to do, opening by opening and free first; before and after; what binds; the proof in a line. */
void pare_best_text(const pare_best_view *view, const pare_screen *screen, pare_text *out);

/** {"craft", "loadout", "found", "proven", "was_g", "best_g", "bound_g", "money", "swaps": [], "binds":
 * [], ...}: a new reference. */
json_t *pare_best_object(const pare_best_view *view);

/* Inside the room: what limits cost, and what must give way (best_limits.c). */
/** A limit by its words; one that no sheet at hand has, by its name. */
void pare_best_put_limit(const pare_best *best, const char *name, bool with_value, pare_text *line);
void pare_best_put_loosened(const pare_best_view *view, const pare_screen *screen, pare_text *out);
void pare_best_put_reliefs(const pare_best_view *view, const pare_screen *screen, pare_text *out);
/** Adds "loosened_by", "unit", "grams_won", "next" to a limit's object where it was loosened. */
void pare_best_loosened_into(json_t *limit, const pare_best_view *view, const char *name);
/** {"alone": [], "pair": [] or null, "stopped"}; a new reference, null where nothing was asked. */
json_t *pare_best_reliefs_object(const pare_best_view *view);

#endif
