/* rooms: store craft physics base */
/* What the ESC, the connector, the capacitor and the pack bear, on the demo's craft. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "craft/board.h"
#include "craft/flight.h"
#include "craft/sheet.h"
#include "craft_fixture.h"
#include "near.h"
#include "physics/wire.h"
#include "store/bench.h"

static int setup(void **state)
{
    *state = fixture_open("../../demo/bench.yaml", NULL);
    return 0;
}

static void take(fixture *f, const char *craft)
{
    *f->craft = *pare_bench_craft(f->bench, craft);
}

static pare_item *doing(fixture *f, pare_kind kind)
{
    return &f->craft->item[pare_craft_doing(f->craft, kind)];
}

static void put(fixture *f, pare_kind kind, const char *id)
{
    const pare_part *part = pare_bench_part(f->bench, id);
    assert_non_null(part);
    doing(f, kind)->part = part;
}

static void smaller_boards_leave_smaller_margins(void **state)
{
    fixture *f = *state;
    take(f, "hedgerow");
    static const char *const boards[] = {"es-60", "es-45", "es-35"};
    static const char *const names[] = {"esc.continuous", "esc.burst", "esc.heat",
                                        "esc.heat_burst"};
    double last[4] = {HUGE_VAL, HUGE_VAL, HUGE_VAL, HUGE_VAL};
    for (size_t i = 0; i < sizeof boards / sizeof *boards; i++) {
        put(f, PARE_ESC_FOUR, boards[i]);
        for (size_t k = 0; k < 4; k++) {
            const pare_margin margin = fixture_margin(f, names[k]);
            assert_true(margin.ratio > 0.5 && margin.ratio < last[k]);
            assert_true(margin.ratio_u > 0);
            last[k] = margin.ratio;
        }
    }
}

static void a_boards_label_does_not_cool_it(void **state)
{
    fixture *f = *state;
    take(f, "hedgerow");
    put(f, PARE_ESC_FOUR, "es-65x"); /* 65 A on 8.9 g */
    const pare_margin boast = fixture_margin(f, "esc.heat_burst");
    put(f, PARE_ESC_FOUR, "es-60");
    assert_true(boast.value > fixture_margin(f, "esc.heat_burst").value + 10);
    pare_board board;
    double made_for_a;
    assert_true(pare_part_board(pare_bench_part(f->bench, "es-65x"), &board, &made_for_a));
    /* The trade's law for small boards, 2 g + 0.18 g/A (common practice, no source). */
    assert_near(made_for_a, (8.9 - 2) / 0.18, 1e-6);
    assert_false(pare_part_board(pare_bench_part(f->bench, "co-60"), &board, &made_for_a));
}

static void state(pare_part *part, pare_spec spec, double value, double share_u)
{
    part->spec[spec] = (pare_value){value, share_u * value, PARE_STATED, true};
}

static void what_an_escs_maker_states_goes_before_the_estimate(void **state_of)
{
    fixture *f = *state_of;
    take(f, "hedgerow");
    put(f, PARE_ESC_FOUR, "es-45");
    const pare_margin settled = fixture_margin(f, "esc.heat");
    const pare_margin burst = fixture_margin(f, "esc.heat_burst");
    static pare_part stated;
    stated = *pare_bench_part(f->bench, "es-45");
    doing(f, PARE_ESC_FOUR)->part = &stated;
    pare_board board;
    double made_for_a;
    assert_true(pare_part_board(&stated, &board, &made_for_a));
    /* A larger heat capacity slows a burst and moves no settled board. */
    state(&stated, PARE_SPEC_HEAT, 2 * board.heat_j_k, 0.15);
    assert_near(fixture_margin(f, "esc.heat").value, settled.value, 0);
    const pare_margin slower = fixture_margin(f, "esc.heat_burst");
    assert_true(slower.value < burst.value - 1);
    assert_true(slower.own_u / (slower.value - slower.from_zero) <
                burst.own_u / (burst.value - burst.from_zero));
    /* Half the resistance: cooler by less than half, since switching stays. */
    state(&stated, PARE_SPEC_RESISTANCE, board.on_ohm / 2, 0.2);
    const pare_margin cooler = fixture_margin(f, "esc.heat");
    const double was_k = settled.value - settled.from_zero;
    const double is_k = cooler.value - cooler.from_zero;
    assert_true(is_k < 0.95 * was_k && is_k > 0.5 * was_k);
    assert_true(cooler.own_u / is_k < settled.own_u / was_k);
    /* What the estimate says, stated: the same heat, better known. */
    state(&stated, PARE_SPEC_RESISTANCE, board.on_ohm, 0.2);
    assert_near(fixture_margin(f, "esc.heat").value, settled.value, 1e-9);
    assert_true(fixture_margin(f, "esc.heat").own_u < settled.own_u);
}

