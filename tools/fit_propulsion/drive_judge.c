/* drive_judge.c: cross-validation by motor (see drive_judge.h).
 *
 * A motor left out is given its stated kV, the laws' winding and unloaded current, and the drive found
 * on the others. Its interval is the scatter of motors about the laws, carried through the model to
 * first order and as a sheet does, each for itself, with what a propeller, its thrust and a reading leave
 * open. Motors scatter with longer tails than a normal distribution has, so their standard deviations
 * are taken times what makes the intervals hold half and nine tenths of the readings left out: the
 * middle of the factors with which they hold 45 to 55 and 85 to 95 %, as far as both allow. */
#include "drive_judge.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define LEFT_OPEN    0.04 /* a known propeller from motor to motor, a reading, unsettled steps */
#define BISECTIONS   40
#define HALF_OVER_U  0.6745
#define NINTH_OVER_U 1.6449

enum { TAKEN = DRIVE_SMALL_MOTORS - 1 }; /* the last letter is the strange motor */

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void middle_and_90th(double *value, size_t count, double out[2])
{
    out[0] = out[1] = (double)NAN;
    if (count == 0)
        return;
    qsort(value, count, sizeof *value, by_size);
    out[0] = value[count / 2];
    out[1] = value[(size_t)(0.9 * (double)(count - 1))];
}

drive_scatter drive_scatter_of(const drive_model *model, const double x[], const double u[])
{
    double square[OF_MOTOR] = {0}, count[OF_MOTOR] = {0}, cross = 0;
    for (int m = 0; m < TAKEN; m++) {
        if (m == model->without)
            continue;
        for (int k = 0; k < OF_MOTOR; k++) {
            if (k != OF_KV && !model->bench->motor[m].sized)
                continue;
            const double off = drive_of(x, m, k), off_u = drive_of(u, m, k);
            square[k] += off * off + off_u * off_u;
            count[k]++;
        }
        if (model->bench->motor[m].sized)
            cross += drive_of(x, m, OF_WINDING) * drive_of(x, m, OF_NO_LOAD);
    }
    const double winding = sqrt(square[OF_WINDING] / count[OF_WINDING]);
    const double no_load = sqrt(square[OF_NO_LOAD] / count[OF_NO_LOAD]);
    return (drive_scatter){sqrt(square[OF_KV] / count[OF_KV]), winding, no_load,
                           cross / count[OF_WINDING] / (winding * no_load)};
}

static double ln_power(const drive_model *model, const double x[], const drive_row *row,
                       double speed)
{
    const double torque = drive_model_torque(model, x, row, speed);
    return log(drive_model_load(model, x, row, speed, torque).power_w);
}

/* The variance of ln power of a motor that only the laws know. */
static double foretold_square(const drive_model *model, double x[], const drive_row *row,
                              double speed, const drive_scatter *s)
{
    const double by[OF_MOTOR] = {s->kv, s->winding, s->no_load};
    double square = 0;
    for (int k = 0; k < OF_MOTOR; k++) {
        double *at = &x[OF_MOTOR * row->motor + k];
        *at = by[k];
        const double high = ln_power(model, x, row, speed);
        *at = -by[k];
        const double moved = (high - ln_power(model, x, row, speed)) / 2;
        *at = 0;
        square += moved * moved;
    }
    return square;
}

typedef struct errors {
    size_t rows, tops;
    double *thrust, *square, *modelled, *speed,
        *volts; /* square: of thrust, by the scatter of motors */
} errors;

/* By number as in the stand's own list, less one. */
static const unsigned blades_over_two[DRIVE_PROPELLERS] = {1, 1, 1, 0, 2, 0, 1};

