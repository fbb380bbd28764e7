/* checklist_steps.c: the work between two states of a craft, step by step (see checklist.h).
 *
 * Minutes are those of the swap's own row for the thing that it changes; what comes or goes along adds
 * its own. A run or joint that came with a part is changed with that part and is no step of its own. */
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "advise/checklist_inside.h"
#include "advise/difference.h"
#include "base/text.h"
#include "physics/nut.h"

enum { TEXT = 200 };

typedef struct pair {
    const pare_craft *before, *after;
} pair;

/* ---- putting things down ---- */

static bool is_there(size_t count, const char *const texts[], const char *text)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(texts[i], text) == 0)
            return true;
    return false;
}

#if defined(__GNUC__)
__attribute__((format(printf, 5, 6)))
#endif
static void
put_step(pare_checking *c, pare_opening opening, double minutes, int solder, const char *format,
         ...)
{
    pare_check_group *group = &c->list->group[opening];
    char text[TEXT];
    if (c->quiet)
        return;
    group->minutes += minutes;
    group->solder_joints += solder;
    if (c->bare)
        group->steps = 1;
    if (c->bare || group->steps == PARE_CHECK_STEPS)
        return;
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    group->step[group->steps] = pare_arena_text(c->arena, text);
    c->failed |= !group->step[group->steps];
    group->steps += group->step[group->steps] != NULL;
}

static void put_tool(pare_checking *c, pare_opening opening, const char *text)
{
    pare_check_group *group = &c->list->group[opening];
    if (c->quiet || c->bare || group->tools == PARE_CHECK_TOOLS ||
        is_there(group->tools, group->tool, text))
        return;
    const char *copy = pare_arena_text(c->arena, text);
    c->failed |= !copy;
    if (copy)
        group->tool[group->tools++] = copy;
}

static void put_key(pare_checking *c, pare_opening opening, const pare_joint *joint)
{
    char text[TEXT];
    const double key_m = pare_screw_key_m(joint->standard, &joint->thread);
    const double flats_m = joint->standard == PARE_STANDOFF_HEX ? joint->across_m
                           : joint->standard == PARE_ISO4032 || joint->standard == PARE_ISO7040
                               ? pare_nut_flats_m(&joint->thread)
                               : 0;
    const double thread_mm = 1e3 * joint->thread.nominal_m;
    if (joint->standard == PARE_ISO7089 || joint->standard == PARE_STANDOFF_ROUND)
        return;
    if (key_m > 0)
        snprintf(text, sizeof text, "%.2g mm hex key (M%.2g %s)", 1e3 * key_m, thread_mm,
                 pare_fastener_standard(joint->standard));
    else if (flats_m > 0)
        snprintf(text, sizeof text, "%.2g mm spanner (M%.2g %s, %s)", 1e3 * flats_m, thread_mm,
                 pare_fastener_words(joint->standard), pare_fastener_standard(joint->standard));
    else if (joint->standard == PARE_ISO1207)
        snprintf(text, sizeof text, "a flat screwdriver (M%.2g ISO 1207)", thread_mm);
    else
        snprintf(text, sizeof text, "a key for M%.2g screws", thread_mm);
    put_tool(c, opening, text);
}

void pare_check_keys(pare_checking *c, pare_opening opening, const pare_craft *craft,
                     const char *held)
{
    for (size_t i = 0; i < craft->joints; i++)
        if (craft->joint[i].holds && strcmp(craft->joint[i].holds, held) == 0)
            put_key(c, opening, &craft->joint[i]);
}

/* ---- items ---- */

static void put_part_tools(pare_checking *c, pare_opening opening, const pair *p,
                           const pare_item *item, const pare_part *part)
{
    if (c->bare)
        return;
    pare_check_keys(c, opening, p->before, item->name);
    pare_check_keys(c, opening, p->after, item->name);
    const pare_fit *shaft = &part->fit[PARE_FIT_SHAFT];
    if (part->kind == PARE_PROPELLER_NUT || part->kind == PARE_PROPELLER) {
        const pare_thread thread = {.nominal_m = shaft->count ? shaft->any[0].high : 0};
        const double flats_m = pare_nut_flats_m(&thread);
        char text[TEXT];
        snprintf(text, sizeof text, "%.2g mm spanner (M%.2g nut, ISO 4032)", 1e3 * flats_m,
                 1e3 * thread.nominal_m);
        put_tool(c, opening, flats_m > 0 ? text : "a tool for the propellers");
    }
    if (part->kind == PARE_TIE)
        put_tool(c, opening, "side cutters");
    if (pare_work_part_solder(part->kind, 1))
        put_tool(c, opening, "soldering iron");
}

