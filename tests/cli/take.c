/* take.c: `pare take` as a user types it: what it prints, what it refuses, and that every other command
 * then works on the craft as built. Each test starts from the demo's bench. The screens are our own
 * earlier output, read before they were kept. */
#include "run.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static void does(const char *line)
{
    ran r = run(line);
    if (r.status != 0)
        fail_msg("pare %s: %s", line, r.err);
    ran_free(&r);
}

static char *printed(const char *line)
{
    ran r = run(line);
    if (r.status != 0)
        fail_msg("pare %s: %s", line, r.err);
    char *out = strdup(r.out);
    assert_non_null(out);
    ran_free(&r);
    return out;
}

static void prints(const char *golden, const char *line)
{
    char *out = printed(line);
    assert_golden(golden, out);
    free(out);
}

static void a_taking_says_what_was_promised_and_what_is_to_do(void **state)
{
    (void)state;
    prints("take-nothing", "take hedgerow" DEMO);
    prints("take-chosen",
           "take hedgerow antenna=an-rush,bumper=off,run.lead.gauge=14 --chosen 2026-10-01" DEMO);
    prints("take-fitted",
           "take hedgerow joint.motor_base.material=aluminium --fitted 2026-10-05" DEMO);
    does("take hedgerow bumper=off --ordered 2026-10-02 --fitted 2026-10-06" DEMO);
    prints("take-list", "take hedgerow" DEMO);
    prints("take-leave", "take hedgerow antenna=an-rush --leave" DEMO);
}

/* What is bought is worth what its lines are, and the list has what the swaps ask for. */
static void what_is_taken_is_on_the_shopping_list_until_it_is_fitted(void **state)
{
    (void)state;
    does("take hedgerow pack=pa-4s-1100,run.lead.gauge=14 --chosen 2026-10-01" DEMO);
    does("take hedgerow joint.motor_base.material=titanium --ordered 2026-10-01" DEMO);
    json_t *answer = run_json("take hedgerow --json" DEMO);
    const json_t *shopping = json_object_get(answer, "shopping"),
                 *cutting = json_object_get(answer, "cutting");
    static const char *const lists[] = {"parts", "screws", "wires"};
    double money = 0;
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        const json_t *list = json_object_get(shopping, lists[i]);
        assert_int_equal(json_array_size(list), 1);
        money += number(json_array_get(list, 0), "money");
    }
    const json_t *sellers = json_object_get(shopping, "sellers");
    for (size_t i = 0; i < json_array_size(sellers); i++)
        money += number(json_array_get(sellers, i), "shipping_money");
    assert_within(number(shopping, "money"), money, 1e-9);
    assert_true(money > 20);
    const json_t *screws = json_array_get(json_object_get(shopping, "screws"), 0);
    assert_int_equal(number(screws, "ordered"), number(screws, "needed"));
    assert_int_equal(number(screws, "bags"), 0);
    const json_t *wire = json_array_get(json_object_get(cutting, "wires"), 0);
    assert_string_equal(json_string_value(json_object_get(wire, "run")), "lead");
    assert_int_equal(number(wire, "gauge"), 14);
    assert_int_equal(number(wire, "count"), 2);
    json_decref(answer);
    does("take hedgerow pack=pa-4s-1100,run.lead.gauge=14,joint.motor_base.material=titanium "
         "--fitted 2026-10-02" DEMO);
    answer = run_json("take hedgerow --json" DEMO);
    assert_null(json_object_get(answer, "shopping")); /* nothing waits */
    json_decref(answer);
}

static void the_screens_of_a_craft_say_what_is_taken(void **state)
{
    (void)state;
    does("take hedgerow bumper=off,antenna=an-rush --fitted 2026-10-05" DEMO);
    does("take hedgerow run.lead.gauge=14 --ordered 2026-10-06" DEMO);
    does("take hedgerow tower=ti-100,skid=off --chosen 2026-10-06" DEMO);
    prints("take-sheet", "sheet hedgerow" DEMO);
    prints("take-sheet-try", "sheet hedgerow --try holder=ho-slim" DEMO);
    prints("take-craft-show", "craft show hedgerow" DEMO);
}

