/* weigh.c: `pare weigh` and `pare scale` as a user types them: what they print, what they refuse, and
 * that a reading is kept as it was read. Each test starts from the demo's bench. The screens are our own
 * earlier output, read before they were kept; figures are held against sums by hand. */
#include "run.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ON " --scale letters --date 2026-05-02" DEMO

static void the_screens_say_what_is_weighed_and_what_is_next(void **state)
{
    (void)state;
    run_prints_golden("weigh-nothing", "weigh drover" DEMO);
    run_prints_golden("weigh", "weigh hedgerow" DEMO);
    run_prints_golden("weigh-readings", "weigh hedgerow frame=118.4g 10*motor_base=9.6g" ON);
    run_prints_golden("weigh-all", "weigh thimble --all" DEMO);
    run_prints_golden("scale", "scale" DEMO);
}

static void a_reading_is_kept_with_its_promise_and_undone(void **state)
{
    (void)state;
    char *before = demo_text();
    run_quietly("weigh hedgerow motor+joint.motor_base=153.9g" ON);
    char *after = demo_text();
    assert_non_null(strstr(after, "  date: 2026-05-02\n  scale: letters\n"
                                  "  of: {motor: 4, joint.motor_base: 16}\n"
                                  "  reads: 153.9 g\n  promise: 15"));
    run_quietly("undo" DEMO);
    char *undone = demo_text();
    assert_string_equal(undone, before);
    run_quietly("redo" DEMO);
    char *redone = demo_text();
    assert_string_equal(redone, after);
    free(redone);
    free(undone);
    free(after);
    free(before);
}

static void a_limit_that_is_near_is_what_is_weighed_for(void **state)
{
    (void)state;
    json_t *far = run_json("weigh bodkin --json" ON);
    run_quietly("craft limit bodkin all_up=484g" DEMO);
    json_t *near = run_json("weigh bodkin --json" ON);
    assert_string_equal(json_string_value(json_object_get(far, "next_for")), "all_up");
    assert_true(json_is_null(json_object_get(far, "next_right")));
    assert_string_equal(json_string_value(json_object_get(near, "next_for")), "chance");
    const json_t *first = json_array_get(json_object_get(near, "next"), 0);
    assert_string_equal(json_string_value(json_object_get(first, "name")), "whole");
    assert_true(number(first, "right") > number(near, "next_right") + 0.1);
    ran r = run("weigh bodkin" ON);
    assert_non_null(strstr(r.out, "the whole craft: the scale will show "));
    assert_non_null(strstr(r.out, "judged rightly with a chance of "));
    ran_free(&r);
    json_decref(near);
    json_decref(far);
}

static void the_same_reading_again_is_one_more(void **state)
{
    (void)state;
    json_t *once = run_json("weigh bodkin frame=71.7g --json" ON);
    json_t *twice = run_json("weigh bodkin frame=71.7g --json" ON);
    json_t *thrice = run_json("weigh bodkin frame=71.7g --json" ON);
    assert_int_equal(json_array_size(json_object_get(once, "readings")), 1);
    assert_int_equal(json_array_size(json_object_get(twice, "readings")), 2);
    assert_int_equal(json_array_size(json_object_get(thrice, "readings")), 3);
    /* The demo's season: twelve readings, one of them missed, and a hover. */
    assert_near(number(thrice, "promises"), 12 + 1 + 3, 0);
    assert_near(number(thrice, "promises_held"), 11 + 1 + 3, 0);
    assert_near(number(thrice, "hover_promises"), 1, 0);
    json_decref(once);
    json_decref(twice);
    json_decref(thrice);
}

static const json_t *item(const json_t *answer, const char *name)
{
    size_t i;
    json_t *one;
    json_array_foreach(json_object_get(answer, "items"), i, one)
    {
        if (strcmp(json_string_value(json_object_get(one, "name")), name) == 0)
            return one;
    }
    fail_msg("no item %s", name);
    return NULL;
}

