/* common.c: what all commands have in common (see common.h). The exit statuses are those of
 * base/error.h. */
#include "cli/common.h"

static const common_row statuses[] = {
    {"0", "answered"},
    {"1", "the answer is no: a limit is broken (sheet --check)"},
    {"2", "no such command, option, key, craft, part or swap"},
    {"3", "a value, argument or file that cannot be read or is out of range, or no bench"},
    {"4", "locked, read-only, full, gone, or out of memory"},
    {"130", "stopped by Ctrl-C (143: told to end); what was being changed is as it was"},
};

static const common_row environment[] = {
    {"XDG_DATA_HOME", "the folder in which the benches are, where --bench names none"},
    {"HOME", "without XDG_DATA_HOME the benches are in its .local/share"},
    {"COLUMNS", "how wide answers are laid out; otherwise as the terminal says, or 80"},
    {"LC_ALL", "like LC_CTYPE and LANG: without UTF-8 in it, only ASCII is printed"},
    {"NO_COLOR", "anything in it: no bold type and no colour on a terminal"},
    {"TERM", "where it is dumb, no bold type and no colour either"},
};

static const common_row files[] = {
    {"$XDG_DATA_HOME/pare/bench.sqlite", "your own bench"},
    {"$XDG_DATA_HOME/pare/demo.sqlite", "the demo's, which pare demo fills anew"},
    {"postgresql://USER@HOST/DATABASE", "no file: a bench that several share, behind --bench"},
    {"$XDG_DATA_HOME/pare/listen.pem", "what serve --listen shows browsers, with its key"},
};

const common_row *common_statuses(size_t *count)
{
    *count = sizeof statuses / sizeof statuses[0];
    return statuses;
}

const common_row *common_environment(size_t *count)
{
    *count = sizeof environment / sizeof environment[0];
    return environment;
}

const common_row *common_files(size_t *count)
{
    *count = sizeof files / sizeof files[0];
    return files;
}
