/* rooms: store advise craft physics base */
/* What a hover's output is foretold to be, on the demo's craft: by the sheet, by laws of what moves it, and
 * by nothing that the hover itself says. */
#include "advise/hover.h"

#include <math.h>
#include <stdlib.h>

#include "craft/flight.h"
#include "craft_fixture.h"
#include "near.h"

#define NINE_IN_TEN 1.6449 /* of a normal deviate: tables of the normal distribution */

static int setup(void **state)
{
    *state = fixture_open("../../demo/bench.yaml", "hedgerow");
    return 0;
}

static pare_flight_record hover_of(double output)
{
    return (pare_flight_record){.date = "2026-09-20",
                                .loadout = 0,
                                .take_off_kg = NAN,
                                .lasted_s = NAN,
                                .output = output,
                                .entries = 1,
                                .flown = {{PARE_FLOWN_THRUST, 1, 1}}};
}

static void promise(const pare_craft *craft, pare_flight_record *flight)
{
    pare_error err = {0};
    if (pare_hover_promise(craft, flight, &err) != PARE_OK)
        fail_msg("%s", err.text);
    assert_true(flight->promised);
}

static double middle(const pare_flight_record *flight)
{
    return (flight->low + flight->high) / 2;
}

static void it_is_the_sheets_output_with_its_doubt_and_a_hovers_own(void **state)
{
    fixture *f = *state;
    pare_flight_record flight = hover_of(0.3);
    promise(f->craft, &flight);
    pare_error err = {0};
    pare_craft *loaded = malloc(sizeof *loaded);
    assert_int_equal(pare_craft_load(f->craft, 0, loaded, &err), PARE_OK);
    assert_int_equal(pare_sheet_compute(loaded, true, f->sheet, &err), PARE_OK);
    free(loaded);
    const pare_sheet_figure *output = &f->sheet->figure[PARE_HOVER_OUTPUT];
    assert_near(middle(&flight), output->value, 1e-6);
    const double u = (flight.high - flight.low) / 2 / NINE_IN_TEN;
    const double least = hypot(output->u, PARE_HOVER_OUTPUT_U * output->value);
    /* What the charge makes of it from full to landing comes on top: less than a tenth of it. */
    assert_true(u > least && u < hypot(least, 0.1 * output->value));
}

static void a_heavier_take_off_raises_it_as_the_rig_says(void **state)
{
    fixture *f = *state;
    pare_flight_record usual = hover_of(0.3), heavy = hover_of(0.3);
    promise(f->craft, &usual);
    pare_error err = {0};
    pare_craft *loaded = malloc(sizeof *loaded);
    assert_int_equal(pare_craft_load(f->craft, 0, loaded, &err), PARE_OK);
    assert_int_equal(pare_sheet_compute(loaded, false, f->sheet, &err), PARE_OK);
    free(loaded);
    heavy.take_off_kg = 1.1 * f->sheet->rig.mass_kg;
    promise(f->craft, &heavy);
    pare_rig rig = f->sheet->rig;
    pare_operating light_point, heavy_point;
    assert_int_equal(pare_rig_thrust(&rig, 1, PARE_CHARGE_HALF, &light_point, &err), PARE_OK);
    rig.mass_kg = heavy.take_off_kg;
    assert_int_equal(pare_rig_thrust(&rig, 1, PARE_CHARGE_HALF, &heavy_point, &err), PARE_OK);
    assert_near(middle(&heavy) / middle(&usual), heavy_point.duty / light_point.duty, 1e-6);
    assert_true(middle(&heavy) > 1.03 * middle(&usual));
}

static void a_short_hover_is_read_on_a_full_pack_and_surer(void **state)
{
    fixture *f = *state;
    pare_flight_record some = hover_of(0.3), minute = hover_of(0.3);
    minute.lasted_s = 60;
    promise(f->craft, &some);
    promise(f->craft, &minute);
    assert_true(middle(&minute) < middle(&some));
    assert_true((minute.high - minute.low) / middle(&minute) <
                (some.high - some.low) / middle(&some));
}

static void what_was_read_moves_nothing_of_its_promise(void **state)
{
    fixture *f = *state;
    pare_flight_record low = hover_of(0.05), high = hover_of(0.95);
    high.put_back_c = 4000;
    pare_hover_foretell(f->craft, &low);
    pare_hover_foretell(f->craft, &high);
    assert_near(low.low, high.low, 0);
    assert_near(low.high, high.high, 0);
    assert_near(low.output, 0.05, 0);
}

static void only_a_hover_shows_an_output(void **state)
{
    fixture *f = *state;
    pare_flight_record fast = hover_of(0.3), silent = hover_of(NAN);
    fast.flown[0] = (pare_flown){PARE_FLOWN_SPEED, 1, 12};
    pare_hover_foretell(f->craft, &fast);
    pare_hover_foretell(f->craft, &silent);
    assert_false(fast.promised || silent.promised);
    assert_true(isnan(pare_hover_output(&fast)) && isnan(pare_hover_output(&silent)));
}

static void a_log_shows_the_mean_of_what_it_hovered(void **state)
{
    (void)state;
    pare_log_bin bin[20];
    for (int i = 0; i < 20; i++) { /* at rest, 12 s at 30 and 32 %, at rest */
        const bool up = i >= 4 && i < 16;
        bin[i] = (pare_log_bin){i, 1, 15.5, up ? 9 : 0.3, up ? (i % 2 ? 0.30 : 0.32) : 0, NAN};
    }
    const pare_flight_log log = {20, bin};
    pare_flight_record flight = hover_of(NAN);
    flight.log = &log;
    assert_near(pare_hover_output(&flight), 0.31, 1e-12);
    flight.output = 0.28; /* who read it goes before */
    assert_near(pare_hover_output(&flight), 0.28, 0);
}

static void the_score_counts_both_ends_as_inside(void **state)
{
    (void)state;
    const pare_hovered hover[] = {{"a", "2026-01-01", 0.25, 0.25, 0.35},
                                  {"b", "2026-01-02", 0.35, 0.25, 0.35},
                                  {"b", "2026-01-03", 0.36, 0.25, 0.35},
                                  {"b", "2026-01-03", 0.24, 0.25, 0.35}};
    const pare_hover_score score = pare_hover_score_of(4, hover);
    assert_int_equal(score.made, 4);
    assert_int_equal(score.held, 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_is_the_sheets_output_with_its_doubt_and_a_hovers_own),
        cmocka_unit_test(a_heavier_take_off_raises_it_as_the_rig_says),
        cmocka_unit_test(a_short_hover_is_read_on_a_full_pack_and_surer),
        cmocka_unit_test(what_was_read_moves_nothing_of_its_promise),
        cmocka_unit_test(only_a_hover_shows_an_output),
        cmocka_unit_test(a_log_shows_the_mean_of_what_it_hovered),
        cmocka_unit_test(the_score_counts_both_ends_as_inside),
    };
    return cmocka_run_group_tests(tests, setup, fixture_close);
}
