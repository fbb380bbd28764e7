/* compare.h: craft, loadouts or trials side by side. */
#ifndef PARE_SHOW_COMPARE_H
#define PARE_SHOW_COMPARE_H

#include "show/json.h"
#include "show/screen.h"
#include "show/sheet_view.h"

typedef struct pare_compared {
    const char *name;            /* "hedgerow:race", and what is tried */
    const char *loadout, *tried; /* NULL: none */
    const char *date;            /* as it was on that day; NULL: as it is */
    const pare_craft *craft;     /* loaded */
    const pare_sheet *sheet;     /* with uncertainties */
} pare_compared;

/** What differs first: figures, then items; then what is alike, once for all. Two figures differ where
 * what is written of them differs. As many columns as the screen has room for stand abreast; the others
 * follow in blocks below, each of which starts with the first column again. Two columns of which one is of
 * another day have their differences beside them, where there is room.
 *
 * @param count  1 or more
 * @param all    also what weighs alike */
void pare_compare_text(size_t count, const pare_compared columns[], bool all,
                       const pare_screen *screen, pare_text *out);

/** {"compare": [{"name", "craft", "loadout", "tried", figures ...}]}: a new reference. */
json_t *pare_compare_object(size_t count, const pare_compared columns[]);

#endif