static void without_utf8_the_boxes_are_ascii(void **state)
{
    (void)state;
    setenv("LC_ALL", "C", 1);
    char *out = printed("take hedgerow bumper=off,pack=pa-6s-1050 --chosen 2026-10-01" DEMO);
    setenv("LC_ALL", "C.UTF-8", 1);
    assert_non_null(strstr(out, "[ ] bumper: 4 bu-thick off"));
    for (const char *c = out; *c; c++)
        assert_true(*c == '\n' || (*c >= ' ' && *c <= '~'));
    free(out);
}

static void no_line_of_a_checklist_is_wider_than_the_screen(void **state)
{
    (void)state;
    static const char *const widths[] = {"60", "80", "120"};
    does("take hedgerow motor=mo-2207-1950,pack=pa-6s-1050,esc=es-45,run.lead.gauge=16,"
         "joint.motor_base.material=aluminium,tower=ti-100,run.camera_wire.length=70mm" DEMO);
    for (size_t w = 0; w < sizeof widths / sizeof widths[0]; w++) {
        setenv("COLUMNS", widths[w], 1);
        char *out = printed("take hedgerow" DEMO);
        int columns = 0;
        for (const char *c = out; *c; c++) {
            columns = *c == '\n' ? 0 : columns + (((unsigned char)*c & 0xc0) != 0x80);
            assert_true(columns <= atoi(widths[w]));
            assert_false(*c == ' ' && c[1] == '\n');
        }
        free(out);
    }
    setenv("COLUMNS", "80", 1);
}

/* Every number of two sheets, less what is said about trials and takings, and against other craft. */
static void assert_same_sheet(const char *one, const char *other)
{
    static const char *const about[] = {"tried", "change", "taken", "crash", "radio"};
    json_t *a = run_json(one), *b = run_json(other);
    json_t *others[2] = {json_object_get(a, "loadouts"), json_object_get(b, "loadouts")};
    for (size_t i = 0; i < sizeof about / sizeof about[0]; i++) {
        json_object_del(a, about[i]);
        json_object_del(b, about[i]);
        for (int k = 0; k < 2; k++) {
            const char *name;
            json_t *loadout;
            json_object_foreach(others[k], name, loadout) json_object_del(loadout, about[i]);
        }
    }
    char *text_a = json_dumps(a, 0), *text_b = json_dumps(b, 0);
    assert_string_equal(text_a, text_b);
    assert_true(strlen(text_a) > 5000);
    free(text_a);
    free(text_b);
    json_decref(a);
    json_decref(b);
}

#define OWN " --bench own.sqlite"

/* Takes the list of weigh-ins out of a bench's text. */
static void without_weigh_ins(char *text)
{
    char *from = strstr(text, "\nweigh_ins:"), *to = strstr(text, "\nflights:");
    assert_true(from && to && from < to);
    memmove(from, to, strlen(to) + 1);
}

