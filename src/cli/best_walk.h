/* best_walk.h: `pare best CRAFT --walk [--budget MONEY]`. Only best.c uses it. */
#ifndef PARE_CLI_BEST_WALK_H
#define PARE_CLI_BEST_WALK_H

#include "advise/best.h"
#include "cli/command.h"

/** Before anything long begins: whether the options go together and the budget is money. */
pare_status best_walk_check(const options *given, pare_error *err);

/** Finds the best set and the order in which to buy it, and says it. The clock of `ask` is running.
 * @return PARE_NO: no set does what the brief asks */
pare_status best_walk(const options *given, const pare_bench *bench, const pare_craft *craft,
                      const pare_best_ask *ask, pare_arena *arena, pare_text *out, pare_error *err);

#endif
