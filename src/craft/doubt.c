/* doubt.c: propagation of uncertainty through a sheet (see doubt.h).
 *
 * In two stages, because masses are many and their road to the flight is narrow. Stage one
 * (doubt_flight.c): how far each figure moves with each of the few numbers that flight rests on. Stage
 * two: each source (a part's mass, a maker's bias, a station, a motor's kV) moves the mass figures
 * directly and the flight through those slopes; the squares add up.
 *
 * The propellers' model is off by one share where they stand still and by another where they move, and
 * the two errors of either go together. A figure is about one of the two, and each is asked with its
 * own; minutes as flown are about both, by their shares of the time, and count the errors as one. */
#include "craft/doubt.h"

#include <math.h>
#include <string.h>

#include "craft/doubt_flight.h"
#include "craft/drag.h"
#include "craft/flight.h"
#include "craft/to_rig.h"
#include "craft/weigh_in.h"
#include "physics/drive.h"
#include "physics/operate.h"

/* Standard uncertainties as shares. [E] are ours, until flights correct them. */
#define LEAD_U        0.10 /* [E] contacts, solder */
#define ALWAYS_U      0.20 /* [E] */
#define BLOCKAGE_U    0.40 /* [E] */
#define SPIN_U        0.15
#define COOLING_POWER 1.5 /* thermal resistance goes with mass^(-2/3) */
/* [E] One ESC of four that were measured lost and idled unlike the others; none less than nothing. */
#define ESC_MOST_U 0.7
#define RANGE_DRAG 0.25 /* [E] over weight, at the speed of best range */

#define TURN 6.283185307179586 /* rad */

static const pare_figure mass_figures[] = {PARE_ALL_UP, PARE_DRY, PARE_CG_X, PARE_CG_Y,
                                           PARE_CG_Z,   PARE_IXX, PARE_IYY,  PARE_IZZ,
                                           PARE_IXY,    PARE_IXZ, PARE_IYZ,  PARE_PACK_SHIFT};
enum { MASS_FIGURES = sizeof mass_figures / sizeof mass_figures[0] };

/* Everything that one source moves, signed, at one standard uncertainty. */
typedef struct effect {
    double number[PARE_DOUBTED]; /* changes of logarithms */
    double mass_figure[MASS_FIGURES];
} effect;

typedef struct doubt {
    const pare_craft *craft;
    const pare_sheet *sheet;
    size_t motor, propeller, pack; /* their items */
    pare_slopes slopes;
    double variance[PARE_FIGURES];
    double covariance[PARE_TOGETHERS];
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

/* The effect of lines growing by a share of their own mass, or of one line moving. What grows is one
 * more body at its place; what moves is taken away from one place and put in another. */
static void assembly_effect(const doubt *d, const double grown_kg[PARE_LINES], size_t moved_line,
                            pare_vec3 by_m, effect *out)
{
    const pare_assembly *assembly = &d->sheet->assembly;
    pare_body body[PARE_LINES + 3];
    size_t bodies = 0;
    double pack_u = 0, motor_u = 0, propeller_u = 0;
    body[bodies++] = assembly->all;
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        if (grown_kg[i] == 0 || line->body.mass_kg == 0)
            continue;
        const double grown = grown_kg[i] / line->body.mass_kg;
        body[bodies++] = (pare_body){grown_kg[i], line->body.at_m,
                                     pare_sym3_times(grown, line->body.inertia_kg_m2)};
        if (line->of == PARE_LINE_ITEM && line->index == d->pack)
            pack_u += grown_kg[i];
        if (line->of == PARE_LINE_ITEM && line->index == d->motor)
            motor_u += grown_kg[i] / line->count;
        if (line->of == PARE_LINE_ITEM && line->index == d->propeller)
            propeller_u += grown_kg[i] / line->count;
    }
    if (moved_line < assembly->lines) {
        const pare_body *from = &assembly->line[moved_line].body;
        body[bodies++] = (pare_body){.mass_kg = -from->mass_kg, .at_m = from->at_m};
        body[bodies++] =
            (pare_body){.mass_kg = from->mass_kg, .at_m = pare_vec3_add(from->at_m, by_m)};
    }
    const pare_body all = pare_body_sum(bodies, body);
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
    const pare_rig *base = &d->sheet->rig;
    const struct {
        pare_doubted which;
        double after, before;
    } moved[] = {{PARE_DOUBTED_MASS, rig.mass_kg, base->mass_kg},
                 {PARE_DOUBTED_IXX, rig.inertia_xx_kg_m2, base->inertia_xx_kg_m2},
                 {PARE_DOUBTED_IYY, rig.inertia_yy_kg_m2, base->inertia_yy_kg_m2},
                 {PARE_DOUBTED_IZZ, rig.inertia_zz_kg_m2, base->inertia_zz_kg_m2},
                 {PARE_DOUBTED_SUM_X, rig.sum_x_m, base->sum_x_m},
                 {PARE_DOUBTED_SUM_Y, rig.sum_y_m, base->sum_y_m},
                 {PARE_DOUBTED_COOLING, rig.motor.mass_kg, base->motor.mass_kg},
                 {PARE_DOUBTED_SPIN, rig.spin_kg_m2, base->spin_kg_m2}};
    for (size_t i = 0; i < sizeof moved / sizeof moved[0]; i++)
        if (moved[i].before > 0)
            out->number[moved[i].which] = moved[i].after / moved[i].before - 1;
}

