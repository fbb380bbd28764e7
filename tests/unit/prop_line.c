/* rooms: physics base */
/* The shipped propeller sets: lines by name, what lies outside a fit, and the doubt that goes with it. */
#include <math.h>
#include <string.h>

#include "near.h"
#include "physics/prop_trend.h"

#define INCH_M 0.0254

enum { SIZE = 3 }; /* of the traits: ln(D/9 in) */

static pare_prop sized(double diameter_in, double pitch_in, int blades, pare_prop_line line)
{
    const pare_prop_size size = {.diameter_m = diameter_in * INCH_M,
                                 .pitch_m = pitch_in * INCH_M,
                                 .blades = blades,
                                 .line = line};
    pare_prop prop;
    assert_int_equal(pare_prop_from_size(&size, pare_prop_set(false, line), &prop, NULL), PARE_OK);
    return prop;
}

static void a_line_has_one_name(void **state)
{
    (void)state;
    for (int line = 0; line < PARE_PROP_LINES; line++)
        assert_int_equal(pare_prop_line_named(pare_prop_line_name((pare_prop_line)line)), line);
    assert_int_equal(pare_prop_line_named("wide"), PARE_PROP_LINES);
}

static void a_known_line_is_surer_than_an_unknown_one(void **state)
{
    (void)state;
    const pare_prop unknown = sized(10, 6, 2, PARE_LINE_UNKNOWN);
    for (int line = PARE_LINE_THIN; line < PARE_PROP_LINES; line++) {
        const pare_prop known = sized(10, 6, 2, (pare_prop_line)line);
        for (int running = 0; running < 2; running++) {
            const pare_prop_doubt more = pare_prop_model_doubt(&unknown, running, 0.8);
            const pare_prop_doubt less = pare_prop_model_doubt(&known, running, 0.8);
            assert_true(less.thrust_u < more.thrust_u && less.power_u < more.power_u);
            assert_between(less.correlation, 0, 1);
        }
    }
}

static void outside_the_fit_the_doubt_grows_and_says_why(void **state)
{
    (void)state;
    const pare_prop inside = sized(10, 6, 2, PARE_LINE_UNKNOWN);
    assert_null(pare_prop_outside(&inside));
    static const struct {
        double diameter_in, pitch_in;
        int blades;
        const char *words;
    } table[] = {
        {30, 15, 2, "its diameter"}, {10, 18, 2, "its pitch"}, {10, 6, 6, "its number of blades"}};
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const pare_prop out =
            sized(table[i].diameter_in, table[i].pitch_in, table[i].blades, PARE_LINE_UNKNOWN);
        assert_string_equal(pare_prop_outside(&out), table[i].words);
        pare_prop in = out;
        memcpy(in.trait, inside.trait, sizeof in.trait);
        in.trait[SIZE] = fmin(out.trait[SIZE], out.constants->hull.high[SIZE]);
        in.blades = table[i].blades > 4 ? 4 : table[i].blades;
        assert_within(pare_prop_model_doubt(&out, false, 1).thrust_u,
                      1.5 * pare_prop_model_doubt(&in, false, 1).thrust_u, 1e-12);
    }
}

static void small_propellers_of_two_blades_are_doubted_more(void **state)
{
    (void)state;
    /* Errors on propellers left out, size alone: twice as large to 4 in as from 7 to 11 in (tools/fit;
     * docs/physics.md). */
    const pare_prop small = sized(4, 2.4, 2, PARE_LINE_UNKNOWN);
    const pare_prop large = sized(15, 9, 2, PARE_LINE_UNKNOWN);
    for (int running = 0; running < 2; running++) {
        const pare_prop_doubt more = pare_prop_model_doubt(&small, running, 0.8);
        const pare_prop_doubt less = pare_prop_model_doubt(&large, running, 0.8);
        assert_true(more.thrust_u > less.thrust_u && more.power_u > less.power_u);
        assert_true(more.correlation == less.correlation);
    }
}

