/* edit.c: what a change drags along (see edit.h).
 *
 * A part that comes with wire, screws or a nut replaces one that came with others, and the craft's
 * joints and runs describe what came. Where a run is still as it came, the new part's own takes its
 * place; where it was cut, the cut stays, for it follows from where things sit. A part that does not
 * say what it comes with is taken to come with what the old one did: makers rarely say, and a motor
 * without wires is not sold. */
#include "advise/edit.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "craft/assemble.h"

static void put(size_t *count, size_t size, char rows[], const char *format, va_list args)
{
    if (*count == PARE_SWAP_NOTES)
        return;
    vsnprintf(rows + *count * size, size, format, args);
    (*count)++;
}

void pare_edit_bring(pare_edit *edit, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    put(&edit->applied->brings, sizeof edit->applied->bring[0], edit->applied->bring[0], format,
        args);
    va_end(args);
}

void pare_edit_drop(pare_edit *edit, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    put(&edit->applied->drops, sizeof edit->applied->drop[0], edit->applied->drop[0], format, args);
    va_end(args);
}

void pare_edit_note(pare_edit *edit, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    put(&edit->applied->notes, sizeof edit->applied->note[0], edit->applied->note[0], format, args);
    va_end(args);
}

void pare_edit_warn(pare_edit *edit, const char *format, ...)
{
    edit->applied->open_question = true;
    va_list args;
    va_start(args, format);
    put(&edit->applied->notes, sizeof edit->applied->note[0], edit->applied->note[0], format, args);
    va_end(args);
}

pare_status pare_edit_no_such(const pare_craft *craft, const char *what, const char *name,
                              size_t count, const char *const known[], pare_error *err)
{
    const char *near = pare_nearest(name, count, known);
    if (near)
        return pare_fail(err, PARE_UNKNOWN, "craft '%s' has no %s '%s'; did you mean '%s'?",
                         craft->name, what, name, near);
    pare_text list = {0};
    for (size_t i = 0; i < count; i++)
        pare_text_printf(&list, "%s%s", i ? ", " : "", known[i]);
    pare_fail(err, PARE_UNKNOWN, "craft '%s' has no %s '%s'; there %s %s", craft->name, what, name,
              count == 1 ? "is" : "are", list.bytes ? list.bytes : "none");
    pare_text_free(&list);
    return PARE_UNKNOWN;
}

pare_status pare_edit_find_item(const pare_craft *craft, const char *name, size_t *index,
                                pare_error *err)
{
    const int found = pare_craft_item(craft, name);
    if (found >= 0) {
        *index = (size_t)found;
        return PARE_OK;
    }
    const char *known[PARE_ITEMS];
    for (size_t i = 0; i < craft->items; i++)
        known[i] = craft->item[i].name;
    return pare_edit_no_such(craft, "item", name, craft->items, known, err);
}

void pare_edit_take_off(pare_edit *edit, size_t index)
{
    pare_item *item = &edit->craft->item[index];
    item->off = true;
    if (item->count > 1)
        pare_edit_drop(edit, "%s: %d %s", item->name, item->count, item->part->id);
    else
        pare_edit_drop(edit, "%s: %s", item->name, item->part->id);
}

static void put_back(pare_edit *edit, size_t index, int count)
{
    pare_item *item = &edit->craft->item[index];
    item->off = false;
    item->count = count;
    pare_edit_bring(edit, "%s: %s", item->name, item->part->id);
    pare_basket_part(edit->basket, item->part, count);
}

pare_status pare_edit_put_on(pare_edit *edit, const pare_part *part, int count, const char *name,
                             size_t like, size_t *index, pare_error *err)
{
    pare_craft *craft = edit->craft;
    for (size_t i = 0; i < craft->items; i++)
        if (craft->item[i].off && craft->item[i].part == part) {
            put_back(edit, i, count);
            *index = i;
            return PARE_OK;
        }
    if (craft->items == PARE_ITEMS)
        return pare_fail(err, PARE_BAD_DATA,
                         "craft '%s' has %d items already, and this brings '%s'", craft->name,
                         PARE_ITEMS, part->id);
    if (pare_craft_item(craft, name) >= 0)
        return pare_fail(err, PARE_BAD_DATA,
                         "this brings '%s' as item '%s', but craft '%s' has an item of that name",
                         part->id, name, craft->name);
    pare_item *item = &craft->item[craft->items];
    *item = craft->item[like];
    item->name = name;
    item->part = part;
    item->count = count;
    item->off = false;
    item->feeds = 0;
    item->cut_length_m = 0;
    item->included_in = NULL;
    item->body_of = NULL;
    *index = craft->items++;
    pare_edit_bring(edit, "%s: %s", name, part->id);
    pare_basket_part(edit->basket, part, count);
    return PARE_OK;
}

