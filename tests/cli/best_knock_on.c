/* pare best --knock-on: what follows saved grams in real parts, from which gram on. */
#define _XOPEN_SOURCE 700

#include "run.h"

#include <math.h>
#include <string.h>

static void a_knock_on_reads_well(void **state)
{
    (void)state;
    run_prints_golden("best-knock-on", "best thimble --knock-on 30g --time 1000" DEMO);
}

static double follows_with(double saved_g)
{
    char command[128];
    snprintf(command, sizeof command, "best thimble --knock-on %.4fg --time 1000 --json" DEMO,
             saved_g);
    json_t *told = run_json(command);
    assert_true(json_is_true(json_object_get(told, "proven")));
    const double follows_g = number(told, "follows_g");
    json_decref(told);
    return follows_g;
}

/* A step is where it says, to a tenth of a gram, and its parts are all of what follows. */
static void a_step_begins_at_its_gram(void **state)
{
    (void)state;
    json_t *told = run_json("best thimble --knock-on 30g --time 1000 --json" DEMO);
    const json_t *steps = json_object_get(told, "steps");
    const size_t count = json_array_size(steps);
    assert_true(json_is_true(json_object_get(told, "proven")));
    assert_true(count >= 2);
    assert_near(number(json_array_get(steps, 0), "saved_g"), 0, 0);
    assert_near(number(json_array_get(steps, 0), "follows_g"), 0, 0);
    for (size_t i = 1; i < count; i++) {
        const json_t *step = json_array_get(steps, i), *before = json_array_get(steps, i - 1);
        const double at_g = number(step, "saved_g"), follows_g = number(step, "follows_g");
        double parts_g = 0;
        size_t k;
        const json_t *part;
        json_array_foreach(json_object_get(step, "parts"), k, part) parts_g +=
            number(part, "grams");
        assert_near(parts_g, follows_g - number(before, "follows_g"), 0.2);
        assert_near(follows_with(at_g), follows_g, 1e-3);
        assert_near(follows_with(at_g - 0.11), number(before, "follows_g"), 1e-3);
        assert_near(number(step, "estimate_g"), (number(told, "growth") - 1) * at_g, 1e-6);
    }
    assert_near(number(json_array_get(steps, count - 1), "follows_g"), number(told, "follows_g"),
                1e-9);
    json_decref(told);
}

/* A smaller pack that flies as long as now has spent what the grams had won; with the pack held it is kept. */
static void a_smaller_pack_is_said_to_spend_the_minutes(void **state)
{
    (void)state;
    json_t *told = run_json("best thimble --knock-on 30g --time 1000 --json" DEMO);
    const json_t *minutes = json_object_get(told, "minutes");
    assert_true(number(minutes, "lighter") > number(minutes, "before"));
    assert_true(number(minutes, "after") < number(minutes, "lighter"));
    assert_near(number(told, "spends"),
                (number(minutes, "lighter") - number(minutes, "after")) /
                    (number(minutes, "lighter") - number(minutes, "before")),
                1e-6);
    json_t *sheet = run_json("sheet thimble --json" DEMO);
    assert_true(number(minutes, "after") >= number(sheet, "flown_min") * (1 - 1e-5));
    ran held = run("best thimble --knock-on 30g --hold pack --time 1000" DEMO);
    assert_int_equal(held.status, 0);
    assert_null(strstr(held.out, "Mind:"));
    ran_free(&held);
    json_decref(sheet);
    json_decref(told);
}

static void what_cannot_be_saved_is_refused_in_one_line(void **state)
{
    (void)state;
    run_refuses("best thimble --knock-on 0g" DEMO, 3,
                "pare: --knock-on: '0g': more than 0 is due\n");
    run_refuses("best thimble --knock-on 30g --walk" DEMO, 3,
                "pare: --knock-on is a question of its own: it goes with --loadout, --hold, "
                "--never, --must and --time\n");
    ran much = run("best thimble --knock-on 200g" DEMO);
    assert_int_equal(much.status, 3);
    assert_non_null(strstr(much.err, "200 g to be saved: more than 0 and less than half of "));
    ran_free(&much);
    ran bare = run("best thimble --knock-on 30" DEMO);
    assert_int_equal(bare.status, 3);
    ran_free(&bare);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_knock_on_reads_well),
        cmocka_unit_test(a_step_begins_at_its_gram),
        cmocka_unit_test(a_smaller_pack_is_said_to_spend_the_minutes),
        cmocka_unit_test(what_cannot_be_saved_is_refused_in_one_line),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
