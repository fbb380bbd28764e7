/* charger.h: what a charger's readings say of the cells. */
#ifndef PARE_PHYSICS_CHARGER_H
#define PARE_PHYSICS_CHARGER_H

#include "physics/rig.h"

/** How a resistance was taken: each way sees another part of it. */
typedef enum pare_reading_kind {
    PARE_READING_PULSE, /* a step of current of some second: what chargers do */
    PARE_READING_AC,    /* a tone near 1 kHz: foils, welds and electrolyte alone */
    PARE_READING_DC,    /* two loads, each held for some ten seconds */
    PARE_READING_KINDS
} pare_reading_kind;

enum { PARE_READING_CELLS = 16 };

typedef struct pare_charger_reading {
    pare_reading_kind kind;
    double seconds; /* how long the current stood; 0: not said, 1 s for a pulse and 10 s for dc */
    double degc;    /* of the cells; NAN: not said, a room of 20 +- 5 degC */
    double charge;  /* 0 to 1; NAN: not said, about half */
    size_t cells;
    double ohm[PARE_READING_CELLS];
} pare_charger_reading;

/** The resistance of one cell group, as pare_pack.group_ohm wants it: quick, at 25 degC and half
 * charge; the mean of the cells, since in series they add up. */
typedef struct pare_group_reading {
    double ohm, u;
    int worst;          /* number of the cell far above its mates, from 1; 0: none is */
    double worst_times; /* its resistance over the median of the others */
} pare_group_reading;

/** From a reading to the group.
 *
 * @param pack  its chemistry and cells say which laws hold
 * @return PARE_BAD_DATA for a reading of as many cells as the pack has not, a resistance of 0 or
 *         less, a temperature outside -40 to 80 degC, a charge outside 0 to 1, a time over 600 s
 * u: the charger's own 8 %, the scatter of its cells, 2 K (5 K where no temperature was noted), what
 * the charge adds, and how well the kind's share is known. Source: cells_fitted.c for the shares;
 * a charger's 8 % and the 1 s of its pulse are common practice, no source. */
pare_status pare_charger_group(const pare_pack *pack, const pare_charger_reading *reading,
                               pare_group_reading *group, pare_error *err);

#endif
