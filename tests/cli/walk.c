/* pare best --walk: the steps lead from the craft as it is to the best set, each can be tried and meets what is
 * met now, the budget ends where its money does; what does not go together is said in one line. */
#include "run.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

/* Of the demo's smallest: few enough that every order is tried. */
#define HELD                                                                                       \
    " thimble --hold motor --hold gps --hold board --hold receiver --hold run.phase --hold "       \
    "run.lead "                                                                                    \
    "--hold run.receiver_wire --hold run.camera_wire --hold run.video_wire --hold run.gps_wire "   \
    "--hold run.film_wire --hold buzzer --hold joint.posts --hold joint.stack"

static void steps_lead_to_the_best_set(void **state)
{
    (void)state;
    json_t *best = run_json("best thimble --json" DEMO);
    json_t *walk = run_json("best thimble --walk --budget 50 --json" DEMO);
    double grams = number(walk, "was_g"), spent = 0;
    char list[2048] = "";
    size_t i, k, swaps = 0;
    json_t *step, *swap;
    bool now = true;
    assert_true(json_is_true(json_object_get(walk, "proven")));
    json_array_foreach(json_object_get(walk, "steps"), i, step)
    {
        grams -= number(step, "grams");
        spent += number(step, "money");
        assert_near(number(step, "all_up_g"), grams, 1e-6);
        assert_near(number(step, "spent"), spent, 1e-6);
        const bool pays = json_is_true(json_object_get(step, "now"));
        assert_true(now || !pays);
        assert_true(!pays || spent <= 50);
        now = pays;
        json_array_foreach(json_object_get(step, "swaps"), k, swap)
        {
            const size_t length = strlen(list);
            swaps++;
            snprintf(list + length, sizeof list - length, "%s%s", length ? "," : "",
                     json_string_value(swap));
        }
    }
    assert_false(now);
    assert_near(grams, number(best, "best_g"), 1e-6);
    assert_near(spent, number(best, "money"), 1e-6);
    assert_int_equal(swaps, json_array_size(json_object_get(best, "swaps")));
    json_decref(walk);
    json_decref(best);
}

static void a_short_walk_is_the_best_order(void **state)
{
    (void)state;
    run_prints_golden("best-walk", "best" HELD " --walk --budget 20" DEMO);
    json_t *walk = run_json("best" HELD " --walk --json" DEMO);
    assert_true(json_is_true(json_object_get(walk, "exact")));
    assert_true(json_is_null(json_object_get(walk, "budget")));
    json_decref(walk);
}

static void no_set_is_the_answer_no(void **state)
{
    (void)state;
    ran r = run("best thimble --must pa-4s-1550 --walk" DEMO);
    assert_int_equal(r.status, 1);
    assert_string_equal(r.err, "");
    assert_string_equal(r.out, "thimble, loadout film: no set does what the brief asks\n");
    ran_free(&r);
}

static void what_does_not_go_together_is_refused(void **state)
{
    (void)state;
    run_refuses("best thimble --budget 50" DEMO, 3,
                "pare: --budget goes with --walk: what to buy for it first\n");
    run_refuses("best thimble --walk --front grams-money" DEMO, 3,
                "pare: --walk and --front are two questions: one at a time\n");
    run_refuses("best thimble --walk --budget=-1" DEMO, 3,
                "pare: --budget '-1': money is due, 0 to 1e+06\n");
    run_refuses("best thimble --walk --budget nan" DEMO, 3,
                "pare: --budget 'nan': money is due, 0 to 1e+06\n");
    run_refuses("best thimble --walk --budget 5EUR" DEMO, 3,
                "pare: --budget '5EUR': money is due, 0 to 1e+06\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(steps_lead_to_the_best_set),
        cmocka_unit_test(a_short_walk_is_the_best_order),
        cmocka_unit_test(no_set_is_the_answer_no),
        cmocka_unit_test(what_does_not_go_together_is_refused),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
