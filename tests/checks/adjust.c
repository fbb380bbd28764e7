/* rooms: advise base; libraries: gsl */
/* Least squares against worked examples of standards, and against GSL's dense solver. */
#include "near.h"

#include <gsl/gsl_multifit.h>
#include <math.h>
#include <string.h>

#include "advise/adjust.h"
#include "draws.h"

static pare_adjusted adjust(pare_arena *arena, size_t unknowns, size_t equations,
                            const pare_equation equation[])
{
    pare_adjusted adjusted;
    pare_error err = {0};
    assert_int_equal(pare_adjust(unknowns, equations, equation, arena, &adjusted, NULL, &err),
                     PARE_OK);
    return adjusted;
}

static double variance(const pare_adjusted *adjusted, const double along[])
{
    double times[16], sum = 0;
    memcpy(times, along, adjusted->unknowns * sizeof times[0]);
    pare_adjusted_times(adjusted, times);
    for (size_t i = 0; i < adjusted->unknowns; i++)
        sum += along[i] * times[i];
    return sum;
}

static void the_weighing_design_1_1_1_comes_out_as_published(void **state)
{
    (void)state;
    /* NIST/SEMATECH e-Handbook of Statistical Methods, 2.3.4.1, design for 1, 1, 1: differences
     * Y1 = R - A2, Y2 = R - A3, Y3 = A2 - A3, restraint R. A2 = R + (-2 Y1 - Y2 + Y3)/3, A3 = R +
     * (-Y1 - 2 Y2 - Y3)/3; factors for their standard deviations 0, 0.8165, 0.8165. The restraint is
     * exact there; here it is a million times better than a difference, hence 1e-11. */
    enum { R, A2, A3 };
    const double y[3] = {0.31, -0.42, -0.70}, restraint = 10;
    const pare_equation equation[] = {
        {y[0], 1, 2, (const pare_term[]){{R, 1}, {A2, -1}}, false},
        {y[1], 1, 2, (const pare_term[]){{R, 1}, {A3, -1}}, false},
        {y[2], 1, 2, (const pare_term[]){{A2, 1}, {A3, -1}}, false},
        {restraint, 1e-6, 1, (const pare_term[]){{R, 1}}, false},
    };
    pare_arena *arena = pare_arena_open();
    const pare_adjusted adjusted = adjust(arena, 3, 4, equation);
    assert_near(adjusted.value[A2], restraint + (-2 * y[0] - y[1] + y[2]) / 3, 1e-8);
    assert_near(adjusted.value[A3], restraint + (-y[0] - 2 * y[1] - y[2]) / 3, 1e-8);
    assert_near(adjusted.u[R], 0, 1.1e-6);
    assert_near(adjusted.u[A2], 0.8165, 5e-5);
    assert_near(adjusted.u[A3], 0.8165, 5e-5);
    assert_int_equal(adjusted.spare, 1);
    pare_arena_close(arena);
}

enum { OBJECTS = 7 };

/* So many objects in as many weighings, each read with a standard deviation of 1. @param on  [count][count]
 * 1: in the pan (or the right one), -1: in the left, 0: not on it. @return the largest u, all being alike */
static double u_of_design(size_t count, const int on[][OBJECTS], const double mass[])
{
    pare_arena *arena = pare_arena_open();
    pare_term term[OBJECTS][OBJECTS];
    pare_equation equation[OBJECTS];
    for (size_t i = 0; i < count; i++) {
        size_t terms = 0;
        double reads = 0;
        for (size_t k = 0; k < count; k++)
            if (on[i][k]) {
                term[i][terms++] = (pare_term){k, on[i][k]};
                reads += on[i][k] * mass[k];
            }
        equation[i] = (pare_equation){reads, 1, terms, term[i], false};
    }
    const pare_adjusted adjusted = adjust(arena, count, count, equation);
    double most = 0;
    for (size_t k = 0; k < count; k++) {
        assert_near(adjusted.value[k], mass[k], 1e-9);
        assert_near(adjusted.u[k], adjusted.u[0], 1e-9);
        most = fmax(most, adjusted.u[k]);
    }
    pare_arena_close(arena);
    return most;
}

