/* rooms: store advise craft physics base */
/* Fronts with minutes against brute force (best_force.h): every point is a set that exists and that nothing
 * beats, and every set is beaten or matched by a point, to the grain that a front tells minutes apart by. That
 * of grams and money is compared point by point in best.c. */
#include "best_force.h"

#include "advise/best_front.h"
#include "advise/best_wish.h"

enum { FRONTS = 54, LEAST_SEVERAL = 5 };

/* Every set that does its job, as far as its money is known. */
typedef struct points {
    size_t count;
    pare_front_point point[MOST_SETS];
} points;

static void keep_point(force *f, const pare_craft *craft, const char *list, int64_t units)
{
    points *all = f->context;
    pare_front_point *point = &all->point[all->count];
    (void)craft;
    pare_sheet_fly(&f->loaded, (pare_figures)1 << PARE_FLOWN_TIME, &f->sheet);
    const pare_sheet_figure *flown = &f->sheet.figure[PARE_FLOWN_TIME];
    point->mass_100ug = units;
    point->flown_ms = flown->exists ? (int64_t)floor(1e3 * flown->value) : 0;
    if (money_of(f, list, &point->money_cents))
        point->set = all->count++;
}

/* By how much two figures of one set may differ: a search ends at a grain of the minutes. */
static int64_t grain_ms(int64_t flown_ms)
{
    return 2 + (int64_t)ceil(2 * PARE_WISH_GRAIN * (double)flown_ms);
}

/* What each point promises: that its set exists, and that no set has as many minutes for less. */
static void points_are_unbeaten(unsigned n, const points *all, const pare_best_front *front,
                                pare_front_wish wish)
{
    for (size_t i = 0; i < front->count; i++) {
        const pare_front_point *point = &front->point[i];
        const int64_t cost = pare_front_cost(point, wish), grain = grain_ms(point->flown_ms);
        bool exists = false;
        for (size_t k = 0; k < all->count; k++) {
            const pare_front_point *set = &all->point[k];
            exists = exists || (set->mass_100ug == point->mass_100ug &&
                                set->money_cents == point->money_cents &&
                                llabs(set->flown_ms - point->flown_ms) <= 1);
            if (set->flown_ms >= point->flown_ms && pare_front_cost(set, wish) < cost)
                fail_msg("bench %u, point %zu: %lld, %lld ms is beaten by %lld, %lld ms", n, i,
                         (long long)cost, (long long)point->flown_ms,
                         (long long)pare_front_cost(set, wish), (long long)set->flown_ms);
            /* Money is followed to the most minutes that it buys; grams to the first set so light. */
            if (wish == PARE_FRONT_MONEY && pare_front_cost(set, wish) <= cost &&
                set->flown_ms > point->flown_ms + grain)
                fail_msg("bench %u, point %zu: %lld buys %lld ms, not %lld", n, i, (long long)cost,
                         (long long)set->flown_ms, (long long)point->flown_ms);
        }
        if (!exists)
            fail_msg("bench %u, point %zu: no set is %lld, %lld, %lld ms", n, i,
                     (long long)point->mass_100ug, (long long)point->money_cents,
                     (long long)point->flown_ms);
    }
}

static void each_set_is_beaten_or_matched(unsigned n, const points *all,
                                          const pare_best_front *front, pare_front_wish wish)
{
    for (size_t k = 0; k < all->count; k++) {
        const pare_front_point *set = &all->point[k];
        bool covered = false;
        for (size_t i = 0; i < front->count && !covered; i++)
            covered = pare_front_cost(&front->point[i], wish) <= pare_front_cost(set, wish) &&
                      front->point[i].flown_ms >
                          set->flown_ms - PARE_BEST_FRONT_MS - grain_ms(set->flown_ms);
        if (!covered)
            fail_msg("bench %u: no point is as good as %lld, %lld ms", n,
                     (long long)pare_front_cost(set, wish), (long long)set->flown_ms);
    }
}

