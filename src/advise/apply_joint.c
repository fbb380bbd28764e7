/* apply_joint.c: screws of another material, fewer of them, of another length; so standoffs, nuts and
 * washers, of which nuts may be plain or locking and washers go altogether (see edit.h).
 *
 * What the screws bear is a margin's to say; here stand the rules of the trade that no arithmetic
 * gives (common practice, no source). One loose screw must never be the end of a flight, so what holds
 * a motor, an arm, a propeller or the pack keeps two; an aluminium screw is done with after a crash, so
 * it does not hold those. A joint that is included in a part keeps what it weighed as it
 * came: assembling counts the difference. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "advise/edit.h"
#include "advise/screw_length.h"
#include "advise/screw_rules.h"
#include "advise/work.h"
#include "base/text.h"
#include "craft/assemble.h"

/* The joint of a name, or NULL with err set. */
static pare_joint *find_joint(pare_craft *craft, const char *name, pare_error *err)
{
    const int found = pare_craft_joint(craft, name);
    if (found >= 0)
        return &craft->joint[found];
    const char *known[PARE_JOINTS];
    for (size_t i = 0; i < craft->joints; i++)
        known[i] = craft->joint[i].name;
    pare_edit_no_such(craft, "joint", name, craft->joints, known, err);
    return NULL;
}

/* The number of a material, or -1 with err set. */
static int material_named(const char *word, pare_error *err)
{
    const int material = pare_screw_material_named(word);
    if (material >= 0)
        return material;
    const char *known[PARE_SCREW_MATERIALS];
    for (int m = 0; m < PARE_SCREW_MATERIALS; m++)
        known[m] = pare_screw_material_name((pare_screw_material)m);
    const char *near = pare_nearest(word, PARE_SCREW_MATERIALS, known);
    if (near)
        pare_fail(err, PARE_UNKNOWN, "no screw material '%s'; did you mean '%s'?", word, near);
    else
        pare_fail(err, PARE_UNKNOWN,
                  "no screw material '%s'; there are steel, stainless, titanium, aluminium_7075, "
                  "aluminium, brass, nylon",
                  word);
    return -1;
}

static pare_status set_material(pare_edit *edit, pare_joint *joint, const char *word,
                                pare_error *err)
{
    const int named = material_named(word, err);
    if (named < 0)
        return PARE_UNKNOWN;
    const pare_screw_material material = (pare_screw_material)named;
    pare_applied *applied = edit->applied;
    snprintf(applied->from, sizeof applied->from, "%s", pare_screw_material_name(joint->material));
    snprintf(applied->to, sizeof applied->to, "%s", word);
    if (material == joint->material)
        return PARE_OK;
    joint->material = material;
    joint->grade = NULL;
    const bool screw = pare_is_screw(joint->standard);
    if (pare_screws_are_spent(edit->craft, joint, material))
        pare_edit_warn(edit, "joint.%s holds %s: an aluminium screw is spent after one crash",
                       joint->name, joint->holds);
    else if (screw && (material == PARE_ALUMINIUM || material == PARE_ALUMINIUM_7075))
        pare_edit_note(edit, "joint.%s: an aluminium screw is not used again after a crash",
                       joint->name);
    applied->work_min = pare_work_screws_min(joint->count);
    pare_basket_screws(edit->basket, joint, joint->count);
    return PARE_OK;
}

/* Washers alone may all go: a head then lies on the plate, and what that bears is a margin's to say. */
static pare_status set_none(pare_edit *edit, const pare_joint *joint, pare_error *err)
{
    const char *things = pare_fastener_words(joint->standard);
    if (joint->standard != PARE_ISO7089)
        return pare_fail(err, PARE_BAD_DATA,
                         "joint.%s is of %ss: without any nothing is held; take off what they hold",
                         joint->name, things);
    pare_edit_warn(edit, "joint.%s off: heads turn on the plate when tightened; look for marks",
                   joint->name);
    return PARE_OK;
}

