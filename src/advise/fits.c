/* fits.c: interfaces between neighbours (see fits.h).
 *
 * A table says who meets whom at which key; parts agree where both state the key. Two meetings have
 * something in between now and then: a board whose pattern the frame has not may sit on an adapter
 * that has both, and a camera of another width in a holder that has both. */
#include "advise/fits.h"

#include <math.h>
#include <stdio.h>

#include "advise/stand_in.h"
#include "base/text.h"

#define BIT(kind)       (1u << (kind))
#define STRAP_OVERLAP_M 40e-3 /* common practice, no source */

/* ---- in words ---- */

static void fit_words(const pare_fit *fit, pare_fit_key key, size_t size, char text[])
{
    size_t used = 0;
    text[0] = '\0';
    for (size_t i = 0; i < fit->count && used < size; i++) {
        const char *or = i ? " or " : "";
        const double low = fit->any[i].low, high = fit->any[i].high;
        int more;
        if (fit->any[i].word)
            more = snprintf(text + used, size - used, "%s%s", or, fit->any[i].word);
        else if (key == PARE_FIT_CONNECTOR)
            more = snprintf(text + used, size - used, "%s%g A class", or, high);
        else if (key == PARE_FIT_CELLS)
            more = low < high ? snprintf(text + used, size - used, "%s%g to %g", or, low, high)
                              : snprintf(text + used, size - used, "%s%g", or, high);
        else if (key == PARE_FIT_THREAD || key == PARE_FIT_SHAFT)
            more = snprintf(text + used, size - used, "%sM%g", or, 1e3 * high);
        else if (low < high)
            more =
                snprintf(text + used, size - used, "%s%.4g to %.4g mm", or, 1e3 * low, 1e3 * high);
        else
            more = snprintf(text + used, size - used, "%s%.4g mm", or, 1e3 * high);
        used += more > 0 ? (size_t)more : 0;
    }
}

static const char *key_words(pare_fit_key key)
{
    static const char *const words[PARE_FITS] = {
        [PARE_FIT_BOLT_CIRCLE] = "a bolt circle of",
        [PARE_FIT_THREAD] = "thread",
        [PARE_FIT_SHAFT] = "shaft",
        [PARE_FIT_STACK] = "a stack pattern of",
        [PARE_FIT_PROPELLER] = "propellers of",
        [PARE_FIT_CELLS] = "cells:",
        [PARE_FIT_CONNECTOR] = "a connector of",
        [PARE_FIT_CAMERA] = "a camera width of",
        [PARE_FIT_ANTENNA] = "a connector of type",
    };
    return words[key];
}

static pare_status apart(const pare_part *a, const pare_fit *fit_a, const pare_part *b,
                         const pare_fit *fit_b, pare_fit_key key, pare_error *err)
{
    if (!err) /* a list of swaps asks by the thousand and reads none of it */
        return PARE_BAD_DATA;
    char of_a[96], of_b[96];
    fit_words(fit_a, key, sizeof of_a, of_a);
    fit_words(fit_b, key, sizeof of_b, of_b);
    return pare_fail(err, PARE_BAD_DATA, "%s '%s' has %s %s, %s '%s' %s", pare_kind_words(a->kind),
                     a->id, key_words(key), of_a, pare_kind_words(b->kind), b->id, of_b);
}

/* ---- who meets whom ---- */

