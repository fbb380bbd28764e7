/* rooms: store advise craft physics base */
/* Certificates on craft that nobody would build (odd_drawn.h), most choices held. Two claims are made of each: what the
 * search found, and that the craft as it is is the lightest, where something lighter was found. The first passes, the
 * second never with it. Search and certificate share what puts a swap on and what computes a sheet, and nothing of how
 * they bound. */
#include "odd_drawn.h"
#include "proof_kept.h"
#include "share.h"

enum { ODD = SHARE_OF(200), FREE_ONE_IN = 14 };

typedef struct odd_ask {
    odd odd;
    pare_craft *only[1];
    pare_bench alone;
    size_t holds;
    char held[PARE_ITEMS + PARE_JOINTS + PARE_RUNS][PARE_SWAP_NAME];
    const char *hold[PARE_ITEMS + PARE_JOINTS + PARE_RUNS];
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
    a->only[0] = &a->odd.craft;
    a->alone = *a->odd.bench;
    a->alone.crafts = 1;
    a->alone.craft = a->only;
}

/* Whether a certificate of a claim closes, and is accepted. */
static bool passes(const odd_ask *a, const pare_proof_claim *claim, char why[300], size_t *lines)
{
    certificate c;
    const pare_proof_told told = write(&a->alone, &a->odd.craft, claim, &c);
    const pare_proof_told checked = check(&a->alone, &c);
    snprintf(why, 300, "%.280s", told.refusal);
    *lines += told.lines;
    forget(&c);
    assert_int_equal(told.verified, checked.verified);
    return told.verified;
}

static void certificates_of_odd_craft_never_contradict_each_other(void **state)
{
    odd_ask *a = *state;
    size_t crafts = 0, lighter = 0, lines = 0;
    for (unsigned n = 0; n < ODD; n++) {
        unsigned seed = n + 1;
        const char *names[PARE_BEST_SWAPS];
        char why[300];
        pare_best best;
        pare_error err = {0};
        odd_parts(&a->odd, &seed);
        if (!odd_craft(&a->odd, &seed))
            continue;
        hold_most(a, &seed);
        pare_brief *brief = &a->odd.craft.brief;
        brief->limits = dice(&seed, 3) ? 0 : brief->limits;
        brief->entries = 1; /* of a fast profile the search is not the truth: see proof_asked.c */
        brief->flown[0] = (pare_flown){PARE_FLOWN_THRUST, 1, 1};
        const int loadout = (int)dice(&seed, (unsigned)a->odd.craft.loadouts + 1) - 1;
        /* One in four must have some part of the bench, one in four never one, mostly of its own. */
        const pare_part *own = a->odd.craft.item[dice(&seed, (unsigned)a->odd.craft.items)].part,
                        *any = a->odd.bench->part[dice(&seed, (unsigned)a->odd.bench->parts)];
        const char *const part = dice(&seed, 4) ? own->id : any->id;
        const unsigned asks = dice(&seed, 4);
        const pare_best_ask ask = {.loadout = loadout,
                                   .holds = a->holds,
                                   .hold = a->hold,
                                   .nevers = asks == 0,
                                   .never = &part,
                                   .musts = asks == 1,
                                   .must = &part};
        pare_arena *arena = pare_arena_open();
        assert_non_null(arena);
        if (pare_best_find(&a->alone, &a->odd.craft, &ask, arena, &best, &err) != PARE_OK) {
            if (!err.text[0])
                fail_msg("craft %u: refused without a word", n);
            pare_arena_close(arena);
            continue;
        }
        crafts++;
        if (!best.proven || best.misses)
            fail_msg("craft %u: proven %d, %zu misses", n, best.proven, best.misses);
        pare_proof_claim claim = claim_of(&ask, &best, names);
        const bool passed = passes(a, &claim, why, &lines);
        if (!passed)
            fail_msg("craft %u (%s): %s", n, a->odd.craft.name, why);
        if (best.found && best.best_100ug < best.was_100ug) {
            claim.swaps = 0;
            claim.best_100ug = best.was_100ug;
            if (passes(a, &claim, why, &lines))
                fail_msg("craft %u: two certificates, of %lld and %lld, pass", n,
                         (long long)best.best_100ug, (long long)best.was_100ug);
            lighter++;
        }
        pare_arena_close(arena);
    }
    print_message("%zu craft, %zu with a set that is lighter; %zu lines\n", crafts, lighter, lines);
    assert_true(crafts > ODD / 2 && lighter > ODD / 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(certificates_of_odd_craft_never_contradict_each_other,
                                        read_bench, forget_bench),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
