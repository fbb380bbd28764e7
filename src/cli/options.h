/* options.h: what stands on the command line after the command's name. */
#ifndef PARE_CLI_OPTIONS_H
#define PARE_CLI_OPTIONS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/progress.h"
#include "craft/taken.h"

/** Each option as a bit, so that a command can say which it takes. */
typedef unsigned long long option_bits;
#define OPTION_BENCH       (1ull << 0)
#define OPTION_JSON        (1ull << 1)
#define OPTION_ALL         (1ull << 2)
#define OPTION_CHECK       (1ull << 3)
#define OPTION_LOADOUT     (1ull << 4)
#define OPTION_TRY         (1ull << 5)
#define OPTION_WISH        (1ull << 6)
#define OPTION_OUTPUT      (1ull << 7)
#define OPTION_KIND        (1ull << 8)
#define OPTION_HELP        (1ull << 9)
#define OPTION_WHY         (1ull << 10)
#define OPTION_LEAVE       (1ull << 11)
#define OPTION_CHOSEN      (1ull << 12) /* the stages in their order */
#define OPTION_ORDERED     (1ull << 13)
#define OPTION_FITTED      (1ull << 14)
#define OPTION_WEIGHED     (1ull << 15)
#define OPTION_FLOWN       (1ull << 16)
#define OPTION_SCALE       (1ull << 17)
#define OPTION_MAP         (1ull << 18)
#define OPTION_SET         (1ull << 19)
#define OPTION_AS          (1ull << 20)
#define OPTION_SEPARATOR   (1ull << 21)
#define OPTION_DECIMAL     (1ull << 22)
#define OPTION_NOTES       (1ull << 23)
#define OPTION_KEEP_GOOD   (1ull << 24)
#define OPTION_DRY_RUN     (1ull << 25)
#define OPTION_SORT        (1ull << 26)
#define OPTION_FOR         (1ull << 27)
#define OPTION_LIGHTER     (1ull << 28)
#define OPTION_SURPRISE    (1ull << 29)
#define OPTION_RECORDS     (1ull << 30)
#define OPTION_DATE        (1ull << 31)
#define OPTION_FROM        (1ull << 32)
#define OPTION_HOLD        (1ull << 33)
#define OPTION_NEVER       (1ull << 34)
#define OPTION_MUST        (1ull << 35)
#define OPTION_TIME        (1ull << 36)
#define OPTION_FRONT       (1ull << 37)
#define OPTION_OUTLINE     (1ull << 38)
#define OPTION_RULER       (1ull << 39)
#define OPTION_CURVE       (1ull << 40)
#define OPTION_KEEP        (1ull << 41)
#define OPTION_FORGET      (1ull << 42)
#define OPTION_LIVE        (1ull << 43)
#define OPTION_PATTERN     (1ull << 44)
#define OPTION_SURE        (1ull << 45)
#define OPTION_KNOCK_ON    (1ull << 46)
#define OPTION_SOLD        (1ull << 47)
#define OPTION_WALK        (1ull << 48)
#define OPTION_BUDGET      (1ull << 49)
#define OPTION_PORT        (1ull << 50)
#define OPTION_NO_OPEN     (1ull << 51)
#define OPTION_LISTEN      (1ull << 52)
#define OPTION_BINDS       (1ull << 53)
#define OPTION_PROOF       (1ull << 54)
#define OPTION_JOURNAL     (1ull << 55)
#define OPTION_PASSWORD    (1ull << 61)
#define OPTION_CERTIFICATE (1ull << 62)
#define OPTION_HOURS       (1ull << 57)
#define OPTION_WAYS        (1ull << 56)
#define OPTION_PAPER       (1ull << 58)
#define OPTION_BEST        (1ull << 59)
#define OPTION_HOVER       (1ull << 63)

enum { OPERANDS = 64, TRIES = 32, MAPS = 64, CHOICES = 32 };

/** One option: how it is typed and what it means. */
typedef struct option_row {
    const char *name;
    option_bits bit;
    char letter;         /* of the short form; 0: none */
    const char *value;   /* what stands behind it, in the words of a usage; NULL: nothing */
    const char *meaning; /* one line, where a command does not say it more exactly */
} option_row;

/** All options, in the order of the help. */
const option_row *option_rows(size_t *count);

/** Benches that stay read between commands (keep.h). */
typedef struct bench_keep bench_keep;

typedef struct options {
    option_bits given;             /* bits */
    const pare_progress *progress; /* of the command's work; set by main() */
    bool *changes;                 /* likewise: it was about to change the bench; may be NULL */
    const char *bench, *loadout, *wish, *output, *kind, *why, *sort, *place;
    const char *stage[PARE_STAGES]; /* a day each, as typed */
    size_t tries;
    const char *try_list[TRIES]; /* --try may stand more than once where columns are compared */
    const char *as, *separator, *decimal, *scale, *date, *from, *live, *pattern;
    size_t maps, sets;
    const char *map[MAPS], *set[MAPS]; /* each as often as there are columns */
    size_t holds, nevers, musts, solds;
    const char *sold[CHOICES];                                  /* as typed, as often as wanted */
    const char *hold[CHOICES], *never[CHOICES], *must[CHOICES]; /* each as often as wanted */
    const char *time, *front, *curve;                           /* seconds, as typed; two wishes */
    const char *port, *listen, *password_file, *certificate;    /* as typed */
    const char *budget, *hours, *ways;                          /* as typed */
    const char *sure, *knock_on;                                /* as typed */
    const char *proof;                                          /* a file */
    const char *paper, *hover;                                  /* as typed */
    const char *journal;                                        /* a file */
    const char
        *shown;       /* what the first operand, a file, is called in the history; NULL: as typed */
    bench_keep *keep; /* NULL: each command reads its bench */
    size_t operands;
    const char *operand[OPERANDS];
} options;

/** Reads argv[from..argc) for a command that takes the options in `allowed` (help always).
 *
 * "--name value" and "--name=value" are the same; "-o" is --output; after "--" all are operands.
 * @return PARE_OK; PARE_UNKNOWN for an option that is not known, with the nearest, or that this
 *         command does not take; PARE_BAD_DATA for a missing value or too many operands */
pare_status options_read(const char *command, int argc, char *const argv[], int from,
                         option_bits allowed, options *out, pare_error *err);

#endif
