/* help.h: what `pare help` says, from the table of commands. */
#ifndef PARE_CLI_HELP_H
#define PARE_CLI_HELP_H

#include "cli/command.h"

/** All commands, a line each. */
void help_list(pare_text *out);

/** One command in full. */
void help_on(const command *about, pare_text *out);

#endif
