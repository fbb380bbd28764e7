/* read_units.h: for programs that read quantities all through: the units, and a reading that must
 * succeed. */
#ifndef PARE_TESTS_READ_UNITS_H
#define PARE_TESTS_READ_UNITS_H

#include "near.h"

#include <math.h>

#include "base/units.h"

static pare_units *units;

static inline int open_units(void **state)
{
    (void)state;
    units = pare_units_open();
    return units ? 0 : -1;
}

static inline int close_units(void **state)
{
    (void)state;
    pare_units_close(units);
    return 0;
}

static inline double quantity(const char *text, pare_dimension dimension)
{
    pare_error err = {0};
    double value = NAN;
    if (pare_quantity(units, text, dimension, &value, &err) != PARE_OK)
        fail_msg("'%s' was refused: %s", text, err.text);
    return value;
}

#endif
