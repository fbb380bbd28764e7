/* rooms: show advise craft physics base */
/* What a study's summary says in each state that it can be in: some are proven, some cannot be, some damaged;
 * covered by customers, craft, money or grams. The truth is what the numbers put in here say. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "changed_lines.h"
#include "near.h"
#include "show/study.h"

enum { TASKS = 4 };

/* Two offers, two briefs: tasks are offer by offer, brief by brief. */
typedef struct states {
    pare_study study;
    pare_study_view view;
    pare_study_bench bench[2];
    pare_study_offer offer[2];
    pare_study_brief brief[2];
    pare_study_axis *axis;
    pare_task_answer answer[TASKS];
    const char *loadout[2];
    unsigned long long key[TASKS];
    pare_cover_view cover;
    pare_covers covers[2];
    size_t covered[2], left[2];
    const char *left_why[2], *moved[1], *word[3];
    pare_screen screen;
} states;

static void give_answer(void *context, size_t task, pare_task_answer *answer)
{
    *answer = ((const states *)context)->answer[task];
}

static void close_states(states *s)
{
    free(s);
}

static states *open_states(void)
{
    states *s = calloc(1, sizeof *s);
    assert_non_null(s);
    s->screen = (pare_screen){.width = 80};
    s->brief[0] = (pare_study_brief){"slalom", 14};
    s->brief[1] = (pare_study_brief){"ridge", 1};
    s->offer[0].craft = "weir";
    s->offer[1].craft = "plover";
    s->study = (pare_study){.name = "club",
                            .best = true,
                            .benches = 1,
                            .offers = 2,
                            .briefs = 2,
                            .bench = s->bench,
                            .offer = s->offer,
                            .brief = s->brief};
    for (size_t i = 0; i < TASKS; i++)
        s->answer[i] = (pare_task_answer){.says = PARE_TASK_YES,
                                          .proven = true,
                                          .set = "",
                                          .was_g = 600,
                                          .mass_g = 500 + (double)i,
                                          .bound_g = 400};
    s->covers[0] = (pare_covers){.task = 0,
                                 .craft = "weir",
                                 .set = "",
                                 .grams = 500,
                                 .money = (double)NAN,
                                 .briefs = 1,
                                 .brief = s->covered};
    s->cover = (pare_cover_view){.candidates = 3,
                                 .chosen = 1,
                                 .covers = s->covers,
                                 .customers = 15,
                                 .covered = 14,
                                 .bound = 15,
                                 .total = 500,
                                 .total_bound = 450,
                                 .left = s->left,
                                 .left_why = s->left_why};
    s->left[0] = 1;
    s->axis = s->study.axis;
    s->axis[0] =
        (pare_study_axis){.name = "land.left", .of = PARE_VARY_BRIEF, .count = 1, .word = s->word};
    s->word[0] = "20 %";
    s->word[1] = "30 %";
    s->view = (pare_study_view){.study = &s->study,
                                .results = "r.csv",
                                .journal = "r.journal",
                                .tasks = TASKS,
                                .loadout = s->loadout,
                                .key = s->key,
                                .context = s,
                                .answer = give_answer,
                                .bench_moved = s->moved};
    return s;
}

static void say_text(const states *s, pare_text *out)
{
    pare_study_text(&s->view, &s->screen, out);
}

static void say_plan(const states *s, pare_text *out)
{
    pare_study_plan(&s->view, &s->screen, out);
}

static void say_plan_json(const states *s, pare_text *out)
{
    pare_study_plan(&s->view, NULL, out);
}

static void say_json(const states *s, pare_text *out)
{
    pare_study_json(&s->view, out);
}

typedef struct state_case {
    void (*make)(states *s);
    const char *answer;
} state_case;

