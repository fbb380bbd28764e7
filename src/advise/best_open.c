/* best_open.c: what a state's open choices leave of resistance, load and drag, at either end. */
#include <math.h>

#include "advise/best_met.h"
#include "advise/stand_in.h"
#include "base/text.h"
#include "craft/drag.h"
#include "craft/law.h"
#include "physics/wire.h"

#define BIT(kind) (1u << (kind))
#define LEAD_DEGC 40.0
#define CONTACTS_MOST_OHM                                                                          \
    5e-3                   /* of another connector, beyond this one's: several times a poor one's */
#define REGULATED_MOST 2.0 /* times what it gives, that a regulator takes */
#define PHASE_SLACK_M  0.01 /* of a motor's wires, at most, beyond the way to their board */

/* What the wires of a run may come to, in ohm. */
static best_range run_range(const best_search *search, const best_state *state, size_t index,
                            double degc, bool moved, double gauge)
{
    const pare_craft *craft = state->trial.flown;
    const pare_run *run = &craft->run[index];
    const double now = pare_run_ohm(run, degc);
    best_range range = {now, now};
    if (!state->wires_open)
        return range;
    const pare_run_choices choices = best_run_choices(search, craft, run);
    pare_run other = *run;
    if (choices.gauges > 0)
        other.gauge = choices.gauge[choices.gauges - 1];
    if (gauge > 0)
        other.gauge = gauge;
    range.most = fmax(gauge > 0 ? 0 : now, pare_run_ohm(&other, degc));
    best_run_shortest(search, state, index, moved, &other);
    if (gauge > 0)
        other.gauge = gauge;
    range.least = fmin(gauge > 0 ? range.most : now, pare_run_ohm(&other, degc));
    return range;
}

bool best_kind_open(const best_search *search, const best_state *state, pare_kind kind)
{
    for (size_t s = 0; s < search->slots; s++)
        if (best_open(state, s) &&
            search->desk->loaded.item[search->slot[s].item].part->kind == kind)
            return true;
    return false;
}

/* How long a motor's wires may become by an open choice of boards, once frame and motors are decided: they are made
 * to reach, and boards go where a board is, or to the middle. */
static double phase_most_m(const best_search *search, const best_state *state, const pare_run *run)
{
    const unsigned boards = BIT(PARE_ESC_FOUR) | BIT(PARE_ESC_ONE) | BIT(PARE_FLIGHT_CONTROLLER);
    const pare_craft *craft = state->trial.flown;
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    if (motor < 0)
        return 0;
    const pare_vec3 at_m = pare_item_station(craft, &craft->item[motor], 0);
    double most_m = hypot(at_m.x, at_m.y);
    for (size_t i = 0; i < craft->items; i++) {
        const unsigned char slot = search->slot_of[i];
        const unsigned work =
            pare_work_of(craft->item[i].part) | (slot != BEST_NONE ? search->slot[slot].work : 0);
        const pare_vec3 board_m = pare_item_station(craft, &craft->item[i], 0);
        if (work & boards)
            most_m = fmax(most_m, hypot(at_m.x - board_m.x, at_m.y - board_m.y));
    }
    return fmax(most_m + PHASE_SLACK_M, run->needed_m);
}

/* The thinnest that a run may be, lengthened as far as that. */
static double longest_ohm(const best_search *search, const pare_craft *craft, const pare_run *run,
                          double gauge, double length_m, double degc)
{
    const pare_run_choices choices = best_run_choices(search, craft, run);
    pare_run longest = *run;
    if (gauge > 0)
        longest.gauge = gauge;
    else if (choices.gauges > 0)
        longest.gauge = fmax(run->gauge, choices.gauge[choices.gauges - 1]);
    for (size_t i = 0; i < longest.ways; i++)
        longest.way_m[i] = fmax(longest.way_m[i], length_m);
    return pare_run_ohm(&longest, degc);
}

/* What wires to ESCs at the arms may come to, where an open choice may bring them: a pair to each. */
static double feeds_most_ohm(const best_search *search, const pare_craft *craft)
{
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    return motor < 0
               ? 0
               : 2 * search->longest_phase_m * pare_wire_ohm_per_m(BEST_THINNEST_GAUGE, LEAD_DEGC) /
                     craft->item[motor].count;
}

