/* rooms: physics base; libraries: gsl */
/* Closed forms of heat and volts against GSL's integration of the differential equations. */
#include <math.h>
#include <string.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

#include "near.h"

#include "physics/esc_heat.h"
#include "physics/spike.h"
#include "physics/wire.h"
#include "physics/wire_heat.h"

#define PI 3.14159265358979323846

typedef int (*rates_of)(double t, const double y[], double rate[], void *of);

/* From 0 to an end, by an adaptive Runge-Kutta-Fehlberg method of order 8. */
static void integrate(rates_of rates, void *of, size_t dimension, double seconds, double tolerance,
                      double y[])
{
    gsl_odeiv2_system system = {rates, NULL, dimension, of};
    gsl_odeiv2_driver *driver = gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd,
                                                              seconds * 1e-5, tolerance, 1e-12);
    double t = 0;
    assert_non_null(driver);
    assert_int_equal(gsl_odeiv2_driver_apply(driver, &t, seconds, y), GSL_SUCCESS);
    gsl_odeiv2_driver_free(driver);
}

/* ---- a wire over a flown profile ---- */

/* A metre: copper with half of the insulation's resistance on either side of the insulation's node. */
typedef struct wire {
    pare_wire_load load;
    double bundle_m2, half_k_w;
} wire;

static double off_w(const wire *w, double surface)
{
    const double d = w->load.outer_m, a = w->load.ambient_degc;
    const double h = pare_cylinder_convection(d, surface, a, w->load.pressure_pa, w->load.flow_m_s);
    return PI * d *
           (h * (surface - a) +
            0.9 * 5.670374419e-8 * (pow(surface + 273.15, 4) - pow(a + 273.15, 4)));
}

/* By bisection: the surface passes on what it is given. */
static double surface_of(const wire *w, double node)
{
    double low = w->load.ambient_degc - 1, high = node + 1;
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (low + high);
        if ((node - middle) / w->half_k_w > off_w(w, middle))
            low = middle;
        else
            high = middle;
    }
    return 0.5 * (low + high);
}

static int wire_rates(double t, const double y[], double rate[], void *of)
{
    (void)t;
    const wire *w = of;
    const double copper_m2 = pare_wire_area_m2(w->load.gauge);
    const double silicone_m2 = PI / 4 * w->load.outer_m * w->load.outer_m - w->bundle_m2;
    const double made =
        w->load.current_a * w->load.current_a * pare_wire_ohm_per_m(w->load.gauge, y[0]);
    const double inwards = (y[0] - y[1]) / w->half_k_w;
    rate[0] = (made - inwards) / (8890.0 * 385 * copper_m2);
    rate[1] = (inwards - off_w(w, surface_of(w, y[1]))) / (1200.0 * 1300 * silicone_m2);
    return GSL_SUCCESS;
}

static wire wire_of(double gauge, double flow_m_s)
{
    wire w = {.load = pare_wire_load_defaults()};
    w.load.gauge = gauge;
    w.load.outer_m = pare_wire_outer_m(gauge);
    w.load.flow_m_s = flow_m_s;
    w.bundle_m2 = pare_wire_area_m2(gauge) / 0.75;
    w.half_k_w = 0.5 * log(w.load.outer_m / sqrt(4 * w.bundle_m2 / PI)) / (2 * PI * 0.2);
    return w;
}

static void a_flown_profile_keeps_within_half_a_kelvin_of_the_differential_equation(void **state)
{
    (void)state;
    /* Four minutes: hover, cruise, a punch and a chase again and again, currents as on a five inch. */
    pare_wire_stretch flown[48];
    const size_t stretches = sizeof flown / sizeof *flown;
    for (size_t i = 0; i < stretches; i++) {
        static const pare_wire_stretch turn[4] = {{9, 6}, {15, 8}, {110, 1.2}, {42, 4.8}};
        flown[i] = turn[i % 4];
    }
    static const struct {
        double gauge, flow_m_s, share;
    } table[] = {{12, 0, 1}, {14, 0, 1}, {16, 0, 0.8}, {18, 0, 0.5}, {14, 8, 1.3}, {20, 5, 0.5}};
    for (size_t k = 0; k < sizeof table / sizeof *table; k++) {
        wire w = wire_of(table[k].gauge, table[k].flow_m_s);
        pare_wire_stretch scaled[48];
        double y[2] = {25, 25}, hottest = 25, quick_hottest = 0;
        for (size_t i = 0; i < stretches; i++) {
            scaled[i] = (pare_wire_stretch){table[k].share * flown[i].current_a, flown[i].seconds};
            w.load.current_a = scaled[i].current_a;
            integrate(wire_rates, &w, 2, scaled[i].seconds, 1e-7, y);
            hottest = fmax(hottest, y[0]);
            pare_wire_heat quick;
            assert_int_equal(
                pare_wire_flown(&w.load, 25, i + 1, scaled, &quick, &quick_hottest, NULL), PARE_OK);
            assert_near(quick.conductor_degc, y[0], 0.5);
        }
        assert_near(quick_hottest, hottest, 0.5);
        assert_true(hottest > 45);
    }
}

