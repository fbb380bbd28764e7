/* near.c: comparisons in doubles for cmocka (see near.h). */
#include "near.h"

#include <math.h>

void pare_assert_near(double value, double truth, double tolerance, const char *what,
                      const char *file, int line)
{
    if (!(fabs(value - truth) <= tolerance)) {
        print_error("%s is %.12g, the truth is %.12g, off by %.3g where %.3g is allowed\n", what,
                    value, truth, value - truth, tolerance);
        _fail(file, line);
    }
}

void pare_assert_within(double value, double truth, double share, const char *what,
                        const char *file, int line)
{
    pare_assert_near(value, truth, share * fabs(truth), what, file, line);
}

void pare_assert_between(double value, double low, double high, const char *what, const char *file,
                         int line)
{
    if (!(value >= low && value <= high)) {
        print_error("%s is %.12g, outside %.12g .. %.12g\n", what, value, low, high);
        _fail(file, line);
    }
}
