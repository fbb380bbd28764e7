/* knock_on.c: what follows saved grams (see knock_on.h). */
#include "show/knock_on.h"

#include <math.h>

#include "show/digits.h"
#include "show/sheet_json.h"

#define MINUTES(sheet) (&(sheet)->figure[PARE_FLOWN_TIME])
#define SPENDS_MUCH    0.5 /* of the minutes that were won: from there on it is worth a warning */

enum { NUMBER_COLUMNS = 11, WORDS_AT = 3 * NUMBER_COLUMNS + 2 };

static void put_grams(double grams, pare_text *out)
{
    char text[PARE_DIGITS];
    pare_put_right(out, pare_digits_at(text, grams, 1), NUMBER_COLUMNS);
}

static void put_step(const pare_knock_on *k, size_t index, const pare_screen *screen,
                     pare_text *out)
{
    const pare_knock *knock = &k->knock[index];
    pare_text line = {0};
    put_grams(pare_best_grams(knock->saved_100ug), out);
    put_grams(pare_best_grams(knock->follows_100ug), out);
    if (k->growth_known)
        put_grams(1e3 * knock->estimate_kg, out);
    else
        pare_put_right(out, "?", NUMBER_COLUMNS);
    for (size_t i = 0; i < knock->parts; i++) {
        const pare_knock_part *part = &knock->part[i];
        pare_text_printf(&line, "%s%s%s%s %+.1f", i ? ", " : "", part->name, part->to ? "=" : "",
                         part->to ? part->to : "", -1e3 * part->less_kg);
    }
    if (knock->saved_100ug == 0)
        pare_text_printf(&line, "what carries it could shed %.1f g with nothing saved",
                         pare_best_grams(k->sheds_100ug));
    pare_text_add(out, "  ");
    pare_put_rest(screen, out, WORDS_AT, WORDS_AT, &line);
}

static void put_end(const pare_knock_on *k, const pare_screen *screen, pare_text *out)
{
    pare_text line = {0};
    pare_text_printf(&line, "%.1f g saved end as %.1f g, ", pare_best_grams(k->saved_100ug),
                     pare_best_grams(k->saved_100ug + k->follows_100ug));
    if (k->growth_known)
        pare_text_printf(&line,
                         "and by the scaling laws, were there motors and packs of every size, as "
                         "%.1f g",
                         k->growth * pare_best_grams(k->saved_100ug));
    else
        pare_text_add(&line, "and the scaling laws say nothing here");
    pare_text_add(&line, k->proven ? "; each step is proven." : "; not proven, or stopped.");
    pare_put_line(screen, out, 0, 0, &line);
}

static void put_minutes(const pare_knock_on *k, const pare_screen *screen, pare_text *out)
{
    char was[PARE_DIGITS], lighter[PARE_DIGITS], after[PARE_DIGITS];
    pare_text line = {0};
    const double minute = pare_figure_table[PARE_FLOWN_TIME].scale;
    if (!MINUTES(k->before)->exists || !MINUTES(k->lighter)->exists || !MINUTES(k->after)->exists)
        return;
    pare_text_printf(&line,
                     "Your minutes: %s with nothing saved, %s with it, %s after what follows.",
                     pare_digits_at(was, minute * MINUTES(k->before)->value, 2),
                     pare_digits_at(lighter, minute * MINUTES(k->lighter)->value, 2),
                     pare_digits_at(after, minute * MINUTES(k->after)->value, 2));
    pare_put_line(screen, out, 0, 0, &line);
    if (!k->pack_shrinks || !(k->spends >= SPENDS_MUCH))
        return;
    if (k->spends >= 1)
        pare_text_add(&line,
                      "Mind: the smaller pack spends all the minutes that the saved grams won"
                      "; hold it (--hold pack) to keep them.");
    else
        pare_text_printf(
            &line,
            "Mind: the smaller pack spends %.0f %% of the minutes that the saved grams "
            "won; hold it (--hold pack) to keep them.",
            100 * k->spends);
    pare_put_line(screen, out, 0, 0, &line);
}

