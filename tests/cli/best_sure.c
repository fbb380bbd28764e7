/* pare best --sure: limits that hold with a chance, what was drawn of it, and its price in grams. */
#define _XOPEN_SOURCE 700

#include "run.h"

#include <string.h>

static void a_sure_set_reads_well(void **state)
{
    (void)state;
    run_prints_golden("best-sure", "best thimble --sure 0.95 --time 1000" DEMO);
}

static void what_it_costs_to_be_sure_is_what_both_sets_weigh(void **state)
{
    (void)state;
    json_t *just = run_json("best thimble --time 1000 --json" DEMO);
    json_t *sure = run_json("best thimble --sure 95% --time 1000 --json" DEMO);
    const json_t *of = json_object_get(sure, "sure");
    assert_true(json_is_true(json_object_get(sure, "proven")));
    assert_true(json_is_true(json_object_get(of, "just_proven")));
    assert_near(number(of, "asked"), 0.95, 1e-12);
    assert_true(number(of, "chance") >= 0.95);
    assert_true(number(of, "draws") >= 4000 && number(of, "drawn_u") < 0.02);
    assert_true(number(of, "drawn") > 0.9 && number(of, "drawn") < 1);
    assert_near(number(of, "just_g"), number(just, "best_g"), 1e-9);
    assert_near(number(of, "price_g"), number(sure, "best_g") - number(just, "best_g"), 1e-6);
    assert_true(number(of, "price_g") > 0);
    assert_true(json_array_size(json_object_get(of, "limits")) == 3);
    assert_null(json_object_get(just, "sure"));
    json_decref(sure);
    json_decref(just);
}

/* At even odds a set is as sure as one that just meets one limit. */
static void more_sure_is_never_lighter(void **state)
{
    (void)state;
    static const char *const shares[] = {"0.6", "0.8", "0.9", "0.97"};
    double before_g = 0;
    for (size_t i = 0; i < sizeof shares / sizeof shares[0]; i++) {
        char command[128];
        snprintf(command, sizeof command, "best thimble --sure %s --time 1000 --json" DEMO,
                 shares[i]);
        json_t *sure = run_json(command);
        assert_true(json_is_true(json_object_get(sure, "proven")));
        assert_true(number(sure, "best_g") >= before_g);
        before_g = number(sure, "best_g");
        json_decref(sure);
    }
}

static void a_share_that_is_none_is_refused_in_one_line(void **state)
{
    (void)state;
    run_refuses("best thimble --sure 1.5" DEMO, 3,
                "pare: --sure '1.5': a probability is due, 0.5 to 0.999, like 0.95 or 95%\n");
    run_refuses("best thimble --sure 20%" DEMO, 3,
                "pare: --sure '20%': a probability is due, 0.5 to 0.999, like 0.95 or 95%\n");
    run_refuses("best thimble --sure %" DEMO, 3,
                "pare: --sure '%': a probability is due, 0.5 to 0.999, like 0.95 or 95%\n");
    run_refuses("best thimble --sure 0.9 --front grams-money" DEMO, 3,
                "pare: --sure goes with neither --front nor --proof, which take limits as they are "
                "computed\n");
    run_refuses(
        "best thimble --sure 0.9 --wish minutes" DEMO, 3,
        "pare: --sure goes with --wish grams, crash, evening and money, not with minutes\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sure_set_reads_well),
        cmocka_unit_test(what_it_costs_to_be_sure_is_what_both_sets_weigh),
        cmocka_unit_test(more_sure_is_never_lighter),
        cmocka_unit_test(a_share_that_is_none_is_refused_in_one_line),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
