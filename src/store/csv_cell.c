/* csv_cell.c: cells as the text that a bench keeps (see csv_cell.h).
 *
 * A comma or point with other than three digits behind it is a decimal one whatever the table's
 * decimals are; with three digits behind it, it may group thousands, and only the table as a whole can
 * tell: "1,300 mAh" in a table of decimal points is 1300, in one of decimal commas 1.3. Nothing is
 * decided by what would be likely. */
#include "store/csv_cell.h"

#include <stdio.h>
#include <string.h>

#include "store/csv_words.h"
#include "store/reading.h"

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static size_t digits_at(const char *text)
{
    size_t count = 0;
    while (is_digit(text[count]))
        count++;
    return count;
}

/* ---- numbers ---- */

/* What groups thousands: a blank of some kind or an apostrophe, with three digits behind it. */
static size_t group_sign(const char *text)
{
    static const char *const signs[] = {
        " ", "'", "\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x89", "\xE2\x80\x99"};
    for (size_t i = 0; i < PARE_COUNT(signs); i++) {
        const size_t length = strlen(signs[i]);
        if (strncmp(text, signs[i], length) == 0)
            return digits_at(text + length) == 3 ? length : 0;
    }
    return 0;
}

typedef struct marks {
    size_t commas, points, after_last, before_first;
    char last; /* the last of them: ',' or '.' */
} marks;

/* Commas and points between digits, from the first digit on. */
static const char *look_through(const char *text, marks *found)
{
    *found = (marks){.before_first = digits_at(text)};
    const char *at = text + found->before_first;
    for (;;) {
        const size_t group = group_sign(at);
        if (group && found->commas + found->points == 0) {
            at += group + 3;
            found->before_first += 3;
        } else if ((*at == ',' || *at == '.') && is_digit(at[1])) {
            found->last = *at;
            found->commas += *at == ',';
            found->points += *at == '.';
            found->after_last = digits_at(at + 1);
            at += 1 + found->after_last;
        } else {
            return at;
        }
    }
}

/* The decimal sign of a number with these marks: ',' or '.', 0: none of them, '?': it may be either.
 * What is left groups thousands. */
static char decimal_sign(const marks *m, const char *text, pare_decimal decimal)
{
    if (m->commas && m->points)
        return m->last;
    const size_t count = m->commas + m->points;
    if (count == 0)
        return 0;
    if (count > 1)
        return m->after_last == 3 ? 0 : '!';
    const bool may_group =
        m->after_last == 3 && m->before_first >= 1 && m->before_first <= 3 && text[0] != '0';
    if (!may_group)
        return m->last;
    if (m->last == '.')
        return decimal == PARE_DECIMAL_COMMA ? 0 : decimal == PARE_DECIMAL_BOTH ? '?' : '.';
    return decimal == PARE_DECIMAL_COMMA ? ',' : decimal == PARE_DECIMAL_POINT ? 0 : '?';
}

const char *pare_csv_number(const char *text, pare_decimal decimal, char digits[PARE_CSV_DIGITS],
                            bool *ambiguous)
{
    size_t used = 0;
    const char *at = text;
    *ambiguous = false;
    if (strncmp(at, "\xE2\x88\x92", 3) == 0) { /* a true minus */
        digits[used++] = '-';
        at += 3;
    } else if (*at == '-' || *at == '+') {
        if (*at == '-')
            digits[used++] = '-';
        at++;
    }
    if (*at == '.' && is_digit(at[1]))
        digits[used++] = '0';
    else if (!is_digit(*at))
        return NULL;
    marks found;
    const char *end = look_through(at, &found);
    const char sign = decimal_sign(&found, at, decimal);
    if (sign == '!')
        return NULL;
    *ambiguous = sign == '?';
    const char *last_mark = end - found.after_last - 1;
    for (; at < end && used < PARE_CSV_DIGITS - 8; at++) {
        if (is_digit(*at))
            digits[used++] = *at;
        else if (at == last_mark && sign)
            digits[used++] = '.';
    }
    if (at < end)
        return NULL; /* more digits than any number needs */
    if ((*end == 'e' || *end == 'E') && is_digit(end[1 + (end[1] == '+' || end[1] == '-')])) {
        digits[used++] = 'e';
        end++;
        for (int i = 0; i < 5 && (is_digit(*end) || (i == 0 && (*end == '+' || *end == '-'))); i++)
            digits[used++] = *end++;
        if (is_digit(*end))
            return NULL;
    }
    digits[used] = '\0';
    return end;
}

