/* rooms: base */
/* What the README shows of the program is what the program prints: its two blocks equal the golden
 * files that the command-line tests hold the program to. */
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"

static char *read_whole(const char *path)
{
    char full[512];
    snprintf(full, sizeof full, "%s/%s", PARE_SOURCE_DIR, path);
    FILE *file = fopen(full, "rb");
    assert_non_null(file);
    char *text = calloc(1, 1 << 18);
    assert_non_null(text);
    assert_true(fread(text, 1, (1 << 18) - 1, file) > 0);
    fclose(file);
    return text;
}

/* The lines of a block, four spaces in, against the lines of a golden file from its beginning. */
static size_t same_lines(const char *marker, const char *golden)
{
    char *readme = read_whole("README.md"), *printed = read_whole(golden);
    const char *line = strstr(readme, marker);
    assert_non_null(line);
    line = strchr(line, '\n') + 2; /* past the blank line after the marker */
    const char *want = printed;
    size_t lines = 0;
    while (strncmp(line, "<!-- end -->", 12) != 0) {
        const char *end = strchr(line, '\n'), *want_end = strchr(want, '\n');
        assert_non_null(end);
        const bool last = strncmp(end + 1, "<!-- end -->", 12) == 0;
        if (!last) {
            assert_non_null(want_end);
            const char *shown = end > line ? line + 4 : line;
            const size_t length = (size_t)(want_end - want);
            if ((size_t)(end - shown) != length || strncmp(shown, want, length) != 0)
                fail_msg("README shows '%.*s' where %s has '%.*s'", (int)(end - line), line, golden,
                         (int)length, want);
            want = want_end + 1;
            lines++;
        }
        line = end + 1;
    }
    free(readme);
    free(printed);
    return lines;
}

static void the_first_screen_in_the_readme_is_as_printed(void **state)
{
    (void)state;
    assert_true(same_lines("<!-- sheet -->", "tests/cli/golden/sheet.txt") > 20);
}

static void the_first_ten_swaps_in_the_readme_are_as_printed(void **state)
{
    (void)state;
    assert_true(same_lines("<!-- swaps -->", "tests/cli/golden/swaps.txt") > 15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_first_screen_in_the_readme_is_as_printed),
        cmocka_unit_test(the_first_ten_swaps_in_the_readme_are_as_printed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
