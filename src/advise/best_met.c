/* best_met.c: whether none of a state's sets can do the job (best_rule.c).
 *
 * A state's flight is worked out at the least mass that may become of it, with rotors that carry no less
 * unevenly than any set's, with the least load and drag that its open choices leave (best_open.c). Thrust and
 * minutes only fall with the resistance of leads and phase wires, currents at full throttle only rise without
 * it: where the wires are open each is asked at the end that flatters it (best_asked.c). What then still fails,
 * fails below.
 *
 * Three things are not so. What electronics draw adds to the pack's current at full throttle and, by the pack's
 * sag, takes from the motors': a current refutes where it is too much with the least load and with the most.
 * A winding may run away at full throttle with too little in its way, and live with more: that a craft
 * cannot be flown so is asked at both ends. And an entry of the profile that is held at full throttle draws more
 * with less in the way: then the minutes, and what warms in them, refute nothing before items and wires are
 * decided. */
#include <math.h>
#include <stdlib.h>

#include "advise/best_met.h"
#include "base/text.h"
#include "craft/flight.h"
#include "craft/margin.h"
#include "physics/wire.h"

#define FIGURE(f)     ((pare_figures)1 << (f))
#define A_LITTLE_MORE 1.01 /* mass */

enum {
    HEAVIEST_PARTS = 256,
    GAUGES_MOST = 27 /* three runs in three gauges each */
};

/* What two phases of a motor's own wires have, at lengths and gauges as given. */
static double phases_ohm(const pare_part *motor, double least_length_m, bool thinnest)
{
    double ohm = 0;
    for (size_t i = 0; i < motor->includes; i++) {
        const pare_include *in = &motor->include[i];
        if (in->what != PARE_INCLUDES_RUN || !(in->gauge > 0))
            continue;
        const double gauge =
            thinnest ? fmin(2 * ceil((in->gauge + 0.5) / 2) + 2, BEST_THINNEST_GAUGE) : in->gauge;
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
            ohm += BEST_LONGER * pare_run_ohm(run, 20) * 2 / 3;
    }
    return ohm;
}

