/* craft.c: `pare craft`: the craft on the bench, and one as it was said to be. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/edit.h"
#include "cli/start.h"
#include "cli/usage.h"
#include "cli/use.h"
#include "show/catalogue.h"
#include "show/sheet_view.h"

static pare_status weigh(const pare_craft *craft, pare_arena *arena, pare_craft_row *row,
                         pare_error *err)
{
    *row = (pare_craft_row){.craft = craft, .limit_kg = (double)NAN};
    pare_craft *loaded = malloc(sizeof *loaded);
    pare_sheet *sheet = malloc(sizeof *sheet);
    if (!loaded || !sheet) {
        free(sheet);
        free(loaded);
        return pare_no_memory(err);
    }
    pare_error why = {0};
    pare_status status = pare_craft_load(craft, craft->loadouts ? 0 : -1, loaded, &why);
    if (status == PARE_OK)
        status = pare_sheet_compute(loaded, true, sheet, &why);
    if (status == PARE_OK) {
        const pare_limit *limit = pare_brief_limit(&craft->brief, "all_up");
        row->computed = true;
        row->all_up_kg = sheet->figure[PARE_ALL_UP].value;
        row->all_up_u_kg = sheet->figure[PARE_ALL_UP].u;
        row->broken = pare_limits_broken(sheet);
        if (limit && !limit->at_least)
            row->limit_kg = limit->value;
    } else {
        row->why = pare_arena_text(arena, why.text);
    }
    free(sheet);
    free(loaded);
    return row->computed || row->why ? PARE_OK : pare_no_memory(err);
}

static pare_status list(const options *given, const bench_in_use *use, pare_text *out,
                        pare_error *err)
{
    const pare_bench *bench = use->bench;
    pare_craft_row *rows = pare_arena_array(bench->arena, bench->crafts + 1, sizeof *rows);
    if (!rows)
        return pare_no_memory(err);
    for (size_t i = 0; i < bench->crafts; i++) {
        pare_status status = PARE_OK;
        if (use->first[i].status == PARE_OK)
            status = weigh(bench->craft[i], bench->arena, &rows[i], err);
        else
            rows[i] = (pare_craft_row){
                .craft = bench->craft[i], .limit_kg = (double)NAN, .why = use->first[i].why};
        if (status != PARE_OK)
            return status;
    }
    if (given->given & OPTION_JSON) {
        json_t *object = json_object(), *all = json_array();
        for (size_t i = 0; i < bench->crafts; i++)
            json_array_append_new(all, pare_craft_row_object(&rows[i]));
        json_object_set_new(object, "craft", all);
        pare_json_write(object, out);
    } else {
        const pare_screen screen = terminal_screen();
        pare_craft_list_text(bench->crafts, rows, &screen, out);
    }
    return PARE_OK;
}

static pare_status show(const options *given, const bench_in_use *use, pare_text *out,
                        pare_error *err)
{
    const pare_craft *craft;
    pare_status status = need_operands("craft show", given, 2, 2, "one craft's name", err);
    if (status == PARE_OK)
        status = bench_craft(use, given->operand[1], &craft, err);
    if (status != PARE_OK)
        return status;
    if (given->given & OPTION_JSON) {
        pare_json_write(pare_craft_object(craft), out);
    } else {
        const pare_screen screen = terminal_screen();
        pare_craft_text(craft, &screen, out);
    }
    return PARE_OK;
}

/* A word mistyped, or a craft's name with the word left out. */
static pare_status unknown(const char *word, pare_error *err)
{
    char near[USAGE_WORD];
    if (usage_nearest(command_craft.usage, word, near))
        return pare_fail(err, PARE_UNKNOWN, "craft knows no '%s'; did you mean pare craft %s?",
                         word, near);
    return pare_fail(err, PARE_UNKNOWN, "craft knows no '%s'; did you mean pare craft show %s?",
                     word, word);
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    if (given->operands > 0 && strcmp(given->operand[0], "start") == 0)
        return craft_start(given, out, err);
    if (given->operands > 0 && strcmp(given->operand[0], "limit") == 0)
        return craft_limit(given, out, err);
    if (given->operands > 0 && edit_is_word(given->operand[0]))
        return edit_thing(PARE_A_CRAFT, given, out, err);
    if (given->operands > 0 && strcmp(given->operand[0], "show") != 0)
        return unknown(given->operand[0], err);
    pare_status status = bench_use(given, &use, err);
    if (status == PARE_OK)
        status = given->operands ? show(given, &use, out, err) : list(given, &use, out, err);
    bench_leave(&use);
    return status;
}

