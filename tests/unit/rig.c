/* rooms: physics base */
/* The check cases of the published description of the physics, sections E, F and G, on its own
 * constants and its own simple air: by direct evaluation and through tables. Then the laws that any
 * craft must keep, and what is refused. */
#include <math.h>
#include <string.h>

#include "near.h"
#include "physics/drive.h"
#include "physics/rig.h"
#include "published_cells.h"
#include "published_props.h"

#define INCH 0.0254

typedef struct fixture {
    pare_prop prop;
    pare_prop_table table;
    pare_rig rig;
    pare_landing landing; /* of the cases: 0.05 left or the chemistry's volts */
} fixture;

/* The cases' own air: p = 101325 (1 - 2.25577e-5 h)^5.25588 and so on, at h = 0. */
static pare_air simple_air(void)
{
    const double t = 288.15, p = 101325;
    return (pare_air){.temperature_degc = 15,
                      .pressure_pa = p,
                      .density_kg_m3 = p / (287.05 * t),
                      .viscosity_pa_s = 1.716e-5 * pow(t / 273.15, 1.5) * 383.55 / (t + 110.4),
                      .sound_m_s = sqrt(1.4 * 287.05 * t)};
}

typedef struct spec {
    double mass, diameter_in, pitch_in;
    int blades;
    double kv, ohm, no_load, motor_kg;
    pare_chemistry chemistry;
    int cells;
    double ah, cda, always, prop_kg, arm, xx, yy, zz;
} spec;

static const spec race5_spec = {0.68, 5.1, 4.3,   3, 1950,   0.065, 1.2,    0.033, PARE_LIPO,
                                6,    1.3, 0.008, 4, 0.0045, 0.08,  0.0025, 0.003, 0.005};
static const spec cam10_spec = {1.45, 10,  4.5,  2, 920,   0.11, 0.6,   0.056, PARE_LIPO,
                                4,    5.0, 0.02, 6, 0.011, 0.16, 0.012, 0.013, 0.022};
static const spec long7_spec = {0.95, 7,   4,     2, 1300,  0.09, 0.8,   0.04,  PARE_LIION_POWER,
                                6,    4.0, 0.012, 5, 0.008, 0.11, 0.006, 0.007, 0.011};

static void make(fixture *f, const spec *s, bool tables)
{
    const pare_prop_size size = {
        .diameter_m = s->diameter_in * INCH, .pitch_m = s->pitch_in * INCH, .blades = s->blades};
    assert_int_equal(pare_prop_from_size(&size, &published_family, &f->prop, NULL), PARE_OK);
    if (tables)
        pare_prop_table_build(&f->prop, &f->table);
    pare_rig_defaults(&f->rig);
    pare_rig *r = &f->rig;
    pare_rig_drive(&pare_drive_published, r);
    r->mass_kg = s->mass;
    r->rotor.prop = &f->prop;
    r->rotor.table = tables ? &f->table : NULL;
    r->motor.kv_rpm_per_v = s->kv;
    r->motor.resistance_ohm = s->ohm;
    r->motor.no_load_a = s->no_load;
    r->motor.mass_kg = s->motor_kg;
    r->pack.chemistry = s->chemistry;
    r->pack.cell = &published_cells[s->chemistry];
    r->pack.cells = s->cells;
    r->pack.capacity_c = s->ah * 3600;
    r->air = simple_air();
    r->drag_m2 = s->cda;
    r->drag_top_m2 = 2 * s->cda;
    r->always_w = s->always;
    r->spin_kg_m2 = pare_rotor_spin_kg_m2(s->prop_kg, s->diameter_in * INCH, s->motor_kg);
    r->inertia_xx_kg_m2 = s->xx;
    r->inertia_yy_kg_m2 = s->yy;
    r->inertia_zz_kg_m2 = s->zz;
    r->sum_x_m = r->sum_y_m = 4 * s->arm;
    f->landing = (pare_landing){pare_chemistry_landing_v(s->chemistry), 0.05};
}

