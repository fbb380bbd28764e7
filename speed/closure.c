/* rooms: advise base */
/* closure.c: what it costs to adjust 500 readings of 300 things: on ten craft, and on four, which is the
 * fewest that may hold so many.
 *
 * Baseline in the same run: the same equations through a dense elimination, which is what a general
 * solver does with them. The least of many rounds: on a busy machine a mean measures the neighbours. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "advise/adjust.h"

enum {
    ROUNDS = 60,
    ITEMS = 300,
    MAKERS = 20,
    SCALES = 3,
    READINGS = 500,
    UNKNOWNS = ITEMS + MAKERS + SCALES,
    EQUATIONS = UNKNOWNS + READINGS,
    TERMS = ITEMS + 1
};

static pare_term term[EQUATIONS][TERMS];
static pare_equation equation[EQUATIONS];
static double dense[UNKNOWNS][UNKNOWNS];

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static unsigned draw(unsigned *state, unsigned sides)
{
    *state = *state * 1664525u + 1013904223u;
    return (*state >> 8) % sides;
}

/* Items of a maker each; readings of one to three items of a craft; one in twenty is of the whole. */
static void make(unsigned crafts)
{
    unsigned seed = 5;
    const size_t of_craft = ITEMS / crafts;
    for (size_t i = 0; i < UNKNOWNS; i++) {
        term[i][0] = (pare_term){i, 1};
        term[i][1] = (pare_term){ITEMS + i % MAKERS, -0.02};
        equation[i] = (pare_equation){i < ITEMS ? 0.02 : 0, i < ITEMS ? 2e-4 : 0.01,
                                      i < ITEMS ? 2 : 1, term[i], false};
    }
    for (size_t r = 0; r < READINGS; r++) {
        pare_equation *eq = &equation[UNKNOWNS + r];
        pare_term *its = term[UNKNOWNS + r];
        const size_t craft = draw(&seed, crafts) * of_craft;
        const size_t terms = r % 20 == 0 ? of_craft : 1 + draw(&seed, 3);
        for (size_t t = 0; t < terms; t++)
            its[t] =
                (pare_term){craft + (terms == of_craft ? t : draw(&seed, (unsigned)of_craft)), 1};
        its[terms] = (pare_term){ITEMS + MAKERS + draw(&seed, SCALES), 0.02 * (double)terms};
        *eq = (pare_equation){0.02 * (double)terms, 1e-4, terms + 1, its, false};
    }
}

static double sparse_s(void)
{
    double least = INFINITY;
    for (int round = 0; round < ROUNDS; round++) {
        pare_arena *arena = pare_arena_open();
        pare_adjusted adjusted;
        pare_error err = {0};
        const double from = now_s();
        if (pare_adjust(UNKNOWNS, EQUATIONS, equation, arena, &adjusted, NULL, &err) != PARE_OK) {
            fprintf(stderr, "%s\n", err.text);
            exit(1);
        }
        least = fmin(least, now_s() - from);
        pare_arena_close(arena);
    }
    return least;
}

/* Normal equations, Cholesky and the inverse, all of it dense. */
static double dense_s(void)
{
    double least = INFINITY;
    for (int round = 0; round < ROUNDS / 10; round++) {
        const double from = now_s();
        for (size_t i = 0; i < UNKNOWNS; i++)
            for (size_t j = 0; j < UNKNOWNS; j++)
                dense[i][j] = 0;
        for (size_t q = 0; q < EQUATIONS; q++)
            for (size_t a = 0; a < equation[q].terms; a++)
                for (size_t b = 0; b < equation[q].terms; b++)
                    dense[term[q][a].unknown][term[q][b].unknown] +=
                        term[q][a].factor * term[q][b].factor / (equation[q].u * equation[q].u);
        /* Gauss and Jordan in place: the inverse. */
        for (size_t k = 0; k < UNKNOWNS; k++) {
            const double pivot = 1 / dense[k][k];
            dense[k][k] = 1;
            for (size_t j = 0; j < UNKNOWNS; j++)
                dense[k][j] *= pivot;
            for (size_t i = 0; i < UNKNOWNS; i++) {
                const double by = dense[i][k];
                if (i == k || by == 0)
                    continue;
                dense[i][k] = 0;
                for (size_t j = 0; j < UNKNOWNS; j++)
                    dense[i][j] -= by * dense[k][j];
            }
        }
        least = fmin(least, now_s() - from);
    }
    return least;
}

int main(void)
{
    static const unsigned crafts[] = {10, 4};
    for (size_t i = 0; i < sizeof crafts / sizeof crafts[0]; i++) {
        make(crafts[i]);
        const double sparse = sparse_s(), full = dense_s();
        printf("500 readings, 300 items on %2u craft: %5.2f ms; dense %5.2f ms (%.1f times)\n",
               crafts[i], 1e3 * sparse, 1e3 * full, full / sparse);
    }
    return 0;
}
