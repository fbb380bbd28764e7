/* drive_floor.c: see drive_floor.h.
 *
 * One propeller at one thrust on one pack: whatever the electrical power differs by is the motors'. A model
 * that knows a motor's kV and stator alone says the same of all that are alike in these. So each motor is
 * held against the mean of its likes; a mean of k is off by its own scatter as well, so the difference over
 * sqrt(1 + 1/k) is what is left to a model that knew the true mean (as prop_twin.c does for propellers). */
#include "drive_floor.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "page.h"

#define GRAM_FORCE_N 9.80665e-3
#define SCATTER_GF   200
#define HIGH_V       9.0 /* between the stand's two voltages */
#define ALIKE_KV     0.05
#define ALIKE_STATOR 0.25
#define STEPS        12 /* of 50 gf */
#define STEP_GF      50

enum { TAKEN = DRIVE_SMALL_MOTORS - 1 }; /* the last letter is the strange motor */

typedef bool alike(const drive_motor *one, const drive_motor *other);

static bool any(const drive_motor *one, const drive_motor *other)
{
    (void)one;
    (void)other;
    return true;
}

static bool stated_alike(const drive_motor *one, const drive_motor *other)
{
    return one->sized && other->sized &&
           fabs(log(one->kv_rpm_per_v / other->kv_rpm_per_v)) < ALIKE_KV &&
           fabs(log(one->stator_mm3 / other->stator_mm3)) < ALIKE_STATOR;
}

/* Electrical power at a thrust, between the readings about it in log log; 0 where there are none. */
static double power_at(const drive_bench *bench, int motor, int propeller, bool high,
                       double thrust_n)
{
    const drive_row *below = NULL, *above = NULL;
    for (size_t i = 0; i < bench->rows; i++) {
        const drive_row *row = &bench->row[i];
        if (row->motor != motor || row->propeller != propeller || (row->volts_v > HIGH_V) != high)
            continue;
        if (row->thrust_n <= thrust_n && (!below || row->thrust_n > below->thrust_n))
            below = row;
        if (row->thrust_n > thrust_n && (!above || row->thrust_n < above->thrust_n))
            above = row;
    }
    if (!below || !above)
        return 0;
    const double share = log(thrust_n / below->thrust_n) / log(above->thrust_n / below->thrust_n);
    return exp((1 - share) * log(below->volts_v * below->current_a) +
               share * log(above->volts_v * above->current_a));
}

static void print_scatter(const drive_bench *bench)
{
    printf("floor: one propeller on many motors, three cells\n");
    for (int p = 0; p < DRIVE_PROPELLERS; p++) {
        double sum = 0, square = 0, most = 0, least = HUGE_VAL;
        int count = 0;
        for (int m = 0; m < TAKEN; m++) {
            const double watts = power_at(bench, m, p, true, SCATTER_GF * GRAM_FORCE_N);
            if (!(watts > 0))
                continue;
            sum += log(watts);
            square += log(watts) * log(watts);
            most = fmax(most, watts);
            least = fmin(least, watts);
            count++;
        }
        if (count > 1)
            printf("  propeller %d on %2d motors: %.1f to %.1f W at %d gf, scatter %.1f %%\n",
                   p + 1, count, least, most, SCATTER_GF,
                   100 * sqrt(fmax(square - sum * sum / count, 0) / (count - 1)));
    }
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* By how much each motor's power at one state is off its likes'.
 * @param[out] off  [TAKEN]; @return how many */
static size_t off_likes(const drive_bench *bench, const double watts[TAKEN], alike *like,
                        bool seen[TAKEN], double off[TAKEN])
{
    size_t count = 0;
    for (int m = 0; m < TAKEN; m++) {
        double sum = 0, k = 0;
        for (int n = 0; watts[m] > 0 && n < TAKEN; n++) {
            if (n == m || !(watts[n] > 0) || !like(&bench->motor[m], &bench->motor[n]))
                continue;
            sum += log(watts[m] / watts[n]);
            k++;
        }
        if (k == 0)
            continue;
        seen[m] = true;
        off[count++] = fabs(sum / k) / sqrt(1 + 1 / k);
    }
    return count;
}

static bool print_likes(FILE *out, const drive_bench *bench, const char *what, alike *like)
{
    const size_t most = (size_t)DRIVE_PROPELLERS * 2 * STEPS * TAKEN;
    double *off = malloc(most * sizeof *off);
    bool seen[TAKEN] = {false};
    size_t count = 0;
    int motors = 0;
    if (!off)
        return false;
    for (int p = 0; p < DRIVE_PROPELLERS; p++)
        for (int high = 0; high < 2; high++)
            for (int step = 1; step <= STEPS; step++) {
                double watts[TAKEN];
                for (int m = 0; m < TAKEN; m++)
                    watts[m] = power_at(bench, m, p, high, step * STEP_GF * GRAM_FORCE_N);
                count += off_likes(bench, watts, like, seen, off + count);
            }
    for (int m = 0; m < TAKEN; m++)
        motors += seen[m];
    qsort(off, count, sizeof *off, by_size);
    if (count > 0)
        fprintf(out, "| %s | %.1f / %.1f | %zu | %d |\n", what, 100 * off[count / 2],
                100 * off[count * 9 / 10], count, motors);
    free(off);
    return true;
}

bool drive_floors(const drive_bench *bench, const char *page)
{
    fit_block block;
    if (!fit_block_open(&block))
        return false;
    print_scatter(bench);
    fprintf(block.out, "| motors alike in | power at a thrust | states | motors |\n"
                       "| --- | --- | --- | --- |\n");
    const bool fine =
        print_likes(block.out, bench, "nothing: any motor", any) &&
        print_likes(block.out, bench, "stated kV (5 %) and stator (25 %)", stated_alike);
    printf(
        "\nElectrical power at a thrust, one propeller on the 5 in stand: each motor against the "
        "mean of its\nlikes, median / nine tenths in %% of what is left to a model that knows no "
        "more of it.\n");
    return fit_block_close(&block, page, "motors alike") && fine;
}
