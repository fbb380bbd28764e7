/* sheet_json.h: a sheet as one JSON object. */
#ifndef PARE_SHOW_SHEET_JSON_H
#define PARE_SHOW_SHEET_JSON_H

#include "show/json.h"
#include "show/sheet_view.h"

/** [{name, words, value, value_u, limit, at_least, unit, ratio, ratio_u, chance, from, caution}], worst
 * first. */
json_t *pare_margins_json(const pare_sheet *sheet);

/** [{arm, at_mm, share, thrust_g, output, output_u, current_a, current_a_u}], as it hovers. */
json_t *pare_motors_json(const pare_sheet *sheet, const pare_balance *balance);

/** The sheet of one loadout: every figure under its key, its standard uncertainty under the key with
 * "_u", how known in "known", why one does not exist in "why"; margins, ledger, principal moments,
 * what a gram is worth, what to weigh first, what a law filled in.
 * @return a new reference, or NULL without memory. The caller adds "loadouts". */
json_t *pare_sheet_object(const pare_sheet_view *view);

/** All figures of a sheet into an object: K, K_u, known, why. */
void pare_figures_into(json_t *object, const pare_sheet *sheet);

/** A figure's change, "key": number, for each that is a number; centres of mass as one list. */
json_t *pare_changes_object(const double change[PARE_FIGURES]);

json_t *pare_text_or_null(const char *text);

#endif
