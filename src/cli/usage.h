/* usage.h: the words of a command's usage text, one after another.
 *
 * The text that a person reads in the help is also what the man page and the completion are made of,
 * so that the three cannot differ. Its grammar, forms one after another:
 *
 *     pare parts [WORD...] [--kind KIND] [--json]
 *     pare take CRAFT SWAP [--ordered|--flown DATE]
 *               [--json]
 *
 * Each form starts with the word pare. Small letters are typed as they stand; capitals (or key=value,
 * CRAFT[:LOADOUT]) stand for something; [] may be left out, ... may be repeated, | separates
 * alternatives. */
#ifndef PARE_CLI_USAGE_H
#define PARE_CLI_USAGE_H

#include <stdbool.h>
#include <stddef.h>

typedef struct usage_word {
    const char *text; /* [length]: without brackets and dots; not ended by NUL */
    size_t length;
    int opens, closes;    /* brackets of things that may be left out, before and behind */
    bool repeats;         /* "..." behind it */
    bool alternative;     /* '|' behind it */
    bool option, literal; /* "--try"; "show"; otherwise what a word stands for */
} usage_word;

/** The word at *at, which moves behind it.
 * @return false at the end of the text */
bool usage_next(const char **at, usage_word *word);

/** Whether a word is exactly this text. */
bool usage_is(const usage_word *word, const char *text);

enum { USAGE_WORD = 32 };

/** The nearest to a mistyped word among a command's subcommands: what a form has first behind the
 * command's name, where that is typed as it stands.
 * @param[out] near  untouched where none is near */
bool usage_nearest(const char *usage, const char *word, char near[USAGE_WORD]);

#endif
