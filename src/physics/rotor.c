/* rotor.c: a turning propeller in any flow, from its behaviour along the axis.
 *
 * Along the axis the propeller's own CT and CP hold. Across it, Glauert's hypothesis: the induced
 * velocity is that of a wing as wide as the disc. A blade only feels the inflow lambda through the
 * disc, so the state in inclined flow is the axial state with the same lambda; what the flow across
 * adds in the mean over a turn goes with mu^2 (thrust by 1.5 A mu^2, profile power by 2.65 mu^2; with
 * the 2 that the in-plane drag H costs the trim, the 4.65 of helicopter books, not counted twice).
 * Below the inflow of hover there is no axial state to copy: thrust then runs on along the slope
 * between J = 0 and 0.15, profile power stays. The branch below is the usual one in level flight, and
 * it needs no look-up beyond two columns of the table.
 *
 * Trend only: not checked against rotors in a tunnel across the flow. H leaves out the tilt of the
 * lift, so it is a lower bound. In descent we follow the branch that climbs out of hover: momentum
 * theory knows no vortex ring.
 *
 * Speeds are over the tip speed Omega R; CTh = T/(rho A (Omega R)^2) = 4 CT/pi^3.
 * Read inclined() first. Sources: Glauert, ARC R&M 1111, 1926; Leishman, Principles of Helicopter
 * Aerodynamics, 2nd ed., sections 2.14, 3.5, 5.4 (from memory). */
#include "physics/rotor.h"

#include <math.h>

#include "physics/prop_blade.h"
#include "physics/prop_table.h"

#define PI              3.14159265358979323846
#define DISC_OVER_PROP  (4 / (PI * PI * PI)) /* CTh over CT */
#define AXIAL_MU        1e-6
#define MU_SQUARED_MOST 0.25
#define INPLANE_POWER   2.65 /* 4.65 less the power of H */

/* The propeller along its axis at one speed in one air. */
typedef struct axis {
    const pare_rotor *rotor;
    const pare_air *air;
    double speed_rad_s;
    pare_pair factor;
    pare_prop_slice slice; /* taken where there is a table */
} axis;

static void axis_take(axis *along, const pare_rotor *rotor, const pare_air *air, double speed_rad_s)
{
    along->rotor = rotor;
    along->air = air;
    along->speed_rad_s = speed_rad_s;
    along->factor = (pare_pair){rotor->thrust_factor, rotor->power_factor};
    if (rotor->table != NULL)
        pare_prop_slice_take(&along->slice, rotor->table, speed_rad_s, air);
}

static pare_pair direct(const axis *along, double advance)
{
    double ct, cp;
    pare_prop_coefficients(along->rotor->prop, advance, along->speed_rad_s, along->air, &ct, &cp);
    return (pare_pair){ct, cp} * along->factor;
}

static double held(double advance)
{
    return advance < PARE_PROP_ADVANCE_MOST ? advance : PARE_PROP_ADVANCE_MOST;
}

/* CT and CP. */
static pare_pair axis_at(const axis *along, double advance)
{
    if (along->rotor->table == NULL)
        return direct(along, held(advance));
    return pare_prop_slice_at(&along->slice, held(advance)) * along->factor;
}

/* d ln CT / d ln J; 0 without a table, where it would cost another evaluation. */
static double axis_relative_slope(const axis *along, double advance, double ct)
{
    if (along->rotor->table == NULL || advance <= 0)
        return 0;
    const pare_pair slope = pare_prop_slice_slope(&along->slice, held(advance));
    return advance * slope[0] * along->factor[0] / ct;
}

/* The states that the lift slope comes from: J = 0 and J = 0.15. */
static void axis_ends(const axis *along, pare_pair *still, pare_pair *moving)
{
    if (along->rotor->table == NULL) {
        *still = direct(along, 0);
        *moving = direct(along, PARE_PROP_TABLE_SLOPE);
    } else {
        *still = pare_prop_slice_still(&along->slice) * along->factor;
        *moving = pare_prop_slice_moving(&along->slice) * along->factor;
    }
}

/* Inflow of an axial state. Where the flow drives the disc so hard that momentum theory has no root,
 * half of it is left. */
static double inflow(double advance, double ct)
{
    const double climb = advance / PI, under = climb * climb + 2 * DISC_OVER_PROP * ct;
    return under > 0 ? 0.5 * (climb + sqrt(under)) : 0.5 * climb;
}

/* What inclined() is asked and works with. */
typedef struct flow {
    double mu2;   /* mu^2 */
    double axial; /* muz */
    double lift;  /* 1.5 A mu^2, mu held at 0.5: CT that the edgewise flow adds */
} flow;

