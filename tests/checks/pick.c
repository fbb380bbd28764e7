/* rooms: advise craft physics base */
/* One of each class against optima from outside: three small instances whose optimum a dynamic programme,
 * GLPK and brute force agreed on, and the classes of instances that the literature on this problem measures
 * itself by, each against the textbook dynamic programme over all weights.
 *
 * The literature maximises a profit within a capacity of weight: here mass is the profit with its sign
 * turned, and money is the weight. */
#include <stdlib.h>

#include "advise/pick.h"
#include "near.h"

enum { MOST_CLASSES = 100, MOST_OPTIONS = 40 };

typedef struct instance {
    pare_pick pick;
    pare_pick_class class[MOST_CLASSES];
    pare_pick_amounts option[MOST_CLASSES][MOST_OPTIONS];
} instance;

/* The generator of the three instances. */
static int64_t draw(uint32_t *state, int64_t low, int64_t high)
{
    *state = (1103515245u * *state + 12345u) & 0x7fffffffu;
    return low + (int64_t)(*state >> 16) % (high - low + 1);
}

/* Half way between the least and the most that the classes can weigh. */
static void set_capacity(instance *in)
{
    int64_t both = 0;
    for (size_t c = 0; c < in->pick.classes; c++) {
        int64_t least = INT64_MAX, most = INT64_MIN;
        for (size_t i = 0; i < in->class[c].count; i++) {
            const int64_t weight = in->option[c][i].money_cents;
            least = weight < least ? weight : least;
            most = weight > most ? weight : most;
        }
        both += least + most;
    }
    in->pick.most.money_cents = both / 2;
}

static void begin(instance *in, size_t classes, size_t options)
{
    in->pick = (pare_pick){.classes = classes, .class = in->class, .most = pare_pick_no_limit()};
    for (size_t c = 0; c < classes; c++)
        in->class[c] = (pare_pick_class){options, in->option[c]};
}

static void small_instance(uint32_t seed, size_t classes, size_t options, bool like_weight,
                           instance *in)
{
    uint32_t state = seed;
    begin(in, classes, options);
    for (size_t c = 0; c < classes; c++)
        for (size_t i = 0; i < options; i++) {
            const int64_t weight = draw(&state, 1, 100);
            int64_t profit = like_weight ? weight + draw(&state, -5, 5) : draw(&state, 1, 100);
            profit = profit < 1 ? 1 : profit;
            in->option[c][i] = (pare_pick_amounts){.mass_100ug = -profit, .money_cents = weight};
        }
    set_capacity(in);
}

static instance in;

static void has_optimum(int64_t capacity, int64_t profit, int64_t weight)
{
    size_t choice[MOST_CLASSES];
    pare_pick_amounts sum;
    pare_error err = {0};
    assert_int_equal(in.pick.most.money_cents, capacity);
    assert_int_equal(pare_pick_lightest(&in.pick, choice, &sum, &err), PARE_OK);
    assert_int_equal(-sum.mass_100ug, profit);
    if (weight)
        assert_int_equal(sum.money_cents, weight);
}

/* Optima by dynamic programming, GLPK and brute force, which agreed. */
static void three_instances_have_the_optimum_that_three_programs_found(void **state)
{
    (void)state;
    small_instance(1, 3, 3, false, &in);
    assert_int_equal(in.option[0][0].mass_100ug, -59);
    assert_int_equal(in.option[0][0].money_cents, 39);
    assert_int_equal(in.option[0][2].mass_100ug, -28);
    assert_int_equal(in.option[0][2].money_cents, 52);
    has_optimum(121, 190, 78);
    small_instance(1, 5, 4, false, &in);
    has_optimum(275, 382, 272);
    small_instance(7, 10, 5, true, &in);
    has_optimum(519, 553, 0);
}

/* ---- the literature's classes ---- */

/* Uncorrelated, weakly correlated, strongly correlated and subset sum as in Pisinger, "A minimal algorithm
 * for the multiple-choice knapsack problem", European Journal of Operational Research 83 (1995), 394-410;
 * weights and profits that rise together as in Sinha and Zoltners, "The multiple-choice knapsack problem",
 * Operations Research 27 (1979), 503-515. Their rules from memory:
 * - uncorrelated: weight and profit from 1..R;
 * - weakly: profit within 10 of the weight, at least 1;
 * - strongly: options with weight from 1..R and profit 10 above it, sorted; the nth of a class is the sum
 *   of the first n, so that none is beaten;
 * - subset sum: profit is weight;
 * - rising: weights and profits from 1..R, both sorted. */
typedef enum correlation { NONE, WEAK, STRONG, SUBSET_SUM, RISING, CORRELATIONS } correlation;

