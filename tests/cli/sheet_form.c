/* sheet_form.c: the sheet as ruler, outline and curve: each against the sheet's own figures. */
#include "run.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

static json_t *get(const json_t *object, const char *key)
{
    json_t *found = json_object_get(object, key);
    if (!found)
        fail_msg("no key '%s'", key);
    return found;
}

static double item(const json_t *list, size_t index)
{
    return json_number_value(json_array_get(list, index));
}

static const char *text(const json_t *object, const char *key)
{
    const char *found = json_string_value(get(object, key));
    assert_non_null(found);
    return found;
}

/* ---- ruler ---- */

static void the_ruler_s_slices_lie_end_to_end_and_weigh_what_the_craft_does(void **state)
{
    (void)state;
    json_t *sheet = run_json("sheet hedgerow --json" DEMO);
    json_t *ruler = run_json("sheet hedgerow --ruler --json" DEMO);
    double at_g = 0, share[3] = {0}, known_g[16] = {0};
    const json_t *slices = get(ruler, "slices"), *systems = get(ruler, "systems");
    size_t system = 0;
    for (size_t i = 0; i < json_array_size(slices); i++) {
        const json_t *slice = json_array_get(slices, i);
        if (strcmp(text(slice, "system"), text(json_array_get(systems, system), "system")) != 0) {
            system++;
            assert_near(number(json_array_get(systems, system), "from_g"), at_g, 1e-6);
        }
        assert_string_equal(text(slice, "system"), text(json_array_get(systems, system), "system"));
        assert_near(number(slice, "from_g"), at_g, 1e-6);
        assert_true(json_is_object(get(slice, "gram")));
        at_g += number(slice, "grams");
        known_g[system] += number(slice, "grams");
        /* A share of a figure is its change over itself. */
        const json_t *gram = get(slice, "gram");
        assert_within(number(gram, "roll_percent") / 100 * number(sheet, "roll_rad_s2"),
                      number(gram, "roll_rad_s2"), 1e-6);
    }
    assert_int_equal(system + 1, json_array_size(systems));
    for (size_t i = 0; i < json_array_size(systems); i++) {
        json_t *by = get(json_array_get(systems, i), "known");
        const char *key;
        json_t *grams;
        json_object_foreach(by, key, grams) known_g[i] -= json_number_value(grams);
        assert_near(known_g[i], 0, 1e-6);
    }
    assert_near(at_g, number(sheet, "all_up_g"), 1e-6);
    assert_near(number(ruler, "whole_g"), fmax(at_g, number(ruler, "limit_g")), 1e-6);
    assert_near(number(ruler, "limit_g"), number(sheet, "limit_g"), 0);
    static const char *const key[] = {"roll_share", "pitch_share", "yaw_share"};
    for (size_t i = 0; i < json_array_size(systems); i++)
        for (int axis = 0; axis < 3; axis++)
            share[axis] += number(json_array_get(systems, i), key[axis]);
    for (int axis = 0; axis < 3; axis++)
        assert_near(share[axis], 1, 1e-8);
    json_decref(ruler);
    json_decref(sheet);
}

/* What a trial takes off and puts on is what the sheet's all-up mass changes by. */
static void what_is_tried_shaves_the_ruler(void **state)
{
    (void)state;
    static const char tried[] = "bumper=off,tower=ti-100,joint.motor_base.material=titanium";
    char line[256];
    snprintf(line, sizeof line, "sheet hedgerow --try %s --json" DEMO, tried);
    json_t *sheet = run_json(line);
    snprintf(line, sizeof line, "sheet hedgerow --try %s --ruler --json" DEMO, tried);
    json_t *ruler = run_json(line);
    assert_string_equal(text(ruler, "tried"), tried);
    double off_g = 0;
    bool gone = false;
    const json_t *slices = get(ruler, "slices");
    for (size_t i = 0; i < json_array_size(slices); i++) {
        const json_t *slice = json_array_get(slices, i);
        off_g += number(slice, "off_g");
        if (strcmp(text(slice, "name"), "bumper") == 0) {
            gone = true;
            assert_near(number(slice, "grams"), 0, 0);
            assert_true(json_is_null(get(slice, "roll_share")));
            assert_null(json_object_get(slice, "gram"));
        }
    }
    assert_true(gone);
    assert_near(-off_g, number(get(sheet, "change"), "all_up_g"), 1e-6);
    json_decref(ruler);
    json_decref(sheet);
}

