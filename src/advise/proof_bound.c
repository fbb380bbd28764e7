/* proof_bound.c: what all sets below a node weigh at the least (see proof.h).
 *
 * A sum over the ledger of the node's craft. A line that nothing still open can touch counts as it is, or as
 * the lightest of its own ways; one whose item is open counts as the lightest option, less all screws and wire
 * that may come in it; one that something open may take off, change or move counts as nothing, or, where it
 * came in another part, as wholly taken out of it. What swaps bring adds grams and is not counted. So no set
 * can weigh less, whatever drags what along.
 *
 * What a swap can touch beyond its own line, read off advise/apply_item.c and what that calls: an ESC of
 * another sort takes ESCs off and the wires that went to them, and moves where others end; work that another
 * part does as well takes a camera or receiver off; what comes in a part takes a thing of its kind off, and
 * screws and runs of its names become its own; adapters, links and what lies between may lie idle; a pack may
 * change its plug's mate; whatever held or served what came off goes with it. */
#include <math.h>
#include <string.h>

#include "advise/proof_inside.h"
#include "advise/stand_in.h"
#include "base/text.h"
#include "craft/arm_facts.h"
#include "craft/gauges.h"
#include "physics/nut.h"
#include "physics/wire.h"

#define BIT(kind)       (1u << (kind))
#define SHORTEST_COAX_M 15e-3 /* the slack alone: no coax is cut shorter (craft/place.c) */

int64_t proof_units(double mass_kg)
{
    return (int64_t)llround(mass_kg * 1e7);
}

int64_t proof_weigh(const pare_assembly *assembly)
{
    int64_t units = 0;
    for (size_t i = 0; i < assembly->lines; i++)
        units += proof_units(assembly->line[i].mass_kg.value);
    return units;
}

double proof_least_kg(int64_t units)
{
    const int64_t rounded = PARE_LINES / 2 + 1; /* half a unit a line, at most */
    return 1e-7 * (double)(units - rounded);
}

/* ---- an option by itself ---- */

static double included_kg(const pare_part *part)
{
    double sum_kg = 0;
    for (size_t i = 0; i < part->includes; i++) {
        const pare_include *in = &part->include[i];
        double each_kg = 0;
        if (in->what == PARE_INCLUDES_RUN && in->gauge > 0) {
            each_kg = in->length_m * pare_wire_kg_per_m(in->gauge, in->outer_m);
        } else if (in->what == PARE_INCLUDES_JOINT) {
            const pare_fastener_size size = {.standard = in->standard,
                                             .thread = in->thread,
                                             .length_m = in->length_m,
                                             .across_m = in->across_m,
                                             .tapped_m = in->tapped_m};
            if (pare_fastener_kg(&size, in->material, &each_kg, NULL) != PARE_OK)
                each_kg = part->mass_kg.value; /* not known: all of it may be screws */
        }
        sum_kg += in->count * each_kg;
    }
    return sum_kg;
}

/* A four-in-one stands for several, a print for two ties. */
static int fewest(const pare_item *now, const pare_part *part)
{
    if (part->kind != now->part->kind && (pare_work_of(part) & BIT(PARE_ESC_FOUR)))
        return 1;
    if ((part->kind == PARE_TIE) != (now->part->kind == PARE_TIE))
        return now->count > 1 ? now->count / 2 : 1;
    return now->count;
}

static int most(const pare_item *now, const pare_part *part)
{
    return part->kind == now->part->kind ? now->count : 4 * now->count + 8;
}

void proof_weigh_option(const pare_item *now, const pare_part *part, proof_sum *sum)
{
    pare_item cut = {.part = part};
    if (part->kind == PARE_ANTENNA || part->kind == PARE_PIGTAIL)
        cut.cut_length_m =
            now->cut_length_m > 0 ? fmin(now->cut_length_m, SHORTEST_COAX_M) : SHORTEST_COAX_M;
    const int count = fewest(now, part);
    sum->least = proof_units(count * fmax(pare_item_each_kg(&cut), 0));
    if (part->includes > 0)
        sum->least -= proof_units(now->count * included_kg(part)) + 1;
    sum->power_w = count * part->spec[PARE_SPEC_POWER].value;
    sum->power_most_w = most(now, part) * part->spec[PARE_SPEC_POWER].value;
}

/* ---- what is still open ---- */

/* What open choices may do; what they drop and leave idle, of all but one. */
typedef struct outlook {
    unsigned drops, quiet;
    bool shifts;
} outlook;

