/* learn.c: `pare learn`: what a craft's flights say about the numbers that it is computed from. */
#include "advise/learn.h"

#include "cli/command.h"
#include "cli/use.h"
#include "show/json.h"
#include "show/learned.h"

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    const pare_craft *craft = NULL;
    const pare_flight_record *flights = NULL;
    pare_learned_all learned;
    size_t count = 0;
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = need_operands("learn", given, 1, 1, "one craft", err);
    if (status == PARE_OK)
        status = bench_use(given, &use, err);
    if (status == PARE_OK)
        status = bench_craft(&use, given->operand[0], &craft, err);
    if (status == PARE_OK)
        status = pare_store_read_flights(use.store, use.bench, craft, &count, &flights, err);
    if (status == PARE_OK)
        status = pare_learn(craft, count, flights, arena, &learned, err);
    if (status == PARE_OK) {
        const pare_screen screen = terminal_screen();
        if (given->given & OPTION_JSON)
            pare_json_write(pare_learned_object(craft, &learned), out);
        else
            pare_learned_text(craft, &learned, &screen, out);
    }
    pare_arena_close(arena);
    bench_leave(&use);
    return status;
}

const command command_learn = {
    .name = "learn",
    .line = "what flights say: minutes, packs, and what to fly next",
    .usage = "pare learn CRAFT [--json]",
    .details = "Flights stand in the bench's text under flights, or come from a list by pare\n"
               "import --as flights: date, pack, which, lasted, put_back (what the charger put\n"
               "back), rest_before, rest_after, take_off, air, and how it was flown.\n",
    .caution = CAUTION_FLYING,
    .example = "  pare learn hedgerow\n",
    .options = OPTION_BENCH | OPTION_JSON,
    .run = run,
};
