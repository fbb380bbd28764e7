/* rooms: physics base */
/* Screws, nuts and washers against published mass tables and standards. */
#include "near.h"

#include <string.h>

#include "physics/screw.h"

static pare_thread named(const char *name)
{
    pare_thread thread;
    pare_error err;
    assert_int_equal(pare_thread_named(name, &thread, &err), PARE_OK);
    return thread;
}

static double screw_g(pare_screw_standard standard, const char *name, double length_mm,
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
        assert_int_equal(pare_nut_kg(&thread, 7850, &kg, &err), PARE_OK);
        assert_within(kg * 1e3, table[i].published_g, 0.04);
        assert_true(kg * 1e3 > table[i].published_g);
    }
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
    } table[] = {{"M2", 2.07}, {"M2.5", 3.39}, {"M3", 5.03}, {"M4", 8.78}, {"M5", 14.2}};
    for (size_t i = 0; i < 5; i++) {
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
        for (pare_screw_standard standard = 0; standard < PARE_SCREW_STANDARDS; standard++) {
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
    assert_int_equal(pare_nut_kg(&odd, 7850, &kg, &err), PARE_BAD_DATA);
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
        pare_screw_standard standard;
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
        cmocka_unit_test(an_m5_washer_weighs_what_a_din_125_table_says),
        cmocka_unit_test(stress_areas_are_those_of_iso_898_1),
        cmocka_unit_test(other_materials_weigh_their_published_share_of_steel),
        cmocka_unit_test(four_aluminium_motor_screws_are_lighter_than_two_of_steel),
        cmocka_unit_test(what_a_standard_does_not_have_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