/* Packs decide minutes: they are open, a heavier one holds more, and little else is open. */
static void open_packs(drawn *d)
{
    for (size_t i = 0; i < d->bench.parts; i++) {
        pare_value *spec = d->part[i]->spec;
        if (d->part[i]->kind == PARE_PACK)
            spec[PARE_SPEC_CAPACITY].value =
                18720 / spec[PARE_SPEC_CELLS].value * pow(d->part[i]->mass_kg.value / 0.15, 1.4);
    }
    d->holds = 0;
    hold(d, "", "frame");
    for (size_t i = 0; i < d->craft.joints; i++)
        hold(d, "joint.", d->craft.joint[i].name);
    for (size_t i = 0; i < d->craft.runs; i++)
        hold(d, "run.", d->craft.run[i].name);
    for (size_t i = 0; i < d->craft.items; i++) {
        const pare_kind kind = d->craft.item[i].part->kind;
        if (kind != PARE_PACK && kind != PARE_PROPELLER && kind != PARE_FRAME && i % 4 > 0)
            hold(d, "", d->craft.item[i].name);
    }
}

static void compare_fronts(fixture *f, const pare_front_wish pair[2], pare_front_wish other)
{
    drawn *d = malloc(sizeof *d);
    force *by_force = calloc(1, sizeof *by_force);
    points *all = malloc(sizeof *all);
    size_t compared = 0, several = 0;
    const unsigned benches = benches_drawn(FRONTS);
    for (unsigned n = 0; n < benches; n++) {
        unsigned seed = 5000 + n;
        pare_error err = {0};
        all->count = 0;
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        if (n % 2 > 0)
            open_packs(d);
        d->craft.brief.limits = n % 4 == 0 ? d->craft.brief.limits : 0;
        for (size_t i = 0; i < d->bench.parts; i++)
            if (!d->part[i]->price.given)
                d->part[i]->price =
                    (pare_price){.given = true, .each = dice(&seed, 30), .sold_in = 1};
        const int loadout = (int)dice(&seed, (unsigned)d->craft.loadouts + 1) - 1;
        if (search_by_force(d, loadout, keep_point, all, by_force)) {
            pare_arena *arena = pare_arena_open();
            const pare_best_ask ask = {.loadout = loadout, .holds = d->holds, .hold = d->hold};
            pare_best_front front;
            if (pare_best_front_find(&d->bench, &d->craft, &ask, pair, arena, &front, &err) !=
                PARE_OK)
                fail_msg("bench %u: %s", n, err.text);
            if (!front.whole || (front.count == 0) != (all->count == 0))
                fail_msg("bench %u: %zu points, %s; brute force %zu sets", n, front.count,
                         front.whole ? "all" : "not all", all->count);
            points_are_unbeaten(n, all, &front, other);
            each_set_is_beaten_or_matched(n, all, &front, other);
            compared++;
            several += front.count > 1;
            pare_arena_close(arena);
        }
        put_back_parts(f, d);
    }
    /* Fronts of one point would show nothing. */
    if (compared < benches / 4 || several < LEAST_SEVERAL)
        fail_msg("%zu compared, %zu of several points", compared, several);
    free(all);
    free(by_force);
    free(d);
}

static void grams_and_minutes_are_what_brute_force_leaves(void **state)
{
    static const pare_front_wish pair[2] = {PARE_FRONT_GRAMS, PARE_FRONT_MINUTES};
    compare_fronts(*state, pair, PARE_FRONT_GRAMS);
}

static void money_and_minutes_are_what_brute_force_leaves(void **state)
{
    static const pare_front_wish pair[2] = {PARE_FRONT_MONEY, PARE_FRONT_MINUTES};
    compare_fronts(*state, pair, PARE_FRONT_MONEY);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(grams_and_minutes_are_what_brute_force_leaves, fixture_open,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(money_and_minutes_are_what_brute_force_leaves, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
