/* assemble.c: the ledger, and the craft as one body (see assemble.h).
 *
 * Each item, joint and run becomes one line and one body: its copies at their stations, summed by
 * the parallel-axis theorem. A joint or run that is included in a part adds what it was changed by,
 * which may be negative; its body then takes grams away where they were. */
#include "craft/assemble.h"

#include <math.h>
#include <string.h>

#include "craft/layout.h"
#include "physics/wire.h"

#define SCREW_U_SHARE 0.04 /* by geometry; common practice, no source */
#define LOCK_U_SHARE  0.08 /* a locking nut's collar is an estimate */
#define WIRE_U_SHARE  0.06
#define PLACE_U_M     3e-3
#define GUESS_U_M     20e-3
#define FRAME_U_M     1e-3
#define UNLISTED_U_M  40e-3 /* [E] somewhere on the craft */

#define SAME 1e-9 /* share: the same geometry, not quite the same sum */

/* What geometry says, or the scale where it had the very same thing on. */
static double by_scale_kg(double each_kg, double written_kg, double weighed_kg)
{
    const bool same = weighed_kg > 0 && fabs(each_kg - written_kg) <= SAME * written_kg;
    return same ? weighed_kg : each_kg;
}

pare_fastener_size pare_joint_size(const pare_joint *joint)
{
    return (pare_fastener_size){.standard = joint->standard,
                                .thread = joint->thread,
                                .length_m = joint->length_m,
                                .across_m = joint->across_m,
                                .tapped_m = joint->tapped_m};
}

pare_status pare_joint_kg(const pare_joint *joint, double *mass_kg, pare_error *err)
{
    double each_kg;
    const pare_fastener_size size = pare_joint_size(joint);
    const pare_status status = pare_fastener_kg(&size, joint->material, &each_kg, err);
    if (status != PARE_OK)
        return pare_within(err, "joint '%s'", joint->name);
    *mass_kg = joint->count * by_scale_kg(each_kg, joint->written_kg, joint->weighed_kg);
    return PARE_OK;
}

double pare_run_kg(const pare_run *run)
{
    double length_m = 0;
    for (size_t i = 0; i < run->ways; i++)
        length_m += run->way_m[i];
    const double each_kg = length_m * pare_wire_kg_per_m(run->gauge, run->outer_m);
    return run->times * by_scale_kg(each_kg, run->written_kg, run->weighed_kg);
}

double pare_run_ohm(const pare_run *run, double copper_degc)
{
    double length_m = 0;
    for (size_t i = 0; i < run->ways; i++)
        length_m += run->way_m[i];
    return length_m * pare_wire_ohm_per_m(run->gauge, copper_degc);
}

/* Coax by its type, kg/m; from memory, makers' data sheets. */
static double coax_kg_per_m(const char *cable)
{
    static const struct {
        const char *name;
        double kg_per_m;
    } known[] = {{"RG316", 15.5e-3}, {"RG178", 8.0e-3}, {"RG405", 22e-3}, {"1.13", 2.6e-3}};
    for (size_t i = 0; cable && i < sizeof known / sizeof known[0]; i++)
        if (strcmp(cable, known[i].name) == 0)
            return known[i].kg_per_m;
    return 8.0e-3;
}

static double cut_away_kg(const pare_item *item)
{
    const double came_m = item->part->spec[PARE_SPEC_LENGTH].value;
    if (!(item->cut_length_m > 0) || !(came_m > item->cut_length_m))
        return 0;
    return (came_m - item->cut_length_m) * coax_kg_per_m(item->part->cable);
}

double pare_item_each_kg(const pare_item *item)
{
    return item->part->mass_kg.value - cut_away_kg(item);
}

/* The frame is where stations start from, and what sits on its arms sits where the frame says: all
 * copies together can be off by little. Elsewhere a ruler says, or nobody does. */
static double place_u_m(const pare_item *item)
{
    if (item->place == PARE_AT_ARMS ||
        (item->part->kind == PARE_FRAME && item->place == PARE_AT_DEFAULT))
        return FRAME_U_M;
    if (item->at_u_m > 0)
        return item->at_u_m;
    return item->place == PARE_AT_DEFAULT ? GUESS_U_M : PLACE_U_M;
}

