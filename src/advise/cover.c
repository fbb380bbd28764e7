/* cover.c: branch and bound over candidates, in or out (see cover.h).
 *
 * The bound is Lagrange's: each customer gets a price for being covered, and with prices every candidate can be
 * judged by itself. Any prices give a bound; a subgradient makes them good (Held, Wolfe, Crowder 1974; Beasley
 * 1990 for set cover). Prices are whole numbers, a SCALE of a unit each, so a bound is exact whatever the
 * rounding in the steps between. What a better answer cannot have, or cannot do without, is put out at once.
 *
 *   greatest weight:  sum over customers of (weight - price), and the best `most` candidates by the prices that
 *                     they collect, 0 <= price <= weight
 *   least cost:       sum of prices, and what each candidate costs less than it collects, price >= 0
 *
 * A general solver of integer programs would do this too, with bounds that hold to a tolerance
 * (docs/decisions.md has both measured). */
#include "advise/cover.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SCALE 256

enum {
    CANDIDATES_MOST = 1 << 18,
    CUSTOMERS_MOST = 1 << 17,
    STALE_STEPS = 15,     /* without a sharper bound, before prices move by less */
    COMPARED_MOST = 6000, /* each with each, for which are no better than another */
    ROOT_STEPS = 3000,
    NODE_STEPS = 40
};

typedef enum lot { FREE, IN, OUT } lot;

typedef struct list {
    size_t count;
    const uint32_t *of;
} list;

typedef struct search {
    const pare_cover_ask *ask;
    list *has, *by;     /* customers of a candidate, candidates of a customer */
    unsigned char *lot; /* [candidates] */
    uint32_t *trail;    /* candidates that were put in or out, in their order */
    size_t trailed;
    uint32_t *covered; /* [customers] by how many of those that are in */
    int64_t *price, *best_price, *collects,
        *most_price; /* SCALE; [customers], [customers], [candidates], [customers] */
    int *times;      /* [customers] covered in the relaxed answer */
    uint32_t *order; /* [candidates] room */
    size_t in;
    int64_t weight_in, cost_in, weight_all;
    bool found;
    size_t chosen;
    uint32_t *choice; /* the best so far */
    int64_t weight, cost;
    size_t nodes;
    bool ended;   /* no more nodes, or told to stop */
    int64_t open; /* the best bound of what was left */
} search;

/* ---- in and out ---- */

static void cover(search *s, size_t candidate, int by)
{
    for (size_t k = 0; k < s->has[candidate].count; k++) {
        const uint32_t j = s->has[candidate].of[k];
        const bool was = s->covered[j] > 0;
        s->covered[j] = by > 0 ? s->covered[j] + 1 : s->covered[j] - 1;
        if (was != (s->covered[j] > 0))
            s->weight_in += by * s->ask->weight[j];
    }
    s->cost_in += by * s->ask->cost[candidate];
    s->in = by > 0 ? s->in + 1 : s->in - 1;
}

static void put(search *s, size_t candidate, lot where)
{
    s->lot[candidate] = (unsigned char)where;
    s->trail[s->trailed++] = (uint32_t)candidate;
    if (where == IN)
        cover(s, candidate, 1);
}

static void take_back(search *s, size_t to)
{
    while (s->trailed > to) {
        const size_t candidate = s->trail[--s->trailed];
        if (s->lot[candidate] == IN)
            cover(s, candidate, -1);
        s->lot[candidate] = FREE;
    }
}

static size_t left_to_choose(const search *s)
{
    return s->ask->most > s->in ? s->ask->most - s->in : 0;
}

/* ---- answers ---- */

static bool all_covered(const search *s)
{
    return s->weight_in == s->weight_all;
}

static void keep_if_better(search *s)
{
    const bool better = s->ask->all ? all_covered(s) && (!s->found || s->cost_in < s->cost)
                                    : !s->found || s->weight_in > s->weight;
    if (!better)
        return;
    s->found = true;
    s->weight = s->weight_in;
    s->cost = s->cost_in;
    s->chosen = 0;
    for (size_t i = 0; i < s->ask->candidates; i++)
        if (s->lot[i] == IN)
            s->choice[s->chosen++] = (uint32_t)i;
}

