/* draw.c: a craft with everything about it drawn at random (see draw.h). */
#include "craft/draw.h"

#include <string.h>

#include "craft/flight.h"
#include "craft/to_rig.h"
#include "craft/weigh_in.h"
#include "craft/weighed.h"

static double next(const pare_deviates *from)
{
    return from->next(from->context);
}

static bool of_pair(int number)
{
    for (int i = 0; i < PARE_PAIR_NUMBERS; i++)
        if ((int)pare_doubted_of_pair[i] == number)
            return true;
    return false;
}

void pare_draw_errors(const pare_doubts *doubts, const pare_deviates *from, pare_drawn *drawn)
{
    bool learned = false;
    *drawn = (pare_drawn){0};
    for (int i = 0; i < PARE_PAIR_NUMBERS; i++)
        drawn->pair[i] = next(from);
    for (int n = 0; n < PARE_TAUGHTS; n++)
        learned = learned || doubts->learned[n];
    for (int s = 0; learned && s < PARE_TAUGHT_SOURCES; s++)
        drawn->taught[s] = next(from);
    for (int n = 0; n < PARE_DOUBTED; n++)
        if (doubts->u[n] > 0 && !of_pair(n))
            drawn->number[n] = next(from);
}

/* ---- masses and stations ---- */

static const pare_part *part_of(const pare_craft *craft, const pare_line *line)
{
    return line->of == PARE_LINE_ITEM ? craft->item[line->index].part : NULL;
}

/* One error for all lines that have something in common with line i; drawn at the first of them. */
static double shared(size_t i,
                     bool (*alike)(const pare_craft *, const pare_line *, const pare_line *),
                     const pare_craft *craft, const pare_assembly *assembly, double drawn[],
                     const pare_deviates *from)
{
    for (size_t j = 0; j < i; j++)
        if (alike(craft, &assembly->line[i], &assembly->line[j]))
            return drawn[i] = drawn[j];
    return drawn[i] = next(from);
}

static bool same_part(const pare_craft *craft, const pare_line *a, const pare_line *b)
{
    return part_of(craft, a) && part_of(craft, a) == part_of(craft, b);
}

static bool same_maker(const pare_craft *craft, const pare_line *a, const pare_line *b)
{
    const pare_part *one = part_of(craft, a), *other = part_of(craft, b);
    return one && other && one->maker && other->maker && strcmp(one->maker, other->maker) == 0;
}

/* Lines that readings were adjusted to each other for: by sources that they share. */
static void weighed_errors(const pare_craft *craft, const pare_assembly *assembly,
                           const pare_deviates *from, bool done[], double more_kg[])
{
    const pare_weighed *weighed = craft->weighed;
    size_t at[PARE_LINES];
    for (size_t i = 0; weighed && i < assembly->lines; i++) {
        at[i] = pare_line_weighed(craft, &assembly->line[i]);
        done[i] = at[i] < weighed->masses;
    }
    for (size_t source = 0; weighed && source < weighed->masses; source++) {
        const double *root_kg = &weighed->root_kg[source * weighed->masses];
        const double deviate = next(from);
        for (size_t i = 0; i < assembly->lines; i++)
            more_kg[i] += done[i] ? assembly->line[i].count * root_kg[at[i]] * deviate : 0;
    }
}

static void own_errors(const pare_craft *craft, const pare_assembly *assembly,
                       const pare_deviates *from, const bool done[], double more_kg[])
{
    const double scale = next(from);
    double part[PARE_LINES], maker[PARE_LINES];
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        const pare_part *of = part_of(craft, line);
        const double own = shared(i, same_part, craft, assembly, part, from);
        const double bias = shared(i, same_maker, craft, assembly, maker, from);
        if (done[i])
            continue;
        more_kg[i] += line->mass_kg.u * own;
        if (of && of->mass_kg.known == PARE_STATED && of->maker)
            more_kg[i] += PARE_MAKER_BIAS_U * line->mass_kg.value * bias;
        if (of && of->mass_kg.known == PARE_WEIGHED)
            more_kg[i] += PARE_SCALE_COMMON_U * line->mass_kg.value * scale;
    }
}

