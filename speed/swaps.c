/* rooms: store advise craft physics base */
/* swaps.c: what the list of all single swaps costs on a bench of 2,000 parts, tables warm.
 *
 * Measured on a bench that is made up here, and on that of a file where one is named (./dev speed
 * passes the demo's), whose parts are copied, each copy a little lighter or heavier, until there are
 * 2,000. One line a figure: name, value, unit, and what it is compared with in the same run: as many
 * whole sheets, one after another, as the list has rows; and one thread. One and two threads take
 * turns, and the least of each counts, so that a neighbour on the machine disturbs both alike; the time
 * that the processors spent is told beside the time on the clock. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#ifdef _OPENMP
#include <omp.h>
#endif

#include "advise/swap.h"
#include "store/bench.h"
#include "support/made_bench.h"

enum { PARTS = 2000, SEED = 2026, ROUNDS = 12 };

static double now_s(clockid_t clock)
{
    struct timespec t;
    clock_gettime(clock, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int by_id(const void *a, const void *b)
{
    return strcmp((*(pare_part *const *)a)->id, (*(pare_part *const *)b)->id);
}

/* The bench with copies of its parts: same geometry, so the propellers' tables are shared. */
static int grow(const pare_bench *small, pare_arena *arena, pare_bench *large)
{
    *large = *small;
    large->arena = arena;
    large->parts = PARTS;
    large->part = pare_arena_array(arena, PARTS, sizeof large->part[0]);
    if (!large->part || small->parts == 0 || small->parts > PARTS)
        return 0;
    for (size_t i = 0; i < PARTS; i++) {
        large->part[i] = small->part[i % small->parts];
        if (i < small->parts)
            continue;
        pare_part *copy = pare_arena_zeros(arena, sizeof *copy);
        if (!copy)
            return 0;
        *copy = *large->part[i];
        const size_t generation = i / small->parts;
        copy->id = pare_arena_printf(arena, "%s-%zu", copy->id, generation);
        copy->mass_kg.value *= 0.90 + 0.02 * (double)generation;
        copy->owned = 0;
        if (!copy->id)
            return 0;
        large->part[i] = copy;
    }
    qsort(large->part, PARTS, sizeof large->part[0], by_id);
    return 1;
}

static void use_threads(int threads)
{
#ifdef _OPENMP
    omp_set_num_threads(threads);
#else
    (void)threads;
#endif
}

/* The least that several rounds took, on the clock and of all processors. */
typedef struct took {
    double clock_s, computing_s;
} took;

typedef struct stopwatch {
    double clock_s, computing_s;
} stopwatch;

static stopwatch begin(void)
{
    return (stopwatch){now_s(CLOCK_MONOTONIC), now_s(CLOCK_PROCESS_CPUTIME_ID)};
}

static void end(stopwatch from, took *least)
{
    const double clock_s = now_s(CLOCK_MONOTONIC) - from.clock_s;
    const double computing_s = now_s(CLOCK_PROCESS_CPUTIME_ID) - from.computing_s;
    least->clock_s = clock_s < least->clock_s ? clock_s : least->clock_s;
    least->computing_s = computing_s < least->computing_s ? computing_s : least->computing_s;
}

typedef pare_status question(const pare_bench *bench, const pare_craft *craft, pare_arena *arena,
                             pare_swaps *swaps, pare_error *err);

static pare_status list(const pare_bench *bench, const pare_craft *craft, pare_arena *arena,
                        pare_swaps *swaps, pare_error *err)
{
    return pare_swaps_find(bench, craft, -1, PARE_WISH_GRAMS, arena, swaps, err);
}

static pare_status sums(const pare_bench *bench, const pare_craft *craft, pare_arena *arena,
                        pare_swaps *swaps, pare_error *err)
{
    return pare_swaps_sum(bench, craft, -1, arena, swaps, err);
}

/* Once, on some threads; the memory goes after the clock has stopped. */
static pare_status ask(question *which, int threads, const pare_bench *bench,
                       const pare_craft *craft, size_t *rows, took *least, pare_error *err)
{
    pare_swaps swaps = {0};
    use_threads(threads);
    pare_arena *arena = pare_arena_open();
    const stopwatch from = begin();
    const pare_status status =
        arena ? which(bench, craft, arena, &swaps, err) : pare_no_memory(err);
    end(from, least);
    pare_arena_close(arena);
    *rows = swaps.count;
    return status;
}

