/* best_knock_on.c: --knock-on of `pare best` (see best_knock_on.h). */
#include "cli/best_knock_on.h"

#include "base/units.h"
#include "cli/long_work.h"
#include "cli/use.h"
#include "show/knock_on.h"

static pare_status read_grams(const char *text, double *saved_kg, pare_error *err)
{
    pare_units *units = pare_units_open();
    if (!units)
        return pare_no_memory(err);
    pare_status status = pare_quantity(units, text, PARE_DIM_MASS, saved_kg, err);
    pare_units_close(units);
    if (status == PARE_OK && !(*saved_kg > 0))
        status = pare_fail(err, PARE_BAD_DATA, "'%s': more than 0 is due", text);
    return status == PARE_OK ? status : pare_within(err, "--knock-on");
}

pare_status best_knock_on_check(const options *given, pare_error *err)
{
    double saved_kg;
    if ((given->given & OPTION_KNOCK_ON) == 0)
        return PARE_OK;
    if (given->given & (OPTION_FRONT | OPTION_WALK | OPTION_WAYS | OPTION_BINDS | OPTION_PROOF |
                        OPTION_WISH | OPTION_HOURS | OPTION_SURE))
        return pare_fail(err, PARE_BAD_DATA,
                         "--knock-on is a question of its own: it goes with --loadout, --hold, "
                         "--never, --must and --time");
    return read_grams(given->knock_on, &saved_kg, err);
}

pare_status best_knock_on(const options *given, const pare_bench *bench, const pare_craft *craft,
                          const pare_best_ask *ask, pare_arena *arena, pare_text *out,
                          pare_error *err)
{
    double saved_kg;
    pare_knock_on *found = pare_arena_zeros(arena, sizeof *found);
    pare_status status = found ? read_grams(given->knock_on, &saved_kg, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_knock_on_find(bench, craft, ask, saved_kg, arena, found, err);
    long_work_release(PARE_OK); /* heard, and answered with what there is so far */
    pare_progress_over(given->progress);
    if (status != PARE_OK)
        return status;
    const pare_screen screen = terminal_screen();
    const pare_knock_on_view view = {
        .craft = craft->name,
        .loadout = ask->loadout >= 0 ? craft->loadout[ask->loadout].name : NULL,
        .knock_on = found};
    if (given->given & OPTION_JSON)
        pare_json_write(pare_knock_on_object(&view), out);
    else
        pare_knock_on_text(&view, &screen, out);
    return found->found || !found->proven ? PARE_OK : PARE_NO;
}
