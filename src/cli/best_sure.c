/* best_sure.c: --sure of `pare best` (see best_sure.h). */
#include "cli/best_sure.h"

#include <stdio.h>
#include <string.h>

#include "advise/best_wish.h"
#include "cli/timed.h"

#define LEAST_SURE 0.5
#define MOST_SURE  0.999 /* what the linear model may be asked: farther out its tails are a guess */

/* "0.95" or "95%". */
static bool read_share(const char *text, double *share)
{
    char number[32];
    const size_t length = strlen(text);
    const bool percent = length > 1 && text[length - 1] == '%';
    if (length >= sizeof number)
        return false;
    snprintf(number, sizeof number, "%.*s", (int)(length - percent), text);
    if (!timed_read(number, percent ? 100 : 1, share))
        return false;
    *share /= percent ? 100 : 1;
    return *share >= LEAST_SURE && *share <= MOST_SURE;
}

pare_status best_sure_read(const options *given, int wish, double *sure, pare_error *err)
{
    *sure = 0;
    if ((given->given & OPTION_SURE) == 0)
        return PARE_OK;
    if (!read_share(given->sure, sure))
        return pare_fail(err, PARE_BAD_DATA,
                         "--sure '%s': a probability is due, %g to %g, like 0.95 or 95%%",
                         given->sure, LEAST_SURE, MOST_SURE);
    if (given->given & (OPTION_FRONT | OPTION_PROOF))
        return pare_fail(err, PARE_BAD_DATA,
                         "--sure goes with neither --front nor --proof, which take limits as they "
                         "are computed");
    if (!pare_best_wish_by_grams(wish) && wish != PARE_WISH_MONEY)
        return pare_fail(err, PARE_BAD_DATA,
                         "--sure goes with --wish grams, crash, evening and money, not with %s",
                         given->wish);
    return PARE_OK;
}

pare_status best_sure_ask(const pare_bench *bench, const pare_craft *craft,
                          const pare_best_ask *ask, int wish, const pare_best *best,
                          pare_arena *arena, pare_best_sureness *sureness, pare_error *err)
{
    pare_best_ask just = *ask;
    pare_best just_meets;
    *sureness = (pare_best_sureness){.asked = ask->sure};
    if (!(ask->sure > 0) || !best->found)
        return PARE_OK;
    just.sure = 0;
    pare_craft *flown = pare_arena_zeros(arena, sizeof *flown);
    pare_status status = flown ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_craft_load(best->after, ask->loadout, flown, err);
    if (status == PARE_OK)
        status = pare_sure_draw(flown, best->sheet_after, NULL, &sureness->drawn, err);
    if (status != PARE_OK || !pare_best_wish_by_grams(wish))
        return status;
    status = pare_best_find(bench, craft, &just, arena, &just_meets, err);
    if (status != PARE_OK)
        return status;
    sureness->just = just_meets.found;
    sureness->just_proven = just_meets.proven;
    sureness->just_100ug = just_meets.best_100ug;
    return PARE_OK;
}
