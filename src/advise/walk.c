/* walk.c: the order in which to buy a set (see walk.h).
 *
 * A subset of the set is put on in the set's own order, whatever the order of buying, because that is the
 * order in which one swap is known to go on after another. Subsets are bits by place in the set. */
#include "advise/walk.h"

#include <math.h>
#include <string.h>

#include "advise/row.h"
#include "advise/shopping.h"

#define NO_PRICE_CENTS 100000000 /* a million: what has no price is bought last */

enum { SUBSETS = 1 << PARE_WALK_EXACT };

/* A subset of the swaps, put on. */
typedef struct looked {
    bool done, safe, priced;
    int64_t units, cents; /* cents: of what has a price */
} looked;

/* The best way to a subset; less is better, in this order. */
typedef struct way {
    bool found;
    int64_t waste; /* 0.1 mg x cents */
    int steps;
    int64_t carried; /* the sum of masses before each step */
    uint64_t from;
} way;

typedef struct walking {
    const pare_best *best;
    const pare_desk *desk;
    const pare_progress *progress;
    const pare_bench *bench;
    const pare_resale *resale;
    pare_shopping *shopping;
    pare_swap_name *name; /* [best->swaps] */
    pare_craft *craft;    /* [2] */
    pare_craft *loaded;
    pare_sheet *sheet;
    looked *kept; /* [SUBSETS] where the order is exact */
    way *way;     /* [SUBSETS] */
    const int64_t *budget;
    pare_walk *walk;
} walking;

static uint64_t bit(size_t i)
{
    return (uint64_t)1 << i;
}

static uint64_t whole(const walking *w)
{
    return bit(w->best->swaps) - 1;
}

/* ---- one subset ---- */

static looked put_on(walking *w, uint64_t set)
{
    looked found = {.done = true, .priced = true};
    pare_basket basket = {0};
    pare_applied applied = {.priced = true};
    pare_craft *now = &w->craft[0], *next = &w->craft[1];
    pare_craft_copy(w->desk->craft, now);
    for (size_t i = 0; i < w->best->swaps; i++) {
        if ((set & bit(i)) == 0)
            continue;
        if (pare_swap_edit(&w->desk->shelf, now, &w->name[i], next, &applied, &basket, NULL) !=
                PARE_OK ||
            applied.open_question || pare_kept_jobs_lost(w->desk->craft, &applied))
            return found;
        pare_craft *swapped = now;
        now = next;
        next = swapped;
    }
    pare_shopping_of(w->bench, w->desk->craft, NULL, now, w->shopping);
    found.priced = w->shopping->priced;
    found.cents =
        llround(100 * w->shopping->money) - pare_resale_cents(w->resale, w->desk->craft, now);
    if (pare_craft_load(now, w->desk->loadout, w->loaded, NULL) != PARE_OK ||
        pare_sheet_compute(w->loaded, false, w->sheet, NULL) != PARE_OK)
        return found;
    found.units = pare_best_100ug(&w->sheet->assembly);
    found.safe = pare_best_keeps(w->desk->craft, &w->desk->sheet, w->sheet);
    return found;
}

static looked look(walking *w, uint64_t set)
{
    if (!w->kept)
        return put_on(w, set);
    if (!w->kept[set].done)
        w->kept[set] = put_on(w, set);
    return w->kept[set];
}

static int64_t to_pay(const looked *from, const looked *to)
{
    return to->cents - from->cents + (from->priced && !to->priced ? NO_PRICE_CENTS : 0);
}

static bool pays(const walking *w, const looked *set)
{
    return !w->budget || (set->priced && set->cents <= *w->budget);
}

static bool goes_on(walking *w, size_t done, size_t all)
{
    if (pare_progress_step(w->progress, "steps", done, all, NULL) != PARE_OK)
        w->walk->stopped = true;
    return !w->walk->stopped;
}

