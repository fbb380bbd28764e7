/* rooms: store advise craft physics base */
/* The order in which to buy a set, against every order there is: small sets on benches with masses and
 * prices drawn at random. What a step must keep, what a subset weighs and costs, and what an order wastes are
 * written down here once more; the two share what puts a swap on and what computes a sheet. */
#include <math.h>

#include "swap_fixture.h"

#include "advise/row.h"
#include "advise/walk.h"
#include "dice.h"

enum { BENCHES = 60, MOST_SWAPS = 6, MOST_HELD = 48, MOST_PARTS = 64 };

typedef struct drawn {
    pare_part kept[MOST_PARTS]; /* as they were */
    pare_craft craft;
    int loadout;
    size_t holds;
    char held[MOST_HELD][PARE_SWAP_NAME];
    const char *hold[MOST_HELD];
} drawn;

static void hold(drawn *d, const char *what, const char *name)
{
    snprintf(d->held[d->holds], PARE_SWAP_NAME, "%s%s", what, name);
    d->hold[d->holds] = d->held[d->holds];
    d->holds++;
}

/* @param often  one choice of so many is free; 0: all */
static void draw(fixture *f, unsigned *seed, unsigned often, drawn *d)
{
    assert_true(f->bench->parts <= MOST_PARTS);
    for (size_t i = 0; i < f->bench->parts; i++) {
        pare_part *part = f->bench->part[i];
        d->kept[i] = *part;
        part->mass_kg.value *= 0.7 + dice(seed, 600) / 1000.0;
        part->price = (pare_price){
            .given = dice(seed, 8) > 0, .each = dice(seed, 40), .sold_in = 1 + (int)dice(seed, 4)};
        part->owned = dice(seed, 4) == 0 ? 4 : part->owned;
    }
    pare_craft_copy(f->craft, &d->craft);
    d->loadout = (int)dice(seed, (unsigned)d->craft.loadouts + 1) - 1;
    d->craft.brief.limits = 0;
    if (dice(seed, 2))
        d->craft.brief.limit[d->craft.brief.limits++] =
            (pare_limit){.key = "all_up", .value = 0.40 + dice(seed, 100) / 1000.0};
    if (dice(seed, 2))
        d->craft.brief.limit[d->craft.brief.limits++] =
            (pare_limit){.key = "flown", .at_least = true, .value = 60.0 + dice(seed, 300)};
    d->holds = 0;
    for (size_t i = 0; i < d->craft.items; i++)
        if (often && dice(seed, often))
            hold(d, "", d->craft.item[i].name);
    for (size_t i = 0; i < d->craft.joints; i++)
        if (often && dice(seed, often))
            hold(d, "joint.", d->craft.joint[i].name);
    for (size_t i = 0; i < d->craft.runs; i++)
        if (often && dice(seed, often))
            hold(d, "run.", d->craft.run[i].name);
}

static void put_back(fixture *f, const drawn *d)
{
    for (size_t i = 0; i < f->bench->parts; i++)
        *f->bench->part[i] = d->kept[i];
}

/* ---- one subset ---- */

typedef struct subset {
    bool safe, priced;
    int64_t units, cents;
} subset;

static bool no_worse(const pare_craft *craft, const pare_sheet *before, const pare_sheet *after)
{
    static const pare_figure flies[] = {PARE_HOVER_OUTPUT, PARE_FLOWN_TIME, PARE_THRUST_FRESH};
    assert_null(pare_brief_limit(&craft->brief, "margin"));
    for (size_t i = 0; i < sizeof flies / sizeof flies[0]; i++)
        if (before->figure[flies[i]].exists && !after->figure[flies[i]].exists)
            return false;
    for (size_t i = 0; i < after->margins; i++) {
        const pare_margin *now = &after->margin[i];
        const pare_margin *was = pare_sheet_margin(before, now->name);
        const double most = strncmp(now->name, "joint_crash.", 12) == 0 ? 10 : 1;
        const double least = !was ? 1 : was->ratio < most ? was->ratio : most;
        if (!(now->ratio >= least * (1 - 1e-9)))
            return false;
    }
    return true;
}

