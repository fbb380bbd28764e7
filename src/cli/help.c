/* help.c: what `pare help` says (see help.h).
 *
 * Always for 80 columns, whatever the terminal: the texts of the table are laid out for that. */
#include "cli/help.h"

#include <string.h>

#include "cli/common.h"
#include "show/screen.h"

static const pare_screen screen = {.width = 80};
enum { INDENT = 2 };

static int widest_name(void)
{
    size_t count;
    int widest = 0;
    const command *const *table = commands(&count);
    for (size_t i = 0; i < count; i++)
        if (pare_columns(table[i]->name) > widest)
            widest = pare_columns(table[i]->name);
    return widest;
}

void help_list(pare_text *out)
{
    size_t count;
    const command *const *table = commands(&count);
    const int widest = widest_name();
    pare_put_wrapped(&screen, out, 0, 0, COMMON_PURPOSE);
    pare_text_add(out, "\n");
    for (size_t i = 0; i < count; i++)
        pare_text_printf(out, "  pare %-*s  %s\n", widest, table[i]->name, table[i]->line);
    pare_text_add(out,
                  "\nStart with `pare demo`. `pare help COMMAND` says more, with an example.\n\n");
    pare_put_wrapped(&screen, out, 0, 0, COMMON_QUANTITIES);
    pare_text_add(out, "\nexit status:\n");
    const common_row *status = common_statuses(&count);
    for (size_t i = 0; i < count; i++) {
        pare_text_printf(out, "  %-3s  ", status[i].term);
        pare_put_wrapped(&screen, out, 7, 7, status[i].meaning);
    }
}

/* "-o, --output FILE" */
static void put_option(const option_row *option, pare_text *out)
{
    if (option->letter)
        pare_text_printf(out, "-%c, ", option->letter);
    pare_text_printf(out, "--%s%s%s", option->name, option->value ? " " : "",
                     option->value ? option->value : "");
}

static void put_options(const command *about, pare_text *out)
{
    enum { GAP = 2, COLUMN = 21 };
    size_t count;
    const option_row *row = option_rows(&count);
    pare_text_add(out, "\noptions:\n");
    for (size_t i = 0; i < count; i++) {
        if (!(row[i].bit & (about->options | OPTION_HELP)))
            continue;
        pare_text typed = {0};
        put_option(&row[i], &typed);
        pare_put_spaces(out, INDENT);
        pare_put_left(out, pare_text_all(&typed), COLUMN - INDENT - GAP);
        if (typed.length > COLUMN - INDENT - GAP) { /* a long one has its line alone */
            pare_text_add(out, "\n");
            pare_put_spaces(out, COLUMN - GAP);
        }
        pare_put_spaces(out, GAP);
        pare_put_wrapped(&screen, out, COLUMN, COLUMN, command_option_meaning(about, &row[i]));
        out->failed |= typed.failed;
        pare_text_free(&typed);
    }
}

void help_on(const command *about, pare_text *out)
{
    pare_text_printf(out, "%s\n\n%s\n\n%s", about->usage, about->line, about->details);
    put_options(about, out);
    if (about->caution) {
        pare_text_add(out, "\ncaution:\n");
        pare_put_spaces(out, INDENT);
        pare_put_wrapped(&screen, out, INDENT, INDENT, about->caution);
    }
    const char *first_end = strchr(about->example, '\n');
    pare_text_printf(out, "\nexample%s:\n%s", first_end && first_end[1] ? "s" : "", about->example);
}
