/* stand_source.c: a sheet says whether somebody measured its rotors, and a table changes it. */
#include "run.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define OWN " --bench own.sqlite"

static int own_bench(void **state)
{
    (void)state;
    remove("own.sqlite");
    ran r = run("export -o all.yaml" DEMO);
    assert_int_equal(r.status, 0);
    ran_free(&r);
    r = run("import all.yaml" OWN);
    assert_int_equal(r.status, 0);
    ran_free(&r);
    return 0;
}

/* Invented, of hedgerow's pair: a propeller that pulls a little less than the model has it, and a motor
 * that turns slower under load. */
static void import_table(void)
{
    write_text("stand.csv", "motor,propeller,altitude m,temperature C,throttle %,volts V,current A,"
                            "thrust gf,speed rpm\n"
                            "mo-2207-2750,pr-51-43,120,20,25,16.0,2.2,170,10900\n"
                            "mo-2207-2750,pr-51-43,120,20,50,15.8,7.4,430,17100\n"
                            "mo-2207-2750,pr-51-43,120,20,75,15.4,19.6,860,23900\n"
                            "mo-2207-2750,pr-51-43,120,20,100,14.9,37.5,1270,29000\n");
    ran r = run("import stand.csv" OWN);
    if (r.status != 0)
        fail_msg("%s", r.err);
    ran_free(&r);
}

static const char *word(const json_t *sheet, const char *object, const char *key)
{
    const char *text = json_string_value(json_object_get(json_object_get(sheet, object), key));
    return text ? text : "none";
}

static void a_sheet_without_a_table_says_that_it_is_by_the_model(void **state)
{
    (void)state;
    json_t *sheet = run_json("sheet hedgerow --json" OWN);
    assert_string_equal(word(sheet, "rotors", "from"), "line");
    assert_string_equal(word(sheet, "sources", "hover_a"), "line");
    assert_string_equal(word(sheet, "sources", "top_speed_m_s"), "line");
    assert_string_equal(word(sheet, "sources", "all_up_g"), "none");
    assert_string_equal(word(sheet, "sources", "crash_j"), "none");
    assert_string_equal(word(sheet, "known", "hover_a"), "computed");
    assert_non_null(strstr(word(sheet, "rotors", "words"),
                           "from the model, the propeller by its size and line, "
                           "uncertain by "));
    json_decref(sheet);
}

static void an_imported_table_changes_the_sheet_and_it_says_so(void **state)
{
    (void)state;
    json_t *before = run_json("sheet hedgerow --json" OWN);
    import_table();
    json_t *after = run_json("sheet hedgerow --json" OWN);
    assert_string_equal(word(after, "rotors", "from"), "stand");
    assert_string_equal(word(after, "rotors", "motor"), "mo-2207-2750");
    assert_string_equal(word(after, "rotors", "propeller"), "pr-51-43");
    const json_t *rotors = json_object_get(after, "rotors");
    assert_near(number(rotors, "rows"), 4, 0);
    assert_near(number(rotors, "low_v"), 14.9, 1e-9);
    assert_near(number(rotors, "high_v"), 16, 1e-9);
    assert_between(number(rotors, "thrust_u"), 0.02, 0.05);
    assert_true(number(rotors, "thrust_u") <
                0.6 * number(json_object_get(before, "rotors"), "thrust_u"));
    /* At rest the figures are the stand's; where drag and the pack are in it they are not. */
    static const char *const measured[] = {
        "hover_a",     "hover_w", "hover_rpm", "thrust_fresh_n", "thrust_to_weight_landing",
        "motor_full_a"};
    for (size_t i = 0; i < sizeof measured / sizeof measured[0]; i++) {
        assert_string_equal(word(after, "known", measured[i]), "measured");
        assert_string_equal(word(after, "sources", measured[i]), "stand");
        assert_true(number(after, measured[i]) != number(before, measured[i]));
    }
    assert_string_equal(word(after, "known", "top_speed_m_s"), "computed");
    assert_string_equal(word(after, "sources", "top_speed_m_s"), "stand");
    /* The table's first row is all but hover: 16.0 V and 2.2 A for 170 gf, what an ideal rotor needs
     * going with thrust to 1.5. Electronics aside; the arms take a few per cent of the thrust back, and
     * at half charge the ESC's pulses cost a few per cent less than on 16 V. */
    const double hover_gf = number(after, "all_up_g") / 4;
    assert_between(hover_gf, 165, 185);
    assert_within(number(after, "hover_w") -
                      number(json_object_get(after, "power"), "hover_electronics_w"),
                  4 * 16.0 * 2.2 * pow(hover_gf / 170, 1.5), 0.06);
    assert_between(number(after, "motor_full_a"), 28, 37.5);
    json_decref(before);
    json_decref(after);
    ran r = run("sheet hedgerow" OWN);
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out,
                           "\nrotors         from the stand table of mo-2207-2750 with pr-51-43 "
                           "(14.9 to\n               16.0 V, 4 rows), uncertain by "));
    ran_free(&r);
}