/* What a candidate brings now: the prices of those whom nobody covers yet, or their weight. */
static int64_t brings(const search *s, size_t candidate)
{
    int64_t sum = 0;
    for (size_t k = 0; k < s->has[candidate].count; k++) {
        const uint32_t j = s->has[candidate].of[k];
        sum += s->covered[j] ? 0 : s->ask->weight[j];
    }
    return sum;
}

/* Goes on from what is in, taking what brings most, for its cost where that counts; then takes it all back. */
static void finish_greedily(search *s)
{
    const size_t from = s->trailed;
    while (s->ask->all ? !all_covered(s) : left_to_choose(s) > 0) {
        size_t best = SIZE_MAX;
        double worth = 0;
        for (size_t i = 0; i < s->ask->candidates; i++) {
            if (s->lot[i] != FREE)
                continue;
            const int64_t more = brings(s, i);
            const double here =
                s->ask->all ? (double)more / (double)(s->ask->cost[i] + 1) : (double)more;
            if (here > worth) {
                worth = here;
                best = i;
            }
        }
        if (best == SIZE_MAX)
            break;
        put(s, best, IN);
    }
    keep_if_better(s);
    take_back(s, from);
}

/* ---- bounds ---- */

static void collect(search *s)
{
    for (size_t i = 0; i < s->ask->candidates; i++) {
        s->collects[i] = 0;
        for (size_t k = 0; s->lot[i] == FREE && k < s->has[i].count; k++) {
            const uint32_t j = s->has[i].of[k];
            s->collects[i] += s->covered[j] ? 0 : s->price[j];
        }
    }
}

/* Puts the `most` free candidates that collect most in front of s->order, in any order (Hoare's selection, from
 * the middle, so that it is the same each time). @return how many are free */
static size_t select_most(search *s, size_t most)
{
    size_t count = 0;
    for (size_t i = 0; i < s->ask->candidates; i++)
        if (s->lot[i] == FREE)
            s->order[count++] = (uint32_t)i;
    size_t low = 0, high = count;
    while (most > low && most < high && high - low > 1) {
        const int64_t pivot = s->collects[s->order[low + (high - low) / 2]];
        size_t greater = low, at = low, less = high;
        while (at < less) {
            const uint32_t one = s->order[at];
            if (s->collects[one] > pivot) {
                s->order[at++] = s->order[greater];
                s->order[greater++] = one;
            } else if (s->collects[one] < pivot) {
                s->order[at] = s->order[--less];
                s->order[less] = one;
            } else {
                at++;
            }
        }
        if (most <= greater)
            high = greater;
        else if (most >= less)
            low = less;
        else
            break;
    }
    return count;
}

/* Counts how often each customer is covered by a candidate of the relaxed answer. */
static void count_times(search *s, size_t candidate)
{
    for (size_t k = 0; k < s->has[candidate].count; k++)
        s->times[s->has[candidate].of[k]]++;
}

/* Of weight, with these prices: no set below has more. @param[out] least  that one of those chosen collects */
static int64_t bound_weight(search *s, int64_t *least)
{
    collect(s);
    memset(s->times, 0, s->ask->customers * sizeof s->times[0]);
    const size_t most = left_to_choose(s), free = select_most(s, most);
    const size_t chosen = most < free ? most : free;
    int64_t sum = SCALE * s->weight_in;
    *least = chosen == most && chosen ? INT64_MAX : 0;
    for (size_t j = 0; j < s->ask->customers; j++)
        if (!s->covered[j])
            sum += SCALE * s->ask->weight[j] - s->price[j];
    for (size_t k = 0; k < chosen; k++) {
        const int64_t collects = s->collects[s->order[k]];
        sum += collects;
        *least = collects < *least ? collects : *least;
        count_times(s, s->order[k]);
    }
    return sum;
}

/* Of cost, likewise: no set below costs less. */
static int64_t bound_cost(search *s)
{
    collect(s);
    memset(s->times, 0, s->ask->customers * sizeof s->times[0]);
    int64_t sum = SCALE * s->cost_in;
    for (size_t j = 0; j < s->ask->customers; j++)
        if (!s->covered[j] && s->by[j].count)
            sum += s->price[j];
    for (size_t i = 0; i < s->ask->candidates; i++) {
        const int64_t saves = s->collects[i] - SCALE * s->ask->cost[i];
        if (s->lot[i] != FREE || saves <= 0)
            continue;
        sum -= saves;
        count_times(s, i);
    }
    return sum;
}

