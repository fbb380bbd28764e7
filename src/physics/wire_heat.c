/* wire_heat.c: how hot an insulated wire gets, settled or in a burst.
 *
 * Copper makes heat, silicone passes it on, air and radiation take it away:
 *
 *     I^2 R(T) = 2 pi k (T - Ts) / ln(D/d) = pi D (h (Ts - Ta) + 0.9 sigma (Ts^4 - Ta^4))
 *
 * for each metre, d across the strands and D over the insulation. To take the surface for the
 * conductor would be 10 K low at 40 A in AWG 14: unsafe, and the reason for the middle term. h is that
 * of a level cylinder in still air (Churchill and Chu) or in a flow across it (Churchill and
 * Bernstein), the larger of both, with air at film temperature.
 *
 * Settled: the surface temperature is the one unknown, since the conductor follows from it in closed
 * form (R is linear in T). Burst: copper and insulation are a node each, half of the insulation's
 * resistance on either side of its node, the surface without mass; explicit Runge-Kutta steps, a fifth
 * of the faster node's own time. Flown: the same two nodes over stretches of constant current, each in closed
 * form with h held, which a sheet can afford.
 *
 * Read lost_w() first. Sources: Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1323;
 * Churchill and Bernstein, J. Heat Transfer 99 (1977) 300; air: Sutherland viscosity and the
 * conductivity of the US Standard Atmosphere 1976, cp 1006; copper 8890 kg/m3, 385 J/(kg K), silicone
 * 1200 kg/m3, 1300 J/(kg K), 0.2 W/(m K), emissivity 0.9 and strands that fill 0.75 are estimates
 * from memory. */
#include "physics/wire_heat.h"

#include <math.h>
#include <stdbool.h>

#include "physics/film.h"
#include "physics/wire.h"

#define PI              3.14159265358979323846
#define KELVIN          273.15
#define GRAVITY         9.80665
#define STEFAN          5.670374419e-8 /* CODATA 2018, W/(m2 K4) */
#define EMISSIVITY      0.9
#define MOST_DEGC       1000.0 /* copper melts at 1085 */
#define RADIATED_SURELY 0.999  /* of what is radiated: rounding aside it is lost for certain */

static const double strands_fill = 0.75, silicone_w_m_k = 0.2, copper_j_m3_k = 8890.0 * 385,
                    silicone_j_m3_k = 1200.0 * 1300, copper_per_k = 0.00393;

/* A metre of the wire. */
typedef struct metre {
    double outer_m, copper_m2, bundle_m2, silicone_m2;
    double cold_ohm; /* at 20 degC */
    double cold_w;   /* I^2 R there */
    double k_per_w;  /* through the insulation */
    double ambient_degc, pressure_pa, flow_m_s;
} metre;

pare_wire_load pare_wire_load_defaults(void)
{
    return (pare_wire_load){.ambient_degc = 25, .pressure_pa = 101325};
}

double pare_cylinder_convection(double diameter_m, double surface_degc, double ambient_degc,
                                double pressure_pa, double flow_m_s)
{
    const pare_film film = pare_film_at(surface_degc, ambient_degc, pressure_pa);
    const double rayleigh = GRAVITY / film.kelvin * fabs(surface_degc - ambient_degc) * diameter_m *
                            diameter_m * diameter_m * film.prandtl /
                            (film.viscosity_m2_s * film.viscosity_m2_s);
    const double still = 0.60 + 0.387 * sqrt(cbrt(rayleigh)) /
                                    pow(1 + pow(0.559 / film.prandtl, 9.0 / 16), 8.0 / 27);
    double nusselt = still * still;
    if (flow_m_s > 0) {
        const double reynolds = flow_m_s * diameter_m / film.viscosity_m2_s;
        const double across = 0.3 + 0.62 * sqrt(reynolds) * cbrt(film.prandtl) /
                                        pow(1 + pow(0.4 / film.prandtl, 2.0 / 3), 0.25) *
                                        pow(1 + pow(reynolds / 282000, 5.0 / 8), 0.8);
        nusselt = fmax(nusselt, across);
    }
    return nusselt * film.conducts_w_m_k / diameter_m;
}

