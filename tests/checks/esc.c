/* rooms: physics base */
/* Heat of an ESC's board and of a connector: textbook convection, balances, and closed forms. */
#include <math.h>
#include <string.h>

#include "near.h"

#include "physics/contact.h"
#include "physics/esc_heat.h"
#include "physics/wire.h"
#include "physics/wire_heat.h"

static pare_board board_of(double rated_a, double grams)
{
    pare_board board;
    assert_int_equal(pare_board_estimate(4, rated_a, 1e-3 * grams, &board, NULL), PARE_OK);
    return board;
}

static void a_plate_in_a_flow_loses_heat_as_in_a_textbook(void **state)
{
    (void)state;
    /* Incropera et al., 7th ed., example 7.1 (from memory): air of 300 degC and 6 kN/m2 at 10 m/s along
     * a plate of 0.5 m at 27 degC: Re 9597, Nu 57.4, h 4.18 W/(m2 K). */
    assert_within(pare_plate_convection(0.5, 27, 300, 6000, 10), 4.18, 0.02);
}

static void a_level_plate_in_still_air_loses_heat_as_in_a_textbook(void **state)
{
    (void)state;
    /* The correlations by hand for a square of 0.4 m at 65 degC in 25 degC: length 0.1 m, film 318 K
     * (nu 17.4e-6, alpha 24.7e-6, k 0.0276, from tables): Ra = 9.81/318 x 40 x 0.001 / (nu alpha)
     * = 2.87e6, half of 0.54 + 0.27 times its fourth root = 16.7, h 4.60. */
    assert_within(pare_plate_convection(0.4, 65, 25, 101325, 0), 4.60, 0.03);
}

static void a_settled_board_gives_off_what_it_loses(void **state)
{
    (void)state;
    const pare_board board = board_of(45, 11.3);
    const pare_board_load load = {20, 15, 25, 101325, 5};
    pare_board_heat heat;
    assert_int_equal(pare_board_steady(&board, &load, &heat, NULL), PARE_OK);
    assert_within(pare_board_loss_w(&board, &load, heat.degc), heat.loss_w, 1e-9);
    const double h = pare_plate_convection(board.long_m, heat.degc, 25, 101325, 5);
    const double off =
        board.area_m2 * (h * (heat.degc - 25) +
                         0.9 * 5.670374419e-8 * (pow(heat.degc + 273.15, 4) - pow(298.15, 4)));
    assert_within(off, heat.loss_w, 1e-6);
    double later;
    assert_int_equal(pare_board_after(&board, &load, 25, 3600, &later, NULL), PARE_OK);
    assert_near(later, heat.degc, 0.05);
}

static void a_short_burst_keeps_its_heat_in_the_board(void **state)
{
    (void)state;
    /* P t / C, at first (adiabatic heating). */
    const pare_board board = board_of(45, 11.3);
    const pare_board_load load = {60, 15, 25, 101325, 5};
    double after;
    assert_int_equal(pare_board_after(&board, &load, 25, 0.05, &after, NULL), PARE_OK);
    assert_within(after - 25, pare_board_loss_w(&board, &load, 25) * 0.05 / board.heat_j_k, 2e-3);
}

static void conduction_is_the_current_squared_and_the_rest_goes_with_it(void **state)
{
    (void)state;
    pare_board board = board_of(40, 10);
    /* 3 mohm at 40 A: common practice, no source. */
    assert_near(board.on_ohm, 0.003, 1e-12);
    const pare_board_load still = {0, 16, 25, 101325, 0}, runs = {30, 16, 25, 101325, 0};
    assert_near(pare_board_loss_w(&board, &still, 25), 4 * 16 * board.idle_a, 1e-12);
    assert_near(pare_board_loss_w(&board, &runs, 25),
                4 * (30 * 30 * 0.003 + 16 * (30 * board.switched + board.idle_a)), 1e-9);
    /* Silicon 100 K hotter resists half as much again. */
    assert_near(pare_board_loss_w(&board, &runs, 125) - pare_board_loss_w(&board, &runs, 25),
                4 * 30 * 30 * 0.003 * 0.5, 1e-9);
}

static void heavier_boards_and_more_air_stay_cooler(void **state)
{
    (void)state;
    const pare_board large = board_of(60, 15.4), small = board_of(30, 7.1);
    pare_board_load load = {20, 15, 25, 101325, 4};
    pare_board_heat of_large, of_small, windy;
    assert_int_equal(pare_board_steady(&large, &load, &of_large, NULL), PARE_OK);
    assert_int_equal(pare_board_steady(&small, &load, &of_small, NULL), PARE_OK);
    assert_true(of_large.degc < of_small.degc - 10);
    load.flow_m_s = 12;
    assert_int_equal(pare_board_steady(&small, &load, &windy, NULL), PARE_OK);
    assert_true(windy.degc < of_small.degc - 10);
    double quick, slow;
    load.current_a = 60;
    assert_int_equal(pare_board_until(&small, &load, 40, 110, &quick, NULL), PARE_OK);
    assert_int_equal(pare_board_until(&large, &load, 40, 110, &slow, NULL), PARE_OK);
    assert_true(quick > 0 && quick < slow);
    load.current_a = 1;
    assert_int_equal(pare_board_until(&small, &load, 40, 110, &quick, NULL), PARE_OK);
    assert_true(isinf(quick));
}

