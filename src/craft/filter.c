/* filter.c: conditions on a part's numbers (see filter.h).
 *
 * The text is cut at its comparisons: the word before one is its key, and a value runs to the next
 * key, so that "mass < 12 g cells >= 6" reads as people mean it. Which dimension a value has depends
 * on the kind of part, so it is read once for each kind that has the spec; kinds where it has another
 * one are left out. Nothing here knows where numbers come from: a packed row and a part read in full
 * are judged alike. */
#include "craft/filter.h"

#include <math.h>
#include <string.h>

#include "base/text.h"

#define ROUNDING 1e-9

enum { KEY_SIZE = 48, VALUE_SIZE = 96 };

static const struct {
    const char *name;
    int key;
    pare_dimension dimension;
} common[] = {
    {"mass", PARE_KEY_MASS, PARE_DIM_MASS},
    {"price", PARE_KEY_PRICE, PARE_DIM_MONEY},
    {"owned", PARE_KEY_OWNED, PARE_DIM_COUNT},
};
enum { COMMON = sizeof common / sizeof common[0] };

void pare_numbers_of(const pare_part *part, double number[PARE_KEYS])
{
    for (int spec = 0; spec < PARE_SPECS; spec++)
        number[spec] = part->spec[spec].given ? part->spec[spec].value : (double)NAN;
    number[PARE_KEY_MASS] = part->mass_kg.value;
    number[PARE_KEY_PRICE] = part->price.given ? part->price.each : (double)NAN;
    number[PARE_KEY_OWNED] = part->owned;
}

/* ---- names ---- */

static bool is_named(const char *known, const char *name, size_t length)
{
    return strlen(known) == length && memcmp(known, name, length) == 0;
}

size_t pare_key_names(int kind, const char *names[PARE_KEYS])
{
    size_t count = 0;
    for (; count < COMMON; count++)
        names[count] = common[count].name;
    for (size_t i = 0; i < pare_spec_rows; i++) {
        size_t seen = 0;
        if (kind >= 0 && pare_spec_table[i].kind != (pare_kind)kind)
            continue;
        while (seen < count && strcmp(names[seen], pare_spec_table[i].name) != 0)
            seen++;
        if (seen == count && count < PARE_KEYS)
            names[count++] = pare_spec_table[i].name;
    }
    return count;
}

static pare_status unknown(const char *name, size_t length, int kind, pare_error *err)
{
    char typed[KEY_SIZE];
    const size_t kept = length < sizeof typed ? length : sizeof typed - 1;
    memcpy(typed, name, kept);
    typed[kept] = '\0';
    const char *names[PARE_KEYS];
    const size_t count = pare_key_names(kind, names);
    if (strcmp(typed, "kind") == 0)
        return pare_fail(err, PARE_UNKNOWN, "kind is no number; right would be --kind motor");
    const char *near = pare_nearest(typed, count, names);
    const char *of = kind >= 0 ? " in a part of kind " : "",
               *which = kind >= 0 ? pare_kind_name((pare_kind)kind) : "";
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "no number '%s'%s%s; did you mean %s?", typed, of,
                         which, near);
    pare_text list = {0};
    for (size_t i = 0; i < count; i++)
        pare_text_printf(&list, "%s%s", i ? ", " : "", names[i]);
    pare_fail(err, PARE_UNKNOWN, "no number '%s'%s%s; there are %s", typed, of, which,
              pare_text_all(&list));
    pare_text_free(&list);
    return PARE_UNKNOWN;
}

static const pare_spec_row *twin_of(const pare_spec_row *row)
{
    const pare_spec_row *next = row + 1;
    const bool there = next < pare_spec_table + pare_spec_rows;
    return there && next->kind == row->kind && strcmp(next->name, row->name) == 0 ? next : NULL;
}

static bool is_range(const pare_spec_row *row)
{
    return row->spec == PARE_SPEC_VOLTS_LOW;
}

pare_status pare_key_named(const char *name, size_t length, int kind, int *key, pare_error *err)
{
    for (size_t i = 0; i < COMMON; i++)
        if (is_named(common[i].name, name, length)) {
            *key = common[i].key;
            return PARE_OK;
        }
    for (size_t i = 0; i < pare_spec_rows; i++) {
        const pare_spec_row *row = &pare_spec_table[i];
        if ((kind >= 0 && row->kind != (pare_kind)kind) || !is_named(row->name, name, length))
            continue;
        *key = (int)(is_range(row) ? twin_of(row) : row)->spec;
        return PARE_OK;
    }
    return unknown(name, length, kind, err);
}

/* ---- values ---- */

