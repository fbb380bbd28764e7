/* holding.c: loads on screws (see holding.h).
 *
 * Flight asks little of screws: a motor pulls with its thrust and turns with its torque, and four M3
 * bear fifty times that. What decides is the crash, and nobody knows its force: the same energy stops
 * in 30 mm of grass or 3 mm of concrete. So the force is a mean over a stated stopping distance, the
 * same for whatever screws are compared, and the pull of a motor tipped over the edge of its base comes
 * from statics: screws share the moment by their distance from that edge.
 *
 * Soft holes count: a steel screw pulls its thread out of aluminium before it breaks. */
#include "craft/holding.h"

#include <math.h>
#include <string.h>

#include "base/text.h"

#define SHEAR_SHARE      0.6  /* of the tensile strength */
#define BASE_OVER_CIRCLE 1.25 /* a motor's base reaches so far beyond its bolt circle; estimate */
#define USUAL_CIRCLE     0.7 /* bolt circle over stator diameter where it is not stated; estimate */
#define ABOVE_STATOR_M   5e-3 /* the propeller's plane over the base, past the stator; estimate */
#define ENGAGED_LEAST_M  1e-3

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

/* The most that one screw is pulled when a moment tips a base over its edge: n screws evenly on a circle,
 * the base turned so that one stands farthest from the edge, or so that two share that place. Two
 * screws in line with the edge have only the base's own reach for a lever. */
static double tipping_n(double moment_nm, int screws, double circle)
{
    double most = 0;
    for (int turned = 0; turned < 2; turned++) {
        double worst = 0, sum = 0;
        for (int i = 0; i < screws; i++) {
            const double angle = 2 * acos(-1) * (i + 0.5 * turned) / screws;
            const double from_edge = circle * (BASE_OVER_CIRCLE + cos(angle));
            sum += square(from_edge);
            worst = fmax(worst, from_edge);
        }
        most = fmax(most, moment_nm * worst / sum);
    }
    return most;
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
    h->crash.pull_n = tipping_n(h->tips_nm, h->together, circle);
    if (!thrust->exists || !full_a->exists)
        return;
    const double torque_nm = full_a->value * 60 / (2 * acos(-1) * sheet->rig.motor.kv_rpm_per_v);
    h->flight.pull_n = thrust->value / sheet->rig.rotors / (1 - sheet->rig.blockage) / h->together;
    h->flight.shear_n = torque_nm / circle / h->together;
}

/* What sits on a joint that holds a frame: all that stands above it, but the frame itself. */
static double above_kg(const pare_craft *craft, const pare_joint *joint)
{
    double sum_kg = 0;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        if (item->off || item->part->kind == PARE_FRAME || item->stations == 0)
            continue;
        if (!joint->at_given || item->at_m[0].z >= joint->at_m.z - 2e-3)
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
        const int arms = at_least_one((int)sheet->assembly.arms);
        h->together = at_least_one(joint->count / arms);
        h->crash.shear_n = force_n / h->together;
    } else if (held >= 0 && held == pare_craft_doing(craft, PARE_MOTOR)) {
        const pare_item *motor = &craft->item[held];
        h->holds = PARE_HOLDS_MOTOR;
        h->together = at_least_one(joint->count / at_least_one(motor->count));
        motor_loads(sheet, motor, force_n, h);
    } else if (held >= 0) {
        const double mass_kg = held_kg(craft, joint, &craft->item[held]);
        h->holds = PARE_HOLDS_THING;
        h->together = joint->count;
        h->crash.shear_n = mass_kg * stopping / h->together;
    } else {
        h->holds = PARE_HOLDS_NOT_KNOWN;
        h->together = joint->count;
    }
}

/* The class that steel screws of these sizes are commonly sold in, where the craft does not say:
 * socket heads 12.9, low heads 10.9 (common practice, no source). */
static const char *class_of(const pare_joint *joint, pare_screw_material material,
                            const char *grade)
{
    if (grade || material != PARE_STEEL)
        return grade;
    return joint->standard == PARE_ISO4762 ? "12.9" : "10.9";
}

static pare_status strength_of(const pare_joint *joint, pare_screw_material material,
                               const char *grade, pare_strength *screw, pare_held *hold,
                               pare_error *err)
{
    pare_status status =
        pare_screw_strength(material, class_of(joint, material, grade), screw, err);
    if (status != PARE_OK)
        return status;
    pare_grip grip = {.standard = joint->standard,
                      .thread = joint->thread,
                      .screw = *screw,
                      .hole = *screw,
                      .soft_screw = pare_screw_is_soft(material),
                      .soft_hole = pare_screw_is_soft(material),
                      .nut_factor = 0.19};
    if (joint->into) {
        status = pare_hole_strength(joint->into, &grip.hole, err);
        if (status != PARE_OK)
            return status;
        grip.soft_hole = pare_hole_is_soft(joint->into);
        /* Not said: as deep as the thread is thick, as is usual; the text's own value otherwise. */
        grip.engaged_m = joint->engaged_m > 0 ? joint->engaged_m
                                              : fmax(joint->thread.nominal_m, ENGAGED_LEAST_M);
    }
    return pare_screw_hold(&grip, hold, err);
}

static double breaks(const pare_held *hold)
{
    return fmin(hold->head_share * hold->tensile_n, hold->strip_n);
}

pare_status pare_craft_holding(const pare_craft *craft, const pare_sheet *sheet,
                               const pare_joint *joint, double speed_m_s, pare_holding *holding,
                               pare_error *err)
{
    *holding = (pare_holding){0};
    const pare_status status =
        strength_of(joint, joint->material, joint->grade, &holding->screw, &holding->hold, err);
    if (status != PARE_OK)
        return pare_within(err, "joint '%s'", joint->name);
    holding->breaks_n = breaks(&holding->hold);
    holding->shears_n = SHEAR_SHARE * holding->hold.tensile_n;
    loads(craft, sheet, joint, speed_m_s, holding);
    return PARE_OK;
}

static double ratio_of(double breaks_n, double shears_n, const pare_screw_load *load)
{
    const double used = square(load->pull_n / breaks_n) + square(load->shear_n / shears_n);
    return used > 0 ? 1 / sqrt(used) : HUGE_VAL;
}

double pare_holding_ratio(const pare_holding *holding, const pare_screw_load *load)
{
    return ratio_of(holding->breaks_n, holding->shears_n, load);
}

double pare_holding_with(const pare_holding *holding, const pare_joint *joint,
                         pare_screw_material material, int together)
{
    pare_strength screw;
    pare_held hold;
    if (strength_of(joint, material, material == joint->material ? joint->grade : NULL, &screw,
                    &hold, NULL) != PARE_OK)
        return 0;
    const double more = (double)holding->together / together;
    const pare_screw_load load = {
        .pull_n = holding->tips_nm > 0 ? tipping_n(holding->tips_nm, together, holding->circle_m)
                                       : holding->crash.pull_n * more,
        .shear_n = holding->crash.shear_n * more,
    };
    return ratio_of(breaks(&hold), SHEAR_SHARE * hold.tensile_n, &load);
}
