/* advise_works.h: what advice does for its callers, one function each, for tests that make it fail at every
 * point. */
#ifndef PARE_TESTS_ADVISE_WORKS_H
#define PARE_TESTS_ADVISE_WORKS_H

#include "advise/checklist.h"
#include "advise/pick_differ.h"
#include "advise/start.h"
#include "advise/take.h"
#include "advise/taken.h"
#include "advise/tasks.h"
#include "swap_fixture.h"

typedef pare_status (*work)(fixture *f, pare_arena *arena, pare_error *err);

static inline pare_status list_swaps(fixture *f, pare_arena *arena, pare_error *err)
{
    pare_swaps swaps;
    return pare_swaps_find(f->bench, f->craft, 0, PARE_WISH_GRAMS, arena, &swaps, err);
}

static inline pare_status sum_swaps(fixture *f, pare_arena *arena, pare_error *err)
{
    pare_swaps swaps;
    return pare_swaps_sum(f->bench, f->craft, 0, arena, &swaps, err);
}

static inline pare_status take_some(fixture *f, pare_arena *arena, pare_error *err)
{
    static const char *const date[PARE_STAGES] = {"2024-03-01"};
    static pare_taking taking;
    return pare_take(f->bench, f->craft, "bumper=off,joint.motor_base.count=8", date, arena,
                     &taking, err);
}

static inline pare_status check_some(fixture *f, pare_arena *arena, pare_error *err)
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

static inline pare_status start_one(fixture *f, pare_arena *arena, pare_error *err)
{
    (void)f;
    static const pare_start_answers answers = {.all_up_kg = 0.6};
    pare_start start;
    return pare_start_make("plover", &answers, arena, &start, err);
}

/* Enough of them that every list grows on the way. */
static inline pare_status choose_one_of_each(fixture *f, pare_arena *arena, pare_error *err)
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

static inline pare_status name_swaps(fixture *f, pare_arena *arena, pare_error *err)
{
    size_t count = 0;
    const char *const *names = NULL;
    return pare_swap_names(f->bench, f->craft, 0, arena, &count, &names, err);
}

/* The best set of a brief, and the craft that comes of it held against the brief. */
static inline pare_status answer_task(fixture *f, pare_arena *arena, pare_error *err)
{
    static const int figures[] = {PARE_ALL_UP, PARE_FLOWN};
    const pare_task_ask ask = {.bench = f->bench,
                               .craft = f->craft,
                               .loadout = -1,
                               .brief = &f->craft->brief,
                               .tries = "bumper=off",
                               .wish = PARE_WISH_GRAMS,
                               .figures = 2,
                               .figure = figures};
    pare_task_answer answer;
    pare_task_craft made = {0};
    pare_status status = pare_task_answer_it(&ask, arena, &answer, err);
    if (status == PARE_OK)
        status = pare_task_craft_make(&ask, "joint.motor_base.count=8", arena, &made, err);
    return status;
}

/* A craft whose minutes are known: its pack is enlarged until it flies as long. */
static inline pare_status start_flown(fixture *f, pare_arena *arena, pare_error *err)
{
    (void)f;
    static const pare_start_answers answers = {.all_up_kg = 0.6, .flown_s = 360};
    pare_start start;
    return pare_start_make("plover", &answers, arena, &start, err);
}

#endif
