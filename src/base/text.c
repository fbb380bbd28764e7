/* text.c: growing strings, days and nearest names (see text.h). */
#include "base/text.h"

#include <ctype.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { LONGEST_NAME = 64, BEGINNING = 3 };

static bool make_room(pare_text *text, size_t more)
{
    if (text->failed)
        return false;
    const size_t needed = text->length + more + 1;
    if (needed <= text->size)
        return true;
    size_t size = text->size ? text->size : 256;
    while (size < needed)
        size *= 2;
    char *bytes = realloc(text->bytes, size);
    if (!bytes) {
        text->failed = true;
        return false;
    }
    text->bytes = bytes;
    text->size = size;
    return true;
}

void pare_text_put(pare_text *text, const char *bytes, size_t length)
{
    if (!make_room(text, length))
        return;
    if (length)
        memcpy(text->bytes + text->length, bytes, length);
    text->length += length;
    text->bytes[text->length] = '\0';
}

void pare_text_add(pare_text *text, const char *string)
{
    pare_text_put(text, string, strlen(string));
}

void pare_text_printf(pare_text *text, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const int length = vsnprintf(NULL, 0, format, args);
    va_end(args);
    if (length < 0 || !make_room(text, (size_t)length))
        return;
    va_start(args, format);
    vsnprintf(text->bytes + text->length, (size_t)length + 1, format, args);
    va_end(args);
    text->length += (size_t)length;
}

const char *pare_text_all(const pare_text *text)
{
    return text->bytes ? text->bytes : "";
}

bool pare_text_any(const pare_text *text)
{
    return text->length > 0 || text->failed;
}

size_t pare_text_trimmed(const char *bytes, size_t length)
{
    while (length && bytes[length - 1] == ' ')
        length--;
    return length;
}

void pare_text_join(size_t size, char room[], size_t count, const char *const texts[])
{
    size_t used = 0;
    for (size_t i = 0; i < count; i++) {
        const size_t length = strnlen(texts[i], size - 1 - used);
        memcpy(room + used, texts[i], length);
        used += length;
    }
    room[used] = '\0';
}

void pare_text_free(pare_text *text)
{
    free(text->bytes);
    *text = (pare_text){0};
}

/* The number that `count` digits make, or -1 where one of them is none. */
static int digits(const char *text, int count)
{
    int number = 0;
    for (int i = 0; i < count; i++) {
        if (text[i] < '0' || text[i] > '9')
            return -1;
        number = 10 * number + (text[i] - '0');
    }
    return number;
}

bool pare_text_is_day(const char *text)
{
    static const int days[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (strlen(text) != 10 || text[4] != '-' || text[7] != '-')
        return false;
    const int year = digits(text, 4), month = digits(text + 5, 2), day = digits(text + 8, 2);
    return year >= 0 && month >= 1 && month <= 12 && day >= 1 && day <= days[month - 1];
}

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

static bool same_letter(char a, char b)
{
    return tolower((unsigned char)a) == tolower((unsigned char)b);
}

/* Optimal string alignment distance: three rows of the usual table. Capitals are no difference. */
static size_t differences(const char *a, size_t na, const char *b, size_t nb)
{
    size_t rows[3][LONGEST_NAME + 1];
    size_t *two_ago = rows[0], *ago = rows[1], *now = rows[2];
    for (size_t j = 0; j <= nb; j++)
        ago[j] = j;
    for (size_t i = 1; i <= na; i++) {
        now[0] = i;
        for (size_t j = 1; j <= nb; j++) {
            const size_t replace = ago[j - 1] + !same_letter(a[i - 1], b[j - 1]);
            now[j] = least(replace, least(ago[j], now[j - 1]) + 1);
            if (i > 1 && j > 1 && same_letter(a[i - 1], b[j - 2]) &&
                same_letter(a[i - 2], b[j - 1]))
                now[j] = least(now[j], two_ago[j - 2] + 1);
        }
        size_t *spare = two_ago;
        two_ago = ago;
        ago = now;
        now = spare;
    }
    return ago[nb];
}

/* The one name that a word of some letters begins, or NULL. */
static const char *begun(const char *word, size_t length, size_t count, const char *const known[])
{
    const char *only = NULL;
    for (size_t i = 0; i < count && length >= BEGINNING; i++)
        if (known[i] && strncasecmp(word, known[i], length) == 0) {
            if (only)
                return NULL;
            only = known[i];
        }
    return only;
}

const char *pare_nearest(const char *word, size_t count, const char *const known[])
{
    const size_t length = strlen(word);
    if (length == 0 || length > LONGEST_NAME)
        return NULL;
    const char *best = NULL;
    size_t best_differences = 0;
    for (size_t i = 0; i < count; i++) {
        if (!known[i] || strlen(known[i]) > LONGEST_NAME)
            continue;
        const size_t other = strlen(known[i]);
        const size_t longer = length > other ? length : other;
        const size_t allowed = longer / 3 ? longer / 3 : 1;
        const size_t d = differences(word, length, known[i], other);
        if (d <= allowed && (!best || d < best_differences)) {
            best = known[i];
            best_differences = d;
        }
    }
    return best ? best : begun(word, length, count, known);
}
