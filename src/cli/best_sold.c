/* best_sold.c: --sold of `pare best` (see best_sold.h). */
#include "cli/best_sold.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "cli/timed.h"

#define MOST_MONEY 1e6

static pare_status no_such_part(const pare_bench *bench, const char *id, pare_error *err)
{
    const char **known = calloc(bench->parts + 1, sizeof known[0]);
    for (size_t i = 0; known && i < bench->parts; i++)
        known[i] = bench->part[i]->id;
    const char *near = known ? pare_nearest(id, bench->parts, known) : NULL;
    free(known);
    if (near)
        return pare_fail(err, PARE_UNKNOWN,
                         "--sold: the bench has no part '%s'; did you mean '%s'?", id, near);
    return pare_fail(err, PARE_UNKNOWN, "--sold: the bench has no part '%s'; pare parts lists them",
                     id);
}

/* "pa-4s-850=12.50" */
static pare_status read_part(const char *text, const char *sign, const pare_bench *bench,
                             pare_resale *resale, pare_error *err)
{
    char id[64];
    double money;
    snprintf(id, sizeof id, "%.*s", (int)(sign - text), text);
    const pare_part *part = pare_bench_part(bench, id);
    if (!part)
        return no_such_part(bench, id, err);
    if (!timed_read(sign + 1, MOST_MONEY, &money))
        return pare_fail(err, PARE_BAD_DATA, "--sold '%s': money for one is due, 0 to %g", text,
                         MOST_MONEY);
    if (resale->parts == PARE_RESALES)
        return pare_fail(err, PARE_BAD_DATA, "--sold: %d parts at most", PARE_RESALES);
    resale->of[resale->parts].part = part;
    resale->of[resale->parts++].cents = llround(100 * money);
    return PARE_OK;
}

static pare_status read_share(const char *text, double *share, pare_error *err)
{
    char number[32];
    const size_t length = strlen(text);
    const bool percent = length > 1 && text[length - 1] == '%';
    snprintf(number, sizeof number, "%.*s", (int)(length - percent), text);
    if (length >= sizeof number || !timed_read(number, percent ? 100 : 1, share))
        return pare_fail(err, PARE_BAD_DATA,
                         "--sold '%s': the share of its price that a part brings is due, 0 to 1, "
                         "like 0.5 or 50%%, or PART=MONEY",
                         text);
    *share /= percent ? 100 : 1;
    return PARE_OK;
}

pare_status best_sold_read(const options *given, const pare_bench *bench, pare_resale *resale,
                           pare_error *err)
{
    pare_status status = PARE_OK;
    *resale = (pare_resale){.share = 0};
    for (size_t i = 0; status == PARE_OK && i < given->solds; i++) {
        const char *text = given->sold[i], *sign = strchr(text, '=');
        status = sign ? read_part(text, sign, bench, resale, err)
                      : read_share(text, &resale->share, err);
    }
    return status;
}
