/* main.c: from the command line to a command, and the way out.
 *
 * A command fills a text; it is written only when the command has succeeded (or answered no), so a
 * failed one leaves stdout empty and one line on stderr. The status is the exit code. */
#include <errno.h>
#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

#include "cli/command.h"
#include "cli/complete.h"
#include "cli/help.h"
#include "cli/long_work.h"
#include "cli/usage.h"
#include "cli/use.h"

/* The work itself: shown where it takes long. */
static pare_status work_on(const command *wanted, options *given, pare_text *out, pare_error *err)
{
    long_work work;
    long_work_begin(&work, given->given & OPTION_JSON);
    const pare_progress progress = long_work_progress(&work);
    bool changes = false;
    given->progress = &progress;
    given->changes = &changes;
    const pare_status status = wanted->run(given, out, err);
    given->progress = NULL; /* they end here */
    given->changes = NULL;
    long_work_end(&work);
    if (status != PARE_OK || !out->failed)
        return status;
    changes = changes && !(given->given & OPTION_DRY_RUN);
    return changes ? after_change(pare_no_memory(err), err) : pare_no_memory(err);
}

/* Options stand behind a command; these alone stand for one. */
static pare_status no_such_option(const char *word, pare_error *err)
{
    static const char *const known[] = {"--help", "--version"};
    const char *near = pare_nearest(word, sizeof known / sizeof known[0], known);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "no option '%s'; did you mean %s?", word, near);
    return pare_fail(err, PARE_UNKNOWN,
                     "no option '%s' before a command; pare help lists the commands", word);
}

static bool asks_help(const char *word)
{
    return strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0;
}

/* `pare help [COMMAND [SUBCOMMAND]]`: the help on a command is on all its subcommands. */
static pare_status help(int argc, char *const argv[], pare_text *out, pare_error *err)
{
    if (argc == 2 || asks_help(argv[2]) || strcmp(argv[2], "help") == 0) {
        help_list(out);
        return PARE_OK;
    }
    const command *wanted = command_named(argv[2], err);
    if (!wanted)
        return err->status;
    char near[USAGE_WORD] = "";
    if (argc > 3 && !usage_nearest(wanted->usage, argv[3], near))
        return pare_fail(err, PARE_UNKNOWN, "help %s: no '%s' there; pare help %s says all",
                         argv[2], argv[3], argv[2]);
    if (argc > 3 && strcmp(near, argv[3]) != 0)
        return pare_fail(err, PARE_UNKNOWN, "help %s: no '%s' there; did you mean %s?", argv[2],
                         argv[3], near);
    help_on(wanted, out);
    return PARE_OK;
}

static pare_status run(int argc, char *const argv[], pare_text *out, pare_error *err)
{
    if (argc < 2 || asks_help(argv[1])) {
        help_list(out);
        return PARE_OK;
    }
    if (strcmp(argv[1], "--version") == 0) {
        pare_text_add(out, "pare " PARE_VERSION "\n");
        return PARE_OK;
    }
    if (argc > 2 && strcmp(argv[1], "complete") == 0 && strcmp(argv[2], "--") == 0) {
        complete_words((size_t)argc - 3, (const char *const *)argv + 3, out);
        return PARE_OK;
    }
    if (strcmp(argv[1], "help") == 0)
        return help(argc, argv, out, err);
    if (argv[1][0] == '-')
        return no_such_option(argv[1], err);
    const command *wanted = command_named(argv[1], err);
    if (!wanted)
        return err->status;
    options given = {0};
    const pare_status status =
        options_read(wanted->name, argc, argv, 2, wanted->options, &given, err);
    if (status != PARE_OK)
        return status;
    if (given.given & OPTION_HELP) {
        help_on(wanted, out);
        return PARE_OK;
    }
    return work_on(wanted, &given, out, err);
}

int main(int argc, char *argv[])
{
    setlocale(LC_CTYPE, "");
    signal(SIGPIPE, SIG_DFL); /* `pare parts | head -1` ends quietly, whoever started us */
    pare_text out = {0};
    pare_error err = {0};
    pare_status status = run(argc, argv, &out, &err);
    if (out.failed && (status == PARE_OK || status == PARE_NO))
        status = pare_no_memory(&err);
    if ((status == PARE_OK || status == PARE_NO) && out.length > 0) {
        if (fwrite(out.bytes, 1, out.length, stdout) != out.length || fflush(stdout) != 0)
            status = pare_fail(&err, PARE_UNAVAILABLE, "standard output: %s", strerror(errno));
    }
    if (status != PARE_OK && err.text[0])
        fprintf(stderr, "pare: %s\n", err.text);
    pare_text_free(&out);
    if (status == PARE_STOPPED)
        long_work_die();
    return (int)status;
}
