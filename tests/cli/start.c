/* start.c: a craft of one's own from a few words or answers, and its limits, word for word.
 *
 * The screens are our own earlier output, read before they were kept: they catch change. */
#define _XOPEN_SOURCE 700
#include "run.h"

#include <fcntl.h>
#include <spawn.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

extern char **environ;

#define OWN " --bench own.sqlite"
#define PLOVER                                                                                     \
    "all_up=690g minutes=4.5min pack=4S1500mAh propeller=5.1in stator=2207 kv=2400 "               \
    "carries=action_camera,gps"

static int fresh(void **state)
{
    (void)state;
    return remove("own.sqlite") == 0 || access("own.sqlite", F_OK) != 0 ? 0 : -1;
}

static void the_first_sheet_follows_at_once(void **state)
{
    (void)state;
    run_prints_golden("start", "craft start plover " PLOVER OWN);
    json_t *sheet = run_json("sheet plover --json" OWN);
    assert_near(number(sheet, "all_up_g"), 690, 0.01);
    assert_near(number(sheet, "flown_min"), 4.5, 0.005);
    json_decref(sheet);
}

static void nothing_said_and_no_terminal_is_a_typical_craft(void **state)
{
    (void)state;
    run_prints_golden("start-nothing", "craft start dunlin" OWN);
}

static void a_start_can_be_exported_edited_and_imported(void **state)
{
    (void)state;
    ran r = run("craft start plover " PLOVER OWN);
    ran_free(&r);
    r = run("export -o own.yaml" OWN);
    assert_int_equal(r.status, 0);
    ran_free(&r);
    r = run("import own.yaml" OWN);
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "craft    0 added, 1 as before"));
    ran_free(&r);
    json_t *object = run_json("craft start knot all_up=700g --json" OWN);
    assert_near(number(object, "all_up_g"), 700, 0.01);
    json_decref(object);
}

/* The line takes a good part of the doubt away; without one the start says how to state it. */
static void the_propellers_line_is_asked_for_and_makes_its_figures_surer(void **state)
{
    (void)state;
    ran unsaid = run("craft start plover " PLOVER OWN);
    assert_non_null(strstr(unsaid.out, "parts change plover-propeller line=broad"));
    ran_free(&unsaid);
    ran said = run("craft start dunlin line=broad " PLOVER OWN);
    assert_int_equal(said.status, 0);
    assert_null(strstr(said.out, "say next"));
    assert_non_null(strstr(said.out, "the propeller by its size and line"));
    ran_free(&said);
    ran part = run("parts show dunlin-propeller" OWN);
    assert_non_null(strstr(part.out, "  line              broad\n"));
    ran_free(&part);
    json_t *without = run_json("sheet plover --json" OWN);
    json_t *with = run_json("sheet dunlin --json" OWN);
    assert_true(number(json_object_get(with, "rotors"), "thrust_u") <
                0.7 * number(json_object_get(without, "rotors"), "thrust_u"));
    json_decref(with);
    json_decref(without);
    run_refuses("craft start knot line=brod" OWN, 2,
                "pare: craft start: line knows no 'brod'; did you mean broad?\n");
}

static void a_pack_and_a_frame_of_the_bench_are_used(void **state)
{
    (void)state;
    json_t *sheet = run_json("craft start ruff pack=pa-4s-1550 frame=fr-lath-5 --json" DEMO);
    const json_t *ledger = json_object_get(sheet, "ledger");
    assert_true(json_array_size(ledger) > 10);
    json_decref(sheet);
    ran r = run("craft show ruff" DEMO);
    assert_non_null(strstr(r.out, "pa-4s-1550"));
    assert_non_null(strstr(r.out, "fr-lath-5"));
    ran_free(&r);
}

