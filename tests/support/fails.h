/* fails.h: a count-down to the one call that fails, for what stands in the place of others' functions: allocations
 * (allocation_fails.h), an arena's places (arena_fails.h), SQLite's calls. Include it once a program. */
#ifndef PARE_TESTS_FAILS_H
#define PARE_TESTS_FAILS_H

#include <stdbool.h>
#include <string.h>

#include "base/error.h"
#include "near.h"

static long until_failure = -1; /* calls that still go well; below 0: none fails */

/* Whether this call is the one. */
static inline bool fails(void)
{
    return until_failure >= 0 && until_failure-- == 0;
}

/* What was done with one place of memory refused has worked, or says that there is no memory.
 * @param done  none was refused any more: it must have worked */
static inline void expect_answer(pare_status status, const pare_error *err, bool done)
{
    if (done && status != PARE_OK)
        fail_msg("%s", err->text);
    if (status != PARE_OK && (status != PARE_UNAVAILABLE || !strstr(err->text, "memory")))
        fail_msg("'%s' does not say that there is no memory", err->text);
}

#endif
