/* rooms: store craft physics base */
/* A craft's arms: what they are read as, what they weigh and what sits on them. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench_of.h"
#include "craft/arm_facts.h"
#include "craft/body.h"
#include "craft_fixture.h"
#include "near.h"
#include "store/bench.h"

static int setup(void **state)
{
    *state = fixture_open("../../demo/bench.yaml", "hedgerow");
    return 0;
}

static pare_arm_facts facts_of(fixture *f)
{
    pare_arm_facts facts;
    assert_true(pare_craft_arm_facts(f->craft, fixture_sheet(f, false), &facts));
    return facts;
}

/* A frame whose arms are as the text says, on its own bench. */
static pare_bench *frame_of(const char *arms)
{
    char text[512];
    snprintf(
        text, sizeof text,
        "pare: 1\nparts:\n- {id: fr, kind: frame, body: {arms: [[80 mm, 80 mm], [80 mm, -80 mm], "
        "[-80 mm, -80 mm], [-80 mm, 80 mm]], root: 20 mm, %s}}\n",
        arms);
    return bench_of_text(text);
}

static void a_tube_is_typed_by_its_outside_and_inside(void **state)
{
    (void)state;
    pare_bench *bench = frame_of("tube: [12 mm, 10 mm], flexural: 90 GPa");
    const pare_piece *arms = pare_bench_part(bench, "fr")->piece;
    assert_true(arms->tube);
    assert_near(arms->section_m[0], 12e-3, 1e-15);
    assert_near(arms->section_m[1], 1e-3, 1e-15);
    assert_near(arms->flexural_pa, 90e9, 1);
    assert_near(pare_piece_arm_deep_m(arms), 12e-3, 1e-15);
    /* Closed form: pi/4 (D^2 - d^2) times the free length, carbon 1600 kg/m3. */
    const double area = acos(-1) / 4 * (144e-6 - 100e-6);
    const double length = 4 * (80e-3 * sqrt(2) - 20e-3);
    assert_within(pare_bench_part(bench, "fr")->mass_kg.value, 1600 * area * length, 1e-9);
    pare_bench_close(bench);
}

static void a_thick_tube_turns_as_a_bar_of_its_moment(void **state)
{
    (void)state;
    /* Law: the yaw inertia of slim arms is that of rods; tube and bar of one mass differ by what lies
     * across, under 1 %. */
    pare_bench *tube = frame_of("tube: [10 mm, 8 mm]"), *bar = frame_of("section: [10 mm, 5 mm]");
    const pare_mat3 straight = pare_turn_zyx(0, 0, 0);
    pare_body one, other;
    assert_int_equal(pare_part_body(pare_bench_part(tube, "fr"), &straight, &one, NULL), PARE_OK);
    assert_int_equal(pare_part_body(pare_bench_part(bar, "fr"), &straight, &other, NULL), PARE_OK);
    assert_within(one.inertia_kg_m2.zz, other.inertia_kg_m2.zz, 0.01);
    assert_near(one.at_m.z, -5e-3, 1e-12);
    assert_near(other.at_m.z, -2.5e-3, 1e-12);
    pare_bench_close(tube);
    pare_bench_close(bar);
}

static void cloth_off_its_fibres_is_read(void **state)
{
    (void)state;
    pare_bench *bench = frame_of("section: [12 mm, 5 mm], cloth: 0/90, off_axis: 45 deg");
    const pare_piece *arms = pare_bench_part(bench, "fr")->piece;
    assert_within(arms->off_axis_rad, acos(-1) / 4, 1e-12);
    assert_near(arms->flexural_pa, 0, 0);
    pare_bench_close(bench);
}

static void what_is_stated_is_a_narrower_band(void **state)
{
    fixture *f = *state;
    const pare_arm_facts stated = facts_of(f);
    const int frame = pare_craft_doing(f->craft, PARE_FRAME);
    pare_part other = *f->craft->item[frame].part;
    pare_piece piece[16];
    memcpy(piece, other.piece, other.pieces * sizeof *piece);
    piece[0].flexural_pa = 0;
    other.piece = piece;
    f->craft->item[frame].part = &other;
    const pare_arm_facts cloth = facts_of(f);
    assert_true(stated.stated && !cloth.stated);
    /* 10 % either way of a stated modulus; 45 to 70 GPa of the cloth. */
    assert_within(stated.high_hz / stated.low_hz, sqrt(1.1 / 0.9), 1e-12);
    assert_within(cloth.high_hz / cloth.low_hz, sqrt(70.0 / 45), 1e-9);
    piece[0].off_axis_rad = acos(-1) / 4;
    const pare_arm_facts off = facts_of(f);
    assert_true(off.high_hz < cloth.low_hz);
    assert_true(off.twist_low_hz > cloth.twist_high_hz);
    f->craft->item[frame].part = pare_bench_craft(f->bench, "hedgerow")->item[frame].part;
}

static void a_bumper_lowers_the_frequency_by_its_grams(void **state)
{
    fixture *f = *state;
    const pare_arm_facts with = facts_of(f);
    pare_item *bumper = &f->craft->item[pare_craft_item(f->craft, "bumper")];
    bumper->off = true;
    const pare_arm_facts without = facts_of(f);
    assert_within(with.tip_kg - without.tip_kg, bumper->part->mass_kg.value, 1e-9);
    assert_within(with.protects_kg, bumper->part->mass_kg.value, 1e-9);
    assert_within(with.bare_hz, without.figures.bending_hz, 1e-9);
    /* Half of the way along an arm a gram counts by the square of 5/16. */
    bumper->off = false;
    const pare_piece *arms = pare_craft_arm_piece(f->craft);
    const double root = arms->root_m / hypot(arms->at_m[0].x, arms->at_m[0].y);
    bumper->along_arm = root + 0.5 * (1 - root);
    const pare_arm_facts half = facts_of(f);
    assert_within(half.tip_kg - without.tip_kg, bumper->part->mass_kg.value * 25 / 256, 1e-9);
}

static void a_tip_holds_motor_propeller_nut_and_screws(void **state)
{
    fixture *f = *state;
    f->craft->item[pare_craft_item(f->craft, "tie")].off = true;
    const pare_arm_facts facts = facts_of(f);
    double sum_kg = 0;
    static const char *const names[] = {"motor", "propeller", "nut", "bumper", "motor_base"};
    for (size_t i = 0; i < f->sheet->assembly.lines; i++)
        for (size_t k = 0; k < sizeof names / sizeof names[0]; k++)
            if (strcmp(f->sheet->assembly.line[i].name, names[k]) == 0)
                sum_kg += f->sheet->assembly.line[i].mass_kg.value / 4;
    assert_within(facts.tip_kg, sum_kg, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_tube_is_typed_by_its_outside_and_inside),
        cmocka_unit_test(a_thick_tube_turns_as_a_bar_of_its_moment),
        cmocka_unit_test(cloth_off_its_fibres_is_read),
        cmocka_unit_test_setup_teardown(what_is_stated_is_a_narrower_band, setup, fixture_close),
        cmocka_unit_test_setup_teardown(a_bumper_lowers_the_frequency_by_its_grams, setup,
                                        fixture_close),
        cmocka_unit_test_setup_teardown(a_tip_holds_motor_propeller_nut_and_screws, setup,
                                        fixture_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
