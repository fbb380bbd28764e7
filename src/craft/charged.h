/* charged.h: what a charger said of the packs of one part, and what follows for the part. */
#ifndef PARE_CRAFT_CHARGED_H
#define PARE_CRAFT_CHARGED_H

#include <stddef.h>

#include "base/error.h"
#include "craft/value.h"
#include "physics/charger.h"

/** One time at the charger, of one of the packs that are owned. */
typedef struct pare_charged {
    int which;                    /* which of those owned, from 1 */
    const char *date;             /* NULL: not said */
    pare_charger_reading reading; /* cells 0: no resistance was read */
    double holds_c;               /* charge that it gave, full to empty; 0: not measured */
    pare_group_reading group;     /* filled by pare_charged_all() */
} pare_charged;

/** Works each reading out and says what a pack of the part has now.
 *
 * The newest of each pack counts, undated ones as the oldest and later ones in the list before
 * earlier; several packs give their mean, with their scatter in its uncertainty.
 * @param pack  chemistry, cells and stated capacity
 * @param[out] ohm      of a cell group as the pack's law wants it, known PARE_MEASURED; not given
 *                      where no resistance was read
 * @param[out] holds_c  what it holds, likewise
 * @return PARE_BAD_DATA for a reading that cannot be, naming the pack and what would be right */
pare_status pare_charged_all(const pare_pack *pack, size_t count, pare_charged charged[],
                             pare_value *ohm, pare_value *holds_c, pare_error *err);

/** Whether a reading is the newest of its pack that has cells. */
bool pare_charged_newest(size_t count, const pare_charged charged[], size_t index);

#endif
