/* ruler.h: the gram ruler: every gram of a craft end to end on one scale. */
#ifndef PARE_SHOW_RULER_H
#define PARE_SHOW_RULER_H

#include "show/ruler_parts.h"
#include "show/screen.h"

/** One system's stretch: its grams by how they are known, and what a trial takes off or puts on. */
typedef struct pare_slice {
    const char *name;
    double known_kg[PARE_KNOWNS];
    double off_kg; /* taken off by what is tried */
    bool unlisted; /* by the scale, and not written down */
} pare_slice;

typedef struct pare_ruler {
    size_t slices;
    pare_slice slice[PARE_SYSTEMS];
    double limit_kg; /* NAN: none */
} pare_ruler;

/** The slices of a sheet, in the order of pare_system: the sums of its parts.
 *
 * @param before  the sheet without what is tried, and its craft; NULL: nothing is tried
 * @param limit_kg  NAN: none */
pare_ruler pare_ruler_of(const pare_craft *craft, const pare_sheet *sheet,
                         const pare_craft *craft_before, const pare_sheet *before, double limit_kg);

/** How many kilograms the scale spans: all that is shown, or the limit where that is more.
 * @param[out] limit_shown  a limit far above the craft would leave the ruler empty: it is then only
 *                          said in words */
double pare_ruler_whole_kg(const pare_ruler *ruler, bool *limit_shown);

/** Scale, limit, slices, labels and a legend of textures.
 *
 * A gram keeps its place from one width to another; labels never touch: where one has no room beside
 * the next it hangs lower on its line. */
void pare_ruler_text(const pare_ruler *ruler, const pare_screen *screen, pare_text *out);

/** The stretch from_kg .. to_kg of a scale of whole_kg, alone on `columns` columns: an item's place on
 * the ruler. A stretch narrower than a column still shows. */
void pare_ruler_span(const pare_screen *screen, pare_text *out, double from_kg, double to_kg,
                     double whole_kg, int columns, pare_known known);

/** Grams for a label: whole ones, tenths below ten. */
const char *pare_ruler_grams(char text[24], double kg);

#endif
