/* rooms: store advise craft physics base */
/* swap_list.c: the list of swaps: rows against trials, what a row says, the order, what goes
 * together. */
#include "swap_fixture.h"

#include <math.h>

static void find(fixture *f, int loadout, pare_wish wish, pare_swaps *swaps)
{
    if (pare_swaps_find(f->bench, f->craft, loadout, wish, f->arena, swaps, &f->err) != PARE_OK)
        fail_msg("%s", f->err.text);
    assert_true(swaps->count > 20);
}

static void load(fixture *f, const pare_craft *craft, int loadout, pare_sheet *sheet)
{
    if (pare_craft_load(craft, loadout, &f->loaded, &f->err) != PARE_OK)
        fail_msg("%s", f->err.text);
    weigh(&f->loaded, sheet);
}

static void a_trial_of_each_row_gives_its_numbers_bit_for_bit(void **state)
{
    fixture *f = *state;
    for (int loadout = -1; loadout < 3; loadout++) {
        pare_swaps swaps;
        find(f, loadout, PARE_WISH_GRAMS, &swaps);
        load(f, f->craft, loadout, &f->sheet);
        for (size_t i = 0; i < swaps.count; i++) {
            const pare_swap *row = &swaps.swap[i];
            tried(f, row->applied.id);
            load(f, &f->changed, loadout, &f->other);
            for (int k = 0; k < PARE_FIGURES; k++) {
                if (!f->sheet.figure[k].exists || !f->other.figure[k].exists) {
                    assert_true(isnan(row->change[k]));
                    continue;
                }
                const double change = f->other.figure[k].value - f->sheet.figure[k].value;
                assert_true(same_bits(change, row->change[k]));
            }
            assert_memory_equal(&f->applied, &row->applied, sizeof f->applied);
        }
    }
}

static void a_list_of_one_swap_is_that_swap(void **state)
{
    fixture *f = *state;
    static pare_craft listed;
    pare_swaps swaps;
    find(f, -1, PARE_WISH_GRAMS, &swaps);
    for (size_t i = 0; i < swaps.count; i++) {
        tried(f, swaps.swap[i].applied.id);
        assert_int_equal(
            pare_swap_apply_list(f->bench, f->craft, swaps.swap[i].applied.id, &listed, &f->err),
            PARE_OK);
        weigh(&f->changed, &f->sheet);
        weigh(&listed, &f->other);
        assert_true(same_sheets(&f->sheet, &f->other));
    }
}

static void undoing_a_swap_restores_the_sheet_bit_for_bit(void **state)
{
    fixture *f = *state;
    static const char *const there_and_back[][2] = {
        {"motor=mo-b", "motor=mo-a"},
        {"propeller=pr-b", "propeller=pr-a"},
        {"frame=fr-b", "frame=fr-a"},
        {"esc=es-b", "esc=es-a"},
        {"esc=es-20", "esc=es-a"},
        {"pack=pa-6", "pack=pa-4"},
        {"capacitor=cp-20", "capacitor=cp-35"},
        {"camera=ca-19", "camera=ca-28"},
        {"antenna=an-snap", "antenna=an-screw"},
        {"mount=ti-a", "mount=mt-a"},
        {"bumper=off", "bumper=bu-a"},
        {"elbow=off", "elbow=el-a"},
        {"brain=fe-a", "brain=fc-a"},
        {"motor=sought-29g", "motor=mo-a"},
        {"antenna.length=60mm", "antenna.length=110mm"},
        {"joint.motor_base.material=titanium", "joint.motor_base.material=steel"},
        {"joint.motor_base.count=8", "joint.motor_base.count=16"},
        {"joint.motor_base.length=8mm", "joint.motor_base.length=10mm"},
        {"joint.arm_root.material=aluminium", "joint.arm_root.material=steel"},
        {"run.lead.gauge=16", "run.lead.gauge=12"},
        {"run.lead.length=80mm", "run.lead.length=120mm"},
        {"run.phase.length=100mm", "run.phase.length=150mm"},
        {"run.phase.gauge=22", "run.phase.gauge=20"},
    };
    weigh(f->craft, &f->sheet);
    for (size_t i = 0; i < sizeof there_and_back / sizeof there_and_back[0]; i++) {
        tried(f, there_and_back[i][0]);
        weigh(&f->changed, &f->other);
        if (same_sheets(&f->sheet, &f->other))
            fail_msg("%s changes nothing", there_and_back[i][0]);
        if (pare_swap_apply(f->bench, &f->changed, there_and_back[i][1], &f->changed, NULL,
                            &f->err) != PARE_OK)
            fail_msg("%s", f->err.text);
        weigh(&f->changed, &f->other);
        if (!same_sheets(&f->sheet, &f->other))
            fail_msg("%s and back changes the sheet", there_and_back[i][0]);
    }
}

