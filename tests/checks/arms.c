/* rooms: physics base */
/* Motor arms against closed forms and published roots of the clamped beam. */
#include "near.h"

#include <math.h>

#include "physics/arm.h"
#include "physics/laminate.h"

static const double pi = 3.14159265358979323846;

static void a_plate_arm_bends_and_rings_as_worked_apart(void **state)
{
    (void)state;
    /* The closed forms worked apart from this code: 12 x 5 mm, 110 mm, 60 GPa, 1600 kg/m3, 36 g. */
    pare_arm arm = pare_arm_defaults();
    arm.width_m = 12e-3;
    arm.thickness_m = 5e-3;
    arm.length_m = 0.110;
    arm.flexural_pa = 60e9;
    arm.tip_kg = 0.036;
    pare_arm_figures figures;
    assert_int_equal(pare_arm_work_out(&arm, &figures, NULL), PARE_OK);
    assert_within(figures.bending_hz, 105.4759, 1e-6);
    assert_within(12 * figures.m_per_n * 1e3, 0.709867, 2e-6);
}

static void a_tube_arm_rings_as_worked_apart(void **state)
{
    (void)state;
    /* 12/10 mm, 150 mm, 70 GPa, 1550 kg/m3, 45 g: 133.085514 Hz from the exact root of the clamped
     * beam with a tip mass, so the arm's 33/140 is good to 1e-4 here. */
    pare_arm arm = pare_arm_defaults();
    arm.form = PARE_ARM_TUBE;
    arm.width_m = 12e-3;
    arm.thickness_m = 1e-3;
    arm.length_m = 0.150;
    arm.flexural_pa = 70e9;
    arm.density_kg_m3 = 1550;
    arm.tip_kg = 0.045;
    pare_arm_figures figures;
    assert_int_equal(pare_arm_work_out(&arm, &figures, NULL), PARE_OK);
    assert_within(figures.bending_hz, 133.085514, 1e-4);
}

static void frequencies_lie_over_the_exact_roots_by_what_is_said(void **state)
{
    (void)state;
    /* First root b of 1 + cos b cosh b + mu b (cos b sinh b - sin b cosh b) = 0, b^2 by tip mass over
     * arm mass: Math. Probl. Eng. 2017/1568019 (mu 1), the others by the same equation. */
    static const struct {
        double mu, root2, high;
    } table[] = {{0, 3.516015269, 1.465e-2},
                 {0.5, 2.016298982, 1.50e-3},
                 {1, 1.557297861, 5.3e-4},
                 {5, 0.756937339, 3e-5}};
    for (size_t i = 0; i < 4; i++) {
        pare_arm arm = pare_arm_defaults();
        arm.width_m = 10e-3;
        arm.thickness_m = 4e-3;
        arm.length_m = 0.1;
        pare_arm_figures figures;
        assert_int_equal(pare_arm_work_out(&arm, &figures, NULL), PARE_OK);
        arm.tip_kg = table[i].mu * figures.mass_kg;
        assert_int_equal(pare_arm_work_out(&arm, &figures, NULL), PARE_OK);
        const double line_kg_m = figures.mass_kg / arm.length_m;
        const double exact_hz = table[i].root2 / (2 * pi * arm.length_m * arm.length_m) *
                                sqrt(arm.flexural_pa * figures.second_moment_m4 / line_kg_m);
        assert_near(figures.bending_hz / exact_hz - 1, table[i].high, 1e-5);
    }
}

static void a_square_bar_twists_as_saint_venant_says(void **state)
{
    (void)state;
    /* Saint-Venant: a square of side a has 0.1406 a^4 (Timoshenko and Goodier, Theory of Elasticity,
     * from memory); b t^3 (1/3 - 0.21 t/b) gives 0.1233 there, and 0.3123 b t^3 at ten to one, where
     * the exact is 0.312. Motor arms are 2 to 1 and wider: 0.229 exact, 0.2283 here. */
    pare_arm arm = pare_arm_defaults();
    arm.width_m = 10e-3;
    arm.thickness_m = 5e-3;
    arm.length_m = 0.1;
    arm.tip_inertia_kg_m2 = 5e-6;
    pare_arm_figures figures;
    assert_int_equal(pare_arm_work_out(&arm, &figures, NULL), PARE_OK);
    const double twist_m4 = 0.229 * 10e-3 * 125e-9;
    assert_within(figures.torsion_hz, sqrt(arm.shear_pa * twist_m4 / (0.1 * 5e-6)) / (2 * pi),
                  3e-3);
}

