/* complete.c: what a command line may go on with: asked of the program, and of each shell's completion
 * function as the shell calls it. A shell that is not installed is skipped, and says so. */
#include "run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include "cli/command.h"
#include "cli/usage.h"

enum { LINE = 256, SCRIPT = 8192 };

/* What a script prints, its lines joined by spaces. It must succeed and
 * say nothing on standard error. */
static char *answer_of(const char *script)
{
    char all[SCRIPT];
    const char *program = PARE_BINARY;
    const int folder = (int)(strrchr(program, '/') - program);
    snprintf(all, sizeof all, "export PATH=%.*s:$PATH\n{\n%s\n} >answer.txt 2>complaint.txt",
             folder, program, script);
    const int ended = system(all);
    char *answer = read_file("answer.txt"), *complaint = read_file("complaint.txt");
    assert_non_null(answer);
    if (!WIFEXITED(ended) || WEXITSTATUS(ended) != 0 || !complaint || *complaint)
        fail_msg("this failed or complained: %s\n%s", script, complaint);
    free(complaint);
    for (char *c = answer; *c; c++)
        if (*c == '\n')
            *c = c[1] ? ' ' : '\0';
    return answer;
}

/* What goes on behind these words, which the shell reads. */
static char *behind(const char *words)
{
    char script[SCRIPT - LINE];
    snprintf(script, sizeof script, "pare complete -- %s", words);
    return answer_of(script);
}

static void offers(const char *words, const char *wanted)
{
    char *answer = behind(words);
    if (strcmp(answer, wanted) != 0)
        fail_msg("pare %s\nwanted: %s\n   got: %s", words, wanted, answer);
    free(answer);
}

static bool is_among(const char *answer, const char *word)
{
    const size_t length = strlen(word);
    for (const char *at = strstr(answer, word); at; at = strstr(at + 1, word))
        if ((at == answer || at[-1] == ' ') && (at[length] == ' ' || at[length] == '\0'))
            return true;
    return false;
}

static void offers_among(const char *words, const char *wanted)
{
    char *answer = behind(words);
    if (!is_among(answer, wanted))
        fail_msg("pare %s\nwanted among them: %s\n   got: %s", words, wanted, answer);
    free(answer);
}

/* ---- the program ---- */

static void every_command_of_the_table_is_offered(void **state)
{
    (void)state;
    size_t count;
    const command *const *table = commands(&count);
    for (size_t i = 0; i < count; i++) {
        offers_among("''", table[i]->name);
        offers_among("help ''", table[i]->name);
    }
    offers_among("''", "help");
    offers("swa", "swaps");
    offers("-", "--help --version");
    offers("swaps hedgerow bodkin thimble ''", "");
}

static void every_option_of_a_command_is_offered(void **state)
{
    (void)state;
    size_t count, rows;
    const command *const *table = commands(&count);
    const option_row *row = option_rows(&rows);
    for (size_t i = 0; i < count; i++) {
        char words[LINE], name[LINE];
        snprintf(words, sizeof words, "%s --", table[i]->name);
        char *answer = behind(words);
        for (size_t o = 0; o < rows; o++) {
            snprintf(name, sizeof name, "--%s", row[o].name);
            const bool takes = row[o].bit & (table[i]->options | OPTION_HELP);
            if (is_among(answer, name) != takes)
                fail_msg("pare %s: %s is %s", words, name, takes ? "missing" : "offered");
        }
        free(answer);
    }
    offers("sheet hedgerow --json --lo", "--loadout");
    offers("sheet hedgerow --loadout race --lo", "");
    offers("sheet hedgerow -- --lo", "");
}

/* The first word of each form of a usage, where it is typed as it stands. */
static void every_subcommand_is_offered(void **state)
{
    (void)state;
    size_t count, found = 0;
    const command *const *table = commands(&count);
    for (size_t i = 0; i < count; i++) {
        usage_word word;
        for (const char *at = table[i]->usage; usage_next(&at, &word);) {
            if (!usage_is(&word, "pare") || !usage_next(&at, &word) || !usage_next(&at, &word))
                continue;
            if (!word.literal || usage_is(&word, "pare"))
                continue;
            char words[LINE], wanted[LINE];
            snprintf(words, sizeof words, "%s ''", table[i]->name);
            snprintf(wanted, sizeof wanted, "%.*s", (int)word.length, word.text);
            offers_among(words, wanted);
            found++;
        }
    }
    assert_true(found > 0);
}

