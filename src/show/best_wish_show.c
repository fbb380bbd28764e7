/* best_wish_show.c: what another wish than grams has come to, and what is proven of it (see best.h). */
#include <math.h>

#include "craft/figure.h"
#include "show/best.h"
#include "show/digits.h"
#include "show/sheet_json.h"
#include "show/sheet_view.h"

static const char *words_of(int wish)
{
    static const char *const words[PARE_BEST_WISHES] = {
        [PARE_WISH_GRAMS] = "grams",
        [PARE_WISH_MINUTES] = "your minutes",
        [PARE_WISH_THRUST] = "thrust to weight, half",
        [PARE_WISH_QUICKNESS] = "the slower of roll and pitch",
        [PARE_WISH_MONEY] = "the least money",
        [PARE_WISH_CRASH] = "crash energy",
        [PARE_WISH_EVENING] = "an evening",
    };
    return words[wish];
}

bool pare_best_wishes_else(const pare_best_view *view)
{
    return view->wished && view->wished->wish != PARE_WISH_GRAMS;
}

static const char *unit_of(const pare_best_view *view)
{
    const int figure = view->wished->figure;
    if (figure >= 0)
        return pare_figure_table[figure].unit;
    return view->wished->wish == PARE_WISH_MONEY ? view->money : "min";
}

static double scale_of(const pare_best_view *view)
{
    const int figure = view->wished->figure;
    return figure >= 0 ? pare_figure_table[figure].scale : 1;
}

/* "6.114 min" */
static void add_value(const pare_best_view *view, double value, pare_text *line)
{
    const char *unit = unit_of(view);
    if (view->wished->wish == PARE_WISH_MONEY)
        pare_text_printf(line, "%.2f", value);
    else
        pare_text_printf(line, "%.4g", scale_of(view) * value);
    if (unit && unit[0])
        pare_text_printf(line, " %s", unit);
}

void pare_best_add_wish(const pare_best_view *view, pare_text *line)
{
    const pare_best_wished *w = view->wished;
    if (!pare_best_wishes_else(view))
        return;
    pare_text_printf(line, ", for %s", words_of(w->wish));
    if (view->most_work_min)
        pare_text_printf(line, " of %.4g h work", *view->most_work_min / 60);
    if (!w->exists)
        return;
    if (w->wish == PARE_WISH_EVENING) {
        pare_text_printf(line, ": %.0f min needed, %s", ceil(view->best->work->minutes),
                         w->proven ? "proven" : "not proven");
        return;
    }
    pare_text_add(line, ": ");
    if (w->wish != PARE_WISH_MONEY) {
        add_value(view, w->was, line);
        pare_text_add(line, " now, ");
    }
    add_value(view, w->value, line);
    pare_text_printf(line, "%s, %s", w->wish == PARE_WISH_MONEY ? "" : " at best",
                     w->proven ? "proven" : "not proven");
}

static void add_proven(const pare_best_view *view, pare_text *line)
{
    const pare_best_wished *w = view->wished;
    switch (w->wish) {
    case PARE_WISH_EVENING:
        pare_text_printf(line,
                         "best %.4f g = bound: no set of these parts that takes no more work is "
                         "lighter; minutes of work are common practice by kind of part, openings "
                         "of the craft counted once",
                         pare_best_grams(view->best->best_100ug));
        return;
    case PARE_WISH_CRASH:
        pare_text_add(line,
                      "crash energy grows with the mass alone: the lightest set has the least");
        return;
    case PARE_WISH_MONEY:
        pare_text_printf(line, "no set of these parts that meets the brief, %s, costs less than ",
                         pare_brief_limit(&view->best->before->brief, "all_up")
                             ? "its limit on all-up mass with it"
                             : "which has no limit on all-up mass");
        break;
    default:
        pare_text_add(line, "no set of these parts has more than ");
        break;
    }
    add_value(view, w->value, line);
    pare_text_printf(line, "%s, by %zu searches",
                     w->wish == PARE_WISH_MONEY ? "" : " (to 1 part in 100 000)", w->searches);
}

void pare_best_put_wish_proof(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_best_wished *w = view->wished;
    pare_text line = {0};
    if (pare_best_wish_by_grams(w->wish) && !w->proven)
        return; /* what is known of the grams says it */
    if (!w->exists)
        pare_text_add(&line, "what the wish asks for is not known of this set");
    else if (w->proven)
        add_proven(view, &line);
    else {
        pare_text_add(&line, "not proven to be best: stopped");
        if (isfinite(w->bound)) {
            pare_text_add(&line, w->wish == PARE_WISH_MONEY ? "; none costs less than "
                                                            : "; none has more than ");
            add_value(view, w->bound, &line);
        }
    }
    pare_put_labelled_line(screen, out, "proof", &line);
}

void pare_best_wish_into(json_t *object, const pare_best_view *view)
{
    const pare_best_wished *w = view->wished;
    json_object_set_new(object, "wish", json_string(w ? pare_best_wish_name(w->wish) : "grams"));
    if (view->most_work_min)
        json_object_set_new(object, "work_most_min", pare_json_number(*view->most_work_min));
    if (!pare_best_wishes_else(view))
        return;
    json_object_set_new(object, "wish_proven", json_boolean(w->proven));
    if (w->wish == PARE_WISH_EVENING)
        return;
    const double scale = scale_of(view);
    json_object_set_new(object, "wish_unit", pare_text_or_null(unit_of(view)));
    json_object_set_new(object, "wish_was",
                        w->exists ? pare_json_number(scale * w->was) : json_null());
    json_object_set_new(object, "wish_best",
                        w->exists ? pare_json_number(scale * w->value) : json_null());
    json_object_set_new(object, "wish_bound",
                        w->exists && isfinite(w->bound) ? pare_json_number(scale * w->bound)
                                                        : json_null());
    json_object_set_new(object, "wish_searches", json_integer((json_int_t)w->searches));
}
