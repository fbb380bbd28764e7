/* best_sure.h: `pare best CRAFT --sure SHARE`. Only best.c uses it. */
#ifndef PARE_CLI_BEST_SURE_H
#define PARE_CLI_BEST_SURE_H

#include "advise/best.h"
#include "cli/options.h"
#include "show/best.h"

/** @param wish  of the set
 *  @param[out] sure  0: not asked for
 *  @return PARE_BAD_DATA: no such share, or it does not go with other options */
pare_status best_sure_read(const options *given, int wish, double *sure, pare_error *err);

/** After a search: the lightest set that just meets the limits, and what the set that was found does when all
 * that is doubted is drawn. Nothing where no sureness was asked for.
 * @param ask  with it */
pare_status best_sure_ask(const pare_bench *bench, const pare_craft *craft,
                          const pare_best_ask *ask, int wish, const pare_best *best,
                          pare_arena *arena, pare_best_sureness *sureness, pare_error *err);

#endif
