/* day.c: days of the calendar as numbers (see day.h). Eras of 400 years, years that begin in March, so
 * that a leap day is the last of its year. */
#include "base/day.h"

#include <stdio.h>
#include <stdlib.h>

enum { DAYS_OF_ERA = 146097, TO_1970 = 719468 };

long pare_day_number(const char *text)
{
    char *rest;
    long year = strtol(text, &rest, 10);
    const long month = *rest == '-' ? strtol(rest + 1, &rest, 10) : 1;
    const long day = *rest == '-' ? strtol(rest + 1, &rest, 10) : 1;
    year -= month <= 2;
    const long era = (year >= 0 ? year : year - 399) / 400;
    const long of_era = year - era * 400;
    const long of_year = (153 * (month > 2 ? month - 3 : month + 9) + 2) / 5 + day - 1;
    return era * DAYS_OF_ERA + of_era * 365 + of_era / 4 - of_era / 100 + of_year - TO_1970;
}

const char *pare_day_text(long day, char text[16])
{
    const long z = day + TO_1970;
    const long era = (z >= 0 ? z : z - DAYS_OF_ERA + 1) / DAYS_OF_ERA;
    const long of_era = z - era * DAYS_OF_ERA;
    const long year_of_era =
        (of_era - of_era / 1460 + of_era / 36524 - of_era / (DAYS_OF_ERA - 1)) / 365;
    const long of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    const long shifted = (5 * of_year + 2) / 153;
    const long month = shifted < 10 ? shifted + 3 : shifted - 9;
    const long year = era * 400 + year_of_era + (month <= 2);
    /* Years beyond four digits are nobody's. */
    snprintf(text, 16, "%04u-%02u-%02u", (unsigned)(year % 10000) & 0x3fffU, (unsigned)month & 15U,
             (unsigned)(of_year - (153 * shifted + 2) / 5 + 1) & 31U);
    return text;
}
