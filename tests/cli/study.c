/* pare study: its rows are what sheet and best say; the same bytes after any end; what cannot be read is said with its
 * place; who covers whom. */
#include "run.h"

#include <dirent.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

enum { LINE = 2048 };

#define CUSTOMERS PARE_SOURCE_DIR "/demo/customers.yaml"

static void copy_customers(void)
{
    char *text = whole_file(CUSTOMERS);
    write_text("customers.yaml", text);
    free(text);
    remove("customers.journal");
    remove("customers.csv");
}

static size_t lines_of(const char *file)
{
    char *text = whole_file(file);
    size_t count = 0;
    for (const char *c = text; *c; c++)
        count += *c == '\n';
    free(text);
    return count;
}

/* ---- what it says ---- */

static void the_demos_customers_are_covered(void **state)
{
    (void)state;
    copy_customers();
    run_prints_golden("study-plan", "study customers.yaml --dry-run" DEMO);
    run_prints_golden("study", "study customers.yaml" DEMO);
    assert_int_equal(lines_of("customers.csv"), 361);
    char *text = whole_file("customers.csv");
    *strchr(text, '\r') = '\0';
    assert_string_equal(
        text, "task,key,craft,loadout,brief,air.temperature,try,answer,why,all_up_g,all_up_g_u,"
              "flown_min,flown_min_u,thrust_to_weight_half,thrust_to_weight_half_u,crash_j,"
              "crash_j_u,best_range_m,best_range_m_u,money,money_u");
    free(text);
}

static json_t *task_of(const json_t *study, size_t number)
{
    json_t *task = json_array_get(json_object_get(study, "tasks"), number);
    assert_non_null(task);
    return task;
}

/* Each craft in its own brief: what a study says of it is what pare sheet says. */
static void a_sheets_figures_are_those_of_pare_sheet(void **state)
{
    (void)state;
    static const char *const figures[] = {"all_up_g", "flown_min", "hover_a", "roll_rad_s2",
                                          "crash_j"};
    write_text("own.yaml", "study: own\nask: sheet\ncraft: [hedgerow/race, drover]\n"
                           "figures: [all_up_g, flown_min, hover_a, roll_rad_s2, crash_j]\n"
                           "vary: {try: [none, bumper=off]}\n");
    json_t *study = run_json("study own.yaml --json" DEMO);
    static const char *const lines[] = {
        "sheet hedgerow --loadout race --json" DEMO,
        "sheet hedgerow --loadout race --try bumper=off --json" DEMO, "sheet drover --json" DEMO,
        "sheet drover --try bumper=off --json" DEMO};
    assert_int_equal(json_array_size(json_object_get(study, "tasks")), 4);
    for (size_t i = 0; i < 4; i++) {
        const json_t *task = task_of(study, i), *said = json_object_get(task, "figures");
        json_t *sheet = run_json(lines[i]);
        for (size_t f = 0; f < sizeof figures / sizeof figures[0]; f++) {
            char key_u[64];
            snprintf(key_u, sizeof key_u, "%s_u", figures[f]);
            assert_near(number(said, figures[f]), number(sheet, figures[f]), 0);
            assert_near(number(said, key_u), number(sheet, key_u), 0);
        }
        json_decref(sheet);
    }
    /* hedgerow/race is over its limit of 620 g with and without; drover over 960 g. */
    for (size_t i = 0; i < 4; i++)
        assert_string_equal(json_string_value(json_object_get(task_of(study, i), "answer")), "no");
    json_decref(study);
}

