/* apply_item.c: another part for an item, an item off, coax cut (see edit.h).
 *
 * The order matters: the new part goes in, then what hangs on the kind of it follows (ESCs move,
 * antenna chains mend, a tie becomes two), then the interfaces of all that is new are looked at, and
 * last what the part brings into question is noted. Nothing is settled here. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/cells.h"
#include "advise/chain.h"
#include "advise/edit.h"
#include "advise/esc.h"
#include "advise/fits.h"
#include "advise/sought.h"
#include "advise/work.h"
#include "base/text.h"
#include "craft/law.h"

#define BIT(kind)    (1u << (kind))
#define BOAST_SIGMAS 3.0 /* below the kind's law: one honest part in a thousand */

/* ---- off ---- */

/* Work that two things of one sort do equally well. What a strap, a standoff or a nameless part
 * does is its own. */
static bool can_be_shared(unsigned work)
{
    return (work & (BIT(PARE_ESC_FOUR) | BIT(PARE_FLIGHT_CONTROLLER) | BIT(PARE_REGULATOR) |
                    BIT(PARE_CAMERA) | BIT(PARE_ACTION_CAMERA) | BIT(PARE_VIDEO_TRANSMITTER) |
                    BIT(PARE_RECEIVER) | BIT(PARE_GPS) | BIT(PARE_BUZZER))) != 0;
}

/* Whether something on the craft still does what an item did. */
static bool done_by_another(const pare_craft *craft, size_t index)
{
    const pare_item *item = &craft->item[index];
    const unsigned work = pare_main_work(item->part);
    if (work == BIT(PARE_PIGTAIL))
        return pare_chain_whole(craft, index);
    for (size_t i = 0; can_be_shared(work) && i < craft->items; i++) {
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
    pare_edit_drop_orphans(edit);
    return PARE_OK;
}

/* ---- finding the part ---- */

static pare_status unknown_part(const pare_edit *edit, const pare_item *item, const char *id,
                                pare_error *err)
{
    const char **known =
        pare_arena_array(edit->bench->arena, edit->bench->parts + 1, sizeof known[0]);
    if (!known)
        return pare_no_memory(err);
    size_t count = 0;
    for (size_t p = 0; p < edit->bench->parts; p++)
        if (pare_main_work(edit->bench->part[p]) == pare_main_work(item->part))
            known[count++] = edit->bench->part[p]->id;
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
    if (name->sought)
        return pare_sought_part(edit->bench->arena, item->part, name->number, part, err);
    *part = pare_bench_part(edit->bench, name->word);
    if (!*part)
        return unknown_part(edit, item, name->word, err);
    if (pare_main_work(*part) == pare_main_work(item->part))
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA, "'%s' is of kind %s; item '%s' needs kind %s", (*part)->id,
                     pare_kind_name((*part)->kind), item->name, pare_kind_name(item->part->kind));
}

/* ---- what follows ---- */

/* One print is two ties' work; and back. */
static void ties(pare_item *item, const pare_part *old)
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
static void rethread(pare_edit *edit, size_t index)
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

