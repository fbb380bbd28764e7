/* history.c: undo, redo and history as a user types them, word for word but for the time. */
#include "run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define OWN " --bench own.sqlite"

static int fresh(void **state)
{
    (void)state;
    remove("own.sqlite");
    write_text("a.yaml", "pare: 1\nparts: [{id: a, kind: pad, mass: 1 g}]\n");
    write_text("b.yaml", "pare: 1\nparts: [{id: b, kind: pad, mass: 2 g}]\n");
    return 0;
}

/* Digits of a time become 0: "2026-03-01 18:20" is "0000-00-00 00:00". */
static void forget_times(char *text)
{
    for (char *line = text; line && *line;
         line = strchr(line, '\n') ? strchr(line, '\n') + 1 : NULL)
        if (strspn(line, "0123456789") == 4 && line[4] == '-')
            for (int i = 0; i < 16 && line[i]; i++)
                if (line[i] >= '0' && line[i] <= '9')
                    line[i] = '0';
}

static void prints(const char *line, const char *wanted)
{
    ran r = run(line);
    forget_times(r.out);
    assert_string_equal(r.err, "");
    assert_string_equal(r.out, wanted);
    assert_int_equal(r.status, 0);
    ran_free(&r);
}

static char *text_of_bench(void)
{
    ran r = run("export" OWN);
    assert_int_equal(r.status, 0);
    free(r.err);
    return r.out;
}

static void changes_are_listed_undone_and_done_again(void **state)
{
    (void)state;
    prints("import a.yaml --why first~delivery" OWN, "into own.sqlite\nparts    1 added\n");
    prints("import b.yaml" OWN, "into own.sqlite\nparts    1 added\n");
    prints("import b.yaml" OWN, "into own.sqlite\nparts    0 added, 1 as before\n");
    char *both = text_of_bench();
    prints("history" OWN, "0000-00-00 00:00  import b.yaml (1 part)\n"
                          "0000-00-00 00:00  import a.yaml (1 part): first delivery\n");
    prints("undo" OWN, "Undone:\n0000-00-00 00:00  import b.yaml (1 part)\n");
    prints("history 1" OWN, "0000-00-00 00:00  import b.yaml (1 part) [undone]\n");
    prints("redo" OWN, "Done again:\n0000-00-00 00:00  import b.yaml (1 part)\n");
    char *again = text_of_bench();
    assert_string_equal(again, both);
    free(again);
    free(both);
    prints("undo 7" OWN, "Undone:\n0000-00-00 00:00  import b.yaml (1 part)\n"
                         "0000-00-00 00:00  import a.yaml (1 part): first delivery\n");
    char *none = text_of_bench();
    assert_string_equal(none, "pare: 1\n");
    free(none);
    run_refuses("undo" OWN, 3, "pare: nothing to undo: the history of this bench begins here\n");
    prints("import b.yaml" OWN, "into own.sqlite\nparts    1 added\n");
    run_refuses("redo" OWN, 3,
                "pare: nothing to redo: no change was undone, or another came after it\n");
}

static void a_limit_set_wrongly_is_taken_back(void **state)
{
    (void)state;
    ran r = run("craft start plover all_up=690g" OWN);
    assert_int_equal(r.status, 0);
    ran_free(&r);
    char *before = text_of_bench();
    r = run("craft limit plover all_up=60g --why typo" OWN);
    assert_int_equal(r.status, 0);
    ran_free(&r);
    prints("undo" OWN,
           "Undone:\n0000-00-00 00:00  craft limit plover all_up=60g (1 craft): typo\n");
    char *after = text_of_bench();
    assert_string_equal(after, before);
    free(after);
    free(before);
}

static void the_history_is_data_too(void **state)
{
    (void)state;
    ran r = run("import a.yaml" OWN);
    ran_free(&r);
    json_t *all = run_json("history --json" OWN);
    const json_t *row = json_array_get(json_object_get(all, "history"), 0);
    assert_string_equal(json_string_value(json_object_get(row, "what")), "import a.yaml");
    assert_true(json_is_null(json_object_get(row, "why")));
    assert_near(number(row, "number"), 1, 0);
    assert_near(number(row, "parts"), 1, 0);
    json_decref(all);
    all = run_json("undo --json" OWN);
    assert_int_equal(json_array_size(json_object_get(all, "undone")), 1);
    json_decref(all);
    all = run_json("redo --json" OWN);
    assert_int_equal(json_array_size(json_object_get(all, "redone")), 1);
    json_decref(all);
}

static void what_cannot_be_a_number_is_said(void **state)
{
    (void)state;
    ran r = run("import a.yaml" OWN);
    ran_free(&r);
    run_refuses("undo all" OWN, 3,
                "pare: undo 'all'; right would be how many changes, 1 to 1000\n");
    run_refuses("history 0" OWN, 3,
                "pare: history '0'; right would be how many changes, 1 to 1000\n");
    run_refuses("redo 1 2" OWN, 3,
                "pare: redo: '2' is one word too many; it takes no more than a number\n");
    run_refuses("undo --bench nowhere.sqlite", 3,
                "pare: no bench at nowhere.sqlite; try `pare demo` or `pare import`\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(changes_are_listed_undone_and_done_again, fresh),
        cmocka_unit_test_setup(a_limit_set_wrongly_is_taken_back, fresh),
        cmocka_unit_test_setup(the_history_is_data_too, fresh),
        cmocka_unit_test_setup(what_cannot_be_a_number_is_said, fresh),
    };
    return cmocka_run_group_tests(tests, enter_home, leave_home);
}
