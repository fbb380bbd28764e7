/* holding.c: loads on screws (see holding.h).
 *
 * Flight asks little of screws: a motor pulls with its thrust and turns with its torque, and four M3
 * bear fifty times that. What decides is the crash, and nobody knows its force: the same energy stops
 * in 30 mm of grass or 3 mm of concrete. So the force is a mean over a stated stopping distance, the
 * same for whatever screws are compared, and the pull of a motor tipped over the edge of its base comes
 * from statics (physics/bolted.h). Standoffs carry what stands on them, and lean before they tear.
 *
 * Soft holes count: a steel screw pulls its thread out of aluminium before it breaks. */
#include "craft/holding.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "craft/assemble.h"

#define SHEAR_SHARE     0.6  /* of the tensile strength */
#define USUAL_CIRCLE    0.7  /* bolt circle over stator diameter where it is not stated; estimate */
#define ABOVE_STATOR_M  5e-3 /* the propeller's plane over the base, past the stator; estimate */
#define ENGAGED_LEAST_M 1e-5 /* a thread that is not reached holds nothing; 0 would be not known */
#define DRY             0.19 /* nut factor */

static double square(double x)
{
    return x * x;
}

static int at_least_one(int count)
{
    return count > 1 ? count : 1;
}

/* Radius of the circle of a motor's base screws. */
static double circle_m(const pare_part *motor)
{
    const pare_fit *fit = &motor->fit[PARE_FIT_BOLT_CIRCLE];
    const double across = fit->count > 0 && fit->any[0].high > 0
                              ? fit->any[0].high
                              : USUAL_CIRCLE * motor->spec[PARE_SPEC_STATOR_DIAMETER].value;
    return 0.5 * across;
}

static void motor_loads(const pare_sheet *sheet, const pare_item *motor, double force_n,
                        pare_holding *h)
{
    const double circle = circle_m(motor->part);
    const double high = motor->part->spec[PARE_SPEC_STATOR_LENGTH].value + ABOVE_STATOR_M;
    const pare_sheet_figure *thrust = &sheet->figure[PARE_THRUST_FRESH];
    const pare_sheet_figure *full_a = &sheet->figure[PARE_MOTOR_FULL_A];
    h->crash.shear_n = force_n / h->together;
    h->circle_m = circle;
    h->tips_nm = force_n * high;
    h->crash.pull_n = pare_bolted_pull_n(h->tips_nm, h->together, circle);
    if (!thrust->exists || !full_a->exists)
        return;
    const double torque_nm = full_a->value * 60 / (2 * acos(-1) * sheet->rig.motor.kv_rpm_per_v);
    h->flight.pull_n = thrust->value / sheet->rig.rotors / (1 - sheet->rig.blockage) / h->together;
    h->flight.shear_n = torque_nm / circle / h->together;
}

/* What sits on a joint that holds a frame: all that stands above it, but the frame itself. A standoff
 * carries what is above its upper end. */
static double above_kg(const pare_craft *craft, const pare_joint *joint)
{
    const double from_z =
        joint->at_m.z + (pare_is_screw(joint->standard) ? 0 : joint->length_m / 2) - 2e-3;
    double sum_kg = 0;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        if (item->off || item->part->kind == PARE_FRAME || item->stations == 0)
            continue;
        if (!joint->at_given || item->at_m[0].z >= from_z)
            sum_kg += item->count * item->part->mass_kg.value;
    }
    return sum_kg;
}

static bool of_the_stack(const pare_item *item)
{
    return !item->off && (pare_part_does(item->part, PARE_FLIGHT_CONTROLLER) ||
                          pare_part_does(item->part, PARE_ESC_FOUR));
}

/* What a joint's screws carry: boards stand on each other's screws, so one that holds a board holds the
 * stack. */
static double held_kg(const pare_craft *craft, const pare_joint *joint, const pare_item *item)
{
    if (item->part->kind == PARE_FRAME)
        return above_kg(craft, joint);
    if (!of_the_stack(item))
        return item->off ? 0 : item->count * item->part->mass_kg.value;
    double sum_kg = 0;
    for (size_t i = 0; i < craft->items; i++)
        if (of_the_stack(&craft->item[i]))
            sum_kg += craft->item[i].count * craft->item[i].part->mass_kg.value;
    return sum_kg;
}

static void loads(const pare_craft *craft, const pare_sheet *sheet, const pare_joint *joint,
                  double speed_m_s, pare_holding *h)
{
    const double stopping = square(speed_m_s) / (2 * PARE_STOPPING_M);
    const double force_n = sheet->rig.mass_kg * stopping;
    const int held = joint->holds ? pare_craft_item(craft, joint->holds) : -1;
    if (joint->holds && pare_same_name(joint->holds, "arm")) {
        h->holds = PARE_HOLDS_ARM;
        h->vital = true;
        const int arms = at_least_one((int)sheet->assembly.arms);
        h->together = at_least_one(joint->count / arms);
        h->crash.shear_n = force_n / h->together;
    } else if (held >= 0 && held == pare_craft_doing(craft, PARE_MOTOR)) {
        const pare_item *motor = &craft->item[held];
        h->holds = PARE_HOLDS_MOTOR;
        h->vital = true;
        h->together = at_least_one(joint->count / at_least_one(motor->count));
        motor_loads(sheet, motor, force_n, h);
    } else if (held >= 0) {
        const double mass_kg = held_kg(craft, joint, &craft->item[held]);
        const pare_kind kind = craft->item[held].part->kind;
        h->vital = kind == PARE_PROPELLER || kind == PARE_PACK;
        h->holds = PARE_HOLDS_THING;
        h->together = joint->count;
        h->crash.shear_n = mass_kg * stopping / h->together;
    } else {
        h->holds = PARE_HOLDS_NOT_KNOWN;
        h->together = joint->count;
    }
}

