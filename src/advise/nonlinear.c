/* nonlinear.c: nonlinear least squares (see nonlinear.h). GSL does the work; here its errors become ours
 * and its vectors plain numbers. NIST's reference sets are its check (tests/checks/nonlinear.c). */
#include "advise/nonlinear.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_multifit_nlinear.h>
#include <gsl/gsl_vector.h>
#include <math.h>
#include <string.h>

enum { MOST_STEPS = 400 };
#define STEP_SHARE     1e-12 /* of the unknowns: a smaller step is none */
#define GRADIENT_LEAST 1e-14
/* Where there is no answer; its square is finite, so that such a step is refused and a shorter one
 * tried. */
#define FAR_OFF 1e100
#define FLAT    1e-6  /* cosine between rows and slopes */
#define FREE    1e-14 /* least eigenvalue over greatest: below, an unknown is free */

/* A problem, and room for one lot of rows: GSL asks for them into columns of a matrix. */
typedef struct asked {
    const pare_nonlinear *problem;
    double *x, *row, *other;
} asked;

static void evaluate_at(const asked *a, double row[])
{
    const bool answer = a->problem->residuals(a->problem->context, a->x, row);
    for (size_t i = 0; i < a->problem->rows; i++)
        if (!answer || !(fabs(row[i]) < FAR_OFF))
            row[i] = FAR_OFF;
}

static int evaluate(const gsl_vector *x, void *params, gsl_vector *row)
{
    const asked *a = params;
    for (size_t k = 0; k < a->problem->unknowns; k++)
        a->x[k] = gsl_vector_get(x, k);
    evaluate_at(a, a->row);
    for (size_t i = 0; i < a->problem->rows; i++)
        gsl_vector_set(row, i, a->row[i]);
    return GSL_SUCCESS;
}

/* Central differences: the error goes with the square of the step. */
static int slopes(const gsl_vector *x, void *params, gsl_matrix *slope)
{
    const asked *a = params;
    const pare_nonlinear *problem = a->problem;
    for (size_t k = 0; k < problem->unknowns; k++)
        a->x[k] = gsl_vector_get(x, k);
    for (size_t k = 0; k < problem->unknowns; k++) {
        const double at = a->x[k];
        const double size = fmax(fabs(at), problem->usual);
        const double step = problem->step * (size > 0 ? size : 1);
        a->x[k] = at + step;
        evaluate_at(a, a->row);
        a->x[k] = at - step;
        evaluate_at(a, a->other);
        a->x[k] = at;
        for (size_t i = 0; i < problem->rows; i++)
            gsl_matrix_set(slope, i, k, (a->row[i] - a->other[i]) / (2 * step));
    }
    return GSL_SUCCESS;
}

/* Copies what is left of the solver into the arena. */
static pare_status keep(const pare_nonlinear *problem, gsl_multifit_nlinear_workspace *work,
                        pare_arena *arena, double x[], pare_nonlinear_fit *fit, pare_error *err)
{
    const size_t n = problem->unknowns, m = problem->rows;
    fit->row = pare_arena_array(arena, m, sizeof(double));
    fit->slope = pare_arena_array(arena, m * n, sizeof(double));
    fit->covariance = pare_arena_array(arena, n * n, sizeof(double));
    gsl_matrix *covariance = gsl_matrix_alloc(n, n);
    if (!fit->row || !fit->slope || !fit->covariance || !covariance) {
        gsl_matrix_free(covariance);
        return pare_no_memory(err);
    }
    const gsl_matrix *slope = gsl_multifit_nlinear_jac(work);
    const gsl_vector *row = gsl_multifit_nlinear_residual(work);
    const gsl_vector *at = gsl_multifit_nlinear_position(work);
    pare_status status = PARE_OK;
    if (gsl_multifit_nlinear_covar(slope, FREE, covariance) != GSL_SUCCESS)
        status = pare_fail(err, PARE_BAD_DATA, "the readings leave an unknown free");
    fit->sum = 0;
    for (size_t i = 0; i < m; i++) {
        fit->row[i] = gsl_vector_get(row, i);
        fit->sum += fit->row[i] * fit->row[i];
        for (size_t k = 0; k < n; k++)
            fit->slope[i * n + k] = gsl_matrix_get(slope, i, k);
    }
    for (size_t i = 0; i < n; i++) {
        x[i] = gsl_vector_get(at, i);
        if (status == PARE_OK && !(gsl_matrix_get(covariance, i, i) > 0))
            status = pare_fail(err, PARE_BAD_DATA, "the readings leave an unknown free");
        for (size_t k = 0; k < n; k++)
            fit->covariance[i * n + k] = gsl_matrix_get(covariance, i, k);
    }
    fit->iterations = gsl_multifit_nlinear_niter(work);
    gsl_matrix_free(covariance);
    return status;
}

