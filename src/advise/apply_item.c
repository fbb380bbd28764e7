/* apply_item.c: another part for an item, an item off, coax cut (see edit.h).
 *
 * The order matters: the new part goes in, then what hangs on the kind of it follows (ESCs move,
 * antenna chains mend, a tie becomes two), then the interfaces of all that is new are looked at, and
 * last what the part brings into question is noted. Nothing is settled here. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/along.h"
#include "advise/chain.h"
#include "advise/edit.h"
#include "advise/esc.h"
#include "advise/question.h"
#include "advise/sought.h"
#include "advise/stand_in.h"
#include "advise/work.h"
#include "base/text.h"

#define BIT(kind) (1u << (kind))

/* ---- off ---- */

/* Whether something on the craft still does what an item did. */
static bool done_by_another(const pare_craft *craft, size_t index)
{
    const pare_item *item = &craft->item[index];
    const unsigned work = pare_main_work(item->part);
    if (work == BIT(PARE_PIGTAIL))
        return pare_chain_whole(craft, index);
    for (size_t i = 0; pare_work_is_shared(work) && i < craft->items; i++) {
        const pare_item *other = &craft->item[i];
        if (i == index || other->off || (pare_work_of(other->part) & work) == 0)
            continue;
        if (work != BIT(PARE_REGULATOR) || fabs(other->part->spec[PARE_SPEC_OUT].value -
                                                item->part->spec[PARE_SPEC_OUT].value) < 0.5)
            return true;
    }
    return false;
}

static pare_status take_off(pare_edit *edit, size_t index, pare_error *err)
{
    pare_craft *craft = edit->craft;
    pare_item *item = &craft->item[index];
    if (item->off)
        return pare_fail(err, PARE_UNKNOWN, "item '%s' is off already", item->name);
    item->off = true;
    snprintf(edit->applied->to, sizeof edit->applied->to, "off");
    edit->applied->work_min = pare_work_off_min(item->part->kind, item->count);
    for (size_t i = 0; i < craft->items; i++)
        if (!craft->item[i].off && craft->item[i].included_in &&
            strcmp(craft->item[i].included_in, item->name) == 0)
            pare_edit_take_off(edit, i);
    if (!done_by_another(craft, index))
        edit->applied->jobs_lost |= 1u << item->job;
    if (item->part->kind == PARE_CAPACITOR)
        pare_edit_note(edit, "nothing smooths the ESC's voltage spikes then: it may die of one");
    if (edit->applied->radio)
        pare_question_radio(edit);
    pare_edit_drop_orphans(edit);
    return PARE_OK;
}

/* ---- finding the part ---- */

static pare_status unknown_part(const pare_edit *edit, const pare_item *item, const char *id,
                                pare_error *err)
{
    const char **known =
        pare_arena_array(edit->shelf->bench->arena, edit->shelf->bench->parts + 1, sizeof known[0]);
    if (!known)
        return pare_no_memory(err);
    size_t count = 0;
    for (size_t p = 0; p < edit->shelf->bench->parts; p++)
        if (pare_main_work(edit->shelf->bench->part[p]) == pare_main_work(item->part))
            known[count++] = edit->shelf->bench->part[p]->id;
    known[count++] = "off";
    const char *near = pare_nearest(id, count, known);
    if (near)
        return pare_fail(err, PARE_UNKNOWN,
                         "the bench has no part '%s' for item '%s'; did you mean '%s'?", id,
                         item->name, near);
    return pare_fail(
        err, PARE_UNKNOWN,
        "the bench has no part '%s' for item '%s'; `pare parts` lists them, and '%s=off' "
        "takes it off",
        id, item->name, item->name);
}

static pare_status find_part(const pare_edit *edit, const pare_item *item,
                             const pare_swap_name *name, const pare_part **part, pare_error *err)
{
    if (name->sought && !name->part)
        return pare_sought_part(edit->shelf->bench->arena, item->part, name->number, part, err);
    *part = name->part ? name->part : pare_bench_part(edit->shelf->bench, name->word);
    if (!*part)
        return unknown_part(edit, item, name->word, err);
    if (pare_main_work(*part) == pare_main_work(item->part))
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA, "'%s' is of kind %s; item '%s' needs kind %s", (*part)->id,
                     pare_kind_name((*part)->kind), item->name, pare_kind_name(item->part->kind));
}

