/* crash.c: two crashes compared (see crash.h).
 *
 * Force is m v^2 / 2s with the same s, so at one speed the ratio of forces is that of the masses. What two
 * craft share cancels in the uncertainty: the cloth's strength where the frame stays, the screws' where
 * they stay. Where a part is another, both sides' doubt comes in. Speeds come from one model and are off
 * alike, so of their doubt only that share counts by which they differ. */
#include "craft/crash.h"

#include <math.h>

#include "base/text.h"
#include "craft/arm_facts.h"
#include "craft/flight.h"
#include "craft/holding.h"

#define GRAVITY_M_S2    9.80665
#define OTHER_PLATE_U   0.15   /* strength of one plate against another's, each */
#define PLATE_THICK_U_M 0.1e-3 /* of plate as sold; common practice, no source */
#define OTHER_SCREW_U   0.05   /* each */
#define OTHER_HOLDER_U  0.30   /* of what holds it, strap against strap, each; estimate */

static const pare_ratio no_ratio = {NAN, NAN};

const char *pare_crash_name(pare_crash_at at)
{
    static const char *const names[PARE_CRASHES] = {
        [PARE_CRASH_STATED] = "stated", [PARE_CRASH_CRUISE] = "cruise", [PARE_CRASH_TOP] = "top"};
    return names[at];
}

static double square(double x)
{
    return x * x;
}

typedef struct pair {
    const pare_craft *now, *then;
    const pare_sheet *sheet, *then_sheet;
    double mass;   /* now over then */
    double mass_u; /* of that */
} pair;

/* ---- speeds and energies ---- */

static double speed_of(const pare_craft *craft, const pare_sheet *sheet, pare_crash_at at)
{
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(&craft->brief, &flown);
    const pare_sheet_figure *own =
        &sheet->figure[at == PARE_CRASH_TOP ? PARE_TOP_SPEED : PARE_BEST_RANGE_SPEED];
    double most = 0, cruise = NAN;
    for (size_t i = 0; at == PARE_CRASH_CRUISE && i < entries; i++)
        if (flown[i].as == PARE_FLOWN_SPEED && flown[i].share > most) {
            most = flown[i].share;
            cruise = flown[i].level;
        }
    return isfinite(cruise) ? cruise : own->exists ? own->value : (double)NAN;
}

static pare_crash crash_at(const pair *p, pare_crash_at at)
{
    const double mass_kg = p->sheet->rig.mass_kg;
    const double stated = pare_brief_crash_m_s(&p->now->brief);
    const double v = at == PARE_CRASH_STATED ? stated : speed_of(p->now, p->sheet, at);
    pare_crash crash = {.speed_m_s = v,
                        .energy_j = mass_kg * v * v / 2,
                        .drop_m = v * v / (2 * GRAVITY_M_S2),
                        .force_n = mass_kg * v * v / (2 * PARE_STOPPING_M),
                        .then_m_s = NAN,
                        .then_j = NAN,
                        .energy = no_ratio,
                        .arm = no_ratio};
    if (!p->then)
        return crash;
    const double w = at == PARE_CRASH_STATED ? stated : speed_of(p->then, p->then_sheet, at);
    const pare_figure figure = at == PARE_CRASH_TOP ? PARE_TOP_SPEED : PARE_BEST_RANGE_SPEED;
    const pare_sheet_figure *f = &p->sheet->figure[figure];
    const double share_u = f->exists && f->value > 0 ? f->u / f->value : 0;
    crash.then_m_s = w;
    crash.then_j = p->then_sheet->rig.mass_kg * w * w / 2;
    crash.energy.value = crash.energy_j / crash.then_j;
    crash.energy.u =
        crash.energy.value * hypot(p->mass_u / p->mass, v == w ? 0 : 2 * share_u * log(v / w));
    return crash;
}

/* ---- arms ---- */

static const pare_part *frame_of(const pare_craft *craft)
{
    const int frame = pare_craft_doing(craft, PARE_FRAME);
    return frame >= 0 ? craft->item[frame].part : NULL;
}

