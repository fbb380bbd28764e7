/* stand_table.h: what a thrust stand measured of one motor with one propeller. */
#ifndef PARE_CRAFT_STAND_TABLE_H
#define PARE_CRAFT_STAND_TABLE_H

#include <stddef.h>

#include "physics/air.h"
#include "physics/pair.h"

/** A checked table, lent by the bench. */
typedef struct pare_stand_table {
    const char *motor, *propeller; /* ids of their parts */
    pare_air air;                  /* of the test */
    double air_share_u;            /* relative standard uncertainty of its density */
    size_t rows;
    const pare_stand_row *row; /* [rows] by volts, then throttle */
} pare_stand_table;

#endif
