/* spec_show.h: a part's specs and interfaces in the trade's units. */
#ifndef PARE_SHOW_SPEC_SHOW_H
#define PARE_SHOW_SPEC_SHOW_H

#include "craft/part.h"

/** The unit in which a dimension is shown: on the screen "mohm", at a key's end "mohm", and what SI
 * is multiplied by. A dimension without unit has "" for both. */
typedef struct pare_shown_unit {
    const char *unit, *key;
    double scale;
} pare_shown_unit;
pare_shown_unit pare_unit_shown(pare_dimension dimension);

/** One spec as it is typed: two rows of the table where they share a name (stator, volts). */
typedef struct pare_spec_shown {
    const char *name;
    pare_shown_unit unit;
    bool counted; /* a whole number: cells, blades */
    size_t count; /* 1 or 2 */
    double value[2], u[2];
    pare_known known;
} pare_spec_shown;

/** The specs of a part that have a value, stated or filled, in the order of the table.
 * @param[out] shown  [PARE_SPECS] @return how many */
size_t pare_specs_shown(const pare_part *part, pare_spec_shown shown[]);

/** "16 mm or 19 mm", "3 in .. 5.1 in", "snap": one interface in words. Returns text. */
const char *pare_fit_shown(pare_fit_key key, const pare_fit *fit, char text[160]);

#endif