/* What a metre's surface gives off. */
static double lost_w(const metre *wire, double surface_degc)
{
    const double h = pare_cylinder_convection(wire->outer_m, surface_degc, wire->ambient_degc,
                                              wire->pressure_pa, wire->flow_m_s);
    const double ts = surface_degc + KELVIN, ta = wire->ambient_degc + KELVIN;
    return PI * wire->outer_m *
           (h * (surface_degc - wire->ambient_degc) +
            EMISSIVITY * STEFAN * (ts * ts * ts * ts - ta * ta * ta * ta));
}

static double radiated_w(const metre *wire, double surface_degc)
{
    const double ts = surface_degc + KELVIN, ta = wire->ambient_degc + KELVIN;
    return PI * wire->outer_m * EMISSIVITY * STEFAN * (ts * ts * ts * ts - ta * ta * ta * ta);
}

/* Whether more is made than a surface gives off. What it radiates alone is mostly more already, and
 * costs a tenth of finding out what the air takes. */
static bool outruns(const metre *wire, double surface_degc, double watts)
{
    return watts > RADIATED_SURELY * radiated_w(wire, surface_degc) &&
           watts > lost_w(wire, surface_degc);
}

static pare_status out_of_range(const char *what, double value, const char *right, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA, "%s %g: %s would be right", what, value, right);
}

static pare_status check(const pare_wire_load *load, metre *wire, pare_error *err)
{
    if (!(load->gauge >= 4 && load->gauge <= 40))
        return out_of_range("gauge", load->gauge, "4 to 40 AWG", err);
    if (!(load->current_a >= 0 && load->current_a <= 2000))
        return out_of_range("current in A", load->current_a, "0 to 2000", err);
    const pare_status air =
        pare_film_check(load->ambient_degc, load->pressure_pa, load->flow_m_s, err);
    if (air != PARE_OK)
        return air;
    const double copper_m2 = pare_wire_area_m2(load->gauge), bundle_m2 = copper_m2 / strands_fill;
    const double bundle_m = sqrt(4 * bundle_m2 / PI);
    const double outer_m = load->outer_m != 0 ? load->outer_m : pare_wire_outer_m(load->gauge);
    if (!(outer_m >= bundle_m && outer_m <= 0.05))
        return pare_fail(err, PARE_BAD_DATA,
                         "outer diameter %.4g mm: AWG %g takes %.4g mm for its strands alone, and "
                         "50 mm is the most",
                         1e3 * outer_m, load->gauge, 1e3 * bundle_m);
    const double cold_ohm = pare_copper_ohm_per_m(copper_m2, 20);
    *wire = (metre){
        .outer_m = outer_m,
        .copper_m2 = copper_m2,
        .bundle_m2 = bundle_m2,
        .silicone_m2 = PI / 4 * outer_m * outer_m - bundle_m2,
        .cold_ohm = cold_ohm,
        .cold_w = load->current_a * load->current_a * cold_ohm,
        .k_per_w = log(outer_m / bundle_m) / (2 * PI * silicone_w_m_k),
        .ambient_degc = load->ambient_degc,
        .pressure_pa = load->pressure_pa,
        .flow_m_s = load->flow_m_s,
    };
    return PARE_OK;
}

/* The conductor that passes its heat to a surface: T - Ts = k P(T), P linear in T. It has no end where
 * the copper's own rise outruns the insulation. */
static double conductor_over(const metre *wire, double surface_degc)
{
    const double slope = wire->k_per_w * wire->cold_w;
    const double left = 1 - slope * copper_per_k;
    return left > 0 ? (surface_degc + slope * (1 - 20 * copper_per_k)) / left : HUGE_VAL;
}

static double made_w(const metre *wire, double conductor_degc)
{
    return wire->cold_w * (1 + copper_per_k * (conductor_degc - 20));
}

