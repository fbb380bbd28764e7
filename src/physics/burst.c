/* burst.c: straight up from hover at full throttle.
 *
 * Two things move: the craft, and the rotors, which take some 30 ms to spin up. States are height,
 * climb and rotor speed. At full duty the current follows from the pack's volts, the motors' own volts
 * and all resistances in the path, so no root is needed inside; the electronics draw as if at 0.8 of
 * the open volts, and copper is as warm as the full-throttle current at rest makes it.
 *
 * A stated step is classic Runge-Kutta of fourth order with times between steps by straight lines.
 *
 * By default, few steps: after some time constants the rotors only follow the climb, and an explicit
 * method would still have to step at their pace. So each step solves the linearised equations exactly
 * (Rosenbrock's idea, with Shampine's coefficients, of fourth order), with the table's own slopes, and
 * its size follows the method's estimate of its own error. Nine steps of three evaluations are within
 * 5e-4 of fine steps in time over craft, heights and rotors 15 times too heavy, where twenty Runge-Kutta
 * steps of four were needed (the tests compare).
 *
 * Read sloped_rates() first. Sources: Hairer, Norsett, Wanner, Solving Ordinary Differential Equations
 * I, sec. II.1, and II, sec. IV.7; Shampine, ACM Trans. Math. Softw. 8 (1982), 93 (from memory). */
#include <math.h>

#include "physics/aloft.h"
#include "physics/inflow.h"

#define LONGEST_S    20.0
#define STEP_LEAST_S 1e-4
#define STEP_MOST_S  0.05
#define STEP_FIRST   0.3  /* of the rotors' time constant */
#define STEP_GROWS   4.0  /* at most, from one step to the next */
#define MISS_MOST    5e-3 /* of rotor speed and climb, a step, by the method's own estimate */
#define SLOW_M_S     5.0  /* added to the climb that a miss is measured by */
#define STEPS_MOST   400
#define TURN         6.28318530717958648
#define DIP_V_SHARE  0.8

typedef struct climber {
    const pare_flight *flight;
    double open_v;
    double quiet_a;             /* what ESCs and electronics draw */
    double quick_ohm, slow_ohm; /* of the pack with leads; the slow part sets in from rest */
    double left;                /* of the copper's heating */
    double spin_kg_m2, mass_kg, drag_kg_m;
} climber;

typedef struct state {
    double height_m, climb_m_s, speed_rad_s;
} state;

/* How much of the pack's slow resistance has set in. */
static double slow_at(const climber *c, double time_s)
{
    return -expm1(-time_s / c->flight->pack.cell->slow_s);
}

/* The motor's torque less its losses, and its slopes with rotor speed and with the slow part. */
typedef struct drive {
    double torque_nm, with_speed, with_slow;
} drive;

static drive drive_at(const climber *c, double speed_rad_s, double slow)
{
    const pare_motor_law *law = &c->flight->burst;
    const double n = c->flight->rotors, ke = law->ke_v_s;
    const double loss_a = pare_motor_loss_a(law, speed_rad_s);
    const double pack_ohm = c->quick_ohm + c->slow_ohm * slow;
    const double ohm =
        pare_motor_ohm(law, speed_rad_s, loss_a, c->left) + law->on_ohm + n * pack_ohm;
    const double current_a = (c->open_v - pack_ohm * c->quiet_a - ke * speed_rad_s) / ohm;
    if (!(current_a > 0))
        return (drive){-ke * loss_a, -ke * law->loss_a_s, 0};
    return (drive){ke * (current_a - loss_a), -ke * (ke / ohm + law->loss_a_s),
                   -ke * c->slow_ohm * (c->quiet_a + n * current_a) / ohm};
}

static double climb_rate(const climber *c, double thrust_n, double climb_m_s)
{
    return (c->flight->lift_share * thrust_n - c->flight->weight_n -
            c->drag_kg_m * climb_m_s * fabs(climb_m_s)) /
           c->mass_kg;
}

