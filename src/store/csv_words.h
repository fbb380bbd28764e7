/* csv_words.h: what builders call things in their lists. Inside the room only. */
#ifndef PARE_STORE_CSV_WORDS_H
#define PARE_STORE_CSV_WORDS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/units.h"
#include "store/csv_list.h"

/** How a cell of a column is read. */
typedef enum pare_csv_form {
    PARE_CSV_LEFT_OUT, /* not read; kept as a note where notes are wished */
    PARE_CSV_ID,       /* a typeable name, as it stands */
    PARE_CSV_NAME,     /* free text of which an id is made where there is none */
    PARE_CSV_KIND,     /* a word of the trade for a kind of part */
    PARE_CSV_TEXT,     /* free text */
    PARE_CSV_WORD,     /* a word out of a few, in small letters */
    PARE_CSV_QUANTITY, /* a number with its unit */
    PARE_CSV_COUNT,    /* a whole number, "4S", "4 pcs" */
    PARE_CSV_SPAN,     /* one quantity or two ends: "11-25.5 V" */
    PARE_CSV_PAIR,     /* a stator: "2207", "22 x 7 mm" */
    PARE_CSV_SIZE,     /* by kind: a stator, a propeller's "5.1x4.3x3", a wheelbase */
    PARE_CSV_MOUNT,    /* by kind: a bolt circle or a stack */
    PARE_CSV_FIT,      /* a size that parts meet at: "16 mm", "M3", "30.5x30.5" */
    PARE_CSV_MONEY,    /* "18,90 EUR" */
    PARE_CSV_DATE,     /* a day */
    PARE_CSV_MASS_U,   /* the uncertainty of the mass */
    PARE_CSV_KNOWN,    /* how the mass is known */
    PARE_CSV_THINGS    /* what lay on a scale */
} pare_csv_form;

/** Something that a column may say. */
typedef struct pare_csv_target {
    pare_list_kind list;
    const char *name; /* as it is typed in --map */
    pare_csv_form form;
    pare_dimension dimension;
    const char *map; /* the map of a part or record that it goes into: "spec"; NULL: itself */
} pare_csv_target;

/** What it says in the text form where that has another name: a pulse is a throttle. */
const char *pare_csv_target_says(const pare_csv_target *target);

/** The target of a name in one kind of list, or NULL. */
const pare_csv_target *pare_csv_target_named(pare_list_kind list, const char *name);

/** All names of targets of a list, for suggestions. @return how many of `names` are used */
enum { PARE_CSV_TARGETS = 80 };
size_t pare_csv_target_names(pare_list_kind list, const char *names[PARE_CSV_TARGETS]);

/** What a column's title means in a list.
 *
 * @param title    tidied: small letters, one blank between words
 * @param[out] unit  the unit that the title stands for ("mah": mAh), or NULL
 * @param[out] or_kind  the title may as well be that of the kinds ("item", "type")
 * @return NULL where it is none of ours */
const pare_csv_target *pare_csv_title(pare_list_kind list, const char *title, const char **unit,
                                      bool *or_kind);

/** The title nearest to an unknown one, or NULL. */
const char *pare_csv_title_near(pare_list_kind list, const char *title);

/** A kind by what builders call it ("4in1 esc"), tidied as titles are; -1: none of those. */
int pare_csv_kind(const char *words);
/** The chemistry that a word for packs says ("lihv", "li ion"), as the text form has it; NULL: none. */
const char *pare_csv_kind_chemistry(const char *words);
/** The nearest such words, or NULL. */
const char *pare_csv_kind_near(const char *words);

/** A unit as Pare writes it, for what people write ("gr", "MAH", "inches"); the text itself where it
 * is none of those. */
const char *pare_csv_unit(const char *typed, pare_dimension dimension);

/** Whether a cell says that nothing is known: "", "-", "?", "n/a" and the like. */
bool pare_csv_is_nothing(const char *cell);

/** Whether a row's first word says that it adds others up: "Total". */
bool pare_csv_is_total(const char *cell);

/** Small letters, one blank between words, none of the signs between them; cut at `size`. Letters
 * with accents lose them. */
void pare_csv_tidy(const char *text, char *tidy, size_t size);

#endif
