/* settle.c: a craft checked as a whole, and what follows from its parts filled in.
 *
 * Nothing is counted twice. A motor comes with its phase wires and a frame with its screws: their
 * grams are in the part's mass. A joint or run that describes them says included_in, carries what it
 * weighed as it came, and adds only the difference when it is changed; one that repeats them
 * without saying so is refused, with both names. Settling again after a swap keeps what came. */
#include "craft/assemble.h"
#include "craft/body.h"
#include "craft/craft.h"
#include "craft/drag.h"

static pare_status check_flies(const pare_craft *craft, pare_error *err)
{
    static const struct {
        pare_kind kind;
        const char *words, *pronoun;
    } needed[] = {{PARE_FRAME, "frame", "one"},
                  {PARE_MOTOR, "motors", "some"},
                  {PARE_PROPELLER, "propellers", "some"},
                  {PARE_PACK, "pack", "one"}};
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++)
        if (pare_craft_doing(craft, needed[i].kind) < 0)
            return pare_fail(err, PARE_BAD_DATA, "craft '%s' has no %s: it needs %s to fly",
                             craft->name, needed[i].words, needed[i].pronoun);
    if (pare_craft_doing(craft, PARE_ESC_ONE) < 0 && pare_craft_doing(craft, PARE_ESC_FOUR) < 0)
        return pare_fail(err, PARE_BAD_DATA, "craft '%s' has no ESC: it needs one to fly",
                         craft->name);
    return PARE_OK;
}

static pare_status check_counts(const pare_craft *craft, pare_error *err)
{
    const pare_item *motor = &craft->item[pare_craft_doing(craft, PARE_MOTOR)];
    const pare_item *propeller = &craft->item[pare_craft_doing(craft, PARE_PROPELLER)];
    pare_vec3 arm[PARE_ARMS];
    const size_t arms = pare_craft_arms(craft, PARE_ARMS, arm);
    if (motor->count < 3 || motor->count > PARE_ARMS)
        return pare_fail(err, PARE_BAD_DATA, "item '%s' counts %d motors; 3 to %d fly", motor->name,
                         motor->count, PARE_ARMS);
    if (propeller->count != motor->count)
        return pare_fail(err, PARE_BAD_DATA,
                         "%d propellers in '%s' on %d motors in '%s': the counts must agree",
                         propeller->count, propeller->name, motor->count, motor->name);
    if (motor->place == PARE_AT_ARMS && arms != (size_t)motor->count)
        return pare_fail(err, PARE_BAD_DATA,
                         "%d motors in '%s' at the arms of a frame that has %zu arms", motor->count,
                         motor->name, arms);
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        if (item->place == PARE_AT_POINTS && item->stations > 1 &&
            item->stations != (size_t)item->count)
            return pare_fail(err, PARE_BAD_DATA,
                             "item '%s' counts %d at %zu stations; give one, or one for each",
                             item->name, item->count, item->stations);
    }
    return PARE_OK;
}

/* A part that is on the craft and brings a run or joint of this name without being asked. */
static const pare_item *brought_by(const pare_craft *craft, pare_included what, const char *name)
{
    for (size_t i = 0; i < craft->items; i++)
        if (craft->item[i].part->includes > 0 && !craft->item[i].off &&
            pare_part_brings(craft->item[i].part, what, name))
            return &craft->item[i];
    return NULL;
}

static pare_status twice(const pare_craft *craft, const char *what, const char *name,
                         const pare_item *item, pare_error *err)
{
    return pare_fail(
        err, PARE_BAD_DATA,
        "craft '%s': %s '%s' is already in part '%s' of item '%s'; say included_in: %s",
        craft->name, what, name, item->part->id, item->name, item->name);
}

