/* weigh.h: what scales said of a craft, what that makes of its masses, and what to weigh next. */
#ifndef PARE_SHOW_WEIGH_H
#define PARE_SHOW_WEIGH_H

#include "advise/hover.h"
#include "advise/weigh_next.h"
#include "show/json.h"
#include "show/screen.h"

/** The mass of a craft in one loadout. */
typedef struct pare_weigh_loadout {
    const char *name; /* NULL: the craft has none */
    pare_promise mass;
    double chance; /* that the limit holds; NAN without one */
} pare_weigh_loadout;

/** The same loadout with another pack. */
typedef struct pare_weigh_pack {
    const pare_part *pack;
    pare_promise mass;
    double chance;
} pare_weigh_pack;

/** A line of the ledger, as written and as adjusted. */
typedef struct pare_weigh_line {
    const char *name; /* as it is typed */
    int count;
    double prior_kg, kg, u_kg;
    size_t readings; /* that it lay on the scale for, but for those of the whole craft */
    pare_known known;
} pare_weigh_line;

enum { PARE_SUSPECTS = 3, PARE_WEIGH_NEXT = 5 };

typedef struct pare_weigh_view {
    const pare_craft *craft; /* as built */
    int loadout;             /* -1: none */
    pare_closure *closure;
    double limit_kg; /* the brief's; NAN: none */
    size_t loadouts;
    pare_weigh_loadout mass[PARE_LOADOUTS]; /* [loadouts], all of them */
    size_t here;                            /* which of them is asked about */
    size_t packs;
    pare_weigh_pack
        *pack; /* [packs] others that go on it, where there is a limit: the lightest first */
    pare_promise written; /* what is written down, in that loadout */
    size_t lines;
    pare_weigh_line *line; /* [lines] */
    int forgotten;         /* the unknown; -1: never weighed whole */
    double forgotten_kg, forgotten_u_kg;
    bool solder;     /* is listed */
    bool more, less; /* than what is usual; than what is written down: beyond doubt */
    size_t suspects; /* parts that somebody owns, no craft has, and that weigh as much */
    const pare_part *suspect[PARE_SUSPECTS];
    pare_scale scale;   /* that promises are for; id "": any */
    pare_promise whole; /* of a reading of the whole craft */
    pare_weigh_list next;
    size_t promised, held; /* over all craft, hovers as well */
    pare_hover_score hovers;
} pare_weigh_view;

/** Works out a view.
 * @param craft    as built
 * @param scale    that promises are for
 * @param hovers   how hovers of all craft came as foretold
 * @param arena    holds what the view points to
 * @return PARE_OK; PARE_BAD_DATA where the craft cannot be assembled; PARE_UNAVAILABLE */
pare_status pare_weigh_view_fill(pare_closure *closure, const pare_craft *craft, int loadout,
                                 const pare_scale *scale, pare_hover_score hovers,
                                 pare_arena *arena, pare_weigh_view *view, pare_error *err);

/** "the whole craft, film", "4 motor, 16 joint.motor_base". */
void pare_weighed_words(const pare_weigh_in *weigh_in, pare_text *line);

/** @param all  every reading and every line, not the latest and the largest alone */
void pare_weigh_text(const pare_weigh_view *view, bool all, const pare_screen *screen,
                     pare_text *out);

/** A new reference. */
json_t *pare_weigh_object(const pare_weigh_view *view);

#endif
