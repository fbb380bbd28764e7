/* prop_model.c: see prop_model.h.
 *
 * The rows of one propeller are off together: by its own twist, chord, section, by what the model
 * lacks. So the error of its rows is taken as own levers, each with its own scatter from propeller to
 * propeller, plus a little noise a row; least squares are weighted by the inverse of that covariance.
 * Dozens of rows of one propeller then say no more of its line than one propeller does, a row near
 * zero thrust, which a degree of twist doubles, says little of thrust, and how CT goes with Reynolds
 * number is learned from within propellers. */
#include "prop_model.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_blas.h>
#include <gsl/gsl_linalg.h>

#include "physics/prop_trend.h"

#define IDEAL_SHARE_MOST 0.92 /* [E] no propeller measured reaches 0.8 */

enum { ROWS_MOST = 56, OWN = PARE_LEVERS + 2 };

bool fit_prop_of(const fit_blade *blade, bool measured, bool known,
                 const pare_prop_constants *constants, pare_prop *prop)
{
    pare_prop_size size = blade->size;
    size.line = known ? blade->line : PARE_LINE_UNKNOWN;
    if (measured)
        return blade->stations > 0 && size.diameter_m > 0 &&
               pare_prop_from_stations(size.diameter_m, size.blades, size.line, blade->stations,
                                       blade->radius, blade->chord, blade->twist_rad, constants,
                                       prop, NULL) == PARE_OK;
    return size.pitch_m > 0 && pare_prop_from_size(&size, constants, prop, NULL) == PARE_OK;
}

static void air_of(const fit_blade *blade, pare_air *air)
{
    pare_air_standard(0, air, NULL);
    air->density_kg_m3 = blade->density_kg_m3;
}

void fit_left(const pare_prop *prop, const fit_blade *blade, const fit_row *row, double left[2])
{
    pare_air air;
    air_of(blade, &air);
    double ct, cp;
    pare_prop_coefficients(prop, row->advance, row->speed_rad_s, &air, &ct, &cp);
    /* A model without thrust where some was measured is no more than far off. */
    left[0] = log(row->ct / fmax(ct, 0.05 * row->ct));
    left[1] = log(row->cp / fmax(cp, 0.05 * row->cp));
}

double fit_load(const pare_prop *prop, const fit_blade *blade, const fit_row *row)
{
    pare_air air;
    air_of(blade, &air);
    double still, moving, cp;
    pare_prop_coefficients(prop, 0, row->speed_rad_s, &air, &still, &cp);
    pare_prop_coefficients(prop, row->advance, row->speed_rad_s, &air, &moving, &cp);
    return fmin(fmax(moving / still, 0.3), 1);
}

double fit_log_reynolds(const pare_prop *prop, const fit_blade *blade, const fit_row *row)
{
    pare_air air;
    air_of(blade, &air);
    const double radius = 0.5 * prop->diameter_m;
    return log(air.density_kg_m3 * row->speed_rad_s * radius * radius / air.viscosity_pa_s *
               prop->reynolds_of_tip / 1e5);
}

/* The constants that are free, each as a value or its logarithm. */
static double *global_of(pare_prop_constants *k, int global, bool *logarithm)
{
    double *const at[FIT_GLOBALS] = {
        &k->lift_slope_exponent, &k->lift_most_exponent, &k->drag_least_exponent,
        &k->drag_centre,         &k->drag_curve,         &k->stall_width,
        &k->plate_normal,        &k->rotation,           &k->loss_factor};
    *logarithm = global >= 4;
    return at[global];
}

static void move_global(pare_prop_constants *k, int global, double by)
{
    bool logarithm;
    double *value = global_of(k, global, &logarithm);
    *value = logarithm ? *value * exp(by) : *value + by;
}

