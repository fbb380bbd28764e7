/* unit_text.h: one spelling for what people type, and where a number ends. Only units.c uses it. */
#ifndef PARE_BASE_UNIT_TEXT_H
#define PARE_BASE_UNIT_TEXT_H

#include <stdbool.h>

enum { PARE_UNIT_TEXT_SIZE = 256 };

/** Writes a quantity, a range or sizes in plain ASCII with one spelling for each sign.
 *
 * Blanks become one space and go at the ends and around '/'; a micro sign becomes 'u', an omega
 * "ohm", a degree sign "deg", raised 2 and 3 plain ones, a true minus '-', a multiplication cross
 * 'x'; "m^2" becomes "m2"; "N*m", "N.m" and a centred dot become "N m". Every other byte that is
 * not printable ASCII becomes '?', so that messages can quote the result safely.
 * @return false when the result would not fit; tidy then holds its beginning */
bool pare_unit_text_tidy(const char *text, char tidy[PARE_UNIT_TEXT_SIZE]);

/** Where the decimal number at the start of tidy text ends, or NULL when there is none.
 *
 * A number is a sign if any, digits with at most one point, and a decimal exponent if any:
 * no NaN, no infinity, no hexadecimal, no digits grouped. */
const char *pare_unit_text_number_end(const char *tidy);

/** Whether a unit is only names, each with a whole exponent of one or two digits if any, joined by
 * blanks, points, '*' and '/'. udunits2 reads far more ("m--2" is minus two metres to it, "m 3"
 * three, "m since 5" has an origin): none of that is what a person meant. */
bool pare_unit_text_is_plain(const char *unit);

#endif