/* A value, a range, or a pair's two sizes in low and high. @param[out] pair  it was two sizes */
static pare_status read_value(pare_units *units, const char *text, pare_comparison how,
                              const pare_spec_row *twin, pare_dimension dimension, double *low,
                              double *high, bool *pair, pare_error *err)
{
    const bool equal = how == PARE_EQUAL || how == PARE_UNEQUAL;
    double size[2];
    size_t count = 0;
    *pair = false;
    if (strstr(text, "..") && equal)
        return pare_range(units, text, dimension, low, high, err);
    if (strstr(text, ".."))
        return pare_fail(err, PARE_BAD_DATA, "'%.40s' is a range, which goes with = and != only",
                         text);
    if (twin && how == PARE_EQUAL) {
        const pare_status status = pare_sizes(units, text, dimension, 2, size, &count, err);
        *pair = status == PARE_OK && count == 2;
        *low = size[0];
        *high = *pair ? size[1] : size[0];
        return status;
    }
    const pare_status status = pare_quantity(units, text, dimension, low, err);
    *high = *low;
    return status;
}

static void set(pare_condition *condition, pare_kind kind, double low, double high)
{
    condition->kinds |= 1u << kind;
    condition->low[kind] = low;
    condition->high[kind] = high;
}

/* A spec's condition, for each kind that has it in a dimension in which the value can be read; a pair
 * is two conditions. The first refusal is the message where no kind can. */
static pare_status read_spec(pare_units *units, const char *name, size_t length, const char *value,
                             int kind, pare_condition made[2], size_t *count, pare_error *err)
{
    pare_error refused = {0};
    for (size_t i = 0; i < pare_spec_rows; i++) {
        const pare_spec_row *row = &pare_spec_table[i];
        const bool second = i > 0 && twin_of(row - 1) == row;
        if ((kind >= 0 && row->kind != (pare_kind)kind) || second ||
            !is_named(row->name, name, length))
            continue;
        const pare_spec_row *twin = twin_of(row);
        double low = 0, high = 0;
        bool pair = false;
        pare_error why = {0};
        if (read_value(units, value, made[0].how, is_range(row) ? NULL : twin, row->dimension, &low,
                       &high, &pair, &why) != PARE_OK) {
            if (refused.status == PARE_OK)
                refused = why;
            continue;
        }
        made[0].key = (int)row->spec;
        made[0].upper = (int)(is_range(row) ? twin->spec : row->spec);
        set(&made[0], row->kind, low, pair ? low : high);
        *count = 1;
        if (!pair)
            continue;
        made[1].how = made[0].how;
        made[1].key = made[1].upper = (int)twin->spec;
        set(&made[1], row->kind, high, high);
        *count = 2;
    }
    if (*count > 0)
        return PARE_OK;
    if (refused.status == PARE_OK)
        return unknown(name, length, kind, err);
    *err = refused;
    return pare_within(err, "%.*s", (int)length, name);
}

static pare_status read_condition(pare_units *units, const char *name, size_t length,
                                  pare_comparison how, const char *value, int kind,
                                  pare_condition made[2], size_t *count, pare_error *err)
{
    memset(made, 0, 2 * sizeof *made);
    made[0].how = how;
    *count = 0;
    for (size_t i = 0; i < COMMON; i++) {
        double low = 0, high = 0;
        bool pair;
        if (!is_named(common[i].name, name, length))
            continue;
        if (read_value(units, value, how, NULL, common[i].dimension, &low, &high, &pair, err) !=
            PARE_OK)
            return pare_within(err, "%s", common[i].name);
        made[0].key = made[0].upper = common[i].key;
        for (int k = 0; k < PARE_KINDS; k++)
            set(&made[0], (pare_kind)k, low, high);
        *count = 1;
        return PARE_OK;
    }
    return read_spec(units, name, length, value, kind, made, count, err);
}

/* ---- the text ---- */

static const char comparisons[] = "=<>!";

bool pare_is_filter(const char *text)
{
    return text[strcspn(text, comparisons)] != '\0';
}