static void the_ruler_s_bands_are_those_of_the_swaps(void **state)
{
    (void)state;
    json_t *swaps = run_json("swaps hedgerow --json" DEMO);
    json_t *ruler = run_json("sheet hedgerow --ruler --json" DEMO);
    const json_t *sums = get(swaps, "bands"), *bands = get(ruler, "bands");
    assert_true(json_equal(sums, bands));
    assert_int_equal(json_object_size(bands), 3);
    json_decref(ruler);
    json_decref(swaps);
}

/* ---- outline ---- */

/* The shoelace formula. */
static double area_of(const json_t *loop)
{
    double twice = 0;
    const size_t count = json_array_size(loop);
    for (size_t i = 0; i < count; i++) {
        const json_t *a = json_array_get(loop, i), *b = json_array_get(loop, (i + 1) % count);
        twice += item(a, 0) * item(b, 1) - item(b, 0) * item(a, 1);
    }
    return fabs(twice) / 2;
}

static void a_propeller_from_above_is_its_disc_at_its_station(void **state)
{
    (void)state;
    json_t *outline = run_json("sheet hedgerow --outline --json" DEMO);
    const json_t *discs = get(outline, "discs"),
                 *pieces = get(get(get(outline, "views"), "above"), "shapes");
    size_t seen = 0;
    json_int_t boxes = 0;
    assert_int_equal(json_array_size(discs), 4);
    for (size_t i = 0; i < json_array_size(pieces); i++) {
        const json_t *piece = json_array_get(pieces, i);
        boxes += json_is_true(get(piece, "boxed"));
        if (!json_is_true(get(piece, "disc")))
            continue;
        const json_t *disc = json_array_get(discs, (size_t)json_integer_value(get(piece, "copy")));
        const json_t *loop = json_array_get(get(piece, "loops"), 0);
        const double d = number(disc, "diameter_mm"), pi = 3.14159265358979323846;
        /* A regular polygon of 48 corners; a hundredth of a millimetre is rounded away. */
        assert_within(area_of(loop), 6 * d * d * sin(2 * pi / 48), 1e-3);
        for (size_t k = 0; k < 2; k++)
            assert_near(item(get(piece, "middle_mm"), k), item(get(disc, "at_mm"), k), 0.011);
        seen++;
    }
    assert_int_equal(seen, 4);
    assert_true(boxes > 0);
    assert_int_equal(boxes, json_integer_value(get(get(get(outline, "views"), "above"), "boxes")));
    json_decref(outline);
}

static void an_outline_holds_every_item_and_joint_and_the_sheet_s_balance(void **state)
{
    (void)state;
    json_t *sheet = run_json("sheet hedgerow --loadout race --json" DEMO);
    json_t *outline = run_json("sheet hedgerow --loadout race --outline --json" DEMO);
    const json_t *items = get(outline, "items"), *joints = get(outline, "joints"),
                 *ledger = get(sheet, "ledger");
    size_t found[2] = {0};
    assert_string_equal(text(outline, "loadout"), "race");
    for (size_t i = 0; i < json_array_size(ledger); i++) {
        const json_t *line = json_array_get(ledger, i);
        const bool joint = strcmp(text(line, "of"), "joint") == 0;
        const json_t *list = joint ? joints : items;
        for (size_t k = 0; k < json_array_size(list); k++) {
            const json_t *one = json_array_get(list, k);
            if (strcmp(text(one, joint ? "joint" : "name"), text(line, "name")) != 0 ||
                (!joint && strcmp(text(line, "of"), "item") != 0))
                continue;
            found[joint]++;
            assert_near(number(one, "all_g"), number(line, "all_g"), 1e-9);
            assert_near(number(one, "count"), number(line, "count"), 0);
        }
    }
    assert_int_equal(found[0], json_array_size(items));
    assert_int_equal(found[1], json_array_size(joints));
    for (size_t k = 0; k < 3; k++)
        assert_near(item(get(outline, "cg_mm"), k), item(get(sheet, "cg_mm"), k), 0.0051);
    assert_near(number(outline, "pack_shift_mm"), number(sheet, "pack_shift_mm"), 0.0051);
    json_decref(outline);
    json_decref(sheet);
}

