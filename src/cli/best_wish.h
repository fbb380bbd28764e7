/* best_wish.h: what a best set is to be best in, as it is typed. Only best.c uses it. */
#ifndef PARE_CLI_BEST_WISH_H
#define PARE_CLI_BEST_WISH_H

#include "advise/best_wish.h"
#include "cli/options.h"

/** Reads --wish and --hours.
 * @param[out] wish      grams where nothing is said
 * @param[out] work_min  minutes that the work may take; INFINITY: any time. An evening has three hours where
 *                       nothing is said
 * @return PARE_BAD_DATA: no such wish, no number of hours, or it does not go with other options */
pare_status best_wish_read(const options *given, int *wish, double *work_min, pare_error *err);

#endif
