/* best_lines.c: what may still be chosen of joints, runs and coax, and what lines of the ledger weigh at the least. */
#include <math.h>
#include <string.h>

#include "advise/best_inside.h"
#include "advise/stand_in.h"
#include "base/text.h"

#define BIT(kind)      (1u << (kind))
#define BOARD_HALF_M   0.015 /* from a board's middle to its edge (craft/place.c) */
#define BOARD_BELOW_M  0.02  /* another board's middle from this one's, at most, in a stack */
#define SHORTEST_RUN_M 1e-3  /* less than the slack that any has */

int64_t best_units(double mass_kg)
{
    return (int64_t)llround(mass_kg * BEST_UNITS_PER_KG);
}

/* ---- what may still be chosen ---- */

bool best_is_held(const best_search *search, const char *what, const char *name,
                  const char *property)
{
    const size_t before = strlen(what), length = strlen(name);
    for (size_t i = 0; i < search->ask->holds; i++) {
        const char *hold = search->ask->hold[i];
        if (strncmp(hold, what, before) != 0 || strncmp(hold + before, name, length) != 0)
            continue;
        const char *rest = hold + before + length;
        if (*rest == '\0' || (property && *rest == '.' && strcmp(rest + 1, property) == 0))
            return true;
    }
    return false;
}

size_t best_brought_at(const best_search *search, const char *name)
{
    size_t at = 0;
    while (at < search->broughts && at + 1 < BEST_BROUGHT &&
           !pare_same_name(search->brought[at].name, name))
        at++;
    return at;
}

uint64_t best_brings(const best_search *search, const best_state *state)
{
    uint64_t brings = 0;
    for (size_t s = 0; s < search->slots; s++)
        brings |= best_open(state, s) ? search->slot[s].brings : 0;
    return brings;
}

const best_brought *best_is_brought(const best_search *search, uint64_t brings, const char *name,
                                    const char *included_in)
{
    if (included_in || brings == 0)
        return NULL;
    const size_t at = best_brought_at(search, name);
    return at < search->broughts && (brings >> at & 1) ? &search->brought[at] : NULL;
}

pare_joint_choices best_joint_choices(const best_search *search, const pare_craft *craft,
                                      const pare_joint *joint)
{
    pare_joint_choices choices = pare_joint_choices_of(craft, joint);
    if (best_is_held(search, "joint.", joint->name, "material"))
        choices.materials = 0;
    if (best_is_held(search, "joint.", joint->name, "count"))
        choices.count = 0;
    if (best_is_held(search, "joint.", joint->name, "length"))
        choices.length_m = 0;
    return choices;
}

pare_run_choices best_run_choices(const best_search *search, const pare_craft *craft,
                                  const pare_run *run)
{
    pare_run_choices choices = pare_run_choices_of(craft, run);
    if (best_is_held(search, "run.", run->name, "gauge"))
        choices.gauges = 0;
    if (best_is_held(search, "run.", run->name, "length"))
        choices.length_m = 0;
    return choices;
}

double best_coax_choice_m(const best_search *search, const pare_craft *craft, const pare_item *item)
{
    return best_is_held(search, "", item->name, "length") ? 0 : pare_coax_choice_m(craft, item);
}

/* ---- lines as they are ---- */

int64_t best_joint_units(const pare_joint *joint)
{
    double mass_kg;
    if (pare_joint_kg(joint, &mass_kg, NULL) != PARE_OK)
        return 0;
    return best_units(joint->included_in ? mass_kg - joint->included_kg : mass_kg);
}

int64_t best_run_units(const pare_run *run)
{
    const double mass_kg = pare_run_kg(run);
    return best_units(run->included_in ? mass_kg - run->included_kg : mass_kg);
}

int64_t best_joint_least_of(const best_search *search, const pare_craft *craft, size_t index,
                            best_screws_may *passes, void *context)
{
    const pare_joint *now = &craft->joint[index];
    const pare_joint_choices c = best_joint_choices(search, craft, now);
    int64_t least = BEST_NO_BOUND;
    for (size_t m = 0; m <= c.materials; m++)
        for (int way = 0; way < 4; way++) {
            const bool few = way & 1, cut = way & 2;
            pare_joint joint = *now;
            if ((few && !(c.count > 0)) || (cut && !(c.length_m > 0)))
                continue;
            if (m > 0) {
                joint.material = c.material[m - 1];
                joint.grade = NULL;
            }
            joint.count = few ? c.count : now->count;
            joint.length_m = cut ? c.length_m : now->length_m;
            const int64_t units = best_joint_units(&joint);
            if (units < least && (!passes || passes(context, &joint)))
                least = units;
        }
    return least;
}

int64_t best_joint_least(const best_search *search, const best_state *state, size_t joint)
{
    return best_joint_least_of(search, state->trial.flown, joint, NULL, NULL);
}

/* ---- where wires end ---- */

