/* rooms: physics base */
/* Questions of a whole rig that have no answer: each is refused in words that say what was asked and what would be
 * right, from both sides of every range. Then limits on which the answer is known: what grows without end, a turn
 * with no drag, and how uneven rotors may carry. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"
#include "physics/aloft.h"
#include "physics/each.h"
#include "physics/operate.h"
#include "physics/share.h"
#include "published_props.h"

static pare_prop prop;
static pare_prop_table table;

static int build_table(void **state)
{
    (void)state;
    const pare_prop_size size = {.diameter_m = 0.12954, .pitch_m = 0.10922, .blades = 3};
    if (pare_prop_from_size(&size, &published_family, &prop, NULL) != PARE_OK)
        return -1;
    pare_prop_table_build(&prop, &table);
    return 0;
}

static pare_rig five_inch(void)
{
    pare_rig rig;
    pare_rig_defaults(&rig);
    rig.mass_kg = 0.68;
    rig.rotor.prop = &prop;
    rig.rotor.table = &table;
    rig.motor.kv_rpm_per_v = 1950;
    rig.motor.resistance_ohm = 0.065;
    rig.motor.no_load_a = 1.2;
    rig.motor.mass_kg = 0.033;
    rig.pack.cells = 6;
    rig.pack.capacity_c = 1.3 * 3600;
    rig.pack.mass_kg = 0.21;
    rig.air = (pare_air){.temperature_degc = 15,
                         .pressure_pa = 101325,
                         .density_kg_m3 = 1.225,
                         .viscosity_pa_s = 1.789e-5,
                         .sound_m_s = 340.3};
    rig.drag_m2 = 0.008;
    rig.drag_top_m2 = 0.016;
    rig.always_w = 4;
    rig.spin_kg_m2 = 7e-6;
    rig.inertia_xx_kg_m2 = 0.0025;
    rig.inertia_yy_kg_m2 = 0.003;
    rig.inertia_zz_kg_m2 = 0.005;
    rig.sum_x_m = rig.sum_y_m = 0.32;
    return rig;
}

static const pare_landing product = {3.5, 0.2};

/* A call whose last argument is err, and what it must say. */
#define refuses(call, says)                                                                        \
    do {                                                                                           \
        pare_error why_ = {PARE_OK, ""};                                                           \
        pare_error *const err = &why_;                                                             \
        if ((call) != PARE_BAD_DATA || strcmp(why_.text, (says)) != 0)                             \
            fail_msg("%s: '%s'", #call, why_.text);                                                \
    } while (0)

/* ---- charges and speeds: every figure that takes one ---- */

static pare_status ask_thrust(const pare_rig *rig, double charge, pare_error *err)
{
    pare_operating p;
    return pare_rig_thrust(rig, 1, charge, &p, err);
}

static pare_status ask_level(const pare_rig *rig, double charge, pare_error *err)
{
    pare_operating p;
    return pare_rig_level(rig, 5, charge, &p, err);
}

static pare_status ask_full(const pare_rig *rig, double charge, pare_error *err)
{
    pare_operating p;
    return pare_rig_full(rig, charge, 0.3, 0, 0, 0, &p, err);
}

static pare_status ask_burst(const pare_rig *rig, double charge, pare_error *err)
{
    pare_burst b;
    return pare_rig_burst(rig, 30, charge, 0, &b, err);
}

static pare_status ask_quickness(const pare_rig *rig, double charge, pare_error *err)
{
    pare_quickness q;
    return pare_rig_quickness(rig, charge, &q, err);
}

static pare_status ask_turn(const pare_rig *rig, double charge, pare_error *err)
{
    pare_turn t;
    return pare_rig_turn(rig, 12, charge, &t, err);
}

static pare_status ask_climb(const pare_rig *rig, double charge, pare_error *err)
{
    double m_s;
    return pare_rig_climb(rig, charge, &m_s, err);
}

static pare_status ask_dash(const pare_rig *rig, double charge, pare_error *err)
{
    double m_s2;
    return pare_rig_dash(rig, 12, charge, &m_s2, err);
}

static pare_status ask_top_speed(const pare_rig *rig, double charge, pare_error *err)
{
    double m_s;
    return pare_rig_top_speed(rig, charge, &m_s, err);
}

static pare_status ask_each(const pare_rig *rig, double charge, pare_error *err)
{
    const double share[] = {0.25, 0.25, 0.25, 0.25};
    pare_each each[PARE_SHARES];
    double pack_a;
    return pare_rig_each(rig, share, charge, each, &pack_a, err);
}

static void no_figure_has_a_charge_below_empty_or_over_full(void **state)
{
    (void)state;
    static pare_status (*const asks[])(const pare_rig *, double, pare_error *) = {
        ask_thrust, ask_level, ask_full, ask_burst,     ask_quickness,
        ask_turn,   ask_climb, ask_dash, ask_top_speed, ask_each};
    const pare_rig rig = five_inch();
    for (size_t i = 0; i < sizeof asks / sizeof asks[0]; i++) {
        refuses(asks[i](&rig, -0.1, err), "the charge is -0.1: 0 to 1 would be right");
        refuses(asks[i](&rig, 1.5, err), "the charge is 1.5: 0 to 1 would be right");
        refuses(asks[i](&rig, (double)NAN, err), "the charge is nan: 0 to 1 would be right");
        pare_error why = {PARE_OK, ""};
        if (asks[i](&rig, 0.8, &why) != PARE_OK)
            fail_msg("question %zu: %s", i, why.text);
    }
}

static void speeds_are_neither_backwards_nor_beyond_sound(void **state)
{
    (void)state;
    const pare_rig rig = five_inch();
    pare_operating p;
    pare_turn t;
    double x;
    static const struct {
        double m_s;
        const char *says;
    } bad[] = {{-1, "a speed of -1 m/s: 0 to 340 m/s would be right"},
               {341, "a speed of 341 m/s: 0 to 340 m/s would be right"}};
    for (size_t i = 0; i < 2; i++) {
        refuses(pare_rig_level(&rig, bad[i].m_s, 0.8, &p, err), bad[i].says);
        refuses(pare_rig_turn(&rig, bad[i].m_s, 0.8, &t, err), bad[i].says);
        refuses(pare_rig_dash(&rig, bad[i].m_s, 0.8, &x, err), bad[i].says);
        refuses(pare_rig_full(&rig, 0.8, 0, 0, 0, bad[i].m_s, &p, err), bad[i].says);
    }
    refuses(pare_rig_full(&rig, 0.8, 0, 0, -400, 0, &p, err),
            "a climb of -400 m/s: 340 m/s up or down is the most");
    refuses(pare_rig_turn(&rig, 0.0005, 0.8, &t, err),
            "a turn at 0.0005 m/s: it needs a speed, of 0.001 m/s or more");
}

static void shares_of_heat_and_time_lie_between_none_and_all(void **state)
{
    (void)state;
    const pare_rig rig = five_inch();
    pare_operating p;
    refuses(pare_rig_full(&rig, 0.8, -0.1, 0, 0, 0, &p, err),
            "heat -0.1 and steadiness 0: each 0 to 1 would be right");
    refuses(pare_rig_full(&rig, 0.8, 1.1, 0, 0, 0, &p, err),
            "heat 1.1 and steadiness 0: each 0 to 1 would be right");
    refuses(pare_rig_full(&rig, 0.8, 0, -0.1, 0, 0, &p, err),
            "heat 0 and steadiness -0.1: each 0 to 1 would be right");
    refuses(pare_rig_full(&rig, 0.8, 0, 1.1, 0, 0, &p, err),
            "heat 0 and steadiness 1.1: each 0 to 1 would be right");
}

static void a_burst_has_a_height_and_steps_that_can_be(void **state)
{
    (void)state;
    const pare_rig rig = five_inch();
    pare_burst b;
    refuses(pare_rig_burst(&rig, 0, 1, 0, &b, err),
            "a burst of 0 m: more than 0, to 10000 m, would be right");
    refuses(pare_rig_burst(&rig, 10001, 1, 0, &b, err),
            "a burst of 10001 m: more than 0, to 10000 m, would be right");
    pare_error why;
    assert_int_equal(pare_rig_burst(&rig, 30, 1, 1e-9, &b, &why), PARE_BAD_DATA);
    assert_non_null(strstr(why.text, "burst steps of 1e-09 s: "));
    assert_int_equal(pare_rig_burst(&rig, 30, 1, 1, &b, &why), PARE_BAD_DATA);
    assert_non_null(strstr(why.text, "burst steps of 1 s: "));
    pare_rig light = rig;
    light.spin_kg_m2 = 0;
    refuses(pare_rig_burst(&light, 30, 1, 0, &b, err),
            "a rotor's inertia is 0 kg m2: more than 0, to 10, would be right");
    light.spin_kg_m2 = 11;
    refuses(pare_rig_burst(&light, 30, 1, 0, &b, err),
            "a rotor's inertia is 11 kg m2: more than 0, to 10, would be right");
}

/* ---- ways of flying ---- */

static void ways_of_flying_are_some_and_possible(void **state)
{
    (void)state;
    const pare_rig rig = five_inch();
    pare_endurance e;
    pare_best_range r;
    pare_flown many[400];
    for (size_t i = 0; i < 400; i++)
        many[i] = (pare_flown){PARE_FLOWN_THRUST, 1.0 / 400, 1};
    pare_error why;
    assert_int_equal(pare_rig_endure(&rig, 0, many, &product, &e, &why), PARE_BAD_DATA);
    assert_int_equal(strncmp(why.text, "0 ways of flying: 1 to ", 23), 0);
    assert_int_equal(pare_rig_endure(&rig, 400, many, &product, &e, &why), PARE_BAD_DATA);
    assert_int_equal(strncmp(why.text, "400 ways of flying: 1 to ", 25), 0);
    static const struct {
        pare_flown flown;
        const char *says;
    } bad[] = {
        {{PARE_FLOWN_THRUST, -0.5, 1}, "share 1 of the flight is -0.5: 0 to 1 would be right"},
        {{PARE_FLOWN_THRUST, 1.5, 1}, "share 1 of the flight is 1.5: 0 to 1 would be right"},
        {{PARE_FLOWN_SPEED, 1, -2},
         "way of flying 1 is at -2: a speed of 0 to 340 m/s or a thrust of more than 0, to 1000 "
         "weights, would be right"},
        {{PARE_FLOWN_SPEED, 1, 350},
         "way of flying 1 is at 350: a speed of 0 to 340 m/s or a thrust of more than 0, to 1000 "
         "weights, would be right"},
        {{PARE_FLOWN_THRUST, 1, 0},
         "way of flying 1 is at 0: a speed of 0 to 340 m/s or a thrust of more than 0, to 1000 "
         "weights, would be right"},
        {{PARE_FLOWN_THRUST, 1, 1001},
         "way of flying 1 is at 1001: a speed of 0 to 340 m/s or a thrust of more than 0, to 1000 "
         "weights, would be right"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        refuses(pare_rig_endure(&rig, 1, &bad[i].flown, &product, &e, err), bad[i].says);
    static const struct {
        pare_landing landing;
        const char *says;
    } low[] = {
        {{0, 0.2}, "landing at 0 V a cell: more than 0, to 10 V, would be right"},
        {{11, 0.2}, "landing at 11 V a cell: more than 0, to 10 V, would be right"},
        {{3.5, -0.1}, "landing with a charge of -0.1 left: 0 to less than 1 would be right"},
        {{3.5, 1}, "landing with a charge of 1 left: 0 to less than 1 would be right"},
    };
    const pare_flown hover = {PARE_FLOWN_THRUST, 1, 1};
    pare_growth g;
    for (size_t i = 0; i < sizeof low / sizeof low[0]; i++) {
        refuses(pare_rig_endure(&rig, 1, &hover, &low[i].landing, &e, err), low[i].says);
        refuses(pare_rig_best_range(&rig, &low[i].landing, &r, err), low[i].says);
        refuses(pare_rig_growth(&rig, &low[i].landing, &g, err), low[i].says);
    }
    /* No propeller of 130 mm pushes with a thousand times this craft's weight below sound at its tips. */
    const pare_flown strong = {PARE_FLOWN_THRUST, 1, 1000};
    assert_int_equal(pare_rig_endure(&rig, 1, &strong, &product, &e, &why), PARE_BAD_DATA);
    assert_non_null(strstr(why.text, "the most before its tips reach the speed of sound"));
}

/* ---- rotors that carry unevenly ---- */

/* The heaviest that hovers with rotors up to u over and under the mean, whatever motors and pack would say. */
static double heaviest_kg(double uneven)
{
    double low = 0.1, high = 100;
    for (int i = 0; i < 60; i++) {
        pare_rig rig = five_inch();
        pare_flight flight;
        pare_rotor_state hover;
        rig.mass_kg = (low + high) / 2;
        rig.uneven = uneven;
        assert_int_equal(pare_flight_begin(&rig, &flight, NULL), PARE_OK);
        if (pare_hover(&flight, &hover, NULL) == PARE_OK)
            low = rig.mass_kg;
        else
            high = rig.mass_kg;
    }
    return low;
}

/* The rotor that carries most meets the speed of sound first: a craft whose rotors carry 1 + u and 1 - u of the mean
 * hovers up to 1 / (1 + u) of the mass that it could with like ones. */
static void the_busiest_rotor_sets_the_heaviest_hover(void **state)
{
    (void)state;
    const double even_kg = heaviest_kg(0);
    static const double uneven[] = {0.1, 0.3, 0.5};
    for (size_t i = 0; i < sizeof uneven / sizeof uneven[0]; i++)
        assert_within(heaviest_kg(uneven[i]), even_kg / (1 + uneven[i]), 1e-9);
}

static void each_rotor_must_bear_its_share(void **state)
{
    (void)state;
    const double alone[] = {0.97, 0.01, 0.01, 0.01};
    pare_each each[PARE_SHARES];
    double pack_a, many[PARE_SHARES + 2];
    pare_error why;
    pare_rig rig = five_inch();
    assert_int_equal(pare_rig_each(&rig, alone, 0.8, each, &pack_a, &why), PARE_OK);
    assert_within(each[0].carries_kg, 0.97 * 0.68, 1e-12);
    assert_true(each[0].current_a > 10 * each[1].current_a);
    /* 8 kg on one rotor of five inch are beyond the speed of sound at its tips. */
    rig.mass_kg = 8;
    assert_int_equal(pare_rig_each(&rig, alone, 0.8, each, &pack_a, &why), PARE_BAD_DATA);
    assert_non_null(strstr(why.text, "before its tips reach the speed of sound"));
    rig.motor.mass_kg = 1; /* no winding of that size gets hot */
    for (rig.mass_kg = 0.7;
         rig.mass_kg < 8 && pare_rig_each(&rig, alone, 0.8, each, &pack_a, &why) == PARE_OK;
         rig.mass_kg += 0.05) {
    }
    assert_string_equal(why.text,
                        "motor 1 would need more than full output to hold the balance in hover");
    /* The same copper in a tenth of a gram has next to no surface. */
    rig.motor.mass_kg = 1e-4;
    assert_int_equal(pare_rig_each(&rig, alone, 0.8, each, &pack_a, &why), PARE_BAD_DATA);
    assert_non_null(strstr(why.text, "a motor's winding heats itself without end"));
    rig = five_inch();
    rig.rotors = PARE_SHARES + 2;
    for (size_t i = 0; i < PARE_SHARES + 2; i++)
        many[i] = 1.0 / (PARE_SHARES + 2);
    refuses(pare_rig_each(&rig, many, 0.8, each, &pack_a, err), "18 rotors: 16 is the most");
}

/* ---- growth ---- */

/* What follows a gram is motors and pack: where these are the whole craft and more, each gram brings another and
 * there is no end to it, and where the pack's mass is not known nothing can be said. */
static void growth_without_end_has_no_figure(void **state)
{
    (void)state;
    pare_growth g;
    pare_rig rig = five_inch();
    assert_int_equal(pare_rig_growth(&rig, &product, &g, NULL), PARE_OK);
    assert_true(g.growth > 1);
    rig.motor.mass_kg = 0.2;
    rig.pack.mass_kg = 0.6;
    assert_int_equal(pare_rig_growth(&rig, &product, &g, NULL), PARE_OK);
    assert_near(g.growth, 0, 0);
    rig.pack.mass_kg = 0;
    assert_int_equal(pare_rig_growth(&rig, &product, &g, NULL), PARE_OK);
    assert_near(g.growth, 0, 0);
}

/* It is worked out of a craft a hundredth lighter and one a hundredth heavier: the latter must fly too. */
static void growth_needs_a_heavier_craft_that_flies(void **state)
{
    (void)state;
    pare_growth g;
    pare_endurance e;
    pare_error why;
    const pare_flown hover = {PARE_FLOWN_THRUST, 1, 1};
    double low = 0.68, high = 20;
    for (int i = 0; i < 40; i++) {
        pare_rig rig = five_inch();
        rig.mass_kg = (low + high) / 2;
        if (pare_rig_endure(&rig, 1, &hover, &product, &e, NULL) == PARE_OK)
            low = rig.mass_kg;
        else
            high = rig.mass_kg;
    }
    pare_rig rig = five_inch();
    rig.mass_kg = 0.995 * low;
    assert_int_equal(pare_rig_endure(&rig, 1, &hover, &product, &e, NULL), PARE_OK);
    assert_int_equal(pare_rig_growth(&rig, &product, &g, &why), PARE_BAD_DATA);
    assert_true(why.text[0] != '\0');
    rig.mass_kg = 0.68;
    assert_int_equal(pare_rig_growth(&rig, &product, &g, &why), PARE_OK);
}

/* Winds, outputs and rotors beyond what is asked of any craft. */
static void idling_gusts_and_shares_have_ranges(void **state)
{
    (void)state;
    const pare_rig rig = five_inch();
    pare_flight flight;
    double weights, pushed, share[40];
    pare_vec3 at[40] = {{0, 0, 0}};
    assert_int_equal(pare_flight_begin(&rig, &flight, NULL), PARE_OK);
    refuses(pare_flight_idle(&flight, 1.5, 1, &weights, err),
            "an output of 1.5: more than 0, to 1, would be right");
    refuses(pare_flight_idle(&flight, 0, 1, &weights, err),
            "an output of 0: more than 0, to 1, would be right");
    char says[80];
    snprintf(says, sizeof says, "a wind of %d m/s: 0 to %d m/s would be right", PARE_SPEED_MOST + 1,
             PARE_SPEED_MOST);
    refuses(pare_flight_gust(&flight, PARE_SPEED_MOST + 1, &pushed, err), says);
    refuses(pare_thrust_shares(2, at, 0, 0, share, err), "2 rotors: 3 to 16 would be right");
    refuses(pare_thrust_shares(40, at, 0, 0, share, err), "40 rotors: 3 to 16 would be right");
    at[1].x = HUGE_VAL;
    refuses(pare_thrust_shares(4, at, 0, 0, share, err),
            "the rotors are all in one place: nothing balances");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(idling_gusts_and_shares_have_ranges),
        cmocka_unit_test(no_figure_has_a_charge_below_empty_or_over_full),
        cmocka_unit_test(speeds_are_neither_backwards_nor_beyond_sound),
        cmocka_unit_test(shares_of_heat_and_time_lie_between_none_and_all),
        cmocka_unit_test(a_burst_has_a_height_and_steps_that_can_be),
        cmocka_unit_test(ways_of_flying_are_some_and_possible),
        cmocka_unit_test(the_busiest_rotor_sets_the_heaviest_hover),
        cmocka_unit_test(each_rotor_must_bear_its_share),
        cmocka_unit_test(growth_without_end_has_no_figure),
        cmocka_unit_test(growth_needs_a_heavier_craft_that_flies),
    };
    return cmocka_run_group_tests(tests, build_table, NULL);
}
