/* prop_solve.c: see prop_solve.h.
 *
 * Gauss-Newton with the sums of each propeller kept apart, propellers in parallel and added in order,
 * so that any number of threads gives the same bits. A propeller whose levers are far off what is
 * usual counts less (weights of Cauchy's distribution). Without some propellers, the solution is moved
 * by what one step with them and one without differ in. */
#include "prop_solve.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>

enum { STEPS = 14 };
enum { PITCH = 1, SIZE = 3, BLADES = 5, CHORD = 6 }; /* of the traits */
#define SHORTER 0.6 /* of a step once near: kinks of the stall make whole ones swing */

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* All but a hundredth of the rows at either end. */
static bool put_reynolds(fit_set *set)
{
    size_t most = 0, count = 0;
    for (size_t i = 0; i < set->count; i++)
        most += set->blade[i]->rows;
    double *value = malloc((most + 1) * sizeof *value);
    for (size_t i = 0; value && i < set->count; i++)
        for (size_t r = 0; r < set->blade[i]->rows; r++) {
            pare_prop prop;
            fit_prop_of(set->blade[i], set->how.measured, false, set->how.base, &prop);
            value[count++] = fit_log_reynolds(&prop, set->blade[i], &set->blade[i]->row[r]);
        }
    if (value) {
        qsort(value, count, sizeof *value, by_size);
        set->hull.reynolds_low = value[count / 100];
        set->hull.reynolds_high = value[count - 1 - count / 100];
    }
    free(value);
    return value != NULL;
}

/* How far past its propellers a line's terms are followed, of pitch and of size. */
static const double past[2] = {0.1, 0.2};

static void put_line_hull(const fit_set *set, const bool out[], pare_prop_hull *hull)
{
    bool seen[PARE_PROP_LINES] = {false};
    for (size_t i = 0; i < set->count; i++) {
        pare_prop prop;
        if ((out && out[i]) ||
            !fit_prop_of(set->blade[i], set->how.measured, set->how.known, set->how.base, &prop))
            continue;
        const double value[2] = {prop.trait[PITCH], prop.trait[SIZE]};
        for (int t = 0; t < 2; t++) {
            double *low = &hull->line_low[prop.line][t], *high = &hull->line_high[prop.line][t];
            *low = seen[prop.line] ? fmin(*low, value[t] - past[t]) : value[t] - past[t];
            *high = seen[prop.line] ? fmax(*high, value[t] + past[t]) : value[t] + past[t];
        }
        seen[prop.line] = true;
    }
}

/* From the second smallest trait to the second greatest: one odd propeller is no range. */
static bool put_hull(fit_set *set)
{
    double *value = malloc(set->count * sizeof *value);
    if (!value || set->count < 4) {
        free(value);
        return false;
    }
    for (int t = 0; t < PARE_PROP_TRAITS; t++) {
        for (size_t i = 0; i < set->count; i++) {
            pare_prop prop;
            fit_prop_of(set->blade[i], set->how.measured, false, set->how.base, &prop);
            value[i] = prop.trait[t];
        }
        qsort(value, set->count, sizeof *value, by_size);
        const size_t odd = t != BLADES;
        set->hull.low[t] = value[odd];
        set->hull.high[t] = value[set->count - 1 - odd];
    }
    if (!set->how.measured) { /* a chord that somebody states is not the default one */
        set->hull.low[CHORD] = log(0.06 / 0.15);
        set->hull.high[CHORD] = log(0.35 / 0.15);
    }
    free(value);
    put_line_hull(set, NULL, &set->hull);
    return put_reynolds(set);
}

