/* unit_text.c: one spelling for what people type (see unit_text.h).
 *
 * The tables of units then need one spelling each, and hostile bytes end here: what comes out is
 * printable ASCII. Tidying looks one sign ahead and one behind, never further. */
#include "base/unit_text.h"

#include <stddef.h>
#include <string.h>

static const struct {
    const char *utf8, *plain;
} SIGNS[] = {
    {"\xC2\xB5", "u"},       /* micro sign */
    {"\xCE\xBC", "u"},       /* Greek mu */
    {"\xCE\xA9", "ohm"},     /* Greek omega */
    {"\xE2\x84\xA6", "ohm"}, /* ohm sign */
    {"\xC2\xB0", "deg"},     /* degree sign */
    {"\xC2\xB2", "2"},       /* raised two */
    {"\xC2\xB3", "3"},       /* raised three */
    {"\xC2\xB7", "*"},       /* middle dot */
    {"\xE2\x8B\x85", "*"},   /* dot operator */
    {"\xC3\x97", "x"},       /* multiplication sign */
    {"\xE2\x88\x92", "-"},   /* minus sign */
    {"\xE2\x80\xB2", "'"},   /* prime */
    {"\xE2\x80\xB3", "\""},  /* double prime */
    {"\xC2\xA0", " "},       /* no-break space */
    {"\xE2\x80\xAF", " "},   /* narrow no-break space */
    {"\xE2\x80\x89", " "},   /* thin space */
};

/* Not <ctype.h>: its answers change with the locale. */
static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* The plain form of the sign at text, and in *used how many bytes it took. */
static const char *plain_sign(const char *text, size_t *used)
{
    for (size_t i = 0; i < sizeof SIGNS / sizeof *SIGNS; i++) {
        const size_t length = strlen(SIGNS[i].utf8);
        if (strncmp(text, SIGNS[i].utf8, length) == 0) {
            *used = length;
            return SIGNS[i].plain;
        }
    }
    *used = 1;
    return "?";
}

static bool make_plain(const char *text, char plain[PARE_UNIT_TEXT_SIZE])
{
    size_t length = 0;
    while (*text) {
        size_t used = 1;
        char one[2] = {is_blank(*text) ? ' ' : *text, '\0'};
        const char *add = one;
        if ((unsigned char)one[0] < ' ' || (unsigned char)one[0] > '~')
            add = plain_sign(text, &used);
        if (length + strlen(add) >= PARE_UNIT_TEXT_SIZE)
            return false;
        for (; *add; add++)
            plain[length++] = *add;
        plain[length] = '\0';
        text += used;
    }
    return true;
}

/* Takes one spelling out of the several that people use for powers, products and quotients. Works
 * in place: the result is never longer. */
static void join_plain(char *text)
{
    char *out = text;
    for (const char *in = text; *in; in++) {
        const char before = out > text ? out[-1] : ' ';
        char c = *in;
        if (c == '^' && is_letter(before) && (is_digit(in[1]) || in[1] == '-'))
            continue;
        if ((c == '*' || c == '.') && is_letter(in[1]) &&
            (is_letter(before) || (c == '*' && is_digit(before))))
            c = ' ';
        if (c == ' ' && (before == ' ' || before == '/'))
            continue;
        if (c == '/' && before == ' ' && out > text)
            out--;
        *out++ = c;
    }
    if (out > text && out[-1] == ' ')
        out--;
    *out = '\0';
}

bool pare_unit_text_tidy(const char *text, char tidy[PARE_UNIT_TEXT_SIZE])
{
    tidy[0] = '\0';
    const bool fits = make_plain(text, tidy);
    join_plain(tidy);
    return fits;
}

static const char *skip_digits(const char *text)
{
    while (is_digit(*text))
        text++;
    return text;
}

const char *pare_unit_text_number_end(const char *tidy)
{
    const char *whole = tidy + (*tidy == '+' || *tidy == '-');
    const char *end = skip_digits(whole);
    ptrdiff_t digits = end - whole;
    if (*end == '.' && end[1] != '.') {
        const char *fraction = end + 1;
        end = skip_digits(fraction);
        digits += end - fraction;
    }
    if (digits == 0)
        return NULL;
    if (*end == 'e' || *end == 'E') {
        const char *power = end + 1 + (end[1] == '+' || end[1] == '-');
        if (is_digit(*power))
            end = skip_digits(power);
    }
    return end;
}

bool pare_unit_text_is_plain(const char *unit)
{
    const char *at = unit;
    for (;;) {
        if (!is_letter(*at))
            return false;
        while (is_letter(*at) || *at == '_')
            at++;
        const char *power = at + (*at == '-');
        const char *end = skip_digits(power);
        if (end - power > 2 || (*at == '-' && end == power))
            return false;
        at = end;
        if (!*at)
            return true;
        if (*at != ' ' && *at != '.' && *at != '*' && *at != '/')
            return false;
        at++;
    }
}
