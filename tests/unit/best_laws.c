/* rooms: store advise craft physics base */
/* What holds of best sets whatever the craft (odd_drawn.h): a question that asks more has no lighter answer, one that
 * asks less no heavier one, and the answer keeps to what was asked: money, minutes of work, every loadout, parts barred,
 * forbidden or asked for, a mass to stay below. */
#include <math.h>

#include "odd_drawn.h"
#include "share.h"

#include "advise/best.h"
#include "advise/best_ways.h"

enum { ODD = SHARE_OF(160), FREE_ONE_IN = 12 };

/* For a longer run by hand: PARE_TEST_BENCHES=1000 build/release/tests/unit_best_laws. */
static unsigned odd_drawn(void)
{
    const char *more = getenv("PARE_TEST_BENCHES");
    const unsigned long wanted = more ? strtoul(more, NULL, 10) : 0;
    return wanted > ODD && wanted <= 1000000 ? (unsigned)wanted : ODD;
}

typedef struct odd_ask {
    odd odd;
    size_t holds;
    char held[PARE_ITEMS + PARE_JOINTS + PARE_RUNS][PARE_SWAP_NAME];
    const char *hold[PARE_ITEMS + PARE_JOINTS + PARE_RUNS];
    pare_craft loaded;
    pare_sheet sheet;
    pare_arena *arena;
    unsigned n;
} odd_ask;

static int read_bench(void **state)
{
    odd_ask *a = calloc(1, sizeof *a);
    *state = a;
    return a && odd_open(&a->odd) ? 0 : -1;
}

static int forget_bench(void **state)
{
    odd_ask *a = *state;
    odd_close(&a->odd);
    free(a);
    return 0;
}

static void keep(odd_ask *a, const char *what, const char *name)
{
    snprintf(a->held[a->holds], PARE_SWAP_NAME, "%s%s", what, name);
    a->hold[a->holds] = a->held[a->holds];
    a->holds++;
}

static void hold_most(odd_ask *a, unsigned *seed)
{
    const pare_craft *craft = &a->odd.craft;
    a->holds = 0;
    for (size_t i = 0; i < craft->items; i++)
        if (dice(seed, FREE_ONE_IN) > 0)
            keep(a, "", craft->item[i].name);
    for (size_t i = 0; i < craft->joints; i++)
        if (dice(seed, FREE_ONE_IN) > 0)
            keep(a, "joint.", craft->joint[i].name);
    for (size_t i = 0; i < craft->runs; i++)
        if (dice(seed, FREE_ONE_IN) > 0)
            keep(a, "run.", craft->run[i].name);
}

/* @return false: the craft cannot be asked about */
static bool asked(odd_ask *a, const pare_best_ask *ask, pare_best *best)
{
    pare_error err = {0};
    const pare_status status =
        pare_best_find(a->odd.bench, &a->odd.craft, ask, a->arena, best, &err);
    if (status != PARE_OK && !err.text[0])
        fail_msg("craft %u: refused without a word", a->n);
    if (status == PARE_OK && (best->misses || best->stopped))
        fail_msg("craft %u: %zu misses", a->n, best->misses);
    return status == PARE_OK;
}

static void no_lighter(const odd_ask *a, const char *what, const pare_best *more,
                       const pare_best *less)
{
    if (more->found && (!less->found || more->best_100ug < less->best_100ug))
        fail_msg("craft %u, %s: %lld is lighter than %lld", a->n, what, (long long)more->best_100ug,
                 (long long)less->best_100ug);
}

static void within_money_and_work(odd_ask *a, const pare_best_ask *plain, const pare_best *best)
{
    pare_best within;
    pare_best_ask ask = *plain;
    const int64_t most_cents = best->priced ? (int64_t)(50 * best->money) : 500;
    ask.most_cents = &most_cents;
    assert_true(asked(a, &ask, &within));
    no_lighter(a, "money", &within, best);
    if (within.found && (!within.priced || within.money > 1e-2 * (double)most_cents + 0.005))
        fail_msg("craft %u: %g of %g were to be spent", a->n, within.money,
                 1e-2 * (double)most_cents);
    const double most_min = best->work_min / 2;
    ask = *plain;
    ask.most_work_min = &most_min;
    assert_true(asked(a, &ask, &within));
    no_lighter(a, "work", &within, best);
    assert_true(!within.found || within.work_min <= most_min + 1e-6);
}

static void below_a_mass(odd_ask *a, const pare_best_ask *plain, const pare_best *best)
{
    pare_best other;
    pare_best_ask ask = *plain;
    ask.below_100ug = best->best_100ug;
    assert_true(asked(a, &ask, &other));
    assert_true(!other.found && other.proven);
    ask.below_100ug++;
    assert_true(asked(a, &ask, &other));
    if (!other.found || other.best_100ug != best->best_100ug)
        fail_msg("craft %u (%s): below %lld it finds %lld, not %lld", a->n, a->odd.craft.name,
                 (long long)ask.below_100ug, other.found ? (long long)other.best_100ug : -1,
                 (long long)best->best_100ug);
    ask = *plain;
    ask.any = true;
    assert_true(asked(a, &ask, &other));
    assert_true(other.found);
    no_lighter(a, "any", &other, best);
}

