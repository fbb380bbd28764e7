/* answer.c: named figures as text or JSON (see answer.h). */
#include "show/answer.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

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

void pare_answer_note(pare_answer *answer, const char *format, ...)
{
    assert(answer->notes < PARE_ANSWER_NOTES);
    va_list args;
    va_start(args, format);
    vsnprintf(answer->note[answer->notes++], PARE_ANSWER_NOTE, format, args);
    va_end(args);
}

void pare_answer_text(const pare_answer *answer, pare_text *out)
{
    int width = 0;
    for (size_t i = 0; i < answer->rows; i++) {
        const int length = (int)strlen(answer->row[i].words);
        width = length > width ? length : width;
    }
    for (size_t i = 0; i < answer->rows; i++) {
        const pare_answer_row *row = &answer->row[i];
        pare_text_printf(out, "%-*s ", width, row->words);
        for (size_t k = 0; k < row->count; k++) {
            if (row->count > 1)
                pare_text_printf(out, " %8.3f", row->value[k]);
            else
                pare_text_printf(out, " %.6g", row->value[k]);
        }
        pare_text_printf(out, "%s%s\n", row->unit[0] ? " " : "", row->unit);
    }
    for (size_t i = 0; i < answer->notes; i++)
        pare_text_printf(out, "%s\n", answer->note[i]);
}

void pare_answer_json(const pare_answer *answer, pare_text *out)
{
    json_t *object = json_object();
    for (size_t i = 0; i < answer->rows; i++) {
        const pare_answer_row *row = &answer->row[i];
        if (row->count == 1) {
            json_object_set_new(object, row->key, pare_json_number(row->value[0]));
            continue;
        }
        json_t *list = json_array();
        for (size_t k = 0; k < row->count; k++)
            json_array_append_new(list, pare_json_number(row->value[k]));
        json_object_set_new(object, row->key, list);
    }
    pare_json_write(object, out);
}