static void the_craft_as_built_is_the_trial_of_the_same_swaps(void **state)
{
    (void)state;
    static const char swaps[] =
        "antenna=an-rush,bumper=off,joint.motor_base.material=titanium,run.phase.length=104mm";
    char line[512];
    /* Without weigh-ins: a scale that has weighed the craft knows what is on it better than a trial. */
    does("export -o weighed.yaml" DEMO);
    char *text = read_file("weighed.yaml");
    without_weigh_ins(text);
    write_text("first.yaml", text);
    free(text);
    does("import first.yaml --bench own.sqlite");
    does("import first.yaml --bench other.sqlite");
    snprintf(line, sizeof line, "sheet hedgerow --try %s --json" OWN, swaps);
    json_t *before = run_json(line);
    char *kept = json_dumps(before, 0);
    snprintf(line, sizeof line, "take hedgerow %s --fitted 2026-10-05" OWN, swaps);
    does(line);
    snprintf(line, sizeof line, "sheet hedgerow --try %s --json --bench other.sqlite", swaps);
    assert_same_sheet("sheet hedgerow --json" OWN, line);
    /* Built and tried, both are compared with the craft as first described. */
    json_t *built = run_json("sheet hedgerow --json" OWN), *trial = run_json(line);
    assert_true(json_equal(json_object_get(built, "crash"), json_object_get(trial, "crash")));
    assert_true(json_equal(json_object_get(built, "radio"), json_object_get(trial, "radio")));
    json_decref(built);
    json_decref(trial);
    /* And a further trial, the list of swaps, the comparison start from there. */
    snprintf(line, sizeof line, "sheet hedgerow --try %s,skid=off --json --bench other.sqlite",
             swaps);
    assert_same_sheet("sheet hedgerow --try skid=off --json" OWN, line);
    json_t *compared = run_json("compare hedgerow bodkin --json" OWN);
    const json_t *column = json_array_get(json_object_get(compared, "compare"), 0);
    assert_near(number(column, "all_up_g"), number(before, "all_up_g"), 0);
    json_t *list = run_json("craft --json" OWN), *row;
    size_t i;
    json_array_foreach(
        json_object_get(list, "craft"), i,
        row) if (strcmp(json_string_value(json_object_get(row, "name")), "hedgerow") == 0)
        assert_near(number(row, "all_up_g"), number(before, "all_up_g"), 0);
    json_t *swapped = run_json("swaps hedgerow --json" OWN);
    json_array_foreach(json_object_get(swapped, "swaps"), i, row)
        assert_string_not_equal(json_string_value(json_object_get(row, "id")), "bumper=off");
    json_decref(swapped);
    json_decref(list);
    json_decref(compared);
    json_decref(before);
    free(kept);
}

static void another_craft_does_not_notice(void **state)
{
    (void)state;
    char *before = printed("sheet thimble --all" DEMO);
    does("take hedgerow bumper=off --fitted 2026-10-05" DEMO);
    char *after = printed("sheet thimble --all" DEMO);
    assert_string_equal(before, after);
    free(before);
    free(after);
}

static void the_answer_as_json_has_stable_keys(void **state)
{
    (void)state;
    static const char *const keys[] = {
        "craft",    "taken", "all_up_g", "all_up_g_u", "planned_all_up_g", "planned_all_up_g_u",
        "checklist"};
    static const char *const entry[] = {"swap",    "stage",   "on_craft", "chosen",
                                        "ordered", "fitted",  "weighed",  "flown",
                                        "brings",  "promise", "answered"};
    static const char *const work[] = {"swaps", "work_min", "solder_joints",
                                       "first", "openings", "checks"};
    json_t *answer =
        run_json("take hedgerow bumper=off,antenna=an-rush --chosen 2026-10-01 --json" DEMO);
    const json_t *taken = json_array_get(json_object_get(answer, "taken"), 0);
    const json_t *checklist = json_object_get(answer, "checklist");
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        assert_non_null(json_object_get(answer, keys[i]));
    for (size_t i = 0; i < sizeof entry / sizeof entry[0]; i++)
        assert_non_null(json_object_get(taken, entry[i]));
    for (size_t i = 0; i < sizeof work / sizeof work[0]; i++)
        assert_non_null(json_object_get(checklist, work[i]));
    assert_int_equal(json_object_size(answer), sizeof keys / sizeof keys[0]);
    assert_int_equal(json_object_size(taken), sizeof entry / sizeof entry[0]);
    assert_int_equal(json_object_size(checklist), sizeof work / sizeof work[0]);
    assert_string_equal(json_string_value(json_object_get(taken, "stage")), "chosen");
    assert_true(json_is_false(json_object_get(taken, "on_craft")));
    /* The promise is the row of pare swaps, rounded as the text form rounds. */
    json_t *sheet = run_json("sheet hedgerow --try bumper=off --json" DEMO);
    const json_t *promise = json_object_get(taken, "promise");
    assert_within(number(promise, "all_up_g"), number(json_object_get(sheet, "change"), "all_up_g"),
                  1e-5);
    json_decref(sheet);
    json_decref(answer);
    answer = run_json("take thimble --json" DEMO);
    assert_int_equal(json_array_size(json_object_get(answer, "taken")), 0);
    json_decref(answer);
}

