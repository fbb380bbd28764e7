/* proof_flight.c: whether all sets below a node fail by a limit, and the rule for a whole one (see proof.h).
 *
 * The rule. Every limit of the brief holds. A rating that holds on the craft as it is holds after; one that is
 * broken now is no worse. What screws bear in a crash is no worse than now, and beyond ten times what they must
 * it does not matter. Where the brief asks a margin of all ratings, each has it. What could be flown can be.
 *
 * A node is flown at a mass that none of its sets falls below, with rotors that carry alike, the least load and
 * drag that its open choices leave, and the least resistance in open wires; none at all while an open choice may
 * move where these end. Thrust, minutes and what rests on them only get worse with mass, load, drag and
 * resistance, so what fails then fails in all of them, and in all that are heavier. Not quite monotone are the
 * pack's warmth and windings, since who lands earlier has warmed less, and the thrust left when landing: these
 * must fail by more. So must top speed: a heavier craft leans less, has less of its drag from above, and is faster,
 * by up to a tenth at twice the mass. At a speed well beyond that of its best range it even draws less: where a
 * profile has such an entry the craft is flown with no more drag from above than from ahead, which is monotone to a
 * few thousandths. A cell's volts at full throttle are best with little in the pack's way and much in the motors';
 * currents at full throttle least with much in both. A load adds to the pack's current, and takes from the motors' by
 * the pack's sag: a current refutes where it is too much with the least load and with the most. */
#include <math.h>
#include <string.h>

#include "advise/proof_inside.h"
#include "advise/stand_in.h"
#include "base/text.h"
#include "craft/drag.h"
#include "craft/flight.h"
#include "craft/law.h"
#include "craft/margin.h"
#include "physics/wire.h"

#define BIT(kind)      (1u << (kind))
#define FIGURE(f)      ((pare_figures)1 << (f))
#define TENFOLD        10.0
#define NEARLY         (1 - 1e-9) /* of a ratio: rounding breaks nothing */
#define SURELY         (1 - 1e-6) /* what a bound must fail by: the solvers' own tolerance */
#define WARMTH_SURELY  0.9
#define LANDING_SURELY 0.95
#define LEANING_SURELY 0.9
#define FAST_SURELY    0.99
#define A_LITTLE_MORE  1.01                                      /* mass */
#define REFUTING       (PARE_MARGINS_ALL & ~PARE_MARGINS_JOINTS) /* proof_screws_fail() asks joints */
#define LEAST_DRAG_M2  1e-5
#define LEAST_OHM      1e-4
#define LEAST_KG       1e-3 /* that a rig may weigh */
#define LEAD_DEGC      40.0

static const struct {
    const char *name;
    pare_figure figure;
} flies[] = {{"flies.hover", PARE_HOVER_OUTPUT},
             {"flies.minutes", PARE_FLOWN_TIME},
             {"flies.full", PARE_THRUST_FRESH}};
enum { FLIES = sizeof flies / sizeof flies[0] };

static bool starts(const char *name, const char *with)
{
    return strncmp(name, with, strlen(with)) == 0;
}

/* ---- the rule ---- */

double proof_need(const proof_space *space, const char *name)
{
    const pare_margin *was = pare_sheet_margin(&space->desk->sheet, name);
    if (starts(name, "limit."))
        return 1;
    if (starts(name, "joint_crash."))
        return was ? fmin(was->ratio, TENFOLD) : 1;
    return fmax(was ? fmin(was->ratio, 1) : 1, space->margin_least);
}

bool proof_does_its_job(const proof_space *space, const pare_sheet *sheet, const char **by,
                        double *ratio)
{
    for (size_t i = 0; i < FLIES; i++)
        if (space->desk->sheet.figure[flies[i].figure].exists &&
            !sheet->figure[flies[i].figure].exists) {
            *by = flies[i].name;
            *ratio = 0;
            return false;
        }
    for (size_t i = 0; i < sheet->margins; i++) {
        const pare_margin *margin = &sheet->margin[i];
        if (pare_same_name(margin->name, "limit.margin") ||
            margin->ratio >= proof_need(space, margin->name) * NEARLY)
            continue;
        *by = margin->name;
        *ratio = margin->ratio;
        return false;
    }
    return true;
}

