/* main.c: the table of commands, help, and the way out.
 *
 * A command fills a text; it is written only when the command has succeeded (or answered no), so a
 * failed one leaves stdout empty and one line on stderr. The status is the exit code. */
#include <errno.h>
#include <locale.h>
#include <stdio.h>
#include <string.h>

#include "cli/command.h"

static const command *const commands[] = {
    &command_demo,   &command_sheet, &command_swaps, &command_compare,
    &command_parts,  &command_craft, &command_calc,  &command_import,
    &command_export, &command_undo,  &command_redo,  &command_history,
};
enum { COMMANDS = sizeof commands / sizeof commands[0] };

static void help(pare_text *out)
{
    pare_text_add(out,
                  "pare finds the grams that do no work in a small electric multirotor, and says\n"
                  "what each one costs or buys.\n\n");
    for (size_t i = 0; i < COMMANDS; i++)
        pare_text_printf(out, "  pare %-8s %s\n", commands[i]->name, commands[i]->line);
    pare_text_add(
        out, "\nStart with `pare demo`. `pare help COMMAND` says more, with an example.\n"
             "Every command takes --json; all but calc take --bench FILE for another bench.\n");
}

static const command *find(const char *name, pare_error *err)
{
    const char *names[COMMANDS + 1];
    for (size_t i = 0; i < COMMANDS; i++) {
        if (strcmp(commands[i]->name, name) == 0)
            return commands[i];
        names[i] = commands[i]->name;
    }
    names[COMMANDS] = "help";
    const char *near = pare_nearest(name, COMMANDS + 1, names);
    if (near)
        pare_fail(err, PARE_UNKNOWN, "no command '%s'; did you mean %s?", name, near);
    else
        pare_fail(err, PARE_UNKNOWN, "no command '%s'; pare help lists them", name);
    return NULL;
}

static void help_on(const command *about, pare_text *out)
{
    pare_text_printf(out, "%s\n\n%s\n%sexample:\n%s", about->usage, about->line, about->details,
                     about->example);
}

static pare_status run(int argc, char *const argv[], pare_text *out, pare_error *err)
{
    if (argc < 2 || strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0) {
        help(out);
        return PARE_OK;
    }
    if (strcmp(argv[1], "--version") == 0) {
        pare_text_add(out, "pare " PARE_VERSION "\n");
        return PARE_OK;
    }
    const bool asks = strcmp(argv[1], "help") == 0;
    if (asks && argc == 2) {
        help(out);
        return PARE_OK;
    }
    const command *wanted = find(argv[asks ? 2 : 1], err);
    if (!wanted)
        return err->status;
    options given = {0};
    if (!asks) {
        const pare_status status =
            options_read(wanted->name, argc, argv, 2, wanted->options, &given, err);
        if (status != PARE_OK)
            return status;
    }
    if (asks || given.given & OPTION_HELP) {
        help_on(wanted, out);
        return PARE_OK;
    }
    return wanted->run(&given, out, err);
}

int main(int argc, char *argv[])
{
    setlocale(LC_CTYPE, "");
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
    return (int)status;
}