/* The set and its bound are those of pare best, which computes on all threads. */
static void a_best_set_is_that_of_pare_best(void **state)
{
    (void)state;
    write_text("set.yaml", "study: set\ncraft: [thimble/short]\nvary: {budget: [any, 60]}\n");
    json_t *study = run_json("study set.yaml --json" DEMO),
           *best = run_json("best thimble --loadout short --json" DEMO);
    const json_t *task = task_of(study, 0), *poor = task_of(study, 1);
    assert_string_equal(json_string_value(json_object_get(task, "set")),
                        json_string_value(json_object_get(best, "try")));
    assert_near(number(task, "bound_g"), number(best, "bound_g"), 0);
    assert_near(number(task, "was_g"), number(best, "was_g"), 0);
    assert_near(number(task, "pays"), number(best, "money"), 0);
    assert_near(number(task, "work_min"), number(best, "work_min"), 0);
    assert_true(json_is_true(json_object_get(task, "proven")));
    assert_near(number(json_object_get(task, "figures"), "all_up_g"),
                number(json_object_get(best, "after"), "all_up_g"), 0);
    assert_true(number(poor, "pays") <= 60);
    assert_true(number(json_object_get(poor, "figures"), "all_up_g") >
                number(json_object_get(task, "figures"), "all_up_g"));
    json_decref(study);
    json_decref(best);
}

/* What a brief asks in all that varies of it, one sort of customer each: by hand from the rows. */
static void a_craft_covers_where_all_its_rows_say_yes(void **state)
{
    (void)state;
    copy_customers();
    json_t *study = run_json("study customers.yaml --json" DEMO);
    const json_t *cover = json_object_get(study, "cover"), *tasks = json_object_get(study, "tasks");
    assert_true(json_is_true(json_object_get(cover, "proven")));
    assert_int_equal(json_array_size(json_object_get(cover, "chosen")), 2);
    /* Sets of briefs of each craft and try, then every pair of them. */
    unsigned covers[64] = {0}, seen[64] = {0};
    static const char *const names[] = {"slalom", "pasture", "wedding",
                                        "ridge",  "school",  "survey"};
    static const long long customers[] = {14, 9, 6, 5, 11, 3};
    size_t offers = 0, index;
    char offer[64][128];
    const json_t *task;
    json_array_foreach(tasks, index, task)
    {
        char of[128];
        size_t at = 0, b = 0;
        snprintf(of, sizeof of, "%s/%s/%s", json_string_value(json_object_get(task, "craft")),
                 json_string_value(json_object_get(task, "loadout")),
                 json_string_value(json_object_get(json_object_get(task, "varied"), "try")));
        while (at < offers && strcmp(offer[at], of) != 0)
            at++;
        assert_true(at < 64);
        if (at == offers)
            snprintf(offer[offers++], sizeof offer[0], "%s", of);
        while (strcmp(names[b], json_string_value(json_object_get(task, "brief"))) != 0)
            b++;
        const bool yes = strcmp(json_string_value(json_object_get(task, "answer")), "yes") == 0;
        covers[at] = seen[at] >> b & 1 ? covers[at] & (yes ? ~0u : ~(1u << b))
                                       : covers[at] | (unsigned)yes << b;
        seen[at] |= 1u << b;
    }
    long long most = 0;
    for (size_t i = 0; i < offers; i++)
        for (size_t k = 0; k < offers; k++) {
            long long sum = 0;
            for (size_t b = 0; b < 6; b++)
                sum += (covers[i] | covers[k]) >> b & 1 ? customers[b] : 0;
            most = sum > most ? sum : most;
        }
    assert_int_equal(offers, 20);
    assert_near(number(cover, "covered"), (double)most, 0);
    assert_near(number(cover, "customers"), 48, 0);
    json_decref(study);
}

static void all_are_covered_with_the_least(void **state)
{
    (void)state;
    static const char *const wishes[] = {"craft", "money", "grams"};
    double total[3];
    for (size_t i = 0; i < 3; i++) {
        char *text = whole_file(CUSTOMERS), *cover = strstr(text, "cover:"), study[4096];
        assert_non_null(cover);
        *cover = '\0';
        snprintf(study, sizeof study, "%scover: {wish: %s}\n", text, wishes[i]);
        write_text("all.yaml", study);
        free(text);
        json_t *answer = run_json("study all.yaml --json" DEMO);
        const json_t *found = json_object_get(answer, "cover");
        double sum = 0;
        size_t index;
        const json_t *one;
        assert_true(json_is_true(json_object_get(found, "proven")));
        assert_near(number(found, "covered"), 48, 0);
        json_array_foreach(json_object_get(found, "chosen"), index, one) sum +=
            i == 0 ? 1 : number(one, i == 1 ? "money" : "all_up_g");
        total[i] = number(found, "total");
        assert_near(total[i], sum, 0.5);
        assert_near(number(found, "total_bound"), total[i], 0);
        json_decref(answer);
    }
    assert_near(total[0], 3, 0);
}

