/* help.c: help, examples and man pages of every command in the table: what they say is complete, fits
 * 80 columns, and is true, since each example is run.
 *
 * The table itself is linked in, so that a command that comes tomorrow is held to the same. */
#include "run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/common.h"
#include "cli/usage.h"

enum { COLUMNS = 80, LINE = 1024 };

/* ---- texts ---- */

static void assert_narrow(const char *of, const char *text)
{
    for (int line = 1; *text; line++) {
        const size_t length = strcspn(text, "\n");
        size_t columns = 0;
        for (size_t i = 0; i < length; i++)
            columns += ((unsigned char)text[i] & 0xc0) != 0x80;
        if (columns > COLUMNS)
            fail_msg("%s: line %d has %zu columns: %.*s", of, line, columns, (int)length, text);
        text += length + (text[length] == '\n');
    }
}

static void assert_holds(const char *of, const char *text, const char *part)
{
    if (!strstr(text, part))
        fail_msg("%s does not say '%s':\n%s", of, part, text);
}

/* A text without its spaces and ends of lines: the same whatever it was laid out for. */
static char *squeezed(const char *text)
{
    char *letters = malloc(strlen(text) + 1), *to = letters;
    assert_non_null(letters);
    for (; *text; text++)
        if (*text != ' ' && *text != '\n')
            *to++ = *text;
    *to = '\0';
    return letters;
}

/* ---- help ---- */

static void help_lists_every_command(void **state)
{
    (void)state;
    static const char *const asking[] = {"help", "--help", "-h", "help help", "help --help"};
    ran bare = run("");
    assert_int_equal(bare.status, 0);
    assert_narrow("pare", bare.out);
    for (size_t i = 0; i < sizeof asking / sizeof asking[0]; i++) {
        ran r = run(asking[i]);
        assert_int_equal(r.status, 0);
        assert_string_equal(r.err, "");
        assert_string_equal(r.out, bare.out);
        ran_free(&r);
    }
    size_t count;
    const command *const *table = commands(&count);
    for (size_t i = 0; i < count; i++)
        assert_holds("pare help", bare.out, table[i]->line);
    assert_golden("help", bare.out);
    ran_free(&bare);
}

static void help_on_each_command_is_complete(void **state)
{
    (void)state;
    size_t count, rows;
    const command *const *table = commands(&count);
    const option_row *row = option_rows(&rows);
    char *all = calloc(1, 1 << 16);
    assert_non_null(all);
    for (size_t i = 0; i < count; i++) {
        char help[LINE], asked[LINE];
        snprintf(help, sizeof help, "help %s", table[i]->name);
        snprintf(asked, sizeof asked, "%s --help", table[i]->name);
        ran r = run(help), same = run(asked);
        assert_int_equal(r.status, 0);
        assert_string_equal(r.out, same.out);
        assert_narrow(help, r.out);
        assert_holds(help, r.out, table[i]->example);
        for (size_t o = 0; o < rows; o++) {
            char typed[LINE];
            snprintf(typed, sizeof typed, "--%s%s%s", row[o].name, row[o].value ? " " : "",
                     row[o].value ? row[o].value : "");
            if (row[o].bit & (table[i]->options | OPTION_HELP))
                assert_holds(help, r.out, typed);
        }
        assert_true(strlen(all) + strlen(r.out) + 2 < 1 << 16);
        strcat(strcat(all, r.out), "\n");
        ran_free(&r);
        ran_free(&same);
    }
    assert_golden("help-commands", all);
    free(all);
}

static void the_version_and_a_mistyped_command_are_answered(void **state)
{
    (void)state;
    ran r = run("--version");
    assert_int_equal(r.status, 0);
    assert_int_equal(strncmp(r.out, "pare ", 5), 0);
    ran_free(&r);
    r = run("help nosuch");
    assert_int_equal(r.status, 2);
    assert_string_equal(r.out, "");
    assert_string_equal(r.err, "pare: no command 'nosuch'; pare help lists them\n");
    ran_free(&r);
    r = run("help craft start");
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "pare craft start NAME"));
    ran_free(&r);
    r = run("help shet");
    assert_int_equal(r.status, 2);
    assert_string_equal(r.err, "pare: no command 'shet'; did you mean sheet?\n");
    ran_free(&r);
}

