/* answer.h: a short list of named figures, as text or JSON: what `pare calc` gives.
 *
 * A figure that follows exactly from what was typed is a bare number. One that rests on a model or a
 * law says how uncertain it is, how it is known and where it comes from. */
#ifndef PARE_SHOW_ANSWER_H
#define PARE_SHOW_ANSWER_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"
#include "craft/value.h"
#include "show/screen.h"

enum { PARE_ANSWER_ROWS = 28, PARE_ANSWER_NOTES = 6, PARE_ANSWER_NOTE = 160 };

/** One figure, already in the unit that ends its key. */
typedef struct pare_answer_row {
    const char *key;   /* "thrust_n" */
    const char *words; /* "thrust" */
    const char *unit;  /* "N"; "" for a bare number */
    size_t count;      /* 1, or 3 for a vector */
    double value[3];
    const char *source; /* "model from size"; NULL: exact, and the next two say nothing */
    double u;           /* standard uncertainty, in the same unit */
    pare_known known;
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
/** How uncertain the figure is that was added last (not a vector), how it is known, and its source. */
void pare_answer_doubt(pare_answer *answer, double u, pare_known known, const char *source);
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void
pare_answer_note(pare_answer *answer, const char *format, ...);

/** Aligned lines "words  value +- u unit  known, source", then the notes; no digit below u. */
void pare_answer_text(const pare_answer *answer, const pare_screen *screen, pare_text *out);
/** One object, keys as they are; a figure that is not finite is null. Where K has an uncertainty, it
 * is K_u, and the objects known and source have K. */
void pare_answer_json(const pare_answer *answer, pare_text *out);

#endif
