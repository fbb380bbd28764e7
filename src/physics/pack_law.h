/* pack_law.h: inside the physics room: the pack's equations with everything that does not change with
 * charge worked out once. pack.c has the design and the sources. */
#ifndef PARE_PHYSICS_PACK_LAW_H
#define PARE_PHYSICS_PACK_LAW_H

#include "physics/rig.h"

#define PARE_PACK_SLOW   0.4  /* the slow part of the resistance, over the quick one */
#define PARE_PACK_SLOW_S 15.0 /* and the time in which it sets in from rest */

/* Charges between which the open-circuit volts are linear, 0 to 1. */
enum { PARE_PACK_KNOTS = 13 };
extern const double pare_pack_knots[PARE_PACK_KNOTS];

typedef struct pare_pack_law {
    pare_chemistry kind;
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
