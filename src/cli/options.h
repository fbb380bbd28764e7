/* options.h: what stands on the command line after the command's name. */
#ifndef PARE_CLI_OPTIONS_H
#define PARE_CLI_OPTIONS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/progress.h"
#include "craft/taken.h"

/** Each option as a bit, so that a command can say which it takes. */
enum {
    OPTION_BENCH = 1u << 0,
    OPTION_JSON = 1u << 1,
    OPTION_ALL = 1u << 2,
    OPTION_CHECK = 1u << 3,
    OPTION_LOADOUT = 1u << 4,
    OPTION_TRY = 1u << 5,
    OPTION_WISH = 1u << 6,
    OPTION_OUTPUT = 1u << 7,
    OPTION_KIND = 1u << 8,
    OPTION_HELP = 1u << 9,
    OPTION_WHY = 1u << 10,
    OPTION_LEAVE = 1u << 11,
    OPTION_CHOSEN = 1u << 12, /* the stages in their order */
    OPTION_ORDERED = 1u << 13,
    OPTION_FITTED = 1u << 14,
    OPTION_WEIGHED = 1u << 15,
    OPTION_FLOWN = 1u << 16,
    OPTION_MAP = 1u << 18,
    OPTION_SET = 1u << 19,
    OPTION_AS = 1u << 20,
    OPTION_SEPARATOR = 1u << 21,
    OPTION_DECIMAL = 1u << 22,
    OPTION_NOTES = 1u << 23,
    OPTION_KEEP_GOOD = 1u << 24,
    OPTION_DRY_RUN = 1u << 25,
    OPTION_SORT = 1u << 26,
    OPTION_FOR = 1u << 27,
    OPTION_LIGHTER = 1u << 28,
    OPTION_SURPRISE = 1u << 29,
    OPTION_RECORDS = 1u << 30,
};

enum { OPERANDS = 64, TRIES = 32, MAPS = 64 };

/** One option: how it is typed and what it means. */
typedef struct option_row {
    const char *name;
    unsigned bit;
    char letter;         /* of the short form; 0: none */
    const char *value;   /* what stands behind it, in the words of a usage; NULL: nothing */
    const char *meaning; /* one line, where a command does not say it more exactly */
} option_row;

/** All options, in the order of the help. */
const option_row *option_rows(size_t *count);

typedef struct options {
    unsigned given;                /* bits */
    const pare_progress *progress; /* of the command's work; set by main() */
    const char *bench, *loadout, *wish, *output, *kind, *why, *sort, *place;
    const char *stage[PARE_STAGES]; /* a day each, as typed */
    size_t tries;
    const char *try_list[TRIES]; /* --try may stand more than once where columns are compared */
    const char *as, *separator, *decimal;
    size_t maps, sets;
    const char *map[MAPS], *set[MAPS]; /* each as often as there are columns */
    size_t operands;
    const char *operand[OPERANDS];
} options;

/** Reads argv[from..argc) for a command that takes the options in `allowed` (help always).
 *
 * "--name value" and "--name=value" are the same; "-o" is --output; after "--" all are operands.
 * @return PARE_OK; PARE_UNKNOWN for an option that is not known, with the nearest, or that this
 *         command does not take; PARE_BAD_DATA for a missing value or too many operands */
pare_status options_read(const char *command, int argc, char *const argv[], int from,
                         unsigned allowed, options *out, pare_error *err);

#endif
