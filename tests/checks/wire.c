/* rooms: physics base */
/* Wire by gauge against published tables. */
#include "near.h"

#include <math.h>

#include "physics/wire.h"

static void diameters_are_those_of_astm_b258(void **state)
{
    (void)state;
    static const struct {
        double gauge, published_mm;
    } table[] = {{12, 2.0525}, {16, 1.2908}, {20, 0.8118}, {24, 0.5106}};
    for (size_t i = 0; i < 4; i++)
        assert_within(pare_wire_diameter_m(table[i].gauge) * 1e3, table[i].published_mm, 5e-4);
}

static void resistances_are_those_of_nbs_handbook_100(void **state)
{
    (void)state;
    /* NBS Handbook 100, Copper Wire Tables: ohm per 1000 ft at 20 degC. */
    static const struct {
        double gauge, published_ohm;
    } table[] = {{12, 1.588}, {16, 4.016}, {20, 10.15}, {24, 25.67}};
    for (size_t i = 0; i < 4; i++)
        assert_within(pare_wire_ohm_per_m(table[i].gauge, 20) * 304.8, table[i].published_ohm,
                      1e-3);
}

static void the_25_degree_column_is_told_from_the_20_degree_one(void **state)
{
    (void)state;
    /* NBS Handbook 100 has 10.35 ohm per 1000 ft for gauge 20 at 25 degC (from memory); tables that
     * round it to 10.4 are of that column. */
    assert_within(pare_wire_ohm_per_m(20, 25) * 304.8, 10.35, 1e-3);
}

static void copper_lies_below_the_maxima_of_iec_60228(void **state)
{
    (void)state;
    /* IEC 60228 class 5, plain copper, ohm/km at 20 degC: a maximum that real strands, laid in
     * helices, must meet; pure copper of the nominal area is 4 to 15 % below. */
    static const struct {
        double area_mm2, most_ohm_km;
    } table[] = {{0.5, 39.0}, {1, 19.5}, {2.5, 7.98}, {4, 4.95}};
    for (size_t i = 0; i < 4; i++) {
        const double diameter_mm = sqrt(table[i].area_mm2 * 4 / 3.14159265358979323846);
        const double gauge = 36 - 39 * log(diameter_mm / 0.127) / log(92);
        assert_within(pare_wire_area_m2(gauge) * 1e6, table[i].area_mm2, 1e-12);
        assert_between(pare_wire_ohm_per_m(gauge, 20) * 1e3 / table[i].most_ohm_km, 0.85, 0.96);
    }
}

static void warm_copper_resists_as_iec_60228_corrects(void **state)
{
    (void)state;
    /* IEC 60228, table of factors back to 20 degC, 1/(1 + 0.004 (t - 20)), three digits; it rounds
     * 0.00393 to 0.004, worth 0.4 % at 80 degC. */
    assert_near(pare_wire_ohm_per_m(14, 20) / pare_wire_ohm_per_m(14, 40), 0.926, 2e-3);
    assert_near(pare_wire_ohm_per_m(14, 20) / pare_wire_ohm_per_m(14, 80), 0.806, 4e-3);
}

static void area_resistance_and_copper_follow_from_the_gauge(void **state)
{
    (void)state;
    /* Evaluated apart from this code in a general calculator from the definitions: d = 0.127 mm x
     * 92^((36 - n)/39), 1.724e-8 ohm m, 8890 kg/m3. */
    static const struct {
        double gauge, area_mm2, mohm_per_m, copper_g_per_m;
    } table[] = {{10, 5.2611550, 3.2768470, 46.771668},
                 {14, 2.0809077, 8.2848460, 18.499270},
                 {18, 0.8230468, 20.946560, 7.3168864}};
    for (size_t i = 0; i < 3; i++) {
        const double gauge = table[i].gauge;
        assert_within(pare_wire_area_m2(gauge) * 1e6, table[i].area_mm2, 1e-7);
        assert_within(pare_wire_ohm_per_m(gauge, 20) * 1e3, table[i].mohm_per_m, 1e-7);
        /* Outside no thicker than the strands: bare copper. */
        assert_within(pare_wire_kg_per_m(gauge, 1e-6) * 1e3, table[i].copper_g_per_m, 1e-7);
    }
}

static void insulated_wire_weighs_copper_and_silicone(void **state)
{
    (void)state;
    /* Worked apart from this code; five digits. */
    assert_within(pare_wire_kg_per_m(12, 4.5e-3) * 1e3, 43.206, 2e-5);
    assert_within(pare_wire_kg_per_m(14, 3.5e-3) * 1e3, 26.715, 2e-5);
}

static void usual_outside_diameters_are_those_of_the_trade(void **state)
{
    (void)state;
    /* Common practice, no source. */
    static const struct {
        double gauge, usual_mm;
    } table[] = {{12, 4.5}, {14, 3.5}, {16, 3.0}, {18, 2.3}, {20, 1.8},
                 {22, 1.7}, {24, 1.6}, {26, 1.3}, {28, 1.2}, {30, 0.8}};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++)
        assert_within(pare_wire_outer_m(table[i].gauge) * 1e3, table[i].usual_mm, 1e-12);
    assert_within(pare_wire_outer_m(13) * 1e3, 4.0, 1e-12);
    assert_near(pare_wire_kg_per_m(12, 0), pare_wire_kg_per_m(12, 4.5e-3), 0);
}

static void wire_gets_thinner_and_lighter_with_every_gauge(void **state)
{
    (void)state;
    for (int gauge = 4; gauge < 36; gauge++) {
        assert_true(pare_wire_outer_m(gauge + 1) < pare_wire_outer_m(gauge));
        assert_true(pare_wire_kg_per_m(gauge + 1, 0) < pare_wire_kg_per_m(gauge, 0));
        /* There is always room for the strands. */
        assert_true(pare_wire_outer_m(gauge) > pare_wire_diameter_m(gauge) / sqrt(0.75));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(diameters_are_those_of_astm_b258),
        cmocka_unit_test(resistances_are_those_of_nbs_handbook_100),
        cmocka_unit_test(the_25_degree_column_is_told_from_the_20_degree_one),
        cmocka_unit_test(copper_lies_below_the_maxima_of_iec_60228),
        cmocka_unit_test(warm_copper_resists_as_iec_60228_corrects),
        cmocka_unit_test(area_resistance_and_copper_follow_from_the_gauge),
        cmocka_unit_test(insulated_wire_weighs_copper_and_silicone),
        cmocka_unit_test(usual_outside_diameters_are_those_of_the_trade),
        cmocka_unit_test(wire_gets_thinner_and_lighter_with_every_gauge),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