/* ---- ends, and going on ---- */

/* A journal cut anywhere is the journal of a run that was killed there. */
static void a_study_that_was_ended_goes_on_with_the_same_bytes(void **state)
{
    (void)state;
    copy_customers();
    run_quietly("study customers.yaml" DEMO);
    char *journal = whole_file("customers.journal"), *whole = whole_file("customers.csv");
    const size_t length = strlen(journal);
    write_text("whole.csv", whole);
    free(whole);
    for (size_t cut = 0; cut <= length; cut += length / 7 + 13) {
        write_file("customers.journal", journal, cut);
        remove("customers.csv");
        run_quietly("study customers.yaml" DEMO);
        is_same_file("customers.csv", "whole.csv");
        assert_int_equal(lines_of("customers.journal"), 381);
    }
    free(journal);
}

static void a_damaged_line_is_done_again_and_said(void **state)
{
    (void)state;
    copy_customers();
    run_quietly("study customers.yaml" DEMO);
    char *journal = whole_file("customers.journal"), *whole = whole_file("customers.csv");
    write_text("whole.csv", whole);
    free(whole);
    char *digit = strstr(strchr(journal, '\n') + 20, "limit.");
    *digit = 'L';
    write_text("customers.journal", journal);
    free(journal);
    ran r = run("study customers.yaml" DEMO);
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "360 tasks: 1 answered now, 359 before"));
    assert_non_null(
        strstr(r.out, "1 damaged line of customers.journal passed over, and done again"));
    ran_free(&r);
    is_same_file("customers.csv", "whole.csv");
}

static void a_study_that_has_grown_does_only_what_is_new(void **state)
{
    (void)state;
    write_text("grows.yaml", "study: grows\nask: sheet\ncraft: [thimble]\n"
                             "vary: {air.temperature: [0 degC, 20 degC]}\n");
    run_quietly("study grows.yaml" DEMO);
    write_text("grows.yaml", "study: grows\nask: sheet\ncraft: [bodkin, thimble]\n"
                             "vary: {air.temperature: [0 degC, 10 degC, 20 degC]}\n");
    run_prints("study grows.yaml --dry-run" DEMO,
               "grows: sheets of 2 craft, 6 tasks, 2 of them answered in grows.journal; nothing\n"
               "    done\n  air.temperature: 3 values, 0 degC .. 20 degC\n");
    ran r = run("study grows.yaml" DEMO);
    assert_non_null(strstr(r.out, "6 tasks: 4 answered now, 2 before\n"));
    ran_free(&r);
    /* Another bench is another question: none of it is believed. */
    run_quietly("craft limit thimble all_up=240g" DEMO);
    r = run("study grows.yaml" DEMO);
    assert_non_null(strstr(r.out, "6 tasks: 6 answered now, 0 before\n"));
    ran_free(&r);
    run_quietly("undo" DEMO);
    r = run("study grows.yaml" DEMO);
    assert_non_null(strstr(r.out, "6 tasks: 0 answered now, 6 before\n"));
    ran_free(&r);
}

/* Files of 50 KiB at most, and 70: the program is ended by a signal as it writes, or told that there is no room. */
static void a_journal_that_cannot_grow_loses_nothing(void **state)
{
    (void)state;
    copy_customers();
    run_quietly("study customers.yaml -o whole.csv --journal whole.journal" DEMO);
    (void)!system("ulimit -f 100; exec " PARE_BINARY " study customers.yaml" DEMO " >f.txt 2>&1");
    const size_t had = lines_of("customers.journal");
    assert_true(had > 20 && had < 300);
    const int status = system("trap '' XFSZ; ulimit -f 140; exec " PARE_BINARY
                              " study customers.yaml" DEMO " >f.txt 2>f.err");
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 4);
    char *err = whole_file("f.err");
    assert_string_equal(err, "pare: customers.journal: cannot be written (File too large)\n");
    free(err);
    const size_t has = lines_of("customers.journal");
    assert_true(has > had && has < 361);
    assert_null(read_file("customers.csv"));
    run_quietly("study customers.yaml" DEMO);
    is_same_file("customers.csv", "whole.csv");
}

