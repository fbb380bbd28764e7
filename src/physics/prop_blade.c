/* prop_blade.c: thrust and torque of a propeller along its axis, straight from the blade elements.
 *
 * Each of 16 stations is a two-dimensional section in the inflow angle phi at which its own forces
 * and the momentum that it gives to the air agree. Written as a product (Ning 2014, rearranged), the
 * balance R(phi) has no division by the forward speed, so standing still is a state like any other;
 * the usual form in induction factors divides by it. R is positive at the geometric inflow angle and
 * falls through zero at the answer, so a bracket always holds it and Newton is not needed.
 *
 * Speeds are over the tip speed Omega R. The polars are a fit to whole propellers in a wind tunnel,
 * not the properties of a section; Reynolds and Mach numbers are those of the undisturbed station.
 *
 * The cost is in the residual: one sin and cos of phi, two exp and acos for Prandtl's losses. The
 * angle of attack never needs its own sin and cos: those of a difference follow from four products.
 * Read balance() first. Sources: Prandtl's tip loss (Glauert, Airplane Propellers, 1935); Buhl,
 * NREL/TP-500-36834, 2005; plate: Hoerner, Fluid-Dynamic Drag, 1965. */
#include <math.h>

#include "physics/prop.h"
#include "physics/prop_blade.h"
#include "physics/prop_trend.h"

#define PI 3.14159265358979323846

/* One station, everything that does not change with phi. */
typedef struct station {
    const pare_prop_constants *k;
    double radius, axial; /* U, V over the tip speed */
    double beta, beta_sin, beta_cos;
    double slope;                 /* a */
    double lift_most, lift_least; /* cm, cn */
    double drag_least;            /* cd0' */
    double solidity_4;            /* sigma / 4 */
    double tip_loss, hub_loss;    /* ft, fh */
} station;

/* The forces and the imbalance at one phi. */
typedef struct balance_at {
    double residual;
    double sine, cosine;
    double normal, tangential; /* Cn, Ct */
    double q;                  /* sigma / 4F */
} balance_at;

static double clip(double value, double least, double most)
{
    return value < least ? least : value > most ? most : value;
}

static void lift_and_drag(const station *at, double alpha, double alpha_sin, double alpha_cos,
                          double *lift, double *drag)
{
    const pare_prop_constants *k = at->k;
    const double past = alpha - k->zero_lift_rad; /* d */
    const double attached = at->slope * past;
    const double most = at->lift_most;
    const double over =
        past >= 0 ? past - most / at->slope : -past * most / at->lift_least - most / at->slope;
    const double z = clip(over / k->stall_width, -1, 1);
    const double stalled = (2 + 3 * z - z * z * z) / 4; /* s: 0 attached, 1 a flat plate */
    const double off = clip(attached, -1.3 * most, 1.3 * most) - k->drag_centre;
    *lift = (1 - stalled) * attached;
    *drag = at->drag_least + (1 - stalled) * k->drag_curve * off * off;
    if (stalled > 0) {
        const double plate = k->plate_normal * alpha_sin / (0.283 + 0.222 * fabs(alpha_sin));
        *lift += stalled * plate * alpha_cos;
        *drag += stalled * plate * alpha_sin;
    }
}

/* (2/pi) acos(exp(-t)). Past t = 14, acos(e) is pi/2 - e to the last digit. */
static double prandtl(double t)
{
    if (t > 40)
        return 1;
    const double e = exp(-t);
    return t > 14 ? 1 - 2 / PI * e : 2 / PI * acos(e);
}

/* Thrust coefficient past 0.9 (Buhl): R for a station that the flow drives. */
static double braking_residual(const station *at, const balance_at *b, double loss, double kk)
{
    const double g1 = 2 * loss * kk - (10.0 / 9 - loss);
    const double g2 = fmax(0, 2 * loss * kk - loss * (4.0 / 3 - loss));
    const double g3 = 2 * loss * kk - (25.0 / 9 - 2 * loss);
    const double induced =
        fmin(0.999, fabs(g3) < 1e-6 ? 1 - 1 / (2 * sqrt(g2)) : (g1 - sqrt(g2)) / g3);
    return (1 + kk) * (at->axial * (1 - induced) * (b->cosine * b->sine + b->q * b->tangential) -
                       at->radius * b->sine * b->sine);
}

static double balance(const station *at, double phi, balance_at *b)
{
    const double sine = sin(phi), cosine = cos(phi);
    double lift, drag;
    lift_and_drag(at, at->beta - phi, at->beta_sin * cosine - at->beta_cos * sine,
                  at->beta_cos * cosine + at->beta_sin * sine, &lift, &drag);
    const double over_sine = 1 / fmax(fabs(sine), 1e-6);
    const double loss = at->k->loss_factor * fmax(1e-4, prandtl(at->tip_loss * over_sine) *
                                                            prandtl(at->hub_loss * over_sine));
    const double q = at->solidity_4 / loss;
    const double sine2 = sine * sine;
    b->sine = sine;
    b->cosine = cosine;
    b->normal = lift * cosine - drag * sine;
    b->tangential = lift * sine + drag * cosine;
    b->q = q;
    const double push = q * b->normal;
    if (at->axial > 0 && -3 * push > 2 * sine2)
        b->residual = braking_residual(at, b, loss, -push / fmax(sine2, 1e-300));
    else
        b->residual = at->axial * (cosine * sine + q * b->tangential) - at->radius * (sine2 - push);
    return b->residual;
}

/* Illinois, with a bisection every sixth step for flat and kinked residuals.
 * Takes residuals of opposite signs at low and high; leaves the best in *b. */