/* Digits that no scale has once made the adjustment singular, and with it every later question of the craft. */
static void a_reading_with_endless_digits_is_a_reading(void **state)
{
    (void)state;
    run_quietly("weigh hedgerow motor+motor_base=153.7000000000000g" DEMO);
    run_quietly("weigh hedgerow motor+motor_base=153.70000000000000000000000g" DEMO);
    run_quietly("weigh hedgerow" DEMO);
    run_quietly("sheet hedgerow" DEMO);
}

static void the_closure_is_the_whole_less_its_parts(void **state)
{
    (void)state;
    json_t *before = run_json("weigh bodkin --json" DEMO);
    assert_true(json_is_null(json_object_get(before, "closure_g")));
    json_t *after = run_json("weigh bodkin whole=500.0g --json" ON);
    assert_near(number(after, "closure_g"), 500 - number(after, "written_g"), 0.2);
    /* (What letters read of other craft says that it reads a little too much, far below 0.04 %.)
     * Nothing but the whole was read: what is written down is as it was. */
    assert_near(number(after, "written_g"), number(before, "written_g"), 1e-6);
    /* Its doubt: that of the parts, of a reading of 0.1 and 0.1 g, of 0.1 % of 500 g; the last is partly
     * the parts' own. */
    const double parts_u = number(after, "written_g_u"), u = number(after, "closure_g_u");
    assert_between(u, hypot(parts_u, 0.104), hypot(hypot(parts_u, 0.104), 0.5) * 1.0001);
    /* All-up is by the scale. */
    assert_near((number(after, "all_up_low_g") + number(after, "all_up_high_g")) / 2, 500, 0.2);
    json_decref(before);
    json_decref(after);
}

static void the_demos_forgotten_part_is_found_by_name(void **state)
{
    (void)state;
    json_t *answer = run_json("weigh hedgerow --json" DEMO);
    assert_int_equal(json_array_size(json_object_get(answer, "readings")), 10);
    assert_true(json_is_true(json_object_get(answer, "forgotten")));
    const json_t *like = json_object_get(answer, "forgotten_like");
    assert_int_equal(json_array_size(like), 1);
    assert_string_equal(json_string_value(json_array_get(like, 0)), "bz-wren");
    /* 13.8 g by the bench: within two of the closure's own doubt. */
    assert_between(number(answer, "closure_g"), 13.8 - 2 * number(answer, "closure_g_u"),
                   13.8 + 2 * number(answer, "closure_g_u"));
    json_decref(answer);
    /* Once it is written down, the sum closes. */
    run_quietly("craft change hedgerow items.beacon={part:~bz-wren,~at:~[0~mm,~0~mm,~30~mm]}" DEMO);
    answer = run_json("weigh hedgerow --json" DEMO);
    assert_false(json_is_true(json_object_get(answer, "forgotten")));
    assert_between(number(answer, "closure_g"), -2 * number(answer, "closure_g_u"),
                   2 * number(answer, "closure_g_u"));
    json_decref(answer);
}

static void the_sheet_is_by_the_scale(void **state)
{
    (void)state;
    json_t *weigh = run_json("weigh hedgerow --json" DEMO),
           *sheet = run_json("sheet hedgerow --json" DEMO);
    const double middle = (number(weigh, "all_up_low_g") + number(weigh, "all_up_high_g")) / 2;
    assert_near(number(sheet, "all_up_g"), middle, 1e-3);
    /* Nine in ten of a normal: 1.6449 on each side. */
    const double u =
        (number(weigh, "all_up_high_g") - number(weigh, "all_up_low_g")) / 2 / 1.6448536;
    assert_within(number(sheet, "all_up_g_u"), u, 1e-4);
    assert_string_equal(
        json_string_value(json_object_get(json_object_get(sheet, "known"), "all_up_g")), "weighed");
    /* The ledger adds up to it, with what is not written down. */
    double sum = 0, unlisted = 0;
    size_t i;
    json_t *line;
    json_array_foreach(json_object_get(sheet, "ledger"), i, line)
    {
        sum += number(line, "all_g");
        if (strcmp(json_string_value(json_object_get(line, "of")), "unlisted") == 0)
            unlisted = number(line, "all_g");
    }
    assert_near(sum, number(sheet, "all_up_g"), 1e-6);
    /* The sheet leaves masses that no scale read as they are written; the closure does not. */
    assert_near(unlisted, number(weigh, "closure_g"), 0.3);
    json_decref(weigh);
    json_decref(sheet);
    /* In one loadout or in all, read alone or with the whole bench. */
    ran alone = run("sheet hedgerow --loadout race --json" DEMO);
    ran whole = run("sheet hedgerow --loadout race --try bumper=off --json" DEMO);
    assert_int_equal(alone.status + whole.status, 0);
    json_t *one = json_loads(alone.out, 0, NULL), *other = json_loads(whole.out, 0, NULL);
    const double bumper_g = number(one, "all_up_g") - number(other, "all_up_g");
    assert_near(bumper_g, 9.4, 0.2); /* as weighed, not as computed */
    json_decref(one);
    json_decref(other);
    ran_free(&alone);
    ran_free(&whole);
}

