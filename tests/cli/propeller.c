/* propeller.c: a propeller's blade and tunnel tables from their files into the part, and what is
 * refused. The tables are made up, in the layout of the UIUC Propeller Data Site. */
#include "run.h"

#include <string.h>

#include "dice.h"

#define TO    " --set propeller=pr-51-43" DEMO
#define BLADE "blade_geom.txt"
#define REST  "prop_static_0001.txt"
#define RUNS  "prop_5.1x4.3_0002_8003.txt"

static const char BLADE_TEXT[] = "r/R    c/R     beta\n0.15   0.141   31.67\n0.50   0.217   23.58\n"
                                 "0.75   0.150   16.37\n1.00   0.051   10.61\n";
static const char REST_TEXT[] = "RPM      CT       CP\n 8000.333   0.1400   0.0860\n"
                                "12000.667   0.1430   0.0850\n";
static const char RUNS_TEXT[] =
    "J       CT       CP       eta\n0.162   0.1250   0.0840   0.241\n"
    "0.360   0.0950   0.0750   0.456\n0.804  -0.0020   0.0096  -0.167\n";

static int fresh(void **state)
{
    ran r = run("demo");
    assert_int_equal(r.status, 0);
    ran_free(&r);
    write_text(BLADE, BLADE_TEXT);
    write_text(REST, REST_TEXT);
    write_text(RUNS, RUNS_TEXT);
    return *state ? -1 : 0;
}

static void tables_go_into_the_part_once_and_come_back_by_undo(void **state)
{
    (void)state;
    char *before = demo_text();
    run_prints_golden("propeller-dry-run", "import " BLADE " " REST " " RUNS " --dry-run" TO);
    char *dry = demo_text();
    assert_string_equal(dry, before);
    run_prints_golden("propeller", "import " BLADE " " REST " " RUNS TO);
    char *once = demo_text();
    assert_non_null(strstr(once,
                           "  blade: [[0.15, 0.141, 31.67], [0.5, 0.217, 23.58], [0.75, 0.15, "
                           "16.37], [1, 0.051, 10.61]]\n"));
    assert_non_null(strstr(once, "  tunnel:\n  - [0, 8000.333, 0.14, 0.086]\n"
                                 "  - [0.162, 8003, 0.125, 0.084]\n  - [0.36, 8003, 0.095, 0.075]\n"
                                 "  - [0.804, 8003, -0.002, 0.0096]\n"
                                 "  - [0, 12000.667, 0.143, 0.085]\n"));
    run_prints_golden("propeller-again", "import " RUNS " " REST TO);
    char *twice = demo_text();
    assert_string_equal(twice, once);
    run_quietly("export -o bench.yaml" DEMO);
    run_quietly("import bench.yaml --bench other.sqlite");
    ran r = run("export --bench other.sqlite");
    assert_string_equal(r.out, once);
    ran_free(&r);
    run_quietly("undo" DEMO);
    char *after = demo_text();
    assert_string_equal(after, before);
    free(after);
    free(twice);
    free(once);
    free(dry);
    free(before);
}

static void tables_may_come_one_by_one_and_go_by_their_key(void **state)
{
    (void)state;
    char *before = demo_text();
    run_quietly("import " RUNS " --set speed=8003rpm" TO);
    run_quietly("import " REST TO);
    run_quietly("import " BLADE TO);
    json_t *all = run_json("import " REST " --json" TO);
    assert_int_equal((int)number(all, "stations"), 4);
    assert_int_equal((int)number(all, "points"), 5);
    assert_int_equal((int)number(all, "points_added"), 0);
    assert_true(json_is_false(json_object_get(all, "changed")));
    json_decref(all);
    run_quietly("parts change pr-51-43 tunnel=off blade=off" DEMO);
    char *after = demo_text();
    assert_string_equal(after, before);
    free(after);
    free(before);
}

/* The blade of a part is that of the table, so the craft that fly it fly otherwise. */
static void a_measured_blade_changes_what_the_craft_does(void **state)
{
    (void)state;
    json_t *before = run_json("sheet bodkin --json" DEMO);
    run_quietly("import " BLADE TO);
    json_t *after = run_json("sheet bodkin --json" DEMO);
    const double was = number(before, "hover_a"), is = number(after, "hover_a");
    assert_true(is < 0.999 * was || is > 1.001 * was);
    json_decref(after);
    json_decref(before);
}

