/* commands.c: the one table of commands: what runs, what the help, the man pages and the completion
 * say, and what the tests go through. */
#include "cli/command.h"

#include <string.h>

static const command *const table[] = {
    &command_demo,    &command_sheet,   &command_swaps, &command_best,   &command_check_proof,
    &command_take,    &command_weigh,   &command_scale, &command_learn,  &command_compare,
    &command_parts,   &command_craft,   &command_calc,  &command_import, &command_export,
    &command_report,  &command_study,   &command_serve, &command_undo,   &command_redo,
    &command_history, &command_members,
};
enum { COMMANDS = sizeof table / sizeof table[0] };

const command *const *commands(size_t *count)
{
    *count = COMMANDS;
    return table;
}

const command *command_named(const char *name, pare_error *err)
{
    const char *names[COMMANDS + 1];
    for (size_t i = 0; i < COMMANDS; i++) {
        if (strcmp(table[i]->name, name) == 0)
            return table[i];
        names[i] = table[i]->name;
    }
    names[COMMANDS] = "help";
    const char *near = pare_nearest(name, COMMANDS + 1, names);
    if (near)
        pare_fail(err, PARE_UNKNOWN, "no command '%s'; did you mean %s?", name, near);
    else
        pare_fail(err, PARE_UNKNOWN, "no command '%s'; pare help lists them", name);
    return NULL;
}

const char *command_option_meaning(const command *of, const option_row *option)
{
    for (size_t i = 0; i < COMMAND_MEANINGS && of->meaning[i].text; i++)
        if (of->meaning[i].option == option->bit)
            return of->meaning[i].text;
    return option->meaning;
}
