/* along.c: what another part brings along, and what it makes needless (see along.h). */
#include "advise/along.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/fits.h"
#include "advise/stand_in.h"
#include "advise/work.h"

#define BIT(kind) (1u << (kind))

/* One print is two ties' work; and back. */
void pare_along_ties(pare_item *item, const pare_part *old)
{
    const bool tied = old->kind == PARE_TIE, ties_now = item->part->kind == PARE_TIE;
    const bool one_place = item->place != PARE_AT_ARMS && item->stations <= 1;
    if (tied == ties_now || !one_place)
        return;
    if (ties_now)
        item->count *= 2;
    else
        item->count = item->count > 1 ? item->count / 2 : 1;
}

/* Boards of another thread get screws of that thread. */
void pare_along_screws(pare_edit *edit, size_t index)
{
    const pare_item *item = &edit->craft->item[index];
    const pare_fit *thread = &item->part->fit[PARE_FIT_THREAD];
    if (thread->count == 0 || item->part->kind == PARE_MOTOR)
        return;
    const int partner = pare_stack_partner(edit->craft, index);
    if (partner >= 0 &&
        !pare_fit_agrees(thread, &edit->craft->item[partner].part->fit[PARE_FIT_THREAD]))
        return; /* the screws are the other board's as well */
    const int frame = pare_craft_doing(edit->craft, PARE_FRAME);
    if (frame >= 0 && !pare_fit_agrees(&item->part->fit[PARE_FIT_STACK],
                                       &edit->craft->item[frame].part->fit[PARE_FIT_STACK]))
        return; /* it will sit on an adapter, and that on the screws as they are */
    for (size_t i = 0; i < edit->craft->joints; i++) {
        pare_joint *joint = &edit->craft->joint[i];
        pare_fit screw = {.count = 1};
        screw.any[0].low = screw.any[0].high = joint->thread.nominal_m;
        if (!joint->holds || strcmp(joint->holds, item->name) != 0 || joint->included_in ||
            pare_fit_agrees(thread, &screw))
            continue;
        char named[16];
        pare_thread other;
        snprintf(named, sizeof named, "M%g", 1e3 * thread->any[0].high);
        if (pare_thread_named(named, &other, NULL) != PARE_OK)
            continue;
        pare_edit_drop(edit, "joint.%s: M%g screws", joint->name, 1e3 * joint->thread.nominal_m);
        joint->thread = other;
        if (other.nominal_m < 3e-3)
            joint->standard = PARE_ISO4762; /* the others begin at M3 */
        pare_edit_bring(edit, "joint.%s: %d %s screws", joint->name, joint->count, named);
        pare_basket_screws(edit->basket, joint, joint->count);
    }
}

/* Whether a part is the better choice: lighter, or as light and before it in the bench's order. */
static bool lighter(const pare_part *part, const pare_part *best)
{
    return !best || part->mass_kg.value < best->mass_kg.value ||
           (part->mass_kg.value == best->mass_kg.value && strcmp(part->id, best->id) < 0);
}

/* With the part on as one more item, does that item (or the one it is for) fit? */
static bool fits_beside(const pare_edit *edit, size_t like, const pare_part *part, bool itself)
{
    pare_craft *craft = edit->craft;
    if (craft->items == PARE_ITEMS)
        return false;
    pare_item *trial = &craft->item[craft->items];
    *trial = craft->item[like];
    trial->name = part->id;
    trial->part = part;
    trial->off = false;
    trial->feeds = 0;
    const size_t index = craft->items++;
    const bool fits = pare_fits_item(craft, itself ? index : like, NULL) == PARE_OK;
    craft->items--;
    return fits;
}

/* Whether a part has a choice at each of some keys that an item agrees with. */
static bool closes(const pare_part *part, unsigned gaps, const pare_part *like)
{
    for (int key = 0; key < PARE_FITS; key++)
        if ((gaps & BIT(key)) && !(pare_may_bridge(part, (pare_fit_key)key) &&
                                   pare_fit_agrees(&part->fit[key], &like->fit[key])))
            return false;
    return true;
}

