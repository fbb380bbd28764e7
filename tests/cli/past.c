/* past.c: one craft at two dates, as a user asks for it. Each test starts from the demo's bench, whose
 * history begins today and whose readings and flights are of a season before. */
#include "run.h"

#include <stdio.h>
#include <string.h>

static void two_days_of_a_season_differ_by_what_was_weighed(void **state)
{
    (void)state;
    json_t *answer = run_json("compare hedgerow@2026-05-01 hedgerow --json" DEMO);
    const json_t *columns = json_object_get(answer, "compare");
    const json_t *then = json_array_get(columns, 0), *now = json_array_get(columns, 1);
    const json_t *between = json_array_get(json_object_get(answer, "between"), 0);
    assert_int_equal(json_array_size(columns), 2);
    assert_string_equal(json_string_value(json_object_get(then, "name")),
                        "hedgerow@2026-05-01:film");
    assert_string_equal(json_string_value(json_object_get(then, "date")), "2026-05-01");
    assert_null(json_object_get(now, "date"));
    assert_int_equal(json_array_size(json_object_get(between, "readings")), 6);
    assert_int_equal((int)number(between, "flights"), 9);
    assert_int_equal(json_array_size(json_object_get(between, "entries")), 0);
    assert_string_equal(json_string_value(json_object_get(between, "to")), "now");
    /* The frame was weighed in July: 118.6 g was typed. */
    json_t *sheet = run_json("sheet hedgerow --json" DEMO);
    assert_near(number(now, "all_up_g"), number(sheet, "all_up_g"), 1e-9);
    assert_true(number(then, "all_up_g_u") > number(now, "all_up_g_u"));
    json_decref(sheet);
    json_decref(answer);
}

static void what_was_fitted_and_learned_since_is_said(void **state)
{
    (void)state;
    run_quietly("take hedgerow bumper=off --fitted 2026-08-20" DEMO);
    run_quietly("learn hedgerow --keep --date 2026-08-25" DEMO);
    json_t *answer = run_json("compare hedgerow@2026-08-19 hedgerow@2026-08-24 --json" DEMO);
    const json_t *between = json_array_get(json_object_get(answer, "between"), 0);
    const json_t *fitted = json_object_get(between, "fitted");
    assert_int_equal(json_array_size(fitted), 1);
    assert_string_equal(json_string_value(json_object_get(json_array_get(fitted, 0), "swap")),
                        "bumper=off");
    assert_int_equal(json_array_size(json_object_get(between, "learned")), 0);
    const json_t *columns = json_object_get(answer, "compare");
    assert_near(number(json_array_get(columns, 0), "all_up_g") -
                    number(json_array_get(columns, 1), "all_up_g"),
                9.4, 0.1);
    json_decref(answer);
    /* The other way round it is told the same. */
    answer = run_json("compare hedgerow hedgerow@2026-08-24 --json" DEMO);
    between = json_array_get(json_object_get(answer, "between"), 0);
    assert_string_equal(json_string_value(json_object_get(between, "from")), "2026-08-24");
    assert_int_equal(json_array_size(json_object_get(between, "fitted")), 0);
    assert_true(json_array_size(json_object_get(between, "learned")) > 3);
    json_decref(answer);
    ran r = run("compare hedgerow@2026-08-19" DEMO);
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "\n  fitted: bumper=off, on 2026-08-20\n"));
    assert_non_null(strstr(r.out, "\n  learned: thrust times 0.89"));
    assert_non_null(strstr(r.out, ", was as thought, kept on 2026-08-25\n"));
    assert_non_null(strstr(r.out, "all-up mass"));
    assert_non_null(strstr(r.out, "change\n"));
    ran_free(&r);
}

static void a_day_that_cannot_be_is_refused_in_one_line(void **state)
{
    (void)state;
    static const struct {
        const char *operand, *says;
        int status;
    } bad[] = {
        {"hedgerow@2026-01-01",
         "pare: craft 'hedgerow' was not there yet on 2026-01-01; its first reading, flight or "
         "swap is of 2026-04-11, and it came onto this bench on ",
         3},
        {"bodkin@2026-05-01", "pare: craft 'bodkin' was not there yet on 2026-05-01; it came onto",
         3},
        {"hedgerow@2999-01-01", "pare: compare CRAFT@DATE 2999-01-01 lies ahead", 3},
        {"hedgerow@spring", "pare: compare CRAFT@DATE 'spring' is no day; right would be like", 3},
        {"hedgerow@", "pare: compare CRAFT@DATE '' is no day", 3},
        {"hedgrow@2026-05-01", "pare: no craft 'hedgrow'; did you mean hedgerow?", 2},
        {"hedgerow:race@2026-05-01", "right would be CRAFT@DATE:LOADOUT, the day first", 3},
        {"hedgerow@2026-05-01:rice", "pare: no loadout 'rice'; did you mean race?", 2},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        char line[120];
        snprintf(line, sizeof line, "compare %s" DEMO, bad[i].operand);
        ran r = run(line);
        if (r.status != bad[i].status || !strstr(r.err, bad[i].says) || *r.out ||
            strchr(r.err, '\n') != r.err + strlen(r.err) - 1)
            fail_msg("%s: %d, '%s'", bad[i].operand, r.status, r.err);
        ran_free(&r);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(two_days_of_a_season_differ_by_what_was_weighed, fill_demo),
        cmocka_unit_test_setup(what_was_fitted_and_learned_since_is_said, fill_demo),
        cmocka_unit_test_setup(a_day_that_cannot_be_is_refused_in_one_line, fill_demo),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