static subset look(fixture *f, const drawn *d, const pare_best *best, uint64_t set)
{
    subset found = {.priced = true};
    pare_arena *arena = pare_arena_open();
    pare_shelf shelf;
    pare_units *units = pare_units_open();
    pare_craft *craft = calloc(3, sizeof *craft);
    pare_sheet *sheet = calloc(2, sizeof *sheet);
    pare_basket basket = {0};
    pare_applied applied = {.priced = true};
    size_t now = 0;
    bool goes_on = true;
    assert_true(arena && units && craft && sheet);
    assert_int_equal(pare_shelf_fill(f->bench, arena, &shelf, &f->err), PARE_OK);
    pare_craft_copy(&d->craft, &craft[0]);
    for (size_t i = 0; i < best->swaps && goes_on; i++) {
        pare_swap_name name;
        if ((set >> i & 1) == 0)
            continue;
        assert_int_equal(pare_swap_name_read(units, best->swap[i].applied.id, &name, &f->err),
                         PARE_OK);
        goes_on = pare_swap_edit(&shelf, &craft[now], &name, &craft[1 - now], &applied, &basket,
                                 NULL) == PARE_OK &&
                  !applied.open_question &&
                  !(applied.jobs_lost & (d->craft.brief.keep | 1u << PARE_FLIES));
        now = 1 - now;
    }
    if (goes_on) {
        found.priced = applied.priced;
        found.cents = llround(100 * applied.money);
        assert_int_equal(pare_craft_load(&d->craft, d->loadout, &craft[2], &f->err), PARE_OK);
        assert_int_equal(pare_sheet_compute(&craft[2], false, &sheet[0], &f->err), PARE_OK);
        assert_int_equal(pare_craft_load(&craft[now], d->loadout, &craft[2], &f->err), PARE_OK);
        assert_int_equal(pare_sheet_compute(&craft[2], false, &sheet[1], &f->err), PARE_OK);
        for (size_t i = 0; i < sheet[1].assembly.lines; i++)
            found.units += llround(1e7 * sheet[1].assembly.line[i].mass_kg.value);
        found.safe = no_worse(&d->craft, &sheet[0], &sheet[1]);
    }
    free(sheet);
    free(craft);
    pare_units_close(units);
    pare_arena_close(arena);
    return found;
}

/* ---- every order ---- */

static int64_t waste_of(const subset *from, const subset *to, int64_t best)
{
    const int64_t dear = from->priced && !to->priced ? 100000000 : 0;
    return (to->cents - from->cents + dear) * (from->units - best);
}

/* The least waste of all orders from one subset to another, tried one by one. */
static int64_t least_waste(const subset looked[], uint64_t from, uint64_t to, int64_t best)
{
    int64_t least = from == to ? 0 : INT64_MAX;
    const uint64_t left = to & ~from;
    for (uint64_t more = left; more; more = (more - 1) & left) {
        if (!looked[from | more].safe)
            continue;
        const int64_t rest = least_waste(looked, from | more, to, best);
        const int64_t step = waste_of(&looked[from], &looked[from | more], best);
        if (rest < INT64_MAX && step + rest < least)
            least = step + rest;
    }
    return least;
}

/* Follows a walk, each subset looked at anew. @return what it wastes from one subset to another */
static int64_t follow(fixture *f, const drawn *d, const pare_best *best, const pare_walk *walk,
                      size_t first, size_t last, uint64_t *set)
{
    int64_t waste = 0;
    for (size_t s = first; s < last; s++) {
        const pare_walk_step *step = &walk->step[s];
        const subset from = look(f, d, best, *set);
        for (size_t i = 0; i < step->swaps; i++) {
            assert_false(*set >> step->swap[i] & 1);
            *set |= (uint64_t)1 << step->swap[i];
        }
        const subset to = look(f, d, best, *set);
        if (!to.safe)
            fail_msg("step %zu is not safe", s + 1);
        assert_int_equal(step->mass_100ug, to.units);
        assert_int_equal(step->saved_100ug, from.units - to.units);
        assert_int_equal(step->spent_cents, to.cents);
        assert_int_equal(step->cents, to.cents - from.cents);
        waste += waste_of(&from, &to, best->best_100ug);
    }
    return waste;
}

