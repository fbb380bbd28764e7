/* digits.c: rounding for readers (see digits.h). */
#include "show/digits.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PLACES = 9, WITHOUT_U = 3 };

static int leading(double value)
{
    /* Through text: 0.0996 at one digit is 0.1, and floor(log10()) would say hundredths. */
    char text[32];
    snprintf(text, sizeof text, "%.0e", value);
    const char *e = strchr(text, 'e');
    return e ? (int)strtol(e + 1, NULL, 10) : 0;
}

static int clamped(int place)
{
    return place > PLACES ? PLACES : place < -PLACES ? -PLACES : place;
}

int pare_digits_place(double value, double u)
{
    if (isfinite(u) && u > 0)
        return clamped(-leading(u));
    if (!isfinite(value) || value == 0)
        return 0;
    const int place = WITHOUT_U - 1 - leading(value);
    return place < 0 ? 0 : clamped(place);
}

const char *pare_digits_at(char text[PARE_DIGITS], double value, int place)
{
    if (!isfinite(value) || fabs(value) >= 1e15) {
        strcpy(text, "-");
        return text;
    }
    double rounded = value;
    if (place < 0) {
        const double unit = pow(10, -place);
        rounded = round(value / unit) * unit;
    }
    snprintf(text, PARE_DIGITS, "%.*f", place > 0 ? place : 0, rounded);
    if (text[0] == '-' && strspn(text + 1, "0.") == strlen(text + 1))
        memmove(text, text + 1, strlen(text));
    return text;
}

const char *pare_digits(char text[PARE_DIGITS], double value, double u)
{
    return pare_digits_at(text, value, pare_digits_place(value, u));
}

const char *pare_digits_u(char text[PARE_DIGITS], const pare_screen *screen, double value, double u)
{
    pare_digits(text, value, u);
    if (!(isfinite(u) && u > 0) || !isfinite(value))
        return text;
    char doubt[PARE_DIGITS];
    pare_digits_at(doubt, u, pare_digits_place(value, u));
    const size_t length = strlen(text);
    snprintf(text + length, PARE_DIGITS - length, " %s %s", pare_screen_plus_minus(screen), doubt);
    return text;
}

const char *pare_digits_limit(char text[PARE_DIGITS], double value)
{
    if (!isfinite(value) || fabs(value) >= 1e6)
        return pare_digits_at(text, value, 0);
    snprintf(text, PARE_DIGITS, "%.6g", value);
    return strchr(text, 'e') ? pare_digits_at(text, value, PLACES) : text;
}

const char *pare_digits_change(char text[PARE_DIGITS], double change, int significant, int most)
{
    if (!isfinite(change)) {
        strcpy(text, "-");
        return text;
    }
    int place = change == 0 ? 0 : significant - 1 - leading(change);
    if (place > most)
        place = most;
    pare_digits_at(text, change, place);
    if (strspn(text, "-0.") == strlen(text)) {
        strcpy(text, "0");
    } else if (text[0] != '-') {
        memmove(text + 1, text, strlen(text) + 1);
        text[0] = '+';
    }
    return text;
}
