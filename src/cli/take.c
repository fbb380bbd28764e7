/* take.c: `pare take`: swaps accepted, moved on from stage to stage, or left again.
 *
 * The bench is read, the new list worked out and stored, and the answer is given from the bench as it
 * then is: so what is said is what was kept. */
#include "advise/take.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/day.h"
#include "cli/late.h"
#include "show/take.h"

/* ---- days ---- */

static pare_status read_days(const options *given, const char *now, const char *date[PARE_STAGES],
                             pare_error *err)
{
    bool any = false;
    for (int s = 0; s < PARE_STAGES; s++) {
        char option[32];
        date[s] = given->stage[s];
        any = any || date[s];
        snprintf(option, sizeof option, "--%s", pare_stage_name((pare_stage)s));
        if (date[s] && day_read(option, date[s], now, &date[s], err) != PARE_OK)
            return err->status;
    }
    if (!any)
        date[PARE_STAGE_CHOSEN] = now;
    return PARE_OK;
}

/* ---- the change ---- */

static pare_status store_taking(const options *given, const bench_in_use *use, size_t were,
                                const pare_taking *taking, bool *late, pare_arena *arena,
                                pare_error *err)
{
    const pare_change change = change_computed("take", given, use, late, arena);
    const pare_taken_list list = {
        .were = were, .count = taking->count, .taken = taking->taken, .was = taking->was};
    pare_store *store = NULL;
    pare_status status = bench_store(use->path.bytes, PARE_STORE_WRITE, &store, err);
    if (status == PARE_OK)
        status = pare_store_set_taken(store, given->operand[0], &list, &change, err);
    pare_store_close(store);
    return status;
}

typedef struct attempt {
    const options *given;
    pare_arena *arena;
    pare_taking *taking;
} attempt;

/* What is promised is computed from the craft as it was read. */
static pare_status change_once(void *with, bool *late, pare_error *err)
{
    const attempt *a = with;
    const options *given = a->given;
    const char *name = given->operand[0], *swaps = given->operand[1];
    const char *date[PARE_STAGES] = {NULL};
    char now[DAY];
    bench_in_use use = {0};
    const pare_craft *craft = NULL;
    const bool leave = (given->given & OPTION_LEAVE) != 0;
    memset(a->taking, 0, sizeof *a->taking);
    pare_status status = day_today(now, err);
    if (status == PARE_OK)
        status = read_days(given, now, date, err);
    if (status == PARE_OK)
        status = bench_use(given, &use, err);
    if (status == PARE_OK)
        status = bench_craft(&use, name, &craft, err);
    if (status == PARE_OK) {
        craft = bench_first(&use, name);
        status = leave ? pare_take_leave(use.bench, craft, swaps, a->arena, a->taking, err)
                       : pare_take(use.bench, craft, swaps, date, a->arena, a->taking, err);
    }
    if (status == PARE_OK)
        status = store_taking(given, &use, craft->takens, a->taking, late, a->arena, err);
    bench_leave(&use);
    return status;
}

static pare_status change(const options *given, pare_arena *arena, pare_taking *taking,
                          pare_error *err)
{
    attempt a = {given, arena, taking};
    return change_in_time(given, change_once, &a, err);
}

/* ---- the answer ---- */

/* What a new swap does beside its promise: said once, when it is taken. */
static void said_once(const pare_swap *row, const pare_craft *craft, const char *money,
                      const pare_screen *screen, pare_text *out)
{
    const pare_applied *applied = &row->applied;
    pare_text line = {0};
    if (!applied->priced)
        pare_text_add(&line, "what it costs is not known");
    else if (applied->money > 0)
        pare_text_printf(&line, "costs %.2f%s%s", applied->money, *money ? " " : "", money);
    for (size_t i = 0; i < row->breaks; i++)
        pare_text_printf(&line, "%s%s",
                         i             ? ", "
                         : line.length ? "; breaks "
                                       : "breaks ",
                         row->broken[i]);
    for (int job = 0; job < PARE_JOBS; job++)
        if (applied->jobs_lost & (craft->brief.keep | 1u << PARE_FLIES) & 1u << job)
            pare_text_printf(&line, "%snothing left that %s, which the brief keeps",
                             line.length ? "; " : "", pare_job_name((pare_job)job));
    for (size_t i = 0; i < applied->drops; i++)
        pare_text_printf(&line, "%s%s",
                         i             ? ", "
                         : line.length ? "; takes away "
                                       : "takes away ",
                         applied->drop[i]);
    for (size_t i = 0; i < applied->notes; i++)
        pare_text_printf(&line, "%s%s", line.length ? "; " : "", applied->note[i]);
    if (line.length) {
        pare_text whole = {0};
        pare_text_printf(&whole, "%s: %s", applied->id, line.bytes);
        pare_put_line(screen, out, 0, 4, &whole);
    }
    out->failed |= line.failed;
    pare_text_free(&line);
}

