/* options.c: reading the command line (see options.h). */
#include "cli/options.h"

#include <string.h>

#include "base/text.h"

static const struct {
    const char *name;
    unsigned bit;
    bool takes_value;
} known[] = {
    {"bench", OPTION_BENCH, true},  {"json", OPTION_JSON, false},      {"all", OPTION_ALL, false},
    {"check", OPTION_CHECK, false}, {"loadout", OPTION_LOADOUT, true}, {"try", OPTION_TRY, true},
    {"wish", OPTION_WISH, true},    {"output", OPTION_OUTPUT, true},   {"kind", OPTION_KIND, true},
    {"help", OPTION_HELP, false},   {"why", OPTION_WHY, true}};
enum { KNOWN = sizeof known / sizeof known[0] };

static pare_status unknown(const char *command, const char *word, unsigned allowed, pare_error *err)
{
    const char *names[KNOWN];
    for (size_t i = 0; i < KNOWN; i++)
        names[i] = known[i].bit & allowed ? known[i].name : NULL;
    const char *near = pare_nearest(word + strspn(word, "-"), KNOWN, names);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "%s has no option '%s'; did you mean --%s?", command,
                         word, near);
    return pare_fail(err, PARE_UNKNOWN, "%s has no option '%s'; pare help %s lists them", command,
                     word, command);
}

static pare_status keep(options *out, unsigned bit, const char *value, pare_error *err)
{
    out->given |= bit;
    switch (bit) {
    case OPTION_BENCH:
        out->bench = value;
        break;
    case OPTION_LOADOUT:
        out->loadout = value;
        break;
    case OPTION_WISH:
        out->wish = value;
        break;
    case OPTION_OUTPUT:
        out->output = value;
        break;
    case OPTION_KIND:
        out->kind = value;
        break;
    case OPTION_WHY:
        out->why = value;
        break;
    case OPTION_TRY:
        if (out->tries == TRIES)
            return pare_fail(err, PARE_BAD_DATA, "--try stands more than %d times", TRIES);
        out->try_list[out->tries++] = value;
        break;
    default:
        break;
    }
    return PARE_OK;
}

/* The option that a word names, and where its value starts when it is joined by '='. */
static int option_of(const char *word, unsigned allowed, const char **joined)
{
    *joined = NULL;
    if (strcmp(word, "-o") == 0)
        word = "--output";
    else if (strcmp(word, "-h") == 0)
        word = "--help";
    if (strncmp(word, "--", 2) != 0)
        return -1;
    const char *equals = strchr(word, '=');
    const size_t length = equals ? (size_t)(equals - word) - 2 : strlen(word) - 2;
    for (size_t i = 0; i < KNOWN; i++)
        if (known[i].bit & allowed && strlen(known[i].name) == length &&
            strncmp(known[i].name, word + 2, length) == 0) {
            *joined = equals ? equals + 1 : NULL;
            return (int)i;
        }
    return -1;
}

pare_status options_read(const char *command, int argc, char *const argv[], int from,
                         unsigned allowed, options *out, pare_error *err)
{
    *out = (options){0};
    allowed |= OPTION_HELP;
    bool only_operands = false;
    for (int i = from; i < argc; i++) {
        const char *word = argv[i];
        if (!only_operands && strcmp(word, "--") == 0) {
            only_operands = true;
            continue;
        }
        if (only_operands || word[0] != '-' || word[1] == '\0') {
            if (out->operands == OPERANDS)
                return pare_fail(err, PARE_BAD_DATA, "%s takes %d words at most", command,
                                 OPERANDS);
            out->operand[out->operands++] = word;
            continue;
        }
        const char *value;
        const int option = option_of(word, allowed, &value);
        if (option < 0)
            return unknown(command, word, allowed, err);
        if (known[option].takes_value && !value) {
            if (i + 1 == argc)
                return pare_fail(err, PARE_BAD_DATA, "--%s needs a value", known[option].name);
            value = argv[++i];
        } else if (!known[option].takes_value && value) {
            return pare_fail(err, PARE_BAD_DATA, "--%s takes no value, not '%s'",
                             known[option].name, value);
        }
        const pare_status status = keep(out, known[option].bit, value, err);
        if (status != PARE_OK)
            return status;
    }
    return PARE_OK;
}