static state rates(climber *c, state at, double slow)
{
    const pare_rig *rig = c->flight->rig;
    pare_rotor_state rotor;
    pare_rotor_at(&rig->rotor, &rig->air, at.speed_rad_s, at.climb_m_s, 0, &rotor);
    const double torque_nm = drive_at(c, at.speed_rad_s, slow).torque_nm - rotor.torque_nm;
    return (state){at.climb_m_s, climb_rate(c, rotor.thrust_n, at.climb_m_s),
                   torque_nm / c->spin_kg_m2};
}

/* Rates with their slopes; _u with climb, _w with rotor speed, _t with time. */
typedef struct sloped {
    state rate;
    double climb_u, climb_w, speed_u, speed_w, speed_t;
} sloped;

static sloped sloped_rates(const climber *c, state at, double slow)
{
    const pare_rig *rig = c->flight->rig;
    const double speed = at.speed_rad_s, climb = at.climb_m_s;
    const double per_climb = TURN / (speed * rig->rotor.prop->diameter_m);
    const double advance = climb * per_climb;
    pare_through through;
    pare_rotor_through(&rig->rotor, &rig->air, speed, advance, 0, &through);
    const drive motor = drive_at(c, speed, slow);
    const double torque_nm = motor.torque_nm - through.rotor.torque_nm;
    const pare_slopes *thrust = &through.thrust_n, *torque = &through.torque_nm;
    const double lift = c->flight->lift_share / c->mass_kg, over = 1 / c->spin_kg_m2;
    return (sloped){
        .rate = {climb, climb_rate(c, through.rotor.thrust_n, climb), over * torque_nm},
        .climb_u = lift * thrust->advance * per_climb - 2 * c->drag_kg_m * fabs(climb) / c->mass_kg,
        .climb_w = lift * (thrust->speed - advance * thrust->advance) / speed,
        .speed_u = -over * torque->advance * per_climb,
        .speed_w = over * (motor.with_speed - (torque->speed - advance * torque->advance) / speed),
        .speed_t = over * motor.with_slow * (1 - slow) / c->flight->pack.cell->slow_s};
}

static state along(state from, double step_s, state rate)
{
    return (state){from.height_m + step_s * rate.height_m, from.climb_m_s + step_s * rate.climb_m_s,
                   from.speed_rad_s + step_s * rate.speed_rad_s};
}

/* One step, with the rates at its start known. */
static state step(climber *c, state from, state k1, double time_s, double h)
{
    const double middle = slow_at(c, time_s + h / 2), end = slow_at(c, time_s + h);
    const state k2 = rates(c, along(from, h / 2, k1), middle);
    const state k3 = rates(c, along(from, h / 2, k2), middle);
    const state k4 = rates(c, along(from, h, k3), end);
    return (state){
        from.height_m + h / 6 * (k1.height_m + 2 * (k2.height_m + k3.height_m) + k4.height_m),
        from.climb_m_s + h / 6 * (k1.climb_m_s + 2 * (k2.climb_m_s + k3.climb_m_s) + k4.climb_m_s),
        from.speed_rad_s +
            h / 6 * (k1.speed_rad_s + 2 * (k2.speed_rad_s + k3.speed_rad_s) + k4.speed_rad_s)};
}

/* Solves (2/h - J) k = right for a stage of the implicit step, J being the slopes. */
typedef struct stage_matrix {
    double over_h, over_det;
    double climb_u, climb_w, speed_u, speed_w;
} stage_matrix;

static state stage(const stage_matrix *m, state right)
{
    const double climb =
        m->over_det * (m->speed_w * right.climb_m_s + m->climb_w * right.speed_rad_s);
    const double speed =
        m->over_det * (m->speed_u * right.climb_m_s + m->climb_u * right.speed_rad_s);
    return (state){m->over_h * (right.height_m + climb), climb, speed};
}

static state sum(double a, state x, double b, state y)
{
    return (state){a * x.height_m + b * y.height_m, a * x.climb_m_s + b * y.climb_m_s,
                   a * x.speed_rad_s + b * y.speed_rad_s};
}

static state drifted(state rate, double by)
{
    rate.speed_rad_s += by;
    return rate;
}

