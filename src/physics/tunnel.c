/* tunnel.c: the model of a propeller bent to what a wind tunnel measured of it (see tunnel.h).
 *
 * CT passes through 0 within the measured range, so a factor will not do. What is added to the model at
 * an advance ratio, over the model's value at rest, is e c(J) + b(J) + s ln(Re/Re0): one factor e on the
 * curve c as far as it is above 0 (a driven propeller is another matter), a bump b that is smooth in J
 * (a Gaussian process at the table's own advance ratios, in straight lines between) and a slope with
 * ln Re. All three are linear in what is measured, so one solution of 19 equations is the fit, and its
 * inverse the doubt. Where no point is near, b goes to 0.
 *
 * The tunnel's air is taken as that of sea level: the coefficients hardly ask. CT and CP are fitted
 * alone; that both errors of the model go together says little once both are measured. */
#include "physics/tunnel.h"

#include <math.h>

#include "physics/normal.h"
#include "physics/prop_table.h"

enum { STEPS = PARE_PROP_TABLE_J, FACTOR = STEPS, SLOPE = STEPS + 1, UNKNOWNS = STEPS + 2 };

#define BUMP_U      0.08 /* of the value at rest: what one factor leaves of the model's error [E] */
#define BUMP_LENGTH 0.30 /* in J */
#define SLOPE_U     0.08 /* per e-fold of Re [E] */
#define POINT_U     0.012 /* of the value at rest: scatter of one point [E] */
/* One copy of a propeller is not another, and a balance has its calibration: as on a stand (pair.c). */
#define COPY_U    0.02
#define BALANCE_U 0.01
#define ALIKE     0.7
#define CT_LEAST  0.3 /* of its value at rest: below it a share of CT says nothing */

typedef struct solution {
    double value[UNKNOWNS];
    double covariance[PARE_UNKNOWNS][PARE_UNKNOWNS];
    double rms;
} solution;

/* Where a point stands on the table's axes. */
typedef struct spot {
    double still;       /* the model's value at rest there */
    double here;        /* and at its advance ratio */
    double ln_reynolds; /* over the table's middle */
} spot;

static spot spot_of(const pare_prop_table *model, const pare_air *air, int which,
                    const pare_tunnel_row *row)
{
    double here[2], still[2];
    pare_prop_table_coefficients(model, row->advance, row->speed_rad_s, air, &here[0], &here[1]);
    pare_prop_table_coefficients(model, 0, row->speed_rad_s, air, &still[0], &still[1]);
    const double tip_radius = row->speed_rad_s * model->diameter_m * model->diameter_m / 4;
    return (spot){
        still[which], here[which],
        log(air->density_kg_m3 * tip_radius / (air->viscosity_pa_s * model->reynolds_middle))};
}

/* How a point leans on the unknowns. */
static void lean(double advance, const spot *at, double by[UNKNOWNS])
{
    const double steps = fmin(advance * PARE_PROP_TABLE_PER_STEP, STEPS - 1);
    const int low = steps < STEPS - 1 ? (int)steps : STEPS - 2;
    for (int i = 0; i < UNKNOWNS; i++)
        by[i] = 0;
    by[low] = 1 - (steps - low);
    by[low + 1] = steps - low;
    by[FACTOR] = fmax(at->here / at->still, 0);
    by[SLOPE] = at->ln_reynolds;
}

static bool hold(double factor_u, pare_normal *normal)
{
    double bump[PARE_UNKNOWNS][PARE_UNKNOWNS] = {{0}}, root[PARE_UNKNOWNS][PARE_UNKNOWNS];
    for (int i = 0; i < STEPS; i++)
        for (int j = 0; j < STEPS; j++) {
            const double apart = (i - j) / (PARE_PROP_TABLE_PER_STEP * BUMP_LENGTH);
            bump[i][j] = BUMP_U * BUMP_U * (exp(-0.5 * apart * apart) + (i == j ? 1e-4 : 0));
        }
    if (!(factor_u > 0) || !pare_cholesky(STEPS, bump, root))
        return false;
    pare_cholesky_inverse(STEPS, root, normal->a);
    normal->n = UNKNOWNS;
    normal->a[FACTOR][FACTOR] = 1 / (factor_u * factor_u);
    normal->a[SLOPE][SLOPE] = 1 / (SLOPE_U * SLOPE_U);
    return true;
}