static void another_journal_is_left_alone(void **state)
{
    (void)state;
    write_text("a.yaml", "study: a\nask: sheet\ncraft: [thimble]\n");
    write_text("b.yaml", "study: b\nask: sheet\ncraft: [thimble]\n");
    run_quietly("study a.yaml --journal kept" DEMO);
    run_refuses("study b.yaml --journal kept" DEMO, 3,
                "pare: kept:1: the journal of 'pare-study 1 a', not of 'pare-study 1 b'; move it "
                "away, or name another\n");
    write_text("list", "somebody's list\n");
    run_refuses("study b.yaml --journal list" DEMO, 3,
                "pare: list:1: no journal; move that file away, or name another journal\n");
    is_same_file("list", "list");
    write_text("cut", "somebody's");
    run_refuses("study b.yaml --journal cut" DEMO, 3,
                "pare: cut:1: no journal; move that file away, or name another journal\n");
    run_refuses("study b.yaml --journal data" DEMO, 4,
                "pare: data: cannot be written (Is a directory)\n");
    run_refuses("study b.yaml --journal no/such" DEMO, 4,
                "pare: no/such: cannot be written (No such file or directory)\n");
    run_refuses("study b.yaml -o b.yaml" DEMO, 3,
                "pare: b.yaml: the study, its results and its journal are three files\n");
    run_refuses("study b.yaml -o data" DEMO, 3,
                "pare: data: no regular file; right would be a file's name\n");
}

/* ---- what cannot be read ---- */

