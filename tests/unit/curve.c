/* rooms: store craft physics base */
/* Curves go through the sheet's own figures, and each point is the flight model's own. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bench_of.h"
#include "craft/curve.h"
#include "craft/flight.h"
#include "near.h"
#include "store/bench.h"

typedef struct fixture {
    pare_bench *bench;
    pare_craft craft;
    pare_sheet sheet;
    pare_curve_chart curve[PARE_CURVES];
} fixture;

static void make(fixture *f, const char *name)
{
    pare_error err = {0};
    const pare_craft *craft = pare_bench_craft(f->bench, name);
    assert_non_null(craft);
    assert_int_equal(pare_craft_load(craft, craft->loadouts ? 0 : -1, &f->craft, &err), PARE_OK);
    assert_int_equal(pare_sheet_compute(&f->craft, false, &f->sheet, &err), PARE_OK);
    pare_curves_of(&f->craft, &f->sheet, f->curve);
}

static int setup(void **state)
{
    fixture *f = calloc(1, sizeof *f);
    assert_non_null(f);
    f->bench = bench_of("../../demo/bench.yaml");
    make(f, "hedgerow");
    *state = f;
    return 0;
}

static int teardown(void **state)
{
    fixture *f = *state;
    pare_bench_close(f->bench);
    free(f);
    return 0;
}

static const pare_curve_mark *mark_of(const pare_curve_chart *curve, const char *name)
{
    for (size_t i = 0; i < curve->marks; i++)
        if (strcmp(curve->mark[i].name, name) == 0)
            return &curve->mark[i];
    fail_msg("no mark '%s'", name);
    return NULL;
}

/* The point of a line at an x, which must be one of its own. */
static double at(const pare_curve_line *line, double x)
{
    for (size_t i = 0; i < line->points; i++)
        if (fabs(line->x[i] - x) <= 1e-12 * fabs(x))
            return line->y[i];
    fail_msg("no point at %g", x);
    return (double)NAN;
}

/* The same question asked of the same model: the tolerance is rounding. */
static void the_curve_at_the_craft_s_own_mass_is_the_sheet_s_minutes(void **state)
{
    fixture *f = *state;
    static const char *const names[] = {"hedgerow", "thimble", "drover", "bodkin"};
    for (size_t i = 0; i < 4; i++) {
        make(f, names[i]);
        const pare_curve_chart *minutes = &f->curve[PARE_CURVE_MINUTES];
        const double own_kg = f->sheet.figure[PARE_ALL_UP].value,
                     flown_s = f->sheet.figure[PARE_FLOWN_TIME].value;
        assert_within(at(&minutes->line[0], own_kg), flown_s, 1e-12);
        assert_within(mark_of(minutes, "now")->y, flown_s, 1e-12);
        assert_within(mark_of(minutes, "now")->x, own_kg, 1e-12);
        assert_int_equal(minutes->line[0].points, PARE_CURVE_POINTS);
    }
    make(f, "hedgerow");
}

/* A law: more mass needs more thrust, and more thrust more power. */
static void more_grams_never_fly_longer(void **state)
{
    const fixture *f = *state;
    const pare_curve_line *line = &f->curve[PARE_CURVE_MINUTES].line[0];
    for (size_t i = 1; i < line->points; i++) {
        assert_true(line->x[i] > line->x[i - 1]);
        assert_true(line->y[i] < line->y[i - 1]);
    }
}

static void the_limit_is_marked_where_the_brief_has_it(void **state)
{
    const fixture *f = *state;
    const pare_curve_mark *limit = mark_of(&f->curve[PARE_CURVE_MINUTES], "limit");
    assert_near(limit->x, 0.620, 1e-12); /* the demo's brief */
    assert_true(limit->y > f->sheet.figure[PARE_FLOWN_TIME].value);
}

static void current_and_power_at_a_speed_are_the_model_s_own_point(void **state)
{
    const fixture *f = *state;
    const pare_curve_line *current = &f->curve[PARE_CURVE_CURRENT].line[0],
                          *power = &f->curve[PARE_CURVE_POWER].line[0];
    assert_true(current->points > 40);
    assert_int_equal(current->points, power->points);
    for (size_t i = 0; i < current->points; i++) {
        pare_operating point;
        assert_int_equal(pare_rig_level(&f->sheet.rig, current->x[i], 0.5, &point, NULL), PARE_OK);
        assert_within(current->y[i], point.pack_a, 1e-12);
        assert_within(power->y[i], point.pack_w, 1e-12);
        assert_within(power->y[i], point.pack_v * point.pack_a, 1e-6);
    }
}

