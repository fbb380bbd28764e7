/* learn.c: `pare learn --keep` and `--forget` as a user types them: that the sheet goes by what was
 * learned and no further than it was learned, and that forgetting leaves nothing behind. Each test starts
 * from the demo's bench. */
#include "run.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define KEEP "learn hedgerow --keep --date 2026-08-20"

static void the_sheet_goes_by_what_was_learned(void **state)
{
    (void)state;
    json_t *before = run_json("sheet hedgerow --json" DEMO);
    json_t *learned = run_json(KEEP " --json" DEMO);
    json_t *after = run_json("sheet hedgerow --json" DEMO);
    assert_string_equal(
        json_string_value(json_object_get(json_object_get(before, "known"), "hover_a")),
        "computed");
    assert_string_equal(
        json_string_value(json_object_get(json_object_get(after, "known"), "hover_a")), "learned");
    assert_string_equal(
        json_string_value(json_object_get(json_object_get(after, "known"), "all_up_g")), "weighed");
    /* What learning says of the minutes, before and after, is the sheet's, to the digits that are written. */
    assert_near(number(before, "flown_min"), number(learned, "flown_min"), 1e-9);
    assert_near(number(before, "flown_min_u"), number(learned, "flown_min_u"), 1e-9);
    assert_near(number(after, "flown_min"), number(learned, "learned_min"), 1e-6);
    assert_near(number(after, "flown_min_u"), number(learned, "learned_min_u"), 1e-6);
    /* What was learned is doubted less, what was not is not. Of a hover's current flights leave what no
     * flight tells: the ESC's losses and the motor's, 0.6 of what it was doubted by. */
    assert_true(number(after, "hover_a_u") / number(after, "hover_a") <
                0.65 * number(before, "hover_a_u") / number(before, "hover_a"));
    assert_true(number(after, "flown_min_u") < 0.7 * number(before, "flown_min_u"));
    assert_true(number(after, "thrust_to_weight_fresh_u") <
                0.9 * number(before, "thrust_to_weight_fresh_u"));
    assert_near(number(after, "all_up_g_u"), number(before, "all_up_g_u"), 1e-9);
    json_decref(after);
    json_decref(learned);
    json_decref(before);
}

static void keeping_again_learns_nothing_more_from_the_same_flights(void **state)
{
    (void)state;
    run_quietly(KEEP DEMO);
    char *once = demo_text();
    run_quietly(KEEP DEMO);
    char *twice = demo_text();
    assert_string_equal(twice, once);
    free(twice);
    free(once);
}

static void forgetting_leaves_nothing_behind(void **state)
{
    (void)state;
    char *before = demo_text();
    run_quietly(KEEP " --why spring" DEMO);
    char *kept = demo_text();
    assert_non_null(strstr(kept, "  learned:\n    date: 2026-08-20\n    flights: 12\n"));
    run_quietly("learn hedgerow --forget" DEMO);
    char *after = demo_text();
    assert_string_equal(after, before);
    run_quietly("undo" DEMO);
    char *undone = demo_text();
    assert_string_equal(undone, kept);
    ran history = run("history" DEMO);
    assert_non_null(strstr(history.out, "learn hedgerow --keep"));
    ran_free(&history);
    free(undone);
    free(after);
    free(kept);
    free(before);
}

static void another_propeller_leaves_it_behind(void **state)
{
    (void)state;
    json_t *before = run_json("sheet hedgerow --try propeller=pr-51-36 --json" DEMO);
    run_quietly(KEEP DEMO);
    json_t *after = run_json("sheet hedgerow --try propeller=pr-51-36 --json" DEMO);
    /* Only the electronics come along, and draw so much more; volts sag a little by it. */
    const double more_w = number(json_object_get(after, "power"), "hover_electronics_w") -
                          number(json_object_get(before, "power"), "hover_electronics_w");
    assert_true(fabs(more_w) > 0.1);
    assert_near(number(after, "hover_w"), number(before, "hover_w") + more_w, 0.01 * fabs(more_w));
    assert_near(number(after, "hover_a"),
                number(before, "hover_a") * (1 + more_w / number(before, "hover_w")),
                2e-4 * number(before, "hover_a"));
    assert_near(number(after, "thrust_to_weight_fresh_u"),
                number(before, "thrust_to_weight_fresh_u"),
                1e-3 * number(before, "thrust_to_weight_fresh_u"));
    json_decref(after);
    json_decref(before);
}

