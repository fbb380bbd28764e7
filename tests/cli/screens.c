/* screens.c: what each command prints, word for word, at 80 and 120 columns and in ASCII.
 *
 * These files are our own earlier output: they catch change, and each was read before it was kept. */
#include "run.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

/* Columns of the widest line: characters, not bytes. */
static int widest(const char *text)
{
    int most = 0, columns = 0;
    for (; *text; text++) {
        if (*text == '\n')
            columns = 0;
        else if (((unsigned char)*text & 0xc0) != 0x80)
            most = ++columns > most ? columns : most;
    }
    return most;
}

static void the_demo_does_the_main_job(void **state)
{
    (void)state;
    run_prints_golden("demo", "demo");
}

static void a_second_demo_says_the_same(void **state)
{
    (void)state;
    ran first = run("demo"), second = run("demo");
    assert_string_equal(first.out, second.out);
    ran_free(&first);
    ran_free(&second);
}

static void a_sheet_is_one_screen(void **state)
{
    (void)state;
    run_prints_golden("sheet", "sheet hedgerow" DEMO);
    run_prints_golden("sheet-thimble", "sheet thimble" DEMO);
    run_prints_golden("sheet-drover", "sheet drover" DEMO);
    run_prints_golden("sheet-bodkin", "sheet bodkin" DEMO);
    run_prints_golden("sheet-loadout", "sheet hedgerow --loadout race" DEMO);
}

static void a_trial_is_shown_against_the_craft_as_it_is(void **state)
{
    (void)state;
    run_prints_golden("sheet-try",
                      "sheet hedgerow --try bumper=off,joint.motor_base.material=titanium" DEMO);
}

static void a_trial_that_the_loadout_hides_is_said_to_change_nothing(void **state)
{
    (void)state;
    ran r = run("sheet hedgerow --loadout light --try pack=pa-6s-1050" DEMO);
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "It changes nothing here"));
    ran_free(&r);
    r = run("sheet hedgerow --loadout film --try pack=pa-6s-1050" DEMO);
    assert_int_equal(r.status, 0);
    assert_null(strstr(r.out, "It changes nothing here"));
    ran_free(&r);
}

static void all_shows_what_stands_behind_the_sheet(void **state)
{
    (void)state;
    run_prints_golden("sheet-all", "sheet hedgerow --all" DEMO);
    run_prints_golden("sheet-all-drover", "sheet drover --all" DEMO);
}

static void swaps_are_listed_best_first(void **state)
{
    (void)state;
    run_prints_golden("swaps", "swaps hedgerow" DEMO);
    run_prints_golden("swaps-crash", "swaps thimble --wish crash" DEMO);
    run_prints_golden("learn", "learn hedgerow" DEMO);
    run_prints_golden("learn-none", "learn bodkin" DEMO);
}

static void parts_and_craft_are_listed_and_shown(void **state)
{
    (void)state;
    run_prints_golden("parts-packs", "parts --kind pack" DEMO);
    run_prints_golden("parts-words", "parts teasel motor" DEMO);
    run_prints_golden("parts-show", "parts show mo-2207-1950" DEMO);
    run_prints_golden("craft", "craft" DEMO);
    run_prints_golden("craft-show", "craft show hedgerow" DEMO);
}

