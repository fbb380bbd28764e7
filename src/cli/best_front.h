/* best_front.h: `pare best CRAFT --front WISHES`. Only best.c uses it. */
#ifndef PARE_CLI_BEST_FRONT_H
#define PARE_CLI_BEST_FRONT_H

#include "advise/best.h"
#include "cli/command.h"

/** Before anything long begins: whether wishes and file can be what they are. */
pare_status best_front_check(const options *given, pare_error *err);

/** Finds the front and says it: on the terminal, as JSON, or into the file of -o. The clock of `ask` is
 * running.
 * @return PARE_NO: no set does what the brief asks */
pare_status best_front(const options *given, const pare_bench *bench, const pare_craft *craft,
                       const pare_best_ask *ask, pare_arena *arena, pare_text *out,
                       pare_error *err);

#endif
