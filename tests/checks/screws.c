/* rooms: physics base */
/* Screws, nuts and washers against published mass tables and standards. */
#include "near.h"

#include <math.h>
#include <string.h>

#include "physics/nut.h"

static pare_thread named(const char *name)
{
    pare_thread thread;
    pare_error err;
    assert_int_equal(pare_thread_named(name, &thread, &err), PARE_OK);
    return thread;
}

static double screw_g(pare_fastener standard, const char *name, double length_mm,
                      pare_screw_material material)
{
    const pare_thread thread = named(name);
    double kg = -1;
    pare_error err;
    assert_int_equal(pare_screw_kg(standard, &thread, length_mm * 1e-3, material, &kg, &err),
                     PARE_OK);
    return kg * 1e3;
}

static void threaded_studs_weigh_what_their_standard_says(void **state)
{
    (void)state;
    /* GOST 22042-76, mass table, fully threaded; printed to 0.001 g. */
    static const struct {
        const char *thread;
        double published_g;
    } table[] = {{"M2", 0.373}, {"M3", 0.882}, {"M4", 1.550}, {"M5", 2.475}};
    for (size_t i = 0; i < 4; i++) {
        const pare_thread thread = named(table[i].thread);
        assert_within(pare_stud_kg(&thread, 20e-3, 7850) * 1e3, table[i].published_g, 5e-3);
    }
}

static void partly_threaded_studs_weigh_what_their_standard_says(void **state)
{
    (void)state;
    /* GOST 22042-76: thread b at each end, plain shank of the nominal diameter between. */
    const double quarter_pi = 0.78539816339744831;
    const pare_thread m3 = named("M3"), m2 = named("M2");
    const double m3_kg = pare_stud_kg(&m3, 24e-3, 7850) + 7850 * quarter_pi * 9e-6 * 6e-3;
    const double m2_kg = pare_stud_kg(&m2, 20e-3, 7850) + 7850 * quarter_pi * 4e-6 * 5e-3;
    assert_within(m3_kg * 1e3, 1.392, 1e-3);
    assert_within(m2_kg * 1e3, 0.497, 1e-3);
}

static void socket_caps_weigh_what_a_din_912_chart_says(void **state)
{
    (void)state;
    /* A supplier's chart after DIN 912, steel, printed to 0.1 g: 4 % and half a digit. */
    static const struct {
        const char *thread;
        double length_mm, published_g;
    } chart[] = {{"M3", 6, 0.7}, {"M3", 10, 0.9}, {"M3", 16, 1.2}, {"M3", 25, 1.6},
                 {"M4", 6, 1.5}, {"M4", 12, 2.0}, {"M4", 20, 2.7}, {"M4", 30, 3.7}};
    for (size_t i = 0; i < sizeof chart / sizeof *chart; i++)
        assert_near(screw_g(PARE_ISO4762, chart[i].thread, chart[i].length_mm, PARE_STEEL),
                    chart[i].published_g, 0.04 * chart[i].published_g + 0.05);
}

static void long_socket_caps_have_a_plain_shank(void **state)
{
    (void)state;
    /* ISO 4762: M3 is threaded to the head up to 20 mm, and over b = 18 mm from 25 mm on. Each
     * further millimetre is then plain steel of 3 mm: closed form. */
    const double plain_g_per_mm = 7.85e-3 * 0.78539816339744831 * 9;
    const double more_g =
        screw_g(PARE_ISO4762, "M3", 40, PARE_STEEL) - screw_g(PARE_ISO4762, "M3", 30, PARE_STEEL);
    assert_within(more_g, 10 * plain_g_per_mm, 1e-9);
    const pare_thread m3 = named("M3");
    const double short_g =
        screw_g(PARE_ISO4762, "M3", 20, PARE_STEEL) - screw_g(PARE_ISO4762, "M3", 10, PARE_STEEL);
    assert_within(short_g, pare_stud_kg(&m3, 10e-3, 7850) * 1e3, 1e-9);
}

static void countersunk_length_includes_the_head(void **state)
{
    (void)state;
    /* ISO 10642, M3: a 90 degree cone of 6.72 on 3 mm is 1.86 mm high, less a 2 mm key 1.1 mm deep;
     * the thread fills 8 - 1.86 mm at the pitch diameter 2.675240 mm. Closed form. */
    const double quarter_pi = 0.78539816339744831;
    const double cone_mm3 = quarter_pi / 3 * 1.86 * (6.72 * 6.72 + 6.72 * 3 + 9);
    const double key_mm3 = 0.86602540378443865 * 4 * 1.1;
    const double thread_mm3 = quarter_pi * 2.675240475 * 2.675240475 * (8 - 1.86);
    assert_within(screw_g(PARE_ISO10642, "M3", 8, PARE_STEEL),
                  7.85e-3 * (cone_mm3 - key_mm3 + thread_mm3), 1e-9);
}

