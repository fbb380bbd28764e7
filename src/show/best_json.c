/* best_json.c: the best set as JSON (see best.h). Grams, not rounded: what is best equals its bound. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "show/best.h"
#include "show/sheet_json.h"

static json_t *grams(int64_t units)
{
    return units == INT64_MAX ? json_null() : pare_json_number(pare_best_grams(units));
}

static json_t *strings(size_t count, size_t size, const char *first)
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(list, json_string(first + i * size));
    return list;
}

static json_t *swap_object(const pare_best_swap *swap)
{
    const pare_applied *a = &swap->applied;
    json_t *one = json_object();
    json_object_set_new(one, "id", json_string(a->id));
    json_object_set_new(one, "from", json_string(a->from));
    json_object_set_new(one, "to", json_string(a->to));
    json_object_set_new(one, "grams", grams(swap->saved_100ug));
    json_object_set_new(one, "money", a->priced ? pare_json_number(a->money) : json_null());
    json_object_set_new(one, "work_min", pare_json_number(a->work_min));
    json_object_set_new(one, "opening", json_string(pare_opening_words(swap->opening)));
    json_object_set_new(one, "brings", strings(a->brings, sizeof a->bring[0], a->bring[0]));
    json_object_set_new(one, "drops", strings(a->drops, sizeof a->drop[0], a->drop[0]));
    json_object_set_new(one, "notes", strings(a->notes, sizeof a->note[0], a->note[0]));
    return one;
}

static json_t *limits(const pare_best_view *view, size_t count, const pare_best_limit limit[],
                      const pare_sheet *after)
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++) {
        json_t *one = json_object();
        pare_margin named = {.unit = ""};
        char words[64];
        snprintf(named.name, sizeof named.name, "%s", limit[i].name);
        json_object_set_new(one, "name", json_string(limit[i].name));
        json_object_set_new(one, "words", json_string(pare_margin_words(&named, words)));
        json_object_set_new(one, "refused", json_integer((json_int_t)limit[i].groups));
        const pare_margin *now = after ? pare_sheet_margin(after, limit[i].name) : NULL;
        if (now) {
            json_object_set_new(one, "value", pare_json_number(now->value));
            json_object_set_new(one, "limit", pare_json_number(now->limit));
            json_object_set_new(one, "ratio", pare_json_number(now->ratio));
        }
        pare_best_loosened_into(one, view, limit[i].name);
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *sheet_figures(const pare_sheet *sheet)
{
    json_t *object = json_object();
    pare_figures_into(object, sheet);
    return object;
}

json_t *pare_best_object(const pare_best_view *view)
{
    const pare_best *best = view->best;
    json_t *object = json_object(), *swaps = json_array();
    pare_text list = {0};
    for (size_t i = 0; i < best->swaps; i++) {
        pare_text_printf(&list, "%s%s", i ? "," : "", best->swap[i].applied.id);
        json_array_append_new(swaps, swap_object(&best->swap[i]));
    }
    json_object_set_new(object, "craft", json_string(best->before->name));
    json_object_set_new(object, "loadout", pare_text_or_null(view->loadout));
    if (view->every)
        json_object_set_new(object, "every_loadout", json_true());
    pare_best_wish_into(object, view);
    json_object_set_new(object, "money_unit", pare_text_or_null(view->money));
    json_object_set_new(object, "found", json_boolean(best->found));
    json_object_set_new(object, "proven", json_boolean(best->proven));
    json_object_set_new(object, "stopped", json_boolean(best->stopped));
    json_object_set_new(object, "was_g", grams(best->was_100ug));
    json_object_set_new(object, "best_g", best->found ? grams(best->best_100ug) : json_null());
    json_object_set_new(object, "bound_g", grams(best->bound_100ug));
    json_object_set_new(object, "money",
                        best->found && best->priced ? pare_json_number(best->money) : json_null());
    if (best->found && best->back > 0)
        json_object_set_new(object, "money_back", pare_json_number(best->back));
    json_object_set_new(object, "work_min",
                        best->found ? pare_json_number(best->work->minutes) : json_null());
    json_object_set_new(object, "try",
                        best->found ? json_string(pare_text_all(&list)) : json_null());
    json_object_set_new(object, "swaps", swaps);
    json_object_set_new(object, "unlearned",
                        json_boolean(best->found && pare_taught_flew(best->before) &&
                                     !pare_taught_flew(best->after)));
    json_object_set_new(
        object, "binds",
        limits(view, best->binds, best->bind, best->found ? best->sheet_after : NULL));
    if (view->reliefs)
        json_object_set_new(object, "give_way", pare_best_reliefs_object(view));
    pare_best_sureness_into(object, view);
    pare_best_ways_into(object, view);
    pare_best_sought_into(object, view);
    json_object_set_new(object, "groups", json_integer((json_int_t)best->groups));
    json_object_set_new(object, "opened", json_integer((json_int_t)best->opened));
    json_object_set_new(object, "dived", json_integer((json_int_t)best->dived));
    json_object_set_new(object, "sets", json_integer((json_int_t)best->sets));
    json_object_set_new(object, "cuts", limits(view, best->cuts, best->cut, NULL));
    json_object_set_new(object, "search_s", pare_json_number(view->seconds));
    json_object_set_new(object, "before", sheet_figures(best->sheet_before));
    json_object_set_new(object, "after",
                        best->found ? sheet_figures(best->sheet_after) : json_null());
    if (list.failed) {
        json_decref(object);
        object = NULL;
    }
    pare_text_free(&list);
    return object;
}
