/* swaps_json.c: the list of swaps as JSON (see swaps.h). Changes have the sheet's keys and units. */
#include <math.h>

#include "show/sheet_json.h"
#include "show/swaps.h"
#include "show/unlearned.h"

static json_t *strings(size_t count, size_t size, const char *first)
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(list, json_string(first + i * size));
    return list;
}

static json_t *jobs(unsigned lost)
{
    json_t *list = json_array();
    for (int job = 0; job < PARE_JOBS; job++)
        if (lost & 1u << job)
            json_array_append_new(list, json_string(pare_job_name((pare_job)job)));
    return list;
}

static json_t *mended_by(const pare_mend *mend)
{
    if (!mend->found)
        return json_null();
    json_t *one = json_object();
    json_object_set_new(one, "id", json_string(mend->id));
    json_object_set_new(one, "instead", json_boolean(mend->instead));
    json_object_set_new(one, "grams", pare_json_number(1e3 * mend->grams_kg));
    json_object_set_new(one, "money", mend->priced ? pare_json_number(mend->money) : json_null());
    return one;
}

static json_t *row(const pare_craft *craft, const pare_swap *swap, const pare_mend *mend)
{
    const pare_applied *a = &swap->applied;
    json_t *one = json_object();
    json_object_set_new(one, "id", json_string(a->id));
    json_object_set_new(one, "from", json_string(a->from));
    json_object_set_new(one, "to", json_string(a->to));
    json_object_set_new(one, "band", json_string(pare_band_name(swap->band)));
    json_object_set_new(one, "sought", json_boolean(a->sought));
    json_object_set_new(one, "unlearned", json_boolean(pare_swap_is_unlearned(craft, a->id)));
    json_object_set_new(one, "grams", pare_json_number(1e3 * swap->grams_kg));
    json_object_set_new(one, "grams_u", pare_json_number(1e3 * swap->grams_u_kg));
    json_object_set_new(one, "money", a->priced ? pare_json_number(a->money) : json_null());
    json_object_set_new(one, "money_per_g", pare_json_number(swap->money_per_g));
    json_object_set_new(one, "work_min", pare_json_number(a->work_min));
    json_object_set_new(one, "brings", strings(a->brings, sizeof a->bring[0], a->bring[0]));
    json_object_set_new(one, "drops", strings(a->drops, sizeof a->drop[0], a->drop[0]));
    json_object_set_new(one, "breaks",
                        strings(swap->breaks, sizeof swap->broken[0], swap->broken[0]));
    if (mend && mend->sought)
        json_object_set_new(one, "mended_by", mended_by(mend));
    json_object_set_new(one, "loosens",
                        strings(swap->loosens, sizeof swap->loosened[0], swap->loosened[0]));
    json_object_set_new(one, "jobs_lost", jobs(a->jobs_lost));
    json_object_set_new(one, "notes", strings(a->notes, sizeof a->note[0], a->note[0]));
    json_object_set_new(one, "change", pare_changes_object(swap->change));
    return one;
}

json_t *pare_bands_object(const pare_swaps *swaps)
{
    json_t *sums = json_object();
    for (int band = 0; band < PARE_BAND_SUMS; band++) {
        json_t *sum = json_object();
        json_object_set_new(sum, "grams", pare_json_number(1e3 * swaps->band_kg[band]));
        json_object_set_new(sum, "money", pare_json_number(swaps->band_money[band]));
        json_object_set_new(sums, pare_band_name((pare_band)band), sum);
    }
    return sums;
}

json_t *pare_swaps_object(const pare_swaps_view *view)
{
    const pare_swaps *swaps = view->swaps;
    json_t *object = json_object(), *together = json_object(), *ids = json_array(),
           *list = json_array();
    json_object_set_new(object, "craft", json_string(view->craft->name));
    json_object_set_new(object, "loadout", pare_text_or_null(view->loadout));
    json_object_set_new(object, "wish", json_string(view->wished));
    json_object_set_new(object, "money_unit", pare_text_or_null(view->money));
    json_object_set_new(object, "bands", pare_bands_object(swaps));
    for (size_t i = 0; i < swaps->free_count; i++)
        json_array_append_new(ids, json_string(swaps->swap[swaps->free_index[i]].applied.id));
    json_object_set_new(together, "grams", pare_json_number(1e3 * swaps->together_kg));
    json_object_set_new(together, "swaps", ids);
    json_object_set_new(object, "free_together", together);
    for (size_t i = 0; i < swaps->count; i++)
        json_array_append_new(
            list, row(view->craft, &swaps->swap[i], view->mend ? &view->mend[i] : NULL));
    json_object_set_new(object, "swaps", list);
    return object;
}
