/* calc_electric.c: `pare calc esc`, and wires over a flown profile, as they are typed; and the tables of
 * gauges and boards that craft have. */
#include "run.h"

#include <math.h>
#include <string.h>

static void an_esc_loses_warms_and_lasts(void **state)
{
    (void)state;
    json_t *m = run_json("calc esc current=11A volts=15V mass=11.3g continuous=45A burst=45A "
                         "burst_for=10s flow=5m/s --json");
    /* The trade's law for four on one board, 1 g + 0.23 g/A (common practice, no source). */
    assert_within(number(m, "made_for_a"), 10.3 / 0.23, 1e-9);
    /* Four motors: I^2 times 0.12 ohm A over the rating, half a percent a kelvin over 25 degC, and
     * 0.3 % of I V with 20 mA: the estimates that the answer says it rests on. */
    const double ohm = 0.12 / number(m, "made_for_a") * (1 + 0.005 * (number(m, "steady_c") - 25));
    assert_within(number(m, "loss_w"), 4 * (121 * ohm + 15 * (0.003 * 11 + 0.02)), 1e-9);
    assert_within(number(m, "continuous_margin"), 45.0 / 11, 1e-9);
    assert_within(number(m, "heat_margin"), 85 / (number(m, "steady_c") - 25), 1e-9);
    assert_within(number(m, "burst_margin"), number(m, "burst_s") / 10, 1e-9);
    /* A margin is as unsure as the rise, or the seconds, that it is made of. */
    assert_within(number(m, "heat_margin_u") / number(m, "heat_margin"),
                  number(m, "steady_c_u") / (number(m, "steady_c") - 25), 1e-9);
    assert_within(number(m, "burst_margin_u"), number(m, "burst_s_u") / 10, 1e-9);
    assert_true(number(m, "burst_c") > number(m, "steady_c"));
    assert_true(number(m, "steady_c_u") > 0);
    json_decref(m);
}

static void a_burst_ends_at_the_limit(void **state)
{
    (void)state;
    char line[160];
    json_t *m = run_json("calc esc current=8A volts=15V mass=7.1g burst=40A --json");
    snprintf(line, sizeof line,
             "calc esc current=8A volts=15V mass=7.1g burst=40A burst_for=%.9gs --json",
             number(m, "burst_s"));
    json_t *again = run_json(line);
    assert_near(number(again, "burst_c"), 110, 0.3);
    json_decref(again);
    json_decref(m);
}

static void more_air_and_more_board_keep_it_cooler(void **state)
{
    (void)state;
    static const char *const lines[] = {
        "calc esc current=12A volts=15V mass=7.1g flow=0m/s --json",
        "calc esc current=12A volts=15V mass=7.1g --json",
        "calc esc current=12A volts=15V mass=15.4g --json",
        "calc esc current=12A volts=15V mass=15.4g flow=12m/s --json"};
    double last = HUGE_VAL;
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        json_t *m = run_json(lines[i]);
        assert_true(number(m, "steady_c") < last);
        last = number(m, "steady_c");
        json_decref(m);
    }
}

static void one_that_burns_says_so_instead_of_a_number(void **state)
{
    (void)state;
    ran r = run("calc esc current=200A volts=15V mass=3g --json");
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "\"steady_c\": null"));
    assert_non_null(strstr(r.out, "\"burst_c\": null"));
    ran_free(&r);
    r = run("calc esc current=200A volts=15V mass=3g");
    assert_non_null(strstr(r.out, "held without end, this current burns it"));
    assert_null(strstr(r.out, "nan"));
    assert_non_null(strstr(r.out, "a burst of 200 A burns it within 10 s"));
    ran_free(&r);
}

static void a_current_that_never_reaches_the_limit_has_no_seconds(void **state)
{
    (void)state;
    ran r = run("calc esc current=1A volts=15V mass=15.4g");
    assert_non_null(strstr(r.out, "burst until the limit         none\n"));
    assert_non_null(strstr(r.out, "a burst of 1 A never takes it to 110 degC"));
    ran_free(&r);
}

static void a_flown_wire_ends_where_one_stretch_after_another_leaves_it(void **state)
{
    (void)state;
    json_t *m = run_json("calc wire gauge=14 length=250mm current=21A flown=21/3000 --json");
    assert_near(number(m, "flown_end_c"), number(m, "steady_c"), 0.5);
    assert_within(number(m, "flown_rms_a"), 21, 1e-12);
    json_decref(m);
    m = run_json("calc wire gauge=14 length=250mm current=21A flown=10/60,100/4,5/30 --json");
    assert_true(number(m, "flown_hottest_c") > number(m, "flown_end_c") + 5);
    assert_within(number(m, "flown_rms_a"),
                  sqrt((10 * 10 * 60 + 100 * 100 * 4 + 5 * 5 * 30) / 94.0), 1e-9);
    json_decref(m);
}