static void add_step(walking *w, const looked *from, const looked *to, uint64_t swaps)
{
    pare_walk_step *step = &w->walk->step[w->walk->steps++];
    *step = (pare_walk_step){.saved_100ug = from->units - to->units,
                             .cents = to->cents - from->cents,
                             .priced = to->priced || !from->priced,
                             .mass_100ug = to->units,
                             .spent_cents = to->cents};
    for (size_t i = 0; i < w->best->swaps; i++)
        if (swaps & bit(i))
            step->swap[step->swaps++] = i;
    if (pays(w, to) && w->walk->now + 1 == w->walk->steps)
        w->walk->now++;
}

/* ---- every order ---- */

static bool better(const way *a, const way *b)
{
    if (!b->found || a->waste != b->waste)
        return !b->found || a->waste < b->waste;
    if (a->steps != b->steps)
        return a->steps > b->steps;
    return a->carried < b->carried;
}

/* Ways from one safe subset to all that hold it and are held by another. A subset is a greater number
 * than any that it holds, so each is done before it is gone on from. */
static void ways(walking *w, uint64_t from, uint64_t to)
{
    for (uint64_t set = 0; set <= whole(w); set++)
        w->way[set].found = false;
    w->way[from] = (way){.found = true};
    const int64_t best = w->kept[whole(w)].units;
    for (uint64_t set = from; set <= to; set++) {
        if (!w->way[set].found)
            continue;
        const looked *here = &w->kept[set];
        const uint64_t left = to & ~set;
        for (uint64_t more = left; more; more = (more - 1) & left) {
            const looked *there = &w->kept[set | more];
            if (!there->safe)
                continue;
            const way next = {.found = true,
                              .waste =
                                  w->way[set].waste + to_pay(here, there) * (here->units - best),
                              .steps = w->way[set].steps + 1,
                              .carried = w->way[set].carried + here->units,
                              .from = set};
            if (better(&next, &w->way[set | more]))
                w->way[set | more] = next;
        }
    }
}

static void tell_way(walking *w, uint64_t from, uint64_t to)
{
    uint64_t at[PARE_WALK_EXACT + 1];
    size_t count = 0;
    for (uint64_t set = to; set != from; set = w->way[set].from)
        at[count++] = set;
    for (uint64_t here = from; count > 0; here = at[count]) {
        count--;
        add_step(w, &w->kept[here], &w->kept[at[count]], at[count] & ~here);
    }
}

/* The lightest that the budget pays for; of equal ones the cheapest, then the first. */
static uint64_t farthest(const walking *w)
{
    uint64_t found = 0;
    for (uint64_t set = 1; set <= whole(w); set++) {
        const looked *a = &w->kept[set], *b = &w->kept[found];
        if (a->safe && pays(w, a) &&
            (a->units < b->units || (a->units == b->units && a->cents < b->cents)))
            found = set;
    }
    return found;
}

static void exactly(walking *w)
{
    const uint64_t all = whole(w);
    for (uint64_t set = 0; set <= all && goes_on(w, (size_t)set, (size_t)all + 1); set++)
        (void)look(w, set);
    if (w->walk->stopped)
        return;
    w->walk->exact = true;
    const uint64_t stop = w->budget ? farthest(w) : 0;
    ways(w, 0, stop);
    tell_way(w, 0, stop);
    ways(w, stop, all);
    tell_way(w, stop, all);
}

/* ---- one step after another ---- */

/* Whether one step is a better next one than another: more grams for its money, those that cost nothing
 * before all others. */
static bool buys_more(const looked *here, const looked *a, const looked *b)
{
    const int64_t grams_a = here->units - a->units, grams_b = here->units - b->units;
    const int64_t cents_a = to_pay(here, a), cents_b = to_pay(here, b);
    if ((cents_a <= 0) != (cents_b <= 0) && (cents_a <= 0 ? grams_a : grams_b) >= 0)
        return cents_a <= 0;
    if (cents_a <= 0 || cents_b <= 0 || (grams_a > 0) != (grams_b > 0))
        return grams_a > grams_b;
    return (double)grams_a * (double)cents_b > (double)grams_b * (double)cents_a;
}