/* Glauert's equation as a residual: inflow, less the axial flow, less what a CT induces. */
static double glauert(const flow *in, double lambda, double ct)
{
    const double speed = fmax(sqrt(in->mu2 + lambda * lambda), 1e-9);
    return lambda - in->axial - 0.5 * DISC_OVER_PROP * (ct + in->lift) / speed;
}

/* Below the inflow of hover, CT = ct0 + slope (lambda - lambda0): Newton inside a bracket.
 * Takes glauert(lambda0) >= 0. */
static double inflow_on_slope(const flow *in, double lambda0, double ct0, double slope,
                              double lambda)
{
    double high = lambda0, low = 0;
    if (glauert(in, 0, ct0 - slope * lambda0) > 0) {
        high = 0;
        low = -0.05;
        while (glauert(in, low, ct0 + slope * (low - lambda0)) > 0 && low > -1e3)
            low *= 4;
    }
    if (!(lambda > low && lambda < high))
        lambda = 0.5 * (low + high);
    for (int step = 0; step < 60; step++) {
        /* Times the speed, the equation is (lambda - axial) speed = half CT: nearly straight where
         * the flow across is fast, and one root and one division a step. */
        const double half_ct = 0.5 * DISC_OVER_PROP * (ct0 + slope * (lambda - lambda0) + in->lift);
        const double speed2 = fmax(in->mu2 + lambda * lambda, 1e-18), speed = sqrt(speed2);
        const double residual = (lambda - in->axial) * speed2 - half_ct * speed;
        const double rise =
            speed2 + (lambda - in->axial) * lambda - 0.5 * DISC_OVER_PROP * slope * speed;
        if (residual > 0)
            high = lambda;
        else
            low = lambda;
        double next = lambda - residual / rise;
        if (!(next >= low && next <= high))
            next = 0.5 * (low + high);
        const double moved = fabs(next - lambda);
        lambda = next;
        if (moved < 3e-6) /* Newton doubles the digits: 1e-10 or so after this step */
            break;
    }
    return lambda;
}

/* Above it: the axial state with the same inflow. Regula falsi on the last two advance ratios, the
 * first of them J = 0.15; kept inside a bracket as soon as there is one, because CT may rise or fall
 * with J. The last step is taken on the state itself: an interpolation between two states so near to
 * the root is as good as the look-up that it saves. */
static pare_pair state_with_inflow(const axis *along, const flow *in, pare_pair moving,
                                   double residual0, double *lambda)
{
    double low = 0, high = INFINITY;
    double last = PARE_PROP_TABLE_SLOPE, last_lambda = inflow(last, moving[0]);
    double at_last = glauert(in, last_lambda, moving[0]);
    pare_pair last_state = moving, state = moving;
    if (at_last < 0)
        low = last;
    else
        high = last;
    double advance = last * residual0 / (residual0 - at_last);
    if (!(advance > low && advance < high))
        advance = isinf(high) ? 1 : 0.5 * (low + high);
    for (int step = 0; step < 60; step++) {
        state = axis_at(along, advance);
        *lambda = inflow(advance, state[0]);
        const double residual = glauert(in, *lambda, state[0]);
        const double share = residual / (at_last - residual);
        if (fabs(residual * at_last) < 1e-11 && fabs(share) < 1) {
            *lambda += share * (*lambda - last_lambda);
            return state + share * (state - last_state);
        }
        if (fabs(residual) < 1e-13 || advance >= PARE_PROP_ADVANCE_MOST)
            break;
        if (residual < 0)
            low = advance;
        else
            high = advance;
        double next = advance + share * (advance - last);
        last = advance;
        last_lambda = *lambda;
        last_state = state;
        at_last = residual;
        if (!(next > low && next < high) || step % 8 == 7)
            next = isinf(high) ? 2 * advance + 0.05 : 0.5 * (low + high);
        else if (isinf(high))
            next = fmin(next, 2 * advance + 0.05);
        if (fabs(next - advance) < 1e-14 * advance)
            break;
        advance = fmin(next, PARE_PROP_ADVANCE_MOST);
    }
    return state;
}

/* CT, shaft CP and H/(rho n^2 D^4) in inclined flow.
 *
 * @param[in,out] lambda  a guess of the inflow (0: none), then the inflow */