static void close_in(const station *at, double low, double at_low, double high, double at_high,
                     double tolerance, balance_at *b)
{
    double last = low;
    int side = 0;
    for (int step = 1; step <= 80; step++) {
        const double phi = step % 6 == 0 ? 0.5 * (low + high)
                                         : (low * at_high - high * at_low) / (at_high - at_low);
        const double here = balance(at, phi, b);
        if (here == 0 || fabs(phi - last) < tolerance || high - low < tolerance)
            return;
        last = phi;
        if ((here > 0) == (at_low > 0)) {
            low = phi;
            at_low = here;
            if (side == -1)
                at_high *= 0.5;
            side = -1;
        } else {
            high = phi;
            at_high = here;
            if (side == 1)
                at_low *= 0.5;
            side = 1;
        }
    }
}

static void solve(const station *at, double tolerance, balance_at *b)
{
    const double most = 1.5707;
    const double still = atan2(at->axial, at->radius);
    const double alpha = at->beta - still;
    double lift, drag, low, high, at_low, at_high;
    lift_and_drag(at, alpha, sin(alpha), cos(alpha), &lift, &drag);
    if (lift >= 0) {
        low = fmax(still, 1e-7);
        high = fmin(low + 0.15, most);
        at_low = balance(at, low, b);
        at_high = balance(at, high, b);
        while (at_high > 0 && high < most) {
            low = high;
            at_low = at_high;
            high = fmin(high + 0.3, most);
            at_high = balance(at, high, b);
        }
    } else {
        const double least = 1e-6;
        high = fmax(still, least);
        low = fmax(high - 0.05, least);
        at_high = balance(at, high, b);
        at_low = balance(at, low, b);
        while (at_low < 0 && low > least) {
            high = low;
            at_high = at_low;
            low = fmax(low - 0.05, least);
            at_low = balance(at, low, b);
        }
    }
    if ((at_low > 0) != (at_high > 0))
        close_in(at, low, at_low, high, at_high, tolerance, b);
    else
        balance(at, fabs(at_low) < fabs(at_high) ? low : high, b);
}

static double chord_reynolds_factor(double reynolds)
{
    return clip(reynolds / 1e5, 0.05, 10);
}

/* CP of the least power that gives a thrust: an actuator disc's (Rankine, Froude). */
static double ideal_power(double ct, double advance)
{
    const double half = 0.5 * advance;
    return ct * (half + sqrt(half * half + 2 / PI * ct));
}

void pare_prop_blade(const pare_prop *prop, double advance, double tip_reynolds, double tip_mach,
                     double tolerance, double *ct, double *cp)
{
    const pare_prop_constants *k = prop->constants;
    const double blades = prop->blades, axial = advance / PI;
    const double slope = k->lift_slope * prop->slope_factor;
    const double lift_most = k->lift_most * prop->lift_factor;
    const double drag_least = k->drag_least * prop->drag_factor;
    double thrust = 0, power = 0;
    for (int i = 0; i < PARE_PROP_NODES; i++) {
        const double x = prop->radius[i], chord = prop->chord[i];
        const double speed = sqrt(x * x + axial * axial);
        const double log_e = log(chord_reynolds_factor(tip_reynolds * speed * chord));
        const double mach = fmin(tip_mach * speed, k->mach_most);
        const double broad = chord / x;
        const double e_c = exp(k->lift_most_exponent * log_e);
        const station at = {
            .k = k,
            .radius = x,
            .axial = axial,
            .beta = prop->twist[i],
            .beta_sin = sin(prop->twist[i]),
            .beta_cos = cos(prop->twist[i]),
            .slope = slope * exp(k->lift_slope_exponent * log_e) / sqrt(1 - mach * mach),
            .lift_most = lift_most * e_c * fmin(1 + k->rotation * broad * broad, 2),
            .lift_least = k->lift_least * e_c,
            .drag_least = drag_least * exp(-k->drag_least_exponent * log_e),
            .solidity_4 = blades * chord / (8 * PI * x),
            .tip_loss = blades * (1 - x) / (2 * x),
            .hub_loss = fmax(blades * (x - k->hub) / (2 * k->hub), 1e-3),
        };
        balance_at b;
        solve(&at, tolerance, &b);
        const double w = x * b.sine / (b.cosine * b.sine + b.q * b.tangential);
        const double part = prop->weight[i] * w * w * chord;
        thrust += part * b.normal;
        power += part * b.tangential * x;
    }
    const double re = tip_reynolds * prop->reynolds_of_tip;
    double thrust_factor, power_factor;
    pare_prop_last_factors(prop, advance, re, &thrust_factor, &power_factor);
    *ct = blades * PI * PI / 8 * thrust * thrust_factor;
    *cp = blades * PI * PI * PI / 8 * power * power_factor;
    if (*ct > 0)
        *cp = fmax(*cp, ideal_power(*ct, advance) / k->ideal_share_most);
}

void pare_prop_coefficients(const pare_prop *prop, double advance, double speed_rad_s,
                            const pare_air *air, double *ct, double *cp)
{
    const double radius_m = 0.5 * prop->diameter_m, tip_m_s = speed_rad_s * radius_m;
    *ct = *cp = 0;
    if (!(tip_m_s > 0) || !isfinite(tip_m_s))
        return;
    pare_prop_blade(prop, advance > 0 ? fmin(advance, PARE_PROP_ADVANCE_MOST) : 0,
                    air->density_kg_m3 * tip_m_s * radius_m / air->viscosity_pa_s,
                    tip_m_s / air->sound_m_s, 1e-11, ct, cp);
}