/* The best next step of one swap, or of two. @return 0: none is safe, or the budget pays for none */
static uint64_t next_step(walking *w, uint64_t set, const looked *here, bool pairs, bool in_budget)
{
    uint64_t chosen = 0;
    looked best = {0};
    for (size_t i = 0; i < w->best->swaps; i++)
        for (size_t k = pairs ? i + 1 : i; k < (pairs ? w->best->swaps : i + 1); k++) {
            const uint64_t more = bit(i) | bit(k);
            if ((set & more) || !goes_on(w, w->walk->steps, w->best->swaps))
                continue;
            const looked then = look(w, set | more);
            if (!then.safe || (in_budget && !pays(w, &then)))
                continue;
            if (!chosen || buys_more(here, &then, &best)) {
                chosen = more;
                best = then;
            }
        }
    return chosen;
}

static void greedily(walking *w, uint64_t set)
{
    bool in_budget = w->budget != NULL;
    while (set != whole(w)) {
        const looked here = look(w, set);
        uint64_t more = w->walk->stopped ? 0 : next_step(w, set, &here, false, in_budget);
        if (!more && in_budget) {
            in_budget = false;
            continue;
        }
        if (!more && !w->walk->stopped)
            more = next_step(w, set, &here, true, false);
        if (!more || w->walk->stopped)
            more = whole(w) & ~set;
        const looked there = look(w, set | more);
        add_step(w, &here, &there, more);
        set |= more;
    }
}

/* ---- */

static pare_status make_room(walking *w, pare_arena *arena, pare_error *err)
{
    const size_t swaps = w->best->swaps;
    w->name = pare_arena_array(arena, swaps + 1, sizeof w->name[0]);
    w->craft = pare_arena_array(arena, 2, sizeof w->craft[0]);
    w->loaded = pare_arena_zeros(arena, sizeof *w->loaded);
    w->sheet = pare_arena_zeros(arena, sizeof *w->sheet);
    w->shopping = pare_arena_zeros(arena, sizeof *w->shopping);
    if (!w->name || !w->craft || !w->loaded || !w->sheet || !w->shopping)
        return pare_no_memory(err);
    if (swaps > PARE_WALK_EXACT)
        return PARE_OK;
    w->kept = pare_arena_array(arena, SUBSETS, sizeof w->kept[0]);
    w->way = pare_arena_array(arena, SUBSETS, sizeof w->way[0]);
    if (!w->kept || !w->way)
        return pare_no_memory(err);
    memset(w->kept, 0, SUBSETS * sizeof w->kept[0]);
    return PARE_OK;
}

static pare_status read_names(walking *w, pare_error *err)
{
    pare_units *units = pare_units_open();
    pare_status status = units ? PARE_OK : pare_no_memory(err);
    for (size_t i = 0; status == PARE_OK && i < w->best->swaps; i++)
        status = pare_swap_name_read(units, w->best->swap[i].applied.id, &w->name[i], err);
    pare_units_close(units);
    return status;
}

pare_status pare_walk_find(const pare_bench *bench, const pare_craft *craft,
                           const pare_best_ask *ask, const pare_best *best, const int64_t *budget,
                           pare_walk *walk, pare_error *err)
{
    *walk = (pare_walk){.was_100ug = best->was_100ug};
    walking w = {.best = best,
                 .bench = bench,
                 .resale = ask->resale,
                 .progress = ask->progress,
                 .budget = budget,
                 .walk = walk};
    pare_arena *room = pare_arena_open();
    pare_desk *desk = NULL;
    pare_status status = room ? make_room(&w, room, err) : pare_no_memory(err);
    if (status == PARE_OK)
        status = read_names(&w, err);
    if (status == PARE_OK)
        status = pare_desk_open(bench, craft, ask->loadout, room, &desk, err);
    w.desk = desk;
    if (status == PARE_OK && w.kept)
        exactly(&w);
    if (status == PARE_OK && !walk->exact)
        greedily(&w, 0);
    pare_arena_close(room);
    return status;
}
