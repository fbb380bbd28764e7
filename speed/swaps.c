/* rooms: store advise craft physics base */
/* swaps.c: what the list of all single swaps costs on a bench of 2,000 parts, tables warm.
 *
 * The bench file is the first argument (./dev speed passes the demo's). Its parts are copied, each
 * copy a little lighter or heavier, until there are 2,000. One line a figure: name, value, unit, and
 * its ratio to the baseline of the same run, one whole sheet of the same craft. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "advise/swap.h"
#include "store/bench.h"

enum { PARTS = 2000, ROUNDS = 3, SHEETS = 2000 };

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
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

static double sheet_s(const pare_craft *craft, pare_sheet *sheet)
{
    pare_error err;
    double best = 1e9;
    for (int round = 0; round < ROUNDS; round++) {
        const double start = now_s();
        for (int i = 0; i < SHEETS; i++)
            if (pare_sheet_compute(craft, false, sheet, &err) != PARE_OK)
                return 0;
        const double each = (now_s() - start) / SHEETS;
        best = each < best ? each : best;
    }
    return best;
}

static pare_status time_swaps(const pare_bench *bench, const pare_craft *craft, pare_sheet *sheet,
                              pare_error *err)
{
    double best = 1e9;
    size_t rows = 0;
    for (int round = 0; round < ROUNDS; round++) {
        pare_arena *arena = pare_arena_open();
        pare_swaps swaps;
        const double start = now_s();
        const pare_status status =
            arena ? pare_swaps_find(bench, craft, -1, PARE_WISH_GRAMS, arena, &swaps, err)
                  : pare_no_memory(err);
        const double took = now_s() - start;
        pare_arena_close(arena);
        if (status != PARE_OK)
            return status;
        rows = swaps.count;
        best = took < best ? took : best;
    }
    const double sheet_each = sheet_s(craft, sheet), row_each = best / (double)rows;
    printf("swaps_%s_rows %zu rows (of %zu parts)\n", craft->name, rows, bench->parts);
    printf("swaps_%s %.1f ms (%.0f sheets)\n", craft->name, 1e3 * best, best / sheet_each);
    printf("swaps_%s_row %.1f us (%.2f of a sheet of %.1f us; bands included)\n", craft->name,
           1e6 * row_each, row_each / sheet_each, 1e6 * sheet_each);
    return PARE_OK;
}

static pare_status measure(const char *path, pare_sheet *sheet, pare_error *err)
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
    if (argc != 2) {
        fprintf(stderr, "speed_swaps: which bench file?\n");
        return 2;
    }
    pare_error err = {0};
    pare_sheet *sheet = calloc(1, sizeof *sheet);
    const pare_status status = sheet ? measure(argv[1], sheet, &err) : pare_no_memory(&err);
    if (status != PARE_OK)
        fprintf(stderr, "speed_swaps: %s\n", err.text);
    free(sheet);
    return (int)status;
}
