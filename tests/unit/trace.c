/* rooms: store craft physics base */
/* A flight as one curve: through the sheet's own figures, and as the laws say between them. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bench_of.h"
#include "craft/flight.h"
#include "craft/gauges.h"
#include "craft/trace.h"
#include "near.h"
#include "store/bench.h"

static const char *const names[] = {"hedgerow", "thimble", "drover", "bodkin"};
enum { NAMES = sizeof names / sizeof names[0] };

typedef struct fixture {
    pare_bench *bench;
    pare_craft craft;
    pare_sheet sheet;
    pare_curve_chart chart;
} fixture;

static void make(fixture *f, const char *name)
{
    pare_error err = {0};
    const pare_craft *craft = pare_bench_craft(f->bench, name);
    assert_non_null(craft);
    assert_int_equal(pare_craft_load(craft, craft->loadouts ? 0 : -1, &f->craft, &err), PARE_OK);
    assert_int_equal(pare_sheet_compute(&f->craft, false, &f->sheet, &err), PARE_OK);
}

static int setup(void **state)
{
    fixture *f = calloc(1, sizeof *f);
    assert_non_null(f);
    f->bench = bench_of("../../demo/bench.yaml");
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

static const pare_curve_line *trace(fixture *f, const char *name, pare_trace_of which)
{
    make(f, name);
    pare_trace(&f->craft, &f->sheet, which, &f->chart);
    assert_int_equal(f->chart.lines, 1);
    assert_true(f->chart.line[0].points > 2);
    for (size_t i = 1; i < f->chart.line[0].points; i++)
        assert_true(f->chart.line[0].x[i] > f->chart.line[0].x[i - 1]);
    return &f->chart.line[0];
}

static double figure(const fixture *f, pare_figure which)
{
    assert_true(f->sheet.figure[which].exists);
    return f->sheet.figure[which].value;
}

static size_t last(const pare_curve_line *line)
{
    return line->points - 1;
}

/* Level flight at no speed is hover: trimmed by another way, hence not the same bits. */
static void standing_still_is_the_sheet_s_hover(void **state)
{
    fixture *f = *state;
    for (size_t i = 0; i < NAMES; i++) {
        const pare_curve_line *line = trace(f, names[i], PARE_TRACE_MINUTES);
        assert_near(line->x[0], 0, 0);
        assert_within(line->y[0], figure(f, PARE_HOVER_TIME), 1e-6);
        line = trace(f, names[i], PARE_TRACE_CURRENT);
        assert_within(line->y[0], figure(f, PARE_HOVER_A), 1e-6);
    }
}

/* Definition: the speed at which a pack carries it furthest is that of most speed times minutes. Packs
 * that land by their volts land later where they give less, so within 2 %. */
static void no_speed_goes_further_than_the_sheet_s_best_range(void **state)
{
    fixture *f = *state;
    for (size_t i = 0; i < NAMES; i++) {
        const pare_curve_line *line = trace(f, names[i], PARE_TRACE_MINUTES);
        double furthest_m = 0;
        for (size_t k = 0; k < line->points; k++)
            furthest_m = fmax(furthest_m, line->x[k] * line->y[k]);
        assert_within(furthest_m, figure(f, PARE_BEST_RANGE), 0.02);
    }
}

/* Half the capacity lies around half charge: minutes are charge over the current there, within what volts
 * fall and rise by on either side. */
static void minutes_are_charge_over_current(void **state)
{
    fixture *f = *state;
    double s[PARE_CURVE_POINTS];
    const pare_curve_line *line = trace(f, "thimble", PARE_TRACE_MINUTES);
    const size_t half = line->points / 2;
    memcpy(s, line->y, sizeof s);
    const double left = pare_brief_landing(&f->craft.brief, f->sheet.rig.pack.chemistry).charge;
    const double drawn_c = (1 - left) * f->sheet.rig.pack.capacity_c;
    line = trace(f, "thimble", PARE_TRACE_CURRENT);
    for (size_t i = 0; i < half; i++)
        assert_within(s[i], drawn_c / line->y[i], 0.05);
}

