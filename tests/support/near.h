/* near.h: what every test program includes: cmocka, and comparisons in doubles.
 *
 * cmocka 1.1.5 compares floats only, which passes too much; these compare doubles and print both
 * numbers and the tolerance when they fail. */
#ifndef PARE_TESTS_NEAR_H
#define PARE_TESTS_NEAR_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/** Fails unless |value - truth| <= tolerance; a NaN on any side fails. */
#define assert_near(value, truth, tolerance)                                                       \
    pare_assert_near((value), (truth), (tolerance), #value, __FILE__, __LINE__)

/** Fails unless value lies within share (relative) of truth. */
#define assert_within(value, truth, share)                                                         \
    pare_assert_within((value), (truth), (share), #value, __FILE__, __LINE__)

/** Fails unless low <= value <= high. */
#define assert_between(value, low, high)                                                           \
    pare_assert_between((value), (low), (high), #value, __FILE__, __LINE__)

void pare_assert_near(double value, double truth, double tolerance, const char *what,
                      const char *file, int line);
void pare_assert_within(double value, double truth, double share, const char *what,
                        const char *file, int line);
void pare_assert_between(double value, double low, double high, const char *what, const char *file,
                         int line);

#endif
