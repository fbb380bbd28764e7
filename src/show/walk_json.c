/* walk_json.c: the order in which to buy a set, as JSON (see walk.h). */
#include "show/walk.h"

static json_t *grams(int64_t units)
{
    return pare_json_number(pare_best_grams(units));
}

static json_t *money(int64_t cents)
{
    return pare_json_number(1e-2 * (double)cents);
}

static json_t *step_object(const pare_walk_view *view, size_t index)
{
    const pare_walk_step *step = &view->walk->step[index];
    json_t *one = json_object(), *swaps = json_array();
    for (size_t i = 0; i < step->swaps; i++)
        json_array_append_new(swaps, json_string(view->best->swap[step->swap[i]].applied.id));
    json_object_set_new(one, "swaps", swaps);
    json_object_set_new(one, "grams", grams(step->saved_100ug));
    json_object_set_new(one, "money", step->priced ? money(step->cents) : json_null());
    json_object_set_new(one, "all_up_g", grams(step->mass_100ug));
    json_object_set_new(one, "spent", money(step->spent_cents));
    json_object_set_new(one, "now", json_boolean(index < view->walk->now));
    return one;
}

json_t *pare_walk_object(const pare_walk_view *view)
{
    const pare_walk *walk = view->walk;
    json_t *object = json_object(), *steps = json_array();
    json_object_set_new(object, "craft", json_string(view->best->before->name));
    json_object_set_new(object, "loadout",
                        view->loadout ? json_string(view->loadout) : json_null());
    json_object_set_new(object, "found", json_boolean(view->best->found));
    json_object_set_new(object, "was_g", grams(walk->was_100ug));
    json_object_set_new(object, "best_g",
                        view->best->found ? grams(view->best->best_100ug) : json_null());
    json_object_set_new(object, "proven", json_boolean(view->best->proven));
    json_object_set_new(object, "exact", json_boolean(walk->exact));
    json_object_set_new(object, "stopped", json_boolean(walk->stopped));
    json_object_set_new(object, "budget", view->budget ? money(*view->budget) : json_null());
    json_object_set_new(object, "now_steps", json_integer((json_int_t)walk->now));
    for (size_t i = 0; i < walk->steps; i++)
        json_array_append_new(steps, step_object(view, i));
    json_object_set_new(object, "steps", steps);
    return object;
}