static void expect(size_t count, const state_case cases[], void (*say)(const states *, pare_text *))
{
    pare_text base = {0};
    states *first = open_states();
    say(first, &base);
    close_states(first);
    for (size_t i = 0; i < count; i++) {
        states *s = open_states();
        pare_text whole = {0}, text = {0};
        cases[i].make(s);
        say(s, &whole);
        say_changes(base.bytes ? base.bytes : "", whole.bytes ? whole.bytes : "", i == 0, &text);
        assert_false(whole.failed || text.failed);
        const char *answer = text.bytes ? text.bytes : "";

        if (strcmp(answer, cases[i].answer) != 0)
            fail_msg("case %zu says\n%s\nand not\n%s", i, answer, cases[i].answer);
        pare_text_free(&whole);
        pare_text_free(&text);
        close_states(s);
    }
    pare_text_free(&base);
}

static void case_0(states *s)
{
    (void)s;
    (void)0;
}

static void case_1(states *s)
{
    s->study.best = false;
    s->answer[0].proven = false;
}

static void case_2(states *s)
{
    s->answer[0].says = PARE_TASK_NO;
    s->answer[2].says = PARE_TASK_NO;
    s->answer[0].why = "limit.all_up";
    s->answer[2].why = "keep.sees";
}

static void case_3(states *s)
{
    s->answer[1].says = PARE_TASK_NO;
    s->answer[3].says = PARE_TASK_NO;
    s->answer[1].why = "effort";
    s->answer[3].why = "nothing of the sort";
}

static void case_4(states *s)
{
    s->answer[0].says = PARE_TASK_NO;
    s->answer[2].says = PARE_TASK_NO;
    s->answer[0].why = "wire_drop.a.name.of.a.margin.that.is.longer.than.any.margin.is";
    s->answer[2].proven = false;
    s->answer[2].why = NULL;
}

static void case_5(states *s)
{
    s->answer[0].says = PARE_TASK_CANNOT;
    s->answer[0].why = "no such swap";
    s->answer[3].says = PARE_TASK_CANNOT;
}

static void case_6(states *s)
{
    s->answer[1].says = PARE_TASK_CANNOT;
}

static void case_7(states *s)
{
    s->answer[0].mass_g = (double)NAN;
    s->answer[1].proven = false;
}

static void case_8(states *s)
{
    s->bench[0].name = "one";
    s->bench[1].name = "two";
    s->offer[1].bench = 1;
    s->loadout[1] = "race";
    s->study.benches = 2;
}

static void case_9(states *s)
{
    s->brief[0].name = NULL;
    s->study.briefs = 1;
    s->view.tasks = 2;
    s->answer[1].says = PARE_TASK_NO;
    s->answer[1].why = "limit.flown";
}

static void case_10(states *s)
{
    s->study.briefs = 1;
    s->study.offers = 1;
    s->view.tasks = 1;
    s->view.known = 1;
}

static void case_11(states *s)
{
    s->view.damaged = 1;
    s->view.moved = 1;
    s->moved[0] = "club.sqlite";
}

static void case_12(states *s)
{
    s->view.damaged = 2;
}

static void case_13(states *s)
{
    s->study.offers = 1;
    s->study.briefs = 1;
    s->view.tasks = 0;
}

static void case_14(states *s)
{
    s->view.cover = &s->cover;
    s->cover.proven = true;
}

static void case_15(states *s)
{
    s->view.cover = &s->cover;
}

static void case_16(states *s)
{
    s->view.cover = &s->cover;
    s->study.cover.wish = PARE_COVER_CRAFT;
    s->cover.total_bound = 1;
}

static void case_17(states *s)
{
    s->view.cover = &s->cover;
    s->study.cover.wish = PARE_COVER_CRAFT;
    s->cover.proven = true;
}

static void case_18(states *s)
{
    s->view.cover = &s->cover;
    s->study.cover.wish = PARE_COVER_GRAMS;
    s->cover.proven = true;
}

static void case_19(states *s)
{
    s->view.cover = &s->cover;
    s->study.cover.wish = PARE_COVER_GRAMS;
}

