/* cells_report.c: tables of errors (see cells_report.h). Errors are of the volts under load, in % of
 * them; a run's points are its own even steps of charge, so a median over points is one over charge. */
#include "cells_report.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define CHARGE_LEAST 0.0999
#define HALF_OVER_U  0.674490
#define NINTH_OVER_U 1.644854
#define BISECTIONS   40

enum { MOST = CELL_RUNS * CELL_POINTS };

void cell_judge(const pare_cell *cell, const cell_run *run, double factor, cell_judged_run *judged)
{
    judged->points = 0;
    for (size_t p = 0; p < run->points; p++) {
        if (run->point[p].charge < CHARGE_LEAST)
            continue;
        const pare_drained at = cell_predict(cell, run, p, factor);
        const size_t n = judged->points++;
        judged->point[n].charge = run->point[p].charge;
        judged->point[n].volts = at.volts_v;
        judged->point[n].drop_v = at.open_v - at.volts_v;
        judged->point[n].measured_v = run->point[p].volts;
        judged->point[n].off_k = at.degc - run->point[p].degc;
    }
}

/* The share by which the drop is too small, by least squares. */
static double share_off(const cell_judged_run *run)
{
    double up = 0, down = 0;
    for (size_t p = 0; p < run->points; p++) {
        up += run->point[p].drop_v * (run->point[p].volts - run->point[p].measured_v);
        down += run->point[p].drop_v * run->point[p].drop_v;
    }
    return down > 0 ? up / down : 0;
}

void cell_judge_sized(const cell_judged_run *left_out, cell_judged_run *judged)
{
    *judged = *left_out;
    const double share = share_off(left_out);
    for (size_t p = 0; p < judged->points; p++)
        judged->point[p].volts -= share * judged->point[p].drop_v;
}

/* Resistance shows where the drop is large, open-circuit volts where it is small. */
pare_pack_doubt cell_doubt(const cell_data *data, const cell_judged *left_out)
{
    double ohm = 0, volts = 0;
    int runs = 0, slow = 0;
    for (size_t i = 0; i < data->runs; i++) {
        const cell_judged_run *run = &left_out->run[i];
        if (run->points == 0)
            continue;
        cell_judged_run sized;
        cell_judge_sized(run, &sized);
        const cell_judged_run *kept = data->run[i].rate < 0.5 ? run : &sized;
        double square = 0;
        for (size_t p = 0; p < kept->points; p++)
            square += pow(kept->point[p].volts - kept->point[p].measured_v, 2);
        volts += square / (double)kept->points;
        slow++;
        if (data->run[i].rate > 0.5) {
            ohm += share_off(run) * share_off(run);
            runs++;
        }
    }
    return (pare_pack_doubt){
        .ohm_share_u = sqrt(ohm / runs), .cell_v_u = sqrt(volts / slow), .capacity_share_u = 0.02};
}

