/* screws.h: which of a craft's screws and standoffs may be lighter, as text and JSON. */
#ifndef PARE_SHOW_SCREWS_H
#define PARE_SHOW_SCREWS_H

#include <jansson.h>

#include "base/text.h"
#include "show/screen.h"
#include "show/sheet_view.h"

/** A block of a sheet: each joint of screws or standoffs, how much of its strength the brief's crash
 * uses, what it may be made of and how few would do, with the reasons; nothing where the craft has no
 * joints. */
void pare_screws_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out);

/** [{joint, standard, count, material, length_mm, enters_mm, depth_mm, torque_nm, crash_share, may_be[],
 * crash_share_with{material: share}, why_not{material: words}, fewest}]; null: not known */
json_t *pare_screws_json(const pare_sheet_view *view);

#endif