static outlook look(const proof_space *space, const proof_state *state, size_t but)
{
    outlook o = {0, 0, false};
    for (size_t c = 0; c < space->choices; c++) {
        if (!proof_open(state, c))
            continue;
        const proof_sum *sum = proof_sum_of(space, state, c);
        o.drops |= c == but ? 0 : sum->drops;
        o.quiet |= c == but || !sum->named ? 0 : space->choice[c].quiet;
        o.shifts = o.shifts || sum->shifts;
    }
    return o;
}

bool proof_at_risk(const proof_space *space, const proof_state *state, size_t item)
{
    const pare_part *part = state->trial.flown->item[item].part;
    const unsigned char own = item < PARE_ITEMS ? space->choice_of[item] : PROOF_NONE;
    const outlook o = look(space, state, own);
    const unsigned kinds = BIT(part->kind) | part->does;
    if (kinds & o.drops)
        return true;
    return (kinds & o.quiet) != 0 && (part->kind == PARE_CONNECTOR || proof_lies_between(part) ||
                                      (own != PROOF_NONE && proof_open(state, own) &&
                                       proof_sum_of(space, state, own)->between));
}

/* Whether an item stays where it is, and on. */
static bool stays(const proof_space *space, const proof_state *state, size_t item, bool threads)
{
    const unsigned char c = space->choice_of[item];
    if (proof_at_risk(space, state, item))
        return false;
    if (c == PROOF_NONE || !proof_open(state, c))
        return true;
    const proof_sum *sum = proof_sum_of(space, state, c);
    return !sum->off && !sum->shifts && !(threads && sum->threads);
}

static bool is_open(const proof_space *space, const proof_state *state, const char *name)
{
    const int item = name ? pare_craft_item(state->trial.flown, name) : -1;
    const unsigned char c = item >= 0 ? space->choice_of[item] : PROOF_NONE;
    return c != PROOF_NONE && proof_open(state, c);
}

/* Whether a part that may yet come brings a run or screws of a name. */
static bool may_be_brought(const proof_space *space, const proof_state *state, pare_included what,
                           const char *name)
{
    for (size_t c = 0; c < space->choices; c++) {
        if (!proof_open(state, c) || !proof_sum_of(space, state, c)->brings)
            continue;
        for (size_t i = 0; i < space->choice[c].options; i++)
            if (proof_allowed(space, state, c, i) && space->choice[c].option[i].name &&
                pare_part_brings(space->choice[c].option[i].part, what, name))
                return true;
    }
    return false;
}

static bool group_is_open(const proof_space *space, const proof_state *state)
{
    for (size_t g = 0; g < PROOF_GROUP; g++)
        if (space->group[g] != PROOF_NONE && proof_open(state, space->group[g]))
            return true;
    return false;
}

/* Whether what brought something along is decided and stays. */
static bool owner_stays(const proof_space *space, const proof_state *state, const char *owner)
{
    const int item = owner ? pare_craft_item(state->trial.flown, owner) : -1;
    return item < 0 || (!is_open(space, state, owner) && stays(space, state, (size_t)item, false));
}

bool proof_joint_sure(const proof_space *space, const proof_state *state, size_t index)
{
    const pare_joint *joint = &state->trial.flown->joint[index];
    const int held = joint->holds ? pare_craft_item(state->trial.flown, joint->holds) : -1;
    return !group_is_open(space, state) && owner_stays(space, state, joint->included_in) &&
           (held < 0 || stays(space, state, (size_t)held, true)) &&
           !may_be_brought(space, state, PARE_INCLUDES_JOINT, joint->name);
}

/* Whether a run stays on, and where its ends are. */
static bool run_sure(const proof_space *space, const proof_state *state, const pare_run *run)
{
    const int served = run->carries ? pare_craft_item(state->trial.flown, run->carries) : -1;
    return !group_is_open(space, state) && !look(space, state, PROOF_NONE).shifts &&
           (served < 0 || stays(space, state, (size_t)served, false)) &&
           owner_stays(space, state, run->included_in) &&
           !may_be_brought(space, state, PARE_INCLUDES_RUN, run->name);
}

static bool run_decided(const proof_space *space, const proof_state *state, size_t run)
{
    if (pare_run_of_power(state->trial.flown, &state->trial.flown->run[run]))
        return proof_wired(space, state) || (state->step == PROOF_STEP_POWER && run < state->at);
    return state->step > PROOF_STEP_RUN || (state->step == PROOF_STEP_RUN && run < state->at);
}

