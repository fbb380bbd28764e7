/* options.c: reading the command line (see options.h). */
#include "cli/options.h"

#include <string.h>

#include "base/text.h"

static const option_row known[] = {
    {"try", OPTION_TRY, 0, "SWAP,SWAP", "the craft with swaps of pare swaps"},
    {"loadout", OPTION_LOADOUT, 0, "LOADOUT", "another way of flying it than its first"},
    {"wish", OPTION_WISH, 0, "WISH", "grams (usual), minutes, thrust, quickness, money or crash"},
    {"hold", OPTION_HOLD, 0, "CHOICE", "stays as it is: an item, joint.NAME, run.NAME.gauge"},
    {"never", OPTION_NEVER, 0, "PART", "a part that must not be on it"},
    {"must", OPTION_MUST, 0, "PART", "a part that must be on it"},
    {"time", OPTION_TIME, 0, "SECONDS", "stop after so long: the best so far, and how far off"},
    {"binds", OPTION_BINDS, 0, NULL, "what each limit costs: the best set again, that one looser"},
    {"proof", OPTION_PROOF, 0, "FILE", "a certificate that nothing is lighter: pare check-proof"},
    {"best", OPTION_BEST, 0, NULL, "the best set of swaps as well, and what to buy for it"},
    {"paper", OPTION_PAPER, 0, "PAPER", "a4 (usual) or letter"},
    {"front", OPTION_FRONT, 0, "WISHES",
     "all sets that nothing beats in two of grams, money and minutes"},
    {"walk", OPTION_WALK, 0, NULL, "the order in which to buy the set; each step can be flown"},
    {"budget", OPTION_BUDGET, 0, "MONEY", "with --walk: what there is to spend now"},
    {"hours", OPTION_HOURS, 0, "HOURS",
     "no more work than that, all openings of the craft with it"},
    {"ways", OPTION_WAYS, 0, "NUMBER",
     "so many sets that differ in a part, and how far each stands"},
    {"sure", OPTION_SURE, 0, "SHARE", "limits hold with that chance, like 0.95, and what it costs"},
    {"knock-on", OPTION_KNOCK_ON, 0, "GRAMS",
     "what may shrink when so much is saved: motors, pack, ESC, lead"},
    {"sold", OPTION_SOLD, 0, "SHARE", "what comes back for what comes off: 0.5, 50% or PART=MONEY"},
    {"kind", OPTION_KIND, 0, "KIND", "parts of one kind: motor, esc_four, propeller, ..."},
    {"sort", OPTION_SORT, 0, "KEY", "by mass, price, owned or a spec; KEY:down: largest first"},
    {"for", OPTION_FOR, 0, "CRAFT.ITEM", "what can replace that item, and the grams saved"},
    {"lighter", OPTION_LIGHTER, 0, NULL, "with --for: only what saves grams"},
    {"surprise", OPTION_SURPRISE, 0, NULL, "heavier than the law of its kind says"},
    {"all", OPTION_ALL, 0, NULL, "all there is, not the first screen alone"},
    {"ruler", OPTION_RULER, 0, NULL, "the gram ruler: each slice, and what a gram is worth there"},
    {"outline", OPTION_OUTLINE, 0, NULL, "the craft from above and from the side, in millimetres"},
    {"curve", OPTION_CURVE, 0, "OF", "minutes, current, sag, wire or roll, the craft's own marked"},
    {"check", OPTION_CHECK, 0, NULL, "exit status 1 where a limit of the brief is broken"},
    {"map", OPTION_MAP, 0, "COLUMN=WHAT", "what a column of a list says: 'Wt.=mass (g)', 5=-"},
    {"set", OPTION_SET, 0, "WHAT=TEXT", "the same in every row of a list: maker=Teasel"},
    {"as", OPTION_AS, 0, "LIST", "what a list is: parts, weigh_ins, flights, stand, log"},
    {"separator", OPTION_SEPARATOR, 0, "SIGN", "what parts columns: comma, semicolon, tab or bar"},
    {"decimal", OPTION_DECIMAL, 0, "SIGN",
     "what numbers in a list are written with: point or comma"},
    {"notes", OPTION_NOTES, 0, NULL, "what no column has a place for becomes a part's note"},
    {"keep-good", OPTION_KEEP_GOOD, 0, NULL, "rows that cannot be read are left out, not the list"},
    {"journal", OPTION_JOURNAL, 0, "FILE", "where answers are kept, if not beside the study"},
    {"dry-run", OPTION_DRY_RUN, 0, NULL, "say what would change; change nothing"},
    {"output", OPTION_OUTPUT, 'o', "FILE", "into a file, not to standard output"},
    {"chosen", OPTION_CHOSEN, 0, "DATE", "the day on which it was chosen"},
    {"ordered", OPTION_ORDERED, 0, "DATE", "the day on which it was ordered"},
    {"fitted", OPTION_FITTED, 0, "DATE", "the day on which it was fitted: from then on the craft"},
    {"weighed", OPTION_WEIGHED, 0, "DATE", "the day on which the craft was weighed with it"},
    {"flown", OPTION_FLOWN, 0, "DATE", "the day on which it was first flown"},
    {"scale", OPTION_SCALE, 0, "SCALE", "the scale, as pare scale names it"},
    {"date", OPTION_DATE, 0, "DATE", "the day, where it is not today"},
    {"from", OPTION_FROM, 0, "FILE", "readings from a list, .csv, with names over its columns"},
    {"live", OPTION_LIVE, 0, "DEVICE", "readings from a scale that is connected"},
    {"pattern", OPTION_PATTERN, 0, "PATTERN", "what a line of a serial scale looks like"},
    {"leave", OPTION_LEAVE, 0, NULL, "off the list again, while it is not on the craft yet"},
    {"hover", OPTION_HOVER, 0, "OUTPUT",
     "the throttle at which it hovered, 31%: kept, and foretold"},
    {"keep", OPTION_KEEP, 0, NULL, "the sheet goes by what was learned, until it is forgotten"},
    {"forget", OPTION_FORGET, 0, NULL, "the sheet goes by what was thought before, again"},
    {"why", OPTION_WHY, 0, "TEXT", "the reason, kept in the history"},
    {"records", OPTION_RECORDS, 0, NULL, "its weigh-ins and flights as well"},
    {"port", OPTION_PORT, 0, "NUMBER", "of the address, where it is not 7273; 0: one that is free"},
    {"listen", OPTION_LISTEN, 0, "ADDRESS",
     "open to other machines at this address; 0.0.0.0: at all"},
    {"password-file", OPTION_PASSWORD, 0, "FILE",
     "its first line is the password of other machines"},
    {"certificate", OPTION_CERTIFICATE, 0, "FILE", "one of your own with its key, as PEM"},
    {"no-open", OPTION_NO_OPEN, 0, NULL, "only say the link; open no browser"},
    {"json", OPTION_JSON, 0, NULL, "the answer as JSON"},
    {"bench", OPTION_BENCH, 0, "FILE", "another bench: a file or postgresql://USER@HOST/DATABASE"},
    {"help", OPTION_HELP, 'h', NULL, "this help"},
};
enum { KNOWN = sizeof known / sizeof known[0] };

