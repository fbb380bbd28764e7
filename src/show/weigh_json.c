/* weigh_json.c: weigh-ins and what they make of a craft's masses, as JSON (see weigh.h). */
#include <math.h>
#include <string.h>

#include "show/sheet_json.h"
#include "show/weigh.h"

static json_t *grams(double kg)
{
    return pare_json_number(1e3 * kg);
}

static json_t *reading(const pare_closure *closure, size_t which)
{
    const pare_weigh_in *w = &closure->of.weighings->weigh_in[which];
    json_t *one = json_object(), *of = w->all ? json_string("all") : json_object();
    for (size_t i = 0; i < w->things; i++)
        json_object_set_new(of, w->thing[i].name, json_integer(w->thing[i].count));
    bool fits = true;
    for (size_t i = 0; i < closure->misfits; i++)
        fits = fits && (closure->misfit[i].of_prior || closure->misfit[i].which != which);
    json_object_set_new(one, "date", json_string(w->date));
    json_object_set_new(one, "scale", pare_text_or_null(w->scale));
    json_object_set_new(one, "of", of);
    json_object_set_new(one, "loadout", pare_text_or_null(w->loadout));
    json_object_set_new(one, "reads_g", grams(w->reads_kg));
    json_object_set_new(one, "promise_low_g", w->promised ? grams(w->low_kg) : json_null());
    json_object_set_new(one, "promise_high_g", w->promised ? grams(w->high_kg) : json_null());
    json_object_set_new(one, "held",
                        w->promised
                            ? json_boolean(w->reads_kg >= w->low_kg && w->reads_kg <= w->high_kg)
                            : json_null());
    json_object_set_new(one, "used", json_boolean(!closure->unused[which] && fits));
    if (closure->unused[which])
        json_object_set_new(one, "why", json_string(closure->unused[which]));
    return one;
}

static json_t *readings(const pare_weigh_view *view)
{
    const pare_weighings *w = view->closure->of.weighings;
    json_t *list = json_array();
    for (size_t i = 0; i < w->count; i++)
        if (strcmp(w->weigh_in[i].craft, view->craft->name) == 0)
            json_array_append_new(list, reading(view->closure, i));
    return list;
}

static json_t *misfits(const pare_closure *closure)
{
    json_t *list = json_array();
    for (size_t i = 0; i < closure->misfits; i++) {
        const pare_misfit *misfit = &closure->misfit[i];
        json_t *one = json_object();
        pare_text words = {0};
        if (misfit->of_prior)
            pare_text_add(&words, closure->unknown[misfit->which].name);
        else
            pare_weighed_words(&closure->of.weighings->weigh_in[misfit->which], &words);
        json_object_set_new(one, "what", json_string(pare_text_all(&words)));
        json_object_set_new(one, "is", json_string(misfit->of_prior ? "written" : "reading"));
        json_object_set_new(one, "sigmas", pare_json_number(misfit->sigmas));
        json_object_set_new(one, "off_g", grams(misfit->off_kg));
        json_array_append_new(list, one);
        pare_text_free(&words);
    }
    return list;
}

static json_t *mass(const pare_weigh_loadout *of)
{
    json_t *one = json_object();
    json_object_set_new(one, "all_up_low_g", grams(of->mass.low_kg));
    json_object_set_new(one, "all_up_high_g", grams(of->mass.high_kg));
    json_object_set_new(one, "all_up_chance",
                        isfinite(of->chance) ? pare_json_number(of->chance) : json_null());
    json_object_set_new(one, "allowance", json_boolean(of->mass.allowed));
    return one;
}

