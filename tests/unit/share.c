/* rooms: physics base */
/* How rotors share a craft's weight: statics by hand, least norm by another way, and what it costs. */
#include <math.h>
#include <string.h>

#include "dice.h"
#include "near.h"
#include "physics/drive.h"
#include "physics/each.h"
#include "physics/share.h"
#include "published_props.h"

#define INCH 0.0254

static const pare_vec3 square[] = {{0.1, 0.1, 0}, {0.1, -0.1, 0}, {-0.1, -0.1, 0}, {-0.1, 0.1, 0}};

static void shares_of(size_t count, const pare_vec3 at_m[], double x_m, double y_m, double share[])
{
    pare_error err = {PARE_OK, ""};
    if (pare_thrust_shares(count, at_m, x_m, y_m, share, &err) != PARE_OK)
        fail_msg("%s", err.text);
}

static void a_square_craft_shares_as_statics_says(void **state)
{
    (void)state;
    /* By hand: moments about the centre of mass at (10, -5) mm of a square of 200 mm: each share is
     * 1/4 (1 + x dx/a^2 + y dy/a^2), a = 100 mm. */
    double share[4];
    shares_of(4, square, 0.010, -0.005, share);
    assert_near(share[0], 0.25 * (1 + 0.10 - 0.05), 1e-15);
    assert_near(share[1], 0.25 * (1 + 0.10 + 0.05), 1e-15);
    assert_near(share[2], 0.25 * (1 - 0.10 + 0.05), 1e-15);
    assert_near(share[3], 0.25 * (1 - 0.10 - 0.05), 1e-15);
    assert_within(pare_share_uneven(4, share), hypot(0.10, 0.05), 1e-12);
}

static void a_wide_front_shares_as_a_lever_does(void **state)
{
    (void)state;
    /* By hand: pairs 120 mm before and 80 mm behind the centre of mass carry as 80 to 120. */
    const pare_vec3 at[] = {{0.12, 0.14, 0}, {0.12, -0.14, 0}, {-0.08, -0.09, 0}, {-0.08, 0.09, 0}};
    double share[4];
    shares_of(4, at, 0, 0, share);
    assert_near(share[0] + share[1], 0.4, 1e-14);
    assert_near(share[2] + share[3], 0.6, 1e-14);
    assert_near(share[0], share[1], 1e-14);
}

static void three_rotors_have_one_answer(void **state)
{
    (void)state;
    /* By hand: a triangle's rotors carry by areal coordinates; yaw is a servo's. */
    const pare_vec3 at[] = {{0.1, 0.1, 0}, {0.1, -0.1, 0}, {-0.2, 0, 0}};
    double share[3];
    shares_of(3, at, 0.01, 0.02, share);
    assert_near(share[2], (0.1 - 0.01) / 0.3, 1e-14);
    assert_near(share[0] + share[1], 0.21 / 0.3, 1e-14);
    assert_near(share[0] - share[1], 0.2, 1e-14);
}

/* Least norm by orthogonal rows (Gram and Schmidt), which shares no step with the answer tested. */
static void least_norm(size_t count, const pare_vec3 at_m[], double x_m, double y_m, double share[])
{
    double row[4][8], right[4] = {1, 0, 0, 0};
    for (size_t i = 0; i < count; i++) {
        row[0][i] = 1;
        row[1][i] = at_m[i].x - x_m;
        row[2][i] = at_m[i].y - y_m;
        row[3][i] = i % 2 ? -1 : 1;
        share[i] = 0;
    }
    for (int k = 0; k < 4; k++) {
        double norm = 0;
        for (int l = 0; l < k; l++) {
            double dot = 0;
            for (size_t i = 0; i < count; i++)
                dot += row[k][i] * row[l][i];
            for (size_t i = 0; i < count; i++)
                row[k][i] -= dot * row[l][i];
            right[k] -= dot * right[l];
        }
        for (size_t i = 0; i < count; i++)
            norm += row[k][i] * row[k][i];
        norm = sqrt(norm);
        for (size_t i = 0; i < count; i++)
            row[k][i] /= norm;
        right[k] /= norm;
    }
    for (int k = 0; k < 4; k++)
        for (size_t i = 0; i < count; i++)
            share[i] += right[k] * row[k][i];
}

static void more_rotors_share_with_the_least_norm(void **state)
{
    (void)state;
    for (size_t count = 6; count <= 8; count += 2) {
        pare_vec3 at[8];
        for (size_t i = 0; i < count; i++) {
            const double turn = 6.28318530717958648 * ((double)i + 0.5) / (double)count;
            at[i] = (pare_vec3){0.3 * cos(turn), -0.27 * sin(turn), 0};
        }
        double share[8], other[8];
        shares_of(count, at, 0.03, -0.02, share);
        least_norm(count, at, 0.03, -0.02, other);
        for (size_t i = 0; i < count; i++)
            assert_near(share[i], other[i], 1e-14);
    }
}

static double between(unsigned *run)
{
    return dice(run, 1000) / 999.0;
}

