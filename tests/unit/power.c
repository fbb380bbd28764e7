/* rooms: store craft physics base */
/* Where a craft's power goes, on a craft that was typed as a user types one. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bench_of.h"
#include "craft/power.h"
#include "near.h"
#include "store/bench.h"

typedef struct fixture {
    pare_bench *bench;
    pare_craft craft; /* a copy to change */
    pare_sheet sheet;
    pare_powered power[PARE_POWERED];
} fixture;

static int setup(void **state)
{
    fixture *f = calloc(1, sizeof *f);
    f->bench = bench_of("field-5.yaml");
    f->craft = *pare_bench_craft(f->bench, "field-5");
    *state = f;
    return 0;
}

static int teardown(void **state)
{
    fixture *f = *state;
    pare_bench_close(f->bench);
    free(f);
    return 0;
}

static void compute(fixture *f)
{
    pare_error err = {0};
    if (pare_sheet_compute(&f->craft, false, &f->sheet, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_craft_power(&f->craft, &f->sheet, f->power);
}

static void fly_at(fixture *f, size_t entries, const pare_flown flown[])
{
    f->craft.brief.entries = entries;
    memcpy(f->craft.brief.flown, flown, entries * sizeof flown[0]);
}

static void rows_of_the_table_are_all_parts_of_the_sum(void **state)
{
    fixture *f = *state;
    compute(f);
    for (int i = 0; i < PARE_POWERED; i++) {
        double sum_w = 0;
        assert_true(f->power[i].exists);
        for (size_t row = 0; row < PARE_POWER_ROWS; row++)
            sum_w += pare_power_part(&f->power[i].budget, row);
        assert_within(sum_w, f->power[i].budget.open_w, 1e-9);
    }
}

static void hovers_budget_is_the_sheets_hover(void **state)
{
    fixture *f = *state;
    compute(f);
    const pare_budget *hover = &f->power[PARE_POWERED_HOVER].budget;
    assert_within(hover->open_w - hover->pack_w - hover->lead_w,
                  f->sheet.figure[PARE_HOVER_W].value, 1e-12);
    assert_within(hover->output, f->sheet.figure[PARE_HOVER_OUTPUT].value, 1e-12);
}

static void cruise_is_the_speed_flown_for_the_longest(void **state)
{
    fixture *f = *state;
    const pare_flown flown[] = {
        {PARE_FLOWN_SPEED, 0.2, 7}, {PARE_FLOWN_THRUST, 0.5, 1}, {PARE_FLOWN_SPEED, 0.3, 13}};
    fly_at(f, 3, flown);
    compute(f);
    assert_near(f->power[PARE_POWERED_CRUISE].speed_m_s, 13, 0);
    assert_near(f->power[PARE_POWERED_RANGE].speed_m_s,
                f->sheet.figure[PARE_BEST_RANGE_SPEED].value, 0);
}

static void a_brief_without_a_speed_has_no_cruise_and_says_so(void **state)
{
    fixture *f = *state;
    const pare_flown flown[] = {{PARE_FLOWN_THRUST, 1, 1}};
    fly_at(f, 1, flown);
    compute(f);
    assert_false(f->power[PARE_POWERED_CRUISE].exists);
    assert_string_equal(f->power[PARE_POWERED_CRUISE].why, "the brief flies it at no set speed");
    assert_true(f->power[PARE_POWERED_HOVER].exists);
}

static void a_craft_too_heavy_to_hover_says_so_in_all_three(void **state)
{
    fixture *f = *state;
    compute(f);
    f->sheet.rig.mass_kg = 9;
    f->sheet.figure[PARE_BEST_RANGE_SPEED].exists = false;
    strcpy(f->sheet.figure[PARE_BEST_RANGE_SPEED].why, "it does not fly");
    pare_craft_power(&f->craft, &f->sheet, f->power);
    for (int i = 0; i < PARE_POWERED; i++) {
        assert_false(f->power[i].exists);
        assert_true(f->power[i].why[0] != '\0');
    }
    assert_string_equal(f->power[PARE_POWERED_RANGE].why, "it does not fly");
}

int main(void)
{
#define CASE(f) cmocka_unit_test_setup_teardown(f, setup, teardown)
    const struct CMUnitTest tests[] = {
        CASE(rows_of_the_table_are_all_parts_of_the_sum),
        CASE(hovers_budget_is_the_sheets_hover),
        CASE(cruise_is_the_speed_flown_for_the_longest),
        CASE(a_brief_without_a_speed_has_no_cruise_and_says_so),
        CASE(a_craft_too_heavy_to_hover_says_so_in_all_three),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
