/* rooms: physics base */
/* Packs as circuits, and what a cell gives in whole discharges. tests/checks/cells.c holds volts at
 * single charges. INR18650-30Q: ARTS Laboratory, University of South Carolina, three cells of 3.0 Ah in
 * air of 22.6 degC; charge by summing the current. Pouch of 2.28 Ah: Ai et al., 2019, as carried by
 * PyBaMM. */
#include <math.h>

#include "near.h"
#include "physics/discharge.h"

static pare_pack cells_of(pare_chemistry chemistry, int cells, double capacity_ah, double degc)
{
    return (pare_pack){.chemistry = chemistry,
                       .cells = cells,
                       .capacity_c = 3600 * capacity_ah,
                       .temperature_degc = degc,
                       .resistance_factor = 1};
}

static double volts(const pare_pack *pack, double current_a, double drawn_ah)
{
    const pare_drain drain = {.current_a = current_a, .from = 1, .warms = true};
    pare_drained at;
    assert_int_equal(
        pare_pack_drain(pack, &drain, 1 - 3600 * drawn_ah / pack->capacity_c, &at, NULL), PARE_OK);
    return at.volts_v;
}

static void cells_in_series_and_parallel_add_as_circuits_do(void **state)
{
    (void)state;
    /* Closed form: s cells in series have s times volts and resistance; p times the capacity has a p-th
     * of the resistance, and both have s p times the energy. */
    for (int kind = 0; kind < PARE_CHEMISTRIES; kind++)
        for (int s = 2; s <= 12; s += 2)
            for (int p = 1; p <= 4; p++) {
                const pare_pack one = cells_of((pare_chemistry)kind, 1, 3, 25);
                const pare_pack many = cells_of((pare_chemistry)kind, s, 3.0 * p, 25);
                assert_within(pare_pack_open_v(&many, 0.6), s * pare_pack_open_v(&one, 0.6), 1e-12);
                assert_within(pare_pack_ohm(&many, 0.6, 1), pare_pack_ohm(&one, 0.6, 1) * s / p,
                              1e-12);
                assert_within(pare_pack_energy_j(&many, 0), pare_pack_energy_j(&one, 0) * s * p,
                              1e-12);
            }
}

/* Means of the three cells (two at 2C) at these charges drawn; single cells are within 0.05 V of them. */
static const double drawn_ah[] = {0.3, 0.6, 0.9, 1.2, 1.5, 1.8, 2.1, 2.4, 2.7};
enum { STEPS = sizeof drawn_ah / sizeof drawn_ah[0] };
static const struct discharge {
    double current_a, volts[STEPS];
} discharges[] = {
    {3, {3.911, 3.839, 3.730, 3.647, 3.546, 3.451, 3.370, 3.261, 3.019}},
    {6, {3.791, 3.719, 3.614, 3.530, 3.433, 3.339, 3.256, 3.154, 2.924}},
    {9, {3.678, 3.606, 3.513, 3.428, 3.333, 3.241, 3.164, 3.061, 2.834}},
};

static void a_cell_gives_the_measured_energy_at_one_two_and_three_c(void **state)
{
    (void)state;
    /* From 0.3 to 2.7 Ah by trapezoids: 8.49, 8.22 and 7.98 Wh. Within 1 %. */
    const pare_pack pack = cells_of(PARE_LIION, 1, 3.0, 22.6);
    for (int r = 0; r < 3; r++) {
        const struct discharge *d = &discharges[r];
        double measured_wh = 0, modelled_wh = 0;
        for (int i = 1; i < STEPS; i++) {
            const double half_ah = (drawn_ah[i] - drawn_ah[i - 1]) / 2;
            measured_wh += half_ah * (d->volts[i - 1] + d->volts[i]);
            modelled_wh += half_ah * (volts(&pack, d->current_a, drawn_ah[i - 1]) +
                                      volts(&pack, d->current_a, drawn_ah[i]));
        }
        assert_within(modelled_wh, measured_wh, 0.01);
    }
}

static void a_cell_sags_less_from_two_to_three_c_than_from_one_to_two(void **state)
{
    (void)state;
    /* Measured at half charge on S001 and S002: 0.112 V from 1 to 2C, 0.100 V from 2 to 3C, since a cell
     * of 42 degC resists less than one of 35. The model bends more: 0.104 and 0.069 V. */
    const pare_pack pack = cells_of(PARE_LIION, 1, 3.0, 22.6);
    const double one = volts(&pack, 3, 1.5), two = volts(&pack, 6, 1.5),
                 three = volts(&pack, 9, 1.5);
    assert_within(one - two, 0.112, 0.10);
    assert_within(one - three, 0.212, 0.20);
    assert_true(two - three < one - two);
}

static void a_small_pouch_of_known_resistance_sags_as_measured(void **state)
{
    (void)state;
    /* 2.28 Ah at 1C and 2C in the first quarter of an hour, volts at seconds. Its resistance, 40 mohm
     * with a slow part of 0.4 of it, is about what parts the two. They come out 0.014 to 0.045 V high. */
    static const double one_c[][2] = {{300, 3.9619}, {500, 3.9047}, {700, 3.8530}, {900, 3.8065}};
    static const double two_c[][2] = {{200, 3.8141}, {400, 3.7078}, {600, 3.6206}, {800, 3.5518}};
    pare_pack pack = cells_of(PARE_LIPO, 1, 2.28, 25);
    pack.group_ohm = 0.040;
    for (int i = 0; i < 4; i++) {
        assert_near(volts(&pack, 2.28, 2.28 * one_c[i][0] / 3600), one_c[i][1], 0.06);
        assert_near(volts(&pack, 4.56, 4.56 * two_c[i][0] / 3600), two_c[i][1], 0.06);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cells_in_series_and_parallel_add_as_circuits_do),
        cmocka_unit_test(a_cell_gives_the_measured_energy_at_one_two_and_three_c),
        cmocka_unit_test(a_cell_sags_less_from_two_to_three_c_than_from_one_to_two),
        cmocka_unit_test(a_small_pouch_of_known_resistance_sags_as_measured),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
