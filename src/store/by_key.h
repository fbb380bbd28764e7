/* by_key.h: parts and craft of the bench added, changed and copied by keys of their text form, or
 * replaced by a text that a person edited.
 *
 * A key is a path into the text: "mass=31.2g", "spec.kv=1750", "price.each=3.20",
 * "items.motor.count=4"; off takes an entry away. In a part, a spec's own name is short for spec.NAME
 * and known for mass.known. In a craft, an item's name is short for items.NAME, and a part's id alone
 * stands for {part: ID} with the count and place that are usual for its kind.
 *
 * Each is one change: the whole of it, or nothing. */
#ifndef PARE_STORE_BY_KEY_H
#define PARE_STORE_BY_KEY_H

#include "store/bench.h"

/** Whether it is about a part or a craft. */
typedef enum pare_thing { PARE_A_PART, PARE_A_CRAFT } pare_thing;

/** One entry of the text that a change has altered. */
typedef struct pare_entry_change {
    const char *key;      /* its path */
    const char *was, *is; /* on one line, in flow style; NULL: it was not, or is no longer, there */
} pare_entry_change;

typedef struct pare_edit_summary {
    bool changed;                   /* false: it says already what it was to say */
    size_t count;                   /* 0 although changed: only the order is another */
    const pare_entry_change *entry; /* [count] */
    size_t warnings;
    const char *const *warning; /* [warnings] as of an import */
} pare_edit_summary;

/** Adds a part or a craft.
 *
 * @param name  of letters, digits, '-', '_' and '.'; not on the bench yet
 * @param word  [count] KEY=VALUE
 * @param arena  holds the summary, which may be NULL
 * @return PARE_OK; PARE_UNKNOWN: a key, part or item that is not known, with the nearest; PARE_BAD_DATA:
 *         a value that cannot be, a name that is taken, a craft that lacks what it needs to fly; both
 *         name the word; PARE_UNAVAILABLE: locked, full */
pare_status pare_store_add(pare_store *store, pare_thing thing, const char *name, size_t count,
                           const char *const word[], const pare_change *change, pare_arena *arena,
                           pare_edit_summary *summary, pare_error *err);

/** Changes one that is there. A part that craft use must still fit them.
 *
 * A bare quantity for mass or a spec takes the place of all that stood there: a new number is the
 * maker's until something else is said of it. A bare price takes the place of each and of the date.
 * @return likewise; PARE_UNKNOWN also: no such part or craft */
pare_status pare_store_alter(pare_store *store, pare_thing thing, const char *name, size_t count,
                             const char *const word[], const pare_change *change, pare_arena *arena,
                             pare_edit_summary *summary, pare_error *err);

/** A second one of another name. A craft comes with brief and loadouts and the swaps that were fitted,
 * without those only chosen or ordered and without its records; a part without what is owned of it. */
pare_status pare_store_copy(pare_store *store, pare_thing thing, const char *name, const char *copy,
                            const pare_change *change, pare_error *err);

/** A text that a person has edited, in place of the one that is there.
 *
 * @param before  the text as it was when it was given to the person; refused where another is there
 *                by now
 * @param bytes   [length], which must still say the same name
 * @param said_name  in front of line and column in errors */
pare_status pare_store_replace(pare_store *store, pare_thing thing, const char *name,
                               const char *before, const char *bytes, size_t length,
                               const char *said_name, const pare_change *change, pare_arena *arena,
                               pare_edit_summary *summary, pare_error *err);

/** Text for a person to edit: a line an entry. */
pare_status pare_store_text_to_edit(pare_store *store, pare_thing thing, const char *name,
                                    pare_text *text, pare_error *err);

#endif
