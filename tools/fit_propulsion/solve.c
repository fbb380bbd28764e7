/* solve.c: nonlinear least squares with priors (see solve.h).
 *
 * A softened residual s r sqrt(2 (sqrt(1 + (r/s)^2) - 1)) / |r| squares to the pseudo-Huber loss, so a
 * propeller that no model follows cannot pull all others. Slopes are forward differences, a column a
 * thread: each column is the same sum whoever works it out. */
#include "solve.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include <gsl/gsl_blas.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_multifit_nlinear.h>

static double softened(double r, double at)
{
    if (!(at > 0))
        return r;
    const double z = r / at;
    return copysign(at * sqrt(2 * (sqrt(1 + z * z) - 1)), r);
}

static size_t all_residuals(const fit_problem *problem)
{
    return problem->residuals + (problem->prior ? problem->parameters : 0);
}

static void work_out(const fit_problem *problem, const double x[], double r[])
{
    problem->residual(problem->context, x, r);
    for (size_t i = 0; i < problem->residuals; i++)
        r[i] = softened(r[i], problem->soften);
    if (!problem->prior)
        return;
    for (size_t p = 0; p < problem->parameters; p++) {
        const double u = problem->prior_u[p];
        r[problem->residuals + p] = u > 0 ? (x[p] - problem->prior[p]) / u : 0;
    }
}

static int value(const gsl_vector *x, void *context, gsl_vector *f)
{
    const fit_problem *problem = context;
    work_out(problem, x->data, f->data);
    for (size_t i = 0; i < f->size; i++)
        if (!isfinite(f->data[i]))
            return GSL_EDOM;
    return GSL_SUCCESS;
}

static int slopes(const gsl_vector *x, void *context, gsl_matrix *j)
{
    const fit_problem *problem = context;
    const size_t n = all_residuals(problem);
    double *base = malloc(n * sizeof *base);
    bool fine = base != NULL;
    if (fine)
        work_out(problem, x->data, base);
#pragma omp parallel for schedule(dynamic) shared(fine)
    for (size_t p = 0; p < problem->parameters; p++) {
        double *moved = malloc(problem->parameters * sizeof *moved);
        double *r = malloc(n * sizeof *r);
        if (base && moved && r) {
            for (size_t i = 0; i < problem->parameters; i++)
                moved[i] = x->data[i];
            const double step = 1e-6 * fmax(fabs(moved[p]), 1e-2);
            moved[p] += step;
            work_out(problem, moved, r);
            for (size_t i = 0; i < n; i++)
                gsl_matrix_set(j, i, p, (r[i] - base[i]) / step);
        } else {
#pragma omp atomic write
            fine = false;
        }
        free(moved);
        free(r);
    }
    free(base);
    return fine ? GSL_SUCCESS : GSL_ENOMEM;
}

bool fit_solve(const fit_problem *problem, double x[], double covariance[])
{
    fit_problem lent = *problem;
    gsl_set_error_handler_off();
    gsl_multifit_nlinear_fdf fdf = {.f = value,
                                    .df = slopes,
                                    .n = all_residuals(problem),
                                    .p = problem->parameters,
                                    .params = &lent};
    const gsl_multifit_nlinear_parameters how = gsl_multifit_nlinear_default_parameters();
    gsl_multifit_nlinear_workspace *work =
        gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &how, fdf.n, fdf.p);
    if (!work) {
        fprintf(stderr, "fit: no memory for %zu residuals\n", fdf.n);
        return false;
    }
    const gsl_vector_const_view start = gsl_vector_const_view_array(problem->start, fdf.p);
    int info = 0, status = gsl_multifit_nlinear_init(&start.vector, &fdf, work);
    if (status == GSL_SUCCESS)
        status = gsl_multifit_nlinear_driver(problem->steps ? problem->steps : 100, 1e-8, 1e-8,
                                             1e-10, NULL, NULL, &info, work);
    for (size_t p = 0; p < fdf.p; p++)
        x[p] = gsl_vector_get(work->x, p);
    if (covariance) {
        gsl_matrix_view view = gsl_matrix_view_array(covariance, fdf.p, fdf.p);
        gsl_multifit_nlinear_covar(gsl_multifit_nlinear_jac(work), 0, &view.matrix);
    }
    gsl_multifit_nlinear_free(work);
    /* Out of steps, or no further gain: the best that was found stands. */
    if (status == GSL_SUCCESS || status == GSL_EMAXITER || status == GSL_ENOPROG)
        return true;
    fprintf(stderr, "fit: %s\n", gsl_strerror(status));
    return false;
}
