/* best_front.c: the search asked once a point (see best_front.h).
 *
 * Money is a limit of the question, minutes one of the brief: a craft with a stricter brief is another
 * craft to the search, and whatever proves the one proves the other. The lightest set for any money comes
 * first, then the lightest for a cent less than that one costs; so the front begins with what `pare best`
 * says and ends where nothing can be had for less. */
#include "advise/best_front.h"

#include <math.h>

#include "advise/best_wish.h"
#include "base/text.h"

enum { KNEES = 3 };

typedef struct asking {
    const pare_bench *bench;
    const pare_best_ask *ask;
    const pare_craft *craft; /* with a limit of its own on minutes, where those are asked for */
    pare_limit *minutes;
    double minutes_least; /* of the brief, in seconds */
    pare_front_wish other;
    pare_arena *arena;
    const char **words; /* [PARE_BEST_FRONT_POINTS] */
    size_t sets;
    pare_front_point now;
    bool proven, stopped;
} asking;

static int64_t flown_ms(const pare_sheet *sheet)
{
    const pare_sheet_figure *flown = &sheet->figure[PARE_FLOWN_TIME];
    return flown->exists ? (int64_t)floor(1e3 * flown->value) : 0;
}

/* The swaps of a set, one after another. */
static const char *words_of(const pare_best *best, pare_arena *arena)
{
    pare_text text = {0};
    for (size_t i = 0; i < best->swaps; i++)
        pare_text_printf(&text, "%s%s", i ? ", " : "", best->swap[i].applied.id);
    if (best->swaps == 0)
        pare_text_add(&text, "as it is");
    const char *words = text.failed ? NULL : pare_arena_text(arena, text.bytes);
    pare_text_free(&text);
    return words;
}

static pare_status tell(asking *a, const pare_best *best, pare_front_point *point, pare_error *err)
{
    const char *words = words_of(best, a->arena);
    if (!words)
        return pare_no_memory(err);
    *point = (pare_front_point){.mass_100ug = best->best_100ug,
                                .money_cents = llround(100 * best->money),
                                .flown_ms = flown_ms(best->sheet_after),
                                .set = a->sets};
    a->words[a->sets++] = words;
    return PARE_OK;
}

/* What one search says of the craft as it is, and whether it is to be believed. */
static void hear(asking *a, const pare_best *best, bool proven)
{
    a->stopped = a->stopped || best->stopped;
    a->proven = a->proven && proven && !best->misses;
    a->now =
        (pare_front_point){.mass_100ug = best->was_100ug, .flown_ms = flown_ms(best->sheet_before)};
}

static pare_status solve(void *context, int64_t most, pare_front_point *point, bool *found,
                         pare_error *err)
{
    asking *a = context;
    pare_best_ask ask = *a->ask;
    pare_best best = {0};
    /* What has no price costs INT64_MAX: below that, and it is in no set. */
    const int64_t most_cents = most < INT64_MAX ? most : INT64_MAX - 1;
    if (a->other == PARE_FRONT_MONEY)
        ask.most_cents = &most_cents;
    else
        a->minutes->value = fmax(a->minutes_least, -1e-3 * (double)most);
    pare_arena *arena = pare_arena_open();
    pare_status status =
        arena ? pare_best_find(a->bench, a->craft, &ask, arena, &best, err) : pare_no_memory(err);
    if (status == PARE_OK) {
        hear(a, &best, best.proven);
        *found = best.found && !best.stopped;
        if (*found)
            status = tell(a, &best, point, err);
    }
    pare_arena_close(arena);
    return status;
}

/* The least money with which so many minutes are flown, and the most of them for it. */
static pare_status solve_money(void *context, int64_t most, pare_front_point *point, bool *found,
                               pare_error *err)
{
    asking *a = context;
    pare_best_ask ask = *a->ask;
    pare_best best = {0};
    pare_best_wished wished = {0};
    a->minutes->value = fmax(a->minutes_least, -1e-3 * (double)most);
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? pare_best_wish_find(a->bench, a->craft, &ask, PARE_WISH_MONEY,
                                                     arena, &best, &wished, err)
                               : pare_no_memory(err);
    if (status == PARE_OK)
        hear(a, &best, best.proven);
    *found = status == PARE_OK && best.found && !best.stopped;
    if (*found) {
        const int64_t cents = llround(100 * wished.value);
        ask.most_cents = &cents;
        status = pare_best_wish_find(a->bench, a->craft, &ask, PARE_WISH_MINUTES, arena, &best,
                                     &wished, err);
        if (status == PARE_OK)
            hear(a, &best, wished.proven);
        *found = status == PARE_OK && best.found && !best.stopped;
    }
    if (*found)
        status = tell(a, &best, point, err);
    pare_arena_close(arena);
    return status;
}

/* The craft with a limit on minutes to be tightened, its brief's own where it has one. */
static pare_status limit_minutes(asking *a, const pare_craft *craft, pare_error *err)
{
    pare_craft *limited = NULL;
    const pare_status status =
        pare_best_limit_figure(craft, PARE_FLOWN_TIME, a->arena, &limited, &a->minutes, err);
    if (status != PARE_OK)
        return status;
    a->craft = limited;
    a->minutes_least = a->minutes->value;
    return PARE_OK;
}

pare_status pare_best_front_find(const pare_bench *bench, const pare_craft *craft,
                                 const pare_best_ask *ask, const pare_front_wish pair[2],
                                 pare_arena *arena, pare_best_front *front, pare_error *err)
{
    *front = (pare_best_front){0};
    const bool grams = pair[0] == PARE_FRONT_GRAMS || pair[1] == PARE_FRONT_GRAMS;
    asking a = {.bench = bench,
                .ask = ask,
                .craft = craft,
                .other = grams ? pair[pair[0] == PARE_FRONT_GRAMS ? 1 : 0] : PARE_FRONT_MINUTES,
                .arena = arena,
                .words = pare_arena_array(arena, PARE_BEST_FRONT_POINTS, sizeof a.words[0]),
                .proven = true};
    pare_status status = a.words ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK && a.other == PARE_FRONT_MINUTES)
        status = limit_minutes(&a, craft, err);
    if (status != PARE_OK)
        return status;
    const pare_front_wish walked[2] = {grams ? PARE_FRONT_GRAMS : PARE_FRONT_MONEY, a.other};
    status = pare_front_walk(walked, grams ? solve : solve_money, &a,
                             a.other == PARE_FRONT_MONEY ? 1 : PARE_BEST_FRONT_MS,
                             PARE_BEST_FRONT_POINTS, arena, &front->point, &front->count,
                             &front->whole, err);
    if (status == PARE_OK)
        status = pare_front_keep(2, pair, front->point, &front->count, err);
    if (status != PARE_OK)
        return status;
    pare_front_knees(pair, front->point, front->count, KNEES);
    front->words = a.words;
    front->now = a.now;
    front->stopped = a.stopped;
    front->whole = front->whole && a.proven && !a.stopped;
    return PARE_OK;
}
