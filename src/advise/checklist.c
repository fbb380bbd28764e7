/* checklist.c: the whole checklist: what comes first, the steps, what is looked at before it flies (see
 * checklist.h). All that is said here of safety is common practice of the trade, no source. */
#include "advise/checklist.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/checklist_inside.h"
#include "advise/swap.h"
#include "advise/take_inside.h"
#include "advise/taken.h"
#include "craft/sheet.h"

#define FELT 0.02 /* a change of quickness below this share is not felt */

/* The states that the swaps lead through. Large: on the heap. */
typedef struct states {
    pare_craft craft[2], loaded;
    pare_sheet sheet;
    int now;
} states;

typedef struct quick {
    double roll, pitch; /* NAN: not known */
} quick;

static void put_first(pare_checking *c, const char *text)
{
    if (c->list->firsts < PARE_CHECK_LINES)
        c->list->first[c->list->firsts++] = text;
}

static void put_check(pare_checking *c, const char *text)
{
    c->failed |= !text;
    if (text && c->list->checks < PARE_CHECK_LINES)
        c->list->check[c->list->checks++] = text;
}

/* ---- what quickness does to the gains ---- */

static quick quick_of(const pare_craft *craft, states *s)
{
    quick q = {(double)NAN, (double)NAN};
    if (pare_craft_load(craft, craft->loadouts ? 0 : -1, &s->loaded, NULL) != PARE_OK ||
        pare_sheet_compute(&s->loaded, false, &s->sheet, NULL) != PARE_OK)
        return q;
    const pare_sheet_figure *figure = s->sheet.figure;
    if (figure[PARE_ROLL].exists)
        q.roll = figure[PARE_ROLL].value;
    if (figure[PARE_PITCH].exists)
        q.pitch = figure[PARE_PITCH].value;
    return q;
}

/* By how much, in per cent, a gain must change so that the loop answers as before: the same output
 * makes so much more or less angular acceleration. 0 where it is not felt. */
static double gain_percent(double before, double after)
{
    if (!(before > 0) || !(after > 0) || fabs(after / before - 1) < FELT)
        return 0;
    return 100 * (before / after - 1);
}

static void check_gains(pare_checking *c, quick before, quick after)
{
    const double roll = gain_percent(before.roll, after.roll),
                 pitch = gain_percent(before.pitch, after.pitch);
    char text[200];
    int used = 0;
    if (roll == 0 && pitch == 0)
        return;
    used = snprintf(text, sizeof text, "control gains: ");
    if (roll != 0)
        used += snprintf(text + used, sizeof text - (size_t)used, "roll %s by %.0f %%",
                         roll < 0 ? "down" : "up", fabs(roll));
    if (pitch != 0)
        used += snprintf(text + used, sizeof text - (size_t)used, "%spitch %s by %.0f %%",
                         roll != 0 ? ", " : "", pitch < 0 ? "down" : "up", fabs(pitch));
    snprintf(text + used, sizeof text - (size_t)used,
             " to start with: by that much the sheet expects it to answer %s",
             roll < 0 || pitch < 0 ? "quicker" : "slower");
    put_check(c, pare_arena_text(c->arena, text));
}

/* ---- the lines ---- */

static void put_firsts(pare_checking *c)
{
    put_first(c, "pack out and away from the bench; propellers off, before any work on a powered "
                 "craft");
    if (c->list->solder_joints)
        put_first(c,
                  "soldering: eyes shielded, air moving, nothing that burns below the iron; tin "
                  "both sides, leave no strand loose, let each joint cool before you pull at it");
    if (c->pack)
        put_first(c,
                  "lithium packs: never cut, crushed, shorted or left charging alone; a puffed or "
                  "dented one goes to where batteries are collected, not into the craft");
}

static void check_power(pare_checking *c)
{
    if (!c->wiring && !c->motor_screws)
        return;
    put_check(c,
              "meter on continuity: from each motor screw to each of that motor's windings there "
              "must be none");
    if (c->wiring)
        put_check(c, "meter across the pack's plug, no pack in: no short between plus and minus (a "
                     "capacitor beeps once and then climbs); plus on plus, looked at twice");
    put_check(c, "first power without propellers and through something that limits the current (a "
                 "bench supply set low, or a bulb in series): if it lights or anything warms, pack "
                 "out and look again");
}