static void button_head_is_a_spherical_segment(void **state)
{
    (void)state;
    /* The segment's volume again, by Simpson's rule over its height (exact for a cubic): circle of
     * radius^2 = 2 R z - z^2 at z below the top, R from dk and k. */
    const double a = 5.7 / 2, k = 1.65, big = (a * a + k * k) / (2 * k), pi = 3.14159265358979;
    const double middle = pi * (big * k - k * k / 4), base = pi * a * a;
    const double segment_mm3 = k / 6 * (0 + 4 * middle + base);
    const pare_thread m3 = named("M3");
    const double thread_g = pare_stud_kg(&m3, 10e-3, 7850) * 1e3;
    const double key_mm3 = 0.86602540378443865 * 4 * 1.04;
    assert_within(screw_g(PARE_ISO7380, "M3", 10, PARE_STEEL),
                  thread_g + 7.85e-3 * (segment_mm3 - key_mm3), 1e-9);
}

static void hex_nuts_weigh_what_their_standard_says(void **state)
{
    (void)state;
    /* GOST 5927-70, sizes of DIN 934 (to M4 those of ISO 4032). The prism without its chamfers is 2
     * to 3 % heavy, hence 4 %. */
    static const struct {
        const char *thread;
        double published_g;
    } table[] = {{"M2", 0.141}, {"M3", 0.377}, {"M4", 0.800}};
    for (size_t i = 0; i < 3; i++) {
        const pare_thread thread = named(table[i].thread);
        double kg;
        pare_error err;
        assert_int_equal(pare_nut_kg(PARE_ISO4032, &thread, 7850, &kg, &err), PARE_OK);
        assert_within(kg * 1e3, table[i].published_g, 0.04);
        assert_true(kg * 1e3 > table[i].published_g);
    }
}

static void washers_weigh_what_gost_11371_says(void **state)
{
    (void)state;
    /* GOST 11371-78, plain washers of the sizes of DIN 125 A, table of masses, three digits; from
     * memory. */
    static const struct {
        const char *thread;
        double published_g;
    } table[] = {{"M3", 0.119}, {"M4", 0.308}, {"M5", 0.443}};
    for (size_t i = 0; i < 3; i++) {
        const pare_thread thread = named(table[i].thread);
        double kg;
        assert_int_equal(pare_washer_kg(&thread, 7850, &kg, NULL), PARE_OK);
        assert_within(kg * 1e3, table[i].published_g, 5e-3);
    }
}

static void threads_have_the_diameters_of_iso_724(void **state)
{
    (void)state;
    /* ISO 724:1993, table 1, basic pitch diameters of the coarse threads, mm to 0.001; from memory. */
    static const struct {
        const char *thread;
        double pitch_mm;
    } table[] = {{"M1.6", 1.373}, {"M2", 1.740}, {"M2.5", 2.208},
                 {"M3", 2.675},   {"M4", 3.545}, {"M5", 4.480}};
    for (size_t i = 0; i < 6; i++) {
        const pare_thread thread = named(table[i].thread);
        assert_near(1e3 * pare_thread_pitch_diameter_m(&thread), table[i].pitch_mm, 5.1e-4);
    }
}

static void cheese_heads_are_a_cylinder_with_a_slot_across(void **state)
{
    (void)state;
    /* ISO 1207:2011, table 1, M3: dk 5.5, k 2, n 0.8, t 0.85 mm (from memory); closed form over the
     * thread of a stud that GOST 22042-76 weighs. */
    const double quarter_pi = 0.78539816339744831;
    const double head_g = 7.85e-3 * (quarter_pi * 5.5 * 5.5 * 2 - 0.8 * 0.85 * 5.5);
    assert_within(screw_g(PARE_ISO1207, "M3", 20, PARE_STEEL), 0.882 + head_g, 5e-3);
    const pare_thread m3 = named("M3");
    assert_near(pare_screw_key_m(PARE_ISO1207, &m3), 0, 0);
}

