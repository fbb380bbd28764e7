/* best_limits.c: what the limits of a best set cost, and what a brief that cannot be met must give (see best.h).
 *
 * A limit is told in its own unit and by the words that a sheet has for it. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "craft/figure.h"
#include "show/best.h"
#include "show/digits.h"
#include "show/sheet_view.h"

/* ---- limits by their words ---- */

void pare_best_put_limit(const pare_best *best, const char *name, bool with_value, pare_text *line)
{
    char words[64], value[PARE_DIGITS], limit[PARE_DIGITS];
    const pare_margin *margin = best->found ? pare_sheet_margin(best->sheet_after, name) : NULL;
    const pare_margin *before = pare_sheet_margin(best->sheet_before, name);
    if (!margin && !before) {
        pare_text_add(line, name);
        return;
    }
    const pare_margin *of = margin ? margin : before;
    pare_text_add(line, pare_margin_words(of, words));
    if (!with_value)
        return;
    pare_text_printf(line, " %s%s%s ", pare_digits(value, of->value, of->value_u),
                     of->unit[0] ? " " : "", of->unit);
    /* A crash estimate is held against the craft as it is (best.h). */
    if (strncmp(name, "joint_crash.", strlen("joint_crash.")) == 0)
        pare_text_add(line, "(no worse than now)");
    else
        pare_text_printf(line, "(%s%s)", of->at_least ? "at least " : "at most ",
                         pare_digits_limit(limit, of->limit));
}

/* Of a limit of the brief, or of a rating: shares are told in per cent. */
typedef struct told {
    double scale;
    const char *unit;
} told;

static told told_in(int figure, bool rating)
{
    if (figure < 0)
        return rating ? (told){100, "%"} : (told){1, ""};
    const pare_figure_row *row = &pare_figure_table[figure];
    return row->dimension == PARE_DIM_SHARE ? (told){100 * row->scale, "%"}
                                            : (told){row->scale, row->unit};
}

static bool is_rating(const char *name)
{
    return strncmp(name, "limit.", 6) != 0;
}

/* ---- what a limit costs ---- */

static void add_won(const pare_best_view *view, const pare_loosened *one, pare_text *line)
{
    char by[PARE_DIGITS];
    const told in = told_in(one->figure, is_rating(one->name));
    pare_best_put_limit(view->best, one->name, false, line);
    pare_text_printf(line, " looser by %s%s%s: %s%.1f g lighter",
                     pare_digits_limit(by, in.scale * one->by), in.unit[0] ? " " : "", in.unit,
                     one->proven ? "" : "at least ", pare_best_grams(one->won_100ug));
    if (one->next[0]) {
        pare_text_add(line, ", then what binds is ");
        pare_best_put_limit(view->best, one->next, false, line);
    }
}

void pare_best_put_loosened(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    static const char label[] = "what it costs";
    pare_text nothing = {0}, stopped = {0};
    bool any = false;
    for (size_t i = 0; i < view->loosens; i++) {
        const pare_loosened *one = &view->loosened[i];
        pare_text line = {0};
        if (one->won_100ug > 0) {
            add_won(view, one, &line);
            pare_put_labelled_line(screen, out, any ? "" : label, &line);
            any = true;
            continue;
        }
        pare_text *list = one->proven ? &nothing : &stopped;
        pare_text_add(list, list->length ? "; "
                            : one->proven
                                ? "nothing lighter, though any one of these were looser by ten "
                                  "units or per cent: "
                                : "stopped before this was known: ");
        pare_best_put_limit(view->best, one->name, false, list);
    }
    if (pare_text_any(&nothing)) {
        pare_put_labelled_line(screen, out, any ? "" : label, &nothing);
        any = true;
    }
    if (pare_text_any(&stopped))
        pare_put_labelled_line(screen, out, any ? "" : label, &stopped);
}

