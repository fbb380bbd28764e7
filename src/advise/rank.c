/* rank.c: best first (see rank.h).
 *
 * Rows are large, so small keys are sorted. Names differ, so the order is
 * total and the same on every run. */
#include "advise/rank.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct key {
    int group; /* free, paid, sought */
    double wish, money;
    const char *name;
    size_t index;
} key;

static double wished(const pare_swap *row, pare_wish wish)
{
    switch (wish) {
    case PARE_WISH_MINUTES:
        return -row->change[PARE_FLOWN_TIME];
    case PARE_WISH_THRUST:
        return -row->change[PARE_TWR_HALF];
    case PARE_WISH_QUICKNESS:
        return -(row->change[PARE_ROLL] + row->change[PARE_PITCH]);
    case PARE_WISH_MONEY:
        return row->money_per_g;
    case PARE_WISH_CRASH:
        return row->change[PARE_CRASH];
    case PARE_WISH_GRAMS:
    case PARE_WISHES:
        break;
    }
    return -row->grams_kg;
}

static int by_number(double a, double b)
{
    return (a > b) - (a < b);
}

static int best_first(const void *left, const void *right)
{
    const key *a = left, *b = right;
    int order = (a->group > b->group) - (a->group < b->group);
    if (order == 0)
        order = by_number(a->wish, b->wish);
    if (order == 0)
        order = by_number(a->money, b->money);
    return order ? order : strcmp(a->name, b->name);
}

pare_status pare_rank(pare_arena *arena, pare_wish wish, size_t count,
                      const pare_swap *const rows[], const size_t **order, pare_error *err)
{
    key *keys = pare_arena_array(arena, count + 1, sizeof *keys);
    size_t *sorted = pare_arena_array(arena, count + 1, sizeof *sorted);
    if (!keys || !sorted)
        return pare_no_memory(err);
    for (size_t i = 0; i < count; i++) {
        const pare_applied *applied = &rows[i]->applied;
        const double value = wished(rows[i], wish);
        keys[i] = (key){.group = applied->sought ? 2 : rows[i]->band != PARE_BAND_FREE,
                        .wish = isnan(value) ? (double)INFINITY : value,
                        .money = applied->money,
                        .name = applied->id,
                        .index = i};
    }
    qsort(keys, count, sizeof *keys, best_first);
    for (size_t i = 0; i < count; i++)
        sorted[i] = keys[i].index;
    *order = sorted;
    return PARE_OK;
}

static const char *const wish_names[PARE_WISHES] = {
    [PARE_WISH_GRAMS] = "grams",   [PARE_WISH_MINUTES] = "minutes",
    [PARE_WISH_THRUST] = "thrust", [PARE_WISH_QUICKNESS] = "quickness",
    [PARE_WISH_MONEY] = "money",   [PARE_WISH_CRASH] = "crash",
};

const char *pare_wish_name(pare_wish wish)
{
    return wish_names[wish];
}

int pare_wish_named(const char *name)
{
    for (int wish = 0; wish < PARE_WISHES; wish++)
        if (strcmp(wish_names[wish], name) == 0)
            return wish;
    return -1;
}

const char *pare_band_name(pare_band band)
{
    static const char *const names[PARE_BANDS] = {"free", "cheap", "deep", "dear"};
    return names[band];
}
