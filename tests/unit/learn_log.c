/* rooms: store advise craft physics base */
/* What a log teaches, against logs whose truth is known: each is flown by a rig with a pack of its own and
 * read by sensors that are off by a share, with their noise. What is learned of the sensors and of the
 * pack's resistance must hold the truth as often as it says. Sums over bins are held against closed forms. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "advise/learn_inside.h"
#include "base/day.h"
#include "bench_of.h"
#include "craft/flight.h"
#include "draws.h"
#include "near.h"
#include "store/bench.h"

enum { SEASONS = 100, LOGS = 4 };
#define ROW_S   0.1
#define REST_S  5.0
#define AFTER_S 90.0

static int setup(void **state)
{
    *state = bench_of("../../demo/bench.yaml");
    return 0;
}

static int teardown(void **state)
{
    pare_bench_close(*state);
    return 0;
}

/* ---- bins ---- */

static double ramp_a(double t)
{
    return 4 + 0.05 * t;
}

static double wave_v(double t)
{
    return 15 + 0.5 * sin(t / 7);
}

static double charge_of(const pare_log_bin bin[], size_t bins, double *volt_s)
{
    double charge_c = 0;
    *volt_s = 0;
    for (size_t i = 0; i < bins; i++) {
        charge_c += bin[i].lasts_s * bin[i].current_a;
        *volt_s += bin[i].lasts_s * bin[i].volts_v;
    }
    return charge_c;
}

/* A ramp's charge is its integral whatever the spacing of rows, for it goes straight between any two: 4 t +
 * 0.025 t^2. */
static void charge_is_the_integral_whatever_the_spacing_of_rows(void **state)
{
    (void)state;
    static const size_t rows[] = {1000, 20000, 1000000};
    for (size_t n = 0; n < sizeof rows / sizeof rows[0]; n++) {
        pare_log_reducer *r = calloc(1, sizeof *r);
        pare_log_bin bin[PARE_LOG_BINS];
        uint64_t dice = 3;
        const double end_s = 300;
        double volt_s = 0;
        for (size_t i = 0; i <= rows[n]; i++) {
            const double within = i > 0 && i < rows[n] ? 0.9 * (draw_share(&dice) - 0.5) : 0;
            const double t = end_s * ((double)i + within) / (double)rows[n];
            const pare_log_row row = {1e6 + t, wave_v(t), ramp_a(t), NAN, NAN};
            assert_true(pare_log_take(r, &row));
        }
        const size_t bins = pare_log_bins(r, bin);
        assert_int_equal(bins, 150); /* of two seconds: 240 of one are too few */
        assert_near(charge_of(bin, bins, &volt_s), 4 * end_s + 0.025 * end_s * end_s, 1e-5);
        /* Of a wave rows cut the corners: h^2 / 12 of its curve, 0.5 / 49, at most. */
        const double h = 2 * end_s / (double)rows[n];
        assert_near(volt_s, 15 * end_s + 3.5 * (1 - cos(end_s / 7)),
                    end_s * h * h / 12 * 0.5 / 49 + 1e-5);
        assert_near(bin[10].time_s, 20, 1e-9);
        assert_near(bin[10].current_a, ramp_a(21), 1e-6);
        assert_true(isnan(bin[10].throttle) && isnan(bin[10].height_m));
        assert_int_equal(r->gaps, 0);
        free(r);
    }
}

static void gaps_and_repeated_and_backward_times_are_seen(void **state)
{
    (void)state;
    pare_log_reducer r = {0};
    pare_log_bin bin[PARE_LOG_BINS];
    double volt_s = 0;
    for (int i = 0; i <= 400; i++) {
        const double t = i <= 200 ? 0.1 * i : 0.1 * i + 12; /* nothing from 20 s to 32.1 s */
        const pare_log_row row = {t, 15, 10, 0.5, t};
        assert_true(pare_log_take(&r, &row));
        if (i == 50)
            assert_true(pare_log_take(&r, &row));
    }
    const pare_log_row back = {51.9, 15, 10, NAN, NAN};
    assert_false(pare_log_take(&r, &back));
    assert_int_equal(r.rows, 402);
    assert_int_equal(r.repeated, 1);
    assert_int_equal(r.gaps, 1);
    assert_near(r.gaps_s, 12.1, 1e-9);
    assert_int_equal(r.longest_row, 202);
    const size_t bins = pare_log_bins(&r, bin);
    assert_near(charge_of(bin, bins, &volt_s), 10 * (52 - 12.1), 1e-9);
    assert_near(bin[20].time_s, 32, 1e-9);
    assert_near(bin[5].height_m, 5.5, 1e-9);
    assert_near(bin[5].throttle, 0.5, 1e-12);
}

