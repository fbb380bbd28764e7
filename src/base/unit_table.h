/* unit_table.h: the trade's own units, and what each dimension is called. Only units.c uses it. */
#ifndef PARE_BASE_UNIT_TABLE_H
#define PARE_BASE_UNIT_TABLE_H

#include "base/units.h"

/** A unit: value = (number - zero) * times / over, in the unit that pare_dimension names.
 *
 * Two whole factors rather than one rounded ratio: "12 g" is then the double nearest to 0.012. */
typedef struct pare_unit_row {
    const char *symbol; /* "" is a bare number */
    pare_dimension dimension;
    double times, over, zero;
} pare_unit_row;

/** All rows, for tests and lookups; a symbol may stand in more than one dimension ("g", "C"). */
extern const pare_unit_row pare_unit_rows[];
extern const size_t pare_unit_row_count;

/** The row of a symbol in one dimension, or NULL. */
const pare_unit_row *pare_unit_find(const char *symbol, pare_dimension dimension);

/** The first row of a symbol in any dimension, or NULL. */
const pare_unit_row *pare_unit_find_any(const char *symbol);

/** The first row of a dimension whose symbol differs from this one by case alone, or NULL. */
const pare_unit_row *pare_unit_find_other_case(const char *symbol, pare_dimension dimension);

/** The inside unit as udunits2 writes it, or NULL where only the table serves: numbers without a
 * unit, decibels, gauges, and turning, which udunits2 cannot tell from a plain 1/s. */
const char *pare_dimension_library_unit(pare_dimension dimension);

#endif