static pare_status settle_run(const pare_craft *craft, pare_run *run, pare_error *err)
{
    if (!run->included_in) {
        const pare_item *owner = brought_by(craft, PARE_INCLUDES_RUN, run->name);
        if (owner)
            return twice(craft, "run", run->name, owner, err);
        if (run->ways == 0 || !(run->gauge > 0))
            return pare_fail(err, PARE_BAD_DATA, "craft '%s': run '%s' needs a gauge and its ways",
                             craft->name, run->name);
        if (run->times < 1)
            run->times = 1;
        return PARE_OK;
    }
    const int owner = pare_craft_item(craft, run->included_in);
    if (owner < 0)
        return pare_fail(err, PARE_UNKNOWN,
                         "craft '%s': run '%s' is included in '%s', which it has not", craft->name,
                         run->name, run->included_in);
    const pare_item *item = &craft->item[owner];
    const pare_include *include = pare_part_brings(item->part, PARE_INCLUDES_RUN, run->name);
    if (run->ways == 0 || !(run->gauge > 0)) {
        if (!include)
            return pare_fail(
                err, PARE_BAD_DATA,
                "craft '%s': part '%s' does not say what run '%s' it includes; give the "
                "run a gauge and its ways",
                craft->name, item->part->id, run->name);
        run->gauge = include->gauge;
        run->outer_m = include->outer_m;
        run->ways = (size_t)include->count < PARE_WAYS ? (size_t)include->count : PARE_WAYS;
        for (size_t i = 0; i < run->ways; i++)
            run->way_m[i] = include->length_m;
    }
    if (run->times < 1)
        run->times = item->count;
    if (!(run->included_kg > 0)) {
        run->included_kg = pare_run_kg(run);
        run->included_ohm = pare_run_ohm(run, 20);
    }
    return PARE_OK;
}

static pare_status settle_joint(const pare_craft *craft, pare_joint *joint, pare_error *err)
{
    double mass_kg;
    if (!joint->included_in) {
        const pare_item *owner = brought_by(craft, PARE_INCLUDES_JOINT, joint->name);
        if (owner)
            return twice(craft, "joint", joint->name, owner, err);
        return pare_joint_kg(joint, &mass_kg, err);
    }
    const int owner = pare_craft_item(craft, joint->included_in);
    if (owner < 0)
        return pare_fail(err, PARE_UNKNOWN,
                         "craft '%s': joint '%s' is included in '%s', which it has not",
                         craft->name, joint->name, joint->included_in);
    if (joint->count == 0 && !joint->none) {
        const pare_item *item = &craft->item[owner];
        const pare_include *include =
            pare_part_brings(item->part, PARE_INCLUDES_JOINT, joint->name);
        if (!include)
            return pare_fail(err, PARE_BAD_DATA,
                             "craft '%s': part '%s' does not say what joint '%s' it includes; give "
                             "the joint its screws",
                             craft->name, item->part->id, joint->name);
        joint->standard = include->standard;
        joint->thread = include->thread;
        joint->length_m = include->length_m;
        joint->across_m = include->across_m;
        joint->tapped_m = include->tapped_m;
        joint->material = include->material;
        joint->count = include->count * item->count;
    }
    const pare_status status = pare_joint_kg(joint, &mass_kg, err);
    if (status == PARE_OK && !(joint->included_kg > 0))
        joint->included_kg = mass_kg;
    return status;
}

static pare_status check_kinds_included(const pare_craft *craft, pare_error *err)
{
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *owner = &craft->item[i];
        for (size_t k = 0; !owner->off && k < owner->part->includes; k++) {
            if (owner->part->include[k].what != PARE_INCLUDES_KIND)
                continue;
            for (size_t j = 0; j < craft->items; j++) {
                const pare_item *item = &craft->item[j];
                if (!item->off && !item->included_in &&
                    item->part->kind == owner->part->include[k].kind)
                    return twice(craft, "item", item->name, owner, err);
            }
        }
    }
    return PARE_OK;
}

static pare_status settle_bodies(pare_craft *craft, pare_error *err)
{
    for (size_t i = 0; i < craft->items; i++) {
        pare_item *item = &craft->item[i];
        if (item->body_of == item->part)
            continue;
        const pare_status status = pare_part_body(item->part, &item->turn, &item->body, err);
        if (status != PARE_OK)
            return status;
        item->body_of = item->part;
    }
    return PARE_OK;
}

/* Once, so that a lighter screw adds no speed. */
static pare_status settle_drag(pare_craft *craft, pare_error *err)
{
    if (craft->drag_settled)
        return PARE_OK;
    pare_assembly assembly;
    const pare_status status = pare_assemble(craft, &assembly, err);
    if (status == PARE_OK)
        pare_drag_settle(craft, assembly.all.mass_kg);
    return status;
}

pare_status pare_craft_settle(pare_craft *craft, pare_error *err)
{
    pare_status status = check_flies(craft, err);
    if (status == PARE_OK)
        status = check_counts(craft, err);
    for (size_t i = 0; status == PARE_OK && i < craft->runs; i++)
        status = settle_run(craft, &craft->run[i], err);
    for (size_t i = 0; status == PARE_OK && i < craft->joints; i++)
        status = settle_joint(craft, &craft->joint[i], err);
    if (status == PARE_OK)
        status = check_kinds_included(craft, err);
    if (status == PARE_OK)
        status = settle_bodies(craft, err);
    if (status == PARE_OK)
        status = settle_drag(craft, err);
    return status;
}
