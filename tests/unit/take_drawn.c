/* rooms: store advise craft physics base */
/* A craft's list of taken swaps under hundreds of takings and leavings drawn at random, on the demo's craft: whatever is
 * asked, it is refused in words and changes nothing, or the list keeps its laws: each old entry stands there once, what is
 * on the craft stands before what waits, a stage is never left for an earlier one, the answers point to the entries that
 * they speak of, and the craft as built can be built. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/take.h"
#include "advise/taken.h"
#include "bench_of.h"
#include "dice.h"
#include "near.h"
#include "share.h"
#include "store/bench.h"

enum { LISTS = SHARE_OF(100), STEPS = 100 };

typedef struct keeping {
    pare_bench *bench;
    pare_craft craft, built;
    pare_taking taking;
    pare_arena *arena;
    size_t names;
    const char *const *name;
} keeping;

static int read_bench(void **state)
{
    keeping *k = calloc(1, sizeof *k);
    *state = k;
    if (k)
        k->bench = bench_of("../../demo/bench.yaml");
    return k && k->bench ? 0 : -1;
}

static int forget_bench(void **state)
{
    keeping *k = *state;
    pare_bench_close(k->bench);
    free(k);
    return 0;
}

/* One to three swaps, of what the craft may have or of what is on its list. */
static void draw_list(const keeping *k, unsigned *seed, char list[512])
{
    const unsigned count = 1 + dice(seed, 3);
    list[0] = '\0';
    for (unsigned i = 0; i < count; i++) {
        const char *of = k->craft.takens > 0 && dice(seed, 2)
                             ? k->craft.taken[dice(seed, (unsigned)k->craft.takens)].swap
                             : k->name[dice(seed, (unsigned)k->names)];
        const size_t used = strlen(list);
        snprintf(list + used, 512 - used, "%s%s", used ? "," : "", of);
    }
}

static const char *word_of(const char *list, size_t nth, char word[128])
{
    while (nth-- > 0)
        list = strchr(list, ',') + 1;
    snprintf(word, 128, "%.*s", (int)strcspn(list, ","), list);
    return word;
}

static void keeps_its_laws(keeping *k, unsigned n, const char *list, bool left, bool in_order)
{
    const pare_taking *t = &k->taking;
    bool seen[PARE_TAKENS] = {false};
    bool waits = false;
    size_t old = 0;
    assert_true(t->count <= PARE_TAKENS);
    for (size_t i = 0; i < t->count; i++) {
        const bool on = pare_taken_is_on(&t->taken[i]);
        if (in_order && on && waits)
            fail_msg("list %u, %s: '%s' is on, behind one that waits", n, list, t->taken[i].swap);
        waits = waits || !on;
        if (t->was[i] < 0)
            continue;
        assert_true((size_t)t->was[i] < k->craft.takens && !seen[t->was[i]]);
        seen[t->was[i]] = true;
        old++;
        const pare_taken *was = &k->craft.taken[t->was[i]];
        assert_string_equal(t->taken[i].swap, was->swap);
        assert_true(pare_taken_stage(&t->taken[i]) >= pare_taken_stage(was));
    }
    /* What is gone was left, or waited and gave way to another of its place. */
    for (size_t i = 0; i < k->craft.takens; i++)
        if (!seen[i])
            assert_false(pare_taken_is_on(&k->craft.taken[i]));
    assert_true(!left || old == t->count);
    for (size_t i = 0; i < t->ones; i++) {
        char word[128];
        const char *swap =
            left ? k->craft.taken[t->one[i].entry].swap : t->taken[t->one[i].entry].swap;
        if (strcmp(swap, word_of(list, i, word)) != 0)
            fail_msg("list %u, %s: answer %zu points to '%s'", n, list, i, swap);
    }
}

static void begin(keeping *k, unsigned *seed)
{
    static const char *const craft[] = {"hedgerow", "bodkin", "thimble", "drover"};
    pare_error err = {0};
    const pare_craft *of = pare_bench_craft(k->bench, craft[dice(seed, 4)]);
    assert_non_null(of);
    k->craft = *of;
    k->craft.takens = 0;
    k->craft.loadouts = dice(seed, 4) ? k->craft.loadouts : 0;
    k->arena = pare_arena_open();
    assert_non_null(k->arena);
    if (pare_swap_names(k->bench, &k->craft, -1, k->arena, &k->names, &k->name, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

/* A list that somebody wrote by hand may stand in any order in which it goes on. */
static void exchange(keeping *k, unsigned *seed)
{
    if (k->craft.takens < 2)
        return;
    const size_t i = dice(seed, (unsigned)k->craft.takens - 1);
    const pare_taken first = k->craft.taken[i];
    k->craft.taken[i] = k->craft.taken[i + 1];
    k->craft.taken[i + 1] = first;
    if (pare_taken_as_built(k->bench, &k->craft, &k->built, NULL, NULL) != PARE_OK) {
        k->craft.taken[i + 1] = k->craft.taken[i];
        k->craft.taken[i] = first;
    }
}

static void a_list_under_any_takings_keeps_its_laws(void **state)
{
    keeping *k = *state;
    size_t kept = 0, refused = 0, longest = 0;
    for (unsigned n = 0; n < LISTS; n++) {
        unsigned seed = n + 1;
        begin(k, &seed);
        for (int step = 0; step < STEPS; step++) {
            static const char *const day[] = {"2026-03-01", "2026-03-02", "2026-03-05",
                                              "2026-03-06", "2026-03-09"};
            const char *date[PARE_STAGES] = {NULL};
            char list[512];
            pare_error err = {0};
            if (n % 4 == 3 && dice(&seed, 3) == 0)
                exchange(k, &seed);
            draw_list(k, &seed, list);
            const bool leave = dice(&seed, 6) == 0, heard = dice(&seed, 8) > 0;
            const unsigned stage = dice(&seed, PARE_STAGES);
            date[stage] = day[dice(&seed, 5)];
            if (dice(&seed, 3) == 0)
                date[PARE_STAGE_FITTED] = day[2];
            const pare_status status = leave ? pare_take_leave(k->bench, &k->craft, list, k->arena,
                                                               &k->taking, heard ? &err : NULL)
                                             : pare_take(k->bench, &k->craft, list, date, k->arena,
                                                         &k->taking, heard ? &err : NULL);
            if (status != PARE_OK) {
                refused++;
                assert_true(status == PARE_BAD_DATA || status == PARE_UNKNOWN);
                if (heard && !err.text[0])
                    fail_msg("list %u, %s: refused without a word", n, list);
                continue;
            }
            kept++;
            keeps_its_laws(k, n, list, leave, n % 4 < 3);
            k->craft.takens = k->taking.count;
            memcpy(k->craft.taken, k->taking.taken, sizeof k->craft.taken);
            longest = k->craft.takens > longest ? k->craft.takens : longest;
            if (pare_taken_as_built(k->bench, &k->craft, &k->built, NULL, &err) != PARE_OK)
                fail_msg("list %u, %s: %s", n, list, err.text);
        }
        pare_arena_close(k->arena);
    }
    print_message("%zu kept, %zu refused, the longest list has %zu\n", kept, refused, longest);
    assert_true(kept > LISTS * STEPS / 8 && refused > LISTS && longest > 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_list_under_any_takings_keeps_its_laws, read_bench,
                                        forget_bench),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