static size_t words(size_t operands, const char *const operand[], size_t most, const char *name[])
{
    if (operands > 1 && strcmp(operand[0], "start") == 0)
        return craft_start_keys(most, name);
    if (operands > 1 && strcmp(operand[0], "limit") == 0 && most > 0) {
        const size_t figures = pare_figure_limit_names(most - 1, name);
        name[figures] = "margin";
        return figures + 1;
    }
    if (operands > 1 && (strcmp(operand[0], "add") == 0 || strcmp(operand[0], "change") == 0))
        return edit_keys(PARE_A_CRAFT, most, name);
    return 0;
}

const command command_craft = {
    .name = "craft",
    .line = "craft on the bench: list, show, start, limit, add, change",
    .usage = "pare craft [--json]\npare craft show CRAFT [--json]\n"
             "pare craft start NAME [KEY=VALUE...] [--why TEXT] [--json]\n"
             "pare craft limit CRAFT KEY=VALUE... [--why TEXT] [--json]\n"
             "pare craft add NAME KEY=VALUE... [--why TEXT] [--json]\n"
             "pare craft change CRAFT KEY=VALUE... [--why TEXT] [--json]\n"
             "pare craft copy CRAFT NAME [--why TEXT] [--json]\n"
             "pare craft edit CRAFT [--why TEXT] [--json]\n"
             "pare craft remove CRAFT [--records] [--why TEXT] [--json]",
    .details = "The list says what each weighs as first flown, and whether it meets its brief.\n"
               "  start  a craft from what you know by heart, all else typical and marked\n"
               "         estimated; in a terminal, without any KEY=VALUE, it asks. Keys: all_up,\n"
               "         minutes, pack (an id, or 4S1500mAh), cells, capacity, chemistry,\n"
               "         propeller, pitch, blades, line (the propeller's, for surer figures:\n"
               "         broad, thin, slim, sport, slow, park, direct, folding, classic or\n"
               "         scimitar), stator (2207 or 22mmx7mm), kv, frame (an id, or a\n"
               "         wheelbase), carries (a list: action_camera, gps, digital_video,\n"
               "         analogue_video, no_video, buzzer, bumpers, nothing)\n"
               "  limit  sets the brief's limits by the sheet's keys: all_up=600g is at most,\n"
               "         flown=4min at least; 'all_up>=500g' says which; flown=off takes it away\n"
               "  add    of parts that the bench has, as ITEM=PART, count and place as usual\n"
               "         for its kind: frame, motor, propeller, esc and pack at least\n"
               "  change KEY is a path in the craft's text: motor=PART, gps=off, motor.count=4,\n"
               "         items.gps='{part: gp-1, at: [-60 mm, 0 mm, 9 mm]}', runs.lead.gauge=16,\n"
               "         brief.keep='[sees, holds]'; off takes the entry away\n"
               "  copy   with brief, loadouts and fitted swaps, without its records\n"
               "  edit   opens its text in VISUAL or EDITOR, and checks it before it is stored\n"
               "  remove takes it off the bench, its parts stay; pare undo brings it back\n",
    .example = "  pare craft show hedgerow\n"
               "  pare craft start plover all_up=690g minutes=4.5min pack=4S1500mAh\n"
               "  pare craft limit plover all_up=600g flown=4min\n"
               "  pare craft copy hedgerow sparse\n"
               "  pare craft change sparse bumper=off runs.lead.gauge=14 --why 'less to carry'\n"
               "  pare craft remove sparse\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_WHY | OPTION_RECORDS,
    .words = words,
    .run = run,
};
