/* rooms: store advise craft physics base */
/* The best set that does its job in every loadout against brute force (best_force.h): limits that only another loadout
 * decides, and arms that ring in another one. */
#include "tuned_arms.h"

enum { BENCHES = 45, TUNED = SHARE_OF(150) };

typedef struct in_all {
    int64_t lightest; /* INT64_MAX: none does its job in all */
    pare_sheet before[PARE_LOADOUTS];
} in_all;

/* The rule of one loadout asked of the others. */
static bool holds_in(force *f, const pare_craft *craft, int loadout, const pare_sheet *before)
{
    pare_error err;
    if (pare_craft_load(craft, loadout, &f->loaded, &err) != PARE_OK ||
        pare_sheet_compute(&f->loaded, false, &f->sheet, &err) != PARE_OK)
        return false;
    pare_sheet *mine = malloc(sizeof *mine);
    *mine = f->before;
    f->before = *before;
    const bool holds = does_its_job(f);
    f->before = *mine;
    free(mine);
    return holds;
}

static void keep_in_all(force *f, const pare_craft *craft, const char *list, int64_t units)
{
    in_all *all = f->context;
    (void)list;
    for (size_t i = 0; i < f->d->craft.loadouts; i++)
        if ((int)i != f->loadout && !holds_in(f, craft, (int)i, &all->before[i]))
            return;
    all->lightest = units < all->lightest ? units : all->lightest;
}

/* How many benches were compared, and of those, how many show something. */
typedef struct shown {
    size_t compared, found;
    size_t heavier; /* than for one loadout alone */
} shown;

/* The search's best set of a drawn bench, which has to be brute force's. */
static void compare_in_all(unsigned n, const drawn *d, force *by_force, shown *all)
{
    in_all *in = malloc(sizeof *in);
    pare_error err;
    pare_best best;
    int loadout;
    assert_int_equal(pare_best_heaviest(&d->craft, &loadout, &err), PARE_OK);
    in->lightest = INT64_MAX;
    for (size_t i = 0; i < d->craft.loadouts; i++) {
        assert_int_equal(pare_craft_load(&d->craft, (int)i, &by_force->loaded, &err), PARE_OK);
        assert_int_equal(pare_sheet_compute(&by_force->loaded, false, &in->before[i], &err),
                         PARE_OK);
    }
    if (search_by_force(d, loadout, keep_in_all, in, by_force)) {
        pare_arena *arena = pare_arena_open();
        const pare_best_ask ask = {
            .loadout = loadout, .every = true, .holds = d->holds, .hold = d->hold};
        if (pare_best_find(&d->bench, &d->craft, &ask, arena, &best, &err) != PARE_OK)
            fail_msg("bench %u: %s", n, err.text);
        if (!best.proven || best.found != (in->lightest < INT64_MAX) ||
            (best.found && best.best_100ug != in->lightest))
            fail_msg("bench %u: proven %d, found %d, %lld; brute force %lld", n, best.proven,
                     best.found, (long long)best.best_100ug, (long long)in->lightest);
        all->compared++;
        all->found += best.found;
        all->heavier += by_force->found && in->lightest > by_force->units_best;
        pare_arena_close(arena);
    }
    free(in);
}

/* @param ready  as of compare_drawn() @param seeds  the first bench's */
static shown compare_drawn_in_all(fixture *f, unsigned benches, unsigned seeds, drawn_ready *ready,
                                  void *context)
{
    drawn *d = malloc(sizeof *d);
    force *by_force = calloc(1, sizeof *by_force);
    shown all = {0};
    for (unsigned n = 0; n < benches; n++) {
        unsigned seed = seeds + n;
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        if (ready(f, d, &seed, context))
            compare_in_all(n, d, by_force, &all);
        put_back_parts(f, d);
    }
    free(by_force);
    free(d);
    return all;
}

/* Of every other bench two limits at the most. @param context  how many were drawn */
static bool ask_less_of_some(fixture *f, drawn *d, unsigned *seed, void *context)
{
    unsigned *drawn_before = context;
    (void)f;
    (void)seed;
    if ((*drawn_before)++ % 2 > 0 && d->craft.brief.limits > 2)
        d->craft.brief.limits = 2;
    return true;
}

static void a_set_for_all_loadouts_is_what_brute_force_finds(void **state)
{
    unsigned drawn_before = 0;
    const shown all = compare_drawn_in_all(*state, BENCHES, 9000, ask_less_of_some, &drawn_before);
    /* Where the other loadouts never decide, they would show nothing. */
    if (all.compared < BENCHES / 3 || all.found < 3 || all.heavier < 1)
        fail_msg("%zu compared, %zu found, %zu heavier than for one loadout", all.compared,
                 all.found, all.heavier);
}

/* @param context  pare_piece[PIECES], for the frame's */
static bool tune_for_one(fixture *f, drawn *d, unsigned *seed, void *context)
{
    return tune_arms_of(f, d, (int)dice(seed, (unsigned)d->craft.loadouts), context, seed);
}

/* A loadout that leaves more at home rings at other masses. */
static void arms_that_ring_in_another_loadout_are_heard(void **state)
{
    pare_piece room[PIECES];
    const unsigned benches = benches_drawn(TUNED);
    const shown all = compare_drawn_in_all(*state, benches, 20000, tune_for_one, room);
    if (all.compared < benches / 3 || all.found < benches / 10 || all.heavier < benches / 20)
        fail_msg("%zu compared, %zu found, %zu heavier than for one loadout", all.compared,
                 all.found, all.heavier);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_set_for_all_loadouts_is_what_brute_force_finds,
                                        fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(arms_that_ring_in_another_loadout_are_heard, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