static void a_search_that_finds_nothing_names_what_is_near(void **state)
{
    (void)state;
    static const struct {
        const char *line, *said;
    } cases[] = {
        {"parts mottor" DEMO, "No such part on this bench; did you mean motor?\n"},
        {"parts mo-2207-1960" DEMO, "No such part on this bench; did you mean mo-2207-1950?\n"},
        {"parts shwo mo-2207-1950" DEMO,
         "No such part on this bench; did you mean pare parts show?\n"},
        {"parts zeppelin" DEMO, "No such part on this bench.\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        ran r = run(cases[i].line);
        assert_int_equal(r.status, 0);
        assert_string_equal(r.out, cases[i].said);
        ran_free(&r);
    }
}

static void parts_are_found_by_numbers_by_place_and_by_surprise(void **state)
{
    (void)state;
    run_prints_golden("parts-find", "parts --kind motor mass<30g~kv=1700..2700 --sort mass" DEMO);
    run_prints_golden("parts-find-volts", "parts volts>=30V price<=60 --sort volts:down" DEMO);
    run_prints_golden("parts-for", "parts --for hedgerow.antenna" DEMO);
    run_prints_golden("parts-for-lighter",
                      "parts --for hedgerow.motor --lighter teasel mass>30g --sort mass" DEMO);
    run_prints_golden("parts-surprise", "parts --surprise" DEMO);
}

static void craft_loadouts_and_trials_stand_side_by_side(void **state)
{
    (void)state;
    run_prints_golden("compare", "compare hedgerow bodkin" DEMO);
    run_prints_golden("compare-loadouts", "compare hedgerow" DEMO);
    run_prints_golden("compare-try",
                      "compare hedgerow --try bumper=off --try bumper=off,skid=off" DEMO);
    run_prints_golden("compare-all", "compare hedgerow --try bumper=off --all" DEMO);
    run_prints_golden("compare-same", "compare thimble thimble" DEMO);
    setenv("COLUMNS", "60", 1);
    run_prints_golden("compare-60", "compare hedgerow" DEMO);
    setenv("COLUMNS", "80", 1);
}

/* How often a text stands in another. */
static size_t times(const char *text, const char *part)
{
    size_t count = 0;
    for (const char *at = strstr(text, part); at; at = strstr(at + 1, part))
        count++;
    return count;
}

static void any_number_of_columns_stands_on_any_screen(void **state)
{
    (void)state;
    static const char *const craft[] = {"hedgerow", "bodkin", "thimble", "drover"};
    static const size_t counts[] = {2, 5, 12, 28};
    static const struct {
        const char *text;
        int columns;
    } widths[] = {{"60", 60}, {"80", 80}, {"120", 120}};
    for (size_t w = 0; w < sizeof widths / sizeof widths[0]; w++)
        for (size_t n = 0; n < sizeof counts / sizeof counts[0]; n++) {
            char line[1024] = "compare";
            for (size_t i = 0; i < counts[n]; i++)
                snprintf(line + strlen(line), sizeof line - strlen(line), " %s", craft[i % 4]);
            strcat(line, DEMO);
            setenv("COLUMNS", widths[w].text, 1);
            ran r = run(line);
            assert_int_equal(r.status, 0);
            assert_true(widest(r.out) <= widths[w].columns);
            const char *body = strstr(r.out, "What differs");
            assert_non_null(body);
            const size_t blocks = times(body, "What differs");
            assert_int_equal(times(body, "What weighs otherwise"), blocks);
            assert_int_equal(times(body, "In a crash"), blocks);
            assert_int_equal(times(body, "Other margins"), blocks);
            assert_int_equal(times(body, "What is alike"), 1);
            /* Each column stands under each heading once, the first in each block. */
            for (size_t i = 0; i < counts[n]; i++) {
                char letter[8];
                if (i < 26)
                    snprintf(letter, sizeof letter, "(%c)", (char)('a' + i));
                else
                    snprintf(letter, sizeof letter, "(a%c)", (char)('a' + i - 26));
                assert_int_equal(times(body, letter), i ? 4 : 5 * blocks);
            }
            assert_int_equal(times(body, "\nall-up mass"), blocks);
            ran_free(&r);
        }
    setenv("COLUMNS", "80", 1);
}

static void one_column_has_nothing_to_be_compared_with(void **state)
{
    (void)state;
    ran r = run("craft start plain all_up=600g propeller=5in cells=6 --bench own.sqlite");
    assert_int_equal(r.status, 0);
    ran_free(&r);
    r = run("compare plain --bench own.sqlite");
    assert_int_equal(r.status, 3);
    assert_string_equal(r.err, "pare: compare 'plain' with what? another craft, or --try SWAP; it "
                               "has no other loadout\n");
    ran_free(&r);
    r = run("compare plain plain --bench own.sqlite");
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "\nNothing differs.\n"));
    ran_free(&r);
}

static void calc_answers_in_words(void **state)
{
    (void)state;
    run_prints_golden("calc-air", "calc air altitude=1500m");
    run_prints_golden("calc-prop", "calc prop diameter=5in pitch=4.3in blades=3 rpm=14000");
    run_prints_golden("calc-pack", "calc pack volts=14.8V resistance=20mohm power=300W");
}

static void a_wide_screen_is_used(void **state)
{
    (void)state;
    setenv("COLUMNS", "120", 1);
    run_prints_golden("sheet-120", "sheet hedgerow" DEMO);
    run_prints_golden("sheet-all-120", "sheet thimble --all" DEMO);
    run_prints_golden("swaps-120", "swaps hedgerow" DEMO);
    setenv("COLUMNS", "80", 1);
}

