/* value.c: the words for how a number is known. */
#include "craft/value.h"

#include <assert.h>
#include <string.h>

static const char *const knowns[PARE_KNOWNS] = {
    [PARE_WEIGHED] = "weighed", [PARE_MEASURED] = "measured", [PARE_LEARNED] = "learned",
    [PARE_STATED] = "stated",   [PARE_COMPUTED] = "computed", [PARE_ESTIMATED] = "estimated",
};

const char *pare_known_name(pare_known known)
{
    assert(known < PARE_KNOWNS);
    return knowns[known];
}

int pare_known_named(const char *name)
{
    for (int known = 0; known < PARE_KNOWNS; known++)
        if (strcmp(name, knowns[known]) == 0)
            return known;
    return -1;
}
