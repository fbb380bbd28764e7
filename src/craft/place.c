/* place.c: where things sit on a craft, and what lengths follow from that.
 *
 * Stations are what a builder measures with a ruler, to a few millimetres. Where nothing is said, a
 * kind has a usual place, with an uncertainty wide enough to say that it is a guess. The lengths
 * that screws and wires need are straight-line distances plus a working slack: enough to solder and
 * to move, [E] common practice, no source. */
#include "craft/layout.h"

#include <math.h>

#include "base/text.h"
#include "physics/nut.h"

#define FULL_NUT                                                                                   \
    0.8 /* of the diameter: nuts that bear all of a screw's load, ISO 898-2, from memory */
#define LEAD_SLACK_M     30e-3 /* to plug a pack in and out */
#define PHASE_SLACK_M    5e-3
#define BOARD_HALF_M     15e-3 /* a wire ends at the board's edge, not at its middle */
#define SIGNAL_SLACK_M   15e-3
#define COAX_SLACK_M     15e-3
#define PROPELLER_RISE_M 3e-3 /* above the motor's bell */

const pare_piece *pare_craft_arm_piece(const pare_craft *craft)
{
    const int frame = pare_craft_doing(craft, PARE_FRAME);
    if (frame < 0)
        return NULL;
    const pare_part *part = craft->item[frame].part;
    for (size_t i = 0; i < part->pieces; i++)
        if (part->piece[i].form == PARE_FORM_ARMS)
            return &part->piece[i];
    return NULL;
}

size_t pare_layout_arms(const pare_layout *layout, size_t most, pare_vec3 arm_m[])
{
    const pare_piece *arms = layout->arms;
    if (!arms)
        return 0;
    const size_t count = arms->places < most ? arms->places : most;
    for (size_t i = 0; i < count; i++)
        arm_m[i] = arms->at_m[i];
    return count;
}

size_t pare_craft_arms(const pare_craft *craft, size_t most, pare_vec3 arm_m[])
{
    const pare_layout layout = {.arms = pare_craft_arm_piece(craft)};
    return pare_layout_arms(&layout, most, arm_m);
}

static double motor_height_m(const pare_craft *craft)
{
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    if (motor < 0)
        return 0;
    const pare_part *part = craft->item[motor].part;
    for (size_t i = 0; i < part->pieces; i++)
        if (part->piece[i].form == PARE_FORM_SHAPE && part->piece[i].shape == PARE_SHAPE_CYLINDER)
            return part->piece[i].size_m[1];
    return 0;
}

static pare_vec3 usual_place(pare_kind kind)
{
    switch (kind) {
    case PARE_ESC_FOUR:
    case PARE_ESC_ONE:
    case PARE_CONTROLLER_WITH_ESC:
        return (pare_vec3){0, 0, 4e-3};
    case PARE_FLIGHT_CONTROLLER:
        return (pare_vec3){0, 0, 10e-3};
    case PARE_PACK:
    case PARE_STRAP:
    case PARE_PAD:
        return (pare_vec3){0, 0, 38e-3};
    case PARE_CAMERA:
        return (pare_vec3){45e-3, 0, 18e-3};
    case PARE_ACTION_CAMERA:
    case PARE_HOLDER:
        return (pare_vec3){40e-3, 0, 40e-3};
    case PARE_VIDEO_TRANSMITTER:
    case PARE_RECEIVER:
        return (pare_vec3){-30e-3, 0, 10e-3};
    case PARE_ANTENNA:
    case PARE_PIGTAIL:
    case PARE_ADAPTER:
    case PARE_GPS:
        return (pare_vec3){-60e-3, 0, 25e-3};
    case PARE_CAPACITOR:
    case PARE_CONNECTOR:
    case PARE_BUZZER:
        return (pare_vec3){-40e-3, 0, 5e-3};
    default:
        return (pare_vec3){0, 0, 0};
    }
}

