/* digits.h: numbers written with no digit below their uncertainty. */
#ifndef PARE_SHOW_DIGITS_H
#define PARE_SHOW_DIGITS_H

#include "show/screen.h"

enum { PARE_DIGITS = 48 };

/** The place of the last digit worth writing: 1 is tenths, 0 units, -1 tens.
 *
 * The last digit is where the first significant one of the uncertainty stands (JCGM 100:2008, 7.2.6,
 * in its plainest form). Where u is 0 or not known, three significant digits of the value, and never
 * fewer than its units. */
int pare_digits_place(double value, double u);

/** A value rounded at a place, "-0" written as "0"; "-" where it is not finite. Returns text. */
const char *pare_digits_at(char text[PARE_DIGITS], double value, int place);

/** "691.4 +- 0.4"; without the second half where u is 0 or not known. */
const char *pare_digits_u(char text[PARE_DIGITS], const pare_screen *screen, double value,
                          double u);
/** "691.4": the same digits, the uncertainty not said. */
const char *pare_digits(char text[PARE_DIGITS], double value, double u);
/** A figure that somebody said, as few digits as say it: "5.5", "620". */
const char *pare_digits_limit(char text[PARE_DIGITS], double value);
/** A change with its sign, to so many significant digits, but never below a place: "+4.1", "-0.06";
 * "0" for what rounds to nothing. */
const char *pare_digits_change(char text[PARE_DIGITS], double change, int significant, int most);

#endif
