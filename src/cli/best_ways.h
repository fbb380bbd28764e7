/* best_ways.h: `pare best CRAFT --ways NUMBER`. Only best.c uses it. */
#ifndef PARE_CLI_BEST_WAYS_H
#define PARE_CLI_BEST_WAYS_H

#include "advise/best_ways.h"
#include "cli/options.h"

/** @param[out] wanted  0: not asked for
 *  @return PARE_BAD_DATA: no such number, or it does not go with other options */
pare_status best_ways_read(const options *given, size_t *wanted, pare_error *err);

#endif
