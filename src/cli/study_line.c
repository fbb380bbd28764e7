/* study_line.c: see study_line.h. Fields with tabs between; no text in one has a tab, since names are of
 * letters and errors have no control characters. */
#include "cli/study_line.h"

#include <stdlib.h>
#include <string.h>

#define NO_SET "!"

enum { NUMBERS = 6 };

static const char says[] = "ync"; /* as pare_task_says */

static double *number_of(pare_task_answer *answer, int number)
{
    double *const all[NUMBERS] = {&answer->was_g, &answer->mass_g, &answer->bound_g,
                                  &answer->worth, &answer->pays,   &answer->work_min};
    return all[number];
}

void study_line_put(const pare_task_answer *answer, pare_text *line)
{
    pare_task_answer copy = *answer;
    pare_text_printf(line, "%c\t%d\t%s\t%s", says[answer->says], answer->proven,
                     answer->set ? answer->set : NO_SET, answer->why ? answer->why : "");
    for (int i = 0; i < NUMBERS; i++)
        pare_text_printf(line, "\t%.17g", *number_of(&copy, i));
    for (size_t i = 0; i < answer->figures; i++)
        pare_text_printf(line, "\t%.17g\t%.17g", answer->value[i], answer->u[i]);
}

/* The next field; NULL: there is none. */
static char *next(char **rest)
{
    char *field = *rest, *tab = field ? strchr(field, '\t') : NULL;
    if (tab)
        *tab = '\0';
    *rest = tab ? tab + 1 : NULL;
    return field;
}

static bool next_number(char **rest, double *number)
{
    char *end = NULL;
    const char *field = next(rest);
    if (field)
        *number = strtod(field, &end);
    return field && end != field && !*end;
}

bool study_line_read(char *line, size_t figures, pare_task_answer *answer)
{
    char *rest = line;
    const char *said = next(&rest), *proven = next(&rest), *set = next(&rest), *why = next(&rest);
    const char *at = said && *said && !said[1] ? strchr(says, *said) : NULL;
    *answer = (pare_task_answer){.figures = figures};
    if (!at || !why || (strcmp(proven, "0") != 0 && strcmp(proven, "1") != 0))
        return false;
    answer->says = (pare_task_says)(at - says);
    answer->proven = *proven == '1';
    answer->set = strcmp(set, NO_SET) == 0 ? NULL : set;
    answer->why = *why ? why : NULL;
    for (int i = 0; i < NUMBERS; i++)
        if (!next_number(&rest, number_of(answer, i)))
            return false;
    for (size_t i = 0; i < figures; i++)
        if (!next_number(&rest, &answer->value[i]) || !next_number(&rest, &answer->u[i]))
            return false;
    return !rest;
}