static void what_cannot_be_is_refused_with_what_would_be_right(void **state)
{
    (void)state;
    static const struct {
        const char *line, *says;
    } wrong[] = {
        {"calc esc current=11A volts=15V",
         "pare: calc esc: needs the board's mass, or its continuous rating to guess it from\n"},
        {"calc esc current=11A volts=15V mass=11g resistance=0",
         "pare: calc esc: resistance: 0 has no unit: a resistance needs mohm, ohm or kohm\n"},
        {"calc esc current=11A volts=15V mass=11g heat_capacity=-1J/K",
         "pare: calc esc: heat_capacity=-1J/K is outside 0.1 J/K .. 500 J/K\n"},
        {"calc esc current=11A volts=15V mass=11g motors=3",
         "pare: calc esc: motors=3: a board drives 1 or 4\n"},
        {"calc esc current=11A volts=15V mass=11g ambient=-5K",
         "pare: calc esc: ambient=-5K is outside -60 degC .. 100 degC\n"},
        {"calc esc current=-1A volts=15V mass=11g",
         "pare: calc esc: current=-1A is outside 0 A .. 500 A\n"},
        {"calc wire gauge=14 length=1m current=3A ambient=-5K",
         "pare: calc wire: ambient=-5K is outside -60 degC .. 100 degC\n"},
        {"calc wire gauge=14 length=1m current=3A flown=9/50,",
         "pare: calc wire: flown=9/50,: amperes/seconds with commas between, 64 stretches at most, "
         "would be right\n"},
        {"calc wire gauge=14 length=1m current=3A flown=5000/2",
         "pare: calc wire: flown: current in A 5000: 0 to 2000 would be right\n"},
        {"calc wire gauge=14 length=1m current=3A flown=nan/2",
         "pare: calc wire: flown: current in A nan: 0 to 2000 would be right\n"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        run_refuses(wrong[i].line, 3, wrong[i].says);
}

static void boards_and_leads_stand_side_by_side(void **state)
{
    (void)state;
    run_prints_golden("compare-esc", "compare hedgerow --try esc=es-45 --try esc=es-30-20" DEMO);
    run_prints_golden("compare-lead",
                      "compare hedgerow --try pack=pa-6s-1050,motor=mo-2207-1750 --all" DEMO);
}

static const json_t *run_named(const json_t *sheet, const char *name)
{
    size_t i;
    const json_t *one;
    json_array_foreach(json_object_get(sheet, "wires"), i,
                       one) if (strcmp(json_string_value(json_object_get(one, "run")), name) ==
                                0) return one;
    fail_msg("no wire %s", name);
    return NULL;
}

static void a_thinner_lead_on_the_sheet_is_lighter_hotter_and_loses_more(void **state)
{
    (void)state;
    json_t *sheet = run_json("sheet hedgerow --json" DEMO);
    const json_t *lead = run_named(sheet, "lead"), *rows = json_object_get(lead, "gauges");
    assert_true(json_array_size(rows) >= 5);
    double grams = HUGE_VAL, degrees = 0, volts = 0;
    for (size_t i = 0; i < json_array_size(rows); i++) {
        const json_t *row = json_array_get(rows, i);
        assert_true(number(row, "wire_g") < grams);
        assert_true(number(row, "flown_degc") > degrees && number(row, "lost_v") > volts);
        grams = number(row, "wire_g");
        degrees = number(row, "flown_degc");
        volts = number(row, "lost_v");
        if (json_is_true(json_object_get(row, "now"))) {
            assert_near(number(row, "flown_change_s"), 0, 0);
            assert_true(json_is_true(json_object_get(row, "holds")));
        }
    }
    /* The same swap, tried on the craft, gains the same seconds. */
    json_t *thin = run_json("sheet hedgerow --try run.lead.gauge=16 --json" DEMO);
    for (size_t i = 0; i < json_array_size(rows); i++) {
        const json_t *row = json_array_get(rows, i);
        if (number(row, "gauge") == 16)
            assert_near(number(row, "flown_change_s"),
                        60 * (number(thin, "flown_min") - number(sheet, "flown_min")), 1e-6);
    }
    const json_t *costs = json_object_get(lead, "costs");
    assert_true(number(costs, "flown_s") > number(costs, "flown_by_resistance_s"));
    assert_true(number(costs, "thrust") > 0);
    json_decref(thin);
    json_decref(sheet);
}

static void an_inflated_label_is_said_on_the_sheet(void **state)
{
    (void)state;
    ran r = run("sheet hedgerow --try pack=pa-4s-1300h" DEMO);
    assert_int_equal(r.status, 0);
    assert_non_null(strstr(r.out, "The 220 C on the label of pa-4s-1300h are more"));
    ran_free(&r);
    r = run("sheet hedgerow --try pack=pa-4s-1300" DEMO);
    assert_null(strstr(r.out, "on the label of"));
    ran_free(&r);
    json_t *sheet = run_json("sheet hedgerow --try pack=pa-4s-1300h --json" DEMO);
    assert_true(json_is_true(json_object_get(json_object_get(sheet, "pack_label"), "boasts")));
    json_decref(sheet);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_esc_loses_warms_and_lasts),
        cmocka_unit_test(a_burst_ends_at_the_limit),
        cmocka_unit_test(more_air_and_more_board_keep_it_cooler),
        cmocka_unit_test(one_that_burns_says_so_instead_of_a_number),
        cmocka_unit_test(a_current_that_never_reaches_the_limit_has_no_seconds),
        cmocka_unit_test(a_flown_wire_ends_where_one_stretch_after_another_leaves_it),
        cmocka_unit_test(what_cannot_be_is_refused_with_what_would_be_right),
        cmocka_unit_test(boards_and_leads_stand_side_by_side),
        cmocka_unit_test(a_thinner_lead_on_the_sheet_is_lighter_hotter_and_loses_more),
        cmocka_unit_test(an_inflated_label_is_said_on_the_sheet),
    };
    return cmocka_run_group_tests(tests, enter_home_with_demo, leave_home);
}