static void another_motor_leaves_the_table_behind_and_may_have_its_own(void **state)
{
    (void)state;
    import_table();
    json_t *lost = run_json("sheet hedgerow --try motor=mo-2207l-2750 --json" OWN);
    assert_string_equal(word(lost, "rotors", "from"), "line");
    assert_string_equal(word(lost, "known", "hover_a"), "computed");
    assert_non_null(strstr(word(lost, "rotors", "words"),
                           "; the stand table of mo-2207-2750 with pr-51-43 says nothing of this "
                           "pair"));
    json_decref(lost);
    json_t *found = run_json("sheet hedgerow --try motor=mo-2207-1950 --json" OWN);
    assert_string_equal(word(found, "rotors", "from"), "stand");
    assert_string_equal(word(found, "rotors", "motor"), "mo-2207-1950");
    json_decref(found);
    json_t *propeller = run_json("sheet hedgerow --try propeller=pr-51-36 --json" OWN);
    assert_string_equal(word(propeller, "rotors", "from"), "line");
    json_decref(propeller);
}

/* Points of the propeller alone, invented; a stand's table of the pair goes before them. */
static void a_tunnel_bends_the_propeller_and_a_stand_goes_before_it(void **state)
{
    (void)state;
    json_t *before = run_json("sheet hedgerow --json" OWN);
    ran r = run(
        "parts change pr-51-43 tunnel=[[0,~12000,~0.142,~0.080],[0,~20000,~0.146,~0.080],"
        "[0.2,~20000,~0.130,~0.079],[0.4,~20000,~0.101,~0.071],[0.6,~20000,~0.060,~0.054]]" OWN);
    if (r.status != 0)
        fail_msg("%s", r.err);
    ran_free(&r);
    json_t *after = run_json("sheet hedgerow --json" OWN);
    assert_string_equal(word(after, "rotors", "from"), "tunnel");
    assert_non_null(strstr(word(after, "rotors", "words"),
                           "from the propeller's wind-tunnel table, "
                           "uncertain by "));
    assert_string_equal(word(after, "sources", "top_speed_m_s"), "tunnel");
    assert_string_equal(word(after, "known", "hover_a"), "computed");
    assert_between(number(json_object_get(after, "rotors"), "thrust_u"), 0.02, 0.05);
    /* At rest T = CT rho n2 D4, so with less CT hover turns faster by its root. */
    assert_true(number(after, "hover_rpm") > 1.01 * number(before, "hover_rpm"));
    import_table();
    json_t *both = run_json("sheet hedgerow --json" OWN);
    assert_string_equal(word(both, "rotors", "from"), "stand");
    assert_true(number(json_object_get(both, "rotors"), "thrust_u") <
                number(json_object_get(before, "rotors"), "thrust_u"));
    json_decref(before);
    json_decref(after);
    json_decref(both);
}

/* A kV put right later can contradict a table that was taken in: the sheet goes on without it. */
static void a_table_that_cannot_be_any_more_is_not_used_and_said(void **state)
{
    (void)state;
    import_table();
    ran r = run("parts change mo-2207-2750 kv=1650" OWN);
    if (r.status != 0)
        fail_msg("%s", r.err);
    ran_free(&r);
    json_t *sheet = run_json("sheet hedgerow --json" OWN);
    assert_string_equal(word(sheet, "rotors", "from"), "line");
    assert_non_null(strstr(word(sheet, "rotors", "words"), "; a stand table is not used: "));
    json_decref(sheet);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_sheet_without_a_table_says_that_it_is_by_the_model, own_bench),
        cmocka_unit_test_setup(an_imported_table_changes_the_sheet_and_it_says_so, own_bench),
        cmocka_unit_test_setup(another_motor_leaves_the_table_behind_and_may_have_its_own,
                               own_bench),
        cmocka_unit_test_setup(a_tunnel_bends_the_propeller_and_a_stand_goes_before_it, own_bench),
        cmocka_unit_test_setup(a_table_that_cannot_be_any_more_is_not_used_and_said, own_bench),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
