/* best_ring.c: masses at which arms ring (see best.h).
 *
 * How fast rotors turn, at hover and at the speed that is flown for the longest, follows from the mass and from drag;
 * no resistance and no load changes it. An arm's band follows from what swings at its tip: a lighter tip rings
 * higher. So what is common to all bands that are still possible begins with the lightest tip's lower edge and ends
 * with the heaviest's upper edge, and a tip can be heavier only by what the craft weighs beyond its least. The
 * arm's own share of what swings only makes the difference smaller. */
#include <math.h>
#include <string.h>

#include "advise/best_inside.h"
#include "advise/esc.h"
#include "advise/stand_in.h"
#include "craft/arm_facts.h"
#include "craft/drag.h"
#include "craft/flight.h"

#define BIT(kind) (1u << (kind))
#define PI        3.14159265358979323846
#define ANY_TIP   100000000 /* 10 kg: what may be anything */
#define INSIDE    1e-7      /* how far inside a band turns must be: the solvers' tolerance */
#define ANY_MASS  INT64_MIN
#define STANDS_SHARE                                                                               \
    0.1 /* of a tip's mass, that its standing off the arm may count for besides: a third of the
             arm's length, squared */

enum {
    FINE = 100,     /* 10 mg */
    RAISED_MOST = 4 /* bands that a bound is raised over, one after another */
};

/* ---- what tips may weigh ---- */

/* By how much open choices may make all tips together lighter, or heavier: what sits there by less or more, and
 * ESCs by coming onto the arms, which nothing of the rest has to make room for. */
typedef struct tips {
    int64_t less, more;
    double come_kg;
} tips;

static double kg_of(int64_t units)
{
    return (double)units / BEST_UNITS_PER_KG;
}

/* A choice of ESCs that is open: one for all in the middle, or one at each arm. What drives as well
 * as it decides may leave that to any ESC of the bench, and nothing is known of those. */
static void add_escs(const best_search *search, const best_state *state, size_t slot, int64_t units,
                     tips *of)
{
    const pare_craft *craft = state->trial.flown;
    const pare_item *item = &craft->item[search->slot[slot].item];
    const double share = pare_arm_tip_share(craft, PARE_ESC_ALONG_ARM);
    const bool at_arms = pare_item_at_tips(item);
    const int64_t each = at_arms ? 1 : (int64_t)state->trial.sheet.assembly.arms;
    int64_t come = 0;
    of->less += at_arms ? units : 0;
    if (item->part->kind == PARE_ESC_FOUR || item->part->kind == PARE_ESC_ONE)
        come = each * search->slot[slot].most;
    else if (pare_work_of(item->part) & BIT(PARE_ESC_FOUR))
        come = ANY_TIP;
    of->come_kg += (at_arms ? 1 : share) * (double)come / BEST_UNITS_PER_KG;
}

static tips tips_open(const best_search *search, const best_state *state)
{
    const pare_assembly *a = &state->trial.sheet.assembly;
    const pare_craft *craft = state->trial.flown;
    const uint64_t brings = best_brings(search, state);
    tips of = {0};
    for (size_t i = 0; i < a->lines; i++) {
        const pare_line *line = &a->line[i];
        const int64_t units = best_units(line->mass_kg.value);
        if (line->of == PARE_LINE_ITEM) {
            const unsigned char slot = search->slot_of[line->index];
            if (slot != BEST_NONE && best_open(state, slot) && best_may_move(search, state, slot)) {
                add_escs(search, state, slot, units, &of);
                continue;
            }
            if (!pare_item_at_tips(&craft->item[line->index]))
                continue;
            if (slot == BEST_NONE || !best_open(state, slot)) {
                of.less +=
                    best_is_dragged(search, state, craft->item[line->index].part) ? units : 0;
                continue;
            }
            const int64_t least = best_may_go(search, state, slot) ? 0 : search->slot[slot].least;
            of.less += units > least ? units - least : 0;
            of.more += search->slot[slot].most > units ? search->slot[slot].most - units : 0;
        } else if (state->tail_open && line->of == PARE_LINE_JOINT &&
                   pare_joint_at_tips(craft, &craft->joint[line->index])) {
            const pare_joint *joint = &craft->joint[line->index];
            const int64_t least = best_is_brought(search, brings, joint->name, joint->included_in)
                                      ? 0
                                      : best_joint_least(search, state, line->index);
            of.less += units > least ? units - least : 0;
        }
    }
    return of;
}

