/* odd_drawn.h: craft that nobody would build, drawn from the demo's bench: things off, owners and names exchanged, wires
 * that carry nothing, screws that hold nothing, no room for another item, parts that come with other things, fit elsewhere
 * or say less of themselves. */
#ifndef PARE_TESTS_ODD_DRAWN_H
#define PARE_TESTS_ODD_DRAWN_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_of.h"
#include "dice.h"
#include "near.h"
#include "store/bench.h"

typedef struct odd {
    pare_bench *bench;
    pare_part *kept; /* [bench->parts], as they were */
    pare_craft craft;
} odd;

static inline bool odd_open(odd *o)
{
    o->bench = bench_of("../../demo/bench.yaml");
    o->kept = calloc(o->bench->parts, sizeof *o->kept);
    for (size_t i = 0; o->kept && i < o->bench->parts; i++)
        o->kept[i] = *o->bench->part[i];
    return o->kept != NULL;
}

static inline void odd_close(odd *o)
{
    for (size_t i = 0; i < o->bench->parts; i++)
        *o->bench->part[i] = o->kept[i];
    pare_bench_close(o->bench);
    free(o->kept);
}

static const pare_include odd_includes[] = {
    {.what = PARE_INCLUDES_RUN, .name = "phase", .gauge = 20, .length_m = 0.1, .count = 3},
    {.what = PARE_INCLUDES_RUN, .name = "lead", .gauge = 14, .length_m = 0.1, .count = 2},
    {.what = PARE_INCLUDES_RUN, .name = "video_wire", .gauge = 28, .length_m = 0.08, .count = 3},
    {.what = PARE_INCLUDES_RUN, .name = "phase", .gauge = 20, .count = 3}, /* how long? */
    {.what = PARE_INCLUDES_JOINT,
     .name = "arm_root",
     .standard = PARE_ISO7380,
     .thread = {3e-3, 0.5e-3},
     .length_m = 10e-3,
     .material = PARE_TITANIUM,
     .count = 4},
    {.what = PARE_INCLUDES_JOINT,
     .name = "motor_base",
     .standard = PARE_ISO4762,
     .thread = {3e-3, 0.5e-3},
     .length_m = 8e-3,
     .material = PARE_STEEL,
     .count = 4},
    {.what = PARE_INCLUDES_JOINT, /* no standard has it that long */
     .name = "posts",
     .standard = PARE_ISO7380,
     .thread = {3e-3, 0.5e-3},
     .length_m = 0.5,
     .material = PARE_STEEL,
     .count = 4},
    {.what = PARE_INCLUDES_KIND, .kind = PARE_PROPELLER_NUT, .count = 1},
    {.what = PARE_INCLUDES_KIND, .kind = PARE_STRAP, .count = 1},
    {.what = PARE_INCLUDES_KIND, .kind = PARE_CONNECTOR, .count = 1},
    {.what = PARE_INCLUDES_KIND, .kind = PARE_ANTENNA, .count = 1},
    {.what = PARE_INCLUDES_KIND, .kind = PARE_CAPACITOR, .count = 1},
    {.what = PARE_INCLUDES_KIND, .kind = PARE_BUMPER, .count = 4},
};
enum { ODD_INCLUDES = sizeof odd_includes / sizeof odd_includes[0] };

static inline void odd_parts(odd *o, unsigned *seed)
{
    for (size_t i = 0; i < o->bench->parts; i++) {
        pare_part *part = o->bench->part[i];
        *part = o->kept[i];
        switch (dice(seed, 16)) {
        case 0:
        case 1: { /* comes with a few things */
            const size_t from = dice(seed, ODD_INCLUDES);
            part->include = &odd_includes[from];
            part->includes =
                1 + dice(seed, (unsigned)(ODD_INCLUDES - from < 3 ? ODD_INCLUDES - from : 3));
            break;
        }
        case 2: /* comes with nothing */
            part->includes = 0;
            break;
        case 3: /* says nothing of what it fits */
            memset(part->fit, 0, sizeof part->fit);
            break;
        case 4: /* nor of the volts that it takes */
            part->spec[PARE_SPEC_VOLTS_HIGH] = part->spec[PARE_SPEC_VOLTS_LOW] = (pare_value){0};
            break;
        case 5:
            part->ends[dice(seed, 2)] = NULL;
            break;
        case 6:
            part->owned = (int)dice(seed, 5);
            part->price.given = dice(seed, 2) == 0;
            break;
        case 7: /* as heavy as its like */
            part->mass_kg.value = 5e-3;
            break;
        case 8: { /* fits something else, a range, a word, or two of each */
            pare_fit *fit = &part->fit[dice(seed, PARE_FITS)];
            fit->count = 1 + dice(seed, 2);
            for (size_t k = 0; k < fit->count; k++) {
                fit->any[k].word = dice(seed, 3) == 0 ? "bayonet" : NULL;
                fit->any[k].low = 1e-3 * (1 + dice(seed, 40));
                fit->any[k].high = fit->any[k].low * (dice(seed, 2) ? 1 : 1.5);
            }
            break;
        }
        case 9:
            part->body_estimated = !part->body_estimated;
            break;
        default:
            break;
        }
    }
}