/* Whether a bound leaves anything better than what was found. */
static bool is_hopeless(const search *s, int64_t bound)
{
    if (!s->found)
        return false;
    return s->ask->all ? bound > SCALE * (s->cost - 1) : bound < SCALE * (s->weight + 1);
}

/* One step of the prices towards a sharper bound. @return false: they are as good as they get */
static bool step_prices(search *s, int64_t bound, double share)
{
    double norm = 0;
    for (size_t j = 0; j < s->ask->customers; j++)
        if (!s->covered[j] && s->by[j].count)
            norm += (double)(1 - s->times[j]) * (1 - s->times[j]);
    if (norm == 0)
        return false;
    const double aim = SCALE * (double)(s->ask->all ? s->cost : s->weight);
    const double gap = s->found ? fabs((double)bound - aim) : fabs((double)bound) + SCALE;
    const double length = share * fmax(gap, SCALE) / norm;
    for (size_t j = 0; j < s->ask->customers; j++) {
        if (s->covered[j] || !s->by[j].count)
            continue;
        const double price = (double)s->price[j] + length * (1 - s->times[j]);
        s->price[j] = (int64_t)llround(fmin(fmax(price, 0), (double)s->most_price[j]));
    }
    return true;
}

static bool is_sharper(const search *s, int64_t bound, int64_t than)
{
    return s->ask->all ? bound > than : bound < than;
}

/* The sharpest bound of some steps; its prices are those left behind. */
static int64_t bound_of(search *s, int steps, int64_t *least)
{
    int64_t best = s->ask->all ? INT64_MIN : INT64_MAX, best_least = 0;
    double share = 1;
    int stale = 0;
    for (int n = 0; n < steps; n++) {
        const int64_t bound = s->ask->all ? bound_cost(s) : bound_weight(s, least);
        if (is_sharper(s, bound, best)) {
            best = bound;
            best_least = *least;
            stale = 0;
            memcpy(s->best_price, s->price, s->ask->customers * sizeof s->price[0]);
        } else if (++stale == STALE_STEPS) {
            share *= 0.5;
            stale = 0;
        }
        if (is_hopeless(s, best) || !step_prices(s, bound, share))
            break;
    }
    memcpy(s->price, s->best_price, s->ask->customers * sizeof s->price[0]);
    collect(s);
    *least = best_least;
    return best;
}

/* Puts out what no better answer below has. */
static void put_out(search *s, int64_t bound, int64_t least)
{
    for (size_t i = 0; i < s->ask->candidates; i++) {
        if (s->lot[i] != FREE)
            continue;
        const int64_t with = s->ask->all
                                 ? bound + (SCALE * s->ask->cost[i] > s->collects[i]
                                                ? SCALE * s->ask->cost[i] - s->collects[i]
                                                : 0)
                                 : bound + (s->collects[i] < least ? s->collects[i] - least : 0);
        if (is_hopeless(s, with))
            put(s, i, OUT);
    }
}

/* ---- the tree ---- */

/* Where somebody whom nobody covers could be covered by none. */
static bool cannot_be(const search *s)
{
    for (size_t j = 0; s->ask->all && j < s->ask->customers; j++) {
        bool any = s->covered[j] || !s->by[j].count;
        for (size_t k = 0; !any && k < s->by[j].count; k++)
            any = s->lot[s->by[j].of[k]] == FREE;
        if (!any)
            return true;
    }
    return false;
}

/* What to ask next: what collects most, less what it costs where that counts. */
static size_t next_candidate(const search *s)
{
    size_t best = SIZE_MAX;
    int64_t worth = 0;
    for (size_t i = 0; i < s->ask->candidates; i++) {
        if (s->lot[i] != FREE)
            continue;
        const int64_t here = s->collects[i] - (s->ask->all ? SCALE * s->ask->cost[i] : 0);
        if (best == SIZE_MAX || here > worth) {
            best = i;
            worth = here;
        }
    }
    return best;
}

static bool has_to_end(search *s)
{
    s->nodes++;
    s->ended = s->ended || s->nodes > s->ask->nodes ||
               pare_progress_step(s->ask->progress, NULL, 0, 0, NULL) != PARE_OK;
    return s->ended;
}

static void leave_open(search *s, int64_t bound)
{
    if (is_sharper(s, s->open, bound))
        s->open = bound;
}

