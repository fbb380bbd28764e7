/* scale_line.c: a scale's line by a pattern (see scale_line.h).
 *
 * A scale that cannot weigh what lies on it sends its state and blanks or dashes for the number: the state
 * is then all that the line says, and it is enough. */
#include "store/scale_line.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { WORD = 16, DIGITS = 12 };

typedef enum field { STATE, ANY, WEIGHT, UNIT, FIELDS } field;
static const char *const names[FIELDS] = {"{state}", "{any}", "{weight}", "{unit}"};

static int field_at(const char *pattern)
{
    for (int f = 0; f < FIELDS; f++)
        if (strncmp(pattern, names[f], strlen(names[f])) == 0)
            return f;
    return -1;
}

pare_status pare_scale_pattern_check(const char *pattern, pare_error *err)
{
    int seen[FIELDS] = {0};
    for (const char *at = pattern; *at;) {
        const int f = field_at(at);
        if (f < 0 && (*at == '{' || *at == '}'))
            return pare_fail(err, PARE_BAD_DATA,
                             "pattern '%.60s': what stands at '%.12s'; right would be {weight}, "
                             "{unit}, {state} or {any}",
                             pattern, at);
        if (f >= 0 && f != ANY && seen[f]++)
            return pare_fail(err, PARE_BAD_DATA, "pattern '%.60s' has %s twice", pattern, names[f]);
        at += f < 0 ? 1 : strlen(names[f]);
    }
    if (!seen[WEIGHT])
        return pare_fail(err, PARE_BAD_DATA,
                         "pattern '%.60s' has no {weight}; right would be like %s", pattern,
                         PARE_SCALE_PATTERN);
    return PARE_OK;
}

static const char *past_blanks(const char *line)
{
    while (*line == ' ' || *line == '\t')
        line++;
    return line;
}

static bool state_of(const char *word, pare_scale_state *state)
{
    static const struct {
        const char *word;
        pare_scale_state state;
    } words[] = {{"ST", PARE_SCALE_STABLE}, {"S", PARE_SCALE_STABLE}, {"US", PARE_SCALE_MOVING},
                 {"D", PARE_SCALE_MOVING},  {"M", PARE_SCALE_MOVING}, {"OL", PARE_SCALE_OVER},
                 {"OF", PARE_SCALE_OVER},   {"+", PARE_SCALE_OVER},   {"UL", PARE_SCALE_UNDER},
                 {"-", PARE_SCALE_UNDER},   {"ER", PARE_SCALE_FAULT}};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (strcasecmp(word, words[i].word) == 0) {
            *state = words[i].state;
            return true;
        }
    return false;
}

/* A number as scales write it. @param digits  with its sign, without blanks */
static const char *read_number(const char *line, char digits[DIGITS + 3], int *decimals)
{
    size_t length = 0, count = 0;
    bool point = false;
    *decimals = 0;
    if (*line == '-' || *line == '+') {
        if (*line == '-')
            digits[length++] = '-';
        line = past_blanks(line + 1);
    }
    for (; isdigit((unsigned char)*line) || (*line == '.' && !point); line++) {
        if (*line == '.') {
            point = true;
        } else {
            count++;
            *decimals += point;
        }
        if (count > DIGITS)
            return NULL;
        digits[length++] = *line;
    }
    digits[length] = '\0';
    return count ? line : NULL;
}

static const char *read_word(const char *line, bool letters, char word[WORD])
{
    size_t length = 0;
    while (*line && length < WORD - 1 &&
           (isalpha((unsigned char)*line) || (!letters && (*line == '+' || *line == '-'))))
        word[length++] = *line++;
    word[length] = '\0';
    return line;
}

typedef struct parts {
    bool stated, weighed;
    pare_scale_state state;
    char digits[DIGITS + 3], unit[WORD];
    int decimals;
} parts;

/* Up to the sign that comes next; before a number up to that, otherwise a word. */
static const char *past_any(const char *rest, const char *line)
{
    if (*rest && *rest != ' ' && *rest != '{')
        return line + strcspn(line, (const char[]){*rest, '\0'});
    if (strncmp(rest, names[WEIGHT], strlen(names[WEIGHT])) == 0)
        return line + strcspn(line, "+-.0123456789");
    line = past_blanks(line);
    return line + strcspn(line, " \t");
}

/* One field of a line; NULL where the line has none there. @param rest  the pattern behind it */
static const char *read_field(field f, const char *rest, const char *line, parts *p)
{
    char word[WORD];
    const char *at = past_blanks(line);
    switch (f) {
    case STATE:
        at = read_word(at, false, word);
        p->stated = state_of(word, &p->state);
        return p->stated ? at : NULL;
    case WEIGHT:
        at = read_number(at, p->digits, &p->decimals);
        p->weighed = at != NULL;
        return at;
    case UNIT:
        return read_word(at, true, p->unit);
    case ANY:
    case FIELDS:
        break;
    }
    return past_any(rest, line);
}

static bool fits(const char *pattern, const char *line, parts *p)
{
    for (const char *at = pattern; *at;) {
        const int f = field_at(at);
        if (f >= 0) {
            at += strlen(names[f]);
            line = read_field((field)f, at, line, p);
            if (!line)
                return false;
            continue;
        }
        line = past_blanks(line);
        if (*at != ' ' && *line++ != *at)
            return false;
        at++;
    }
    return *past_blanks(line) == '\0';
}

static bool beyond(pare_scale_state state)
{
    return state == PARE_SCALE_OVER || state == PARE_SCALE_UNDER || state == PARE_SCALE_FAULT;
}

static pare_status put_weight(const parts *p, pare_scale_seen *seen, pare_error *err)
{
    static const struct {
        const char *name;
        double kg;
    } units[] = {{"g", 1e-3}, {"mg", 1e-6}, {"kg", 1}, {"oz", 0.028349523125}, {"lb", 0.45359237}};
    const char *unit = *p->unit ? p->unit : "g";
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (strcasecmp(unit, units[i].name) != 0)
            continue;
        seen->weighs = true;
        seen->kg = strtod(p->digits, NULL) * units[i].kg;
        seen->step_kg = pow(10, -p->decimals) * units[i].kg;
        snprintf(seen->text, sizeof seen->text, "%s %s", p->digits, units[i].name);
        return PARE_OK;
    }
    return pare_fail(err, PARE_BAD_DATA,
                     "the scale weighs in '%s'; right would be g, mg, kg, oz or lb: its unit key "
                     "changes that",
                     unit);
}

pare_status pare_scale_line_read(const char *pattern, const char *line, bool *has_pattern,
                                 pare_scale_seen *seen, pare_error *err)
{
    parts p = {0};
    *seen = (pare_scale_seen){.state = PARE_SCALE_UNSAID};
    *has_pattern = fits(pattern, line, &p);
    if (p.stated)
        seen->state = p.state;
    if (p.stated && beyond(p.state))
        *has_pattern = true;
    else if (*has_pattern && p.weighed)
        return put_weight(&p, seen, err);
    return PARE_OK;
}
