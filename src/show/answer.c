/* answer.c: named figures as text or JSON (see answer.h). */
#include "show/answer.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "show/digits.h"
#include "show/json.h"

static pare_answer_row *next(pare_answer *answer, const char *key, const char *words,
                             const char *unit)
{
    assert(answer->rows < PARE_ANSWER_ROWS);
    pare_answer_row *row = &answer->row[answer->rows++];
    *row = (pare_answer_row){.key = key, .words = words, .unit = unit};
    return row;
}

void pare_answer_add(pare_answer *answer, const char *key, const char *words, const char *unit,
                     double value)
{
    pare_answer_row *row = next(answer, key, words, unit);
    row->count = 1;
    row->value[0] = value;
}

void pare_answer_add_vector(pare_answer *answer, const char *key, const char *words,
                            const char *unit, const double value[3])
{
    pare_answer_row *row = next(answer, key, words, unit);
    row->count = 3;
    memcpy(row->value, value, sizeof row->value);
}

void pare_answer_doubt(pare_answer *answer, double u, pare_known known, const char *source)
{
    assert(answer->rows > 0 && answer->row[answer->rows - 1].count == 1);
    pare_answer_row *row = &answer->row[answer->rows - 1];
    row->u = u;
    row->known = known;
    row->source = source;
}

void pare_answer_note(pare_answer *answer, const char *format, ...)
{
    assert(answer->notes < PARE_ANSWER_NOTES);
    va_list args;
    va_start(args, format);
    vsnprintf(answer->note[answer->notes++], PARE_ANSWER_NOTE, format, args);
    va_end(args);
}

enum { SAID = 3 * PARE_DIGITS };

/* "2.8 +- 0.3 N", "12.5 0.0 3.1 mm". */
static void say(char text[SAID], const pare_screen *screen, const pare_answer_row *row)
{
    char digits[PARE_DIGITS];
    int length = 0;
    if (row->count == 1 && !isfinite(row->value[0])) { /* a note says why there is none */
        snprintf(text, SAID, "none");
        return;
    }
    if (row->source)
        length = snprintf(text, SAID, "%s", pare_digits_u(digits, screen, row->value[0], row->u));
    else if (row->count == 1)
        length = snprintf(text, SAID, "%.6g", row->value[0]);
    else
        length = snprintf(text, SAID, " %8.3f  %8.3f  %8.3f", row->value[0], row->value[1],
                          row->value[2]);
    if (row->unit[0])
        snprintf(text + length, (size_t)(SAID - length), " %s", row->unit);
}

void pare_answer_text(const pare_answer *answer, const pare_screen *screen, pare_text *out)
{
    char said[PARE_ANSWER_ROWS][SAID];
    int words = 0, values = 0;
    for (size_t i = 0; i < answer->rows; i++) {
        const pare_answer_row *row = &answer->row[i];
        say(said[i], screen, row);
        const int wide = pare_columns(row->words), value = pare_columns(said[i]);
        words = wide > words ? wide : words;
        values = row->source && value > values ? value : values;
    }
    for (size_t i = 0; i < answer->rows; i++) {
        const pare_answer_row *row = &answer->row[i];
        pare_put_left(out, row->words, words + 2);
        if (row->source) {
            pare_put_left(out, said[i], values + 2);
            pare_text_printf(out, "%s, %s\n", pare_known_name(row->known), row->source);
        } else {
            pare_text_printf(out, "%s\n", said[i]);
        }
    }
    for (size_t i = 0; i < answer->notes; i++)
        pare_text_printf(out, "%s\n", answer->note[i]);
}

static json_t *numbers(const pare_answer_row *row)
{
    if (row->count == 1)
        return pare_json_number(row->value[0]);
    json_t *list = json_array();
    for (size_t k = 0; k < row->count; k++)
        json_array_append_new(list, pare_json_number(row->value[k]));
    return list;
}

void pare_answer_json(const pare_answer *answer, pare_text *out)
{
    json_t *object = json_object(), *known = json_object(), *source = json_object();
    for (size_t i = 0; i < answer->rows; i++) {
        const pare_answer_row *row = &answer->row[i];
        json_object_set_new(object, row->key, numbers(row));
        if (!row->source)
            continue;
        char key_u[64];
        snprintf(key_u, sizeof key_u, "%s_u", row->key);
        json_object_set_new(object, key_u, pare_json_number(row->u));
        json_object_set_new(known, row->key, json_string(pare_known_name(row->known)));
        json_object_set_new(source, row->key, json_string(row->source));
    }
    if (json_object_size(known) > 0) {
        json_object_set(object, "known", known);
        json_object_set(object, "source", source);
    }
    json_decref(known);
    json_decref(source);
    pare_json_write(object, out);
}
