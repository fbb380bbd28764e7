/* best.h: the best set of a craft, as text and JSON. */
#ifndef PARE_SHOW_BEST_H
#define PARE_SHOW_BEST_H

#include "advise/best_ways.h"
#include "advise/loosen.h"
#include "advise/relief.h"
#include "advise/sure.h"
#include "show/json.h"
#include "show/screen.h"

/** How surely a set was asked to keep the brief's limits, and what came of it. */
typedef struct pare_best_sureness {
    double asked;
    pare_sure_drawn drawn;  /* of the set that was found */
    bool just, just_proven; /* the lightest set that just meets the limits */
    int64_t just_100ug;
} pare_best_sureness;

typedef struct pare_best_view {
    const char *loadout; /* NULL: none */
    bool every;          /* limits hold in each loadout, and this is the heaviest */
    const char *money;   /* the bench's: "EUR"; NULL: not said */
    bool all;            /* the work step by step, and how the proof went */
    double seconds;      /* that the search took */
    const pare_best *best;
    const pare_best_wished *wished; /* what it is best in */
    const double *most_work_min;    /* that the work may take; NULL: any time */
    const pare_best_ways *ways;     /* others, and how far it stands; NULL: not asked */
    const pare_best_sureness *sure; /* NULL: limits hold as computed */
    const pare_best *sought; /* a lighter set with parts that nobody sells; NULL: not asked */
    size_t loosens;
    const pare_loosened *loosened; /* what limits of the best set cost; NULL: not asked */
    const pare_reliefs *reliefs;   /* what must give way where there is no set; NULL: not asked */
} pare_best_view;

/** What to do, opening by opening and free first; before and after; what binds; the proof in a line. */
void pare_best_text(const pare_best_view *view, const pare_screen *screen, pare_text *out);

/** {"craft", "loadout", "found", "proven", "was_g", "best_g", "bound_g", "money", "swaps": [], "binds":
 * [], ...}: a new reference. */
json_t *pare_best_object(const pare_best_view *view);

/* Inside the room: another wish than grams (best_wish_show.c). */
/** Whether a wish is told: another than grams. */
bool pare_best_wishes_else(const pare_best_view *view);
/** ", for minutes as flown: 6.1 min now, 8.9 min at best, proven;" in a head. */
void pare_best_add_wish(const pare_best_view *view, pare_text *line);
/** What is proven of the wish, as a line. */
void pare_best_put_wish_proof(const pare_best_view *view, const pare_screen *screen,
                              pare_text *out);
/** Adds "wish", and for another than grams "wish_was", "wish_best", "wish_bound", "wish_proven", "wish_unit". */
void pare_best_wish_into(json_t *object, const pare_best_view *view);

/* Inside the room: other ways (best_ways_show.c). */
void pare_best_put_ways(const pare_best_view *view, const pare_screen *screen, pare_text *out);
/** Adds "ways", "ways_proven", "ways_all", "stands", "stricter" where they were asked for. */
void pare_best_ways_into(json_t *object, const pare_best_view *view);

/* Inside the room: how surely limits hold (best_sure_show.c). */
void pare_best_put_sureness(const pare_best_view *view, const pare_screen *screen, pare_text *out);
/** Adds "sure" where it was asked for. */
void pare_best_sureness_into(json_t *object, const pare_best_view *view);

/* Inside the room: parts that nobody sells yet, apart (best_sought_show.c). */
void pare_best_put_sought(const pare_best_view *view, const pare_screen *screen, pare_text *out);
/** Adds "sought" where it was asked for; null where such parts make nothing lighter. */
void pare_best_sought_into(json_t *object, const pare_best_view *view);

/* Inside the room, for a report too (best_text.c): */
/** "691.4 g now, 620.0 g at best, 71.4 g less, proven". */
void pare_best_put_grams(const pare_best_view *view, pare_text *line);
/** What is proven, or how far off it may be; nothing where no set was found. */
void pare_best_put_proof(const pare_best_view *view, pare_text *line);
bool pare_best_is_free(const pare_best_swap *swap);
enum { PARE_BEST_SHOWN = 11 };
/** The figures that are said before and after. */
extern const pare_figure pare_best_shown[PARE_BEST_SHOWN];

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