/* Flies full throttle anew, with what has been changed on a probe's rig. */
static void refly_full(const best_search *search, const best_state *state, pare_sheet *probe)
{
    probe->flown &= ~(unsigned)(PARE_FLY_FULL);
    pare_sheet_fly(state->trial.flown, FIGURE(PARE_FULL_A) | FIGURE(PARE_MOTOR_FULL_A), probe);
    best_find_margins(search, state, probe);
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
    return best_refuted_by(search, state, probe, BEST_SAG_FLIGHT, false, by);
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
static bool flatter(const best_search *search, const best_state *state, best_open_ohm w,
                    int64_t least, pare_sheet *probe)
{
    pare_sheet_copy(&state->trial.sheet, probe);
    pare_rig *rig = &probe->rig;
    rig->mass_kg = best_least_kg(least);
    rig->uneven = state->uneven_least;
    best_lighten_load(search, state, rig);
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
    const bool fast =
        flatter(search, state, best_open_wires(search, state, NULL), state->least, probe);
    for (int i = 0; i < 2 && raised->figure[i] >= 0; i++) {
        const pare_figure figure = (pare_figure)raised->figure[i];
        if (best_flight_of_figure(raised->figure[i], true) != BEST_THRUST_FLIGHT ||
            (figure == PARE_FLOWN_TIME && best_is_held_full(state)))
            continue;
        pare_sheet_fly(state->trial.flown, FIGURE(figure), probe);
        const double sure = fast && figure == PARE_FLOWN_TIME ? BEST_FAST_SURELY : BEST_SURELY;
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
static bool draws_too_much(const best_search *search, const best_state *state, best_open_ohm w,
                           pare_sheet *probe, bool fast, char by[48])
{
    const double least_w = probe->rig.always_w, most_w = best_heaviest_load_w(search, state);
    char least_by[48];
    if (!best_refuted_by(search, state, probe, BEST_CURRENT_FLIGHT, fast, least_by))
        return false;
    if (most_w > least_w) {
        fly_full(search, state, most_w, w.lead_ohm.most, w.phase_ohm.most, probe);
        const pare_margin *still = pare_sheet_margin(probe, least_by);
        if (!still || still->ratio >= best_need(search, least_by) * best_surely(least_by, fast))
            return false;
    }
    (void)best_refuse(by, least_by);
    return true;
}

/* What cannot be flown with little in the motors' way: at full throttle, with much in it neither. Changes what the
 * probe flies with. */
static bool cannot_fly(const best_search *search, const best_state *state, best_open_ohm w,
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
        const double surely = fast ? BEST_FAST_SURELY : BEST_SURELY;
        if (margin && margin->ratio < best_need(search, board_heats[i]) * surely) {
            (void)best_refuse(by, board_heats[i]);
            return true;
        }
    }
    return false;
}

/* Finds the most that a state's craft may weigh and still have the thrust, and the minutes. */
static void find_heaviest(const best_search *search, best_state *state, best_open_ohm w,
                          pare_sheet *probe)
{
    char by[48];
    int64_t holds = state->least, fails = 2 * state->least;
    for (bool first = true; fails - holds > state->least / HEAVIEST_PARTS; first = false) {
        const int64_t middle = first ? fails : holds + (fails - holds) / 2;
        const bool fast = flatter(search, state, w, middle, probe);
        pare_sheet_fly(state->trial.flown, pare_margin_figures(state->trial.flown), probe);
        best_find_margins(search, state, probe);
        const bool fail = best_refuted_by(search, state, probe, BEST_THRUST_FLIGHT, fast, by);
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
static bool gets_too_hot(const best_search *search, best_state *state, best_open_ohm w,
                         int64_t least, pare_sheet *probe, bool fast, char by[48])
{
    if (best_escs_open(search, state) || best_is_held_full(state) ||
        !is_board_hot(search, probe, fast, by))
        return false;
    if (state->most == BEST_NO_BOUND)
        find_heaviest(search, state, w, probe);
    if (state->most == BEST_NO_BOUND)
        return false;
    (void)flatter(search, state, w, least, probe);
    const double load_w = best_heaviest_load_w(search, state);
    pare_sheet_fly(state->trial.flown, pare_margin_figures(state->trial.flown), probe);
    probe->rig.mass_kg = best_most_kg(state->most);
    fly_full(search, state, load_w, w.lead_ohm.most, w.phase_ohm.most, probe);
    const bool hot = is_board_hot(search, probe, fast, by);
    probe->rig.mass_kg = best_least_kg(least);
    return hot;
}

static bool refuted_with(const best_search *search, best_state *state, best_open_ohm w,
                         int64_t least, pare_sheet *probe, char by[48])
{
    const pare_craft *craft = state->trial.flown;
    const bool fast = flatter(search, state, w, least, probe);
    pare_sheet_fly(craft, pare_margin_figures(craft), probe);
    best_find_margins(search, state, probe);
    pare_figure figure;
    for (size_t i = 0; i < BEST_FLIES; i++) {
        const char *name = best_flies(i, &figure);
        if (!search->desk->sheet.figure[figure].exists || probe->figure[figure].exists)
            continue;
        if (cannot_fly(search, state, w, probe, fast, figure)) {
            (void)best_refuse(by, name);
            return true;
        }
        /* Limits on what there is not fail on this probe, and perhaps not with more in the motors' way. */
        return false;
    }
    if (best_refuted_by(search, state, probe, BEST_THRUST_FLIGHT, fast, by) ||
        best_unsure(search, state, probe, &state->shares, by))
        return true;
    if (state->rough)
        return sags_roughly(search, state, probe, by);
    const double load_w = probe->rig.always_w;
    if (w.phase_ohm.most > w.phase_ohm.least || w.lead_ohm.most > w.lead_ohm.least) {
        fly_full(search, state, load_w, w.lead_ohm.least, w.phase_ohm.most, probe);
        if (best_refuted_by(search, state, probe, BEST_SAG_FLIGHT, false, by))
            return true;
        fly_full(search, state, load_w, w.lead_ohm.most, w.phase_ohm.most, probe);
    } else if (best_refuted_by(search, state, probe, BEST_SAG_FLIGHT, false, by)) {
        return true;
    }
    return draws_too_much(search, state, w, probe, fast, by) ||
           gets_too_hot(search, state, w, least, probe, fast, by);
}

bool best_refuted(const best_search *search, best_state *state, pare_sheet *probe,
                  pare_craft *lightest, char by[48])
{
    return refuted_with(search, state, best_open_wires(search, state, NULL), state->least, probe,
                        by) ||
           (!state->rough && best_screws_fail(search, state, probe, lightest, by));
}

bool best_volts_fail(const best_search *search, const best_state *state, pare_sheet *probe,
                     char by[48])
{
    pare_sheet_copy(&state->trial.sheet, probe);
    pare_sheet_margins_worst(state->trial.flown, PARE_MARGINS_RATED, probe);
    return best_refuted_by(search, state, probe, BEST_THRUST_FLIGHT, false, by);
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
        const pare_run_choices c = best_run_choices(search, craft, &craft->run[r]);
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
        if (!refuted_with(search, state, best_open_wires(search, state, all[i].of), state->least,
                          room, by))
            return false;
    }
    return count > 0;
}