static void the_same_crash_at_less_mass_needs_less_plate(void **state)
{
    (void)state;
    /* Closed form: stress F L c/I over a rectangle goes with F/t^2. */
    pare_arm heavy = pare_arm_defaults();
    heavy.width_m = 12e-3;
    heavy.thickness_m = 5e-3;
    heavy.length_m = 0.11;
    pare_arm light = heavy;
    light.thickness_m = pare_arm_same_stress_m(5e-3, 0.650, 0.550);
    pare_arm_figures before, after;
    assert_int_equal(pare_arm_work_out(&heavy, &before, NULL), PARE_OK);
    assert_int_equal(pare_arm_work_out(&light, &after, NULL), PARE_OK);
    assert_within(after.pa_per_n * 0.550, before.pa_per_n * 0.650, 1e-12);
}

static void sizes_that_cannot_be_are_refused(void **state)
{
    (void)state;
    pare_arm arm = pare_arm_defaults();
    pare_arm_figures figures;
    pare_error err;
    arm.width_m = 12e-3;
    arm.thickness_m = 5e-3;
    assert_int_equal(pare_arm_work_out(&arm, &figures, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "length 0 mm: 5 to 1000 mm would be right");
    arm.length_m = 0.1;
    arm.form = PARE_ARM_TUBE;
    arm.thickness_m = 7e-3;
    assert_int_equal(pare_arm_work_out(&arm, &figures, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "wall 7 mm: half of the outside diameter 12 mm is the most");
}

#define CROSS 1.5707963267948966

static void outer_layers_decide_in_bending(void **state)
{
    (void)state;
    /* Lamina of Acta Mechanica et Automatica 2025: 103.01411, 7.36145, 4.04053 GPa, 0.37; the stack
     * [0/90/0/90]s: 55.5973 GPa pulled, 73.6440 bent. */
    const pare_ply ply = {103.01411e9, 7.36145e9, 4.04053e9, 0.37};
    const double stack[] = {0, CROSS, 0, CROSS, CROSS, 0, CROSS, 0};
    pare_laminate along, across;
    assert_int_equal(pare_laminate_work_out(&ply, 8, stack, &along, NULL), PARE_OK);
    assert_within(along.stretch_pa, 55.5973e9, 2e-6);
    assert_within(along.bend_pa, 73.6440e9, 2e-6);
    /* The other way the layers next to the middle are the stiff ones. */
    const double turned[] = {CROSS, 0, CROSS, 0, 0, CROSS, 0, CROSS};
    assert_int_equal(pare_laminate_work_out(&ply, 8, turned, &across, NULL), PARE_OK);
    assert_within(across.stretch_pa, along.stretch_pa, 1e-9);
    assert_true(across.bend_pa < 0.6 * along.bend_pa);
}

static void one_layer_is_a_laminate_of_its_own(void **state)
{
    (void)state;
    /* Law: a stack of one layer, however thinly it is cut, is as stiff as that layer at that angle. */
    const pare_ply ply = {130e9, 9e9, 4.5e9, 0.3};
    for (double angle = 0; angle < 1.6; angle += 0.2) {
        double stack[7];
        for (int i = 0; i < 7; i++)
            stack[i] = angle;
        pare_laminate laminate;
        assert_int_equal(pare_laminate_work_out(&ply, 7, stack, &laminate, NULL), PARE_OK);
        assert_within(laminate.stretch_pa, pare_ply_modulus_pa(&ply, angle), 1e-9);
        assert_within(laminate.bend_pa, pare_ply_modulus_pa(&ply, angle), 1e-9);
    }
}

static void an_isotropic_layer_has_no_direction(void **state)
{
    (void)state;
    /* Law: G = E / (2 (1 + nu)) makes all directions alike. */
    const pare_ply metal = {70e9, 70e9, 70e9 / 2.66, 0.33};
    for (double angle = 0; angle < 1.6; angle += 0.1) {
        assert_within(pare_ply_modulus_pa(&metal, angle), 70e9, 1e-12);
        assert_within(pare_ply_shear_pa(&metal, angle), 70e9 / 2.66, 1e-12);
    }
}

static void three_directions_make_a_plate_quasi_isotropic(void **state)
{
    (void)state;
    /* Law: 0/60/-60 pulls alike in all directions (Jones, Mechanics of Composite Materials, ch. 4, from
     * memory). Common practice, no source: such a carbon plate has 35 to 50 GPa. */
    const pare_ply ply = {130e9, 9e9, 4.5e9, 0.3};
    for (double off = 0; off < 1; off += 0.2) {
        const double third = 1.0471975511965976;
        const double stack[] = {off, off + third, off - third, off - third, off + third, off};
        pare_laminate laminate;
        assert_int_equal(pare_laminate_work_out(&ply, 6, stack, &laminate, NULL), PARE_OK);
        assert_between(laminate.stretch_pa, 35e9, 52e9);
        assert_within(laminate.stretch_pa, 50.8e9, 0.02);
    }
    const pare_arm_cloth plate = pare_arm_cloth_of(PARE_CLOTH_QUASI, 0.5);
    assert_between(plate.middle_pa, 35e9, 48e9);
}

static void cloth_off_its_fibres_is_soft_to_bend_and_stiff_to_twist(void **state)
{
    (void)state;
    /* Common practice, no source: 45 to 70 GPa along woven carbon; at 45 degrees 10 to 20 GPa, with a
     * shear modulus of 20 to 35 GPa and half of the strength or less. */
    const pare_arm_cloth along = pare_arm_cloth_of(PARE_CLOTH_CROSS, 0);
    const pare_arm_cloth off = pare_arm_cloth_of(PARE_CLOTH_CROSS, CROSS / 2);
    assert_near(along.low_pa, 45e9, 1);
    assert_near(along.high_pa, 70e9, 1);
    assert_near(along.strength_pa, 400e6, 1);
    assert_between(off.low_pa, 10e9, off.middle_pa);
    assert_between(off.high_pa, off.middle_pa, 20e9);
    assert_between(off.shear_pa, 20e9, 35e9);
    assert_true(off.strength_pa < 0.5 * along.strength_pa);
}

static void a_tube_twists_as_the_closed_form_says(void **state)
{
    (void)state;
    /* Closed form: J = pi/32 (D^4 - d^4) of a round tube, f = sqrt(G J / (L I)) / 2 pi. */
    pare_arm arm = pare_arm_defaults();
    arm.form = PARE_ARM_TUBE;
    arm.width_m = 12e-3;
    arm.thickness_m = 1e-3;
    arm.length_m = 0.150;
    arm.tip_inertia_kg_m2 = 8e-6;
    pare_arm_figures figures;
    assert_int_equal(pare_arm_work_out(&arm, &figures, NULL), PARE_OK);
    const double twist_m4 = pi / 32 * (pow(12e-3, 4) - pow(10e-3, 4));
    assert_within(figures.torsion_hz, sqrt(4e9 * twist_m4 / (0.150 * 8e-6)) / (2 * pi), 1e-12);
    /* Closed form: tip slope F L^2/2EI over deflection F L^3/3EI. */
    assert_within(figures.turn_per_m, 1.5 / 0.150, 1e-12);
}

static void layers_that_cannot_be_are_refused(void **state)
{
    (void)state;
    const pare_ply ply = {130e9, 9e9, 4.5e9, 0.3}, odd = {130e9, 9e9, 4.5e9, 4};
    const double stack[] = {0, CROSS};
    pare_laminate laminate;
    pare_error err;
    assert_int_equal(pare_laminate_work_out(&ply, 0, stack, &laminate, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "0 layers: 1 to 64 would be right");
    assert_int_equal(pare_laminate_work_out(&ply, 2, stack, &laminate, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "layer 1 lies at 0 deg, its mate from the bottom at 90 deg: the "
                                  "same both ways would be right, or the plate warps");
    assert_int_equal(pare_laminate_work_out(&odd, 1, stack, &laminate, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "a layer's Poisson's ratio 4: 0 to under 3.8 would be right");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_plate_arm_bends_and_rings_as_worked_apart),
        cmocka_unit_test(a_tube_arm_rings_as_worked_apart),
        cmocka_unit_test(frequencies_lie_over_the_exact_roots_by_what_is_said),
        cmocka_unit_test(a_square_bar_twists_as_saint_venant_says),
        cmocka_unit_test(the_same_crash_at_less_mass_needs_less_plate),
        cmocka_unit_test(sizes_that_cannot_be_are_refused),
        cmocka_unit_test(outer_layers_decide_in_bending),
        cmocka_unit_test(one_layer_is_a_laminate_of_its_own),
        cmocka_unit_test(an_isotropic_layer_has_no_direction),
        cmocka_unit_test(three_directions_make_a_plate_quasi_isotropic),
        cmocka_unit_test(cloth_off_its_fibres_is_soft_to_bend_and_stiff_to_twist),
        cmocka_unit_test(a_tube_twists_as_the_closed_form_says),
        cmocka_unit_test(layers_that_cannot_be_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