static void forces_moments_and_yaw_balance_for_any_pattern(void **state)
{
    (void)state;
    unsigned run = 7;
    for (int round = 0; round < 200; round++) {
        const size_t count = 3 + dice(&run, 6);
        pare_vec3 at[8];
        for (size_t i = 0; i < count; i++) {
            const double turn =
                6.28318530717958648 * ((double)i + 0.6 * between(&run)) / (double)count;
            const double reach = 0.1 + 0.2 * between(&run);
            at[i] = (pare_vec3){reach * cos(turn), -reach * sin(turn), 0};
        }
        const double x = 0.04 * between(&run) - 0.02, y = 0.04 * between(&run) - 0.02;
        double share[8], whole = 0, pitch = 0, roll = 0, yaw = 0;
        shares_of(count, at, x, y, share);
        for (size_t i = 0; i < count; i++) {
            whole += share[i];
            pitch += share[i] * (at[i].x - x);
            roll += share[i] * (at[i].y - y);
            yaw += count % 2 ? 0 : i % 2 ? -share[i] : share[i];
        }
        assert_near(whole, 1, 1e-12);
        assert_near(pitch, 0, 1e-12);
        assert_near(roll, 0, 1e-12);
        assert_near(yaw, 0, 1e-12);
    }
}

static void pairs_one_above_the_other_carry_alike(void **state)
{
    (void)state;
    pare_vec3 at[8];
    double share[8];
    for (size_t i = 0; i < 8; i++)
        at[i] = square[i / 2];
    shares_of(8, at, 0.01, 0, share);
    for (size_t i = 0; i < 8; i += 2)
        assert_near(share[i], share[i + 1], 1e-15);
    assert_near(share[0], 0.125 * 1.1, 1e-15);
}

