/* tasks.c: see tasks.h.
 *
 * What stands on the bench of one craft is asked for another's brief here, so two things are looked at that
 * a craft's own brief takes for granted: that it can fly at all, and that something on it does each job that
 * is to be kept. */
#include "advise/tasks.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "craft/flight.h"

#define BIT(figure) ((pare_figures)1 << (figure))
#define MUST_EXIST  (BIT(PARE_HOVER_OUTPUT) | BIT(PARE_FLOWN_TIME) | BIT(PARE_THRUST_FRESH))

/* ---- effort ---- */

typedef struct effort {
    const pare_progress *under;
    long long left; /* questions */
    bool stopped;   /* by who watches, not for want of effort */
} effort;

static bool ask_on(void *context, const char *doing, size_t done, size_t all)
{
    effort *e = context;
    (void)doing, (void)done, (void)all; /* of one task of many: nobody wants to see it */
    if (e->under && !e->under->step(e->under->context, NULL, 0, 0))
        e->stopped = true;
    return !e->stopped && e->left-- > 0;
}

/* ---- sheets ---- */

static bool refuse(char why[48], const char *name)
{
    snprintf(why, 48, "%s", name);
    return false;
}

static bool has_jobs(const pare_craft *loaded, unsigned keep, char why[48])
{
    unsigned done = 0;
    for (size_t i = 0; i < loaded->items; i++)
        if (!loaded->item[i].off)
            done |= 1u << loaded->item[i].job;
    for (int job = 0; job < PARE_JOBS; job++)
        if (keep & ~done & 1u << job) {
            snprintf(why, 48, "keep.%s", pare_job_name((pare_job)job));
            return false;
        }
    return true;
}

/* Judged and flown as far as a brief asks. */
static bool judge(const pare_craft *craft, int loadout, pare_craft *loaded, pare_sheet *sheet)
{
    if (pare_craft_load(craft, loadout, loaded, NULL) != PARE_OK ||
        pare_sheet_weigh(loaded, sheet, NULL) != PARE_OK)
        return false;
    pare_sheet_fly(loaded, MUST_EXIST, sheet);
    pare_sheet_judge(loaded, sheet);
    return true;
}

bool pare_task_craft_does(pare_task_craft *made, const pare_brief *brief, char why[48])
{
    made->before->brief = *brief;
    made->after->brief = *brief;
    if (!judge(made->before, made->loadout, made->loaded, made->sheet_before) ||
        !judge(made->after, made->loadout, made->loaded, made->sheet_after))
        return refuse(why, "mass");
    if (!made->sheet_after->figure[PARE_HOVER_OUTPUT].exists)
        return refuse(why, "hover");
    return has_jobs(made->loaded, brief->keep, why) &&
           pare_best_meets(NULL, made->after, made->sheet_before, made->sheet_after, why);
}

static pare_status make_room(pare_arena *arena, pare_task_craft *made, pare_error *err)
{
    *made = (pare_task_craft){.before = pare_arena_zeros(arena, sizeof *made->before),
                              .after = pare_arena_zeros(arena, sizeof *made->after),
                              .loaded = pare_arena_zeros(arena, sizeof *made->loaded),
                              .sheet_before = pare_arena_zeros(arena, sizeof *made->sheet_before),
                              .sheet_after = pare_arena_zeros(arena, sizeof *made->sheet_after)};
    return made->before && made->after && made->loaded && made->sheet_before && made->sheet_after
               ? PARE_OK
               : pare_no_memory(err);
}

pare_status pare_task_craft_make(const pare_task_ask *ask, const char *set, pare_arena *arena,
                                 pare_task_craft *made, pare_error *err)
{
    const char *lists[] = {ask->tries, set};
    pare_status status = make_room(arena, made, err);
    if (status != PARE_OK)
        return status;
    pare_craft_copy(ask->craft, made->before);
    made->before->brief = *ask->brief;
    made->loadout = ask->loadout;
    pare_craft_copy(made->before, made->after);
    for (size_t i = 0; i < sizeof lists / sizeof lists[0] && status == PARE_OK; i++)
        if (lists[i] && *lists[i]) {
            pare_craft_copy(made->after, made->loaded);
            status = pare_swap_apply_list(ask->bench, made->loaded, lists[i], made->after, err);
        }
    return status;
}

/* ---- answers ---- */

static void put_sheet(const pare_task_ask *ask, const pare_sheet *sheet, pare_task_answer *answer)
{
    answer->figures = ask->figures;
    for (size_t i = 0; i < ask->figures; i++) {
        const pare_sheet_figure *figure = &sheet->figure[ask->figure[i]];
        const double scale = pare_figure_table[ask->figure[i]].scale;
        answer->value[i] = figure->exists ? figure->value * scale : (double)NAN;
        answer->u[i] = figure->exists ? figure->u * scale : (double)NAN;
    }
    const pare_sheet_figure *mass = &sheet->figure[PARE_ALL_UP],
                            *money = &sheet->figure[PARE_MONEY];
    answer->mass_g =
        mass->exists ? mass->value * pare_figure_table[PARE_ALL_UP].scale : (double)NAN;
    answer->worth = money->exists ? money->value : (double)NAN;
}

