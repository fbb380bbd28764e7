/* ruler_parts.h: every gram of a craft by system, then by part: what the gram ruler is made of. */
#ifndef PARE_SHOW_RULER_PARTS_H
#define PARE_SHOW_RULER_PARTS_H

#include "craft/sheet.h"

enum { PARE_RULER_PARTS = 2 * PARE_LINES };

/** The grams of one item, joint or run. */
typedef struct pare_ruler_part {
    pare_system system;
    pare_line_of of;
    size_t index; /* into the craft's items, joints or runs; of the craft before where kg is 0 */
    const char *name;
    int count;
    double kg; /* all of them now; 0: what is tried takes it off whole */
    pare_known known;
    double off_kg; /* taken off by what is tried; negative: put on */
} pare_ruler_part;

/** The system in which a line counts. A joint or run that came with an item counts with that item,
 * since it may weigh less than nothing: what was cut away. */
pare_system pare_ruler_system(const pare_craft *craft, const pare_line *line);

/** The parts of a sheet by system, in the order of pare_system, the heaviest of each first.
 *
 * What was cut away of a part is taken from it, so no part weighs less than nothing; together they
 * weigh what the craft does. Lines that weigh nothing are left out.
 * @param before  the sheet without what is tried, and its craft; NULL: nothing is tried
 * @return how many */
size_t pare_ruler_parts(const pare_craft *craft, const pare_sheet *sheet,
                        const pare_craft *craft_before, const pare_sheet *before,
                        pare_ruler_part part[PARE_RULER_PARTS]);

#endif