/* One fastener of steel but as said. */
static double fastener_g(pare_fastener_size size, const char *thread, pare_screw_material material)
{
    double kg = -1;
    pare_error err = {0};
    size.thread = named(thread);
    if (pare_fastener_kg(&size, material, &kg, &err) != PARE_OK)
        fail_msg("%s", err.text);
    return 1e3 * kg;
}

static void locking_nuts_weigh_what_propeller_nuts_do(void **state)
{
    (void)state;
    /* Common practice, no source: an M5 locking nut 1 to 2.4 g in steel, a third of it in aluminium; and
     * never less than the plain nut under its collar. */
    const pare_fastener_size locking = {.standard = PARE_ISO7040},
                             plain = {.standard = PARE_ISO4032};
    const double steel_g = fastener_g(locking, "M5", PARE_STEEL);
    assert_between(steel_g, 1.4, 2.0);
    assert_between(fastener_g(locking, "M5", PARE_ALUMINIUM), 0.3 * steel_g, 0.4 * steel_g);
    static const char *const threads[] = {"M3", "M4", "M5"};
    for (size_t i = 0; i < 3; i++)
        assert_between(fastener_g(locking, threads[i], PARE_STEEL) /
                           fastener_g(plain, threads[i], PARE_STEEL),
                       1.03, 1.5);
}

static void standoffs_weigh_what_is_left_of_their_rod(void **state)
{
    (void)state;
    /* A hexagon's area by the shoelace rule over its corners; the thread at the pitch diameter of ISO
     * 724, 2.675 mm. */
    double twice_mm2 = 0;
    const double corner_mm = 5.5 / sqrt(3), third = 1.0471975511965978;
    for (int i = 0; i < 6; i++)
        twice_mm2 += corner_mm * cos(i * third) * corner_mm * sin((i + 1) * third) -
                     corner_mm * cos((i + 1) * third) * corner_mm * sin(i * third);
    const double thread_mm2 = 0.78539816339744831 * 2.675 * 2.675;
    pare_fastener_size hex = {.standard = PARE_STANDOFF_HEX, .length_m = 20e-3, .across_m = 5.5e-3};
    assert_within(fastener_g(hex, "M3", PARE_BRASS), 8.47e-3 * 20 * (twice_mm2 / 2 - thread_mm2),
                  1e-4);
    hex.tapped_m = 6e-3;
    assert_within(fastener_g(hex, "M3", PARE_BRASS),
                  8.47e-3 * (20 * twice_mm2 / 2 - 12 * thread_mm2), 1e-4);
    /* Tapped to the middle from both ends is tapped through. */
    hex.tapped_m = 10e-3;
    const double halves_g = fastener_g(hex, "M3", PARE_BRASS);
    hex.tapped_m = 0;
    assert_within(fastener_g(hex, "M3", PARE_BRASS), halves_g, 1e-12);
}

static void a_clamped_post_gives_way_at_its_plastic_moment(void **state)
{
    (void)state;
    /* Plastic modulus of a section: twice the first moment of its half, here by summing strips. Two
     * hinges of 2 M over the length. Round 5 mm and hexagon 5.5 mm, M3, 30 mm, 230 MPa. */
    const double bore_mm = 3, length_mm = 30, yield_mpa = 230;
    const double across_mm[] = {5, 5.5};
    for (int hex = 0; hex < 2; hex++) {
        const double reach_mm =
            across_mm[hex] / 2; /* the hexagon's, about a line through corners */
        const int strips = 200000;
        double half_mm3 = 0;
        for (int i = 0; i < strips; i++) {
            const double y = reach_mm * (i + 0.5) / strips;
            const double solid =
                hex ? 2 * (across_mm[1] - y) / sqrt(3) : 2 * sqrt(reach_mm * reach_mm - y * y);
            const double bore = y < bore_mm / 2 ? 2 * sqrt(bore_mm * bore_mm / 4 - y * y) : 0;
            half_mm3 += (solid - bore) * y * reach_mm / strips;
        }
        const pare_fastener_size size = {.standard = hex ? PARE_STANDOFF_HEX : PARE_STANDOFF_ROUND,
                                         .thread = named("M3"),
                                         .length_m = 1e-3 * length_mm,
                                         .across_m = 1e-3 * across_mm[hex]};
        assert_within(pare_standoff_bends_n(&size, 1e6 * yield_mpa),
                      2 * yield_mpa * 2 * half_mm3 / length_mm, 1e-4);
    }
}

