/* rooms: store advise craft physics base */
/* best.c: how long the lightest set takes to be found and proven, by the parts on the bench.
 *
 * Made-up benches (support/made_bench.h) of 200, 700 and 2,000 parts, three crafts from 700 on, half a minute
 * of processor time for each craft. For each: the time, what was proven, and how much of it was looked at.
 * speed_best PARTS CRAFT SECONDS SEED measures one. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/best.h"
#include "support/clock.h"
#include "support/made_bench.h"

#define USUAL_S 30.0

enum { SEED = 1, CUTS_TOLD = 6 };

/* @param clock  CLOCK_MONOTONIC, or CLOCK_PROCESS_CPUTIME_ID: what all threads have computed, which others' work on
 * the machine does not change */
static int measure(const pare_bench *bench, const pare_craft *craft, double most_s)
{
    pare_arena *arena = pare_arena_open();
    const double began_s = seconds_of(CLOCK_MONOTONIC), cpu_s = processor_s();
    double ends_s = cpu_s + most_s;
    const pare_progress progress = {.step = until_processor_s, .context = &ends_s};
    const pare_best_ask ask = {.loadout = -1, .progress = &progress};
    pare_error err = {0};
    pare_best best;
    if (!arena || pare_best_find(bench, craft, &ask, arena, &best, &err) != PARE_OK) {
        fprintf(stderr, "%s\n", err.text);
        return 1;
    }
    printf("%6zu parts  %-10s %8.3f s (processor %.3f s)  %s  was %.4f g, best %.4f g, bound %.4f "
           "g  %zu groups, %zu "
           "opened, %zu "
           "dived, %zu sets, %zu misses\n",
           bench->parts, craft->name, seconds_of(CLOCK_MONOTONIC) - began_s, processor_s() - cpu_s,
           best.proven ? "proven" : "NOT proven", 1e-4 * (double)best.was_100ug,
           1e-4 * (double)best.best_100ug, 1e-4 * (double)best.bound_100ug, best.groups,
           best.opened, best.dived, best.sets, best.misses);
    for (size_t i = 0; i < best.cuts && i < CUTS_TOLD; i++)
        printf("%s %zu %s", i ? "," : "             cut by", best.cut[i].groups, best.cut[i].name);
    for (size_t i = 0; i < best.binds && i < CUTS_TOLD; i++)
        printf("%s %zu %s", i ? "," : "; refused by", best.bind[i].groups, best.bind[i].name);
    printf("%s", best.cuts || best.binds ? "\n" : "");
    fflush(stdout);
    pare_arena_close(arena);
    return 0;
}

static int measure_bench(size_t parts, const char *name, double most_s, unsigned long long seed)
{
    pare_bench *bench = NULL;
    pare_error err = {0};
    int bad = 0;
    if (made_bench(parts, seed, &bench, &err) != PARE_OK) {
        fprintf(stderr, "%s\n", err.text);
        return 1;
    }
    for (size_t i = 0; i < bench->crafts; i++)
        if (!name || strcmp(name, "all") == 0 || strcmp(bench->craft[i]->name, name) == 0)
            bad |= measure(bench, bench->craft[i], most_s);
    pare_bench_close(bench);
    return bad;
}

int main(int argc, char **argv)
{
    static const size_t sizes[] = {200, 700, 2000};
    int bad = 0;
    if (argc > 1)
        return measure_bench((size_t)atoi(argv[1]), argc > 2 ? argv[2] : NULL,
                             argc > 3 ? atof(argv[3]) : USUAL_S,
                             argc > 4 ? strtoull(argv[4], NULL, 10) : SEED);
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
        bad |= measure_bench(sizes[i], NULL, USUAL_S, SEED);
    return bad;
}