/* The lightest part that closes an item's gaps, with several choices at a key; NULL: none. */
static const pare_part *lightest_bridge(const pare_edit *edit, size_t like, unsigned gaps,
                                        pare_fit_key key)
{
    static const pare_kind kinds[] = {PARE_HOLDER, PARE_PIGTAIL}; /* whose row has adapters */
    const pare_part *best = NULL;
    for (size_t k = 0; k < sizeof kinds / sizeof kinds[0]; k++) {
        size_t parts;
        const pare_part *const *part = pare_shelf_row(edit->shelf, kinds[k], &parts);
        for (size_t p = 0; p < parts; p++)
            if (pare_may_bridge(part[p], key) && lighter(part[p], best) &&
                closes(part[p], gaps, edit->craft->item[like].part) &&
                fits_beside(edit, like, part[p], false))
                best = part[p];
    }
    return best;
}

/* A board or camera that the frame, or the board below, has no place for sits on something that has
 * both patterns. */
pare_status pare_along_bridge(pare_edit *edit, size_t index, pare_error *err)
{
    static const struct {
        pare_fit_key key;
        const char *name;
    } keys[] = {{PARE_FIT_STACK, "stack_adapter"}, {PARE_FIT_CAMERA, "camera_adapter"}};
    if (pare_fits_item(edit->craft, index, NULL) == PARE_OK)
        return PARE_OK;
    const unsigned gaps = pare_fits_gaps(edit->craft, index);
    for (size_t k = 0; gaps && k < sizeof keys / sizeof keys[0]; k++) {
        const pare_part *between = lightest_bridge(edit, index, gaps, keys[k].key);
        size_t added = 0;
        if (!between)
            continue;
        const pare_status status =
            pare_edit_put_on(edit, between, 1, keys[k].name, index, &added, err);
        return status == PARE_OK ? pare_fits_item(edit->craft, index, err) : status;
    }
    return pare_fits_item(edit->craft, index, err);
}

/* What lay between the old part and the frame, and lies between nothing now, goes. */
void pare_along_idle_bridge(pare_edit *edit, size_t index)
{
    const int was = pare_fits_bridge(edit->before, index);
    if (was < 0 || edit->craft->item[was].off)
        return;
    for (size_t i = 0; i < edit->craft->items; i++)
        if (!edit->craft->item[i].off && pare_fits_bridge(edit->craft, i) == was)
            return;
    pare_edit_take_off(edit, (size_t)was);
}

/* The lightest part that does lost work (a regulator: at the same volts) and fits; NULL: none. */
static const pare_part *lightest_worker(const pare_edit *edit, size_t like, pare_kind kind,
                                        double out_v)
{
    const pare_part *best = NULL;
    size_t parts;
    const pare_part *const *part = pare_shelf_row(edit->shelf, kind, &parts);
    for (size_t p = 0; p < parts; p++)
        if (part[p]->kind == kind && lighter(part[p], best) &&
            (kind != PARE_REGULATOR || fabs(part[p]->spec[PARE_SPEC_OUT].value - out_v) < 0.5) &&
            fits_beside(edit, like, part[p], true))
            best = part[p];
    return best;
}

/* Work that only the old part did has to be done by something: an item that was taken off for it,
 * or the lightest part of the bench that fits. esc.c sees to ESCs. */