static void inclined(const axis *along, double mu, double axial, double *lambda, double *ct,
                     double *cp, double *ch)
{
    pare_pair still, moving;
    axis_ends(along, &still, &moving);
    const double lambda0 = inflow(0, still[0]);
    const double rise = inflow(PARE_PROP_TABLE_SLOPE, moving[0]) - lambda0;
    /* An inflow that does not rise with J says nothing about the slope: take thrust as level. */
    const double slope = rise > 1e-6 ? (moving[0] - still[0]) / rise : 0;
    const double mu2_held = fmin(mu * mu, MU_SQUARED_MOST);
    const flow in = {
        .mu2 = mu * mu, .axial = axial, .lift = 1.5 * mu2_held * (still[0] - slope * lambda0)};
    const double residual0 = glauert(&in, lambda0, still[0]);
    double profile;
    if (residual0 >= 0) {
        const double guess = *lambda != 0 ? *lambda : lambda0 - residual0;
        *lambda = inflow_on_slope(&in, lambda0, still[0], slope, guess);
        *ct = still[0] + slope * (*lambda - lambda0);
        profile = still[1] - PI * lambda0 * still[0];
    } else {
        const pare_pair state = state_with_inflow(along, &in, moving, residual0, lambda);
        *ct = state[0];
        profile = state[1] - PI * *lambda * state[0];
    }
    *ct += in.lift;
    *cp = profile * (1 + INPLANE_POWER * mu2_held) + PI * *lambda * *ct;
    /* H = 2 mu pr rho n^3 D^5 / (Omega R), and Omega R = pi n D. */
    *ch = 2 * sqrt(mu2_held) * profile / PI;
}

/* One state; *lambda as for inclined(). power, where asked for: about d ln T / d ln w in the flow, 2
 * but for what J and Reynolds number (0.1, over many propellers) do to CT. */
static inline void state_at(const pare_rotor *rotor, const pare_air *air, double speed_rad_s,
                            double axial_m_s, double inplane_m_s, double *lambda, double *power,
                            pare_rotor_state *state)
{
    const double diameter_m = rotor->prop->diameter_m;
    const double nd_m_s = speed_rad_s * diameter_m * (0.5 / PI); /* n D */
    const double tip_m_s = PI * nd_m_s;
    const double force_n = air->density_kg_m3 * (nd_m_s * diameter_m) * (nd_m_s * diameter_m);
    axis along;
    double ct, cp, ch = 0;
    axis_take(&along, rotor, air, speed_rad_s);
    if (power != NULL)
        *power = 2;
    if (axial_m_s >= 0 && inplane_m_s < AXIAL_MU * tip_m_s) {
        const double advance = axial_m_s / nd_m_s;
        const pare_pair value = axis_at(&along, advance);
        ct = value[0];
        cp = value[1];
        if (power != NULL)
            *power = 2.1 - axis_relative_slope(&along, advance, ct);
    } else {
        inclined(&along, inplane_m_s / tip_m_s, axial_m_s / tip_m_s, lambda, &ct, &cp, &ch);
    }
    *state = (pare_rotor_state){.speed_rad_s = speed_rad_s,
                                .thrust_n = force_n * ct,
                                .torque_nm = force_n * diameter_m * (0.5 / PI) * cp,
                                .drag_n = force_n * ch};
}

void pare_rotor_at(const pare_rotor *rotor, const pare_air *air, double speed_rad_s,
                   double axial_m_s, double inplane_m_s, pare_rotor_state *state)
{
    if (speed_rad_s <= 0) {
        *state = (pare_rotor_state){0};
        return;
    }
    if (!isfinite(speed_rad_s) || !isfinite(axial_m_s) || !isfinite(inplane_m_s)) {
        *state = (pare_rotor_state){NAN, NAN, NAN, NAN};
        return;
    }
    double lambda = 0;
    state_at(rotor, air, speed_rad_s, axial_m_s, fmax(inplane_m_s, 0), &lambda, NULL, state);
}

/* Thrust grows roughly with (w - w0)^2, so its root is nearly straight in w: the secant method on it
 * gains half again the digits at every step. */
static double root_of(double thrust_n)
{
    return thrust_n > 0 ? sqrt(thrust_n) : -sqrt(-thrust_n);
}

/* The last secant step, taken on the state: between two states this near to the answer, a straight
 * line is as good as the evaluation that it saves. */
static void step_to(pare_rotor_state *state, const pare_rotor_state *last, double share)
{
    state->speed_rad_s += share * (state->speed_rad_s - last->speed_rad_s);
    state->thrust_n += share * (state->thrust_n - last->thrust_n);
    state->torque_nm += share * (state->torque_nm - last->torque_nm);
    state->drag_n += share * (state->drag_n - last->drag_n);
}

