/* stand_table.h: what a thrust stand measured of one motor with one propeller, checked to be possible.
 *
 * A measurement goes before any model, so a wrong one does the most harm: a thrust in the wrong unit, a
 * speed counted in electrical turns. Each row is held against what no motor and no rotor can do. */
#ifndef PARE_CRAFT_STAND_TABLE_H
#define PARE_CRAFT_STAND_TABLE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"
#include "physics/air.h"
#include "physics/pair.h"

enum { PARE_STAND_ROWS = 2000 }; /* of one table at most: see docs/decisions.md */

/** A table of one motor with one propeller at rest, checked and in order. */
typedef struct pare_stand_table {
    const char *motor, *propeller; /* ids of parts */
    pare_air air;
    double air_share_u;        /* relative standard uncertainty of the air's density */
    size_t rows;               /* 2 or more, or 0 with a fault */
    const pare_stand_row *row; /* [rows] by supply setting, within one by throttle: rising */
    const char *fault;         /* NULL; else why it cannot be used with its parts as they are now */
    /* The fit of all tables of this pair together, once warm; NULL where there is none. */
    const pare_pair_fit *pair;
} pare_stand_table;

/** The readings as they were typed, a column each. */
typedef enum pare_stand_column {
    PARE_STAND_THROTTLE,
    PARE_STAND_VOLTS,
    PARE_STAND_CURRENT,
    PARE_STAND_POWER,
    PARE_STAND_THRUST,
    PARE_STAND_SPEED,
    PARE_STAND_TORQUE,
    PARE_STAND_TEMPERATURE, /* kept, and used by nothing yet */
    PARE_STAND_COLUMNS
} pare_stand_column;

typedef struct pare_stand_reading {
    double value[PARE_STAND_COLUMNS]; /* SI, temperature in degC; NAN: no such column */
} pare_stand_reading;

/** What is known of the pair that was measured. */
typedef struct pare_stand_pair {
    double kv_rpm_per_v, kv_u; /* the motor's; 0: not known */
    double diameter_m;         /* the propeller's; 0: not known */
} pare_stand_pair;

/** Where a table was found wrong. */
typedef struct pare_stand_place {
    size_t row;               /* from 0, as typed; PARE_STAND_ROWS: the table as a whole */
    pare_stand_column column; /* PARE_STAND_COLUMNS: the row as a whole */
} pare_stand_place;

/** The standard uncertainty of the density, by what was said of the air [E]: weather moves the
 * pressure at a place by about 1 %; where height or temperature was not said, 2 %. */
double pare_stand_air_share_u(bool altitude_given, bool temperature_given);

/** Checks readings and puts them in order.
 *
 * Identical rows are kept once. Two rows of one setting that differ are repeats, and kept, unless no
 * one rotor can have given both.
 * @param count    how many, in reading[]
 * @param[out] row  [count], those that are kept, in order
 * @param[out] rows  how many are kept
 * @param[out] place  on failure: where
 * @return PARE_OK; PARE_BAD_DATA: volts, thrust, or current and power missing; fewer than two rows;
 *         more than PARE_STAND_ROWS; a value out of its range; less power than the ideal rotor takes;
 *         more out of the shaft than goes in; faster than the motor runs free; repeats that contradict */
pare_status pare_stand_check(size_t count, const pare_stand_reading reading[],
                             const pare_stand_pair *pair, const pare_air *air, pare_stand_row row[],
                             size_t *rows, pare_stand_place *place, pare_error *err);

/** The tables of one pair among those of a bench, which stand by motor, then propeller.
 * @param[out] found  how many, from the one returned on; 0 with NULL */
const pare_stand_table *pare_stand_of(size_t count, const pare_stand_table table[],
                                      const char *motor, const char *propeller, size_t *found);

#endif
