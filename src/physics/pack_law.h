/* pack_law.h: inside the physics room: the pack's equations with everything that does not change with
 * charge worked out once. pack.c has the design and the sources. */
#ifndef PARE_PHYSICS_PACK_LAW_H
#define PARE_PHYSICS_PACK_LAW_H

#include "physics/rig.h"

typedef struct pare_pack_law {
    const pare_cell *cell;
    int cells;
    double quick_ohm; /* all groups, without the rise towards empty */
    double lead_ohm;
} pare_pack_law;

pare_pack_law pare_pack_law_of(const pare_pack *pack);
double pare_pack_law_ohm(const pare_pack_law *law, double charge, double steady);
double pare_pack_law_open_v(const pare_pack_law *law, double charge);

/** PARE_BAD_DATA for a pack that cannot be, naming the field. */
pare_status pare_pack_check(const pare_pack *pack, pare_error *err);

#endif