static bool is_on(const pare_craft *craft, const char *id)
{
    for (size_t i = 0; i < craft->items; i++)
        if (!craft->item[i].off && pare_same_name(craft->item[i].part->id, id))
            return true;
    return false;
}

bool proof_has_its_parts(const proof_space *space, const pare_craft *craft)
{
    for (size_t i = 0; i < space->claim->nevers; i++)
        if (is_on(craft, space->claim->never[i]))
            return false;
    for (size_t i = 0; i < space->claim->musts; i++)
        if (!is_on(craft, space->claim->must[i]))
            return false;
    return true;
}

/* ---- the flight ---- */

/* A motor with no wire on it, and no drive before it. */
static double bare_ohm(const pare_rig *rig, const pare_part *motor)
{
    double wires_ohm = 0;
    for (size_t i = 0; i < motor->includes; i++) {
        const pare_include *in = &motor->include[i];
        if (in->what == PARE_INCLUDES_RUN && in->gauge > 0)
            wires_ohm += in->count * in->length_m * pare_wire_ohm_per_m(in->gauge, 20) * 2 / 3;
    }
    const double stated = motor->spec[PARE_SPEC_RESISTANCE].value;
    return fmax(fmin(stated, rig->motor.resistance_ohm) - wires_ohm, LEAST_OHM);
}

/* What the craft's electronics draw, less than that and more, and the drag that may go. */
static void open_loads(const proof_space *space, const proof_state *state, pare_rig *rig,
                       double *most_w)
{
    const pare_craft *craft = state->trial.flown;
    double load_w = 0, least_w = 0, high_w = 0, drag_m2 = 0;
    bool feeds = false, any = false;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        const unsigned char c = space->choice_of[i];
        const double own_w = item->off ? 0 : item->count * item->part->spec[PARE_SPEC_POWER].value;
        const bool risk = proof_at_risk(space, state, i);
        load_w += own_w;
        if (c != PROOF_NONE && proof_open(state, c)) {
            const proof_sum *sum = proof_sum_of(space, state, c);
            least_w += risk ? 0 : fmin(sum->power_w, own_w);
            high_w += fmax(sum->power_most_w, own_w);
            drag_m2 += item->off ? 0 : pare_item_drag_m2(item);
            feeds = feeds || (pare_work_of(item->part) &
                              (BIT(PARE_REGULATOR) | BIT(PARE_FLIGHT_CONTROLLER))) != 0;
            any = any || sum->named;
        } else {
            least_w += risk ? 0 : own_w;
            high_w += own_w;
            drag_m2 += risk ? pare_item_drag_m2(item) : 0;
            any = any || risk;
        }
    }
    *most_w = rig->always_w;
    if (!any)
        return;
    const double factor = load_w > 0 ? rig->always_w / load_w : 1;
    *most_w = fmax(rig->always_w, high_w * fmax(factor, feeds ? 2 : 1));
    const double low = !feeds ? factor : craft->learned ? 0 : 1;
    rig->always_w = fmin(rig->always_w, least_w * low);
    rig->drag_m2 = fmax(rig->drag_m2 - pare_taught_drag(craft) * drag_m2, LEAST_DRAG_M2);
    rig->drag_top_m2 = 2 * rig->drag_m2;
}

/* Whether a rig draws less, with a little more mass, in some entry of the profile: power falls with mass, then rises, so
 * where it rises it does so from there on. What it cannot fly at all it might with more. */