static void a_weighed_part_counts_by_the_scale_wherever_it_is(void **state)
{
    (void)state;
    json_t *answer = run_json("weigh drover lead=12.9g --json" ON);
    assert_near(number(item(answer, "run.lead"), "g"), 12.9, 0.15);
    assert_string_equal(json_string_value(json_object_get(item(answer, "run.lead"), "known")),
                        "weighed");
    json_decref(answer);
}

static void readings_come_as_a_list(void **state)
{
    (void)state;
    write_text("readings.csv", "What;Reading;Date\n"
                               "motor 4, joint.motor_base 16;153,8 g;2026-05-03\n"
                               "pack;177,9 g;2026-05-04\n");
    json_t *answer = run_json("weigh hedgerow --from readings.csv --scale letters --json" DEMO);
    assert_int_equal(json_array_size(json_object_get(answer, "readings")), 12);
    json_decref(answer);
    run_refuses("weigh hedgerow frame=118g --from readings.csv" DEMO, 3,
                "pare: weigh takes --from or readings, not both\n");
    char *before = demo_text();
    write_text("bad.csv", "What;Reading;Date\npack;-3 g;2026-05-04\n");
    ran r = run("weigh hedgerow --from bad.csv" DEMO);
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "bad.csv:2"));
    ran_free(&r);
    char *after = demo_text();
    assert_string_equal(after, before);
    free(after);
    free(before);
}

static void what_is_no_reading_is_refused_in_one_line(void **state)
{
    (void)state;
    char *before = demo_text();
    run_refuses(
        "weigh hedgerow frame=OL" ON, 3,
        "pare: 'frame=OL': 'OL' is what a scale shows that cannot weigh it; right would be one "
        "that bears more, or the parts one after another\n");
    run_refuses(
        "weigh hedgerow frame=-1.2g" ON, 3,
        "pare: 'frame=-1.2g': -1.2g is less than nothing: the scale's zero is off; right would "
        "be to empty it, set it to zero and weigh again\n");
    run_refuses("weigh hedgerow frame=118" ON, 3,
                "pare: 'frame=118': 118 has no unit: a mass needs g, kg, oz or lb\n");
    run_refuses("weigh hedgerow frame=118mm" ON, 3,
                "pare: 'frame=118mm': 118mm is a length: a mass needs g, kg, oz or lb\n");
    run_refuses(
        "weigh hedgerow frame=0g" ON, 3,
        "pare: 'frame=0g': 0g is no reading of a part; right would be over 0 g, to 100 kg\n");
    run_refuses("weigh hedgerow frame" ON, 3,
                "pare: 'frame' is no reading; right would be like frame=96.2g, "
                "motor+motor_base=153.7g or whole=689g\n");
    run_refuses("weigh hedgerow fraem=118g" ON, 2,
                "pare: 'fraem=118g': nothing 'fraem' on hedgerow; did you mean frame?\n");
    run_refuses("weigh hedgerow motor+motor=118g" ON, 3,
                "pare: 'motor+motor=118g': motor stands there twice; right would be once, with a "
                "count\n");
    run_refuses("weigh hedgerow 0*motor=118g" ON, 3,
                "pare: '0*motor=118g': '0*motor' is no count of things; right would be like "
                "10*motor_base, 1 to 10000\n");
    run_refuses(
        "weigh hedgerow arm_root=8g" ON, 3,
        "pare: joint.arm_root is in the mass of frame already; right would be to weigh frame\n");
    run_refuses("weigh hedgerow frame=118g --scale leters" DEMO, 2,
                "pare: no scale 'leters'; did you mean letters?\n");
    run_refuses(
        "weigh hedgerow frame=118g --date 2999-01-01" DEMO, 3,
        "pare: --date 2999-01-01 lies ahead; right would be the day on which it happened\n");
    run_refuses("weigh hedgrow frame=118g" DEMO, 2,
                "pare: no craft 'hedgrow'; did you mean hedgerow?\n");
    /* One bad word of two: nothing is kept. */
    run_refuses(
        "weigh hedgerow pack=178g frame=OL" ON, 3,
        "pare: 'frame=OL': 'OL' is what a scale shows that cannot weigh it; right would be one "
        "that bears more, or the parts one after another\n");
    char *after = demo_text();
    assert_string_equal(after, before);
    free(after);
    free(before);
}

