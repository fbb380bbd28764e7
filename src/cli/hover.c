/* hover.c: hovers whose output is foretold (see hover.h). */
#include "cli/hover.h"

#include <math.h>

#include "advise/hover.h"
#include "cli/late.h"

static pare_status the_bench(void *context, const pare_bench **bench, pare_error *err)
{
    hover_teller *teller = context;
    pare_status status = PARE_OK;
    if (!teller->open)
        status = bench_use(teller->given, &teller->use, err);
    teller->open = true;
    *bench = teller->use.bench;
    return status;
}

void hover_teller_begin(const options *given, hover_teller *teller)
{
    *teller = (hover_teller){.given = given};
    teller->teller =
        (pare_foreteller){.context = teller, .bench = the_bench, .foretell = pare_hover_foretell};
}

void hover_teller_end(hover_teller *teller)
{
    if (teller->open)
        bench_leave(&teller->use);
}

static pare_status read_output(const char *typed, double *output, pare_error *err)
{
    pare_units *units = pare_units_open();
    pare_status status =
        units ? pare_quantity(units, typed, PARE_DIM_SHARE, output, err) : pare_no_memory(err);
    pare_units_close(units);
    if (status == PARE_OK && !(*output >= 0.01 && *output <= 1))
        status = pare_fail(err, PARE_BAD_DATA,
                           "%.40s is no output of a hover; right would be 1 %% to 100 %%", typed);
    return status == PARE_BAD_DATA ? pare_within(err, "--hover") : status;
}

pare_status hover_keep(const options *given, const bench_in_use *use, const pare_craft *craft,
                       int loadout, const char *date, bool *late, pare_flight_record *hover,
                       pare_error *err)
{
    *hover = (pare_flight_record){.date = date,
                                  .loadout = loadout,
                                  .take_off_kg = NAN,
                                  .lasted_s = NAN,
                                  .entries = 1,
                                  .flown = {{PARE_FLOWN_THRUST, 1, 1}}};
    pare_arena *arena = pare_arena_open();
    pare_store *store = NULL;
    pare_status status =
        arena ? read_output(given->hover, &hover->output, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_hover_promise(craft, hover, err);
    if (status == PARE_OK)
        status = bench_store(use->path.bytes, PARE_STORE_WRITE, &store, err);
    if (status == PARE_OK) {
        pare_change change = change_computed("learn", given, use, late, arena);
        change.what = pare_arena_printf(arena, "%s --hover %.20s", change.what, given->hover);
        status = pare_store_add_hover(store, craft, hover, &change, err);
    }
    pare_store_close(store);
    pare_arena_close(arena);
    return status;
}
