/* best_met.c: whether a craft does its job, and whether none of a state's can.
 *
 * The rule. Every limit of the brief holds. A rating that holds on the craft as it is holds after; one that
 * is broken now is no worse. Crash estimates, whose force is a guess but whose ratio to another craft's is
 * not, are no worse than now: the craft as it is is the one that is known to survive. Only where they hold
 * tenfold, as in a stop within 3 mm and not 30, does it not matter how much more they held. A rating that
 * the craft had no need of before holds. Where the brief asks a margin of all ratings, each has that. And what
 * could be flown can be flown.
 *
 * The refutation. A state's flight is worked out at the least mass that may become of it, with rotors that
 * carry no less unevenly than any set's, with the least load and drag that its open choices leave. Thrust and minutes only
 * fall with the resistance of leads and phase wires, currents at full throttle only rise without it: where
 * the wires are open each is asked at the end that flatters it. What then still fails, fails below.
 *
 * Three things are not so. What electronics draw adds to the pack's current at full throttle and, by the pack's
 * sag, takes from the motors': a current refutes where it is too much with the least load and with the most.
 * A winding may run away at full throttle with too little in its way, and live with more: that a craft
 * cannot be flown so is asked at both ends. And an entry of the profile that is held at full throttle draws more
 * with less in the way: then the minutes, and what warms in them, refute nothing before items and wires are
 * decided. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/best_inside.h"
#include "advise/stand_in.h"
#include "base/text.h"
#include "craft/drag.h"
#include "craft/flight.h"
#include "craft/holding.h"
#include "craft/law.h"
#include "craft/margin.h"
#include "physics/wire.h"

#define BIT(kind)    (1u << (kind))
#define FIGURE(f)    ((pare_figures)1 << (f))
#define LEAD_DEGC    40.0
#define TENFOLD      10.0       /* what a crash estimate need not be better than: see above */
#define NEARLY       (1 - 1e-9) /* of a ratio: rounding breaks nothing */
#define SURELY       (1 - 1e-6) /* what a bound must fail by: the solvers' own tolerance */
#define HEAT_SURELY  0.9  /* a lighter craft lands later, and may warm its pack a little more */
#define LANDS_SURELY 0.95 /* a lighter craft lands with less in its pack, so with less thrust */
#define LEANS_SURELY                                                                               \
    0.9 /* a heavier craft leans less, has less of its drag from above, and is faster */
#define FAST_SURELY 0.99 /* what a profile is flown fast must fail by: see is_flown_fast() */
#define CONTACTS_MOST_OHM                                                                          \
    5e-3                   /* of another connector, beyond this one's: several times a poor one's */
#define REGULATED_MOST 2.0 /* times what it gives, that a regulator takes */
#define LONGER         4.0 /* wires that another sort of ESC asks for */
#define PHASE_SLACK_M  0.01 /* of a motor's wires, at most, beyond the way to their board */

#define A_LITTLE_MORE     1.01 /* mass */
#define THINNEST_GAUGE    30.0
#define SHORTEST_ENTERS_M 2e-4 /* below, the margin counts with a least */

enum {
    HEAVIEST_PARTS = 256,
    GAUGES_MOST = 27 /* three runs in three gauges each */
};

static const char *const flies[] = {"hover", "minutes as flown", "full throttle"};
static const pare_figure must_exist[] = {PARE_HOVER_OUTPUT, PARE_FLOWN_TIME, PARE_THRUST_FRESH};

/* ---- the rule ---- */

static bool is_limit(const char *name)
{
    return strncmp(name, "limit.", 6) == 0;
}

static bool is_crash(const char *name)
{
    return strncmp(name, "joint_crash.", 12) == 0;
}

static double eased(const pare_best_ask *ask, const char *name)
{
    for (size_t i = 0; ask && i < ask->eases; i++)
        if (strcmp(ask->ease[i].name, name) == 0)
            return ask->ease[i].share;
    return 1;
}

static double need(const pare_best_ask *ask, const pare_sheet *before, double margin_least,
                   const char *name)
{
    if (is_limit(name))
        return 1;
    const pare_margin *was = pare_sheet_margin(before, name);
    const double share = eased(ask, name);
    if (is_crash(name))
        return share * (was ? fmin(was->ratio, TENFOLD) : 1);
    const double holds = was && was->ratio < 1 ? was->ratio : 1;
    return share * (holds > margin_least ? holds : margin_least);
}

double best_need(const best_search *search, const char *name)
{
    return need(search->ask, &search->desk->sheet, search->margin_least, name);
}