static inline const char *some_item(const odd *o, unsigned *seed)
{
    return o->craft.item[dice(seed, (unsigned)o->craft.items)].name;
}

/* Without one of these it is no craft. */
static inline bool flies(const pare_part *part)
{
    static const pare_kind needed[] = {PARE_FRAME, PARE_MOTOR,    PARE_PROPELLER,
                                       PARE_PACK,  PARE_ESC_FOUR, PARE_ESC_ONE};
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++)
        if (pare_part_does(part, needed[i]))
            return true;
    return false;
}

/* What a part comes with, belongs to it. */
static inline void belong(pare_craft *c)
{
    for (size_t i = 0; i < c->items; i++) {
        const pare_part *part = c->item[i].part;
        for (size_t k = 0; k < part->includes && !c->item[i].off; k++) {
            const pare_include *in = &part->include[k];
            const int run = in->what == PARE_INCLUDES_RUN ? pare_craft_run(c, in->name) : -1;
            const int joint = in->what == PARE_INCLUDES_JOINT ? pare_craft_joint(c, in->name) : -1;
            if (run >= 0)
                c->run[run].included_in = c->item[i].name;
            if (joint >= 0)
                c->joint[joint].included_in = c->item[i].name;
            for (size_t t = 0; in->what == PARE_INCLUDES_KIND && t < c->items; t++)
                if (t != i && c->item[t].part->kind == in->kind)
                    c->item[t].included_in = c->item[i].name;
        }
    }
}

/* As many items as a craft may have: whatever comes along finds no room. */
static inline void fill(pare_craft *c, unsigned *seed)
{
    static char name[PARE_ITEMS][16];
    const pare_item *like = &c->item[dice(seed, (unsigned)c->items)];
    while (!flies(like->part) && !like->off && like->feeds == 0 && c->items < PARE_ITEMS) {
        pare_item *item = &c->item[c->items];
        snprintf(name[c->items], sizeof name[0], "more_%zu", c->items);
        *item = *like;
        item->name = name[c->items++];
    }
}

/* @return false: such a craft does not settle, and nothing is tried on it */
static inline bool odd_craft(odd *o, unsigned *seed)
{
    static const char *const craft[] = {"hedgerow", "bodkin", "thimble", "drover"};
    /* Names that things are given which come along. */
    static const char *const names[] = {"esc",     "regulator", "adapter",
                                        "pigtail", "connector", "flight_controller"};
    const char *const taken[] = {names[dice(seed, 6)], names[dice(seed, 6)]};
    const pare_craft *of = pare_bench_craft(o->bench, craft[dice(seed, 4)]);
    pare_craft *c = &o->craft;
    assert_non_null(of);
    pare_craft_copy(of, c);
    for (size_t i = 0; i < c->items; i++) {
        pare_item *item = &c->item[i];
        const unsigned how = dice(seed, 24);
        item->off = item->off || (how == 0 && !flies(item->part));
        if (how == 1)
            item->feeds = 0;
        if (how == 2 && pare_craft_item(c, taken[0]) < 0)
            item->name = taken[0];
        if (how == 3 && pare_craft_item(c, taken[1]) < 0)
            item->name = taken[1];
    }
    for (size_t i = 0; i < c->joints; i++) {
        pare_joint *joint = &c->joint[i];
        const unsigned how = dice(seed, 10);
        if (how == 0)
            joint->holds = NULL;
        if (how == 1)
            joint->included_in = NULL, joint->included_kg = 0;
        if (how == 3)
            joint->holds = some_item(o, seed);
        if (how == 4)
            joint->material = (pare_screw_material)dice(seed, PARE_SCREW_MATERIALS);
        if (how == 5 && joint->count > 1)
            joint->count--;
    }
    for (size_t i = 0; i < c->runs; i++) {
        pare_run *run = &c->run[i];
        const unsigned how = dice(seed, 10);
        if (how == 0)
            run->carries = NULL;
        if (how == 1)
            run->included_in = NULL, run->included_kg = 0;
        if (how == 3)
            run->carries = some_item(o, seed);
        if (how == 4 && run->gauge > 0)
            run->gauge += 2;
        if (how == 5 && run->ways > 0)
            run->way_m[0] *= 0.8;
    }
    c->loadouts = dice(seed, 2) ? c->loadouts : 0;
    if (dice(seed, 16) == 0)
        fill(c, seed);
    belong(c);
    return pare_craft_settle(c, NULL) == PARE_OK;
}

#endif