static void without_a_date_it_is_chosen_today(void **state)
{
    (void)state;
    char day[2][16], line[512];
    time_t now = time(NULL);
    strftime(day[0], sizeof day[0], "%Y-%m-%d", localtime(&now));
    char *out = printed("take hedgerow bumper=off" DEMO);
    now = time(NULL); /* midnight may have passed */
    strftime(day[1], sizeof day[1], "%Y-%m-%d", localtime(&now));
    snprintf(line, sizeof line, "\n    chosen %s\n", day[0]);
    const bool first = strstr(out, line) != NULL;
    snprintf(line, sizeof line, "\n    chosen %s\n", day[1]);
    assert_true(first || strstr(out, line) != NULL);
    free(out);
    out = printed("take hedgerow bumper=off --fitted today" DEMO);
    assert_non_null(strstr(out, "fitted 2"));
    free(out);
}

static void undo_takes_a_taking_back(void **state)
{
    (void)state;
    char *before = printed("export" DEMO);
    does("take hedgerow bumper=off,antenna=an-rush --fitted 2026-10-05 --why too~heavy" DEMO);
    char *history = printed("history" DEMO);
    assert_non_null(strstr(history, "take hedgerow bumper=off,antenna=an-rush"));
    assert_non_null(strstr(history, "too heavy"));
    does("undo" DEMO);
    char *after = printed("export" DEMO);
    assert_string_equal(before, after);
    free(before);
    free(history);
    free(after);
}

static void what_is_taken_goes_out_and_in_again_as_the_same_bytes(void **state)
{
    (void)state;
    does("take hedgerow antenna=an-rush,bumper=off --fitted 2026-10-05" DEMO);
    does("take hedgerow tower=ti-100 --ordered 2026-10-06" DEMO);
    does("export -o once.yaml" DEMO);
    does("import once.yaml --bench again.sqlite");
    does("export -o twice.yaml --bench again.sqlite");
    char *once = read_file("once.yaml"), *twice = read_file("twice.yaml");
    assert_string_equal(once, twice);
    free(once);
    free(twice);
}

/* ---- what is wrong ---- */

typedef struct wrong {
    int status;
    const char *line;
} wrong;

/* One line each, word for word, and the bench as it was. */
static void say(const char *golden, size_t count, const wrong cases[])
{
    char *before = printed("export" DEMO), *all = calloc(1, 1 << 15);
    assert_non_null(all);
    for (size_t i = 0; i < count; i++) {
        ran r = run(cases[i].line);
        if (r.status != cases[i].status)
            fail_msg("pare %s: exit status %d, wanted %d\n%s", cases[i].line, r.status,
                     cases[i].status, r.err);
        assert_string_equal(r.out, "");
        const char *end = strchr(r.err, '\n');
        assert_true(end && !end[1]);
        snprintf(all + strlen(all), (1 << 15) - strlen(all), "$ pare %s\n[%d] %s", cases[i].line,
                 r.status, r.err);
        ran_free(&r);
    }
    assert_golden(golden, all);
    char *after = printed("export" DEMO);
    assert_string_equal(before, after);
    free(before);
    free(after);
    free(all);
}