static void without_utf8_there_is_only_ascii(void **state)
{
    (void)state;
    static const char *const lines[] = {"sheet hedgerow --all" DEMO, "swaps hedgerow" DEMO,
                                        "compare hedgerow" DEMO, "parts show pa-4s-1300" DEMO};
    setenv("LC_ALL", "C", 1);
    run_prints_golden("sheet-ascii", "sheet hedgerow --try bumper=off,skid=off" DEMO);
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        ran r = run(lines[i]);
        assert_int_equal(r.status, 0);
        for (const char *c = r.out; *c; c++)
            assert_true(*c == '\n' || isprint((unsigned char)*c));
        ran_free(&r);
    }
    setenv("LC_ALL", "C.UTF-8", 1);
}

static void no_line_is_wider_than_the_screen(void **state)
{
    (void)state;
    static const char *const lines[] = {
        "demo",
        "sheet hedgerow --all" DEMO,
        "sheet thimble --all --try bumper=off,skid=off" DEMO,
        "sheet drover --all" DEMO,
        "sheet bodkin --all" DEMO,
        "swaps hedgerow --all" DEMO,
        "swaps thimble --all" DEMO,
        "swaps drover --all" DEMO,
        "swaps bodkin --all --wish crash" DEMO,
        "compare hedgerow" DEMO,
        "compare hedgerow thimble drover bodkin" DEMO,
        "parts" DEMO,
        "parts --for hedgerow.antenna" DEMO,
        "parts --for hedgerow.esc" DEMO,
        "parts --surprise" DEMO,
        "craft" DEMO,
        "craft show hedgerow" DEMO,
        "craft show drover" DEMO,
    };
    static const struct {
        const char *text;
        int columns;
    } widths[] = {{"80", 80}, {"100", 100}, {"120", 120}, {"200", 200}};
    for (size_t w = 0; w < sizeof widths / sizeof widths[0]; w++) {
        setenv("COLUMNS", widths[w].text, 1);
        for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
            ran r = run(lines[i]);
            assert_int_equal(r.status, 0);
            if (widest(r.out) > widths[w].columns)
                fail_msg("pare %s: %d columns on a screen of %s", lines[i], widest(r.out),
                         widths[w].text);
            ran_free(&r);
        }
    }
    setenv("COLUMNS", "80", 1);
}

static void no_line_ends_in_a_space_and_no_escape_leaves_into_a_file(void **state)
{
    (void)state;
    static const char *const lines[] = {"demo",
                                        "sheet hedgerow --all" DEMO,
                                        "swaps drover" DEMO,
                                        "parts" DEMO,
                                        "parts --for hedgerow.antenna" DEMO,
                                        "parts --surprise" DEMO,
                                        "craft show thimble" DEMO,
                                        "compare hedgerow bodkin" DEMO};
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        ran r = run(lines[i]);
        const char *at = strstr(r.out, " \n");
        if (at)
            fail_msg("pare %s: a space at the end of a line: %.40s", lines[i],
                     at - r.out > 30 ? at - 30 : r.out);
        assert_null(strchr(r.out, '\033'));
        ran_free(&r);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_demo_does_the_main_job),
        cmocka_unit_test(a_second_demo_says_the_same),
        cmocka_unit_test(a_sheet_is_one_screen),
        cmocka_unit_test(a_trial_is_shown_against_the_craft_as_it_is),
        cmocka_unit_test(a_trial_that_the_loadout_hides_is_said_to_change_nothing),
        cmocka_unit_test(all_shows_what_stands_behind_the_sheet),
        cmocka_unit_test(swaps_are_listed_best_first),
        cmocka_unit_test(parts_and_craft_are_listed_and_shown),
        cmocka_unit_test(a_search_that_finds_nothing_names_what_is_near),
        cmocka_unit_test(parts_are_found_by_numbers_by_place_and_by_surprise),
        cmocka_unit_test(craft_loadouts_and_trials_stand_side_by_side),
        cmocka_unit_test(any_number_of_columns_stands_on_any_screen),
        cmocka_unit_test(one_column_has_nothing_to_be_compared_with),
        cmocka_unit_test(calc_answers_in_words),
        cmocka_unit_test(a_wide_screen_is_used),
        cmocka_unit_test(without_utf8_there_is_only_ascii),
        cmocka_unit_test(no_line_is_wider_than_the_screen),
        cmocka_unit_test(no_line_ends_in_a_space_and_no_escape_leaves_into_a_file),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
