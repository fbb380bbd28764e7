/* filter.h: conditions on a part's numbers, as a person types them: "mass<12g cells>=6".
 *
 * A key is mass, price, owned or the name of a spec (spec.h). A part on which nobody has said a
 * number has no such number, so no condition on it holds, != included; a mass it always has, and of
 * a part nobody said to own there are 0. */
#ifndef PARE_CRAFT_FILTER_H
#define PARE_CRAFT_FILTER_H

#include "base/units.h"
#include "craft/part.h"

/** A spec is its own key; then these. */
enum {
    PARE_KEY_MASS = PARE_SPECS, /* kg, however it is known */
    PARE_KEY_PRICE,             /* the bench's money, each */
    PARE_KEY_OWNED,
    PARE_KEYS
};
enum { PARE_KEY_NONE = -1 };

/** A completed part's numbers by key: SI, NAN where nobody has said it; what a law filled is left out,
 * but for the mass. */
void pare_numbers_of(const pare_part *part, double number[PARE_KEYS]);

typedef enum pare_comparison {
    PARE_EQUAL,
    PARE_UNEQUAL,
    PARE_LESS,
    PARE_AT_MOST,
    PARE_MORE,
    PARE_AT_LEAST
} pare_comparison;

/** One condition. Two rows of spec.h with one name are a range (volts) or a pair (stator). */
typedef struct pare_condition {
    pare_comparison how;
    int key;        /* of a pair the first, of a range the lower end */
    int upper;      /* of a range the upper end; otherwise the same as key */
    unsigned kinds; /* bit (1u << kind): those that have the spec, in the dimension of the value */
    double low[PARE_KINDS], high[PARE_KINDS]; /* SI, as that kind's spec; equal for one value */
} pare_condition;

enum { PARE_CONDITIONS = 16 };
typedef struct pare_filter {
    size_t count;
    pare_condition condition[PARE_CONDITIONS];
} pare_filter;

/** Whether a word of a command line is meant as conditions: it holds one of = < > !. */
bool pare_is_filter(const char *text);

/** Reads conditions and adds them: "mass<12g cells>=6", "kv=1700..1800", "stator=22mm x 7mm".
 *
 * Comparisons are = != < <= > >=. = and != take a range, and = a pair's two sizes; one size is a
 * pair's first. A range of a part (volts: 11 V .. 25.5 V) is all that it takes, so = asks whether it
 * takes that value, or all of that range; >= whether it takes so much or more (its upper end), <=
 * whether it takes so little or less (its lower end, 0 where only the upper one is said). Numbers that
 * differ by rounding only (1e-9 of them) are equal.
 * @param kind    the only kind that is looked for, -1: any
 * @param filter  count 0 to start with; as it was on failure
 * @return PARE_OK; PARE_UNKNOWN for a key that is none, or that the kind has not, with the nearest;
 *         PARE_BAD_DATA for a value that cannot be read (with the units that fit), too many */
pare_status pare_filter_read(pare_units *units, const char *text, int kind, pare_filter *filter,
                             pare_error *err);

/** Whether all conditions hold for a part of a kind. */
bool pare_filter_holds(const pare_filter *filter, pare_kind kind, const double number[PARE_KEYS]);

/** The key of a name, for sorting: of a range the upper end, of a pair the first.
 * @param name  [length]
 * @return PARE_OK or PARE_UNKNOWN, as pare_filter_read() */
pare_status pare_key_named(const char *name, size_t length, int kind, int *key, pare_error *err);

/** All names of keys, each once. @param[out] names  [PARE_KEYS] @return how many */
size_t pare_key_names(int kind, const char *names[PARE_KEYS]);

#endif