/* Hovering is level flight at no speed. The two are solved differently, hence 1e-6. */
static void the_curves_begin_in_the_sheet_s_hover(void **state)
{
    const fixture *f = *state;
    assert_within(mark_of(&f->curve[PARE_CURVE_CURRENT], "hover")->y,
                  f->sheet.figure[PARE_HOVER_A].value, 1e-6);
    assert_within(f->curve[PARE_CURVE_POWER].line[0].y[0], f->sheet.figure[PARE_HOVER_W].value,
                  1e-6);
}

/* By definition: no other speed of the curve takes less energy a metre. */
static void the_best_range_mark_is_where_a_metre_costs_least(void **state)
{
    const fixture *f = *state;
    const pare_curve_mark *best = mark_of(&f->curve[PARE_CURVE_POWER], "best range");
    const pare_curve_line *power = &f->curve[PARE_CURVE_POWER].line[0];
    for (size_t i = 1; i < power->points; i++)
        assert_true(power->y[i] / power->x[i] > best->y / best->x * (1 - 1e-4));
}

static void thrust_over_weight_meets_the_sheet_at_its_states(void **state)
{
    const fixture *f = *state;
    const pare_curve_chart *thrust = &f->curve[PARE_CURVE_THRUST];
    assert_within(mark_of(thrust, "fresh")->y, f->sheet.figure[PARE_TWR_FRESH].value, 1e-9);
    assert_within(mark_of(thrust, "half")->y, f->sheet.figure[PARE_TWR_HALF].value, 1e-9);
    assert_within(mark_of(thrust, "landing")->y, f->sheet.figure[PARE_TWR_LANDING].value, 1e-9);
    assert_within(at(&thrust->line[0], 1), f->sheet.figure[PARE_TWR_FRESH].value, 1e-9);
}

/* A law: a pack sags under load, and the more the larger the load. */
static void a_cell_sags_in_hover_and_more_at_full_throttle(void **state)
{
    const fixture *f = *state;
    const pare_curve_line *line = f->curve[PARE_CURVE_VOLTS].line;
    for (int l = 0; l < 3; l++)
        assert_true(line[l].points > 40);
    for (size_t i = 0; i < line[2].points; i++) {
        const double charge = line[2].x[i];
        assert_true(at(&line[2], charge) < at(&line[1], charge));
        assert_true(at(&line[1], charge) < at(&line[0], charge));
    }
    assert_near(at(&line[0], 1), pare_chemistry_full_v(f->sheet.rig.pack.chemistry), 0.01);
}

static void a_craft_that_cannot_hover_says_why_there_is_no_curve(void **state)
{
    fixture *f = *state;
    make(f, "hedgerow");
    f->sheet.rig.mass_kg = 40; /* of which its rotors lift a tenth */
    pare_curves_of(&f->craft, &f->sheet, f->curve);
    for (int i = PARE_CURVE_MINUTES; i <= PARE_CURVE_POWER; i++) {
        assert_int_equal(f->curve[i].line[0].points, 0);
        assert_int_equal(f->curve[i].marks, 0);
        assert_true(strlen(f->curve[i].why) > 10);
    }
    assert_true(f->curve[PARE_CURVE_THRUST].line[0].points > 40);
    assert_int_equal(f->curve[PARE_CURVE_THRUST].why[0], '\0');
    make(f, "hedgerow");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_curve_at_the_craft_s_own_mass_is_the_sheet_s_minutes),
        cmocka_unit_test(more_grams_never_fly_longer),
        cmocka_unit_test(the_limit_is_marked_where_the_brief_has_it),
        cmocka_unit_test(current_and_power_at_a_speed_are_the_model_s_own_point),
        cmocka_unit_test(the_curves_begin_in_the_sheet_s_hover),
        cmocka_unit_test(the_best_range_mark_is_where_a_metre_costs_least),
        cmocka_unit_test(thrust_over_weight_meets_the_sheet_at_its_states),
        cmocka_unit_test(a_cell_sags_in_hover_and_more_at_full_throttle),
        cmocka_unit_test(a_craft_that_cannot_hover_says_why_there_is_no_curve),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