static bool foretell(const drive_model *model, int motor, double x[], const double u[], errors *all,
                     bool print, fit_points *points)
{
    const drive_bench *bench = model->bench;
    const drive_scatter scatter = drive_scatter_of(model, x, u);
    double *own = malloc(bench->rows * sizeof *own);
    if (!own)
        return false;
    size_t count = 0;
    for (int k = 0; k < OF_MOTOR; k++)
        x[OF_MOTOR * motor + k] = 0;
    double by_size_alone[DRIVE_PARAMETERS];
    memcpy(by_size_alone, x, sizeof by_size_alone);
    by_size_alone[AT_MERIT] = 0;
    for (int p = 0; p < DRIVE_PROPELLERS; p++)
        by_size_alone[AT_EACH_MERIT + p] = log(model->merit[p]);
    for (size_t i = 0; i < bench->rows; i++) {
        const drive_row *row = &bench->row[i];
        if (row->motor != motor)
            continue;
        const double measured = log(row->volts_v * row->current_a);
        const double speed = drive_model_speed(model, row, row->thrust_n);
        const double off = ln_power(model, x, row, speed) - measured;
        all->square[all->rows] = foretold_square(model, x, row, speed, &scatter);
        own[count++] = off;
        if (points && row->propeller >= 0)
            fit_points_add(points, 0, exp(measured), exp(measured + off),
                           blades_over_two[row->propeller]);
        all->thrust[all->rows] = fabs(off);
        all->modelled[all->rows] = fabs(ln_power(model, by_size_alone, row, speed) - measured);
        all->speed[all->rows++] = fabs(ln_power(model, x, row, row->speed_rad_s) - measured);
        if (!row->top)
            continue;
        const double torque = drive_model_torque(model, x, row, row->speed_rad_s);
        const drive_load load = drive_model_load(model, x, row, row->speed_rad_s, torque);
        all->volts[all->tops++] = fabs(load.motor_v / row->volts_v - 1);
    }
    qsort(own, count, sizeof *own, by_size);
    if (print && count > 0)
        printf("  %-2s %6.0f rpm/V  power at thrust %+5.1f %%\n", bench->motor[motor].name,
               bench->motor[motor].kv_rpm_per_v, 100 * own[count / 2]);
    free(own);
    return true;
}

static double share_within(const errors *all, double scatter_times, double of_u)
{
    size_t within = 0;
    for (size_t i = 0; i < all->rows; i++)
        within += all->thrust[i] < of_u * sqrt(LEFT_OPEN * LEFT_OPEN +
                                               scatter_times * scatter_times * all->square[i]);
    return (double)within / (double)all->rows;
}

/* The greatest factor with which no more than so much is within. */
static double most_times(const errors *all, double of_u, double share)
{
    double low = 0, high = 4;
    for (int i = 0; i < BISECTIONS; i++) {
        const double middle = 0.5 * (low + high);
        *(share_within(all, middle, of_u) > share ? &high : &low) = middle;
    }
    return low;
}

static void calibrate(const errors *all, drive_judged *judged)
{
    const double low =
        fmax(most_times(all, HALF_OVER_U, 0.45), most_times(all, NINTH_OVER_U, 0.85));
    const double high =
        fmin(most_times(all, HALF_OVER_U, 0.55), most_times(all, NINTH_OVER_U, 0.95));
    judged->scatter_times = 0.5 * (low + high);
    judged->within[0] = share_within(all, judged->scatter_times, HALF_OVER_U);
    judged->within[1] = share_within(all, judged->scatter_times, NINTH_OVER_U);
}

bool drive_judge(const drive_bench *bench, drive_form form, bool print, fit_points *points,
                 drive_judged *judged)
{
    *judged = (drive_judged){0};
    errors all = {.thrust = malloc(bench->rows * sizeof(double)),
                  .square = malloc(bench->rows * sizeof(double)),
                  .modelled = malloc(bench->rows * sizeof(double)),
                  .speed = malloc(bench->rows * sizeof(double)),
                  .volts = malloc(bench->rows * sizeof(double))};
    double found[TAKEN][DRIVE_PARAMETERS];
    bool fine = all.thrust && all.square && all.modelled && all.speed && all.volts;
    for (int m = 0; fine && m < TAKEN; m++) {
        drive_model model;
        double x[DRIVE_PARAMETERS], u[DRIVE_PARAMETERS];
        drive_model_make(bench, form, m, &model);
        fine = drive_model_fit(&model, x, u);
        for (int p = 0; p < DRIVE_PARAMETERS; p++)
            found[m][p] = x[p];
        fine = fine && foretell(&model, m, x, u, &all, print, points);
    }
    for (int p = 0; fine && p < DRIVE_PARAMETERS; p++) {
        double mean = 0, square = 0;
        for (int m = 0; m < TAKEN; m++)
            mean += found[m][p] / TAKEN;
        for (int m = 0; m < TAKEN; m++)
            square += (found[m][p] - mean) * (found[m][p] - mean);
        judged->jackknife_u[p] = sqrt(square * (TAKEN - 1) / TAKEN);
    }
    if (fine) {
        calibrate(&all, judged);
        middle_and_90th(all.thrust, all.rows, judged->at_thrust);
        middle_and_90th(all.modelled, all.rows, judged->modelled);
        middle_and_90th(all.speed, all.rows, judged->at_speed);
        middle_and_90th(all.volts, all.tops, judged->volts);
    }
    free(all.thrust);
    free(all.square);
    free(all.modelled);
    free(all.speed);
    free(all.volts);
    return fine;
}
