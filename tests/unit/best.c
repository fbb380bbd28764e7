/* rooms: store advise craft physics base */
/* The best set, and the front of grams and money, against brute force (best_force.h). */
#include "best_force.h"

#include "advise/best_front.h"

enum { BENCHES = 150 };

static void best_is_what_brute_force_finds(void **state)
{
    fixture *f = *state;
    drawn *d = malloc(sizeof *d);
    force *by_force = calloc(1, sizeof *by_force);
    size_t compared = 0, feasible = 0, lighter = 0;
    const unsigned benches = benches_drawn(BENCHES);
    for (unsigned n = 0; n < benches; n++) {
        unsigned seed = n + 1;
        pare_best best;
        pare_error err = {0};
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        const int loadout = (int)dice(&seed, (unsigned)d->craft.loadouts + 1) - 1;
        if (search_by_force(d, loadout, NULL, NULL, by_force)) {
            pare_arena *arena = pare_arena_open();
            const pare_best_ask ask = {.loadout = loadout, .holds = d->holds, .hold = d->hold};
            if (pare_best_find(&d->bench, &d->craft, &ask, arena, &best, &err) != PARE_OK)
                fail_msg("bench %u: %s", n, err.text);
            if (!best.proven || best.misses)
                fail_msg("bench %u: not proven", n);
            if (best.found != by_force->found)
                fail_msg("bench %u: brute force %s: %s", n,
                         by_force->found ? "finds one" : "finds none", by_force->list);
            if (best.found && (best.best_100ug != by_force->units_best ||
                               best.bound_100ug != by_force->units_best))
                fail_msg("bench %u: best %lld, bound %lld, brute force %lld: %s", n,
                         (long long)best.best_100ug, (long long)best.bound_100ug,
                         (long long)by_force->units_best, by_force->list);
            compared++;
            feasible += best.found;
            lighter += best.found && best.swaps > 0;
            pare_arena_close(arena);
        }
        put_back_parts(f, d);
    }
    /* Draws that are all too large, or all impossible, would compare nothing. */
    if (compared < benches / 3 || feasible < compared / 10 || feasible > compared * 9 / 10 ||
        lighter < 8)
        fail_msg("%zu compared, %zu feasible, %zu lighter", compared, feasible, lighter);
    free(by_force);
    free(d);
}

/* Every set that does its job, as far as its money is known. */
typedef struct points {
    size_t count;
    pare_front_point point[MOST_SETS];
} points;

static void keep_point(force *f, const pare_craft *craft, const char *list, int64_t units)
{
    (void)craft;
    points *all = f->context;
    pare_front_point *point = &all->point[all->count];
    if (!money_of(f, list, &point->money_cents))
        return;
    point->mass_100ug = units;
    point->set = all->count++;
}

/* Grams and money: every set that brute force finds and nothing beats, and no other. */
static void the_front_is_what_brute_force_leaves_unbeaten(void **state)
{
    enum { FRONTS = 60 };
    static const pare_front_wish wishes[2] = {PARE_FRONT_GRAMS, PARE_FRONT_MONEY};
    fixture *f = *state;
    drawn *d = malloc(sizeof *d);
    force *by_force = calloc(1, sizeof *by_force);
    points *all = malloc(sizeof *all);
    size_t compared = 0, found = 0, earns = 0;
    const unsigned benches = benches_drawn(FRONTS);
    for (unsigned n = 0; n < benches; n++) {
        unsigned seed = n + 1;
        pare_error err = {0};
        all->count = 0;
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        /* Prices and fewer limits, so that there is something to choose between. */
        d->craft.brief.limits = n % 4 == 0 ? d->craft.brief.limits : 0;
        for (size_t i = 0; i < d->bench.parts; i++)
            if (!d->part[i]->price.given && dice(&seed, 8) > 0)
                d->part[i]->price =
                    (pare_price){.given = true, .each = dice(&seed, 30), .sold_in = 1};
        const int loadout = (int)dice(&seed, (unsigned)d->craft.loadouts + 1) - 1;
        const pare_resale resale = {.share = 0.1 * dice(&seed, 11)};
        by_force->resale = n % 2 ? &resale : NULL;
        if (search_by_force(d, loadout, keep_point, all, by_force)) {
            pare_arena *arena = pare_arena_open();
            const pare_best_ask ask = {
                .loadout = loadout, .holds = d->holds, .hold = d->hold, .resale = by_force->resale};
            pare_best_front front;
            size_t count = all->count;
            if (pare_front_keep(2, wishes, all->point, &count, &err) != PARE_OK ||
                pare_best_front_find(&d->bench, &d->craft, &ask, wishes, arena, &front, &err) !=
                    PARE_OK)
                fail_msg("bench %u: %s", n, err.text);
            if (!front.whole || front.count != count)
                fail_msg("bench %u: %zu points, %s; brute force %zu", n, front.count,
                         front.whole ? "all" : "not all", count);
            for (size_t i = 0; i < count; i++)
                if (front.point[i].mass_100ug != all->point[i].mass_100ug ||
                    front.point[i].money_cents != all->point[i].money_cents)
                    fail_msg(
                        "bench %u: point %zu: %lld, %lld; brute force %lld, %lld", n, i,
                        (long long)front.point[i].mass_100ug, (long long)front.point[i].money_cents,
                        (long long)all->point[i].mass_100ug, (long long)all->point[i].money_cents);
            compared++;
            earns += count > 0 && front.point[count - 1].money_cents < 0;
            found += count;
            pare_arena_close(arena);
        }
        put_back_parts(f, d);
    }
    if (compared < benches / 3 || found < compared + compared / 2 || earns < 2)
        fail_msg("%zu compared, %zu points, %zu fronts that end with money back", compared, found,
                 earns);
    free(all);
    free(by_force);
    free(d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(best_is_what_brute_force_finds, fixture_open,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(the_front_is_what_brute_force_leaves_unbeaten, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