pare_status pare_rotor_for_thrust(const pare_rotor *rotor, const pare_air *air, double thrust_n,
                                  double axial_m_s, double inplane_m_s, double near_rad_s,
                                  pare_rotor_state *state, pare_error *err)
{
    if (!(thrust_n > 0) || !isfinite(thrust_n))
        return pare_fail(err, PARE_BAD_DATA,
                         "%g N of thrust asked of a rotor, where more than 0 "
                         "is right",
                         thrust_n);
    if (!isfinite(axial_m_s) || !isfinite(inplane_m_s))
        return pare_fail(err, PARE_BAD_DATA,
                         "the flow at a rotor, %g m/s along and %g m/s across, "
                         "is not finite",
                         axial_m_s, inplane_m_s);
    const double inplane = fmax(inplane_m_s, 0);
    const double diameter_m = rotor->prop->diameter_m;
    const double most = 2 * air->sound_m_s / diameter_m;
    const double least = fmin(2 * inplane / diameter_m * (1 + 1e-9), most);
    const double wanted = sqrt(thrust_n);
    double low = least, high = most;
    bool low_known = false, high_known = false;
    double w = near_rad_s;
    if (!(w > 0) || !isfinite(w)) {
        const double still =
            2 * PI * wanted / (sqrt(0.12 * air->density_kg_m3) * diameter_m * diameter_m);
        w = still + PI * fmax(axial_m_s, 0) / diameter_m;
    }
    w = fmin(fmax(w, least), most);
    double at_last = 0, lambda = 0;
    pare_rotor_state last_state = {0};
    for (int step = 0; step < 80; step++) {
        double power;
        state_at(rotor, air, w, axial_m_s, inplane, &lambda, step == 0 ? &power : NULL, state);
        const double here = root_of(state->thrust_n) - wanted;
        if (fabs(here) < 1e-11 * wanted)
            return PARE_OK;
        const double share = here / (at_last - here);
        if (step > 0 && fabs(here * at_last) < 1e-9 * thrust_n && fabs(here) < 1e-4 * wanted) {
            step_to(state, &last_state, share);
            return PARE_OK;
        }
        if (here > 0) {
            if (w <= least)
                return pare_fail(err, PARE_BAD_DATA,
                                 "%g N of thrust asked of a rotor, where the flow alone gives "
                                 "%g N at its slowest (%g m/s across)",
                                 thrust_n, state->thrust_n, inplane);
            high = w;
            high_known = true;
        } else {
            if (!(w < most) || !(here < 0))
                return pare_fail(err, PARE_BAD_DATA,
                                 "%g N of thrust asked of a rotor, where %g N is the most before "
                                 "its tips reach the speed of sound",
                                 thrust_n, state->thrust_n);
            low = w;
            low_known = true;
        }
        double next;
        if (step == 0)
            next = here > -wanted ? w - here * 2 * w / ((here + wanted) * power) : 1.5 * w;
        else
            next = w + share * (w - last_state.speed_rad_s);
        if (low_known && high_known) {
            if (!(next > low && next < high) || step % 8 == 7)
                next = 0.5 * (low + high);
            if (high - low < 1e-14 * high)
                return PARE_OK;
        } else if (low_known) {
            next = next > w ? fmin(fmin(next, 2 * w), most) : fmin(1.5 * w, most);
        } else {
            next = next < w ? fmax(fmax(next, 0.5 * w), least) : fmax(0.7 * w, least);
            /* Towards a standstill the thrust of a rotor without edgewise flow goes to 0. */
            if (least == 0 && next < 1e-9 * most)
                break;
        }
        last_state = *state;
        at_last = here;
        w = next;
    }
    return pare_fail(err, PARE_BAD_DATA,
                     "no rotor speed gives %g N in a flow of %g m/s along and "
                     "%g m/s across",
                     thrust_n, axial_m_s, inplane);
}

double pare_rotor_ideal_hover_w(double thrust_n, double diameter_m, double density_kg_m3)
{
    const double disc_m2 = PI / 4 * diameter_m * diameter_m;
    return thrust_n * sqrt(thrust_n / (2 * density_kg_m3 * disc_m2));
}

/* In units of hover: v sqrt(inplane^2 + (axial + v)^2) = 1. Newton inside a bracket. */
double pare_rotor_induced(double axial_over_hover, double inplane_over_hover)
{
    const double axial = axial_over_hover, inplane = fabs(inplane_over_hover);
    if (!isfinite(axial) || !isfinite(inplane))
        return NAN;
    if (inplane == 0) {
        if (axial >= 0)
            return 1 / (0.5 * (axial + sqrt(axial * axial + 4)));
        if (axial > -2)
            return NAN;
        return -0.5 * axial - sqrt(0.25 * axial * axial - 1);
    }
    double low = 0, high = fmax(1, -axial) + 1;
    while (high * hypot(inplane, axial + high) < 1)
        high *= 2;
    double v = axial >= 0 ? 1 / hypot(inplane, axial + 1) : 0.5 * (low + high);
    for (int step = 0; step < 100; step++) {
        const double speed = hypot(inplane, axial + v), over = v * speed - 1;
        if (over > 0)
            high = v;
        else
            low = v;
        double next = v - over / (speed + v * (axial + v) / speed);
        if (!(next > low && next < high))
            next = 0.5 * (low + high);
        if (fabs(next - v) <= 1e-16 * v)
            break;
        v = next;
    }
    return v;
}
