/* pare best --wish: what is best in another wish than grams, what is proven of it, and how it is told. */
#define _XOPEN_SOURCE 700

#include "run.h"

#include <stdbool.h>
#include <string.h>

static const char *text_of(const json_t *object, const char *key)
{
    const char *text = json_string_value(json_object_get(object, key));
    if (!text)
        fail_msg("no text '%s'", key);
    return text ? text : "";
}

static bool is_true(const json_t *object, const char *key)
{
    return json_is_true(json_object_get(object, key));
}

static void the_most_thrust_reads_well(void **state)
{
    (void)state;
    run_prints_golden("best-thrust", "best thimble --wish thrust --time 1000" DEMO);
}

static void what_a_wish_came_to_stands_in_json(void **state)
{
    (void)state;
    json_t *thrust = run_json("best thimble --wish thrust --time 1000 --json" DEMO);
    assert_string_equal(text_of(thrust, "wish"), "thrust");
    assert_true(is_true(thrust, "wish_proven") && is_true(thrust, "proven"));
    const json_t *after = json_object_get(thrust, "after"),
                 *before = json_object_get(thrust, "before");
    assert_near(number(thrust, "wish_best"), number(after, "thrust_to_weight_half"), 1e-9);
    assert_near(number(thrust, "wish_was"), number(before, "thrust_to_weight_half"), 1e-9);
    assert_true(number(thrust, "wish_best") > number(thrust, "wish_was"));
    assert_true(number(thrust, "wish_bound") >= number(thrust, "wish_best"));
    json_decref(thrust);
}

/* Stopped at once, the craft's own brief is no proof of anything. */
static void a_wish_that_is_stopped_is_not_proven(void **state)
{
    (void)state;
    ran r = run("best thimble --wish minutes --time 0 --json" DEMO);
    json_t *minutes = json_loads(r.out, 0, NULL);
    assert_false(is_true(minutes, "wish_proven"));
    assert_false(is_true(minutes, "proven"));
    json_decref(minutes);
    ran_free(&r);
}

static void a_short_evening_has_time_for_less(void **state)
{
    (void)state;
    json_t *best = run_json("best thimble --json" DEMO);
    json_t *evening = run_json("best thimble --wish evening --hours 0.25 --time 1000 --json" DEMO);
    assert_true(is_true(evening, "proven"));
    assert_true(number(evening, "work_min") <= 15);
    assert_true(number(evening, "best_g") > number(best, "best_g"));
    assert_true(number(best, "work_min") > 15);
    json_decref(evening);
    json_decref(best);
}

/* Money is a long search where all is open. */
#define HELD " --hold frame --hold motor --hold propeller --hold board"

/* What costs nothing and keeps the brief costs the least; a mass goal that is harder costs more. */
static void the_least_money_goes_with_the_limit_on_mass(void **state)
{
    (void)state;
    json_t *lax = run_json("best thimble --wish money --time 1000 --json" HELD DEMO);
    assert_true(is_true(lax, "proven"));
    assert_near(number(lax, "money"), 0, 1e-9);
    assert_string_equal(text_of(lax, "wish_unit"), "EUR");
    run_quietly("craft limit thimble all_up<=232g" DEMO);
    json_t *hard = run_json("best thimble --wish money --time 1000 --json" HELD DEMO);
    assert_true(is_true(hard, "proven"));
    assert_true(number(hard, "money") > 0 && number(hard, "best_g") <= 232);
    run_quietly("undo" DEMO);
    json_decref(hard);
    json_decref(lax);
}

static void other_ways_read_well(void **state)
{
    (void)state;
    run_prints_golden("best-ways", "best thimble --ways 3" DEMO);
}

static void other_ways_are_no_better_and_stand_in_json(void **state)
{
    (void)state;
    json_t *best = run_json("best thimble --ways 3 --json" DEMO);
    const json_t *ways = json_object_get(best, "ways"), *stands = json_object_get(best, "stands");
    assert_true(is_true(best, "ways_proven"));
    assert_int_equal(json_array_size(ways), 3);
    assert_string_equal(text_of(json_array_get(ways, 0), "try"), text_of(best, "try"));
    for (size_t i = 1; i < 3; i++) {
        assert_true(number(json_array_get(ways, i), "best_g") >=
                    number(json_array_get(ways, i - 1), "best_g"));
        assert_string_not_equal(text_of(json_array_get(ways, i), "try"), text_of(best, "try"));
    }
    assert_true(json_array_size(stands) > 3);
    /* What stands least far gives way to the second. */
    assert_near(number(json_array_get(stands, 0), "until_g"),
                number(json_array_get(ways, 1), "best_g") - number(best, "best_g"), 1e-9);
    json_decref(best);
}

/* A part by the law of its kind is on no shelf: never among what is proven, and never called so. */
static void what_nobody_sells_stands_apart(void **state)
{
    (void)state;
    json_t *best = run_json("best thimble --all --json" DEMO);
    const json_t *sought = json_object_get(best, "sought");
    assert_true(is_true(best, "proven"));
    assert_null(strstr(text_of(best, "try"), "=sought-"));
    assert_false(is_true(sought, "proven"));
    assert_true(json_array_size(json_object_get(sought, "look_for")) > 0);
    assert_true(number(sought, "best_g") < number(best, "best_g"));
    json_decref(best);
    ran r = run("best thimble --all" DEMO);
    assert_non_null(strstr(r.out, "Not proven: rests on parts nobody sells yet\n"));
    ran_free(&r);
}

static void a_wrong_wish_is_refused_in_one_line(void **state)
{
    (void)state;
    run_refuses("best thimble --wish beauty" DEMO, 3,
                "pare: no wish 'beauty' for a best set; there are grams, minutes, thrust, "
                "quickness, money, crash, evening\n");
    run_refuses("best thimble --wish thurst" DEMO, 3,
                "pare: no wish 'thurst'; did you mean thrust?\n");
    run_refuses("best thimble --wish minutes --walk" DEMO, 3,
                "pare: --wish minutes goes without --front, --walk and --binds, which ask for "
                "grams\n");
    run_refuses("best thimble --ways 1" DEMO, 3,
                "pare: --ways '1': a number of sets is due, 2 to 20\n");
    run_refuses("best thimble --ways 3 --walk" DEMO, 3,
                "pare: --ways goes without --front and --walk: one question at a time\n");
    run_refuses("best thimble --wish evening --hours long" DEMO, 3,
                "pare: --hours 'long': hours of work are due, 0 to 10000, like 2.5\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_most_thrust_reads_well),
        cmocka_unit_test(what_a_wish_came_to_stands_in_json),
        cmocka_unit_test(a_wish_that_is_stopped_is_not_proven),
        cmocka_unit_test(a_short_evening_has_time_for_less),
        cmocka_unit_test(the_least_money_goes_with_the_limit_on_mass),
        cmocka_unit_test(other_ways_read_well),
        cmocka_unit_test(other_ways_are_no_better_and_stand_in_json),
        cmocka_unit_test(what_nobody_sells_stands_apart),
        cmocka_unit_test(a_wrong_wish_is_refused_in_one_line),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