static size_t compare(fixture *f, const drawn *d, const pare_best_ask *ask, const pare_best *best,
                      unsigned n, const int64_t *budget)
{
    static subset looked[1 << MOST_SWAPS];
    const uint64_t all = ((uint64_t)1 << best->swaps) - 1;
    pare_walk walk;
    uint64_t stop = 0, set = 0;
    if (pare_walk_find(f->bench, &d->craft, ask, best, budget, &walk, &f->err) != PARE_OK)
        fail_msg("bench %u: %s", n, f->err.text);
    assert_true(walk.exact);
    for (uint64_t s = 0; s <= all; s++)
        looked[s] = look(f, d, best, s);
    for (uint64_t s = 1; budget && s <= all; s++)
        if (looked[s].safe && looked[s].priced && looked[s].cents <= *budget &&
            looked[s].units < looked[stop].units)
            stop = s;
    const int64_t first = follow(f, d, best, &walk, 0, budget ? walk.now : 0, &set);
    if (budget && (looked[set].units != looked[stop].units ||
                   first != least_waste(looked, 0, set, best->best_100ug)))
        fail_msg("bench %u: %lld for the budget, wasting %lld; best %lld", n,
                 (long long)looked[set].units, (long long)first, (long long)looked[stop].units);
    const uint64_t from = set;
    const int64_t waste = follow(f, d, best, &walk, budget ? walk.now : 0, walk.steps, &set);
    assert_int_equal(set, all);
    const int64_t least = least_waste(looked, from, all, best->best_100ug);
    if (waste != least)
        fail_msg("bench %u: wastes %lld, the least is %lld", n, (long long)waste, (long long)least);
    return walk.steps;
}

static void no_order_wastes_less(void **state)
{
    fixture *f = *state;
    drawn *d = calloc(1, sizeof *d);
    size_t compared = 0, steps = 0, swaps = 0;
    for (unsigned n = 0; n < BENCHES; n++) {
        unsigned seed = 7 * n + 1;
        draw(f, &seed, 4, d);
        pare_arena *arena = pare_arena_open();
        const pare_best_ask ask = {.loadout = d->loadout, .holds = d->holds, .hold = d->hold};
        pare_best best;
        if (pare_best_find(f->bench, &d->craft, &ask, arena, &best, &f->err) != PARE_OK)
            fail_msg("bench %u: %s", n, f->err.text);
        if (best.found && best.swaps > 1 && best.swaps <= MOST_SWAPS) {
            const int64_t budget = dice(&seed, 6000);
            steps += compare(f, d, &ask, &best, n, NULL);
            (void)compare(f, d, &ask, &best, n, &budget);
            swaps += best.swaps;
            compared++;
        }
        pare_arena_close(arena);
        put_back(f, d);
    }
    if (compared < BENCHES / 5 || steps < 2 * compared)
        fail_msg("%zu compared, %zu steps for %zu swaps", compared, steps, swaps);
    free(d);
}

/* More swaps than can be put in every order. */
static void every_step_of_a_long_walk_is_safe(void **state)
{
    fixture *f = *state;
    drawn *d = calloc(1, sizeof *d);
    size_t followed = 0;
    for (unsigned n = 0; n < 4; n++) {
        unsigned seed = 1000 + n;
        draw(f, &seed, 0, d);
        pare_arena *arena = pare_arena_open();
        const pare_best_ask ask = {.loadout = d->loadout, .holds = d->holds, .hold = d->hold};
        pare_best best;
        if (pare_best_find(f->bench, &d->craft, &ask, arena, &best, &f->err) != PARE_OK)
            fail_msg("bench %u: %s", n, f->err.text);
        if (best.found && best.swaps > PARE_WALK_EXACT) {
            const int64_t budget = 3000;
            pare_walk walk;
            uint64_t set = 0;
            assert_int_equal(
                pare_walk_find(f->bench, &d->craft, &ask, &best, &budget, &walk, &f->err), PARE_OK);
            assert_false(walk.exact);
            (void)follow(f, d, &best, &walk, 0, walk.steps, &set);
            assert_int_equal(set, ((uint64_t)1 << best.swaps) - 1);
            for (size_t s = 0; s < walk.now; s++)
                assert_true(walk.step[s].spent_cents <= budget);
            followed++;
        }
        pare_arena_close(arena);
        put_back(f, d);
    }
    assert_true(followed > 1);
    free(d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(no_order_wastes_less, fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(every_step_of_a_long_walk_is_safe, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
