/* rooms: store advise craft physics base */
/* Holding a choice, or forbidding a part, takes sets away and adds none, so what is proven then is never lighter
 * than what was proven before. That needs no brute force, so it can be asked of benches of any size. */
#include "best_force.h"

#include "support/made_bench.h"

enum { BENCHES = SHARE_OF(100), HOLDS = 3, BY_PROPERTY = SHARE_OF(120) };

static void find(const pare_bench *bench, const pare_craft *craft, const pare_best_ask *ask,
                 pare_arena *arena, pare_best *best)
{
    pare_error err = {0};
    if (pare_best_find(bench, craft, ask, arena, best, &err) != PARE_OK)
        fail_msg("%s", err.text);
    assert_true(best->proven);
}

/* Fewer sets: nothing, or nothing lighter. @return whether there still is one */
static bool assert_no_lighter(const pare_bench *bench, const pare_craft *craft,
                              const pare_best_ask *ask, const pare_best *best, const char *what)
{
    pare_arena *arena = pare_arena_open();
    pare_best held;
    find(bench, craft, ask, arena, &held);
    if (held.found && (!best->found || held.best_100ug < best->best_100ug))
        fail_msg("%s: %lld proven, and %lld with more held", what, (long long)best->best_100ug,
                 (long long)held.best_100ug);
    pare_arena_close(arena);
    return held.found;
}

static void of_drawn_benches_none_is_lighter_with_more_held(void **state)
{
    fixture *f = *state;
    drawn *d = malloc(sizeof *d);
    size_t found = 0;
    for (unsigned n = 0; n < BENCHES; n++) {
        unsigned seed = 1000 + n;
        pare_best best;
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        d->craft.brief.limits = n % 2 ? 0 : d->craft.brief.limits;
        const int loadout = (int)dice(&seed, (unsigned)d->craft.loadouts + 1) - 1;
        pare_arena *arena = pare_arena_open();
        pare_best_ask ask = {.loadout = loadout, .holds = d->holds, .hold = d->hold};
        find(&d->bench, &d->craft, &ask, arena, &best);
        for (size_t k = 0; k < HOLDS && d->holds < MOST_HELD; k++) {
            char what[64];
            hold(d, "", d->craft.item[dice(&seed, (unsigned)d->craft.items)].name);
            ask.holds = d->holds;
            snprintf(what, sizeof what, "bench %u, %zu held", n, d->holds);
            found += assert_no_lighter(&d->bench, &d->craft, &ask, &best, what);
        }
        pare_arena_close(arena);
        put_back_parts(f, d);
    }
    assert_true(found > BENCHES);
    free(d);
}

static void hold_property(drawn *d, unsigned *seed, const char *what, const char *name,
                          size_t count, const char *const property[])
{
    char one[PARE_SWAP_NAME];
    const unsigned nth = dice(seed, (unsigned)count + 1);
    if (nth == count || d->holds == MOST_HELD)
        return;
    snprintf(one, sizeof one, "%s.%s", name, property[nth]);
    hold(d, what, one);
}

/* Of screws the metal, how many or how long; of wires gauge or length; of coax its length: brute force passes over the
 * same names. */
static void by_property(drawn *d, unsigned *seed)
{
    static const char *const of_joint[] = {"material", "count", "length"},
                             *const of_run[] = {"gauge", "length"}, *const of_item[] = {"length"};
    d->holds = 0;
    for (size_t i = 0; i < d->craft.items; i++)
        if (dice(seed, 4) > 0)
            hold(d, "", d->craft.item[i].name);
        else
            hold_property(d, seed, "", d->craft.item[i].name, 1, of_item);
    for (size_t i = 0; i < d->craft.joints; i++)
        if (dice(seed, 2) > 0)
            hold_property(d, seed, "joint.", d->craft.joint[i].name, 3, of_joint);
        else
            hold(d, "joint.", d->craft.joint[i].name);
    for (size_t i = 0; i < d->craft.runs; i++)
        if (dice(seed, 2) > 0)
            hold_property(d, seed, "run.", d->craft.run[i].name, 2, of_run);
        else
            hold(d, "run.", d->craft.run[i].name);
}

static void what_is_held_by_a_property_is_not_touched(void **state)
{
    fixture *f = *state;
    drawn *d = malloc(sizeof *d);
    force *by_force = calloc(1, sizeof *by_force);
    size_t compared = 0, lighter = 0;
    for (unsigned n = 0; n < BY_PROPERTY; n++) {
        unsigned seed = 5000 + n;
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        by_property(d, &seed);
        const int loadout = (int)dice(&seed, (unsigned)d->craft.loadouts + 1) - 1;
        if (search_by_force(d, loadout, NULL, NULL, by_force)) {
            pare_arena *arena = pare_arena_open();
            const pare_best_ask ask = {.loadout = loadout, .holds = d->holds, .hold = d->hold};
            pare_best best;
            find(&d->bench, &d->craft, &ask, arena, &best);
            if (best.found != by_force->found ||
                (best.found && best.best_100ug != by_force->units_best))
                fail_msg("bench %u: best %lld, brute force %lld: %s", n,
                         best.found ? (long long)best.best_100ug : 0,
                         by_force->found ? (long long)by_force->units_best : 0, by_force->list);
            compared++;
            lighter += best.found && best.swaps > 0;
            pare_arena_close(arena);
        }
        put_back_parts(f, d);
    }
    if (compared < BY_PROPERTY / 4 || lighter < SHARE_OF(8))
        fail_msg("%zu compared, %zu lighter", compared, lighter);
    free(by_force);
    free(d);
}

/* A pigtail that goes with another antenna was once taken for a bound: of the three inch craft 209.92 g was proven,
 * and 209.30 g with that pigtail forbidden. */
static void of_a_made_bench_none_is_lighter_with_a_part_forbidden(void **state)
{
    (void)state;
    static const char *const open[] = {"brain", "pack", "video", "pigtail", "antenna"};
    pare_bench *bench;
    pare_error err = {0};
    size_t asked = 0;
    if (made_bench(MADE_BENCH_ALL_SIZES, 1, &bench, &err) != PARE_OK)
        fail_msg("%s", err.text);
    for (size_t c = 0; c < bench->crafts; c++) {
        const pare_craft *craft = bench->craft[c];
        const char *held[PARE_ITEMS];
        pare_best_ask ask = {.loadout = 0, .hold = held};
        for (size_t i = 0; i < craft->items; i++) {
            bool is_open = false;
            for (size_t k = 0; k < sizeof open / sizeof open[0]; k++)
                is_open = is_open || strcmp(craft->item[i].name, open[k]) == 0;
            if (!is_open)
                held[ask.holds++] = craft->item[i].name;
        }
        pare_arena *arena = pare_arena_open();
        pare_best best;
        find(bench, craft, &ask, arena, &best);
        for (size_t i = 0; i < best.swaps; i++) {
            const char *part = strchr(best.swap[i].applied.id, '=') + 1;
            if (!pare_bench_part(bench, part))
                continue;
            ask.nevers = 1;
            ask.never = &part;
            assert_no_lighter(bench, craft, &ask, &best, part);
            asked++;
        }
        pare_arena_close(arena);
    }
    assert_true(asked > bench->crafts);
    pare_bench_close(bench);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(of_drawn_benches_none_is_lighter_with_more_held,
                                        fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(what_is_held_by_a_property_is_not_touched, fixture_open,
                                        fixture_close),
        cmocka_unit_test(of_a_made_bench_none_is_lighter_with_a_part_forbidden),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