static void what_cannot_balance_is_refused(void **state)
{
    (void)state;
    const pare_vec3 line[] = {{0.1, 0, 0}, {0.05, 0, 0}, {-0.1, 0, 0}};
    const pare_vec3 heap[] = {{0.1, 0, 0}, {0.1, 0, 0}, {0.1, 0, 0}};
    pare_error err = {PARE_OK, ""};
    double share[4] = {7, 7, 7, 7};
    assert_int_equal(pare_thrust_shares(3, line, 0, 0.01, share, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "stand in a line"));
    assert_int_equal(pare_thrust_shares(3, heap, 0.1, 0, share, &err), PARE_BAD_DATA);
    assert_int_equal(pare_thrust_shares(2, line, 0, 0, share, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "2 rotors: 3 to 16 would be right");
    assert_int_equal(pare_thrust_shares(4, square, (double)NAN, 0, share, &err), PARE_BAD_DATA);
    assert_near(share[0], 7, 0);
    shares_of(4, square, 0.11, 0, share);
    assert_true(share[2] < 0);
    assert_true(isinf(pare_share_uneven(4, share)));
    /* A rotor that pulls nothing is as far off as one that would have to push. */
    const double idle[4] = {0, 0.5, 0.25, 0.25};
    assert_true(isinf(pare_share_uneven(4, idle)));
    assert_near(pare_share_uneven(0, idle), 0, 0);
}

/* ---- what it costs ---- */

typedef struct fixture {
    pare_prop prop;
    pare_rig rig;
} fixture;

static void craft(fixture *f)
{
    const pare_prop_size size = {.diameter_m = 5.1 * INCH, .pitch_m = 4.3 * INCH, .blades = 3};
    assert_int_equal(pare_prop_from_size(&size, &published_family, &f->prop, NULL), PARE_OK);
    pare_rig_defaults(&f->rig);
    pare_rig *r = &f->rig;
    r->mass_kg = 0.68;
    r->rotor.prop = &f->prop;
    r->motor.kv_rpm_per_v = 1950;
    r->motor.resistance_ohm = 0.065;
    r->motor.no_load_a = 1.2;
    r->motor.mass_kg = 0.033;
    r->pack.cells = 6;
    r->pack.capacity_c = 1.3 * 3600;
    assert_int_equal(pare_air_standard(0, &r->air, NULL), PARE_OK);
    r->drag_m2 = 0.008;
    r->drag_top_m2 = 0.016;
    r->always_w = 4;
}

static double hover_a(const pare_rig *rig)
{
    pare_operating point;
    pare_error err = {PARE_OK, ""};
    if (pare_rig_thrust(rig, 1, 0.5, &point, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return point.pack_a;
}

static double each_a(const pare_rig *rig, double x_m, double y_m, pare_each each[4])
{
    double share[4], pack_a;
    pare_error err = {PARE_OK, ""};
    shares_of(4, square, x_m, y_m, share);
    if (pare_rig_each(rig, share, 0.5, each, &pack_a, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return pack_a;
}

static void motors_by_themselves_draw_what_hover_says(void **state)
{
    (void)state;
    /* The fitted drive loses watts to its pulses too, which fade with the volts of each motor. */
    static const pare_drive *const drives[] = {&pare_drive_published, &pare_drive_fitted};
    for (size_t i = 0; i < sizeof drives / sizeof drives[0]; i++) {
        fixture f;
        pare_each each[4];
        craft(&f);
        pare_rig_drive(drives[i], &f.rig);
        assert_within(each_a(&f.rig, 0, 0, each), hover_a(&f.rig), 1e-9);
        /* Off along one axis two halves are the very state; across both, to the fourth order. */
        f.rig.uneven = 0.2;
        assert_within(hover_a(&f.rig), each_a(&f.rig, 0.02, 0, each), 1e-9);
        assert_true(each[0].output > each[2].output && each[0].current_a > each[2].current_a);
        f.rig.uneven = hypot(0.1, 0.1);
        assert_within(hover_a(&f.rig), each_a(&f.rig, 0.01, 0.01, each), 1e-5);
    }
}

static void an_off_centre_mass_costs_with_its_square(void **state)
{
    (void)state;
    /* Power between the 1/2 power of thrust (iron, -1/8 s^2) and its square (copper, s^2), most of it with
     * the 3/2 (3/8 s^2): the second derivatives of those powers. */
    fixture f;
    pare_each each[4];
    craft(&f);
    const double even_a = each_a(&f.rig, 0, 0, each);
    const double one = each_a(&f.rig, 0.01, 0, each) / even_a - 1;
    const double two = each_a(&f.rig, 0.02, 0, each) / even_a - 1;
    assert_between(one / (0.1 * 0.1), 0.2, 0.6);
    assert_within(two / one, 4, 0.02);
}

static void minutes_know_about_it(void **state)
{
    (void)state;
    fixture f;
    const pare_flown hovering = {PARE_FLOWN_THRUST, 1, 1}, harder = {PARE_FLOWN_THRUST, 1, 1.5};
    const pare_landing landing = {3.5, 0.2};
    pare_endurance even, uneven;
    craft(&f);
    for (int i = 0; i < 2; i++) {
        const pare_flown *flown = i ? &harder : &hovering;
        f.rig.uneven = 0;
        assert_int_equal(pare_rig_endure(&f.rig, 1, flown, &landing, &even, NULL), PARE_OK);
        f.rig.uneven = 0.3;
        assert_int_equal(pare_rig_endure(&f.rig, 1, flown, &landing, &uneven, NULL), PARE_OK);
        assert_between(even.time_s / uneven.time_s, 1.01, 1.06);
    }
    pare_operating point;
    assert_int_equal(pare_rig_thrust(&f.rig, 1.5, 0.5, &point, NULL), PARE_OK);
    f.rig.uneven = 0;
    pare_operating alike;
    assert_int_equal(pare_rig_thrust(&f.rig, 1.5, 0.5, &alike, NULL), PARE_OK);
    assert_between(point.pack_a / alike.pack_a, 1.01, 1.06);
}

static void a_craft_that_would_need_a_pull_does_not_fly(void **state)
{
    (void)state;
    fixture f;
    pare_operating point;
    pare_error err = {PARE_OK, ""};
    craft(&f);
    f.rig.uneven = (double)INFINITY;
    assert_int_equal(pare_rig_thrust(&f.rig, 1, 0.5, &point, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "would have to pull down"));
    f.rig.uneven = (double)NAN;
    assert_int_equal(pare_rig_thrust(&f.rig, 1, 0.5, &point, &err), PARE_BAD_DATA);
    f.rig.uneven = 1.3; /* three rotors may spread so far with all pushing */
    assert_int_equal(pare_rig_thrust(&f.rig, 1, 0.5, &point, &err), PARE_OK);
}

static void a_motor_past_full_output_is_named(void **state)
{
    (void)state;
    fixture f;
    pare_each each[4] = {{.output = 7}};
    double share[4], pack_a = 7;
    pare_error err = {PARE_OK, ""};
    craft(&f);
    f.rig.pack.cells = 3;
    f.rig.mass_kg = 1.3;
    shares_of(4, square, 0, 0.06, share);
    assert_int_equal(pare_rig_each(&f.rig, share, 0.5, each, &pack_a, &err), PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "motor 1 would need more than full output to hold the balance in hover");
    assert_near(each[0].output, 7, 0);
    assert_near(pack_a, 7, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_square_craft_shares_as_statics_says),
        cmocka_unit_test(a_wide_front_shares_as_a_lever_does),
        cmocka_unit_test(three_rotors_have_one_answer),
        cmocka_unit_test(more_rotors_share_with_the_least_norm),
        cmocka_unit_test(forces_moments_and_yaw_balance_for_any_pattern),
        cmocka_unit_test(pairs_one_above_the_other_carry_alike),
        cmocka_unit_test(what_cannot_balance_is_refused),
        cmocka_unit_test(motors_by_themselves_draw_what_hover_says),
        cmocka_unit_test(an_off_centre_mass_costs_with_its_square),
        cmocka_unit_test(minutes_know_about_it),
        cmocka_unit_test(a_craft_that_would_need_a_pull_does_not_fly),
        cmocka_unit_test(a_motor_past_full_output_is_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
