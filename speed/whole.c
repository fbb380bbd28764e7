/* rooms: store advise craft physics base */
/* whole.c: a best set with its physics, against general solvers that are given the physics in tables, and against
 * an exact knapsack for each group.
 *
 * The question is that of a made-up bench's five inch: motor, propeller, pack, ESC and eleven plain items are
 * open, screws and wires are held, prices are plain sums; with all the money that the lightest set takes, and
 * with shares of it. `pare best` flies what it looks at. The others get tables (support/tabled.h): for each
 * group of the four the stretch of masses in which it does its job, worked out before their clock starts.
 *
 *   GLPK, CBC   one model: a column an option, a row a class, a row each for money and both ends of the
 *               stretch; no gap; what is not proven after a minute of processor time says so
 *   knapsacks   for each group of the table the lightest of all else that goes with it, exactly, no bound of
 *               one group used for another
 *
 * All run on one thread; times are the processor's. Every answer is added up again in integers and has to be
 * the same: otherwise the program says so and fails.
 * speed_whole PARTS SEED SECONDS: parts on the bench, its draw, how long each may take (600 for ten minutes). */
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/clock.h"
#include "support/made_bench.h"
#include "support/solvers.h"
#include "support/tabled.h"

enum { USUAL_PARTS = 120, USUAL_SEED = 1, ROUNDS = 3 };
#define USUAL_S  60.0
#define ROUNDS_S 1.0 /* of which all are wanted where one takes less */

typedef struct race {
    const pare_bench *bench;
    const pare_craft *craft;
    tabled *tables;
    double most_s;
    double own_s;  /* what `pare best` took */
    bool proven;   /* somebody's answer is */
    int64_t first; /* that of the first, more than the craft as it is */
    bool other;    /* somebody found something else */
} race;

static void tell(race *r, const char *name, double took_s, bool proven, int64_t more)
{
    const bool agrees = !r->proven || more == r->first;
    printf("  %-10s %10.3f s  %8.2f x  ", name, took_s, took_s / r->own_s);
    if (!proven)
        printf("stopped unproven\n");
    else
        printf("%+.4f g%s\n", 1e-4 * (double)more, agrees ? "" : ", ANOTHER OPTIMUM");
    fflush(stdout);
    r->other = r->other || (proven && !agrees);
    r->first = r->proven || !proven ? r->first : more;
    r->proven = r->proven || proven;
}

/* ---- pare best ---- */

static pare_status ask_best(race *r, const int64_t *most_cents, pare_error *err)
{
    pare_best_ask ask = r->tables->ask;
    const double began_s = processor_s();
    pare_status status = PARE_OK;
    pare_best best;
    ask.most_cents = most_cents;
    ask.alone = true;
    r->own_s = HUGE_VAL;
    for (int i = 0;
         status == PARE_OK && i < ROUNDS && (i == 0 || processor_s() - began_s < ROUNDS_S); i++) {
        pare_arena *arena = pare_arena_open();
        const double from = processor_s();
        double ends_s = from + r->most_s;
        const pare_progress progress = {.step = until_processor_s, .context = &ends_s};
        ask.progress = &progress;
        status = arena ? pare_best_find(r->bench, r->craft, &ask, arena, &best, err)
                       : pare_no_memory(err);
        r->own_s = fmin(r->own_s, processor_s() - from);
        pare_arena_close(arena);
    }
    if (status == PARE_OK && best.misses > 0)
        return pare_fail(err, PARE_BAD_DATA, "%zu sets do not add up", best.misses);
    if (status == PARE_OK && best.proven && !best.found)
        return pare_fail(err, PARE_NO, "no set meets the brief");
    if (status == PARE_OK)
        tell(r, "pare best", r->own_s, best.proven, best.best_100ug - best.was_100ug);
    return status;
}

/* ---- a knapsack for each group ---- */

