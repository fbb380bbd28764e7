/* weigh.c: `pare weigh`: readings of a scale, what they make of a craft's masses, and what to weigh next.
 *
 * A reading is promised from all that was known before it, kept with its promise, and never changed. What
 * is then said comes from the bench as it is. */
#include <math.h>
#include <string.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/day.h"
#include "cli/weigh.h"
#include "show/weigh.h"
#include "store/csv_import.h"

#define ANY_STEP_KG 1e-4 /* of a scale that nobody named */

/* ---- what was weighed ---- */

pare_status weighing_read(weighing *w, pare_error *err)
{
    return pare_store_weighings(w->use->store, w->arena, &w->weighings, err);
}

pare_status weighing_close(const weighing *w, const pare_weigh_in *ask, pare_closure **closure,
                           pare_error *err)
{
    const pare_bench *bench = w->use->bench;
    const pare_craft **first = pare_arena_array(w->arena, bench->crafts + 1, sizeof *first);
    if (!first)
        return pare_no_memory(err);
    for (size_t i = 0; i < bench->crafts; i++)
        first[i] = w->use->first[i].craft;
    const pare_closure_of of = {.bench = bench,
                                .crafts = bench->crafts,
                                .first = first,
                                .weighings = &w->weighings,
                                .craft = w->craft->name,
                                .asks = ask ? 1 : 0,
                                .ask = ask};
    return pare_closure_open(&of, w->arena, closure, err);
}

/* ---- scales ---- */

static pare_status no_such_scale(const weighing *w, pare_error *err)
{
    const pare_weighings *all = &w->weighings;
    const char *typed = w->given->scale;
    const char **names = pare_arena_array(w->arena, all->scales + 1, sizeof *names);
    if (!names)
        return pare_no_memory(err);
    for (size_t i = 0; i < all->scales; i++)
        names[i] = all->scale[i].id;
    const char *near = pare_nearest(typed, all->scales, names);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "no scale '%.48s'; did you mean %s?", typed, near);
    return pare_fail(
        err, PARE_UNKNOWN,
        "no scale '%.48s'; pare scale lists them, pare scale %.48s resolution=0.1g adds "
        "one",
        typed, typed);
}

/* The one that was said, otherwise the finest. */
static pare_status choose_scale(weighing *w, pare_error *err)
{
    const pare_weighings *all = &w->weighings;
    const pare_scale *found = NULL;
    for (size_t i = 0; i < all->scales; i++) {
        const pare_scale *one = &all->scale[i];
        if (w->given->scale ? strcmp(one->id, w->given->scale) == 0
                            : !found || one->resolution_kg < found->resolution_kg)
            found = one;
    }
    if (!found && w->given->scale)
        return no_such_scale(w, err);
    w->scale = found ? *found
                     : (pare_scale){.id = "",
                                    .resolution_kg = ANY_STEP_KG,
                                    .repeatability_kg = ANY_STEP_KG,
                                    .common = 1e-3};
    return PARE_OK;
}

/* ---- keeping ---- */

/* What the scale would show, from all that was known before. */
static pare_status promise(const weighing *w, pare_weigh_in *weigh_in, pare_error *err)
{
    pare_closure *closure = NULL;
    pare_pile pile;
    pare_status status = weighing_close(w, weigh_in, &closure, err);
    if (status == PARE_OK)
        status = pare_closure_pile(closure, weigh_in, &pile, err);
    if (status != PARE_OK)
        return status;
    const pare_scale scale =
        pare_scale_named(closure->of.weighings, weigh_in->scale, weigh_in->step_kg);
    const pare_promise made = pare_promise_of(closure, &pile, &scale);
    weigh_in->promised = true;
    weigh_in->low_kg = made.low_kg;
    weigh_in->high_kg = made.high_kg;
    return PARE_OK;
}

static pare_status read_one(const weighing *w, const char *word, pare_units *units,
                            pare_weigh_in *weigh_in, pare_error *err)
{
    *weigh_in = (pare_weigh_in){.craft = w->craft->name,
                                .date = w->date,
                                .scale = w->given->scale,
                                .loadout = w->given->loadout,
                                .step_kg = ANY_STEP_KG};
    const pare_status status = weigh_word(word, w->craft, units, w->arena, weigh_in, err);
    if (weigh_in->all && !weigh_in->loadout && w->loadout >= 0)
        weigh_in->loadout = w->craft->loadout[w->loadout].name;
    return status;
}

