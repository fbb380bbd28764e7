/* burst.c: straight up from hover at full throttle.
 *
 * Two things move: the craft, and the rotors, which take some 30 ms to spin up. States are height,
 * climb and rotor speed. At full duty the current follows from the pack's volts, the motors' own volts
 * and all resistances in the path, so no root is needed inside; the electronics draw as if at 0.8 of
 * the open volts, and copper is as warm as the full-throttle current at rest makes it.
 *
 * A stated step is classic Runge-Kutta of fourth order with times between steps by straight lines. By
 * default the step follows the rotors' time constant: short at first while they spin up, growing to as
 * long as stays stable, and a last one cut to arrive; that is within 0.1 % of fine steps in time at a tenth of the
 * cost (the tests compare).
 *
 * Read rates() first. Source: Hairer, Norsett, Wanner, Solving Ordinary Differential Equations I,
 * sec. II.1. */
#include <math.h>

#include "physics/aloft.h"

#define LONGEST_S    20.0
#define STEP_LEAST_S 1e-4
#define STEP_MOST_S  0.05
#define STEP_FIRST   0.5  /* of the rotors' time constant */
#define STEP_GROWS   1.25 /* from one step to the next */
#define STEP_LAST    1.7  /* the method is stable to 2.78 */
#define DIP_V_SHARE  0.8

typedef struct climber {
    const pare_flight *flight;
    double open_v;
    double quiet_a;             /* what ESCs and electronics draw */
    double quick_ohm, slow_ohm; /* of the pack with leads; the slow part sets in from rest */
    double left;                /* of the copper's heating */
    double spin_kg_m2, mass_kg, drag_kg_m;
    double time_constant_s; /* of the rotors, at the last call of rates() */
} climber;

typedef struct state {
    double height_m, climb_m_s, speed_rad_s;
} state;

/* How much of the pack's slow resistance has set in. */
static double slow_at(double time_s)
{
    return -expm1(-time_s / PARE_PACK_SLOW_S);
}

static state rates(climber *c, state at, double slow)
{
    const pare_rig *rig = c->flight->rig;
    const pare_motor_law *law = &c->flight->burst;
    pare_rotor_state rotor;
    pare_rotor_at(&rig->rotor, &rig->air, at.speed_rad_s, at.climb_m_s, 0, &rotor);
    const double loss_a = pare_motor_loss_a(law, at.speed_rad_s);
    const double pack_ohm = c->quick_ohm + c->slow_ohm * slow;
    const double ohm = pare_motor_ohm(law, at.speed_rad_s, loss_a, c->left) + law->on_ohm +
                       c->flight->rotors * pack_ohm;
    const double ke = law->ke_v_s;
    const double current_a =
        fmax((c->open_v - pack_ohm * c->quiet_a - ke * at.speed_rad_s) / ohm, 0);
    c->time_constant_s =
        c->spin_kg_m2 / (ke * ke / ohm + 2 * fabs(rotor.torque_nm) / at.speed_rad_s);
    const double lift_n = c->flight->lift_share * rotor.thrust_n - c->flight->weight_n -
                          c->drag_kg_m * at.climb_m_s * fabs(at.climb_m_s);
    return (state){at.climb_m_s, lift_n / c->mass_kg,
                   (ke * (current_a - loss_a) - rotor.torque_nm) / c->spin_kg_m2};
}

static state along(state from, double step_s, state rate)
{
    return (state){from.height_m + step_s * rate.height_m, from.climb_m_s + step_s * rate.climb_m_s,
                   from.speed_rad_s + step_s * rate.speed_rad_s};
}

/* One step, with the rates at its start known. */
static state step(climber *c, state from, state k1, double time_s, double h)
{
    const double middle = slow_at(time_s + h / 2), end = slow_at(time_s + h);
    const state k2 = rates(c, along(from, h / 2, k1), middle);
    const state k3 = rates(c, along(from, h / 2, k2), middle);
    const state k4 = rates(c, along(from, h, k3), end);
    return (state){
        from.height_m + h / 6 * (k1.height_m + 2 * (k2.height_m + k3.height_m) + k4.height_m),
        from.climb_m_s + h / 6 * (k1.climb_m_s + 2 * (k2.climb_m_s + k3.climb_m_s) + k4.climb_m_s),
        from.speed_rad_s +
            h / 6 * (k1.speed_rad_s + 2 * (k2.speed_rad_s + k3.speed_rad_s) + k4.speed_rad_s)};
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
    state at = {0, 0, hover.speed_rad_s};
    double time_s = 0;
    double share = STEP_FIRST;
    while (time_s < LONGEST_S) {
        const state rate = rates(&c, at, slow_at(time_s));
        const double h =
            step_s > 0 ? step_s : fmin(fmax(share * c.time_constant_s, 1e-3), LONGEST_S / 10);
        const state next = step(&c, at, rate, time_s, h);
        if (!(next.speed_rad_s > 0 && isfinite(next.height_m)))
            return too_long(height_m, (state){NAN, 0, 0}, time_s, err);
        if (next.height_m >= height_m) {
            if (step_s > 0) {
                const double x = (height_m - at.height_m) / (next.height_m - at.height_m);
                *result = (pare_burst){time_s + x * h, next.climb_m_s, next.speed_rad_s};
            } else {
                const double x = arrival(at, next, h, height_m);
                const state there = step(&c, at, rate, time_s, x * h);
                *result = (pare_burst){time_s + x * h, there.climb_m_s, there.speed_rad_s};
            }
            return PARE_OK;
        }
        at = next;
        time_s += h;
        share = fmin(share * STEP_GROWS, STEP_LAST);
    }
    return too_long(height_m, at, time_s, err);
}

pare_status pare_rig_burst(const pare_rig *rig, double height_m, double charge, double step_s,
                           pare_burst *result, pare_error *err)
{
    pare_flight flight;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK)
        return PARE_BAD_DATA;
    return pare_flight_burst(&flight, height_m, charge, step_s, result, err);
}
