/* rooms: store advise craft physics base */
/* Without memory, advice: the nth allocation fails, for every n, while swaps are listed, taken and put on
 * a checklist, while a craft is started, and while one of each class is chosen; each time the answer is that there is no memory. */
#include "allocation_fails.h"

#include "advise/checklist.h"
#include "advise/pick_differ.h"
#include "advise/start.h"
#include "advise/take.h"
#include "advise/taken.h"
#include "swap_fixture.h"

typedef pare_status (*work)(fixture *f, pare_arena *arena, pare_error *err);

static void each_allocation_fails_once(fixture *f, work does)
{
    enum { MOST = 50000 };
    long n = 0;
    for (bool done = false; !done; n++) {
        assert_true(n < MOST);
        pare_error err = {0};
        pare_arena *arena = pare_arena_open();
        until_failure = n;
        const pare_status status = does(f, arena, &err);
        done = until_failure >= 0;
        until_failure = -1;
        pare_arena_close(arena);
        expect_answer(status, &err, done);
    }
    assert_true(n > 1);
}

static pare_status list_swaps(fixture *f, pare_arena *arena, pare_error *err)
{
    pare_swaps swaps;
    return pare_swaps_find(f->bench, f->craft, 0, PARE_WISH_GRAMS, arena, &swaps, err);
}

static pare_status sum_swaps(fixture *f, pare_arena *arena, pare_error *err)
{
    pare_swaps swaps;
    return pare_swaps_sum(f->bench, f->craft, 0, arena, &swaps, err);
}

static pare_status take_some(fixture *f, pare_arena *arena, pare_error *err)
{
    static const char *const date[PARE_STAGES] = {"2024-03-01"};
    static pare_taking taking;
    return pare_take(f->bench, f->craft, "bumper=off,joint.motor_base.count=8", date, arena,
                     &taking, err);
}

static pare_status check_some(fixture *f, pare_arena *arena, pare_error *err)
{
    static pare_craft craft;
    static pare_checklist list;
    const bool wanted[PARE_TAKENS] = {true, true};
    craft = *f->craft;
    craft.takens = 2;
    craft.taken[0] = (pare_taken){.swap = "bumper=off", .date = {"2024-03-01"}};
    craft.taken[1] = (pare_taken){.swap = "joint.motor_base.count=8", .date = {"2024-03-01"}};
    return pare_checklist_make(f->bench, &craft, wanted, arena, &list, err);
}

static pare_status start_one(fixture *f, pare_arena *arena, pare_error *err)
{
    (void)f;
    static const pare_start_answers answers = {.all_up_kg = 0.6};
    pare_start start;
    return pare_start_make("plover", &answers, arena, &start, err);
}

/* Enough of them that every list grows on the way. */
static pare_status choose_one_of_each(fixture *f, pare_arena *arena, pare_error *err)
{
    (void)f;
    enum { CLASSES = 9, WANTED = 40 };
    pare_pick_amounts option[CLASSES][2];
    pare_pick_class class[CLASSES];
    bool counts[CLASSES];
    for (int i = 0; i < CLASSES; i++) {
        option[i][0] = (pare_pick_amounts){0, 1 << i, {i, i % 2}};
        option[i][1] = (pare_pick_amounts){1 << i, 0, {-i, i % 3}};
        class[i] = (pare_pick_class){2, option[i]};
        counts[i] = true;
    }
    pare_pick pick = {.classes = CLASSES, .class = class, .most = pare_pick_no_limit()};
    pick.most.money_cents = 300;
    pare_status status = PARE_OK;
    for (pick.loads = 0; status == PARE_OK && pick.loads <= 2; pick.loads++) {
        pare_pick_front front;
        size_t choice[CLASSES], count = 0;
        pare_pick_found found[WANTED];
        status = pare_pick_front_make(&pick, arena, &front, err);
        if (status == PARE_OK)
            status = pare_pick_lightest(&pick, choice, NULL, err);
        if (status == PARE_OK)
            status = pare_pick_differ(&pick, counts, WANTED, NULL, NULL, arena, found, &count, err);
        if (status == PARE_OK)
            status = pare_pick_undominated(&class[0], pick.loads, choice, &count, err);
    }
    return status;
}

static void swaps_are_listed_whole_or_not(void **state)
{
    each_allocation_fails_once(*state, list_swaps);
    each_allocation_fails_once(*state, sum_swaps);
}

static void swaps_are_taken_whole_or_not(void **state)
{
    each_allocation_fails_once(*state, take_some);
    each_allocation_fails_once(*state, check_some);
}

static void a_craft_is_started_whole_or_not(void **state)
{
    each_allocation_fails_once(*state, start_one);
}

static void one_of_each_class_is_chosen_or_not(void **state)
{
    each_allocation_fails_once(*state, choose_one_of_each);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(swaps_are_listed_whole_or_not, fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(swaps_are_taken_whole_or_not, fixture_open, fixture_close),
        cmocka_unit_test_setup_teardown(a_craft_is_started_whole_or_not, fixture_open,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(one_of_each_class_is_chosen_or_not, fixture_open,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