static pare_status melts(const pare_wire_load *load, double current_a, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA,
                     "%g A melts AWG %g: thicker wire or less current would be right", current_a,
                     load->gauge);
}

static pare_status settle(const pare_wire_load *load, const metre *wire, pare_wire_heat *heat,
                          pare_error *err)
{
    /* What is made less what is lost falls with the surface: losses grow faster than copper's 0.4 %
     * a kelvin. Secant steps kept inside the bracket. */
    double low = wire->ambient_degc, high = MOST_DEGC;
    const double at_most = conductor_over(wire, high);
    if (!(isfinite(at_most)) || outruns(wire, high, made_w(wire, at_most)))
        return melts(load, load->current_a, err);
    /* The first guess takes the losses as steep as over the first ten kelvin. */
    double last = low, last_left = made_w(wire, conductor_over(wire, low));
    double at = fmin(low + 10 * last_left / lost_w(wire, low + 10), 0.5 * (low + high));
    for (int step = 1; step <= 100 && !(fabs(at - last) < 1e-8); step++) {
        const double left = made_w(wire, conductor_over(wire, at)) - lost_w(wire, at);
        if (left > 0)
            low = at;
        else
            high = at;
        if (left == 0 || high - low < 1e-8)
            break;
        double next = at - left * (last - at) / (last_left - left);
        if (!(next > low && next < high) || step % 8 == 0)
            next = 0.5 * (low + high);
        last = at;
        last_left = left;
        at = next;
    }
    const double conductor = conductor_over(wire, at);
    if (conductor > MOST_DEGC)
        return melts(load, load->current_a, err);
    *heat = (pare_wire_heat){conductor, at};
    return PARE_OK;
}

pare_status pare_wire_steady(const pare_wire_load *load, pare_wire_heat *heat, pare_error *err)
{
    metre wire = {0};
    if (check(load, &wire, err) != PARE_OK)
        return PARE_BAD_DATA;
    return settle(load, &wire, heat, err);
}

/* The surface that takes from the insulation's node what it gives to the air. near: a guess. The wire's nodes are
 * apart. */
static double surface_of(const metre *wire, double node_degc, double near)
{
    const double half = 0.5 * wire->k_per_w;
    /* Newton with the slope of radiation and a constant h; contracts fast, since h moves slowly. */
    double at = near;
    for (int i = 0; i < 20; i++) {
        const double lost = lost_w(wire, at);
        const double rise = at - wire->ambient_degc;
        const double slope = fabs(rise) > 1e-6 ? 1.2 * fabs(lost / rise) : 0.1;
        const double off = (node_degc - at) / half - lost;
        const double step = off / (1 / half + slope);
        at += step;
        if (fabs(step) < 1e-7)
            break;
    }
    return at;
}

/* Bare wire: a film of insulation keeps the two nodes apart without adding anything that counts. */
static void keep_nodes_apart(metre *wire)
{
    wire->silicone_m2 = fmax(wire->silicone_m2, 0.02 * wire->bundle_m2);
    wire->k_per_w = fmax(wire->k_per_w, 0.01 / (2 * PI * silicone_w_m_k));
}

typedef struct nodes {
    double copper_degc, silicone_degc;
} nodes;

static nodes rates(const metre *wire, nodes now, double *surface)
{
    const double half = 0.5 * wire->k_per_w;
    *surface = surface_of(wire, now.silicone_degc, *surface);
    const double in_w = (now.copper_degc - now.silicone_degc) / half;
    return (nodes){
        (made_w(wire, now.copper_degc) - in_w) / (copper_j_m3_k * wire->copper_m2),
        (in_w - lost_w(wire, *surface)) / (silicone_j_m3_k * wire->silicone_m2),
    };
}

static nodes along(nodes from, nodes rate, double s)
{
    return (nodes){from.copper_degc + s * rate.copper_degc,
                   from.silicone_degc + s * rate.silicone_degc};
}