static void objects_weighed_together_are_as_sure_as_published(void **state)
{
    (void)state;
    static const double mass[OBJECTS] = {3.1, 2.7, 0.8, 5.5, 1.9, 4.2, 0.3};
    /* Hotelling, Some improvements in weighing and other experimental techniques, Annals of Mathematical
     * Statistics 15 (1944), 297: four objects on a balance with two pans, in each weighing all of them, by a
     * Hadamard matrix: the variance of each is a quarter of a weighing's, where one after another leaves a
     * whole one. On a scale with one pan three objects by twos: three quarters. */
    static const int pans[4][OBJECTS] = {
        {1, 1, 1, 1}, {1, -1, 1, -1}, {1, 1, -1, -1}, {1, -1, -1, 1}};
    static const int twos[3][OBJECTS] = {{1, 1, 0}, {1, 0, 1}, {0, 1, 1}};
    assert_near(u_of_design(4, pans, mass), sqrt(1.0 / 4), 1e-12);
    assert_near(u_of_design(3, twos, mass), sqrt(3.0 / 4), 1e-12);
    /* Mood, On Hotelling's weighing problem, likewise 17 (1946), 432: on a scale with one pan 4 p / (p + 1)^2 is
     * the least that p weighings of p objects can leave: 7/16 for seven of them, four at a time, each two
     * together twice. */
    static const int fours[7][OBJECTS] = {
        {1, 1, 1, 1, 0, 0, 0}, {1, 1, 0, 0, 1, 1, 0}, {1, 0, 1, 0, 1, 0, 1}, {1, 0, 0, 1, 0, 1, 1},
        {0, 1, 1, 0, 0, 1, 1}, {0, 1, 0, 1, 1, 0, 1}, {0, 0, 1, 1, 1, 1, 0}};
    assert_near(u_of_design(7, fours, mass), sqrt(7.0 / 16), 1e-12);
    /* One after another, all of a weighing's. */
    static const int ones[3][OBJECTS] = {{1}, {0, 1}, {0, 0, 1}};
    assert_near(u_of_design(3, ones, mass), 1, 1e-12);
}

static void differences_without_a_restraint_leave_the_masses_open(void **state)
{
    (void)state;
    const pare_equation equation[] = {
        {0.3, 1, 2, (const pare_term[]){{0, 1}, {1, -1}}, false},
        {0.2, 1, 2, (const pare_term[]){{0, 1}, {2, -1}}, false},
        {-0.1, 1, 2, (const pare_term[]){{1, 1}, {2, -1}}, false},
    };
    pare_arena *arena = pare_arena_open();
    pare_adjusted adjusted;
    size_t open = 99;
    pare_error err = {0};
    assert_int_equal(pare_adjust(3, 3, equation, arena, &adjusted, &open, &err), PARE_BAD_DATA);
    assert_true(open < 3);
    assert_non_null(strstr(err.text, "leave unknown"));
    pare_arena_close(arena);
}

