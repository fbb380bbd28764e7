/* doubt.c: propagation of uncertainty through a sheet (see doubt.h).
 *
 * In two stages, because masses are many and their road to the flight is narrow. Stage one: the
 * flight depends on a rig of few numbers (parameters below); each is moved up and down by its own
 * standard uncertainty and the whole flight re-evaluated, which gives its slope. Stage two: each
 * source (a part's mass, a maker's bias, a station) moves the mass figures directly and the flight
 * through those slopes; the squares add up. A slope is taken over the width of the doubt, so a bend
 * within it is averaged rather than missed. */
#include "craft/doubt.h"

#include <math.h>
#include <string.h>

#include "craft/flight.h"
#include "craft/to_rig.h"

/* What the flight depends on. */
enum {
    P_MASS,
    P_IXX,
    P_IYY,
    P_IZZ,
    P_SUM_X,
    P_SUM_Y,
    P_MOTOR_MASS,
    P_SPIN,
    P_THRUST,
    P_POWER,
    P_KV,
    P_RESISTANCE,
    P_NO_LOAD,
    P_CAPACITY,
    P_PACK_OHM,
    P_LEAD,
    P_DRAG,
    P_ALWAYS,
    P_BLOCKAGE,
    PARAMETERS
};

/* Standard uncertainties as shares. [E] are ours, until flights correct them. */
#define PACK_LAW_U     0.30 /* the law of group resistance */
#define LEAD_U         0.10 /* [E] contacts, solder */
#define DRAG_LAW_U     0.30
#define DRAG_STATED_U  0.15 /* [E] */
#define ALWAYS_U       0.20 /* [E] */
#define BLOCKAGE_U     0.40 /* [E] */
#define SPIN_U         0.15
#define MAKER_BIAS_U   0.01  /* [E] masses that one maker states are off together */
#define SCALE_COMMON_U 0.001 /* weighed masses share a scale */

static const pare_figure mass_figures[] = {PARE_ALL_UP, PARE_DRY, PARE_CG_X, PARE_CG_Y,
                                           PARE_CG_Z,   PARE_IXX, PARE_IYY,  PARE_IZZ,
                                           PARE_IXY,    PARE_IXZ, PARE_IYZ,  PARE_PACK_SHIFT};
enum { MASS_FIGURES = sizeof mass_figures / sizeof mass_figures[0] };

static double *parameter(pare_rig *rig, int which)
{
    switch (which) {
    case P_MASS:
        return &rig->mass_kg;
    case P_IXX:
        return &rig->inertia_xx_kg_m2;
    case P_IYY:
        return &rig->inertia_yy_kg_m2;
    case P_IZZ:
        return &rig->inertia_zz_kg_m2;
    case P_SUM_X:
        return &rig->sum_x_m;
    case P_SUM_Y:
        return &rig->sum_y_m;
    case P_MOTOR_MASS:
        return &rig->motor.mass_kg;
    case P_SPIN:
        return &rig->spin_kg_m2;
    case P_THRUST:
        return &rig->rotor.thrust_factor;
    case P_POWER:
        return &rig->rotor.power_factor;
    case P_KV:
        return &rig->motor.kv_rpm_per_v;
    case P_RESISTANCE:
        return &rig->motor.resistance_ohm;
    case P_NO_LOAD:
        return &rig->motor.no_load_a;
    case P_CAPACITY:
        return &rig->pack.capacity_c;
    case P_PACK_OHM:
        return rig->pack.group_ohm > 0 ? &rig->pack.group_ohm : &rig->pack.resistance_factor;
    case P_LEAD:
        return &rig->pack.lead_ohm;
    case P_DRAG:
        return &rig->drag_m2;
    case P_ALWAYS:
        return &rig->always_w;
    default:
        return &rig->blockage;
    }
}

/* Everything that one source moves, signed, at one standard uncertainty. */
typedef struct effect {
    double parameter[PARAMETERS];
    double mass_figure[MASS_FIGURES];
} effect;

typedef struct doubt {
    const pare_craft *craft;
    const pare_sheet *sheet;
    size_t motor, propeller, pack; /* their items */
    double slope[PARAMETERS][PARE_FIGURES];
    double variance[PARE_FIGURES];
} doubt;

