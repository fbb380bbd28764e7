/* find.h: `pare parts` without a further verb: the parts that are looked for. */
#ifndef PARE_CLI_FIND_H
#define PARE_CLI_FIND_H

#include "cli/command.h"

/** All parts, or those that words, conditions and options ask for; answers of command_parts. */
pare_status parts_find(const options *given, pare_text *out, pare_error *err);

#endif