static void a_burst_is_that_of_the_differential_equation(void **state)
{
    (void)state;
    wire w = wire_of(14, 0);
    w.load.current_a = 120;
    double y[2] = {25, 25};
    integrate(wire_rates, &w, 2, 5, 1e-8, y);
    pare_wire_heat heat;
    assert_int_equal(pare_wire_after(&w.load, 25, 5, &heat, NULL), PARE_OK);
    assert_near(heat.conductor_degc, y[0], 1e-3);
}

/* ---- an ESC's board ---- */

typedef struct heated {
    pare_board board;
    pare_board_load load;
} heated;

static int board_rates(double t, const double y[], double rate[], void *of)
{
    (void)t;
    const heated *h = of;
    const double ambient = h->load.ambient_degc;
    const double convects = pare_plate_convection(h->board.long_m, y[0], ambient,
                                                  h->load.pressure_pa, h->load.flow_m_s);
    const double off = h->board.area_m2 *
                       (convects * (y[0] - ambient) +
                        0.9 * 5.670374419e-8 * (pow(y[0] + 273.15, 4) - pow(ambient + 273.15, 4)));
    rate[0] = (pare_board_loss_w(&h->board, &h->load, y[0]) - off) / h->board.heat_j_k;
    return GSL_SUCCESS;
}

static void a_board_warms_as_its_differential_equation_says(void **state)
{
    (void)state;
    static const struct {
        double rated_a, grams, current_a, flow_m_s, seconds;
    } table[] = {{60, 15.4, 15, 5, 120},
                 {60, 15.4, 60, 5, 10},
                 {30, 7.1, 40, 3, 8},
                 {45, 11.3, 12, 0, 300},
                 {45, 11.3, 50, 8, 3}};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        heated h = {.load = {table[i].current_a, 15, 25, 101325, table[i].flow_m_s}};
        assert_int_equal(
            pare_board_estimate(4, table[i].rated_a, 1e-3 * table[i].grams, &h.board, NULL),
            PARE_OK);
        double y[1] = {25}, quick, until;
        integrate(board_rates, &h, 1, table[i].seconds, 1e-8, y);
        assert_int_equal(pare_board_after(&h.board, &h.load, 25, table[i].seconds, &quick, NULL),
                         PARE_OK);
        assert_near(quick, y[0], 0.3);
        assert_int_equal(pare_board_until(&h.board, &h.load, 25, y[0], &until, NULL), PARE_OK);
        assert_within(until, table[i].seconds, 0.01);
    }
}

/* ---- the volts at an ESC that stops ---- */

static int spike_rates(double t, const double y[], double rate[], void *of)
{
    (void)t;
    const pare_spike_path *p = of;
    const double at_esc = y[1] + p->series_ohm * (y[0] - p->to_a);
    rate[0] = (p->open_v - p->ohm * y[0] - at_esc) / p->henry;
    rate[1] = (y[0] - p->to_a) / p->farad;
    return GSL_SUCCESS;
}

static void a_spike_is_that_of_the_differential_equation(void **state)
{
    (void)state;
    /* Ringing, hardly ringing, and not at all; with and without a capacitor's own resistance. */
    static const pare_spike_path table[] = {
        {16.8, 0.020, 2e-7, 1000e-6, 0.020, 120, -30}, {16.8, 0.020, 3e-7, 80e-6, 0, 120, -30},
        {25.2, 0.030, 2e-7, 470e-6, 0.004, 100, 0},    {25.2, 0.200, 1e-7, 2000e-6, 0, 60, -20},
        {25.2, 0.050, 5e-7, 100e-6, 0.3, 60, -20},     {12.6, 0.020, 4e-8, 400e-6, 0, 50, 0},
        {16.8, 0.010, 2e-7, 220e-6, 0.050, -20, 80}};
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        const pare_spike_path *p = &table[i];
        pare_spike spike;
        assert_int_equal(pare_spike_of(p, &spike, NULL), PARE_OK);
        double y[2] = {p->from_a, p->open_v - p->ohm * p->from_a};
        const double start = y[1] + p->series_ohm * (p->from_a - p->to_a);
        double highest = start, earlier_s = 0, at_s = 0;
        /* Twenty turns, or so long that it has crept to where it stays. */
        const double turn_s = 2 * PI * sqrt(p->henry * p->farad);
        const double step_s = fmax(20 * turn_s, 16 * (p->ohm + p->series_ohm) * p->farad) / 8000;
        for (int k = 0; k < 8000; k++) {
            integrate(spike_rates, (void *)(uintptr_t)p, 2, step_s, 1e-10, y);
            const double v = y[1] + p->series_ohm * (y[0] - p->to_a);
            earlier_s += step_s;
            if (v > highest + 1e-9) {
                highest = v;
                at_s = earlier_s;
            }
        }
        assert_near(spike.peak_v, highest, 1e-3);
        assert_near(spike.settled_v, y[1], 1e-3);
        if (isfinite(spike.peak_s))
            assert_near(spike.peak_s, at_s, 1.01 * step_s);
    }
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_flown_profile_keeps_within_half_a_kelvin_of_the_differential_equation),
        cmocka_unit_test(a_burst_is_that_of_the_differential_equation),
        cmocka_unit_test(a_board_warms_as_its_differential_equation_says),
        cmocka_unit_test(a_spike_is_that_of_the_differential_equation),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
