/* esc.c: what follows when the ESC's kind changes (see esc.h).
 *
 * One-motor ESCs sit out on the arms, each with its own pair of power wires; a four-in-one sits in the
 * stack, and the motor's wires run to it; a controller with ESCs on its board does both jobs, and the
 * ESC goes. Stack screws that held the ESC hold the controller then. Places and gauge for what is
 * brought: common practice, no source. */
#include "advise/esc.h"

#include <math.h>
#include <string.h>

#include "advise/rated.h"
#include "advise/stand_in.h"

#define BIT(kind)          (1u << (kind))
#define FOUR_BELOW_BRAIN_M 6e-3
#define POWER_GAUGE        18.0
#define POWER_SLACK_M      20e-3
#define PLACE_U_M          5e-3

static int item_with(const pare_craft *craft, unsigned work, size_t but)
{
    for (size_t i = 0; i < craft->items; i++)
        if (i != but && !craft->item[i].off && (pare_work_of(craft->item[i].part) & work))
            return (int)i;
    return -1;
}

static bool serves(const char *name, const char *item)
{
    return name && strcmp(name, item) == 0;
}

/* Runs that came with an ESC or carry its current, and those that go out once to each of several:
 * power and signal between stack and arms. A motor's own wires stay. */
static void drop_runs_of(pare_edit *edit, const pare_item *esc, int singles)
{
    for (size_t i = edit->craft->runs; i-- > 0;) {
        const pare_run *run = &edit->craft->run[i];
        const int served = run->carries ? pare_craft_item(edit->craft, run->carries) : -1;
        const bool motors = served >= 0 && edit->craft->item[served].part->kind == PARE_MOTOR;
        if (serves(run->carries, esc->name) || serves(run->included_in, esc->name) ||
            (singles > 1 && run->times == singles && !motors && !run->included_in))
            pare_edit_remove_run(edit, i);
    }
}

static void into_the_stack(pare_edit *edit, pare_item *esc, int singles)
{
    const int brain = pare_craft_doing(edit->craft, PARE_FLIGHT_CONTROLLER);
    if (singles > 1)
        pare_edit_drop(edit, "%s: %d more one-motor ESCs", esc->name, singles - 1);
    drop_runs_of(edit, esc, singles);
    esc->count = 1;
    esc->place = PARE_AT_DEFAULT;
    esc->stations = 0;
    esc->at_u_m = 0;
    if (brain >= 0 && edit->craft->item[brain].place != PARE_AT_DEFAULT) {
        esc->at_m[0] = pare_item_station(edit->craft, &edit->craft->item[brain], 0);
        esc->at_m[0].z -= FOUR_BELOW_BRAIN_M;
        esc->place = PARE_AT_POINTS;
        esc->stations = 1;
        esc->at_u_m = PLACE_U_M;
    }
}

/* The power wires from the middle to ESCs on the arms: a pair each. */
static void bring_power(pare_edit *edit, const pare_item *esc)
{
    pare_craft *craft = edit->craft;
    const char *name = "esc_power";
    if (craft->runs == PARE_RUNS || pare_craft_run(craft, name) >= 0)
        return;
    pare_vec3 arm[PARE_ARMS];
    const size_t arms = pare_craft_arms(craft, PARE_ARMS, arm);
    const double reach_m = arms ? hypot(arm[0].x, arm[0].y) : 0;
    pare_run *run = &craft->run[craft->runs++];
    *run = (pare_run){
        .name = name, .gauge = POWER_GAUGE, .ways = 2, .times = esc->count, .carries = esc->name};
    for (size_t i = 0; i < run->ways; i++)
        run->way_m[i] = PARE_ESC_ALONG_ARM * reach_m + POWER_SLACK_M;
    pare_edit_bring(edit, "run.%s: %d pairs of %g AWG, %.0f mm", name, esc->count, POWER_GAUGE,
                    1e3 * run->way_m[0]);
    pare_basket_wire(edit->basket, run->gauge, 2 * run->way_m[0] * run->times);
}

static void onto_the_arms(pare_edit *edit, pare_item *esc, int motors)
{
    esc->count = motors;
    esc->place = PARE_AT_ARMS;
    esc->along_arm = PARE_ESC_ALONG_ARM;
    esc->stations = 0;
    esc->at_u_m = PLACE_U_M;
    pare_edit_bring(edit, "%s: %d more one-motor ESCs", esc->name, motors - 1);
    bring_power(edit, esc);
}