static void names_on_the_bench_are_offered(void **state)
{
    (void)state;
    offers("sheet ''", "bodkin drover hedgerow thimble");
    offers("sheet h", "hedgerow");
    offers("sheet hedgerow ''", "");
    offers("compare hedgerow d", "drover");
    offers("compare hedgerow:", "hedgerow:film hedgerow:race hedgerow:light");
    offers("sheet hedgerow --loadout ''", "film race light");
    offers("sheet hedgerow --loadout=r", "--loadout=race");
    offers("sheet --loadout race hedg", "hedgerow");
    offers("craft show b", "bodkin");
    offers("parts show mo-2207-1", "mo-2207-1750 mo-2207-1950");
    offers("parts --sort cap", "capacity capacitance");
    offers("parts --for hedge", "hedgerow.");
    offers("parts --for hedgerow.ant", "hedgerow.antenna");
    offers("parts --kind prop", "propeller propeller_nut");
    offers("swaps hedgerow --wish m", "minutes money");
    offers("best hedgerow --wish ev", "evening");
    offers("swaps hedgerow --wish ev", "");
    offers("import list.csv --as ''", "parts weigh_ins flights stand log");
    offers("take hedgerow bumper=off --fitted ''", "today");
    offers("take h", "hedgerow");
}

static void swaps_are_offered_in_two_steps(void **state)
{
    (void)state;
    offers("sheet hedgerow --try bump", "bumper=");
    offers_among("sheet hedgerow --try bumper=", "bumper=off");
    offers_among("sheet hedgerow --try bumper=", "bumper=bu-thin");
    offers("sheet hedgerow --try bumper=off,joint.motor_base.m",
           "bumper=off,joint.motor_base.material=");
    offers_among("sheet hedgerow --try=bumper=off,joint.motor_base.material=",
                 "--try=bumper=off,joint.motor_base.material=titanium");
    offers_among("sheet hedgerow --try bumper=off --try skid=", "skid=off");
    offers("take hedgerow bump", "bumper=");
    offers("sheet nobody --try bump", "");
}

static void keys_are_offered_once(void **state)
{
    (void)state;
    offers("calc pro", "prop");
    offers("calc prop di", "diameter=");
    offers("calc prop diameter=5in di", "");
    offers("craft start plover al", "all_up=");
    offers("craft limit hedgerow fl", "flown=");
}

static void files_and_folders_are_offered(void **state)
{
    (void)state;
    write_text("one.yaml", "");
    write_text("one of two.yaml", "");
    write_text(".one", "");
    offers("import one.", "one.yaml");
    offers("import 'one '", "one of two.yaml");
    offers("import .o", ".one");
    offers("import dat", "data/");
    offers("import data/p", "data/pare/");
    offers("import '~/one.'", "~/one.yaml");
    offers("export -o data/pare/demo", "data/pare/demo.sqlite");
    offers("export --output=one.", "--output=one.yaml");
    offers("calc mesh file=one.", "file=one.yaml");
    offers("sheet x --bench data/pare/demo", "data/pare/demo.sqlite");
    offers("import nowhere/", "");
}

static void nothing_is_offered_and_nothing_said_where_nothing_is_known(void **state)
{
    (void)state;
    write_text("letter.txt", "Dear club,\n");
    offers("", "");
    offers("nosuch ''", "");
    offers("sheet --nosuch ''", "bodkin drover hedgerow thimble");
    offers("sheet --bench nowhere.sqlite ''", "");
    offers("sheet --bench letter.txt ''", "");
    offers("sheet --bench data ''", "");
    offers("sheet --bench= ''", "");
    offers("sheet hedgerow --bench nowhere.sqlite --try ''", "");
    offers("\"$(printf '%0100000d' 0)\" ''", "");
    offers("sheet \"$(printf '%0100000d' 0)\"", "");
    offers("compare \"$(printf '%01000d:' 0)\"", "");
    char *answer = answer_of("XDG_DATA_HOME= HOME= pare complete -- sheet ''");
    assert_string_equal(answer, "");
    free(answer);
}

/* ---- shells ---- */

static bool is_missing(const char *shell)
{
    char script[LINE];
    snprintf(script, sizeof script, "command -v %s >where.txt", shell);
    if (system(script) == 0)
        return false;
    print_message("%s is not installed: its completion is NOT tested here\n", shell);
    return true;
}

static void in_shell(const char *shell, const char *script, const char *line, const char *wanted)
{
    char all[SCRIPT - LINE];
    write_text("script", script);
    write_text("typed", line);
    snprintf(all, sizeof all, "export COMPLETIONS=%s/completions\n%s", PARE_SOURCE_DIR, shell);
    char *answer = answer_of(all);
    if (strcmp(answer, wanted) != 0)
        fail_msg("%s: %s\nwanted: %s\n   got: %s", shell, line, wanted, answer);
    free(answer);
}