static double margin_of_brief(const pare_brief *brief)
{
    const pare_limit *limit = pare_brief_limit(brief, "margin");
    return limit ? limit->value : 0;
}

static bool refuse(char by[48], const char *name)
{
    const size_t length = strnlen(name, 47);
    if (by) {
        memcpy(by, name, length);
        by[length] = '\0';
    }
    return false;
}

void best_limit_name(char name[48], const char *key)
{
    char whole[64];
    snprintf(whole, sizeof whole, "limit.%.40s", key);
    (void)refuse(name, whole);
}

/* @param on_the_way  what does not reach its need yet may wait, as long as it is no worse than it was */
static bool meets(const pare_best_ask *ask, const pare_craft *craft, const pare_sheet *before,
                  const pare_sheet *after, bool on_the_way, char refuses[48])
{
    const double least = margin_of_brief(&craft->brief);
    for (size_t i = 0; i < sizeof must_exist / sizeof must_exist[0]; i++)
        if (before->figure[must_exist[i]].exists && !after->figure[must_exist[i]].exists)
            return refuse(refuses, flies[i]);
    for (size_t i = 0; i < after->margins; i++) {
        const pare_margin *margin = &after->margin[i];
        if (strcmp(margin->name, "limit.margin") == 0)
            continue; /* each rating is held against it by itself */
        const pare_margin *was = on_the_way ? pare_sheet_margin(before, margin->name) : NULL;
        const double needs = need(ask, before, least, margin->name);
        if (!(margin->ratio >= (was ? fmin(needs, was->ratio) : needs) * NEARLY))
            return refuse(refuses, margin->name);
    }
    return true;
}

bool pare_best_meets(const pare_best_ask *ask, const pare_craft *craft, const pare_sheet *before,
                     const pare_sheet *after, char refuses[48])
{
    return meets(ask, craft, before, after, false, refuses);
}

bool pare_best_keeps(const pare_craft *craft, const pare_sheet *before, const pare_sheet *after)
{
    return meets(NULL, craft, before, after, true, NULL);
}

void best_count(size_t *limits, pare_best_limit limit[PARE_BEST_LIMITS], const char *name,
                size_t more)
{
    size_t at = 0;
    while (at < *limits && strcmp(limit[at].name, name) != 0)
        at++;
    if (at == PARE_BEST_LIMITS)
        return;
    if (at == *limits) {
        (*limits)++;
        limit[at].groups = 0;
        (void)refuse(limit[at].name, name);
    }
    limit[at].groups += more;
}

/* ---- what open choices leave ---- */

typedef struct open_range {
    double least, most;
} open_range;