static void case_20(states *s)
{
    s->view.cover = &s->cover;
    s->study.cover.wish = PARE_COVER_MONEY;
    s->view.money = "EUR";
    s->covers[0].money = 321.5;
}

static void case_21(states *s)
{
    s->view.cover = &s->cover;
    s->study.cover.wish = PARE_COVER_MONEY;
    s->covers[0].money = 321.5;
}

static void case_22(states *s)
{
    s->view.cover = &s->cover;
    s->study.cover.wish = PARE_COVER_MONEY;
    s->view.money = "";
    s->covers[0].money = 321.5;
}

static void case_23(states *s)
{
    s->view.cover = &s->cover;
    s->covers[0].tries = "bumper=off";
    s->covers[0].set = "skid=off,cage=off";
}

static void case_24(states *s)
{
    s->view.cover = &s->cover;
    s->covers[0].tries = "bumper=off,skid=off";
}

static void case_25(states *s)
{
    s->view.cover = &s->cover;
    s->covers[0].set = "skid=off";
    s->covers[0].briefs = 2;
    s->covered[1] = 1;
}

static void case_26(states *s)
{
    s->view.cover = &s->cover;
    s->cover.lefts = 1;
}

static void case_27(states *s)
{
    s->view.cover = &s->cover;
    s->cover.lefts = 2;
    s->left_why[0] = "limit.flown";
    s->left_why[1] = "effort";
    s->left[1] = 0;
}

static void case_28(states *s)
{
    s->study.axes = 1;
}

static void case_29(states *s)
{
    s->study.axes = 1;
    s->axis[0].count = 2;
    s->view.known = 3;
}

static void case_30(states *s)
{
    s->brief[0].name = NULL;
    s->study.best = false;
}

static void case_31(states *s)
{
    s->view.known = 3;
}

static void case_32(states *s)
{
    s->view.cover = &s->cover;
    s->cover.lefts = 2;
    s->left_why[1] = "limit.flown";
    s->view.moved = 1;
    s->moved[0] = "club.sqlite";
    s->loadout[0] = "race";
    s->bench[0].name = "one";
    s->view.money = "EUR";
    s->covers[0].loadout = "race";
    s->covers[0].tries = "a=b";
}

static void case_33(states *s)
{
    s->answer[1].says = PARE_TASK_NO;
    s->answer[1].set = NULL;
    s->answer[1].why = "limit.flown";
    s->answer[2].says = PARE_TASK_CANNOT;
    s->study.best = false;
    s->study.figures = 1;
    s->study.figure[0] = PARE_ALL_UP;
    s->answer[0].figures = 1;
    s->answer[0].value[0] = 500;
    s->answer[1].value[0] = (double)NAN;
}

static void a_summary_says_what_was_found(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_0, "club: best sets of 2 craft in 2 briefs, 4 tasks: 4 answered now, 0 before\na row "
                 "each in r.csv, journal r.journal\n\nbrief             customers    found  least "
                 "g  lightest\nslalom                   14      2/2    500.0  weir, task 1\nridge  "
                 "                   1      2/2    501.0  weir, task 2\n"},
        {case_1, "club: sheets of 2 craft in 2 briefs, 4 tasks: 4 answered now, 0 before\nbrief    "
                 "         customers  meet it  least g  lightest\n(6 lines)"},
        {case_2, "slalom                   14      0/2        -  none: all-up mass\n(6 lines)"},
        {case_3,
         "ridge                     1      0/2        -  none: found with this effort\n(6 lines)"},
        {case_4, "slalom                   14      0/2        -  none: volts lost in\n             "
                 "                                  a.name.of.a.margin.that.is.longer.tha\n1 not "
                 "proven: more effort, or none in the study, says more\n(8 lines)"},
        {case_5, "slalom                   14      1/2    502.0  plover, task 3\nridge             "
                 "        1      1/2    501.0  weir, task 2\n2 cannot be, the first task 1: no "
                 "such swap\n(7 lines)"},
        {case_6, "ridge                     1      1/2    503.0  plover, task 4\n1 cannot be, the "
                 "first task 2: ?\n(7 lines)"},
        {case_7, "slalom                   14      2/2    502.0  plover, task 3\n1 not proven: "
                 "more effort, or none in the study, says more\n(7 lines)"},
        {case_8, "slalom                   14      2/2    500.0  one: weir, task 1\nridge          "
                 "           1      2/2    501.0  one: weir, task 2\n(6 lines)"},
        {case_9, "club: best sets of 2 craft, 2 tasks: 2 answered now, 0 before\ncraft             "
                 "  found  least g  lightest\nweir                  1/1    500.0  weir, task "
                 "1\nplover                0/1        -  none: your minutes\n(6 lines)"},
        {case_10, "club: best sets of 1 craft in 1 brief, 1 task: 0 answered now, 1 before\nslalom "
                  "                  14      1/1    500.0  weir, task 1\n(5 lines)"},
        {case_11, "1 damaged line of r.journal passed over, and done again\nclub.sqlite has "
                  "changed or gone meanwhile: all this is of it as it was\n(8 lines)"},
        {case_12, "2 damaged lines of r.journal passed over, and done again\n(7 lines)"},
        {case_13, "club: best sets of 1 craft in 1 brief, 0 tasks: 0 answered now, 0 "
                  "before\nslalom                   14      0/0        -  \n(5 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_text);
}

