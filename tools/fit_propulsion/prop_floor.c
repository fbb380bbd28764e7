/* prop_floor.c: see prop_floor.h.
 *
 * Three floors. Rows of one session about a smooth line: the balance. Two sessions with one propeller
 * at one state: the tunnel. One propeller on many motors: the stand and copies of the propeller. */
#include "prop_floor.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "drive_floor.h"
#include "page.h"
#include "prop_twin.h"
#include "subjects.h"

typedef struct list {
    size_t count;
    double *value;
} list;

static void put(list *to, double value)
{
    if (to->count % 256 == 0) {
        double *grown = realloc(to->value, (to->count + 256) * sizeof *grown);
        if (!grown)
            return;
        to->value = grown;
    }
    to->value[to->count++] = value;
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double quantile(list *of, double at)
{
    if (of->count == 0)
        return (double)NAN;
    qsort(of->value, of->count, sizeof *of->value, by_size);
    return of->value[(size_t)(at * (double)(of->count - 1))];
}

static double coefficient(const fit_row *row, int which)
{
    return which == 0 ? row->ct : row->derived ? (double)NAN : row->cp;
}

static void print(FILE *out, const char *what, list of[2])
{
    fprintf(out, "| %s | %.1f / %.1f | %.1f / %.1f | %zu |\n", what, 100 * quantile(&of[0], 0.5),
            100 * quantile(&of[0], 0.9), 100 * quantile(&of[1], 0.5), 100 * quantile(&of[1], 0.9),
            of[0].count);
    free(of[0].value);
    free(of[1].value);
}

/* The middle of three neighbours at rest against the line through the outer two. */
static void neighbours(const fit_blades *blades, list off[2])
{
    for (size_t b = 0; b < blades->count; b++) {
        const fit_blade *blade = &blades->blade[b];
        for (size_t r = 1; r + 1 < blade->rows; r++) {
            const fit_row *row = &blade->row[r];
            if (strcmp(blade->maker, "stand") == 0 || !row[-1].still || !row[1].still ||
                row[-1].run != row->run || row[1].run != row->run)
                continue;
            for (int which = 0; which < 2; which++) {
                const double middle = coefficient(row, which);
                const double line =
                    0.5 * (coefficient(row - 1, which) + coefficient(row + 1, which));
                /* Its variance is one and a half that of a row. */
                put(&off[which], fabs(line / middle - 1) / sqrt(1.5));
            }
        }
    }
}

/* Rows of other runs of the propeller at nearly the same J and rpm. */
static void repeats(const fit_blades *blades, list off[2])
{
    for (size_t b = 0; b < blades->count; b++) {
        const fit_blade *blade = &blades->blade[b];
        for (size_t r = 0; r < blade->rows; r++)
            for (size_t s = r + 1; s < blade->rows; s++) {
                const fit_row *one = &blade->row[r], *two = &blade->row[s];
                if (strcmp(blade->maker, "stand") == 0 || one->run == two->run ||
                    fabs(one->advance - two->advance) > 0.004 ||
                    fabs(one->speed_rad_s / two->speed_rad_s - 1) > 0.02)
                    continue;
                for (int which = 0; which < 2; which++)
                    put(&off[which],
                        fabs(coefficient(one, which) / coefficient(two, which) - 1) / sqrt(2));
            }
    }
}

/* Specimens of one propeller: names that differ after the size only. */
static void motors(const fit_blades *blades, list off[2])
{
    for (size_t b = 0; b < blades->count; b++) {
        const fit_blade *blade = &blades->blade[b];
        if (strcmp(blade->maker, "stand") != 0)
            continue;
        for (int which = 0; which < 2; which++) {
            list all = {0, NULL};
            for (size_t r = 0; r < blade->rows; r++)
                if (isfinite(coefficient(&blade->row[r], which)))
                    put(&all, coefficient(&blade->row[r], which));
            const double middle = quantile(&all, 0.5);
            for (size_t first = 0, r = 0; r < blade->rows; r++) {
                if (r + 1 < blade->rows && blade->row[r + 1].run == blade->row[r].run)
                    continue;
                list run = {0, NULL};
                for (size_t i = first; i <= r; i++)
                    if (isfinite(coefficient(&blade->row[i], which)))
                        put(&run, coefficient(&blade->row[i], which));
                first = r + 1;
                if (run.count > 0)
                    put(&off[which], fabs(quantile(&run, 0.5) / middle - 1));
                free(run.value);
            }
            free(all.value);
        }
    }
}

bool fit_floor_print(const fit_blades *blades, const char *page)
{
    list rows[2] = {{0, NULL}, {0, NULL}}, again[2] = {{0, NULL}, {0, NULL}};
    list stands[2] = {{0, NULL}, {0, NULL}};
    neighbours(blades, rows);
    repeats(blades, again);
    motors(blades, stands);
    fit_block block;
    if (!fit_block_open(&block))
        return false;
    fprintf(block.out, "| what | CT | CP | pairs |\n| --- | --- | --- | --- |\n");
    print(block.out, "a row at rest about the line of its neighbours", rows);
    print(block.out, "one propeller in two runs at one J and rpm", again);
    print(block.out, "one propeller's mean on one motor, of all motors", stands);
    printf("What the measurements owe each other, median / nine tenths in %%.\n");
    return fit_block_close(&block, page, "agreement") && fit_twins_print(blades, page);
}

bool fit_floor(const char *data_folder, const fit_to *to)
{
    fit_blades blades = {0, NULL};
    drive_bench bench;
    bool fine = fit_read_tunnel(data_folder, &blades) && fit_read_stands(data_folder, &blades);
    fine = fine && fit_floor_print(&blades, to->page);
    fit_blades_free(&blades);
    if (!fine || !drive_bench_read(data_folder, &bench))
        return false;
    fine = drive_floors(&bench, to->page);
    drive_bench_free(&bench);
    return fine;
}
