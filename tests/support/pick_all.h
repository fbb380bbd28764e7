/* pick_all.h: small questions to the choice engine drawn at random, and all their choices one by one.
 *
 * Amounts are drawn from a few numbers only, so that ties of every sort come up, and from either side of
 * zero. */
#ifndef PARE_TESTS_PICK_ALL_H
#define PARE_TESTS_PICK_ALL_H

#include <stdlib.h>
#include <string.h>

#include "advise/pick.h"
#include "dice.h"
#include "near.h"

enum { DRAWN_CLASSES = 5, DRAWN_OPTIONS = 5, DRAWN_CHOICES = 3125 };

typedef struct drawn {
    pare_pick pick;
    pare_pick_class class[DRAWN_CLASSES];
    pare_pick_amounts option[DRAWN_CLASSES][DRAWN_OPTIONS];
} drawn;

typedef struct one_choice {
    pare_pick_amounts sum;
    size_t choice[DRAWN_CLASSES];
} one_choice;

/* @param loads  how many count; those that do not are filled all the same
 * @param sides  of the dice for an amount */
static inline void draw_question(unsigned *state, size_t loads, unsigned sides, drawn *d)
{
    *d = (drawn){.pick = {.classes = dice(state, DRAWN_CLASSES + 1),
                          .class = d->class,
                          .loads = loads,
                          .most = pare_pick_no_limit()}};
    for (size_t c = 0; c < d->pick.classes; c++) {
        d->class[c] =
            (pare_pick_class){.count = 1 + dice(state, DRAWN_OPTIONS), .option = d->option[c]};
        for (size_t i = 0; i < DRAWN_OPTIONS; i++) {
            d->option[c][i].mass_100ug = (int64_t)dice(state, sides) - sides / 4;
            d->option[c][i].money_cents = (int64_t)dice(state, sides) - sides / 4;
            for (size_t l = 0; l < PARE_PICK_LOADS; l++)
                d->option[c][i].load[l] = (int64_t)dice(state, sides) - sides / 4;
        }
    }
}

/* A limit on about every other sum, where it decides something. */
static inline void draw_limits(unsigned *state, unsigned sides, drawn *d)
{
    const unsigned all = (unsigned)(d->pick.classes + 1) * sides;
    if (dice(state, 2))
        d->pick.most.mass_100ug = (int64_t)dice(state, all) - sides;
    if (dice(state, 2))
        d->pick.most.money_cents = (int64_t)dice(state, all) - sides;
    for (size_t l = 0; l < d->pick.loads; l++)
        if (dice(state, 2))
            d->pick.most.load[l] = (int64_t)dice(state, all) - sides;
}

static inline bool within(const pare_pick *pick, const pare_pick_amounts *sum)
{
    bool good =
        sum->mass_100ug <= pick->most.mass_100ug && sum->money_cents <= pick->most.money_cents;
    for (size_t l = 0; l < pick->loads; l++)
        good = good && sum->load[l] <= pick->most.load[l];
    return good;
}

/* All within the limits, in the order of options class after class. */
static inline size_t all_choices(const drawn *d, one_choice all[DRAWN_CHOICES])
{
    size_t count = 0;
    one_choice now = {0};
    for (;;) {
        now.sum = (pare_pick_amounts){0};
        for (size_t c = 0; c < d->pick.classes; c++) {
            const pare_pick_amounts *o = &d->class[c].option[now.choice[c]];
            now.sum.mass_100ug += o->mass_100ug;
            now.sum.money_cents += o->money_cents;
            for (size_t l = 0; l < d->pick.loads; l++)
                now.sum.load[l] += o->load[l];
        }
        if (within(&d->pick, &now.sum))
            all[count++] = now;
        size_t c = d->pick.classes;
        while (c > 0 && ++now.choice[c - 1] == d->class[c - 1].count)
            now.choice[--c] = 0;
        if (c == 0)
            return count;
    }
}

static inline int by_places(const one_choice *a, const one_choice *b)
{
    for (size_t c = 0; c < DRAWN_CLASSES; c++)
        if (a->choice[c] != b->choice[c])
            return a->choice[c] < b->choice[c] ? -1 : 1;
    return 0;
}

static inline int by_two(int64_t x, int64_t y, int64_t then_x, int64_t then_y)
{
    return x != y ? (x > y) - (x < y) : (then_x > then_y) - (then_x < then_y);
}

/* Mass, money, places. */
static inline int stream_order(const void *left, const void *right)
{
    const one_choice *a = left, *b = right;
    const int order =
        by_two(a->sum.mass_100ug, b->sum.mass_100ug, a->sum.money_cents, b->sum.money_cents);
    return order ? order : by_places(a, b);
}

/* Mass, money, loads, places. */
static inline int front_order(const void *left, const void *right)
{
    const one_choice *a = left, *b = right;
    int order =
        by_two(a->sum.mass_100ug, b->sum.mass_100ug, a->sum.money_cents, b->sum.money_cents);
    for (size_t l = 0; order == 0 && l < PARE_PICK_LOADS; l++)
        order = (a->sum.load[l] > b->sum.load[l]) - (a->sum.load[l] < b->sum.load[l]);
    return order ? order : by_places(a, b);
}

/* Money, mass, loads, places. */
static inline int cheap_order(const void *left, const void *right)
{
    const one_choice *a = left, *b = right;
    const int order =
        by_two(a->sum.money_cents, b->sum.money_cents, a->sum.mass_100ug, b->sum.mass_100ug);
    return order ? order : front_order(left, right);
}

static inline void same_sum(const pare_pick_amounts *a, const pare_pick_amounts *b)
{
    assert_memory_equal(a, b, sizeof *a);
}

static inline void same_choice(size_t classes, const size_t a[], const size_t b[])
{
    for (size_t c = 0; c < classes; c++)
        assert_int_equal(a[c], b[c]);
}

#endif