/* @param gauge  of runs by their place, where it is settled; 0: open. NULL: all are open */
best_open_ohm best_open_wires(const best_search *search, const best_state *state,
                              const double gauge[])
{
    const pare_craft *craft = state->trial.flown;
    const bool moved = best_any_moves(search, state);
    const uint64_t brings = best_brings(search, state);
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    const int esc = pare_craft_doing(craft, PARE_ESC_ONE); /* each takes its part of the current */
    best_open_ohm w = {{0, 0}, {0, 0}};
    if (state->wires_open && best_kind_open(search, state, PARE_CONNECTOR)) {
        const int connector = pare_craft_doing(craft, PARE_CONNECTOR);
        w.lead_ohm.least -= connector >= 0
                                ? craft->item[connector].part->spec[PARE_SPEC_RESISTANCE].value
                                : pare_law_connector_ohm().value;
        w.lead_ohm.most += CONTACTS_MOST_OHM;
    }
    if (moved && esc < 0)
        w.lead_ohm.most += feeds_most_ohm(search, craft);
    for (size_t i = 0; i < craft->runs; i++) {
        const char *carries = craft->run[i].carries;
        if (!carries)
            continue;
        const bool lead = pare_same_name(carries, "pack");
        const bool phase = motor >= 0 && pare_same_name(carries, craft->item[motor].name);
        const bool of_esc = esc >= 0 && pare_same_name(carries, craft->item[esc].name);
        if (!lead && !phase && !of_esc)
            continue;
        const double degc = phase ? 20 : LEAD_DEGC;
        const double counts = lead ? 1 : phase ? 2.0 / 3 : 1.0 / craft->item[esc].count;
        const double now = pare_run_ohm(&craft->run[i], degc);
        best_range range = run_range(search, state, i, degc, moved, gauge ? gauge[i] : 0);
        const best_brought *brought =
            best_is_brought(search, brings, craft->run[i].name, craft->run[i].included_in);
        if (brought || (moved && !lead))
            range.least = 0;
        if (brought)
            range.most = fmax(range.most, (double)craft->run[i].ways * brought->longest_m *
                                              pare_wire_ohm_per_m(BEST_THINNEST_GAUGE, degc));
        if (moved && phase && best_arms_decided(search, state))
            range.most =
                fmax(range.most, longest_ohm(search, craft, &craft->run[i], gauge ? gauge[i] : 0,
                                             phase_most_m(search, state, &craft->run[i]), degc));
        else if (moved)
            range.most *= BEST_LONGER;
        best_range *change = phase ? &w.phase_ohm : &w.lead_ohm;
        change->least += (range.least - now) * counts;
        change->most += (range.most - now) * counts;
    }
    return w;
}

/* The most that electronics may draw, where open choices or what they take along may be others. */
double best_heaviest_load_w(const best_search *search, const best_state *state)
{
    const pare_craft *craft = state->trial.flown;
    const double always_w = state->trial.sheet.rig.always_w;
    double load_w = 0, high_w = 0;
    bool feeds = false, any = false;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        const unsigned char slot = search->slot_of[i];
        const double own_w = item->off ? 0 : item->count * item->part->spec[PARE_SPEC_POWER].value;
        const bool open = slot != BEST_NONE && best_open(state, slot);
        load_w += own_w;
        high_w += open ? fmax(search->slot[slot].power_most_w, own_w) : own_w;
        feeds = feeds || (open && search->slot[slot].feeds);
        any = any || open;
    }
    const double factor = load_w > 0 ? always_w / load_w : 1;
    return any ? fmax(always_w, high_w * fmax(factor, feeds ? REGULATED_MOST : 1)) : always_w;
}

/* The least that electronics may draw, and the least drag. */
void best_lighten_load(const best_search *search, const best_state *state, pare_rig *rig)
{
    const pare_craft *craft = state->trial.flown;
    double load_w = 0, least_w = 0, drag_m2 = 0;
    bool feeds = false;
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        if (item->off)
            continue;
        const double own_w = item->count * item->part->spec[PARE_SPEC_POWER].value;
        const unsigned char slot = search->slot_of[i];
        load_w += own_w;
        if (slot == BEST_NONE || !best_open(state, slot)) {
            /* A choice that is still open may take this one down with it. */
            bool dragged = false;
            for (size_t s = 0; s < search->slots; s++)
                dragged = dragged ||
                          (best_open(state, s) && (best_drags(search, state, s) &
                                                   (BIT(item->part->kind) | item->part->does)));
            least_w += dragged ? 0 : own_w;
            drag_m2 += dragged ? pare_item_drag_m2(item) : 0;
            continue;
        }
        least_w += fmin(search->slot[slot].power_w, own_w);
        drag_m2 += pare_item_drag_m2(item);
        feeds = feeds || search->slot[slot].feeds;
    }
    const double drawn = feeds || !(load_w > 0)
                             ? pare_taught_always(craft) / search->efficiency_most
                             : rig->always_w / load_w;
    rig->always_w = fmin(rig->always_w, drawn * least_w);
    rig->drag_m2 = fmax(rig->drag_m2 - pare_taught_drag(craft) * drag_m2, 1e-5);
    rig->drag_top_m2 = 2 * rig->drag_m2;
}
