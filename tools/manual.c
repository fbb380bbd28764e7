/* manual.c: writes the man pages, from the same table that the help is printed from.
 *
 *     manual FOLDER DATE VERSION
 *
 * puts pare.1 and a page pare-COMMAND.1 for each command into a folder. The language is mdoc(7), which
 * says what a word is rather than how it looks. The details of a command are read as they are laid out
 * for the help: "  TERM  meaning" with further lines under it, and paragraphs. */
#include <ctype.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/common.h"
#include "cli/usage.h"

typedef struct page {
    FILE *file;
    const char *date, *version;
} page;

/* ---- text that roff leaves alone ---- */

static bool starts_word(const char *text, size_t i)
{
    return i == 0 || strchr(" ([|", text[i - 1]) != NULL;
}

/* All signs that roff would turn into typography; a hyphen only where a word starts with it or
 * where all is typed. */
static void put(const page *to, const char *text, size_t length, bool typed)
{
    if (length > 0 && (text[0] == '.' || text[0] == '\''))
        fputs("\\&", to->file);
    for (size_t i = 0; i < length; i++) {
        switch (text[i]) {
        case '\\':
            fputs("\\e", to->file);
            break;
        case '\'':
            fputs("\\(aq", to->file);
            break;
        case '`':
            fputs("\\(ga", to->file);
            break;
        case '~':
            fputs("\\(ti", to->file);
            break;
        case '^':
            fputs("\\(ha", to->file);
            break;
        case '"':
            fputs("\\(dq", to->file);
            break;
        case '-':
            fputs(typed || starts_word(text, i) || (i > 0 && text[i - 1] == '-') ? "\\-" : "-",
                  to->file);
            break;
        default:
            fputc(text[i], to->file);
        }
    }
}

static void put_line(const page *to, const char *text)
{
    put(to, text, strlen(text), false);
    fputc('\n', to->file);
}

/* A sentence: begins with a capital, ends with a stop. */
static void put_sentence(const page *to, const char *text)
{
    const size_t length = strlen(text);
    fputc(toupper((unsigned char)text[0]), to->file);
    put(to, text + 1, length - 1, false);
    fputs(length > 0 && text[length - 1] == '.' ? "\n" : ".\n", to->file);
}

/* Words, each sentence on a line of its own, as mdoc wants. */
static void put_paragraph(const page *to, const char *text)
{
    while (*text) {
        const char *stop = strstr(text, ". ");
        const size_t length = stop ? (size_t)(stop - text) + 1 : strlen(text);
        put(to, text, length, false);
        fputc('\n', to->file);
        text += length + (stop ? strspn(text + length, " ") : 0);
    }
}

/* Arguments of a macro: a word of capitals or one letter could name another macro. */
static void put_argument(const page *to, const char *text, size_t length)
{
    fputs("\\&", to->file);
    put(to, text, length, true);
}

/* ---- pieces of a page ---- */

static void put_head(const page *to, const char *name, const char *line)
{
    fprintf(to->file, ".\\\" Written by the build from the table of commands.\n.Dd %s\n.Dt ",
            to->date);
    for (const char *c = name; *c; c++)
        fputc(toupper((unsigned char)*c), to->file);
    fprintf(to->file, " 1\n.Os Pare %s\n.Sh NAME\n.Nm %s\n.Nd ", to->version, name);
    put_line(to, line);
}

static void put_usage_word(const page *to, const usage_word *word)
{
    for (int i = 0; i < word->opens; i++)
        fputs(".Oo\n", to->file);
    if (word->option) {
        fputs(".Fl ", to->file);
        put(to, word->text + 1, word->length - 1, true);
    } else {
        fputs(word->literal ? ".Cm " : ".Ar ", to->file);
        put_argument(to, word->text, word->length);
    }
    fputs(word->repeats ? " ...\n" : "\n", to->file);
    for (int i = 0; i < word->closes; i++)
        fputs(".Oc\n", to->file);
    if (word->alternative)
        fputs("|\n", to->file);
}