pare_decimal pare_csv_decimal_of(const char *text)
{
    marks found;
    while (*text == ' ' || *text == '~' || *text == '-' || *text == '+')
        text++;
    if (!is_digit(*text))
        return PARE_DECIMAL_UNKNOWN;
    const char *end = look_through(text, &found);
    /* A day, a version, a list of numbers: no vote. */
    if (*end == '.' || *end == ',' || *end == '-' || *end == '/')
        return PARE_DECIMAL_UNKNOWN;
    if (found.commas && found.points)
        return found.last == ',' ? PARE_DECIMAL_COMMA : PARE_DECIMAL_POINT;
    if (found.commas + found.points != 1)
        return PARE_DECIMAL_UNKNOWN;
    const bool may_group = found.after_last == 3 && found.before_first <= 3 && text[0] != '0';
    if (may_group)
        return PARE_DECIMAL_UNKNOWN;
    return found.last == ',' ? PARE_DECIMAL_COMMA : PARE_DECIMAL_POINT;
}

/* ---- cells ---- */

/* A cell without blanks around it, of any kind, cut where no sensible one reaches. */
static void trim(const char *cell, char text[PARE_CSV_VALUE])
{
    static const char *const blanks[] = {" ", "\xC2\xA0", "\xE2\x80\xAF"};
    for (bool again = true; again;) {
        again = false;
        for (size_t i = 0; i < PARE_COUNT(blanks); i++)
            while (strncmp(cell, blanks[i], strlen(blanks[i])) == 0) {
                cell += strlen(blanks[i]);
                again = true;
            }
    }
    size_t length = strlen(cell);
    for (bool again = true; again;) {
        again = false;
        for (size_t i = 0; i < PARE_COUNT(blanks); i++) {
            const size_t blank = strlen(blanks[i]);
            if (length >= blank && memcmp(cell + length - blank, blanks[i], blank) == 0) {
                length -= blank;
                again = true;
            }
        }
    }
    if (length >= PARE_CSV_VALUE) {
        length = PARE_CSV_VALUE - 1;
        while (length && ((unsigned char)cell[length] & 0xc0) == 0x80)
            length--;
    }
    memcpy(text, cell, length);
    text[length] = '\0';
}

/* Takes "~", "ca." and "about" off the front and "?" off the end. */
static const char *take_about(char *text, bool *about)
{
    static const char *const words[] = {"~",     "\xE2\x89\x88", "approx.", "approx",  "about",
                                        "circa", "ca.",          "ca ",     "roughly", "c. "};
    *about = false;
    size_t length = strlen(text);
    while (length && (text[length - 1] == '?' || text[length - 1] == ' ')) {
        *about = *about || text[length - 1] == '?';
        text[--length] = '\0';
    }
    for (size_t i = 0; i < PARE_COUNT(words); i++) {
        const size_t word = strlen(words[i]);
        if (strncmp(text, words[i], word) == 0) {
            *about = true;
            text += word;
            break;
        }
    }
    return text + strspn(text, " ");
}

static bool takes_bare(pare_dimension dimension)
{
    return dimension == PARE_DIM_COUNT || dimension == PARE_DIM_NUMBER ||
           dimension == PARE_DIM_SHARE || dimension == PARE_DIM_ROTATION ||
           dimension == PARE_DIM_KV || dimension == PARE_DIM_GAUGE || dimension == PARE_DIM_MONEY;
}

static pare_status refuse_ambiguous(const char *text, pare_error *err)
{
    const size_t length = strcspn(text, ",.");
    return pare_fail(err, PARE_BAD_DATA,
                     "%.40s may be %.*s%.3s or %.*s.%.3s; right would be either of these, or "
                     "--decimal comma or --decimal point",
                     text, (int)length, text, text + length + 1, (int)length, text,
                     text + length + 1);
}

static pare_status refuse_bare(const char *text, pare_dimension dimension, pare_error *err)
{
    const char *units = pare_dimension_units(dimension);
    const int first = (int)strcspn(units, ",");
    return pare_fail(err, PARE_BAD_DATA,
                     "%.40s has no unit; right would be like %.20s %.*s, or the unit in the "
                     "column's name, like (%.*s)",
                     text, text, first, units, first, units);
}

/* A number and the unit behind it: "12.5 g". @param[out] unit  as typed; "" without one */
static bool split(const char *text, pare_decimal decimal, char digits[PARE_CSV_DIGITS],
                  const char **unit, bool *ambiguous)
{
    const char *end = pare_csv_number(text, decimal, digits, ambiguous);
    if (!end)
        return false;
    *unit = end + strspn(end, " ");
    if (strncmp(*unit, "\xC2\xA0", 2) == 0)
        *unit += 2;
    return true;
}

static void join(const char *digits, const char *unit, char value[PARE_CSV_VALUE])
{
    snprintf(value, PARE_CSV_VALUE, "%s%s%s", digits, *unit ? " " : "", unit);
}

