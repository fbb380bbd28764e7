/* report_with.c: what a report has beside the sheet (see report_with.h).
 *
 * A best set is searched for only on request, and for a time that is said: a report is wanted at once. It
 * may also be stopped, by Ctrl-C; then the report is written with what was found, and says so. */
#include "cli/report_with.h"

#include <math.h>
#include <string.h>

#include "cli/long_work.h"
#include "cli/timed.h"

#define USUAL_S   20.0
#define LONGEST_S 1e6

pare_status report_with_check(const options *given, pare_error *err)
{
    double seconds = USUAL_S;
    const bool best = (given->given & OPTION_BEST) != 0;
    if (given->given & OPTION_TIME && !best)
        return pare_fail(err, PARE_BAD_DATA, "--time goes with --best");
    if (best && given->given & OPTION_TRY)
        return pare_fail(err, PARE_BAD_DATA,
                         "--best goes with no --try: it is the best set of the craft as it is");
    if (given->given & OPTION_TIME && !timed_read(given->time, LONGEST_S, &seconds))
        return pare_fail(err, PARE_BAD_DATA, "--time '%s': a number of seconds is due, 0 to %g",
                         given->time, LONGEST_S);
    return PARE_OK;
}

static pare_status find_best(const options *given, const bench_in_use *use, const pare_craft *craft,
                             int loadout, pare_arena *arena, pare_report_with *with,
                             pare_error *err)
{
    double most_s = USUAL_S;
    if (given->given & OPTION_TIME)
        timed_read(given->time, LONGEST_S, &most_s);
    timed t = timed_start(given->progress, most_s);
    const pare_progress progress = timed_progress(&t);
    const pare_best_ask ask = {.loadout = loadout, .progress = &progress};
    pare_best *best = pare_arena_zeros(arena, sizeof *best);
    pare_best_view *view = pare_arena_zeros(arena, sizeof *view);
    pare_shopping *shopping = pare_arena_zeros(arena, sizeof *shopping);
    if (!best || !view || !shopping)
        return pare_no_memory(err);
    long_work_catch();
    pare_status status = pare_best_find(use->bench, craft, &ask, arena, best, err);
    long_work_release(PARE_OK); /* heard, and answered with the best so far */
    pare_progress_over(given->progress);
    if (status != PARE_OK)
        return status;
    *view = (pare_best_view){.loadout = loadout >= 0 ? craft->loadout[loadout].name : NULL,
                             .money = use->bench->money,
                             .seconds = timed_s(&t),
                             .best = best};
    with->best = view;
    if (!best->found)
        return PARE_OK;
    const pare_craft *first = bench_first(use, craft->name);
    with->best_shopping = shopping;
    return pare_shopping_toward(use->bench, first, best->after, shopping, err);
}

/* What is chosen or ordered and not on it, by name. */
static void say_planned(const pare_craft *first, pare_text *line)
{
    for (size_t i = 0; i < first->takens; i++)
        if (!pare_taken_is_on(&first->taken[i]))
            pare_text_printf(line, "%s%s", line->length ? ", " : "", first->taken[i].swap);
}

static pare_status list_errands(const bench_in_use *use, const pare_craft *craft,
                                const pare_craft *tried, const char *trial, pare_arena *arena,
                                pare_report_with *with, pare_error *err)
{
    const pare_craft *first = bench_first(use, craft->name);
    pare_shopping *shopping = pare_arena_zeros(arena, sizeof *shopping);
    pare_text words = {0};
    pare_error why = {0};
    say_planned(first, &words);
    if (!words.length && !trial)
        return PARE_OK;
    bool whole =
        shopping && pare_shopping_planned(use->bench, first, trial, shopping, &why) == PARE_OK;
    if (!whole && shopping && trial) { /* the trial went on the craft as it is */
        pare_shopping_of(use->bench, craft, NULL, tried, shopping);
        words.length = 0;
    }
    if (trial)
        pare_text_printf(&words, "%s%s", words.length ? ", " : "", trial);
    if (whole || trial) {
        with->shopping = shopping;
        with->shopping_for = pare_arena_text(arena, pare_text_all(&words));
    }
    if (!whole)
        with->plan_why = pare_arena_text(arena, why.text);
    const bool failed = !shopping || words.failed || (with->shopping && !with->shopping_for) ||
                        (!whole && !with->plan_why);
    pare_text_free(&words);
    return failed ? pare_no_memory(err) : PARE_OK;
}

pare_status report_with_gather(const options *given, const bench_in_use *use,
                               const pare_craft *craft, const pare_craft *tried, const char *trial,
                               int loadout, bool swaps, pare_arena *arena, pare_report_with *with,
                               pare_error *err)
{
    *with = (pare_report_with){.money = use->bench->money};
    pare_status status = list_errands(use, craft, tried, trial, arena, with, err);
    if (status == PARE_OK && given->given & OPTION_BEST)
        status = find_best(given, use, craft, loadout, arena, with, err);
    if (status == PARE_OK && swaps) {
        pare_swaps *list = pare_arena_zeros(arena, sizeof *list);
        status =
            list ? pare_swaps_find(use->bench, tried, loadout, PARE_WISH_GRAMS, arena, list, err)
                 : pare_no_memory(err);
        with->swaps = list;
    }
    return status;
}
