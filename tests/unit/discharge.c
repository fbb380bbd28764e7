/* rooms: physics base */
/* A pack drained by a constant current: laws that hold for any constants, and what is refused. */
#include <math.h>
#include <string.h>

#include "near.h"
#include "physics/discharge.h"

static pare_pack six_cells(void)
{
    return (pare_pack){.chemistry = PARE_LIPO,
                       .cells = 6,
                       .capacity_c = 1.3 * 3600,
                       .temperature_degc = 20,
                       .resistance_factor = 1,
                       .lead_ohm = 0.004};
}

static void kept_cool_it_is_the_packs_own_law(void **state)
{
    (void)state;
    const pare_pack pack = six_cells();
    const pare_drain drain = {.current_a = 20, .from = 1, .warms = false};
    pare_drained at;
    for (double charge = 1; charge >= 0; charge -= 0.125) {
        assert_int_equal(pare_pack_drain(&pack, &drain, charge, &at, NULL), PARE_OK);
        const double time_s = (1 - charge) * pack.capacity_c / 20;
        const double ohm = pare_pack_ohm(&pack, charge, pare_pack_steady(&pack, time_s));
        assert_within(at.time_s + 1, time_s + 1, 1e-12);
        assert_within(at.ohm, ohm, 1e-12);
        assert_within(at.volts_v, pare_pack_open_v(&pack, charge) - 20 * ohm, 1e-12);
        assert_near(at.degc, 20, 0);
    }
}

/* Without cooling all heat stays: the cells' warmth is the integral of I^2 R over their heat capacity. */
static void without_cooling_all_heat_stays(void **state)
{
    (void)state;
    pare_cell cell = pare_cells_fitted[PARE_LIPO];
    cell.cooling_s = 1e12;
    pare_pack pack = six_cells();
    pack.cell = &cell;
    pack.lead_ohm = 0;
    const pare_drain drain = {.current_a = 20, .from = 1, .warms = true};
    double heat_j = 0;
    pare_drained at;
    for (int i = 0; i < 800; i++) {
        assert_int_equal(pare_pack_drain(&pack, &drain, 1 - (i + 0.5) / 1000, &at, NULL), PARE_OK);
        heat_j += 20 * 20 * at.ohm * pack.capacity_c / 20 / 1000;
    }
    assert_int_equal(pare_pack_drain(&pack, &drain, 0.2, &at, NULL), PARE_OK);
    const double heat_j_per_k = 6 * 1.3 * cell.heat_j_per_k_ah;
    assert_within(at.degc - 20, heat_j / heat_j_per_k, 0.01);
}

static void more_current_is_warmer_lower_and_ends_sooner(void **state)
{
    (void)state;
    for (int kind = 0; kind < PARE_CHEMISTRIES; kind++) {
        pare_pack pack = six_cells();
        pack.chemistry = (pare_chemistry)kind;
        double was_v = 100, was_degc = 0, was_charge = -1;
        for (double rate = 0.5; rate < 4; rate += 0.5) {
            const pare_drain drain = {.current_a = rate * 1.3, .from = 1, .warms = true};
            pare_drained at;
            double charge;
            assert_int_equal(pare_pack_drain(&pack, &drain, 0.4, &at, NULL), PARE_OK);
            assert_int_equal(pare_pack_drain_to(&pack, &drain, 3.3, &charge, NULL), PARE_OK);
            assert_true(at.volts_v < was_v && at.degc > was_degc && charge > was_charge);
            was_v = at.volts_v;
            was_degc = at.degc;
            was_charge = charge;
        }
    }
}

static void it_ends_where_its_volts_are_those_asked_for(void **state)
{
    (void)state;
    const pare_pack pack = six_cells();
    const pare_drain drain = {.current_a = 26, .from = 0.9, .warms = true};
    double charge;
    pare_drained at;
    assert_int_equal(pare_pack_drain_to(&pack, &drain, 3.5, &charge, NULL), PARE_OK);
    assert_int_equal(pare_pack_drain(&pack, &drain, charge, &at, NULL), PARE_OK);
    assert_near(at.volts_v / 6, 3.5, 1e-3);
    /* it never falls so low: all is drawn */
    assert_int_equal(pare_pack_drain_to(&pack, &drain, 0.5, &charge, NULL), PARE_OK);
    assert_near(charge, 0, 0);
}

static void refusals_say_what_would_be_right(void **state)
{
    (void)state;
    const pare_pack pack = six_cells();
    pare_drained at = {.volts_v = 7};
    double charge = 7;
    pare_error err;
    const struct {
        pare_drain drain;
        double charge;
        const char *text;
    } row[] = {
        {{0, 1, true}, 0.5, "a current of 0 A: 1e-06 to 100000 A would be right"},
        {{(double)NAN, 1, true}, 0.5, "a current of nan A: 1e-06 to 100000 A would be right"},
        {{5, 1.5, true},
         0.5,
         "a discharge from a charge of 1.5: more than 0, to 1, would be right"},
        {{5, 0.4, true}, 0.5, "down to a charge of 0.5: 0 to 0.4 would be right"},
        {{5, 1, true}, (double)NAN, "down to a charge of nan: 0 to 1 would be right"},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        assert_int_equal(pare_pack_drain(&pack, &row[i].drain, row[i].charge, &at, &err),
                         PARE_BAD_DATA);
        assert_string_equal(err.text, row[i].text);
        assert_near(at.volts_v, 7, 0);
    }
    const pare_drain hard = {500, 1, true};
    assert_int_equal(pare_pack_drain_to(&pack, &hard, 3.5, &charge, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "at the start, which is not over 3.5 V"));
    assert_int_equal(pare_pack_drain_to(&pack, &hard, 0, &charge, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "down to 0 V a cell: more than 0, to 10, would be right");
    assert_near(charge, 7, 0);
}

/* A current far past any cell: numbers stay numbers, however wrong the question. */
static void hostile_currents_stay_finite(void **state)
{
    (void)state;
    const pare_pack pack = six_cells();
    const double amps[] = {1e-6, 1, 1e3, 1e5};
    for (int i = 0; i < 4; i++) {
        const pare_drain drain = {amps[i], 1, true};
        pare_drained at;
        assert_int_equal(pare_pack_drain(&pack, &drain, 0, &at, NULL), PARE_OK);
        assert_true(isfinite(at.volts_v) && isfinite(at.degc) && at.ohm > 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kept_cool_it_is_the_packs_own_law),
        cmocka_unit_test(without_cooling_all_heat_stays),
        cmocka_unit_test(more_current_is_warmer_lower_and_ends_sooner),
        cmocka_unit_test(it_ends_where_its_volts_are_those_asked_for),
        cmocka_unit_test(refusals_say_what_would_be_right),
        cmocka_unit_test(hostile_currents_stay_finite),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