static void limits_are_set_and_taken_away(void **state)
{
    (void)state;
    ran r = run("craft start plover " PLOVER OWN);
    ran_free(&r);
    run_prints_golden("limit", "craft limit plover all_up=600g flown=4min thrust_to_weight_half=5 "
                               "margin=1" OWN);
    r = run("sheet plover --check" OWN);
    assert_int_equal(r.status, 1);
    ran_free(&r);
    r = run("craft limit plover all_up>=500g margin=off pack_shift<=5mm" OWN);
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "all-up mass >= 500 g"));
    assert_null(strstr(r.out, "least margin"));
    assert_non_null(strstr(r.out, "pack shift to balance <= 5 mm"));
    ran_free(&r);
    r = run("craft limit plover all_up=off flown=off thrust_to_weight_half=off "
            "pack_shift=off" OWN);
    assert_string_equal(r.out, "plover has no limits\n");
    ran_free(&r);
}

/* ---- what is wrong ---- */

typedef struct wrong {
    int status;
    const char *line;
} wrong;

static void what_is_wrong_is_one_line_and_changes_nothing(void **state)
{
    (void)state;
    static const wrong cases[] = {
        {3, "craft start" OWN},
        {3, "craft start a/b" OWN},
        {2, "craft start ruff prop=5in" OWN},
        {2, "craft start ruff propellor=5in" OWN},
        {3, "craft start ruff all_up" OWN},
        {3, "craft start ruff all_up=690" OWN},
        {3, "craft start ruff all_up=690V" OWN},
        {3, "craft start ruff all_up=1g" OWN},
        {3, "craft start ruff all_up=1.9kg propeller=5in" OWN},
        {3, "craft start ruff minutes=45min all_up=690g pack=4S1500mAh" OWN},
        {3, "craft start ruff minutes=10s all_up=690g" OWN},
        {3, "craft start ruff stator=22mm" OWN},
        {3, "craft start ruff stator=9999" OWN},
        {2, "craft start ruff carries=gsp" OWN},
        {3, "craft start ruff carries=nothing,gps" OWN},
        {3, "craft start ruff carries=" OWN},
        {2, "craft start ruff pack=plover-pakc" OWN},
        {3, "craft start ruff pack=plover-frame" OWN},
        {3, "craft start ruff pack=4S1500" OWN},
        {3, "craft start ruff pack=4S1500mAh cells=6" OWN},
        {2, "craft start ruff chemistry=liop" OWN},
        {3, "craft start ruff frame=9m" OWN},
        {3, "craft start ruff kv=2400 kv=1900" OWN},
        {3, "craft start plover" OWN},
        {2, "craft strat ruff" OWN},
        {3, "craft limit plover" OWN},
        {2, "craft limit plovr all_up=600g" OWN},
        {2, "craft limit plover al_up=600g" OWN},
        {2, "craft limit plover all_up_g=600g" OWN},
        {2, "craft limit plover zzz=1" OWN},
        {3, "craft limit plover all_up" OWN},
        {3, "craft limit plover all_up=600" OWN},
        {3, "craft limit plover all_up=4min" OWN},
        {3, "craft limit plover pack_shift=5mm" OWN},
        {3, "craft limit plover flown=4min flown=5min" OWN},
        {3, "craft limit plover all_up=600g --bench none.sqlite"},
    };
    ran r = run("craft start plover " PLOVER OWN);
    ran_free(&r);
    ran before = run("export" OWN);
    char *all = calloc(1, 1 << 15);
    assert_non_null(all);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        r = run(cases[i].line);
        if (r.status != cases[i].status)
            fail_msg("pare %s: exit status %d, wanted %d\n%s", cases[i].line, r.status,
                     cases[i].status, r.err);
        assert_string_equal(r.out, "");
        const char *end = strchr(r.err, '\n');
        assert_true(end && !end[1]);
        strcat(strcat(strcat(all, "$ pare "), cases[i].line), "\n");
        strcat(all, r.err);
        ran_free(&r);
    }
    assert_golden("start-wrong", all);
    free(all);
    ran after = run("export" OWN);
    assert_string_equal(after.out, before.out);
    ran_free(&after);
    ran_free(&before);
}

