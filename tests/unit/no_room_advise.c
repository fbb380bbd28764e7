/* rooms: store advise craft physics base */
/* Without room in an arena, advice: the nth place asked of one is refused, for every n, while swaps are listed,
 * named, taken and put on a checklist, while a task is answered, while a craft is started, and while one of each
 * class is chosen; each time the answer is that there is no memory. */
#include "advise_fails.h"
#include "arena_fails.h"

static void swaps_are_listed_whole_or_not(void **state)
{
    each_fails_once(*state, list_swaps);
    each_fails_once(*state, sum_swaps);
    each_fails_once(*state, name_swaps);
}

static void a_task_is_answered_or_not(void **state)
{
    each_fails_once(*state, answer_task);
}

static void swaps_are_taken_whole_or_not(void **state)
{
    each_fails_once(*state, take_some);
    each_fails_once(*state, check_some);
}

static void a_craft_is_started_whole_or_not(void **state)
{
    each_fails_once(*state, start_one);
    each_fails_once(*state, start_flown);
}

static void one_of_each_class_is_chosen_or_not(void **state)
{
    each_fails_once(*state, choose_one_of_each);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(one_of_each_class_is_chosen_or_not, fixture_open,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(swaps_are_taken_whole_or_not, fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(swaps_are_listed_whole_or_not, fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(a_task_is_answered_or_not, fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(a_craft_is_started_whole_or_not, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
