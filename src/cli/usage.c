/* usage.c: the words of a usage text (see usage.h). */
#include "cli/usage.h"

#include <ctype.h>
#include <string.h>

#include "base/text.h"

/* Brackets within a word, as in CRAFT[:LOADOUT], are part of it: only one too many closes. */
static size_t closing(const char *text, size_t length)
{
    size_t open = 0, extra = 0;
    for (size_t i = 0; i < length; i++) {
        if (text[i] == '[')
            open++;
        else if (text[i] == ']' && open > 0)
            open--;
        else if (text[i] == ']')
            extra++;
    }
    return extra;
}

static bool drop_end(usage_word *word, const char *end)
{
    const size_t length = strlen(end);
    if (word->length < length || strncmp(word->text + word->length - length, end, length) != 0)
        return false;
    word->length -= length;
    return true;
}

bool usage_next(const char **at, usage_word *word)
{
    *at += strspn(*at, " \n");
    if (!**at)
        return false;
    *word = (usage_word){0};
    for (; **at == '['; ++*at)
        word->opens++;
    word->text = *at;
    word->length = strcspn(*at, " \n|");
    *at += word->length;
    word->alternative = **at == '|';
    *at += word->alternative;
    word->repeats = drop_end(word, "...");
    for (size_t extra = closing(word->text, word->length); extra > 0 && drop_end(word, "]");
         extra--)
        word->closes++;
    if (drop_end(word, "..."))
        word->repeats = true;
    word->option = word->length > 1 && word->text[0] == '-';
    word->literal = !word->option && !memchr(word->text, '=', word->length);
    for (size_t i = 0; i < word->length; i++)
        word->literal = word->literal && !isupper((unsigned char)word->text[i]);
    return true;
}

bool usage_is(const usage_word *word, const char *text)
{
    return strlen(text) == word->length && strncmp(word->text, text, word->length) == 0;
}

bool usage_nearest(const char *usage, const char *word, char near[USAGE_WORD])
{
    enum { MOST = 32 };
    char text[MOST][USAGE_WORD];
    const char *known[MOST];
    size_t count = 0;
    usage_word next;
    for (const char *at = usage; count < MOST && usage_next(&at, &next);) {
        if (!usage_is(&next, "pare") || !usage_next(&at, &next))
            continue;
        const char *behind = at;
        if (!usage_next(&behind, &next) || !next.literal || next.length >= USAGE_WORD ||
            usage_is(&next, "pare"))
            continue;
        memcpy(text[count], next.text, next.length);
        text[count][next.length] = '\0';
        known[count] = text[count];
        count++;
    }
    const char *nearest = pare_nearest(word, count, known);
    if (nearest)
        memcpy(near, nearest, strlen(nearest) + 1);
    return nearest != NULL;
}
