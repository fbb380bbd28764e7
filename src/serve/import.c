/* import.c: a file that comes as text or as base64, for `pare import`. */
#include "serve/writing.h"

#include <string.h>

static int value_of(char c)
{
    static const char letters[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    const char *at = c ? strchr(letters, c) : NULL;
    return at ? (int)(at - letters) : -1;
}

/* RFC 4648, section 4, padded; nothing else stands in it. */
static bool unpack(const char *text, size_t length, pare_text *bytes)
{
    if (length % 4 != 0)
        return false;
    const size_t padding = length == 0 || text[length - 1] != '=' ? 0
                           : text[length - 2] != '='              ? 1
                                                                  : 2;
    for (size_t i = 0; i < length; i += 4) {
        unsigned group = 0;
        const size_t missing = i + 4 == length ? padding : 0;
        for (size_t k = 0; k < 4; k++) {
            const int value = k >= 4 - missing ? 0 : value_of(text[i + k]);
            if (value < 0)
                return false;
            group = group << 6 | (unsigned)value;
        }
        const char three[] = {(char)(group >> 16 & 255), (char)(group >> 8 & 255),
                              (char)(group & 255)};
        pare_text_put(bytes, three, 3 - missing);
    }
    return true;
}

static void keep_file(pare_writing *w, const char *name)
{
    const json_t *packed = json_object_get(w->body, "base64");
    const char *text = pare_writing_text(w, w->body, "text", packed == NULL);
    pare_text bytes = {0};
    if (packed && text)
        pare_fail(&w->err, PARE_BAD_DATA, "/api/import takes 'text' or 'base64', not both");
    else if (packed && (!json_is_string(packed) ||
                        !unpack(json_string_value(packed), json_string_length(packed), &bytes)))
        pare_fail(&w->err, PARE_BAD_DATA, "/api/import: 'base64' is not that");
    else if (text)
        pare_text_add(&bytes, text);
    if (w->err.status == PARE_OK && bytes.failed)
        pare_no_memory(&w->err);
    if (w->err.status == PARE_OK && pare_drawer_open(&w->drawer, name, &w->err) == PARE_OK)
        pare_drawer_put(&w->drawer, pare_text_all(&bytes), bytes.length, &w->err);
    pare_text_free(&bytes);
}

void pare_writing_import(pare_writing *w)
{
    static const char *const texts[] = {"as", "kind", "separator", "decimal"};
    static const char *const flags[][2] = {{"notes", "notes"}, {"keep_good", "keep-good"}};
    const char *name = pare_writing_text(w, w->body, "name", true);
    w->words.command = "import";
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        pare_writing_option(w, texts[i], pare_writing_text(w, w->body, texts[i], false));
    for (size_t i = 0; i < sizeof flags / sizeof flags[0]; i++)
        if (pare_writing_flag(w, flags[i][0]))
            pare_words_option(&w->words, flags[i][1], NULL);
    w->keeps_nothing = pare_writing_flag(w, "dry_run");
    if (w->keeps_nothing)
        pare_words_option(&w->words, "dry-run", NULL);
    if (json_object_get(w->body, "map"))
        pare_writing_pairs(w, "map", "map");
    if (json_object_get(w->body, "set"))
        pare_writing_pairs(w, "set", "set");
    if (w->err.status == PARE_OK && name)
        keep_file(w, name);
    if (w->err.status == PARE_OK)
        pare_writing_operand(w, w->drawer.path);
}