/* Where "+/-" or its sign stands, and how long it is. */
static char *plus_minus(char *text, size_t *length)
{
    static const char *const signs[] = {"\xC2\xB1", "+/-", "+-"};
    for (size_t i = 0; i < PARE_COUNT(signs); i++) {
        char *at = strstr(text, signs[i]);
        if (at && at > text) {
            *length = strlen(signs[i]);
            return at;
        }
    }
    return NULL;
}

/* The half behind the sign: "0.2 g", with the unit of either half. */
static void read_u(char *text, pare_decimal decimal, pare_dimension dimension, const char **unit,
                   char u[PARE_CSV_VALUE])
{
    char digits[PARE_CSV_DIGITS];
    const char *own = "";
    bool ambiguous = false;
    text += strspn(text, " ");
    if (!split(text, decimal, digits, &own, &ambiguous)) {
        snprintf(u, PARE_CSV_VALUE, "%.100s", text); /* refused by its reader */
        return;
    }
    if (*own)
        *unit = pare_csv_unit(own, dimension);
    join(digits, *unit ? *unit : "", u);
}

pare_status pare_csv_read_quantity(const char *cell, pare_decimal decimal, pare_dimension dimension,
                                   const char *unit, pare_csv_quantity *quantity, pare_error *err)
{
    char trimmed[PARE_CSV_VALUE], digits[PARE_CSV_DIGITS];
    const char *own = "";
    bool ambiguous = false;
    trim(cell, trimmed);
    quantity->u[0] = '\0';
    const char *text = take_about(trimmed, &quantity->about);
    size_t sign = 0;
    char *half = plus_minus(trimmed, &sign);
    if (half) {
        char *u = half + sign;
        *half = '\0';
        for (size_t length = strlen(trimmed); length && trimmed[length - 1] == ' '; length--)
            trimmed[length - 1] = '\0';
        read_u(u, decimal, dimension, &unit, quantity->u);
    }
    if (!split(text, decimal, digits, &own, &ambiguous)) {
        snprintf(quantity->value, sizeof quantity->value, "%s", text);
        return PARE_OK;
    }
    if (ambiguous)
        return refuse_ambiguous(text, err);
    if (*own)
        unit = pare_csv_unit(own, dimension);
    else if (!unit && !takes_bare(dimension))
        return refuse_bare(text, dimension, err);
    join(digits, unit ? unit : "", quantity->value);
    return PARE_OK;
}

/* The sign between two ends, from the second character on: "-", "..", "to" or a dash. */
static const char *between(const char *text, size_t *length)
{
    static const char *const signs[] = {"..", "\xE2\x80\x93", "\xE2\x80\x94", " to ", "-"};
    for (size_t i = 0; i < PARE_COUNT(signs); i++) {
        const char *at = *text ? strstr(text + 1, signs[i]) : NULL;
        if (at) {
            *length = strlen(signs[i]);
            while (at[*length] == '.')
                ++*length;
            return at;
        }
    }
    return NULL;
}

pare_status pare_csv_read_span(const char *cell, pare_decimal decimal, pare_dimension dimension,
                               const char *unit, char value[PARE_CSV_VALUE], pare_error *err)
{
    char text[PARE_CSV_VALUE];
    pare_csv_quantity low, high;
    size_t sign = 0;
    trim(cell, text);
    const char *cut = between(text, &sign);
    if (!cut) {
        const pare_status status =
            pare_csv_read_quantity(text, decimal, dimension, unit, &high, err);
        if (status == PARE_OK)
            memcpy(value, high.value, PARE_CSV_VALUE);
        return status;
    }
    pare_status status = pare_csv_read_quantity(cut + sign, decimal, dimension, unit, &high, err);
    text[cut - text] = '\0';
    /* "11 - 25.5 V": the unit of the second serves the first. */
    const char *second = strchr(high.value, ' ');
    if (status == PARE_OK)
        status =
            pare_csv_read_quantity(text, decimal, dimension, second ? second + 1 : unit, &low, err);
    if (status == PARE_OK)
        snprintf(value, PARE_CSV_VALUE, "%.60s .. %.60s", low.value, high.value);
    return status;
}