/* What the wires of a run may come to, in ohm. */
static open_range run_range(const best_search *search, const best_state *state, size_t index,
                            double degc, bool moved, double gauge)
{
    const pare_craft *craft = state->trial.flown;
    const pare_run *run = &craft->run[index];
    const double now = pare_run_ohm(run, degc);
    open_range range = {now, now};
    if (!state->wires_open)
        return range;
    const pare_run_choices choices = pare_run_choices_of(craft, run);
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

typedef struct wires {
    open_range lead_ohm, phase_ohm; /* as a change against now */
} wires;

static bool kind_is_open(const best_search *search, const best_state *state, pare_kind kind)
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
static double longest_ohm(const pare_craft *craft, const pare_run *run, double gauge,
                          double length_m, double degc)
{
    const pare_run_choices choices = pare_run_choices_of(craft, run);
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
               : 2 * search->longest_phase_m * pare_wire_ohm_per_m(THINNEST_GAUGE, LEAD_DEGC) /
                     craft->item[motor].count;
}

/* @param gauge  of runs by their place, where it is settled; 0: open. NULL: all are open */
static wires open_wires(const best_search *search, const best_state *state, const double gauge[])
{
    const pare_craft *craft = state->trial.flown;
    const bool moved = best_any_moves(search, state);
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    const int esc = pare_craft_doing(craft, PARE_ESC_ONE); /* each takes its part of the current */
    wires w = {{0, 0}, {0, 0}};
    if (state->wires_open && kind_is_open(search, state, PARE_CONNECTOR)) {
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
        open_range range = run_range(search, state, i, degc, moved, gauge ? gauge[i] : 0);
        if (moved && !lead)
            range.least = 0;
        if (moved && phase && best_arms_decided(search, state))
            range.most =
                fmax(range.most, longest_ohm(craft, &craft->run[i], gauge ? gauge[i] : 0,
                                             phase_most_m(search, state, &craft->run[i]), degc));
        else if (moved)
            range.most *= LONGER;
        open_range *change = phase ? &w.phase_ohm : &w.lead_ohm;
        change->least += (range.least - now) * counts;
        change->most += (range.most - now) * counts;
    }
    return w;
}

/* The most that electronics may draw, where open choices or what they take along may be others. */
static double heaviest_load_w(const best_search *search, const best_state *state)
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
static void lighten_load(const best_search *search, const best_state *state, pare_rig *rig)
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

/* ---- which limits a flattering flight can refute ---- */

typedef enum ask { ASK_NOT, ASK_THRUST, ASK_CURRENT, ASK_SAG } ask;

/* A limit on the side where mass, load, drag and resistance make it worse. On the other side a lighter craft may
 * fail what a heavier one meets. */
static ask ask_of_figure(int figure, bool at_least)
{
    switch (figure) {
    case PARE_ALL_UP:
    case PARE_HOVER_OUTPUT:
    case PARE_HOVER_A:
    case PARE_HOVER_W:
    case PARE_BURST:
    case PARE_CRASH:
        return at_least ? ASK_NOT : ASK_THRUST;
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
        return at_least ? ASK_THRUST : ASK_NOT;
    case PARE_FULL_A:
    case PARE_MOTOR_FULL_A:
        return at_least ? ASK_NOT : ASK_CURRENT;
    default:
        return ASK_NOT;
    }
}

bool best_is_flattered(int figure, bool at_least)
{
    return ask_of_figure(figure, at_least) == ASK_THRUST;
}

static bool starts(const char *name, const char *with)
{
    return strncmp(name, with, strlen(with)) == 0;
}

/* Whether an open choice may be another board of the sorts that decide. */
static bool boards_open(const best_search *search, const best_state *state)
{
    for (size_t s = 0; s < search->slots; s++) {
        const pare_part *part = search->desk->loaded.item[search->slot[s].item].part;
        if (best_open(state, s) &&
            (search->slot[s].feeds || (pare_work_of(part) & BIT(PARE_ESC_FOUR))))
            return true;
    }
    return false;
}

/* Whether an open choice may yet be what drives the motors, or bring it. */
static bool escs_open(const best_search *search, const best_state *state)
{
    for (size_t s = 0; s < search->slots; s++) {
        const best_slot *slot = &search->slot[s];
        if (best_open(state, s) &&
            ((state->calm >> s & 1 ? slot->work_calm : slot->work) & BIT(PARE_ESC_FOUR)))
            return true;
    }
    return false;
}

/* An item's volts are settled with the item, and where a regulator may come between, with those. */
static ask ask_of_volts(const best_search *search, const best_state *state, const char *item)
{
    const int index = pare_craft_item(state->trial.flown, item);
    if (index < 0)
        return ASK_NOT;
    const unsigned char slot = search->slot_of[index];
    if (slot != BEST_NONE && best_open(state, slot))
        return ASK_NOT;
    const pare_part *part = state->trial.flown->item[index].part;
    if (part->kind == PARE_MOTOR ||
        (pare_margin_on_pack(part->kind) && !best_is_dragged(search, state, part)))
        return ASK_THRUST;
    return boards_open(search, state) ? ASK_NOT : ASK_THRUST;
}

static ask ask_of(const best_search *search, const best_state *state, const pare_margin *margin)
{
    const char *name = margin->name;
    if (is_limit(name))
        return ask_of_figure(pare_figure_of_limit(name + strlen("limit.")), margin->at_least);
    if (strstr(name, ".spike"))
        return state->wires_open || escs_open(search, state) ||
                       kind_is_open(search, state, PARE_CAPACITOR)
                   ? ASK_NOT
                   : ASK_CURRENT;
    if (starts(name, "esc."))
        return escs_open(search, state) ? ASK_NOT
               : strstr(name, "burst")  ? ASK_CURRENT
                                        : ASK_THRUST;
    if (strcmp(name, "motor.burst") == 0 || strcmp(name, "motor.winding_burst") == 0 ||
        strcmp(name, "arm.stress") == 0 || strcmp(name, "arm.bends") == 0)
        return ASK_CURRENT;
    if (strcmp(name, "motor.continuous") == 0 || strcmp(name, "motor.winding") == 0 ||
        strcmp(name, "pack.heat") == 0)
        return ASK_THRUST;
    if (strcmp(name, "pack.sag") == 0)
        return ASK_SAG;
    if (starts(name, "volts."))
        return ask_of_volts(search, state, name + 6);
    if (starts(name, "volts_low."))
        return ask_of_volts(search, state, name + 10);
    if (starts(name, "connector.") && !state->wires_open &&
        !kind_is_open(search, state, PARE_CONNECTOR))
        return strcmp(name, "connector.heat_burst") == 0 ? ASK_CURRENT : ASK_THRUST;
    if (starts(name, "wire_") && !state->wires_open)
        return strncmp(name, "wire_joint.", 11) == 0 ? ASK_THRUST : ASK_CURRENT;
    return ASK_NOT;
}

/* Only its screws, coax and signal wires are open. */
static bool is_settled(const best_state *state)
{
    return state->open == 0 && !state->wires_open;
}

bool best_is_held_full(const best_state *state)
{
    const pare_brief *brief = &state->trial.flown->brief;
    if (is_settled(state))
        return false;
    for (size_t i = 0; i < brief->entries; i++)
        if (brief->flown[i].as == PARE_FLOWN_FULL)
            return true;
    return false;
}

/* What the whole profile decides: the minutes, the pack left at their end, and what warms. */
static bool is_of_profile(const char *name)
{
    if (is_limit(name))
        return strstr(name, "flown") != NULL || strstr(name, "landing") != NULL;
    return !starts(name, "volts");
}

/* What settles at the rms of the profile, whatever comes on top. */
static bool warms_in_flight(const char *name)
{
    return starts(name, "connector.") || starts(name, "wire_") || strstr(name, "heat") ||
           strstr(name, "winding");
}

/* @param fast  the probe's profile was flown so */
static double surely(const char *name, bool fast)
{
    const double flown = fast && is_of_profile(name) ? FAST_SURELY : 1;
    if (strcmp(name, "limit.thrust_to_weight_landing") == 0)
        return flown * LANDS_SURELY;
    if (strcmp(name, "limit.top_speed") == 0)
        return LEANS_SURELY;
    const bool of_wires = starts(name, "connector."); /* in still air */
    const bool warms = !of_wires && (strstr(name, "heat") || strstr(name, "winding"));
    return flown * (warms ? HEAT_SURELY : SURELY);
}

/* The kinds of margins of which ask_of() asks one or another. Screws are asked by screws_fail(). */
static unsigned kinds_asked(const best_search *search, const best_state *state)
{
    const bool escs = escs_open(search, state);
    return PARE_MARGINS_BRIEF | PARE_MARGINS_RATED | PARE_MARGINS_POWER | PARE_MARGINS_ARMS |
           (escs ? 0 : PARE_MARGINS_BOARD) | (escs || state->wires_open ? 0 : PARE_MARGINS_SPIKES) |
           (state->wires_open ? 0 : PARE_MARGINS_WIRES);
}

static void find_margins(const best_search *search, const best_state *state, pare_sheet *probe)
{
    pare_sheet_margins_worst(state->trial.flown, kinds_asked(search, state), probe);
}

static bool refuted_by(const best_search *search, const best_state *state, const pare_sheet *probe,
                       ask asked, bool fast, char by[48])
{
    const bool held_full = best_is_held_full(state);
    for (size_t i = 0; i < probe->margins; i++) {
        const pare_margin *margin = &probe->margin[i];
        if (margin->ratio >= 1 && !is_crash(margin->name) && search->margin_least <= 1)
            break; /* worst first: none behind it fails */
        if (strcmp(margin->name, "limit.margin") == 0 || is_crash(margin->name) ||
            ask_of(search, state, margin) != asked ||
            (held_full &&
             (asked == ASK_THRUST ? is_of_profile(margin->name) : warms_in_flight(margin->name))) ||
            margin->ratio >= best_need(search, margin->name) * surely(margin->name, fast))
            continue;
        (void)refuse(by, margin->name);
        return true;
    }
    return false;
}

/* ---- screws ---- */

/* Neither into a motor's winding nor with too little thread. Where there are washers their number, which may
 * change, counts too. */
static bool is_of_length(const best_search *search, const pare_craft *craft,
                         const pare_joint *joint, char by[48])
{
    char name[64];
    const double enters_m = pare_joint_enters_m(craft, joint);
    const double depth_m = pare_joint_depth_m(craft, joint).value;
    if (!pare_is_screw(joint->standard) || !(enters_m > SHORTEST_ENTERS_M) ||
        pare_joint_washers(craft, joint))
        return true;
    snprintf(name, 48, "screw_depth.%s", joint->name);
    if (depth_m > 0 && depth_m / enters_m < best_need(search, name) * SURELY)
        return refuse(by, name);
    snprintf(name, 48, "screw_grip.%s", joint->name);
    if (joint->into && enters_m / pare_joint_least_m(joint) < best_need(search, name) * SURELY)
        return refuse(by, name);
    return true;
}

bool best_screws_hold(const best_search *search, const pare_craft *lightest,
                      const pare_sheet *flown, const pare_joint *joint, char by[48])
{
    char name[64];
    pare_holding h;
    if (!is_of_length(search, lightest, joint, by))
        return false;
    if (pare_craft_holding(lightest, flown, joint, pare_brief_crash_m_s(&lightest->brief), &h,
                           NULL) != PARE_OK)
        return true; /* it has no margin: nothing is known to compare */
    const struct {
        const char *what;
        double ratio;
    } tests[] = {{"joint_flight.", pare_holding_ratio(&h, &h.flight)},
                 {"joint_crash.", pare_holding_ratio(&h, &h.crash)}};
    for (size_t i = 0; i < sizeof tests / sizeof tests[0]; i++) {
        snprintf(name, 48, "%s%s", tests[i].what, joint->name);
        if (isfinite(tests[i].ratio) && !(tests[i].ratio >= best_need(search, name) * NEARLY))
            return refuse(by, name);
    }
    return true;
}

/* What one ask of a joint's ways needs. */
typedef struct screws_ask {
    const best_search *search;
    const pare_craft *lightest;
    const pare_sheet *flown;
    char *by;
} screws_ask;

static bool holds(void *context, const pare_joint *joint)
{
    const screws_ask *of = context;
    return best_screws_hold(of->search, of->lightest, of->flown, joint, of->by);
}

static bool screws_fail(const best_search *search, const best_state *state, const pare_sheet *probe,
                        pare_craft *lightest, char by[48])
{
    screws_ask asked = {search, lightest, probe, by};
    if (!state->tail_open)
        return false;
    best_lightest(search, state, lightest);
    for (size_t i = 0; i < state->trial.flown->joints; i++)
        if (best_joint_stands(search, state, i) &&
            !best_screws_hold(search, lightest, probe, &state->trial.flown->joint[i], by) &&
            best_joint_least_of(state->trial.flown, i, holds, &asked) == BEST_NO_BOUND)
            return true;
    return false;
}

/* ---- */

/* What two phases of a motor's own wires have, at lengths and gauges as given. */
static double phases_ohm(const pare_part *motor, double least_length_m, bool thinnest)
{
    double ohm = 0;
    for (size_t i = 0; i < motor->includes; i++) {
        const pare_include *in = &motor->include[i];
        if (in->what != PARE_INCLUDES_RUN || !(in->gauge > 0))
            continue;
        const double gauge =
            thinnest ? fmin(2 * ceil((in->gauge + 0.5) / 2) + 2, THINNEST_GAUGE) : in->gauge;
        ohm += in->count * fmax(in->length_m, least_length_m) *
               pare_wire_ohm_per_m(fmax(gauge, in->gauge), 20);
    }
    return ohm * 2 / 3;
}

double best_bare_ohm(const pare_part *motor, const pare_rig *rig)
{
    const double stated = motor->spec[PARE_SPEC_RESISTANCE].value;
    const double now = fmin(stated, rig->motor.resistance_ohm);
    return fmax(now - phases_ohm(motor, 0, false), 1e-4);
}

/* Another gauge that the craft's own wires have been given stays when a motor changes. */
static double cut_wires_ohm(const best_state *state, const char *motor)
{
    double ohm = 0;
    for (size_t i = 0; i < state->trial.flown->runs; i++) {
        const pare_run *run = &state->trial.flown->run[i];
        if (run->carries && pare_same_name(run->carries, motor))
            ohm += LONGER * pare_run_ohm(run, 20) * 2 / 3;
    }
    return ohm;
}

/* Flies full throttle anew, with what has been changed on a probe's rig. */
static void refly_full(const best_search *search, const best_state *state, pare_sheet *probe)
{
    probe->flown &= ~(unsigned)(PARE_FLY_FULL);
    pare_sheet_fly(state->trial.flown, FIGURE(PARE_FULL_A) | FIGURE(PARE_MOTOR_FULL_A), probe);
    find_margins(search, state, probe);
}

/* The thinnest and longest of wires at a rough state's bare motors. */
static void add_thinnest_wires(const best_search *search, const best_state *state,
                               pare_sheet *probe)
{
    const int motor = pare_craft_doing(state->trial.flown, PARE_MOTOR);
    if (motor < 0)
        return;
    const pare_item *item = &state->trial.flown->item[motor];
    probe->rig.motor.resistance_ohm += fmax(phases_ohm(item->part, search->longest_phase_m, true),
                                            cut_wires_ohm(state, item->name));
}

/* A rough state's pack under full throttle: with no lead, and the thinnest of wires at the motors. */
static bool sags_roughly(const best_search *search, const best_state *state, pare_sheet *probe,
                         char by[48])
{
    if (pare_craft_doing(state->trial.flown, PARE_MOTOR) < 0)
        return false;
    add_thinnest_wires(search, state, probe);
    refly_full(search, state, probe);
    return refuted_by(search, state, probe, ASK_SAG, false, by);
}

/* Whether a rig draws less, with a little more mass, in some entry of its profile. At a speed well beyond that of its
 * best range a heavier craft leans less and has less of its drag from above; the power falls with mass, then rises.
 * What cannot be flown at all might be with more. */
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

/* Makes a probe of the state at a mass, with the least load and the wires that flatter thrust. A profile that is
 * flown fast is flown with no more drag from above than from ahead: that is monotone to a few thousandths.
 * @return whether it is */
static bool flatter(const best_search *search, const best_state *state, wires w, int64_t least,
                    pare_sheet *probe)
{
    pare_sheet_copy(&state->trial.sheet, probe);
    pare_rig *rig = &probe->rig;
    rig->mass_kg = best_least_kg(least);
    rig->uneven = state->uneven_least;
    lighten_load(search, state, rig);
    probe->figure[PARE_ALL_UP].value = rig->mass_kg;
    if (!state->rough) {
        const double bent = 1 + rig->motor.drive_excess;
        rig->pack.lead_ohm = fmax(rig->pack.lead_ohm + w.lead_ohm.least, 0);
        rig->motor.resistance_ohm =
            fmax(rig->motor.resistance_ohm + w.phase_ohm.least / bent, 1e-4);
    }
    const bool fast = is_flown_fast(&state->trial.flown->brief, rig);
    if (fast)
        rig->drag_top_m2 = rig->drag_m2;
    return fast;
}

double best_raised_value(const best_search *search, const pare_sheet *sheet)
{
    const pare_best_raised *raised = search->ask->raised;
    double least = HUGE_VAL;
    for (int i = 0; raised && i < 2 && raised->figure[i] >= 0; i++) {
        const pare_sheet_figure *figure = &sheet->figure[raised->figure[i]];
        least = fmin(least, figure->exists ? figure->value : 0);
    }
    return raised ? least : 0;
}

double best_promise(const best_search *search, const best_state *state, pare_sheet *probe)
{
    const pare_best_raised *raised = search->ask->raised;
    double most = HUGE_VAL;
    if (state->rough)
        return most;
    const bool fast = flatter(search, state, open_wires(search, state, NULL), state->least, probe);
    for (int i = 0; i < 2 && raised->figure[i] >= 0; i++) {
        const pare_figure figure = (pare_figure)raised->figure[i];
        if (ask_of_figure(raised->figure[i], true) != ASK_THRUST ||
            (figure == PARE_FLOWN_TIME && best_is_held_full(state)))
            continue;
        pare_sheet_fly(state->trial.flown, FIGURE(figure), probe);
        const double sure = fast && figure == PARE_FLOWN_TIME ? FAST_SURELY : SURELY;
        most = fmin(most, probe->figure[figure].exists ? probe->figure[figure].value / sure
                          : fast                       ? HUGE_VAL
                                                       : 0);
    }
    return most;
}

/* Flies full throttle with another load and more resistance than the state's own craft has. */
static void fly_full(const best_search *search, const best_state *state, double load_w,
                     double lead_more_ohm, double phase_more_ohm, pare_sheet *probe)
{
    const pare_rig *own = &state->trial.sheet.rig;
    pare_rig *rig = &probe->rig;
    const double bent = 1 + own->motor.drive_excess;
    rig->always_w = load_w;
    rig->pack.lead_ohm = fmax(own->pack.lead_ohm + lead_more_ohm, 0);
    rig->motor.resistance_ohm = fmax(own->motor.resistance_ohm + phase_more_ohm / bent, 1e-4);
    refly_full(search, state, probe);
}

/* Too much current with the least load, which the probe has been flown with, and with the most. */
static bool draws_too_much(const best_search *search, const best_state *state, wires w,
                           pare_sheet *probe, bool fast, char by[48])
{
    const double least_w = probe->rig.always_w, most_w = heaviest_load_w(search, state);
    char least_by[48];
    if (!refuted_by(search, state, probe, ASK_CURRENT, fast, least_by))
        return false;
    if (most_w > least_w) {
        fly_full(search, state, most_w, w.lead_ohm.most, w.phase_ohm.most, probe);
        const pare_margin *still = pare_sheet_margin(probe, least_by);
        if (!still || still->ratio >= best_need(search, least_by) * surely(least_by, fast))
            return false;
    }
    (void)refuse(by, least_by);
    return true;
}

/* What cannot be flown with little in the motors' way: at full throttle, with much in it neither. Changes what the
 * probe flies with. */
static bool cannot_fly(const best_search *search, const best_state *state, wires w,
                       pare_sheet *probe, bool fast, pare_figure figure)
{
    if (figure == PARE_FLOWN_TIME)
        return !fast && !best_is_held_full(state);
    if (figure != PARE_THRUST_FRESH)
        return true;
    if (state->rough) {
        add_thinnest_wires(search, state, probe);
        refly_full(search, state, probe);
    } else {
        fly_full(search, state, probe->rig.always_w, w.lead_ohm.most, w.phase_ohm.most, probe);
    }
    return !probe->figure[figure].exists;
}

/* ---- boards that get too hot ---- */

static const char *const board_heats[] = {"esc.heat", "esc.heat_burst"};

static bool is_board_hot(const best_search *search, const pare_sheet *probe, bool fast, char by[48])
{
    for (size_t i = 0; i < sizeof board_heats / sizeof board_heats[0]; i++) {
        const pare_margin *margin = pare_sheet_margin(probe, board_heats[i]);
        const double surely = fast ? FAST_SURELY : SURELY;
        if (margin && margin->ratio < best_need(search, board_heats[i]) * surely) {
            (void)refuse(by, board_heats[i]);
            return true;
        }
    }
    return false;
}

/* Finds the most that a state's craft may weigh and still have the thrust, and the minutes. */
static void find_heaviest(const best_search *search, best_state *state, wires w, pare_sheet *probe)
{
    char by[48];
    int64_t holds = state->least, fails = 2 * state->least;
    for (bool first = true; fails - holds > state->least / HEAVIEST_PARTS; first = false) {
        const int64_t middle = first ? fails : holds + (fails - holds) / 2;
        const bool fast = flatter(search, state, w, middle, probe);
        pare_sheet_fly(state->trial.flown, pare_margin_figures(state->trial.flown), probe);
        find_margins(search, state, probe);
        const bool fail = refuted_by(search, state, probe, ASK_THRUST, fast, by);
        if (first && !fail)
            return;
        *(fail ? &fails : &holds) = middle;
    }
    state->most = fails < state->most ? fails : state->most;
}

/* A heavier craft draws more, and its rotors blow more air on the board: so a board is held against the current of
 * the lightest that a set may be and the air of the heaviest.
 * @param probe  flown at the least mass
 * @param fast   its profile was flown so */
static bool gets_too_hot(const best_search *search, best_state *state, wires w, int64_t least,
                         pare_sheet *probe, bool fast, char by[48])
{
    if (escs_open(search, state) || best_is_held_full(state) ||
        !is_board_hot(search, probe, fast, by))
        return false;
    if (state->most == BEST_NO_BOUND)
        find_heaviest(search, state, w, probe);
    if (state->most == BEST_NO_BOUND)
        return false;
    (void)flatter(search, state, w, least, probe);
    const double load_w = heaviest_load_w(search, state);
    pare_sheet_fly(state->trial.flown, pare_margin_figures(state->trial.flown), probe);
    probe->rig.mass_kg = best_most_kg(state->most);
    fly_full(search, state, load_w, w.lead_ohm.most, w.phase_ohm.most, probe);
    const bool hot = is_board_hot(search, probe, fast, by);
    probe->rig.mass_kg = best_least_kg(least);
    return hot;
}

static bool refuted_with(const best_search *search, best_state *state, wires w, int64_t least,
                         pare_sheet *probe, char by[48])
{
    const pare_craft *craft = state->trial.flown;
    const bool fast = flatter(search, state, w, least, probe);
    pare_sheet_fly(craft, pare_margin_figures(craft), probe);
    find_margins(search, state, probe);
    for (size_t i = 0; i < sizeof must_exist / sizeof must_exist[0]; i++) {
        if (!search->desk->sheet.figure[must_exist[i]].exists ||
            probe->figure[must_exist[i]].exists)
            continue;
        if (cannot_fly(search, state, w, probe, fast, must_exist[i])) {
            (void)refuse(by, flies[i]);
            return true;
        }
        /* Limits on what there is not fail on this probe, and perhaps not with more in the motors' way. */
        return false;
    }
    if (refuted_by(search, state, probe, ASK_THRUST, fast, by) ||
        best_unsure(search, state, probe, &state->shares, by))
        return true;
    if (state->rough)
        return sags_roughly(search, state, probe, by);
    const double load_w = probe->rig.always_w;
    if (w.phase_ohm.most > w.phase_ohm.least || w.lead_ohm.most > w.lead_ohm.least) {
        fly_full(search, state, load_w, w.lead_ohm.least, w.phase_ohm.most, probe);
        if (refuted_by(search, state, probe, ASK_SAG, false, by))
            return true;
        fly_full(search, state, load_w, w.lead_ohm.most, w.phase_ohm.most, probe);
    } else if (refuted_by(search, state, probe, ASK_SAG, false, by)) {
        return true;
    }
    return draws_too_much(search, state, w, probe, fast, by) ||
           gets_too_hot(search, state, w, least, probe, fast, by);
}

bool best_refuted(const best_search *search, best_state *state, pare_sheet *probe,
                  pare_craft *lightest, char by[48])
{
    return refuted_with(search, state, open_wires(search, state, NULL), state->least, probe, by) ||
           (!state->rough && screws_fail(search, state, probe, lightest, by));
}

bool best_volts_fail(const best_search *search, const best_state *state, pare_sheet *probe,
                     char by[48])
{
    pare_sheet_copy(&state->trial.sheet, probe);
    pare_sheet_margins_worst(state->trial.flown, PARE_MARGINS_RATED, probe);
    return refuted_by(search, state, probe, ASK_THRUST, false, by);
}

/* ---- wires that the flight needs ---- */

/* A gauge of each run that is asked for, and what they weigh so at the least. */
typedef struct gauges {
    int64_t units;
    size_t runs;
    double of[PARE_RUNS]; /* by the run's place; 0: it is not asked for */
} gauges;

/* All gauges of the power wires that are open, or of leads alone. @return 0: none, or too many */
static size_t gather_gauges(const best_search *search, const best_state *state, bool moved,
                            gauges all[GAUGES_MOST])
{
    const pare_craft *craft = state->trial.flown;
    size_t count = 0;
    for (size_t r = 0; r < craft->runs; r++) {
        bool lead;
        if (!best_run_gives(search, state, r, &lead) || (moved && !lead))
            continue;
        const pare_run_choices c = pare_run_choices_of(craft, &craft->run[r]);
        const size_t ways = c.gauges + 1, before = count > 0 ? count : 1;
        pare_run run;
        best_run_shortest(search, state, r, moved, &run);
        if (count == 0)
            all[0] = (gauges){0};
        if (before * ways > GAUGES_MOST)
            return 0;
        for (size_t g = ways; g-- > 0;) {
            pare_run in_gauge = run;
            if (g > 0) {
                in_gauge.gauge = c.gauge[g - 1];
                in_gauge.outer_m = 0;
            }
            for (size_t i = 0; i < before; i++) {
                gauges *to = &all[g * before + i];
                *to = all[i];
                to->of[r] = in_gauge.gauge;
                to->runs++;
                to->units += best_run_units(&in_gauge);
            }
        }
        count = before * ways;
    }
    return count;
}

static int lightest_first(const void *left, const void *right)
{
    const gauges *a = left, *b = right;
    return (a->units > b->units) - (a->units < b->units);
}

bool best_wires_fail(const best_search *search, best_state *state, pare_sheet *room, char by[48])
{
    gauges all[GAUGES_MOST];
    if (!state->wires_open || state->rough)
        return false;
    const bool moved = best_any_moves(search, state);
    const size_t count = gather_gauges(search, state, moved, all);
    int64_t *least = moved ? &state->lead_least : &state->power_least;
    size_t *runs = moved ? &state->lead_runs : &state->power_runs;
    const int64_t before = count > 0 && *runs == all[0].runs ? *least : INT64_MIN;
    *runs = count > 0 ? all[0].runs : *runs;
    qsort(all, count, sizeof all[0], lightest_first);
    for (size_t i = 0; i < count; i++) {
        *least = all[i].units > before ? all[i].units : before;
        best_state_bound(search, state);
        if (!refuted_with(search, state, open_wires(search, state, all[i].of), state->least, room,
                          by))
            return false;
    }
    return count > 0;
}