/* Whether no unknown, moved by its uncertainty, changes the sum by what matters: by the gradient over the
 * length of its slopes. */
static bool is_flat(gsl_multifit_nlinear_workspace *work)
{
    const gsl_matrix *slope = gsl_multifit_nlinear_jac(work);
    const gsl_vector *row = gsl_multifit_nlinear_residual(work);
    double sum = 0;
    for (size_t i = 0; i < row->size; i++)
        sum += gsl_vector_get(row, i) * gsl_vector_get(row, i);
    for (size_t k = 0; k < slope->size2; k++) {
        double gradient = 0, length = 0;
        for (size_t i = 0; i < slope->size1; i++) {
            gradient += gsl_matrix_get(slope, i, k) * gsl_vector_get(row, i);
            length += gsl_matrix_get(slope, i, k) * gsl_matrix_get(slope, i, k);
        }
        if (fabs(gradient) > FLAT * sqrt(length * sum) + FLAT)
            return false;
    }
    return true;
}

pare_status pare_nonlinear_solve(const pare_nonlinear *problem, double x[], pare_arena *arena,
                                 pare_nonlinear_fit *fit, pare_error *err)
{
    if (problem->unknowns == 0 || problem->rows < problem->unknowns)
        return pare_fail(err, PARE_BAD_DATA, "%zu readings for %zu unknowns: as many are needed",
                         problem->rows, problem->unknowns);
    gsl_set_error_handler_off();
    asked a = {problem, pare_arena_array(arena, problem->unknowns, sizeof(double)),
               pare_arena_array(arena, problem->rows, sizeof(double)),
               pare_arena_array(arena, problem->rows, sizeof(double))};
    if (!a.x || !a.row || !a.other)
        return pare_no_memory(err);
    gsl_multifit_nlinear_fdf function = {
        .f = evaluate, .df = slopes, .n = problem->rows, .p = problem->unknowns, .params = &a};
    gsl_multifit_nlinear_parameters how = gsl_multifit_nlinear_default_parameters();
    how.solver = gsl_multifit_nlinear_solver_svd;
    gsl_multifit_nlinear_workspace *work = gsl_multifit_nlinear_alloc(
        gsl_multifit_nlinear_trust, &how, problem->rows, problem->unknowns);
    if (!work)
        return pare_no_memory(err);
    const gsl_vector_const_view begin = gsl_vector_const_view_array(x, problem->unknowns);
    int why = 0;
    int outcome = gsl_multifit_nlinear_init(&begin.vector, &function, work);
    if (outcome == GSL_SUCCESS)
        outcome = gsl_multifit_nlinear_driver(MOST_STEPS, STEP_SHARE, GRADIENT_LEAST, 0, NULL, NULL,
                                              &why, work);
    pare_status status = PARE_OK;
    /* No further progress is how a solution looks whose last digits are rounding; where it was begun at
     * the solution, GSL calls it too many steps. */
    const bool stuck = outcome == GSL_ENOPROG ||
                       (outcome == GSL_EMAXITER && gsl_multifit_nlinear_niter(work) < MOST_STEPS);
    if (outcome == GSL_SUCCESS || (stuck && is_flat(work)))
        status = keep(problem, work, arena, x, fit, err);
    else if (outcome == GSL_ENOMEM)
        status = pare_no_memory(err);
    else
        status =
            pare_fail(err, PARE_BAD_DATA, "the fit does not settle: %s", gsl_strerror(outcome));
    gsl_multifit_nlinear_free(work);
    return status;
}
