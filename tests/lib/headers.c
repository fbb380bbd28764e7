/* headers.c: each public header is whole by itself, in C and in C++, in the oldest dialects that have what
 * they use; and the library shows what they declare, no more and no less, which its man page and its package list, too. */
#include "answer_of.h"
#include "near.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SYMBOLS = 200, LINE = 1024 };

#define INCLUDE PARE_SOURCE_DIR "/include"
/* What the version script has. */
#define LISTED "grep -oE '^ +pare_[a-z_]+;' " PARE_SOURCE_DIR "/src/lib/libpare.map | tr -d ' ;'"

static void compiles(const char *header)
{
    static const char *const how[] = {
        PARE_CC " -x c -std=c90 -pedantic", PARE_CC " -x c -std=c17 -Wconversion -pedantic",
        PARE_CXX " -x c++ -std=c++98 -pedantic", PARE_CXX " -x c++ -std=c++20 -pedantic"};
    for (size_t i = 0; i < sizeof how / sizeof how[0]; i++) {
        char command[LINE];
        snprintf(
            command, sizeof command,
            "printf '#include <pare/%s>\\n#include <pare/%s>\\nint here;\\n' | %s -Wall -Wextra "
            "-Werror -fsyntax-only -I" INCLUDE " - 2>&1",
            header, header, how[i]);
        free(answer_of(command));
    }
}

static void each_header_compiles_alone_in_c_and_cpp(void **state)
{
    (void)state;
    DIR *folder = opendir(INCLUDE "/pare");
    int headers = 0;
    assert_non_null(folder);
    for (const struct dirent *entry; (entry = readdir(folder));)
        if (strstr(entry->d_name, ".h")) {
            compiles(entry->d_name);
            headers++;
        }
    closedir(folder);
    assert_true(headers >= 6);
}

/* ---- what is shown ---- */

static int by_name(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

/* The words of a text, sorted, in one line. */
static char *in_order(char *text)
{
    char *word[SYMBOLS];
    size_t count = 0;
    for (char *at = strtok(text, " \n"); at; at = strtok(NULL, " \n")) {
        assert_true(count < SYMBOLS);
        word[count++] = at;
    }
    qsort(word, count, sizeof word[0], by_name);
    char *line = calloc(1, 1 << 14);
    assert_non_null(line);
    for (size_t i = 0; i < count; i++) {
        if (i && strcmp(word[i], word[i - 1]) == 0)
            continue;
        strcat(line, word[i]);
        strcat(line, "\n");
    }
    free(text);
    return line;
}

static void the_library_shows_what_its_headers_declare(void **state)
{
    (void)state;
    /* What the preprocessor leaves of the headers, so that comments do not count. */
    char *declared = in_order(answer_of(
        "printf '#include <pare/pare.h>\\n' | " PARE_CC " -x c -E -P -I" INCLUDE
        " - | tr '\\n' ' ' | grep -oE "
        "'__attribute__\\(\\(visibility\\(\"default\"\\)\\)\\)[^(]*\\(' |"
        " sed 's/__attribute__((visibility(\"default\")))//' | grep -oE 'pare_[a-z_]+ *\\($' |"
        " tr -d ' ('"));
    /* The version itself is a symbol, too. */
    char *shown = in_order(answer_of("nm -D --defined-only " PARE_LIBRARY
                                     " | awk '$2 != \"A\" { sub(/@.*/, \"\", $3); print $3 }'"));
    char *listed = in_order(answer_of(LISTED));
    assert_true(strlen(declared) > 100);
    assert_string_equal(shown, declared);
    assert_string_equal(listed, declared);
    free(declared);
    free(shown);
    free(listed);
}

static void the_man_page_names_them_all(void **state)
{
    (void)state;
    free(answer_of("mandoc -T lint -W warning " PARE_MAN_PAGE " 2>&1"));
    char *listed = in_order(answer_of(LISTED));
    char *named =
        in_order(answer_of("grep -oE 'Fn pare_[a-z_]+' " PARE_MAN_PAGE " | sed 's/Fn //'"));
    assert_string_equal(named, listed);
    free(listed);
    free(named);
}

/* Debian's list, by which packages of other programs know what they need. */
static void the_package_lists_them_all(void **state)
{
    (void)state;
    char *listed = in_order(answer_of(LISTED));
    char *packed = in_order(answer_of("grep -oE '^ pare_[a-z_]+@' " PARE_SOURCE_DIR
                                      "/debian/libpare0.symbols | tr -d ' @'"));
    assert_string_equal(packed, listed);
    free(listed);
    free(packed);
}

static void its_name_says_which_interface_it_has(void **state)
{
    (void)state;
    char *said = answer_of("readelf -d " PARE_LIBRARY " | grep SONAME");
    assert_non_null(strstr(said, "[libpare.so.0]"));
    free(said);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_header_compiles_alone_in_c_and_cpp),
        cmocka_unit_test(the_library_shows_what_its_headers_declare),
        cmocka_unit_test(the_man_page_names_them_all),
        cmocka_unit_test(the_package_lists_them_all),
        cmocka_unit_test(its_name_says_which_interface_it_has),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
