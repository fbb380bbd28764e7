/* outline.h: the craft from above and from the side, to scale, as JSON to draw from. */
#ifndef PARE_SHOW_OUTLINE_H
#define PARE_SHOW_OUTLINE_H

#include <jansson.h>

#include "show/sheet_view.h"
#include "show/silhouette.h"

/** {craft, loadout, tried, views{above{low_mm, high_mm, boxes, left_out, shapes[]}, side{...}}, items[],
 * discs[], joints[], motors[], cg_mm, cg_mm_u, pack, pack_shift_mm, pack_shift_mm_u, why, principal_axes,
 * notes[]}.
 *
 * A shape is {item, copy, disc, boxed, near_mm, middle_mm, loops[[[x, y]]]}, far ones first; places on a
 * view are x to the right, y up. All else is in craft axes: x forward, y left, z up; motors as on the
 * sheet.
 * @param outline  [outlines] of plates, as far as the bench has them
 * @return PARE_OK, or PARE_UNAVAILABLE when memory runs out */
pare_status pare_outline_object(const pare_sheet_view *view, size_t outlines,
                                const pare_plate_outline outline[], json_t **object,
                                pare_error *err);

#endif