static pare_status say(pare_task_answer *answer, pare_task_says says, const char *why,
                       pare_arena *arena, pare_error *err)
{
    answer->says = says;
    answer->why = pare_arena_text(arena, why);
    return answer->why ? PARE_OK : pare_no_memory(err);
}

static pare_status answer_sheet(const pare_task_ask *ask, pare_task_craft *made, pare_arena *arena,
                                pare_task_answer *answer, pare_error *err)
{
    char why[48];
    const bool does = pare_task_craft_does(made, ask->brief, why);
    answer->was_g =
        made->sheet_before->figure[PARE_ALL_UP].value * pare_figure_table[PARE_ALL_UP].scale;
    answer->set = "";
    const pare_status status = pare_sheet_compute(made->loaded, true, made->sheet_after, NULL);
    if (status != PARE_OK)
        return say(answer, PARE_TASK_CANNOT, "cannot be weighed", arena, err);
    put_sheet(ask, made->sheet_after, answer);
    return does ? PARE_OK : say(answer, PARE_TASK_NO, why, arena, err);
}

static pare_status set_text(const pare_best *best, pare_arena *arena, const char **set,
                            pare_error *err)
{
    pare_text list = {0};
    for (size_t i = 0; i < best->swaps; i++)
        pare_text_printf(&list, "%s%s", i ? "," : "", best->swap[i].applied.id);
    *set = list.failed ? NULL : pare_arena_copy(arena, list.length ? list.bytes : "", list.length);
    pare_text_free(&list);
    return *set ? PARE_OK : pare_no_memory(err);
}

static double grams_or_none(int64_t mass_100ug)
{
    return mass_100ug == INT64_MAX ? (double)NAN : pare_best_grams(mass_100ug);
}

/* What keeps lighter sets out stands first of what binds. */
static const char *refusal(const pare_best *best)
{
    if (best->stopped)
        return "effort";
    return best->binds ? best->bind[0].name : "no set";
}

static pare_status answer_best(const pare_task_ask *ask, const pare_task_craft *made,
                               pare_arena *arena, pare_task_answer *answer, pare_error *err)
{
    effort counted = {.under = ask->progress, .left = ask->effort ? ask->effort : INT64_MAX};
    const pare_progress progress = {.step = ask_on, .context = &counted};
    const pare_best_ask asked = {.loadout = ask->loadout,
                                 .holds = ask->holds,
                                 .nevers = ask->nevers,
                                 .musts = ask->musts,
                                 .hold = ask->hold,
                                 .never = ask->never,
                                 .must = ask->must,
                                 .most_cents = ask->most_cents,
                                 .most_work_min = ask->most_work_min,
                                 .alone = true,
                                 .progress = &progress};
    pare_best best = {0};
    pare_best_wished wished = {0};
    pare_error why = {0};
    char lacks[48];
    if (!judge(made->after, made->loadout, made->loaded, made->sheet_after))
        return say(answer, PARE_TASK_CANNOT, "cannot be weighed", arena, err);
    answer->proven = true;
    if (!has_jobs(made->loaded, ask->brief->keep, lacks))
        return say(answer, PARE_TASK_NO, lacks, arena, err);
    const pare_status status = pare_best_wish_find(ask->bench, made->after, &asked, ask->wish,
                                                   arena, &best, &wished, &why);
    if (counted.stopped)
        return pare_fail(err, PARE_STOPPED, "stopped");
    if (status == PARE_UNAVAILABLE)
        return pare_fail(err, status, "%s", why.text);
    if (status != PARE_OK)
        return say(answer, PARE_TASK_CANNOT, why.text, arena, err);
    answer->proven = best.proven;
    answer->was_g = pare_best_grams(best.was_100ug);
    answer->bound_g = grams_or_none(best.bound_100ug);
    if (!best.found)
        return say(answer, PARE_TASK_NO, refusal(&best), arena, err);
    put_sheet(ask, best.sheet_after, answer);
    answer->pays = best.priced ? best.money : (double)NAN;
    answer->work_min = best.work->minutes;
    return set_text(&best, arena, &answer->set, err);
}

pare_status pare_task_answer_it(const pare_task_ask *ask, pare_arena *arena,
                                pare_task_answer *answer, pare_error *err)
{
    pare_task_craft made;
    pare_error why = {0};
    const double none = (double)NAN;
    *answer = (pare_task_answer){.was_g = none,
                                 .mass_g = none,
                                 .bound_g = none,
                                 .worth = none,
                                 .pays = none,
                                 .work_min = none,
                                 .figures = ask->figures};
    for (size_t i = 0; i < ask->figures; i++)
        answer->value[i] = answer->u[i] = none;
    const pare_status status = pare_task_craft_make(ask, NULL, arena, &made, &why);
    if (status == PARE_UNAVAILABLE)
        return pare_fail(err, status, "%s", why.text);
    if (status != PARE_OK)
        return say(answer, PARE_TASK_CANNOT, why.text, arena, err);
    return ask->best ? answer_best(ask, &made, arena, answer, err)
                     : answer_sheet(ask, &made, arena, answer, err);
}
