/* best_wish.c: --wish and --hours of `pare best` (see best_wish.h). */
#include "cli/best_wish.h"

#include <math.h>

#include "base/text.h"
#include "cli/timed.h"

#define EVENING_MIN  180.0 /* common practice, no source */
#define LONGEST_HOUR 1e4

static pare_status read_wish(const options *given, int *wish, pare_error *err)
{
    const char *wishes[PARE_BEST_WISHES];
    *wish = PARE_WISH_GRAMS;
    if ((given->given & OPTION_WISH) == 0)
        return PARE_OK;
    *wish = pare_best_wish_named(given->wish);
    if (*wish >= 0)
        return PARE_OK;
    for (int i = 0; i < PARE_BEST_WISHES; i++)
        wishes[i] = pare_best_wish_name(i);
    const char *near = pare_nearest(given->wish, PARE_BEST_WISHES, wishes);
    if (near)
        return pare_fail(err, PARE_BAD_DATA, "no wish '%s'; did you mean %s?", given->wish, near);
    return pare_fail(err, PARE_BAD_DATA,
                     "no wish '%s' for a best set; there are grams, minutes, thrust, quickness, "
                     "money, crash, evening",
                     given->wish);
}

pare_status best_wish_read(const options *given, int *wish, double *work_min, pare_error *err)
{
    double hours;
    const pare_status status = read_wish(given, wish, err);
    if (status != PARE_OK)
        return status;
    *work_min = *wish == PARE_WISH_EVENING ? EVENING_MIN : HUGE_VAL;
    if (given->given & OPTION_HOURS) {
        if (!timed_read(given->hours, LONGEST_HOUR, &hours))
            return pare_fail(err, PARE_BAD_DATA,
                             "--hours '%s': hours of work are due, 0 to %g, like 2.5", given->hours,
                             LONGEST_HOUR);
        *work_min = 60 * hours;
    }
    if (*wish != PARE_WISH_GRAMS && *wish != PARE_WISH_EVENING &&
        given->given & (OPTION_FRONT | OPTION_WALK | OPTION_BINDS))
        return pare_fail(err, PARE_BAD_DATA,
                         "--wish %s goes without --front, --walk and --binds, which ask for grams",
                         given->wish);
    return PARE_OK;
}
