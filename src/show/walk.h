/* walk.h: the order in which to buy a set, as text and JSON. */
#ifndef PARE_SHOW_WALK_H
#define PARE_SHOW_WALK_H

#include "advise/walk.h"
#include "show/json.h"
#include "show/screen.h"

typedef struct pare_walk_view {
    const char *loadout;   /* NULL: none */
    const char *money;     /* the bench's: "EUR"; NULL: not said */
    const int64_t *budget; /* cents to spend now; NULL: not said */
    const pare_best *best;
    const pare_walk *walk;
} pare_walk_view;

/** Step by step what to buy and put on, what it saves and costs, and what that comes to. */
void pare_walk_text(const pare_walk_view *view, const pare_screen *screen, pare_text *out);

/** {"craft", "loadout", "found", "was_g", "best_g", "proven", "exact", "stopped", "budget", "now_steps", "steps":
 * [{"swaps": [], "grams", "money", "all_up_g", "spent", "now"}]}: a new reference. */
json_t *pare_walk_object(const pare_walk_view *view);

#endif
