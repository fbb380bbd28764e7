/* take.h: the swaps taken on a craft, how far each has come, and the work that they ask for. */
#ifndef PARE_SHOW_TAKE_H
#define PARE_SHOW_TAKE_H

#include "advise/answered.h"
#include "advise/checklist.h"
#include "advise/shopping.h"
#include "advise/taken.h"
#include "craft/sheet.h"
#include "show/json.h"
#include "show/screen.h"

typedef struct pare_take_view {
    const pare_craft *first; /* as first described */
    const pare_sheet *built; /* as built, with uncertainties; in the first loadout */
    pare_taken_facts facts;
    const pare_answers *answers; /* [first->takens] what was measured since */
    const bool *shown;           /* [first->takens] which are listed */
    const pare_checklist *checklist;
    const pare_shopping
        *shopping;     /* for all that is taken and not on it; NULL: nothing, or not asked */
    const char *money; /* the bench's; NULL: not said */
} pare_take_view;

/** The swaps shown, what the craft weighs as built and as planned, what to buy and cut,
 * and the checklist. */
void pare_take_text(const pare_take_view *view, const pare_screen *screen, pare_text *out);
/** One line of a taken swap: "chosen 2026-04-01, fitted 2026-04-10". */
void pare_taken_days_text(const pare_taken *taken, pare_text *out);

/** {"craft", "taken": [...], "all_up_g", "planned_all_up_g", "checklist", "shopping",
 * "cutting"}: a new reference. */
json_t *pare_take_object(const pare_take_view *view);
/** One taken swap: swap, part, stage, on_craft, a day or null for each stage, brings, promise. */
json_t *pare_taken_object(const pare_taken *taken);

#endif
