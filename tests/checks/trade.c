/* rooms: store craft physics base */
/* Facts of the trade, computed from the demo's own parts and geometry.
 *
 * Every range here is common practice, no source: what builders read off their scales and flight
 * records. They show that the invented bench and the models together stay where pilots live; they
 * measure nothing. Masses of prints, screws and wire are computed, so a wrong mesh integral, thread
 * or gauge would leave its range. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "near.h"

#include "craft/sheet.h"
#include "physics/screw.h"
#include "physics/wire.h"
#include "store/bench.h"

static pare_bench *bench;
static pare_store *store;
static char path[] = "/tmp/pare-trade-XXXXXX";

static int open_demo(void **state)
{
    (void)state;
    pare_error err = {0};
    const int file = mkstemp(path);
    if (file < 0 || close(file) != 0 || unlink(path) != 0)
        return 1;
    pare_arena *arena = pare_arena_open();
    pare_import_summary summary = {0};
    const pare_import import = {.path = PARE_SOURCE_DIR "/demo/bench.yaml"};
    pare_status status = pare_store_open(path, PARE_STORE_CREATE, &store, &err);
    if (status == PARE_OK)
        status = pare_store_import_yaml(store, &import, arena, &summary, &err);
    if (status == PARE_OK)
        status = pare_store_read(store, &bench, &err);
    if (status != PARE_OK)
        fprintf(stderr, "%s\n", err.text);
    pare_arena_close(arena);
    return status != PARE_OK;
}

static int close_demo(void **state)
{
    (void)state;
    pare_bench_close(bench);
    pare_store_close(store);
    unlink(path);
    return 0;
}

static const pare_part *part(const char *id)
{
    const pare_part *found = pare_bench_part(bench, id);
    if (!found)
        fail_msg("the demo has no part '%s'", id);
    return found;
}

static double grams(const char *id)
{
    return 1e3 * part(id)->mass_kg.value;
}

static const pare_sheet *sheet_of(const char *name)
{
    static pare_sheet sheet;
    static pare_craft loaded;
    pare_error err = {0};
    const pare_craft *craft = pare_bench_craft(bench, name);
    assert_non_null(craft);
    assert_int_equal(pare_craft_load(craft, 0, &loaded, &err), PARE_OK);
    assert_int_equal(pare_sheet_compute(&loaded, false, &sheet, &err), PARE_OK);
    return &sheet;
}

static double figure(const pare_sheet *sheet, pare_figure figure)
{
    assert_true(sheet->figure[figure].exists);
    return sheet->figure[figure].value;
}

static double screw_g(pare_fastener standard, double length_mm, pare_screw_material material)
{
    pare_error err = {0};
    pare_thread thread;
    double mass_kg = NAN;
    assert_int_equal(pare_thread_named("M3", &thread, &err), PARE_OK);
    assert_int_equal(pare_screw_kg(standard, &thread, length_mm * 1e-3, material, &mass_kg, &err),
                     PARE_OK);
    return 1e3 * mass_kg;
}

/* ---- parts ---- */

static void a_bulky_printed_camera_holder_weighs_about_30_g_and_a_slim_one_12(void **state)
{
    (void)state;
    assert_int_equal(part("ho-brick")->mass_kg.known, PARE_COMPUTED);
    assert_between(grams("ho-brick"), 27, 33);
    assert_int_equal(part("ho-slim")->mass_kg.known, PARE_COMPUTED);
    assert_between(grams("ho-slim"), 10, 14);
}

static void an_arm_tip_bumper_weighs_1_to_3_g_and_other_prints_up_to_15(void **state)
{
    (void)state;
    static const char *const prints[] = {"am-tower", "am-shelf", "cg-28", "sk-long"};
    assert_between(grams("bu-thick"), 1, 3);
    for (size_t i = 0; i < sizeof prints / sizeof prints[0]; i++)
        assert_between(grams(prints[i]), 4, 15);
}

static void ties_that_hold_an_antenna_weigh_1_to_2_g_and_its_tower_far_more(void **state)
{
    (void)state;
    const double four = 4 * grams("ti-100");
    assert_between(four, 1, 2);
    assert_true(grams("am-tower") > 3 * four);
}