/* Whether an item drives the motors, or may yet. */
static bool may_drive(const best_search *search, const pare_craft *craft, size_t item)
{
    const unsigned char slot = search->slot_of[item];
    return (pare_work_of(craft->item[item].part) &
            (BIT(PARE_ESC_FOUR) | BIT(PARE_FLIGHT_CONTROLLER))) != 0 ||
           (slot != BEST_NONE && search->slot[slot].moves_wires);
}

static double away_m(pare_vec3 from, pare_vec3 to, bool flat)
{
    pare_vec3 off = pare_vec3_less(from, to);
    off.z = flat ? 0 : off.z;
    return sqrt(pare_vec3_dot(off, off));
}

/* The least way from a point to what may drive the motors; flat: seen from above. A board that is brought sits where
 * its kind usually does, or where one is. */
static double nearest_driver_m(const best_search *search, const pare_craft *craft, pare_vec3 at,
                               bool flat)
{
    static const pare_part sorts[] = {{.kind = PARE_ESC_FOUR},
                                      {.kind = PARE_FLIGHT_CONTROLLER},
                                      {.kind = PARE_CONTROLLER_WITH_ESC}};
    double least_m = HUGE_VAL;
    for (size_t s = 0; s < sizeof sorts / sizeof sorts[0]; s++) {
        const pare_item usual = {.part = &sorts[s], .count = 1};
        least_m = fmin(least_m, away_m(at, pare_item_station(craft, &usual, 0), flat));
    }
    for (size_t i = 0; i < craft->items; i++) {
        const pare_item *item = &craft->item[i];
        const size_t places = item->stations > 0 ? item->stations : 1;
        for (size_t k = 0; may_drive(search, craft, i) && k < places; k++)
            least_m = fmin(least_m, away_m(at, pare_item_station(craft, item, k), flat));
    }
    return least_m;
}

/* A lead ends at the board with the ESCs, at one below the controller, or, for ESCs on the arms, in the
 * middle (craft/place.c, esc.c). */
static double shortest_lead_m(const best_search *search, const pare_craft *craft,
                              const pare_run *lead)
{
    const pare_vec3 at = lead->at_m;
    const double middle_m = sqrt(pare_vec3_dot(at, at));
    return fmin(nearest_driver_m(search, craft, at, false), middle_m) - BOARD_BELOW_M;
}

/* An open choice may put an ESC at each arm. */
static bool singles_may_come(const best_search *search, const best_state *state)
{
    for (size_t s = 0; s < search->slots; s++)
        if (best_open(state, s) && search->slot[s].may_be_single && best_may_move(search, state, s))
            return true;
    return false;
}

/* A motor's wires end at the edge of the board that drives it, or right at an ESC of its own. */
static double shortest_phase_m(const best_search *search, const best_state *state,
                               const pare_item *motor)
{
    const pare_craft *craft = state->trial.flown;
    if (!best_arms_decided(search, state) || singles_may_come(search, state))
        return 0;
    return nearest_driver_m(search, craft, pare_item_station(craft, motor, 0), true) - BOARD_HALF_M;
}

void best_run_shortest(const best_search *search, const best_state *state, size_t run,
                       bool boards_move, pare_run *shortest)
{
    const pare_craft *craft = state->trial.flown;
    *shortest = craft->run[run];
    double length_m = best_run_choices(search, craft, shortest).length_m;
    if (boards_move && shortest->carries && !(shortest->needed_m > 0)) {
        const int served = pare_craft_item(craft, shortest->carries);
        const bool lead = pare_same_name(shortest->carries, "pack") && shortest->at_given;
        const double least_m = lead ? shortest_lead_m(search, craft, shortest)
                               : served >= 0 && craft->item[served].part->kind == PARE_MOTOR
                                   ? shortest_phase_m(search, state, &craft->item[served])
                                   : 0;
        length_m = fmin(length_m > 0 ? length_m : HUGE_VAL, fmax(least_m, SHORTEST_RUN_M));
    }
    for (size_t i = 0; length_m > 0 && i < shortest->ways; i++)
        shortest->way_m[i] = fmin(shortest->way_m[i], length_m);
}

int64_t best_run_least(const best_search *search, const best_state *state, size_t run,
                       bool boards_move)
{
    const pare_craft *craft = state->trial.flown;
    const pare_run_choices choices = best_run_choices(search, craft, &craft->run[run]);
    pare_run lightest = craft->run[run];
    int64_t least = best_run_units(&lightest);
    best_run_shortest(search, state, run, boards_move, &lightest);
    for (size_t i = 0; i <= choices.gauges; i++) {
        if (i < choices.gauges) {
            lightest.gauge = choices.gauge[i];
            lightest.outer_m = 0;
        } else {
            lightest.gauge = craft->run[run].gauge;
            lightest.outer_m = craft->run[run].outer_m;
        }
        const int64_t units = best_run_units(&lightest);
        least = units < least ? units : least;
    }
    return least;
}
