/* best_wish.c: what is asked of the search for another wish than grams (see best_wish.h).
 *
 * A figure is raised in one search: groups stand by the most that their sets can have of it, each set that is
 * found asks more of all others, and what takes long waits until the others have had their turn. Asking
 * again and again from outside, between what one set has and none, was tried: it put the same groups together
 * twenty times, and one question that could not be answered soon kept all others from being asked. Money is
 * asked for so, since there what is less is asked of the basket. */
#include "advise/best_wish.h"

#include <math.h>
#include <string.h>

#define LEAST 1e-12 /* SI: as good as no limit */

enum { SEARCHES_MOST = 400 };

static const int figures[PARE_BEST_WISHES][2] = {
    [PARE_WISH_GRAMS] = {PARE_ALL_UP, -1},
    [PARE_WISH_MINUTES] = {PARE_FLOWN_TIME, -1},
    [PARE_WISH_THRUST] = {PARE_TWR_HALF, -1},
    [PARE_WISH_QUICKNESS] = {PARE_ROLL, PARE_PITCH},
    [PARE_WISH_MONEY] = {-1, -1},
    [PARE_WISH_CRASH] = {PARE_CRASH, -1},
    [PARE_WISH_EVENING] = {PARE_ALL_UP, -1},
};

typedef struct asking {
    const pare_bench *bench;
    const pare_craft *craft; /* as it is, or with limits of our own */
    const pare_best_ask *ask;
    pare_limit *limit[2]; /* on the figures; NULL: there is none */
    double least[2];      /* that the brief asks of them */
    pare_best_wished *wished;
    pare_arena *room; /* of what is kept */
    pare_best kept;   /* the best so far; before there is any, why there is none */
    bool stopped;
    pare_error *err;
    pare_status status;
} asking;

int pare_best_wish_named(const char *name)
{
    return strcmp(name, "evening") == 0 ? PARE_WISH_EVENING : pare_wish_named(name);
}

const char *pare_best_wish_name(int wish)
{
    return wish == PARE_WISH_EVENING ? "evening" : pare_wish_name((pare_wish)wish);
}

pare_status pare_best_limit_figure(const pare_craft *craft, int figure, pare_arena *arena,
                                   pare_craft **limited, pare_limit **limit, pare_error *err)
{
    const pare_figure_row *row = &pare_figure_table[figure];
    const bool at_least = row->better > 0;
    pare_craft *own = *limited;
    if (!own) {
        own = pare_arena_zeros(arena, sizeof *own);
        if (!own)
            return pare_no_memory(err);
        pare_craft_copy(craft, own);
    }
    *limited = own;
    pare_brief *brief = &own->brief;
    for (size_t i = 0; i < brief->limits; i++)
        if (strcmp(brief->limit[i].key, row->stem) == 0 && brief->limit[i].at_least == at_least) {
            *limit = &brief->limit[i];
            return PARE_OK;
        }
    if (brief->limits == PARE_LIMITS)
        return pare_fail(err, PARE_BAD_DATA, "craft '%s': %d limits leave no room for one on %s",
                         craft->name, PARE_LIMITS, row->words);
    *limit = &brief->limit[brief->limits++];
    **limit =
        (pare_limit){.key = row->stem, .at_least = at_least, .value = at_least ? LEAST : HUGE_VAL};
    return PARE_OK;
}

bool pare_best_wish_by_grams(int wish)
{
    return wish == PARE_WISH_GRAMS || wish == PARE_WISH_CRASH || wish == PARE_WISH_EVENING;
}

/* ---- one search ---- */

/* The least of its figures, or its money; NAN: it has none. */
static double value_on(const asking *a, const pare_sheet *sheet)
{
    double least = HUGE_VAL;
    for (int i = 0; i < 2 && figures[a->wished->wish][i] >= 0; i++) {
        const pare_sheet_figure *figure = &sheet->figure[figures[a->wished->wish][i]];
        if (!figure->exists)
            return (double)NAN;
        least = fmin(least, figure->value);
    }
    return least;
}

static double value_of(const asking *a, const pare_best *best)
{
    return a->wished->wish == PARE_WISH_MONEY ? best->money : value_on(a, best->sheet_after);
}

/* Whether a set was found, which is then kept in place of the one before; with none, whether that is proven.
 * False as well where it was stopped or failed. */
static bool search(asking *a, const pare_best_ask *ask, bool *none)
{
    pare_best best = {0};
    pare_arena *room = pare_arena_open();
    a->status = room ? pare_best_find(a->bench, a->craft, ask, room, &best, a->err)
                     : pare_no_memory(a->err);
    a->wished->searches++;
    a->stopped = a->stopped || best.stopped;
    *none = a->status == PARE_OK && !best.found && best.proven;
    if (a->status == PARE_OK && (best.found || !a->room)) {
        pare_arena_close(a->room);
        a->room = room;
        a->kept = best;
    } else {
        pare_arena_close(room);
    }
    return a->status == PARE_OK && best.found;
}

/* ---- figures, of which more is better ---- */

static void ask_for(asking *a, double value)
{
    for (int i = 0; i < 2 && a->limit[i]; i++)
        a->limit[i]->value = fmax(value, a->least[i]);
}