/* A month at one row a second. */
static void a_long_log_stays_in_its_bins(void **state)
{
    (void)state;
    pare_log_reducer *r = calloc(1, sizeof *r);
    pare_log_bin bin[PARE_LOG_BINS];
    double volt_s = 0;
    const int rows = 30 * 86400;
    for (int i = 0; i <= rows; i++) {
        const pare_log_row row = {i, 15, 1, NAN, NAN};
        assert_true(pare_log_take(r, &row));
    }
    const size_t bins = pare_log_bins(r, bin);
    assert_true(bins > PARE_LOG_BINS / 2 && bins <= PARE_LOG_BINS);
    assert_near(charge_of(bin, bins, &volt_s), rows, 1e-6 * rows);
    free(r);
}

/* ---- logs with a known truth ---- */

typedef struct truth {
    double current, volts; /* what its sensors say of an ampere and a volt */
    double ohm, holds, power;
} truth;

typedef struct flown_log {
    pare_flight_record record;
    pare_flight_log log;
    pare_log_bin bin[PARE_LOG_BINS];
    char date[16];
} flown_log;

static pare_sheet *sheet_of(const pare_craft *craft, pare_doubts *doubts)
{
    pare_error err = {0};
    pare_craft *loaded = malloc(sizeof *loaded);
    pare_sheet *sheet = malloc(sizeof *sheet);
    if (pare_craft_load(craft, 0, loaded, &err) != PARE_OK ||
        pare_sheet_compute(loaded, false, sheet, &err) != PARE_OK)
        fail_msg("%s", err.text);
    pare_doubts_of(loaded, sheet, doubts);
    free(loaded);
    return sheet;
}

/* A hover with a climb of three seconds in it, as its rows are logged. */
static void log_one(const pare_rig *rig, const pare_doubts *doubts, const truth *t, double hover_a,
                    double hovers_s, uint64_t *dice, double *taken_c, flown_log *out)
{
    const pare_pack *pack = &rig->pack;
    const double shape_v =
        pack->cells * hypot(0.02, doubts->u[PARE_DOUBTED_CELL_V]) * draw_normal(dice);
    const double land_s = REST_S + hovers_s, climb_s = land_s / 2, all_s = land_s + AFTER_S;
    pare_log_reducer *r = calloc(1, sizeof *r);
    double used_c = 0, gust = 0;
    for (double s = 0; s <= all_s; s += ROW_S) {
        const bool flies = s >= REST_S && s < land_s, climbs = s >= climb_s && s < climb_s + 3;
        gust += 0.1 * (0.05 * sqrt(2) * draw_normal(dice) - gust);
        const double current_a = flies ? climbs ? 4 * hover_a : hover_a * (1 + gust) : 0.4;
        const double left = 1 - used_c / pack->capacity_c;
        const double slow = flies ? pare_pack_steady(pack, s - REST_S) : 0;
        const double after = s >= land_s ? 1 - pare_pack_steady(pack, s - land_s) : 0;
        const double quick_ohm = pare_pack_ohm(pack, left, 0),
                     slow_ohm = pare_pack_ohm(pack, left, 1) - quick_ohm;
        const double volts_v =
            pare_pack_open_v(pack, left) - quick_ohm * current_a -
            slow_ohm * hover_a * (slow + after) -
            (climbs ? slow_ohm * (current_a - hover_a) * pare_pack_steady(pack, s - climb_s) : 0) +
            (flies ? shape_v : 0);
        const pare_log_row row = {s, t->volts * volts_v + 0.03 * draw_normal(dice),
                                  t->current * current_a * (1 + 0.03 * draw_normal(dice)), NAN,
                                  NAN};
        assert_true(pare_log_take(r, &row));
        used_c += current_a * ROW_S;
    }
    *taken_c = used_c;
    out->log = (pare_flight_log){pare_log_bins(r, out->bin), out->bin};
    free(r);
}