/* The lightest part of the bench that, put on beside an item, satisfies a test; NULL: none. */
static const pare_part *lightest(pare_edit *edit, size_t like,
                                 bool (*serves)(const pare_edit *edit, size_t like,
                                                const pare_part *part, const void *what),
                                 const void *what)
{
    const pare_part *best = NULL;
    for (size_t p = 0; p < edit->bench->parts; p++) {
        const pare_part *part = edit->bench->part[p];
        if (!part->sought && (!best || part->mass_kg.value < best->mass_kg.value) &&
            serves(edit, like, part, what))
            best = part;
    }
    return best;
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

static bool serves_as_bridge(const pare_edit *edit, size_t like, const pare_part *part,
                             const void *what)
{
    return pare_may_bridge(part, *(const pare_fit_key *)what) &&
           fits_beside(edit, like, part, false);
}

/* A board or camera that the frame, or the board below, has no place for sits on something that has
 * both patterns. */
static pare_status bridge(pare_edit *edit, size_t index, pare_error *err)
{
    static const struct {
        pare_fit_key key;
        const char *name;
    } keys[] = {{PARE_FIT_STACK, "stack_adapter"}, {PARE_FIT_CAMERA, "camera_adapter"}};
    if (pare_fits_item(edit->craft, index, err) == PARE_OK)
        return PARE_OK;
    for (size_t k = 0; k < sizeof keys / sizeof keys[0]; k++) {
        const pare_part *between = lightest(edit, index, serves_as_bridge, &keys[k].key);
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
static void drop_idle_bridge(pare_edit *edit, size_t index)
{
    const int was = pare_fits_bridge(edit->before, index);
    if (was < 0 || edit->craft->item[was].off)
        return;
    for (size_t i = 0; i < edit->craft->items; i++)
        if (!edit->craft->item[i].off && pare_fits_bridge(edit->craft, i) == was)
            return;
    pare_edit_take_off(edit, (size_t)was);
}

typedef struct lost_work {
    pare_kind kind;
    double out_v;
} lost_work;

static bool serves_as_worker(const pare_edit *edit, size_t like, const pare_part *part,
                             const void *what)
{
    const lost_work *lost = what;
    return part->kind == lost->kind &&
           (lost->kind != PARE_REGULATOR ||
            fabs(part->spec[PARE_SPEC_OUT].value - lost->out_v) < 0.5) &&
           fits_beside(edit, like, part, true);
}

/* Work that only the old part did has to be done by something: an item that was taken off for it,
 * or the lightest part of the bench that fits. esc.c sees to ESCs. */
static pare_status replace_lost_work(pare_edit *edit, size_t index, const pare_part *old,
                                     pare_error *err)
{
    pare_craft *craft = edit->craft;
    unsigned lost =
        pare_work_of(old) & ~pare_work_of(craft->item[index].part) & ~BIT(PARE_ESC_FOUR);
    for (size_t i = 0; i < craft->items; i++)
        if (!craft->item[i].off)
            lost &= ~pare_work_of(craft->item[i].part);
    for (int kind = 0; lost && kind < PARE_KINDS; kind++) {
        if ((lost & BIT(kind)) == 0)
            continue;
        const lost_work what = {(pare_kind)kind, old->spec[PARE_SPEC_OUT].value};
        const pare_part *part = NULL;
        for (size_t i = 0; i < craft->items && !part; i++)
            if (craft->item[i].off && (int)craft->item[i].part->kind == kind)
                part = craft->item[i].part;
        if (!part)
            part = lightest(edit, index, serves_as_worker, &what);
        if (!part)
            return pare_fail(err, PARE_BAD_DATA,
                             "'%s' does the work of kind %s as well, '%s' does not, and the bench "
                             "has none for it",
                             old->id, pare_kind_name(what.kind), craft->item[index].part->id);
        size_t added = 0;
        const pare_status status =
            pare_edit_put_on(edit, part, 1, pare_kind_name(what.kind), index, &added, err);
        if (status != PARE_OK)
            return status;
    }
    return PARE_OK;
}

/* A set that brings its own camera or receiver makes the one on the craft needless. */
static void drop_doubled_work(pare_edit *edit, size_t index, const pare_part *old)
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

/* ---- what is to be asked ---- */

static void question_screws(pare_edit *edit)
{
    const pare_craft *craft = edit->craft;
    for (size_t i = 0; i < craft->joints; i++) {
        const pare_joint *joint = &craft->joint[i];
        const int held = joint->holds ? pare_craft_item(craft, joint->holds) : -1;
        const double needed_m = pare_joint_needed_m(craft, joint);
        if (held < 0 || craft->item[held].part->kind != PARE_MOTOR || !(needed_m > 0))
            continue;
        const double depth_m = craft->item[held].part->spec[PARE_SPEC_SCREW_DEPTH].value;
        const double engaged_m = joint->engaged_m > 0 ? joint->engaged_m : 3e-3;
        const double enters_m = joint->length_m - (needed_m - engaged_m);
        if (depth_m > 0 && enters_m > depth_m + 1e-6)
            pare_edit_warn(edit, "joint.%s: screws enter %.1f mm, '%s' takes %.1f mm: winding",
                           joint->name, 1e3 * enters_m, craft->item[held].part->id, 1e3 * depth_m);
        else if (joint->length_m < needed_m - 1e-6)
            pare_edit_warn(edit, "joint.%s: %.3g mm screws where %.3g mm are needed", joint->name,
                           1e3 * joint->length_m, 1e3 * needed_m);
    }
}

/* How far a frame's plates and bodies reach, forward and back. */
static bool plates_reach(const pare_part *frame, double *low_m, double *high_m)
{
    bool any = false;
    for (size_t i = 0; i < frame->pieces; i++) {
        const pare_piece *piece = &frame->piece[i];
        for (size_t k = 0; piece->form != PARE_FORM_ARMS && k < piece->places; k++) {
            const double half_m = piece->measured ? (piece->mesh.high_m.x - piece->mesh.low_m.x) / 2
                                                  : piece->size_m[0] / 2;
            const double x = piece->at_m ? piece->at_m[k].x : 0;
            *low_m = any ? fmin(*low_m, x - half_m) : x - half_m;
            *high_m = any ? fmax(*high_m, x + half_m) : x + half_m;
            any = true;
        }
    }
    return any;
}

static void question_stations(pare_edit *edit, const pare_part *frame)
{
    double low_m = 0, high_m = 0;
    if (!plates_reach(frame, &low_m, &high_m))
        return;
    for (size_t i = 0; i < edit->craft->items; i++) {
        const pare_item *item = &edit->craft->item[i];
        if (item->off || item->place != PARE_AT_POINTS || item->part == frame ||
            item->part->kind == PARE_ANTENNA)
            continue;
        const double x = item->at_m[0].x;
        const double out_m = x > high_m ? x - high_m : low_m - x;
        if (out_m > 0)
            pare_edit_note(edit, "%s stays where it was, %.0f mm beyond '%s': move it", item->name,
                           1e3 * out_m, frame->id);
    }
}

/* A mass that no part of the kind has. */
static void question_mass(pare_edit *edit, const pare_part *part)
{
    pare_typical law;
    if (part->mass_kg.known != PARE_STATED || !pare_law_mass(part, &law) ||
        part->mass_kg.value >= law.value - BOAST_SIGMAS * law.u)
        return;
    pare_edit_warn(edit,
                   "'%s' is said to weigh %.3g g where its like weigh about %.3g g: weigh one",
                   part->id, 1e3 * part->mass_kg.value, 1e3 * law.value);
}

static pare_status question(pare_edit *edit, size_t index, const pare_part *old, pare_error *err)
{
    const pare_item *item = &edit->craft->item[index];
    question_mass(edit, item->part);
    if (item->part->kind == PARE_MOTOR || item->part->kind == PARE_FRAME)
        question_screws(edit);
    if (item->part->kind == PARE_FRAME)
        question_stations(edit, item->part);
    if (item->part->kind == PARE_ANTENNA && item->part->hand != old->hand)
        pare_edit_note(edit, "the antenna on the ground must be of the same hand as '%s'",
                       item->part->id);
    if (item->part->kind == PARE_CAPACITOR &&
        item->part->spec[PARE_SPEC_CAPACITANCE].value < old->spec[PARE_SPEC_CAPACITANCE].value)
        pare_edit_warn(edit, "a smaller capacitor leaves the ESC more of its voltage spikes");
    return item->part->kind == PARE_PACK ? pare_cells_question(edit, item->part, old, err)
                                         : pare_rating_question(edit, index, err);
}

/* A pack of another plug needs its mate. */
static pare_status plug(pare_edit *edit, size_t index, const pare_part *old, pare_error *err)
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
    for (size_t p = 0; p < edit->bench->parts; p++) {
        const pare_part *part = edit->bench->part[p];
        if (part->kind == PARE_CONNECTOR && !part->sought &&
            part->fit[PARE_FIT_CONNECTOR].count > 0 &&
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

static void look_for(pare_edit *edit, const pare_item *item, const pare_part *old)
{
    const pare_value *wish = &item->part->mass_kg, *now = &old->mass_kg;
    const char *what =
        item->part->kind == PARE_MOTOR ? "stator" : pare_kind_words(item->part->kind);
    pare_edit_note(edit, "look for this %s at %.4g g or less: saves %.3g +- %.2g g", what,
                   1e3 * wish->value, 1e3 * item->count * (now->value - wish->value),
                   1e3 * item->count * hypot(wish->u, now->u));
}

static pare_status put_in(pare_edit *edit, size_t index, const pare_part *part, pare_error *err)
{
    pare_craft *craft = edit->craft;
    pare_item *item = &craft->item[index];
    const pare_part *old = item->part;
    snprintf(edit->applied->to, sizeof edit->applied->to, "%s", part->id);
    if (part == old && !item->off)
        return PARE_OK;
    item->part = part;
    item->off = false;
    edit->applied->sought = part->sought;
    if (part->sought)
        look_for(edit, item, old);
    ties(item, old);
    pare_status status = pare_edit_carry_over(edit, index, old, err);
    if (status == PARE_OK)
        status = pare_esc_follow(edit, index, old, err);
    if (status == PARE_OK)
        drop_doubled_work(edit, index, old);
    if (status == PARE_OK)
        status = replace_lost_work(edit, index, old, err);
    if (status == PARE_OK)
        status = pare_chain_mend(edit, index, err);
    if (status == PARE_OK && part->kind == PARE_PACK)
        status = plug(edit, index, old, err);
    if (status != PARE_OK)
        return status;
    rethread(edit, index);
    status = bridge(edit, index, err);
    if (status == PARE_OK)
        status = question(edit, index, old, err);
    if (status != PARE_OK)
        return status;
    drop_idle_bridge(edit, index);
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
    snprintf(edit->applied->from, sizeof edit->applied->from, "%s",
             item->off ? "off" : item->part->id);
    if (item->part->kind == PARE_CAPACITOR)
        edit->applied->protects_esc = true;
    if (item->part->kind == PARE_MOTOR || item->part->kind == PARE_PACK)
        edit->applied->deep = true;
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
    edit->applied->work_min = pare_work_coax_cut_min() * item->count;
    return PARE_OK;
}