/* ---- runs and joints ---- */

void pare_edit_remove_run(pare_edit *edit, size_t index)
{
    pare_craft *craft = edit->craft;
    pare_edit_drop(edit, "run.%s", craft->run[index].name);
    craft->runs--;
    memmove(&craft->run[index], &craft->run[index + 1],
            (craft->runs - index) * sizeof craft->run[0]);
}

void pare_edit_remove_joint(pare_edit *edit, size_t index)
{
    pare_craft *craft = edit->craft;
    pare_edit_drop(edit, "joint.%s", craft->joint[index].name);
    craft->joints--;
    memmove(&craft->joint[index], &craft->joint[index + 1],
            (craft->joints - index) * sizeof craft->joint[0]);
}

/* Whether a named item went off in this swap. */
static bool went(const pare_edit *edit, const char *name)
{
    const int now = name ? pare_craft_item(edit->craft, name) : -1;
    const int then = name ? pare_craft_item(edit->before, name) : -1;
    return now >= 0 && then >= 0 && edit->craft->item[now].off && !edit->before->item[then].off;
}

static bool any_went(const pare_edit *edit)
{
    for (size_t i = 0; i < edit->before->items; i++)
        if (edit->craft->item[i].off && !edit->before->item[i].off)
            return true;
    return false;
}

void pare_edit_drop_orphans(pare_edit *edit)
{
    if (!any_went(edit))
        return;
    for (size_t i = edit->craft->joints; i-- > 0;)
        if (went(edit, edit->craft->joint[i].holds) ||
            went(edit, edit->craft->joint[i].included_in))
            pare_edit_remove_joint(edit, i);
    for (size_t i = edit->craft->runs; i-- > 0;)
        if (went(edit, edit->craft->run[i].carries) || went(edit, edit->craft->run[i].included_in))
            pare_edit_remove_run(edit, i);
}

static bool included_in(const char *owner, const pare_item *item)
{
    return owner && pare_same_name(owner, item->name);
}

/* Makes a run what the new part brings; settling then weighs it as it came. */
static void as_it_comes(pare_run *run, const char *owner)
{
    run->included_in = owner;
    run->gauge = 0;
    run->outer_m = 0;
    run->ways = 0;
    run->times = 0;
    run->included_kg = 0;
    run->included_ohm = 0;
}

static void carry_run(pare_edit *edit, const pare_item *item, const pare_part *old, pare_run *run)
{
    const pare_include *brings = pare_part_brings(item->part, PARE_INCLUDES_RUN, run->name);
    if (!brings)
        return;
    if (!included_in(run->included_in, item)) {
        if (!run->included_in) {
            pare_edit_drop(edit, "run.%s: %s comes with its own", run->name, item->part->id);
            as_it_comes(run, item->name);
        }
        return;
    }
    const pare_include *brought = pare_part_brings(old, PARE_INCLUDES_RUN, run->name);
    const pare_run now = *run;
    const bool cut = pare_run_kg(run) != run->included_kg;
    as_it_comes(run, item->name);
    if (!brought || !cut)
        return;
    /* Weigh the new wire as it comes, then cut it where the old one was cut. */
    run->gauge = brings->gauge;
    run->outer_m = brings->outer_m;
    run->ways = (size_t)brings->count < PARE_WAYS ? (size_t)brings->count : PARE_WAYS;
    run->times = item->count;
    for (size_t i = 0; i < run->ways; i++)
        run->way_m[i] = brings->length_m;
    run->included_kg = pare_run_kg(run);
    run->included_ohm = pare_run_ohm(run, 20);
    for (size_t i = 0; i < run->ways && i < now.ways; i++)
        if (now.way_m[i] < run->way_m[i])
            run->way_m[i] = now.way_m[i];
    if (now.gauge != brought->gauge) {
        run->gauge = now.gauge;
        run->outer_m = now.outer_m;
    }
}