static void mass_values(const pare_body *all, double pack_kg, double pack_u_kg,
                        double out[MASS_FIGURES])
{
    const double pack = pack_kg + pack_u_kg;
    const pare_sym3 *i = &all->inertia_kg_m2;
    const double values[MASS_FIGURES] = {all->mass_kg, all->mass_kg - pack,
                                         all->at_m.x,  all->at_m.y,
                                         all->at_m.z,  i->xx,
                                         i->yy,        i->zz,
                                         i->xy,        i->xz,
                                         i->yz,        -all->at_m.x * all->mass_kg / pack};
    memcpy(out, values, sizeof values);
}

static double pack_kg(const doubt *d)
{
    const pare_assembly *assembly = &d->sheet->assembly;
    for (size_t i = 0; i < assembly->lines; i++)
        if (assembly->line[i].of == PARE_LINE_ITEM && assembly->line[i].index == d->pack)
            return assembly->line[i].mass_kg.value;
    return 1;
}

/* The effect of lines growing by a share of their own mass, or of one line moving. */
static void assembly_effect(const doubt *d, const double grown_kg[PARE_LINES], size_t moved_line,
                            pare_vec3 by_m, effect *out)
{
    const pare_assembly *assembly = &d->sheet->assembly;
    pare_body body[PARE_LINES];
    double pack_u = 0, motor_u = 0, propeller_u = 0;
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        body[i] = line->body;
        if (grown_kg[i] != 0 && line->body.mass_kg != 0) {
            const double factor = 1 + grown_kg[i] / line->body.mass_kg;
            body[i].mass_kg *= factor;
            body[i].inertia_kg_m2 = pare_sym3_times(factor, body[i].inertia_kg_m2);
            if (line->of == PARE_LINE_ITEM && line->index == d->pack)
                pack_u += grown_kg[i];
            if (line->of == PARE_LINE_ITEM && line->index == d->motor)
                motor_u += grown_kg[i] / line->count;
            if (line->of == PARE_LINE_ITEM && line->index == d->propeller)
                propeller_u += grown_kg[i] / line->count;
        }
        if (i == moved_line)
            body[i].at_m = pare_vec3_add(body[i].at_m, by_m);
    }
    const pare_body all = pare_body_sum(assembly->lines, body);
    double before[MASS_FIGURES], after[MASS_FIGURES];
    mass_values(&assembly->all, pack_kg(d), 0, before);
    mass_values(&all, pack_kg(d), pack_u, after);
    for (int i = 0; i < MASS_FIGURES; i++)
        out->mass_figure[i] = after[i] - before[i];

    pare_rig rig = d->sheet->rig;
    pare_rig_put_body(assembly, &all, &rig);
    const pare_part *propeller = d->craft->item[d->propeller].part;
    rig.motor.mass_kg += motor_u;
    rig.spin_kg_m2 =
        pare_rotor_spin_kg_m2(propeller->mass_kg.value + propeller_u,
                              propeller->spec[PARE_SPEC_DIAMETER].value, rig.motor.mass_kg);
    pare_rig base = d->sheet->rig;
    for (int p = 0; p <= P_SPIN; p++)
        out->parameter[p] = *parameter(&rig, p) - *parameter(&base, p);
}

static void add(doubt *d, const effect *e)
{
    double moved[PARE_FIGURES] = {0};
    for (int i = 0; i < MASS_FIGURES; i++)
        moved[mass_figures[i]] = e->mass_figure[i];
    for (int p = 0; p < PARAMETERS; p++)
        if (e->parameter[p] != 0)
            for (int f = 0; f < PARE_FIGURES; f++)
                moved[f] += d->slope[p][f] * e->parameter[p];
    for (int f = 0; f < PARE_FIGURES; f++)
        d->variance[f] += moved[f] * moved[f];
}

static const pare_part *part_of(const doubt *d, const pare_line *line)
{
    return line->of == PARE_LINE_ITEM ? d->craft->item[line->index].part : NULL;
}

