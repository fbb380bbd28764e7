/* best_ways.c: --ways of `pare best` (see best_ways.h). */
#include "cli/best_ways.h"

#include <math.h>

#include "cli/timed.h"

pare_status best_ways_read(const options *given, size_t *wanted, pare_error *err)
{
    double number;
    *wanted = 0;
    if ((given->given & OPTION_WAYS) == 0)
        return PARE_OK;
    if (!timed_read(given->ways, PARE_WAYS_MOST, &number) || number < 2 || floor(number) != number)
        return pare_fail(err, PARE_BAD_DATA, "--ways '%s': a number of sets is due, 2 to %d",
                         given->ways, PARE_WAYS_MOST);
    if (given->given & (OPTION_FRONT | OPTION_WALK))
        return pare_fail(err, PARE_BAD_DATA,
                         "--ways goes without --front and --walk: one question at a time");
    *wanted = (size_t)number;
    return PARE_OK;
}