static void the_end_gauge_has_the_uncertainty_of_the_guide(void **state)
{
    (void)state;
    /* JCGM 100:2008, H.1: a 50 mm end gauge against a standard. Inputs in nm and 1/degC as in table
     * H.1, with the half-widths' roots of three in full: u = 31.6639 nm, 50 000 838 nm (the guide prints
     * 32). The length is the standard's, plus the difference, less what temperature does. */
    enum { STANDARD, DIFFERENCE, EXPANSION_DIFFERENCE, TEMPERATURE_DIFFERENCE };
    const double standard_nm = 50000623, theta = -0.1, alpha = 11.5e-6;
    const double u_difference = sqrt(5.8 * 5.8 + 3.9 * 3.9 + 6.7 * 6.7);
    const pare_equation equation[] = {
        {standard_nm, 25, 1, (const pare_term[]){{STANDARD, 1}}, false},
        {215, u_difference, 1, (const pare_term[]){{DIFFERENCE, 1}}, false},
        {0, 1e-6 / sqrt(3), 1, (const pare_term[]){{EXPANSION_DIFFERENCE, 1}}, false},
        {0, 0.05 / sqrt(3), 1, (const pare_term[]){{TEMPERATURE_DIFFERENCE, 1}}, false},
    };
    pare_arena *arena = pare_arena_open();
    const pare_adjusted adjusted = adjust(arena, 4, 4, equation);
    const double slope[] = {1, 1, -standard_nm * theta, -standard_nm * alpha};
    double length_nm = 0;
    for (int i = 0; i < 4; i++)
        length_nm += slope[i] * adjusted.value[i];
    assert_near(length_nm, 50000838, 0.5);
    assert_near(sqrt(variance(&adjusted, slope)), 31.6639, 5e-4);
    pare_arena_close(arena);
}

static void resistance_and_reactance_hang_together_as_in_the_guide(void **state)
{
    (void)state;
    /* JCGM 100:2008, H.2: five readings each of an element's volts, milliamperes and phase, taken
     * together (table H.2, from memory); R = V/I cos, X = V/I sin, Z = V/I. The means are correlated, so
     * their equations are the rows of a root of their covariance. Tables H.3 and H.4: 127.732 ohm,
     * 0.071; 219.847, 0.295; 254.260, 0.236; correlations -0.588, -0.485, 0.993. */
    enum { SETS = 5 };
    static const double read[3][SETS] = {{5.007, 4.994, 5.005, 4.990, 4.999},
                                         {19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3},
                                         {1.0456, 1.0438, 1.0468, 1.0428, 1.0433}};
    double mean[3] = {0}, cover[3][3] = {{0}}, root[3][3] = {{0}};
    for (int i = 0; i < 3; i++)
        for (int s = 0; s < SETS; s++)
            mean[i] += read[i][s] / SETS;
    for (int i = 0; i < 3; i++)
        for (int k = 0; k < 3; k++)
            for (int s = 0; s < SETS; s++)
                cover[i][k] +=
                    (read[i][s] - mean[i]) * (read[k][s] - mean[k]) / (SETS * (SETS - 1));
    for (int i = 0; i < 3; i++)
        for (int k = 0; k <= i; k++) {
            double left = cover[i][k];
            for (int j = 0; j < k; j++)
                left -= root[i][j] * root[k][j];
            root[i][k] = i == k ? sqrt(left) : left / root[k][k];
        }
    /* Volts, amperes and phase are sums of three unknowns of variance 1 each. */
    const pare_equation equation[] = {
        {0, 1, 1, (const pare_term[]){{0, 1}}, false},
        {0, 1, 1, (const pare_term[]){{1, 1}}, false},
        {0, 1, 1, (const pare_term[]){{2, 1}}, false},
    };
    pare_arena *arena = pare_arena_open();
    const pare_adjusted adjusted = adjust(arena, 3, 3, equation);
    const double v = mean[0], i = mean[1], c = cos(mean[2]), s = sin(mean[2]), z = v / i;
    const double slope[3][3] = {
        {c / i, -z * c / i, -z * s}, {s / i, -z * s / i, z * c}, {1 / i, -z / i, 0}};
    double along[3][3] = {{0}}, u[3], pair[3];
    for (int r = 0; r < 3; r++) {
        for (int k = 0; k < 3; k++)
            for (int j = 0; j < 3; j++)
                along[r][k] += slope[r][j] * root[j][k];
        u[r] = sqrt(variance(&adjusted, along[r]));
    }
    static const int first[3] = {0, 0, 1}, second[3] = {1, 2, 2};
    for (int p = 0; p < 3; p++) {
        double sum[3];
        for (int k = 0; k < 3; k++)
            sum[k] = along[first[p]][k] / u[first[p]] + along[second[p]][k] / u[second[p]];
        pair[p] = variance(&adjusted, sum) / 2 - 1;
    }
    assert_near(z * c, 127.732, 5e-4);
    assert_near(z * s, 219.847, 5e-4);
    assert_near(z, 254.260, 5e-4);
    assert_near(u[0], 0.071, 5e-4);
    assert_near(u[1], 0.295, 1e-3); /* 0.2956: the guide rounds on the way */
    assert_near(u[2], 0.236, 5e-4);
    assert_near(pair[0], -0.588, 5e-4);
    assert_near(pair[1], -0.485, 5e-4);
    assert_near(pair[2], 0.993, 5e-4);
    pare_arena_close(arena);
}