/* @return false where there is no solution, or no point that is one */
static bool solve(const pare_prop_table *model, const pare_tunnel_table *tunnel, int which,
                  double factor_u, solution *out)
{
    pare_air air;
    pare_normal normal = {0};
    double root[PARE_UNKNOWNS][PARE_UNKNOWNS], by[UNKNOWNS];
    if (pare_air_standard(0, &air, NULL) != PARE_OK || !hold(factor_u, &normal))
        return false;
    for (size_t r = 0; r < tunnel->rows; r++) {
        const pare_tunnel_row *row = &tunnel->row[r];
        const spot at = spot_of(model, &air, which, row);
        if (!(at.still > 0))
            return false;
        lean(row->advance, &at, by);
        pare_normal_add(&normal, by, ((which ? row->cp : row->ct) - at.here) / at.still,
                        1 / (POINT_U * POINT_U));
    }
    if (!pare_cholesky(UNKNOWNS, normal.a, root))
        return false;
    pare_cholesky_solve(UNKNOWNS, root, normal.b, out->value);
    pare_cholesky_inverse(UNKNOWNS, root, out->covariance);
    double sum = 0;
    for (size_t r = 0; r < tunnel->rows; r++) {
        const pare_tunnel_row *row = &tunnel->row[r];
        const spot at = spot_of(model, &air, which, row);
        double left = ((which ? row->cp : row->ct) - at.here) / at.still;
        lean(row->advance, &at, by);
        for (int i = 0; i < UNKNOWNS; i++)
            left -= by[i] * out->value[i];
        sum += left * left;
    }
    out->rms = sqrt(sum / (double)tunnel->rows);
    return isfinite(out->rms);
}

static void add_to_table(const pare_prop_table *model, const solution of[2], pare_prop_table *table)
{
    static const double at[PARE_PROP_TABLE_RE] = {-PARE_CHEBYSHEV_OUTER, -PARE_CHEBYSHEV_INNER,
                                                  PARE_CHEBYSHEV_INNER, PARE_CHEBYSHEV_OUTER};
    pare_prop_change added;
    for (int k = 0; k < PARE_PROP_TABLE_RE; k++)
        for (int which = 0; which < 2; which++) {
            const double *x = of[which].value;
            const double still = model->piece[0][0][k][which];
            /* The table's axis is about half of ln Re over its span (prop_table.h). */
            const double slope = x[SLOPE] * 2 * at[k] / model->per_span;
            for (int j = 0; j < STEPS; j++)
                added.at[j][k][which] =
                    x[FACTOR] * fmax(model->piece[j][0][k][which], 0) + still * (x[j] + slope);
            added.at[STEPS][k][which] = still * slope;
        }
    pare_prop_table_shift(model, &added, table);
}

/* Variance of the fitted value at a step of J, over that value. */
static double variance_at(const pare_prop_table *model, const solution *of, int which, int j)
{
    const double c = fmax(model->piece[j][0][1][which] / model->piece[0][0][1][which], 0);
    const double sum = of->covariance[FACTOR][FACTOR] * c * c + 2 * c * of->covariance[FACTOR][j] +
                       of->covariance[j][j];
    const double now = c * (1 + of->value[FACTOR]) + of->value[j];
    return sum / (now * now);
}

static double share_u(double variance, double rms)
{
    return sqrt(variance * fmax(1, rms * rms / (POINT_U * POINT_U)) + COPY_U * COPY_U +
                BALANCE_U * BALANCE_U);
}

pare_status pare_tunnel_fit_points(const pare_prop_table *model, const pare_prop_doubt *doubt,
                                   const pare_tunnel_table *tunnel, pare_tunnel_fit *fit,
                                   pare_error *err)
{
    solution of[2];
    if (tunnel->rows == 0 || !solve(model, tunnel, 0, doubt->thrust_u, &of[0]) ||
        !solve(model, tunnel, 1, doubt->power_u, &of[1]))
        return pare_fail(
            err, PARE_BAD_DATA,
            "its %zu tunnel points cannot be fitted: the model has no thrust at rest, or "
            "a point is no number",
            tunnel->rows);
    pare_tunnel_fit made = {.ct_rms = of[0].rms, .cp_rms = of[1].rms};
    add_to_table(model, of, &made.table);
    for (size_t r = 0; r < tunnel->rows; r++)
        made.advance_high = fmax(made.advance_high, tunnel->row[r].advance);
    double worst[2] = {0, 0};
    for (int j = 0; j < STEPS && j <= made.advance_high * PARE_PROP_TABLE_PER_STEP; j++)
        for (int which = 0; which < 2; which++)
            if (made.table.piece[j][0][1][0] > CT_LEAST * made.table.piece[0][0][1][0])
                worst[which] = fmax(worst[which], variance_at(model, &of[which], which, j));
    made.still = (pare_prop_doubt){share_u(variance_at(model, &of[0], 0, 0), of[0].rms),
                                   share_u(variance_at(model, &of[1], 1, 0), of[1].rms), ALIKE};
    made.running =
        (pare_prop_doubt){share_u(worst[0], of[0].rms), share_u(worst[1], of[1].rms), ALIKE};
    *fit = made;
    return PARE_OK;
}
