/* words.c: a command as words.
 *
 * Options are written with their value joined by '=', and operands behind "--": so nothing that comes
 * from outside can become an option. */
#include "serve/inside.h"

#include <string.h>

static void put(pare_words *words, size_t *count, char *list[], char *word)
{
    words->full = words->full || !word || *count == SERVE_WORDS;
    if (!words->full)
        list[(*count)++] = word;
}

void pare_words_option(pare_words *words, const char *name, const char *value)
{
    put(words, &words->options, words->option,
        value ? pare_arena_printf(words->arena, "--%s=%s", name, value)
              : pare_arena_printf(words->arena, "--%s", name));
}

void pare_words_operand(pare_words *words, const char *word)
{
    put(words, &words->operands, words->operand, pare_arena_text(words->arena, word));
}

/* A word as a shell would take it again. */
static void put_typed(pare_text *line, const char *word)
{
    const bool plain = *word && strspn(word, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                             "0123456789-_.,:/=+%@") == strlen(word);
    pare_text_add(line, plain ? " " : " '");
    for (const char *c = word; *c; c++)
        if (*c == '\'')
            pare_text_add(line, "'\\''");
        else
            pare_text_put(line, (unsigned char)*c < ' ' || *c == 127 ? "?" : c, 1);
    if (!plain)
        pare_text_add(line, "'");
}

char *pare_words_typed(const pare_words *words)
{
    pare_text line = {0};
    pare_text_printf(&line, "pare %s", words->command);
    bool dashes = false;
    for (size_t i = 0; i < words->operands; i++)
        dashes = dashes || words->operand[i][0] == '-';
    for (size_t i = 0; !dashes && i < words->operands; i++)
        put_typed(&line, words->operand[i]);
    for (size_t i = 0; i < words->options; i++)
        put_typed(&line, words->option[i]);
    if (dashes)
        pare_text_add(&line, " --");
    for (size_t i = 0; dashes && i < words->operands; i++)
        put_typed(&line, words->operand[i]);
    char *typed = line.failed ? NULL : pare_arena_copy(words->arena, line.bytes, line.length);
    pare_text_free(&line);
    return typed;
}

void pare_words_key(const pare_words *words, pare_text *key)
{
    pare_text_put(key, words->command, strlen(words->command) + 1);
    for (size_t i = 0; i < words->options; i++)
        pare_text_put(key, words->option[i], strlen(words->option[i]) + 1);
    for (size_t i = 0; i < words->operands; i++)
        pare_text_put(key, words->operand[i], strlen(words->operand[i]) + 1);
}

pare_status pare_words_ask(const pare_words *words, pare_server *server,
                           const pare_progress *progress, pare_text *out, pare_error *err)
{
    char *word[2 * SERVE_WORDS + 4];
    size_t count = 0;
    if (words->full)
        return pare_fail(err, PARE_BAD_DATA, "too much is asked at once");
    word[count++] = pare_arena_text(words->arena, words->command);
    word[count++] = pare_arena_text(words->arena, "--json");
    word[count++] = pare_arena_printf(words->arena, "--bench=%s", server->settings.bench);
    for (size_t i = 0; i < words->options; i++)
        word[count++] = words->option[i];
    word[count++] = pare_arena_text(words->arena, "--");
    for (size_t i = 0; i < words->operands; i++)
        word[count++] = words->operand[i];
    for (size_t i = 0; i < count; i++)
        if (!word[i])
            return pare_no_memory(err);
    const pare_status status =
        server->settings.answer(server->settings.context, count, word, progress, out, err);
    return out->failed ? pare_no_memory(err) : status;
}
