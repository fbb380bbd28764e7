/* rooms: store advise craft physics base */
/* The best set whose limits hold with a probability, against brute force (best_force.h): every set's own sheet
 * with its doubts, the chances of its limits added up. */
#include "best_force.h"

enum { BENCHES = 60 };

typedef struct surest {
    double sure;
    int64_t lightest; /* INT64_MAX: none is as sure */
    size_t unsure;    /* sets that do their job and are not */
} surest;

static void keep_sure(force *f, const pare_craft *craft, const char *list, int64_t units)
{
    surest *s = f->context;
    pare_error err;
    double fails = 0;
    (void)craft;
    (void)list;
    assert_int_equal(pare_sheet_compute(&f->loaded, true, &f->sheet, &err), PARE_OK);
    for (size_t i = 0; i < f->sheet.margins; i++)
        if (strncmp(f->sheet.margin[i].name, "limit.", 6) == 0 &&
            strcmp(f->sheet.margin[i].name, "limit.margin") != 0)
            fails += 1 - f->sheet.margin[i].chance;
    if (fails > (1 - s->sure) * (1 + 1e-9))
        s->unsure++;
    else if (units < s->lightest)
        s->lightest = units;
}

/* All sets without limits, and what each does. */
typedef struct reach {
    size_t sets, lightest;
    struct {
        int64_t units;
        pare_sheet_figure figure[2]; /* thrust, minutes */
    } set[MOST_SETS];
} reach;

static const char *const keys[2] = {"thrust_to_weight_half", "flown"};

static void keep_all(force *f, const pare_craft *craft, const char *list, int64_t units)
{
    reach *r = f->context;
    pare_error err;
    (void)craft;
    (void)list;
    assert_int_equal(pare_sheet_compute(&f->loaded, true, &f->sheet, &err), PARE_OK);
    if (r->sets == 0 || units < r->set[r->lightest].units)
        r->lightest = r->sets;
    r->set[r->sets].units = units;
    r->set[r->sets].figure[0] = f->sheet.figure[PARE_TWR_HALF];
    r->set[r->sets++].figure[1] = f->sheet.figure[PARE_FLOWN_TIME];
}

/* A limit that another set keeps surely; where there is one that the lightest keeps, but not surely. */
static void ask_between(const reach *r, int which, double quantile, unsigned *seed, double *limit)
{
    const pare_sheet_figure *light = &r->set[r->lightest].figure[which];
    const size_t from = dice(seed, (unsigned)r->sets);
    for (size_t i = 0; i < r->sets; i++) {
        const pare_sheet_figure *other = &r->set[(from + i) % r->sets].figure[which];
        *limit = fmin(light->value, other->value - quantile * other->u) * (1 - 1e-6);
        if (*limit > (light->value - quantile * light->u) * (1 + 1e-6))
            return;
    }
    *limit = light->value - between(seed, 0.1, 3) * light->u;
}

/* @return whether there is a set at all */
static bool ask(drawn *d, int loadout, double quantile, unsigned *seed, force *by_force, reach *r)
{
    pare_brief *brief = &d->craft.brief;
    const size_t limits = brief->limits;
    const unsigned which = dice(seed, 3);
    r->sets = r->lightest = 0;
    brief->limits = 0;
    if (!search_by_force(d, loadout, keep_all, r, by_force) || r->sets == 0)
        return false;
    brief->limits = dice(seed, 4) == 0 && limits < 3 ? limits : 0;
    for (unsigned k = 0; k < 2; k++) {
        double limit;
        ask_between(r, (int)k, quantile, seed, &limit);
        if (which != k)
            brief->limit[brief->limits++] =
                (pare_limit){.key = keys[k], .at_least = true, .value = limit};
    }
    return true;
}

static void a_sure_set_is_what_brute_force_finds(void **state)
{
    fixture *f = *state;
    drawn *d = malloc(sizeof *d);
    force *by_force = calloc(1, sizeof *by_force);
    reach *all = malloc(sizeof *all);
    size_t compared = 0, found = 0, heavier = 0, none = 0;
    for (unsigned n = 0; n < BENCHES; n++) {
        unsigned seed = 20000 + n;
        pare_best best;
        pare_error err;
        draw_parts(f, &seed, d);
        draw_craft(f, &seed, d);
        const double quantile = between(&seed, 0.2, 1.8);
        surest s = {.sure = 0.5 * erfc(-quantile / sqrt(2)), .lightest = INT64_MAX};
        const int loadout = (int)dice(&seed, (unsigned)d->craft.loadouts + 1) - 1;
        if (ask(d, loadout, quantile, &seed, by_force, all) &&
            search_by_force(d, loadout, keep_sure, &s, by_force) && by_force->found) {
            pare_arena *arena = pare_arena_open();
            const pare_best_ask asked = {
                .loadout = loadout, .holds = d->holds, .hold = d->hold, .sure = s.sure};
            if (pare_best_find(&d->bench, &d->craft, &asked, arena, &best, &err) != PARE_OK)
                fail_msg("bench %u: %s", n, err.text);
            if (!best.proven || best.found != (s.lightest < INT64_MAX) ||
                (best.found && (best.best_100ug != s.lightest || best.bound_100ug != s.lightest)))
                fail_msg("bench %u, %g sure: proven %d, found %d, %lld; brute force %lld", n,
                         s.sure, best.proven, best.found, (long long)best.best_100ug,
                         (long long)s.lightest);
            compared++;
            found += best.found;
            none += !best.found;
            heavier += best.found && s.lightest > by_force->units_best;
            pare_arena_close(arena);
        }
        put_back_parts(f, d);
    }
    /* Where to be sure never costs a gram, and never too much, it would show nothing. */
    if (compared < BENCHES / 4 || found < 10 || heavier < 5 || none < 3)
        fail_msg("%zu compared, %zu found, %zu heavier than what just meets, %zu with none",
                 compared, found, heavier, none);
    free(all);
    free(by_force);
    free(d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_sure_set_is_what_brute_force_finds, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
