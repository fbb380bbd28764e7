/* rooms: advise craft physics base */
/* Nonlinear least squares against NIST's reference sets, from both of their starts, to six digits of the
 * certified values and of their standard deviations. Source: NIST StRD, Nonlinear Regression (strd.h).
 *
 * One start of one set (BoxBOD's first) leads to where its second unknown no longer matters; that is
 * answered as such, not as a solution. */
#include <math.h>
#include <string.h>

#include "advise/nonlinear.h"
#include "near.h"
#include "strd.h"

#define SIX_DIGITS 1e-6

typedef double model(const double b[], double x);

static double one_exponential(const double b[], double x)
{
    return b[0] * (1 - exp(-b[1] * x));
}

static double peak(const double b[], double x)
{
    const double off = (x - b[2]) / b[1];
    return b[0] / b[1] * exp(-0.5 * off * off);
}

static double logistic(const double b[], double x)
{
    return b[0] / (1 + exp(b[1] - b[2] * x));
}

static double steep_logistic(const double b[], double x)
{
    return b[0] / pow(1 + exp(b[1] - b[2] * x), 1 / b[3]);
}

static double cubics(const double b[], double x)
{
    return (b[0] + x * (b[1] + x * (b[2] + x * b[3]))) / (1 + x * (b[4] + x * (b[5] + x * b[6])));
}

static double quadratics(const double b[], double x)
{
    return (b[0] + x * (b[1] + x * b[2])) / (1 + x * (b[3] + x * b[4]));
}

static double cycles(const double b[], double x)
{
    const double turn = 2 * 3.14159265358979323846 * x;
    return b[0] + b[1] * cos(turn / 12) + b[2] * sin(turn / 12) + b[4] * cos(turn / b[3]) +
           b[5] * sin(turn / b[3]) + b[7] * cos(turn / b[6]) + b[8] * sin(turn / b[6]);
}

typedef struct set {
    const char *name;
    model *at;
    size_t rows, unknowns;
    const double *x, *y, *start[2], *certified, *deviation, *squares;
} set;

#define SET(name, at)                                                                              \
    {#name,                                                                                        \
     at,                                                                                           \
     sizeof name##_x / sizeof(double),                                                             \
     sizeof name##_certified / sizeof(double),                                                     \
     name##_x,                                                                                     \
     name##_y,                                                                                     \
     {name##_starts, name##_starts_near},                                                          \
     name##_certified,                                                                             \
     name##_deviation,                                                                             \
     &name##_squares}

static const set sets[] = {
    SET(misra1a, one_exponential), SET(boxbod, one_exponential), SET(eckerle4, peak),
    SET(rat42, logistic),          SET(rat43, steep_logistic),   SET(thurber, cubics),
    SET(kirby2, quadratics),       SET(hahn1, cubics),           SET(enso, cycles),
};
enum { SETS = sizeof sets / sizeof sets[0], UNKNOWNS = 9 };

static bool residuals(const void *context, const double x[], double row[])
{
    const set *s = context;
    for (size_t i = 0; i < s->rows; i++)
        row[i] = s->at(x, s->x[i]) - s->y[i];
    return true;
}

/* What is certified belongs together: no value of the sets, their starts and models was mistyped here. */
static void nists_sets_have_their_certified_squares_at_their_certified_values(void **state)
{
    (void)state;
    enum { MOST = 300 };
    double row[MOST];
    int wrong = 0;
    for (const set *s = sets; s < sets + SETS; s++) {
        double sum = 0;
        assert_true(s->rows <= MOST && residuals(s, s->certified, row));
        for (size_t i = 0; i < s->rows; i++)
            sum += row[i] * row[i];
        if (fabs(sum / *s->squares - 1) <= 1e-9)
            continue;
        print_error("%s: squares %.11g, certified %.11g\n", s->name, sum, *s->squares);
        wrong++;
    }
    assert_int_equal(wrong, 0);
}

static void nists_sets_come_out_to_six_digits_from_both_starts(void **state)
{
    (void)state;
    int wrong = 0;
    for (int k = 0; k < 2 * SETS; k++) {
        const set *s = &sets[k / 2];
        const pare_nonlinear problem = {s->unknowns, s->rows, residuals, s, 1e-5, 0};
        pare_arena *arena = pare_arena_open();
        pare_nonlinear_fit fit;
        pare_error err = {0};
        double b[UNKNOWNS];
        memcpy(b, s->start[k % 2], s->unknowns * sizeof b[0]);
        if (pare_nonlinear_solve(&problem, b, arena, &fit, &err) != PARE_OK) {
            if (strcmp(s->name, "boxbod") == 0 && k % 2 == 0 &&
                strcmp(err.text, "the readings leave an unknown free") == 0) {
                pare_arena_close(arena);
                continue;
            }
            print_error("%s, start %d: %s\n", s->name, k % 2 + 1, err.text);
            wrong++;
        } else {
            if (fabs(fit.sum / *s->squares - 1) > SIX_DIGITS) {
                print_error("%s, start %d: squares %.10g, certified %.10g\n", s->name, k % 2 + 1,
                            fit.sum, *s->squares);
                wrong++;
            }
            for (size_t i = 0; i < s->unknowns; i++) {
                const double u = sqrt(fit.covariance[i * s->unknowns + i] * fit.sum /
                                      (double)(s->rows - s->unknowns));
                /* The peak is the same with its width and height turned round. */
                const double off = fabs(fabs(b[i]) / fabs(s->certified[i]) - 1);
                const double off_u = fabs(u / s->deviation[i] - 1);
                if (off <= SIX_DIGITS && off_u <= SIX_DIGITS)
                    continue;
                print_error("%s, start %d, b%zu: %.10g (%.10g), certified %.10g (%.10g)\n", s->name,
                            k % 2 + 1, i + 1, b[i], u, s->certified[i], s->deviation[i]);
                wrong++;
            }
        }
        pare_arena_close(arena);
    }
    assert_int_equal(wrong, 0);
}

static bool only_their_sum(const void *context, const double x[], double row[])
{
    (void)context;
    row[0] = x[0] + x[1] - 1;
    row[1] = 2 * (x[0] + x[1]) - 2;
    return true;
}

static void an_unknown_that_nothing_holds_is_named_as_free(void **state)
{
    (void)state;
    const pare_nonlinear problem = {2, 2, only_their_sum, NULL, 1e-5, 0};
    pare_arena *arena = pare_arena_open();
    pare_nonlinear_fit fit;
    pare_error err = {0};
    double x[2] = {0.2, 0.3};
    assert_int_equal(pare_nonlinear_solve(&problem, x, arena, &fit, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "the readings leave an unknown free");
    pare_arena_close(arena);
}

static void fewer_rows_than_unknowns_are_refused(void **state)
{
    (void)state;
    const pare_nonlinear problem = {3, 2, only_their_sum, NULL, 1e-5, 0};
    pare_arena *arena = pare_arena_open();
    pare_nonlinear_fit fit;
    pare_error err = {0};
    double x[3] = {0};
    assert_int_equal(pare_nonlinear_solve(&problem, x, arena, &fit, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "2 readings for 3 unknowns: as many are needed");
    pare_arena_close(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nists_sets_have_their_certified_squares_at_their_certified_values),
        cmocka_unit_test(nists_sets_come_out_to_six_digits_from_both_starts),
        cmocka_unit_test(an_unknown_that_nothing_holds_is_named_as_free),
        cmocka_unit_test(fewer_rows_than_unknowns_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
