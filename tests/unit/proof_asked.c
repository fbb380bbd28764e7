/* rooms: store advise craft physics base */
/* Certificates of richer questions than proof.c asks, on the demo's craft: every limit that a brief may have, from
 * either side, parts that must and must never be on, profiles flown, choices held at random. Two programs that share
 * no code but what puts a swap on and what computes a sheet must agree: the search finds a set, and the certificate's
 * tree closes over it; where the question is made one harder, what was found before no longer passes.
 *
 * Top speed, and minutes at a speed beyond that of the best range, get better with mass (tests/unit/rig_laws.c): such
 * questions are asked by themselves too, and of two certificates that contradict each other only one may pass. */
#include <math.h>

#include "bench_of.h"
#include "proof_kept.h"

#include "craft/figure.h"

enum { ASKED = 88, FAST = 24, KEYS_MOST = 40 };

typedef struct asking {
    pare_bench *bench;
    pare_craft craft;
    pare_craft *all[1];
    pare_bench alone; /* the bench with that craft only */
    size_t holds;
    char held[PARE_ITEMS + PARE_JOINTS + PARE_RUNS][PARE_SWAP_NAME];
    const char *hold[PARE_ITEMS + PARE_JOINTS + PARE_RUNS];
    size_t nevers, musts;
    const char *never[4], *must[4];
} asking;

static int read_bench(void **state)
{
    asking *a = calloc(1, sizeof *a);
    *state = a;
    if (a)
        a->bench = bench_of("../../demo/bench.yaml");
    return a && a->bench ? 0 : -1;
}

static int forget_bench(void **state)
{
    asking *a = *state;
    pare_bench_close(a->bench);
    free(a);
    return 0;
}

static void keep(asking *a, const char *what, const char *name)
{
    snprintf(a->held[a->holds], PARE_SWAP_NAME, "%s%s", what, name);
    a->hold[a->holds] = a->held[a->holds];
    a->holds++;
}

/* One in ten of the choices is open, and what a profile is flown as is drawn too. */
static void draw_question(asking *a, unsigned *seed, const char *name, bool fast)
{
    static const pare_flown profile[][3] =
        {{{PARE_FLOWN_THRUST, 1, 1}},
         {{PARE_FLOWN_THRUST, 0.6, 1}, {PARE_FLOWN_SPEED, 0.3, 9}, {PARE_FLOWN_THRUST, 0.1, 2}},
         {{PARE_FLOWN_THRUST, 0.5, 1}, {PARE_FLOWN_SPEED, 0.4, 8}, {PARE_FLOWN_FULL, 0.1, 0}}},
                            fast_profile[3] = {{PARE_FLOWN_THRUST, 0.1, 1},
                                               {PARE_FLOWN_SPEED, 0.5, 28},
                                               {PARE_FLOWN_SPEED, 0.4, 22}};
    const pare_craft *craft = pare_bench_craft(a->bench, name);
    assert_non_null(craft);
    pare_craft_copy(craft, &a->craft);
    a->all[0] = &a->craft;
    a->alone = *a->bench;
    a->alone.crafts = 1;
    a->alone.craft = a->all;
    a->holds = a->nevers = a->musts = 0;
    pare_brief *brief = &a->craft.brief;
    brief->limits = dice(seed, 2) && !fast ? brief->limits : 0;
    const unsigned as = dice(seed, 3);
    brief->entries = as == 0 && !fast ? 1 : 3;
    memcpy(brief->flown, fast ? fast_profile : profile[as], sizeof fast_profile);
    for (size_t i = 0; i < a->craft.items; i++)
        if (dice(seed, 10) > 0)
            keep(a, "", a->craft.item[i].name);
    for (size_t i = 0; i < a->craft.joints; i++)
        if (dice(seed, 10) > 0)
            keep(a, "joint.", a->craft.joint[i].name);
    for (size_t i = 0; i < a->craft.runs; i++)
        if (dice(seed, 10) > 0)
            keep(a, "run.", a->craft.run[i].name);
}

static pare_best_ask ask_of(const asking *a, int loadout)
{
    return (pare_best_ask){.loadout = loadout,
                           .holds = a->holds,
                           .hold = a->hold,
                           .nevers = a->nevers,
                           .never = a->never,
                           .musts = a->musts,
                           .must = a->must};
}

static void find_best(const asking *a, unsigned n, const pare_best_ask *ask, pare_arena *arena,
                      pare_best *best)
{
    pare_error err = {0};
    if (pare_best_find(&a->alone, &a->craft, ask, arena, best, &err) != PARE_OK)
        fail_msg("question %u: %s", n, err.text);
    assert_int_equal(best->misses, 0);
    assert_true(best->proven);
}

/* Somewhere from a little beyond the one figure to a little beyond the other. */
static bool draw_value(unsigned *seed, const char *key, const pare_best *best, double *value)
{
    const int figure = pare_figure_of_limit(key);
    const pare_sheet_figure *was = &best->sheet_before->figure[figure],
                            *is = &best->sheet_after->figure[figure];
    if (!was->exists || !is->exists)
        return false;
    const double lies = between(seed, -0.3, 1.3);
    *value = is->value + lies * (was->value - is->value);
    if (fabs(was->value - is->value) < 1e-3 * fabs(is->value))
        *value = is->value * between(seed, 0.97, 1.03);
    return true;
}