/* All sets below what is in and out. Depth: at most as many as can be in. */
static void branch(search *s, int64_t above)
{
    const size_t from = s->trailed;
    int64_t bound = above;
    while (!cannot_be(s)) {
        int64_t least = 0;
        keep_if_better(s);
        if (s->ask->all ? all_covered(s) : left_to_choose(s) == 0)
            break;
        if (has_to_end(s)) {
            leave_open(s, bound);
            break;
        }
        const int64_t own = bound_of(s, s->nodes == 1 ? ROOT_STEPS : NODE_STEPS, &least);
        bound = is_sharper(s, own, bound) ? own : bound;
        if (is_hopeless(s, bound))
            break;
        finish_greedily(s);
        collect(s);
        put_out(s, bound, least);
        const size_t one = next_candidate(s);
        if (one == SIZE_MAX)
            break;
        const size_t here = s->trailed;
        put(s, one, IN);
        branch(s, bound);
        take_back(s, here);
        put(s, one, OUT);
    }
    take_back(s, from);
}

/* ---- before and after ---- */

static bool has(const pare_cover_ask *ask, size_t candidate, size_t customer)
{
    return ask->covers[candidate * pare_cover_words(ask->customers) + customer / 64] >>
               (customer % 64) &
           1;
}

static bool make_lists(search *s, pare_arena *arena)
{
    const pare_cover_ask *ask = s->ask;
    size_t pairs = 0;
    for (size_t i = 0; i < ask->candidates; i++)
        for (size_t j = 0; j < ask->customers; j++)
            if (has(ask, i, j)) {
                s->has[i].count++;
                s->by[j].count++;
                pairs++;
            }
    uint32_t *of = pare_arena_array(arena, 2 * pairs + 1, sizeof *of);
    uint32_t **next = pare_arena_array(arena, ask->customers + 1, sizeof *next);
    if (!of || !next)
        return false;
    for (size_t j = 0; j < ask->customers; j++) {
        s->by[j].of = next[j] = of;
        of += s->by[j].count;
    }
    for (size_t i = 0; i < ask->candidates; i++) {
        s->has[i].of = of;
        for (size_t j = 0; j < ask->customers; j++)
            if (has(ask, i, j)) {
                *of++ = (uint32_t)j;
                *next[j]++ = (uint32_t)i;
            }
    }
    return true;
}

/* Whether all that one covers another covers too, and costs no more where that counts; of two that are the
 * same the first stays. */
static bool is_no_better(const pare_cover_ask *ask, size_t one, size_t other)
{
    const size_t words = pare_cover_words(ask->customers);
    const uint64_t *a = ask->covers + one * words, *b = ask->covers + other * words;
    bool same = true;
    if (ask->all && ask->cost[other] > ask->cost[one])
        return false;
    for (size_t w = 0; w < words; w++) {
        if (a[w] & ~b[w])
            return false;
        same = same && a[w] == b[w];
    }
    return !same || (ask->all && ask->cost[other] < ask->cost[one]) || other < one;
}

static void put_out_needless(search *s)
{
    const pare_cover_ask *ask = s->ask;
    for (size_t i = 0; i < ask->candidates; i++) {
        bool needless = s->has[i].count == 0;
        for (size_t k = 0; !needless && ask->candidates <= COMPARED_MOST && k < ask->candidates;
             k++)
            needless = k != i && s->lot[k] == FREE && is_no_better(ask, i, k);
        if (needless)
            put(s, i, OUT);
    }
}

static void first_prices(search *s)
{
    for (size_t j = 0; j < s->ask->customers; j++) {
        int64_t least = INT64_MAX;
        for (size_t k = 0; k < s->by[j].count; k++)
            if (s->ask->cost[s->by[j].of[k]] < least)
                least = s->ask->cost[s->by[j].of[k]];
        s->most_price[j] = s->by[j].count == 0 ? 0
                           : s->ask->all       ? SCALE * least
                                               : SCALE * s->ask->weight[j];
        s->price[j] = s->most_price[j] / 2;
        if (s->by[j].count)
            s->weight_all += s->ask->weight[j];
    }
}

