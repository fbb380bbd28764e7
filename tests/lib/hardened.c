/* hardened.c: program and library are hardened as cmake/hardening.cmake asks, as their own bytes say: an
 * option that a later line takes back would be seen here. */
#include "near.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const built[] = {PARE_BINARY, PARE_LIBRARY};
enum { BUILT = sizeof built / sizeof built[0] };

/* What a command says of a file. For free(). */
static char *said_of(const char *file, const char *command)
{
    enum { MOST = 1 << 22 };
    char line[1024];
    char *text = calloc(1, MOST);
    snprintf(line, sizeof line, "%s %s", command, file);
    FILE *pipe = popen(line, "r");
    assert_non_null(text);
    assert_non_null(pipe);
    const size_t length = fread(text, 1, MOST - 1, pipe);
    if (pclose(pipe) != 0 || length == 0 || length == MOST - 1)
        fail_msg("%s: no answer", line);
    return text;
}

static bool says(const char *file, const char *command, const char *word)
{
    char *text = said_of(file, command);
    const bool found = strstr(text, word) != NULL;
    free(text);
    return found;
}

static void wants(const char *command, const char *word)
{
    for (int i = 0; i < BUILT; i++)
        if (!says(built[i], command, word))
            fail_msg("%s %s: no '%s'", command, built[i], word);
}

static void the_program_stands_at_an_address_of_chance(void **state)
{
    (void)state;
    assert_true(says(PARE_BINARY, "readelf -hW", "DYN"));
    assert_true(says(PARE_BINARY, "readelf -dW", "PIE"));
}

static void what_the_loader_filled_in_can_only_be_read(void **state)
{
    (void)state;
    wants("readelf -lW", "GNU_RELRO");
    wants("readelf -dW", "NOW");
}

static void no_stack_can_be_run(void **state)
{
    (void)state;
    for (int i = 0; i < BUILT; i++) {
        char *text = said_of(built[i], "readelf -lW");
        const char *stack = strstr(text, "GNU_STACK");
        assert_non_null(stack);
        const char *end = strchr(stack, '\n');
        const char *mode = strstr(stack, " RW ");
        assert_true(mode && mode < end);
        free(text);
    }
}

static void stacks_are_watched(void **state)
{
    (void)state;
    wants("readelf -W --dyn-syms", "__stack_chk_fail");
}

/* Copies into room that the compiler knows the size of go through the checked functions. */
static void copies_are_checked(void **state)
{
    (void)state;
    if (!PARE_FORTIFY)
        skip();
    wants("readelf -W --dyn-syms", "__snprintf_chk");
    wants("readelf -W --dyn-syms", "__memcpy_chk");
}

/* A function that others may call through a pointer begins with the mark that such a call must meet. */
static void calls_land_on_marks(void **state)
{
    (void)state;
    char *text = said_of(PARE_LIBRARY, "objdump -d --no-show-raw-insn "
                                       "--disassemble=pare_craft_sheet_compute");
    char *begin = strstr(text, "<pare_craft_sheet_compute");
    assert_non_null(begin);
    char *first = strchr(begin, '\n');
    assert_non_null(first);
    first[1 + strcspn(first + 1, "\n")] = '\0';
    if (!strstr(first, "endbr64"))
        fail_msg("it begins with %s", first + 1);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_program_stands_at_an_address_of_chance),
        cmocka_unit_test(what_the_loader_filled_in_can_only_be_read),
        cmocka_unit_test(no_stack_can_be_run),
        cmocka_unit_test(stacks_are_watched),
        cmocka_unit_test(copies_are_checked),
        cmocka_unit_test(calls_land_on_marks),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
