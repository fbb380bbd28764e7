/* rooms: physics base */
/* Volts at an ESC that stops: laws of circuits, and closed forms. */
#include <math.h>

#include "near.h"

#include "physics/spike.h"

#define PI 3.14159265358979323846

static void without_resistance_the_coils_energy_is_the_capacitors(void **state)
{
    (void)state;
    /* Half L I^2 = half C dV^2, at a quarter of the period 2 pi sqrt(L C) (any text on circuits). */
    const pare_spike_path path = {.open_v = 16, .henry = 4e-7, .farad = 1e-3, .from_a = 100};
    pare_spike spike;
    assert_int_equal(pare_spike_of(&path, &spike, NULL), PARE_OK);
    assert_near(spike.peak_v, 16 + 100 * sqrt(4e-7 / 1e-3), 1e-9);
    assert_near(spike.peak_s, PI / 2 * sqrt(4e-7 * 1e-3), 1e-12);
    assert_within(spike.ring_hz, 1 / (2 * PI * sqrt(4e-7 * 1e-3)), 1e-12);
    assert_near(spike.settled_v, 16, 1e-12);
}

static void a_damped_ring_overshoots_as_the_second_order_step_does(void **state)
{
    (void)state;
    /* The step response of a series circuit overshoots by exp(-pi z / sqrt(1 - z^2)) of the step (any
     * text on control). Here the step in volts is the pack switched on a capacitor: the same equation
     * from a current of 0, so the comparison is of the ring's fall over half a turn. */
    const double z = 0.3, henry = 5e-7, farad = 2e-4;
    const pare_spike_path path = {.open_v = 20,
                                  .ohm = 2 * z * sqrt(henry / farad),
                                  .henry = henry,
                                  .farad = farad,
                                  .from_a = 80};
    pare_spike spike;
    assert_int_equal(pare_spike_of(&path, &spike, NULL), PARE_OK);
    const double own = 1 / sqrt(henry * farad), rings = own * sqrt(1 - z * z);
    assert_within(2 * PI * spike.ring_hz, rings, 1e-12);
    /* v' = 0 where j = 0: u(t) = v - V, u(0) = -R I, u'(0) = I / C. */
    const double s = spike.peak_s, u0 = -path.ohm * 80, slope = 80 / farad;
    const double b = (slope + z * own * u0) / rings;
    const double u = exp(-z * own * s) * (u0 * cos(rings * s) + b * sin(rings * s));
    assert_near(spike.peak_v, 20 + u, 1e-9);
}

/* The same circuit in small steps (classical Runge-Kutta): the most that the ESC sees. */
static double highest_in_steps(const pare_spike_path *path, double until_s)
{
    enum { STEPS = 20000 };
    const double h = until_s / STEPS, r = path->ohm + path->series_ohm;
    double j = path->from_a - path->to_a, slope = -path->series_ohm / path->henry * j, most = -1e9;
    for (int i = 0; i < STEPS; i++) {
        const double v =
            path->open_v - path->ohm * path->to_a - path->ohm * j - path->henry * slope;
        most = fmax(most, v);
        double dj = 0, ds = 0, at_j = j, at_s = slope;
        for (int k = 0; k < 4; k++) {
            const double weight = k == 0 || k == 3 ? 1.0 / 6 : 1.0 / 3, ahead = k == 2 ? h : h / 2;
            const double rate_j = at_s, rate_s = -(r * at_s + at_j / path->farad) / path->henry;
            dj += weight * h * rate_j;
            ds += weight * h * rate_s;
            at_j = j + ahead * rate_j;
            at_s = slope + ahead * rate_s;
        }
        j += dj;
        slope += ds;
    }
    return most;
}