static void draw_parts_asked(asking *a, unsigned *seed, const pare_best *best)
{
    if (best->swaps > 0 && dice(seed, 3) == 0) {
        const pare_best_swap *swap = &best->swap[dice(seed, (unsigned)best->swaps)];
        const char *id = strchr(swap->applied.id, '=') + 1;
        if (pare_bench_part(a->bench, id))
            a->never[a->nevers++] = id;
    }
    if (dice(seed, 3) == 0) {
        const pare_part *on = a->craft.item[dice(seed, (unsigned)a->craft.items)].part;
        const pare_part *any = a->bench->part[dice(seed, (unsigned)a->bench->parts)];
        a->must[a->musts++] = dice(seed, 4) ? on->id : any->id;
    }
}

/* Whether a certificate of a claim passes, written and read. */
static bool passes(const asking *a, const pare_best_ask *ask, const pare_best *best, char why[300])
{
    const char *names[PARE_BEST_SWAPS];
    certificate c;
    const pare_proof_claim claim = claim_of(ask, best, names);
    const pare_proof_told told = write(&a->alone, &a->craft, &claim, &c);
    const pare_proof_told checked = check(&a->alone, &c);
    snprintf(why, 300, "%.280s", told.refusal);
    assert_int_equal(told.verified, checked.verified);
    forget(&c);
    return told.verified;
}

/* Asks the nth question, and one that a limit and parts make harder. @return false: there was nothing to ask */
static bool ask_harder(asking *a, unsigned n, const char *key, bool fast, pare_arena *arena,
                       pare_best *easy, pare_best *best, pare_best_ask *ask)
{
    static const char *const craft[] = {"hedgerow", "bodkin", "thimble", "drover"};
    unsigned seed = n + 1;
    double value = 0;
    draw_question(a, &seed, craft[n % 4], fast);
    pare_brief *brief = &a->craft.brief;
    const int loadout = (int)dice(&seed, (unsigned)a->craft.loadouts + 1) - 1;
    *ask = ask_of(a, loadout);
    find_best(a, n, ask, arena, easy);
    if (!easy->found || !draw_value(&seed, key, easy, &value))
        return false;
    if (!fast)
        draw_parts_asked(a, &seed, easy);
    for (size_t i = 0; i < brief->limits; i++)
        if (strcmp(brief->limit[i].key, key) == 0)
            brief->limit[i] = brief->limit[--brief->limits];
    brief->limit[brief->limits++] =
        (pare_limit){.key = key, .at_least = fast || n % 2 == 0, .value = value};
    *ask = ask_of(a, loadout);
    find_best(a, n, ask, arena, best);
    return true;
}

static void every_question_that_a_brief_can_ask_is_certified(void **state)
{
    asking *a = *state;
    const char *key[KEYS_MOST];
    const size_t keys = pare_figure_limit_names(KEYS_MOST, key);
    size_t harder = 0, none = 0, with_parts = 0;
    for (unsigned n = 0; n < ASKED; n++) {
        pare_best easy, best;
        pare_best_ask ask;
        char why[300];
        const char *of = key[n / 2 % keys];
        pare_arena *arena = pare_arena_open();
        assert_non_null(arena);
        if (ask_harder(a, n, of, false, arena, &easy, &best, &ask)) {
            if (!passes(a, &ask, &best, why))
                fail_msg("question %u (%s): %s", n, of, why);
            if (!best.found || best.best_100ug > easy.best_100ug) {
                if (passes(a, &ask, &easy, why))
                    fail_msg("question %u (%s): what answers an easier one passes", n, of);
                harder++;
            }
            none += !best.found;
            with_parts += a->nevers + a->musts > 0;
        }
        pare_arena_close(arena);
    }
    print_message("%zu harder, %zu without an answer; %zu with parts\n", harder, none, with_parts);
    assert_true(harder > ASKED / 4 && none > 0 && none < harder && with_parts > ASKED / 4);
}

static void certificates_never_contradict_each_other(void **state)
{
    asking *a = *state;
    static const char *const key[] = {"flown", "top_speed", "flown", "thrust_to_weight_landing"};
    size_t asked = 0;
    for (unsigned n = 0; n < FAST; n++) {
        pare_best easy, best;
        pare_best_ask ask;
        char why[300];
        pare_arena *arena = pare_arena_open();
        assert_non_null(arena);
        if (ask_harder(a, n, key[n / 4 % 4], true, arena, &easy, &best, &ask) &&
            (!best.found || best.best_100ug != easy.best_100ug)) {
            const bool of_easy = passes(a, &ask, &easy, why), of_best = passes(a, &ask, &best, why);
            if (of_easy && of_best)
                fail_msg("question %u: two certificates, of %lld and %lld, pass", n,
                         (long long)easy.best_100ug, (long long)best.best_100ug);
            if (!of_best)
                fail_msg("question %u (%s): %s", n, key[n / 4 % 4], why);
            asked++;
        }
        pare_arena_close(arena);
    }
    print_message("%zu asked and certified\n", asked);
    assert_true(asked > FAST / 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(every_question_that_a_brief_can_ask_is_certified,
                                        read_bench, forget_bench),
        cmocka_unit_test_setup_teardown(certificates_never_contradict_each_other, read_bench,
                                        forget_bench),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
