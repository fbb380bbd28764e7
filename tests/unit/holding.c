/* rooms: store craft physics base */
/* What a craft's screws hold: statics by hand, and how the answer moves with what it rests on. */
#include <math.h>
#include <stdlib.h>

#include "bench_of.h"
#include "craft/holding.h"
#include "near.h"
#include "store/bench.h"

typedef struct fixture {
    pare_bench *bench;
    pare_craft *craft;
    pare_sheet *sheet;
} fixture;

static int setup(void **state)
{
    fixture *f = calloc(1, sizeof *f);
    pare_error err = {0};
    f->bench = bench_of("../../demo/bench.yaml");
    f->craft = malloc(sizeof *f->craft);
    f->sheet = malloc(sizeof *f->sheet);
    *f->craft = *pare_bench_craft(f->bench, "hedgerow");
    if (pare_sheet_compute(f->craft, false, f->sheet, &err) != PARE_OK)
        fail_msg("%s", err.text);
    *state = f;
    return 0;
}

static int teardown(void **state)
{
    fixture *f = *state;
    pare_bench_close(f->bench);
    free(f->craft);
    free(f->sheet);
    free(f);
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

static void a_class_that_the_material_has_not_is_refused_by_name(void **state)
{
    fixture *f = *state;
    pare_holding h;
    pare_error err;
    joint_of(f, "stack")->grade = "9.9";
    assert_int_equal(pare_craft_holding(f->craft, f->sheet, joint_of(f, "stack"), 15, &h, &err),
                     PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "joint 'stack': class '9.9': steel screws come in 8.8, 10.9, 12.9");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(an_arms_screws_share_the_force_that_stops_the_craft, setup,
                                        teardown),
        cmocka_unit_test_setup_teardown(four_motor_screws_hold_what_statics_says, setup, teardown),
        cmocka_unit_test_setup_teardown(the_load_goes_with_energy_and_the_ratio_back, setup,
                                        teardown),
        cmocka_unit_test_setup_teardown(weaker_screws_and_fewer_hold_less, setup, teardown),
        cmocka_unit_test_setup_teardown(
            four_aluminium_screws_weigh_less_than_two_of_steel_and_hold_less, setup, teardown),
        cmocka_unit_test_setup_teardown(boards_stand_on_each_others_screws, setup, teardown),
        cmocka_unit_test_setup_teardown(a_joint_that_does_not_say_what_it_holds_carries_nothing,
                                        setup, teardown),
        cmocka_unit_test_setup_teardown(a_class_that_the_material_has_not_is_refused_by_name, setup,
                                        teardown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