static pare_status ask_each_group(race *r, const pare_pick *whole, pare_error *err)
{
    size_t choice[TABLED_CLASSES];
    int64_t least = INT64_MAX;
    const double from = processor_s();
    for (size_t g = 0; g < whole->class[0].count; g++) {
        const pare_pick_amounts *group = &whole->class[0].option[g];
        pare_pick rest = *whole;
        pare_pick_amounts sum;
        rest.class ++;
        rest.classes--;
        rest.most.load[0] -= group->load[0];
        rest.most.load[1] -= group->load[1];
        if (rest.most.money_cents < pare_pick_no_limit().money_cents)
            rest.most.money_cents -= group->money_cents;
        const pare_status status = pare_pick_lightest(&rest, choice, &sum, err);
        if (status != PARE_OK && status != PARE_NO)
            return status;
        if (status == PARE_OK && group->mass_100ug + sum.mass_100ug < least)
            least = group->mass_100ug + sum.mass_100ug;
    }
    const double took_s = processor_s() - from;
    tell(r, "knapsacks", took_s, true, least);
    tell(r, "  + tables", took_s + r->tables->took_s, true, least);
    return PARE_OK;
}

/* ---- one question ---- */

static void ask_solver(race *r, const char *name, solver *solve, const pare_pick *pick)
{
    solved s = {0};
    if (solve(pick, r->most_s, &s))
        tell(r, name, s.took_s, s.proven, s.mass_100ug);
    else
        printf("  %-10s no memory\n", name);
}

static pare_status ask_all(race *r, const char *title, const int64_t *most_cents, pare_error *err)
{
    pare_pick pick = r->tables->pick;
    if (most_cents)
        pick.most.money_cents = *most_cents;
    printf("%s\n", title);
    r->proven = false;
    const pare_status status = ask_best(r, most_cents, err);
    if (status != PARE_OK)
        return status;
    ask_solver(r, "GLPK", solve_by_glpk, &pick);
    ask_solver(r, "CBC", solve_by_cbc, &pick);
    return ask_each_group(r, &pick, err);
}

static pare_status run(race *r, pare_arena *arena, pare_error *err)
{
    size_t choice[TABLED_CLASSES];
    pare_pick_amounts lightest;
    pare_status status = tabled_make(r->bench, r->craft, 0, arena, r->tables, err);
    if (status != PARE_OK)
        return status;
    printf("%zu parts: %zu groups by name, %zu go on, %zu can do the job; tables %.1f s\n",
           r->bench->parts, r->tables->combinations, r->tables->fit, r->tables->class[0].count,
           r->tables->took_s);
    status = pare_pick_lightest(&r->tables->pick, choice, &lightest, err);
    if (status == PARE_OK)
        status = ask_all(r, "any money", NULL, err);
    static const int shares[] = {60, 30};
    for (size_t i = 0; status == PARE_OK && i < sizeof shares / sizeof shares[0]; i++) {
        char title[64];
        const int64_t cents = lightest.money_cents * shares[i] / 100;
        snprintf(title, sizeof title, "%d %% of that money, %" PRId64 ".%02d EUR", shares[i],
                 cents / 100, (int)(cents % 100));
        status = ask_all(r, title, &cents, err);
    }
    return status;
}

int main(int argc, char **argv)
{
    const size_t parts = argc > 1 ? strtoull(argv[1], NULL, 10) : USUAL_PARTS;
    const unsigned long long seed = argc > 2 ? strtoull(argv[2], NULL, 10) : USUAL_SEED;
    race r = {.most_s = argc > 3 ? strtod(argv[3], NULL) : USUAL_S};
    pare_bench *bench = NULL;
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? made_bench(parts, seed, &bench, &err) : pare_no_memory(&err);
    if (status == PARE_OK) {
        tabled_plain_bench(bench);
        r.bench = bench;
        r.tables = pare_arena_zeros(arena, sizeof *r.tables);
        for (size_t i = 0; i < bench->crafts; i++)
            if (strcmp(bench->craft[i]->name, "fieldfare") == 0)
                r.craft = bench->craft[i];
        status = r.tables ? run(&r, arena, &err) : pare_no_memory(&err);
    }
    if (status != PARE_OK)
        fprintf(stderr, "speed_whole: %s\n", err.text);
    pare_bench_close(bench);
    pare_arena_close(arena);
    return status != PARE_OK ? (int)status : r.other;
}
