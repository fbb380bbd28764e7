/* common.h: what all commands have in common, for the help and the man pages. */
#ifndef PARE_CLI_COMMON_H
#define PARE_CLI_COMMON_H

#include <stddef.h>

#define COMMON_PURPOSE                                                                             \
    "pare finds the grams that do no work in a small electric multirotor, and says what each one " \
    "costs or buys."

#define COMMON_QUANTITIES                                                                          \
    "Quantities are typed with their unit: 12g, 0.42oz, 14AWG, 1300mAh, 5.1in. A bare number "     \
    "where a unit is needed is refused, and the message says which units fit. Every command "      \
    "takes --json; all but calc take --bench FILE for another bench."

/** Lines that the shell runs one after another. */
#define COMMON_EXAMPLE                                                                             \
    "  pare demo\n"                                                                                \
    "  pare sheet hedgerow\n"                                                                      \
    "  pare swaps hedgerow\n"                                                                      \
    "  pare help swaps\n"

/** A term and what it means, in one sentence without its full stop. */
typedef struct common_row {
    const char *term, *meaning;
} common_row;

/** Exit statuses. */
const common_row *common_statuses(size_t *count);
/** Variables of the environment that are looked at. */
const common_row *common_environment(size_t *count);
/** Files that are read or written without being named. */
const common_row *common_files(size_t *count);

#endif