static void check_parts(pare_checking *c)
{
    if (c->antenna)
        put_check(c, "antenna on before power: a video transmitter without one burns out");
    if (c->aluminium)
        put_check(c, "aluminium screws: by hand only, not too tight, and not again after a crash: "
                     "new ones then");
    if (c->fewer)
        put_check(c, "fewer screws: each bears more than before; look at them after each flight, "
                     "with the pack off");
    if (c->pack)
        put_check(c, "the charger set to this pack's cells and capacity; strap and plug pulled at "
                     "before each flight");
    if (c->propellers)
        put_check(c, "each propeller of the right hand on its motor, and its nut tight");
}

static void check_flight(pare_checking *c, quick before, quick after)
{
    check_gains(c, before, after);
    put_check(c, "propellers on last, the right way round");
    put_check(c,
              "hover 30 s, low and away from people; land, pack out, feel each motor: one that is "
              "hotter than the others, or too hot to hold, has a reason");
    put_check(c,
              "rules on mass, places and insurance differ: check your local ones before it flies");
}

/* ---- minutes ---- */

void pare_check_minutes(const pare_craft *before, const pare_craft *after, pare_work_sum *sum)
{
    pare_checklist list = {0};
    pare_checking c = {.list = &list, .bare = true};
    pare_check_difference(&c, before, after);
    for (int g = 0; g < PARE_OPENINGS; g++) {
        sum->minutes[g] += list.group[g].minutes;
        sum->opened[g] = sum->opened[g] || list.group[g].steps > 0;
    }
}

double pare_work_sum_least_min(const pare_work_sum *sum)
{
    double minutes = 0;
    for (int g = 0; g < PARE_OPENINGS; g++)
        if (sum->opened[g])
            minutes += sum->minutes[g] + pare_work_opening_min((pare_opening)g);
    return minutes;
}

double pare_work_sum_min(const pare_work_sum *sum, const pare_craft *after)
{
    const int propeller = pare_craft_doing(after, PARE_PROPELLER);
    bool any = false;
    for (int g = 0; g < PARE_OPENINGS; g++)
        any = any || sum->opened[g];
    /* Off and on again, where they are not exchanged anyway. */
    const bool again = any && propeller >= 0 && !sum->opened[PARE_OPENING_PROPELLERS];
    return pare_work_sum_least_min(sum) +
           (again ? pare_work_part_min(PARE_PROPELLER, after->item[propeller].count) : 0);
}

static pare_work_sum sum_of(const pare_checklist *list)
{
    pare_work_sum sum = {0};
    for (int g = 0; g < PARE_OPENINGS; g++) {
        sum.minutes[g] = list->group[g].minutes;
        sum.opened[g] = list->group[g].steps > 0;
    }
    return sum;
}

/* ---- the steps ---- */

static void finish(pare_checking *c, const pare_craft *craft)
{
    pare_checklist *list = c->list;
    if (c->esc) /* the other end of the motors' wires: soldered once */
        list->group[PARE_OPENING_ARMS].solder_joints -= c->motor_joints;
    const pare_work_sum sum = sum_of(list);
    list->minutes = pare_work_sum_min(&sum, craft);
    for (int g = 0; g < PARE_OPENINGS; g++) {
        pare_check_group *group = &list->group[g];
        if (!sum.opened[g])
            continue;
        list->work = true;
        group->minutes += pare_work_opening_min((pare_opening)g);
        list->solder_joints += group->solder_joints;
    }
}

/* The screws that close the craft. */
static void put_top_tools(pare_checking *c, const pare_craft *craft)
{
    const int frame = pare_craft_doing(craft, PARE_FRAME);
    if (c->list->group[PARE_OPENING_TOP].steps && frame >= 0)
        pare_check_keys(c, PARE_OPENING_TOP, craft, craft->item[frame].name);
}

typedef struct walking {
    pare_checking *c;
    const pare_bench *bench;
    pare_units *units;
    states *s;
    quick before, after; /* the first of the wanted swaps, the last of them */
} walking;

