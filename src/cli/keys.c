/* keys.c: key=value words (see keys.h). */
#include "cli/keys.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/text.h"

static pare_status find(const char *thing, size_t keys, const key table[], const char *word,
                        size_t *index, pare_error *err)
{
    const char *equals = strchr(word, '=');
    if (!equals)
        return pare_fail(err, PARE_BAD_DATA, "%s: '%s' is not key=value", thing, word);
    const size_t length = (size_t)(equals - word);
    const char *names[KEYS] = {NULL};
    for (size_t i = 0; i < keys; i++) {
        if (strlen(table[i].name) == length && strncmp(table[i].name, word, length) == 0) {
            *index = i;
            return PARE_OK;
        }
        names[i] = table[i].name;
    }
    char typed[64];
    const size_t kept = length < sizeof typed - 1 ? length : sizeof typed - 1;
    memcpy(typed, word, kept);
    typed[kept] = '\0';
    const char *near = pare_nearest(typed, keys, names);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "%s has no key '%s'; did you mean %s?", thing, typed,
                         near);
    pare_text list = {0};
    for (size_t i = 0; i < keys; i++)
        pare_text_printf(&list, "%s%s", i ? ", " : "", names[i]);
    pare_fail(err, PARE_UNKNOWN, "%s has no key '%s'; it takes %s", thing, typed,
              pare_text_all(&list));
    pare_text_free(&list);
    return PARE_UNKNOWN;
}

pare_status keys_read(const char *thing, size_t keys, const key table[], size_t words,
                      const char *const word[], pare_units *units, key_values *out, pare_error *err)
{
    assert(keys <= KEYS);
    *out = (key_values){0};
    for (size_t i = 0; i < keys; i++)
        out->value[i] = table[i].otherwise;
    for (size_t w = 0; w < words; w++) {
        size_t i = 0;
        pare_status status = find(thing, keys, table, word[w], &i, err);
        if (status != PARE_OK)
            return status;
        if (out->given[i])
            return pare_fail(err, PARE_BAD_DATA, "%s: %s is given twice", thing, table[i].name);
        out->given[i] = true;
        out->text[i] = strchr(word[w], '=') + 1;
        if (table[i].is_word)
            continue;
        status = pare_quantity(units, out->text[i], table[i].dimension, &out->value[i], err);
        if (status != PARE_OK)
            return pare_within(err, "%s: %s", thing, table[i].name);
        if (!(out->value[i] >= table[i].low && out->value[i] <= table[i].high))
            return pare_fail(err, PARE_BAD_DATA, "%s: %s=%s is outside %s", thing, table[i].name,
                             out->text[i], table[i].allowed);
    }
    for (size_t i = 0; i < keys; i++)
        if (table[i].needed && !out->given[i])
            return pare_fail(err, PARE_BAD_DATA, "%s needs %s", thing, table[i].name);
    return PARE_OK;
}
