/* best_knock_on.h: `pare best CRAFT --knock-on GRAMS`. Only best.c uses it. */
#ifndef PARE_CLI_BEST_KNOCK_ON_H
#define PARE_CLI_BEST_KNOCK_ON_H

#include "advise/best.h"
#include "cli/command.h"

/** Before anything long begins: whether the options go together and a mass is given. */
pare_status best_knock_on_check(const options *given, pare_error *err);

/** Finds what follows and says it. The clock of `ask` is running.
 * @return PARE_NO: nothing that there is carries the craft as its brief asks */
pare_status best_knock_on(const options *given, const pare_bench *bench, const pare_craft *craft,
                          const pare_best_ask *ask, pare_arena *arena, pare_text *out,
                          pare_error *err);

#endif