/* The first mark is as the brief flies it; drover's and hedgerow's say speeds. */
static void the_first_mark_is_the_speed_that_is_flown_longest(void **state)
{
    fixture *f = *state;
    trace(f, "hedgerow", PARE_TRACE_CURRENT);
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(&f->craft.brief, &flown);
    const pare_flown *longest = NULL;
    for (size_t i = 0; i < entries; i++)
        if (flown[i].as == PARE_FLOWN_SPEED && (!longest || flown[i].share > longest->share))
            longest = &flown[i];
    assert_non_null(longest);
    assert_string_equal(f->chart.mark[0].name, "as flown");
    assert_near(f->chart.mark[0].x, longest->level, 0);
    pare_operating point;
    assert_int_equal(pare_rig_level(&f->sheet.rig, longest->level, 0.5, &point, NULL), PARE_OK);
    assert_within(f->chart.mark[0].y, point.pack_a, 1e-12);
}

/* The sheet's landing, and a law: charge drawn only lowers volts. */
static void a_cell_sags_to_where_the_sheet_lands(void **state)
{
    fixture *f = *state;
    for (size_t i = 0; i < NAMES; i++) {
        const pare_curve_line *line = trace(f, names[i], PARE_TRACE_SAG);
        assert_near(line->x[0], 0, 0);
        assert_within(line->x[last(line)], figure(f, PARE_FLOWN_TIME), 1e-12);
        assert_within(line->y[last(line)], figure(f, PARE_LANDING_CELL_V), 1e-12);
        assert_within(f->chart.mark[0].x, figure(f, PARE_FLOWN_TIME), 1e-12);
        for (size_t k = 1; k < line->points; k++)
            assert_true(line->y[k] < line->y[k - 1]);
        assert_true(line->y[0] < pare_pack_cell_v(f->sheet.rig.pack.chemistry, 1));
    }
}

/* Against the table of gauges; and its middle against the other integration of the same equations, which
 * is good to a thousandth of a kelvin where this one is to half of one. */
static void the_hottest_wire_is_that_of_the_gauges_table(void **state)
{
    fixture *f = *state;
    for (size_t i = 0; i < NAMES; i++) {
        const pare_curve_line *line = trace(f, names[i], PARE_TRACE_WIRE);
        double hottest = -INFINITY;
        for (size_t k = 0; k < f->craft.runs; k++) {
            const double degc = pare_run_flown_degc(&f->craft, &f->sheet, &f->craft.run[k]);
            hottest = isfinite(degc) ? fmax(hottest, degc) : hottest;
        }
        assert_near(f->chart.mark[0].y, hottest, 0.5);
        assert_near(line->y[0], f->sheet.rig.air.temperature_degc, 1e-9);
        assert_within(line->x[last(line)], figure(f, PARE_FLOWN_TIME), 1e-9);
        const int run = pare_craft_run(&f->craft, line->name);
        assert_true(run >= 0);
        pare_wire_stretch stretch[PARE_FLOWN];
        pare_wire_load load;
        pare_wire_heat heat;
        size_t stretches, at = 1;
        assert_true(pare_run_stretches(&f->craft, &f->sheet, &f->craft.run[run], &stretches,
                                       stretch, &load));
        while (line->x[at + 1] <= stretch[0].seconds)
            at++;
        load.current_a = stretch[0].current_a;
        assert_int_equal(pare_wire_after(&load, load.ambient_degc, line->x[at], &heat, NULL),
                         PARE_OK);
        assert_near(line->y[at], heat.conductor_degc, 0.5);
    }
}

/* Long after the stick the rate grows by the sheet's roll acceleration, from one lag later on: the closed
 * form of a first-order lag, rate = a (t - lag) + a lag exp(-t/lag). */