void fit_constants(const fit_how *how, const double x[FIT_PARAMETERS], const pare_prop_hull *hull,
                   pare_prop_constants *constants)
{
    *constants = *how->base;
    constants->ideal_share_most = IDEAL_SHARE_MOST;
    constants->hull = *hull;
    /* A line's own terms stand in for what the published sets add with "slow". */
    constants->slow_chord = constants->slow_twist_rad = 0;
    for (int g = 0; g < FIT_GLOBALS; g++)
        move_global(constants, g, x[g]);
    pare_prop_trend *trend = &constants->trend;
    const double *at = x + FIT_GLOBALS;
    for (int l = 0; l < PARE_LEVERS; l++) {
        memcpy(trend->trait[l], at, sizeof trend->trait[l]);
        memcpy(trend->line[l], at + PARE_PROP_TRAITS, sizeof trend->line[l]);
        at += FIT_LEVER_COLUMNS;
    }
    memcpy(trend->reynolds, at, sizeof trend->reynolds);
}

double fit_prior_u(const fit_how *how, int parameter)
{
    if (parameter < FIT_GLOBALS)
        return how->global_u[parameter];
    parameter -= FIT_GLOBALS;
    if (parameter >= PARE_LEVERS * FIT_LEVER_COLUMNS)
        return how->reynolds_u;
    const int lever = parameter / FIT_LEVER_COLUMNS, within = parameter % FIT_LEVER_COLUMNS;
    if (within < PARE_PROP_TRAITS)
        return how->trait_u[lever][within];
    const int line = (within - PARE_PROP_TRAITS) / PARE_PROP_LINE_TERMS;
    return how->known && line != PARE_LINE_UNKNOWN
               ? how->line_u[lever][(within - PARE_PROP_TRAITS) % PARE_PROP_LINE_TERMS]
               : 0;
}

size_t fit_free_columns(const fit_how *how, int column[FIT_PARAMETERS])
{
    size_t count = 0;
    for (int p = 0; p < FIT_PARAMETERS; p++)
        if (fit_prior_u(how, p) > 0)
            column[count++] = p;
    return count;
}

/* Rows that are fitted: evenly taken where there are many. */
static size_t taken(const fit_blade *blade, const fit_row *row[ROWS_MOST])
{
    size_t count = 0;
    for (int still = 0; still < 2; still++) {
        size_t there = 0, seen = 0;
        for (size_t r = 0; r < blade->rows; r++)
            there += blade->row[r].still == still;
        const size_t most = ROWS_MOST / 2, step = (there + most - 1) / most;
        for (size_t r = 0; r < blade->rows; r++)
            if (blade->row[r].still == still && seen++ % step == 0)
                row[count++] = &blade->row[r];
    }
    return count;
}

/* Residuals and slopes of one propeller: two rows a measured row (thrust, power). */
typedef struct slopes {
    bool derived;
    size_t rows;
    double left[2 * ROWS_MOST], noise[2 * ROWS_MOST];
    double global[2 * ROWS_MOST][FIT_GLOBALS], lever[2 * ROWS_MOST][OWN];
    double log_re[2 * ROWS_MOST];
} slopes;

/* Adds (left of a moved propeller - left) / step, with the sign of the model's slope. */
static void differ(const pare_prop *moved, const fit_blade *blade, const fit_row *row,
                   const double left[2], double step, double slope[2])
{
    double there[2];
    fit_left(moved, blade, row, there);
    for (int which = 0; which < 2; which++)
        slope[which] = (left[which] - there[which]) / step;
}

