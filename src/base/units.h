/* units.h: quantities as people write them, turned into SI and back.
 *
 * "12 g", "0.42 oz", "14 AWG", "1300 mAh", "5.1 in", "20 %", "25C". The trade's own units are a
 * table here (udunits2 does not know mAh, Wh, kWh, deg or dB, reads oz as the fluid ounce, misreads
 * mph, and takes C for coulomb); every other unit goes through udunits2, whose database is read only
 * when such a unit turns up. Inside the program everything is SI but two: degrees Celsius, and
 * rpm per volt. */
#ifndef PARE_BASE_UNITS_H
#define PARE_BASE_UNITS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

typedef enum pare_dimension {
    PARE_DIM_COUNT,        /* a bare number, whole: cells, blades, screws */
    PARE_DIM_NUMBER,       /* a bare number, any: class, label rating, multiples of weight */
    PARE_DIM_SHARE,        /* 20 % or 0.2, inside 0.2 */
    PARE_DIM_MASS,         /* kg */
    PARE_DIM_LENGTH,       /* m */
    PARE_DIM_AREA,         /* m2 */
    PARE_DIM_VOLUME,       /* m3 */
    PARE_DIM_TIME,         /* s */
    PARE_DIM_ANGLE,        /* rad */
    PARE_DIM_SPEED,        /* m/s */
    PARE_DIM_ACCELERATION, /* m/s2 */
    PARE_DIM_ROTATION,     /* rad/s; bare numbers are rpm */
    PARE_DIM_TEMPERATURE,  /* degC */
    PARE_DIM_FORCE,        /* N; gf and kgf are forces */
    PARE_DIM_TORQUE,       /* N m */
    PARE_DIM_PRESSURE,     /* Pa */
    PARE_DIM_DENSITY,      /* kg/m3 */
    PARE_DIM_ENERGY,       /* J; Wh */
    PARE_DIM_POWER,        /* W */
    PARE_DIM_VOLTAGE,      /* V */
    PARE_DIM_CURRENT,      /* A */
    PARE_DIM_CHARGE,       /* C (coulomb); mAh, Ah */
    PARE_DIM_RESISTANCE,   /* ohm */
    PARE_DIM_CAPACITANCE,  /* F */
    PARE_DIM_HEAT,         /* heat capacity, J/K */
    PARE_DIM_FREQUENCY,    /* Hz */
    PARE_DIM_GAIN,         /* dB, dBi */
    PARE_DIM_KV,           /* rpm/V; a bare number is one too */
    PARE_DIM_GAUGE,        /* AWG; a bare number is one too */
    PARE_DIM_MONEY,        /* a bare number, in the bench's money */
    PARE_DIMENSIONS
} pare_dimension;

/** Holds what udunits2 loaded; one a thread. Close with pare_units_close(). Cheap to open: the unit
 * database is read at the first unit that is not in the trade's table. */
typedef struct pare_units pare_units;
pare_units *pare_units_open(void);
void pare_units_close(pare_units *units);

/** Reads one quantity.
 *
 * @param text        "12.5 g", "12.5g", "14 AWG"; leading and trailing blanks are fine
 * @param dimension   what is due
 * @param[out] value  in the unit that pare_dimension names; untouched on failure
 * @return PARE_OK, or PARE_BAD_DATA: not a number, NaN or infinite, a bare number where a unit is
 *         needed (the message says which fit), a unit of another dimension (the message says both);
 *         PARE_UNAVAILABLE when udunits2 was needed and its database cannot be read
 * Numbers have a decimal point in every locale. A count is a whole number from 0 to 1e9. */
pare_status pare_quantity(pare_units *units, const char *text, pare_dimension dimension,
                          double *value, pare_error *err);

/** Reads "11 V .. 25.5 V" (or one quantity: then low and high are equal); low <= high. */
pare_status pare_range(pare_units *units, const char *text, pare_dimension dimension, double *low,
                       double *high, pare_error *err);

/** Reads "22 mm x 7 mm" or "75mm,36mm,31mm": count quantities of one dimension.
 *
 * @param most        room in value[]
 * @param[out] count  how many were read, 1 or more */
pare_status pare_sizes(pare_units *units, const char *text, pare_dimension dimension, size_t most,
                       double value[], size_t *count, pare_error *err);

/** How a unit of the trade's own table becomes the one inside: (number - zero) * times / over. */
typedef struct pare_unit_factors {
    double times, over, zero;
} pare_unit_factors;

/** The factors of a unit as the table writes it, "" for none; for whoever reads very many numbers of
 * one unit and must come to what pare_quantity() says.
 * @return false: the table does not have it in this dimension */
bool pare_unit_factors_of(const char *unit, pare_dimension dimension, pare_unit_factors *factors);

/** The units that fit a dimension, for messages and help: "g, kg, oz, lb". */
const char *pare_dimension_units(pare_dimension dimension);

/** The dimension in words: "a mass", "a length". */
const char *pare_dimension_name(pare_dimension dimension);

#endif
