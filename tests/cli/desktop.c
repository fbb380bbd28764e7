/* desktop.c: the entry of a desktop's menu is well made, and what it starts serves one's own bench, or else
 * the demo's. */
#include "run.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* A program in the place of ours, which writes down what it is told. */
#define STAND_IN                                                                                   \
    "#!/bin/sh\necho \"$*\" | sed \"s|$HOME|HOME|\" >>told.txt\n"                                  \
    "[ \"$1\" != serve ] || exit \"${SERVE:-0}\"\n"

static int enter(void **state)
{
    if (enter_home(state) != 0)
        return -1;
    write_text("pare", STAND_IN);
    return chmod("pare", 0700) == 0 && mkdir("data/pare", 0700) == 0 ? 0 : -1;
}

static int forget(void **state)
{
    (void)state;
    remove("told.txt");
    remove("data/pare/bench.sqlite");
    remove("data/pare/demo.sqlite");
    return 0;
}

static int open_page(void)
{
    return system("PATH=.:$PATH " PARE_SOURCE_DIR "/desktop/open-page </dev/null >said.txt 2>&1");
}

static void told(const char *wanted)
{
    char *text = read_file("told.txt");
    assert_non_null(text);
    assert_string_equal(text, wanted);
    free(text);
}

static void ones_own_bench_is_opened(void **state)
{
    (void)state;
    write_text("data/pare/bench.sqlite", "");
    write_text("data/pare/demo.sqlite", "");
    assert_int_equal(open_page(), 0);
    told("serve --port 0\n");
}

static void without_one_the_demos_is(void **state)
{
    (void)state;
    write_text("data/pare/demo.sqlite", "");
    assert_int_equal(open_page(), 0);
    told("serve --port 0 --bench HOME/data/pare/demo.sqlite\n");
}

static void without_any_the_demo_is_filled(void **state)
{
    (void)state;
    assert_int_equal(open_page(), 0);
    told("demo\nserve --port 0 --bench HOME/data/pare/demo.sqlite\n");
}

static void what_fails_stays_failed(void **state)
{
    (void)state;
    setenv("SERVE", "4", 1);
    write_text("data/pare/bench.sqlite", "");
    assert_int_equal(open_page(), 4 << 8);
    unsetenv("SERVE");
}

static void the_entry_is_well_made(void **state)
{
    (void)state;
    if (system("desktop-file-validate " PARE_DESKTOP " >said.txt 2>&1") != 0) {
        char *said = read_file("said.txt");
        fail_msg("%s", said ? said : "");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(ones_own_bench_is_opened, forget),
        cmocka_unit_test_teardown(without_one_the_demos_is, forget),
        cmocka_unit_test_teardown(without_any_the_demo_is_filled, forget),
        cmocka_unit_test_teardown(what_fails_stays_failed, forget),
        cmocka_unit_test(the_entry_is_well_made),
    };
    return cmocka_run_group_tests(tests, enter, leave_home);
}