static bool work_out(const fit_blade *blade, const fit_how *how,
                     const pare_prop_constants *constants, slopes *s)
{
    const double step = 1e-5;
    const fit_row *row[ROWS_MOST];
    const size_t count = taken(blade, row);
    pare_prop prop, lever[PARE_LEVERS], global[FIT_GLOBALS];
    pare_prop_constants moved[FIT_GLOBALS];
    if (!fit_prop_of(blade, how->measured, how->known, constants, &prop))
        return false;
    for (int l = 0; l < PARE_LEVERS; l++) {
        lever[l] = prop;
        pare_prop_pull(&lever[l], (pare_prop_lever)l, step);
    }
    for (int g = 0; g < FIT_GLOBALS; g++) {
        moved[g] = *constants;
        move_global(&moved[g], g, step);
        global[g] = prop;
        global[g].constants = &moved[g];
    }
    memset(s, 0, sizeof *s);
    s->derived = count > 0 && row[0]->derived;
    for (size_t r = 0; r < count; r++) {
        double left[2], slope[2];
        fit_left(&prop, blade, row[r], left);
        double lever_slope[2][OWN] = {{0}}, global_slope[2][FIT_GLOBALS] = {{0}};
        for (int l = 0; l < PARE_LEVERS; l++) {
            if (how->own_u[l] == 0 && how->trait_u[l][0] == 0)
                continue;
            differ(&lever[l], blade, row[r], left, step, slope);
            lever_slope[0][l] = slope[0];
            lever_slope[1][l] = slope[1];
        }
        for (int g = 0; g < FIT_GLOBALS; g++) {
            if (how->global_u[g] == 0)
                continue;
            differ(&global[g], blade, row[r], left, step, slope);
            global_slope[0][g] = slope[0];
            global_slope[1][g] = slope[1];
        }
        const double log_re =
            fmin(fmax(fit_log_reynolds(&prop, blade, row[r]), constants->hull.reynolds_low),
                 constants->hull.reynolds_high);
        for (int which = 0; which < 2; which++) {
            if (!isfinite(left[which]))
                continue;
            const size_t i = s->rows++;
            s->left[i] = left[which];
            s->noise[i] = which == 0 ? how->thrust_u : how->power_u;
            s->log_re[i] = log_re;
            memcpy(s->global[i], global_slope[which], sizeof s->global[i]);
            memcpy(s->lever[i], lever_slope[which], sizeof s->lever[i]);
            s->lever[i][PARE_LEVERS + which] = log_re; /* its own way with Reynolds number */
        }
    }
    return s->rows > 0;
}

/* Whether a parameter is one of another line. */
static bool elsewhere(const pare_prop *prop, int parameter)
{
    parameter -= FIT_GLOBALS;
    if (parameter < 0 || parameter >= PARE_LEVERS * FIT_LEVER_COLUMNS)
        return false;
    const int within = parameter % FIT_LEVER_COLUMNS - PARE_PROP_TRAITS;
    return within >= 0 && within / PARE_PROP_LINE_TERMS != (int)prop->line;
}

/* How a row goes with a parameter that is its own.
 * @param term  those of its line */
static double column_of(const slopes *s, size_t row, const pare_prop *prop, const double term[],
                        int parameter)
{
    if (parameter < FIT_GLOBALS)
        return s->global[row][parameter];
    parameter -= FIT_GLOBALS;
    if (parameter >= PARE_LEVERS * FIT_LEVER_COLUMNS) {
        const int last = parameter - PARE_LEVERS * FIT_LEVER_COLUMNS;
        return s->lever[row][PARE_LEVER_CT_STILL + last] * s->log_re[row];
    }
    const int lever = parameter / FIT_LEVER_COLUMNS, within = parameter % FIT_LEVER_COLUMNS;
    if (within < PARE_PROP_TRAITS)
        return s->lever[row][lever] * pare_prop_trait_held(prop, within);
    return s->lever[row][lever] * term[(within - PARE_PROP_TRAITS) % PARE_PROP_LINE_TERMS];
}

/* Power that was worked out from a motor's is off for its own reasons as well: by what the fit of the
 * drive says of each figure of merit. */
#define DERIVED_U 0.06

static double own_u(const fit_how *how, const slopes *s, int own)
{
    if (own == PARE_LEVER_CP_STILL && s->derived)
        return hypot(how->own_u[own], DERIVED_U);
    return own < PARE_LEVERS ? how->own_u[own] : how->own_reynolds_u;
}

/* The lower Cholesky factor of the covariance of the rows' errors. */
static bool factor(const slopes *s, const fit_how *how, gsl_matrix *v)
{
    for (size_t i = 0; i < s->rows; i++)
        for (size_t j = 0; j <= i; j++) {
            double sum = i == j ? s->noise[i] * s->noise[i] : 0;
            for (int o = 0; o < OWN; o++) {
                const double u = own_u(how, s, o);
                sum += u * u * s->lever[i][o] * s->lever[j][o];
            }
            gsl_matrix_set(v, i, j, sum);
            gsl_matrix_set(v, j, i, sum);
        }
    return gsl_linalg_cholesky_decomp1(v) == 0;
}

