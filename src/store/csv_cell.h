/* csv_cell.h: what a person types into a cell, as the text that a bench keeps. Inside the room only.
 *
 * "~12,5g" becomes "12.5 g", known by estimate. What cannot be understood here is passed on as it is,
 * so that the reader of the text form refuses it in its own words. Errors have no place in them: the
 * caller knows where the cell stands. */
#ifndef PARE_STORE_CSV_CELL_H
#define PARE_STORE_CSV_CELL_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"
#include "base/units.h"

/** What the decimals of a table are written with. */
typedef enum pare_decimal {
    PARE_DECIMAL_UNKNOWN, /* nothing tells: "1,300" is refused */
    PARE_DECIMAL_POINT,
    PARE_DECIMAL_COMMA,
    PARE_DECIMAL_BOTH /* both stand in it: each number by itself, "1,300" and "1.300" are refused */
} pare_decimal;

enum { PARE_CSV_DIGITS = 48, PARE_CSV_VALUE = 128 };

/** A number at the start of a text, in digits with a point.
 *
 * Signs, grouped thousands ("1 300", "1'300", "1,300" where the table's decimals tell) and an
 * exponent are read.
 * @param[out] digits     "1300", "12.5"
 * @param[out] ambiguous  it can be two numbers: "1,300"
 * @return where it ends, or NULL where there is none */
const char *pare_csv_number(const char *text, pare_decimal decimal, char digits[PARE_CSV_DIGITS],
                            bool *ambiguous);

/** Whether a text votes for a decimal point or comma: it starts with a number that has one of them
 * and can be nothing else. */
pare_decimal pare_csv_decimal_of(const char *text);

typedef struct pare_csv_quantity {
    char value[PARE_CSV_VALUE]; /* "12.5 g" */
    char u[PARE_CSV_VALUE];     /* "0.2 g" of "12.5 +/- 0.2 g"; "" where it is not said */
    bool about;                 /* "~12 g", "12 g?" */
} pare_csv_quantity;

/** One quantity. @param unit  of a number without one; NULL: none is known
 * @return PARE_OK; PARE_BAD_DATA: "1,300", or no unit where one is needed */
pare_status pare_csv_read_quantity(const char *cell, pare_decimal decimal, pare_dimension dimension,
                                   const char *unit, pare_csv_quantity *quantity, pare_error *err);

/** One quantity or a range of two, "11 - 25.5 V", as "11 V .. 25.5 V". */
pare_status pare_csv_read_span(const char *cell, pare_decimal decimal, pare_dimension dimension,
                               const char *unit, char value[PARE_CSV_VALUE], pare_error *err);

/** A whole number, or a range of two: "4", "4S", "x4", "4 pcs", "3-6S". */
void pare_csv_read_count(const char *cell, char value[PARE_CSV_VALUE]);

/** A sum of money. @param[out] currency  its three letters, "" where it is not said, "$" for any
 * dollar */
pare_status pare_csv_read_money(const char *cell, pare_decimal decimal, char value[PARE_CSV_VALUE],
                                char currency[4], pare_error *err);

/** A day as 2026-03-01, out of that, 2026/03/01 or 1.3.2026. */
void pare_csv_read_date(const char *cell, char value[PARE_CSV_VALUE]);

/** A stator, "2207", "22x7", "22 mm x 7 mm", as "22 mm x 7 mm". @return false: it is none */
bool pare_csv_read_pair(const char *cell, pare_decimal decimal, char value[PARE_CSV_VALUE]);

/** A propeller, "5.1x4.3x3", "5143", in inches unless it says otherwise.
 * @param[out] blades  "" where it does not say */
bool pare_csv_read_propeller(const char *cell, pare_decimal decimal, char diameter[PARE_CSV_VALUE],
                             char pitch[PARE_CSV_VALUE], char blades[PARE_CSV_VALUE]);

/** Sizes that parts meet at, each once: "16x19" as "16 mm" and "19 mm".
 * @param[out] value  as many as fit in `most`
 * @return how many, 0 where the cell is no such thing */
size_t pare_csv_read_sizes(const char *cell, pare_decimal decimal, const char *unit, size_t most,
                           char value[][PARE_CSV_VALUE]);

#endif