void pare_best_loosened_into(json_t *limit, const pare_best_view *view, const char *name)
{
    for (size_t i = 0; i < view->loosens; i++) {
        const pare_loosened *one = &view->loosened[i];
        if (strcmp(one->name, name) != 0)
            continue;
        const told in = told_in(one->figure, is_rating(name));
        json_object_set_new(limit, "loosened_by", pare_json_number(in.scale * one->by));
        json_object_set_new(limit, "unit", json_string(in.unit));
        json_object_set_new(limit, "grams_won", pare_json_number(pare_best_grams(one->won_100ug)));
        json_object_set_new(limit, "grams_won_proven", json_boolean(one->proven));
        json_object_set_new(limit, "next", one->next[0] ? json_string(one->next) : json_null());
    }
}

/* ---- what must give way ---- */

/* Rounded so that what is told is enough. */
static double told_enough(const pare_relief *one, told in)
{
    const double to = in.scale * one->to * 100;
    return (one->at_least ? floor(to + 1e-6) : ceil(to - 1e-6)) / 100;
}

static void add_relief(const pare_relief *one, pare_text *line)
{
    char from[PARE_DIGITS], to[PARE_DIGITS];
    const told in = told_in(one->figure, false);
    pare_text_printf(line, "%s from %s to %s%s%s",
                     one->figure < 0 ? "least margin of all ratings"
                                     : pare_figure_table[one->figure].words,
                     pare_digits_limit(from, in.scale * one->from),
                     pare_digits_limit(to, told_enough(one, in)), in.unit[0] ? " " : "", in.unit);
}

void pare_best_put_reliefs(const pare_best_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_reliefs *reliefs = view->reliefs;
    pare_text line = {0};
    if (!reliefs)
        return;
    pare_text_add(out, "\n");
    pare_put_heading(screen, out, "What the brief would have to give way by");
    size_t helps = 0;
    for (size_t i = 0; i < reliefs->count; i++) {
        const pare_relief *one = &reliefs->alone[i];
        if (!one->helps)
            continue;
        helps++;
        add_relief(one, &line);
        pare_text_printf(&line, "%s: %.1f g", one->exact ? ", alone" : ", alone and perhaps less",
                         pare_best_grams(one->best_100ug));
        pare_put_line(screen, out, 2, 4, &line);
    }
    if (reliefs->pair) {
        add_relief(&reliefs->both[0], &line);
        pare_text_add(&line, " together with ");
        add_relief(&reliefs->both[1], &line);
        pare_text_printf(&line, ": %.1f g", pare_best_grams(reliefs->both[0].best_100ug));
        pare_put_line(screen, out, 2, 4, &line);
    }
    if (reliefs->stopped)
        pare_text_add(&line, "Stopped before every limit was tried.");
    else if (helps == 0 && !reliefs->pair)
        pare_text_add(&line, "No one or two of its limits are the reason: what refuses is what "
                             "parts bear, or that they do not fit together.");
    if (pare_text_any(&line))
        pare_put_line(screen, out, 2, 4, &line);
    pare_text_free(&line);
}

static json_t *relief_object(const pare_relief *one)
{
    const told in = told_in(one->figure, false);
    json_t *object = json_object();
    json_object_set_new(object, "limit", json_string(one->key));
    json_object_set_new(object, "unit", json_string(in.unit));
    json_object_set_new(object, "from", pare_json_number(in.scale * one->from));
    json_object_set_new(object, "helps", json_boolean(one->helps));
    json_object_set_new(object, "to",
                        one->helps ? pare_json_number(in.scale * one->to) : json_null());
    json_object_set_new(object, "least", json_boolean(one->exact));
    json_object_set_new(object, "best_g",
                        one->helps ? pare_json_number(pare_best_grams(one->best_100ug))
                                   : json_null());
    return object;
}

json_t *pare_best_reliefs_object(const pare_best_view *view)
{
    const pare_reliefs *reliefs = view->reliefs;
    if (!reliefs)
        return json_null();
    json_t *object = json_object(), *alone = json_array(), *pair = json_array();
    for (size_t i = 0; i < reliefs->count; i++)
        json_array_append_new(alone, relief_object(&reliefs->alone[i]));
    for (size_t i = 0; reliefs->pair && i < 2; i++)
        json_array_append_new(pair, relief_object(&reliefs->both[i]));
    json_object_set_new(object, "alone", alone);
    json_object_set_new(object, "pair", pair);
    json_object_set_new(object, "stopped", json_boolean(reliefs->stopped));
    return object;
}
