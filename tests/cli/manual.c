/* manual.c: the manual. Its commands run, in the order in which a reader types them, and it leaves out
 * no figure and no margin that a sheet has. */
#include "run.h"
#include "server.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

/* The one chapter for which there has to be a server, and which runs alone where there is one. */
#define SHARED "13-shared.md"

#define MANUAL PARE_SOURCE_DIR "/docs/manual/"

static char *chapter(const char *name)
{
    char path[512];
    snprintf(path, sizeof path, MANUAL "%s", name);
    char *text = read_file(path);
    if (!text)
        fail_msg("%s cannot be read", path);
    return text;
}

/* What is pushed in by four is typed. @return how many lines */
static int put_script(char *text, FILE *script)
{
    int lines = 0;
    for (char *rest = text, *line; (line = strtok_r(rest, "\n", &rest));)
        if (strncmp(line, "    ", 4) == 0) {
            fprintf(script, "%s\n", line + 4);
            lines++;
        }
    return lines;
}

static int run_chapter(const char *name)
{
    char *text = chapter(name);
    FILE *script = fopen("script.sh", "w");
    assert_non_null(script);
    fprintf(script, "set -e\nPATH=\"%.*s:$PATH\"\n", (int)(strrchr(PARE_BINARY, '/') - PARE_BINARY),
            PARE_BINARY);
    if (on_server()) {
        char address[160];
        server_bench(1, address, sizeof address);
        fprintf(script, "B='%s'\nexport PGHOST='%s' PGUSER=postgres\n", address,
                getenv("PARE_TEST_SERVER"));
    }
    const int lines = put_script(text, script);
    assert_int_equal(fclose(script), 0);
    free(text);
    const int status = system("sh script.sh </dev/null >out.txt 2>err.txt");
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) {
        char *err = read_file("err.txt");
        fail_msg("%s: a command fails: %s", name, err ? err : "");
    }
    return lines;
}

static void every_command_of_it_runs(void **state)
{
    (void)state;
    struct dirent **entry = NULL;
    const int count = scandir(MANUAL, &entry, NULL, alphasort);
    int lines = 0;
    for (int i = 0; i < count; i++) {
        if (strstr(entry[i]->d_name, ".md") &&
            on_server() == (strcmp(entry[i]->d_name, SHARED) == 0))
            lines += run_chapter(entry[i]->d_name);
        free(entry[i]);
    }
    free(entry);
    assert_true(lines > (on_server() ? 8 : 30));
}

static void want_word(const char *text, const char *name)
{
    char word[96];
    snprintf(word, sizeof word, "`%s`", name);
    if (!strstr(text, word))
        fail_msg("no chapter says what %s is", word);
}

static void it_says_what_each_figure_is(void **state)
{
    (void)state;
    char *text = chapter("6-figures.md");
    size_t seen = 0;
    json_t *sheet = run_json("sheet hedgerow --json" DEMO);
    const json_t *known = json_object_get(sheet, "known");
    const char *key;
    json_t *value;
    json_object_foreach((json_t *)(uintptr_t)known, key, value)
    {
        want_word(text, key);
        seen++;
    }
    assert_true(seen > 40);
    json_decref(sheet);
    free(text);
}

/* "wire_burst.lead" is said of all runs, "arm.bends" is one of its own. */
static void want_margin(const char *text, const char *name)
{
    char word[96], of_all[96];
    snprintf(word, sizeof word, "`%s`", name);
    snprintf(of_all, sizeof of_all, "`%.*s.NAME`", (int)strcspn(name, "."), name);
    if (!strstr(text, word) && !strstr(text, of_all))
        fail_msg("no chapter says what %s is", name);
}

static void it_says_what_each_margin_is(void **state)
{
    (void)state;
    static const char *const craft[] = {"hedgerow", "bodkin", "drover", "thimble"};
    char *text = chapter("7-margins.md");
    for (size_t i = 0; i < sizeof craft / sizeof craft[0]; i++) {
        char line[96];
        snprintf(line, sizeof line, "sheet %s --json" DEMO, craft[i]);
        json_t *sheet = run_json(line);
        size_t at;
        json_t *margin;
        json_array_foreach(json_object_get(sheet, "margins"), at, margin)
            want_margin(text, json_string_value(json_object_get(margin, "name")));
        assert_true(at > 10);
        json_decref(sheet);
    }
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(every_command_of_it_runs, fill_demo),
        cmocka_unit_test_setup(it_says_what_each_figure_is, fill_demo),
        cmocka_unit_test_setup(it_says_what_each_margin_is, fill_demo),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