/* One body is its own sum. A weightless one goes through the sum, which says where it is. */
static pare_body body_of(size_t count, const pare_body body[])
{
    return count == 1 && body[0].mass_kg != 0 ? body[0] : pare_body_sum(count, body);
}

/* A craft being assembled. */
typedef struct build {
    const pare_craft *craft;
    pare_layout layout;
} build;

static pare_status item_line(const build *b, size_t index, pare_line *line, pare_error *err)
{
    const pare_item *item = &b->craft->item[index];
    const double each_kg = pare_item_each_kg(item);
    if (!(each_kg > 0))
        return pare_fail(
            err, PARE_BAD_DATA,
            "item '%s': cutting %g mm of coax off '%s' leaves %g g; it must leave some", item->name,
            1e3 * item->cut_length_m, item->part->id, 1e3 * each_kg);
    const double adds_kg = item->included_in ? 0 : each_kg;
    pare_value mass_kg = item->part->mass_kg;
    mass_kg.value = item->count * adds_kg;
    mass_kg.u = item->included_in ? 0 : item->count * item->part->mass_kg.u;
    const int places = pare_item_places(item);
    pare_body copy[PARE_STATIONS];
    if (places > PARE_STATIONS)
        return pare_fail(err, PARE_BAD_DATA, "item '%s': %d stations; %d is the most", item->name,
                         places, PARE_STATIONS);
    const double here_kg = mass_kg.value / places;
    for (int i = 0; i < places; i++) {
        copy[i] = item->body;
        copy[i].mass_kg = here_kg;
        copy[i].inertia_kg_m2 = pare_sym3_times(here_kg, item->body.inertia_kg_m2);
        copy[i].at_m =
            pare_vec3_add(item->body.at_m, pare_layout_station(&b->layout, item, (size_t)i));
    }
    *line = (pare_line){.of = PARE_LINE_ITEM,
                        .index = index,
                        .name = item->name,
                        .system = pare_kind_system(item->part->kind),
                        .count = item->count,
                        .each_kg = adds_kg,
                        .mass_kg = mass_kg,
                        .body = body_of((size_t)places, copy),
                        .at_u_m = place_u_m(item)};
    return PARE_OK;
}

/* Grams spread evenly over some points. */
static pare_body spread(double mass_kg, size_t points, const pare_vec3 at_m[])
{
    pare_body body[PARE_STATIONS];
    for (size_t i = 0; i < points; i++)
        body[i] = (pare_body){.mass_kg = mass_kg / (double)points, .at_m = at_m[i]};
    return body_of(points, body);
}

/* Where the screws of a joint or the wire of a run sit: one point for each copy of what they serve,
 * `along` of the way from the middle to it. */
static size_t places_of(const build *b, int serves, double along, pare_vec3 at_m[PARE_STATIONS])
{
    if (serves < 0) {
        at_m[0] = (pare_vec3){0, 0, 0};
        return 1;
    }
    const pare_item *item = &b->craft->item[serves];
    const size_t copies = (size_t)pare_item_places(item);
    const size_t count = copies < PARE_STATIONS ? copies : 1;
    for (size_t i = 0; i < count; i++) {
        at_m[i] = pare_layout_station(&b->layout, item, i);
        if (item->place == PARE_AT_ARMS) {
            at_m[i] = pare_vec3_times(along, at_m[i]);
            at_m[i].z = 0;
        }
    }
    return count;
}

static size_t arm_roots(const build *b, pare_vec3 at_m[PARE_STATIONS])
{
    const size_t count = pare_layout_arms(&b->layout, PARE_ARMS, at_m);
    if (count == 0)
        return places_of(b, -1, 1, at_m);
    for (size_t i = 0; i < count; i++) {
        const double reach = hypot(at_m[i].x, at_m[i].y);
        const double along = reach > 0 ? b->layout.arms->root_m / reach : 0;
        at_m[i] = (pare_vec3){along * at_m[i].x, along * at_m[i].y, 0};
    }
    return count;
}

static size_t joint_places(const build *b, const pare_joint *joint, int serves,
                           pare_vec3 at_m[PARE_STATIONS])
{
    if (!joint->at_given)
        return joint->holds && strcmp(joint->holds, "arm") == 0 ? arm_roots(b, at_m)
                                                                : places_of(b, serves, 1, at_m);
    at_m[0] = joint->at_m;
    return 1;
}

