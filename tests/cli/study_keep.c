/* study_keep.c: a study's results kept on the bench, shown again, forgotten and brought back; on a bench in a file
 * and on one on a server. */
#include "run.h"
#include "server.h"

#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char STUDY[] = "study: two\n"
                            "craft: [thimble, bodkin]\n"
                            "briefs:\n"
                            "  park: {customers: 3, limits: {flown: \">= 3 min\"}}\n"
                            "  lift: {customers: 1, limits: {all_up: \"<= 90 g\"}}\n"
                            "cover: {most: 1}\n";

static int fresh(void **state)
{
    write_text("two.yaml", STUDY);
    remove("two.csv");
    remove("two.journal");
    remove("again.csv");
    return fill_demo(state);
}

static void it_says_again_what_it_said(void **state)
{
    (void)state;
    run_prints("study" DEMO, "no study is kept on this bench; pare study FILE --keep does that\n");
    char *before = demo_text();
    ran said = run("study two.yaml --keep --why season" DEMO), again = run("study two" DEMO);
    assert_int_equal(said.status, 0);
    assert_string_equal(again.err, "");
    assert_int_equal(strncmp(again.out, "kept on 2", 9), 0);
    assert_string_equal(strchr(again.out, '\n') + 1, said.out);
    ran_free(&again);
    ran_free(&said);
    run_prints("study" DEMO, "two\n");
    run_prints("complete -- study" DEMO " tw", "two.csv\ntwo.journal\ntwo.yaml\ntwo\n");
    run_quietly("study two -o again.csv" DEMO);
    is_same_file("again.csv", "two.csv");
    /* A study's answers go by the bench's text, which is as it was: all of them are still good. */
    char *after = demo_text();
    assert_string_equal(after, before);
    free(after);
    free(before);
    ran plan = run("study two.yaml --dry-run" DEMO);
    assert_non_null(strstr(plan.out, "4 "));
    ran_free(&plan);
    json_t *kept = run_json("study two --json" DEMO),
           *anew = run_json("study two.yaml --json" DEMO);
    const json_t *answer = json_object_get(kept, "answer");
    assert_true(json_equal(json_object_get(answer, "tasks"), json_object_get(anew, "tasks")));
    assert_true(json_equal(json_object_get(answer, "cover"), json_object_get(anew, "cover")));
    assert_true(json_array_size(json_object_get(answer, "tasks")) == 4);
    assert_near(number(anew, "answered_before"), 4, 0);
    json_decref(anew);
    json_decref(kept);
}

static void the_history_has_it(void **state)
{
    (void)state;
    run_quietly("study two.yaml --keep --why season" DEMO);
    json_t *all = run_json("history 1 --json" DEMO);
    const json_t *row = json_array_get(json_object_get(all, "history"), 0);
    assert_string_equal(json_string_value(json_object_get(row, "what")), "study two.yaml --keep");
    assert_string_equal(json_string_value(json_object_get(row, "why")), "season");
    assert_near(number(row, "files"), 1, 0);
    json_decref(all);
    run_quietly("undo" DEMO);
    run_refuses("study two" DEMO, 2,
                "pare: no study 'two' is kept on this bench; pare study lists them\n");
    run_quietly("redo" DEMO);
    run_prints("study" DEMO, "two\n");
    run_prints("study two --forget" DEMO, "two forgotten; pare undo brings it back\n");
    run_refuses("study two --forget" DEMO, 2,
                "pare: no study 'two' is kept on this bench; pare study lists them\n");
    run_quietly("undo" DEMO);
    run_prints("study" DEMO, "two\n");
    run_refuses("study twp" DEMO, 2,
                "pare: no study 'twp' is kept on this bench; did you mean two?\n");
}

/* Parts come, change and go, and with them the files that no part names any more; what is kept is none of those,
 * and no export writes it. */
static void other_changes_leave_it(void **state)
{
    (void)state;
    run_quietly("study two.yaml --keep" DEMO);
    run_quietly("export -o out.yaml" DEMO);
    assert_null(read_file("studies/two"));
    run_quietly("import out.yaml" DEMO);
    run_quietly("parts change am-tube price.each=1.00" DEMO);
    run_prints("study" DEMO, "two\n");
    run_quietly("study two" DEMO);
}

static void what_makes_no_sense_is_refused(void **state)
{
    (void)state;
    run_refuses("study nix.yaml" DEMO, 3,
                "pare: nix.yaml: cannot be read (No such file or directory)\n");
    run_refuses("study nix --keep" DEMO, 3, "pare: study: there is no file nix to be worked on\n");
    run_refuses("study --dry-run" DEMO, 3, "pare: study: there is no file named to be worked on\n");
    run_refuses("study two --forget --keep" DEMO, 3, "pare: study: STUDY --forget goes alone\n");
}

/* A bench may be anybody's. */
static void what_somebody_meddled_with_is_refused_in_one_line(void **state)
{
    (void)state;
    static const char *const bytes[] = {
        "",
        "{",
        "[1]",
        "{\"study\": \"two\"}",
        "{\"study\": \"two\", \"kept\": \"x\", \"says\": 7, \"results\": \"\", \"answer\": {}}",
        "{\"study\": \"two\", \"kept\": \"x\", \"says\": \"\\u001b[2J\", \"results\": \"\", "
        "\"answer\": {}}",
        "{\"study\": \"two\", \"kept\": \"x\", \"says\": \"\\u009b2J\", \"results\": \"\", "
        "\"answer\": {}}",
        "{\"study\": \"two\", \"kept\": \"x\", \"says\": \"\", \"results\": \"\", \"answer\": []}"};
    if (on_server())
        skip();
    run_quietly("study two.yaml --keep" DEMO);
    for (size_t i = 0; i < sizeof bytes / sizeof bytes[0]; i++) {
        sqlite3 *db = NULL;
        char *sql = sqlite3_mprintf("UPDATE file SET bytes = CAST(%Q AS BLOB) WHERE name = "
                                    "'/studies/two'",
                                    bytes[i]);
        assert_int_equal(sqlite3_open("data/pare/demo.sqlite", &db), SQLITE_OK);
        assert_int_equal(sqlite3_exec(db, sql, NULL, NULL, NULL), SQLITE_OK);
        assert_int_equal(sqlite3_changes(db), 1);
        sqlite3_free(sql);
        sqlite3_close(db);
        run_refuses("study two" DEMO, 3,
                    "pare: study 'two': what is kept of it is damaged; pare study two --forget "
                    "takes it off the bench\n");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(it_says_again_what_it_said, fresh),
        cmocka_unit_test_setup(the_history_has_it, fresh),
        cmocka_unit_test_setup(other_changes_leave_it, fresh),
        cmocka_unit_test_setup(what_makes_no_sense_is_refused, fresh),
        cmocka_unit_test_setup(what_somebody_meddled_with_is_refused_in_one_line, fresh),
    };
    return cmocka_run_group_tests(tests, enter_home, leave_home);
}