static int ascending(const void *left, const void *right)
{
    const int64_t *a = left, *b = right;
    return (*a > *b) - (*a < *b);
}

static void literature_instance(uint32_t seed, correlation kind, size_t classes, size_t options,
                                int64_t range)
{
    uint32_t state = seed;
    begin(&in, classes, options);
    for (size_t c = 0; c < classes; c++) {
        int64_t weight[MOST_OPTIONS], profit[MOST_OPTIONS];
        for (size_t i = 0; i < options; i++) {
            weight[i] = draw(&state, 1, range);
            const int64_t free = draw(&state, 1, range), near = weight[i] + draw(&state, -10, 10);
            profit[i] = kind == WEAK ? near : kind == SUBSET_SUM ? weight[i] : free;
            profit[i] = profit[i] < 1 ? 1 : profit[i];
        }
        if (kind == STRONG || kind == RISING)
            qsort(weight, options, sizeof weight[0], ascending);
        if (kind == RISING)
            qsort(profit, options, sizeof profit[0], ascending);
        for (size_t i = 0; kind == STRONG && i < options; i++) {
            profit[i] = weight[i] + 10 + (i ? profit[i - 1] : 0);
            weight[i] += i ? weight[i - 1] : 0;
        }
        for (size_t i = 0; i < options; i++)
            in.option[c][i] =
                (pare_pick_amounts){.mass_100ug = -profit[i], .money_cents = weight[i]};
    }
    set_capacity(&in);
}

/* Profit and weight of the best, by best[w] = most profit at exactly this weight, class after class. */
static void programme(int64_t *profit, int64_t *weight)
{
    const size_t size = (size_t)in.pick.most.money_cents + 1;
    int64_t *best = malloc(size * sizeof *best), *next = malloc(size * sizeof *next);
    assert_non_null(best);
    assert_non_null(next);
    for (size_t w = 0; w < size; w++)
        best[w] = w ? -1 : 0;
    for (size_t c = 0; c < in.pick.classes; c++) {
        for (size_t w = 0; w < size; w++) {
            next[w] = -1;
            for (size_t i = 0; i < in.class[c].count; i++) {
                const pare_pick_amounts *o = &in.option[c][i];
                const size_t own = (size_t)o->money_cents;
                if (own <= w && best[w - own] >= 0 && best[w - own] - o->mass_100ug > next[w])
                    next[w] = best[w - own] - o->mass_100ug;
            }
        }
        int64_t *old = best;
        best = next;
        next = old;
    }
    *profit = -1;
    for (size_t w = 0; w < size; w++)
        if (best[w] > *profit) {
            *profit = best[w];
            *weight = (int64_t)w;
        }
    free(best);
    free(next);
}

static void try_literature(size_t classes, size_t options, int64_t range, uint32_t seeds)
{
    for (int kind = 0; kind < CORRELATIONS; kind++)
        for (uint32_t seed = 1; seed <= seeds; seed++) {
            literature_instance(seed, (correlation)kind, classes, options, range);
            int64_t profit = 0, weight = 0;
            programme(&profit, &weight);
            has_optimum(in.pick.most.money_cents, profit, weight);
        }
}

static void the_literatures_instances_have_the_programmes_optimum(void **state)
{
    (void)state;
    try_literature(3, 5, 100, 40);
    try_literature(10, 10, 100, 20);
    try_literature(30, 6, 300, 3);
    try_literature(100, 10, 50, 2);
    try_literature(8, 40, 1000, 2);
}

/* The front holds the best of every capacity at once. */
static void the_front_has_the_programmes_optimum_for_every_capacity(void **state)
{
    (void)state;
    for (int kind = 0; kind < CORRELATIONS; kind++) {
        literature_instance(5, (correlation)kind, 6, 6, 60);
        pare_arena *arena = pare_arena_open();
        pare_pick_front front;
        pare_error err = {0};
        assert_int_equal(pare_pick_front_make(&in.pick, arena, &front, &err), PARE_OK);
        const int64_t last = in.pick.most.money_cents;
        for (int64_t capacity = 1; capacity <= last; capacity++) {
            in.pick.most.money_cents = capacity;
            int64_t profit = 0, weight = 0;
            programme(&profit, &weight);
            const size_t point = pare_pick_front_lightest(&front, capacity);
            assert_int_equal(profit < 0, point == front.count);
            if (profit < 0)
                continue;
            assert_int_equal(-front.sum[point].mass_100ug, profit);
            assert_int_equal(front.sum[point].money_cents, weight);
        }
        pare_arena_close(arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(three_instances_have_the_optimum_that_three_programs_found),
        cmocka_unit_test(the_literatures_instances_have_the_programmes_optimum),
        cmocka_unit_test(the_front_has_the_programmes_optimum_for_every_capacity),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
