/* use_weighed.h: the bench that a command works on, by what scales said. For use.c only. */
#ifndef PARE_CLI_USE_WEIGHED_H
#define PARE_CLI_USE_WEIGHED_H

#include "cli/use.h"

/** Puts the masses that all weigh-ins of the bench give in the place of those that are written, and what
 * is on a weighed craft and not written down onto it.
 * @param craft  the only one that was read; NULL: all were */
pare_status bench_by_scale(const bench_in_use *use, const char *craft, pare_error *err);

#endif
