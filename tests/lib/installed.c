/* installed.c: the example of the manual, compiled as its reader would against a library that was installed,
 * says what the program says. */
#include "run.h"

#include <stdlib.h>
#include <string.h>

#define PREFIX "installed"

/* A shell's line, in the home. */
static void shell(const char *line)
{
    char whole[2048];
    snprintf(whole, sizeof whole, "{ %s; } >shell.txt 2>&1", line);
    if (system(whole) != 0) {
        char *said = read_file("shell.txt");
        fail_msg("%s\n%s", line, said ? said : "");
    }
}

static int install(void **state)
{
    if (enter_home_with_demo(state) != 0)
        return -1;
    shell(PARE_CMAKE " --install " PARE_BUILD_FOLDER " --component libpare --prefix " PREFIX);
    shell("PKG_CONFIG_PATH=$(dirname $(find $PWD/" PREFIX " -name pare.pc)); "
          "export PKG_CONFIG_PATH; " PARE_CC " -Wall -Wextra -Werror " PARE_CFLAGS
          " $(pkg-config --cflags pare) " PARE_SOURCE_DIR "/docs/example/lightest.c "
          "$(pkg-config --libs pare) -Wl,-rpath,$(pkg-config --variable=libdir pare) -o lightest");
    return 0;
}

static char *lightest(const char *words, int status)
{
    char line[256];
    snprintf(line, sizeof line, "./lightest %s >said.txt 2>&1; test $? = %d", words, status);
    shell(line);
    char *said = read_file("said.txt");
    assert_non_null(said);
    return said;
}

static void wants_line(const char *said, const char *line)
{
    if (!strstr(said, line))
        fail_msg("'%s' is not in\n%s", line, said);
}

static void the_example_says_what_the_program_says(void **state)
{
    (void)state;
    static const char *const keys[][2] = {
        {"all_up_g", "g"}, {"hover_a", "A"}, {"flown_min", "min"}, {"thrust_to_weight_fresh", ""}};
    char *said = lightest("data/pare/demo.sqlite thimble", 0), line[256];
    json_t *sheet = run_json("sheet thimble --json" DEMO);
    json_t *best = run_json("best thimble --json" DEMO);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        char u[64];
        snprintf(u, sizeof u, "%s_u", keys[i][0]);
        snprintf(line, sizeof line, "%-24s %.6g +- %.2g %s, %s\n", keys[i][0],
                 number(sheet, keys[i][0]), number(sheet, u), keys[i][1],
                 json_string_value(json_object_get(json_object_get(sheet, "known"), keys[i][0])));
        wants_line(said, line);
    }
    snprintf(line, sizeof line, "%.4f g with this set, proven lightest:\n", number(best, "best_g"));
    wants_line(said, line);
    wants_line(said, json_string_value(json_object_get(best, "try")));
    json_decref(sheet);
    json_decref(best);
    free(said);
}

static void the_example_fails_in_the_programs_words(void **state)
{
    (void)state;
    char *said = lightest("data/pare/demo.sqlite thimbel", 2);
    assert_string_equal(said, "no craft 'thimbel'; did you mean thimble?\n");
    free(said);
    said = lightest("nowhere thimble", 3);
    assert_string_equal(said, "no bench at nowhere; try `pare demo` or `pare import`\n");
    free(said);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_example_says_what_the_program_says),
        cmocka_unit_test(the_example_fails_in_the_programs_words),
    };
    return cmocka_run_group_tests(tests, install, leave_home);
}