static void whom_chosen_craft_cover_is_said_with_its_proof(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_14, "1 of 3 craft cover 14 of 15 customers, proven: no choice covers more\n  weir of "
                  "task 1, 500.0 g: 14 customers: slalom\n(9 lines)"},
        {case_15, "1 of 3 craft cover 14 of 15 customers; not proven: none covers more than 15\n  "
                  "weir of task 1, 500.0 g: 14 customers: slalom\n(9 lines)"},
        {case_16, "1 of 3 craft cover 14 of 15 customers; not proven: none does it with less than "
                  "1\n    craft\n  weir of task 1, 500.0 g: 14 customers: slalom\n(10 lines)"},
        {case_17, "1 of 3 craft cover 14 of 15 customers, proven: no choice does it with fewer\n  "
                  "weir of task 1, 500.0 g: 14 customers: slalom\n(9 lines)"},
        {case_18,
         "1 of 3 craft cover 14 of 15 customers, 500.0 g together, proven: no choice does\n    it "
         "with less\n  weir of task 1, 500.0 g: 14 customers: slalom\n(10 lines)"},
        {case_19,
         "1 of 3 craft cover 14 of 15 customers, 500.0 g together; not proven: none does\n    it "
         "with less than 450.0 g\n  weir of task 1, 500.0 g: 14 customers: slalom\n(10 lines)"},
        {case_20, "1 of 3 craft cover 14 of 15 customers, 500 EUR together; not proven: none "
                  "does\n    it with less than 450 EUR\n  weir of task 1, 500.0 g, 322 EUR: 14 "
                  "customers: slalom\n(10 lines)"},
        {case_21,
         "1 of 3 craft cover 14 of 15 customers, 500  together; not proven: none does it\n    with "
         "less than 450\n  weir of task 1, 500.0 g, 322: 14 customers: slalom\n(10 lines)"},
        {case_22,
         "1 of 3 craft cover 14 of 15 customers, 500  together; not proven: none does it\n    with "
         "less than 450\n  weir of task 1, 500.0 g, 322: 14 customers: slalom\n(10 lines)"},
        {case_23,
         "1 of 3 craft cover 14 of 15 customers; not proven: none covers more than 15\n  weir of "
         "task 1, 500.0 g: 14 customers: slalom\n      bumper=off skid=off cage=off\n(10 lines)"},
        {case_24,
         "1 of 3 craft cover 14 of 15 customers; not proven: none covers more than 15\n  weir of "
         "task 1, 500.0 g: 14 customers: slalom\n      bumper=off skid=off\n(10 lines)"},
        {case_25,
         "1 of 3 craft cover 14 of 15 customers; not proven: none covers more than 15\n  weir of "
         "task 1, 500.0 g: 15 customers: slalom, ridge\n      skid=off\n(10 lines)"},
        {case_26, "1 of 3 craft cover 14 of 15 customers; not proven: none covers more than 15\n  "
                  "weir of task 1, 500.0 g: 14 customers: slalom\n  not covered: ridge, 1 "
                  "customer; a craft that was not chosen does it\n(10 lines)"},
        {case_27,
         "1 of 3 craft cover 14 of 15 customers; not proven: none covers more than 15\n  weir of "
         "task 1, 500.0 g: 14 customers: slalom\n  not covered: ridge, 1 customer; no craft here "
         "does, most fail your minutes\n  not covered: slalom, 14 customers; no craft here does, "
         "most fail found with\n      this effort\n(12 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_text);
}