const option_row *option_rows(size_t *count)
{
    *count = KNOWN;
    return known;
}

static pare_status unknown(const char *command, const char *word, option_bits allowed,
                           pare_error *err)
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

static pare_status put_choice(const char *name, size_t *count, const char *list[],
                              const char *value, pare_error *err)
{
    if (*count == CHOICES)
        return pare_fail(err, PARE_BAD_DATA, "--%s stands more than %d times", name, CHOICES);
    list[(*count)++] = value;
    return PARE_OK;
}

static pare_status keep(options *out, option_bits bit, const char *value, pare_error *err)
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
    case OPTION_SORT:
        out->sort = value;
        break;
    case OPTION_FOR:
        out->place = value;
        break;
    case OPTION_WHY:
        out->why = value;
        break;
    case OPTION_SCALE:
        out->scale = value;
        break;
    case OPTION_DATE:
        out->date = value;
        break;
    case OPTION_FROM:
        out->from = value;
        break;
    case OPTION_LIVE:
        out->live = value;
        break;
    case OPTION_PATTERN:
        out->pattern = value;
        break;
    case OPTION_AS:
        out->as = value;
        break;
    case OPTION_SEPARATOR:
        out->separator = value;
        break;
    case OPTION_DECIMAL:
        out->decimal = value;
        break;
    case OPTION_TIME:
        out->time = value;
        break;
    case OPTION_FRONT:
        out->front = value;
        break;
    case OPTION_JOURNAL:
        out->journal = value;
        break;
    case OPTION_PROOF:
        out->proof = value;
        break;
    case OPTION_BUDGET:
        out->budget = value;
        break;
    case OPTION_HOURS:
        out->hours = value;
        break;
    case OPTION_WAYS:
        out->ways = value;
        break;
    case OPTION_KNOCK_ON:
        out->knock_on = value;
        break;
    case OPTION_SURE:
        out->sure = value;
        break;
    case OPTION_PAPER:
        out->paper = value;
        break;
    case OPTION_HOVER:
        out->hover = value;
        break;
    case OPTION_CURVE:
        out->curve = value;
        break;
    case OPTION_PORT:
        out->port = value;
        break;
    case OPTION_LISTEN:
        out->listen = value;
        break;
    case OPTION_PASSWORD:
        out->password_file = value;
        break;
    case OPTION_CERTIFICATE:
        out->certificate = value;
        break;
    case OPTION_HOLD:
        return put_choice("hold", &out->holds, out->hold, value, err);
    case OPTION_NEVER:
        return put_choice("never", &out->nevers, out->never, value, err);
    case OPTION_MUST:
        return put_choice("must", &out->musts, out->must, value, err);
    case OPTION_SOLD:
        return put_choice("sold", &out->solds, out->sold, value, err);
    case OPTION_MAP:
        if (out->maps == MAPS)
            return pare_fail(err, PARE_BAD_DATA, "--map stands more than %d times", MAPS);
        out->map[out->maps++] = value;
        break;
    case OPTION_SET:
        if (out->sets == MAPS)
            return pare_fail(err, PARE_BAD_DATA, "--set stands more than %d times", MAPS);
        out->set[out->sets++] = value;
        break;
    case OPTION_TRY:
        if (out->tries == TRIES)
            return pare_fail(err, PARE_BAD_DATA, "--try stands more than %d times", TRIES);
        out->try_list[out->tries++] = value;
        break;
    default:
        for (int s = 0; s < PARE_STAGES; s++)
            if (bit == OPTION_CHOSEN << s)
                out->stage[s] = value;
        break;
    }
    return PARE_OK;
}

