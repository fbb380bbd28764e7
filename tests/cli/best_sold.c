/* pare best: its money is of one order, the same as the shopping list's, less what comes back. */
#define _XOPEN_SOURCE 700

#include "run.h"

#include <string.h>

static const char *try_of(const json_t *best)
{
    const char *list = json_string_value(json_object_get(best, "try"));
    assert_non_null(list);
    return list;
}

static double money_of_swaps(const json_t *best)
{
    double money = 0;
    size_t i;
    const json_t *swap;
    json_array_foreach(json_object_get(best, "swaps"), i, swap) money += number(swap, "money");
    return money;
}

/* One truth: what a set costs is what pare take asks to be bought for it, and its rows add up to it. */
static void a_sets_money_is_that_of_its_shopping_list(void **state)
{
    (void)state;
    static const char *const crafts[] = {"thimble", "bodkin"};
    for (size_t c = 0; c < sizeof crafts / sizeof crafts[0]; c++) {
        static char line[8192];
        snprintf(line, sizeof line, "best %s --time 1000 --json" DEMO, crafts[c]);
        json_t *best = run_json(line);
        assert_near(money_of_swaps(best), number(best, "money"), 1e-6);
        snprintf(line, sizeof line, "take %s %s" DEMO, crafts[c], try_of(best));
        run_quietly(line);
        snprintf(line, sizeof line, "take %s --json" DEMO, crafts[c]);
        json_t *taken = run_json(line);
        assert_near(number(json_object_get(taken, "shopping"), "money"), number(best, "money"),
                    0.005);
        run_quietly("undo" DEMO);
        json_decref(taken);
        json_decref(best);
    }
}

static void what_comes_off_brings_its_share(void **state)
{
    (void)state;
    json_t *plain = run_json("best thimble --time 1000 --json" DEMO);
    json_t *half = run_json("best thimble --sold 50% --time 1000 --json" DEMO);
    json_t *whole = run_json("best thimble --sold 1 --time 1000 --json" DEMO);
    json_t *one = run_json("best thimble --sold bu-small=1 --time 1000 --json" DEMO);
    assert_null(json_object_get(plain, "money_back"));
    assert_near(number(half, "best_g"), number(plain, "best_g"), 0);
    assert_near(number(whole, "money_back"), 2 * number(half, "money_back"), 0.2);
    assert_near(number(half, "money") + number(half, "money_back"), number(plain, "money"), 1e-6);
    assert_near(money_of_swaps(half), number(half, "money"), 1e-6);
    assert_near(number(one, "money_back"), 4, 1e-9);
    json_decref(one);
    json_decref(whole);
    json_decref(half);
    json_decref(plain);
}

static void what_brings_nothing_sensible_is_refused_in_one_line(void **state)
{
    (void)state;
    run_refuses("best thimble --sold 2" DEMO, 3,
                "pare: --sold '2': the share of its price that a part brings is due, 0 to 1, like "
                "0.5 or 50%, or PART=MONEY\n");
    run_refuses("best thimble --sold pa-4s-520=x" DEMO, 3,
                "pare: --sold 'pa-4s-520=x': money for one is due, 0 to 1e+06\n");
    run_refuses("best thimble --sold pa-4s-521=1" DEMO, 2,
                "pare: --sold: the bench has no part 'pa-4s-521'; did you mean 'pa-4s-520'?\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sets_money_is_that_of_its_shopping_list),
        cmocka_unit_test(what_comes_off_brings_its_share),
        cmocka_unit_test(what_brings_nothing_sensible_is_refused_in_one_line),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
