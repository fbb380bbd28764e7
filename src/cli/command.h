/* command.h: what every command of `pare` is, and what commands share. */
#ifndef PARE_CLI_COMMAND_H
#define PARE_CLI_COMMAND_H

#include "base/error.h"
#include "base/text.h"
#include "cli/options.h"

/** A command: reads its options, puts its whole answer in `out`. main() writes that, or the error's
 * one line, and turns the status into the exit code. PARE_NO keeps the answer. */
typedef struct command {
    const char *name;
    const char *line;    /* one line of help */
    const char *usage;   /* how it is typed */
    const char *details; /* what more there is to say */
    const char *example; /* a worked one */
    unsigned options;
    pare_status (*run)(const options *given, pare_text *out, pare_error *err);
} command;

extern const command command_calc;
extern const command command_compare;
extern const command command_craft;
extern const command command_demo;
extern const command command_export;
extern const command command_history;
extern const command command_import;
extern const command command_parts;
extern const command command_redo;
extern const command command_sheet;
extern const command command_swaps;
extern const command command_undo;

#endif
