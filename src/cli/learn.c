/* learn.c: `pare learn`: what a craft's flights say about the numbers that it is computed from, and
 * whether the sheet goes by it.
 *
 * What is kept stands in the craft's own text, so that an undo takes it back and an export carries it.
 * It is learned anew each time from all flights, never on top of what was kept. */
#include "advise/learn.h"

#include <stdlib.h>

#include "cli/command.h"
#include "cli/day.h"
#include "cli/hover.h"
#include "cli/late.h"
#include "show/json.h"
#include "show/kept.h"
#include "show/learned.h"

/* Sheets without and with what was learned. */
typedef struct both_sheets {
    pare_sheet thought, learned;
} both_sheets;

/* Everything that the answer is made of. */
typedef struct learning {
    const options *given;
    pare_arena *arena;
    char now[DAY];
    bench_in_use use;
    const pare_craft *craft;
    pare_learned_all learned;
    pare_hover_score score;
    const pare_taught *kept; /* NULL: nothing */
    both_sheets *both;
} learning;

static pare_status store_kept(const options *given, const bench_in_use *use,
                              const pare_taught *kept, bool *late, pare_error *err)
{
    pare_arena *arena = pare_arena_open();
    pare_store *store = NULL;
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = bench_store(use->path.bytes, PARE_STORE_WRITE, &store, err);
    if (status == PARE_OK) {
        pare_change change = change_computed("learn", given, use, late, arena);
        change.what = pare_arena_printf(arena, "%s --%s", change.what, kept ? "keep" : "forget");
        status = pare_store_set_learned(store, given->operand[0], kept, &change, err);
    }
    pare_store_close(store);
    pare_arena_close(arena);
    return status;
}

/* ---- the answers ---- */

static void put_json(const learning *l, pare_text *out)
{
    const pare_taught *kept = l->kept;
    const both_sheets *both = l->both;
    json_t *object = pare_learned_object(l->craft, &l->learned,
                                         kept ? &both->learned : &both->thought, l->score);
    json_object_set_new(object, "kept", kept ? json_string(kept->date) : json_null());
    json_object_set_new(object, "kept_flights", kept ? json_integer(kept->flights) : json_null());
    json_object_set_new(object, "moved",
                        kept ? pare_kept_array(&both->thought, &both->learned) : json_array());
    pare_json_write(object, out);
}

static void put_text(const options *given, const learning *l, pare_text *out)
{
    const pare_screen screen = terminal_screen();
    const pare_taught *kept = l->kept;
    const char *name = l->craft->name;
    pare_text line = {0};
    if (kept) {
        pare_text_printf(&line, "%s goes by what %d flight%s taught, as kept on %s", name,
                         kept->flights, kept->flights == 1 ? "" : "s", kept->date);
        pare_put_heading(&screen, out, line.failed ? "" : line.bytes);
        pare_kept_text(&l->both->thought, &l->both->learned, &screen, out);
        pare_text_printf(out, "pare learn %s --forget undoes it.\n\n", name);
    } else if (given->given & OPTION_FORGET) {
        pare_text_printf(out,
                         "What %s was taught is forgotten: its sheet says again what was "
                         "thought.\n\n",
                         name);
    }
    pare_learned_text(l->craft, &l->learned, kept ? &l->both->learned : &l->both->thought, l->score,
                      &screen, out);
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
    if (given->hover && (given->given & (OPTION_KEEP | OPTION_FORGET)))
        return pare_fail(err, PARE_BAD_DATA,
                         "learn: --hover or --%s; right would be one after the other",
                         given->given & OPTION_KEEP ? "keep" : "forget");
    if (given->date && !given->hover && !(given->given & OPTION_KEEP))
        return pare_fail(err, PARE_BAD_DATA, "learn --date goes with --keep or --hover");
    if (given->loadout && !given->hover)
        return pare_fail(err, PARE_BAD_DATA, "learn --loadout goes with --hover");
    return PARE_OK;
}

static pare_status keep(learning *l, bool *late, pare_error *err)
{
    const options *given = l->given;
    pare_learned_all *all = &l->learned;
    all->kept.date = l->now;
    if (given->date) {
        const pare_status status = day_read("--date", given->date, l->now, &all->kept.date, err);
        if (status != PARE_OK)
            return status;
    }
    if (all->kept.flights == 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "craft '%s': no flight tells anything, so there is nothing to keep; right "
                         "would be one with what the charger put back",
                         given->operand[0]);
    return store_kept(given, &l->use, &all->kept, late, err);
}