static void the_thermometer_line_of_the_guide_comes_out(void **state)
{
    (void)state;
    /* JCGM 100:2008, H.3: a thermometer's corrections b = y1 + y2 (t - 20 degC), eleven readings alike,
     * so their standard deviation is that of the residuals. Table H.6 and H.3.3 to H.3.4. */
    static const double t[] = {21.521, 22.012, 22.512, 23.003, 23.507, 23.999,
                               24.513, 25.002, 25.503, 26.010, 26.511};
    static const double b[] = {-.171, -.169, -.166, -.159, -.164, -.165,
                               -.156, -.157, -.159, -.161, -.160};
    pare_term term[11][2];
    pare_equation equation[11];
    for (size_t i = 0; i < 11; i++) {
        term[i][0] = (pare_term){0, 1};
        term[i][1] = (pare_term){1, t[i] - 20};
        equation[i] = (pare_equation){b[i], 1, 2, term[i], false};
    }
    pare_arena *arena = pare_arena_open();
    const pare_adjusted adjusted = adjust(arena, 2, 11, equation);
    const double s = sqrt(adjusted.chi2 / (double)adjusted.spare);
    assert_near(adjusted.value[0], -0.17120379, 5e-9);
    assert_near(adjusted.value[1], 0.00218270, 5e-9);
    assert_near(s * adjusted.u[0], 0.0028776, 5e-8);
    assert_near(s * adjusted.u[1], 0.00066794, 5e-9);
    const double sum[] = {1, 1}, first[] = {1, 0}, second[] = {0, 1};
    const double covariance =
        (variance(&adjusted, sum) - variance(&adjusted, first) - variance(&adjusted, second)) / 2;
    assert_near(covariance / (adjusted.u[0] * adjusted.u[1]), -0.930430, 5e-7);
    const double at_30[] = {1, 10};
    assert_near(adjusted.value[0] + 10 * adjusted.value[1], -0.14937681, 5e-9);
    assert_near(s * sqrt(variance(&adjusted, at_30)), 0.00413860, 5e-8);
    pare_arena_close(arena);
}

enum { UNKNOWNS = 40, EQUATIONS = 130, MOST = 6 };

/* Sparse equations of any sort: each unknown has a wide prior. */
static void draw_equations(uint64_t *seed, pare_term term[EQUATIONS][MOST],
                           pare_equation equation[EQUATIONS])
{
    for (size_t q = 0; q < EQUATIONS; q++) {
        const bool prior = q < UNKNOWNS;
        const size_t terms = prior ? 1 : 1 + (size_t)(5 * draw_share(seed) * 0.999);
        for (size_t a = 0; a < terms; a++)
            term[q][a] = (pare_term){prior ? q : (size_t)(UNKNOWNS * draw_share(seed) * 0.999),
                                     prior ? 1 : draw_normal(seed)};
        equation[q] = (pare_equation){10 * draw_normal(seed), prior ? 20 : 0.1 + draw_share(seed),
                                      terms, term[q], false};
    }
}

