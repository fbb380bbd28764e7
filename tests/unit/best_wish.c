/* rooms: store advise craft physics base */
/* The best set in another wish than grams against brute force (best_force.h): the most minutes, thrust and
 * quickness, the least money, the lightest within hours of work. */
#include "best_force.h"

#include "advise/best_wish.h"
#include "advise/checklist.h"

enum { BENCHES = 45 };

/* The best of all sets that do their job, by each wish. */
typedef struct most {
    double minutes, thrust, quickness;
    int64_t cents;            /* INT64_MAX: no price is known */
    double work_min;          /* that there may be */
    int64_t lightest_of_work; /* INT64_MAX: no set takes so little */
} most;

/* The minutes of a list's checklist, which knows nothing of the search. */
static double work_of(force *f, const char *list)
{
    const char *id[64];
    pare_opening opening[64];
    size_t count = 0;
    pare_error err;
    pare_checklist *plan = malloc(sizeof *plan);
    pare_arena *arena = pare_arena_open();
    char *copy = pare_arena_text(arena, list);
    for (char *at = strtok(copy, ","); at; at = strtok(NULL, ","))
        id[count++] = at;
    assert_int_equal(
        pare_checklist_plan(&f->d->bench, &f->d->craft, count, id, arena, plan, opening, &err),
        PARE_OK);
    const double minutes = plan->minutes;
    pare_arena_close(arena);
    free(plan);
    return minutes;
}

static void keep_most(force *f, const pare_craft *craft, const char *list, int64_t units)
{
    most *m = f->context;
    int64_t cents;
    (void)craft;
    pare_sheet_fly(&f->loaded,
                   (pare_figures)1 << PARE_FLOWN_TIME | (pare_figures)1 << PARE_TWR_HALF |
                       (pare_figures)1 << PARE_ROLL | (pare_figures)1 << PARE_PITCH,
                   &f->sheet);
    const pare_sheet_figure *figure = f->sheet.figure;
    m->minutes = fmax(m->minutes, figure[PARE_FLOWN_TIME].value);
    m->thrust = fmax(m->thrust, figure[PARE_TWR_HALF].value);
    m->quickness = fmax(m->quickness, fmin(figure[PARE_ROLL].value, figure[PARE_PITCH].value));
    if (money_of(f, list, &cents) && cents < m->cents)
        m->cents = cents;
    if (units < m->lightest_of_work && work_of(f, list) <= m->work_min + 1e-6)
        m->lightest_of_work = units;
}

static void is_best(unsigned n, const char *wish, const drawn *d, const pare_best_ask *ask,
                    double by_force)
{
    pare_arena *arena = pare_arena_open();
    pare_best best;
    pare_best_wished wished;
    pare_error err;
    if (pare_best_wish_find(&d->bench, &d->craft, ask, pare_best_wish_named(wish), arena, &best,
                            &wished, &err) != PARE_OK)
        fail_msg("bench %u, %s: %s", n, wish, err.text);
    if (!best.found || !wished.exists || !wished.proven || !best.proven)
        fail_msg("bench %u, %s: found %d, proven %d, of the lightest %d", n, wish, best.found,
                 wished.proven, best.proven);
    const double grain = strcmp(wish, "money") == 0 ? 1e-9 : PARE_WISH_GRAIN * by_force;
    if (!(fabs(wished.value - by_force) <= grain) || wished.bound < by_force - grain)
        fail_msg("bench %u, %s: %.10g, none better than %.10g, brute force %.10g", n, wish,
                 wished.value, wished.bound, by_force);
    pare_arena_close(arena);
}

static void is_lightest_of_work(unsigned n, const drawn *d, const pare_best_ask *ask,
                                int64_t by_force)
{
    pare_arena *arena = pare_arena_open();
    pare_best best;
    pare_best_wished wished;
    pare_error err;
    if (pare_best_wish_find(&d->bench, &d->craft, ask, PARE_WISH_EVENING, arena, &best, &wished,
                            &err) != PARE_OK)
        fail_msg("bench %u, evening: %s", n, err.text);
    if (best.found != (by_force < INT64_MAX) || !best.proven ||
        (best.found &&
         (best.best_100ug != by_force || best.work->minutes > *ask->most_work_min + 1e-6)))
        fail_msg("bench %u, evening: found %d, proven %d, %lld in %g min, brute force %lld", n,
                 best.found, best.proven, (long long)best.best_100ug,
                 best.found ? best.work->minutes : 0, (long long)by_force);
    pare_arena_close(arena);
}

static void a_wish_has_the_best_that_brute_force_finds(void **state)
{
    fixture *f = *state;
    drawn *d = malloc(sizeof *d);
    force *by_force = calloc(1, sizeof *by_force);
    size_t compared = 0, evenings = 0;
    for (unsigned n = 0; n < BENCHES; n++) {
        unsigned seed = 1000 + n;
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        if (n % 3 > 0)
            d->craft.brief.limits = 0;
        for (size_t i = 0; i < d->bench.parts; i++)
            if (!d->part[i]->price.given && dice(&seed, 8) > 0)
                d->part[i]->price =
                    (pare_price){.given = true, .each = dice(&seed, 30), .sold_in = 1};
        const int loadout = (int)dice(&seed, (unsigned)d->craft.loadouts + 1) - 1;
        most m = {
            .cents = INT64_MAX, .work_min = between(&seed, 2, 60), .lightest_of_work = INT64_MAX};
        if (search_by_force(d, loadout, keep_most, &m, by_force) && by_force->found) {
            pare_best_ask ask = {.loadout = loadout, .holds = d->holds, .hold = d->hold};
            is_best(n, "minutes", d, &ask, m.minutes);
            is_best(n, "thrust", d, &ask, m.thrust);
            is_best(n, "quickness", d, &ask, m.quickness);
            if (m.cents < INT64_MAX)
                is_best(n, "money", d, &ask, 0.01 * (double)m.cents);
            ask.most_work_min = &m.work_min;
            is_lightest_of_work(n, d, &ask, m.lightest_of_work);
            compared++;
            evenings += m.lightest_of_work > by_force->units_best;
        }
        put_back_parts(f, d);
    }
    /* An evening that is always long enough would show nothing. */
    if (compared < BENCHES / 4 || evenings < 4)
        fail_msg("%zu compared, %zu evenings too short for the lightest", compared, evenings);
    free(by_force);
    free(d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_wish_has_the_best_that_brute_force_finds, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