/* Whether a gram more of the craft is at most a gram more at a tip: nothing sits beyond. */
static bool is_bounded_by_mass(const pare_craft *craft)
{
    for (size_t i = 0; i < craft->items; i++)
        if (pare_item_at_tips(&craft->item[i]) && craft->item[i].along_arm > 1)
            return false;
    return true;
}

/* ---- a band, and what turns in it ---- */

/* A state's band. */
typedef struct ring {
    double low_hz, high_hz; /* of the lightest tip, and of this one */
    pare_arm arm;           /* as it is */
    double bends_hz;        /* and how it bends */
    tips all;               /* of all arms */
    int64_t light; /* the craft's mass at which all tips may be as they weigh now; or ANY_MASS */
    size_t arms;
} ring;

/* What strikes the arms: rotors that turn as steadily as in a flight. */
typedef struct beat {
    double need_ratio; /* of the margin that asks about it */
    double speed_m_s;  /* 0: it hovers */
} beat;

/* False: nothing can be said. */
static bool ring_of(const best_search *search, const best_state *state, ring *of)
{
    const pare_sheet *sheet = &state->trial.sheet;
    pare_arm_facts arm;
    *of = (ring){.arms = sheet->assembly.arms, .light = ANY_MASS};
    if (of->arms == 0 || !pare_craft_arm_facts(state->trial.flown, sheet, &arm) ||
        !(arm.tip_kg > 0))
        return false;
    of->all = tips_open(search, state);
    of->arm = arm.arm;
    of->bends_hz = arm.figures.bending_hz;
    const double lightest_kg = arm.tip_kg - kg_of(of->all.less) / (double)of->arms;
    if (!(lightest_kg > 0))
        return false;
    if (is_bounded_by_mass(state->trial.flown))
        of->light = state->sum + state->tips_less - BEST_ROUNDED;
    pare_arm_ring_band(&arm, &of->low_hz, &of->high_hz);
    of->low_hz *= sqrt(arm.tip_kg / lightest_kg);
    return true;
}

/* How much faster an arm swings that carries less. What is put on instead of something lighter may stand higher. */
static double lighter_ratio(const ring *of, double less_kg)
{
    pare_arm arm = of->arm;
    pare_arm_figures figures;
    less_kg -= STANDS_SHARE * kg_of(of->all.more) / (double)of->arms;
    arm.tip_kg -= fmax(less_kg, 0);
    if (pare_arm_work_out(&arm, &figures, NULL) != PARE_OK)
        return 1;
    return fmax(figures.bending_hz / of->bends_hz, 1);
}

/* The upper edge of the heaviest tip that a craft of a mass can have. */
static double upper_hz(const ring *of, int64_t units)
{
    double more_kg = kg_of(of->all.more);
    if (of->light != ANY_MASS)
        more_kg = fmin(more_kg, fmax(kg_of(units - of->light), -kg_of(of->all.less)));
    more_kg = (more_kg + of->all.come_kg) / (double)of->arms;
    return of->high_hz * (more_kg < 0 ? lighter_ratio(of, -more_kg)
                                      : sqrt(of->arm.tip_kg / (of->arm.tip_kg + more_kg)));
}

/* The speed that is flown for the longest. 0: none is set */
static double cruise_m_s(const pare_brief *brief)
{
    double speed_m_s = 0, share = 0;
    for (size_t i = 0; i < brief->entries; i++) {
        const pare_flown *entry = &brief->flown[i];
        if (entry->as == PARE_FLOWN_SPEED && entry->share > share) {
            share = entry->share;
            speed_m_s = entry->level;
        }
    }
    return speed_m_s;
}