/* Solves for a step from set->x with the sums of those that stay. */
static bool step(const fit_set *set, const bool out[], double x[FIT_PARAMETERS])
{
    int column[FIT_PARAMETERS];
    const size_t n = fit_free_columns(&set->how, column);
    gsl_matrix *a = gsl_matrix_calloc(n, n);
    gsl_vector *b = gsl_vector_calloc(n), *move = gsl_vector_alloc(n);
    bool fine = a && b && move;
    for (size_t i = 0; fine && i < set->count; i++) {
        if ((out && out[i]) || !set->sums[i].product)
            continue;
        const double w = set->weight[i];
        const fit_sums *sums = &set->sums[i];
        for (size_t k = 0; k < sums->columns; k++) {
            double *to = a->data + (size_t)sums->column[k] * a->tda;
            for (size_t l = 0; l < sums->columns; l++)
                to[sums->column[l]] += w * sums->product[k * sums->columns + l];
            b->data[sums->column[k]] += w * sums->right[k];
        }
    }
    for (size_t k = 0; fine && k < n; k++) {
        const double u = fit_prior_u(&set->how, column[k]), per = 1 / (u * u);
        a->data[k * a->tda + k] += per;
        b->data[k] -= per * set->x[column[k]];
    }
    fine = fine && gsl_linalg_cholesky_decomp1(a) == GSL_SUCCESS &&
           gsl_linalg_cholesky_solve(a, b, move) == GSL_SUCCESS;
    memcpy(x, set->x, sizeof set->x);
    for (size_t k = 0; fine && k < n; k++)
        x[column[k]] += gsl_vector_get(move, k);
    gsl_matrix_free(a);
    gsl_vector_free(b);
    gsl_vector_free(move);
    return fine;
}

static bool sum_all(fit_set *set)
{
    pare_prop_constants constants;
    fit_constants(&set->how, set->x, &set->hull, &constants);
    bool fine = true;
#pragma omp parallel for schedule(dynamic) shared(fine)
    for (size_t i = 0; i < set->count; i++) {
        fit_sums_free(&set->sums[i]);
        if (!fit_sums_of(set->blade[i], &set->how, &constants, &set->sums[i])) {
#pragma omp atomic write
            fine = false;
        }
    }
    return fine;
}

bool fit_set_solve(const fit_blades *blades, const fit_how *how, fit_set *set)
{
    gsl_set_error_handler_off();
    memset(set, 0, sizeof *set);
    set->how = *how;
    set->blade = calloc(blades->count, sizeof *set->blade);
    set->sums = calloc(blades->count, sizeof *set->sums);
    set->weight = calloc(blades->count, sizeof *set->weight);
    bool fine = set->blade && set->sums && set->weight;
    for (size_t i = 0; fine && i < blades->count; i++) {
        pare_prop prop;
        if (blades->blade[i].rows && (!how->known || blades->blade[i].line != PARE_LINE_UNKNOWN) &&
            fit_prop_of(&blades->blade[i], how->measured, false, how->base, &prop))
            set->blade[set->count++] = &blades->blade[i];
    }
    fine = fine && put_hull(set);
    for (size_t i = 0; fine && i < set->count; i++)
        set->weight[i] = 1;
    for (int s = 0; fine && s < STEPS; s++) {
        double x[FIT_PARAMETERS];
        fine = sum_all(set);
        if (s > 0)
            for (size_t i = 0; i < set->count; i++)
                set->weight[i] = (set->blade[i]->research ? how->research
                                  : set->blade[i]->stand  ? how->stand
                                                          : 1) /
                                 (1 + set->sums[i].odd / (how->odd * how->odd));
        fine = fine && step(set, NULL, x);
        for (int p = 0; fine && p < FIT_PARAMETERS; p++)
            set->x[p] += (s < 2 ? 1 : SHORTER) * (x[p] - set->x[p]);
    }
    fine = fine && sum_all(set) && step(set, NULL, set->next);
    if (!fine)
        fprintf(stderr, "fit: a set of propeller constants was not solved\n");
    return fine;
}

bool fit_set_without(const fit_set *set, const bool out[], pare_prop_constants *constants)
{
    double x[FIT_PARAMETERS];
    if (!step(set, out, x))
        return false;
    for (int p = 0; p < FIT_PARAMETERS; p++)
        x[p] += set->x[p] - set->next[p];
    pare_prop_hull hull = set->hull;
    put_line_hull(set, out, &hull);
    fit_constants(&set->how, x, &hull, constants);
    return true;
}

void fit_set_free(fit_set *set)
{
    for (size_t i = 0; set->sums && i < set->count; i++)
        fit_sums_free(&set->sums[i]);
    free(set->sums);
    free(set->weight);
    free(set->blade);
    memset(set, 0, sizeof *set);
}