/* As many whole sheets of the craft as it is. */
static pare_status whole_sheets(size_t count, const pare_craft *craft, pare_sheet *sheet,
                                took *least, pare_error *err)
{
    pare_status status = PARE_OK;
    const stopwatch from = begin();
    for (size_t i = 0; status == PARE_OK && i < count; i++)
        status = pare_sheet_compute(craft, false, sheet, err);
    end(from, least);
    return status;
}

static pare_status time_swaps(const pare_bench *bench, const pare_craft *craft, pare_sheet *sheet,
                              pare_error *err)
{
    took one = {1e9, 1e9}, two = {1e9, 1e9}, sheets = {1e9, 1e9}, summed = {1e9, 1e9};
    pare_status status = PARE_OK;
    size_t rows = 0, none = 0;
    for (int round = 0; status == PARE_OK && round < ROUNDS; round++) {
        status = ask(list, 1, bench, craft, &rows, &one, err);
        if (status == PARE_OK)
            status = ask(list, 2, bench, craft, &rows, &two, err);
        if (status == PARE_OK)
            status = ask(sums, 1, bench, craft, &none, &summed, err);
        if (status == PARE_OK)
            status = whole_sheets(rows, craft, sheet, &sheets, err);
    }
    if (status != PARE_OK)
        return status;
    printf("swaps_%s_rows %zu rows (of %zu parts)\n", craft->name, rows, bench->parts);
    printf("swaps_%s %.1f ms on one thread (%.1f ms of computing)\n", craft->name,
           1e3 * one.clock_s, 1e3 * one.computing_s);
    printf("swaps_%s_two %.1f ms on two threads (%.2f x as fast)\n", craft->name, 1e3 * two.clock_s,
           one.clock_s / two.clock_s);
    printf("swaps_%s_sheets %.1f ms for %zu whole sheets one after another (the list takes %.2f of "
           "that)\n",
           craft->name, 1e3 * sheets.clock_s, rows, one.clock_s / sheets.clock_s);
    printf("swaps_%s_sums %.1f ms for the sums alone, on one thread\n", craft->name,
           1e3 * summed.clock_s);
    return PARE_OK;
}

static pare_status measure_made(pare_sheet *sheet, pare_error *err)
{
    pare_bench *bench = NULL;
    pare_status status = made_bench(PARTS, SEED, &bench, err);
    for (size_t i = 0; status == PARE_OK && i < bench->crafts; i++)
        if (strcmp(bench->craft[i]->name, "fieldfare") == 0)
            status = time_swaps(bench, bench->craft[i], sheet, err);
    pare_bench_close(bench);
    return status;
}

static pare_status measure_file(const char *path, pare_sheet *sheet, pare_error *err)
{
    pare_store *store = NULL;
    pare_bench *bench = NULL;
    pare_bench large;
    pare_arena *arena = pare_arena_open();
    pare_status status = arena ? PARE_OK : pare_no_memory(err);
    if (status == PARE_OK)
        status = pare_store_open(path, PARE_STORE_READ, &store, err);
    if (status == PARE_OK)
        status = pare_store_read(store, &bench, err);
    if (status == PARE_OK)
        status = pare_store_warm(store, bench, err);
    if (status == PARE_OK && !grow(bench, arena, &large))
        status = pare_no_memory(err);
    for (size_t i = 0; status == PARE_OK && i < large.crafts; i++)
        status = time_swaps(&large, large.craft[i], sheet, err);
    pare_bench_close(bench);
    pare_store_close(store);
    pare_arena_close(arena);
    return status;
}

int main(int argc, char **argv)
{
    pare_error err = {0};
    pare_sheet *sheet = calloc(1, sizeof *sheet);
    pare_status status = sheet ? measure_made(sheet, &err) : pare_no_memory(&err);
    for (int i = 1; status == PARE_OK && i < argc; i++)
        status = measure_file(argv[i], sheet, &err);
    if (status != PARE_OK)
        fprintf(stderr, "speed_swaps: %s\n", err.text);
    free(sheet);
    return (int)status;
}
