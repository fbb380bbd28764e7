/* best_sold.h: `pare best CRAFT --sold SHARE --sold PART=MONEY`. Only best.c uses it. */
#ifndef PARE_CLI_BEST_SOLD_H
#define PARE_CLI_BEST_SOLD_H

#include "advise/resale.h"
#include "cli/options.h"

/** @param[out] resale  nothing comes back where the option is not given
 *  @return PARE_BAD_DATA: no share or no money; PARE_UNKNOWN: the bench has no such part, with the nearest */
pare_status best_sold_read(const options *given, const pare_bench *bench, pare_resale *resale,
                           pare_error *err);

#endif
