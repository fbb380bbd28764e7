/* draw_craft.c: a craft with everything about it drawn at random (see draw_craft.h). */
#include "draw_craft.h"

#include <string.h>

#include "craft/flight.h"
#include "craft/to_rig.h"
#include "draws.h"

static const pare_part *part_of(const pare_craft *craft, const pare_line *line)
{
    return line->of == PARE_LINE_ITEM ? craft->item[line->index].part : NULL;
}

/* One error for all lines that have something in common with line i; drawn at the first of them. */
static double shared(size_t i,
                     bool (*alike)(const pare_craft *, const pare_line *, const pare_line *),
                     const pare_craft *craft, const pare_assembly *assembly, double drawn[],
                     uint64_t *dice)
{
    for (size_t j = 0; j < i; j++)
        if (alike(craft, &assembly->line[i], &assembly->line[j]))
            return drawn[i] = drawn[j];
    return drawn[i] = draw_normal(dice);
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

void draw_body(const pare_craft *craft, const pare_sheet *sheet, uint64_t *dice, pare_rig *rig)
{
    const pare_assembly *assembly = &sheet->assembly;
    const double scale = draw_normal(dice);
    double part[PARE_LINES], maker[PARE_LINES];
    pare_body body[PARE_LINES];
    const pare_part *propeller = craft->item[pare_craft_doing(craft, PARE_PROPELLER)].part;
    double propeller_kg = propeller->mass_kg.value;
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        const pare_part *of = part_of(craft, line);
        double more_kg = line->mass_kg.u * shared(i, same_part, craft, assembly, part, dice);
        const double bias = shared(i, same_maker, craft, assembly, maker, dice);
        if (of && of->mass_kg.known == PARE_STATED && of->maker)
            more_kg += 0.01 * line->mass_kg.value * bias;
        if (of && of->mass_kg.known == PARE_WEIGHED)
            more_kg += 0.001 * line->mass_kg.value * scale;
        body[i] = line->body;
        if (body[i].mass_kg > 0) {
            body[i].inertia_kg_m2 =
                pare_sym3_times(1 + more_kg / body[i].mass_kg, body[i].inertia_kg_m2);
            body[i].mass_kg += more_kg;
        }
        body[i].at_m.x += line->at_u_m * draw_normal(dice);
        body[i].at_m.y += line->at_u_m * draw_normal(dice);
        body[i].at_m.z += line->at_u_m * draw_normal(dice);
        if (of == craft->item[pare_craft_doing(craft, PARE_MOTOR)].part)
            rig->motor.mass_kg += more_kg / line->count;
        if (of == propeller)
            propeller_kg += more_kg / line->count;
    }
    const pare_body all = pare_body_sum(assembly->lines, body);
    pare_rig_put_body(assembly, &all, rig);
    rig->spin_kg_m2 = pare_rotor_spin_kg_m2(propeller_kg, propeller->spec[PARE_SPEC_DIAMETER].value,
                                            rig->motor.mass_kg);
}

void draw_numbers(const double u[PARE_DOUBTED], uint64_t *dice, pare_moved_rig *rig)
{
    for (int n = 0; n < PARE_DOUBTED; n++) {
        bool apart = false;
        for (int i = 0; i < PARE_PAIR_NUMBERS; i++)
            apart = apart || (int)pare_doubted_of_pair[i] == n;
        if (!apart)
            pare_doubted_move(rig, (pare_doubted)n, u[n] * draw_normal(dice));
    }
}

/* Rotors and motors off by deviates z of a share of two ways to be off. */
static void put_drive(const pare_rig *from, const pare_pair_doubt *still,
                      const pare_pair_doubt *moving, double share,
                      const double z[PARE_PAIR_NUMBERS], pare_moved_rig *moved)
{
    moved->rig = *from;
    for (int number = 0; number < PARE_PAIR_NUMBERS; number++) {
        double change = 0;
        for (int source = 0; source < PARE_PAIR_NUMBERS; source++)
            change += z[source] * ((1 - share) * still->root[number][source] +
                                   share * moving->root[number][source]);
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

void draw_flight(const pare_craft *craft, const pare_rig *rig, const pare_doubts *doubts,
                 uint64_t *dice, pare_sheet_figure figure[PARE_FIGURES])
{
    const struct {
        bool full;
        double running;
        unsigned groups;
    } parts[] = {{false, 0, PARE_FLY_HOVER | PARE_FLY_HOVER_TIME | PARE_FLY_GROUND},
                 {true, 0, PARE_FLY_FULL | PARE_FLY_QUICKNESS},
                 {false, share_at_speed(&craft->brief), PARE_FLY_MINUTES},
                 {false, 1, PARE_FLY_RANGE},
                 {true, 1, PARE_FLY_BURST | PARE_FLY_TURN | PARE_FLY_CLIMB | PARE_FLY_TOP_SPEED}};
    double z[PARE_PAIR_NUMBERS];
    for (int i = 0; i < PARE_PAIR_NUMBERS; i++)
        z[i] = draw_normal(dice);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        const pare_pair_doubt *drive = doubts->drive[parts[i].full];
        pare_moved_rig moved;
        pare_endurance endured;
        put_drive(rig, &drive[0], &drive[1], parts[i].running, z, &moved);
        pare_flight_some(&craft->brief, &moved.rig, parts[i].groups, figure, &endured);
    }
    /* Of the minutes' figures, the one that is about moving propellers alone. */
    pare_moved_rig cruising;
    pare_endurance endured;
    pare_sheet_figure minutes[PARE_FIGURES];
    put_drive(rig, &doubts->drive[0][0], &doubts->drive[0][1], 1, z, &cruising);
    pare_flight_some(&craft->brief, &cruising.rig, PARE_FLY_MINUTES, minutes, &endured);
    figure[PARE_CRUISE_RPM] = minutes[PARE_CRUISE_RPM];
}
