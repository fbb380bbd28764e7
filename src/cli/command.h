/* command.h: what every command of `pare` is, and what commands share. */
#ifndef PARE_CLI_COMMAND_H
#define PARE_CLI_COMMAND_H

#include "base/error.h"
#include "base/text.h"
#include "cli/options.h"

enum { COMMAND_MEANINGS = 8 };

/** A command: reads its options, puts its whole answer in `out`. main() writes that, or the error's
 * one line, and turns the status into the exit code. PARE_NO keeps the answer.
 *
 * The texts are the help, the man page and, by the usage, the completion; the tests run each line of
 * the example. Lines are 80 columns at most. */
typedef struct command {
    const char *name;
    const char *line;    /* one line of help */
    const char *usage;   /* how it is typed, a form a line, in the grammar of cli/usage.h */
    const char *details; /* "  WORD    what it is" with further lines under it, and paragraphs; not
                            options, which have their own table */
    const char *caution; /* what may hurt or be forbidden; NULL: nothing */
    const char *example; /* "  pare ..." lines that the shell runs on the demo's bench, one after
                            another, beside a list parts.csv and a study customers.yaml;
                            "# exit 1" behind one that does not end with 0 */
    option_bits options; /* bits of OPTION_ */
    struct {
        option_bits option; /* one bit */
        const char *text;
    } meaning[COMMAND_MEANINGS]; /* where options.c says it too generally */
    /* For the completion, may be NULL: what THING, or the key of KEY=VALUE, may be behind these
     * operands. @return how many names, `most` at most */
    size_t (*words)(size_t operands, const char *const operand[], size_t most, const char *name[]);
    pare_status (*run)(const options *given, pare_text *out, pare_error *err);
} command;

/** All commands, in the order of the help. */
const command *const *commands(size_t *count);

/** One by its name; NULL and PARE_UNKNOWN with the nearest where there is none. */
const command *command_named(const char *name, pare_error *err);

/** What an option means to a command, in one line. */
const char *command_option_meaning(const command *of, const option_row *option);

/** The usual cautions, for `caution`. */
#define CAUTION_WORK                                                                               \
    "Propellers come off before any work on a powered craft. Lithium packs burn when cut, "        \
    "crushed, shorted or overcharged. Lighter or fewer screws and thinner wires are weaker, and "  \
    "get hotter."
#define CAUTION_FLYING                                                                             \
    "A legal mass limit counts the craft as flown, with everything on it; rules differ and "       \
    "change: check your local ones."

extern const command command_best;
extern const command command_calc;
extern const command command_check_proof;
extern const command command_compare;
extern const command command_craft;
extern const command command_demo;
extern const command command_export;
extern const command command_history;
extern const command command_import;
extern const command command_learn;
extern const command command_members;
extern const command command_parts;
extern const command command_redo;
extern const command command_report;
extern const command command_scale;
extern const command command_serve;
extern const command command_sheet;
extern const command command_study;
extern const command command_swaps;
extern const command command_take;
extern const command command_undo;
extern const command command_weigh;

#endif
