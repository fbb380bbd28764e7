/* learn.c: `pare learn`: what a craft's flights say about the numbers that it is computed from, and
 * whether the sheet goes by it.
 *
 * What is kept stands in the craft's own text, so that an undo takes it back and an export carries it.
 * It is learned anew each time from all flights, never on top of what was kept. */
#include "advise/learn.h"

#include <stdlib.h>

#include "cli/command.h"
#include "cli/day.h"
#include "cli/use.h"
#include "show/json.h"
#include "show/kept.h"
#include "show/learned.h"

/* Sheets without and with what was learned. */
typedef struct both_sheets {
    pare_sheet thought, learned;
} both_sheets;

static pare_status store_kept(const options *given, const bench_in_use *use,
                              const pare_taught *kept, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    pare_store *store = NULL;
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = bench_store(use->path.bytes, PARE_STORE_WRITE, &store, err);
    if (status == PARE_OK) {
        pare_change change = change_of("learn", given, arena);
        change.what = pare_arena_printf(arena, "%s --%s", change.what, kept ? "keep" : "forget");
        status = pare_store_set_learned(store, given->operand[0], kept, &change, err);
    }
    pare_store_close(store);
    pare_arena_close(arena);
    return status;
}

/* ---- the answers ---- */

static void put_json(const pare_craft *craft, const pare_learned_all *all, const pare_taught *kept,
                     const both_sheets *both, pare_text *out)
{
    json_t *object = pare_learned_object(craft, all, kept ? &both->learned : &both->thought);
    json_object_set_new(object, "kept", kept ? json_string(kept->date) : json_null());
    json_object_set_new(object, "kept_flights", kept ? json_integer(kept->flights) : json_null());
    json_object_set_new(object, "moved",
                        kept ? pare_kept_array(&both->thought, &both->learned) : json_array());
    pare_json_write(object, out);
}

static void put_text(const options *given, const pare_craft *craft, const pare_learned_all *all,
                     const pare_taught *kept, const both_sheets *both, pare_text *out)
{
    const pare_screen screen = terminal_screen();
    pare_text line = {0};
    if (kept) {
        pare_text_printf(&line, "%s goes by what %d flight%s taught, as kept on %s", craft->name,
                         kept->flights, kept->flights == 1 ? "" : "s", kept->date);
        pare_put_heading(&screen, out, line.failed ? "" : line.bytes);
        pare_kept_text(&both->thought, &both->learned, &screen, out);
        pare_text_printf(out, "pare learn %s --forget undoes it.\n\n", craft->name);
    } else if (given->given & OPTION_FORGET) {
        pare_text_printf(out,
                         "What %s was taught is forgotten: its sheet says again what was "
                         "thought.\n\n",
                         craft->name);
    }
    pare_learned_text(craft, all, kept ? &both->learned : &both->thought, &screen, out);
    pare_text_free(&line);
}

/* ---- the command ---- */

static pare_status check_options(const options *given, pare_error *err)
{
    pare_status status = need_operands("learn", given, 1, 1, "one craft", err);
    if (status != PARE_OK)
        return status;
    if ((given->given & OPTION_KEEP) && (given->given & OPTION_FORGET))
        return pare_fail(err, PARE_BAD_DATA, "learn: --keep or --forget; right would be one");
    if (given->date && !(given->given & OPTION_KEEP))
        return pare_fail(err, PARE_BAD_DATA, "learn --date goes with --keep");
    return PARE_OK;
}

static pare_status keep(const options *given, const bench_in_use *use, pare_learned_all *all,
                        const char *now, pare_error *err)
{
    all->kept.date = now;
    if (given->date) {
        const pare_status status = day_read("--date", given->date, now, &all->kept.date, err);
        if (status != PARE_OK)
            return status;
    }
    if (all->kept.flights == 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "craft '%s': no flight tells anything, so there is nothing to keep; right "
                         "would be one with what the charger put back",
                         given->operand[0]);
    return store_kept(given, use, &all->kept, err);
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    bench_in_use use = {0};
    const pare_craft *craft = NULL;
    const pare_flight_record *flights = NULL;
    const pare_taught *kept = NULL;
    pare_learned_all learned;
    size_t count = 0;
    char now[DAY];
    pare_arena *arena = pare_arena_open();
    both_sheets *both = arena ? pare_arena_zeros(arena, sizeof *both) : NULL;
    pare_status status = both ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = check_options(given, err);
    if (status == PARE_OK)
        status = day_today(now, err);
    if (status == PARE_OK)
        status = bench_use(given, &use, err);
    if (status == PARE_OK)
        status = bench_craft(&use, given->operand[0], &craft, err);
    if (status == PARE_OK)
        status = pare_store_read_flights(use.store, use.bench, craft, &count, &flights, err);
    if (status == PARE_OK)
        status = pare_learn(craft, count, flights, arena, &learned, err);
    if (status == PARE_OK)
        kept = craft->learned;
    if (status == PARE_OK && (given->given & OPTION_FORGET)) {
        kept = NULL;
        status = store_kept(given, &use, NULL, err);
    } else if (status == PARE_OK && (given->given & OPTION_KEEP)) {
        kept = &learned.kept;
        status = keep(given, &use, &learned, now, err);
    }
    if (status == PARE_OK)
        status = pare_learned_sheet(craft, NULL, &both->thought, err);
    if (status == PARE_OK && kept)
        status = pare_learned_sheet(craft, kept, &both->learned, err);
    if (status == PARE_OK && (given->given & OPTION_JSON))
        put_json(craft, &learned, kept, both, out);
    else if (status == PARE_OK)
        put_text(given, craft, &learned, kept, both, out);
    pare_arena_close(arena);
    bench_leave(&use);
    return status;
}

const command command_learn = {
    .name = "learn",
    .line = "what flights say: minutes, packs, and what to fly next",
    .usage = "pare learn CRAFT [--keep [--date DATE] | --forget] [--why TEXT] [--json]",
    .details = "Flights stand in the bench's text under flights, or come from a list by pare\n"
               "import --as flights: date, pack, which, lasted, put_back (what the charger put\n"
               "back), rest_before, rest_after, take_off, air, and how it was flown. A log of\n"
               "volts and current comes by pare import LOG.csv (see there): it tells what the\n"
               "charger and the voltmeter tell, what the pack's resistance is, and how far the\n"
               "craft's own sensors are off.\n"
               "With --keep the sheet goes by what was learned, with what is left in doubt of\n"
               "it, until --forget. It is about the motors and propellers that flew; a swap to\n"
               "others leaves it behind. Later flights count when it is kept again.\n",
    .caution = CAUTION_FLYING,
    .example = "  pare learn hedgerow\n"
               "  pare learn hedgerow --keep\n"
               "  pare learn hedgerow --forget\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_KEEP | OPTION_FORGET | OPTION_DATE | OPTION_WHY,
    .run = run,
};