void pare_knock_on_text(const pare_knock_on_view *view, const pare_screen *screen, pare_text *out)
{
    const pare_knock_on *k = view->knock_on;
    pare_text line = {0};
    pare_text_add(&line, view->craft);
    if (view->loadout)
        pare_text_printf(&line, ", loadout %s", view->loadout);
    pare_text_printf(&line,
                     ": what follows %.1f g saved elsewhere, in motors, propellers, pack, ESCs and "
                     "lead that can be bought; all else stays, minutes and thrust to weight are no "
                     "less than now",
                     pare_best_grams(k->saved_100ug));
    pare_put_line(screen, out, 0, 0, &line);
    pare_text_add(out, "\n");
    if (!k->found) {
        pare_text_add(&line,
                      "No motors, propellers, pack, ESCs and lead that there are carry it as "
                      "the brief asks.");
        pare_put_line(screen, out, 0, 0, &line);
        return;
    }
    pare_put_right(out, "saved, g", NUMBER_COLUMNS);
    pare_put_right(out, "follows, g", NUMBER_COLUMNS);
    pare_put_right(out, "by laws, g", NUMBER_COLUMNS);
    pare_text_add(out, "  from there on, g\n");
    for (size_t i = 0; i < k->knocks; i++)
        put_step(k, i, screen, out);
    pare_text_add(out, "\n");
    put_end(k, screen, out);
    put_minutes(k, screen, out);
}

static json_t *parts_of(const pare_knock *knock)
{
    json_t *parts = json_array();
    for (size_t i = 0; i < knock->parts; i++) {
        const pare_knock_part *part = &knock->part[i];
        json_t *one = json_object();
        json_object_set_new(one, "name", json_string(part->name));
        json_object_set_new(one, "to", pare_text_or_null(part->to));
        json_object_set_new(one, "grams", pare_json_number(1e3 * part->less_kg));
        json_array_append_new(parts, one);
    }
    return parts;
}

static json_t *minutes_of(const pare_sheet *sheet)
{
    const pare_sheet_figure *flown = MINUTES(sheet);
    return flown->exists ? pare_json_number(flown->value * pare_figure_table[PARE_FLOWN_TIME].scale)
                         : json_null();
}

json_t *pare_knock_on_object(const pare_knock_on_view *view)
{
    const pare_knock_on *k = view->knock_on;
    const double saved_g = pare_best_grams(k->saved_100ug);
    json_t *object = json_object(), *steps = json_array();
    for (size_t i = 0; i < k->knocks; i++) {
        const pare_knock *knock = &k->knock[i];
        json_t *one = json_object();
        json_object_set_new(one, "saved_g", pare_json_number(pare_best_grams(knock->saved_100ug)));
        json_object_set_new(one, "follows_g",
                            pare_json_number(pare_best_grams(knock->follows_100ug)));
        json_object_set_new(one, "estimate_g",
                            k->growth_known ? pare_json_number(1e3 * knock->estimate_kg)
                                            : json_null());
        json_object_set_new(one, "parts", parts_of(knock));
        json_array_append_new(steps, one);
    }
    json_object_set_new(object, "craft", json_string(view->craft));
    json_object_set_new(object, "loadout", pare_text_or_null(view->loadout));
    json_object_set_new(object, "found", json_boolean(k->found));
    json_object_set_new(object, "proven", json_boolean(k->proven));
    json_object_set_new(object, "saved_g", pare_json_number(saved_g));
    json_object_set_new(object, "steps", steps);
    if (!k->found)
        return object;
    json_object_set_new(object, "sheds_g", pare_json_number(pare_best_grams(k->sheds_100ug)));
    json_object_set_new(object, "follows_g", pare_json_number(pare_best_grams(k->follows_100ug)));
    json_object_set_new(object, "growth",
                        k->growth_known ? pare_json_number(k->growth) : json_null());
    json_object_set_new(object, "estimate_g",
                        k->growth_known ? pare_json_number((k->growth - 1) * saved_g)
                                        : json_null());
    json_t *minutes = json_object();
    json_object_set_new(minutes, "before", minutes_of(k->before));
    json_object_set_new(minutes, "lighter", minutes_of(k->lighter));
    json_object_set_new(minutes, "after", minutes_of(k->after));
    json_object_set_new(object, "minutes", minutes);
    json_object_set_new(object, "spends", pare_json_number(k->pack_shrinks ? k->spends : 0));
    return object;
}
