/* taken.h: a swap that somebody has taken: how far it has come, and what it promised.
 *
 * A craft's text stays as it was first described; what was fitted since stands in this list. From the
 * day on which it was fitted (or weighed, or flown) a swap is on the craft, before that it is a plan.
 * The list's order is the order in which swaps go on. */
#ifndef PARE_CRAFT_TAKEN_H
#define PARE_CRAFT_TAKEN_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"
#include "craft/part.h"

typedef enum pare_stage {
    PARE_STAGE_CHOSEN,
    PARE_STAGE_ORDERED,
    PARE_STAGE_FITTED,
    PARE_STAGE_WEIGHED,
    PARE_STAGE_FLOWN,
    PARE_STAGES
} pare_stage;

/** As typed and as read: "chosen". */
const char *pare_stage_name(pare_stage stage);

enum {
    PARE_TAKENS = 48,       /* swaps taken on one craft */
    PARE_TAKEN_BRINGS = 16, /* parts that one of them brought along */
};

/** A promised change under the sheet's key, or its standard uncertainty under that key with "_u". */
typedef struct pare_promised {
    const char *key;
    size_t count;    /* 1; 3 for a place */
    double value[3]; /* in the key's unit, with the swap less without it */
} pare_promised;

typedef struct pare_taken {
    const char *swap;              /* WHAT=VALUE */
    const pare_part *part;         /* that VALUE names; NULL: a property, or off */
    const char *date[PARE_STAGES]; /* days, "2026-04-01"; NULL: not reached, or nobody said */
    size_t brings;                 /* parts that came along when it was taken */
    const pare_part *const *bring;
    size_t promises;
    const pare_promised *promise;
    int line, column; /* in the craft's text */
} pare_taken;

/** The last stage that it has reached; chosen where no day is said. */
pare_stage pare_taken_stage(const pare_taken *taken);

/** Whether it is on the craft: fitted, weighed or flown. */
bool pare_taken_is_on(const pare_taken *taken);

/** Whether the days follow each other as the stages do: PARE_BAD_DATA naming the two that do not. */
pare_status pare_taken_check_days(const pare_taken *taken, pare_error *err);

/** A promised figure by its key, NAN where it was not promised. */
double pare_taken_promised(const pare_taken *taken, const char *key);

#endif