static bool in_name(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

static bool between(char c)
{
    return c == ' ' || c == ',' || c == '\t' || c == '\n';
}

/* The name in front of a comparison, no farther back than `from`. */
static const char *name_before(const char *from, const char *at, size_t *length)
{
    const char *end = at;
    while (end > from && between(end[-1]))
        end--;
    const char *name = end;
    while (name > from && in_name(name[-1]))
        name--;
    *length = (size_t)(end - name);
    return name;
}

static pare_status read_comparison(const char *at, size_t length, pare_comparison *how,
                                   pare_error *err)
{
    static const struct {
        const char *sign;
        pare_comparison how;
    } known[] = {{"=", PARE_EQUAL},    {"==", PARE_EQUAL}, {"!=", PARE_UNEQUAL}, {"<", PARE_LESS},
                 {"<=", PARE_AT_MOST}, {">", PARE_MORE},   {">=", PARE_AT_LEAST}};
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
        if (is_named(known[i].sign, at, length)) {
            *how = known[i].how;
            return PARE_OK;
        }
    return pare_fail(err, PARE_BAD_DATA,
                     "'%.*s' is no comparison; right would be one of = != < <= > >=",
                     (int)(length < 8 ? length : 8), at);
}

/* The text of a value, without blanks and commas around it. */
static pare_status copy_value(const char *from, const char *to, char value[VALUE_SIZE],
                              pare_error *err)
{
    while (from < to && between(*from))
        from++;
    while (to > from && between(to[-1]))
        to--;
    const size_t length = (size_t)(to - from);
    if (length >= VALUE_SIZE)
        return pare_fail(err, PARE_BAD_DATA, "'%.24s...' is too long for a value", from);
    memcpy(value, from, length);
    value[length] = '\0';
    return PARE_OK;
}

/* The condition whose comparison is at `at`; @param[out] next  the next one's, or the text's end */
static pare_status read_one(pare_units *units, const char *from, const char *at, int kind,
                            pare_filter *filter, const char **value_end, const char **next,
                            pare_error *err)
{
    size_t length, next_length, count = 0;
    pare_comparison how = PARE_EQUAL;
    pare_condition made[2];
    char value[VALUE_SIZE];
    const char *name = name_before(from, at, &length);
    const char *before = name;
    while (from < before && between(*from))
        from++;
    while (from < before && between(before[-1]))
        before--;
    if (from < before)
        return pare_fail(err, PARE_BAD_DATA,
                         "'%.*s' stands before a condition; right would be a word of its own, or "
                         "nothing",
                         (int)(before - from < 40 ? before - from : 40), from);
    if (length == 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "nothing stands before '%.8s'; right would be a name, as in mass<12g", at);
    const size_t signs = strspn(at, comparisons);
    const char *start = at + signs;
    *next = start + strcspn(start, comparisons);
    *value_end = **next ? name_before(start, *next, &next_length) : *next;
    pare_status status = read_comparison(at, signs, &how, err);
    if (status == PARE_OK)
        status = copy_value(start, *value_end, value, err);
    if (status == PARE_OK)
        status = read_condition(units, name, length, how, value, kind, made, &count, err);
    if (status == PARE_OK && filter->count + count > PARE_CONDITIONS)
        return pare_fail(err, PARE_BAD_DATA, "more than %d conditions", PARE_CONDITIONS);
    for (size_t i = 0; status == PARE_OK && i < count; i++)
        filter->condition[filter->count++] = made[i];
    return status;
}

pare_status pare_filter_read(pare_units *units, const char *text, int kind, pare_filter *filter,
                             pare_error *err)
{
    const size_t before = filter->count;
    const char *from = text, *at = text + strcspn(text, comparisons);
    if (!*at)
        return pare_fail(err, PARE_BAD_DATA, "'%.40s' is no condition, as mass<12g is", text);
    while (*at) {
        const char *next = NULL, *value_end = NULL;
        const pare_status status = read_one(units, from, at, kind, filter, &value_end, &next, err);
        if (status != PARE_OK) {
            filter->count = before;
            return status;
        }
        from = value_end;
        at = next;
    }
    return PARE_OK;
}

/* ---- judging ---- */

static bool less(double a, double b)
{
    return a < b - ROUNDING * fabs(b);
}

/* NAN, which nobody has said, makes no condition hold. */
static bool holds(const pare_condition *c, pare_kind kind, const double number[])
{
    const bool range = c->upper != c->key;
    const double top = number[c->upper], least = c->low[kind], most = c->high[kind];
    const double bottom = range && isnan(number[c->key]) ? 0 : number[c->key];
    if (isnan(top) || isnan(bottom))
        return false;
    const bool equal =
        range ? !less(least, bottom) && !less(top, most) : !less(bottom, least) && !less(most, top);
    switch (c->how) {
    case PARE_EQUAL:
        return equal;
    case PARE_UNEQUAL:
        return !equal;
    case PARE_LESS:
        return less(bottom, least);
    case PARE_AT_MOST:
        return !less(least, bottom);
    case PARE_MORE:
        return less(least, top);
    case PARE_AT_LEAST:
        return !less(top, least);
    }
    return false;
}

bool pare_filter_holds(const pare_filter *filter, pare_kind kind, const double number[PARE_KEYS])
{
    for (size_t i = 0; i < filter->count; i++) {
        const pare_condition *condition = &filter->condition[i];
        if (!(condition->kinds & 1u << kind) || !holds(condition, kind, number))
            return false;
    }
    return true;
}