static bool is_flown_fast(const pare_brief *brief, const pare_rig *rig)
{
    pare_rig heavier = *rig;
    heavier.mass_kg *= A_LITTLE_MORE;
    for (size_t i = 0; i < brief->entries; i++) {
        const pare_flown *entry = &brief->flown[i];
        pare_operating now, then;
        if (entry->as == PARE_FLOWN_SPEED &&
            (pare_rig_level(rig, entry->level, 0.5, &now, NULL) != PARE_OK ||
             (pare_rig_level(&heavier, entry->level, 0.5, &then, NULL) == PARE_OK &&
              then.pack_w < now.pack_w)))
            return true;
    }
    return false;
}

/* By how much open wires may change what is in the pack's and in a motor's way. */
typedef struct wires {
    bool known; /* none can be taken off, brought or end elsewhere */
    double lead_least_ohm, lead_most_ohm, motor_least_ohm, motor_most_ohm;
} wires;

static wires open_wires(const proof_space *space, const proof_state *state)
{
    const pare_craft *craft = state->trial.flown;
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    const int esc = pare_craft_doing(craft, PARE_ESC_ONE); /* each has its part of the current */
    const int plug = pare_craft_doing(craft, PARE_CONNECTOR);
    wires w = {.known = state->built && motor >= 0};
    for (size_t i = 0; i < craft->runs && w.known; i++) {
        const pare_run *run = &craft->run[i];
        const bool lead = run->carries && pare_same_name(run->carries, "pack");
        const bool phase = run->carries && pare_same_name(run->carries, craft->item[motor].name);
        const bool feed =
            run->carries && esc >= 0 && pare_same_name(run->carries, craft->item[esc].name);
        if (!lead && !phase && !feed)
            continue;
        const double degc = phase ? 20 : LEAD_DEGC;
        const double counts = phase  ? 2.0 / 3 / (1 + state->trial.sheet.rig.motor.drive_excess)
                              : lead ? 1
                                     : 1.0 / craft->item[esc].count;
        pare_run short_run, thin_run;
        w.known = proof_run_range(space, state, i, &short_run, &thin_run);
        const double now = pare_run_ohm(run, degc);
        const double least = counts * fmin(pare_run_ohm(&short_run, degc) - now, 0);
        const double most = counts * fmax(pare_run_ohm(&thin_run, degc) - now, 0);
        *(phase ? &w.motor_least_ohm : &w.lead_least_ohm) += least;
        *(phase ? &w.motor_most_ohm : &w.lead_most_ohm) += most;
    }
    if (!proof_done(space, state, BIT(PARE_CONNECTOR))) {
        w.lead_least_ohm -= plug >= 0 ? craft->item[plug].part->spec[PARE_SPEC_RESISTANCE].value
                                      : pare_law_connector_ohm().value;
        w.lead_most_ohm = INFINITY;
    }
    return w;
}

static const pare_part *group_part(const proof_space *space, const proof_state *state,
                                   pare_kind kind)
{
    const int item = pare_craft_doing(state->trial.flown, kind);
    const unsigned char c = item >= 0 ? space->choice_of[item] : PROOF_NONE;
    if (c != PROOF_NONE && !state->built)
        return state->allow[c] == PROOF_ONE ? space->choice[c].option[state->one[c]].part : NULL;
    return item >= 0 ? state->trial.flown->item[item].part : NULL;
}

/* Motor, propeller and pack of a group, put in the places of those that are on: no such craft need be, but its
 * rig is the group's, less what arms hide of the disc. */
static bool put_in_place(const proof_space *space, const proof_state *state, pare_craft *craft,
                         pare_sheet *sheet)
{
    static const pare_kind kinds[] = {PARE_MOTOR, PARE_PROPELLER, PARE_PACK};
    pare_craft_copy(state->trial.flown, craft);
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        const int item = pare_craft_doing(craft, kinds[i]);
        const pare_part *part = group_part(space, state, kinds[i]);
        if (item < 0 || !part)
            return false;
        craft->item[item].part = part;
    }
    if (pare_sheet_weigh(craft, sheet, NULL) != PARE_OK)
        return false;
    sheet->rig.blockage = 0;
    return true;
}