static void a_plan_says_how_much_there_is_to_do(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_28, "  land.left: 1 value, 20 %\n(3 lines)"},
        {case_29, "club: best sets of 2 craft in 2 briefs, 4 tasks, 3 of them answered in\n  "
                  "land.left: 2 values, 20 % .. 30 %\n(3 lines)"},
        {case_30, "club: sheets of 2 craft, 4 tasks, 0 of them answered in r.journal; nothing "
                  "done\n(1 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_plan);
}

static void a_plan_may_be_json(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_31, " \"answered\": 3,\n(7 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_plan_json);
}

static void all_of_it_may_be_json(void **state)
{
    (void)state;
    static const state_case cases[] = {
        {case_32,
         " \"money_unit\": \"EUR\",\n \"benches_changed\": [\n  \"club.sqlite\"\n ],\n \"cover\": "
         "{\n  \"wish\": \"customers\",\n  \"candidates\": 3,\n  \"customers\": 15,\n  "
         "\"covered\": 14,\n  \"proven\": false,\n  \"covered_bound\": 15,\n  \"total\": 500,\n  "
         "\"chosen\": [\n   {\n    \"task\": 1,\n    \"craft\": \"weir\",\n    \"loadout\": "
         "\"race\",\n    \"tried\": \"a=b\",\n    \"set\": \"\",\n    \"all_up_g\": 500,\n    "
         "\"money\": null,\n    \"briefs\": [\n     \"slalom\"\n    ]\n   }\n  ],\n  "
         "\"not_covered\": [\n   {\n    \"brief\": \"ridge\",\n    \"why\": null\n   },\n   {\n    "
         "\"brief\": \"slalom\",\n    \"why\": \"limit.flown\"\n   }\n  ]\n },\n   \"bench\": "
         "\"one\",\n   \"loadout\": \"race\",\n   \"bench\": \"one\",\n   \"loadout\": \"race\",\n "
         "  \"bench\": \"one\",\n   \"bench\": \"one\",\n(121 lines)"},
        {case_33,
         " \"ask\": \"sheet\",\n   \"figures\": {\n    \"all_up_g\": 500,\n    \"all_up_g_u\": 0\n "
         "  }\n   \"answer\": \"no\",\n   \"why\": \"limit.flown\",\n   \"figures\": {\n    "
         "\"all_up_g\": null,\n    \"all_up_g_u\": 0\n   }\n   \"answer\": \"cannot\",\n   "
         "\"figures\": {\n    \"all_up_g\": 0,\n    \"all_up_g_u\": 0\n   }\n   \"figures\": {\n   "
         " \"all_up_g\": 0,\n    \"all_up_g_u\": 0\n   }\n(71 lines)"},
    };
    expect(sizeof cases / sizeof *cases, cases, say_json);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_summary_says_what_was_found),
        cmocka_unit_test(whom_chosen_craft_cover_is_said_with_its_proof),
        cmocka_unit_test(a_plan_says_how_much_there_is_to_do),
        cmocka_unit_test(a_plan_may_be_json),
        cmocka_unit_test(all_of_it_may_be_json),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
