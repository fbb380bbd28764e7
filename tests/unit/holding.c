/* rooms: store craft physics base */
/* What a craft's screws hold: statics by hand, and how the answer moves with what it rests on. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "craft/holding.h"
#include "craft_fixture.h"
#include "near.h"
#include "store/bench.h"

static int setup(void **state)
{
    fixture *f = fixture_open("../../demo/bench.yaml", "hedgerow");
    fixture_sheet(f, false);
    *state = f;
    return 0;
}

static pare_joint *joint_of(fixture *f, const char *name)
{
    const int at = pare_craft_joint(f->craft, name);
    assert_true(at >= 0);
    return &f->craft->joint[at];
}

static pare_holding holding_of(fixture *f, const char *name, double speed_m_s)
{
    pare_holding h;
    pare_error err = {0};
    if (pare_craft_holding(f->craft, f->sheet, joint_of(f, name), speed_m_s, &h, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return h;
}

static void an_arms_screws_share_the_force_that_stops_the_craft(void **state)
{
    fixture *f = *state;
    const pare_holding h = holding_of(f, "arm_root", 15);
    const int arm = joint_of(f, "arm_root")->count / 4;
    assert_int_equal(h.together, arm);
    assert_within(h.crash.shear_n, f->sheet->rig.mass_kg * 15 * 15 / (2 * 0.030) / arm, 1e-12);
}

static void four_motor_screws_hold_what_statics_says(void **state)
{
    fixture *f = *state;
    const pare_holding h = holding_of(f, "motor_base", 15);
    assert_int_equal(h.together, 4);
    /* A base turned by 45 degrees: two screws at R + r cos 45, two at R - r cos 45 from the edge, R
     * 1.25 r; turned by 0: at R + r, R, R and R - r. The worse of both. */
    const double r = h.circle_m, big = 1.25 * r, c = r * sqrt(0.5);
    const double diagonal = (big + c) / (2 * ((big + c) * (big + c) + (big - c) * (big - c)));
    const double square =
        (big + r) / ((big + r) * (big + r) + 2 * big * big + (big - r) * (big - r));
    assert_within(h.crash.pull_n, h.tips_nm * fmax(diagonal, square), 1e-12);
}

static void the_load_goes_with_energy_and_the_ratio_back(void **state)
{
    fixture *f = *state;
    const pare_holding slow = holding_of(f, "motor_base", 10),
                       fast = holding_of(f, "motor_base", 20);
    assert_within(fast.crash.shear_n, 4 * slow.crash.shear_n, 1e-12);
    assert_within(pare_holding_ratio(&slow, &slow.crash),
                  4 * pare_holding_ratio(&fast, &fast.crash), 1e-12);
    assert_within(slow.flight.pull_n, fast.flight.pull_n, 1e-12);
}

static void weaker_screws_and_fewer_hold_less(void **state)
{
    fixture *f = *state;
    const pare_joint *joint = joint_of(f, "motor_base");
    const pare_holding h = holding_of(f, "motor_base", 15);
    double last = pare_holding_with(&h, joint, PARE_STEEL, 4);
    assert_within(last, pare_holding_ratio(&h, &h.crash), 1e-12);
    static const pare_screw_material weaker[] = {PARE_TITANIUM, PARE_ALUMINIUM_7075, PARE_ALUMINIUM,
                                                 PARE_NYLON};
    for (size_t i = 0; i < 4; i++) {
        const double ratio = pare_holding_with(&h, joint, weaker[i], 4);
        assert_true(ratio < last);
        last = ratio;
    }
    assert_true(pare_holding_with(&h, joint, PARE_STEEL, 3) <
                pare_holding_with(&h, joint, PARE_STEEL, 4));
    assert_true(pare_holding_with(&h, joint, PARE_STEEL, 2) <
                pare_holding_with(&h, joint, PARE_STEEL, 3));
}

