/* rooms: physics base */
/* Laws of single things asked beyond their range: motors, wires, boards, packs, layers, bodies, fasteners, blades.
 * Each range is tried from both sides, what is refused says what would be right, and what stands at the end of a
 * range has the value that its law has there. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"
#include "physics/air.h"
#include "physics/charger.h"
#include "physics/coax.h"
#include "physics/discharge.h"
#include "physics/esc_heat.h"
#include "physics/laminate.h"
#include "physics/motor_fit.h"
#include "physics/nut.h"
#include "physics/printed.h"
#include "physics/rig.h"
#include "physics/screw.h"
#include "physics/solid.h"
#include "physics/spike.h"
#include "physics/wire_heat.h"

#define PI 3.14159265358979323846

/* A call whose last argument is err, and what it must say. */
#define refuses(call, says)                                                                        \
    do {                                                                                           \
        pare_error why_ = {PARE_OK, ""};                                                           \
        pare_error *const err = &why_;                                                             \
        if ((call) != PARE_BAD_DATA || strcmp(why_.text, (says)) != 0)                             \
            fail_msg("%s: '%s'", #call, why_.text);                                                \
    } while (0)

static pare_rig some_rig(void)
{
    pare_rig rig;
    pare_rig_defaults(&rig);
    rig.motor.kv_rpm_per_v = 1950;
    rig.motor.resistance_ohm = 0.065;
    rig.motor.no_load_a = 1.2;
    rig.motor.mass_kg = 0.033;
    rig.pack.cells = 4;
    rig.pack.capacity_c = 1.3 * 3600;
    return rig;
}

/* ---- motors ---- */

static void a_motor_on_fixed_volts_has_a_current_that_it_bears(void **state)
{
    (void)state;
    const pare_motor motor = some_rig().motor;
    pare_motor_state s;
    double a, share;
    refuses(pare_motor_on(&motor, 0, 10, 0, &s, err),
            "the volts on the motor is 0: more than 0, to 1000 V would be right");
    refuses(pare_motor_on(&motor, 1001, 10, 0, &s, err),
            "the volts on the motor is 1001: more than 0, to 1000 V would be right");
    refuses(pare_motor_on(&motor, 16, -1, 0, &s, err),
            "the motor's current is -1: 0 to 10000 A would be right");
    refuses(pare_motor_on(&motor, 16, 10001, 0, &s, err),
            "the motor's current is 10001: 0 to 10000 A would be right");
    refuses(pare_motor_on(&motor, 16, 10, 2, &s, err),
            "the share of the winding's heating is 2: 0 to 1 would be right");
    refuses(pare_motor_best(&motor, 0, 0, &a, &share, err),
            "the volts on the motor is 0: more than 0, to 1000 V would be right");
    refuses(pare_motor_best(&motor, 1001, 0, &a, &share, err),
            "the volts on the motor is 1001: more than 0, to 1000 V would be right");
    refuses(pare_motor_best(&motor, 16, -1, &a, &share, err),
            "the share of the winding's heating is -1: 0 to 1 would be right");
    pare_error why;
    assert_int_equal(pare_motor_on(&motor, 500, 100, 1, &s, &why), PARE_BAD_DATA);
    assert_non_null(strstr(why.text, "a motor's winding heats itself without end"));
    refuses(pare_motor_at(&motor, 0, 100, 10001, 0, &s, err),
            "the motor's torque is 10001: 0 to 10000 N m would be right");
    pare_motor none = motor;
    none.kv_rpm_per_v = 0;
    refuses(pare_motor_best(&none, 16, 0, &a, &share, err),
            "the motor's kV is 0: more than 0 rpm/V would be right");
    none = motor;
    none.no_load_a = 0;
    refuses(pare_motor_best(&none, 16, 0, &a, &share, err),
            "a motor of 0.065 ohm and 0 A no-load has no current of best efficiency: both must be "
            "more than 0");
    none = motor;
    none.resistance_ohm = 0;
    refuses(pare_motor_best(&none, 16, 0, &a, &share, err),
            "a motor of 0 ohm and 1.2 A no-load has no current of best efficiency: both must be "
            "more than 0");
    /* Unloaded it draws 1.2 A, and 0.05 V through 0.065 ohm are 0.7692 A. */
    none = motor;
    none.iron_share = none.drive_excess = 0;
    none.ambient_degc = 20;
    refuses(pare_motor_best(&none, 0.05, 0, &a, &share, err),
            "the motor needs 1.2 A to turn unloaded and 0.05 V gives at most 0.7692 A");
    /* All of its loss rises with speed: the top still lies where its neighbours are lower. */
    none.iron_share = 1;
    assert_int_equal(pare_motor_best(&none, 16, 0, &a, &share, &why), PARE_OK);
    for (int side = -1; side <= 1; side += 2) {
        assert_int_equal(pare_motor_on(&none, 16, a * (1 + 0.02 * side), 0, &s, &why), PARE_OK);
        assert_true(s.torque_nm * s.speed_rad_s / (16 * s.current_a) < share);
    }
}

static pare_motor_prior stated(void)
{
    const pare_rig rig = some_rig();
    return (pare_motor_prior){.motor = rig.motor,
                              .kv_u = 0.03,
                              .resistance_u = 0.1,
                              .no_load_u = 0.2,
                              .esc = rig.esc,
                              .heat = 0.3};
}

static void a_fit_starts_from_a_motor_that_can_be(void **state)
{
    (void)state;
    const pare_stand_row row = {
        .volts_v = 15, .throttle = 1, .current_a = 20, .speed_rad_s = 2500, .torque_nm = 0.1};
    pare_motor_fitted f;
    pare_motor_prior bad[7];
    for (size_t i = 0; i < 7; i++)
        bad[i] = stated();
    bad[0].motor.kv_rpm_per_v = -5;
    bad[1].motor.resistance_ohm = 0;
    bad[2].motor.no_load_a = 0;
    bad[3].resistance_u = 0;
    bad[4].no_load_u = 0;
    bad[5].heat = -1;
    bad[6].heat = 2;
    static const char *const says[] = {
        "the motor's kV is -5: more than 0 rpm/V would be right",
        "a motor of 0 ohm and 1.2 A unloaded: both must be more than 0 to start from",
        "a motor of 0.065 ohm and 0 A unloaded: both must be more than 0 to start from",
        "kV, winding and unloaded current are known to 0.03, 0, 0.2 of themselves: each must be "
        "more than 0",
        "kV, winding and unloaded current are known to 0.03, 0.1, 0 of themselves: each must be "
        "more than 0",
        "a heating of -1: 0 to 1 would be right",
        "a heating of 2: 0 to 1 would be right"};
    for (size_t i = 0; i < 7; i++)
        refuses(pare_motor_fit(1, &row, &bad[i], &f, err), says[i]);
    const pare_motor_prior good = stated();
    pare_stand_row strange = row;
    strange.throttle = -0.1;
    refuses(pare_motor_fit(1, &strange, &good, &f, err),
            "row 1: a throttle of -0.1: 0 to 1 would be right");
    strange = row;
    strange.torque_nm = 2e4;
    refuses(pare_motor_fit(1, &strange, &good, &f, err),
            "row 1: a torque of 20000 N m: 0 and up would be right");
    enum { MANY = 200000 };
    pare_stand_row *many = calloc(MANY, sizeof *many);
    assert_non_null(many);
    pare_error why;
    assert_int_equal(pare_motor_fit(MANY, many, &good, &f, &why), PARE_BAD_DATA);
    assert_int_equal(strncmp(why.text, "200000 rows: 1 to ", 18), 0);
    free(many);
}

/* ---- wires and boards ---- */

static void a_wire_starts_and_flies_within_its_range(void **state)
{
    (void)state;
    pare_wire_load load = pare_wire_load_defaults();
    load.gauge = 16;
    load.current_a = 10;
    const pare_wire_stretch still = {10, 60};
    pare_wire_heat heat, burst;
    static const struct {
        double degc, seconds;
        const char *says;
    } bad[] = {
        {-61, 1, "temperature at the start in degC -61: -60 to 300 would be right"},
        {301, 1, "temperature at the start in degC 301: -60 to 300 would be right"},
        {20, -1, "seconds -1: 0 to 3600 would be right"},
        {20, 3601, "seconds 3601: 0 to 3600 would be right"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        const pare_wire_stretch stretch = {10, bad[i].seconds};
        refuses(pare_wire_after(&load, bad[i].degc, bad[i].seconds, &heat, err), bad[i].says);
        refuses(pare_wire_flown(&load, bad[i].degc, 1, &stretch, &heat, NULL, err), bad[i].says);
    }
    const pare_wire_stretch back = {-1, 60}, far = {2001, 60};
    refuses(pare_wire_flown(&load, 20, 1, &back, &heat, NULL, err),
            "current in A -1: 0 to 2000 would be right");
    refuses(pare_wire_burst(&load, far.current_a, far.seconds, &heat, &burst, err),
            "current in A 2001: 0 to 2000 would be right");
    pare_wire_load thick = load;
    thick.gauge = 3;
    refuses(pare_wire_after(&thick, 20, 1, &heat, err), "gauge 3: 4 to 40 AWG would be right");
    refuses(pare_wire_flown(&thick, 20, 1, &still, &heat, NULL, err),
            "gauge 3: 4 to 40 AWG would be right");
    thick.gauge = 41;
    refuses(pare_wire_after(&thick, 20, 1, &heat, err), "gauge 41: 4 to 40 AWG would be right");
    thick = load;
    thick.current_a = -1;
    refuses(pare_wire_steady(&thick, &heat, err), "current in A -1: 0 to 2000 would be right");
    thick = load;
    thick.outer_m = 0.06;
    refuses(pare_wire_steady(&thick, &heat, err),
            "outer diameter 60 mm: AWG 16 takes 1.491 mm for its strands alone, and 50 mm is the "
            "most");
    thick = load;
    thick.flow_m_s = -1;
    pare_error why;
    assert_int_equal(pare_wire_steady(&thick, &heat, &why), PARE_BAD_DATA);
    assert_non_null(strstr(why.text, "would be right"));
}

/* 2 kA through 0.05 mm2 of copper (AWG 30): by its own heat alone, rho J^2 / (c d) with J = 4e10 A/m2 is 8e6 K/s (the
 * constants of copper from memory), so it melts in less than a millisecond however it is cooled. */
static void a_wire_melts_in_any_way_of_asking(void **state)
{
    (void)state;
    pare_wire_load load = pare_wire_load_defaults();
    load.gauge = 30;
    load.current_a = 2000;
    pare_wire_heat heat, burst;
    pare_error why;
    double after_s = 0;
    assert_int_equal(pare_wire_after(&load, 20, 0.004, &heat, &why), PARE_BAD_DATA);
    assert_int_equal(sscanf(why.text, "2000 A melts AWG 30 after %lg s", &after_s), 1);
    assert_between(after_s, 1e-5, 1e-3);
    const pare_wire_stretch stretch = {2000, 100};
    assert_int_equal(pare_wire_flown(&load, 20, 1, &stretch, &heat, NULL, &why), PARE_BAD_DATA);
    assert_non_null(strstr(why.text, "2000 A melts AWG 30"));
    load.current_a = 0.1;
    assert_int_equal(pare_wire_burst(&load, 2000, 100, &heat, &burst, &why), PARE_BAD_DATA);
    assert_non_null(strstr(why.text, "2000 A melts AWG 30"));
}

static void a_board_has_some_motors_and_a_start(void **state)
{
    (void)state;
    pare_board board;
    double degc, seconds;
    refuses(pare_board_estimate(0, 35, 0.012, &board, err),
            "motors on one board 0: 1 to 8 would be right");
    refuses(pare_board_estimate(9, 35, 0.012, &board, err),
            "motors on one board 9: 1 to 8 would be right");
    refuses(pare_board_estimate(4, 501, 0.012, &board, err),
            "rated current in A 501: 0.5 to 500 would be right");
    refuses(pare_board_estimate(4, 35, 1.5, &board, err),
            "board mass in g 1500: 0.1 to 1000 would be right");
    pare_error why;
    assert_int_equal(pare_board_estimate(4, 35, 0.012, &board, &why), PARE_OK);
    const pare_board_load load = {
        .current_a = 10, .volts_v = 15, .ambient_degc = 20, .pressure_pa = 101325, .flow_m_s = 5};
    for (int over = 0; over < 2; over++) {
        const double start_degc = over ? 1001 : -61;
        const char *says = over
                               ? "temperature at the start in degC 1001: -60 to 1000 would be right"
                               : "temperature at the start in degC -61: -60 to 1000 would be right";
        refuses(pare_board_after(&board, &load, start_degc, 1, &degc, err), says);
        refuses(pare_board_until(&board, &load, start_degc, 90, &seconds, err), says);
    }
    refuses(pare_board_until(&board, &load, 20, 1001, &seconds, err),
            "limit in degC 1001: at most 1000 would be right");
    static const double waits[] = {-1, 3601};
    for (size_t i = 0; i < 2; i++) {
        char says[64];
        snprintf(says, sizeof says, "seconds %g: 0 to 3600 would be right", waits[i]);
        refuses(pare_board_after(&board, &load, 20, waits[i], &degc, err), says);
    }
    pare_board_load high = load;
    high.volts_v = 501;
    refuses(pare_board_after(&board, &high, 20, 1, &degc, err),
            "voltage in V 501: 0 to 500 would be right");
    for (int i = 0; i < 3; i++) {
        pare_board sizeless = board;
        *(i == 0 ? &sizeless.heat_j_k : i == 1 ? &sizeless.long_m : &sizeless.on_ohm) = -1;
        refuses(pare_board_after(&sizeless, &load, 20, 1, &degc, err),
                "a board without size or heat capacity");
    }
    pare_board none = board;
    none.area_m2 = 0;
    assert_int_equal(pare_board_after(&none, &load, 20, 1, &degc, &why), PARE_BAD_DATA);
    assert_int_equal(pare_board_until(&none, &load, 20, 90, &seconds, &why), PARE_BAD_DATA);
    /* In no time at all nothing has warmed. */
    assert_int_equal(pare_board_after(&board, &load, 20, 0, &degc, &why), PARE_OK);
    assert_near(degc, 20, 1e-12);
}

/* ---- packs ---- */

static void readings_of_cells_stay_within_what_a_charger_says(void **state)
{
    (void)state;
    pare_pack pack = some_rig().pack;
    const pare_charger_reading good = {.kind = PARE_READING_PULSE,
                                       .degc = (double)NAN,
                                       .charge = (double)NAN,
                                       .cells = 4,
                                       .ohm = {5e-3, 5e-3, 5e-3, 5e-3}};
    pare_group_reading group;
    pare_charger_reading bad = good;
    bad.ohm[2] = 101;
    refuses(pare_charger_group(&pack, &bad, &group, err),
            "cell 3 reads 101 ohm: more than 0, to 100 ohm, would be right");
    bad = good;
    bad.degc = -41;
    refuses(pare_charger_group(&pack, &bad, &group, err),
            "the cells were read at -41 degC: -40 to 80 degC would be right");
    bad = good;
    bad.charge = -0.1;
    refuses(pare_charger_group(&pack, &bad, &group, err),
            "the cells were read at a charge of -0.1: 0 to 1 would be right");
    bad = good;
    bad.seconds = 601;
    refuses(pare_charger_group(&pack, &bad, &group, err),
            "a pulse of 601 s: 0 to 600 s would be right");
    pack.cells = PARE_READING_CELLS + 1;
    bad = good;
    bad.cells = PARE_READING_CELLS + 1;
    refuses(pare_charger_group(&pack, &bad, &group, err),
            "the charger read 17 cells of a pack of 17: one reading a cell, of at most 16 cells, "
            "would be right");
}

static void a_discharge_has_a_pack_a_current_and_a_start(void **state)
{
    (void)state;
    pare_pack pack = some_rig().pack;
    pare_drained at;
    double charge;
    const pare_drain strong = {2e5, 1, true}, empty = {5, 0, true}, fine = {5, 1, true};
    refuses(pare_pack_drain(&pack, &strong, 0.5, &at, err),
            "a current of 200000 A: 1e-06 to 100000 A would be right");
    refuses(pare_pack_drain(&pack, &empty, 0, &at, err),
            "a discharge from a charge of 0: more than 0, to 1, would be right");
    refuses(pare_pack_drain_to(&pack, &empty, 3, &charge, err),
            "a discharge from a charge of 0: more than 0, to 1, would be right");
    refuses(pare_pack_drain_to(&pack, &fine, 11, &charge, err),
            "down to 11 V a cell: more than 0, to 10, would be right");
    pack.cells = 0;
    pare_error why;
    assert_int_equal(pare_pack_drain(&pack, &fine, 0.5, &at, &why), PARE_BAD_DATA);
    assert_non_null(strstr(why.text, "cells"));
}

static void a_source_has_volts_and_a_resistance(void **state)
{
    (void)state;
    double a, v;
    static const struct {
        double open_v, ohm, w;
        const char *says;
    } bad[] = {
        {0, 0.02, 100, "0 V: more than 0 V would be right"},
        {HUGE_VAL, 0.02, 100, "inf V: more than 0 V would be right"},
        {14.8, -1, 100, "-1 ohm: 0 ohm or more would be right"},
        {14.8, HUGE_VAL, 100, "inf ohm: 0 ohm or more would be right"},
        {14.8, 0.02, -1, "-1 W: 0 W or more would be right"},
        {14.8, 0.02, HUGE_VAL, "inf W: 0 W or more would be right"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        refuses(pare_pack_current(bad[i].open_v, bad[i].ohm, bad[i].w, &a, &v, err), bad[i].says);
}

/* ---- layers and prints ---- */

static void layers_are_few_stiff_and_at_an_angle(void **state)
{
    (void)state;
    const pare_ply ply = {60e9, 60e9, 4e9, 0.05};
    double angle[200] = {0};
    pare_laminate l;
    pare_error why;
    assert_int_equal(pare_laminate_work_out(&ply, 200, angle, &l, &why), PARE_BAD_DATA);
    assert_int_equal(strncmp(why.text, "200 layers: 1 to ", 17), 0);
    refuses(pare_laminate_work_out(&(pare_ply){1e5, 60e9, 4e9, 0.05}, 1, angle, &l, err),
            "a layer's modulus 0.0001 GPa: 0.001 to 1000 GPa would be right");
    refuses(pare_laminate_work_out(&(pare_ply){60e9, 60e9, 2e12, 0.05}, 1, angle, &l, err),
            "a layer's modulus 2000 GPa: 0.001 to 1000 GPa would be right");
    refuses(pare_laminate_work_out(&(pare_ply){60e9, 60e9, 4e9, -0.1}, 1, angle, &l, err),
            "a layer's Poisson's ratio -0.1: 0 to under 1 would be right");
    refuses(pare_laminate_work_out(&(pare_ply){60e9, 60e9, 4e9, 1}, 1, angle, &l, err),
            "a layer's Poisson's ratio 1: 0 to under 1 would be right");
    angle[0] = (double)NAN;
    refuses(pare_laminate_work_out(&ply, 1, angle, &l, err), "layer 1 has no angle");
}

/* Without walls that are known a part is taken for solid, and nothing at all bears nothing. */
static void a_print_without_walls_is_solid(void **state)
{
    (void)state;
    const pare_printed solid = pare_printed_of(2e-6, 1e-3, 0, 0.2, 1240);
    assert_within(solid.shell_kg, 1240 * 2e-6, 1e-12);
    assert_near(solid.infill_kg, 0, 0);
    assert_near(solid.bears, 1, 1e-12);
    assert_near(solid.stiffens, 1, 1e-12);
    const pare_printed none = pare_printed_of(0, 1e-3, 1e-3, 0.2, 1240);
    assert_near(none.bears, 0, 0);
    assert_near(none.stiffens, 0, 0);
}

/* ---- bodies ---- */

static void bodies_have_a_mass_and_radii_that_some_body_has(void **state)
{
    (void)state;
    pare_body body;
    const double inside_out[] = {0.1, -0.2, 0.1};
    refuses(pare_solid(PARE_SHAPE_BOX, 1, inside_out, &body, err),
            "box: size 2 of (x, y, z) is -0.2 m; each is 0 or more, and finite");
    static const struct {
        pare_vec3 m;
        const char *says;
    } bad[] = {
        {{-0.3, 0.4, 0.5}, "radii of gyration -0.3, 0.4, 0.5 m: "},
        {{0.3, -0.4, 0.5}, "radii of gyration 0.3, -0.4, 0.5 m: "},
        {{0.3, 0.4, -0.5}, "radii of gyration 0.3, 0.4, -0.5 m: "},
        {{0.6, 0.4, 0.3}, "radii of gyration 0.6, 0.4, 0.3 m: "}, /* 0.36 > 0.25 */
        {{0.4, 0.6, 0.3}, "radii of gyration 0.4, 0.6, 0.3 m: "},
        {{1e200, 1e200, 1e200}, "radii of gyration 1e+200, 1e+200, 1e+200 m: "},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        char says[256];
        snprintf(says, sizeof says,
                 "%seach must be 0 or more, and its square at most the sum of the squares of the "
                 "other two",
                 bad[i].says);
        refuses(pare_gyration(2, bad[i].m, &body, err), says);
    }
    refuses(pare_gyration(-2, (pare_vec3){0.3, 0.4, 0.5}, &body, err),
            "point of -2 kg: a mass is 0 or more, and finite");
}

/* Thin ones have no volume, a plate has its box's. */
static void volumes_of_thin_shapes_are_none(void **state)
{
    (void)state;
    static const double s[] = {0.1, 0.2, 0.003};
    assert_within(pare_solid_volume_m3(PARE_SHAPE_PLATE, s), 0.1 * 0.2 * 0.003, 1e-12);
    assert_near(pare_solid_volume_m3(PARE_SHAPE_ROD, s), 0, 0);
    assert_near(pare_solid_volume_m3(PARE_SHAPE_POINT, s), 0, 0);
}

static void plates_are_of_some_stuff_and_not_too_large(void **state)
{
    (void)state;
    static const double corner[4][2] = {{-1e6, -1e6}, {1e6, -1e6}, {1e6, 1e6}, {-1e6, 1e6}};
    const pare_outline outline = {4, corner};
    pare_body body;
    refuses(pare_plate(&outline, 0, NULL, HUGE_VAL, 1600, &body, err),
            "plate of thickness inf m; it is 0 or more");
    refuses(pare_plate(&outline, 0, NULL, -0.002, 1600, &body, err),
            "plate of thickness -0.002 m; it is 0 or more");
    refuses(pare_plate(&outline, 0, NULL, 0.002, -1, &body, err),
            "plate of density -1 kg/m3; it is 0 or more");
    refuses(pare_plate(&outline, 0, NULL, 0.002, HUGE_VAL, &body, err),
            "plate of density inf kg/m3; it is 0 or more");
    refuses(pare_plate(&outline, 0, NULL, 1, 1e300, &body, err),
            "plate too large for its inertia to be a number");
}

/* ---- fasteners, cables, spikes, air ---- */

static void fasteners_are_known_by_their_own_words(void **state)
{
    (void)state;
    static const struct {
        pare_fastener of;
        const char *word;
    } word[] = {{PARE_ISO4762, "screw"},         {PARE_ISO4032, "nut"},
                {PARE_ISO7040, "nut"},           {PARE_ISO7089, "washer"},
                {PARE_STANDOFF_HEX, "standoff"}, {PARE_STANDOFF_ROUND, "standoff"}};
    for (size_t i = 0; i < sizeof word / sizeof word[0]; i++)
        assert_string_equal(pare_fastener_words(word[i].of), word[i].word);
    pare_thread thread;
    refuses(pare_thread_named("M33", &thread, err),
            "thread 'M33': known are M1.6, M2, M2.5, M3, M4 and M5; did you mean M3?");
    refuses(pare_thread_named("whitworth", &thread, err),
            "thread 'whitworth': known are M1.6, M2, M2.5, M3, M4 and M5");
}

static void standoffs_are_neither_too_long_nor_too_wide(void **state)
{
    (void)state;
    pare_fastener_size size = {
        .standard = PARE_STANDOFF_ROUND, .thread = {3e-3, 0.5e-3}, .length_m = 1, .across_m = 5e-3};
    double kg;
    pare_error why;
    assert_int_equal(pare_fastener_kg(&size, PARE_ALUMINIUM, &kg, &why), PARE_BAD_DATA);
    assert_int_equal(strncmp(why.text, "a standoff 1000 mm long: lengths go from ", 41), 0);
    size.length_m = 20e-3;
    size.across_m = 0.5;
    assert_int_equal(pare_fastener_kg(&size, PARE_ALUMINIUM, &kg, &why), PARE_BAD_DATA);
    assert_int_equal(strncmp(why.text, "a standoff M3 500 mm across: ", 29), 0);
}

/* Half of the power of a round wave is in any one plane: 10 lg 2, whichever side is the round one (ITU-R and every
 * antenna textbook; common knowledge of the trade). */
static void a_round_wave_gives_half_to_a_straight_antenna_and_back(void **state)
{
    (void)state;
    for (int hand = PARE_HAND_RIGHT; hand <= PARE_HAND_LEFT; hand++) {
        assert_near(pare_polarisation_db((pare_hand)hand, PARE_HAND_LINEAR), 3.0103, 5e-5);
        assert_near(pare_polarisation_db(PARE_HAND_LINEAR, (pare_hand)hand), 3.0103, 5e-5);
        assert_near(pare_polarisation_db((pare_hand)hand, (pare_hand)hand), 0, 0);
    }
    assert_true(pare_polarisation_db(PARE_HAND_LEFT, PARE_HAND_RIGHT) > 10);
}

static void every_cable_that_is_named_has_its_loss(void **state)
{
    (void)state;
    const char *name[16];
    double db;
    const size_t all = pare_coax_names(16, name);
    assert_int_equal(all, 5);
    assert_int_equal(pare_coax_names(2, name), 2);
    assert_int_equal(pare_coax_names(16, name), all);
    for (size_t i = 0; i < all; i++) {
        assert_int_equal(pare_coax_db_per_m(name[i], 5.8e9, &db, NULL), PARE_OK);
        assert_between(db, 0.5, 10);
    }
    refuses(pare_coax_db_per_m("RG9", 5.8e9, &db, err),
            "cable 'RG9': known are RG178, RG316, RG402, RG405 and 1.13");
    refuses(pare_coax_db_per_m("RG402", 5e7, &db, err), "0.05 GHz: 0.1 to 10 GHz would be right");
    refuses(pare_coax_db_per_m("RG402", 2e10, &db, err), "20 GHz: 0.1 to 10 GHz would be right");
}

static void a_spikes_path_has_values_of_the_trade(void **state)
{
    (void)state;
    const pare_spike_path path = {.open_v = 16,
                                  .ohm = 0.01,
                                  .henry = 1e-7,
                                  .farad = 5e-4,
                                  .series_ohm = 0.02,
                                  .from_a = 100,
                                  .to_a = 0};
    pare_spike spike;
    pare_spike_path bad = path;
    bad.open_v = 501;
    refuses(pare_spike_of(&bad, &spike, err), "the pack's voltage 501 V: 0 to 500 would be right");
    bad = path;
    bad.henry = 1;
    refuses(pare_spike_of(&bad, &spike, err), "inductance 1 H: 1e-09 to 0.001 would be right");
}

static void air_has_readings_of_an_atmosphere(void **state)
{
    (void)state;
    const pare_weather none = {.altitude_m = 0,
                               .temperature_degc = (double)NAN,
                               .pressure_pa = (double)NAN,
                               .sea_level_pa = (double)NAN,
                               .humidity = (double)NAN};
    pare_air air;
    pare_weather bad = none;
    bad.pressure_pa = 10e3;
    refuses(pare_air_in(&bad, &air, err), "air pressure 100 hPa is outside 150 .. 1100 hPa");
    bad = none;
    bad.sea_level_pa = 120e3;
    refuses(pare_air_in(&bad, &air, err),
            "air pressure at sea level 1200 hPa is outside 850 .. 1100 hPa");
    bad = none;
    bad.humidity = 1.5;
    refuses(pare_air_in(&bad, &air, err), "humidity 150 % is outside 0 .. 100 %");
    bad = none;
    bad.altitude_m = 1e6;
    assert_int_equal(pare_air_in(&bad, &air, NULL), PARE_BAD_DATA);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_motor_on_fixed_volts_has_a_current_that_it_bears),
        cmocka_unit_test(a_fit_starts_from_a_motor_that_can_be),
        cmocka_unit_test(a_wire_starts_and_flies_within_its_range),
        cmocka_unit_test(a_wire_melts_in_any_way_of_asking),
        cmocka_unit_test(a_board_has_some_motors_and_a_start),
        cmocka_unit_test(readings_of_cells_stay_within_what_a_charger_says),
        cmocka_unit_test(a_discharge_has_a_pack_a_current_and_a_start),
        cmocka_unit_test(a_source_has_volts_and_a_resistance),
        cmocka_unit_test(layers_are_few_stiff_and_at_an_angle),
        cmocka_unit_test(a_print_without_walls_is_solid),
        cmocka_unit_test(bodies_have_a_mass_and_radii_that_some_body_has),
        cmocka_unit_test(volumes_of_thin_shapes_are_none),
        cmocka_unit_test(plates_are_of_some_stuff_and_not_too_large),
        cmocka_unit_test(fasteners_are_known_by_their_own_words),
        cmocka_unit_test(standoffs_are_neither_too_long_nor_too_wide),
        cmocka_unit_test(a_round_wave_gives_half_to_a_straight_antenna_and_back),
        cmocka_unit_test(every_cable_that_is_named_has_its_loss),
        cmocka_unit_test(a_spikes_path_has_values_of_the_trade),
        cmocka_unit_test(air_has_readings_of_an_atmosphere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