static void what_cannot_be_right_is_said_with_its_place(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int status;
        const char *says;
    } wrong[] = {
        {"", 3, "w.yaml:1:1: "},
        {"craft: all\n", 3, "w.yaml:1:1: no study; right would begin with study: NAME"},
        {"study: w\ncraf: all\n", 2, "w.yaml:2:1: a study has no key 'craf'; is it 'craft'?"},
        {"study: w\nask: besst\n", 3, "w.yaml:2:6: ask cannot be 'besst'; is it 'best'?"},
        {"study: w\nfigures: [all_up]\n", 3,
         "w.yaml:2:11: figure cannot be 'all_up'; is it 'all_up_g'?"},
        {"study: w\nfigures: [all_up_g, all_up_g]\n", 3,
         "w.yaml:2:21: figures have all_up_g twice; right would be once"},
        {"study: w\ncraft: [thimbel]\n", 2,
         "w.yaml:2:9: no craft 'thimbel'; did you mean thimble?"},
        {"study: w\ncraft: [thimble/plya]\n", 2,
         "w.yaml:2:9: no loadout 'plya'; did you mean play?"},
        {"study: w\ncraft: [thimble/]\n", 3,
         "w.yaml:2:9: craft is 'thimble/'; right would be CRAFT or CRAFT/LOADOUT"},
        {"study: w\ncraft: []\n", 3, "w.yaml:2:8: no craft; right would be some, or all"},
        {"study: w\nvary: {air.temprature: [1 degC]}\n", 2,
         "air has no key 'temprature'; is it 'temperature'?"},
        {"study: w\nvary: {limit.flown: [1]}\n", 2,
         "w.yaml:2:8: vary has no key 'limit'; is it 'limits'?"},
        {"study: w\nvary: {limits.flown: [\">= 3 min\", 4 min]}\n", 3,
         "w.yaml:2:35: flown is '4 min'; right would start with <= or >="},
        {"study: w\nvary: {air.temperature: [1 degC, 1 degC]}\n", 3,
         "w.yaml:2:34: air.temperature has '1 degC' twice; right would be once"},
        {"study: w\nvary: {air.temperature: []}\n", 3,
         "w.yaml:2:25: air.temperature has 0 values; right would be 1 to 10000"},
        {"study: w\nvary: {air.temperature: {from: 0 degC, to: 30 degF, steps: 4}}\n", 3,
         "w.yaml:2:25: a range from '0 degC' to '30 degF'; right would be two numbers of the same "
         "unit"},
        {"study: w\nvary: {air.temperature: {from: 0 degC, steps: 4}}\n", 3,
         "w.yaml:2:25: a range without to; right would be like"},
        {"study: w\nvary: {wish: [mnutes]}\n", 3,
         "w.yaml:2:15: no wish 'mnutes'; did you mean minutes?"},
        {"study: w\nvary: {budget: [-3]}\n", 3,
         "w.yaml:2:17: budget is '-3'; right would be a number, 0 to 1e+07, or any"},
        {"study: w\nvary: {never: [\"vt-mite,vt-mit\"]}\n", 2,
         "w.yaml:2:16: no part 'vt-mit'; did you mean vt-mite?"},
        {"study: w\nvary: {hold: [\"frame,,motor\"]}\n", 3,
         "w.yaml:2:15: hold is 'frame,,motor'; right would be 1 to 32 names with commas between"},
        {"study: w\nask: sheet\nvary: {budget: [3]}\n", 3,
         "w.yaml:3:16: budget is of best sets; right would be ask: best"},
        {"study: w\nask: sheet\neffort: 3\n", 3, "effort is of best sets"},
        {"study: w\ncover: {most: 3}\n", 3, "w.yaml:2:8: cover whom? Right would be briefs:"},
        {"study: w\nbriefs: {a: {}}\ncover: {most: 3, wish: money}\n", 3,
         "w.yaml:3:8: right would be {most: NUMBER}"},
        {"study: w\nbriefs: {}\n", 3, "w.yaml:2:9: no brief; right would be"},
        {"study: w\nbriefs: {a: {customers: 0}}\n", 3, "w.yaml:2:25: "},
        {"study: w\nbriefs: {a: {limits: {all_upp: \"<= 1 g\"}}}\n", 2,
         "w.yaml:2:23: no limit is called 'all_upp'; is it 'all_up'?"},
        {"study: w\nvary: {a: 1, b: 2}\n", 2, "w.yaml:2:8: vary has no key 'a'; "},
        {"study: w\nbenches: {x: {file: gone.sqlite}}\n", 3, "no bench"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        write_text("w.yaml", wrong[i].text);
        ran r = run(i + 1 < sizeof wrong / sizeof wrong[0] ? "study w.yaml" DEMO : "study w.yaml");
        if (r.status != wrong[i].status || !strstr(r.err, wrong[i].says) || r.out[0] ||
            strncmp(r.err, "pare: w.yaml:", 13) != 0 ||
            strchr(r.err, '\n') != r.err + strlen(r.err) - 1)
            fail_msg("%s: %d '%s', not '%s'", wrong[i].text, r.status, r.err, wrong[i].says);
        ran_free(&r);
    }
    run_refuses("study gone.yaml" DEMO, 3,
                "pare: gone.yaml: cannot be read (No such file or directory)\n");
    run_refuses("study a.yaml b.yaml" DEMO, 3,
                "pare: study: 'b.yaml' is one word too many; it takes one file, or the name of one "
                "that is kept\n");
}

static void more_tasks_than_can_be_are_refused(void **state)
{
    (void)state;
    write_text("w.yaml", "study: w\nask: sheet\nvary:\n"
                         "  air.temperature: {from: 0 degC, to: 30 degC, steps: 1000}\n"
                         "  air.altitude: {from: 0 m, to: 1000 m, steps: 1000}\n");
    run_refuses("study w.yaml" DEMO, 3,
                "pare: w.yaml:4:3: more than 1000000 tasks; vary less, or in several studies\n");
}

