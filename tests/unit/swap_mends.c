/* rooms: store advise craft physics base */
/* What mends a swap that breaks something: tried together as a user would, it holds and weighs as said. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/mend.h"
#include "advise/swap.h"
#include "bench_of.h"
#include "near.h"
#include "store/bench.h"

static const char *const crafts[] = {"bodkin", "drover", "hedgerow", "thimble"};
enum { CRAFTS = sizeof crafts / sizeof crafts[0] };

static int setup(void **state)
{
    *state = bench_of("../../demo/bench.yaml");
    return 0;
}

static int teardown(void **state)
{
    pare_bench_close(*state);
    return 0;
}

/* The swaps of a craft, and what mends the first of them that break something. */
static pare_swaps swaps_mended(const pare_bench *bench, const pare_craft *craft, size_t most,
                               pare_arena *arena, const pare_mend **mend)
{
    pare_error err = {0};
    pare_swaps swaps;
    if (pare_swaps_find(bench, craft, 0, PARE_WISH_GRAMS, arena, &swaps, &err) != PARE_OK ||
        pare_mends_find(bench, craft, 0, &swaps, most, arena, mend, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return swaps;
}

static void sheet_with(const pare_bench *bench, const pare_craft *craft, const char *list,
                       pare_sheet *sheet)
{
    pare_error err = {0};
    pare_craft *changed = malloc(sizeof *changed), *loaded = malloc(sizeof *loaded);
    *changed = *craft;
    if ((list && pare_swap_apply_list(bench, craft, list, changed, &err) != PARE_OK) ||
        pare_craft_load(changed, 0, loaded, &err) != PARE_OK ||
        pare_sheet_compute(loaded, false, sheet, &err) != PARE_OK)
        fail_msg("%s: %s", list ? list : "as it is", err.text);
    free(loaded);
    free(changed);
}

static void what_mends_holds_all_that_held_and_weighs_as_said(void **state)
{
    const pare_bench *bench = *state;
    pare_sheet *before = malloc(sizeof *before), *after = malloc(sizeof *after);
    int mended = 0, instead = 0;
    for (int c = 0; c < CRAFTS; c++) {
        const pare_craft *craft = pare_bench_craft(bench, crafts[c]);
        pare_arena *arena = pare_arena_open();
        const pare_mend *mend;
        const pare_swaps swaps = swaps_mended(bench, craft, SIZE_MAX, arena, &mend);
        sheet_with(bench, craft, NULL, before);
        for (size_t i = 0; i < swaps.count; i++) {
            char list[2 * PARE_SWAP_NAME + 1];
            if (!mend[i].found)
                continue;
            assert_true(swaps.swap[i].breaks > 0 && mend[i].grams_kg > 0);
            snprintf(list, sizeof list, "%s%s%s", mend[i].instead ? "" : swaps.swap[i].applied.id,
                     mend[i].instead ? "" : ",", mend[i].id);
            sheet_with(bench, craft, list, after);
            assert_near(before->figure[PARE_ALL_UP].value - after->figure[PARE_ALL_UP].value,
                        mend[i].grams_kg, 1e-12);
            for (size_t m = 0; m < after->margins; m++) {
                const pare_margin *was = pare_sheet_margin(before, after->margin[m].name);
                if (after->margin[m].ratio < 1 && (!was || was->ratio >= 1))
                    fail_msg("%s: %s breaks %s", crafts[c], list, after->margin[m].name);
            }
            mended += !mend[i].instead;
            instead += mend[i].instead;
        }
        pare_arena_close(arena);
    }
    assert_true(mended > 0 && instead > 0);
    free(after);
    free(before);
}

/* A swap of a craft that breaks something is mended by another in its place. */
static void expect_instead(const pare_bench *bench, const char *name, const char *id,
                           const char *instead)
{
    const pare_craft *craft = pare_bench_craft(bench, name);
    pare_arena *arena = pare_arena_open();
    const pare_mend *mend;
    const pare_swaps swaps = swaps_mended(bench, craft, SIZE_MAX, arena, &mend);
    bool found = false;
    for (size_t i = 0; i < swaps.count; i++)
        if (strcmp(swaps.swap[i].applied.id, id) == 0) {
            found = true;
            assert_true(mend[i].found && mend[i].instead);
            assert_string_equal(mend[i].id, instead);
        }
    assert_true(found);
    pare_arena_close(arena);
}

static void a_lead_that_is_too_thin_is_mended_by_one_a_size_up(void **state)
{
    expect_instead(*state, "bodkin", "run.lead.gauge=18", "run.lead.gauge=16");
}

/* Aluminium at the roots of the arms does not bear a crash; of what does, titanium is the lightest. */
static void screws_that_are_too_weak_are_mended_by_a_stronger_material(void **state)
{
    expect_instead(*state, "hedgerow", "joint.arm_root.material=aluminium",
                   "joint.arm_root.material=titanium");
}

static void rows_beyond_those_asked_for_are_left_alone(void **state)
{
    const pare_bench *bench = *state;
    const pare_craft *craft = pare_bench_craft(bench, "hedgerow");
    pare_arena *arena = pare_arena_open();
    const pare_mend *mend;
    const pare_swaps swaps = swaps_mended(bench, craft, 3, arena, &mend);
    size_t looked = 0;
    for (size_t i = 0; i < swaps.count; i++)
        looked += mend[i].sought;
    assert_int_equal(looked, 3);
    pare_arena_close(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_mends_holds_all_that_held_and_weighs_as_said),
        cmocka_unit_test(a_lead_that_is_too_thin_is_mended_by_one_a_size_up),
        cmocka_unit_test(screws_that_are_too_weak_are_mended_by_a_stronger_material),
        cmocka_unit_test(rows_beyond_those_asked_for_are_left_alone),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