/* The class that steel screws of these sizes are commonly sold in, where the craft does not say:
 * socket heads 12.9, low heads 10.9, slotted ones and standoffs of free-cutting steel 4.8 (common
 * practice, no source). */
static const char *class_of(const pare_joint *joint, pare_screw_material material,
                            const char *grade)
{
    if (grade || material != PARE_STEEL)
        return grade;
    return joint->standard == PARE_ISO4762   ? "12.9"
           : joint->standard == PARE_ISO1207 ? "4.8"
           : pare_is_screw(joint->standard)  ? "10.9"
                                             : "4.8";
}

/* What the screws go into: what the joint says, else the nuts on them. */
static pare_status hole_of(const pare_craft *craft, const pare_joint *joint, pare_grip *grip,
                           pare_error *err)
{
    const pare_joint *nuts = joint->into ? NULL : pare_joint_nuts(craft, joint);
    if (nuts) {
        grip->soft_hole = pare_screw_is_soft(nuts->material);
        grip->engaged_m = fmin(pare_nut_thread_m(&joint->thread), joint->thread.nominal_m);
        return pare_screw_strength(nuts->material, nuts->grade, &grip->hole, err);
    }
    if (!joint->into)
        return PARE_OK;
    grip->soft_hole = pare_hole_is_soft(joint->into);
    /* The first turns carry the load: beyond what it should engage more thread adds nothing. */
    const double should_m = joint->engaged_m > 0 ? joint->engaged_m : joint->thread.nominal_m;
    const double enters_m = pare_joint_enters_m(craft, joint);
    grip->engaged_m = fmax(isnan(enters_m) ? should_m : fmin(enters_m, should_m), ENGAGED_LEAST_M);
    return pare_hole_strength(joint->into, &grip->hole, err);
}

/* Heads of what holds a motor or an arm lie on the arm's carbon. */
static void plate_of(const pare_craft *craft, const pare_joint *joint, bool on_carbon,
                     pare_grip *grip)
{
    if (!on_carbon)
        return;
    grip->plate_pa = PARE_CARBON_BEARS_PA;
    if (pare_joint_washers(craft, joint))
        grip->washer_across_m = pare_washer_across_m(&joint->thread);
}

/* With screws or standoffs of some material in place of what it is. */
static pare_status bears_with(const pare_joint *joint, pare_screw_material material,
                              const char *grade, pare_holding *h, pare_error *err)
{
    pare_strength of;
    const pare_status status =
        pare_screw_strength(material, class_of(joint, material, grade), &of, err);
    if (status != PARE_OK)
        return status;
    if (!pare_is_screw(joint->standard)) {
        const pare_fastener_size size = pare_joint_size(joint);
        h->breaks_n = pare_standoff_pulls_n(&size, of.tensile_pa);
        h->shears_n = fmin(SHEAR_SHARE * h->breaks_n, pare_standoff_bends_n(&size, of.proof_pa));
        return PARE_OK;
    }
    pare_grip grip = h->grip;
    grip.screw = of;
    grip.soft_screw = pare_screw_is_soft(material);
    if (!(grip.engaged_m > 0)) {
        grip.hole = of;
        grip.soft_hole = grip.soft_screw;
    }
    const pare_status held = pare_screw_hold(&grip, &h->hold, err);
    if (held == PARE_OK) {
        h->breaks_n =
            fmin(fmin(h->hold.head_share * h->hold.tensile_n, h->hold.strip_n), h->hold.bearing_n);
        h->shears_n = SHEAR_SHARE * h->hold.tensile_n;
    }
    return held;
}

static pare_status strength_of(const pare_craft *craft, const pare_joint *joint, pare_holding *h,
                               pare_error *err)
{
    if (pare_has_no_length(joint->standard))
        return pare_fail(err, PARE_BAD_DATA, "%s is judged with the screws that it sits on",
                         pare_fastener_name(joint->standard));
    pare_status status = PARE_OK;
    if (pare_is_screw(joint->standard)) {
        h->grip =
            (pare_grip){.standard = joint->standard, .thread = joint->thread, .nut_factor = DRY};
        status = hole_of(craft, joint, &h->grip, err);
        plate_of(craft, joint, h->holds == PARE_HOLDS_MOTOR || h->holds == PARE_HOLDS_ARM,
                 &h->grip);
    }
    return status == PARE_OK ? bears_with(joint, joint->material, joint->grade, h, err) : status;
}

pare_status pare_craft_holding(const pare_craft *craft, const pare_sheet *sheet,
                               const pare_joint *joint, double speed_m_s, pare_holding *holding,
                               pare_error *err)
{
    *holding = (pare_holding){0};
    loads(craft, sheet, joint, speed_m_s, holding);
    const pare_status status = strength_of(craft, joint, holding, err);
    return status == PARE_OK ? PARE_OK : pare_within(err, "joint '%s'", joint->name);
}

double pare_holding_ratio(const pare_holding *holding, const pare_screw_load *load)
{
    return pare_bolted_ratio(holding->breaks_n, holding->shears_n, load);
}

double pare_holding_with(const pare_holding *holding, const pare_joint *joint,
                         pare_screw_material material, int together)
{
    pare_holding other = *holding;
    if (bears_with(joint, material, material == joint->material ? joint->grade : NULL, &other,
                   NULL) != PARE_OK)
        return 0;
    const double more = (double)holding->together / together;
    const pare_screw_load load = {
        .pull_n = holding->tips_nm > 0
                      ? pare_bolted_pull_n(holding->tips_nm, together, holding->circle_m)
                      : holding->crash.pull_n * more,
        .shear_n = holding->crash.shear_n * more,
    };
    return pare_holding_ratio(&other, &load);
}
