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

#include "physics/inflow.h"
#include "physics/prop_blade.h"
#include "physics/prop_table.h"

#define PI              3.14159265358979323846
#define DISC_OVER_PROP  (4 / (PI * PI * PI)) /* CTh over CT */
#define AXIAL_MU        1e-6
#define MU_SQUARED_MOST 0.25
#define INPLANE_POWER   2.65     /* 4.65 less the power of H */
#define H_PER_MU        (2 / PI) /* H = 2 mu pr rho n^3 D^5 / (Omega R), and Omega R = pi n D */
#define LEAST_RISE      1e-6

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

/* CT and CP. Half of all questions are about a rotor at rest, which is the table's first column. */
static pare_pair axis_at(const axis *along, double advance)
{
    if (along->rotor->table == NULL)
        return direct(along, held(advance));
    if (advance == 0)
        return pare_prop_slice_still(&along->slice) * along->factor;
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
    double mu2;      /* mu^2 */
    double mu2_held; /* mu held at 0.5 */
    double axial;    /* muz */
    double lift;     /* 1.5 A mu^2, mu held: CT that the edgewise flow adds */
} flow;

/* Glauert's equation as a residual: inflow, less the axial flow, less what a CT induces. */
static double glauert(const flow *in, double lambda, double ct)
{
    const double speed2 = in->mu2 + lambda * lambda;
    const double speed = speed2 > 1e-18 ? sqrt(speed2) : 1e-9;
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

/* What the lift slope comes from: the states at J = 0 and 0.15 of a propeller along its axis. */
typedef struct base {
    pare_pair still, moving;
    double lambda0; /* inflow of hover */
    double rise;    /* of inflow, to J = 0.15 */
    double slope;   /* of CT with inflow */
} base;

static base base_from(pare_pair still, pare_pair moving)
{
    base b = {.still = still, .moving = moving};
    b.lambda0 = inflow(0, b.still[0]);
    b.rise = inflow(PARE_PROP_TABLE_SLOPE, b.moving[0]) - b.lambda0;
    /* An inflow that does not rise with J says nothing about the slope: take thrust as level. */
    b.slope = b.rise > LEAST_RISE ? (b.moving[0] - b.still[0]) / b.rise : 0;
    return b;
}

static flow flow_of(const base *b, double mu, double axial)
{
    const double mu2 = mu * mu, mu2_held = mu2 < MU_SQUARED_MOST ? mu2 : MU_SQUARED_MOST;
    return (flow){.mu2 = mu2,
                  .mu2_held = mu2_held,
                  .axial = axial,
                  .lift = 1.5 * mu2_held * (b->still[0] - b->slope * b->lambda0)};
}

/* CT, shaft CP and H/(rho n^2 D^4). */
typedef struct coefficients {
    double ct, cp, ch;
} coefficients;

/* Below the inflow of hover. */
static coefficients on_slope(const base *b, const flow *in, double lambda)
{
    const double ct = b->still[0] + b->slope * (lambda - b->lambda0) + in->lift;
    const double profile = b->still[1] - PI * b->lambda0 * b->still[0];
    return (coefficients){ct, profile * (1 + INPLANE_POWER * in->mu2_held) + PI * lambda * ct,
                          H_PER_MU * sqrt(in->mu2_held) * profile};
}

/* Above it. */
static coefficients with_axial(pare_pair state, const flow *in, double lambda)
{
    const double ct = state[0] + in->lift;
    const double profile = state[1] - PI * lambda * state[0];
    return (coefficients){ct, profile * (1 + INPLANE_POWER * in->mu2_held) + PI * lambda * ct,
                          H_PER_MU * sqrt(in->mu2_held) * profile};
}

/* The state in inclined flow.
 *
 * @param[in,out] lambda  a guess of the inflow (0: none), then the inflow */
static coefficients inclined(const axis *along, double mu, double axial, double *lambda)
{
    pare_pair still, moving;
    axis_ends(along, &still, &moving);
    const base b = base_from(still, moving);
    const flow in = flow_of(&b, mu, axial);
    const double residual0 = glauert(&in, b.lambda0, b.still[0]);
    if (residual0 >= 0) {
        const double guess = *lambda != 0 ? *lambda : b.lambda0 - residual0;
        *lambda = inflow_on_slope(&in, b.lambda0, b.still[0], b.slope, guess);
        return on_slope(&b, &in, *lambda);
    }
    const pare_pair state = state_with_inflow(along, &in, b.moving, residual0, lambda);
    return with_axial(state, &in, *lambda);
}

/* What forces and torque are measured in at one speed. */
typedef struct measures {
    double nd_m_s, tip_m_s, force_n, torque_nm;
} measures;

static measures measures_of(const pare_rotor *rotor, const pare_air *air, double speed_rad_s)
{
    const double diameter_m = rotor->prop->diameter_m;
    const double nd_m_s = speed_rad_s * diameter_m * (0.5 / PI); /* n D */
    const double force_n = air->density_kg_m3 * (nd_m_s * diameter_m) * (nd_m_s * diameter_m);
    return (measures){nd_m_s, PI * nd_m_s, force_n, force_n * diameter_m * (0.5 / PI)};
}

static void give(const measures *m, double speed_rad_s, const coefficients *c,
                 pare_rotor_state *state)
{
    *state = (pare_rotor_state){.speed_rad_s = speed_rad_s,
                                .thrust_n = m->force_n * c->ct,
                                .torque_nm = m->torque_nm * c->cp,
                                .drag_n = m->force_n * c->ch};
}

/* A propeller along its axis with slopes: CT and CP, with ln of the speed, and with J. */
typedef struct sloped {
    pare_pair value, with_speed, with_advance;
} sloped;

/* The same at J = 0 and 0.15, and at one J. */
typedef struct axis_slopes {
    sloped still, moving, here;
} axis_slopes;

static sloped direct_slopes(const axis *along, double advance)
{
    const double step = 1e-5;
    axis faster = *along;
    faster.speed_rad_s *= 1 + step;
    const pare_pair value = direct(along, advance);
    return (sloped){value, (direct(&faster, advance) - value) / step,
                    (direct(along, advance + step) - value) / step};
}

static sloped table_slopes(const axis *along, const pare_prop_slice *rise, double advance)
{
    const pare_prop_step step = pare_prop_step_of(advance);
    const double(*piece)[PARE_PROP_TABLE_SETS][2] = along->slice.table->piece[step.piece];
    const double t = step.t;
    sloped sum = {pare_both(0), pare_both(0), pare_both(0)};
    for (int set = 0; set < PARE_PROP_TABLE_SETS; set++) {
        const pare_pair a1 = pare_pair_from(piece[1][set]), a2 = pare_pair_from(piece[2][set]);
        const pare_pair a3 = pare_pair_from(piece[3][set]), weight = along->slice.weight[set];
        const pare_pair value = pare_pair_from(piece[0][set]) + t * (a1 + t * (a2 + t * a3));
        sum.value += weight * value;
        sum.with_speed += rise->weight[set] * value;
        sum.with_advance += weight * (a1 + t * (2 * a2 + 3 * t * a3));
    }
    return (sloped){sum.value * along->factor, sum.with_speed * along->factor,
                    sum.with_advance * (PARE_PROP_TABLE_PER_STEP * along->factor)};
}

static void axis_with_slopes(axis *along, const pare_rotor *rotor, const pare_air *air,
                             double speed_rad_s, double advance, axis_slopes *out)
{
    along->rotor = rotor;
    along->air = air;
    along->speed_rad_s = speed_rad_s;
    along->factor = (pare_pair){rotor->thrust_factor, rotor->power_factor};
    if (rotor->table == NULL) {
        out->still = direct_slopes(along, 0);
        out->moving = direct_slopes(along, PARE_PROP_TABLE_SLOPE);
        out->here = advance > 0 ? direct_slopes(along, held(advance)) : out->still;
        return;
    }
    const pare_prop_place place = pare_prop_place_of(rotor->table, speed_rad_s, air);
    pare_prop_slice rise;
    pare_prop_slice_weigh(&along->slice, rotor->table, place.u, place.m);
    pare_prop_slice_weigh_slopes(&rise, rotor->table, &place);
    out->still.value = pare_prop_slice_still(&along->slice) * along->factor;
    out->still.with_speed = pare_prop_slice_still(&rise) * along->factor;
    out->still.with_advance = pare_both(0); /* not asked for */
    out->moving.value = pare_prop_slice_moving(&along->slice) * along->factor;
    out->moving.with_speed = pare_prop_slice_moving(&rise) * along->factor;
    out->here = advance > 0 ? table_slopes(along, &rise, held(advance)) : out->still;
}

/* What a blade feels with an inflow, before the flow across adds its part; _w with ln of the speed,
 * _j with the advance ratio. */
typedef struct felt {
    double lambda, lambda_w, lambda_j;
    double ct, ct_w, ct_j;
    double profile, profile_w, profile_j;
} felt;

static felt felt_above(const sloped *here, double advance)
{
    felt f = {.ct = here->value[0], .ct_w = here->with_speed[0], .ct_j = here->with_advance[0]};
    const double climb = advance / PI, under = climb * climb + 2 * DISC_OVER_PROP * f.ct;
    f.lambda = 0.5 * climb;
    f.lambda_j = 0.5 / PI;
    if (under > 0) {
        const double root = sqrt(under), over = 0.5 / root;
        f.lambda += 0.5 * root;
        f.lambda_w = over * DISC_OVER_PROP * f.ct_w;
        f.lambda_j += over * (climb / PI + DISC_OVER_PROP * f.ct_j);
    }
    f.profile = here->value[1] - PI * f.lambda * f.ct;
    f.profile_w = here->with_speed[1] - PI * (f.lambda_w * f.ct + f.lambda * f.ct_w);
    f.profile_j = here->with_advance[1] - PI * (f.lambda_j * f.ct + f.lambda * f.ct_j);
    return f;
}

static felt felt_below(const base *b, const axis_slopes *ends, double advance)
{
    const double per_advance = b->rise > LEAST_RISE ? b->rise / PARE_PROP_TABLE_SLOPE : 0.5 / PI;
    const double still_w = ends->still.with_speed[0], moving_w = ends->moving.with_speed[0];
    const double lambda0_w = 0.5 * b->lambda0 * still_w / b->still[0];
    felt f = {.lambda = b->lambda0 + per_advance * advance,
              .lambda_w = lambda0_w,
              .lambda_j = per_advance,
              .ct_w = still_w,
              .ct_j = b->slope * per_advance};
    if (b->slope != 0)
        f.ct_w += advance * (moving_w - still_w) / PARE_PROP_TABLE_SLOPE;
    f.ct = b->still[0] + f.ct_j * advance;
    f.profile = b->still[1] - PI * b->lambda0 * b->still[0];
    f.profile_w = ends->still.with_speed[1] - PI * (lambda0_w * b->still[0] + b->lambda0 * still_w);
    return f;
}

/* From slopes at a fixed mu, and with mu, to those of power w^n times the coefficient. */
static pare_slopes slopes_of(double scale, double n, double value, double w, double j,
                             double with_mu, double mu, double tip_m_s)
{
    return (pare_slopes){scale * (n * value + w - mu * with_mu), scale * j,
                         scale * with_mu / tip_m_s};
}

void pare_rotor_through(const pare_rotor *rotor, const pare_air *air, double speed_rad_s,
                        double advance, double inplane_m_s, pare_through *through)
{
    axis along;
    axis_slopes slopes;
    const measures m = measures_of(rotor, air, speed_rad_s);
    axis_with_slopes(&along, rotor, air, speed_rad_s, advance, &slopes);
    const base b = base_from(slopes.still.value, slopes.moving.value);
    const double mu = inplane_m_s / m.tip_m_s;
    const flow in = flow_of(&b, mu, 0);
    const felt f =
        advance > 0 ? felt_above(&slopes.here, advance) : felt_below(&b, &slopes, advance);
    const bool beyond = in.mu2 > in.mu2_held;
    const double held_mu = beyond ? sqrt(in.mu2_held) : mu;
    const double ct = f.ct + in.lift, more = 1 + INPLANE_POWER * in.mu2_held;
    const double lift_w = in.lift * slopes.still.with_speed[0] / b.still[0];
    const double ct_w = f.ct_w + lift_w, ct_mu = beyond || mu <= 0 ? 0 : 2 * in.lift / mu;
    const double cp = f.profile * more + PI * f.lambda * ct;
    const double cp_w = f.profile_w * more + PI * (f.lambda_w * ct + f.lambda * ct_w);
    const double cp_j = f.profile_j * more + PI * (f.lambda_j * ct + f.lambda * f.ct_j);
    const double cp_mu = f.profile * (beyond ? 0 : 2 * INPLANE_POWER * mu) + PI * f.lambda * ct_mu;
    const double ch = H_PER_MU * held_mu * f.profile;
    const double speed2 = in.mu2 + f.lambda * f.lambda;
    const double over = 1 / (speed2 > 1e-18 ? sqrt(speed2) : 1e-9);
    const double half = 0.5 * DISC_OVER_PROP * over, induced = half * ct;
    const double bend = induced * over * over;
    const double axial = f.lambda - induced;
    const double axial_w = f.lambda_w - half * ct_w + bend * f.lambda * f.lambda_w;
    const double axial_j = f.lambda_j - half * f.ct_j + bend * f.lambda * f.lambda_j;
    const double axial_mu = bend * mu - half * ct_mu;
    *through = (pare_through){
        .rotor = {speed_rad_s, m.force_n * ct, m.torque_nm * cp, m.force_n * ch},
        .axial_m_s = m.tip_m_s * axial,
        .thrust_n = slopes_of(m.force_n, 2, ct, ct_w, f.ct_j, ct_mu, mu, m.tip_m_s),
        .torque_nm = slopes_of(m.torque_nm, 2, cp, cp_w, cp_j, cp_mu, mu, m.tip_m_s),
        .drag_n = slopes_of(m.force_n * H_PER_MU, 2, held_mu * f.profile, held_mu * f.profile_w,
                            held_mu * f.profile_j, beyond ? 0 : f.profile, mu, m.tip_m_s),
        .axial = slopes_of(m.tip_m_s, 1, axial, axial_w, axial_j, axial_mu, mu, m.tip_m_s)};
}

/* One state; *lambda as for inclined(). power, where asked for: about d ln T / d ln w in the flow, 2
 * but for what J and Reynolds number (0.1, over many propellers) do to CT. */
static inline void state_at(const pare_rotor *rotor, const pare_air *air, double speed_rad_s,
                            double axial_m_s, double inplane_m_s, double *lambda, double *power,
                            pare_rotor_state *state)
{
    const measures m = measures_of(rotor, air, speed_rad_s);
    axis along;
    coefficients c;
    axis_take(&along, rotor, air, speed_rad_s);
    if (power != NULL)
        *power = 2;
    if (axial_m_s >= 0 && inplane_m_s < AXIAL_MU * m.tip_m_s) {
        const double advance = axial_m_s / m.nd_m_s;
        const pare_pair value = axis_at(&along, advance);
        c = (coefficients){value[0], value[1], 0};
        if (power != NULL)
            *power = 2.1 - axis_relative_slope(&along, advance, c.ct);
    } else {
        c = inclined(&along, inplane_m_s / m.tip_m_s, axial_m_s / m.tip_m_s, lambda);
    }
    give(&m, speed_rad_s, &c, state);
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
