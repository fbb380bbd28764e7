/* study_json.c: a study as JSON (see study.h). Tasks are written one by one, so that a million need no room. */
#include <stdio.h>

#include "show/study.h"

static json_t *file_or_null(const char *file)
{
    return file ? json_string(file) : json_null();
}

static json_t *task_object(const pare_study_view *view, size_t number)
{
    static const char *const says[] = {"yes", "no", "cannot"};
    const pare_study *study = view->study;
    const pare_study_task task = pare_study_task_at(study, number);
    pare_task_answer answer;
    char key[20];
    json_t *one = json_object(), *varied = json_object(), *figures = json_object();
    view->answer(view->context, number, &answer);
    snprintf(key, sizeof key, "%016llx", view->key[number]);
    json_object_set_new(one, "task", json_integer((json_int_t)number + 1));
    json_object_set_new(one, "key", json_string(key));
    if (study->bench[0].name)
        json_object_set_new(one, "bench",
                            json_string(study->bench[study->offer[task.offer].bench].name));
    json_object_set_new(one, "craft", json_string(study->offer[task.offer].craft));
    json_object_set_new(one, "loadout", file_or_null(view->loadout[task.offer]));
    json_object_set_new(one, "brief", file_or_null(study->brief[task.brief].name));
    for (size_t i = 0; i < study->axes; i++)
        json_object_set_new(varied, study->axis[i].name,
                            json_string(study->axis[i].word[task.value[i]]));
    json_object_set_new(one, "varied", varied);
    json_object_set_new(one, "answer", json_string(says[answer.says]));
    json_object_set_new(one, "why", file_or_null(answer.why));
    if (study->best) {
        json_object_set_new(one, "proven", json_boolean(answer.proven));
        json_object_set_new(one, "was_g", pare_json_number(answer.was_g));
        json_object_set_new(one, "bound_g", pare_json_number(answer.bound_g));
        json_object_set_new(one, "pays", pare_json_number(answer.pays));
        json_object_set_new(one, "work_min", pare_json_number(answer.work_min));
        json_object_set_new(one, "set", file_or_null(answer.set));
    }
    for (size_t i = 0; i < study->figures; i++) {
        char key_u[64];
        const char *name = pare_figure_table[study->figure[i]].key;
        snprintf(key_u, sizeof key_u, "%s_u", name);
        json_object_set_new(figures, name, pare_json_number(answer.value[i]));
        json_object_set_new(figures, key_u, pare_json_number(answer.u[i]));
    }
    json_object_set_new(one, "figures", figures);
    return one;
}

static json_t *covers_object(const pare_study_view *view, const pare_covers *covers)
{
    json_t *one = json_object(), *briefs = json_array();
    for (size_t b = 0; b < covers->briefs; b++)
        json_array_append_new(briefs, json_string(view->study->brief[covers->brief[b]].name));
    json_object_set_new(one, "task", json_integer((json_int_t)covers->task + 1));
    json_object_set_new(one, "craft", json_string(covers->craft));
    json_object_set_new(one, "loadout", file_or_null(covers->loadout));
    json_object_set_new(one, "tried", file_or_null(covers->tries));
    json_object_set_new(one, "set", json_string(covers->set));
    json_object_set_new(one, "all_up_g", pare_json_number(covers->grams));
    json_object_set_new(one, "money", pare_json_number(covers->money));
    json_object_set_new(one, "briefs", briefs);
    return one;
}

static json_t *cover_object(const pare_study_view *view)
{
    static const char *const wishes[] = {"customers", "craft", "money", "grams"};
    const pare_cover_view *c = view->cover;
    const bool most = view->study->cover.wish == PARE_COVER_CUSTOMERS;
    json_t *object = json_object(), *chosen = json_array(), *left = json_array();
    for (size_t i = 0; i < c->chosen; i++)
        json_array_append_new(chosen, covers_object(view, &c->covers[i]));
    for (size_t i = 0; i < c->lefts; i++) {
        json_t *one = json_object();
        json_object_set_new(one, "brief", json_string(view->study->brief[c->left[i]].name));
        json_object_set_new(one, "why", file_or_null(c->left_why[i]));
        json_array_append_new(left, one);
    }
    json_object_set_new(object, "wish", json_string(wishes[view->study->cover.wish]));
    json_object_set_new(object, "candidates", json_integer((json_int_t)c->candidates));
    json_object_set_new(object, "customers", json_integer(c->customers));
    json_object_set_new(object, "covered", json_integer(c->covered));
    json_object_set_new(object, "proven", json_boolean(c->proven));
    if (most)
        json_object_set_new(object, "covered_bound", json_integer(c->bound));
    json_object_set_new(object, "total", pare_json_number(c->total));
    if (!most)
        json_object_set_new(object, "total_bound", pare_json_number(c->total_bound));
    json_object_set_new(object, "chosen", chosen);
    json_object_set_new(object, "not_covered", left);
    return object;
}

static json_t *head_object(const pare_study_view *view)
{
    json_t *head = json_object(), *moved = json_array();
    for (size_t i = 0; i < view->moved; i++)
        json_array_append_new(moved, json_string(view->bench_moved[i]));
    json_object_set_new(head, "study", json_string(view->study->name));
    json_object_set_new(head, "ask", json_string(view->study->best ? "best" : "sheet"));
    json_object_set_new(head, "money_unit", file_or_null(view->money));
    json_object_set_new(head, "results", file_or_null(view->results));
    json_object_set_new(head, "journal", file_or_null(view->journal));
    json_object_set_new(head, "ranks", json_integer(view->ranks));
    json_object_set_new(head, "study_s", pare_json_number(view->seconds));
    json_object_set_new(head, "answered_before", json_integer((json_int_t)view->known));
    json_object_set_new(head, "damaged_lines", json_integer((json_int_t)view->damaged));
    json_object_set_new(head, "benches_changed", moved);
    json_object_set_new(head, "cover", view->cover ? cover_object(view) : json_null());
    return head;
}

void pare_study_json(const pare_study_view *view, pare_text *out)
{
    pare_json_list_begin_in(head_object(view), "tasks", out);
    for (size_t i = 0; i < view->tasks; i++)
        pare_json_list_put(task_object(view, i), i == 0, out);
    pare_json_list_end(view->tasks == 0, out);
}