static void contradictory_readings_are_named_and_kept(void **state)
{
    (void)state;
    run_quietly("weigh bodkin whole=500.0g" ON);
    ran r = run("weigh bodkin whole=512.0g" ON);
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "does not fit"));
    assert_non_null(strstr(r.out, "500.0 g"));
    assert_non_null(strstr(r.out, "512.0 g"));
    ran_free(&r);
    char *text = demo_text();
    assert_non_null(strstr(text, "reads: 500.0 g"));
    assert_non_null(strstr(text, "reads: 512.0 g"));
    free(text);
}

static void a_scale_is_made_changed_and_checked(void **state)
{
    (void)state;
    run_quietly("scale pocket resolution=0.01g repeatability=0.02g common=1%" DEMO);
    json_t *answer = run_json("scale pocket known=200g known_u=0.01g reads=200.4g --json" DEMO);
    const json_t *pocket = json_array_get(json_object_get(answer, "scales"), 0);
    /* 0.2 % by the check, which is believed but for 1 part in 6000: 0.0224/200 against 1 %. */
    assert_near(number(pocket, "common_percent"), 0.2, 1e-3);
    assert_near(number(pocket, "checks"), 1, 0);
    json_decref(answer);
    /* A reading on it is that much too high. */
    answer = run_json("weigh drover lead=12.90g --scale pocket --json" DEMO);
    assert_near(number(item(answer, "run.lead"), "g"), 12.90 / 1.002, 3e-3);
    json_decref(answer);
    run_refuses("scale balance" DEMO, 2,
                "pare: no scale 'balance'; pare scale lists them, resolution=0.1g makes one\n");
    run_refuses("scale balance known=2g reads=2g" DEMO, 2,
                "pare: no scale 'balance'; a new one needs its last digit, like resolution=0.1g\n");
    run_refuses("scale letters known=2g" DEMO, 3,
                "pare: scale: a check has known= and reads=; right would be like known=7.50g "
                "known_u=0.02g reads=7.5g\n");
    run_refuses("scale letters resolutoin=1g" DEMO, 2,
                "pare: scale takes no 'resolutoin=1g'; did you mean resolution=?\n");
    run_refuses("scale letters resolution=0g" DEMO, 3,
                "pare: scale: resolution is 0g; right would be 0.1 mg to 1 kg\n");
}