static const struct {
    pare_kind a, b;
    pare_fit_key key;
    bool bridged; /* something that has both may lie between */
} meetings[] = {
    {PARE_MOTOR, PARE_FRAME, PARE_FIT_BOLT_CIRCLE, false},
    {PARE_PROPELLER, PARE_MOTOR, PARE_FIT_SHAFT, false},
    {PARE_PROPELLER_NUT, PARE_MOTOR, PARE_FIT_SHAFT, false},
    {PARE_PROPELLER, PARE_FRAME, PARE_FIT_PROPELLER, false},
    {PARE_ESC_FOUR, PARE_FRAME, PARE_FIT_STACK, true},
    {PARE_FLIGHT_CONTROLLER, PARE_FRAME, PARE_FIT_STACK, true},
    {PARE_VIDEO_TRANSMITTER, PARE_FRAME, PARE_FIT_STACK, true},
    {PARE_REGULATOR, PARE_FRAME, PARE_FIT_STACK, true},
    {PARE_CAMERA, PARE_FRAME, PARE_FIT_CAMERA, true},
    {PARE_PACK, PARE_CONNECTOR, PARE_FIT_CONNECTOR, false},
};
enum { MEETINGS = sizeof meetings / sizeof meetings[0] };

static bool plays(const pare_part *part, pare_kind kind)
{
    return (pare_work_of(part) & BIT(kind)) != 0;
}

/* A propeller's own size is its diameter. */
static pare_fit fit_of(const pare_part *part, pare_fit_key key)
{
    pare_fit fit = part->fit[key];
    const double diameter_m = part->spec[PARE_SPEC_DIAMETER].value;
    if (key == PARE_FIT_PROPELLER && part->kind == PARE_PROPELLER && diameter_m > 0) {
        fit.count = 1;
        fit.any[0].low = fit.any[0].high = diameter_m;
        fit.any[0].word = NULL;
    }
    return fit;
}

static bool joins(const pare_part *between, const pare_part *a, const pare_part *b,
                  pare_fit_key key)
{
    return pare_may_bridge(between, key) && pare_fit_agrees(&between->fit[key], &a->fit[key]) &&
           pare_fit_agrees(&between->fit[key], &b->fit[key]);
}

bool pare_may_bridge(const pare_part *part, pare_fit_key key)
{
    return (part->kind == PARE_ADAPTER || part->kind == PARE_HOLDER ||
            part->kind == PARE_PRINTED) &&
           part->fit[key].count > 1;
}

/* Something on the craft that has both sides' patterns, or -1. */
static int bridge_between(const pare_craft *craft, const pare_part *a, const pare_part *b,
                          pare_fit_key key)
{
    for (size_t i = 0; i < craft->items; i++)
        if (!craft->item[i].off && joins(craft->item[i].part, a, b, key))
            return (int)i;
    return -1;
}

static bool meet_never(size_t m, const pare_part *a, const pare_part *b, size_t count,
                       const pare_part *const between[])
{
    const pare_fit_key key = meetings[m].key;
    const pare_fit fit_a = fit_of(a, key), fit_b = fit_of(b, key);
    bool joined = pare_fit_agrees(&fit_a, &fit_b);
    for (size_t i = 0; meetings[m].bridged && !joined && i < count; i++)
        joined = joins(between[i], a, b, key);
    return !joined;
}

bool pare_fits_never(const pare_part *a, const pare_part *b, size_t count,
                     const pare_part *const between[])
{
    for (size_t m = 0; m < MEETINGS; m++)
        if ((plays(a, meetings[m].a) && plays(b, meetings[m].b) &&
             meet_never(m, a, b, count, between)) ||
            (plays(b, meetings[m].a) && plays(a, meetings[m].b) &&
             meet_never(m, b, a, count, between)))
            return true;
    return false;
}

static bool is_stack_board(const pare_part *part)
{
    return part->kind != PARE_ESC_ONE &&
           (pare_work_of(part) & (BIT(PARE_FLIGHT_CONTROLLER) | BIT(PARE_ESC_FOUR))) != 0;
}

static bool has_joint(const pare_craft *craft, const char *item)
{
    for (size_t i = 0; i < craft->joints; i++)
        if (craft->joint[i].holds && pare_same_name(craft->joint[i].holds, item))
            return true;
    return false;
}

int pare_stack_partner(const pare_craft *craft, size_t index)
{
    const pare_item *item = &craft->item[index];
    for (size_t i = 0; is_stack_board(item->part) && i < craft->items; i++) {
        const pare_item *other = &craft->item[i];
        if (i != index && !other->off && is_stack_board(other->part) &&
            !(has_joint(craft, item->name) && has_joint(craft, other->name)))
            return (int)i;
    }
    return -1;
}