static void a_standoff_that_cannot_be_is_refused(void **state)
{
    (void)state;
    static const struct {
        double length_mm, across_mm, tapped_mm;
        const char *says;
    } bad[] = {
        {0, 5, 0, "a standoff 0 mm long: lengths go from 3 to 100 mm"},
        {30, 3, 0, "a standoff M3 3 mm across: 3.3 to 20 mm would be right"},
        {30, 5, 16,
         "a standoff tapped 16 mm deep from each end of 30 mm: at most half of that, or 0 for "
         "right "
         "through"},
    };
    for (size_t i = 0; i < 3; i++) {
        const pare_fastener_size size = {.standard = PARE_STANDOFF_ROUND,
                                         .thread = named("M3"),
                                         .length_m = 1e-3 * bad[i].length_mm,
                                         .across_m = 1e-3 * bad[i].across_mm,
                                         .tapped_m = 1e-3 * bad[i].tapped_mm};
        double kg = -1;
        pare_error err;
        assert_int_equal(pare_fastener_kg(&size, PARE_STEEL, &kg, &err), PARE_BAD_DATA);
        assert_string_equal(err.text, bad[i].says);
        assert_near(kg, -1, 0);
        assert_near(pare_standoff_m3(&size), 0, 0);
    }
    const pare_fastener_size small = {.standard = PARE_ISO7040, .thread = named("M2")};
    double kg;
    pare_error err;
    assert_int_equal(pare_fastener_kg(&small, PARE_STEEL, &kg, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "no ISO7040 nut for M2 here; there are M3, M4 and M5");
}

static void an_m5_washer_weighs_what_a_din_125_table_says(void **state)
{
    (void)state;
    /* A supplier's table, DIN 125 A, 5.3/10/1. */
    const pare_thread m5 = named("M5");
    double kg;
    pare_error err;
    assert_int_equal(pare_washer_kg(&m5, 7850, &kg, &err), PARE_OK);
    assert_within(kg * 1e3, 0.443, 5e-3);
}

static void stress_areas_are_those_of_iso_898_1(void **state)
{
    (void)state;
    static const struct {
        const char *thread;
        double published_mm2;
    } table[] = {{"M1.6", 1.27}, {"M2", 2.07}, {"M2.5", 3.39},
                 {"M3", 5.03},   {"M4", 8.78}, {"M5", 14.2}}; /* M1.6 from memory */
    for (size_t i = 0; i < 6; i++) {
        const pare_thread thread = named(table[i].thread);
        assert_within(pare_thread_stress_area_m2(&thread) * 1e6, table[i].published_mm2, 5e-3);
    }
}

static void other_materials_weigh_their_published_share_of_steel(void **state)
{
    (void)state;
    /* GOST 5927-70 gives factors to steel: aluminium alloy 0.356, brass 1.080, printed to 0.001; its
     * alloy lies between our two kinds, so 1 %. Titanium: 4430/7850 = 0.564. */
    const double steel = pare_screw_density_kg_m3(PARE_STEEL);
    assert_within(pare_screw_density_kg_m3(PARE_ALUMINIUM_7075) / steel, 0.356, 0.01);
    assert_within(pare_screw_density_kg_m3(PARE_BRASS) / steel, 1.080, 2e-3);
    assert_near(pare_screw_density_kg_m3(PARE_TITANIUM) / steel, 0.564, 5e-4);
}

static void four_aluminium_motor_screws_are_lighter_than_two_of_steel(void **state)
{
    (void)state;
    /* Common practice, no source. By geometry the ratio is twice that of the densities. */
    for (int length_mm = 6; length_mm <= 10; length_mm += 2)
        for (pare_fastener standard = 0; standard < PARE_ISO4032; standard++) {
            const double four_g = 4 * screw_g(standard, "M3", length_mm, PARE_ALUMINIUM_7075);
            const double two_g = 2 * screw_g(standard, "M3", length_mm, PARE_STEEL);
            assert_true(four_g < two_g);
            assert_between(four_g / two_g, 0.65, 0.75);
        }
}

static void what_a_standard_does_not_have_is_refused(void **state)
{
    (void)state;
    const pare_thread m2 = named("M2"), m3 = named("M3"), odd = {3.5e-3, 0.6e-3};
    pare_thread none;
    double kg = -1;
    pare_error err;
    assert_int_equal(pare_screw_kg(PARE_ISO7380, &m2, 6e-3, PARE_STEEL, &kg, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "ISO7380-1 has no M2 here; it has M3, M4 and M5");
    assert_int_equal(pare_screw_kg(PARE_ISO4762, &m3, 0.1, PARE_STEEL, &kg, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "ISO4762 M3 x 100 mm: lengths go from 2 to 60 mm");
    assert_int_equal(pare_screw_kg(PARE_ISO10642, &m2, 6e-3, PARE_STEEL, &kg, &err), PARE_BAD_DATA);
    const pare_thread m5 = named("M5");
    assert_int_equal(pare_screw_kg(PARE_ISO10642, &m5, 3e-3, PARE_STEEL, &kg, &err), PARE_BAD_DATA);
    assert_string_equal(err.text,
                        "ISO10642 M5 x 3 mm: the length includes the head, which takes 3.1 mm");
    assert_int_equal(pare_nut_kg(PARE_ISO4032, &odd, 7850, &kg, &err), PARE_BAD_DATA);
    assert_int_equal(pare_washer_kg(&odd, 7850, &kg, &err), PARE_BAD_DATA);
    assert_int_equal(pare_thread_named("m3", &none, &err), PARE_BAD_DATA);
    assert_non_null(strstr(err.text, "known are M1.6, M2, M2.5, M3, M4 and M5"));
    assert_near(kg, -1, 0);
}

static void keys_and_spanners_are_those_of_the_standards(void **state)
{
    (void)state;
    /* s, nominal: ISO 4762:2004, table 1; ISO 7380-1:2011, table 1; ISO 10642:2004, table 1; ISO
     * 4032:2012, table 1. From memory. */
    static const struct {
        pare_fastener standard;
        const char *thread;
        double key_mm;
    } table[] = {
        {PARE_ISO4762, "M2", 1.5}, {PARE_ISO4762, "M2.5", 2},
        {PARE_ISO4762, "M3", 2.5}, {PARE_ISO4762, "M4", 3},
        {PARE_ISO4762, "M5", 4},   {PARE_ISO7380, "M3", 2},
        {PARE_ISO7380, "M4", 2.5}, {PARE_ISO7380, "M5", 3},
        {PARE_ISO10642, "M3", 2},  {PARE_ISO10642, "M4", 2.5},
        {PARE_ISO10642, "M5", 3},  {PARE_ISO7380, "M2", 0}, /* begins at M3 */
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const pare_thread thread = named(table[i].thread);
        assert_near(1e3 * pare_screw_key_m(table[i].standard, &thread), table[i].key_mm, 1e-9);
    }
    const pare_thread m3 = named("M3"), m5 = named("M5");
    assert_near(1e3 * pare_nut_flats_m(&m3), 5.5, 1e-9);
    assert_near(1e3 * pare_nut_flats_m(&m5), 8, 1e-9);
    assert_near(pare_nut_flats_m(&(pare_thread){.nominal_m = 1e-3}), 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_and_spanners_are_those_of_the_standards),
        cmocka_unit_test(threaded_studs_weigh_what_their_standard_says),
        cmocka_unit_test(partly_threaded_studs_weigh_what_their_standard_says),
        cmocka_unit_test(socket_caps_weigh_what_a_din_912_chart_says),
        cmocka_unit_test(long_socket_caps_have_a_plain_shank),
        cmocka_unit_test(countersunk_length_includes_the_head),
        cmocka_unit_test(button_head_is_a_spherical_segment),
        cmocka_unit_test(hex_nuts_weigh_what_their_standard_says),
        cmocka_unit_test(washers_weigh_what_gost_11371_says),
        cmocka_unit_test(threads_have_the_diameters_of_iso_724),
        cmocka_unit_test(cheese_heads_are_a_cylinder_with_a_slot_across),
        cmocka_unit_test(locking_nuts_weigh_what_propeller_nuts_do),
        cmocka_unit_test(standoffs_weigh_what_is_left_of_their_rod),
        cmocka_unit_test(a_clamped_post_gives_way_at_its_plastic_moment),
        cmocka_unit_test(a_standoff_that_cannot_be_is_refused),
        cmocka_unit_test(an_m5_washer_weighs_what_a_din_125_table_says),
        cmocka_unit_test(stress_areas_are_those_of_iso_898_1),
        cmocka_unit_test(other_materials_weigh_their_published_share_of_steel),
        cmocka_unit_test(four_aluminium_motor_screws_are_lighter_than_two_of_steel),
        cmocka_unit_test(what_a_standard_does_not_have_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