/* Full throttle once more, with other wires and loads. */
static void fly_full(const pare_craft *craft, double lead_ohm, double motor_ohm, double always_w,
                     const pare_sheet *from, pare_sheet *to)
{
    pare_sheet_copy(from, to);
    to->rig.pack.lead_ohm = lead_ohm;
    to->rig.motor.resistance_ohm = motor_ohm;
    to->rig.always_w = always_w;
    to->flown &= ~(unsigned)PARE_FLY_FULL;
    pare_sheet_fly(craft, FIGURE(PARE_FULL_A) | FIGURE(PARE_MOTOR_FULL_A), to);
    pare_sheet_margins_worst(craft, REFUTING, to);
}

void proof_fly(const proof_space *space, proof_room *room, const proof_state *state, int64_t units)
{
    pare_sheet *probe = &room->probe;
    const pare_craft *craft = state->trial.flown;
    double most_w;
    room->flown_sag = room->flown_current = room->flown_fast = false;
    if (state->built) {
        pare_sheet_copy(&state->trial.sheet, probe);
    } else if (!put_in_place(space, state, &room->lightest, probe)) {
        probe->margins = 0;
        return;
    } else {
        craft = &room->lightest;
    }
    pare_rig *rig = &probe->rig;
    rig->mass_kg = proof_least_kg(units);
    if (rig->mass_kg < LEAST_KG) { /* of what may all go nothing follows */
        probe->margins = 0;
        return;
    }
    rig->uneven = 0;
    open_loads(space, state, rig, &most_w);
    const double lead_ohm = rig->pack.lead_ohm, motor_ohm = rig->motor.resistance_ohm;
    const wires w = open_wires(space, state);
    if (w.known) {
        rig->pack.lead_ohm = fmax(lead_ohm + w.lead_least_ohm, 0);
        rig->motor.resistance_ohm = fmax(motor_ohm + w.motor_least_ohm, LEAST_OHM);
    } else {
        rig->pack.lead_ohm = 0;
        rig->motor.resistance_ohm = bare_ohm(rig, group_part(space, state, PARE_MOTOR));
    }
    room->flown_fast = is_flown_fast(&craft->brief, rig);
    if (room->flown_fast)
        rig->drag_top_m2 = rig->drag_m2;
    probe->figure[PARE_ALL_UP].value = rig->mass_kg;
    pare_sheet_fly(craft, pare_margin_figures(craft), probe);
    pare_sheet_margins_worst(craft, REFUTING, probe);
    room->flown_sag = w.known;
    room->flown_current = w.known && isfinite(w.lead_most_ohm);
    if (room->flown_sag)
        fly_full(craft, rig->pack.lead_ohm, motor_ohm + w.motor_most_ohm, rig->always_w, probe,
                 &room->sag);
    if (!room->flown_current)
        return;
    fly_full(craft, lead_ohm + w.lead_most_ohm, motor_ohm + w.motor_most_ohm, most_w, probe,
             &room->full);
    if (most_w > rig->always_w)
        fly_full(craft, lead_ohm + w.lead_most_ohm, motor_ohm + w.motor_most_ohm, rig->always_w,
                 probe, &room->light);
    else
        room->light = room->full;
}

/* ---- which limits refute ---- */

typedef enum refutes { REFUTES_NOT, BY_FLIGHT, BY_SAG, BY_CURRENT } refutes;