static void a_screw_connector_antenna_with_what_it_needs_weighs_10_g_or_more(void **state)
{
    (void)state;
    assert_true(grams("an-staff") + grams("pg-70") >= 10);
    assert_between(grams("an-reed"), 1, 3);
}

static void the_steel_screws_of_a_five_inch_frame_weigh_10_to_20_g(void **state)
{
    (void)state;
    const pare_part *frame = part("fr-ridge-5");
    double sum_g = 6 * screw_g(PARE_ISO7380, 8, PARE_STEEL); /* the top plate's, bought with it */
    for (size_t i = 0; i < frame->includes; i++)
        if (frame->include[i].what == PARE_INCLUDES_JOINT &&
            pare_is_screw(frame->include[i].standard))
            sum_g += frame->include[i].count * screw_g(frame->include[i].standard,
                                                       1e3 * frame->include[i].length_m,
                                                       frame->include[i].material);
    assert_between(sum_g, 10, 20);
}

static void aluminium_screws_weigh_about_a_third_of_steel_and_titanium_half(void **state)
{
    (void)state;
    const double steel_g = screw_g(PARE_ISO4762, 8, PARE_STEEL);
    assert_between(screw_g(PARE_ISO4762, 8, PARE_ALUMINIUM_7075) / steel_g, 0.33, 0.38);
    assert_between(screw_g(PARE_ISO4762, 8, PARE_TITANIUM) / steel_g, 0.50, 0.60);
}

static void four_aluminium_motor_screws_are_lighter_than_two_of_steel(void **state)
{
    (void)state;
    for (int length_mm = 6; length_mm <= 10; length_mm++)
        assert_true(4 * screw_g(PARE_ISO4762, length_mm, PARE_ALUMINIUM_7075) <
                    2 * screw_g(PARE_ISO4762, length_mm, PARE_STEEL));
}

static void from_a_full_size_to_a_micro_camera_is_about_10_g(void **state)
{
    (void)state;
    assert_between(grams("ca-28") - grams("ca-19l"), 6, 12);
    assert_true(grams("ca-28") - grams("ca-14") >= 10);
}

static void a_lead_of_14_gauge_instead_of_12_saves_a_couple_of_grams(void **state)
{
    (void)state;
    const double both_ways_m = 0.2;
    assert_between(1e3 * both_ways_m * (pare_wire_kg_per_m(12, 0) - pare_wire_kg_per_m(14, 0)), 1.5,
                   4.5);
    /* 2 x 100 mm of 12 gauge, about 9 g */
    assert_between(1e3 * both_ways_m * pare_wire_kg_per_m(12, 0), 7, 11);
}

static void a_60_a_four_in_one_weighs_15_g_and_a_45_a_one_11(void **state)
{
    (void)state;
    assert_between(grams("es-60"), 14, 18);
    assert_between(grams("es-45"), 10, 13);
}

static void lighter_motors_of_one_stator_size_save_20_g_a_craft(void **state)
{
    (void)state;
    const pare_part *heavy = part("mo-2207-2750"), *light = part("mo-2207l-2750");
    assert_near(heavy->spec[PARE_SPEC_STATOR_DIAMETER].value,
                light->spec[PARE_SPEC_STATOR_DIAMETER].value, 1e-12);
    assert_between(4e3 * (heavy->mass_kg.value - light->mass_kg.value), 15, 25);
}

static void packs_of_one_rating_differ_by_14_g(void **state)
{
    (void)state;
    const double a = grams("pa-4s-1300"), b = grams("pa-4s-1300l"), c = grams("pa-4s-1300h");
    assert_between(fmax(a, fmax(b, c)) - fmin(a, fmin(b, c)), 8, 20);
}

static void the_energy_of_1300_mah_at_four_cells_is_that_of_867_at_six(void **state)
{
    (void)state;
    const pare_pack four = {.chemistry = PARE_LIPO, .cells = 4, .capacity_c = 1300 * 3.6};
    const pare_pack six = {.chemistry = PARE_LIPO, .cells = 6, .capacity_c = 866.6666666667 * 3.6};
    assert_within(pare_pack_energy_j(&four, 0.2), pare_pack_energy_j(&six, 0.2), 1e-9);
}