static void what_cannot_be_kept_is_said(void **state)
{
    (void)state;
    run_refuses("learn hedgerow --forget" DEMO, 3,
                "pare: craft 'hedgerow': nothing learned is kept; pare learn hedgerow --keep does "
                "that\n");
    run_refuses(
        "learn bodkin --keep" DEMO, 3,
        "pare: craft 'bodkin': no flight tells anything, so there is nothing to keep; right "
        "would be one with what the charger put back\n");
    run_refuses("learn hedgerow --keep --forget" DEMO, 3,
                "pare: learn: --keep or --forget; right would be one\n");
    run_refuses("learn hedgerow --date 2026-01-01" DEMO, 3,
                "pare: learn --date goes with --keep or --hover\n");
}

static void a_hover_is_foretold_kept_and_scored(void **state)
{
    (void)state;
    char *before = demo_text();
    json_t *said = run_json("learn hedgerow --json" DEMO);
    const double score = number(said, "hover_promises"), held = number(said, "hover_promises_held");
    run_prints_golden("learn-hover",
                      "learn hedgerow --hover 31% --loadout race --date 2026-09-20" DEMO);
    run_quietly("learn hedgerow --hover 60% --date 2026-09-21 --why wind" DEMO);
    json_t *after = run_json("learn hedgerow --json" DEMO);
    assert_near(number(after, "hover_promises"), score + 2, 0);
    assert_near(number(after, "hover_promises_held"), held + 1, 0);
    /* Nine in ten about what the sheet says, with its doubt and a hover's own on top. */
    const json_t *flights = json_object_get(after, "flights");
    const json_t *last = json_array_get(flights, json_array_size(flights) - 1);
    assert_near(number(last, "output"), 0.6, 1e-9);
    assert_false(json_is_true(json_object_get(last, "held")));
    const double low = number(last, "promise_low"), high = number(last, "promise_high");
    assert_near((low + high) / 2, number(said, "hover_output"), 1e-3);
    assert_true((high - low) / 2 > 1.6449 * number(said, "hover_output_u"));
    assert_true((high - low) / 2 < 2.5 * number(said, "hover_output_u"));
    /* Scored with what scales showed. */
    json_t *weigh = run_json("weigh thimble --json" DEMO);
    assert_near(number(weigh, "hover_promises"), score + 2, 0);
    assert_true(number(weigh, "promises") > score + 2);
    /* A text holds it, and undo takes both back. */
    char *text = demo_text();
    assert_non_null(strstr(text, "  flown: hover\n  output: 60 %\n  promise: "));
    run_quietly("export -o demo.yaml" DEMO);
    run_quietly("import demo.yaml --bench copy.sqlite");
    json_t *copy = run_json("learn thimble --json --bench copy.sqlite");
    assert_near(number(copy, "hover_promises"), score + 2, 0);
    run_quietly("undo" DEMO);
    run_quietly("undo" DEMO);
    char *undone = demo_text();
    assert_string_equal(undone, before);
    free(undone);
    free(text);
    free(before);
    json_decref(copy);
    json_decref(weigh);
    json_decref(after);
    json_decref(said);
}

