/* best_drawn.h: a small bench and a brief drawn at random, for the tests of best sets. */
#ifndef PARE_TESTS_BEST_DRAWN_H
#define PARE_TESTS_BEST_DRAWN_H

#include "swap_fixture.h"

#include "dice.h"

enum { MOST_HELD = 40 };

typedef struct drawn {
    pare_bench bench;
    pare_part *part[64];
    pare_part kept[64]; /* as they were */
    pare_craft craft;
    size_t holds;
    char held[MOST_HELD][PARE_SWAP_NAME];
    const char *hold[MOST_HELD];
} drawn;

static inline double between(unsigned *seed, double low, double high)
{
    return low + (high - low) * dice(seed, 1000) / 1000.0;
}

static inline void draw_parts(fixture *f, unsigned *seed, drawn *d)
{
    d->bench = *f->bench;
    d->bench.part = d->part;
    d->bench.parts = 0;
    for (size_t i = 0; i < f->bench->parts; i++) {
        pare_part *part = f->bench->part[i];
        bool on = false;
        d->kept[i] = *part;
        for (size_t k = 0; k < f->craft->items; k++)
            on = on || f->craft->item[k].part == part;
        part->mass_kg.value *= between(seed, 0.7, 1.3);
        if (dice(seed, 3) == 0) {
            part->price.given = true;
            part->price.each = dice(seed, 40);
            part->price.sold_in = 1 + (int)dice(seed, 4);
        }
        part->owned = dice(seed, 4) == 0 ? 4 : part->owned;
        if (on || dice(seed, 3) > 0)
            d->part[d->bench.parts++] = part;
    }
}

static inline void put_back_parts(fixture *f, const drawn *d)
{
    for (size_t i = 0; i < f->bench->parts; i++)
        *f->bench->part[i] = d->kept[i];
}

static inline void draw_limit(unsigned *seed, drawn *d, const char *key, bool at_least,
                              double value)
{
    if (dice(seed, 2) == 0)
        d->craft.brief.limit[d->craft.brief.limits++] =
            (pare_limit){.key = key, .at_least = at_least, .value = value};
}

static inline void hold(drawn *d, const char *what, const char *name)
{
    snprintf(d->held[d->holds], PARE_SWAP_NAME, "%s%s", what, name);
    d->hold[d->holds] = d->held[d->holds];
    d->holds++;
}

/* Holds nothing but the items that are not named. */
static inline void hold_items_but(drawn *d, size_t count, const char *const open[])
{
    d->holds = 0;
    for (size_t i = 0; i < d->craft.items; i++) {
        bool is_open = false;
        for (size_t k = 0; k < count; k++)
            is_open = is_open || strcmp(d->craft.item[i].name, open[k]) == 0;
        if (!is_open)
            hold(d, "", d->craft.item[i].name);
    }
}

static inline void draw_craft(fixture *f, unsigned *seed, drawn *d)
{
    pare_craft_copy(f->craft, &d->craft);
    d->craft.brief.limits = 0;
    d->craft.brief.keep = 1u << PARE_FLIES | (dice(seed, 2) ? 1u << PARE_SEES : 0) |
                          (dice(seed, 2) ? 1u << PARE_HOLDS : 0);
    draw_limit(seed, d, "all_up", false, between(seed, 0.36, 0.55));
    draw_limit(seed, d, "flown", true, between(seed, 60, 600));
    draw_limit(seed, d, "thrust_to_weight_half", true, between(seed, 3, 12));
    draw_limit(seed, d, "hover_output", false, between(seed, 0.15, 0.5));
    draw_limit(seed, d, "money", false, between(seed, 20, 400));
    draw_limit(seed, d, "roll", true, between(seed, 100, 1500));
    draw_limit(seed, d, "margin", true, between(seed, 0.8, 1.1));
    d->holds = 0;
    for (size_t i = 0; i < d->craft.items; i++)
        if (dice(seed, 3) > 0)
            hold(d, "", d->craft.item[i].name);
    for (size_t i = 0; i < d->craft.joints; i++)
        if (dice(seed, 3) > 0)
            hold(d, "joint.", d->craft.joint[i].name);
    for (size_t i = 0; i < d->craft.runs; i++)
        if (dice(seed, 3) > 0)
            hold(d, "run.", d->craft.run[i].name);
}

#endif
