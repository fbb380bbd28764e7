/* rooms: store craft physics base */
/* Drag area: the craft's own, its parts' sum or the law's, and what stated parts take along. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bench_of.h"
#include "craft/drag.h"
#include "craft/law.h"
#include "craft/sheet.h"
#include "near.h"
#include "store/bench.h"

enum { PARTS = 4 };

typedef struct fixture {
    pare_bench *bench;
    pare_craft craft; /* a copy, not yet settled for drag */
    pare_part part[PARTS];
    size_t parts;
    pare_sheet sheet;
} fixture;

static int setup(void **state)
{
    fixture *f = calloc(1, sizeof *f);
    f->bench = bench_of("field-5.yaml");
    f->craft = *pare_bench_craft(f->bench, "field-5");
    f->craft.drag_settled = false;
    f->craft.drag_m2 = 0;
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

static pare_item *item(fixture *f, const char *name)
{
    return &f->craft.item[pare_craft_item(&f->craft, name)];
}

/* Lets an item's part state a drag area. */
static void states(fixture *f, const char *name, double area_cm2)
{
    assert_true(f->parts < PARTS);
    pare_part *part = &f->part[f->parts++];
    *part = *item(f, name)->part;
    part->spec[PARE_SPEC_DRAG_AREA] =
        (pare_value){1e-4 * area_cm2, 0.2e-4 * area_cm2, PARE_STATED, true};
    item(f, name)->part = part;
}

static void settle(fixture *f)
{
    pare_error err = {0};
    if (pare_craft_settle(&f->craft, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

static double drag_cm2(const fixture *f)
{
    return 1e4 * pare_craft_drag_m2(&f->craft);
}

static double compute(fixture *f, pare_figure which)
{
    pare_error err = {0};
    if (pare_sheet_compute(&f->craft, true, &f->sheet, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return f->sheet.figure[which].value;
}

static void nothing_stated_is_the_law_of_the_craft_as_it_stood(void **state)
{
    fixture *f = *state;
    settle(f);
    const double law = 1e4 * pare_law_drag_m2(compute(f, PARE_ALL_UP));
    assert_int_equal(pare_craft_drag_from(&f->craft), PARE_DRAG_BY_LAW);
    assert_within(drag_cm2(f), law, 1e-12);
    item(f, "camera")->off = true;
    settle(f);
    assert_within(drag_cm2(f), law, 1e-12);
    assert_within(1e4 * pare_craft_drag_u_m2(&f->craft), 0.30 * law, 1e-12);
}

static void a_stated_part_that_stays_at_home_takes_its_drag_along(void **state)
{
    fixture *f = *state;
    states(f, "camera", 20);
    settle(f);
    const double whole = drag_cm2(f), slow_m_s = compute(f, PARE_TOP_SPEED);
    assert_within(whole, 1e4 * pare_law_drag_m2(f->sheet.figure[PARE_ALL_UP].value), 1e-12);
    assert_within(1e4 * f->sheet.rig.drag_m2, whole, 1e-12);
    item(f, "camera")->off = true;
    settle(f);
    assert_within(drag_cm2(f), whole - 20, 1e-12);
    assert_within(f->sheet.rig.drag_top_m2, 2 * f->sheet.rig.drag_m2, 1e-15);
    /* At full throttle speed goes roughly with the square root of drag: by hand 80 to 60 cm2. */
    assert_between(compute(f, PARE_TOP_SPEED) / slow_m_s, 1.03, 1.20);
}

static void a_crafts_own_figure_wins(void **state)
{
    fixture *f = *state;
    f->craft.drag_given = true;
    f->craft.drag_m2 = 90e-4;
    states(f, "frame", 30);
    states(f, "camera", 20);
    settle(f);
    assert_int_equal(pare_craft_drag_from(&f->craft), PARE_DRAG_OF_CRAFT);
    assert_within(drag_cm2(f), 90, 1e-12);
    assert_within(1e4 * pare_craft_drag_u_m2(&f->craft), 0.15 * 90, 1e-12);
    item(f, "camera")->off = true;
    assert_within(drag_cm2(f), 70, 1e-12);
}

static void with_the_frames_own_the_craft_is_the_sum_of_its_parts(void **state)
{
    fixture *f = *state;
    states(f, "frame", 40);
    states(f, "camera", 20);
    states(f, "pack", 15);
    settle(f);
    assert_int_equal(pare_craft_drag_from(&f->craft), PARE_DRAG_OF_PARTS);
    assert_within(drag_cm2(f), 75, 1e-12);
    assert_within(1e4 * pare_craft_drag_u_m2(&f->craft), 0.2 * sqrt(1600 + 400 + 225), 1e-12);
    item(f, "pack")->off = true;
    assert_within(drag_cm2(f), 60, 1e-12);
}

static void parts_that_state_more_than_the_law_are_believed(void **state)
{
    fixture *f = *state;
    states(f, "camera", 400);
    settle(f);
    assert_within(drag_cm2(f), 400, 1e-12);
    item(f, "camera")->off = true;
    assert_within(drag_cm2(f), 0.1, 1e-12); /* the least that a sheet is computed with */
}

static void what_comes_adds_and_what_stood_there_unstated_does_not(void **state)
{
    fixture *f = *state;
    states(f, "camera", 20);
    settle(f);
    const double whole = drag_cm2(f);
    states(f, "antenna", 6); /* in the place of one whose drag nobody knows */
    settle(f);
    assert_within(drag_cm2(f), whole, 1e-12);
    states(f, "camera", 26); /* in the place of one of 20 */
    settle(f);
    assert_within(drag_cm2(f), whole + 6, 1e-12);
    pare_item *more = &f->craft.item[f->craft.items++];
    *more = (pare_item){.name = "mast", .part = item(f, "antenna")->part, .count = 2};
    assert_within(drag_cm2(f), whole + 6 + 12, 1e-12);
}

static void a_stated_parts_own_doubt_is_the_figures(void **state)
{
    fixture *f = *state;
    states(f, "frame", 90);
    settle(f);
    compute(f, PARE_TOP_SPEED);
    const double once = f->sheet.figure[PARE_TOP_SPEED].u;
    f->part[0].spec[PARE_SPEC_DRAG_AREA].u *= 2;
    compute(f, PARE_TOP_SPEED);
    assert_true(f->sheet.figure[PARE_TOP_SPEED].u > 1.05 * once);
}

int main(void)
{
#define CASE(f) cmocka_unit_test_setup_teardown(f, setup, teardown)
    const struct CMUnitTest tests[] = {
        CASE(nothing_stated_is_the_law_of_the_craft_as_it_stood),
        CASE(a_stated_part_that_stays_at_home_takes_its_drag_along),
        CASE(a_crafts_own_figure_wins),
        CASE(with_the_frames_own_the_craft_is_the_sum_of_its_parts),
        CASE(parts_that_state_more_than_the_law_are_believed),
        CASE(what_comes_adds_and_what_stood_there_unstated_does_not),
        CASE(a_stated_parts_own_doubt_is_the_figures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