static void free_rows_come_first_and_sought_ones_last(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    for (int wish = 0; wish < PARE_WISHES; wish++) {
        find(f, -1, (pare_wish)wish, &swaps);
        int group = 0, of_group[3] = {0};
        for (size_t i = 0; i < swaps.count; i++) {
            const int here =
                swaps.swap[i].applied.sought ? 2 : swaps.swap[i].band != PARE_BAND_FREE;
            assert_true(here >= group);
            group = here;
            of_group[group]++;
        }
        assert_true(of_group[0] > 0 && of_group[1] > 0 && of_group[2] > 0);
    }
}

static void the_order_follows_the_wish_and_is_the_same_every_time(void **state)
{
    fixture *f = *state;
    pare_swaps swaps, again;
    for (int wish = 0; wish < PARE_WISHES; wish++) {
        find(f, -1, (pare_wish)wish, &swaps);
        find(f, -1, (pare_wish)wish, &again);
        assert_int_equal(swaps.count, again.count);
        for (size_t i = 0; i < swaps.count; i++)
            assert_string_equal(swaps.swap[i].applied.id, again.swap[i].applied.id);
        for (size_t i = 1; i < swaps.count; i++) {
            const pare_swap *a = &swaps.swap[i - 1], *b = &swaps.swap[i];
            if ((a->band == PARE_BAND_FREE) != (b->band == PARE_BAND_FREE) || b->applied.sought)
                continue;
            if (wish == PARE_WISH_GRAMS)
                assert_true(a->grams_kg >= b->grams_kg);
            else if (wish == PARE_WISH_MINUTES)
                assert_true(a->change[PARE_FLOWN_TIME] >= b->change[PARE_FLOWN_TIME]);
            else if (wish == PARE_WISH_THRUST)
                assert_true(a->change[PARE_TWR_HALF] >= b->change[PARE_TWR_HALF]);
            else if (wish == PARE_WISH_QUICKNESS)
                assert_true(a->change[PARE_ROLL] + a->change[PARE_PITCH] >=
                            b->change[PARE_ROLL] + b->change[PARE_PITCH]);
            else if (wish == PARE_WISH_CRASH)
                assert_true(a->change[PARE_CRASH] <= b->change[PARE_CRASH]);
            else if (wish == PARE_WISH_MONEY)
                assert_true(isnan(b->money_per_g) || a->money_per_g <= b->money_per_g);
        }
    }
}

static void free_means_no_money_and_no_kept_job_and_never_the_capacitor(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    find(f, -1, PARE_WISH_GRAMS, &swaps);
    bool capacitor = false;
    for (size_t i = 0; i < swaps.count; i++) {
        const pare_swap *row = &swaps.swap[i];
        capacitor = capacitor || strncmp(row->applied.id, "capacitor=", 10) == 0;
        if (row->band != PARE_BAND_FREE)
            continue;
        assert_near(row->applied.money, 0, 0);
        assert_int_equal(row->applied.jobs_lost & f->craft->brief.keep, 0);
        assert_true(strncmp(row->applied.id, "capacitor", 9) != 0);
    }
    assert_true(capacitor); /* it is listed, and costs nothing: three smaller ones are owned */
    assert_near(row_of(&swaps, "capacitor=cp-20")->applied.money, 0, 0);
    assert_int_equal(row_of(&swaps, "capacitor=cp-20")->band, PARE_BAND_CHEAP);
}

static void a_kept_job_is_not_offered_up(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    find(f, -1, PARE_WISH_GRAMS, &swaps);
    assert_non_null(row_of(&swaps, "bumper=off"));
    assert_non_null(row_of(&swaps, "elbow=off"));
    assert_null(row_of(&swaps, "camera=off"));
    assert_null(row_of(&swaps, "mount=off"));
    assert_null(row_of(&swaps, "receiver=off"));
    assert_null(row_of(&swaps, "capacitor=off"));
    assert_null(row_of(&swaps, "pack=off"));
}

static void every_screw_and_gauge_swap_is_said_to_be_weaker_or_hotter(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    find(f, -1, PARE_WISH_GRAMS, &swaps);
    int screws = 0, gauges = 0;
    for (size_t i = 0; i < swaps.count; i++) {
        const pare_applied *applied = &swaps.swap[i].applied;
        if (strncmp(applied->id, "joint.", 6) == 0) {
            assert_true(applied->weaker);
            screws++;
        } else if (strstr(applied->id, ".gauge=")) {
            assert_true(applied->hotter);
            gauges++;
        } else {
            assert_false(applied->weaker || applied->hotter);
        }
    }
    assert_true(screws > 0 && gauges > 0);
}