static void mark_part(pare_checking *c, const pare_part *part)
{
    switch (part->kind) {
    case PARE_MOTOR:
    case PARE_FRAME:
        c->motor_screws = true;
        c->wiring = c->wiring || part->kind == PARE_MOTOR;
        break;
    case PARE_ESC_FOUR:
    case PARE_CONTROLLER_WITH_ESC:
        c->esc = c->esc || !c->quiet;
        c->wiring = true;
        break;
    case PARE_ESC_ONE:
    case PARE_FLIGHT_CONTROLLER:
    case PARE_REGULATOR:
    case PARE_CONNECTOR:
    case PARE_CAPACITOR:
        c->wiring = true;
        break;
    case PARE_PACK:
        c->pack = true;
        break;
    case PARE_PROPELLER:
    case PARE_PROPELLER_NUT:
        c->propellers = true;
        break;
    case PARE_ANTENNA:
    case PARE_PIGTAIL:
    case PARE_VIDEO_TRANSMITTER:
        c->antenna = true;
        break;
    case PARE_ADAPTER:
        c->antenna = c->antenna || part->ends[0] != NULL;
        break;
    default:
        break;
    }
}

/* "4 bu-thick" */
static const char *so_many(char text[64], int count, const pare_part *part)
{
    if (count > 1)
        snprintf(text, 64, "%d %.48s", count, part->id);
    else
        snprintf(text, 64, "%.48s", part->id);
    return text;
}

static void check_item(pare_checking *c, const pair *p, const pare_item *was, const pare_item *is)
{
    const bool was_on = was && !was->off, is_on = !is->off;
    const pare_opening opening = pare_work_opening(is_on ? is->part : was->part);
    char then[64], now[64];
    if (was_on && !is_on) {
        put_step(c, opening, pare_work_off_min(was->part->kind, was->count),
                 pare_work_part_solder(was->part->kind, was->count), "%s: %s off", was->name,
                 so_many(then, was->count, was->part));
    } else if (!was_on && is_on) {
        put_step(c, opening, pare_work_part_min(is->part->kind, is->count),
                 pare_work_part_solder(is->part->kind, is->count), "%s: %s on", is->name,
                 so_many(now, is->count, is->part));
    } else if (is->part->kind == PARE_FRAME) {
        put_step(c, opening, pare_work_part_min(is->part->kind, is->count), 0,
                 "%s: everything moved from %s to %s", is->name, was->part->id, is->part->id);
    } else if (was->part != is->part || was->count != is->count) {
        put_step(c, opening, pare_work_part_min(is->part->kind, is->count),
                 pare_work_part_solder(is->part->kind, is->count), "%s: %s out, %s in", is->name,
                 so_many(then, was->count, was->part), so_many(now, is->count, is->part));
    }
    if (is->part->kind == PARE_MOTOR && !c->quiet)
        c->motor_joints += pare_work_part_solder(PARE_MOTOR, is->count);
    put_part_tools(c, opening, p, is, is_on ? is->part : was->part);
    mark_part(c, is->part);
    if (was_on)
        mark_part(c, was->part);
}

static void check_coax(pare_checking *c, const pare_item *is)
{
    const pare_opening opening = pare_work_opening(is->part);
    put_step(c, opening, pare_work_coax_cut_min() * is->count, 2 * is->count,
             "%s: coax cut to %.4g mm, its plug made anew", is->name, 1e3 * is->cut_length_m);
    put_tool(c, opening, "soldering iron");
    put_tool(c, opening, "side cutters");
    c->antenna = true;
}

static void check_items(pare_checking *c, const pair *p)
{
    for (size_t i = 0; i < p->after->items; i++) {
        const pare_item *is = &p->after->item[i];
        const pare_item *was = i < p->before->items ? &p->before->item[i] : NULL;
        const bool was_on = was && !was->off;
        if (is->included_in || (!was_on && is->off))
            continue;
        if (was_on == is->off || was->part != is->part || was->count != is->count)
            check_item(c, p, was, is);
        else if (pare_coax_differs(p->before, i, is))
            check_coax(c, is);
    }
}

/* ---- screws ---- */

static pare_opening opening_of_held(const pare_craft *craft, const char *held)
{
    const int item = held ? pare_craft_item(craft, held) : -1;
    if (held && strcmp(held, "arm") == 0)
        return PARE_OPENING_ARMS;
    return item >= 0 ? pare_work_opening(craft->item[item].part) : PARE_OPENING_TOP;
}

static bool holds_motors(const pare_craft *craft, const pare_joint *joint)
{
    const int item = joint->holds ? pare_craft_item(craft, joint->holds) : -1;
    return item >= 0 && craft->item[item].part->kind == PARE_MOTOR;
}

static bool of_aluminium(pare_screw_material material)
{
    return material == PARE_ALUMINIUM || material == PARE_ALUMINIUM_7075;
}

/* "M3 x 8 mm steel", "M5 aluminium". */
static void size_words(const pare_joint *joint, char text[static TEXT])
{
    const double m = 1e3 * joint->thread.nominal_m;
    if (pare_has_no_length(joint->standard))
        snprintf(text, TEXT, "M%.2g %s", m, pare_screw_material_words(joint->material));
    else
        snprintf(text, TEXT, "M%.2g x %.4g mm %s", m, 1e3 * joint->length_m,
                 pare_screw_material_words(joint->material));
}