bool proof_done(const proof_space *space, const proof_state *state, unsigned work)
{
    if (!state->built)
        return false;
    for (size_t c = 0; c < space->choices; c++) {
        if (!proof_open(state, c))
            continue;
        const pare_part *now = state->trial.flown->item[space->choice[c].item].part;
        const proof_sum *sum = proof_sum_of(space, state, c);
        if ((pare_work_of(now) & work) || sum->shifts || (sum->drops & work) ||
            ((BIT(PARE_CONNECTOR) & work) && (space->choice[c].quiet & work)))
            return false;
    }
    return true;
}

bool proof_run_done(const proof_space *space, const proof_state *state, const char *name)
{
    const int run = pare_craft_run(state->trial.flown, name);
    return run >= 0 && run_decided(space, state, (size_t)run) &&
           run_sure(space, state, &state->trial.flown->run[run]);
}

bool proof_run_range(const proof_space *space, const proof_state *state, size_t index,
                     pare_run *shortest, pare_run *thinnest)
{
    const pare_run *run = &state->trial.flown->run[index];
    *shortest = *thinnest = *run;
    if (run_decided(space, state, index))
        return true;
    const pare_run_choices choices = pare_run_choices_of(state->trial.flown, run);
    for (size_t i = 0; choices.length_m > 0 && i < run->ways; i++)
        shortest->way_m[i] = fmin(run->way_m[i], choices.length_m);
    if (choices.gauges > 0) {
        thinnest->gauge = choices.gauge[choices.gauges - 1];
        thinnest->outer_m = 0;
    }
    return run_sure(space, state, run);
}

/* ---- lines ---- */

static int64_t joint_units(const pare_joint *joint)
{
    double mass_kg;
    if (pare_joint_kg(joint, &mass_kg, NULL) != PARE_OK)
        return 0;
    return proof_units(joint->included_in ? mass_kg - joint->included_kg : mass_kg);
}

/* What screws that are not sure weigh at the least: nothing, or all that came in a part taken out of it. */
static int64_t gone(const char *included_in, double included)
{
    return included_in ? -proof_units(included) - 1 : 0;
}

static bool is_tip(const proof_state *state, size_t joint)
{
    return pare_joint_at_tips(state->trial.flown, &state->trial.flown->joint[joint]);
}

/* Whether a joint's ways are decided: of its sort, those before the one that is next. */
static bool joint_decided(const proof_state *state, size_t joint)
{
    const proof_step of = is_tip(state, joint) ? PROOF_STEP_TIP : PROOF_STEP_JOINT;
    return state->step > of || (state->step == of && joint < state->at);
}

static int64_t joint_least(const proof_space *space, const proof_state *state, size_t joint,
                           int64_t units)
{
    const pare_joint *now = &state->trial.flown->joint[joint];
    if (joint_decided(state, joint))
        return units;
    if (!proof_joint_sure(space, state, joint))
        return gone(now->included_in, now->included_kg);
    if (state->held[joint])
        return state->held_least[joint];
    int64_t least = units;
    const size_t ways = proof_joint_ways(space, state, joint);
    for (size_t i = 0; i < ways; i++) {
        proof_way way;
        proof_joint_way(space, state, joint, i, &way);
        const int64_t its = joint_units(&way.joint);
        least = its < least ? its : least;
    }
    return least;
}

static int64_t run_least(const proof_space *space, const proof_state *state, size_t index,
                         int64_t units)
{
    const pare_craft *craft = state->trial.flown;
    const pare_run *now = &craft->run[index];
    if (!run_sure(space, state, now))
        return gone(now->included_in, now->included_kg);
    if (run_decided(space, state, index))
        return units;
    const pare_run_choices choices = pare_run_choices_of(craft, now);
    int64_t least = units;
    for (size_t g = 0; g <= choices.gauges; g++) {
        pare_run run = *now;
        if (g > 0) {
            run.gauge = choices.gauge[g - 1];
            run.outer_m = 0;
        }
        for (size_t i = 0; choices.length_m > 0 && i < run.ways; i++)
            run.way_m[i] = fmin(run.way_m[i], choices.length_m);
        const double mass_kg = pare_run_kg(&run);
        const int64_t its = proof_units(run.included_in ? mass_kg - run.included_kg : mass_kg);
        least = its < least ? its : least;
    }
    return least;
}