static pare_status hover(learning *l, bool *late, pare_error *err)
{
    const options *given = l->given;
    const char *date = l->now;
    pare_flight_record flown;
    int loadout = -1;
    pare_status status = pare_loadout_named(l->craft, given->loadout, &loadout, err);
    if (status == PARE_OK && given->date)
        status = day_read("--date", given->date, l->now, &date, err);
    return status == PARE_OK
               ? hover_keep(given, &l->use, l->craft, loadout, date, late, &flown, err)
               : status;
}

static pare_status learn(learning *l, pare_error *err)
{
    const pare_flight_record *flights = NULL;
    const pare_hovered *hovered = NULL;
    size_t count = 0, hovers = 0;
    pare_status status =
        pare_store_read_flights(l->use.store, l->use.bench, l->craft, &count, &flights, err);
    if (status == PARE_OK)
        status = pare_store_hovers(l->use.store, l->arena, &hovers, &hovered, err);
    if (status == PARE_OK)
        status = pare_learn(l->craft, count, flights, l->arena, &l->learned, err);
    l->score = pare_hover_score_of(hovers, hovered);
    l->kept = l->craft->learned;
    return status;
}

/* What is kept of it from now on. */
static pare_status change(learning *l, bool *late, pare_error *err)
{
    if (l->given->given & OPTION_FORGET) {
        l->kept = NULL;
        return store_kept(l->given, &l->use, NULL, late, err);
    }
    if (!(l->given->given & OPTION_KEEP))
        return PARE_OK;
    l->kept = &l->learned.kept;
    return keep(l, late, err);
}

/* Reads, learns, and keeps what is to be kept. */
static pare_status learn_once(void *with, bool *late, pare_error *err)
{
    learning *l = with;
    const options *given = l->given;
    bench_leave(&l->use); /* of an attempt that came too late */
    l->use = (bench_in_use){0};
    l->learned = (pare_learned_all){0};
    pare_status status = bench_use(given, &l->use, err);
    if (status == PARE_OK)
        status = bench_craft(&l->use, given->operand[0], &l->craft, err);
    if (status == PARE_OK && given->hover)
        status = hover(l, late, err);
    if (status != PARE_OK)
        return status;
    status = learn(l, err);
    if (given->hover)
        status = after_change(status, err);
    return status == PARE_OK ? change(l, late, err) : status;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    learning l = {.given = given, .arena = pare_arena_open()};
    l.both = l.arena ? pare_arena_zeros(l.arena, sizeof *l.both) : NULL;
    pare_status status = l.both ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = check_options(given, err);
    if (status == PARE_OK)
        status = day_today(l.now, err);
    if (status == PARE_OK)
        status = change_in_time(given, learn_once, &l, err);
    if (status == PARE_OK)
        status = pare_learned_sheet(l.craft, NULL, &l.both->thought, err);
    if (status == PARE_OK && l.kept)
        status = pare_learned_sheet(l.craft, l.kept, &l.both->learned, err);
    if (status == PARE_OK && (given->given & OPTION_JSON))
        put_json(&l, out);
    else if (status == PARE_OK)
        put_text(given, &l, out);
    pare_arena_close(l.arena);
    bench_leave(&l.use);
    return status;
}

const command command_learn = {
    .name = "learn",
    .line = "what flights say: minutes, packs, and what to fly next",
    .usage = "pare learn CRAFT [--keep [--date DATE] | --forget] [--why TEXT] [--json]\n"
             "pare learn CRAFT --hover OUTPUT [--date DATE] [--loadout LOADOUT] [--why TEXT]\n"
             "           [--json]",
    .details = "Flights stand in the bench's text under flights, or come from a list by pare\n"
               "import --as flights: date, pack, which, lasted, put_back (what the charger put\n"
               "back), rest_before, rest_after, take_off, air, and how it was flown. A log of\n"
               "volts and current comes by pare import LOG.csv (see there): it tells what the\n"
               "charger and the voltmeter tell, what the pack's resistance is, and how far the\n"
               "craft's own sensors are off.\n"
               "With --keep the sheet goes by what was learned, with what is left in doubt of\n"
               "it, until --forget. It is about the motors and propellers that flew; a swap to\n"
               "others leaves it behind. Later flights count when it is kept again.\n"
               "OUTPUT is the throttle that a screen shows in a steady hover, half a pack down:\n"
               "what it would be was said before, is kept with it and scored over all craft, as\n"
               "it is of a hover whose log is imported, or whose list has a column output.\n",
    .caution = CAUTION_FLYING,
    .example = "  pare learn hedgerow\n"
               "  pare learn hedgerow --hover 30% --loadout race\n"
               "  pare learn hedgerow --keep\n"
               "  pare learn hedgerow --forget\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_KEEP | OPTION_FORGET | OPTION_DATE | OPTION_WHY |
               OPTION_HOVER | OPTION_LOADOUT,
    .run = run,
};
