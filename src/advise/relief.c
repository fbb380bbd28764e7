/* relief.c: searches with parts of the brief given way (see relief.h).
 *
 * A limit that is let go altogether says whether it helps at all; what the set found then has of the figure
 * is one way to give way that is enough. From there the least is halved towards: each set that is found says
 * by itself how far it gave way, which is often much less than was allowed. */
#include "advise/relief.h"

#include <math.h>
#include <stdio.h>

#include "advise/loosen.h"
#include "craft/figure.h"

#define FINE       0.1 /* of a limit's unit */
#define SHARE_FINE 0.005
#define LET_GO     1e-6 /* of a limit: as good as none */
#define MOST_SHARE 0.9

enum { HALVINGS = 24 };

typedef struct asking {
    const pare_bench *bench;
    const pare_craft *craft;
    const pare_best_ask *ask;
    pare_reliefs *reliefs;
    pare_error *err;
    pare_status status;
} asking;

/* What came of one search. */
typedef struct outcome {
    bool found;
    int64_t best_100ug;
    double value[2]; /* of the two limits asked about, SI */
} outcome;

static double scale_of(const pare_relief *limit)
{
    return limit->figure < 0 ? 1 : pare_figure_table[limit->figure].scale;
}

static double value_on(const pare_sheet *sheet, const pare_relief *limit)
{
    char name[64];
    snprintf(name, sizeof name, "limit.%s", limit->key);
    const pare_margin *margin = pare_sheet_margin(sheet, name);
    return margin ? margin->value / scale_of(limit) : limit->from;
}

static void set_limit(pare_brief *brief, const pare_relief *limit, double to)
{
    for (size_t i = 0; i < brief->limits; i++)
        if (brief->limit[i].key == limit->key)
            brief->limit[i].value = to;
}

/* One search with one or two limits at other values. */
static outcome search(asking *a, size_t count, const pare_relief *const limit[], const double to[])
{
    outcome met = {.found = false};
    pare_best best;
    pare_arena *arena = pare_arena_open();
    pare_craft *looser = arena ? pare_arena_zeros(arena, sizeof *looser) : NULL;
    a->status = looser ? PARE_OK : pare_no_memory(a->err);
    if (a->status == PARE_OK) {
        pare_craft_copy(a->craft, looser);
        for (size_t i = 0; i < count; i++)
            set_limit(&looser->brief, limit[i], to[i]);
        a->status = pare_best_find(a->bench, looser, a->ask, arena, &best, a->err);
    }
    if (a->status == PARE_OK) {
        met.found = best.found;
        met.best_100ug = best.best_100ug;
        a->reliefs->stopped = a->reliefs->stopped || (!best.proven && !best.found);
        for (size_t i = 0; best.found && i < count; i++)
            met.value[i] = value_on(best.sheet_after, limit[i]);
    }
    pare_arena_close(arena);
    return met;
}

static bool goes_on(const asking *a)
{
    return a->status == PARE_OK && !a->reliefs->stopped;
}

static double let_go(const pare_relief *limit)
{
    return limit->at_least ? LET_GO * limit->from : limit->from / LET_GO;
}

/* Between what fails and what is enough, that which is looser than the one and never looser than the other. */
static double enough(const asking *a, const pare_relief *limit, double value, double allowed)
{
    if (a->ask->sure > 0)
        return allowed; /* what it has of the figure is more than the limit, to be sure */
    return limit->at_least ? fmax(value, allowed) : fmin(value, allowed);
}

