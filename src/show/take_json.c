/* take_json.c: taken swaps and their checklist as JSON (see take.h). */
#include "show/sheet_json.h"
#include "show/shopping.h"
#include "show/take.h"

static json_t *texts(size_t count, const char *const list[])
{
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(array, json_string(list[i]));
    return array;
}

json_t *pare_taken_object(const pare_taken *taken)
{
    json_t *one = json_object(), *brings = json_array(), *promise = json_object();
    json_object_set_new(one, "swap", json_string(taken->swap));
    json_object_set_new(one, "stage", json_string(pare_stage_name(pare_taken_stage(taken))));
    json_object_set_new(one, "on_craft", json_boolean(pare_taken_is_on(taken)));
    for (int s = 0; s < PARE_STAGES; s++)
        json_object_set_new(one, pare_stage_name((pare_stage)s), pare_text_or_null(taken->date[s]));
    for (size_t i = 0; i < taken->brings; i++)
        json_array_append_new(brings, json_string(taken->bring[i]->id));
    json_object_set_new(one, "brings", brings);
    for (size_t i = 0; i < taken->promises; i++) {
        const pare_promised *p = &taken->promise[i];
        if (p->count == 1) {
            json_object_set_new(promise, p->key, pare_json_number(p->value[0]));
            continue;
        }
        json_t *place = json_array();
        for (size_t k = 0; k < p->count; k++)
            json_array_append_new(place, pare_json_number(p->value[k]));
        json_object_set_new(promise, p->key, place);
    }
    json_object_set_new(one, "promise", promise);
    return one;
}

/* @param scale  from SI to the unit at the end of the names */
static void put_answer(json_t *object, const char *key, const pare_answer *answer, double scale)
{
    if (!answer->there)
        return;
    json_t *one = json_object();
    json_object_set_new(one, "promised", pare_json_number(scale * answer->promised));
    json_object_set_new(one, "promised_u", pare_json_number(scale * answer->promised_u));
    json_object_set_new(one, "measured", pare_json_number(scale * answer->measured));
    json_object_set_new(one, "measured_u", pare_json_number(scale * answer->measured_u));
    json_object_set_new(one, "real", pare_json_number(answer->real));
    json_object_set_new(one, "swaps", json_integer((json_int_t)answer->swaps));
    json_object_set_new(one, "before", json_integer((json_int_t)answer->before));
    json_object_set_new(one, "since", json_integer((json_int_t)answer->since));
    json_object_set_new(object, key, one);
}

static json_t *answers_object(const pare_answers *answers)
{
    json_t *object = json_object();
    put_answer(object, "all_up_g", &answers->mass, 1e3);
    put_answer(object, "flown_min", &answers->minutes, 1.0 / 60);
    put_answer(object, "hover_a", &answers->hover, 1);
    put_answer(object, "hover_output", &answers->output, 1);
    return object;
}

static json_t *checklist_object(const pare_checklist *list)
{
    json_t *object = json_object(), *groups = json_array();
    json_object_set_new(object, "swaps", json_integer((json_int_t)list->swaps));
    json_object_set_new(object, "work_min", pare_json_number(list->minutes));
    json_object_set_new(object, "solder_joints", json_integer(list->solder_joints));
    json_object_set_new(object, "first", texts(list->firsts, list->first));
    for (int g = 0; g < PARE_OPENINGS; g++) {
        const pare_check_group *group = &list->group[g];
        if (group->steps == 0)
            continue;
        json_t *one = json_object();
        json_object_set_new(one, "opening", json_string(pare_opening_words((pare_opening)g)));
        json_object_set_new(one, "work_min", pare_json_number(group->minutes));
        json_object_set_new(one, "solder_joints", json_integer(group->solder_joints));
        json_object_set_new(one, "tools", texts(group->tools, group->tool));
        json_object_set_new(one, "steps", texts(group->steps, group->step));
        json_array_append_new(groups, one);
    }
    json_object_set_new(object, "openings", groups);
    json_object_set_new(object, "checks", texts(list->checks, list->check));
    return object;
}

static json_t *taken_object(const pare_take_view *view, size_t which)
{
    json_t *one = pare_taken_object(&view->first->taken[which]);
    json_object_set_new(one, "answered", answers_object(&view->answers[which]));
    return one;
}

json_t *pare_take_object(const pare_take_view *view)
{
    const pare_sheet_figure *now = &view->built->figure[PARE_ALL_UP];
    const pare_taken_facts *facts = &view->facts;
    const bool waiting = facts->chosen + facts->ordered > 0;
    json_t *object = json_object(), *taken = json_array();
    json_object_set_new(object, "craft", json_string(view->first->name));
    for (size_t i = 0; i < view->first->takens; i++)
        if (view->shown[i])
            json_array_append_new(taken, taken_object(view, i));
    json_object_set_new(object, "taken", taken);
    json_object_set_new(object, "all_up_g", pare_json_number(1e3 * now->value));
    json_object_set_new(object, "all_up_g_u", pare_json_number(1e3 * now->u));
    json_object_set_new(object, "planned_all_up_g",
                        facts->planned ? pare_json_number(1e3 * facts->planned_kg) : json_null());
    json_object_set_new(object, "planned_all_up_g_u",
                        facts->planned ? pare_json_number(1e3 * facts->planned_u_kg) : json_null());
    if (waiting && !facts->planned)
        json_object_set_new(object, "planned_why", json_string(facts->why));
    json_object_set_new(object, "checklist", checklist_object(view->checklist));
    if (view->shopping) {
        json_object_set_new(object, "shopping", pare_shopping_object(view->shopping, view->money));
        json_object_set_new(object, "cutting", pare_cutting_object(view->shopping));
    }
    return object;
}