static void sparse_elimination_agrees_with_gsl(void **state)
{
    (void)state;
    /* gsl_multifit_wlinear() decomposes the same equations, dense, into singular values. */
    uint64_t seed = 7;
    gsl_matrix *x = gsl_matrix_alloc(EQUATIONS, UNKNOWNS);
    gsl_matrix *cover = gsl_matrix_alloc(UNKNOWNS, UNKNOWNS);
    gsl_vector *y = gsl_vector_alloc(EQUATIONS), *w = gsl_vector_alloc(EQUATIONS);
    gsl_vector *c = gsl_vector_alloc(UNKNOWNS);
    gsl_multifit_linear_workspace *work = gsl_multifit_linear_alloc(EQUATIONS, UNKNOWNS);
    for (int round = 0; round < 20; round++) {
        pare_term term[EQUATIONS][MOST];
        pare_equation equation[EQUATIONS];
        draw_equations(&seed, term, equation);
        pare_arena *arena = pare_arena_open();
        const pare_adjusted adjusted = adjust(arena, UNKNOWNS, EQUATIONS, equation);
        gsl_matrix_set_zero(x);
        for (size_t q = 0; q < EQUATIONS; q++) {
            for (size_t a = 0; a < equation[q].terms; a++)
                *gsl_matrix_ptr(x, q, term[q][a].unknown) += term[q][a].factor;
            gsl_vector_set(y, q, equation[q].value);
            gsl_vector_set(w, q, 1 / (equation[q].u * equation[q].u));
        }
        double chi2;
        assert_int_equal(gsl_multifit_wlinear(x, w, y, c, cover, &chi2, work), 0);
        assert_within(adjusted.chi2, chi2, 1e-9);
        for (size_t i = 0; i < UNKNOWNS; i++) {
            assert_near(adjusted.value[i], gsl_vector_get(c, i), 1e-8);
            assert_within(adjusted.u[i], sqrt(gsl_matrix_get(cover, i, i)), 1e-8);
        }
        for (size_t q = 0; q < EQUATIONS; q++) {
            gsl_vector_view row = gsl_matrix_row(x, q);
            double value, u;
            gsl_multifit_linear_est(&row.vector, c, cover, &value, &u);
            assert_near(adjusted.residual[q], equation[q].value - value, 1e-8);
            const double own = equation[q].u * equation[q].u;
            assert_near(adjusted.residual_u[q] * adjusted.residual_u[q], own - u * u, 1e-9 * own);
        }
        pare_arena_close(arena);
    }
    gsl_multifit_linear_free(work);
    gsl_vector_free(c);
    gsl_vector_free(w);
    gsl_vector_free(y);
    gsl_matrix_free(cover);
    gsl_matrix_free(x);
}

static void an_equation_that_is_out_says_how_far_off_it_is(void **state)
{
    (void)state;
    /* Two readings of one mass with 3 and 4: of the one left out, the residual is their difference, and
     * its deviation 5. */
    const pare_equation equation[] = {
        {100, 3, 1, (const pare_term[]){{0, 1}}, false},
        {120, 4, 1, (const pare_term[]){{0, 1}}, true},
    };
    pare_arena *arena = pare_arena_open();
    const pare_adjusted adjusted = adjust(arena, 1, 2, equation);
    assert_near(adjusted.value[0], 100, 1e-12);
    assert_near(adjusted.residual[1], 20, 1e-12);
    assert_near(adjusted.residual_u[1], 5, 1e-12);
    assert_near(adjusted.chi2, 0, 1e-12);
    pare_arena_close(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_weighing_design_1_1_1_comes_out_as_published),
        cmocka_unit_test(objects_weighed_together_are_as_sure_as_published),
        cmocka_unit_test(differences_without_a_restraint_leave_the_masses_open),
        cmocka_unit_test(the_end_gauge_has_the_uncertainty_of_the_guide),
        cmocka_unit_test(resistance_and_reactance_hang_together_as_in_the_guide),
        cmocka_unit_test(the_thermometer_line_of_the_guide_comes_out),
        cmocka_unit_test(sparse_elimination_agrees_with_gsl),
        cmocka_unit_test(an_equation_that_is_out_says_how_far_off_it_is),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