static void the_roll_rate_follows_the_sheet_s_acceleration_and_lag(void **state)
{
    fixture *f = *state;
    for (size_t i = 0; i < NAMES; i++) {
        const pare_curve_line *line = trace(f, names[i], PARE_TRACE_ROLL);
        const size_t end = last(line);
        const double a = figure(f, PARE_ROLL), lag_s = figure(f, PARE_ROTOR_LAG);
        const double slope = (line->y[end] - line->y[end - 1]) / (line->x[end] - line->x[end - 1]);
        assert_between(slope / a, 1 - exp(-line->x[end - 1] / lag_s) - 1e-9, 1);
        assert_within(line->y[end], a * (line->x[end] - lag_s * (1 - exp(-line->x[end] / lag_s))),
                      1e-9);
        assert_near(line->y[0], 0, 0);
        assert_near(f->chart.mark[0].x, 0.1, 0);
    }
}

/* A craft that cannot lift itself has no flight to trace, and says so. */
static void a_craft_that_cannot_fly_says_why(void **state)
{
    fixture *f = *state;
    make(f, "thimble");
    pare_sheet heavy = f->sheet;
    heavy.rig.mass_kg *= 100;
    for (int which = 0; which <= PARE_TRACE_SAG; which++) {
        pare_trace(&f->craft, &heavy, (pare_trace_of)which, &f->chart);
        assert_int_equal(f->chart.line[0].points, 0);
        assert_int_equal(f->chart.marks, 0);
        assert_true(strlen(f->chart.why) > 10);
    }
    f->craft.runs = 0;
    pare_trace(&f->craft, &f->sheet, PARE_TRACE_WIRE, &f->chart);
    assert_int_equal(f->chart.line[0].points, 0);
    assert_non_null(strstr(f->chart.why, "no run of wire"));
}

/* Euler: scale all grams where they are, and mass and inertia scale. Full throttle stays, so roll
 * acceleration falls by its own share; and as nothing moves, minutes change as with grams at the centre.
 * The rates are slopes over 1 %, so their sum is good to some 1e-3. */
static void what_a_gram_of_each_line_is_worth_adds_up_to_the_craft(void **state)
{
    fixture *f = *state;
    for (size_t i = 0; i < NAMES; i++) {
        make(f, names[i]);
        pare_exchange exchange;
        assert_int_equal(pare_sheet_exchange(&f->craft, &f->sheet, &exchange, NULL), PARE_OK);
        double roll = 0, yaw = 0, flown_s = 0;
        for (size_t k = 0; k < f->sheet.assembly.lines; k++) {
            double per_kg[PARE_FIGURES];
            const double kg = f->sheet.assembly.line[k].mass_kg.value;
            if (!(kg > 0))
                continue;
            pare_sheet_gram_of(&f->craft, &f->sheet, k, per_kg);
            roll += kg * per_kg[PARE_ROLL];
            yaw += kg * per_kg[PARE_YAW];
            flown_s += kg * per_kg[PARE_FLOWN_TIME];
        }
        assert_within(roll, -figure(f, PARE_ROLL), 5e-3);
        assert_within(yaw, -figure(f, PARE_YAW), 5e-3);
        assert_within(flown_s, figure(f, PARE_ALL_UP) * exchange.centre[PARE_FLOWN_TIME], 5e-3);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(standing_still_is_the_sheet_s_hover),
        cmocka_unit_test(no_speed_goes_further_than_the_sheet_s_best_range),
        cmocka_unit_test(minutes_are_charge_over_current),
        cmocka_unit_test(the_first_mark_is_the_speed_that_is_flown_longest),
        cmocka_unit_test(a_cell_sags_to_where_the_sheet_lands),
        cmocka_unit_test(the_hottest_wire_is_that_of_the_gauges_table),
        cmocka_unit_test(the_roll_rate_follows_the_sheet_s_acceleration_and_lag),
        cmocka_unit_test(a_craft_that_cannot_fly_says_why),
        cmocka_unit_test(what_a_gram_of_each_line_is_worth_adds_up_to_the_craft),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