static pare_status limit_figures(asking *a, pare_arena *arena)
{
    pare_craft *limited = NULL;
    const int *figure = figures[a->wished->wish];
    pare_status status = PARE_OK;
    for (int i = 0; status == PARE_OK && i < 2 && figure[i] >= 0; i++) {
        status = pare_best_limit_figure(a->craft, figure[i], arena, &limited, &a->limit[i], a->err);
        a->least[i] = status == PARE_OK ? a->limit[i]->value : 0;
    }
    if (limited)
        a->craft = limited;
    return status;
}

/* A limit that is the wish itself decides nothing that the brief asked for. */
static void drop_own(const asking *a, size_t *count, pare_best_limit limit[])
{
    size_t kept = 0;
    for (size_t i = 0; i < *count; i++) {
        bool own = false;
        for (int k = 0; k < 2 && a->limit[k]; k++)
            own = own || (strncmp(limit[i].name, "limit.", 6) == 0 &&
                          strcmp(limit[i].name + 6, a->limit[k]->key) == 0);
        if (!own)
            limit[kept++] = limit[i];
    }
    *count = kept;
}

/* ---- money, of which less is better ---- */

/* What no set costs: all that is on it sold, and a cent more. */
static int64_t none_costs(const asking *a)
{
    static const pare_craft bare;
    return -1 - pare_resale_cents(a->ask->resale, a->craft, &bare);
}

static void cheapen(asking *a)
{
    pare_best_wished *w = a->wished;
    pare_best_ask any = *a->ask;
    int64_t has = llround(100 * w->value), none_has = none_costs(a), most = 0; /* free first */
    bool none;
    any.any = true;
    any.most_cents = &most;
    while (has - none_has > 1 && w->searches < SEARCHES_MOST) {
        if (search(a, &any, &none))
            has = llround(100 * value_of(a, &a->kept));
        else if (!none)
            return;
        else
            none_has = most;
        w->value = 0.01 * (double)has;
        w->bound = 0.01 * (double)(none_has + 1);
        most = none_has + (has - none_has) / 2;
    }
    w->proven = has - none_has <= 1;
}

/* ---- */

/* The set that has most, by one search that raises what it asks for as it goes, then the lightest of those. */
static void most_of(asking *a)
{
    pare_best_wished *w = a->wished;
    const pare_best_raised raised = {.figure = {figures[w->wish][0], figures[w->wish][1]},
                                     .grain = PARE_WISH_GRAIN};
    pare_best_ask ask = *a->ask;
    bool none;
    ask.raised = &raised;
    if (!search(a, &ask, &none))
        return;
    w->value = value_of(a, &a->kept);
    w->bound = a->kept.raised;
    w->proven = a->kept.proven;
    a->kept.proven = false; /* its grams are not */
    ask_for(a, w->value);
    if (!a->stopped && search(a, a->ask, &none))
        w->value = fmax(w->value, value_of(a, &a->kept));
}

/* From the lightest set down to what costs least, then the lightest of those. */
static void least_money(asking *a)
{
    pare_best_wished *w = a->wished;
    pare_best_ask as_good = *a->ask;
    bool none;
    if (!search(a, a->ask, &none))
        return;
    const double first = w->value = value_of(a, &a->kept);
    if (!a->stopped)
        cheapen(a);
    const int64_t cents = llround(100 * w->value);
    as_good.most_cents = &cents;
    if (a->status == PARE_OK && !a->stopped && w->value != first)
        (void)search(a, &as_good, &none);
}

static pare_status find(asking *a)
{
    pare_best_wished *w = a->wished;
    bool none;
    if (w->wish == PARE_WISH_MONEY) {
        least_money(a);
    } else if (!pare_best_wish_by_grams(w->wish)) {
        most_of(a);
    } else if (search(a, a->ask, &none)) {
        w->value = value_of(a, &a->kept);
        w->proven = a->kept.proven;
        w->bound = w->proven ? w->value : HUGE_VAL;
    }
    if (a->status != PARE_OK)
        return a->status;
    w->exists =
        a->kept.found && isfinite(w->value) && (w->wish != PARE_WISH_MONEY || a->kept.priced);
    w->was = w->wish == PARE_WISH_MONEY ? 0 : value_on(a, a->kept.sheet_before);
    return PARE_OK;
}

pare_status pare_best_wish_find(const pare_bench *bench, const pare_craft *craft,
                                const pare_best_ask *ask, int wish, pare_arena *arena,
                                pare_best *best, pare_best_wished *wished, pare_error *err)
{
    /* What has no price costs INT64_MAX: below that, and it is in no set. */
    const int64_t any_money = INT64_MAX - 1;
    pare_best_ask asked = *ask;
    asking a = {.bench = bench, .craft = craft, .ask = &asked, .wished = wished, .err = err};
    *wished = (pare_best_wished){.wish = wish, .figure = figures[wish][0]};
    if (wish == PARE_WISH_MONEY && !asked.most_cents)
        asked.most_cents = &any_money;
    pare_status status = pare_best_wish_by_grams(wish) ? PARE_OK : limit_figures(&a, arena);
    if (status == PARE_OK)
        status = find(&a);
    pare_arena_give(a.room, arena);
    *best = a.kept;
    best->before = craft;
    best->stopped = a.stopped;
    best->proven = best->proven && (!best->found || wished->proven);
    drop_own(&a, &best->binds, best->bind);
    drop_own(&a, &best->cuts, best->cut);
    return status;
}
