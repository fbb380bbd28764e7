/* keys.h: key=value words, read by a table of what a thing takes. */
#ifndef PARE_CLI_KEYS_H
#define PARE_CLI_KEYS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"
#include "base/units.h"

/** One key that a thing takes. A word key (words set) keeps its text; others are quantities. */
typedef struct key {
    const char *name;
    pare_dimension dimension;
    double low, high;    /* SI, inclusive */
    const char *allowed; /* the same range for a message: "20 mm .. 1 m" */
    bool needed;
    double otherwise; /* its value where it is not given; NAN: none */
    bool is_word;
} key;

enum { KEYS = 24 };

typedef struct key_values {
    bool given[KEYS];
    double value[KEYS];
    const char *text[KEYS]; /* as typed */
} key_values;

/** Reads words "name=value".
 *
 * @param thing  what they describe, for messages: "calc prop"
 * @return PARE_OK; PARE_UNKNOWN for a key that it does not take (with the nearest); PARE_BAD_DATA for
 *         a word without '=', a key given twice, a missing needed key, a value that cannot be read
 *         or is out of range (the message has the range) */
pare_status keys_read(const char *thing, size_t keys, const key table[], size_t words,
                      const char *const word[], pare_units *units, key_values *out,
                      pare_error *err);

#endif