static void an_escs_uncertainty_grows_with_the_currents(void **state)
{
    fixture *f = *state;
    take(f, "hedgerow");
    const pare_margin heat = fixture_margin(f, "esc.heat");
    const double air = f->sheet->rig.air.temperature_degc;
    const pare_sheet_figure *rms = &f->sheet->figure[PARE_FLOWN_MOTOR_A];
    assert_within(heat.own_u, 0.45 * (heat.value - air), 1e-9);
    /* Heat goes with the current, at least as much and at most twice. */
    const double by_current = sqrt(heat.value_u * heat.value_u - heat.own_u * heat.own_u);
    assert_between(by_current / (heat.value - air) / (rms->u / rms->value), 0.8, 2.2);
}

static void without_its_capacitor_the_esc_sees_higher_volts(void **state)
{
    fixture *f = *state;
    take(f, "bodkin");
    const pare_margin with = fixture_margin(f, "esc.spike");
    assert_non_null(pare_sheet_margin(f->sheet, "capacitor.spike"));
    const double full_v = 6 * 4.2;
    assert_true(with.value > full_v);
    doing(f, PARE_CAPACITOR)->off = true;
    const pare_margin without = fixture_margin(f, "esc.spike");
    assert_null(pare_sheet_margin(f->sheet, "capacitor.spike"));
    assert_true(without.value > with.value + 2);
    pare_run *lead = &f->craft->run[pare_craft_run(f->craft, "lead")];
    lead->way_m[0] = lead->way_m[1] = 0.3;
    const pare_margin longer = fixture_margin(f, "esc.spike");
    assert_true(longer.value > without.value + 0.3);
    assert_true(longer.ratio < without.ratio && longer.chance < without.chance);
}

static void a_lesser_capacitor_is_held_to_its_own_volts(void **state)
{
    fixture *f = *state;
    take(f, "bodkin");
    put(f, PARE_CAPACITOR, "cp-25-470");
    const pare_margin small = fixture_margin(f, "capacitor.spike");
    assert_true(small.ratio < 1 && small.limit == 25);
    put(f, PARE_CAPACITOR, "cp-50-470");
    assert_true(fixture_margin(f, "capacitor.spike").ratio > 1.5);
}

static void a_connector_is_hotter_than_the_wire_that_enters_it(void **state)
{
    fixture *f = *state;
    take(f, "hedgerow");
    const pare_margin settled = fixture_margin(f, "connector.heat");
    const double wire = pare_sheet_margin(f->sheet, "wire_joint.lead")->value;
    const pare_margin burst = *pare_sheet_margin(f->sheet, "connector.heat_burst");
    assert_true(settled.value > wire && settled.value < wire + 30);
    assert_true(burst.value > settled.value + 20);
    assert_true(burst.own_u > 0);
    /* On thinner wire it is hotter, burst or not. */
    f->craft->run[pare_craft_run(f->craft, "lead")].gauge = 16;
    f->craft->run[pare_craft_run(f->craft, "lead")].outer_m = 0;
    assert_true(fixture_margin(f, "connector.heat").value > settled.value + 5);
    assert_true(fixture_margin(f, "connector.heat_burst").value > burst.value + 20);
}

static void a_class_of_connector_stands_in_for_what_its_maker_does_not_state(void **state)
{
    fixture *f = *state;
    take(f, "hedgerow");
    pare_part plain = *pare_bench_part(f->bench, "co-30");
    plain.spec[PARE_SPEC_CONTINUOUS] = plain.spec[PARE_SPEC_BURST] = (pare_value){0};
    doing(f, PARE_CONNECTOR)->part = &plain;
    assert_near(fixture_margin(f, "connector.continuous").limit, 30, 1e-12);
    /* The small classes carry 100 A for seconds: common practice, no source. */
    const pare_margin burst = fixture_margin(f, "connector.burst");
    assert_near(burst.limit, 100, 1e-12);
    assert_near(burst.value, f->sheet->figure[PARE_FULL_A].value, 0);
    assert_true(burst.ratio < 1);
}