size_t pare_joint_places(const pare_craft *craft, const pare_joint *joint,
                         pare_vec3 at_m[PARE_STATIONS])
{
    const build b = {craft, pare_layout_of(craft)};
    const int serves = joint->holds ? pare_craft_item(craft, joint->holds) : -1;
    return joint_places(&b, joint, serves, at_m);
}

/* How well screws or wire are known: by the scale where it had them on, else as geometry goes.
 * @param at  their place among the weighed masses */
static pare_value known_by(const pare_weighed *weighed, size_t at, int count, double adds_kg,
                           double share_u)
{
    if (!weighed || at == weighed->masses)
        return (pare_value){adds_kg, share_u * fabs(adds_kg), PARE_COMPUTED, true};
    const pare_weighed_mass *mass = &weighed->mass[at];
    return (pare_value){adds_kg, count * mass->u_kg, mass->read ? PARE_WEIGHED : PARE_COMPUTED,
                        true};
}

/* serves: the item that it holds, or -1. */
static pare_status joint_line(const build *b, size_t index, int serves, pare_line *line,
                              pare_error *err)
{
    const pare_joint *joint = &b->craft->joint[index];
    double mass_kg;
    const pare_status status = pare_joint_kg(joint, &mass_kg, err);
    if (status != PARE_OK)
        return status;
    const double adds_kg = joint->included_in ? mass_kg - joint->included_kg : mass_kg;
    const double share_u = joint->standard == PARE_ISO7040 ? LOCK_U_SHARE : SCREW_U_SHARE;
    const pare_weighed *scale = joint->count > 0 ? b->craft->weighed : NULL;
    const pare_value adds =
        known_by(scale, scale ? pare_weighed_joint(scale, index, adds_kg / joint->count) : 0,
                 joint->count, adds_kg, share_u);
    pare_vec3 at_m[PARE_STATIONS];
    const size_t points = joint_places(b, joint, serves, at_m);
    *line = (pare_line){.of = PARE_LINE_JOINT,
                        .index = index,
                        .name = joint->name,
                        .system = PARE_SYSTEM_SCREWS,
                        .count = joint->count,
                        .each_kg = joint->count > 0 ? mass_kg / joint->count : 0,
                        .mass_kg = adds,
                        .body = spread(adds_kg, points, at_m),
                        .at_u_m = PLACE_U_M};
    return PARE_OK;
}

/* serves: the item whose current it carries, or -1. */
static void run_line(const build *b, size_t index, int serves, pare_line *line)
{
    const pare_run *run = &b->craft->run[index];
    const double mass_kg = pare_run_kg(run);
    const double adds_kg = run->included_in ? mass_kg - run->included_kg : mass_kg;
    const pare_weighed *scale = run->times > 0 ? b->craft->weighed : NULL;
    const pare_value adds =
        known_by(scale, scale ? pare_weighed_run(scale, index, adds_kg / run->times) : 0,
                 run->times, adds_kg, WIRE_U_SHARE);
    pare_vec3 at_m[PARE_STATIONS];
    size_t points = 1;
    at_m[0] = run->at_m;
    if (!run->at_given)
        points = places_of(b, serves, 0.5, at_m);
    *line = (pare_line){.of = PARE_LINE_RUN,
                        .index = index,
                        .name = run->name,
                        .system = PARE_SYSTEM_WIRE,
                        .count = run->times,
                        .each_kg = run->times > 0 ? mass_kg / run->times : 0,
                        .mass_kg = adds,
                        .body = spread(adds_kg, points, at_m),
                        .at_u_m = 2 * PLACE_U_M};
}

/* What holds or feeds an item that a loadout leaves at home stays at home with it. */
static bool stays_at_home(const pare_craft *craft, int serves)
{
    return serves >= 0 && craft->item[serves].off;
}