static void hovers_in_a_list_are_foretold_once(void **state)
{
    (void)state;
    write_text("hovers.csv", "craft,date,loadout,flown,output,lasted\n"
                             "hedgerow,2026-09-20,race,hover,29 %,1 min\n"
                             "hedgerow,2026-09-21,film,hover,70 %,\n"
                             "hedgerow,2026-09-22,film,brief,,3 min\n");
    json_t *dry = run_json("import hovers.csv --as flights --dry-run --json" DEMO);
    json_t *first = run_json("import hovers.csv --as flights --json" DEMO);
    assert_int_equal((int)number(dry, "hover_promises"), 2);
    assert_int_equal((int)number(first, "records_added"), 3);
    assert_int_equal((int)number(first, "hover_promises"), 2);
    assert_int_equal((int)number(first, "hover_promises_held"), 1);
    /* The sheet goes by something else now; what was promised stays, and the list comes in once. */
    run_quietly("learn hedgerow --keep --date 2026-09-23" DEMO);
    char *once = demo_text();
    json_t *again = run_json("import hovers.csv --as flights --json" DEMO);
    assert_int_equal((int)number(again, "records_added"), 0);
    assert_int_equal((int)number(again, "records_same"), 3);
    assert_int_equal((int)number(again, "hover_promises"), 0);
    char *twice = demo_text();
    assert_string_equal(twice, once);
    /* Out as a list, and in again. */
    run_quietly("export -o flights.csv --as flights" DEMO);
    char *list = read_file("flights.csv");
    assert_non_null(strstr(list, "output"));
    json_t *back = run_json("import flights.csv --as flights --json" DEMO);
    assert_int_equal((int)number(back, "records_added"), 0);
    free(list);
    free(twice);
    free(once);
    json_decref(back);
    json_decref(again);
    json_decref(first);
    json_decref(dry);
}

/* A slip in one flight once kept all others from teaching anything: "the readings leave an unknown free". */
static void a_flight_that_cannot_be_tells_nothing_and_says_so(void **state)
{
    (void)state;
    json_t *before = run_json("learn hedgerow --json" DEMO);
    write_text("fast.yaml",
               "pare: 1\nflights:\n- {craft: hedgerow, date: 2026-05-12, lasted: 3.6 min, "
               "put_back: 1000 mAh, flown: [{share: 100 %, speed: 90 m/s}]}\n");
    run_quietly("import fast.yaml" DEMO);
    ran r = run("learn hedgerow" DEMO);
    assert_int_equal(r.status, 0);
    assert_non_null(
        strstr(r.out, "2026-05-12  tells nothing: the craft as computed cannot fly so"));
    ran_free(&r);
    json_t *after = run_json("learn hedgerow --json" DEMO);
    assert_near(number(after, "learned_min"), number(before, "learned_min"), 1e-9);
    json_decref(after);
    json_decref(before);
}

/* Once "the fit does not settle", or that they leave an unknown free, which nobody has asked for. */
static void flights_that_contradict_each_other_are_said_to(void **state)
{
    (void)state;
    write_text("against.csv", "craft,date,lasted,put back (mAh)\n"
                              "bodkin,2026-05-12,60 min,100\n"
                              "bodkin,2026-05-13,1 min,9000\n"
                              "bodkin,2026-05-14,0.1 min,99000\n");
    run_quietly("import against.csv --as flights" DEMO);
    run_refuses(
        "learn bodkin" DEMO, 3,
        "pare: the flights of bodkin contradict each other: no motors, propellers and packs "
        "fly them all; right would be what each said, typed once more, or the flights without "
        "those that cannot be\n");
    run_quietly("undo" DEMO);
}

static void what_is_no_output_of_a_hover_is_refused(void **state)
{
    (void)state;
    run_refuses("learn hedgerow --hover 300%" DEMO, 3,
                "pare: --hover: 300% is no output of a hover; right would be 1 % to 100 %\n");
    run_refuses("learn hedgerow --hover 31% --keep" DEMO, 3,
                "pare: learn: --hover or --keep; right would be one after the other\n");
    run_refuses("learn hedgerow --loadout race" DEMO, 3,
                "pare: learn --loadout goes with --hover\n");
    write_text("fast.csv", "craft,date,flown,output\nhedgerow,2026-09-20,brief,29 %\n");
    ran r = run("import fast.csv --as flights" DEMO);
    assert_int_equal(r.status, 3);
    assert_non_null(strstr(r.err, "output is that of a hover; right would be flown: hover"));
    ran_free(&r);
}

