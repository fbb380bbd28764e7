/* sheet.c: `pare sheet`: everything computed for one craft. */
#include <stdlib.h>

#include "cli/command.h"
#include "cli/sheet_form.h"
#include "cli/use.h"
#include "show/sheet_json.h"
#include "show/sheet_text.h"

static pare_status as_text(const bench_in_use *use, const options *given, const pare_craft *craft,
                           int loadout, const pare_sheet_view *view, pare_text *out,
                           pare_error *err)
{
    const pare_screen screen = terminal_screen();
    pare_arena *arena = pare_arena_open();
    if (!arena)
        return pare_no_memory(err);
    pare_swaps swaps;
    const pare_status status = pare_swaps_sum(use->bench, craft, loadout, arena, &swaps, err);
    if (status == PARE_OK) {
        pare_sheet_text(view, &swaps, use->bench->money, &screen, out);
        if (given->given & OPTION_ALL)
            pare_sheet_all_text(view, &screen, out);
    }
    pare_arena_close(arena);
    return status;
}

static pare_status fill(const bench_in_use *use, const pare_craft *craft, const pare_craft *before,
                        int loadout, const char *tried, pare_sheet_view *view, pare_error *err)
{
    const pare_craft *first = bench_first(use, craft->name);
    pare_status status = pare_sheet_view_fill(craft, before, loadout, tried, view, err);
    if (status == PARE_OK && first && first->takens)
        status = pare_taken_facts_fill(use->bench, first, loadout, &view->taken, err);
    if (status == PARE_OK && first)
        status = pare_sheet_view_against_first(first, loadout, view, err);
    return status;
}

static pare_status as_json(const bench_in_use *use, const pare_craft *craft,
                           const pare_craft *before, int loadout, pare_sheet_view *view,
                           pare_text *out, pare_error *err)
{
    json_t *object = pare_sheet_object(view), *others = json_object();
    pare_sheet_view *other = malloc(sizeof *other);
    pare_status status = object && others && other ? PARE_OK : pare_no_memory(err);
    for (int i = 0; status == PARE_OK && i < (int)craft->loadouts; i++) {
        if (i == loadout)
            continue;
        status = fill(use, craft, before, i, view->tried, other, err);
        if (status != PARE_OK)
            pare_within(err, "loadout '%s'", craft->loadout[i].name);
        else if (json_object_set_new(others, craft->loadout[i].name, pare_sheet_object(other)) != 0)
            status = pare_no_memory(err);
    }
    free(other);
    if (status != PARE_OK) {
        json_decref(object);
        json_decref(others);
        return status;
    }
    json_object_set_new(object, "loadouts", others);
    pare_json_write(object, out);
    return PARE_OK;
}

static pare_status check(const pare_sheet_view *view, pare_error *err)
{
    if (pare_limits_broken(&view->sheet) == 0)
        return PARE_OK;
    pare_text broken = {0};
    pare_limits_broken_text(&view->sheet, &broken);
    pare_fail(err, PARE_NO, "%s breaks its brief: %s", view->craft.name, pare_text_all(&broken));
    pare_text_free(&broken);
    return PARE_NO;
}

static pare_status answer(const bench_in_use *use, const options *given, const pare_craft *craft,
                          const pare_craft *before, int loadout, pare_sheet_view *view,
                          pare_text *out, pare_error *err)
{
    if (given->given & SHEET_FORMS)
        return sheet_form(use, given, craft, loadout, view, out, err);
    return given->given & OPTION_JSON ? as_json(use, craft, before, loadout, view, out, err)
                                      : as_text(use, given, craft, loadout, view, out, err);
}

/* Swaps look at every part of the bench; without them the craft's own are enough. */
static pare_status use_for(const options *given, bench_in_use *use, pare_error *err)
{
    if (given->given & OPTION_JSON && !(given->given & OPTION_RULER) && given->tries == 0)
        return bench_use_craft(given, given->operand[0], use, err);
    return bench_use(given, use, err);
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    pare_text tried = {0};
    const pare_craft *before = NULL;
    pare_craft *craft = malloc(sizeof *craft);
    pare_sheet_view *view = malloc(sizeof *view);
    int loadout = -1;
    pare_status status = craft && view ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands("sheet", given, 1, 1, "one craft", err);
    if (status == PARE_OK)
        status = sheet_form_check(given, err);
    if (status == PARE_OK)
        status = use_for(given, &use, err);
    if (status == PARE_OK)
        status = bench_craft(&use, given->operand[0], &before, err);
    if (status == PARE_OK)
        status = pare_loadout_named(before, given->loadout, &loadout, err);
    if (status == PARE_OK)
        status = craft_tried(&use, given, before, craft, &tried, err);
    if (status == PARE_OK)
        status = fill(&use, craft, before, loadout, tried.length ? tried.bytes : NULL, view, err);
    if (status == PARE_OK)
        status = answer(&use, given, craft, before, loadout, view, out, err);
    if (status == PARE_OK && given->given & OPTION_CHECK)
        status = check(view, err);
    free(view);
    free(craft);
    pare_text_free(&tried);
    bench_leave(&use);
    return status;
}

const command command_sheet = {
    .name = "sheet",
    .line = "what a craft weighs, where the grams sit, what it can do",
    .usage = "pare sheet CRAFT [--try SWAP,SWAP] [--loadout LOADOUT] [--all] [--check]\n"
             "           [--ruler | --outline | --curve OF] [--json]",
    .details = "Every figure has its standard uncertainty behind it and no digit below that.\n"
               "Ruler and outline are JSON, for who draws them. A curve is minutes or current\n"
               "by speed, sag or wire over the flight, or roll after the stick.\n",
    .caution = CAUTION_FLYING,
    .example = "  pare sheet hedgerow --try bumper=off,joint.motor_base.material=titanium\n"
               "  pare sheet hedgerow --loadout race --all\n"
               "  pare sheet hedgerow --curve minutes\n"
               "  pare sheet hedgerow --outline --json\n"
               "  pare sheet hedgerow --check      # exit 1: it is too heavy\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_ALL | OPTION_CHECK | OPTION_LOADOUT |
               OPTION_TRY | SHEET_FORMS,
    .meaning = {{OPTION_TRY, "with swaps of pare swaps, against the craft as it is"},
                {OPTION_ALL, "also ledger, body, flight, margins, and what each rests on"}},
    .run = run,
};