static void a_connectors_contacts_are_in_the_packs_path(void **state)
{
    fixture *f = *state;
    take(f, "hedgerow");
    fixture_margin(f, "pack.sag");
    const double before = f->sheet->rig.pack.lead_ohm;
    pare_part bad = *doing(f, PARE_CONNECTOR)->part;
    bad.spec[PARE_SPEC_RESISTANCE].value += 5e-3;
    doing(f, PARE_CONNECTOR)->part = &bad;
    fixture_margin(f, "pack.sag");
    assert_near(f->sheet->rig.pack.lead_ohm - before, 5e-3, 1e-12);
}

static void a_cells_volts_are_those_of_the_flight(void **state)
{
    fixture *f = *state;
    take(f, "hedgerow");
    const pare_margin sag = fixture_margin(f, "pack.sag");
    const pare_margin landing = *pare_sheet_margin(f->sheet, "pack.landing");
    pare_operating full;
    assert_int_equal(pare_rig_full(&f->sheet->rig, PARE_CHARGE_HALF, 0.3, 0, 0, 0, &full, NULL),
                     PARE_OK);
    assert_within(sag.value, full.pack_v / 4, 1e-9);
    /* The hardest entry, flown at the charge that the flight ends with. */
    const pare_flown *flown;
    const size_t entries = pare_brief_flown(&f->craft->brief, &flown);
    const pare_landing when = pare_brief_landing(&f->craft->brief, f->sheet->rig.pack.chemistry);
    pare_endurance endured;
    assert_int_equal(pare_rig_endure(&f->sheet->rig, entries, flown, &when, &endured, NULL),
                     PARE_OK);
    double least = HUGE_VAL;
    for (size_t i = 0; i < entries; i++) {
        pare_operating point;
        const pare_status status =
            flown[i].as == PARE_FLOWN_SPEED
                ? pare_rig_level(&f->sheet->rig, flown[i].level, endured.charge_end, &point, NULL)
                : pare_rig_thrust(&f->sheet->rig, flown[i].level, endured.charge_end, &point, NULL);
        assert_int_equal(status, PARE_OK);
        least = fmin(least, point.pack_v / 4);
    }
    assert_within(landing.value, least, 0.005);
}

static void a_held_burst_heats_winding_and_stator(void **state)
{
    fixture *f = *state;
    take(f, "hedgerow");
    const pare_margin burst = fixture_margin(f, "motor.winding_burst");
    const double flown = pare_sheet_margin(f->sheet, "motor.winding")->value;
    const double full_a = f->sheet->figure[PARE_MOTOR_FULL_A].value;
    const pare_part *motor = doing(f, PARE_MOTOR)->part;
    /* I^2 R t over two fifths of the mass at 420 J/(kg K), the copper's own warming left out. */
    const double cold = full_a * full_a * motor->spec[PARE_SPEC_RESISTANCE].value *
                        (1 + 0.00393 * (flown - 20)) * 3 / (0.4 * motor->mass_kg.value * 420);
    assert_between(burst.value - flown, cold, 1.4 * cold);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(smaller_boards_leave_smaller_margins, setup, fixture_close),
        cmocka_unit_test_setup_teardown(a_boards_label_does_not_cool_it, setup, fixture_close),
        cmocka_unit_test_setup_teardown(what_an_escs_maker_states_goes_before_the_estimate, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(an_escs_uncertainty_grows_with_the_currents, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(without_its_capacitor_the_esc_sees_higher_volts, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(a_lesser_capacitor_is_held_to_its_own_volts, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(a_connector_is_hotter_than_the_wire_that_enters_it, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(
            a_class_of_connector_stands_in_for_what_its_maker_does_not_state, setup, fixture_close),
        cmocka_unit_test_setup_teardown(a_connectors_contacts_are_in_the_packs_path, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(a_cells_volts_are_those_of_the_flight, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(a_held_burst_heats_winding_and_stator, setup,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