static void what_cannot_be_taken_is_said_in_one_line(void **state)
{
    (void)state;
    does("take hedgerow bumper=off --chosen 2026-10-05" DEMO);
    does("take hedgerow skid=off --fitted 2026-10-05" DEMO);
    static const wrong cases[] = {
        {3, "take" DEMO},
        {3, "take hedgerow bumper=off skid=off" DEMO},
        {2, "take hedgrow bumper=off" DEMO},
        {2, "take hedgerow bumper" DEMO},
        {2, "take hedgerow bumpre=off" DEMO},
        {2, "take hedgerow motor=mo-2207-195" DEMO},
        {3, "take hedgerow motor=mo-1404-4600" DEMO},
        {3, "take hedgerow motor=sought-29g" DEMO},
        {3, "take hedgerow motor=mo-2207-2750" DEMO},
        {2, "take hedgerow bumper=bu-thin" DEMO},
        {3, "take hedgerow bumper=off" DEMO},
        {3, "take hedgerow bumper=off --fitted 2026-10-01" DEMO},
        {3, "take hedgerow bumper=off --fitted tomorrow" DEMO},
        {3, "take hedgerow bumper=off --fitted 2024-02-30" DEMO},
        {3, "take hedgerow bumper=off --fitted 9999-01-01" DEMO},
        {2, "take hedgerow bumper=off --fited 2026-10-01" DEMO},
        {3, "take hedgerow --fitted 2026-10-01" DEMO},
        {3, "take hedgerow --leave" DEMO},
        {3, "take hedgerow bumper=off --leave --fitted 2026-10-06" DEMO},
        {3, "take hedgerow skid=off --leave" DEMO},
        {2, "take hedgerow tower=ti-100 --leave" DEMO},
        {2, "take hedgerow tower=ti-100,tower=ti-150" DEMO},
    };
    say("take-wrong", sizeof cases / sizeof cases[0], cases);
}

/* The demo's text with other words in place of some. */
static void write_other(const char *name, const char *taken)
{
    char *text = printed("export" DEMO);
    char *at = strstr(text, "- name: hedgerow\n");
    assert_non_null(at);
    at = strchr(at, '\n') + 1;
    const size_t size = strlen(text) + strlen(taken) + 1;
    char *other = malloc(size);
    assert_non_null(other);
    snprintf(other, size, "%.*s%s%s", (int)(at - text), text, taken, at);
    write_text(name, other);
    free(other);
    free(text);
}

static void hostile_lists_are_refused_with_their_place(void **state)
{
    (void)state;
    static const struct {
        const char *name, *taken;
    } texts[] = {
        {"t1.yaml", "  taken: [{swap: bumpre=off, fitted: 2026-10-01}]\n"},
        {"t2.yaml", "  taken:\n  - {swap: skid=off, fitted: 2026-10-01}\n"
                    "  - {swap: skid=off, fitted: 2026-10-02}\n"},
        {"t3.yaml", "  taken: [{swap: motor.colour=red, chosen: 2026-10-01}]\n"},
        {"t4.yaml", "  taken: [{swap: motor=mo-1404-4600, weighed: 2026-10-01}]\n"},
        {"t5.yaml", "  taken: [{swap: motor=sought-20g, flown: 2026-10-01}]\n"},
        {"t6.yaml", "  taken: [{swap: motor=mo-2207-195, chosen: 2026-10-01}]\n"},
        {"t7.yaml", "  taken: [{swap: skid=off, chosen: 2026-10-01, ordered: 2024-02-01}]\n"},
        {"t8.yaml", "  taken: [{swap: joint.motor_base.length=1km, fitted: 2026-10-01}]\n"},
        {"t9.yaml", "  taken: [{swap: =off}]\n"},
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        write_other(texts[i].name, texts[i].taken);
    char many[100 * 16 + 64] = "  taken: [";
    for (int i = 0; i < 100; i++)
        strcat(many, i ? ", {swap: a=off}" : "{swap: a=off}");
    strcat(many, "]\n");
    write_other("t10.yaml", many);
    char *lengthy = calloc(1, (1 << 20) + 64);
    assert_non_null(lengthy);
    strcpy(lengthy, "  taken: [{swap: a=");
    memset(lengthy + strlen(lengthy), 'b', 1 << 20);
    strcat(lengthy, "}]\n");
    write_other("t11.yaml", lengthy);
    free(lengthy);
    static const wrong cases[] = {
        {2, "import t1.yaml" DEMO},  {2, "import t2.yaml" DEMO},  {2, "import t3.yaml" DEMO},
        {3, "import t4.yaml" DEMO},  {3, "import t5.yaml" DEMO},  {2, "import t6.yaml" DEMO},
        {3, "import t7.yaml" DEMO},  {3, "import t8.yaml" DEMO},  {3, "import t9.yaml" DEMO},
        {3, "import t10.yaml" DEMO}, {3, "import t11.yaml" DEMO},
    };
    say("take-hostile", sizeof cases / sizeof cases[0], cases);
}

static void a_plan_that_no_longer_goes_on_spoils_no_sheet(void **state)
{
    (void)state;
    write_other("plan.yaml", "  taken: [{swap: propeller=pr-70-40, chosen: 2026-10-01}]\n");
    does("import plan.yaml" DEMO);
    char *out = printed("sheet hedgerow" DEMO);
    assert_non_null(strstr(out, "1 chosen; as things are not all of it goes on:"));
    free(out);
    out = printed("take hedgerow" DEMO);
    assert_non_null(strstr(out, "not all of it goes on as things"));
    free(out);
    ran r = run("take hedgerow skid=off" DEMO);
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "'propeller=pr-70-40', chosen earlier, does not go on"));
    ran_free(&r);
    does("take hedgerow propeller=pr-70-40 --leave" DEMO);
    does("take hedgerow skid=off" DEMO);
}