/* One error for all copies of a part, wherever they are; one for each joint and run. */
static void part_masses(doubt *d)
{
    const pare_assembly *assembly = &d->sheet->assembly;
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_part *part = part_of(d, &assembly->line[i]);
        double grown_kg[PARE_LINES] = {0};
        bool first = true;
        for (size_t j = 0; j < assembly->lines; j++) {
            const bool same = j == i || (part && part_of(d, &assembly->line[j]) == part);
            if (same && j < i)
                first = false;
            if (same)
                grown_kg[j] = assembly->line[j].mass_kg.u;
        }
        if (!first)
            continue;
        effect e = {0};
        assembly_effect(d, grown_kg, PARE_LINES, (pare_vec3){0, 0, 0}, &e);
        add(d, &e);
    }
}

static const char *maker_of(const doubt *d, const pare_line *line)
{
    const pare_part *part = part_of(d, line);
    return part && part->mass_kg.known == PARE_STATED ? part->maker : NULL;
}

static void maker_biases(doubt *d)
{
    const pare_assembly *assembly = &d->sheet->assembly;
    for (size_t i = 0; i < assembly->lines; i++) {
        const char *maker = maker_of(d, &assembly->line[i]);
        if (!maker)
            continue;
        double grown_kg[PARE_LINES] = {0};
        bool first = true;
        for (size_t j = 0; j < assembly->lines; j++) {
            const char *other = maker_of(d, &assembly->line[j]);
            if (!other || strcmp(other, maker) != 0)
                continue;
            if (j < i)
                first = false;
            grown_kg[j] = MAKER_BIAS_U * assembly->line[j].mass_kg.value;
        }
        if (!first)
            continue;
        effect e = {0};
        assembly_effect(d, grown_kg, PARE_LINES, (pare_vec3){0, 0, 0}, &e);
        add(d, &e);
    }
}

static void shared_scale(doubt *d)
{
    const pare_assembly *assembly = &d->sheet->assembly;
    double grown_kg[PARE_LINES] = {0};
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_part *part = part_of(d, &assembly->line[i]);
        if (part && part->mass_kg.known == PARE_WEIGHED)
            grown_kg[i] = SCALE_COMMON_U * assembly->line[i].mass_kg.value;
    }
    effect e = {0};
    assembly_effect(d, grown_kg, PARE_LINES, (pare_vec3){0, 0, 0}, &e);
    add(d, &e);
}

static void stations(doubt *d)
{
    const pare_assembly *assembly = &d->sheet->assembly;
    const double nothing[PARE_LINES] = {0};
    for (size_t i = 0; i < assembly->lines; i++) {
        const double u = assembly->line[i].at_u_m;
        const pare_vec3 by_m[3] = {{u, 0, 0}, {0, u, 0}, {0, 0, u}};
        for (int axis = 0; axis < 3; axis++) {
            effect e = {0};
            assembly_effect(d, nothing, i, by_m[axis], &e);
            add(d, &e);
        }
    }
}

/* Standard uncertainty of each rig number that does not come from masses. */
static void own_uncertainty(const doubt *d, double u[PARAMETERS])
{
    const pare_rig *rig = &d->sheet->rig;
    const pare_value *motor = d->craft->item[d->motor].part->spec;
    const pare_value *pack = d->craft->item[d->pack].part->spec;
    const pare_prop_doubt blades = pare_prop_model_doubt(rig->rotor.prop, false);
    u[P_SPIN] = SPIN_U * rig->spin_kg_m2;
    u[P_THRUST] = blades.thrust_u;
    u[P_POWER] = blades.power_u;
    u[P_KV] = motor[PARE_SPEC_KV].u;
    u[P_RESISTANCE] = motor[PARE_SPEC_RESISTANCE].u;
    u[P_NO_LOAD] = motor[PARE_SPEC_NO_LOAD].u;
    u[P_CAPACITY] = d->craft->item[d->pack].count * pack[PARE_SPEC_CAPACITY].u;
    u[P_PACK_OHM] = rig->pack.group_ohm > 0
                        ? pack[PARE_SPEC_RESISTANCE].u / d->craft->item[d->pack].count
                        : PACK_LAW_U * rig->pack.resistance_factor;
    u[P_LEAD] = LEAD_U * rig->pack.lead_ohm;
    u[P_DRAG] = (d->craft->drag_given ? DRAG_STATED_U : DRAG_LAW_U) * rig->drag_m2;
    u[P_ALWAYS] = ALWAYS_U * rig->always_w;
    u[P_BLOCKAGE] = BLOCKAGE_U * rig->blockage;
}