static void what_cannot_be_is_refused_with_its_place_and_nothing_goes_in(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        const char *message; /* behind "pare: bad_4000.txt:" */
    } tables[] = {
        {"r/R c/R beta\n0.15 0.14 31\n0.15 0.14 30\n",
         "3: r/R of 0.15; right would rise within 0 to 1\n"},
        {"r/R c/R beta\n0.15 0.14 31\n0.75 -0.14 15\n",
         "3: c/R of -0.14; right would be above 0, to 1\n"},
        {"r/R c/R beta\n0.15 0.14 31\n0.75 0.14 150\n",
         "3: beta of 150; right would be -90 to 90 degrees\n"},
        {"r/R c/R beta\n0.15 0.14 31\n0.75 0.14 15\n",
         " a blade that ends at r/R 0.75; right would be its tip, 1\n"},
        {"r/R c/R beta\n0.15 0.14 31\n", " 1 row; right would be two or more\n"},
        {"J CT CP eta\n0.2 0.10 0.05\n0.3 0.09 0.05 0.54\n-0.1 0.1 0.05\n",
         "4: an advance J of -0.1; right would be 0 to 4\n"},
        {"J CT CP eta\n0.2 0.10 0.05 0.40\n0.3 0.09 0.02 0.54\n",
         "3: a CP of 0.02 at CT 0.09 and J 0.3, where an ideal rotor takes 0.03892: an efficiency "
         "above what can be; right would be more\n"},
        {"J CT CP eta\n0.2 0.10 0.05 0.40\n0.3 0.09 0.05 0.9\n",
         "3: eta of 0.9, but J CT/CP is 0.54; right would be the same: columns J CT CP eta\n"},
        {"J CT CP eta\n0.2 nan 0.05 0.40\n0.3 0.09 0.05 0.54\n",
         "2:5: nan does not start with one plain number: a number needs no unit\n"},
        {"J CT CP eta\n0.2 0.10\n", "2: 2 numbers; right would be 4\n"},
        {"J CT CP eta\n0.2 0.10 0.05 0.40 7 8\n", "2: 4 and more numbers; right would be 4\n"},
        {"RPM CT CP\n-4000 0.11 0.05\n5000 0.11 0.05\n", "2: -4000 rpm, at which the tips of 129.5 "
                                                         "mm go -27 m/s; right would be above 0 "
                                                         "and up to 400 m/s\n"},
        {"RPM CT CP\n4000 -0.11 0.05\n5000 0.11 0.05\n",
         "2: a CT of -0.11 at rest: its sign is reversed; right would be above 0\n"},
    };
    char *before = demo_text();
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) {
        char wanted[600];
        write_text("bad_4000.txt", tables[i].text);
        snprintf(wanted, sizeof wanted, "pare: bad_4000.txt:%s", tables[i].message);
        /* A good one before it does not go in either. */
        run_refuses("import " RUNS " bad_4000.txt" TO, 3, wanted);
        char *after = demo_text();
        assert_string_equal(after, before);
        free(after);
    }
    free(before);
}

static void what_is_missing_is_said(void **state)
{
    (void)state;
    write_text("unnamed.txt", RUNS_TEXT);
    run_refuses("import unnamed.txt" TO, 3,
                "pare: unnamed.txt: at which rpm did it run? right would be a name like "
                "prop_9x6_4000.txt, or --set speed=4000rpm\n");
    run_refuses("import " RUNS DEMO, 3,
                "pare: " RUNS ": a table of which propeller? right would be --set propeller=ID\n");
    run_refuses("import " RUNS " --set prop=pr-51-43" DEMO, 2,
                "pare: --set 'prop'; right would be propeller or speed\n");
    run_refuses("import " RUNS " --set propeller=mo-2207-2750" DEMO, 3,
                "pare: 'mo-2207-2750' is a part of kind motor; right would be a propeller\n");
    run_refuses("import " RUNS " --map J=1" TO, 3,
                "pare: " RUNS " is a propeller's table; --map is for lists (CSV)\n");
    run_refuses("import " BLADE " " BLADE TO, 3,
                "pare: " BLADE ": a second blade; right would be one\n");
    run_refuses("import " RUNS " --set speed=fast" TO, 3,
                "pare: --set speed: fast does not start with one plain number: a speed of rotation "
                "needs rpm, rad/s or a bare number of rpm\n");
    run_refuses("import " RUNS " none.txt" TO, 3,
                "pare: none.txt: cannot be read (No such file or directory)\n");
    run_refuses("parts change mo-2207-2750 blade=[[0.1,~0.1,~30],[1,~0.1,~10]]" DEMO, 3,
                "pare: blade=[[0.1, 0.1, 30],[1, 0.1, 10]]: blade of a part of kind motor; right "
                "would be a propeller's\n");
}

static void a_table_with_a_wrong_byte_is_taken_whole_or_refused_in_one_line(void **state)
{
    (void)state;
    static const char bytes[] = " \t\n\r-+.eE09aN%(#,;\x80\xFF";
    static const char *const tables[] = {BLADE_TEXT, REST_TEXT, RUNS_TEXT};
    unsigned seed = 11;
    char *before = demo_text();
    for (int times = 0; times < 90; times++) {
        char text[400];
        const size_t length = strlen(strcpy(text, tables[times % 3]));
        const unsigned changes = 1 + dice(&seed, 2);
        for (unsigned i = 0; i < changes; i++) {
            const unsigned at = 20 + dice(&seed, (unsigned)length - 20);
            text[at] = bytes[dice(&seed, sizeof bytes - 1)];
        }
        write_file("wrong_8000.txt", text, length);
        ran r = run("import wrong_8000.txt" TO);
        if (r.status == 0) {
            assert_string_equal(r.err, "");
            run_quietly("undo" DEMO);
        } else {
            assert_int_equal(r.status, 3);
            assert_string_equal(r.out, "");
            assert_ptr_equal(strchr(r.err, '\n'), r.err + strlen(r.err) - 1);
        }
        ran_free(&r);
        char *after = demo_text();
        assert_string_equal(after, before);
        free(after);
    }
    free(before);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(tables_go_into_the_part_once_and_come_back_by_undo, fresh),
        cmocka_unit_test_setup(tables_may_come_one_by_one_and_go_by_their_key, fresh),
        cmocka_unit_test_setup(a_measured_blade_changes_what_the_craft_does, fresh),
        cmocka_unit_test_setup(what_cannot_be_is_refused_with_its_place_and_nothing_goes_in, fresh),
        cmocka_unit_test_setup(what_is_missing_is_said, fresh),
        cmocka_unit_test_setup(a_table_with_a_wrong_byte_is_taken_whole_or_refused_in_one_line,
                               fresh),
    };
    return cmocka_run_group_tests(tests, enter_home, leave_home);
}