static void four_aluminium_screws_weigh_less_than_two_of_steel_and_hold_less(void **state)
{
    fixture *f = *state;
    pare_joint *joint = joint_of(f, "motor_base");
    const pare_holding h = holding_of(f, "motor_base", 15);
    double steel_kg, aluminium_kg;
    assert_int_equal(pare_screw_kg(joint->standard, &joint->thread, joint->length_m, PARE_STEEL,
                                   &steel_kg, NULL),
                     PARE_OK);
    assert_int_equal(pare_screw_kg(joint->standard, &joint->thread, joint->length_m, PARE_ALUMINIUM,
                                   &aluminium_kg, NULL),
                     PARE_OK);
    assert_true(4 * aluminium_kg < 2 * steel_kg);
    assert_true(pare_holding_with(&h, joint, PARE_ALUMINIUM, 4) <
                pare_holding_with(&h, joint, PARE_STEEL, 2));
}

static void boards_stand_on_each_others_screws(void **state)
{
    fixture *f = *state;
    pare_joint *joint = joint_of(f, "stack");
    const double by_esc = holding_of(f, "stack", 15).crash.shear_n;
    joint->holds = "brain";
    assert_within(holding_of(f, "stack", 15).crash.shear_n, by_esc, 1e-12);
}

static void a_joint_that_does_not_say_what_it_holds_carries_nothing(void **state)
{
    fixture *f = *state;
    joint_of(f, "stack")->holds = NULL;
    const pare_holding h = holding_of(f, "stack", 15);
    assert_int_equal(h.holds, PARE_HOLDS_NOT_KNOWN);
    assert_true(isinf(pare_holding_ratio(&h, &h.crash)));
}

static const pare_margin *margin_of(fixture *f, const char *name)
{
    return pare_sheet_margin(fixture_sheet(f, true), name);
}

static void screws_reach_from_the_arm_to_the_winding(void **state)
{
    fixture *f = *state;
    pare_joint *joint = joint_of(f, "motor_base");
    /* The demo's frame has arms of 5 mm, its motor takes 6 mm; 10 mm screws are 5 mm in. */
    const pare_margin *depth = margin_of(f, "screw_depth.motor_base");
    assert_within(depth->value, 5, 1e-9);
    assert_within(depth->limit, 6, 1e-9);
    assert_within(depth->ratio, 6.0 / 5, 1e-9);
    assert_true(depth->ratio_u > 0 && depth->chance > 0.9);
    const pare_margin *grip = margin_of(f, "screw_grip.motor_base");
    assert_within(grip->value, 5, 1e-9);
    assert_within(grip->limit, 0.8 * 3, 1e-9); /* ISO 898-2: 0.8 of the diameter */
    joint->length_m = 12e-3;
    assert_true(margin_of(f, "screw_depth.motor_base")->ratio < 1);
    joint->length_m = 7e-3;
    assert_true(margin_of(f, "screw_grip.motor_base")->ratio < 1);
    joint->length_m = 4e-3; /* does not come through */
    assert_within(margin_of(f, "screw_grip.motor_base")->value, 1e-3, 1e-12);
    assert_true(margin_of(f, "screw_grip.motor_base")->ratio < 1e-3);
    assert_true(margin_of(f, "joint_crash.motor_base")->ratio < 0.1);
}

static void a_thicker_arm_takes_its_thickness_off_the_thread(void **state)
{
    fixture *f = *state;
    const pare_joint *joint = joint_of(f, "motor_base");
    const double was_m = pare_joint_enters_m(f->craft, joint);
    const int frame = pare_craft_item(f->craft, "frame");
    f->craft->item[frame].part = pare_bench_part(f->bench, "fr-anvil-5"); /* arms of 6 mm */
    assert_near(pare_joint_enters_m(f->craft, joint), was_m - 1e-3, 1e-9);
    assert_near(pare_joint_needed_m(f->craft, joint), 9e-3, 1e-9);
}

static void washers_under_the_heads_take_theirs(void **state)
{
    fixture *f = *state;
    const pare_joint *joint = joint_of(f, "motor_base");
    const double was_m = pare_joint_enters_m(f->craft, joint);
    f->craft->joint[f->craft->joints++] = (pare_joint){.name = "motor_washers",
                                                       .standard = PARE_ISO7089,
                                                       .thread = joint->thread,
                                                       .material = PARE_STEEL,
                                                       .count = 16,
                                                       .holds = "motor"};
    assert_near(pare_joint_enters_m(f->craft, joint), was_m - 0.5e-3, 1e-9);
    pare_holding h;
    assert_int_equal(pare_craft_holding(f->craft, f->sheet, &f->craft->joint[f->craft->joints - 1],
                                        15, &h, NULL),
                     PARE_BAD_DATA);
    assert_true(holding_of(f, "motor_base", 15).grip.washer_across_m == 7e-3);
}