static pare_status check(const pare_cover_ask *ask, pare_error *err)
{
    int64_t weight = 0, cost = 0;
    if (ask->candidates > CANDIDATES_MOST || ask->customers > CUSTOMERS_MOST)
        return pare_fail(err, PARE_BAD_DATA,
                         "%zu craft for %zu customers; right would be %d for %d at most",
                         ask->candidates, ask->customers, CANDIDATES_MOST, CUSTOMERS_MOST);
    for (size_t j = 0; j < ask->customers; j++) {
        if (ask->weight[j] < 1 || ask->weight[j] > PARE_COVER_AMOUNT - weight)
            return pare_fail(err, PARE_BAD_DATA,
                             "customers: %lld and more; right would be 1 to %lld",
                             (long long)ask->weight[j], (long long)PARE_COVER_AMOUNT);
        weight += ask->weight[j];
    }
    for (size_t i = 0; i < ask->candidates; i++) {
        if (ask->cost[i] < 0 || ask->cost[i] > PARE_COVER_AMOUNT - cost)
            return pare_fail(err, PARE_BAD_DATA, "a cost of %lld; right would be 0 to %lld in all",
                             (long long)ask->cost[i], (long long)PARE_COVER_AMOUNT);
        cost += ask->cost[i];
    }
    return PARE_OK;
}

static bool make_room(search *s, pare_arena *arena)
{
    const size_t n = s->ask->candidates + 1, m = s->ask->customers + 1;
    s->has = pare_arena_array(arena, n, sizeof s->has[0]);
    s->by = pare_arena_array(arena, m, sizeof s->by[0]);
    s->lot = pare_arena_array(arena, n, sizeof s->lot[0]);
    s->trail = pare_arena_array(arena, 2 * n, sizeof s->trail[0]);
    s->covered = pare_arena_array(arena, m, sizeof s->covered[0]);
    s->price = pare_arena_array(arena, m, sizeof s->price[0]);
    s->best_price = pare_arena_array(arena, m, sizeof s->best_price[0]);
    s->most_price = pare_arena_array(arena, m, sizeof s->most_price[0]);
    s->collects = pare_arena_array(arena, n, sizeof s->collects[0]);
    s->times = pare_arena_array(arena, m, sizeof s->times[0]);
    s->order = pare_arena_array(arena, n, sizeof s->order[0]);
    s->choice = pare_arena_array(arena, n, sizeof s->choice[0]);
    return s->has && s->by && s->lot && s->trail && s->covered && s->price && s->best_price &&
           s->most_price && s->collects && s->times && s->order && s->choice &&
           make_lists(s, arena);
}

/* A bound in whole units: of weight rounded down, of cost up. */
static int64_t whole(const search *s, int64_t scaled)
{
    return s->ask->all ? (scaled + SCALE - 1) / SCALE : scaled / SCALE;
}

static pare_status tell(const search *s, pare_arena *arena, pare_cover *cover, pare_error *err)
{
    *cover =
        (pare_cover){.weight = s->weight,
                     .cost = s->cost,
                     .proven = !s->ended,
                     .nodes = s->nodes,
                     .bound = s->ask->all ? s->cost : s->weight,
                     .chosen = pare_arena_array(arena, s->chosen + 1, sizeof cover->chosen[0])};
    if (!cover->chosen)
        return pare_no_memory(err);
    for (size_t i = 0; i < s->chosen; i++) {
        bool needed = s->ask->all || s->has[s->choice[i]].count;
        if (needed)
            cover->chosen[cover->count++] = s->choice[i];
    }
    if (s->ended) {
        const int64_t open = whole(s, s->open);
        if (s->ask->all ? open < cover->bound : open > cover->bound)
            cover->bound = open;
        cover->proven = cover->bound == (s->ask->all ? s->cost : s->weight);
    }
    return PARE_OK;
}

pare_status pare_cover_find(const pare_cover_ask *ask, pare_arena *arena, pare_cover *cover,
                            pare_error *err)
{
    search s = {.ask = ask};
    pare_arena *room = pare_arena_open();
    pare_status status = room ? check(ask, err) : pare_no_memory(err);
    if (status == PARE_OK && !make_room(&s, room))
        status = pare_no_memory(err);
    if (status == PARE_OK) {
        const int64_t none = ask->all ? INT64_MIN : INT64_MAX;
        s.open = ask->all ? INT64_MAX : INT64_MIN;
        first_prices(&s);
        put_out_needless(&s);
        finish_greedily(&s);
        branch(&s, none);
        status = tell(&s, arena, cover, err);
    }
    pare_arena_close(room);
    return status;
}