static void put_usage(const page *to, const char *usage)
{
    usage_word word;
    fputs(".Sh SYNOPSIS\n", to->file);
    for (const char *at = usage; usage_next(&at, &word);) {
        if (!usage_is(&word, "pare")) {
            put_usage_word(to, &word);
            continue;
        }
        fputs(".Nm pare", to->file);
        const char *behind = at;
        /* The command's name is part of the name that is typed. */
        if (usage_next(&behind, &word) && word.literal && !word.opens && !word.repeats) {
            fprintf(to->file, " %.*s", (int)word.length, word.text);
            at = behind;
        }
        fputc('\n', to->file);
    }
}

/* One line of the details: what it is, and its text. */
typedef enum laid_out { ITEM, FURTHER, WORDS } laid_out;

static laid_out line_kind(const char *line)
{
    const size_t spaces = strspn(line, " ");
    return spaces == 2 ? ITEM : spaces > 2 ? FURTHER : WORDS;
}

static void put_item(const page *to, const char *line)
{
    const char *term = line + strspn(line, " "), *gap = strstr(term, "  ");
    const size_t length = gap ? (size_t)(gap - term) : strlen(term);
    fputs(".It ", to->file);
    put_argument(to, term, length);
    fputc('\n', to->file);
    if (gap)
        put_paragraph(to, gap + strspn(gap, " "));
}

static void put_details(const page *to, char *details)
{
    bool in_list = false;
    pare_text words = {0};
    fputs(".Sh DESCRIPTION\n", to->file);
    char *rest = details;
    for (char *line = strtok_r(rest, "\n", &rest); line; line = strtok_r(rest, "\n", &rest)) {
        const laid_out kind = line_kind(line);
        if (kind == WORDS) {
            if (in_list)
                fputs(".El\n.Pp\n", to->file);
            in_list = false;
            pare_text_printf(&words, "%s%s", words.length ? " " : "", line);
            continue;
        }
        if (words.length)
            put_paragraph(to, words.bytes);
        words.length = 0;
        if (kind == FURTHER && in_list) {
            put_paragraph(to, line + strspn(line, " "));
            continue;
        }
        if (!in_list)
            fputs(".Bl -tag -width Ds\n", to->file);
        in_list = true;
        put_item(to, line);
    }
    if (in_list)
        fputs(".El\n", to->file);
    if (words.length)
        put_paragraph(to, words.bytes);
    pare_text_free(&words);
}

static void put_options(const page *to, const command *about)
{
    size_t count;
    const option_row *row = option_rows(&count);
    fputs(".Pp\nThe options are:\n.Bl -tag -width Ds\n", to->file);
    for (size_t i = 0; i < count; i++) {
        if (!(row[i].bit & (about->options | OPTION_HELP)))
            continue;
        fputs(".It ", to->file);
        if (row[i].letter)
            fprintf(to->file, "Fl %c , ", row[i].letter);
        fputs("Fl ", to->file);
        put(to, "-", 1, true);
        put(to, row[i].name, strlen(row[i].name), true);
        if (row[i].value) {
            fputs(" Ar ", to->file);
            put_argument(to, row[i].value, strlen(row[i].value));
        }
        fputc('\n', to->file);
        put_sentence(to, command_option_meaning(about, &row[i]));
    }
    fputs(".El\n", to->file);
}

static void put_rows(const page *to, const char *macro, size_t count, const common_row row[])
{
    fputs(".Bl -tag -width Ds\n", to->file);
    for (size_t i = 0; i < count; i++) {
        fprintf(to->file, ".It %s", macro);
        put_argument(to, row[i].term, strlen(row[i].term));
        fputc('\n', to->file);
        put_sentence(to, row[i].meaning);
    }
    fputs(".El\n", to->file);
}

static void put_common(const page *to)
{
    size_t count;
    const common_row *row = common_environment(&count);
    fputs(".Sh ENVIRONMENT\n", to->file);
    put_rows(to, "Ev ", count, row);
    row = common_files(&count);
    fputs(".Sh FILES\n", to->file);
    put_rows(to, "Pa ", count, row);
    row = common_statuses(&count);
    fputs(".Sh EXIT STATUS\n", to->file);
    put_rows(to, "", count, row);
}