/* One source moves every figure so far. */
static void add_moved(doubt *d, const double moved[PARE_FIGURES])
{
    for (int f = 0; f < PARE_FIGURES; f++)
        d->variance[f] += moved[f] * moved[f];
    for (int t = 0; t < PARE_TOGETHERS; t++)
        d->covariance[t] += moved[pare_together_table[t][0]] * moved[pare_together_table[t][1]];
}

static void add(doubt *d, const effect *e)
{
    double moved[PARE_FIGURES] = {0};
    for (int i = 0; i < MASS_FIGURES; i++)
        moved[mass_figures[i]] = e->mass_figure[i];
    for (int n = 0; n < PARE_DOUBTED; n++)
        if (e->number[n] != 0)
            for (int f = 0; f < PARE_FIGURES; f++)
                moved[f] += d->slopes.slope[n][f] * e->number[n];
    add_moved(d, moved);
}

static const pare_part *part_of(const doubt *d, const pare_line *line)
{
    return line->of == PARE_LINE_ITEM ? d->craft->item[line->index].part : NULL;
}

/* Masses that scales, makers and copies have in common, as they were adjusted to each other. */
static void weighed_masses(doubt *d, bool done[PARE_LINES])
{
    const pare_weighed *weighed = d->craft->weighed;
    const pare_assembly *assembly = &d->sheet->assembly;
    size_t at[PARE_LINES];
    for (size_t i = 0; weighed && i < assembly->lines; i++) {
        at[i] = pare_line_weighed(d->craft, &assembly->line[i]);
        done[i] = at[i] < weighed->masses;
    }
    for (size_t source = 0; weighed && source < weighed->masses; source++) {
        const double *root_kg = &weighed->root_kg[source * weighed->masses];
        double grown_kg[PARE_LINES] = {0};
        bool any = false;
        for (size_t i = 0; i < assembly->lines; i++) {
            grown_kg[i] = done[i] ? assembly->line[i].count * root_kg[at[i]] : 0;
            any = any || grown_kg[i] != 0;
        }
        effect e = {0};
        if (!any)
            continue;
        assembly_effect(d, grown_kg, PARE_LINES, (pare_vec3){0, 0, 0}, &e);
        add(d, &e);
    }
}