pare_status pare_along_lost_work(pare_edit *edit, size_t index, const pare_part *old,
                                 pare_error *err)
{
    pare_craft *craft = edit->craft;
    unsigned lost =
        pare_work_of(old) & ~pare_work_of(craft->item[index].part) & ~BIT(PARE_ESC_FOUR);
    for (size_t i = 0; lost && i < craft->items; i++)
        if (!craft->item[i].off)
            lost &= ~pare_work_of(craft->item[i].part);
    for (int kind = 0; lost && kind < PARE_KINDS; kind++) {
        if ((lost & BIT(kind)) == 0)
            continue;
        const pare_part *part = NULL;
        for (size_t i = 0; i < craft->items && !part; i++)
            if (craft->item[i].off && (int)craft->item[i].part->kind == kind)
                part = craft->item[i].part;
        if (!part)
            part = lightest_worker(edit, index, (pare_kind)kind, old->spec[PARE_SPEC_OUT].value);
        if (!part)
            return pare_fail(err, PARE_BAD_DATA,
                             "'%s' does the work of kind %s as well, '%s' does not, and the bench "
                             "has none for it",
                             old->id, pare_kind_name((pare_kind)kind), craft->item[index].part->id);
        size_t added = 0;
        const pare_status status =
            pare_edit_put_on(edit, part, 1, pare_kind_name((pare_kind)kind), index, &added, err);
        if (status != PARE_OK)
            return status;
    }
    return PARE_OK;
}

/* A set that brings its own camera or receiver makes the one on the craft needless. */
void pare_along_doubled_work(pare_edit *edit, size_t index, const pare_part *old)
{
    const unsigned single = BIT(PARE_CAMERA) | BIT(PARE_RECEIVER);
    const unsigned work = pare_work_of(edit->craft->item[index].part);
    const unsigned gained = work & ~pare_work_of(old) & single;
    for (size_t i = 0; gained && i < edit->craft->items; i++) {
        const pare_item *other = &edit->craft->item[i];
        if (i != index && !other->off && (pare_main_work(other->part) & gained) &&
            (pare_work_of(other->part) & ~work) == 0)
            pare_edit_take_off(edit, i);
    }
}

/* A pack of another plug needs its mate. */
pare_status pare_along_plug(pare_edit *edit, size_t index, const pare_part *old, pare_error *err)
{
    pare_craft *craft = edit->craft;
    const pare_part *pack = craft->item[index].part;
    const pare_fit *own = &pack->fit[PARE_FIT_CONNECTOR];
    int mate = -1;
    for (size_t i = 0; i < craft->items; i++)
        if (!craft->item[i].off && craft->item[i].part->kind == PARE_CONNECTOR)
            mate = (int)i;
    if (mate < 0) {
        if (pare_fit_agrees(own, &old->fit[PARE_FIT_CONNECTOR]))
            return PARE_OK;
        return pare_fail(err, PARE_BAD_DATA,
                         "pack '%s' has a %g A class plug, the lead is for %g A", pack->id,
                         own->any[0].high, old->fit[PARE_FIT_CONNECTOR].any[0].high);
    }
    if (pare_fit_agrees(own, &craft->item[mate].part->fit[PARE_FIT_CONNECTOR]))
        return PARE_OK;
    const pare_part *best = NULL;
    size_t parts;
    const pare_part *const *mates = pare_shelf_row(edit->shelf, PARE_CONNECTOR, &parts);
    for (size_t p = 0; p < parts; p++) {
        const pare_part *part = mates[p];
        if (part->fit[PARE_FIT_CONNECTOR].count > 0 &&
            pare_fit_agrees(own, &part->fit[PARE_FIT_CONNECTOR]) &&
            (!best || part->mass_kg.value < best->mass_kg.value))
            best = part;
    }
    if (!best)
        return pare_fail(
            err, PARE_BAD_DATA,
            "pack '%s' has a %g A class plug, connector '%s' another, and the bench has "
            "no mate",
            pack->id, own->any[0].high, craft->item[mate].part->id);
    pare_item *connector = &craft->item[mate];
    pare_edit_drop(edit, "%s: %s", connector->name, connector->part->id);
    pare_edit_bring(edit, "%s: %s", connector->name, best->id);
    connector->part = best;
    pare_basket_part(edit->basket, best, connector->count);
    edit->applied->work_min += pare_work_part_min(PARE_CONNECTOR, connector->count);
    return PARE_OK;
}