/* Calls a figure and shows its reason when there is none. */
#define must(call)                                                                                 \
    do {                                                                                           \
        pare_error why_ = {PARE_OK, ""};                                                           \
        pare_error *const err = &why_;                                                             \
        if ((call) != PARE_OK)                                                                     \
            fail_msg("%s: %s", #call, why_.text);                                                  \
    } while (0)

typedef struct cases {
    const spec *craft;
    struct {
        double om, q, i, vm, vb, ib, d, p, tw, eta;
    } hover;
    struct {
        double om, tilt, drag, h, i, vb, ib, d, p;
    } level12;
    struct {
        double ir, t, v, om;
    } burst;
    struct {
        double nz, rate, radius;
    } turn;
    struct {
        double dt_dm, da_dm, exponent;
    } growth;
} cases;

static const cases race5 = {
    &race5_spec,
    {1127.745, 0.02211569, 5.450066, 5.910698, 22.33836, 6.508341, 0.2645985, 145.3857, 32.52782,
     0.6861986},
    {1082.303, 0.1390229, 0.719157, 0.05296886, 5.008764, 22.37707, 5.770932, 0.2527079, 129.1366},
    {7.102984e-06, 1.132549, 43.30609, 3312.212},
    {7.872733, 6.381649, 1.880392},
    {-1276.898, -118.4833, 1.2212}};
static const cases cam10 = {
    &cam10_spec,
    {581.8747, 0.05793898, 6.064361, 6.743629, 14.97355, 11.8055, 0.4503694, 176.7702, 27.12885,
     0.7628712},
    {535.2793, 0.1412931, 1.799, 0.05534665, 5.260933, 15.00222, 9.49458, 0.4106974, 142.4398},
    {5.538273e-05, 1.949486, 21.67674, 1290.049},
    {4.68477, 3.740254, 3.208338},
    {-1376.915, -30.56289, 1.2940}};
static const cases long7 = {
    &long7_spec,
    {863.7233, 0.03014018, 4.758777, 6.801361, 21.56312, 6.706796, 0.3154163, 144.6195, 28.44724,
     0.7200352},
    {803.3057, 0.1325677, 1.076903, 0.04099365, 4.158672, 21.62327, 5.50927, 0.2912184, 119.1285},
    {2.057923e-05, 1.337433, 34.75518, 2458.381},
    {7.26683, 5.882106, 2.040086},
    {-2829.461, -76.05846, 1.2452}};

static void check_hover(const cases *c, bool tables, double share)
{
    fixture f;
    pare_operating p;
    make(&f, c->craft, tables);
    must(pare_rig_thrust(&f.rig, 1, 0.5, &p, err));
    assert_within(p.rotor.speed_rad_s, c->hover.om, share);
    assert_within(p.rotor.torque_nm, c->hover.q, share);
    assert_within(p.motor.current_a, c->hover.i, share);
    assert_within(p.motor.volts_v, c->hover.vm, share);
    assert_within(p.pack_v, c->hover.vb, share);
    assert_within(p.pack_a, c->hover.ib, share);
    assert_within(p.duty, c->hover.d, share);
    assert_within(p.pack_w, c->hover.p, share);
    assert_within(p.motor.winding_degc, c->hover.tw, share);
    assert_within(p.efficiency, c->hover.eta, share);
}

static void check_level(const cases *c, bool tables, double share)
{
    fixture f;
    pare_operating p;
    make(&f, c->craft, tables);
    must(pare_rig_level(&f.rig, 12, 0.5, &p, err));
    assert_within(p.rotor.speed_rad_s, c->level12.om, share);
    assert_within(p.tilt_rad, c->level12.tilt, share);
    assert_within(p.drag_n, c->level12.drag, share);
    assert_within(p.rotor.drag_n, c->level12.h, share);
    assert_within(p.motor.current_a, c->level12.i, share);
    assert_within(p.pack_v, c->level12.vb, share);
    assert_within(p.pack_a, c->level12.ib, share);
    assert_within(p.duty, c->level12.d, share);
    assert_within(p.pack_w, c->level12.p, share);
}

static void check_burst(const cases *c, bool tables, double share)
{
    fixture f;
    pare_burst b;
    make(&f, c->craft, tables);
    assert_within(f.rig.spin_kg_m2, c->burst.ir, 1e-6);
    must(pare_rig_burst(&f.rig, 30, 1, 0.002, &b, err));
    assert_within(b.time_s, c->burst.t, share);
    assert_within(b.end_m_s, c->burst.v, share);
    assert_within(b.end_rad_s, c->burst.om, share);
}

static void check_turn(const cases *c, bool tables, double share)
{
    fixture f;
    pare_turn t;
    make(&f, c->craft, tables);
    must(pare_rig_turn(&f.rig, 12, 0.8, &t, err));
    assert_within(t.load_factor, c->turn.nz, share);
    assert_within(t.rate_rad_s, c->turn.rate, share);
    assert_within(t.radius_m, c->turn.radius, share);
}

static void check_growth(const cases *c, bool tables, double share)
{
    fixture f;
    pare_growth g;
    make(&f, c->craft, tables);
    must(pare_rig_growth(&f.rig, &f.landing, &g, err));
    assert_within(g.seconds_per_kg, c->growth.dt_dm, share);
    assert_within(g.climb_m_s2_per_kg, c->growth.da_dm, share);
    assert_within(g.capacity_exponent, c->growth.exponent, fmax(share, 5e-5));
}

#define DIRECT 1e-5
#define TABLES 5e-3

/* clang-format off */
#define BOTH(figure)                                                                               \
    static void figure##_of_race5_is_case(void **state) { (void)state; check_##figure(&race5, false, DIRECT); } \
    static void figure##_of_cam10_is_case(void **state) { (void)state; check_##figure(&cam10, false, DIRECT); } \
    static void figure##_of_long7_is_case(void **state) { (void)state; check_##figure(&long7, false, DIRECT); } \
    static void figure##_of_race5_is_near_through_tables(void **state) { (void)state; check_##figure(&race5, true, TABLES); } \
    static void figure##_of_cam10_is_near_through_tables(void **state) { (void)state; check_##figure(&cam10, true, TABLES); } \
    static void figure##_of_long7_is_near_through_tables(void **state) { (void)state; check_##figure(&long7, true, TABLES); }
BOTH(hover)
BOTH(level)
BOTH(burst)
BOTH(turn)
BOTH(growth)

#define TESTS_OF(figure)                                                                           \
    cmocka_unit_test(figure##_of_race5_is_case), cmocka_unit_test(figure##_of_cam10_is_case),      \
    cmocka_unit_test(figure##_of_long7_is_case),                                                   \
    cmocka_unit_test(figure##_of_race5_is_near_through_tables),                                    \
    cmocka_unit_test(figure##_of_cam10_is_near_through_tables),                                    \
    cmocka_unit_test(figure##_of_long7_is_near_through_tables)
/* clang-format on */

static void check_two_levels(bool tables, double share)
{
    fixture f;
    pare_endurance e;
    make(&f, &race5_spec, tables);
    const pare_flown flown[] = {{PARE_FLOWN_THRUST, 0.3, 2.5}, {PARE_FLOWN_THRUST, 0.7, 1}};
    must(pare_rig_endure(&f.rig, 2, flown, &f.landing, &e, err));
    assert_within(e.time_s, 375.4354, share);
    assert_within(e.charge_end, 0.08860598, share);
    assert_true(e.by_voltage);
    assert_false(e.full_throttle);
}

static void check_best_range(bool tables, double share)
{
    fixture f;
    pare_best_range r;
    make(&f, &cam10_spec, tables);
    must(pare_rig_best_range(&f.rig, &f.landing, &r, err));
    assert_within(r.range_m, 21984.49, share);
    assert_within(r.charge_end, 0.07552424, share);
    assert_within(r.time_s, 1597.661, share);
    assert_within(r.speed_m_s, 13.76042, share);
}

static void check_quickness(bool tables, double share)
{
    fixture f;
    pare_quickness q;
    make(&f, &race5_spec, tables);
    must(pare_rig_quickness(&f.rig, 1, &q, err));
    assert_within(q.step_n, 6.84765, share);
    assert_within(q.roll_rad_s2, 876.4992, share);
    assert_within(q.pitch_rad_s2, 730.416, share);
    assert_within(q.yaw_rad_s2, 72.72642, share);
    assert_within(q.yaw_start_rad_s2, 466.3039, share);
    assert_within(q.lag_s, 0.01806976, share);
    assert_within(q.rate_01_rad_s, 71.87434, share);
    assert_within(q.step_held_n, 1.295125, share);
    assert_within(q.roll_held_rad_s2, 165.776, share);
    assert_within(q.yaw_held_rad_s2, 13.28517, share);
}

static void check_climb_and_dash(bool tables, double share)
{
    fixture f;
    double climb, at_0, at_10;
    make(&f, &cam10_spec, tables);
    must(pare_rig_climb(&f.rig, 0.8, &climb, err));
    must(pare_rig_dash(&f.rig, 0, 0.8, &at_0, err));
    must(pare_rig_dash(&f.rig, 10, 0.8, &at_10, err));
    assert_within(climb, 21.02482, share);
    assert_within(at_0, 39.3725, share);
    assert_within(at_10, 28.2011, share);
}

static void check_top_speed(bool tables, double share)
{
    fixture f;
    double top;
    make(&f, &race5_spec, tables);
    must(pare_rig_top_speed(&f.rig, 0.8, &top, err));
    assert_within(top, 52.156, share);
}

static void two_levels_are_case(void **state)
{
    (void)state;
    check_two_levels(false, DIRECT);
}

static void two_levels_are_near_through_tables(void **state)
{
    (void)state;
    check_two_levels(true, TABLES);
}

static void best_range_is_case(void **state)
{
    (void)state;
    check_best_range(false, DIRECT);
}

static void best_range_is_near_through_tables(void **state)
{
    (void)state;
    check_best_range(true, TABLES);
}

static void quickness_is_case(void **state)
{
    (void)state;
    check_quickness(false, DIRECT);
}

static void quickness_is_near_through_tables(void **state)
{
    (void)state;
    check_quickness(true, TABLES);
}

static void climb_and_dash_are_case(void **state)
{
    (void)state;
    check_climb_and_dash(false, DIRECT);
}

static void climb_and_dash_are_near_through_tables(void **state)
{
    (void)state;
    check_climb_and_dash(true, TABLES);
}

static void top_speed_is_case(void **state)
{
    (void)state;
    check_top_speed(false, 1e-4);
}

static void top_speed_is_near_through_tables(void **state)
{
    (void)state;
    check_top_speed(true, TABLES);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TESTS_OF(hover),
        TESTS_OF(level),
        TESTS_OF(burst),
        TESTS_OF(turn),
        TESTS_OF(growth),
        cmocka_unit_test(two_levels_are_case),
        cmocka_unit_test(two_levels_are_near_through_tables),
        cmocka_unit_test(best_range_is_case),
        cmocka_unit_test(best_range_is_near_through_tables),
        cmocka_unit_test(quickness_is_case),
        cmocka_unit_test(quickness_is_near_through_tables),
        cmocka_unit_test(climb_and_dash_are_case),
        cmocka_unit_test(climb_and_dash_are_near_through_tables),
        cmocka_unit_test(top_speed_is_case),
        cmocka_unit_test(top_speed_is_near_through_tables),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