/* Each is promised from those before it as well. */
static pare_status read_all(weighing *w, size_t count, const char *const words[],
                            pare_weigh_in list[], pare_error *err)
{
    const size_t were = w->weighings.count;
    const pare_weighings before = w->weighings;
    pare_units *units = pare_units_open();
    pare_status status = units ? PARE_OK : pare_no_memory(err);
    w->weighings.weigh_in = list;
    for (size_t i = 0; i < count && status == PARE_OK; i++) {
        status = read_one(w, words[i], units, &list[were + i], err);
        if (status == PARE_OK)
            status = promise(w, &list[were + i], err);
        w->weighings.count++;
    }
    w->weighings = before;
    pare_units_close(units);
    return status;
}

pare_status weighing_keep(weighing *w, size_t count, const char *const words[], pare_error *err)
{
    const size_t were = w->weighings.count;
    pare_weigh_in *list = pare_arena_array(w->arena, were + count, sizeof *list);
    if (!list)
        return pare_no_memory(err);
    if (were)
        memcpy(list, w->weighings.weigh_in, were * sizeof *list);
    pare_status status = read_all(w, count, words, list, err);
    pare_store *store = NULL;
    if (status == PARE_OK)
        status = bench_store(w->use->path.bytes, PARE_STORE_WRITE, &store, err);
    if (status == PARE_OK) {
        const pare_change change = change_of("weigh", w->given, w->arena);
        status = pare_store_add_weigh_ins(store, count, list + were, &change, err);
    }
    pare_store_close(store);
    return status == PARE_OK ? after_change(weighing_read(w, err), err) : status;
}

/* A list has readings that nothing was said before. */
static pare_status keep_list(weighing *w, pare_error *err)
{
    const options *given = w->given;
    const char *set[4];
    size_t sets = 0;
    set[sets++] = pare_arena_printf(w->arena, "craft=%s", w->craft->name);
    if (given->scale)
        set[sets++] = pare_arena_printf(w->arena, "scale=%s", given->scale);
    if (given->date)
        set[sets++] = pare_arena_printf(w->arena, "date=%s", w->date);
    if (given->loadout)
        set[sets++] = pare_arena_printf(w->arena, "loadout=%s", given->loadout);
    for (size_t i = 0; i < sets; i++)
        if (!set[i])
            return pare_no_memory(err);
    const pare_list_import import = {.path = given->from,
                                     .change = change_of("weigh", given, w->arena),
                                     .as = PARE_LIST_WEIGH_INS,
                                     .sets = sets,
                                     .set = set};
    pare_list_summary summary;
    pare_store *store = NULL;
    pare_status status = bench_store(w->use->path.bytes, PARE_STORE_WRITE, &store, err);
    if (status == PARE_OK)
        status = pare_store_import_list(store, &import, w->arena, &summary, err);
    pare_store_close(store);
    return status == PARE_OK ? after_change(weighing_read(w, err), err) : status;
}

/* ---- the answer ---- */