static void arms(const pair *p, pare_crash_facts *facts)
{
    pare_arm_facts now, then;
    if (!p->then || !pare_craft_arm_facts(p->now, p->sheet, &now) ||
        !pare_craft_arm_facts(p->then, p->then_sheet, &then))
        return;
    const double root = now.figures.bears_n / then.figures.bears_n;
    double root_u = 0;
    if (frame_of(p->now) != frame_of(p->then))
        root_u = hypot(hypot(OTHER_PLATE_U, OTHER_PLATE_U),
                       2 * hypot(PLATE_THICK_U_M / now.arm.thickness_m,
                                 PLATE_THICK_U_M / then.arm.thickness_m));
    for (int at = 0; at < PARE_CRASHES; at++) {
        pare_crash *crash = &facts->at[at];
        const double value = root / crash->energy.value;
        crash->arm =
            (pare_ratio){value, value * hypot(root_u, crash->energy.u / crash->energy.value)};
    }
    facts->plates = then.arm.form == PARE_ARM_PLATE;
    if (!facts->plates)
        return;
    facts->arm_then_m = then.arm.thickness_m;
    facts->arm_same_m = pare_arm_same_stress_m(then.arm.thickness_m, 1, p->mass);
    facts->arm_same_u_m = facts->arm_same_m * p->mass_u / (2 * p->mass);
    facts->arm_spare_kg = (double)p->then_sheet->assembly.arms * then.figures.mass_kg *
                          (1 - facts->arm_same_m / facts->arm_then_m);
}

double pare_crash_arm_at_m(const pare_craft *craft, const pare_sheet *sheet, double mass_kg)
{
    pare_arm_facts arm;
    if (!pare_craft_arm_facts(craft, sheet, &arm) || arm.arm.form != PARE_ARM_PLATE)
        return NAN;
    return pare_arm_same_stress_m(arm.arm.thickness_m, sheet->rig.mass_kg, mass_kg);
}

/* ---- screws ---- */

static bool same_screws(const pare_joint *a, const pare_joint *b)
{
    const bool grade =
        a->grade == b->grade || (a->grade && b->grade && pare_same_name(a->grade, b->grade));
    return a->material == b->material && a->standard == b->standard && grade &&
           a->thread.nominal_m == b->thread.nominal_m;
}

static void add_joint(const pair *p, const pare_joint *joint, pare_crash_facts *facts)
{
    const double speed_m_s = facts->at[PARE_CRASH_STATED].speed_m_s;
    const int like = pare_craft_joint(p->then, joint->name);
    pare_holding now, then;
    if (like < 0 || pare_craft_holding(p->now, p->sheet, joint, speed_m_s, &now, NULL) != PARE_OK ||
        pare_craft_holding(p->then, p->then_sheet, &p->then->joint[like], speed_m_s, &then, NULL) !=
            PARE_OK)
        return;
    const double value =
        pare_holding_ratio(&now, &now.crash) / pare_holding_ratio(&then, &then.crash);
    if (!isfinite(value) || now.holds == PARE_HOLDS_NOT_KNOWN)
        return;
    const double screws_u =
        same_screws(joint, &p->then->joint[like]) ? 0 : hypot(OTHER_SCREW_U, OTHER_SCREW_U);
    const pare_crash_joint made = {joint->name,
                                   {value, value * hypot(screws_u, p->mass_u / p->mass)}};
    size_t at = facts->joints++;
    for (; at > 0 && facts->joint[at - 1].bears.value > value; at--)
        facts->joint[at] = facts->joint[at - 1];
    facts->joint[at] = made;
}

/* ---- what is strapped, stuck or clamped ---- */

static int count_of(const pare_craft *craft, pare_kind kind)
{
    int count = 0;
    for (size_t i = 0; craft && i < craft->items; i++)
        if (!craft->item[i].off && craft->item[i].part->kind == kind)
            count += craft->item[i].count;
    return count;
}

static bool same_parts(const pare_craft *a, const pare_craft *b, pare_kind kind)
{
    const int one = pare_craft_doing(a, kind), other = pare_craft_doing(b, kind);
    return one >= 0 && other >= 0 && a->item[one].part == b->item[other].part;
}

/* Sums all that does such work, and how uncertain that is. */
static double kg_of(const pare_craft *craft, pare_kind kind, double *u_kg)
{
    double sum = 0, variance = 0;
    for (size_t i = 0; craft && i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        if (item->off || item->part->kind != kind)
            continue;
        sum += item->count * item->part->mass_kg.value;
        variance += square(item->count * item->part->mass_kg.u);
    }
    *u_kg = sqrt(variance);
    return sum;
}