static pare_status put_in(pare_edit *edit, size_t index, const pare_part *part, pare_error *err)
{
    pare_craft *craft = edit->craft;
    pare_item *item = &craft->item[index];
    const pare_part *old = item->part;
    pare_text_join(sizeof edit->applied->to, edit->applied->to, 1, &part->id);
    if (part == old && !item->off)
        return PARE_OK;
    item->part = part;
    item->off = false;
    edit->applied->sought = part->sought;
    if (part->sought)
        pare_question_sought(edit, item, old);
    pare_along_ties(item, old);
    pare_status status = pare_edit_carry_over(edit, index, old, err);
    if (status == PARE_OK)
        status = pare_esc_follow(edit, index, old, err);
    if (status == PARE_OK)
        pare_along_doubled_work(edit, index, old);
    if (status == PARE_OK)
        status = pare_along_lost_work(edit, index, old, err);
    if (status == PARE_OK)
        status = pare_chain_mend(edit, index, err);
    if (status == PARE_OK && part->kind == PARE_PACK)
        status = pare_along_plug(edit, index, old, err);
    if (status != PARE_OK)
        return status;
    pare_along_screws(edit, index);
    status = pare_along_bridge(edit, index, err);
    if (status == PARE_OK)
        status = pare_question(edit, index, old, err);
    if (status != PARE_OK)
        return status;
    pare_along_idle_bridge(edit, index);
    pare_edit_drop_orphans(edit);
    if (!item->included_in)
        pare_basket_part(edit->basket, part, item->count);
    edit->applied->work_min += pare_work_part_min(part->kind, item->count);
    return PARE_OK;
}

pare_status pare_apply_item(pare_edit *edit, const pare_swap_name *name, pare_error *err)
{
    size_t index = 0;
    pare_status status = pare_edit_find_item(edit->craft, name->of, &index, err);
    if (status != PARE_OK)
        return status;
    const pare_item *item = &edit->craft->item[index];
    const char *const from = item->off ? "off" : item->part->id;
    pare_text_join(sizeof edit->applied->from, edit->applied->from, 1, &from);
    if (item->part->kind == PARE_CAPACITOR)
        edit->applied->protects_esc = true;
    if (item->part->kind == PARE_MOTOR || item->part->kind == PARE_PACK)
        edit->applied->deep = true;
    edit->applied->radio = pare_chain_of(edit->craft, index) >= 0;
    if (strcmp(name->word, "off") == 0)
        return take_off(edit, index, err);
    const pare_part *part = NULL;
    status = find_part(edit, item, name, &part, err);
    return status == PARE_OK ? put_in(edit, index, part, err) : status;
}

pare_status pare_apply_coax(pare_edit *edit, const pare_swap_name *name, pare_error *err)
{
    size_t index = 0;
    const pare_status status = pare_edit_find_item(edit->craft, name->of, &index, err);
    if (status != PARE_OK)
        return status;
    pare_item *item = &edit->craft->item[index];
    const double came_m = item->part->spec[PARE_SPEC_LENGTH].value;
    const bool coax = item->part->kind == PARE_ANTENNA || item->part->kind == PARE_PIGTAIL;
    if (item->off)
        return pare_fail(err, PARE_UNKNOWN, "item '%s' is off", item->name);
    if (!coax || !(came_m > 0))
        return pare_fail(err, PARE_BAD_DATA, "%s '%s' has no coax of a known length to cut",
                         pare_kind_words(item->part->kind), item->part->id);
    if (name->number > came_m * (1 + 1e-9))
        return pare_fail(err, PARE_BAD_DATA, "'%s' comes with %.4g mm of coax: %.4g mm is longer",
                         item->part->id, 1e3 * came_m, 1e3 * name->number);
    const double now_m = item->cut_length_m > 0 ? item->cut_length_m : came_m;
    const double needed_m = pare_coax_needed_m(edit->craft, item);
    if (needed_m > 0 && name->number < needed_m - 1e-6)
        pare_edit_warn(edit, "%s needs %.0f mm to reach", item->name, 1e3 * needed_m);
    snprintf(edit->applied->from, sizeof edit->applied->from, "%.4g mm of coax", 1e3 * now_m);
    snprintf(edit->applied->to, sizeof edit->applied->to, "%.4g mm of coax", 1e3 * name->number);
    item->cut_length_m = name->number;
    edit->applied->radio = true;
    pare_question_radio(edit);
    edit->applied->work_min = pare_work_coax_cut_min() * item->count;
    return PARE_OK;
}