/* Stack screws stay when one of two boards goes: they hold the other. */
static void hand_screws_over(pare_edit *edit, const char *from, const char *to)
{
    bool held = false;
    for (size_t i = 0; i < edit->craft->joints; i++)
        held =
            held || (edit->craft->joint[i].holds && strcmp(edit->craft->joint[i].holds, to) == 0);
    for (size_t i = 0; !held && i < edit->craft->joints; i++) {
        pare_joint *joint = &edit->craft->joint[i];
        if (joint->holds && strcmp(joint->holds, from) == 0)
            joint->holds = to;
    }
}

static const pare_part *lightest_esc(const pare_edit *edit, size_t brain)
{
    const pare_part *best = NULL;
    pare_craft *craft = edit->craft;
    const int frame = pare_craft_doing(craft, PARE_FRAME);
    const int pack = pare_craft_doing(craft, PARE_PACK);
    size_t escs;
    const pare_part *const *esc = pare_shelf_row(edit->shelf, PARE_ESC_FOUR, &escs);
    for (size_t p = 0; p < escs; p++) {
        const pare_part *part = esc[p];
        if (part->kind != PARE_ESC_FOUR || (best && part->mass_kg.value >= best->mass_kg.value))
            continue;
        if (frame >= 0 && !pare_fit_agrees(&part->fit[PARE_FIT_STACK],
                                           &craft->item[frame].part->fit[PARE_FIT_STACK]))
            continue;
        if (pack >= 0 && pare_volts_rated(part, craft->item[pack].part) != PARE_RATED_HOLDS)
            continue;
        if (part->spec[PARE_SPEC_CONTINUOUS].value <
            craft->item[brain].part->spec[PARE_SPEC_CONTINUOUS].value)
            continue;
        best = part;
    }
    return best;
}

/* A controller without ESCs in place of one with them: one comes back, or is brought. */
static pare_status bring_esc(pare_edit *edit, size_t brain, pare_error *err)
{
    pare_craft *craft = edit->craft;
    for (size_t i = 0; i < craft->items; i++) {
        pare_item *item = &craft->item[i];
        if (item->off && pare_main_work(item->part) == BIT(PARE_ESC_FOUR)) {
            item->off = false;
            pare_edit_bring(edit, "%s: %s", item->name, item->part->id);
            pare_basket_part(edit->basket, item->part, item->count);
            return PARE_OK;
        }
    }
    const pare_part *part = lightest_esc(edit, brain);
    if (!part)
        return pare_fail(err, PARE_BAD_DATA,
                         "'%s' has no ESC on its board, and the bench has no four-in-one that fits",
                         craft->item[brain].part->id);
    size_t added = 0;
    const pare_status status = pare_edit_put_on(edit, part, 1, "esc", brain, &added, err);
    if (status == PARE_OK && craft->item[added].place == PARE_AT_POINTS)
        craft->item[added].at_m[0].z -= FOUR_BELOW_BRAIN_M;
    return status;
}

pare_status pare_esc_follow(pare_edit *edit, size_t index, const pare_part *old, pare_error *err)
{
    pare_craft *craft = edit->craft;
    pare_item *item = &craft->item[index];
    const unsigned esc = BIT(PARE_ESC_FOUR);
    const bool drives = (pare_work_of(item->part) & esc) != 0,
               drove = (pare_work_of(old) & esc) != 0;
    if (!drives && !drove)
        return PARE_OK;
    const int motor = pare_craft_doing(craft, PARE_MOTOR);
    const int motors = motor >= 0 ? craft->item[motor].count : 4;
    if (drives && item->part->kind != PARE_ESC_ONE && motors != 4)
        return pare_fail(err, PARE_BAD_DATA, "'%s' drives four motors, craft '%s' has %d",
                         item->part->id, craft->name, motors);
    if (!drives)
        return bring_esc(edit, index, err);
    if (!drove) {
        const int other = item_with(craft, esc, index);
        if (other >= 0) {
            hand_screws_over(edit, craft->item[other].name, item->name);
            pare_edit_take_off(edit, (size_t)other);
            drop_runs_of(edit, &craft->item[other], craft->item[other].count);
        }
        pare_edit_reach(edit);
    } else if (old->kind == PARE_ESC_ONE && item->part->kind == PARE_ESC_FOUR) {
        into_the_stack(edit, item, item->count);
        pare_edit_reach(edit);
    } else if (old->kind == PARE_ESC_FOUR && item->part->kind == PARE_ESC_ONE) {
        onto_the_arms(edit, item, motors);
    }
    return PARE_OK;
}