/* Hostile text: whatever stands in the numbers is a covariance or is refused. */
static void a_text_that_nobody_kept_is_refused_with_its_place(void **state)
{
    (void)state;
    static const struct {
        const char *learned, *says;
    } bad[] = {
        {"{flights: 3, motor: mo-w, propeller: pr-w, numbers: {}}", "learned without date"},
        {"{date: 2026-05-01, flights: 0, motor: mo-w, propeller: pr-w, numbers: {}}", "flights"},
        {"{date: 2026-05-01, flights: 3, propeller: pr-w, numbers: {}}", "learned without motor"},
        {"{date: 2026-05-01, flights: 3, motor: m, propeller: p, numbers: {thrust: [0, 4]}}",
         "thrust"},
        {"{date: 2026-05-01, flights: 3, motor: m, propeller: p, numbers: {lift: [0, 1]}}", "lift"},
        {"{date: 2026-05-01, flights: 3, motor: m, propeller: p, numbers: {drag: [0]}}", "drag"},
        {"{date: 2026-05-01, flights: 3, motor: m, propeller: p, numbers: {drag: [0, 0, 0, 0, 0, "
         "0, "
         "0, 0, 0]}}",
         "drag"},
    };
    char *text = demo_text();
    char *at = strstr(text, "- name: hedgerow\n");
    assert_non_null(at);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        const size_t head = (size_t)(at - text) + strlen("- name: hedgerow\n");
        char *changed = malloc(strlen(text) + 400);
        assert_non_null(changed);
        memcpy(changed, text, head);
        sprintf(changed + head, "  learned: %s\n%s", bad[i].learned, text + head);
        write_text("learned.yaml", changed);
        ran r = run("import learned.yaml" DEMO);
        assert_true(r.status == 2 || r.status == 3);
        assert_non_null(strstr(r.err, "learned.yaml:"));
        assert_non_null(strstr(r.err, bad[i].says));
        ran_free(&r);
        free(changed);
    }
    free(text);
}

/* Another motor is judged by the model, the craft's own by its flights: whoever reads the two side by side is
 * told, and nobody else. */
static void another_motor_beside_the_learned_one_is_said_to_be_unlearned(void **state)
{
    (void)state;
    static const char *const lines[] = {"swaps hedgerow" DEMO,
                                        "sheet hedgerow --try motor=mo-2207-1750" DEMO,
                                        "sheet hedgerow --try bumper=off" DEMO};
    static const char *const notes[] = {
        "The craft's own motor and propeller go by what 12 flights taught, kept on\n2026-08-20, "
        "others by the model alone: minutes, hover and thrust set the one\nagainst the other.\n",
        "says nothing of\n               this pair", "says nothing of\n               this pair"};
    for (int kept = 0; kept < 2; kept++) {
        if (kept)
            run_quietly(KEEP DEMO);
        for (size_t i = 0; i < 3; i++) {
            ran r = run(lines[i]);
            assert_int_equal(r.status, 0);
            if ((strstr(r.out, notes[i]) != NULL) != (kept && i < 2))
                fail_msg("%s, kept %d:\n%s", lines[i], kept, r.out);
            ran_free(&r);
        }
        json_t *swaps = run_json("swaps hedgerow --json" DEMO);
        size_t at;
        const json_t *one;
        json_array_foreach(json_object_get(swaps, "swaps"), at, one)
        {
            const char *id = json_string_value(json_object_get(one, "id"));
            const int other = strncmp(id, "motor=", 6) == 0 || strncmp(id, "propeller=", 10) == 0;
            assert_int_equal(json_is_true(json_object_get(one, "unlearned")), kept && other);
        }
        json_decref(swaps);
    }
    ran best = run("best hedgerow" DEMO);
    assert_int_equal(best.status, 0);
    assert_non_null(strstr(best.out, "motor="));
    assert_non_null(strstr(best.out, notes[0]));
    ran_free(&best);
}

static void the_screen_says_what_moved(void **state)
{
    (void)state;
    run_prints_golden("learn-keep", KEEP DEMO);
    run_prints_golden("learn-sheet", "sheet hedgerow" DEMO);
}

/* While it learns, somebody changes the craft twice: it is learned anew of the craft as it then is, and nothing is
 * lost. (That one comes in between is likely, not certain; what has to be there is there either way.) */
