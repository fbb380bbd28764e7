/* best_sure_show.c: how surely a best set keeps the brief's limits, and what that costs (see best.h). */
#include <math.h>
#include <stdio.h>

#include "show/best.h"

/* Never 100 % of what is not certain. */
static void add_share(double share, pare_text *line)
{
    if (share > 0.9995 && share < 1)
        pare_text_add(line, "over 99.9 %");
    else
        pare_text_printf(line, "%.1f %%", 100 * share);
}

static void put_limits(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_sure_drawn *drawn = &view->sure->drawn;
    pare_text line = {0};
    if (drawn->limits == 0)
        return;
    for (size_t i = 0; i < drawn->limits; i++) {
        pare_text_add(&line, i ? "; " : "");
        pare_best_put_limit(view->best, drawn->limit[i].name, false, &line);
        pare_text_add(&line, " ");
        add_share(drawn->limit[i].linear, &line);
        pare_text_add(&line, ", drawn ");
        add_share(drawn->limit[i].drawn, &line);
    }
    pare_put_line(screen, out, PARE_LABEL, PARE_LABEL, &line);
}

static void put_price(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_best_sureness *sure = view->sure;
    const bool proven = view->best->proven && sure->just_proven;
    pare_text line = {0};
    if (!sure->just)
        return;
    pare_text_printf(&line,
                     "%g %% costs %.1f g more than the set that just meets the limits, %.1f g",
                     100 * sure->asked, pare_best_grams(view->best->best_100ug - sure->just_100ug),
                     pare_best_grams(sure->just_100ug));
    pare_text_add(&line, proven ? "" : ", as far as both were searched");
    pare_put_labelled_line(screen, out, "its price", &line);
}

void pare_best_put_sureness(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_best_sureness *sure = view->sure;
    pare_text line = {0};
    if (!sure)
        return;
    pare_text_add(&line, "all limits together hold with ");
    add_share(pare_sure_chance(view->best->sheet_after, NULL), &line);
    pare_text_printf(&line, " at least by the linear model; drawn and flown %d times, with ",
                     sure->drawn.draws);
    add_share(sure->drawn.all, &line);
    pare_text_printf(&line, " (± %.1f)", fmax(100 * sure->drawn.all_u, 0.1));
    if (sure->drawn.all < sure->asked - 2 * sure->drawn.all_u)
        pare_text_printf(&line, ", less than %g %%: flights do not bend as the linear model does",
                         100 * sure->asked);
    pare_put_labelled_line(screen, out, "how sure", &line);
    put_limits(view, screen, out);
    put_price(view, screen, out);
}

void pare_best_sureness_into(json_t *object, const pare_best_view *view)
{
    const pare_best_sureness *sure = view->sure;
    if (!sure)
        return;
    json_t *one = json_object(), *limits = json_array();
    json_object_set_new(one, "asked", pare_json_number(sure->asked));
    if (view->best->found) {
        const pare_sure_drawn *drawn = &sure->drawn;
        for (size_t i = 0; i < drawn->limits; i++) {
            json_t *limit = json_object();
            json_object_set_new(limit, "name", json_string(drawn->limit[i].name));
            json_object_set_new(limit, "chance", pare_json_number(drawn->limit[i].linear));
            json_object_set_new(limit, "drawn", pare_json_number(drawn->limit[i].drawn));
            json_array_append_new(limits, limit);
        }
        json_object_set_new(one, "chance",
                            pare_json_number(pare_sure_chance(view->best->sheet_after, NULL)));
        json_object_set_new(one, "drawn", pare_json_number(drawn->all));
        json_object_set_new(one, "drawn_u", pare_json_number(drawn->all_u));
        json_object_set_new(one, "draws", json_integer(drawn->draws));
        json_object_set(one, "limits", limits);
    }
    if (sure->just) {
        json_object_set_new(one, "just_g", pare_json_number(pare_best_grams(sure->just_100ug)));
        json_object_set_new(one, "just_proven", json_boolean(sure->just_proven));
        json_object_set_new(
            one, "price_g",
            pare_json_number(pare_best_grams(view->best->best_100ug - sure->just_100ug)));
    }
    json_object_set_new(object, "sure", one);
    json_decref(limits);
}