static void other_parts(odd_ask *a, const pare_best_ask *plain, const pare_best *best,
                        unsigned *seed)
{
    pare_best other;
    const char *id[PARE_BEST_SWAPS];
    pare_best_bar bar = {.id = id};
    pare_best_ask ask = *plain;
    for (size_t i = 0; i < best->swaps; i++)
        if (pare_best_is_part(best->swap[i].applied.id))
            id[bar.ids++] = best->swap[i].applied.id;
    ask.bars = 1;
    ask.bar = &bar;
    assert_true(asked(a, &ask, &other));
    no_lighter(a, "barred", &other, best);
    size_t same = 0, parts = 0;
    for (size_t i = 0; other.found && i < other.swaps; i++) {
        parts += pare_best_is_part(other.swap[i].applied.id);
        for (size_t k = 0; k < bar.ids; k++)
            same += strcmp(id[k], other.swap[i].applied.id) == 0;
    }
    if (other.found && same == bar.ids && parts == bar.ids)
        fail_msg("craft %u: the parts that were barred", a->n);
    for (size_t i = 0; i < bar.ids; i++) {
        const char *part = strchr(id[i], '=') + 1;
        if (!pare_bench_part(a->odd.bench, part))
            continue;
        ask = *plain;
        ask.nevers = 1;
        ask.never = &part;
        assert_true(asked(a, &ask, &other));
        no_lighter(a, "never", &other, best);
        for (size_t k = 0; other.found && k < other.after->items; k++)
            assert_true(other.after->item[k].off ||
                        strcmp(other.after->item[k].part->id, part) != 0);
        ask = *plain;
        ask.musts = 1;
        ask.must = &part;
        assert_true(asked(a, &ask, &other));
        assert_true(other.found && other.best_100ug == best->best_100ug);
    }
    const char *must = a->odd.bench->part[dice(seed, (unsigned)a->odd.bench->parts)]->id;
    ask = *plain;
    ask.musts = 1;
    ask.must = &must;
    assert_true(asked(a, &ask, &other));
    no_lighter(a, "must", &other, best);
    bool on = false;
    for (size_t k = 0; other.found && k < other.after->items; k++)
        on = on || (!other.after->item[k].off && strcmp(other.after->item[k].part->id, must) == 0);
    assert_true(on == other.found);
}

/* What is asked less of gives more: a rating that may miss, parts that nobody sells yet. */
static void asked_less(odd_ask *a, const pare_best_ask *plain, const pare_best *best)
{
    pare_best other;
    pare_best_ask ask = *plain;
    const pare_best_eased eased = {best->binds ? best->bind[0].name : "volts.esc", 0.9};
    if (strncmp(eased.name, "limit.", 6) != 0) {
        ask.eases = 1;
        ask.ease = &eased;
        assert_true(asked(a, &ask, &other));
        no_lighter(a, eased.name, best, &other);
    }
    ask = *plain;
    ask.sought = true;
    assert_true(asked(a, &ask, &other));
    no_lighter(a, "sought", best, &other);
    ask = *plain;
    ask.sure = 0.9;
    if (asked(a, &ask, &other))
        no_lighter(a, "sure", &other, best);
}

static void in_every_loadout(odd_ask *a, const pare_best_ask *plain, const pare_best *best)
{
    pare_best every;
    pare_best_ask ask = *plain;
    ask.every = true;
    if (!asked(a, &ask, &every))
        return;
    no_lighter(a, "every loadout", &every, best);
    for (size_t l = 0; every.found && l < a->odd.craft.loadouts; l++) {
        pare_error err = {0};
        memset(&a->sheet, 0, sizeof a->sheet);
        assert_int_equal(pare_craft_load(every.after, (int)l, &a->loaded, &err), PARE_OK);
        assert_int_equal(pare_sheet_compute(&a->loaded, false, &a->sheet, &err), PARE_OK);
        for (size_t m = 0; m < a->sheet.margins; m++)
            if (strncmp(a->sheet.margin[m].name, "limit.", 6) == 0 &&
                a->sheet.margin[m].ratio < 1 - 1e-9)
                fail_msg("craft %u, loadout %zu: %s is at %g", a->n, l, a->sheet.margin[m].name,
                         a->sheet.margin[m].ratio);
    }
}

static void asking_more_never_gives_less_weight(void **state)
{
    odd_ask *a = *state;
    size_t crafts = 0, found = 0;
    const unsigned drawn = odd_drawn();
    for (unsigned n = 0; n < drawn; n++) {
        unsigned seed = n + 1;
        pare_best best;
        a->n = n;
        odd_parts(&a->odd, &seed);
        if (!odd_craft(&a->odd, &seed))
            continue;
        hold_most(a, &seed);
        pare_brief *brief = &a->odd.craft.brief;
        brief->limits = dice(&seed, 3) ? 0 : brief->limits;
        brief->entries = 1;
        brief->flown[0] = (pare_flown){PARE_FLOWN_THRUST, 1, 1};
        a->arena = pare_arena_open();
        assert_non_null(a->arena);
        const int loadout = (int)dice(&seed, (unsigned)a->odd.craft.loadouts + 1) - 1;
        const pare_best_ask plain = {.loadout = loadout, .holds = a->holds, .hold = a->hold};
        if (asked(a, &plain, &best)) {
            crafts++;
            if (best.found) {
                found++;
                within_money_and_work(a, &plain, &best);
                below_a_mass(a, &plain, &best);
                other_parts(a, &plain, &best, &seed);
                asked_less(a, &plain, &best);
                in_every_loadout(a, &plain, &best);
            }
        }
        pare_arena_close(a->arena);
    }
    print_message("%zu craft, %zu with a set\n", crafts, found);
    assert_true(crafts > drawn / 2 && found > crafts / 2 && found < crafts);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(asking_more_never_gives_less_weight, read_bench,
                                        forget_bench),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
