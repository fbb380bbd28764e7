/* rooms: store advise craft physics base */
/* saved.c: how many grams a best set saves on craft that nobody has tuned: their distribution, by size.
 *
 * Made-up benches (support/made_bench.h) with a three inch, a five inch and a seven inch craft each, of masses
 * that are typical of the trade; each craft's best set by so many seconds of processor time. What is not proven
 * by then counts with the best so far. A study, not a race: it times nothing.
 * speed_saved CRAFT SECONDS PARTS: how many craft, how long for each, parts on each bench. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "advise/best.h"
#include "support/clock.h"
#include "support/made_bench.h"

enum { CLASSES = 3, MOST = 1000, USUAL_CRAFT = 200, FIRST_SEED = 1000 };
#define USUAL_S 2.0

typedef struct saved {
    double grams, share; /* less than it weighed */
} saved;

typedef struct class
{
    char name[24];
    size_t craft, found, proven, none;
    double gap_g; /* at most missing, of those that were not proven, in all */
    saved of[MOST];
} class;

static int by_grams(const void *a, const void *b)
{
    const saved *one = a, *other = b;
    return (one->grams > other->grams) - (one->grams < other->grams);
}

static int by_share(const void *a, const void *b)
{
    const saved *one = a, *other = b;
    return (one->share > other->share) - (one->share < other->share);
}

static int look(const pare_bench *bench, const pare_craft *craft, double most_s, class *c)
{
    double ends_s = processor_s() + most_s;
    const pare_progress progress = {.step = until_processor_s, .context = &ends_s};
    const pare_best_ask ask = {.loadout = -1, .progress = &progress};
    pare_arena *arena = pare_arena_open();
    pare_error err = {0};
    pare_best best;
    if (!arena || pare_best_find(bench, craft, &ask, arena, &best, &err) != PARE_OK) {
        fprintf(stderr, "%s: %s\n", craft->name, err.text);
        pare_arena_close(arena);
        return 1;
    }
    c->craft++;
    c->proven += best.proven;
    c->none += !best.found && best.proven;
    if (best.found) {
        const double less = (double)(best.was_100ug - best.best_100ug);
        c->of[c->found++] = (saved){1e-4 * less, less / (double)best.was_100ug};
        c->gap_g += best.proven ? 0 : 1e-4 * (double)(best.best_100ug - best.bound_100ug);
    }
    pare_arena_close(arena);
    return 0;
}

static double quantile(const class *c, double q, bool grams)
{
    const double at = q * (double)(c->found - 1);
    const size_t low = (size_t)at, high = low + 1 < c->found ? low + 1 : low;
    const double a = grams ? c->of[low].grams : c->of[low].share;
    const double b = grams ? c->of[high].grams : c->of[high].share;
    return a + (at - (double)low) * (b - a);
}

static void tell(class *c)
{
    static const double q[] = {0, 0.05, 0.25, 0.5, 0.75, 0.95, 1};
    printf("%-10s %4zu craft, %zu proven, %zu of them with no set at all, %zu without one in time",
           c->name, c->craft, c->proven, c->none, c->craft - c->found - c->none);
    if (c->found > c->proven - c->none)
        printf(", %.1f g at most missing on each that is not proven",
               c->gap_g / (double)(c->found - (c->proven - c->none)));
    printf("\n");
    for (int grams = 1; grams >= 0 && c->found > 0; grams--) {
        qsort(c->of, c->found, sizeof c->of[0], grams ? by_grams : by_share);
        printf("           %s", grams ? "g less:" : "% less:");
        for (size_t i = 0; i < sizeof q / sizeof q[0]; i++)
            printf("  %3.0f %% %6.1f", 100 * q[i], (grams ? 1 : 100) * quantile(c, q[i], grams));
        printf("\n");
    }
}

int main(int argc, char **argv)
{
    const size_t craft = argc > 3 ? (size_t)atoi(argv[1]) : USUAL_CRAFT;
    const double most_s = argc > 3 ? atof(argv[2]) : USUAL_S;
    const size_t parts = argc > 3 ? (size_t)atoi(argv[3]) : MADE_BENCH_ALL_SIZES;
    class *c = calloc(CLASSES + 1, sizeof *c), *all = c ? &c[CLASSES] : NULL;
    size_t looked = 0;
    if (!c || craft > MOST)
        return 1;
    for (unsigned long long seed = FIRST_SEED; looked < craft; seed++) {
        pare_bench *bench;
        pare_error err = {0};
        if (made_bench(parts, seed, &bench, &err) != PARE_OK) {
            fprintf(stderr, "%s\n", err.text);
            return 1;
        }
        for (size_t i = 0; i < bench->crafts && i < CLASSES && looked < craft; i++, looked++) {
            snprintf(c[i].name, sizeof c[i].name, "%s", bench->craft[i]->name);
            if (look(bench, bench->craft[i], most_s, &c[i]) != 0)
                return 1;
        }
        pare_bench_close(bench);
        fprintf(stderr, "\r%zu craft, %.0f s", looked, processor_s());
    }
    fprintf(stderr, "\n");
    strcpy(all->name, "all");
    for (size_t i = 0; i < CLASSES; i++) {
        if (c[i].craft > 0)
            tell(&c[i]);
        for (size_t k = 0; k < c[i].found && all->found < MOST; k++)
            all->of[all->found++] = c[i].of[k];
        all->craft += c[i].craft;
        all->proven += c[i].proven;
        all->none += c[i].none;
        all->gap_g += c[i].gap_g;
    }
    tell(all);
    free(c);
    return 0;
}
