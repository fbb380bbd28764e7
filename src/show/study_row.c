/* study_row.c: a task as a row of fields (see study.h). Numbers have ten significant digits, as in JSON; what
 * does not exist is an empty field. */
#include <math.h>
#include <stdio.h>

#include "show/study.h"

typedef struct row {
    const pare_study_view *view;
    long long task;
    pare_study_put put;
    void *context;
} row;

static void put(const row *r, const char *title, const char *field)
{
    r->put(r->context, r->task < 0 ? title : field ? field : "");
}

static void put_number(const row *r, const char *title, double number)
{
    char text[32] = "";
    if (isfinite(number))
        snprintf(text, sizeof text, "%.10g", number + 0); /* no -0 */
    put(r, title, text);
}

static void put_task(const row *r, const pare_study_task *task)
{
    const pare_study *study = r->view->study;
    char text[32];
    snprintf(text, sizeof text, "%lld", r->task + 1);
    put(r, "task", text);
    snprintf(text, sizeof text, "%016llx", r->task < 0 ? 0 : r->view->key[r->task]);
    put(r, "key", text);
    if (study->bench[0].name)
        put(r, "bench", study->bench[study->offer[task->offer].bench].name);
    put(r, "craft", study->offer[task->offer].craft);
    put(r, "loadout", r->view->loadout[task->offer]);
    if (study->brief[0].name)
        put(r, "brief", study->brief[task->brief].name);
    for (size_t i = 0; i < study->axes; i++)
        put(r, study->axis[i].name, study->axis[i].word[task->value[i]]);
}

static void put_set(const row *r, const pare_task_answer *answer)
{
    const bool sought = answer->says != PARE_TASK_CANNOT;
    put(r, "proven", sought ? answer->proven ? "yes" : "no" : "");
    put_number(r, "was_g", answer->was_g);
    put_number(r, "bound_g", answer->bound_g);
    put_number(r, "pays", answer->pays);
    put_number(r, "work_min", answer->work_min);
    put(r, "set", answer->set);
}

void pare_study_row(const pare_study_view *view, long long task, pare_study_put put_one,
                    void *context)
{
    static const char *const says[] = {"yes", "no", "cannot"};
    const row r = {view, task, put_one, context};
    const pare_study *study = view->study;
    const pare_study_task of = pare_study_task_at(study, task < 0 ? 0 : (size_t)task);
    pare_task_answer answer = {0};
    if (task >= 0)
        view->answer(view->context, (size_t)task, &answer);
    put_task(&r, &of);
    put(&r, "answer", says[answer.says]);
    put(&r, "why", answer.why);
    if (study->best)
        put_set(&r, &answer);
    for (size_t i = 0; i < study->figures; i++) {
        const char *key = pare_figure_table[study->figure[i]].key;
        char key_u[64];
        snprintf(key_u, sizeof key_u, "%s_u", key);
        put_number(&r, key, answer.value[i]);
        put_number(&r, key_u, answer.u[i]);
    }
}