static pare_status set_count(pare_edit *edit, pare_joint *joint, int count, pare_error *err)
{
    const int least = pare_screws_kept(edit->craft, joint);
    if (count == 0) {
        const pare_status status = set_none(edit, joint, err);
        if (status != PARE_OK)
            return status;
    }
    joint->none = count == 0;
    if (count < least && count < joint->count)
        return pare_fail(err, PARE_BAD_DATA, "what holds %s keeps two screws at each, %d in all",
                         joint->holds, least);
    pare_applied *applied = edit->applied;
    const char *things = pare_fastener_words(joint->standard);
    snprintf(applied->from, sizeof applied->from, "%d %ss", joint->count, things);
    snprintf(applied->to, sizeof applied->to, "%d %ss", count, things);
    if (count > joint->count) {
        applied->work_min = pare_work_screws_min(count - joint->count);
        pare_basket_screws(edit->basket, joint, count - joint->count);
    } else {
        applied->work_min = pare_work_screws_out_min(joint->count - count);
    }
    joint->count = count;
    return PARE_OK;
}

static pare_status set_length(pare_edit *edit, pare_joint *joint, double length_m, pare_error *err)
{
    if (pare_has_no_length(joint->standard))
        return pare_fail(err, PARE_BAD_DATA, "joint.%s is of %ss, which have no length",
                         joint->name, pare_fastener_words(joint->standard));
    pare_applied *applied = edit->applied;
    const double needed_m = pare_joint_needed_m(edit->craft, joint);
    const bool longer = length_m > joint->length_m;
    snprintf(applied->from, sizeof applied->from, "%.4g mm", 1e3 * joint->length_m);
    snprintf(applied->to, sizeof applied->to, "%.4g mm", 1e3 * length_m);
    joint->length_m = length_m;
    if (needed_m > 0 && length_m < needed_m - 1e-6) {
        if (pare_screw_length_suits(edit->craft, joint, length_m))
            pare_edit_note(edit, "joint.%s should have %.4g mm: shorter grips less of its thread",
                           joint->name, 1e3 * needed_m);
        else
            pare_edit_warn(edit, "joint.%s needs %.4g mm: shorter grips less of its thread",
                           joint->name, 1e3 * needed_m);
    }
    pare_screw_length_warn(edit, joint);
    applied->work_min =
        longer ? pare_work_screws_min(joint->count) : pare_work_screws_cut_min(joint->count);
    if (longer)
        pare_basket_screws(edit->basket, joint, joint->count);
    return PARE_OK;
}

/* A plain nut for a locking one and back. Heads of screws are another matter: what lies under them and how
 * far a screw reaches would change with them. */
static pare_status set_standard(pare_edit *edit, pare_joint *joint, const char *word,
                                pare_error *err)
{
    static const pare_fastener nuts[] = {PARE_ISO4032, PARE_ISO7040};
    pare_applied *applied = edit->applied;
    if (joint->standard != PARE_ISO4032 && joint->standard != PARE_ISO7040)
        return pare_fail(err, PARE_BAD_DATA,
                         "joint.%s is of %ss: only nuts change their standard, ISO4032 and ISO7040",
                         joint->name, pare_fastener_words(joint->standard));
    for (size_t i = 0; i < sizeof nuts / sizeof nuts[0]; i++) {
        if (strcmp(pare_fastener_name(nuts[i]), word) != 0)
            continue;
        snprintf(applied->from, sizeof applied->from, "%s", pare_fastener_name(joint->standard));
        snprintf(applied->to, sizeof applied->to, "%s", word);
        if (joint->standard == nuts[i])
            return PARE_OK;
        joint->standard = nuts[i];
        if (nuts[i] == PARE_ISO4032)
            pare_edit_warn(edit, "joint.%s: a plain nut shakes loose: put thread lock on it",
                           joint->name);
        applied->work_min = pare_work_screws_min(joint->count);
        pare_basket_screws(edit->basket, joint, joint->count);
        return PARE_OK;
    }
    return pare_fail(err, PARE_UNKNOWN, "no standard '%s' of nuts; there are ISO4032, ISO7040",
                     word);
}

pare_status pare_apply_joint(pare_edit *edit, const pare_swap_name *name, pare_error *err)
{
    pare_joint *joint = find_joint(edit->craft, name->of, err);
    if (!joint)
        return PARE_UNKNOWN;
    pare_status status = PARE_OK;
    edit->applied->weaker = true;
    if (name->what == PARE_WHAT_JOINT_MATERIAL)
        status = set_material(edit, joint, name->word, err);
    else if (name->what == PARE_WHAT_JOINT_COUNT)
        status = set_count(edit, joint, (int)lround(name->number), err);
    else if (name->what == PARE_WHAT_JOINT_STANDARD)
        status = set_standard(edit, joint, name->word, err);
    else
        status = set_length(edit, joint, name->number, err);
    double mass_kg;
    return status == PARE_OK ? pare_joint_kg(joint, &mass_kg, err) : status;
}