static void relieve_alone(asking *a, pare_relief *one)
{
    const pare_relief *limits[] = {one};
    const double fine = FINE * pare_limit_unit(one->key);
    double to = let_go(one), fails = one->from;
    outcome met = search(a, 1, limits, &to);
    if (!goes_on(a) || !met.found)
        return;
    one->helps = true;
    one->to = enough(a, one, met.value[0], to);
    one->best_100ug = met.best_100ug;
    one->exact = one->figure == PARE_ALL_UP &&
                 !(a->ask->sure > 0); /* the lightest set is what was searched for */
    for (int i = 0; !one->exact && i < HALVINGS; i++) {
        if (fabs(one->to - fails) <= fine) {
            one->exact = true;
            return;
        }
        to = (one->to + fails) / 2;
        met = search(a, 1, limits, &to);
        if (!goes_on(a))
            return;
        if (met.found) {
            one->to = enough(a, one, met.value[0], to);
            one->best_100ug = met.best_100ug;
        } else {
            fails = to;
        }
    }
}

static double given_way(const pare_relief *limit, double share)
{
    return limit->from * (limit->at_least ? 1 - share : 1 + share);
}

/* The share of itself that a set's figure took of a limit. */
static double share_taken(const pare_relief *limit, double value)
{
    const double taken = limit->at_least ? 1 - value / limit->from : value / limit->from - 1;
    return fmax(taken, 0);
}

static outcome search_pair(asking *a, const pare_relief *const pair[2], double share)
{
    const double to[] = {given_way(pair[0], share), given_way(pair[1], share)};
    return search(a, 2, pair, to);
}

static void keep_pair(const asking *a, const pare_relief *const pair[2], const outcome *met,
                      double allowed)
{
    pare_reliefs *reliefs = a->reliefs;
    reliefs->pair = true;
    reliefs->share = 0;
    for (size_t k = 0; k < 2; k++) {
        pare_relief *both = &reliefs->both[k];
        *both = *pair[k];
        both->helps = true;
        both->best_100ug = met->best_100ug;
        const double share =
            a->ask->sure > 0 ? allowed : fmin(share_taken(both, met->value[k]), allowed);
        both->to = given_way(both, share);
        reliefs->share = fmax(reliefs->share, share);
    }
}

/* What a pair must be cheaper than. */
static double least_share(const pare_reliefs *reliefs)
{
    double least = reliefs->pair ? reliefs->share : MOST_SHARE;
    for (size_t i = 0; i < reliefs->count; i++)
        if (reliefs->alone[i].helps)
            least = fmin(least, share_taken(&reliefs->alone[i], reliefs->alone[i].to));
    return least;
}

static void relieve_pair(asking *a, const pare_relief *first, const pare_relief *second)
{
    const pare_relief *pair[] = {first, second};
    double fails = 0;
    double share = least_share(a->reliefs) - SHARE_FINE;
    for (int i = 0; i < HALVINGS && share - fails > SHARE_FINE / 2; i++) {
        const outcome met = search_pair(a, pair, share);
        if (!goes_on(a))
            return;
        if (met.found)
            keep_pair(a, pair, &met, share);
        else if (i == 0)
            return;
        else
            fails = share;
        share = (a->reliefs->share + fails) / 2;
    }
}

pare_status pare_best_relieve(const pare_bench *bench, const pare_craft *craft,
                              const pare_best_ask *ask, pare_reliefs *reliefs, pare_error *err)
{
    asking a = {bench, craft, ask, reliefs, err, PARE_OK};
    *reliefs = (pare_reliefs){.count = craft->brief.limits};
    for (size_t i = 0; i < reliefs->count; i++) {
        const pare_limit *limit = &craft->brief.limit[i];
        reliefs->alone[i] = (pare_relief){.key = limit->key,
                                          .figure = pare_figure_of_limit(limit->key),
                                          .at_least = limit->at_least,
                                          .from = limit->value,
                                          .to = limit->value};
    }
    for (size_t i = 0; goes_on(&a) && i < reliefs->count; i++)
        relieve_alone(&a, &reliefs->alone[i]);
    for (size_t i = 0; i < reliefs->count; i++)
        for (size_t k = i + 1; goes_on(&a) && k < reliefs->count; k++)
            relieve_pair(&a, &reliefs->alone[i], &reliefs->alone[k]);
    return a.status;
}