static void carry_joint(pare_edit *edit, const pare_item *item, const pare_part *old,
                        pare_joint *joint)
{
    const pare_include *brings = pare_part_brings(item->part, PARE_INCLUDES_JOINT, joint->name);
    if (!brings || (joint->included_in && !included_in(joint->included_in, item)))
        return;
    const pare_include *brought = pare_part_brings(old, PARE_INCLUDES_JOINT, joint->name);
    const pare_joint now = *joint;
    if (!joint->included_in)
        pare_edit_drop(edit, "joint.%s: %s comes with its own", joint->name, item->part->id);
    joint->included_in = item->name;
    joint->standard = brings->standard;
    joint->thread = brings->thread;
    joint->length_m = brings->length_m;
    joint->across_m = brings->across_m;
    joint->tapped_m = brings->tapped_m;
    joint->material = brings->material;
    joint->count = brings->count * item->count;
    joint->grade = NULL;
    if (brought)
        joint->needed_m = 0; /* it was the old part's */
    if (pare_joint_kg(joint, &joint->included_kg, NULL) != PARE_OK)
        joint->included_kg = 0; /* settling says what is wrong with it */
    if (!brought || !now.included_in)
        return;
    /* What was chosen for the old one's screws is chosen for these. */
    if (now.material != brought->material)
        joint->material = now.material;
    if (now.count != brought->count * item->count && now.count < joint->count)
        joint->count = now.count;
}

/* Nuts, straps and the like that come with a part. */
static void carry_things(pare_edit *edit, size_t index, const pare_part *old)
{
    pare_craft *craft = edit->craft;
    const pare_part *part = craft->item[index].part;
    if (part->includes == 0 && old->includes == 0)
        return;
    for (size_t i = 0; i < craft->items; i++) {
        pare_item *thing = &craft->item[i];
        if (i == index)
            continue;
        bool comes = false, came = false;
        for (size_t k = 0; k < part->includes; k++)
            comes = comes || (part->include[k].what == PARE_INCLUDES_KIND &&
                              part->include[k].kind == thing->part->kind);
        for (size_t k = 0; k < old->includes; k++)
            came = came || (old->include[k].what == PARE_INCLUDES_KIND &&
                            old->include[k].kind == thing->part->kind);
        const bool was_included = included_in(thing->included_in, &craft->item[index]);
        if (comes && !came && !thing->off && !thing->included_in)
            pare_edit_take_off(edit, i);
        else if (came && !comes && was_included) {
            thing->included_in = NULL;
            pare_edit_bring(edit, "%s: %s", thing->name, thing->part->id);
            pare_basket_part(edit->basket, thing->part, thing->count);
        } else if (came && !comes && thing->off)
            put_back(edit, i, thing->count);
    }
}

pare_status pare_edit_carry_over(pare_edit *edit, size_t index, const pare_part *old,
                                 pare_error *err)
{
    pare_craft *craft = edit->craft;
    const pare_item *item = &craft->item[index];
    for (size_t i = 0; i < item->part->includes; i++)
        if (item->part->include[i].what == PARE_INCLUDES_RUN &&
            !(item->part->include[i].length_m > 0 && item->part->include[i].gauge > 0))
            return pare_fail(err, PARE_BAD_DATA, "part '%s' does not say how long its wire is",
                             item->part->id);
    for (size_t i = 0; i < craft->runs; i++)
        carry_run(edit, item, old, &craft->run[i]);
    for (size_t i = 0; i < craft->joints; i++)
        carry_joint(edit, item, old, &craft->joint[i]);
    carry_things(edit, index, old);
    return PARE_OK;
}

void pare_edit_reach(pare_edit *edit)
{
    for (size_t i = 0; i < edit->craft->runs; i++) {
        pare_run *run = &edit->craft->run[i];
        const int served = run->carries ? pare_craft_item(edit->craft, run->carries) : -1;
        if (served < 0 || edit->craft->item[served].part->kind != PARE_MOTOR || run->times < 1)
            continue;
        const double needed_m = pare_run_needed_m(edit->craft, run);
        double added_m = 0;
        for (size_t k = 0; k < run->ways; k++)
            if (run->way_m[k] < needed_m) {
                added_m += needed_m - run->way_m[k];
                run->way_m[k] = needed_m;
            }
        if (added_m > 0) {
            pare_edit_bring(edit, "run.%s: %.0f mm a wire, to reach", run->name, 1e3 * needed_m);
            pare_basket_wire(edit->basket, run->gauge, added_m * run->times);
        }
    }
}