/* Coax may be cut as far as it need not reach; where its chain may yet change, to the slack. */
static int64_t coax_least(const proof_space *space, const proof_state *state, size_t index,
                          int64_t units)
{
    const pare_item *item = &state->trial.flown->item[index];
    if ((item->part->kind != PARE_ANTENNA && item->part->kind != PARE_PIGTAIL) ||
        state->step > PROOF_STEP_COAX || (state->step == PROOF_STEP_COAX && index < state->at))
        return units;
    pare_item cut = *item;
    cut.cut_length_m = look(space, state, PROOF_NONE).quiet & BIT(PARE_PIGTAIL)
                           ? SHORTEST_COAX_M
                           : pare_coax_choice_m(state->trial.flown, item);
    if (!(cut.cut_length_m > 0))
        return units;
    const int64_t least = proof_units(item->count * fmax(pare_item_each_kg(&cut), 0));
    return least < units ? least : units;
}

static int64_t item_least(const proof_space *space, const proof_state *state, size_t index,
                          int64_t units)
{
    const unsigned char c = space->choice_of[index];
    const int64_t least = c != PROOF_NONE && proof_open(state, c)
                              ? proof_sum_of(space, state, c)->least
                              : coax_least(space, state, index, units);
    return least > 0 && proof_at_risk(space, state, index) ? 0 : least;
}

void proof_bound(const proof_space *space, proof_state *state)
{
    const pare_assembly *assembly = &state->trial.sheet.assembly;
    int64_t sum = 0;
    for (size_t i = 0; i < assembly->lines; i++) {
        const pare_line *line = &assembly->line[i];
        const int64_t units = proof_units(line->mass_kg.value);
        switch (line->of) {
        case PARE_LINE_ITEM:
            sum += item_least(space, state, line->index, units);
            break;
        case PARE_LINE_JOINT:
            sum += joint_least(space, state, line->index, units);
            break;
        case PARE_LINE_RUN:
            sum += run_least(space, state, line->index, units);
            break;
        case PARE_LINE_UNLISTED:
            sum += units;
            break;
        }
    }
    state->bound = sum > state->floor ? sum : state->floor;
}

int64_t proof_bound_with(const proof_space *space, proof_state *state, size_t choice, size_t nth)
{
    const unsigned char allow = state->allow[choice];
    const uint32_t one = state->one[choice];
    const int64_t bound = state->bound;
    state->allow[choice] = PROOF_ONE;
    state->one[choice] = (uint32_t)nth;
    proof_bound(space, state);
    const int64_t with = state->bound;
    state->allow[choice] = allow;
    state->one[choice] = one;
    state->bound = bound;
    return with;
}

/* ---- screws that hold ---- */

void proof_lightest(const proof_space *space, const proof_state *state, pare_craft *lightest)
{
    pare_craft_copy(state->trial.flown, lightest);
    for (size_t i = 0; i < lightest->items; i++) {
        pare_item *item = &lightest->item[i];
        const unsigned char c = space->choice_of[i];
        if (item->off || proof_at_risk(space, state, i)) {
            item->off = true;
            continue;
        }
        if (c == PROOF_NONE || !proof_open(state, c))
            continue;
        const pare_part *part = NULL;
        bool counts_change = false;
        for (size_t k = 0; k < space->choice[c].options; k++) {
            const pare_part *other = space->choice[c].option[k].part;
            if (!other || !proof_allowed(space, state, c, k))
                continue;
            counts_change = counts_change || other->kind != item->part->kind;
            part = !part || other->mass_kg.value < part->mass_kg.value ? other : part;
        }
        item->off = proof_sum_of(space, state, c)->off;
        item->part = part ? part : item->part;
        item->count = counts_change ? 1 : item->count;
    }
}

void proof_hold(const proof_space *space, proof_room *room, proof_state *state)
{
    const bool flown = proof_wired(space, state);
    proof_lightest(space, state, &room->lightest);
    for (size_t i = 0; i < state->trial.flown->joints; i++) {
        int64_t least = PROOF_NEVER;
        if (joint_decided(state, i) || !proof_joint_sure(space, state, i))
            continue;
        const size_t ways = proof_joint_ways(space, state, i);
        for (size_t k = 0; k < ways; k++) {
            proof_way way;
            proof_joint_way(space, state, i, k, &way);
            const int64_t units = joint_units(&way.joint);
            if (units < least && !proof_screws_fail(space, room, state, &way.joint, flown))
                least = units;
        }
        if (least == PROOF_NEVER)
            continue;
        state->held[i] = true;
        state->held_least[i] = least;
    }
    proof_bound(space, state);
}