static void what_does_not_ring_peaks_at_its_start_or_its_end(void **state)
{
    (void)state;
    /* Much resistance in the leads, much in the capacitors, or as much in both. */
    const double ohm[][2] = {
        {0.08, 0.002}, {0.002, 0.08}, {0.05, 0.05}, {0.03, 0.05}, {0.05, 0.03}};
    for (int i = 0; i < 5; i++)
        for (double farad = 1e-3; farad > 3e-4; farad /= 1.5) {
            const pare_spike_path path = {.open_v = 16.8,
                                          .ohm = ohm[i][0],
                                          .henry = 2e-7,
                                          .farad = farad,
                                          .series_ohm = ohm[i][1],
                                          .from_a = 100,
                                          .to_a = -20};
            pare_spike spike;
            assert_int_equal(pare_spike_of(&path, &spike, NULL), PARE_OK);
            assert_true(spike.ring_hz == 0);
            const double slow_s = (ohm[i][0] + ohm[i][1]) * farad;
            assert_within(highest_in_steps(&path, 30 * slow_s), spike.peak_v, 1e-9);
        }
    /* The steps themselves are good: they find the peak of what rings. */
    const pare_spike_path rings = {16.8, 0.005, 2e-7, 5e-4, 0.004, 100, -20};
    pare_spike spike;
    assert_int_equal(pare_spike_of(&rings, &spike, NULL), PARE_OK);
    assert_within(highest_in_steps(&rings, 4 * spike.peak_s), spike.peak_v, 1e-7);
}

static void two_wires_have_the_inductance_of_the_books(void **state)
{
    (void)state;
    /* Rosa, Bull. Bureau of Standards 4 (1908), return circuit of two parallel wires, no ends:
     * L = 0.004 l (ln(d / r) + 1/4) microhenry, l in cm. From memory. 12.5 cm, 2.05 mm copper, 4.5 mm
     * between the middles. */
    const double book_h = 1e-6 * 0.004 * 12.5 * (log(4.5 / 1.025) + 0.25);
    assert_within(pare_lead_henry(0.125, 2.05e-3, 4.5e-3), book_h, 1e-6);
    /* Twice as long, twice as much; closer together, less. */
    assert_within(pare_lead_henry(0.25, 2.05e-3, 4.5e-3), 2 * book_h, 1e-6);
    assert_true(pare_lead_henry(0.125, 2.05e-3, 2.5e-3) < book_h);
}

static void longer_leads_and_less_capacitance_raise_the_spike(void **state)
{
    (void)state;
    pare_spike_path path = {16.8, 0.01, 2.5e-7, 1e-3, 0.005, 120, -20};
    pare_spike base, other;
    assert_int_equal(pare_spike_of(&path, &base, NULL), PARE_OK);
    path.henry *= 2;
    assert_int_equal(pare_spike_of(&path, &other, NULL), PARE_OK);
    assert_true(other.peak_v > base.peak_v);
    path.henry /= 2;
    path.farad /= 5;
    assert_int_equal(pare_spike_of(&path, &other, NULL), PARE_OK);
    assert_true(other.peak_v > base.peak_v + 0.5);
    path.farad *= 5;
    path.to_a = -60;
    assert_int_equal(pare_spike_of(&path, &other, NULL), PARE_OK);
    assert_true(other.peak_v > base.peak_v);
}

static void a_small_capacitor_beside_takes_its_share(void **state)
{
    (void)state;
    assert_near(pare_beside_ohm(1e-3, 0.025, 0), 0.025, 1e-15);
    assert_near(pare_beside_ohm(1e-3, 0.025, 1e-3), 0.025 / 4, 1e-15);
    assert_near(pare_beside_ohm(0, 0.025, 1e-3), 0, 1e-15);
}

static void paths_that_cannot_be_are_refused(void **state)
{
    (void)state;
    const pare_spike_path right = {16.8, 0.02, 1.5e-7, 1e-3, 0.02, 120, -20};
    pare_spike spike;
    pare_error err;
    pare_spike_path wrong = right;
    wrong.henry = 0;
    assert_int_equal(pare_spike_of(&wrong, &spike, &err), PARE_BAD_DATA);
    assert_string_equal(err.text, "inductance 0 H: 1e-09 to 0.001 would be right");
    wrong = right;
    wrong.farad = (double)NAN;
    assert_int_equal(pare_spike_of(&wrong, &spike, &err), PARE_BAD_DATA);
    wrong = right;
    wrong.from_a = 1e9;
    assert_int_equal(pare_spike_of(&wrong, &spike, &err), PARE_BAD_DATA);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(without_resistance_the_coils_energy_is_the_capacitors),
        cmocka_unit_test(a_damped_ring_overshoots_as_the_second_order_step_does),
        cmocka_unit_test(what_does_not_ring_peaks_at_its_start_or_its_end),
        cmocka_unit_test(two_wires_have_the_inductance_of_the_books),
        cmocka_unit_test(longer_leads_and_less_capacitance_raise_the_spike),
        cmocka_unit_test(a_small_capacitor_beside_takes_its_share),
        cmocka_unit_test(paths_that_cannot_be_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