/* The demo's season has a whole craft of 705 g in April; without its bumpers 694 g are read on the same scale
 * in September. */
static void what_was_fitted_is_held_against_its_promise(void **state)
{
    (void)state;
    run_quietly("take hedgerow bumper=off --fitted 2026-09-20" DEMO);
    json_t *before = run_json("take hedgerow --json" DEMO);
    const json_t *none = json_array_get(json_object_get(before, "taken"), 0);
    assert_int_equal(json_object_size(json_object_get(none, "answered")), 0);
    run_quietly("weigh hedgerow whole=694g --scale kitchen --date 2026-09-21" DEMO);
    json_t *since = run_json("take hedgerow --json" DEMO);
    const json_t *taken = json_array_get(json_object_get(since, "taken"), 0);
    const json_t *mass = json_object_get(json_object_get(taken, "answered"), "all_up_g");
    assert_non_null(mass);
    assert_near(number(mass, "measured"), -11, 1e-9);
    assert_near(number(mass, "promised"), number(json_object_get(taken, "promise"), "all_up_g"),
                1e-9);
    assert_true(number(mass, "real") > 0.99);
    run_prints_golden("take-answered", "take hedgerow" DEMO);
    json_decref(since);
    json_decref(before);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup(name, fill_demo)
    const struct CMUnitTest tests[] = {
        TEST(a_taking_says_what_was_promised_and_what_is_to_do),
        TEST(what_is_taken_is_on_the_shopping_list_until_it_is_fitted),
        TEST(the_screens_of_a_craft_say_what_is_taken),
        TEST(without_utf8_the_boxes_are_ascii),
        TEST(no_line_of_a_checklist_is_wider_than_the_screen),
        TEST(the_craft_as_built_is_the_trial_of_the_same_swaps),
        TEST(another_craft_does_not_notice),
        TEST(the_answer_as_json_has_stable_keys),
        TEST(without_a_date_it_is_chosen_today),
        TEST(undo_takes_a_taking_back),
        TEST(what_is_taken_goes_out_and_in_again_as_the_same_bytes),
        TEST(what_cannot_be_taken_is_said_in_one_line),
        TEST(hostile_lists_are_refused_with_their_place),
        TEST(a_plan_that_no_longer_goes_on_spoils_no_sheet),
        TEST(what_was_fitted_is_held_against_its_promise),
    };
    return cmocka_run_group_tests(tests, enter_home, leave_home);
}
