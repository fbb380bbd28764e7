/* best_walk.c: `pare best CRAFT --walk [--budget MONEY]` (see best_walk.h). */
#include "cli/best_walk.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>

#include "cli/long_work.h"
#include "cli/use.h"
#include "show/walk.h"

#define MOST_MONEY 1e6

static pare_status read_budget(const char *text, int64_t *cents, pare_error *err)
{
    char *end;
    errno = 0;
    const double money = strtod(text, &end);
    if (end == text || *end || errno || !(money >= 0) || money > MOST_MONEY)
        return pare_fail(err, PARE_BAD_DATA, "--budget '%s': money is due, 0 to %g", text,
                         MOST_MONEY);
    *cents = llround(100 * money);
    return PARE_OK;
}

pare_status best_walk_check(const options *given, pare_error *err)
{
    int64_t cents;
    if (given->given & OPTION_BUDGET && (given->given & OPTION_WALK) == 0)
        return pare_fail(err, PARE_BAD_DATA, "--budget goes with --walk: what to buy for it first");
    if (given->given & OPTION_WALK && given->given & OPTION_FRONT)
        return pare_fail(err, PARE_BAD_DATA, "--walk and --front are two questions: one at a time");
    return given->given & OPTION_BUDGET ? read_budget(given->budget, &cents, err) : PARE_OK;
}

pare_status best_walk(const options *given, const pare_bench *bench, const pare_craft *craft,
                      const pare_best_ask *ask, pare_arena *arena, pare_text *out, pare_error *err)
{
    int64_t cents = 0;
    pare_best best = {0};
    pare_walk walk = {0};
    const bool with_budget = given->given & OPTION_BUDGET;
    pare_status status = with_budget ? read_budget(given->budget, &cents, err) : PARE_OK;
    if (status == PARE_OK)
        status = pare_best_find(bench, craft, ask, arena, &best, err);
    if (status == PARE_OK && best.found)
        status = pare_walk_find(bench, craft, ask, &best, with_budget ? &cents : NULL, &walk, err);
    long_work_release(PARE_OK); /* heard, and answered with what there is so far */
    pare_progress_over(given->progress);
    if (status != PARE_OK)
        return status;
    const pare_screen screen = terminal_screen();
    const pare_walk_view view = {.loadout =
                                     ask->loadout >= 0 ? craft->loadout[ask->loadout].name : NULL,
                                 .money = bench->money,
                                 .budget = with_budget ? &cents : NULL,
                                 .best = &best,
                                 .walk = &walk};
    if (given->given & OPTION_JSON)
        pare_json_write(pare_walk_object(&view), out);
    else
        pare_walk_text(&view, &screen, out);
    return best.found || best.stopped ? PARE_OK : PARE_NO;
}