static void a_board_reaches_what_it_can_be_asked_for_and_no_more(void **state)
{
    (void)state;
    const pare_board board = board_of(20, 2);
    const pare_board_load load = {300, 25, 25, 101325, 0};
    pare_error err;
    double most, less;
    assert_int_equal(pare_board_until(&board, &load, 25, 1000, &most, &err), PARE_OK);
    assert_int_equal(pare_board_until(&board, &load, 25, 999, &less, &err), PARE_OK);
    assert_true(isfinite(most) && less < most);
    assert_int_equal(pare_board_until(&board, &load, 25, 1000.5, &most, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "limit in degC"));
    assert_non_null(strstr(err.text, "at most 1000"));
    assert_int_equal(pare_board_until(&board, &load, -60.5, 100, &most, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "-60 to 1000"));
    /* Where it is there already, no time passes. */
    assert_int_equal(pare_board_until(&board, &load, 1000, 1000, &most, &err), PARE_OK);
    assert_near(most, 0, 0);
}

static void a_board_that_no_air_saves_burns(void **state)
{
    (void)state;
    const pare_board board = board_of(20, 2);
    const pare_board_load load = {300, 25, 25, 101325, 0};
    pare_board_heat heat;
    pare_error err;
    assert_int_equal(pare_board_steady(&board, &load, &heat, &err), PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "300 A a motor burns it: a larger board, less current or more air "
                        "would be right");
    double after;
    assert_int_equal(pare_board_after(&board, &load, 25, 600, &after, NULL), PARE_OK);
    assert_true(after <= 1000);
}

static void boards_that_cannot_be_are_refused(void **state)
{
    (void)state;
    pare_board board;
    pare_error err;
    assert_int_equal(pare_board_estimate(0, 30, 0.01, &board, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "motors on one board 0: 1 to 8 would be right");
    assert_int_equal(pare_board_estimate(4, (double)NAN, 0.01, &board, &err), PARE_BAD_DATA);
    assert_int_equal(pare_board_estimate(4, 30, 0, &board, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "board mass in g 0: 0.1 to 1000 would be right");
    board = board_of(30, 7);
    const pare_board_load right = {20, 15, 25, 101325, 4};
    pare_board_load wrong = right;
    pare_board_heat heat;
    wrong.ambient_degc = -300;
    assert_int_equal(pare_board_steady(&board, &wrong, &heat, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "air temperature in degC -300: -60 to 100 would be right");
    wrong = right;
    wrong.current_a = -1;
    assert_int_equal(pare_board_steady(&board, &wrong, &heat, &err), PARE_BAD_DATA);
    double out;
    assert_int_equal(pare_board_after(&board, &right, 25, -1, &out, &err), PARE_BAD_DATA);
}

static void a_fin_takes_what_the_textbook_says(void **state)
{
    (void)state;
    /* Incropera et al., 7th ed., example 3.9 (from memory): a copper rod of 5 mm, k 398, h 100, very
     * long, 75 K over the air loses 8.3 W. One wire of such a size: gauge where d is 5 mm. */
    const double gauge = 36 - 39 * log(5e-3 / 0.127e-3) / log(92);
    const pare_contact contact = {.ohm = 1,
                                  .mass_kg = 1,
                                  .gauge = gauge,
                                  .wires = 1,
                                  .gives_w_m_k = 100 * 3.14159265358979 * 5e-3};
    assert_within(pare_contact_over_k(&contact, sqrt(8.3)), 75, 0.01);
}

static void a_connector_on_thin_wire_is_hotter_than_on_thick(void **state)
{
    (void)state;
    pare_contact contact = {.ohm = 1.2e-3, .mass_kg = 7e-3, .gauge = 12, .wires = 4};
    double over[2];
    static const double gauge[2] = {12, 16};
    for (int i = 0; i < 2; i++) {
        pare_wire_load load = pare_wire_load_defaults();
        load.gauge = gauge[i];
        load.current_a = 30;
        pare_wire_heat heat;
        assert_int_equal(pare_wire_steady(&load, &heat, NULL), PARE_OK);
        contact.gauge = gauge[i];
        contact.gives_w_m_k = 30 * 30 * pare_wire_ohm_per_m(gauge[i], heat.conductor_degc) /
                              (heat.conductor_degc - 25);
        over[i] = pare_contact_over_k(&contact, 30);
    }
    assert_true(over[0] > 2 && over[1] > 1.3 * over[0] && over[1] < 60);
    /* At first I^2 R t over the heat of 3.5 g of copper, and less the longer it lasts. */
    const double adiabatic = 120.0 * 120 * 1.2e-3 / (3.5e-3 * 385);
    assert_within(pare_contact_burst_k(&contact, 120, 1e-6, 0), adiabatic * 1e-6, 1e-3);
    assert_between(pare_contact_burst_k(&contact, 120, 3, 0), 0.5 * adiabatic * 3,
                   0.95 * adiabatic * 3);
    /* Between wires that warm by themselves, contacts without resistance stay behind. */
    contact.ohm = 0;
    assert_between(pare_contact_burst_k(&contact, 120, 3, 100), -100, -50);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_plate_in_a_flow_loses_heat_as_in_a_textbook),
        cmocka_unit_test(a_level_plate_in_still_air_loses_heat_as_in_a_textbook),
        cmocka_unit_test(a_settled_board_gives_off_what_it_loses),
        cmocka_unit_test(a_short_burst_keeps_its_heat_in_the_board),
        cmocka_unit_test(conduction_is_the_current_squared_and_the_rest_goes_with_it),
        cmocka_unit_test(heavier_boards_and_more_air_stay_cooler),
        cmocka_unit_test(a_board_reaches_what_it_can_be_asked_for_and_no_more),
        cmocka_unit_test(a_board_that_no_air_saves_burns),
        cmocka_unit_test(boards_that_cannot_be_are_refused),
        cmocka_unit_test(a_fin_takes_what_the_textbook_says),
        cmocka_unit_test(a_connector_on_thin_wire_is_hotter_than_on_thick),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