/* A limit on the side where mass, drag and resistance make it worse; on the other side nothing is said. */
static refutes by_figure(const proof_state *state, const pare_margin *margin)
{
    switch (pare_figure_of_limit(margin->name + strlen("limit."))) {
    case PARE_ALL_UP:
    case PARE_HOVER_OUTPUT:
    case PARE_HOVER_A:
    case PARE_HOVER_W:
        return margin->at_least ? REFUTES_NOT : BY_FLIGHT;
    case PARE_HOVER_TIME:
    case PARE_CRUISE_TIME:
    case PARE_FLOWN_TIME:
    case PARE_BEST_RANGE:
    case PARE_THRUST_FRESH:
    case PARE_TWR_FRESH:
    case PARE_TWR_HALF:
    case PARE_TWR_LANDING:
    case PARE_TURN:
    case PARE_CLIMB:
    case PARE_TOP_SPEED:
        return margin->at_least ? BY_FLIGHT : REFUTES_NOT;
    case PARE_BURST: /* what spins with the propeller may still change */
        return !margin->at_least && proof_items_done(state) ? BY_FLIGHT : REFUTES_NOT;
    case PARE_FULL_A:
    case PARE_MOTOR_FULL_A:
        return margin->at_least ? REFUTES_NOT : BY_CURRENT;
    default:
        return REFUTES_NOT;
    }
}

/* An item's volts are the pack's, once both are decided and no regulator can come between. */
static refutes by_volts(const proof_space *space, const proof_state *state, const char *item)
{
    const int at = pare_craft_item(state->trial.flown, item);
    if (at < 0)
        return REFUTES_NOT;
    const unsigned char c = space->choice_of[at];
    const pare_kind kind = state->trial.flown->item[at].part->kind;
    if (kind == PARE_MOTOR) /* decided with the group */
        return BY_FLIGHT;
    if (!state->built || (c != PROOF_NONE && proof_open(state, c)) ||
        proof_at_risk(space, state, (size_t)at))
        return REFUTES_NOT;
    return pare_margin_on_pack(kind) || proof_items_done(state) ? BY_FLIGHT : REFUTES_NOT;
}

static refutes refutes_by(const proof_space *space, const proof_state *state,
                          const pare_margin *margin)
{
    const char *name = margin->name;
    if (starts(name, "limit."))
        return by_figure(state, margin);
    if (starts(name, "volts."))
        return by_volts(space, state, name + 6);
    if (starts(name, "volts_low."))
        return by_volts(space, state, name + 10);
    if (pare_same_name(name, "motor.continuous") || pare_same_name(name, "motor.winding") ||
        pare_same_name(name, "pack.heat"))
        return BY_FLIGHT;
    if (pare_same_name(name, "pack.sag"))
        return BY_SAG;
    if (pare_same_name(name, "motor.burst") || pare_same_name(name, "motor.winding_burst") ||
        pare_same_name(name, "arm.stress") || pare_same_name(name, "arm.bends"))
        return BY_CURRENT;
    if (starts(name, "esc.") && !strstr(name, ".spike"))
        return !proof_done(space, state, BIT(PARE_ESC_FOUR)) ? REFUTES_NOT
               : strstr(name, "burst")                       ? BY_CURRENT
                                                             : BY_FLIGHT;
    if (pare_same_name(name, "connector.burst"))
        return proof_done(space, state, BIT(PARE_CONNECTOR)) ? BY_CURRENT : REFUTES_NOT;
    if (!proof_wired(space, state))
        return REFUTES_NOT;
    if (strstr(name, ".spike"))
        return proof_done(space, state, BIT(PARE_ESC_FOUR) | BIT(PARE_CAPACITOR)) ? BY_CURRENT
                                                                                  : REFUTES_NOT;
    if (starts(name, "connector.") && !proof_done(space, state, BIT(PARE_CONNECTOR)))
        return REFUTES_NOT;
    if (pare_same_name(name, "connector.heat_burst"))
        return BY_CURRENT;
    if (starts(name, "connector."))
        return BY_FLIGHT;
    const char *run = starts(name, "wire_") ? strchr(name, '.') : NULL;
    if (!run || !proof_run_done(space, state, run + 1))
        return REFUTES_NOT;
    return starts(name, "wire_joint.") ? BY_FLIGHT : BY_CURRENT;
}

