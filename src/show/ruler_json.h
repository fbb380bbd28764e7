/* ruler_json.h: the gram ruler as JSON: every slice in the ruler's order, with what a gram is worth there. */
#ifndef PARE_SHOW_RULER_JSON_H
#define PARE_SHOW_RULER_JSON_H

#include <jansson.h>

#include "advise/swap.h"
#include "show/sheet_view.h"

/** {craft, loadout, tried, all_up_g, all_up_g_u, whole_g, limit_g, limit_shown, limit_chance,
 * bands{free{grams, money}, cheap, deep}, systems[], slices[]}.
 *
 * A slice is {name, of, part, system, count, from_g, grams, grams_u, known, off_g, roll_share, pitch_share,
 * yaw_share, gram{}}: from_g where it begins on a ruler of whole_g; off_g what a trial takes off it,
 * negative what it puts on; gram{} what one gram more of it does, spread as it is: by figure, and in per
 * cent of it. What a trial takes off whole has null shares and no gram. A system has its sums, and known{}
 * its grams by how they are known. Bands count those before them, as in the list of swaps.
 * @param swaps  its sums only are read
 * @return NULL without memory */
json_t *pare_ruler_object(const pare_sheet_view *view, const pare_swaps *swaps);

#endif