/* As bash calls it, but for COMP_WORDS, which the function does not use: words are not what bash's
 * breaks at '=' and ':' make of them. */
static void in_bash(const char *line, const char *wanted)
{
    in_shell("bash --norc script",
             "source $COMPLETIONS/pare.bash\n"
             "COMP_LINE=$(cat typed; echo .) COMP_LINE=${COMP_LINE%.} COMP_POINT=${#COMP_LINE}\n"
             "_pare pare\n"
             "printf '%s\\n' \"${COMPREPLY[@]}\"\n",
             line, wanted);
}

static void bash_completes(void **state)
{
    (void)state;
    if (is_missing("bash"))
        skip();
    in_bash("pare swa", "swaps");
    in_bash("pare sheet ", "bodkin drover hedgerow thimble");
    /* Only what stands behind the last '=' or ':' is replaced. */
    in_bash("pare sheet hedgerow --try motor=mo-2207-1", "mo-2207-1750 mo-2207-1950");
    in_bash("pare sheet hedgerow --loadout=r", "race");
    in_bash("pare compare hedgerow:", "film race light");
    in_bash("pare import one\\ ", "one\\ of\\ two.yaml");
    in_bash("pare import ~/one\\ ", "~/one\\ of\\ two.yaml");
    in_bash("pare nosuch ", "");
    in_bash("pare", "");
}

/* compadd stands in for the line editor's: it prints what the completion gives it. */
static void in_zsh(const char *line, const char *wanted)
{
    in_shell("zsh -f script",
             "compdef() { : }\n"
             "compadd() {\n"
             "    while [[ $1 != -- ]]; do shift; done\n"
             "    shift\n"
             "    (( $# )) && print -rl -- \"$@\"\n"
             "    return 0\n"
             "}\n"
             "source $COMPLETIONS/_pare\n"
             "words=(\"${(@s: :)$(<typed)}\")\n"
             "CURRENT=$#words PREFIX=$words[-1]\n"
             "_pare\n",
             line, wanted);
}

static void zsh_completes(void **state)
{
    (void)state;
    if (is_missing("zsh"))
        skip();
    in_zsh("pare swa", "swaps");
    in_zsh("pare sheet ", "bodkin drover hedgerow thimble");
    in_zsh("pare sheet hedgerow --try motor=mo-2207-1", "motor=mo-2207-1750 motor=mo-2207-1950");
    in_zsh("pare sheet hedgerow --try bump", "bumper=");
    in_zsh("pare compare hedgerow:", "hedgerow:film hedgerow:race hedgerow:light");
    in_zsh("pare import one", "one\\ of\\ two.yaml one.yaml");
    in_zsh("pare import ~/one.", "~/one.yaml");
    in_zsh("pare nosuch ", "");
}

static void in_fish(const char *line, const char *wanted)
{
    in_shell("fish --no-config script",
             "source $COMPLETIONS/pare.fish\n"
             "complete -C (cat typed | string collect --no-trim-newlines)\n",
             line, wanted);
}

static void fish_completes(void **state)
{
    (void)state;
    if (is_missing("fish"))
        skip();
    in_fish("pare swa", "swaps");
    in_fish("pare sheet ", "bodkin drover hedgerow thimble");
    in_fish("pare sheet hedgerow --try motor=mo-2207-1", "motor=mo-2207-1750 motor=mo-2207-1950");
    in_fish("pare sheet hedgerow --try bump", "bumper=");
    in_fish("pare import one\\ ", "one of two.yaml");
    in_fish("pare nosuch ", "");
}

static int enter_with_an_own_bench(void **state)
{
    return enter_home_with_demo(state) == 0
               ? system("cp data/pare/demo.sqlite data/pare/bench.sqlite")
               : -1;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_command_of_the_table_is_offered),
        cmocka_unit_test(every_option_of_a_command_is_offered),
        cmocka_unit_test(every_subcommand_is_offered),
        cmocka_unit_test(names_on_the_bench_are_offered),
        cmocka_unit_test(swaps_are_offered_in_two_steps),
        cmocka_unit_test(keys_are_offered_once),
        cmocka_unit_test(files_and_folders_are_offered),
        cmocka_unit_test(nothing_is_offered_and_nothing_said_where_nothing_is_known),
        cmocka_unit_test(bash_completes),
        cmocka_unit_test(zsh_completes),
        cmocka_unit_test(fish_completes),
    };
    return cmocka_run_group_tests(tests, enter_with_an_own_bench, leave_home);
}
