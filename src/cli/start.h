/* start.h: the subcommands of `pare craft` that make a craft and set its limits. */
#ifndef PARE_CLI_START_H
#define PARE_CLI_START_H

#include "base/text.h"
#include "cli/options.h"

/** `pare craft start NAME [key=value...]` */
pare_status craft_start(const options *given, pare_text *out, pare_error *err);

/** The keys of a start, for the completion. @return how many, `most` at most */
size_t craft_start_keys(size_t most, const char *name[]);

/** `pare craft limit NAME key=value...` */
pare_status craft_limit(const options *given, pare_text *out, pare_error *err);

#endif