/* Options have their own table; a line of theirs among the details would be said twice. */
static void details_say_nothing_of_options(void **state)
{
    (void)state;
    size_t count;
    const command *const *table = commands(&count);
    for (size_t i = 0; i < count; i++) {
        const char *details = table[i]->details;
        if (strncmp(details, "  -", 3) == 0 || strstr(details, "\n  -"))
            fail_msg("%s: an option among the details; right would be .meaning", table[i]->name);
    }
}

static option_bits bit_of(const usage_word *word, const char *of)
{
    size_t rows;
    const option_row *row = option_rows(&rows);
    for (size_t o = 0; o < rows; o++)
        if ((word->text[1] == '-' && strlen(row[o].name) == word->length - 2 &&
             strncmp(word->text + 2, row[o].name, word->length - 2) == 0) ||
            (word->length == 2 && row[o].letter && row[o].letter == word->text[1]))
            return row[o].bit;
    fail_msg("%s: its usage names '%.*s', which is no option", of, (int)word->length, word->text);
    return 0;
}

static void a_usage_names_the_options_that_its_command_takes(void **state)
{
    (void)state;
    size_t count;
    const command *const *table = commands(&count);
    for (size_t i = 0; i < count; i++) {
        option_bits named = 0;
        usage_word word;
        for (const char *at = table[i]->usage; usage_next(&at, &word);)
            if (word.option)
                named |= bit_of(&word, table[i]->name);
        /* These two are said once for all commands. */
        const option_bits common = OPTION_JSON | OPTION_BENCH | OPTION_HELP;
        if ((named | common) != (table[i]->options | common) || named & ~table[i]->options)
            fail_msg("%s: its usage names other options than it takes", table[i]->name);
        assert_true(table[i]->options & OPTION_JSON);
        assert_true(table[i]->options & OPTION_BENCH || strcmp(table[i]->name, "calc") == 0);
    }
}

/* ---- examples ---- */

static void shell(const char *line)
{
    if (system(line) != 0)
        fail_msg("this failed: %s", line);
}

/* A folder with a fresh copy of the demo's bench as the user's own, its study, and a list of parts as a
 * person would keep it. */
static void fresh_folder(void)
{
    shell("rm -rf fresh && mkdir -p fresh/data/pare && "
          "cp data/pare/demo.sqlite fresh/data/pare/bench.sqlite && "
          "cp " PARE_SOURCE_DIR "/demo/customers.yaml fresh");
    write_text("fresh/parts.csv", "Name;Kind;Weight (g);kV;Stator;Price\n"
                                  "Sorrel 2306;motor;31,2;1850;23x6;21,90\n"
                                  "Sorrel 2004;motor;17;2900;20x4;\n");
}

/* "# exit 1" behind a line says how it ends. */
static int wanted_status(const char *line)
{
    const char *said = strstr(line, "# exit ");
    return said ? atoi(said + strlen("# exit ")) : 0;
}

static void run_example(const char *of, const char *line)
{
    const char *program = PARE_BINARY;
    const int folder = (int)(strrchr(program, '/') - program);
    char script[4 * LINE];
    snprintf(script, sizeof script,
             "cd fresh && export XDG_DATA_HOME=$PWD/data HOME=$PWD PATH=%.*s:$PATH && "
             "{ %s\n} </dev/null >out.txt 2>err.txt",
             folder, program, line);
    const int ended = system(script);
    char *said = read_file("fresh/err.txt");
    if (!WIFEXITED(ended) || WEXITSTATUS(ended) != wanted_status(line))
        fail_msg("example of %s: '%s' ended with %d, not %d: %s", of, line,
                 WIFEXITED(ended) ? WEXITSTATUS(ended) : -1, wanted_status(line), said);
    free(said);
}

