/* swaps.c: `pare swaps`: every single change to a craft, best first. */
#include "show/swaps.h"

#include <stdlib.h>

#include "cli/command.h"
#include "cli/use.h"

enum { ROWS = 10 }; /* of each group */

/* What changes are measured against. */
static pare_status roll_now(const pare_craft *craft, int loadout, double *roll_rad_s2,
                            pare_error *err)
{
    pare_craft *loaded = malloc(sizeof *loaded);
    pare_sheet *sheet = malloc(sizeof *sheet);
    pare_status status = loaded && sheet ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_craft_load(craft, loadout, loaded, err);
    if (status == PARE_OK)
        status = pare_sheet_compute(loaded, false, sheet, err);
    if (status == PARE_OK)
        *roll_rad_s2 = sheet->figure[PARE_ROLL].value;
    free(sheet);
    free(loaded);
    return status;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    const char *asked = given->given & OPTION_WISH ? given->wish : NULL;
    pare_swaps_view view = {.wished = asked ? asked : pare_wish_name(PARE_WISH_GRAMS)};
    pare_swaps swaps = {0};
    int loadout = -1;
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands("swaps", given, 1, 1, "one craft", err);
    if (status == PARE_OK)
        status = pare_wish_asked(asked, &view.wish, err);
    if (status == PARE_OK)
        status = bench_use(given, &use, err);
    if (status == PARE_OK)
        status = bench_craft(&use, given->operand[0], &view.craft, err);
    if (status == PARE_OK)
        status = pare_loadout_named(view.craft, given->loadout, &loadout, err);
    if (status == PARE_OK)
        status = roll_now(view.craft, loadout, &view.roll_rad_s2, err);
    if (status == PARE_OK)
        status = pare_swaps_find(use.bench, view.craft, loadout, view.wish, arena, &swaps, err);
    const size_t most = given->given & OPTION_ALL ? swaps.count + 1 : ROWS;
    if (status == PARE_OK)
        status =
            pare_mends_find(use.bench, view.craft, loadout, &swaps, most, arena, &view.mend, err);
    if (status == PARE_OK) {
        view.swaps = &swaps;
        view.all_notes = given->given & OPTION_ALL;
        view.money = use.bench->money;
        view.loadout = loadout >= 0 ? view.craft->loadout[loadout].name : NULL;
        if (given->given & OPTION_JSON) {
            pare_json_write(pare_swaps_object(&view), out);
        } else {
            const pare_screen screen = terminal_screen();
            pare_swaps_text(&view, most, &screen, out);
        }
    }
    pare_arena_close(arena);
    bench_leave(&use);
    return status;
}

const command command_swaps = {
    .name = "swaps",
    .line = "every single change to a craft, best first, with all it does",
    .usage = "pare swaps CRAFT [--wish WISH] [--loadout LOADOUT] [--all] [--json]",
    .details = "Free swaps come first: no money, no job lost that the brief keeps. flown:\n"
               "seconds more of your minutes, flown the same way; T/W: thrust to weight on a\n"
               "fresh pack; roll: quickness. What breaks a limit that holds now is listed\n"
               "apart, with the lightest single swap that mends it. pare sheet CRAFT --try SWAP\n"
               "shows one in full.\n",
    .caution = CAUTION_WORK,
    .example = "  pare swaps hedgerow\n"
               "  pare swaps hedgerow --wish minutes --loadout race\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_ALL | OPTION_LOADOUT | OPTION_WISH,
    .meaning = {{OPTION_ALL, "every row, not the first 10 of each group"}},
    .run = run,
};
