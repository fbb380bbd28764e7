/* pare best --front: a small front is walked to its end, begins with the best set and costs what its sets
 * cost when they are tried; a picture is written; what cannot be answered is said in one line. */
#define _XOPEN_SOURCE 700

#include "run.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Of the demo's smallest: camera, propeller and what is small are free to change. */
#define HELD                                                                                       \
    " thimble --hold motor --hold pack --hold gps --hold board --hold receiver --hold antenna "    \
    "--hold run.phase --hold run.lead --hold joint.posts --hold joint.stack"

/* "a=1, b=2" without its blanks. */
static void as_list(const char *set, char list[2048])
{
    size_t length = 0;
    for (; *set; set++)
        if (*set != ' ' && length < 2047)
            list[length++] = *set;
    list[length] = '\0';
}

static void a_front_begins_with_the_best_set(void **state)
{
    (void)state;
    json_t *best = run_json("best" HELD " --json" DEMO);
    json_t *front = run_json("best" HELD " --front grams-money --json" DEMO);
    const json_t *points = json_object_get(front, "points"), *first = json_array_get(points, 0);
    assert_true(json_is_true(json_object_get(front, "whole")));
    assert_true(json_array_size(points) > 2);
    assert_near(number(first, "all_up_g"), number(best, "best_g"), 0);
    assert_near(number(first, "money"), number(best, "money"), 1e-9);
    json_decref(front);
    json_decref(best);
}

/* Each set of it, tried, weighs what it said, and the money falls as the grams rise. */
static void a_fronts_sets_are_what_it_says(void **state)
{
    (void)state;
    json_t *front = run_json("best" HELD " --front grams-money --json" DEMO);
    const json_t *points = json_object_get(front, "points");
    double grams = 0, money = 1e9;
    size_t i;
    json_t *point;
    json_array_foreach(points, i, point)
    {
        char list[2048], line[4096];
        as_list(json_string_value(json_object_get(point, "set")), list);
        snprintf(line, sizeof line, "sheet thimble --json --check --try %s" DEMO, list);
        json_t *sheet = run_json(line);
        /* Lines of the ledger are rounded to 0.1 mg, 60 of them at most. */
        assert_near(number(sheet, "all_up_g"), number(point, "all_up_g"), 60 * 0.5e-4);
        assert_near(number(sheet, "flown_min"), number(point, "flown_min"), 1e-4);
        assert_true(number(point, "all_up_g") > grams && number(point, "money") < money);
        grams = number(point, "all_up_g");
        money = number(point, "money");
        json_decref(sheet);
    }
    json_decref(front);
}

static void a_front_reads_as_a_chart_and_a_list(void **state)
{
    (void)state;
    ran r = run("best" HELD " --front grams-money" DEMO);
    assert_int_equal(r.status, 0);
    assert_string_equal(r.err, "");
    assert_non_null(strstr(r.out, "sets that nothing beats in grams and money"));
    assert_non_null(strstr(r.out, "all-up, g\n"));
    assert_non_null(strstr(r.out, "as it is"));
    ran_free(&r);
}

static void a_front_is_written_as_a_picture(void **state)
{
    (void)state;
    ran r = run("best" HELD " --front grams-money -o front.svg" DEMO);
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "front.svg written: "));
    FILE *file = fopen("front.svg", "r");
    char bytes[40] = "";
    assert_non_null(file);
    assert_non_null(fgets(bytes, sizeof bytes, file));
    assert_int_equal(strncmp(bytes, "<?xml", 5), 0);
    fclose(file);
    remove("front.svg");
    ran_free(&r);
}

static void a_front_that_is_stopped_says_so(void **state)
{
    (void)state;
    json_t *front = run_json("best hedgerow --front grams-money --time 0 --json" DEMO);
    assert_true(json_is_false(json_object_get(front, "whole")));
    json_decref(front);
}

static void a_front_of_no_set_is_the_answer_no(void **state)
{
    (void)state;
    ran r = run("best thimble --must pa-4s-1550 --front grams-money" DEMO);
    assert_int_equal(r.status, 1);
    assert_string_equal(r.err, "");
    assert_string_equal(r.out, "thimble, loadout film: no set does what the brief asks\n");
    ran_free(&r);
}

static void a_wrong_front_is_refused_in_one_line(void **state)
{
    (void)state;
    run_refuses("best thimble --front gram-money" DEMO, 2,
                "pare: --front: no front 'gram-money'; right would be two of grams, money and "
                "minutes, like grams-money\n");
    run_refuses("best thimble --front grams-money -o front.doc" DEMO, 3,
                "pare: -o front.doc: no kind of picture that is known; right would be a file that "
                "ends in .pdf, .svg or .png\n");
    run_refuses("best thimble -o front.svg" DEMO, 3,
                "pare: -o goes with --front: a picture of a front\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_front_begins_with_the_best_set),
        cmocka_unit_test(a_fronts_sets_are_what_it_says),
        cmocka_unit_test(a_front_reads_as_a_chart_and_a_list),
        cmocka_unit_test(a_front_is_written_as_a_picture),
        cmocka_unit_test(a_front_that_is_stopped_says_so),
        cmocka_unit_test(a_front_of_no_set_is_the_answer_no),
        cmocka_unit_test(a_wrong_front_is_refused_in_one_line),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
