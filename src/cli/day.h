/* day.h: days as they are typed: 2026-03-01, or today. */
#ifndef PARE_CLI_DAY_H
#define PARE_CLI_DAY_H

#include "base/error.h"

enum { DAY = 11 /* "2026-04-01" */ };

/** @return PARE_OK, or PARE_UNAVAILABLE where the machine does not know */
pare_status day_today(char day[DAY], pare_error *err);

/** A day on which something happened.
 * @param option  for the message: "--fitted"
 * @param typed   as typed, "today" among it
 * @param now     today
 * @param[out] day  typed, or now
 * @return PARE_OK; PARE_BAD_DATA for what is no day, or lies ahead */
pare_status day_read(const char *option, const char *typed, const char *now, const char **day,
                     pare_error *err);

#endif