/* The option that a word names, and where its value starts when it is joined by '='. */
static int option_of(const char *word, option_bits allowed, const char **joined)
{
    const bool is_long = word[1] == '-';
    const char *name = word + 1 + is_long;
    const size_t length = is_long ? strcspn(name, "=") : strlen(name);
    *joined = NULL;
    for (size_t i = 0; i < KNOWN; i++) {
        const bool named =
            is_long ? strlen(known[i].name) == length && strncmp(known[i].name, name, length) == 0
                    : length == 1 && known[i].letter == name[0];
        if (known[i].bit & allowed && named) {
            *joined = name[length] == '=' ? name + length + 1 : NULL;
            return (int)i;
        }
    }
    return -1;
}

pare_status options_read(const char *command, int argc, char *const argv[], int from,
                         option_bits allowed, options *out, pare_error *err)
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
        if (known[option].value && !value) {
            if (i + 1 == argc)
                return pare_fail(err, PARE_BAD_DATA, "--%s needs a value", known[option].name);
            value = argv[++i];
        } else if (!known[option].value && value) {
            return pare_fail(err, PARE_BAD_DATA, "--%s takes no value, not '%s'",
                             known[option].name, value);
        }
        const pare_status status = keep(out, known[option].bit, value, err);
        if (status != PARE_OK)
            return status;
    }
    return PARE_OK;
}