static size_t run_examples(const char *of, const char *example)
{
    size_t lines = 0;
    fresh_folder();
    while (*example) {
        char line[LINE];
        const size_t length = strcspn(example, "\n");
        assert_true(length < sizeof line);
        snprintf(line, sizeof line, "%.*s", (int)length, example);
        example += length + (example[length] == '\n');
        const char *typed = line + strspn(line, " ");
        if (strncmp(typed, "pare ", 5) != 0)
            fail_msg("%s: '%s' in its example is no line that starts with pare", of, typed);
        run_example(of, typed);
        lines++;
    }
    return lines;
}

static void every_example_does_what_it_says(void **state)
{
    (void)state;
    size_t count;
    const command *const *table = commands(&count);
    for (size_t i = 0; i < count; i++) {
        char own[LINE];
        if (run_examples(table[i]->name, table[i]->example) == 0)
            fail_msg("%s has no example", table[i]->name);
        snprintf(own, sizeof own, "  pare %s", table[i]->name);
        assert_holds("an example", table[i]->example, own);
    }
    run_examples("pare", COMMON_EXAMPLE);
}

/* What the demo proposes to try next: its lines as one script, without the words behind them. */
static void what_the_demo_proposes_works(void **state)
{
    (void)state;
    const char *program = PARE_BINARY;
    char script[8 * LINE] = "";
    fresh_folder();
    ran r = run("demo");
    const char *next = strstr(r.out, "Try next");
    assert_non_null(next);
    int proposed = 0;
    for (const char *at = strchr(next, '\n'); at && at[1]; at = strchr(at + 1, '\n')) {
        const char *line = at + 1 + strspn(at + 1, " "), *gap = strstr(line, "   ");
        const size_t length = strcspn(line, "\n");
        proposed += strncmp(line, "pare ", 5) == 0;
        const size_t used = gap && gap < line + length ? (size_t)(gap - line) : length;
        /* run() writes HOME for the path of the home. */
        const bool path = strncmp(line, "B=HOME/", 7) == 0;
        snprintf(script + strlen(script), sizeof script - strlen(script), "%s%.*s || exit\n",
                 path ? "B=$" : "", (int)(path ? used - 2 : used), path ? line + 2 : line);
    }
    assert_true(proposed > 3);
    write_text("fresh/next.sh", script);
    ran_free(&r);
    char all[LINE];
    snprintf(all, sizeof all, "export PATH=%.*s:$PATH; cd fresh && sh next.sh >out.txt",
             (int)(strrchr(program, '/') - program), program);
    if (system(all) != 0)
        fail_msg("what the demo proposes fails:\n%s", script);
}

/* ---- man pages ---- */

static char *output_of(const char *line)
{
    char script[LINE];
    snprintf(script, sizeof script, "%s >page.txt 2>&1", line);
    const int ended = system(script);
    char *text = read_file("page.txt");
    assert_non_null(text);
    if (!WIFEXITED(ended) || WEXITSTATUS(ended) != 0)
        fail_msg("%s: %s", line, text);
    return text;
}

/* Bold and underlined letters are printed over themselves: only the last of each is left. */
static void drop_overprint(char *text)
{
    char *to = text;
    for (; *text; text++)
        if (*text == '\b')
            to--;
        else
            *to++ = *text;
    *to = '\0';
}

/* What a page shows, squeezed; and nothing in it to complain of. */
static char *man_page(const char *name)
{
    char line[LINE];
    snprintf(line, sizeof line, "mandoc -T lint -W warning %s/%s.1", PARE_MAN_FOLDER, name);
    char *complaints = output_of(line);
    assert_string_equal(complaints, "");
    free(complaints);
    snprintf(line, sizeof line, "mandoc -T ascii %s/%s.1", PARE_MAN_FOLDER, name);
    char *page = output_of(line);
    drop_overprint(page);
    char *letters = squeezed(page);
    free(page);
    return letters;
}