/* One step of Shampine's Rosenbrock method, with the rates and slopes at its start known. */
static state implicit_step(climber *c, state from, const sloped *start, double time_s, double h,
                           double *miss)
{
    const double two = 2 / h, drift = h * start->speed_t;
    const double slow3 = slow_at(c, time_s + 0.6 * h);
    stage_matrix m = {.over_h = h / 2,
                      .climb_u = two - start->climb_u,
                      .climb_w = start->climb_w,
                      .speed_u = start->speed_u,
                      .speed_w = two - start->speed_w};
    m.over_det = 1 / (m.climb_u * m.speed_w - m.climb_w * m.speed_u);
    const state k1 = stage(&m, drifted(start->rate, 1.0 / 2 * drift));
    const state at2 = sum(1, from, 2, k1);
    const state rate2 = drifted(rates(c, at2, slow_at(c, time_s + h)), -3.0 / 2 * drift);
    const state k2 = stage(&m, sum(1, rate2, -8 / h, k1));
    const state at3 = sum(1, from, 1, sum(48.0 / 25, k1, 6.0 / 25, k2));
    const state rate3 = rates(c, at3, slow3);
    const state late = sum(372.0 / 25, k1, 12.0 / 5, k2);
    const state k3 = stage(&m, sum(1, drifted(rate3, 121.0 / 50 * drift), 1 / h, late));
    const state last = sum(1, sum(112.0 / 125, k1, 54.0 / 125, k2), 2.0 / 5, k3);
    const state k4 = stage(&m, sum(1, drifted(rate3, 29.0 / 250 * drift), -1 / h, last));
    const state off = sum(1, sum(17.0 / 54, k1, 7.0 / 36, k2), 125.0 / 108, k4);
    *miss = fmax(fabs(off.speed_rad_s) / from.speed_rad_s,
                 fabs(off.climb_m_s) / (fabs(from.climb_m_s) + SLOW_M_S));
    return sum(1, from, 1,
               sum(1, sum(19.0 / 9, k1, 1.0 / 2, k2), 1, sum(25.0 / 108, k3, 125.0 / 108, k4)));
}

/* The share of a step at which it passes a height, by the cubic through both ends. */
static double arrival(state from, state to, double h, double height_m)
{
    const double rise = to.height_m - from.height_m, aim = height_m - from.height_m;
    double x = aim / rise;
    for (int i = 0; i < 4; i++) {
        const double a = h * from.climb_m_s, b = h * to.climb_m_s;
        const double y = x * (a + x * (3 * rise - 2 * a - b + x * (a + b - 2 * rise)));
        const double slope = a + x * (2 * (3 * rise - 2 * a - b) + x * 3 * (a + b - 2 * rise));
        if (!(slope > 0))
            break;
        x = fmin(fmax(x - (y - aim) / slope, 0), 1);
    }
    return x;
}

static pare_status too_long(double height_m, state at, double time_s, pare_error *err)
{
    if (!(isfinite(at.height_m) && isfinite(at.climb_m_s) && isfinite(at.speed_rad_s)))
        return pare_fail(err, PARE_BAD_DATA,
                         "the burst's steps are too long for these rotors: it ran off after %.3g s",
                         time_s);
    return pare_fail(err, PARE_BAD_DATA,
                     "a burst of %g m has not arrived after %g s: %.3g m by then", height_m,
                     LONGEST_S, at.height_m);
}

static bool ran_off(state at)
{
    return !(at.speed_rad_s > 0 && isfinite(at.height_m));
}

static pare_status fly_in_steps(climber *c, state at, double height_m, double step_s,
                                pare_burst *result, pare_error *err)
{
    double time_s = 0;
    for (; time_s < LONGEST_S; time_s += step_s) {
        const state next = step(c, at, rates(c, at, slow_at(c, time_s)), time_s, step_s);
        if (ran_off(next))
            return too_long(height_m, (state){NAN, 0, 0}, time_s, err);
        if (next.height_m >= height_m) {
            const double x = (height_m - at.height_m) / (next.height_m - at.height_m);
            *result = (pare_burst){time_s + x * step_s, next.climb_m_s, next.speed_rad_s};
            return PARE_OK;
        }
        at = next;
    }
    return too_long(height_m, at, time_s, err);
}

