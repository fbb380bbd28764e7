/* answer.h: a short list of named figures, as text or JSON: what `pare calc` gives. */
#ifndef PARE_SHOW_ANSWER_H
#define PARE_SHOW_ANSWER_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"

enum { PARE_ANSWER_ROWS = 24, PARE_ANSWER_NOTES = 4, PARE_ANSWER_NOTE = 160 };

/** One figure, already in the unit that ends its key. */
typedef struct pare_answer_row {
    const char *key;   /* "thrust_n" */
    const char *words; /* "thrust" */
    const char *unit;  /* "N"; "" for a bare number */
    size_t count;      /* 1, or 3 for a vector */
    double value[3];
} pare_answer_row;

typedef struct pare_answer {
    size_t rows;
    pare_answer_row row[PARE_ANSWER_ROWS];
    size_t notes; /* lines below the figures: cautions, what was assumed */
    char note[PARE_ANSWER_NOTES][PARE_ANSWER_NOTE];
} pare_answer;

void pare_answer_add(pare_answer *answer, const char *key, const char *words, const char *unit,
                     double value);
void pare_answer_add_vector(pare_answer *answer, const char *key, const char *words,
                            const char *unit, const double value[3]);
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void
pare_answer_note(pare_answer *answer, const char *format, ...);

/** Aligned lines "words  value unit", then the notes. */
void pare_answer_text(const pare_answer *answer, pare_text *out);
/** One object, keys as they are; a figure that is not finite is null. */
void pare_answer_json(const pare_answer *answer, pare_text *out);

#endif
