/* rooms: store advise craft physics base */
/* A craft that lacks what it flies by has no rig, and what it lacks is said; a curve takes no point that is none,
 * and none beyond its room. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "craft/curve_points.h"
#include "craft/to_rig.h"
#include "craft_fixture.h"
#include "near.h"

static int open_craft(void **state)
{
    *state = fixture_open("every-key.yaml", "weir-5");
    return 0;
}

static void what_a_craft_lacks_is_said(void **state)
{
    fixture *f = *state;
    static const struct {
        pare_kind off;
        const char *says;
    } rows[] = {
        {PARE_MOTOR,
         "craft 'weir-5' has no motors on: it needs motors, propellers and a pack to fly"},
        {PARE_PROPELLER,
         "craft 'weir-5' has no propellers on: it needs motors, propellers and a pack to fly"},
        {PARE_PACK, "craft 'weir-5' has no pack on: it needs motors, propellers and a pack to fly"},
    };
    const pare_assembly *assembly = &fixture_sheet(f, false)->assembly;
    pare_rig *rig = malloc(sizeof *rig);
    assert_non_null(rig);
    pare_error err = {0};
    assert_int_equal(pare_craft_rig(f->craft, assembly, rig, &err), PARE_OK);
    assert_int_equal(rig->rotors, 4);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        pare_item *item = &f->craft->item[pare_craft_doing(f->craft, rows[i].off)];
        item->off = true;
        assert_int_equal(pare_craft_rig(f->craft, assembly, rig, &err), PARE_BAD_DATA);
        assert_string_equal(err.text, rows[i].says);
        item->off = false;
    }
    f->craft->brief.altitude_m = 1e6;
    assert_int_equal(pare_craft_rig(f->craft, assembly, rig, &err), PARE_BAD_DATA);
    assert_int_equal(strncmp(err.text, "craft 'weir-5': brief: ", 23), 0);
    free(rig);
}

static void a_curve_takes_points_that_are_some_and_no_more_than_its_room(void **state)
{
    (void)state;
    pare_curve_chart *curve = calloc(1, sizeof *curve);
    assert_non_null(curve);
    const pare_error err = {PARE_BAD_DATA, "it cannot fly so fast"};
    pare_curve_line *line = &curve->line[0];
    curve->lines = 2;
    pare_curve_put(line, (double)NAN, 1);
    pare_curve_put(line, 1, HUGE_VAL);
    pare_curve_put_mark(curve, "top", (double)NAN, 1);
    pare_curve_put_mark(curve, "top", 1, (double)NAN);
    assert_int_equal(line->points, 0);
    assert_int_equal(curve->marks, 0);
    pare_curve_explain(curve, &err);
    assert_string_equal(curve->why, "it cannot fly so fast");
    for (int i = 0; i < PARE_CURVE_POINTS + 3; i++)
        pare_curve_put(line, i, 2 * i);
    assert_int_equal(line->points, PARE_CURVE_POINTS);
    assert_near(line->x[PARE_CURVE_POINTS - 1], PARE_CURVE_POINTS - 1, 0);
    for (int i = 0; i < PARE_CURVE_MARKS + 3; i++)
        pare_curve_put_mark(curve, "one", i, i);
    assert_int_equal(curve->marks, PARE_CURVE_MARKS);
    curve->why[0] = '\0';
    pare_curve_explain(curve, &err); /* it has points: nothing is to be explained */
    assert_string_equal(curve->why, "");
    free(curve);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_a_craft_lacks_is_said, open_craft, fixture_close),
        cmocka_unit_test(a_curve_takes_points_that_are_some_and_no_more_than_its_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