static void a_row_with_cells_beyond_a_rating_names_what_it_breaks(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    find(f, -1, PARE_WISH_GRAMS, &swaps);
    const pare_swap *six = row_of(&swaps, "pack=pa-6");
    assert_non_null(six);
    bool motor = false;
    for (size_t i = 0; i < six->breaks; i++)
        motor = motor || strcmp(six->broken[i], "volts.motor") == 0;
    assert_true(motor); /* 25.2 V on 17.5 V */
}

static void a_row_that_eases_a_broken_limit_says_so(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    find(f, -1, PARE_WISH_GRAMS, &swaps);
    const pare_swap *motor = row_of(&swaps, "motor=mo-b"); /* 480 g or so where 400 g are allowed */
    bool eased = false;
    for (size_t i = 0; i < motor->loosens; i++)
        eased = eased || strcmp(motor->loosened[i], "limit.all_up") == 0;
    assert_true(eased);
}

static void shared_errors_cancel_in_what_is_saved(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    find(f, -1, PARE_WISH_GRAMS, &swaps);
    /* Four motors share one error, so 4u each way: 4 x 0.1 g and 4 x 0.2 g. */
    assert_near(1e3 * row_of(&swaps, "motor=mo-b")->grams_u_kg, hypot(0.4, 0.8), 1e-9);
    assert_near(1e3 * row_of(&swaps, "bumper=off")->grams_u_kg, 0.4, 1e-9);
    /* Half of sixteen equal screws: half their 4 %. */
    const pare_swap *half = row_of(&swaps, "joint.motor_base.count=8");
    assert_near(half->grams_u_kg, 0.04 * half->grams_kg, 1e-12);
}

static void a_heavier_part_that_serves_no_wish_is_left_out(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    find(f, -1, PARE_WISH_GRAMS, &swaps);
    for (size_t i = 0; i < swaps.count; i++) {
        const pare_swap *row = &swaps.swap[i];
        assert_true(row->grams_kg > 0 || row->loosens > 0 || row->change[PARE_FLOWN_TIME] > 0 ||
                    row->change[PARE_TWR_HALF] > 0 ||
                    row->change[PARE_ROLL] + row->change[PARE_PITCH] > 0 ||
                    row->change[PARE_CRASH] < 0);
    }
}

static void what_a_loadout_takes_off_or_replaces_is_not_in_its_list(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    find(f, pare_craft_loadout(f->craft, "light"), PARE_WISH_GRAMS, &swaps);
    for (size_t i = 0; i < swaps.count; i++)
        assert_true(strncmp(swaps.swap[i].applied.id, "pack=", 5) != 0);
    find(f, pare_craft_loadout(f->craft, "blind"), PARE_WISH_GRAMS, &swaps);
    for (size_t i = 0; i < swaps.count; i++)
        assert_true(strncmp(swaps.swap[i].applied.id, "camera=", 7) != 0);
}

static void a_part_is_sought_only_where_the_bench_has_nothing_lighter_that_serves(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    find(f, -1, PARE_WISH_GRAMS, &swaps);
    size_t sought = 0;
    for (size_t i = 0; i < swaps.count; i++) {
        const pare_swap *row = &swaps.swap[i];
        if (!row->applied.sought)
            continue;
        sought++;
        assert_true(row->grams_kg > 0 && row->grams_u_kg > 0);
        assert_false(row->applied.priced);
        const char *equals = strchr(row->applied.id, '=');
        const size_t left = (size_t)(equals - row->applied.id) + 1;
        for (size_t k = 0; k < swaps.count; k++) {
            const pare_swap *other = &swaps.swap[k];
            if (k != i && strncmp(other->applied.id, row->applied.id, left) == 0 &&
                strcmp(other->applied.to, "off") != 0)
                assert_true(other->grams_kg <= 0 || other->breaks > 0 ||
                            other->applied.open_question);
        }
    }
    assert_true(sought > 0);
}

static void the_free_ones_together_save_what_they_do_when_listed(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    find(f, -1, PARE_WISH_GRAMS, &swaps);
    char list[2048] = "";
    for (size_t i = 0; i < swaps.free_count; i++) {
        const pare_swap *row = &swaps.swap[swaps.free_index[i]];
        assert_int_equal(row->band, PARE_BAND_FREE);
        if (i)
            strcat(list, ",");
        strcat(list, row->applied.id);
    }
    assert_true(swaps.free_count > 3);
    if (pare_swap_apply_list(f->bench, f->craft, list, &f->changed, &f->err) != PARE_OK)
        fail_msg("%s", f->err.text);
    weigh(f->craft, &f->sheet);
    weigh(&f->changed, &f->other);
    const double saved_kg = f->sheet.figure[PARE_ALL_UP].value - f->other.figure[PARE_ALL_UP].value;
    assert_near(swaps.together_kg, saved_kg, 0);
    assert_near(swaps.band_kg[PARE_BAND_FREE], saved_kg, 0);
    assert_near(swaps.band_money[PARE_BAND_FREE], 0, 0);
}