static void add_held(const pair *p, pare_kind kind, pare_crash_facts *facts)
{
    const int at = pare_craft_doing(p->now, kind);
    double u_kg = 0, then_u_kg = 0;
    const double now_kg = kg_of(p->now, kind, &u_kg), then_kg = kg_of(p->then, kind, &then_u_kg);
    if (at < 0 || !(now_kg > 0))
        return;
    const double speed_m_s = facts->at[PARE_CRASH_STATED].speed_m_s;
    pare_crash_held held = {.name = p->now->item[at].name,
                            .kind = kind,
                            .pulls_n = now_kg * speed_m_s * speed_m_s / (2 * PARE_STOPPING_M),
                            .bears = no_ratio};
    if (kind == PARE_PACK) {
        held.ways = count_of(p->now, PARE_STRAP);
        held.ways_then = count_of(p->then, PARE_STRAP);
        held.pad = count_of(p->now, PARE_PAD) > 0;
        held.pad_then = count_of(p->then, PARE_PAD) > 0;
    }
    if (p->then && then_kg > 0 && (held.ways > 0) == (held.ways_then > 0)) {
        const double ways = held.ways_then > 0 ? (double)held.ways / held.ways_then : 1;
        const bool same = same_parts(p->now, p->then, kind);
        const pare_kind holder = kind == PARE_PACK ? PARE_STRAP : PARE_HOLDER;
        const bool holds_same =
            same_parts(p->now, p->then, holder) || count_of(p->now, holder) == 0;
        held.bears.value = ways * then_kg / now_kg;
        held.bears.u =
            held.bears.value * hypot(same ? 0 : hypot(u_kg / now_kg, then_u_kg / then_kg),
                                     holds_same ? 0 : hypot(OTHER_HOLDER_U, OTHER_HOLDER_U));
    }
    facts->hold[facts->held++] = held;
}

/* ---- money and handling ---- */

static double price_of(const pare_craft *craft, pare_kind kind, int count)
{
    const int item = pare_craft_doing(craft, kind);
    if (item < 0 || !craft->item[item].part->price.given)
        return NAN;
    return fmin(count, craft->item[item].count) * craft->item[item].part->price.each;
}

/* The same output turns a craft so much faster; a controller's gains ask for the inverse. */
static pare_ratio gain_of(const pair *p, pare_figure which)
{
    const pare_sheet_figure *now = &p->sheet->figure[which];
    if (!p->then || !now->exists || !p->then_sheet->figure[which].exists)
        return no_ratio;
    const double value = now->value / p->then_sheet->figure[which].value;
    const double share_u = now->value > 0 ? now->u / now->value : 0;
    return (pare_ratio){value, value * share_u * fabs(log(value))};
}

void pare_craft_crash(const pare_craft *craft, const pare_sheet *sheet, const pare_craft *then,
                      const pare_sheet *then_sheet, double change_u_kg, pare_crash_facts *facts)
{
    pair p = {.now = craft, .then = then, .sheet = sheet, .then_sheet = then_sheet, .mass = NAN};
    if (then) {
        p.mass = sheet->rig.mass_kg / then_sheet->rig.mass_kg;
        p.mass_u = change_u_kg / then_sheet->rig.mass_kg;
    }
    *facts =
        (pare_crash_facts){.against = then != NULL,
                           .arm_then_m = NAN,
                           .arm_same_m = NAN,
                           .propellers = price_of(craft, PARE_PROPELLER, PARE_CRASH_PROPELLERS),
                           .frame = price_of(craft, PARE_FRAME, 1),
                           .roll = gain_of(&p, PARE_ROLL),
                           .pitch = gain_of(&p, PARE_PITCH),
                           .yaw = gain_of(&p, PARE_YAW)};
    for (int at = 0; at < PARE_CRASHES; at++)
        facts->at[at] = crash_at(&p, (pare_crash_at)at);
    arms(&p, facts);
    for (size_t i = 0; then && i < craft->joints; i++)
        add_joint(&p, &craft->joint[i], facts);
    static const pare_kind kinds[PARE_CRASH_HELD] = {PARE_PACK, PARE_CAMERA, PARE_ACTION_CAMERA};
    for (size_t i = 0; i < PARE_CRASH_HELD; i++)
        add_held(&p, kinds[i], facts);
}