static pare_status weigh(const pare_craft *built, pare_sheet *sheet, pare_error *err)
{
    pare_craft *loaded = malloc(sizeof *loaded);
    if (!loaded)
        return pare_no_memory(err);
    pare_status status = pare_craft_load(built, built->loadouts ? 0 : -1, loaded, err);
    if (status == PARE_OK)
        status = pare_sheet_compute(loaded, true, sheet, err);
    free(loaded);
    return status;
}

/* Listed: all, or those of this taking. On the checklist: what of it is not on yet, or has just gone
 * on and was not flown. */
static void choose(const pare_craft *first, const pare_taking *taking, bool shown[PARE_TAKENS],
                   bool wanted[PARE_TAKENS])
{
    for (size_t i = 0; i < PARE_TAKENS; i++)
        shown[i] = wanted[i] = false;
    for (size_t i = 0; i < first->takens; i++) {
        for (size_t k = 0; taking && k < taking->ones; k++)
            shown[i] = shown[i] || taking->one[k].entry == i;
        shown[i] = shown[i] || !taking;
        const pare_stage stage = pare_taken_stage(&first->taken[i]);
        wanted[i] = shown[i] && (stage < PARE_STAGE_FITTED || (taking && stage < PARE_STAGE_FLOWN));
    }
}

static void as_text(const pare_take_view *view, const pare_taking *taking, bool leave,
                    const char *money, pare_text *out)
{
    const pare_screen screen = terminal_screen();
    const pare_taken_facts *facts = &view->facts;
    pare_text head = {0};
    pare_text_printf(&head, "%s: ", view->first->name);
    if (view->first->takens == 0)
        pare_text_add(&head, "nothing taken; pare swaps lists what there is to take");
    else if (taking && !leave)
        pare_text_printf(&head, "%s taken", taking->ones > 1 ? "swaps" : "swap");
    else
        pare_text_printf(&head, "%zu on the craft, %zu ordered, %zu chosen", facts->on,
                         facts->ordered, facts->chosen);
    pare_put_heading(&screen, out, pare_text_all(&head));
    out->failed |= head.failed;
    pare_text_free(&head);
    if (view->first->takens == 0)
        return;
    for (size_t k = 0; taking && k < taking->ones; k++)
        if (taking->one[k].row)
            said_once(taking->one[k].row, view->first, money, &screen, out);
    pare_take_text(view, &screen, out);
}