/* One error for all copies of a part, wherever they are; one for each joint and run. */
static void part_masses(doubt *d, const bool done[PARE_LINES])
{
    const pare_assembly *assembly = &d->sheet->assembly;
    for (size_t i = 0; i < assembly->lines; i++) {
        if (done[i])
            continue;
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

static void maker_biases(doubt *d, const bool done[PARE_LINES])
{
    const pare_assembly *assembly = &d->sheet->assembly;
    for (size_t i = 0; i < assembly->lines; i++) {
        const char *maker = maker_of(d, &assembly->line[i]);
        if (!maker || done[i])
            continue;
        double grown_kg[PARE_LINES] = {0};
        bool first = true;
        for (size_t j = 0; j < assembly->lines; j++) {
            const char *other = maker_of(d, &assembly->line[j]);
            if (!other || done[j] || strcmp(other, maker) != 0)
                continue;
            if (j < i)
                first = false;
            grown_kg[j] = PARE_MAKER_BIAS_U * assembly->line[j].mass_kg.value;
        }
        if (!first)
            continue;
        effect e = {0};
        assembly_effect(d, grown_kg, PARE_LINES, (pare_vec3){0, 0, 0}, &e);
        add(d, &e);
    }
}

static void shared_scale(doubt *d, const bool done[PARE_LINES])
{
    const pare_assembly *assembly = &d->sheet->assembly;
    double grown_kg[PARE_LINES] = {0};
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_part *part = part_of(d, &assembly->line[i]);
        if (part && !done[i] && part->mass_kg.known == PARE_WEIGHED)
            grown_kg[i] = PARE_SCALE_COMMON_U * assembly->line[i].mass_kg.value;
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
        if (u == 0)
            continue;
        const pare_vec3 by_m[3] = {{u, 0, 0}, {0, u, 0}, {0, 0, u}};
        for (int axis = 0; axis < 3; axis++) {
            effect e = {0};
            assembly_effect(d, nothing, i, by_m[axis], &e);
            add(d, &e);
        }
    }
}

static double share(const pare_value *spec)
{
    return spec->value > 0 ? spec->u / spec->value : 0;
}

/* One number's own, by all sources together. */
static double total(const pare_pair_doubt *drive, int number)
{
    double squares = 0;
    for (int source = 0; source < PARE_PAIR_NUMBERS; source++)
        squares += drive->root[number][source] * drive->root[number][source];
    return sqrt(squares);
}

static double ct_of(const pare_rotor *rotor, const pare_air *air, double speed_rad_s,
                    double advance)
{
    double ct, cp;
    if (rotor->table)
        pare_prop_table_coefficients(rotor->table, advance, speed_rad_s, air, &ct, &cp);
    else
        pare_prop_coefficients(rotor->prop, advance, speed_rad_s, air, &ct, &cp);
    return ct;
}

/* CT at a speed of level flight over that at rest: propellers are tilted against drag. */
static double level_load(const pare_rig *rig, double speed_rad_s, double speed_m_s)
{
    const double drag_n = 0.5 * rig->air.density_kg_m3 * speed_m_s * speed_m_s * rig->drag_m2;
    const double axial_m_s = speed_m_s * drag_n / hypot(drag_n, rig->mass_kg * PARE_GRAVITY_M_S2);
    const double advance = axial_m_s * TURN / (speed_rad_s * rig->rotor.prop->diameter_m);
    if (!(advance > 0 && isfinite(advance)))
        return 1;
    const double still = ct_of(&rig->rotor, &rig->air, speed_rad_s, 0);
    return still > 0 ? ct_of(&rig->rotor, &rig->air, speed_rad_s, advance) / still : 1;
}

static double fastest_flown_m_s(const pare_brief *brief)
{
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(brief, &flown);
    double speed_m_s = 0;
    for (size_t i = 0; i < entries; i++)
        if (flown[i].as == PARE_FLOWN_SPEED)
            speed_m_s = fmax(speed_m_s, flown[i].level);
    return speed_m_s;
}

/* How much of their thrust at rest propellers give as they move. In the fastest climb, at full throttle,
 * that is the weight and a little drag; on a short way up, half way between. Of what is flown nothing is
 * asked but hover: doubts of part of a sheet are those of the whole. */
static double load_of(const pare_brief *brief, const pare_rig *rig, double hover_rad_s,
                      double to_weight, int full, pare_motion motion)
{
    const double weight_n = rig->mass_kg * PARE_GRAVITY_M_S2;
    if (motion == PARE_STILL)
        return 1;
    if (full)
        return motion == PARE_FAST ? 1 / to_weight : 0.5 * (1 + 1 / to_weight);
    return level_load(rig, hover_rad_s,
                      motion == PARE_FAST ? sqrt(2 * RANGE_DRAG * weight_n /
                                                 (rig->air.density_kg_m3 * rig->drag_m2))
                                          : fastest_flown_m_s(brief));
}

/* Rotors as measured or as modelled; motors as measured with them, else as stated or by the laws. */
static void drives(const pare_craft *craft, const pare_sheet *sheet, pare_doubts *doubts)
{
    const pare_rig *rig = &sheet->rig;
    const pare_value *motor = craft->item[pare_craft_doing(craft, PARE_MOTOR)].part->spec;
    const double hover_rad_s = sheet->figure[PARE_HOVER_RPM].value;
    const double to_weight = sheet->figure[PARE_TWR_FRESH].value;
    for (int full = 0; full < 2; full++)
        for (int motion = PARE_STILL; motion < PARE_MOTIONS; motion++) {
            pare_pair_doubt *drive = &doubts->drive[full][motion];
            pare_rig_rotor_doubt(
                rig, full ? hover_rad_s * sqrt(to_weight) : hover_rad_s, motion != PARE_STILL,
                load_of(&craft->brief, rig, hover_rad_s, to_weight, full, (pare_motion)motion),
                drive);
            if (rig->pair)
                continue;
            drive->root[PARE_PAIR_KV][PARE_PAIR_KV] =
                hypot(share(&motor[PARE_SPEC_KV]),
                      motor[PARE_SPEC_KV].known == PARE_STATED ? pare_drive_fitted.kv_u : 0);
            drive->root[PARE_PAIR_RESISTANCE][PARE_PAIR_RESISTANCE] =
                hypot(motor[PARE_SPEC_RESISTANCE].u / rig->motor.resistance_ohm,
                      motor[PARE_SPEC_RESISTANCE].given ? pare_drive_fitted.drive_u : 0);
            drive->root[PARE_PAIR_NO_LOAD][PARE_PAIR_NO_LOAD] = share(&motor[PARE_SPEC_NO_LOAD]);
        }
}

/* ---- what flights taught ---- */

const pare_doubted pare_doubted_of_taught[PARE_TAUGHTS] = {
    [PARE_TAUGHT_THRUST] = PARE_DOUBTED_THRUST,
    [PARE_TAUGHT_POWER] = PARE_DOUBTED_POWER,
    [PARE_TAUGHT_KV] = PARE_DOUBTED_KV,
    [PARE_TAUGHT_RESISTANCE] = PARE_DOUBTED_RESISTANCE,
    [PARE_TAUGHT_NO_LOAD] = PARE_DOUBTED_NO_LOAD,
    [PARE_TAUGHT_DRAG] = PARE_DOUBTED_DRAG,
    [PARE_TAUGHT_ALWAYS] = PARE_DOUBTED_ALWAYS,
    [PARE_TAUGHT_CAPACITY] = PARE_DOUBTED_CAPACITY,
    [PARE_TAUGHT_PACK_OHM] = PARE_DOUBTED_PACK_OHM,
    [PARE_TAUGHT_ESC_LOSS] = PARE_DOUBTED_SWITCHING,
};

static double dot(const double a[PARE_TAUGHT_SOURCES], const double b[PARE_TAUGHT_SOURCES])
{
    double sum = 0;
    for (int s = 0; s < PARE_TAUGHT_SOURCES; s++)
        sum += a[s] * b[s];
    return sum;
}

/* What is left in doubt of the propeller's two sources, by the sources that were kept: thrust and power
 * held still move by a triangle of the two, which is undone. A source that moves neither was not told. */
static void left_of_propeller(const pare_taught *kept, const pare_pair_doubt *held,
                              double left[2][PARE_TAUGHT_SOURCES])
{
    const double *thrust = held->root[PARE_PAIR_THRUST], *power = held->root[PARE_PAIR_POWER];
    for (int s = 0; s < PARE_TAUGHT_SOURCES; s++) {
        const double of_thrust = kept->root[PARE_TAUGHT_THRUST][s];
        left[PARE_PAIR_THRUST][s] =
            thrust[PARE_PAIR_THRUST] > 0 ? of_thrust / thrust[PARE_PAIR_THRUST] : 0;
        const double of_power =
            kept->root[PARE_TAUGHT_POWER][s] - power[PARE_PAIR_THRUST] * left[PARE_PAIR_THRUST][s];
        left[PARE_PAIR_POWER][s] =
            power[PARE_PAIR_POWER] > 0 ? of_power / power[PARE_PAIR_POWER] : 0;
    }
}

/* A drive as it was learned. Errors at full throttle and of propellers that move are the same two sources
 * as those held still, by other shares, so that what is left of the sources is left of all of them, and
 * flights that told nothing leave every figure as doubted as it was. */
static void learn_drive(const pare_taught *kept, const pare_pair_doubt *held,
                        pare_pair_doubt *drive, double root[PARE_TAUGHTS][PARE_TAUGHT_SOURCES])
{
    double left[2][PARE_TAUGHT_SOURCES];
    left_of_propeller(kept, held, left);
    const double a = sqrt(dot(left[0], left[0])), b = a > 0 ? dot(left[1], left[0]) / a : 0;
    const double c = sqrt(fmax(dot(left[1], left[1]) - b * b, 0));
    for (int n = 0; n < PARE_PAIR_NUMBERS; n++) {
        const double thrust = drive->root[n][PARE_PAIR_THRUST],
                     power = drive->root[n][PARE_PAIR_POWER];
        for (int s = 0; s < PARE_TAUGHT_SOURCES; s++)
            root[n][s] = thrust * left[0][s] + power * left[1][s];
        drive->root[n][PARE_PAIR_THRUST] = thrust * a + power * b;
        drive->root[n][PARE_PAIR_POWER] = power * c;
    }
}

/* @param waiting_w  what waiting ESCs draw beside the electronics: they are doubted together */
static void learn(const pare_craft *craft, const pare_rig *rig, double waiting_w,
                  pare_doubts *doubts)
{
    const pare_taught *kept = craft->learned;
    if (!kept)
        return;
    const pare_pair_doubt held = doubts->drive[0][0];
    const double always = rig->always_w > 0 ? rig->always_w / (rig->always_w + waiting_w) : 0;
    for (int n = 0; n < PARE_TAUGHTS; n++)
        doubts->learned[n] = pare_taught_applies(craft, rig->pair != NULL, (pare_taught_number)n);
    for (int state = 0; state < 2 * PARE_MOTIONS; state++) {
        const int full = state / PARE_MOTIONS, motion = state % PARE_MOTIONS;
        double(*root)[PARE_TAUGHT_SOURCES] = doubts->root[full][motion];
        if (doubts->learned[PARE_TAUGHT_THRUST])
            learn_drive(kept, &held, &doubts->drive[full][motion], root);
        for (int n = PARE_PAIR_NUMBERS; n < PARE_TAUGHTS; n++)
            for (int s = 0; s < PARE_TAUGHT_SOURCES && doubts->learned[n]; s++)
                root[n][s] = (n == PARE_TAUGHT_ALWAYS ? always : 1) * kept->root[n][s];
    }
    for (int n = PARE_PAIR_NUMBERS; n < PARE_TAUGHTS; n++)
        if (doubts->learned[n])
            doubts->u[pare_doubted_of_taught[n]] =
                sqrt(dot(doubts->root[0][0][n], doubts->root[0][0][n]));
}

void pare_doubts_of(const pare_craft *craft, const pare_sheet *sheet, pare_doubts *doubts)
{
    const pare_rig *rig = &sheet->rig;
    const pare_part *pack_part = craft->item[pare_craft_doing(craft, PARE_PACK)].part;
    const pare_value *pack = pack_part->spec, *holds_c = &pack_part->holds_c;
    const pare_pack_doubt cells = pare_pack_model_doubt(&rig->pack);
    const pare_drive *drive = &pare_drive_fitted;
    double *u = doubts->u;
    const double waiting_w =
        rig->rotors * rig->esc.idle_a * pare_pack_open_v(&rig->pack, PARE_CHARGE_HALF);
    *doubts = (pare_doubts){0};
    drives(craft, sheet, doubts);
    u[PARE_DOUBTED_COOLING] = COOLING_POWER * drive->heat_u;
    u[PARE_DOUBTED_CAPACITY] =
        holds_c->given ? share(holds_c)
                       : hypot(share(&pack[PARE_SPEC_CAPACITY]), cells.capacity_share_u);
    u[PARE_DOUBTED_PACK_OHM] =
        hypot(rig->pack.group_ohm > 0 ? share(&pack[PARE_SPEC_RESISTANCE]) : 0, cells.ohm_share_u);
    u[PARE_DOUBTED_CELL_V] = cells.cell_v_u;
    u[PARE_DOUBTED_LEAD] = LEAD_U;
    const double drag_m2 = pare_craft_drag_m2(craft);
    u[PARE_DOUBTED_DRAG] = drag_m2 > 0 ? pare_craft_drag_u_m2(craft) / drag_m2 : 0;
    u[PARE_DOUBTED_ALWAYS] =
        rig->always_w > 0 ? ALWAYS_U * rig->always_w / (rig->always_w + waiting_w) : 0;
    u[PARE_DOUBTED_BLOCKAGE] = BLOCKAGE_U;
    u[PARE_DOUBTED_SPIN] = SPIN_U;
    u[PARE_DOUBTED_ESC_IDLE] = fmin(drive->idle_u, ESC_MOST_U);
    if (!rig->pair) /* a stand measured what went into the ESC */
        u[PARE_DOUBTED_SWITCHING] = fmin(drive->switching_u / drive->esc.switching, ESC_MOST_U);
    learn(craft, rig, waiting_w, doubts);
    for (int number = 0; number < PARE_PAIR_NUMBERS; number++)
        u[pare_doubted_of_pair[number]] = total(&doubts->drive[0][0], number);
    if (rig->pair)
        return;
    u[PARE_DOUBTED_PULSE] = drive->pulse_loss_u;
    u[PARE_DOUBTED_ESC_OHM] = drive->on_u_ohm / drive->esc.on_ohm;
}

static bool of_drive(int number)
{
    for (int i = 0; i < PARE_PAIR_NUMBERS; i++)
        if ((int)pare_doubted_of_pair[i] == number)
            return true;
    return false;
}

static bool was_learned(const pare_doubts *doubts, int number)
{
    for (int n = 0; n < PARE_TAUGHTS; n++)
        if (doubts->learned[n] && (int)pare_doubted_of_taught[n] == number)
            return true;
    return false;
}

static void rig_numbers(doubt *d, const pare_doubts *doubts)
{
    const double *u = doubts->u;
    for (int n = 0; n < PARE_DOUBTED; n++) {
        if (u[n] == 0 || of_drive(n))
            continue;
        effect e = {0};
        e.number[n] = u[n];
        if (!was_learned(doubts, n))
            add(d, &e);
        for (int f = 0; f < PARE_FIGURES; f++)
            d->variance[f] += d->slopes.bend[n][f] * d->slopes.bend[n][f];
    }
}

/* How much of a figure is about propellers that move, 0 to 1. */
static double running_share(const pare_brief *brief, int figure)
{
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(brief, &flown);
    double share = 0;
    switch (figure) {
    case PARE_CRUISE_TIME:
    case PARE_BEST_RANGE:
    case PARE_BEST_RANGE_SPEED:
    case PARE_CRUISE_RPM:
    case PARE_BURST:
    case PARE_TURN:
    case PARE_CLIMB:
    case PARE_TOP_SPEED:
        return 1;
    case PARE_FLOWN_TIME:
    case PARE_FLOWN_A:
    case PARE_FLOWN_RMS_A:
    case PARE_FLOWN_MOTOR_A:
    case PARE_WINDING:
    case PARE_PACK_WARMTH:
    case PARE_LANDING_CELL_V:
        for (size_t i = 0; i < entries; i++)
            if (flown[i].as == PARE_FLOWN_SPEED)
                share += flown[i].share;
        return share;
    default:
        return 0;
    }
}

static bool is_full(int figure)
{
    return figure >= PARE_THRUST_FRESH && figure <= PARE_ROTOR_LAG;
}

static pare_motion motion_of(int figure)
{
    const bool fast = figure == PARE_BEST_RANGE || figure == PARE_BEST_RANGE_SPEED ||
                      figure == PARE_CRUISE_TIME || figure == PARE_CLIMB ||
                      figure == PARE_TOP_SPEED;
    return fast ? PARE_FAST : PARE_MOVING;
}

/* A figure's own mixture of the drive's errors. */
static pare_pair_doubt drive_of(const pare_brief *brief, const pare_doubts *doubts, int figure)
{
    const bool full = is_full(figure);
    const double running = running_share(brief, figure);
    pare_pair_doubt mixed = doubts->drive[full][PARE_STILL];
    const pare_pair_doubt *moving = &doubts->drive[full][motion_of(figure)];
    for (int number = 0; running > 0 && number < PARE_PAIR_NUMBERS; number++)
        for (int source = 0; source < PARE_PAIR_NUMBERS; source++) {
            double *to = &mixed.root[number][source];
            *to += running * (moving->root[number][source] - *to);
        }
    return mixed;
}

/* The variance that a figure's bends add: the trace of (H C)^2, C the covariance of both numbers and H
 * the bends over the variances that found them. Thrust and power were flown each alone; a figure that goes
 * with a power of each, as nearly all do, has the root of both own bends as its mixed one, with the sign
 * of its slopes. So what they bend cancels where they err together. */
static double bent_variance(const pare_slopes *slopes, const double u[], int figure,
                            const pare_pair_doubt *its)
{
    static const int number[2] = {PARE_DOUBTED_THRUST, PARE_DOUBTED_POWER};
    static const int of_pair[2] = {PARE_PAIR_THRUST, PARE_PAIR_POWER};
    double h[2][2], c[2][2] = {{0}}, trace = 0;
    for (int i = 0; i < 2; i++)
        h[i][i] =
            u[number[i]] > 0 ? slopes->bend[number[i]][figure] / (u[number[i]] * u[number[i]]) : 0;
    const double mixed = sqrt(fmax(h[0][0] * h[1][1], 0));
    const double together =
        slopes->slope[number[0]][figure] * slopes->slope[number[1]][figure] * h[0][0];
    h[0][1] = h[1][0] = copysign(mixed, together);
    for (int i = 0; i < 2; i++)
        for (int j = 0; j < 2; j++)
            for (int source = 0; source < PARE_PAIR_NUMBERS; source++)
                c[i][j] += its->root[of_pair[i]][source] * its->root[of_pair[j]][source];
    for (int i = 0; i < 2; i++)
        for (int j = 0; j < 2; j++)
            trace +=
                (h[i][0] * c[0][j] + h[i][1] * c[1][j]) * (h[j][0] * c[0][i] + h[j][1] * c[1][i]);
    return trace;
}

static void drive(doubt *d, const pare_doubts *doubts)
{
    double moved[PARE_PAIR_NUMBERS][PARE_FIGURES] = {{0}};
    for (int f = PARE_HOVER_OUTPUT; f < PARE_FIGURES; f++) {
        const pare_pair_doubt its = drive_of(&d->craft->brief, doubts, f);
        for (int source = 0; source < PARE_PAIR_NUMBERS; source++)
            for (int number = 0; number < PARE_PAIR_NUMBERS; number++)
                moved[source][f] +=
                    d->slopes.slope[pare_doubted_of_pair[number]][f] * its.root[number][source];
        d->variance[f] += bent_variance(&d->slopes, doubts->u, f, &its);
    }
    for (int source = 0; source < PARE_PAIR_NUMBERS; source++)
        if (source > PARE_PAIR_POWER || !doubts->learned[PARE_TAUGHT_THRUST])
            add_moved(d, moved[source]);
}

/* Sources that flights left, each of which moves what was learned all at once. */
static void learned_numbers(doubt *d, const pare_doubts *doubts)
{
    for (int s = 0; s < PARE_TAUGHT_SOURCES; s++) {
        double moved[PARE_FIGURES] = {0};
        for (int f = PARE_HOVER_OUTPUT; f < PARE_FIGURES; f++) {
            const bool full = is_full(f);
            const double running = running_share(&d->craft->brief, f);
            for (int n = 0; n < PARE_TAUGHTS; n++) {
                const double rest = doubts->root[full][PARE_STILL][n][s];
                const double moving = doubts->root[full][motion_of(f)][n][s];
                const double its = rest + running * (moving - rest);
                moved[f] += d->slopes.slope[pare_doubted_of_taught[n]][f] * its;
            }
        }
        add_moved(d, moved);
    }
}

static double uncertainty(const doubt *d, int figure)
{
    double begins;
    if (!pare_log_normal(d->sheet, figure, &begins))
        return sqrt(d->variance[figure]);
    const double rise = d->sheet->figure[figure].value - begins;
    const double square = d->variance[figure] / (rise * rise);
    return rise * sqrt(expm1(square) * exp(square));
}

/* @param masses  those of masses and stations too */
static void doubt_all(const pare_craft *craft, const pare_doubts *doubts, bool masses,
                      pare_sheet *sheet)
{
    doubt d = {.craft = craft,
               .sheet = sheet,
               .motor = (size_t)pare_craft_doing(craft, PARE_MOTOR),
               .propeller = (size_t)pare_craft_doing(craft, PARE_PROPELLER),
               .pack = (size_t)pare_craft_doing(craft, PARE_PACK)};
    pare_doubted_slopes(&craft->brief, sheet, doubts->u, &d.slopes);
    rig_numbers(&d, doubts);
    drive(&d, doubts);
    learned_numbers(&d, doubts);
    if (masses) {
        bool done[PARE_LINES] = {false};
        weighed_masses(&d, done);
        part_masses(&d, done);
        maker_biases(&d, done);
        shared_scale(&d, done);
        stations(&d);
    }
    for (int f = 0; f < PARE_FIGURES; f++)
        sheet->figure[f].u = sheet->figure[f].exists ? uncertainty(&d, f) : 0;
    memcpy(sheet->covariance, d.covariance, sizeof d.covariance);
    sheet->with_u = true;
}

void pare_sheet_doubt_with(const pare_craft *craft, const pare_doubts *doubts, pare_sheet *sheet)
{
    doubt_all(craft, doubts, true, sheet);
}

void pare_sheet_doubt_flight(const pare_craft *craft, pare_sheet *sheet)
{
    pare_doubts doubts;
    pare_doubts_of(craft, sheet, &doubts);
    doubt_all(craft, &doubts, false, sheet);
}

void pare_sheet_doubt(const pare_craft *craft, pare_sheet *sheet)
{
    pare_doubts doubts;
    pare_doubts_of(craft, sheet, &doubts);
    pare_sheet_doubt_with(craft, &doubts, sheet);
}