double cell_rms_v(const cell_judged *judged)
{
    double square = 0;
    size_t n = 0;
    for (size_t i = 0; i < CELL_RUNS; i++)
        for (size_t p = 0; p < judged->run[i].points; p++, n++)
            square += pow(judged->run[i].point[p].volts - judged->run[i].point[p].measured_v, 2);
    return n > 0 ? sqrt(square / (double)n) : 0;
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double quantile(size_t n, double value[], double share)
{
    if (n == 0)
        return (double)NAN;
    qsort(value, n, sizeof *value, by_size);
    return value[(size_t)(share * (double)(n - 1) + 0.5)];
}

static size_t errors_of(const cell_judged_run *run, double error[], size_t n)
{
    for (size_t p = 0; p < run->points; p++)
        error[n++] = 100 * fabs(run->point[p].volts / run->point[p].measured_v - 1);
    return n;
}

static void print_line(const char *cell, double rate, size_t n, double error[], double mean,
                       double off_k)
{
    printf("  %-12s %5.2f C %5.2f %5.2f %5.2f %+6.2f", cell, rate, quantile(n, error, 0.5),
           quantile(n, error, 0.9), quantile(n, error, 1), mean);
    if (isfinite(off_k))
        printf(" %5.1f\n", off_k);
    else
        printf("     -\n");
}

static void print_rate(const cell_data *data, const cell_judged *judged, double low, double high)
{
    static double error[MOST];
    size_t n = 0, cells = 0;
    double mean = 0, rate = 0;
    for (size_t i = 0; i < data->runs; i++) {
        const cell_judged_run *run = &judged->run[i];
        if (run->points == 0 || data->run[i].rate < low || data->run[i].rate > high)
            continue;
        n = errors_of(run, error, n);
        for (size_t p = 0; p < run->points; p++)
            mean += 100 * (run->point[p].volts / run->point[p].measured_v - 1);
        rate += data->run[i].rate;
        cells++;
    }
    if (cells > 1)
        print_line("all", rate / (double)cells, n, error, mean / (double)n, (double)NAN);
}

void cell_print_errors(const char *what, const cell_data *data, const cell_judged *judged)
{
    static double error[MOST];
    static const double band[][2] = {{0.01, 0.2}, {0.9, 1.1}, {1.9, 2.4}, {2.9, 3.1}};
    printf(
        "\n%s: median, 90th percentile and worst of the error, its mean with its sign, and by how "
        "much the warmth was off, K\n",
        what);
    for (size_t i = 0; i < data->runs; i++) {
        const cell_judged_run *run = &judged->run[i];
        if (run->points == 0)
            continue;
        double mean = 0, off_k = 0;
        for (size_t p = 0; p < run->points; p++) {
            mean += 100 * (run->point[p].volts / run->point[p].measured_v - 1);
            off_k += fabs(run->point[p].off_k);
        }
        print_line(data->run[i].cell, data->run[i].rate, errors_of(run, error, 0), error,
                   mean / (double)run->points, off_k / (double)run->points);
    }
    for (size_t b = 0; b < sizeof band / sizeof band[0]; b++)
        print_rate(data, judged, band[b][0], band[b][1]);
}

void cell_print_capacity(const cell_data *data, const pare_cell *cell)
{
    printf("\ncapacity against rate: Ah to the run's last volts, predicted and measured\n");
    for (size_t i = 0; i < data->runs; i++) {
        const cell_run *run = &data->run[i];
        if (strncmp(run->cell, "pouch", 5) == 0 || !isfinite(run->used_ah))
            continue;
        const double said = cell_predict_ah(cell, run);
        printf("  %-12s %5.2f C to %.2f V  %.3f  %.3f  %+.1f %%\n", run->cell, run->rate,
               run->last_v, said, run->used_ah, 100 * (said / run->used_ah - 1));
    }
}

void cell_print_pulses(const cell_data *data, const pare_cell *cell)
{
    printf("\npulses at 2 C: charge, seconds, predicted and measured mohm\n");
    for (size_t i = 0; i < data->pulses; i++) {
        const cell_pulse *pulse = &data->pulse[i];
        if (fabs(pulse->rate - 2) < 0.2 && pulse->seconds > 0.5 && pulse->charge > 0.09)
            printf("  %.2f %5.1f %6.1f %6.1f\n", pulse->charge, pulse->seconds,
                   1e3 * cell_pulse_ohm(cell, pulse), 1e3 * pulse->ohm);
    }
}

void cell_print_factors(const cell_data *data, const double factor[], const pare_cell *cell)
{
    for (size_t i = 0; i < data->runs; i++)
        if (strncmp(data->run[i].cell, "pouch", 5) == 0)
            printf("  %-12s %5.2f C: %.1f times a flight pack's, steady %.0f mohm Ah\n",
                   data->run[i].cell, data->run[i].rate, factor[i],
                   1e3 * factor[i] * cell->ohm_ah * (1 + cell->slow));
}

/* Of the volts left out, runs counting alike. */
static double share_within(const cell_judged *left_out, const pare_pack_doubt *doubt, double times,
                           double of_u)
{
    double within = 0, runs = 0;
    for (size_t i = 0; i < CELL_RUNS; i++) {
        const cell_judged_run *run = &left_out->run[i];
        runs += run->points > 0;
        for (size_t p = 0; p < run->points; p++) {
            const double off = fabs(run->point[p].volts - run->point[p].measured_v);
            const double u = hypot(doubt->cell_v_u, doubt->ohm_share_u * run->point[p].drop_v);
            within += off < of_u * times * u ? 1 / (double)run->points : 0;
        }
    }
    return within / runs;
}

/* The greatest factor with which no more than so much is within. */
static double most_times(const cell_judged *left_out, const pare_pack_doubt *doubt, double of_u,
                         double share)
{
    double low = 0, high = 4;
    for (int i = 0; i < BISECTIONS; i++) {
        const double middle = 0.5 * (low + high);
        *(share_within(left_out, doubt, middle, of_u) > share ? &high : &low) = middle;
    }
    return low;
}

void cell_calibrate(const cell_judged *left_out, pare_pack_doubt *doubt)
{
    const double low = fmax(most_times(left_out, doubt, HALF_OVER_U, 0.45),
                            most_times(left_out, doubt, NINTH_OVER_U, 0.85));
    const double high = fmin(most_times(left_out, doubt, HALF_OVER_U, 0.55),
                             most_times(left_out, doubt, NINTH_OVER_U, 0.95));
    doubt->ohm_share_u *= 0.5 * (low + high);
    doubt->cell_v_u *= 0.5 * (low + high);
}

void cell_print_intervals(FILE *out, const cell_judged *left_out, const pare_pack_doubt *doubt)
{
    fprintf(out,
            "| doubt of a cell left out: resistance | open-circuit volts | in 50 %% | in 90 %% |\n"
            "| --- | --- | --- | --- |\n| %.0f %% | %.0f mV | %.0f | %.0f |\n",
            100 * doubt->ohm_share_u, 1e3 * doubt->cell_v_u,
            100 * share_within(left_out, doubt, 1, HALF_OVER_U),
            100 * share_within(left_out, doubt, 1, NINTH_OVER_U));
}

static const double page_rate[][2] = {{0.01, 0.2}, {0.9, 1.1}, {1.9, 2.4}, {2.9, 3.1}, {4.9, 5.1}};
enum { PAGE_RATES = sizeof page_rate / sizeof page_rate[0] };

void cell_print_heads(FILE *out)
{
    fprintf(out, "| | C/10, C/20 | 1C | 2C, 2.33C | 3C | 5C |\n| --- | --- | --- | --- | --- | --- "
                 "|\n");
}

void cell_print_row(FILE *out, const char *what, const cell_data *data, const cell_judged *judged)
{
    static double error[MOST];
    fprintf(out, "| %s |", what);
    for (size_t b = 0; b < PAGE_RATES; b++) {
        size_t n = 0;
        for (size_t i = 0; i < data->runs; i++)
            if (data->run[i].rate >= page_rate[b][0] && data->run[i].rate <= page_rate[b][1])
                n = errors_of(&judged->run[i], error, n);
        if (n > 0)
            fprintf(out, " %.1f / %.1f |", quantile(n, error, 0.5), quantile(n, error, 0.9));
        else
            fprintf(out, " |");
    }
    fprintf(out, "\n");
}