/* ---- in a terminal ---- */

/* Types lines into a terminal whose other end is the program's; what it says goes to a file. */
static int typed(const char *lines)
{
    static char program[] = PARE_BINARY, craft[] = "craft", start[] = "start", name[] = "stint",
                bench[] = "--bench", file[] = "own.sqlite";
    char *argv[] = {program, craft, start, name, bench, file, NULL};
    const int master = posix_openpt(O_RDWR | O_NOCTTY);
    assert_true(master >= 0 && grantpt(master) == 0 && unlockpt(master) == 0);
    const char *terminal = ptsname(master);
    assert_non_null(terminal);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 0, terminal, O_RDWR | O_NOCTTY, 0);
    posix_spawn_file_actions_addopen(&actions, 1, "out.txt", O_WRONLY | O_CREAT | O_TRUNC, 0600);
    posix_spawn_file_actions_adddup2(&actions, 0, 2);
    posix_spawn_file_actions_addclose(&actions, master);
    pid_t child;
    const int failed = posix_spawn(&child, program, &actions, NULL, argv, environ);
    posix_spawn_file_actions_destroy(&actions);
    assert_int_equal(failed, 0);
    assert_int_equal(write(master, lines, strlen(lines)), (ssize_t)strlen(lines));
    /* What it says is read away, so that it never waits for room. */
    char said[4096];
    for (ssize_t got = 1; got > 0;)
        got = read(master, said, sizeof said);
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    close(master);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static void in_a_terminal_it_asks_and_asks_again(void **state)
{
    (void)state;
    /* Grams and minutes without their units, a word that cannot be and again, some left out. */
    assert_int_equal(typed("690\n4.5\n4S 1500 mAh\nfive\n5.1\n\n\n\n2207\n2400\n"
                           "action_camera, gps\n\n"),
                     0);
    json_t *asked = run_json("sheet stint --json" OWN);
    ran r = run("craft start plover " PLOVER OWN);
    ran_free(&r);
    json_t *said = run_json("sheet plover --json" OWN);
    static const char *const keys[] = {"all_up_g", "flown_min", "hover_a", "cg_z_mm",
                                       "thrust_fresh_n"};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (json_object_get(said, keys[i]))
            assert_near(number(asked, keys[i]), number(said, keys[i]), 1e-9);
    json_decref(said);
    json_decref(asked);
}

static void every_answer_can_be_left_out(void **state)
{
    (void)state;
    assert_int_equal(typed("\n\n\n\n\n\n\n\n\n\n\n"), 0);
    json_t *sheet = run_json("sheet stint --json" OWN);
    assert_true(number(sheet, "all_up_g") > 300);
    json_decref(sheet);
}

static void the_end_of_the_input_leaves_out_the_rest(void **state)
{
    (void)state;
    assert_int_equal(typed("655\n\004"), 0);
    json_t *sheet = run_json("sheet stint --json" OWN);
    assert_near(number(sheet, "all_up_g"), 655, 0.01);
    json_decref(sheet);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(the_first_sheet_follows_at_once, fresh),
        cmocka_unit_test_setup(nothing_said_and_no_terminal_is_a_typical_craft, fresh),
        cmocka_unit_test_setup(a_start_can_be_exported_edited_and_imported, fresh),
        cmocka_unit_test_setup(the_propellers_line_is_asked_for_and_makes_its_figures_surer, fresh),
        cmocka_unit_test_setup(a_pack_and_a_frame_of_the_bench_are_used, fresh),
        cmocka_unit_test_setup(limits_are_set_and_taken_away, fresh),
        cmocka_unit_test_setup(what_is_wrong_is_one_line_and_changes_nothing, fresh),
        cmocka_unit_test_setup(in_a_terminal_it_asks_and_asks_again, fresh),
        cmocka_unit_test_setup(every_answer_can_be_left_out, fresh),
        cmocka_unit_test_setup(the_end_of_the_input_leaves_out_the_rest, fresh),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
