/* swaps.h: the list of swaps, as text and JSON. */
#ifndef PARE_SHOW_SWAPS_H
#define PARE_SHOW_SWAPS_H

#include "advise/mend.h"
#include "advise/swap.h"
#include "show/json.h"
#include "show/screen.h"

typedef struct pare_swaps_view {
    const pare_craft *craft; /* as it is */
    const char *loadout;     /* NULL: none */
    const char *money;       /* the bench's: "EUR"; NULL: not said */
    const char *wished;      /* the wish by its name */
    pare_wish wish;
    double roll_rad_s2; /* now, to say changes in per cent; 0 or NAN: not known */
    bool all_notes;     /* otherwise a row says two at most */
    const pare_swaps *swaps;
    const pare_mend *mend; /* [swaps->count]; NULL: none was looked for */
} pare_swaps_view;

/** Bands, then rows, best first; sought parts and lost jobs apart.
 * @param most  rows of each group that are shown; the rest is counted */
void pare_swaps_text(const pare_swaps_view *view, size_t most, const pare_screen *screen,
                     pare_text *out);

/** The head of a table of swaps, and one row with what it drags along below it. */
void pare_swaps_head(const pare_swaps_view *view, const pare_screen *screen, pare_text *out);
void pare_swaps_row(const pare_swaps_view *view, const pare_swap *swap, const pare_screen *screen,
                    pare_text *out);

/** The free swaps that go together, and what they save. */
void pare_swaps_together_text(const pare_swaps_view *view, const pare_screen *screen,
                              pare_text *out);

/** What to mind at the bench when such swaps are done, once each. */
void pare_swaps_cautions(const pare_swaps_view *view, size_t rows, const pare_screen *screen,
                         pare_text *out);

/** {"free": {"grams", "money"}, "cheap", "deep"}, each with those before it. */
json_t *pare_bands_object(const pare_swaps *swaps);

/** {"craft", "loadout", "wish", "bands", "together", "swaps": [...]}: a new reference. */
json_t *pare_swaps_object(const pare_swaps_view *view);

#endif
