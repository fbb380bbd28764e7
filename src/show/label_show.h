/* label_show.h: a pack's discharge rating, on its label and as physics keeps it. */
#ifndef PARE_SHOW_LABEL_SHOW_H
#define PARE_SHOW_LABEL_SHOW_H

#include "show/json.h"
#include "show/screen.h"
#include "show/sheet_view.h"

/** A sentence where the label claims more than the cells can give; otherwise nothing. */
void pare_boast_text(const pare_part *part, const pare_screen *screen, pare_text *out);

/** The pack's ratings beside the craft's own currents; nothing where there is no pack. */
void pare_label_text(const pare_sheet_view *view, const pare_screen *screen, pare_text *out);

/** "carries_per_h", "burst_per_h" with their u, and "boasts", of a pack; of others nothing. */
void pare_label_into(json_t *object, const pare_part *part);

#endif