static void a_depth_that_nobody_states_is_estimated_from_the_stator(void **state)
{
    fixture *f = *state;
    const int motor = pare_craft_item(f->craft, "motor");
    f->craft->item[motor].part = pare_bench_part(f->bench, "mo-2207-2550"); /* says no depth */
    const pare_value depth_m = pare_joint_depth_m(f->craft, joint_of(f, "motor_base"));
    assert_false(depth_m.given);
    assert_int_equal(depth_m.known, PARE_ESTIMATED);
    assert_within(depth_m.value, 0.2 * 22e-3, 1e-9);
    assert_within(depth_m.u, 0.2 * depth_m.value, 1e-9);
    assert_non_null(strstr(margin_of(f, "screw_depth.motor_base")->from, "estimated"));
}

static void nuts_are_what_their_screws_go_into(void **state)
{
    fixture *f = *state;
    pare_joint *nuts = joint_of(f, "cage_nuts");
    const double steel_n = holding_of(f, "cage_bolts", 15).hold.strip_hole_n;
    nuts->material = PARE_NYLON;
    const double nylon_n = holding_of(f, "cage_bolts", 15).hold.strip_hole_n;
    assert_within(nylon_n / steel_n, 70.0 / 800, 1e-9);
}

static void a_standoff_bears_by_its_wall_and_not_by_a_thread(void **state)
{
    fixture *f = *state;
    const pare_holding h = holding_of(f, "standoffs", 15);
    /* 270 MPa on 5 mm less M3; two hinges of a plastic moment of 230 MPa over 30 mm. */
    assert_within(h.breaks_n, 270 * 0.78539816339744831 * (25 - 9), 1e-9);
    assert_within(h.shears_n, 2 * 230.0 * (125 - 27) / 6 / 30, 1e-9);
    const pare_joint *joint = joint_of(f, "standoffs");
    assert_true(pare_holding_with(&h, joint, PARE_NYLON, 6) < pare_holding_ratio(&h, &h.crash) / 3);
    assert_true(pare_holding_with(&h, joint, PARE_TITANIUM, 6) > pare_holding_ratio(&h, &h.crash));
}

static void a_class_that_the_material_has_not_is_refused_by_name(void **state)
{
    fixture *f = *state;
    pare_holding h;
    pare_error err;
    joint_of(f, "stack")->grade = "9.9";
    assert_int_equal(pare_craft_holding(f->craft, f->sheet, joint_of(f, "stack"), 15, &h, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "joint 'stack': class '9.9': steel screws come in 8.8, 10.9, 12.9, 4.8, "
                        "5.8");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(an_arms_screws_share_the_force_that_stops_the_craft, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(four_motor_screws_hold_what_statics_says, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(the_load_goes_with_energy_and_the_ratio_back, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(weaker_screws_and_fewer_hold_less, setup, fixture_close),
        cmocka_unit_test_setup_teardown(
            four_aluminium_screws_weigh_less_than_two_of_steel_and_hold_less, setup, fixture_close),
        cmocka_unit_test_setup_teardown(boards_stand_on_each_others_screws, setup, fixture_close),
        cmocka_unit_test_setup_teardown(a_joint_that_does_not_say_what_it_holds_carries_nothing,
                                        setup, fixture_close),
        cmocka_unit_test_setup_teardown(screws_reach_from_the_arm_to_the_winding, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(a_thicker_arm_takes_its_thickness_off_the_thread, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(washers_under_the_heads_take_theirs, setup, fixture_close),
        cmocka_unit_test_setup_teardown(a_depth_that_nobody_states_is_estimated_from_the_stator,
                                        setup, fixture_close),
        cmocka_unit_test_setup_teardown(nuts_are_what_their_screws_go_into, setup, fixture_close),
        cmocka_unit_test_setup_teardown(a_standoff_bears_by_its_wall_and_not_by_a_thread, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(a_class_that_the_material_has_not_is_refused_by_name, setup,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