static void assert_page_holds(const char *name, const char *page, const char *text)
{
    char *letters = squeezed(text);
    if (!strstr(page, letters))
        fail_msg("the man page %s does not say '%s'", name, text);
    free(letters);
}

static void every_command_has_a_man_page_that_says_what_its_help_says(void **state)
{
    (void)state;
    size_t count, rows;
    const command *const *table = commands(&count);
    const option_row *row = option_rows(&rows);
    for (size_t i = 0; i < count; i++) {
        const command *about = table[i];
        char name[LINE], typed[LINE];
        snprintf(name, sizeof name, "pare-%s", about->name);
        char *page = man_page(name);
        assert_page_holds(name, page, about->line);
        assert_page_holds(name, page, about->usage);
        assert_page_holds(name, page, about->details);
        assert_page_holds(name, page, about->example);
        if (about->caution)
            assert_page_holds(name, page, about->caution);
        for (size_t o = 0; o < rows; o++) {
            if (!(row[o].bit & (about->options | OPTION_HELP)))
                continue;
            snprintf(typed, sizeof typed, "--%s %s", row[o].name, row[o].value ? row[o].value : "");
            assert_page_holds(name, page, typed);
            assert_page_holds(name, page, command_option_meaning(about, &row[o]) + 1);
        }
        free(page);
    }
}

static void the_main_man_page_lists_every_command(void **state)
{
    (void)state;
    size_t count, statuses;
    const command *const *table = commands(&count);
    const common_row *status = common_statuses(&statuses);
    char *page = man_page("pare");
    for (size_t i = 0; i < count; i++) {
        char entry[LINE];
        /* Its name as a page, and its line as a sentence. */
        snprintf(entry, sizeof entry, "pare-%s(1)", table[i]->name);
        assert_page_holds("pare", page, entry);
        assert_page_holds("pare", page, table[i]->line + 1);
    }
    for (size_t i = 0; i < statuses; i++)
        assert_page_holds("pare", page, status[i].meaning + 1);
    assert_page_holds("pare", page, CAUTION_WORK);
    assert_page_holds("pare", page, CAUTION_FLYING);
    free(page);
}

/* ---- installing ---- */

static void assert_installed(const char *name)
{
    char path[LINE];
    snprintf(path, sizeof path, "installed/%s", name);
    if (access(path, R_OK) != 0)
        fail_msg("%s was not installed", name);
}

static void installing_puts_everything_in_its_place(void **state)
{
    (void)state;
    size_t count;
    const command *const *table = commands(&count);
    free(output_of(PARE_CMAKE " --install " PARE_BUILD_FOLDER " --prefix installed"));
    assert_installed("bin/pare");
    assert_installed("share/man/man1/pare.1");
    assert_installed("share/bash-completion/completions/pare");
    assert_installed("share/zsh/site-functions/_pare");
    assert_installed("share/fish/vendor_completions.d/pare.fish");
    for (size_t i = 0; i < count; i++) {
        char name[LINE];
        snprintf(name, sizeof name, "share/man/man1/pare-%s.1", table[i]->name);
        assert_installed(name);
    }
    shell("rm -rf installed");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(help_lists_every_command),
        cmocka_unit_test(help_on_each_command_is_complete),
        cmocka_unit_test(the_version_and_a_mistyped_command_are_answered),
        cmocka_unit_test(details_say_nothing_of_options),
        cmocka_unit_test(a_usage_names_the_options_that_its_command_takes),
        cmocka_unit_test(every_example_does_what_it_says),
        cmocka_unit_test(what_the_demo_proposes_works),
        cmocka_unit_test(every_command_has_a_man_page_that_says_what_its_help_says),
        cmocka_unit_test(the_main_man_page_lists_every_command),
        cmocka_unit_test(installing_puts_everything_in_its_place),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