/* What follows from the profile as flown. */
static bool is_of_profile(const char *name)
{
    return !starts(name, "limit.") || strstr(name, "flown") || strstr(name, "landing");
}

static double surely(const proof_room *room, const char *name)
{
    const double fast = room->flown_fast && is_of_profile(name) ? FAST_SURELY : 1;
    if (pare_same_name(name, "limit.thrust_to_weight_landing"))
        return fast * LANDING_SURELY;
    if (pare_same_name(name, "limit.top_speed"))
        return LEANING_SURELY;
    return strstr(name, "heat") || strstr(name, "winding") ? fast * WARMTH_SURELY : fast * SURELY;
}

/* Full throttle in a profile draws more with less in the way: its minutes and currents are then no case for a
 * craft whose wires or loads are open. */
static bool is_flown_full(const proof_state *state, const char *name)
{
    const pare_brief *brief = &state->trial.flown->brief;
    if (!is_of_profile(name) || starts(name, "volts") || proof_items_done(state))
        return false;
    for (size_t i = 0; i < brief->entries; i++)
        if (brief->flown[i].as == PARE_FLOWN_FULL)
            return true;
    return false;
}

static bool is_too_little(const proof_space *space, const proof_room *room,
                          const pare_margin *margin)
{
    return margin->ratio < proof_need(space, margin->name) * surely(room, margin->name);
}

/* @param also  another flight on which it must fail as well; NULL: none */
static const char *fails_on(const proof_space *space, const proof_room *room,
                            const proof_state *state, const pare_sheet *sheet,
                            const pare_sheet *also, refutes by, const char *only, double *ratio)
{
    for (size_t i = 0; i < sheet->margins; i++) {
        const pare_margin *margin = &sheet->margin[i];
        if ((only && !pare_same_name(margin->name, only)) ||
            pare_same_name(margin->name, "limit.margin") || !is_too_little(space, room, margin) ||
            refutes_by(space, state, margin) != by ||
            (by == BY_FLIGHT && is_flown_full(state, margin->name)))
            continue;
        const pare_margin *too = also ? pare_sheet_margin(also, margin->name) : margin;
        if (!too || !is_too_little(space, room, too))
            continue;
        *ratio = margin->ratio;
        return margin->name;
    }
    return NULL;
}

/* Whether something that could be flown cannot: with little in the motors' way, and, for full throttle, where a
 * winding may run away on too little, with much as well. At a speed a craft may be too light to be flown level. */
static bool cannot(const proof_room *room, const proof_state *state, pare_figure figure)
{
    if (room->probe.figure[figure].exists || is_flown_full(state, "flies"))
        return false;
    if (figure == PARE_FLOWN_TIME && room->flown_fast)
        return false;
    return figure != PARE_THRUST_FRESH ||
           (room->flown_current && !room->full.figure[figure].exists);
}

const char *proof_fails(const proof_space *space, proof_room *room, const proof_state *state,
                        const char *only, double *ratio)
{
    if (room->probe.margins == 0)
        return NULL;
    for (size_t i = 0; i < FLIES; i++)
        if ((!only || pare_same_name(only, flies[i].name)) &&
            space->desk->sheet.figure[flies[i].figure].exists &&
            cannot(room, state, flies[i].figure)) {
            *ratio = 0;
            return flies[i].name;
        }
    const char *by = fails_on(space, room, state, &room->probe, NULL, BY_FLIGHT, only, ratio);
    if (!by && room->flown_sag)
        by = fails_on(space, room, state, &room->sag, NULL, BY_SAG, only, ratio);
    if (!by && room->flown_current)
        by = fails_on(space, room, state, &room->full, &room->light, BY_CURRENT, only, ratio);
    return by;
}