static pare_status put_lines(const build *b, pare_assembly *assembly, pare_error *err)
{
    const pare_craft *craft = b->craft;
    pare_status status = PARE_OK;
    assembly->lines = 0;
    for (size_t i = 0; status == PARE_OK && i < craft->items; i++)
        if (!craft->item[i].off)
            status = item_line(b, i, &assembly->line[assembly->lines++], err);
    for (size_t i = 0; status == PARE_OK && i < craft->joints; i++) {
        const char *holds = craft->joint[i].holds;
        const int serves = holds ? pare_craft_item(craft, holds) : -1;
        if (!stays_at_home(craft, serves))
            status = joint_line(b, i, serves, &assembly->line[assembly->lines++], err);
    }
    for (size_t i = 0; status == PARE_OK && i < craft->runs; i++) {
        const char *carries = craft->run[i].carries;
        const int serves = carries ? pare_craft_item(craft, carries) : -1;
        if (!stays_at_home(craft, serves))
            run_line(b, i, serves, &assembly->line[assembly->lines++]);
    }
    return status;
}

/* What the scale shows and nobody wrote down: where the rest balances, for want of a better place. */
static void unlisted_line(const pare_craft *craft, pare_assembly *assembly)
{
    const pare_weighed *weighed = craft->weighed;
    if (!weighed || weighed->forgotten == weighed->masses)
        return;
    const pare_weighed_mass *mass = &weighed->mass[weighed->forgotten];
    assembly->line[assembly->lines++] =
        (pare_line){.of = PARE_LINE_UNLISTED,
                    .name = "not written down",
                    .system = PARE_SYSTEM_UNLISTED,
                    .count = 1,
                    .each_kg = mass->kg,
                    .mass_kg = {mass->kg, mass->u_kg, PARE_WEIGHED, true},
                    .body = {.mass_kg = mass->kg, .at_m = assembly->all.at_m},
                    .at_u_m = UNLISTED_U_M};
    assembly->all.mass_kg += mass->kg;
}

pare_status pare_assemble(const pare_craft *craft, pare_assembly *assembly, pare_error *err)
{
    const build b = {craft, pare_layout_of(craft)};
    const pare_status status = put_lines(&b, assembly, err);
    if (status != PARE_OK)
        return status;
    pare_body body[PARE_LINES];
    for (size_t i = 0; i < assembly->lines; i++)
        body[i] = assembly->line[i].body;
    assembly->all = pare_body_sum(assembly->lines, body);
    unlisted_line(craft, assembly);
    assembly->arms = pare_layout_arms(&b.layout, PARE_ARMS, assembly->arm_m);
    return PARE_OK;
}

double pare_line_share(const pare_assembly *assembly, size_t line, int axis)
{
    const pare_body *body = &assembly->line[line].body;
    const pare_vec3 d = pare_vec3_less(body->at_m, assembly->all.at_m);
    const double m = body->mass_kg;
    const pare_sym3 *own = &body->inertia_kg_m2, *all = &assembly->all.inertia_kg_m2;
    switch (axis) {
    case 0:
        return (own->xx + m * (d.y * d.y + d.z * d.z)) / all->xx;
    case 1:
        return (own->yy + m * (d.x * d.x + d.z * d.z)) / all->yy;
    default:
        return (own->zz + m * (d.x * d.x + d.y * d.y)) / all->zz;
    }
}

size_t pare_line_weighed(const pare_craft *craft, const pare_line *line)
{
    const pare_weighed *weighed = craft->weighed;
    const double each_kg = line->count > 0 ? line->mass_kg.value / line->count : 0;
    switch (line->of) {
    case PARE_LINE_ITEM:
        return craft->item[line->index].included_in
                   ? weighed->masses
                   : pare_weighed_part(weighed, craft->item[line->index].part);
    case PARE_LINE_JOINT:
        return pare_weighed_joint(weighed, line->index, each_kg);
    case PARE_LINE_RUN:
        return pare_weighed_run(weighed, line->index, each_kg);
    case PARE_LINE_UNLISTED:
        break;
    }
    return weighed->forgotten;
}

const char *pare_line_of_name(pare_line_of of)
{
    static const char *const names[] = {[PARE_LINE_ITEM] = "item",
                                        [PARE_LINE_JOINT] = "joint",
                                        [PARE_LINE_RUN] = "run",
                                        [PARE_LINE_UNLISTED] = "unlisted"};
    return names[of];
}
