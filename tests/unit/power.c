/* rooms: store craft physics base */
/* Where a craft's power goes, and which motor carries what, on a craft that was typed as a user types one. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bench_of.h"
#include "craft/balance.h"
#include "craft/power.h"
#include "near.h"
#include "store/bench.h"

typedef struct fixture {
    pare_bench *bench;
    pare_craft craft; /* a copy to change */
    pare_sheet sheet;
    pare_powered power[PARE_POWERED];
    pare_balance balance;
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

static void watts_are_as_uncertain_as_what_they_rest_on(void **state)
{
    fixture *f = *state;
    pare_error err = {0};
    if (pare_sheet_compute(&f->craft, true, &f->sheet, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_craft_power(&f->craft, &f->sheet, f->power);
    const pare_powered *hover = &f->power[PARE_POWERED_HOVER];
    const double *u_w = hover->u_w;
    /* The pack's power at its chemistry is known about as well as at its terminals. */
    const pare_sheet_figure *whole = &f->sheet.figure[PARE_HOVER_W];
    assert_within(u_w[PARE_POWER_ROWS] / hover->budget.open_w, whole->u / whole->value, 0.15);
    /* Ideal power rests on mass, to the 3/2, and download alone: by hand. */
    const pare_sheet_figure *mass = &f->sheet.figure[PARE_ALL_UP];
    const double kb = f->sheet.rig.blockage;
    assert_within(u_w[0] / hover->budget.induced_w,
                  1.5 * hypot(mass->u / mass->value, 0.40 * kb / (1 - kb)), 0.05);
    for (size_t row = 0; row < PARE_POWER_ROWS; row++)
        assert_true((u_w[row] > 0) ==
                    (hover->budget.drag_w != pare_power_part(&hover->budget, row)));
    assert_true(f->power[PARE_POWERED_CRUISE].u_w[2] >
                0.25 * f->power[PARE_POWERED_CRUISE].budget.drag_w);
    compute(f); /* a sheet without uncertainties has none here */
    assert_near(f->power[PARE_POWERED_HOVER].u_w[0], 0, 0);
}

/* ---- balance ---- */

static void balance_of(fixture *f, bool with_u)
{
    pare_error err = {0};
    if (pare_sheet_compute(&f->craft, with_u, &f->sheet, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_craft_balance(&f->craft, &f->sheet, &f->balance);
}

static pare_item *item(fixture *f, const char *name)
{
    return &f->craft.item[pare_craft_item(&f->craft, name)];
}

static void shares_follow_from_where_the_centre_of_mass_is(void **state)
{
    fixture *f = *state;
    item(f, "pack")->at_m[0].x = 0.030;
    balance_of(f, false);
    /* By hand: motors at 80 mm before and behind. */
    const pare_vec3 at = f->sheet.assembly.all.at_m;
    const pare_balance *b = &f->balance;
    assert_true(b->exists);
    assert_int_equal(b->motors, 4);
    assert_near(b->front, 0.5 * (1 + at.x / 0.080), 1e-12);
    assert_near(b->front + b->rear, 1, 1e-12);
    assert_near(b->left, 0.5 * (1 + at.y / 0.080), 1e-12);
    double carried_kg = 0;
    for (size_t i = 0; i < 4; i++)
        carried_kg += b->motor[i].carries_kg;
    assert_within(carried_kg, f->sheet.figure[PARE_ALL_UP].value, 1e-12);
    assert_true(b->motor[0].output > f->sheet.figure[PARE_HOVER_OUTPUT].value);
    assert_true(b->motor[2].output < f->sheet.figure[PARE_HOVER_OUTPUT].value);
    /* The front pair is at full output first: half of all full thrust over the pair's share. */
    assert_within(b->most, f->sheet.figure[PARE_TWR_FRESH].value * 0.25 / b->motor[0].share, 1e-12);
}

static void the_pack_shifted_as_told_makes_all_carry_alike(void **state)
{
    fixture *f = *state;
    item(f, "pack")->at_m[0].x = 0.030;
    balance_of(f, false);
    const double more = f->balance.more, pack_a = f->sheet.figure[PARE_HOVER_A].value;
    assert_true(f->balance.shifts && more > 0);
    item(f, "pack")->at_m[0].x += f->balance.shift_x_m;
    item(f, "pack")->at_m[0].y += f->balance.shift_y_m;
    balance_of(f, false);
    for (size_t i = 0; i < 4; i++)
        assert_near(f->balance.motor[i].share, 0.25, 1e-12);
    assert_near(f->balance.more, 0, 1e-12);
    assert_within(pack_a / f->sheet.figure[PARE_HOVER_A].value, 1 + more, 1e-6);
    assert_within(f->balance.most, f->sheet.figure[PARE_TWR_FRESH].value, 1e-9);
}

static void doubt_about_the_centre_of_mass_is_doubt_about_the_shares(void **state)
{
    fixture *f = *state;
    balance_of(f, true);
    /* By hand: 160 mm apart. */
    assert_within(f->balance.front_u, f->sheet.figure[PARE_CG_X].u / 0.160, 1e-12);
    assert_within(f->balance.left_u, f->sheet.figure[PARE_CG_Y].u / 0.160, 1e-12);
}

static void a_craft_that_hangs_out_of_its_motors_says_so(void **state)
{
    fixture *f = *state;
    item(f, "pack")->at_m[0].x = 0.5;
    balance_of(f, false);
    assert_false(f->balance.exists);
    assert_non_null(strstr(f->balance.why, "would have to pull down"));
    assert_false(f->sheet.figure[PARE_HOVER_A].exists);
    assert_non_null(strstr(f->sheet.figure[PARE_HOVER_A].why, "would have to pull down"));
    assert_true(f->sheet.figure[PARE_ALL_UP].exists);
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
        CASE(watts_are_as_uncertain_as_what_they_rest_on),
        CASE(shares_follow_from_where_the_centre_of_mass_is),
        CASE(the_pack_shifted_as_told_makes_all_carry_alike),
        CASE(doubt_about_the_centre_of_mass_is_doubt_about_the_shares),
        CASE(a_craft_that_hangs_out_of_its_motors_says_so),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