int pare_item_places(const pare_item *item)
{
    return item->place == PARE_AT_ARMS || item->stations > 1 ? item->count : 1;
}

pare_layout pare_layout_of(const pare_craft *craft)
{
    return (pare_layout){pare_craft_arm_piece(craft), motor_height_m(craft)};
}

static pare_vec3 at_arm(const pare_layout *layout, const pare_item *item, size_t which)
{
    const pare_piece *arms = layout->arms;
    if (!arms || arms->places == 0)
        return (pare_vec3){0, 0, 0};
    const size_t count = arms->places < PARE_STATIONS ? arms->places : PARE_STATIONS;
    pare_vec3 at = arms->at_m[which % count];
    at.x *= item->along_arm;
    at.y *= item->along_arm;
    /* Arm places lie on the mounting face; what turns stands on it. */
    if (item->part->kind == PARE_MOTOR)
        at.z += layout->motor_m / 2;
    else if (item->part->kind == PARE_PROPELLER || item->part->kind == PARE_PROPELLER_NUT)
        at.z += layout->motor_m + PROPELLER_RISE_M;
    return at;
}

pare_vec3 pare_layout_station(const pare_layout *layout, const pare_item *item, size_t which)
{
    if (item->place == PARE_AT_POINTS && item->stations > 0)
        return item->at_m[which < item->stations ? which : item->stations - 1];
    return item->place == PARE_AT_ARMS ? at_arm(layout, item, which)
                                       : usual_place(item->part->kind);
}

pare_vec3 pare_item_station(const pare_craft *craft, const pare_item *item, size_t which)
{
    pare_layout layout = {0};
    if (item->place == PARE_AT_ARMS)
        layout = pare_layout_of(craft);
    return pare_layout_station(&layout, item, which);
}

/* A joint of some kind of fastener on the screws of another: it holds the same, by the same thread. */
static const pare_joint *beside(const pare_craft *craft, const pare_joint *joint,
                                pare_fastener first, pare_fastener last)
{
    for (size_t i = 0; joint->holds && i < craft->joints; i++) {
        const pare_joint *other = &craft->joint[i];
        if (other->standard >= first && other->standard <= last && other->count > 0 &&
            other->holds && other->thread.nominal_m == joint->thread.nominal_m &&
            pare_same_name(other->holds, joint->holds))
            return other;
    }
    return NULL;
}

const pare_joint *pare_joint_nuts(const pare_craft *craft, const pare_joint *joint)
{
    return beside(craft, joint, PARE_ISO4032, PARE_ISO7040);
}

const pare_joint *pare_joint_washers(const pare_craft *craft, const pare_joint *joint)
{
    return beside(craft, joint, PARE_ISO7089, PARE_ISO7089);
}

static double should_engage_m(const pare_joint *joint)
{
    return joint->engaged_m > 0 ? joint->engaged_m : joint->thread.nominal_m;
}

static const pare_item *motor_held(const pare_craft *craft, const pare_joint *joint)
{
    const int held = joint->holds ? pare_craft_item(craft, joint->holds) : -1;
    return held >= 0 && craft->item[held].part->kind == PARE_MOTOR ? &craft->item[held] : NULL;
}

double pare_joint_needed_m(const pare_craft *craft, const pare_joint *joint)
{
    if (joint->needed_m > 0)
        return joint->needed_m;
    if (!pare_is_screw(joint->standard) || !motor_held(craft, joint))
        return 0;
    const pare_piece *arms = pare_craft_arm_piece(craft);
    if (!arms || arms->tube || !(arms->section_m[1] > 0))
        return 0; /* what clamps a motor on a tube is not described */
    const pare_joint *washers = pare_joint_washers(craft, joint);
    const double each =
        washers && joint->count > 0 ? ceil((double)washers->count / joint->count) : 0;
    return arms->section_m[1] + each * pare_washer_thick_m(&joint->thread) + should_engage_m(joint);
}