static void each_band_saves_at_least_what_the_one_before_does(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    for (int loadout = -1; loadout < 3; loadout++) {
        find(f, loadout, PARE_WISH_GRAMS, &swaps);
        assert_true(swaps.band_kg[PARE_BAND_FREE] > 0);
        assert_true(swaps.band_kg[PARE_BAND_CHEAP] >= swaps.band_kg[PARE_BAND_FREE]);
        assert_true(swaps.band_kg[PARE_BAND_DEEP] >= swaps.band_kg[PARE_BAND_CHEAP]);
    }
    find(f, -1, PARE_WISH_GRAMS, &swaps);
    assert_true(swaps.band_kg[PARE_BAND_CHEAP] > swaps.band_kg[PARE_BAND_FREE]);
    assert_true(swaps.band_kg[PARE_BAND_DEEP] > swaps.band_kg[PARE_BAND_CHEAP]);
}

static void what_is_not_to_be_counted_on_is_in_no_band(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    find(f, -1, PARE_WISH_GRAMS, &swaps);
    const pare_swap *boast = row_of(&swaps, "motor=mo-boast");
    assert_non_null(boast);
    assert_near(1e3 * boast->grams_kg, 76, 1e-9);
    /* Listed; with it the deep band would pass the cheap one by more than that. */
    assert_true(swaps.band_kg[PARE_BAND_DEEP] <
                swaps.band_kg[PARE_BAND_CHEAP] + boast->grams_kg - 1e-3);
}

/* The sums alone weigh where the list flies: the same bits all the same. */
static void the_sums_without_a_list_are_those_of_the_list(void **state)
{
    fixture *f = *state;
    for (int loadout = -1; loadout < 3; loadout++) {
        pare_swaps listed, summed;
        find(f, loadout, PARE_WISH_MINUTES, &listed);
        assert_int_equal(pare_swaps_sum(f->bench, f->craft, loadout, f->arena, &summed, &f->err),
                         PARE_OK);
        assert_memory_equal(summed.band_kg, listed.band_kg, sizeof listed.band_kg);
        assert_memory_equal(summed.band_money, listed.band_money, sizeof listed.band_money);
        assert_memory_equal(&summed.together_kg, &listed.together_kg, sizeof listed.together_kg);
        assert_int_equal(summed.count, 0);
        assert_int_equal(summed.free_count, 0);
    }
}

static void a_loadout_that_is_not_there_is_an_error(void **state)
{
    fixture *f = *state;
    pare_swaps swaps;
    assert_int_not_equal(
        pare_swaps_find(f->bench, f->craft, 99, PARE_WISH_GRAMS, f->arena, &swaps, &f->err),
        PARE_OK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_trial_of_each_row_gives_its_numbers_bit_for_bit),
        cmocka_unit_test(a_list_of_one_swap_is_that_swap),
        cmocka_unit_test(undoing_a_swap_restores_the_sheet_bit_for_bit),
        cmocka_unit_test(free_rows_come_first_and_sought_ones_last),
        cmocka_unit_test(the_order_follows_the_wish_and_is_the_same_every_time),
        cmocka_unit_test(free_means_no_money_and_no_kept_job_and_never_the_capacitor),
        cmocka_unit_test(a_kept_job_is_not_offered_up),
        cmocka_unit_test(every_screw_and_gauge_swap_is_said_to_be_weaker_or_hotter),
        cmocka_unit_test(a_row_with_cells_beyond_a_rating_names_what_it_breaks),
        cmocka_unit_test(a_row_that_eases_a_broken_limit_says_so),
        cmocka_unit_test(shared_errors_cancel_in_what_is_saved),
        cmocka_unit_test(a_heavier_part_that_serves_no_wish_is_left_out),
        cmocka_unit_test(what_a_loadout_takes_off_or_replaces_is_not_in_its_list),
        cmocka_unit_test(a_part_is_sought_only_where_the_bench_has_nothing_lighter_that_serves),
        cmocka_unit_test(the_free_ones_together_save_what_they_do_when_listed),
        cmocka_unit_test(what_is_not_to_be_counted_on_is_in_no_band),
        cmocka_unit_test(the_sums_without_a_list_are_those_of_the_list),
        cmocka_unit_test(a_loadout_that_is_not_there_is_an_error),
        cmocka_unit_test(each_band_saves_at_least_what_the_one_before_does),
    };
    return cmocka_run_group_tests(tests, fixture_open, fixture_close);
}