/* The free columns that a propeller says anything of. */
static bool put_columns(const fit_how *how, const pare_prop *prop, int parameter[], fit_sums *sums)
{
    int every[FIT_PARAMETERS];
    const size_t count = fit_free_columns(how, every);
    sums->column = malloc(count * sizeof *sums->column);
    for (size_t c = 0; sums->column && c < count; c++)
        if (!elsewhere(prop, every[c])) {
            parameter[sums->columns] = every[c];
            sums->column[sums->columns++] = (int)c;
        }
    return sums->column != NULL;
}

/* Mean square of its own levers over own_u, as far as its rows tell.
 * @param pull  [rows] what is left, over the covariance */
static double oddness(const slopes *s, const fit_how *how, const gsl_vector *pull)
{
    double odd = 0;
    int levers = 0;
    for (int l = 0; l < PARE_LEVERS; l++) {
        double sum = 0;
        for (size_t i = 0; i < s->rows; i++)
            sum += s->lever[i][l] * gsl_vector_get(pull, i);
        const double own = how->own_u[l] * sum;
        levers += how->own_u[l] > 0;
        odd += own * own;
    }
    return odd / levers;
}

bool fit_sums_of(const fit_blade *blade, const fit_how *how, const pare_prop_constants *constants,
                 fit_sums *sums)
{
    int parameter[FIT_PARAMETERS];
    slopes *s = malloc(sizeof *s);
    pare_prop prop;
    *sums = (fit_sums){0};
    bool fine = s && work_out(blade, how, constants, s) &&
                fit_prop_of(blade, how->measured, how->known, constants, &prop) &&
                put_columns(how, &prop, parameter, sums);
    const size_t columns = sums->columns;
    gsl_matrix *v = NULL, *x = NULL;
    gsl_vector *left = NULL;
    if (fine) {
        v = gsl_matrix_alloc(s->rows, s->rows);
        x = gsl_matrix_alloc(s->rows, columns);
        left = gsl_vector_alloc(s->rows);
        sums->product = malloc(columns * columns * sizeof(double));
        sums->right = malloc(columns * sizeof(double));
        fine = v && x && left && sums->product && sums->right && factor(s, how, v);
    }
    if (fine) {
        double term[PARE_PROP_LINE_TERMS];
        pare_prop_line_terms(&prop, term);
        for (size_t i = 0; i < s->rows; i++) {
            gsl_vector_set(left, i, s->left[i]);
            for (size_t c = 0; c < columns; c++)
                gsl_matrix_set(x, i, c, column_of(s, i, &prop, term, parameter[c]));
        }
        gsl_blas_dtrsv(CblasLower, CblasNoTrans, CblasNonUnit, v, left);
        gsl_blas_dtrsm(CblasLeft, CblasLower, CblasNoTrans, CblasNonUnit, 1, v, x);
        gsl_matrix_view product = gsl_matrix_view_array(sums->product, columns, columns);
        gsl_vector_view right = gsl_vector_view_array(sums->right, columns);
        gsl_blas_dgemm(CblasTrans, CblasNoTrans, 1, x, x, 0, &product.matrix);
        gsl_blas_dgemv(CblasTrans, 1, x, left, 0, &right.vector);
        gsl_blas_dtrsv(CblasLower, CblasTrans, CblasNonUnit, v, left);
        sums->odd = oddness(s, how, left);
    }
    gsl_matrix_free(v);
    gsl_matrix_free(x);
    gsl_vector_free(left);
    free(s);
    if (!fine)
        fit_sums_free(sums);
    return fine;
}

void fit_sums_free(fit_sums *sums)
{
    free(sums->column);
    free(sums->product);
    free(sums->right);
    *sums = (fit_sums){0};
}