pare_status pare_wire_after(const pare_wire_load *load, double start_degc, double seconds,
                            pare_wire_heat *heat, pare_error *err)
{
    metre wire;
    if (check(load, &wire, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(start_degc >= -60 && start_degc <= 300))
        return out_of_range("temperature at the start in degC", start_degc, "-60 to 300", err);
    if (!(seconds >= 0 && seconds <= 3600))
        return out_of_range("seconds", seconds, "0 to 3600", err);
    keep_nodes_apart(&wire);
    const double half = 0.5 * wire.k_per_w;
    const double own_s =
        half * fmin(copper_j_m3_k * wire.copper_m2, 0.5 * silicone_j_m3_k * wire.silicone_m2);
    const int steps = (int)fmin(fmax(ceil(seconds / (0.5 * own_s)), 40), 200000);
    const double h = seconds / steps;
    nodes now = {start_degc, start_degc};
    double surface = start_degc;
    for (int i = 0; i < steps; i++) {
        const nodes k1 = rates(&wire, now, &surface);
        const nodes k2 = rates(&wire, along(now, k1, h / 2), &surface);
        const nodes k3 = rates(&wire, along(now, k2, h / 2), &surface);
        const nodes k4 = rates(&wire, along(now, k3, h), &surface);
        now.copper_degc +=
            h / 6 * (k1.copper_degc + 2 * k2.copper_degc + 2 * k3.copper_degc + k4.copper_degc);
        now.silicone_degc +=
            h / 6 *
            (k1.silicone_degc + 2 * k2.silicone_degc + 2 * k3.silicone_degc + k4.silicone_degc);
        if (!(now.copper_degc < MOST_DEGC))
            return pare_fail(err, PARE_BAD_DATA, "%g A melts AWG %g after %.3g s", load->current_a,
                             load->gauge, (i + 1) * h);
    }
    *heat = (pare_wire_heat){now.copper_degc, surface_of(&wire, now.silicone_degc, surface)};
    return PARE_OK;
}

/* ---- flown: the same two nodes, solved in closed form over a step in which h stays ---- */

/* What a kelvin of the insulation's node over the air gives off, W, with h of a surface. */
static double conductance(const metre *wire, double surface_degc)
{
    const double rise = surface_degc - wire->ambient_degc;
    /* At the air's own temperature the ratio is 0/0; a tenth of a kelvin apart is as good. */
    const double apart = fabs(rise) > 0.1 ? surface_degc : wire->ambient_degc + 0.1;
    const double outside = lost_w(wire, apart) / (apart - wire->ambient_degc);
    return 1 / (0.5 * wire->k_per_w + 1 / outside);
}

/* x' = A x + b over t: x* + exp(A t)(x0 - x*). A's eigenvalues are real and apart, since each node
 * warms the other. */
static nodes after_step(const metre *wire, nodes from, double passes_w, double t)
{
    const double between = 1 / (0.5 * wire->k_per_w);
    const double c1 = copper_j_m3_k * wire->copper_m2, c2 = silicone_j_m3_k * wire->silicone_m2;
    const double a11 = (wire->cold_w * copper_per_k - between) / c1, a12 = between / c1;
    const double a21 = between / c2, a22 = -(between + passes_w) / c2;
    const double b1 = wire->cold_w * (1 - 20 * copper_per_k) / c1;
    const double b2 = passes_w * wire->ambient_degc / c2;
    const double middle = 0.5 * (a11 + a22);
    const double half_apart = sqrt(0.25 * (a11 - a22) * (a11 - a22) + a12 * a21);
    const double fast = middle - half_apart, slow = middle + half_apart;
    double det = fast * slow;
    if (fabs(det) < 1e-12) /* just running away: no rest to go to, so one very far off */
        det = det < 0 ? -1e-12 : 1e-12;
    const double rest1 = (a12 * b2 - a22 * b1) / det, rest2 = (a21 * b1 - a11 * b2) / det;
    const double x1 = from.copper_degc - rest1, x2 = from.silicone_degc - rest2;
    const double e_slow = exp(fmin(slow * t, 50)), e_fast = exp(fast * t);
    const double of_a = (e_slow - e_fast) / (slow - fast);
    const double of_1 = (slow * e_fast - fast * e_slow) / (slow - fast);
    return (nodes){rest1 + of_a * (a11 * x1 + a12 * x2) + of_1 * x1,
                   rest2 + of_a * (a21 * x1 + a22 * x2) + of_1 * x2};
}

#define STEP_S 10.0

static double surface_between(const metre *wire, double node_degc, double passes_w)
{
    return node_degc - 0.5 * wire->k_per_w * passes_w * (node_degc - wire->ambient_degc);
}

/* One stretch in steps that h may be held over; h of the step's middle, found by a first try. */
static void pass(metre *wire, pare_wire_stretch stretch, nodes *now, double *surface)
{
    wire->cold_w = stretch.current_a * stretch.current_a * wire->cold_ohm;
    const int steps = (int)fmin(fmax(ceil(stretch.seconds / STEP_S), 1), 1000);
    const double t = stretch.seconds / steps;
    for (int i = 0; i < steps && now->copper_degc < MOST_DEGC; i++) {
        const double first_w = conductance(wire, *surface);
        const nodes tried = after_step(wire, *now, first_w, t);
        const double end = surface_between(wire, tried.silicone_degc, first_w);
        const double passes_w = conductance(wire, fmin(0.5 * (*surface + end), MOST_DEGC));
        *now = after_step(wire, *now, passes_w, t);
        *surface = fmin(surface_between(wire, now->silicone_degc, passes_w), MOST_DEGC);
    }
}

static pare_status check_stretch(const pare_wire_stretch *stretch, pare_error *err)
{
    if (!(stretch->current_a >= 0 && stretch->current_a <= 2000))
        return out_of_range("current in A", stretch->current_a, "0 to 2000", err);
    if (!(stretch->seconds >= 0 && stretch->seconds <= 3600))
        return out_of_range("seconds", stretch->seconds, "0 to 3600", err);
    return PARE_OK;
}

pare_status pare_wire_flown(const pare_wire_load *load, double start_degc, size_t stretches,
                            const pare_wire_stretch stretch[], pare_wire_heat *heat,
                            double *hottest_degc, pare_error *err)
{
    metre wire;
    if (check(load, &wire, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(start_degc >= -60 && start_degc <= 300))
        return out_of_range("temperature at the start in degC", start_degc, "-60 to 300", err);
    keep_nodes_apart(&wire);
    nodes now = {start_degc, start_degc};
    double surface = start_degc, hottest = start_degc;
    for (size_t i = 0; i < stretches; i++) {
        if (check_stretch(&stretch[i], err) != PARE_OK)
            return PARE_BAD_DATA;
        pass(&wire, stretch[i], &now, &surface);
        if (!(now.copper_degc < MOST_DEGC))
            return melts(load, stretch[i].current_a, err);
        hottest = fmax(hottest, now.copper_degc);
    }
    *heat = (pare_wire_heat){now.copper_degc, surface};
    if (hottest_degc)
        *hottest_degc = hottest;
    return PARE_OK;
}

pare_status pare_wire_burst(const pare_wire_load *load, double burst_a, double seconds,
                            pare_wire_heat *settled, pare_wire_heat *burst, pare_error *err)
{
    const pare_wire_stretch stretch = {burst_a, seconds};
    metre wire = {0};
    if (check_stretch(&stretch, err) != PARE_OK || check(load, &wire, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (settle(load, &wire, settled, err) != PARE_OK)
        return PARE_BAD_DATA;
    keep_nodes_apart(&wire);
    nodes now = {settled->conductor_degc, 0.5 * (settled->conductor_degc + settled->surface_degc)};
    double surface = settled->surface_degc;
    pass(&wire, stretch, &now, &surface);
    if (!(now.copper_degc < MOST_DEGC))
        return melts(load, burst_a, err);
    *burst = (pare_wire_heat){now.copper_degc, surface};
    return PARE_OK;
}
