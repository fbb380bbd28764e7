/* day.h: days of the calendar as numbers. */
#ifndef PARE_BASE_DAY_H
#define PARE_BASE_DAY_H

/** Days since 1970-01-01 of an ISO 8601 day, "2026-04-01", in the Gregorian calendar.
 *
 * @param text  a day that was checked when it was read
 * Source: Howard Hinnant, "chrono-compatible low-level date algorithms", days_from_civil. */
long pare_day_number(const char *text);

/** The day of a number, written into text. */
const char *pare_day_text(long day, char text[16]);

#endif
