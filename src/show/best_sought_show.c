/* best_sought_show.c: what parts that nobody sells would save beyond the best set (see best.h).
 *
 * Such a part is a wish by the law of its kind: a set that rests on one is told apart, and never as proven. */
#include <string.h>

#include "show/best.h"

static bool rests_on_sought(const pare_applied *applied)
{
    return strstr(applied->id, "=sought-") != NULL;
}

void pare_best_put_sought(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_best *sought = view->sought;
    pare_text line = {0};
    if (!sought)
        return;
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, "Not proven: rests on parts nobody sells yet");
    if (!sought->found) {
        pare_text_add(&line, sought->stopped ? "Stopped before anything lighter was found."
                                             : "No such part makes anything lighter.");
        pare_put_line(screen, out, 2, 2, &line);
        return;
    }
    pare_text_printf(&line, "%.1f g, %.1f g below the best, would be had by looking for:",
                     pare_best_grams(sought->best_100ug),
                     pare_best_grams(view->best->best_100ug - sought->best_100ug));
    pare_put_line(screen, out, 2, 4, &line);
    for (size_t i = 0; i < sought->swaps; i++) {
        const pare_applied *a = &sought->swap[i].applied;
        if (!rests_on_sought(a))
            continue;
        pare_text_printf(&line, "%s", a->id);
        for (size_t n = 0; n < a->notes; n++)
            pare_text_printf(&line, "%s%s", n ? "; " : ": ", a->note[n]);
        pare_put_line(screen, out, 4, 6, &line);
    }
}

void pare_best_sought_into(json_t *object, const pare_best_view *view)
{
    const pare_best *sought = view->sought;
    if (!sought)
        return;
    json_t *one = sought->found ? json_object() : json_null(), *ids = json_array();
    pare_text list = {0};
    for (size_t i = 0; i < sought->swaps; i++) {
        const pare_applied *a = &sought->swap[i].applied;
        pare_text_printf(&list, "%s%s", i ? "," : "", a->id);
        if (rests_on_sought(a))
            json_array_append_new(ids, json_string(a->id));
    }
    if (sought->found) {
        json_object_set_new(one, "proven", json_false());
        json_object_set_new(one, "best_g", pare_json_number(pare_best_grams(sought->best_100ug)));
        json_object_set(one, "look_for", ids);
        json_object_set_new(one, "try", json_string(pare_text_all(&list)));
    }
    json_object_set_new(object, "sought", one);
    json_decref(ids);
    pare_text_free(&list);
}