static pare_status fly(climber *c, state at, double height_m, pare_burst *result, pare_error *err)
{
    double time_s = 0, h = 0;
    sloped start = sloped_rates(c, at, 0);
    h = STEP_FIRST / fmax(-start.speed_w, 1e-3);
    for (int steps = 0; steps < STEPS_MOST && time_s < LONGEST_S; steps++) {
        double miss;
        const state next = implicit_step(c, at, &start, time_s, h, &miss);
        const double fits = sqrt(sqrt(MISS_MOST / fmax(miss, 1e-9)));
        if (miss > 2 * MISS_MOST || ran_off(next)) {
            h *= ran_off(next) ? 0.1 : fmax(0.9 * fits, 0.1);
            continue;
        }
        if (next.height_m >= height_m) {
            const double x = arrival(at, next, h, height_m);
            if (time_s + x * h > LONGEST_S)
                return too_long(height_m, at, time_s, err);
            const state there = implicit_step(c, at, &start, time_s, x * h, &miss);
            *result = (pare_burst){time_s + x * h, there.climb_m_s, there.speed_rad_s};
            return PARE_OK;
        }
        at = next;
        time_s += h;
        h *= fmin(fmax(0.9 * fits, 0.2), STEP_GROWS);
        start = sloped_rates(c, at, slow_at(c, time_s));
    }
    return too_long(height_m, time_s < LONGEST_S ? (state){NAN, 0, 0} : at, time_s, err);
}

pare_status pare_flight_burst(pare_flight *flight, double height_m, double charge, double step_s,
                              pare_burst *result, pare_error *err)
{
    const pare_rig *rig = flight->rig;
    pare_rotor_state hover;
    pare_throttle full;
    if (pare_charge_check(charge, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(height_m > 0 && height_m <= 10000))
        return pare_fail(err, PARE_BAD_DATA,
                         "a burst of %g m: more than 0, to 10000 m, would be right", height_m);
    if (step_s != 0 && !(step_s >= STEP_LEAST_S && step_s <= STEP_MOST_S))
        return pare_fail(err, PARE_BAD_DATA,
                         "burst steps of %g s: %g to %g s, or 0 for the default, would be right",
                         step_s, STEP_LEAST_S, STEP_MOST_S);
    if (!(rig->spin_kg_m2 > 1e-12 && rig->spin_kg_m2 <= 10))
        return pare_fail(err, PARE_BAD_DATA,
                         "a rotor's inertia is %g kg m2: more than 0, to 10, would be right",
                         rig->spin_kg_m2);
    if (pare_burst_throttle(flight, charge, "climb", &full, err) != PARE_OK ||
        pare_hover(flight, &hover, err) != PARE_OK)
        return PARE_BAD_DATA;
    climber c = {.flight = flight,
                 .open_v = full.source.open_v,
                 .quiet_a = flight->rotors * rig->esc.idle_a +
                            rig->always_w / (DIP_V_SHARE * full.source.open_v),
                 .quick_ohm = full.source.ohm,
                 .slow_ohm = pare_source_at(flight, charge, 1).ohm - full.source.ohm,
                 .left = pare_motor_left(&flight->burst, full.motor_a),
                 .spin_kg_m2 = rig->spin_kg_m2,
                 .mass_kg = rig->mass_kg,
                 .drag_kg_m = rig->air.density_kg_m3 * rig->drag_top_m2 / 2};
    const state at = {0, 0, hover.speed_rad_s};
    return step_s > 0 ? fly_in_steps(&c, at, height_m, step_s, result, err)
                      : fly(&c, at, height_m, result, err);
}

pare_status pare_rig_burst(const pare_rig *rig, double height_m, double charge, double step_s,
                           pare_burst *result, pare_error *err)
{
    pare_flight flight;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK)
        return PARE_BAD_DATA;
    return pare_flight_burst(&flight, height_m, charge, step_s, result, err);
}