static void a_law_puts_a_part_without_a_mass_where_its_kind_weighs(void **state)
{
    (void)state;
    static const struct {
        const char *id;
        double low_g, high_g;
    } rows[] = {{"mo-2207-2550", 29, 36}, {"mo-1404-4500", 8.5, 10}, {"pr-50-40", 3.2, 5.4},
                {"pa-6s-1100", 170, 215}, {"es-55", 14, 18},         {"fr-osier-5", 65, 160},
                {"fr-latch-3", 18, 45},   {"fe-25-35", 7, 11}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_true(pare_part_filled(part(rows[i].id)) & PARE_FILLED_MASS);
        assert_int_equal(part(rows[i].id)->mass_kg.known, PARE_ESTIMATED);
        assert_between(grams(rows[i].id), rows[i].low_g, rows[i].high_g);
    }
}

/* ---- craft ---- */

static void all_up_masses_are_those_of_their_class(void **state)
{
    (void)state;
    static const struct {
        const char *craft;
        double low_g, high_g;
    } rows[] = {{"hedgerow", 650, 850}, /* heavy, with an action camera */
                {"bodkin", 360, 560},
                {"thimble", 170, 260},
                {"drover", 750, 1150}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_between(1e3 * figure(sheet_of(rows[i].craft), PARE_ALL_UP), rows[i].low_g,
                       rows[i].high_g);
}

static void the_five_inch_craft_hovers_on_190_to_230_w_a_kilogram(void **state)
{
    (void)state;
    assert_between(figure(sheet_of("hedgerow"), PARE_HOVER_W_KG), 190, 230);
    assert_between(figure(sheet_of("bodkin"), PARE_HOVER_W_KG), 190, 230);
}

static void the_five_inch_craft_lifts_6_to_10_times_its_weight(void **state)
{
    (void)state;
    const pare_sheet *sheet = sheet_of("hedgerow");
    assert_between(figure(sheet, PARE_TWR_FRESH), 6, 10);
    assert_between(figure(sheet, PARE_HOVER_A) / figure(sheet, PARE_FULL_A), 0.04, 0.08);
    assert_between(figure(sheet, PARE_HOVER_OUTPUT), 0.20, 0.30);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_bulky_printed_camera_holder_weighs_about_30_g_and_a_slim_one_12),
        cmocka_unit_test(an_arm_tip_bumper_weighs_1_to_3_g_and_other_prints_up_to_15),
        cmocka_unit_test(ties_that_hold_an_antenna_weigh_1_to_2_g_and_its_tower_far_more),
        cmocka_unit_test(a_screw_connector_antenna_with_what_it_needs_weighs_10_g_or_more),
        cmocka_unit_test(the_steel_screws_of_a_five_inch_frame_weigh_10_to_20_g),
        cmocka_unit_test(aluminium_screws_weigh_about_a_third_of_steel_and_titanium_half),
        cmocka_unit_test(four_aluminium_motor_screws_are_lighter_than_two_of_steel),
        cmocka_unit_test(from_a_full_size_to_a_micro_camera_is_about_10_g),
        cmocka_unit_test(a_lead_of_14_gauge_instead_of_12_saves_a_couple_of_grams),
        cmocka_unit_test(a_60_a_four_in_one_weighs_15_g_and_a_45_a_one_11),
        cmocka_unit_test(lighter_motors_of_one_stator_size_save_20_g_a_craft),
        cmocka_unit_test(packs_of_one_rating_differ_by_14_g),
        cmocka_unit_test(the_energy_of_1300_mah_at_four_cells_is_that_of_867_at_six),
        cmocka_unit_test(a_law_puts_a_part_without_a_mass_where_its_kind_weighs),
        cmocka_unit_test(all_up_masses_are_those_of_their_class),
        cmocka_unit_test(the_five_inch_craft_hovers_on_190_to_230_w_a_kilogram),
        cmocka_unit_test(the_five_inch_craft_lifts_6_to_10_times_its_weight),
    };
    return cmocka_run_group_tests(tests, open_demo, close_demo);
}