static void what_is_tried_is_not_in_the_outline_any_more(void **state)
{
    (void)state;
    json_t *with = run_json("sheet hedgerow --outline --json" DEMO);
    json_t *without = run_json("sheet hedgerow --try bumper=off --outline --json" DEMO);
    assert_int_equal(json_array_size(get(with, "items")),
                     json_array_size(get(without, "items")) + 1);
    const json_t *pieces = get(get(get(without, "views"), "side"), "shapes");
    assert_true(json_array_size(pieces) > 10);
    for (size_t i = 0; i < json_array_size(pieces); i++)
        assert_true(strcmp(text(json_array_get(pieces, i), "item"), "bumper") != 0);
    json_decref(without);
    json_decref(with);
}

/* ---- curves ---- */

static void curves_carry_their_units_and_the_craft_s_own_point(void **state)
{
    (void)state;
    json_t *sheet = run_json("sheet thimble --json" DEMO);
    static const struct {
        const char *of, *x, *y;
    } rows[] = {{"minutes", "m/s", "min"},
                {"current", "m/s", "A"},
                {"sag", "min", "V"},
                {"wire", "min", "C"},
                {"roll", "ms", "deg/s"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char line[128];
        snprintf(line, sizeof line, "sheet thimble --curve %s --json" DEMO, rows[i].of);
        json_t *curve = run_json(line);
        assert_string_equal(text(curve, "of"), rows[i].of);
        assert_string_equal(text(get(curve, "x"), "unit"), rows[i].x);
        assert_string_equal(text(get(curve, "y"), "unit"), rows[i].y);
        const json_t *x = get(get(curve, "x"), "values"), *y = get(get(curve, "y"), "values");
        const size_t points = json_array_size(x);
        assert_true(points > 20);
        assert_int_equal(json_array_size(y), points);
        const json_t *own = json_array_get(get(curve, "marks"), 0);
        assert_true(number(own, "y_u") > 0);
        assert_between(number(own, "x"), item(x, 0), item(x, points - 1));
        if (strcmp(rows[i].of, "sag") == 0) {
            assert_within(number(own, "x"), number(sheet, "flown_min"), 1e-9);
            assert_within(number(own, "y"), number(sheet, "landing_cell_v"), 1e-9);
            assert_within(number(own, "y_u"), number(sheet, "landing_cell_v_u"), 1e-9);
        }
        if (strcmp(rows[i].of, "current") == 0)
            assert_within(item(y, 0), number(sheet, "hover_a"), 1e-6);
        json_decref(curve);
    }
    json_decref(sheet);
}

static void a_curve_reads_as_text(void **state)
{
    (void)state;
    run_prints_golden("sheet_curve_sag", "sheet thimble --curve sag" DEMO);
    run_prints_golden("sheet_curve_roll", "sheet thimble --curve roll" DEMO);
}

/* ---- refusals ---- */

static void forms_that_cannot_be_given_are_refused(void **state)
{
    (void)state;
    run_refuses("sheet thimble --curve sga" DEMO, 2, "pare: no curve 'sga'; did you mean sag?\n");
    run_refuses("sheet thimble --curve loudness" DEMO, 2,
                "pare: no curve 'loudness'; there are minutes, current, sag, wire and roll\n");
    run_refuses("sheet thimble --ruler" DEMO, 3,
                "pare: --ruler and --outline are JSON: add --json; the sheet shows the ruler, and "
                "pare report draws both\n");
    run_refuses("sheet thimble --ruler --outline --json" DEMO, 3,
                "pare: --ruler, --outline and --curve are one answer each; right would be one of "
                "them\n");
    run_refuses("sheet thimble --curve sag --all" DEMO, 3,
                "pare: --ruler, --outline and --curve stand without --all and --check\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_ruler_s_slices_lie_end_to_end_and_weigh_what_the_craft_does),
        cmocka_unit_test(what_is_tried_shaves_the_ruler),
        cmocka_unit_test(the_ruler_s_bands_are_those_of_the_swaps),
        cmocka_unit_test(a_propeller_from_above_is_its_disc_at_its_station),
        cmocka_unit_test(an_outline_holds_every_item_and_joint_and_the_sheet_s_balance),
        cmocka_unit_test(what_is_tried_is_not_in_the_outline_any_more),
        cmocka_unit_test(curves_carry_their_units_and_the_craft_s_own_point),
        cmocka_unit_test(a_curve_reads_as_text),
        cmocka_unit_test(forms_that_cannot_be_given_are_refused),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