/* What scale and flights have said of each since. */
static pare_status read_answers(const bench_in_use *use, const pare_craft *first,
                                const pare_sheet *built, pare_arena *arena,
                                const pare_answers **answers, pare_error *err)
{
    pare_weighings weighings;
    size_t count = 0;
    const pare_flight_record *flights = NULL;
    const pare_sheet_figure *flown = &built->figure[PARE_FLOWN_TIME];
    pare_answers *made = pare_arena_zeros(arena, (first->takens + 1) * sizeof *made);
    pare_status status =
        made ? pare_store_weighings(use->store, arena, &weighings, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_store_read_flights(use->store, use->bench, first, &count, &flights, err);
    for (size_t i = 0; i < first->takens && status == PARE_OK; i++)
        pare_answers_of(first, i, &weighings, count, flights,
                        flown->exists ? flown->value : (double)NAN, &made[i]);
    *answers = made;
    return status;
}

/* @param taking  NULL: everything is listed */
static pare_status answer(const options *given, const pare_taking *taking, pare_arena *arena,
                          pare_text *out, pare_error *err)
{
    const char *name = given->operand[0];
    bench_in_use use = {0};
    const pare_craft *built = NULL;
    bool shown[PARE_TAKENS], wanted[PARE_TAKENS];
    const bool leave = (given->given & OPTION_LEAVE) != 0;
    pare_checklist *checklist = pare_arena_zeros(arena, sizeof *checklist);
    pare_sheet *sheet = pare_arena_zeros(arena, sizeof *sheet);
    pare_shopping *shopping = pare_arena_zeros(arena, sizeof *shopping);
    pare_take_view view = {.built = sheet, .shown = shown, .checklist = checklist};
    pare_status status = checklist && sheet && shopping ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = bench_use(given, &use, err); /* flights name packs that are on no craft */
    if (status == PARE_OK)
        status = bench_craft(&use, name, &built, err);
    if (status == PARE_OK) {
        view.first = bench_first(&use, name);
        view.money = use.bench->money;
        choose(view.first, leave ? NULL : taking, shown, wanted);
        status = weigh(built, sheet, err);
    }
    if (status == PARE_OK)
        status = read_answers(&use, view.first, sheet, arena, &view.answers, err);
    if (status == PARE_OK)
        status = pare_taken_facts_fill(use.bench, view.first, view.first->loadouts ? 0 : -1,
                                       &view.facts, err);
    if (status == PARE_OK)
        status = pare_checklist_make(use.bench, view.first, wanted, arena, checklist, err);
    if (status == PARE_OK && !taking && view.facts.planned) {
        status = pare_shopping_planned(use.bench, view.first, NULL, shopping, err);
        view.shopping = shopping;
    }
    if (status == PARE_OK && given->given & OPTION_JSON)
        pare_json_write(pare_take_object(&view), out);
    else if (status == PARE_OK)
        as_text(&view, taking, leave, use.bench->money, out);
    bench_leave(&use);
    return status;
}

/* ---- the command ---- */

static pare_status check_options(const options *given, pare_error *err)
{
    const char *day = NULL;
    for (int s = 0; s < PARE_STAGES; s++)
        if (given->stage[s])
            day = pare_stage_name((pare_stage)s);
    const bool leave = (given->given & OPTION_LEAVE) != 0;
    if (given->operands == 1 && (day || leave))
        return pare_fail(err, PARE_BAD_DATA, "take --%s needs a swap; pare take %s lists them",
                         day ? day : "leave", given->operand[0]);
    if (day && leave)
        return pare_fail(err, PARE_BAD_DATA, "take --leave goes with no --%s", day);
    return PARE_OK;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    pare_taking *taking = arena ? pare_arena_zeros(arena, sizeof *taking) : NULL;
    pare_status status = taking ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status =
            need_operands("take", given, 1, 2, "a craft, and swaps like bumper=off,skid=off", err);
    if (status == PARE_OK)
        status = check_options(given, err);
    const bool changes = status == PARE_OK && given->operands == 2;
    if (changes)
        status = change(given, arena, taking, err);
    if (status == PARE_OK)
        status = changes ? after_change(answer(given, taking, arena, out, err), err)
                         : answer(given, NULL, arena, out, err);
    pare_arena_close(arena);
    return status;
}

const command command_take = {
    .name = "take",
    .line = "accept swaps; when they were ordered, fitted, weighed, flown",
    .usage = "pare take CRAFT SWAP,SWAP [--chosen DATE] [--ordered DATE] [--fitted DATE]\n"
             "          [--weighed DATE] [--flown DATE] [--why TEXT] [--json]\n"
             "pare take CRAFT SWAP,SWAP --leave [--why TEXT] [--json]\n"
             "pare take CRAFT [--json]",
    .details = "  DATE  like 2026-03-01, or today\n"
               "Without a date a swap is chosen today. What it promises is kept as it was on the\n"
               "day on which it was taken. Once fitted it is part of the craft in all that Pare\n"
               "says; what it brought along stays, whatever is put on the bench later. With it\n"
               "comes the checklist for the work. A craft alone lists all that is taken, what to\n"
               "buy for it as it is sold, what to cut, and the work that waits. What was fitted\n"
               "is held against its promise: the whole craft on the scale before and since, in\n"
               "one loadout, and flights of one manner and pack, each with the chance that the\n"
               "change is real.\n",
    .caution = CAUTION_WORK " " CAUTION_FLYING,
    .example = "  pare take hedgerow bumper=off,tower=ti-100\n"
               "  pare take hedgerow bumper=off --fitted today\n"
               "  pare take hedgerow tower=ti-100 --leave\n"
               "  pare take hedgerow\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_LEAVE | OPTION_CHOSEN | OPTION_ORDERED |
               OPTION_FITTED | OPTION_WEIGHED | OPTION_FLOWN | OPTION_WHY,
    .run = run,
};