static void what_a_bench_keeps_of_them_goes_out_and_in_again(void **state)
{
    (void)state;
    run_quietly("scale letters known=7.5g known_u=0.02g reads=7.5g --date 2026-05-01" DEMO);
    run_quietly("weigh thimble frame=38.1g" ON);
    run_quietly("export -o once.yaml" DEMO);
    run_quietly("import once.yaml --bench again.sqlite");
    run_quietly("export -o twice.yaml --bench again.sqlite");
    char *once = read_file("once.yaml"), *twice = read_file("twice.yaml");
    assert_string_equal(twice, once);
    assert_non_null(strstr(once,
                           "checks: [{date: 2026-05-01, known: 7.5 g, known_u: 0.02 g, reads: "
                           "7.5 g}]"));
    free(twice);
    free(once);
    write_text("wrong.yaml",
               "pare: 1\nscales:\n- {id: x, resolution: 1 g, checks: [{date: 2026-05-01, "
               "known: 5 g, reads: 5 g}]}\n");
    run_refuses("import wrong.yaml --bench again.sqlite", 3,
                "pare: wrong.yaml:3:37: a check without known_u\n");
}

/* By hand: another pack moves the mass by the difference of the two packs, and the chance is a normal's. */
static void each_pack_that_goes_on_has_its_mass_and_its_chance(void **state)
{
    (void)state;
    json_t *answer = run_json("weigh hedgerow --json" DEMO);
    json_t *packs = json_object_get(answer, "packs");
    json_t *sheet = run_json("sheet hedgerow --json" DEMO);
    json_t *parts = run_json("parts --kind pack --json" DEMO);
    const double now_g = number(sheet, "all_up_g");
    double own_g = 0;
    size_t i, k, owned = 0;
    json_t *one, *part;
    assert_true(json_array_size(packs) > 10);
    json_array_foreach(json_object_get(sheet, "ledger"), i, one)
    {
        if (strcmp(json_string_value(json_object_get(one, "name")), "pack") == 0)
            own_g = number(one, "all_g");
    }
    json_array_foreach(packs, i, one)
    {
        const char *id = json_string_value(json_object_get(one, "pack"));
        const double g = number(one, "all_up_g"), u = number(one, "all_up_g_u");
        owned += number(one, "owned") > 0;
        assert_string_not_equal(id, "pa-4s-1550");
        json_array_foreach(json_object_get(parts, "parts"), k, part)
        {
            if (strcmp(json_string_value(json_object_get(part, "id")), id) == 0)
                assert_near(g - now_g, number(part, "mass_g") - own_g, 0.05);
        }
        assert_near(number(one, "all_up_chance"), 0.5 * erfc((g - 620) / u / sqrt(2)), 1e-3);
    }
    assert_true(owned > 0);
    json_decref(parts);
    json_decref(sheet);
    json_decref(answer);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(the_screens_say_what_is_weighed_and_what_is_next, fill_demo),
        cmocka_unit_test_setup(a_reading_is_kept_with_its_promise_and_undone, fill_demo),
        cmocka_unit_test_setup(a_limit_that_is_near_is_what_is_weighed_for, fill_demo),
        cmocka_unit_test_setup(the_same_reading_again_is_one_more, fill_demo),
        cmocka_unit_test_setup(a_reading_with_endless_digits_is_a_reading, fill_demo),
        cmocka_unit_test_setup(the_closure_is_the_whole_less_its_parts, fill_demo),
        cmocka_unit_test_setup(the_demos_forgotten_part_is_found_by_name, fill_demo),
        cmocka_unit_test_setup(the_sheet_is_by_the_scale, fill_demo),
        cmocka_unit_test_setup(a_weighed_part_counts_by_the_scale_wherever_it_is, fill_demo),
        cmocka_unit_test_setup(readings_come_as_a_list, fill_demo),
        cmocka_unit_test_setup(what_is_no_reading_is_refused_in_one_line, fill_demo),
        cmocka_unit_test_setup(contradictory_readings_are_named_and_kept, fill_demo),
        cmocka_unit_test_setup(a_scale_is_made_changed_and_checked, fill_demo),
        cmocka_unit_test_setup(what_a_bench_keeps_of_them_goes_out_and_in_again, fill_demo),
        cmocka_unit_test_setup(each_pack_that_goes_on_has_its_mass_and_its_chance, fill_demo),
    };
    return cmocka_run_group_tests(tests, enter_home, leave_home);
}