/* Nothing but these after a count: cells, pieces, blades. */
static bool counts(const char *rest)
{
    static const char *const words[] = {"",       "s",     "x",      "pcs",   "pc",
                                        "pieces", "stk",   "blades", "blade", "-blade",
                                        "bladed", "cells", "cell"};
    char small[16];
    rest += strspn(rest, " ");
    size_t i = 0;
    for (; rest[i] && i < sizeof small - 1; i++)
        small[i] = (char)(rest[i] >= 'A' && rest[i] <= 'Z' ? rest[i] + ('a' - 'A') : rest[i]);
    if (rest[i])
        return false;
    while (i && small[i - 1] == ' ') /* "3S - 6S" */
        i--;
    small[i] = '\0';
    for (size_t w = 0; w < PARE_COUNT(words); w++)
        if (strcmp(small, words[w]) == 0)
            return true;
    /* "4S1P": one cell after another, so many side by side. */
    return small[0] == 's' && is_digit(small[1]) &&
           strcmp(small + 1 + digits_at(small + 1), "p") == 0;
}

void pare_csv_read_count(const char *cell, char value[PARE_CSV_VALUE])
{
    char text[PARE_CSV_VALUE];
    trim(cell, text);
    const char *at = text + ((text[0] == 'x' || text[0] == 'X') && is_digit(text[1]));
    const size_t first = digits_at(at);
    size_t sign = 0;
    const char *cut = between(at, &sign);
    snprintf(value, PARE_CSV_VALUE, "%s", text);
    if (first == 0 || first > 9)
        return;
    if (cut) {
        const char *to = cut + sign + strspn(cut + sign, " ");
        const size_t second = digits_at(to);
        char before[PARE_CSV_VALUE];
        snprintf(before, sizeof before, "%.*s", (int)(cut - at - (ptrdiff_t)first), at + first);
        if (second && second <= 9 && counts(to + second) && counts(before))
            snprintf(value, PARE_CSV_VALUE, "%.*s .. %.*s", (int)first, at, (int)second, to);
        else if (!counts(at + first))
            return;
    }
    if (counts(at + first))
        snprintf(value, PARE_CSV_VALUE, "%.*s", (int)first, at);
}

/* ---- money and days ---- */

static const struct {
    const char *sign, *currency;
} MONEYS[] = {{"\xE2\x82\xAC", "EUR"}, {"\xC2\xA3", "GBP"}, {"\xC2\xA5", "JPY"}, {"$", "$"}};

static const char *take_currency(const char *text, char currency[4])
{
    for (size_t i = 0; i < PARE_COUNT(MONEYS); i++)
        if (strncmp(text, MONEYS[i].sign, strlen(MONEYS[i].sign)) == 0) {
            snprintf(currency, 4, "%s", MONEYS[i].currency);
            text += strlen(MONEYS[i].sign);
            return text + strspn(text, " ");
        }
    if (strspn(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == 3) {
        snprintf(currency, 4, "%.3s", text);
        text += 3;
    }
    return text + strspn(text, " ");
}

pare_status pare_csv_read_money(const char *cell, pare_decimal decimal, char value[PARE_CSV_VALUE],
                                char currency[4], pare_error *err)
{
    char text[PARE_CSV_VALUE], digits[PARE_CSV_DIGITS];
    bool ambiguous = false;
    currency[0] = '\0';
    trim(cell, text);
    snprintf(value, PARE_CSV_VALUE, "%s", text);
    const char *at = take_currency(text, currency);
    const char *end = pare_csv_number(at, decimal, digits, &ambiguous);
    if (!end)
        return PARE_OK;
    if (ambiguous)
        return refuse_ambiguous(at, err);
    if (strncmp(end, ",-", 2) == 0 || strncmp(end, ".-", 2) == 0)
        end += 2; /* "20,-" */
    end = take_currency(end + strspn(end, " "), currency);
    if (!*end)
        snprintf(value, PARE_CSV_VALUE, "%s", digits);
    return PARE_OK;
}

void pare_csv_read_date(const char *cell, char value[PARE_CSV_VALUE])
{
    char text[PARE_CSV_VALUE];
    trim(cell, text);
    snprintf(value, PARE_CSV_VALUE, "%s", text);
    const size_t first = digits_at(text);
    const char *second = text + first + (text[first] != '\0');
    const size_t middle = digits_at(second);
    const char *third = second + middle + (second[middle] != '\0');
    const size_t last = digits_at(third);
    if (!middle || middle > 2 || !last || third[last] || text[first] != second[middle])
        return;
    if (first == 4 && last <= 2 && strchr("-/.", text[first]))
        snprintf(value, PARE_CSV_VALUE, "%.4s-%s%.*s-%s%.*s", text, middle == 1 ? "0" : "",
                 (int)middle, second, last == 1 ? "0" : "", (int)last, third);
    else if (first && first <= 2 && last == 4 && text[first] == '.')
        snprintf(value, PARE_CSV_VALUE, "%.4s-%s%.*s-%s%.*s", third, middle == 1 ? "0" : "",
                 (int)middle, second, first == 1 ? "0" : "", (int)first, text);
}