int pare_fits_bridge(const pare_craft *craft, size_t index)
{
    const pare_part *part = craft->item[index].part;
    const int others[] = {pare_craft_doing(craft, PARE_FRAME), pare_stack_partner(craft, index)};
    for (size_t k = 0; k < sizeof others / sizeof others[0]; k++)
        for (size_t m = 0; others[k] >= 0 && m < MEETINGS; m++) {
            const pare_part *other = craft->item[others[k]].part;
            const pare_fit_key key = meetings[m].key;
            if (!meetings[m].bridged || !plays(part, meetings[m].a) ||
                pare_fit_agrees(&part->fit[key], &other->fit[key]))
                continue;
            const int between = bridge_between(craft, part, other, key);
            if (between >= 0)
                return between;
        }
    return -1;
}

/* gaps: where not NULL, what something between could mend is noted there and passed over. */
static pare_status meet(const pare_craft *craft, size_t m, const pare_part *a, const pare_part *b,
                        unsigned *gaps, pare_error *err)
{
    const pare_fit_key key = meetings[m].key;
    const pare_fit fit_a = fit_of(a, key), fit_b = fit_of(b, key);
    if (pare_fit_agrees(&fit_a, &fit_b))
        return PARE_OK;
    if (meetings[m].bridged && bridge_between(craft, a, b, key) >= 0)
        return PARE_OK;
    if (meetings[m].bridged && gaps) {
        *gaps |= 1u << key;
        return PARE_OK;
    }
    return apart(a, &fit_a, b, &fit_b, key, err);
}

/* The screws that hold an item go into its thread. */
static pare_status meet_screws(const pare_craft *craft, const pare_item *item, pare_error *err)
{
    for (size_t i = 0; i < craft->joints; i++) {
        const pare_joint *joint = &craft->joint[i];
        if (!joint->holds || !pare_same_name(joint->holds, item->name))
            continue;
        pare_fit screw = {.count = 1};
        screw.any[0].low = screw.any[0].high = joint->thread.nominal_m;
        if (pare_fit_agrees(&item->part->fit[PARE_FIT_THREAD], &screw))
            continue;
        char own[96];
        fit_words(&item->part->fit[PARE_FIT_THREAD], PARE_FIT_THREAD, sizeof own, own);
        return pare_fail(err, PARE_BAD_DATA, "%s '%s' takes %s screws, joint '%s' has M%g",
                         pare_kind_words(item->part->kind), item->part->id, own, joint->name,
                         1e3 * joint->thread.nominal_m);
    }
    return PARE_OK;
}

/* Boards on the same screws have one pattern, or something that has both between them. */
static pare_status meet_partner(const pare_craft *craft, size_t index, unsigned *gaps,
                                pare_error *err)
{
    const int other = pare_stack_partner(craft, index);
    if (other < 0)
        return PARE_OK;
    const pare_part *a = craft->item[index].part, *b = craft->item[other].part;
    const pare_fit *fit_a = &a->fit[PARE_FIT_STACK], *fit_b = &b->fit[PARE_FIT_STACK];
    if (pare_fit_agrees(fit_a, fit_b) || bridge_between(craft, a, b, PARE_FIT_STACK) >= 0)
        return PARE_OK;
    if (gaps) {
        *gaps |= 1u << PARE_FIT_STACK;
        return PARE_OK;
    }
    return apart(a, fit_a, b, fit_b, PARE_FIT_STACK, err);
}

/* How wide a part is, or 0: its largest piece across the craft. */
static double width_m(const pare_part *part)
{
    double width = 0;
    for (size_t i = 0; i < part->pieces; i++) {
        const pare_piece *piece = &part->piece[i];
        if (piece->form == PARE_FORM_MESH && piece->measured)
            width = fmax(width, piece->mesh.high_m.y - piece->mesh.low_m.y);
        else if (piece->form == PARE_FORM_SHAPE && piece->shape == PARE_SHAPE_BOX)
            width = fmax(width, piece->size_m[1]);
    }
    return part->body_estimated ? 0 : width;
}