/* 0: it cannot be flown so */
static double turns_hz(const best_state *state, double speed_m_s, int64_t units)
{
    pare_rig rig = state->trial.sheet.rig;
    pare_operating point;
    rig.mass_kg = best_least_kg(units);
    rig.uneven = 0;
    const pare_status flies = speed_m_s > 0
                                  ? pare_rig_level(&rig, speed_m_s, PARE_CHARGE_HALF, &point, NULL)
                                  : pare_rig_thrust(&rig, 1, PARE_CHARGE_HALF, &point, NULL);
    return flies == PARE_OK ? point.rotor.speed_rad_s / (2 * PI) : 0;
}

/* The margin counts a band's edges in whole hertz. */
static bool rings(const best_state *state, const ring *of, beat by, int64_t units)
{
    const double turn_hz = turns_hz(state, by.speed_m_s, units);
    return turn_hz > floor(of->low_hz) / by.need_ratio * (1 + INSIDE) &&
           turn_hz < ceil(upper_hz(of, units)) * by.need_ratio * (1 - INSIDE);
}

/* ---- a bound, raised ---- */

static bool raise_over(best_state *state, const ring *of, beat by)
{
    if (!rings(state, of, by, state->least))
        return false;
    int64_t holds = state->least, most = 2 * state->least;
    if (rings(state, of, by, most))
        holds = most;
    while (most - holds > FINE) {
        const int64_t middle = holds + (most - holds) / 2;
        if (rings(state, of, by, middle))
            holds = middle;
        else
            most = middle;
    }
    /* What rings so is flown at the least that it may truly weigh; what is passed over rings at the most too. */
    holds -= 2 * (int64_t)BEST_ROUNDED;
    if (holds <= state->least)
        return false;
    state->raised = state->least = holds;
    return true;
}

/* Whether an open choice may change the craft's drag. */
static bool is_drag_open(const best_search *search, const best_state *state)
{
    const pare_craft *craft = state->trial.flown;
    for (size_t s = 0; s < search->slots; s++)
        if (best_open(state, s) && search->slot[s].states_drag)
            return true;
    for (size_t i = 0; i < craft->items; i++)
        if (!craft->item[i].off && pare_item_drag_m2(&craft->item[i]) > 0 &&
            best_is_dragged(search, state, craft->item[i].part))
            return true;
    return false;
}

bool best_raise(const best_search *search, best_state *state)
{
    ring of;
    bool raised = false, again = true;
    if (!ring_of(search, state, &of))
        return false;
    const beat hover = {.need_ratio = best_need(search, "arm.ring")};
    const beat cruise = {.need_ratio = best_need(search, "arm.ring_cruise"),
                         .speed_m_s = cruise_m_s(&state->trial.flown->brief)};
    const bool cruises = cruise.speed_m_s > 0 && !is_drag_open(search, state);
    for (int turn = 0; again && turn < RAISED_MOST; turn++) {
        again = raise_over(state, &of, hover);
        if (cruises)
            again = raise_over(state, &of, cruise) || again;
        raised = raised || again;
    }
    return raised;
}

/* ---- a whole set ---- */

static bool rings_surely(const best_search *search, const best_state *whole, const char *margin,
                         double mass_kg, pare_sheet *probe)
{
    pare_sheet_copy(&whole->trial.sheet, probe);
    probe->rig.mass_kg = mass_kg;
    probe->flown = 0;
    pare_sheet_judge(whole->trial.flown, probe);
    const pare_margin *now = pare_sheet_margin(probe, margin);
    return now && now->ratio < best_need(search, margin) * (1 - INSIDE);
}

int64_t best_rings_until(const best_search *search, const best_state *whole, const char *margin,
                         pare_sheet *probe)
{
    int64_t fails = whole->units, holds = fails + fails / 2;
    if (strncmp(margin, "arm.ring", 8) != 0 ||
        !rings_surely(search, whole, margin, best_least_kg(fails), probe) ||
        !rings_surely(search, whole, margin, best_most_kg(fails), probe))
        return 0;
    if (rings_surely(search, whole, margin, best_most_kg(holds), probe))
        return holds;
    while (holds - fails > FINE) {
        const int64_t middle = fails + (holds - fails) / 2;
        if (rings_surely(search, whole, margin, best_most_kg(middle), probe))
            fails = middle;
        else
            holds = middle;
    }
    return fails;
}