/* What is found out only when a task is done is its answer, and the others go on. */
static void what_does_not_go_on_is_an_answer(void **state)
{
    (void)state;
    write_text("n.yaml",
               "study: n\nask: sheet\ncraft: [drover, thimble]\nvary: {try: [skid=off]}\n");
    json_t *study = run_json("study n.yaml --json" DEMO);
    assert_string_equal(json_string_value(json_object_get(task_of(study, 0), "answer")), "cannot");
    assert_non_null(strstr(json_string_value(json_object_get(task_of(study, 0), "why")),
                           "craft 'drover' has no item 'skid'"));
    assert_string_equal(json_string_value(json_object_get(task_of(study, 1), "answer")), "no");
    json_decref(study);
}

static void a_job_that_nothing_does_is_said(void **state)
{
    (void)state;
    for (int best = 0; best < 2; best++) {
        char text[256];
        snprintf(text, sizeof text,
                 "study: j%d\nask: %s\ncraft: [bodkin]\nbriefs: {wedding: {keep: [films]}}\n", best,
                 best ? "best" : "sheet");
        write_text("j.yaml", text);
        remove("j.journal");
        json_t *study = run_json("study j.yaml --json" DEMO);
        const json_t *task = task_of(study, 0);
        assert_string_equal(json_string_value(json_object_get(task, "answer")), "no");
        assert_string_equal(json_string_value(json_object_get(task, "why")), "keep.films");
        json_decref(study);
    }
}

/* Several benches, by files beside the study; theirs are the craft. */
static void benches_are_named_by_the_study(void **state)
{
    (void)state;
    write_text("data/several.yaml", "study: several\nask: sheet\nbenches:\n"
                                    "  club: {file: pare/demo.sqlite, craft: [thimble]}\n"
                                    "  same: {file: pare/demo.sqlite}\n");
    run_refuses("study data/several.yaml" DEMO, 3,
                "pare: data/several.yaml:4:9: the study names its benches; right would be no "
                "--bench\n");
    json_t *study = run_json("study data/several.yaml --json");
    assert_int_equal(json_array_size(json_object_get(study, "tasks")), 5);
    assert_string_equal(json_string_value(json_object_get(task_of(study, 0), "bench")), "club");
    assert_string_equal(json_string_value(json_object_get(task_of(study, 4), "craft")), "thimble");
    assert_near(number(json_object_get(task_of(study, 0), "figures"), "all_up_g"),
                number(json_object_get(task_of(study, 4), "figures"), "all_up_g"), 0);
    json_decref(study);
    assert_int_equal(lines_of("data/several.csv"), 6);
}

/* The same bound for the same effort, whatever the machine does beside. */
static void an_effort_ends_at_the_same_place(void **state)
{
    (void)state;
    write_text("e.yaml", "study: e\ncraft: [bodkin]\neffort: 40\n");
    run_quietly("study e.yaml" DEMO);
    char *first = whole_file("e.csv");
    assert_non_null(strstr(first, ",no,")); /* not proven */
    remove("e.journal");
    run_quietly("study e.yaml" DEMO);
    char *second = whole_file("e.csv");
    assert_string_equal(first, second);
    free(first);
    free(second);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_demos_customers_are_covered),
        cmocka_unit_test(a_sheets_figures_are_those_of_pare_sheet),
        cmocka_unit_test(a_best_set_is_that_of_pare_best),
        cmocka_unit_test(a_craft_covers_where_all_its_rows_say_yes),
        cmocka_unit_test(all_are_covered_with_the_least),
        cmocka_unit_test(a_study_that_was_ended_goes_on_with_the_same_bytes),
        cmocka_unit_test(a_damaged_line_is_done_again_and_said),
        cmocka_unit_test(a_study_that_has_grown_does_only_what_is_new),
        cmocka_unit_test(a_journal_that_cannot_grow_loses_nothing),
        cmocka_unit_test(another_journal_is_left_alone),
        cmocka_unit_test(what_cannot_be_right_is_said_with_its_place),
        cmocka_unit_test(more_tasks_than_can_be_are_refused),
        cmocka_unit_test(what_does_not_go_on_is_an_answer),
        cmocka_unit_test(a_job_that_nothing_does_is_said),
        cmocka_unit_test(benches_are_named_by_the_study),
        cmocka_unit_test(an_effort_ends_at_the_same_place),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