/* A holder is no narrower than the action camera that it holds. */
static pare_status meet_holder(const pare_craft *craft, size_t index, pare_error *err)
{
    const pare_part *part = craft->item[index].part;
    const bool camera = part->kind == PARE_ACTION_CAMERA;
    if (!camera && part->kind != PARE_HOLDER)
        return PARE_OK;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_part *other = craft->item[i].part;
        if (craft->item[i].off || other->kind != (camera ? PARE_HOLDER : PARE_ACTION_CAMERA))
            continue;
        const double held = width_m(camera ? part : other), holder = width_m(camera ? other : part);
        if (held > 0 && holder > 0 && holder < held - 0.5e-3)
            return pare_fail(err, PARE_BAD_DATA,
                             "holder '%s' is %.3g mm wide, action camera '%s' %.3g mm",
                             camera ? other->id : part->id, 1e3 * holder,
                             camera ? part->id : other->id, 1e3 * held);
    }
    return PARE_OK;
}

/* A strap goes round pack and plate and comes back over itself. */
static pare_status meet_strap(const pare_craft *craft, size_t index, pare_error *err)
{
    const pare_part *strap = craft->item[index].part;
    const int pack = pare_craft_doing(craft, PARE_PACK);
    const double length_m = strap->spec[PARE_SPEC_LENGTH].value;
    if (strap->kind != PARE_STRAP || pack < 0 || !(length_m > 0))
        return PARE_OK;
    const pare_part *part = craft->item[pack].part;
    if (part->pieces != 1 || part->piece[0].shape != PARE_SHAPE_BOX || part->body_estimated)
        return PARE_OK;
    const double *size_m = part->piece[0].size_m;
    const double needed_m = 2 * (size_m[1] + size_m[2]) + STRAP_OVERLAP_M;
    if (length_m >= needed_m)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA, "strap '%s' is %.0f mm, '%s' needs %.0f mm", strap->id,
                     1e3 * length_m, part->id, 1e3 * needed_m);
}

/* All but the screws, which go by what lies between. */
static pare_status meet_all(const pare_craft *craft, size_t index, unsigned *gaps, pare_error *err)
{
    const pare_part *part = craft->item[index].part;
    const unsigned work = pare_work_of(part);
    pare_status status = PARE_OK;
    for (size_t m = 0; status == PARE_OK && m < MEETINGS; m++) {
        const bool is_a = (work & BIT(meetings[m].a)) != 0, is_b = (work & BIT(meetings[m].b)) != 0;
        for (size_t i = 0; status == PARE_OK && (is_a || is_b) && i < craft->items; i++) {
            const pare_part *other = craft->item[i].part;
            if (craft->item[i].off || i == index)
                continue;
            if (is_a && plays(other, meetings[m].b))
                status = meet(craft, m, part, other, gaps, err);
            else if (is_b && plays(other, meetings[m].a))
                status = meet(craft, m, other, part, gaps, err);
        }
    }
    if (status == PARE_OK)
        status = meet_partner(craft, index, gaps, err);
    if (status == PARE_OK)
        status = meet_holder(craft, index, err);
    if (status == PARE_OK)
        status = meet_strap(craft, index, err);
    return status;
}

unsigned pare_fits_gaps(const pare_craft *craft, size_t index)
{
    unsigned gaps = 0;
    return meet_all(craft, index, &gaps, NULL) == PARE_OK ? gaps : 0;
}

pare_status pare_fits_item(const pare_craft *craft, size_t index, pare_error *err)
{
    pare_status status = meet_all(craft, index, NULL, err);
    if (status == PARE_OK && pare_fits_bridge(craft, index) < 0)
        status = meet_screws(craft, &craft->item[index], err);
    return status;
}