void pare_draw_body(const pare_craft *craft, const pare_sheet *sheet, const pare_deviates *from,
                    pare_rig *rig)
{
    const pare_assembly *assembly = &sheet->assembly;
    const pare_part *motor = craft->item[pare_craft_doing(craft, PARE_MOTOR)].part;
    const pare_part *propeller = craft->item[pare_craft_doing(craft, PARE_PROPELLER)].part;
    double propeller_kg = propeller->mass_kg.value, more_kg[PARE_LINES] = {0};
    bool done[PARE_LINES] = {false};
    pare_body body[PARE_LINES];
    weighed_errors(craft, assembly, from, done, more_kg);
    own_errors(craft, assembly, from, done, more_kg);
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        body[i] = line->body;
        if (body[i].mass_kg > 0) {
            body[i].inertia_kg_m2 =
                pare_sym3_times(1 + more_kg[i] / body[i].mass_kg, body[i].inertia_kg_m2);
            body[i].mass_kg += more_kg[i];
        }
        body[i].at_m.x += line->at_u_m * next(from);
        body[i].at_m.y += line->at_u_m * next(from);
        body[i].at_m.z += line->at_u_m * next(from);
        if (part_of(craft, line) == motor)
            rig->motor.mass_kg += more_kg[i] / line->count;
        if (part_of(craft, line) == propeller)
            propeller_kg += more_kg[i] / line->count;
    }
    const pare_body all = pare_body_sum(assembly->lines, body);
    pare_rig_put_body(assembly, &all, rig);
    rig->spin_kg_m2 = pare_rotor_spin_kg_m2(propeller_kg, propeller->spec[PARE_SPEC_DIAMETER].value,
                                            rig->motor.mass_kg);
}

/* ---- numbers of the flight ---- */

/* What flights left in doubt of a number. */
static double taught(const double root[PARE_TAUGHT_SOURCES], const pare_drawn *drawn)
{
    double change = 0;
    for (int s = 0; s < PARE_TAUGHT_SOURCES; s++)
        change += root[s] * drawn->taught[s];
    return change;
}

void pare_draw_numbers(const pare_doubts *doubts, const pare_drawn *drawn, pare_moved_rig *rig)
{
    for (int n = 0; n < PARE_DOUBTED; n++) {
        double change = doubts->u[n] * drawn->number[n];
        for (int t = 0; t < PARE_TAUGHTS; t++)
            if (doubts->learned[t] && (int)pare_doubted_of_taught[t] == n)
                change = taught(doubts->root[0][PARE_STILL][t], drawn);
        if (doubts->u[n] > 0 && !of_pair(n))
            pare_doubted_move(rig, (pare_doubted)n, change);
    }
}

/* Rotors and motors off by a share of two ways to be off. */
static void put_drive(const pare_rig *from, const pare_doubts *doubts, bool full,
                      pare_motion motion, double share, const pare_drawn *drawn,
                      pare_moved_rig *moved)
{
    const pare_pair_doubt *still = &doubts->drive[full][PARE_STILL],
                          *moving = &doubts->drive[full][motion];
    const bool learned = doubts->learned[PARE_TAUGHT_THRUST];
    moved->rig = *from;
    for (int number = 0; number < PARE_PAIR_NUMBERS; number++) {
        double change = 0;
        for (int source = learned ? PARE_PAIR_POWER + 1 : 0; source < PARE_PAIR_NUMBERS; source++)
            change += drawn->pair[source] * ((1 - share) * still->root[number][source] +
                                             share * moving->root[number][source]);
        if (learned)
            change += (1 - share) * taught(doubts->root[full][PARE_STILL][number], drawn) +
                      share * taught(doubts->root[full][motion][number], drawn);
        pare_doubted_move(moved, pare_doubted_of_pair[number], change);
    }
}

static double share_at_speed(const pare_brief *brief)
{
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(brief, &flown);
    double share = 0;
    for (size_t i = 0; i < entries; i++)
        share += flown[i].as == PARE_FLOWN_SPEED ? flown[i].share : 0;
    return share;
}

void pare_draw_flight(const pare_craft *craft, const pare_rig *rig, const pare_doubts *doubts,
                      const pare_drawn *drawn, pare_sheet_figure figure[PARE_FIGURES])
{
    const struct {
        bool full;
        pare_motion motion;
        double running;
        unsigned groups;
    } parts[] = {{false, PARE_STILL, 0, PARE_FLY_HOVER | PARE_FLY_HOVER_TIME | PARE_FLY_GROUND},
                 {true, PARE_STILL, 0, PARE_FLY_FULL | PARE_FLY_QUICKNESS},
                 {false, PARE_MOVING, share_at_speed(&craft->brief), PARE_FLY_MINUTES},
                 {false, PARE_FAST, 1, PARE_FLY_RANGE},
                 {true, PARE_MOVING, 1, PARE_FLY_BURST | PARE_FLY_TURN},
                 {true, PARE_FAST, 1, PARE_FLY_CLIMB | PARE_FLY_TOP_SPEED}};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        pare_moved_rig moved;
        pare_endurance endured;
        put_drive(rig, doubts, parts[i].full, parts[i].motion, parts[i].running, drawn, &moved);
        pare_flight_some(&craft->brief, &moved.rig, parts[i].groups, figure, &endured);
    }
    /* Of the minutes' figures, the one that is about moving propellers alone. */
    pare_moved_rig cruising;
    pare_endurance endured;
    pare_sheet_figure minutes[PARE_FIGURES];
    put_drive(rig, doubts, false, PARE_MOVING, 1, drawn, &cruising);
    pare_flight_some(&craft->brief, &cruising.rig, PARE_FLY_MINUTES, minutes, &endured);
    figure[PARE_CRUISE_RPM] = minutes[PARE_CRUISE_RPM];
}