static void what_comes_in_between_is_learned_with(void **state)
{
    (void)state;
    char script[2048];
    static const char *const kinds[] = {"--keep --date 2026-08-20", "--hover 31%"};
    for (size_t i = 0; i < 2; i++) {
        snprintf(
            script, sizeof script,
            "%s learn hedgerow %s --bench '%s' >out.txt 2>err.txt & p=$!; for g in 641 642; do "
            "%s craft limit hedgerow all_up=${g}g --bench '%s' >/dev/null || exit 9; done; "
            "wait $p",
            PARE_BINARY, kinds[i], demo_bench(), PARE_BINARY, demo_bench());
        const int ended = system(script);
        char *said = read_file("err.txt");
        if (ended != 0)
            fail_msg("%s: %s", kinds[i], said);
        free(said);
    }
    char *text = demo_text();
    assert_non_null(strstr(text, "all_up: \"<= 642g\""));
    assert_non_null(strstr(text, "learned:"));
    assert_non_null(strstr(text, "output: 31 %"));
    free(text);
}

/* Flights in a loadout that was taken off the craft since stay as they were written, and the others still tell. */
static void flights_in_a_loadout_that_is_gone_are_left_out_and_named(void **state)
{
    (void)state;
    static const char why[] = "the craft has no loadout 'race' any more";
    run_quietly("craft change hedgerow loadouts.race=off" DEMO);
    json_t *learned = run_json("learn hedgerow --json" DEMO);
    const json_t *flights = json_object_get(learned, "flights");
    size_t index, gone = 0;
    json_t *one;
    assert_int_equal(json_array_size(flights), 12);
    json_array_foreach(flights, index, one)
    {
        const char *said = json_string_value(json_object_get(one, "why"));
        gone += said && strcmp(said, why) == 0;
    }
    assert_int_equal(gone, 3);
    json_decref(learned);
    ran r = run("learn hedgerow" DEMO);
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "2026-04-13  tells nothing: the craft has no loadout 'race'"));
    ran_free(&r);
    run_quietly("take hedgerow" DEMO); /* which holds its promises against flights */
    /* One more of them comes in with a word, and nothing is foretold of it. */
    write_text("hover.csv", "craft,date,loadout,flown,output,lasted\n"
                            "hedgerow,2026-10-01,race,hover,30%,2min\n");
    r = run("import hover.csv --as flights" DEMO);
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "kept but not used"));
    ran_free(&r);
    run_quietly("learn hedgerow" DEMO);
    /* With the loadout back they tell again. */
    run_quietly("undo" DEMO);
    run_quietly("undo" DEMO);
    learned = run_json("learn hedgerow --json" DEMO);
    json_array_foreach(json_object_get(learned, "flights"), index, one)
        assert_true(json_is_null(json_object_get(one, "why")));
    json_decref(learned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(the_sheet_goes_by_what_was_learned, fill_demo),
        cmocka_unit_test_setup(keeping_again_learns_nothing_more_from_the_same_flights, fill_demo),
        cmocka_unit_test_setup(forgetting_leaves_nothing_behind, fill_demo),
        cmocka_unit_test_setup(another_propeller_leaves_it_behind, fill_demo),
        cmocka_unit_test_setup(what_cannot_be_kept_is_said, fill_demo),
        cmocka_unit_test_setup(a_text_that_nobody_kept_is_refused_with_its_place, fill_demo),
        cmocka_unit_test_setup(another_motor_beside_the_learned_one_is_said_to_be_unlearned,
                               fill_demo),
        cmocka_unit_test_setup(a_hover_is_foretold_kept_and_scored, fill_demo),
        cmocka_unit_test_setup(hovers_in_a_list_are_foretold_once, fill_demo),
        cmocka_unit_test_setup(a_flight_that_cannot_be_tells_nothing_and_says_so, fill_demo),
        cmocka_unit_test_setup(flights_that_contradict_each_other_are_said_to, fill_demo),
        cmocka_unit_test_setup(what_is_no_output_of_a_hover_is_refused, fill_demo),
        cmocka_unit_test_setup(the_screen_says_what_moved, fill_demo),
        cmocka_unit_test_setup(what_comes_in_between_is_learned_with, fill_demo),
        cmocka_unit_test_setup(flights_in_a_loadout_that_is_gone_are_left_out_and_named, fill_demo),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