/* One swap on the craft as it is, and what it asks for. */
static pare_status step(walking *w, const pare_taken *taken, bool wanted, pare_error *err)
{
    states *s = w->s;
    const pare_craft *is = &s->craft[s->now], *then = &s->craft[1 - s->now];
    const pare_status status =
        pare_taken_apply(w->units, w->bench, taken, is, &s->craft[1 - s->now], err);
    if (status != PARE_OK)
        return status;
    if (wanted) {
        if (w->c->list->swaps++ == 0)
            w->before = quick_of(is, s);
        w->after = quick_of(then, s);
        w->c->quiet = pare_taken_is_on(taken);
        pare_check_difference(w->c, is, then);
    }
    s->now = 1 - s->now;
    return PARE_OK;
}

/* First what is on the craft, then the plans; one that does not go on has no work. */
static pare_status walk(walking *w, const pare_craft *first, const bool wanted[], pare_error *err)
{
    w->s->craft[0] = *first;
    w->s->now = 0;
    for (size_t i = 0; i < first->takens; i++) {
        const pare_status status = pare_taken_is_on(&first->taken[i])
                                       ? step(w, &first->taken[i], wanted[i], err)
                                       : PARE_OK;
        if (status != PARE_OK)
            return status;
    }
    for (size_t i = 0; i < first->takens; i++)
        if (!pare_taken_is_on(&first->taken[i]) &&
            step(w, &first->taken[i], wanted[i], err) == PARE_UNAVAILABLE)
            return PARE_UNAVAILABLE;
    return PARE_OK;
}

/* What comes before and after the steps. */
static void round_off(walking *w)
{
    const pare_craft *after = &w->s->craft[w->s->now];
    w->c->quiet = false;
    finish(w->c, after);
    put_top_tools(w->c, after);
    if (w->c->list->work)
        put_firsts(w->c);
    check_power(w->c);
    check_parts(w->c);
    check_flight(w->c, w->before, w->after);
}

pare_status pare_checklist_make(const pare_bench *bench, const pare_craft *first,
                                const bool wanted[], pare_arena *arena, pare_checklist *list,
                                pare_error *err)
{
    *list = (pare_checklist){0};
    pare_checking c = {.list = list, .arena = arena};
    walking w = {.c = &c, .bench = bench, .units = pare_units_open(), .s = malloc(sizeof *w.s)};
    pare_status status = w.units && w.s ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = walk(&w, first, wanted, err);
    if (status == PARE_OK && list->swaps)
        round_off(&w);
    free(w.s);
    pare_units_close(w.units);
    return status == PARE_OK && c.failed ? pare_no_memory(err) : status;
}

/* The deepest opening that has had more steps since. */
static pare_opening opening_since(const pare_checklist *list, const size_t steps[PARE_OPENINGS])
{
    for (int g = PARE_OPENINGS; g-- > 0;)
        if (list->group[g].steps > steps[g])
            return (pare_opening)g;
    return PARE_OPENING_OUTSIDE;
}

pare_status pare_checklist_plan(const pare_bench *bench, const pare_craft *craft, size_t count,
                                const char *const swap[], pare_arena *arena, pare_checklist *list,
                                pare_opening opening[], pare_error *err)
{
    *list = (pare_checklist){.swaps = count};
    pare_checking c = {.list = list, .arena = arena};
    walking w = {.c = &c, .bench = bench, .s = malloc(sizeof *w.s)};
    pare_status status = w.s ? PARE_OK : pare_no_memory(err);
    if (status != PARE_OK)
        return status;
    states *s = w.s;
    s->craft[0] = *craft;
    s->now = 0;
    w.before = quick_of(craft, s);
    for (size_t i = 0; status == PARE_OK && i < count; i++) {
        size_t steps[PARE_OPENINGS];
        for (int g = 0; g < PARE_OPENINGS; g++)
            steps[g] = list->group[g].steps;
        status =
            pare_swap_apply(bench, &s->craft[s->now], swap[i], &s->craft[1 - s->now], NULL, err);
        if (status != PARE_OK)
            break;
        pare_check_difference(&c, &s->craft[s->now], &s->craft[1 - s->now]);
        opening[i] = opening_since(list, steps);
        s->now = 1 - s->now;
    }
    if (status == PARE_OK) {
        w.after = quick_of(&s->craft[s->now], s);
        round_off(&w);
    }
    free(w.s);
    return status == PARE_OK && c.failed ? pare_no_memory(err) : status;
}
