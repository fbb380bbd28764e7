/* day.c: days as they are typed (see day.h). */
#include "cli/day.h"

#include <string.h>
#include <time.h>

#include "base/text.h"

pare_status day_today(char day[DAY], pare_error *err)
{
    const time_t now = time(NULL);
    struct tm local;
    if (now == (time_t)-1 || !localtime_r(&now, &local) ||
        strftime(day, DAY, "%Y-%m-%d", &local) != DAY - 1)
        return pare_fail(err, PARE_UNAVAILABLE, "this machine does not know what day it is");
    return PARE_OK;
}

pare_status day_read(const char *option, const char *typed, const char *now, const char **day,
                     pare_error *err)
{
    *day = strcmp(typed, "today") == 0 ? now : typed;
    if (!pare_text_is_day(*day))
        return pare_fail(err, PARE_BAD_DATA,
                         "%s '%.40s' is no day; right would be like 2026-03-01, or today", option,
                         typed);
    if (strcmp(*day, now) > 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s %s lies ahead; right would be the day on which it happened", option,
                         typed);
    return PARE_OK;
}
