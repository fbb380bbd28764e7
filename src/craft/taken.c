/* taken.c: how far a taken swap has come (see taken.h). */
#include "craft/taken.h"

#include <math.h>
#include <string.h>

static const char *const names[PARE_STAGES] = {"chosen", "ordered", "fitted", "weighed", "flown"};

const char *pare_stage_name(pare_stage stage)
{
    return names[stage];
}

pare_stage pare_taken_stage(const pare_taken *taken)
{
    pare_stage reached = PARE_STAGE_CHOSEN;
    for (int s = 0; s < PARE_STAGES; s++)
        if (taken->date[s])
            reached = (pare_stage)s;
    return reached;
}

bool pare_taken_is_on(const pare_taken *taken)
{
    return pare_taken_stage(taken) >= PARE_STAGE_FITTED;
}

pare_status pare_taken_check_days(const pare_taken *taken, pare_error *err)
{
    int before = -1;
    for (int s = 0; s < PARE_STAGES; s++) {
        if (!taken->date[s])
            continue;
        /* ISO 8601 days sort as text. */
        if (before >= 0 && strcmp(taken->date[s], taken->date[before]) < 0)
            return pare_fail(err, PARE_BAD_DATA,
                             "%s on %s, but %s on %s; right would be that day or a later one",
                             names[s], taken->date[s], names[before], taken->date[before]);
        before = s;
    }
    return PARE_OK;
}

double pare_taken_promised(const pare_taken *taken, const char *key)
{
    for (size_t i = 0; i < taken->promises; i++)
        if (strcmp(taken->promise[i].key, key) == 0 && taken->promise[i].count == 1)
            return taken->promise[i].value[0];
    return (double)NAN;
}