/* The inertias and the arms reach a few figures only; the others' slopes are 0. */
static void fly(const doubt *d, int which, const pare_rig *rig,
                pare_sheet_figure figure[PARE_FIGURES])
{
    pare_endurance endured;
    if ((which >= P_IXX && which <= P_SUM_Y) || which == P_SPIN)
        pare_flight_turning_figures(rig, figure);
    else
        pare_flight_figures(&d->craft->brief, rig, figure, &endured);
}

static void find_slopes(doubt *d, const double step[PARAMETERS])
{
    for (int p = 0; p < PARAMETERS; p++) {
        if (!(step[p] > 0))
            continue;
        pare_sheet_figure high[PARE_FIGURES] = {0}, low[PARE_FIGURES] = {0};
        pare_rig rig = d->sheet->rig;
        const double middle = *parameter(&rig, p);
        const double room = 0.5 * middle; /* never through zero */
        const double h = step[p] < room ? step[p] : room;
        *parameter(&rig, p) = middle + h;
        if (p == P_DRAG)
            rig.drag_top_m2 = d->sheet->rig.drag_top_m2 * (middle + h) / middle;
        fly(d, p, &rig, high);
        *parameter(&rig, p) = middle - h;
        if (p == P_DRAG)
            rig.drag_top_m2 = d->sheet->rig.drag_top_m2 * (middle - h) / middle;
        fly(d, p, &rig, low);
        for (int f = 0; f < PARE_FIGURES; f++) {
            /* Where one side has no figure, the slope of the other side stands for both. */
            const double here = d->sheet->figure[f].value;
            if (high[f].exists && low[f].exists)
                d->slope[p][f] = (high[f].value - low[f].value) / (2 * h);
            else if (high[f].exists)
                d->slope[p][f] = (high[f].value - here) / h;
            else if (low[f].exists)
                d->slope[p][f] = (here - low[f].value) / h;
        }
    }
}

/* Steps for the parameters that masses move: the size of what all masses together do to them. */
static void mass_steps(const doubt *d, double step[PARAMETERS])
{
    const pare_assembly *assembly = &d->sheet->assembly;
    double grown_kg[PARE_LINES];
    for (size_t i = 0; i < assembly->lines; i++)
        grown_kg[i] = 0.01 * assembly->line[i].mass_kg.value;
    effect e = {0};
    assembly_effect(d, grown_kg, PARE_LINES, (pare_vec3){0, 0, 0}, &e);
    for (int p = 0; p <= P_SPIN; p++)
        step[p] = fabs(e.parameter[p]);
    step[P_SUM_X] = 0.01 * d->sheet->rig.sum_x_m;
    step[P_SUM_Y] = 0.01 * d->sheet->rig.sum_y_m;
}

static void rig_numbers(doubt *d, const double u[PARAMETERS])
{
    const double together = pare_prop_model_doubt(d->sheet->rig.rotor.prop, false).correlation;
    for (int p = P_SPIN; p < PARAMETERS; p++) {
        effect e = {0};
        e.parameter[p] = u[p];
        if (p == P_THRUST)
            e.parameter[P_POWER] = together * u[P_POWER];
        if (p == P_POWER)
            e.parameter[p] *= sqrt(1 - together * together);
        add(d, &e);
    }
}

void pare_sheet_doubt(const pare_craft *craft, pare_sheet *sheet)
{
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    const int propeller = pare_craft_doing(craft, PARE_PROPELLER);
    const int pack = pare_craft_doing(craft, PARE_PACK);
    if (motor < 0 || propeller < 0 || pack < 0)
        return;
    doubt d = {.craft = craft,
               .sheet = sheet,
               .motor = (size_t)motor,
               .propeller = (size_t)propeller,
               .pack = (size_t)pack};
    double u[PARAMETERS] = {0}, step[PARAMETERS];
    own_uncertainty(&d, u);
    memcpy(step, u, sizeof step);
    mass_steps(&d, step);
    find_slopes(&d, step);
    rig_numbers(&d, u);
    part_masses(&d);
    maker_biases(&d);
    shared_scale(&d);
    stations(&d);
    for (int f = 0; f < PARE_FIGURES; f++)
        sheet->figure[f].u = sheet->figure[f].exists ? sqrt(d.variance[f]) : 0;
    sheet->with_u = true;
}
