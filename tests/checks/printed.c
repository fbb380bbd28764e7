/* rooms: physics base */
/* Printed parts and materials against closed forms and handbook values. */
#include "near.h"

#include <math.h>
#include <string.h>

#include "physics/material.h"
#include "physics/printed.h"
#include "physics/screw_hold.h"
#include "physics/solid.h"

static void walls_and_infill_make_the_mass(void **state)
{
    (void)state;
    /* By hand, a cube of 20 mm: 8 cm3, 24 cm2; walls of 1.2 mm 2.88 cm3, the rest at 20 %. */
    const pare_printed cube = pare_printed_of(8e-6, 24e-4, 1.2e-3, 0.2, 1240);
    assert_within(cube.shell_kg, 1240 * 2.88e-6, 1e-12);
    assert_within(cube.infill_kg, 1240 * 0.2 * 5.12e-6, 1e-12);
    assert_within(cube.shell_kg + cube.infill_kg, pare_printed_kg(8e-6, 24e-4, 1.2e-3, 0.2, 1240),
                  1e-12);
}

static void a_gram_of_wall_is_worth_more_than_a_gram_of_infill(void **state)
{
    (void)state;
    /* Gibson and Ashby, Cellular Solids, 2nd ed., ch. 5 (from memory): an open-cell foam of a tenth has
     * 0.3 x 0.1^1.5 = 0.0095 of the strength and 0.01 of the stiffness. */
    const pare_printed core = pare_printed_of(1e-6, 0, 1e-9, 0.1, 1000);
    assert_within(core.bears * 0.1, 0.3 * pow(0.1, 1.5), 1e-9);
    assert_within(core.stiffens * 0.1, 0.01, 1e-9);
    double last = 1;
    for (double infill = 0.05; infill < 0.6; infill += 0.1) {
        const pare_printed part = pare_printed_of(8e-6, 24e-4, 1.2e-3, infill, 1240);
        assert_true(part.bears < last);
        last = part.bears;
    }
    /* All wall, or filled: the material itself. */
    assert_near(pare_printed_of(8e-6, 24e-4, 9e-3, 0.2, 1240).bears, 1, 1e-12);
    assert_near(pare_printed_of(8e-6, 24e-4, 1.2e-3, 1, 1240).bears, 1, 1e-12);
    assert_near(pare_printed_of(8e-6, 24e-4, 1.2e-3, 1, 1240).stiffens, 1, 1e-12);
}

static void a_strand_is_hookes(void **state)
{
    (void)state;
    /* Closed form: F = sigma A, k = E A / L, m = rho A L. Steel, 1 mm2 over 1 m: 7.85 g. */
    const double m = 7850 * 1e-6 * 1;
    assert_within(pare_strand_bears_n_kg(400e6, 7850, 1) * m, 400, 1e-12);
    assert_within(pare_strand_stiff_n_m_kg(206e9, 7850, 1) * m, 206e3, 1e-12);
}

static void materials_are_as_handbooks_have_them(void **state)
{
    (void)state;
    /* Specific strength in kN m/kg and specific modulus in MN m/kg, handbook values from memory: structural
     * metals have all about 25 to 27 MN m/kg; nylon 40 to 75 kN m/kg, PLA 35 to 55. */
    static const char *const metals[] = {"aluminium", "steel", "titanium"};
    for (size_t i = 0; i < 3; i++) {
        const pare_material *metal = pare_material_named(metals[i]);
        assert_between(1e-6 * metal->bend_pa / metal->density_kg_m3, 24, 28);
    }
    const pare_material *nylon = pare_material_named("nylon"), *pla = pare_material_named("pla");
    assert_between(1e-3 * nylon->strength_pa / nylon->density_kg_m3, 40, 75);
    assert_between(1e-3 * pla->strength_pa / pla->density_kg_m3, 35, 55);
    assert_true(pla->printed && !nylon->printed);
    assert_null(pare_material_named("unobtainium"));
    assert_null(pare_material_named(NULL));
    size_t count = 0;
    for (; pare_material_at(count); count++)
        assert_ptr_equal(pare_material_named(pare_material_at(count)->name),
                         pare_material_at(count));
    assert_true(count >= 16);
}

static void screws_carry_more_a_gram_than_anything_printed(void **state)
{
    (void)state;
    /* Common practice, no source: what is printed bears a few per cent of what a screw of its mass does. */
    pare_strength steel;
    assert_int_equal(pare_screw_strength(PARE_STEEL, "12.9", &steel, NULL), PARE_OK);
    const double screw = pare_strand_bears_n_kg(steel.tensile_pa, 7850, 0.05);
    for (size_t i = 0; pare_material_at(i); i++) {
        const pare_material *m = pare_material_at(i);
        if (!m->printed)
            continue;
        const double solid = pare_strand_bears_n_kg(m->strength_pa, m->density_kg_m3, 0.05);
        assert_between(solid / screw, 0.05, 0.5);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(walls_and_infill_make_the_mass),
        cmocka_unit_test(a_gram_of_wall_is_worth_more_than_a_gram_of_infill),
        cmocka_unit_test(a_strand_is_hookes),
        cmocka_unit_test(materials_are_as_handbooks_have_them),
        cmocka_unit_test(screws_carry_more_a_gram_than_anything_printed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