static void fly_one(const pare_craft *craft, const pare_sheet *sheet, const pare_doubts *doubts,
                    const truth *t, int i, uint64_t *dice, flown_log *out)
{
    static const pare_flown hovering = {PARE_FLOWN_THRUST, 1, 1};
    const pare_landing landing = {0.5, 0.3};
    pare_endurance endured;
    pare_error err = {0};
    double taken_c = 0;
    pare_rig rig = sheet->rig;
    rig.rotor.power_factor *= t->power;
    rig.pack.capacity_c *= t->holds;
    *(rig.pack.group_ohm > 0 ? &rig.pack.group_ohm : &rig.pack.resistance_factor) *= t->ohm;
    if (pare_rig_endure(&rig, 1, &hovering, &landing, &endured, &err) != PARE_OK)
        fail_msg("%s", err.text);
    const double hovers_s = 0.6 * rig.pack.capacity_c / endured.mean_a;
    const double hover_a = endured.mean_a * exp(PARE_HOVER_STYLE_U * draw_normal(dice));
    log_one(&rig, doubts, t, hover_a, hovers_s, dice, &taken_c, out);
    out->record = (pare_flight_record){.date = pare_day_text(20500, out->date),
                                       .loadout = 0,
                                       .pack = craft->item[pare_craft_doing(craft, PARE_PACK)].part,
                                       .which = 1,
                                       .take_off_kg = NAN,
                                       .lasted_s = NAN,
                                       .put_back_c = NAN,
                                       .rest_before_v = NAN,
                                       .rest_after_v = NAN,
                                       .entries = 1,
                                       .flown = {hovering},
                                       .log = &out->log};
    /* Every second one was at the charger, and read by a voltmeter before. */
    if (i % 2 == 0) {
        out->record.put_back_c = taken_c * exp(PARE_CHARGER_U * draw_normal(dice));
        out->record.rest_before_v = pare_pack_open_v(&rig.pack, 1) * exp(0.003 * draw_normal(dice));
    }
}

static double square(double x)
{
    return x * x;
}