static pare_status answer(const weighing *w, pare_text *out, pare_error *err)
{
    pare_closure *closure = NULL;
    const pare_hovered *hover = NULL;
    size_t hovers = 0;
    pare_weigh_view *view = pare_arena_zeros(w->arena, sizeof *view);
    pare_status status = view ? weighing_close(w, NULL, &closure, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_store_hovers(w->use->store, w->arena, &hovers, &hover, err);
    if (status == PARE_OK)
        status = pare_weigh_view_fill(closure, w->craft, w->loadout, &w->scale,
                                      pare_hover_score_of(hovers, hover), w->arena, view, err);
    if (status != PARE_OK)
        return status;
    if (w->given->given & OPTION_JSON) {
        pare_json_write(pare_weigh_object(view), out);
    } else {
        const pare_screen screen = terminal_screen();
        pare_weigh_text(view, (w->given->given & OPTION_ALL) != 0, &screen, out);
    }
    return PARE_OK;
}

static bool asks(const options *given)
{
    return given->operands == 1 && !given->from && !(given->given & (OPTION_JSON | OPTION_ALL)) &&
           isatty(STDIN_FILENO) && isatty(STDOUT_FILENO) && isatty(STDERR_FILENO);
}

static pare_status begin(weighing *w, char now[DAY], pare_error *err)
{
    const options *given = w->given;
    pare_status status =
        need_operands("weigh", given, 1, OPERANDS, "a craft, and readings like frame=96.2g", err);
    if (status == PARE_OK && given->from && given->operands > 1)
        return pare_fail(err, PARE_BAD_DATA, "weigh takes --from or readings, not both");
    if (status == PARE_OK && given->from && given->live)
        return pare_fail(err, PARE_BAD_DATA, "weigh takes --from or --live, not both");
    if (status == PARE_OK && given->pattern && !given->live)
        return pare_fail(err, PARE_BAD_DATA, "weigh --pattern goes with --live");
    w->date = now;
    if (status == PARE_OK)
        status = day_today(now, err);
    if (status == PARE_OK && given->date)
        status = day_read("--date", given->date, now, &w->date, err);
    if (status == PARE_OK)
        status = bench_use(given, w->use, err);
    if (status == PARE_OK)
        status = bench_craft(w->use, given->operand[0], &w->craft, err);
    if (status == PARE_OK)
        status = pare_loadout_named(w->craft, given->loadout, &w->loadout, err);
    if (status == PARE_OK)
        status = weighing_read(w, err);
    return status == PARE_OK ? choose_scale(w, err) : status;
}

static pare_status run(const options *given, pare_text *out, pare_error *err)
{
    char now[DAY];
    bench_in_use use = {.as_written = true};
    weighing w = {.given = given, .use = &use, .arena = pare_arena_open(), .loadout = -1};
    pare_status status = w.arena ? begin(&w, now, err) : pare_no_memory(err);
    if (status == PARE_OK && given->live)
        status = weigh_live(&w, err);
    else if (status == PARE_OK && given->operands > 1)
        status = weighing_keep(&w, given->operands - 1, given->operand + 1, err);
    else if (status == PARE_OK && given->from)
        status = keep_list(&w, err);
    else if (status == PARE_OK && asks(given))
        status = weigh_ask(&w, err);
    if (status == PARE_OK && (given->live || given->from || given->operands > 1))
        status = after_change(answer(&w, out, err), err);
    else if (status == PARE_OK)
        status = answer(&w, out, err);
    bench_leave(&use);
    pare_arena_close(w.arena);
    return status;
}

const command command_weigh = {
    .name = "weigh",
    .line = "scale readings; closure, what is missing, what to weigh next",
    .usage = "pare weigh CRAFT [READING...] [--scale SCALE] [--date DATE] [--loadout LOADOUT]\n"
             "           [--all] [--why TEXT] [--json]\n"
             "pare weigh CRAFT --from FILE [--scale SCALE] [--date DATE] [--loadout LOADOUT]\n"
             "           [--why TEXT] [--json]\n"
             "pare weigh CRAFT WHAT... --live DEVICE [--pattern PATTERN] [--scale SCALE]\n"
             "           [--date DATE] [--loadout LOADOUT] [--why TEXT] [--json]",
    .details = "  READING  what lay on the scale and what it showed: frame=96.2g, motor=131.5g\n"
               "           (all of them), 10*motor_base=7.3g, motor+motor_base=153.7g, or\n"
               "           whole=689g for the whole craft, as flown in its first loadout\n"
               "  SCALE    as pare scale names it; otherwise one good to the last digit typed\n"
               "  WHAT     the same without a reading, which then comes from the scale\n"
               "  DEVICE   usb (the first HID scale), or a serial port: /dev/ttyUSB0, or\n"
               "           /dev/ttyUSB0,4800 where it is not 9600 bit/s (8 bits, no parity)\n"
               "  PATTERN  of a serial scale's lines: {weight}, {unit}, {state} (ST or S: at\n"
               "           rest; US, D or M: it moves; OL: overload), {any}; all else as it\n"
               "           stands there; {state},{any},{weight}{unit} where none is said\n"
               "  FILE     .csv: names over its columns: what, reading, date, scale, loadout\n"
               "Before a reading Pare says what the scale will show, nine times in ten, keeps\n"
               "that with the reading, and keeps score over all craft. All readings of the bench\n"
               "and all masses that are written down are adjusted to each other: what does not\n"
               "fit is named and left out, and what the whole craft weighs beyond its parts is\n"
               "the closure. No reading is ever overwritten; pare undo takes the last back. On a\n"
               "terminal, without readings, Pare asks for them one after another.\n",
    .caution = CAUTION_WORK " " CAUTION_FLYING,
    .example = "  pare weigh hedgerow\n"
               "  pare weigh hedgerow frame=118.4g 10*motor_base=7.5g --scale letters\n"
               "  pare weigh hedgerow whole=705g --scale kitchen --date 2026-10-02\n"
               "  pare weigh thimble --all\n",
    .options = OPTION_BENCH | OPTION_JSON | OPTION_ALL | OPTION_LOADOUT | OPTION_SCALE |
               OPTION_DATE | OPTION_FROM | OPTION_LIVE | OPTION_PATTERN | OPTION_WHY,
    .meaning = {{OPTION_ALL, "every reading, and every line of the ledger as adjusted"},
                {OPTION_LOADOUT, "the one that was weighed, or is asked about"}},
    .run = run,
};
