/* cells.c: other cells touch half the craft (see cells.h).
 *
 * More cells turn the same motor faster: kV times cells is what the propeller feels, so the kV that
 * does the old job is kV now times cells now over cells then. Ratings that the sheet has as margins
 * (ESC, motor, capacitor) are said and left to the margins; a board that a full pack would kill makes
 * it no swap at all, unless the old pack was no better. */
#include "advise/cells.h"

#include "advise/rated.h"

double pare_same_job_kv(double kv_rpm_per_v, double cells_now, double cells_then)
{
    return cells_then > 0 ? kv_rpm_per_v * cells_now / cells_then : 0;
}

double pare_cell_charge_c(const pare_part *pack)
{
    return pack->spec[PARE_SPEC_CELLS].value * pack->spec[PARE_SPEC_CAPACITY].value;
}

static void question_rating(pare_edit *edit, const pare_item *item, const pare_part *pack,
                            bool say_holds)
{
    const double high_v = item->part->spec[PARE_SPEC_VOLTS_HIGH].value;
    const pare_rated rated = pare_volts_rated(item->part, pack);
    const char *what = pare_kind_words(item->part->kind);
    if (rated == PARE_RATED_HIGH && high_v > 0)
        pare_edit_note(edit, "%s '%s' is rated %g V: a full pack has %.4g V", what, item->part->id,
                       high_v, pare_full_v(pack));
    else if (rated == PARE_RATED_HIGH)
        pare_edit_note(edit, "%s '%s' is not made for %g cells", what, item->part->id,
                       pack->spec[PARE_SPEC_CELLS].value);
    else if (rated == PARE_RATED_LOW)
        pare_edit_note(edit, "%s '%s' wants more volts than %.4g V", what, item->part->id,
                       pare_full_v(pack));
    else if (say_holds && high_v > 0)
        pare_edit_note(edit, "%s '%s' is rated %g V: holds a full pack's %.4g V", what,
                       item->part->id, high_v, pare_full_v(pack));
    else if (say_holds)
        pare_edit_note(edit, "%s '%s' does not say what volts it takes: a full pack has %.4g V",
                       what, item->part->id, pare_full_v(pack));
}

static pare_status refuse(const pare_part *part, const pare_part *pack, pare_error *err)
{
    const double low_v = part->spec[PARE_SPEC_VOLTS_LOW].value;
    const double high_v = part->spec[PARE_SPEC_VOLTS_HIGH].value;
    if (!(high_v > 0))
        return pare_fail(err, PARE_BAD_DATA, "%s '%s' is not made for the %g cells of '%s'",
                         pare_kind_words(part->kind), part->id, pack->spec[PARE_SPEC_CELLS].value,
                         pack->id);
    return pare_fail(err, PARE_BAD_DATA, "%s '%s' takes %g to %g V, a full '%s' has %.4g V",
                     pare_kind_words(part->kind), part->id, low_v, high_v, pack->id,
                     pare_full_v(pack));
}

static void owned_packs(pare_edit *edit, double cells)
{
    int owned = 0, sorts = 0;
    const char *one = "";
    size_t packs;
    const pare_part *const *pack = pare_shelf_row(edit->shelf, PARE_PACK, &packs);
    for (size_t p = 0; p < packs; p++) {
        const pare_part *part = pack[p];
        if (part->owned < 1 || part->spec[PARE_SPEC_CELLS].value == cells)
            continue;
        owned += part->owned;
        one = sorts++ ? one : part->id;
    }
    if (sorts == 1)
        pare_edit_note(edit, "%d owned '%s' would not serve this craft any more", owned, one);
    else if (sorts > 1)
        pare_edit_note(edit, "%d owned packs of other cells would not serve it, '%s' among them",
                       owned, one);
}

pare_status pare_cells_question(pare_edit *edit, const pare_part *pack, const pare_part *old,
                                pare_error *err)
{
    const pare_craft *craft = edit->craft;
    const double then = pack->spec[PARE_SPEC_CELLS].value, now = old->spec[PARE_SPEC_CELLS].value;
    const bool other = then != now;
    for (size_t i = 0; i < craft->items; i++)
        if (!craft->item[i].off && !pare_fed_well(craft, i, pack) && pare_fed_well(craft, i, old))
            return refuse(craft->item[i].part, pack, err);
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    if (other && motor >= 0)
        pare_edit_note(
            edit, "%.0f rpm/V would do on %g cells what %.0f does on %g",
            pare_same_job_kv(craft->item[motor].part->spec[PARE_SPEC_KV].value, now, then), then,
            craft->item[motor].part->spec[PARE_SPEC_KV].value, now);
    for (size_t i = 0; i < craft->items; i++)
        if (!craft->item[i].off && pare_rating_is_margin(craft->item[i].part))
            question_rating(edit, &craft->item[i], pack, other);
    if (other)
        owned_packs(edit, then);
    return PARE_OK;
}

pare_status pare_rating_question(pare_edit *edit, size_t index, pare_error *err)
{
    const pare_craft *craft = edit->craft;
    const pare_item *item = &craft->item[index];
    const int pack = pare_craft_doing(craft, PARE_PACK);
    if (pack < 0)
        return PARE_OK;
    const pare_part *pack_part = craft->item[pack].part;
    const bool was_fed = index >= edit->before->items || edit->before->item[index].off ||
                         pare_fed_well(edit->before, index, pack_part);
    if (was_fed && !pare_fed_well(craft, index, pack_part))
        return refuse(item->part, pack_part, err);
    if (pare_rating_is_margin(item->part))
        question_rating(edit, item, pack_part, false);
    return PARE_OK;
}