static void learn_from(const pare_craft *craft, size_t count, const flown_log log[],
                       pare_arena *arena, pare_learned_all *learned)
{
    pare_error err = {0};
    pare_flight_record record[LOGS];
    for (size_t i = 0; i < count; i++)
        record[i] = log[i].record;
    pare_flight_record *kept = pare_arena_array(arena, count, sizeof *kept);
    memcpy(kept, record, count * sizeof *kept);
    if (pare_learn(craft, count, kept, arena, learned, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

static void sensors_and_resistance_lie_where_learning_says(void **state)
{
    const pare_craft *craft = pare_bench_craft(*state, "hedgerow");
    pare_doubts doubts;
    pare_sheet *sheet = sheet_of(craft, &doubts);
    flown_log *flights = calloc(LOGS, sizeof *flights);
    uint64_t dice = 17;
    double current = 0, volts = 0, ohm = 0, said = 0;
    int set_aside = 0;
    for (int s = 0; s < SEASONS; s++) {
        pare_arena *arena = pare_arena_open();
        pare_learned_all learned;
        const truth t = {.current = exp(PARE_CURRENT_SENSOR_U * draw_normal(&dice)),
                         .volts = exp(PARE_VOLTAGE_SENSOR_U * draw_normal(&dice)),
                         .ohm = exp(doubts.u[PARE_DOUBTED_PACK_OHM] * draw_normal(&dice)),
                         .holds = exp(0.1 * draw_normal(&dice)),
                         .power = exp(0.05 * draw_normal(&dice))};
        for (int i = 0; i < LOGS; i++)
            fly_one(craft, sheet, &doubts, &t, i, &dice, &flights[i]);
        learn_from(craft, LOGS, flights, arena, &learned);
        const pare_learned_factor *i = &learned.factor[PARE_LEARNED_CURRENT_SENSOR],
                                  *v = &learned.factor[PARE_LEARNED_VOLTAGE_SENSOR];
        const pare_learned_pack *pack = &learned.pack[0];
        pare_pack truly = sheet->rig.pack;
        truly.capacity_c *= t.holds;
        *(truly.group_ohm > 0 ? &truly.group_ohm : &truly.resistance_factor) *= t.ohm;
        current += square((i->change - log(t.current)) / i->change_u);
        volts += square((v->change - log(t.volts)) / v->change_u);
        ohm += square(log(pack->logged_ohm / pare_pack_group_ohm(&truly, 0.5)) /
                      (pack->logged_ohm_u / pack->logged_ohm));
        said += i->change_u;
        for (int k = 0; k < LOGS; k++)
            set_aside += learned.flight[k].log_aside || !learned.flight[k].fits;
        assert_int_equal(learned.logs, LOGS);
        pare_arena_close(arena);
    }
    free(flights);
    free(sheet);
    /* The root of a mean of 100 squares is good to 0.07; three of these. */
    assert_true(fabs(sqrt(current / SEASONS) - 1) < 0.21);
    assert_true(fabs(sqrt(volts / SEASONS) - 1) < 0.21);
    assert_true(fabs(sqrt(ohm / SEASONS) - 1) < 0.21);
    /* By two chargings, good to 1.5 % each, of 10 % before. */
    assert_true(said / SEASONS < 0.015);
    /* 5 % for each season together: 5 of 100, and the spread of that. */
    assert_true(set_aside <= 12);
}

/* Another craft's log under this flight: what it says of charge is not what the charger put back. The flight
 * keeps what was written by hand, as if no log had been there. */
static void a_log_that_does_not_fit_is_named_and_the_flight_stays(void **state)
{
    const pare_craft *craft = pare_bench_craft(*state, "hedgerow");
    pare_doubts doubts;
    pare_sheet *sheet = sheet_of(craft, &doubts);
    flown_log *flights = calloc(LOGS, sizeof *flights);
    pare_arena *arena = pare_arena_open();
    pare_learned_all learned, without;
    uint64_t dice = 23;
    const truth t = {1, 1, 1, 1, 1};
    for (int i = 0; i < LOGS; i++) {
        fly_one(craft, sheet, &doubts, &t, 2 * i, &dice, &flights[i]);
        const pare_log_bin *last = &flights[i].bin[flights[i].log.bins - 1];
        flights[i].record.lasted_s = last->time_s + last->lasts_s - REST_S - AFTER_S;
    }
    for (size_t i = 0; i < flights[2].log.bins; i++)
        flights[2].bin[i].volts_v += 2; /* of a pack with other cells */
    learn_from(craft, LOGS, flights, arena, &learned);
    for (int i = 0; i < LOGS; i++) {
        assert_int_equal(learned.flight[i].log_aside, i == 2);
        assert_true(learned.flight[i].fits);
    }
    assert_true(fabs(learned.flight[2].off_log) > learned.bound);
    assert_string_equal(learned.flight[2].log_about, "volts at rest before take-off");
    flights[2].record.log = NULL;
    learn_from(craft, LOGS, flights, arena, &without);
    assert_near(learned.learned_s, without.learned_s, 1e-3 * without.learned_s);
    assert_int_equal(learned.degrees, without.degrees);
    pare_arena_close(arena);
    free(flights);
    free(sheet);
}

/* What no flight can have drawn leaves the fit as if it were not there. */
static void a_log_that_is_no_flight_tells_nothing(void **state)
{
    const pare_craft *craft = pare_bench_craft(*state, "hedgerow");
    static const double amperes[][2] = {{0, 0}, {-5, -5}, {-20, 1}, {2000, 2000}, {0, 2000}};
    for (size_t i = 0; i < sizeof amperes / sizeof amperes[0]; i++) {
        pare_log_bin bin[12];
        const pare_flight_log log = {12, bin};
        const pare_flight_record record = {.date = "2026-05-01",
                                           .loadout = -1,
                                           .take_off_kg = NAN,
                                           .lasted_s = NAN,
                                           .put_back_c = i == 3 ? 3000 : (double)NAN,
                                           .rest_before_v = NAN,
                                           .rest_after_v = NAN,
                                           .log = &log};
        pare_arena *arena = pare_arena_open();
        pare_learned_all learned;
        pare_error err = {0};
        for (size_t k = 0; k < 12; k++)
            bin[k] = (pare_log_bin){(double)k, 1, k % 3 ? 0.0 : 120, amperes[i][k % 2], NAN, NAN};
        if (pare_learn(craft, 1, &record, arena, &learned, &err) != PARE_OK)
            fail_msg("%zu: %s", i, err.text);
        assert_true(isfinite(learned.chi2) && isfinite(learned.learned_s));
        assert_true(learned.flight[0].why || !learned.flight[0].fits ||
                    learned.flight[0].log_aside);
        pare_arena_close(arena);
    }
}

/* Nothing is said of sensors where nothing was logged, and a test with a log is still proposed. */
static void without_a_log_sensors_are_not_spoken_of(void **state)
{
    const pare_craft *craft = pare_bench_craft(*state, "hedgerow");
    pare_arena *arena = pare_arena_open();
    pare_learned_all learned;
    pare_error err = {0};
    bool proposed = false;
    assert_int_equal(pare_learn(craft, 0, NULL, arena, &learned, &err), PARE_OK);
    assert_int_equal(learned.logs, 0);
    assert_int_equal(pare_learned_count(learned.logs), PARE_LEARNED_CURRENT_SENSOR);
    for (int i = 0; i < PARE_LEARNED_TESTS; i++) {
        assert_true(isfinite(learned.test[i].flown_u_s));
        assert_true(learned.test[i].flown_u_s <= learned.learned_u_s * (1 + 1e-9));
        proposed = proposed || strstr(learned.test[i].what, "with its log");
    }
    assert_true(proposed);
    pare_arena_close(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(charge_is_the_integral_whatever_the_spacing_of_rows),
        cmocka_unit_test(gaps_and_repeated_and_backward_times_are_seen),
        cmocka_unit_test(a_long_log_stays_in_its_bins),
        cmocka_unit_test_setup_teardown(sensors_and_resistance_lie_where_learning_says, setup,
                                        teardown),
        cmocka_unit_test_setup_teardown(a_log_that_does_not_fit_is_named_and_the_flight_stays,
                                        setup, teardown),
        cmocka_unit_test_setup_teardown(a_log_that_is_no_flight_tells_nothing, setup, teardown),
        cmocka_unit_test_setup_teardown(without_a_log_sensors_are_not_spoken_of, setup, teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