double pare_joint_enters_m(const pare_craft *craft, const pare_joint *joint)
{
    const double needed_m = pare_joint_needed_m(craft, joint);
    if (!(needed_m > 0))
        return (double)NAN;
    /* To a tenth of a micrometre, so that 8 mm through 5 mm is 3 mm and no hair less. */
    return 1e-7 * round(1e7 * (joint->length_m - (needed_m - should_engage_m(joint))));
}

double pare_joint_least_m(const pare_joint *joint)
{
    const double full_m = FULL_NUT * joint->thread.nominal_m;
    return joint->engaged_m > 0 ? fmin(full_m, joint->engaged_m) : full_m;
}

pare_value pare_joint_depth_m(const pare_craft *craft, const pare_joint *joint)
{
    const pare_item *motor = motor_held(craft, joint);
    return motor ? motor->part->spec[PARE_SPEC_SCREW_DEPTH] : (pare_value){0};
}

static double distance_m(pare_vec3 a, pare_vec3 b)
{
    const pare_vec3 d = pare_vec3_less(a, b);
    return sqrt(pare_vec3_dot(d, d));
}

/* The board that a motor's or pack's wires end at. */
static int esc_item(const pare_craft *craft)
{
    const int four = pare_craft_doing(craft, PARE_ESC_FOUR);
    return four >= 0 ? four : pare_craft_doing(craft, PARE_ESC_ONE);
}

double pare_run_needed_m(const pare_craft *craft, const pare_run *run)
{
    if (run->needed_m > 0)
        return run->needed_m;
    if (!run->carries)
        return 0;
    const int esc = esc_item(craft);
    if (esc < 0)
        return 0;
    const pare_item *board = &craft->item[esc];
    if (pare_same_name(run->carries, "pack")) {
        if (!run->at_given)
            return 0;
        /* One-motor ESCs are fed from the middle, each by its own wires. */
        const pare_vec3 middle = {0, 0, 0};
        const pare_vec3 end =
            pare_part_does(board->part, PARE_ESC_ONE) ? middle : pare_item_station(craft, board, 0);
        return distance_m(run->at_m, end) + LEAD_SLACK_M;
    }
    const int item = pare_craft_item(craft, run->carries);
    if (item < 0)
        return 0;
    const pare_item *fed = &craft->item[item];
    if (fed->part->kind == PARE_MOTOR) {
        const bool own = pare_part_does(board->part, PARE_ESC_ONE);
        pare_vec3 motor = pare_item_station(craft, fed, 0);
        const pare_vec3 end = pare_item_station(craft, board, 0);
        motor.z = end.z;
        const double straight = distance_m(motor, end) - (own ? 0 : BOARD_HALF_M);
        return (straight > 0 ? straight : 0) + PHASE_SLACK_M;
    }
    const int brain = pare_craft_doing(craft, PARE_FLIGHT_CONTROLLER);
    if (brain < 0 || brain == item)
        return 0;
    return distance_m(pare_item_station(craft, fed, 0),
                      pare_item_station(craft, &craft->item[brain], 0)) +
           SIGNAL_SLACK_M;
}

double pare_coax_needed_m(const pare_craft *craft, const pare_item *item)
{
    /* An antenna names its chain from the transmitter on; each link spans from the one before. */
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *antenna = &craft->item[i];
        const char *before = NULL;
        for (size_t k = 0; k <= antenna->feeds; k++) {
            const char *here = k < antenna->feeds ? antenna->feed[k] : antenna->name;
            if (before && pare_same_name(here, item->name)) {
                const int from = pare_craft_item(craft, before);
                if (from < 0)
                    return 0;
                return distance_m(pare_item_station(craft, item, 0),
                                  pare_item_station(craft, &craft->item[from], 0)) +
                       COAX_SLACK_M;
            }
            const int at = pare_craft_item(craft, here);
            if (at >= 0 && !craft->item[at].off)
                before = here;
        }
    }
    return 0;
}