static json_t *packs(const pare_weigh_view *view)
{
    json_t *list = json_array();
    for (size_t i = 0; i < view->packs; i++) {
        const pare_weigh_pack *pack = &view->pack[i];
        json_t *one = json_object();
        json_object_set_new(one, "pack", json_string(pack->pack->id));
        json_object_set_new(one, "owned", json_integer(pack->pack->owned));
        json_object_set_new(one, "all_up_g", grams(pack->mass.kg));
        json_object_set_new(one, "all_up_g_u", grams(pack->mass.u_kg));
        json_object_set_new(one, "all_up_chance", pare_json_number(pack->chance));
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *lines(const pare_weigh_view *view)
{
    json_t *list = json_array();
    for (size_t i = 0; i < view->lines; i++) {
        const pare_weigh_line *line = &view->line[i];
        json_t *one = json_object();
        json_object_set_new(one, "name", json_string(line->name));
        json_object_set_new(one, "count", json_integer(line->count));
        json_object_set_new(one, "written_g", grams(line->prior_kg));
        json_object_set_new(one, "g", grams(line->kg));
        json_object_set_new(one, "g_u", grams(line->u_kg));
        json_object_set_new(one, "known", json_string(pare_known_name(line->known)));
        json_object_set_new(one, "readings", json_integer((json_int_t)line->readings));
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *next(const pare_weigh_view *view)
{
    json_t *list = json_array();
    for (size_t i = 0; i < view->next.count; i++) {
        const pare_weigh_choice *choice = &view->next.choice[i];
        json_t *one = json_object();
        json_object_set_new(one, "name", json_string(choice->name));
        json_object_set_new(one, "count", json_integer(choice->count));
        json_object_set_new(one, "promise_low_g", grams(choice->promise.low_kg));
        json_object_set_new(one, "promise_high_g", grams(choice->promise.high_kg));
        json_object_set_new(one, "leaves_g_u", grams(choice->left_kg));
        json_object_set_new(one, "right", pare_json_number(choice->right));
        json_array_append_new(list, one);
    }
    return list;
}

json_t *pare_weigh_object(const pare_weigh_view *view)
{
    static const char *const next_for[] = {[PARE_WEIGH_FOR_ALL_UP] = "all_up",
                                           [PARE_WEIGH_FOR_CLOSURE] = "closure",
                                           [PARE_WEIGH_FOR_CHANCE] = "chance"};
    json_t *object = json_object(), *loadouts = json_object(), *suspects = json_array();
    const pare_weigh_loadout *here = &view->mass[view->here];
    const bool weighed = view->forgotten >= 0;
    json_object_set_new(object, "craft", json_string(view->craft->name));
    json_object_set_new(object, "loadout", pare_text_or_null(here->name));
    json_object_set_new(object, "written_g", grams(view->written.kg));
    json_object_set_new(object, "written_g_u", grams(view->written.u_kg));
    json_object_update_new(object, mass(here));
    json_object_set_new(object, "packs", packs(view));
    json_object_set_new(object, "closure_g", weighed ? grams(view->forgotten_kg) : json_null());
    json_object_set_new(object, "closure_g_u", weighed ? grams(view->forgotten_u_kg) : json_null());
    json_object_set_new(object, "forgotten", json_boolean(view->more));
    for (size_t i = 0; i < view->suspects; i++)
        json_array_append_new(suspects, json_string(view->suspect[i]->id));
    json_object_set_new(object, "forgotten_like", suspects);
    json_object_set_new(object, "promise_low_g", grams(view->whole.low_kg));
    json_object_set_new(object, "promise_high_g", grams(view->whole.high_kg));
    json_object_set_new(object, "readings", readings(view));
    json_object_set_new(object, "misfits", misfits(view->closure));
    json_object_set_new(object, "items", lines(view));
    json_object_set_new(object, "next_for", json_string(next_for[view->next.by]));
    json_object_set_new(object, "next_right", pare_json_number(view->next.now_right));
    json_object_set_new(object, "next_g_u", grams(view->next.now_kg));
    json_object_set_new(object, "next", next(view));
    json_object_set_new(object, "promises", json_integer((json_int_t)view->promised));
    json_object_set_new(object, "promises_held", json_integer((json_int_t)view->held));
    json_object_set_new(object, "hover_promises", json_integer((json_int_t)view->hovers.made));
    json_object_set_new(object, "hover_promises_held", json_integer((json_int_t)view->hovers.held));
    for (size_t i = 0; i < view->loadouts; i++)
        if (i != view->here)
            json_object_set_new(loadouts, view->mass[i].name, mass(&view->mass[i]));
    json_object_set_new(object, "loadouts", loadouts);
    return object;
}