static void a_propeller_that_hardly_pulls_is_doubted_more(void **state)
{
    (void)state;
    /* Errors in motion of propellers left out, size alone: 7.5 % of CT in the middle where nine tenths of
     * the thrust at rest are left, 29 % where a third is (tools/fit; docs/physics.md). */
    const pare_prop prop = sized(10, 6, 2, PARE_LINE_UNKNOWN);
    const double power = prop.constants->doubt_with_load;
    assert_between(power, 0.4, 1.2);
    const double full = pare_prop_model_doubt(&prop, true, 1).thrust_u;
    assert_within(pare_prop_model_doubt(&prop, true, 0.5).thrust_u, pow(2, power) * full, 1e-12);
    assert_within(pare_prop_model_doubt(&prop, true, 1.4).thrust_u, full, 1e-12);
    assert_within(pare_prop_model_doubt(&prop, true, -0.2).thrust_u,
                  pare_prop_model_doubt(&prop, true, 0.3).thrust_u, 1e-12);
    assert_within(pare_prop_model_doubt(&prop, false, 0.5).thrust_u,
                  pare_prop_model_doubt(&prop, false, 1).thrust_u, 1e-12);
    /* A middle error is two thirds of u, so that u is what those quantiles say, within a third. */
    assert_within(0.6745 * pare_prop_model_doubt(&prop, true, 0.9).thrust_u, 0.075, 0.33);
    assert_within(0.6745 * pare_prop_model_doubt(&prop, true, 0.33).thrust_u, 0.29, 0.33);
}

static void a_lines_terms_are_held_where_the_line_was_measured(void **state)
{
    (void)state;
    for (int line = PARE_LINE_THIN; line < PARE_PROP_LINES; line++) {
        const pare_prop_hull *hull = &pare_prop_family_line.hull;
        double term[4][PARE_PROP_LINE_TERMS];
        const double size_in[4] = {
            9 * exp(hull->line_low[line][1]), 9 * exp(hull->line_high[line][1]),
            9 * exp(hull->line_low[line][1] - 0.2), 9 * exp(hull->line_high[line][1] + 0.2)};
        for (int i = 0; i < 4; i++) {
            const pare_prop prop = sized(size_in[i], 0.7 * size_in[i], 2, (pare_prop_line)line);
            pare_prop_line_terms(&prop, term[i]);
            assert_true(term[i][0] == 1);
        }
        for (int t = 0; t < PARE_PROP_LINE_TERMS; t++) {
            assert_near(term[2][t], term[0][t], 1e-12);
            assert_near(term[3][t], term[1][t], 1e-12);
        }
        assert_true(term[1][2] > term[0][2]);
    }
}

static void slow_lines_pull_more_at_rest_for_their_pitch(void **state)
{
    (void)state;
    /* UIUC Propeller Data Site, volume 1, at rest near 6500 rpm: thin electric 10 x 5 in CT 0.0987,
     * slow-flying 10 x 4.7 in 0.1299. Doubts of both: 9 %. */
    pare_air air;
    assert_int_equal(pare_air_standard(0, &air, NULL), PARE_OK);
    const pare_prop thin = sized(10, 5, 2, PARE_LINE_THIN),
                    slow = sized(10, 4.7, 2, PARE_LINE_SLOW);
    double thin_ct, slow_ct, cp;
    pare_prop_coefficients(&thin, 0, 6500 * 3.14159265 / 30, &air, &thin_ct, &cp);
    pare_prop_coefficients(&slow, 0, 6500 * 3.14159265 / 30, &air, &slow_ct, &cp);
    assert_within(thin_ct, 0.0987, 0.18);
    assert_within(slow_ct, 0.1299, 0.18);
    assert_true(slow_ct > 1.1 * thin_ct);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_line_has_one_name),
        cmocka_unit_test(a_known_line_is_surer_than_an_unknown_one),
        cmocka_unit_test(outside_the_fit_the_doubt_grows_and_says_why),
        cmocka_unit_test(small_propellers_of_two_blades_are_doubted_more),
        cmocka_unit_test(a_propeller_that_hardly_pulls_is_doubted_more),
        cmocka_unit_test(a_lines_terms_are_held_where_the_line_was_measured),
        cmocka_unit_test(slow_lines_pull_more_at_rest_for_their_pitch),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