static void put_examples(const page *to, const char *example)
{
    fputs(".Sh EXAMPLES\n.Bd -literal\n", to->file);
    while (*example) {
        const size_t length = strcspn(example, "\n"), spaces = strspn(example, " ");
        if (length > spaces)
            put(to, example + spaces, length - spaces, true);
        fputc('\n', to->file);
        example += length + (example[length] == '\n');
    }
    fputs(".Ed\n", to->file);
}

static int by_name(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* All other pages, in the order of their names as mdoc wants. */
static void put_see_also(const page *to, const command *but)
{
    enum { MOST = 64 };
    size_t count, names = 0;
    const char *name[MOST];
    const command *const *table = commands(&count);
    for (size_t i = 0; i < count && names < MOST; i++)
        if (table[i] != but)
            name[names++] = table[i]->name;
    qsort(name, names, sizeof name[0], by_name);
    fputs(".Sh SEE ALSO\n", to->file);
    if (but)
        fprintf(to->file, ".Xr pare 1%s\n", names ? " ," : "");
    for (size_t i = 0; i < names; i++)
        fprintf(to->file, ".Xr pare-%s 1%s\n", name[i], i + 1 < names ? " ," : "");
}

/* ---- pages ---- */

static void put_command(const page *to, const command *about)
{
    char name[64];
    char *details = strdup(about->details);
    if (!details) {
        fputs("manual: out of memory\n", stderr);
        exit(EXIT_FAILURE);
    }
    snprintf(name, sizeof name, "pare-%s", about->name);
    put_head(to, name, about->line);
    put_usage(to, about->usage);
    put_details(to, details);
    put_options(to, about);
    put_common(to);
    put_examples(to, about->example);
    put_see_also(to, about);
    if (about->caution) {
        fputs(".Sh CAVEATS\n", to->file);
        put_paragraph(to, about->caution);
    }
    free(details);
}

static void put_main(const page *to)
{
    size_t count;
    const command *const *table = commands(&count);
    put_head(to, "pare", "the grams of a small electric multirotor, and what each is worth");
    put_usage(to, "pare COMMAND [WORD...]\npare help [COMMAND]\npare --version");
    fputs(".Sh DESCRIPTION\n", to->file);
    put_paragraph(to, COMMON_PURPOSE);
    fputs("The commands, each with a page of its own:\n.Bl -tag -width Ds\n", to->file);
    for (size_t i = 0; i < count; i++) {
        fprintf(to->file, ".It Xr pare-%s 1\n", table[i]->name);
        put_sentence(to, table[i]->line);
    }
    fputs(".El\n.Pp\n", to->file);
    put_paragraph(to, COMMON_QUANTITIES);
    put_common(to);
    put_examples(to, COMMON_EXAMPLE);
    put_see_also(to, NULL);
    fputs(".Sh CAVEATS\n", to->file);
    put_paragraph(to, CAUTION_WORK);
    put_paragraph(to, CAUTION_FLYING);
}

static FILE *create(const char *folder, const char *name, const char *command_name)
{
    char path[1024];
    snprintf(path, sizeof path, "%s/%s%s%s.1", folder, name, command_name ? "-" : "",
             command_name ? command_name : "");
    FILE *file = fopen(path, "w");
    if (!file) {
        fprintf(stderr, "manual: %s: %s\n", path, strerror(errno));
        exit(EXIT_FAILURE);
    }
    return file;
}

static void finish(FILE *file)
{
    const bool failed = ferror(file);
    if (fclose(file) != 0 || failed) {
        fprintf(stderr, "manual: a page could not be written: %s\n", strerror(errno));
        exit(EXIT_FAILURE);
    }
}

int main(int argc, char *argv[])
{
    if (argc != 4) {
        fputs("manual FOLDER DATE VERSION\n", stderr);
        return EXIT_FAILURE;
    }
    page to = {.date = argv[2], .version = argv[3], .file = create(argv[1], "pare", NULL)};
    put_main(&to);
    finish(to.file);
    size_t count;
    const command *const *table = commands(&count);
    for (size_t i = 0; i < count; i++) {
        to.file = create(argv[1], "pare", table[i]->name);
        put_command(&to, table[i]);
        finish(to.file);
    }
    return EXIT_SUCCESS;
}