static void check_joint(pare_checking *c, const pair *p, const pare_joint *was,
                        const pare_joint *is, pare_screws_change change)
{
    const pare_opening opening = opening_of_held(p->after, is->holds);
    const char *things = pare_fastener_words(is->standard);
    char m_was[TEXT], m_is[TEXT];
    size_words(was, m_was);
    size_words(is, m_is);
    if (change == PARE_SCREWS_NEW)
        put_step(c, opening, pare_work_screws_min(is->count), 0, "%s: %d %ss %s out, %d of %s in",
                 is->name, was->count, things, m_was, is->count, m_is);
    else if (change == PARE_SCREWS_SHORTER)
        put_step(c, opening, pare_work_screws_cut_min(is->count), 0,
                 "%s: %d %ss M%.2g shortened to %.4g mm, ends deburred", is->name, is->count,
                 things, 1e3 * is->thread.nominal_m, 1e3 * is->length_m);
    else if (change == PARE_SCREWS_FEWER)
        put_step(c, opening, pare_work_screws_out_min(was->count - is->count), 0,
                 "%s: %d of %d %ss out, evenly", is->name, was->count - is->count, was->count,
                 things);
    else
        put_step(c, opening, pare_work_screws_min(is->count - was->count), 0, "%s: %d more %ss in",
                 is->name, is->count - was->count, things);
    put_key(c, opening, was);
    put_key(c, opening, is);
    if (change == PARE_SCREWS_SHORTER)
        put_tool(c, opening, "a file and a thread gauge or nut");
    c->motor_screws = c->motor_screws || holds_motors(p->after, is);
    c->aluminium = c->aluminium || (of_aluminium(is->material) && is->material != was->material);
    c->fewer = c->fewer || is->count < was->count;
}

static void check_joints(pare_checking *c, const pair *p)
{
    for (size_t i = 0; i < p->after->joints; i++) {
        const pare_joint *is = &p->after->joint[i];
        pare_joint was;
        const pare_screws_change change = pare_screws_differ(p->before, p->after, is, &was);
        if (change != PARE_SCREWS_SAME)
            check_joint(c, p, &was, is, change);
    }
}

/* ---- wire ---- */

/* Wires that carry what flies it: a mistake in these burns. */
static bool is_power(const pare_craft *craft, const pare_run *run)
{
    const int item = run->carries ? pare_craft_item(craft, run->carries) : -1;
    if (item < 0)
        return run->carries != NULL;
    const pare_kind kind = craft->item[item].part->kind;
    return kind == PARE_PACK || kind == PARE_MOTOR || kind == PARE_ESC_ONE ||
           kind == PARE_ESC_FOUR || kind == PARE_CONTROLLER_WITH_ESC || kind == PARE_REGULATOR;
}

static void put_wire_tools(pare_checking *c)
{
    put_tool(c, PARE_OPENING_TOP, "soldering iron");
    put_tool(c, PARE_OPENING_TOP, "side cutters");
    put_tool(c, PARE_OPENING_TOP, "heat-shrink tube");
}

static void check_run(pare_checking *c, const pair *p, const pare_run *is, pare_wires_change change)
{
    const int wires = (int)is->ways * is->times;
    const double now_m = pare_run_longest_m(is);
    if (change == PARE_WIRES_NEW)
        put_step(c, PARE_OPENING_TOP, pare_work_wire_min(wires), 2 * wires,
                 "run.%s: %d new wires of %.3g AWG, %.4g mm each", is->name, wires, is->gauge,
                 1e3 * now_m);
    else
        put_step(c, PARE_OPENING_TOP, pare_work_wire_cut_min(wires), wires,
                 "run.%s: %d wires cut to %.4g mm", is->name, wires, 1e3 * now_m);
    put_wire_tools(c);
    c->wiring = c->wiring || is_power(p->after, is);
}

static void check_runs(pare_checking *c, const pair *p)
{
    for (size_t i = 0; i < p->after->runs; i++) {
        const pare_run *is = &p->after->run[i];
        const pare_wires_change change = pare_wires_differ(p->before, p->after, is, NULL);
        if (change != PARE_WIRES_SAME)
            check_run(c, p, is, change);
    }
    for (size_t i = 0; i < p->before->runs; i++) {
        const pare_run *was = &p->before->run[i];
        const int owner = was->included_in ? pare_craft_item(p->before, was->included_in) : -1;
        if (pare_craft_run(p->after, was->name) >= 0 || owner >= 0)
            continue;
        put_step(c, PARE_OPENING_TOP, 0, 0, "run.%s: its wires come away too", was->name);
    }
}

void pare_check_difference(pare_checking *checking, const pare_craft *before,
                           const pare_craft *after)
{
    const pair p = {before, after};
    check_items(checking, &p);
    check_joints(checking, &p);
    check_runs(checking, &p);
}
