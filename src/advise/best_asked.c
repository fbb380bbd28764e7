/* best_asked.c: which limits a flattering flight can refute, and which one each is asked of (best_met.c). */
#include <string.h>

#include "advise/best_met.h"
#include "advise/stand_in.h"
#include "craft/margin.h"

#define BIT(kind)    (1u << (kind))
#define HEAT_SURELY  0.9  /* a lighter craft lands later, and may warm its pack a little more */
#define LANDS_SURELY 0.95 /* a lighter craft lands with less in its pack, so with less thrust */
#define LEANS_SURELY                                                                               \
    0.9 /* a heavier craft leans less, has less of its drag from above, and is faster */

/* A limit on the side where mass, load, drag and resistance make it worse. On the other side a lighter craft may
 * fail what a heavier one meets. */
best_flight best_flight_of_figure(int figure, bool at_least)
{
    switch (figure) {
    case PARE_ALL_UP:
    case PARE_HOVER_OUTPUT:
    case PARE_HOVER_A:
    case PARE_HOVER_W:
    case PARE_BURST:
    case PARE_CRASH:
        return at_least ? BEST_NO_FLIGHT : BEST_THRUST_FLIGHT;
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
        return at_least ? BEST_THRUST_FLIGHT : BEST_NO_FLIGHT;
    case PARE_FULL_A:
    case PARE_MOTOR_FULL_A:
        return at_least ? BEST_NO_FLIGHT : BEST_CURRENT_FLIGHT;
    default:
        return BEST_NO_FLIGHT;
    }
}

bool best_is_flattered(int figure, bool at_least)
{
    return best_flight_of_figure(figure, at_least) == BEST_THRUST_FLIGHT;
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
bool best_escs_open(const best_search *search, const best_state *state)
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
static best_flight flight_of_volts(const best_search *search, const best_state *state,
                                   const char *item)
{
    const int index = pare_craft_item(state->trial.flown, item);
    if (index < 0)
        return BEST_NO_FLIGHT;
    const unsigned char slot = search->slot_of[index];
    if (slot != BEST_NONE && best_open(state, slot))
        return BEST_NO_FLIGHT;
    const pare_part *part = state->trial.flown->item[index].part;
    if (part->kind == PARE_MOTOR ||
        (pare_margin_on_pack(part->kind) && !best_is_dragged(search, state, part)))
        return BEST_THRUST_FLIGHT;
    return boards_open(search, state) ? BEST_NO_FLIGHT : BEST_THRUST_FLIGHT;
}

static best_flight flight_of(const best_search *search, const best_state *state,
                             const pare_margin *margin)
{
    const char *name = margin->name;
    if (best_is_limit(name))
        return best_flight_of_figure(pare_figure_of_limit(name + strlen("limit.")),
                                     margin->at_least);
    if (strstr(name, ".spike"))
        return state->wires_open || best_escs_open(search, state) ||
                       best_kind_open(search, state, PARE_CAPACITOR)
                   ? BEST_NO_FLIGHT
                   : BEST_CURRENT_FLIGHT;
    if (starts(name, "esc."))
        return best_escs_open(search, state) ? BEST_NO_FLIGHT
               : strstr(name, "burst")       ? BEST_CURRENT_FLIGHT
                                             : BEST_THRUST_FLIGHT;
    if (strcmp(name, "motor.burst") == 0 || strcmp(name, "motor.winding_burst") == 0 ||
        strcmp(name, "arm.stress") == 0 || strcmp(name, "arm.bends") == 0)
        return BEST_CURRENT_FLIGHT;
    if (strcmp(name, "motor.continuous") == 0 || strcmp(name, "motor.winding") == 0 ||
        strcmp(name, "pack.heat") == 0)
        return BEST_THRUST_FLIGHT;
    if (strcmp(name, "pack.sag") == 0)
        return BEST_SAG_FLIGHT;
    if (starts(name, "volts."))
        return flight_of_volts(search, state, name + 6);
    if (starts(name, "volts_low."))
        return flight_of_volts(search, state, name + 10);
    if (starts(name, "connector.") && !state->wires_open &&
        !best_kind_open(search, state, PARE_CONNECTOR))
        return strcmp(name, "connector.heat_burst") == 0 ? BEST_CURRENT_FLIGHT : BEST_THRUST_FLIGHT;
    if (starts(name, "wire_") && !state->wires_open)
        return strncmp(name, "wire_joint.", 11) == 0 ? BEST_THRUST_FLIGHT : BEST_CURRENT_FLIGHT;
    return BEST_NO_FLIGHT;
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
    if (best_is_limit(name))
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
double best_surely(const char *name, bool fast)
{
    const double flown = fast && is_of_profile(name) ? BEST_FAST_SURELY : 1;
    if (strcmp(name, "limit.thrust_to_weight_landing") == 0)
        return flown * LANDS_SURELY;
    if (strcmp(name, "limit.top_speed") == 0)
        return LEANS_SURELY;
    const bool of_wires = starts(name, "connector."); /* in still air */
    const bool warms = !of_wires && (strstr(name, "heat") || strstr(name, "winding"));
    return flown * (warms ? HEAT_SURELY : BEST_SURELY);
}

/* The kinds of margins of which flight_of() asks one or another. Screws are asked by best_screws_fail(). */
static unsigned kinds_asked(const best_search *search, const best_state *state)
{
    const bool escs = best_escs_open(search, state);
    return PARE_MARGINS_BRIEF | PARE_MARGINS_RATED | PARE_MARGINS_POWER | PARE_MARGINS_ARMS |
           (escs ? 0 : PARE_MARGINS_BOARD) | (escs || state->wires_open ? 0 : PARE_MARGINS_SPIKES) |
           (state->wires_open ? 0 : PARE_MARGINS_WIRES);
}

void best_find_margins(const best_search *search, const best_state *state, pare_sheet *probe)
{
    pare_sheet_margins_worst(state->trial.flown, kinds_asked(search, state), probe);
}

bool best_refuted_by(const best_search *search, const best_state *state, const pare_sheet *probe,
                     best_flight asked, bool fast, char by[48])
{
    const bool held_full = best_is_held_full(state);
    for (size_t i = 0; i < probe->margins; i++) {
        const pare_margin *margin = &probe->margin[i];
        if (margin->ratio >= 1 && !best_is_crash(margin->name) && search->margin_least <= 1)
            break; /* worst first: none behind it fails */
        if (strcmp(margin->name, "limit.margin") == 0 || best_is_crash(margin->name) ||
            flight_of(search, state, margin) != asked ||
            (held_full && (asked == BEST_THRUST_FLIGHT ? is_of_profile(margin->name)
                                                       : warms_in_flight(margin->name))) ||
            margin->ratio >= best_need(search, margin->name) * best_surely(margin->name, fast))
            continue;
        (void)best_refuse(by, margin->name);
        return true;
    }
    return false;
}
