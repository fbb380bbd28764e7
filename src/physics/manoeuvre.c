/* manoeuvre.c: what full throttle does: quickness, turns, dashes, climb and top speed.
 *
 * All of it is full throttle of a moment: quick part of the pack's resistance, copper as warm as a
 * burst makes it. In a flow that depends on the tilt, the tilt, the rotor speed and (for top speed and
 * climb) the flight speed are unknowns that are solved together; a bracket inside a bracket is the way
 * to fall back on, and decides whether there is an answer at all.
 *
 * T below is the craft's thrust with blockage off, H its in-plane drag, D the body's drag, W its
 * weight. H lies in the tilted disc, so it lifts with its sine: T cos + H sin = W when height is held.
 *
 * Read throttle_in() first. Source: momentum balance of a rigid craft; idling at 0.03 of full thrust
 * and the rotor's lag as one time constant are estimates. */
#include <math.h>

#include "physics/aloft.h"
#include "physics/lean.h"

#define IDLE_SHARE           0.03
#define LEFT_ENOUGH          1e-10
#define RIGHT_ANGLE          1.57079632679489662
#define DASH_SPEED_FIRST_M_S 5.0
#define RATE_AT_S            0.1

/* Rotor inertia: a thin propeller about its axis, measured 0.27 to 0.31; a bell whose radius of the
 * magnets goes with the cube root of the motor's mass, 10.5 mm at 30 g. */
#define PROP_SPIN     0.29
#define BELL_SPIN     0.42
#define BELL_RADIUS_M 0.0105
#define BELL_KG       0.030

double pare_rotor_spin_kg_m2(double prop_mass_kg, double prop_diameter_m, double motor_mass_kg)
{
    const double radius = prop_diameter_m / 2;
    const double bell = BELL_RADIUS_M * cbrt(motor_mass_kg / BELL_KG);
    return PROP_SPIN * prop_mass_kg * radius * radius + BELL_SPIN * motor_mass_kg * bell * bell;
}

/* ---- quickness ---- */

static pare_status check_turning(const pare_rig *rig, pare_error *err)
{
    const struct {
        double value;
        const char *what;
    } fields[] = {{rig->spin_kg_m2, "a rotor's inertia"},
                  {rig->inertia_xx_kg_m2, "the craft's inertia in roll"},
                  {rig->inertia_yy_kg_m2, "the craft's inertia in pitch"},
                  {rig->inertia_zz_kg_m2, "the craft's inertia in yaw"}};
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
        if (!(fields[i].value > 1e-12 && fields[i].value <= 1e6))
            return pare_fail(err, PARE_BAD_DATA, "%s is %g kg m2: more than 0 would be right",
                             fields[i].what, fields[i].value);
    if (!(rig->sum_x_m >= 0 && rig->sum_x_m <= 1000 && rig->sum_y_m >= 0 && rig->sum_y_m <= 1000))
        return pare_fail(err, PARE_BAD_DATA,
                         "the rotors' arms sum to %g m ahead and %g m aside: 0 or more would be "
                         "right",
                         rig->sum_x_m, rig->sum_y_m);
    return PARE_OK;
}

static pare_status for_thrust(const pare_rig *rig, double thrust_n, const pare_rotor_state *near,
                              pare_rotor_state *rotor, pare_error *err)
{
    return pare_rotor_for_thrust(&rig->rotor, &rig->air, thrust_n, 0, 0,
                                 near->speed_rad_s * sqrt(thrust_n / near->thrust_n), rotor, err);
}

double pare_roll_rate(double roll_rad_s2, double lag_s, double time_s)
{
    return roll_rad_s2 * (time_s - lag_s * (1 - exp(-time_s / lag_s)));
}

pare_status pare_flight_quickness(pare_flight *flight, double charge, pare_quickness *result,
                                  pare_error *err)
{
    const pare_rig *rig = flight->rig;
    pare_throttle full;
    pare_rotor_state hover, idle, more, less;
    if (pare_charge_check(charge, err) != PARE_OK || check_turning(rig, err) != PARE_OK ||
        pare_burst_throttle(flight, charge, "hover", &full, err) != PARE_OK ||
        pare_hover(flight, &hover, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double most_n = full.rotor.thrust_n, idle_n = IDLE_SHARE * most_n;
    const double hover_n = flight->weight_n / flight->lift_share;
    const double step_n = (1 - IDLE_SHARE) * most_n / 2;
    /* a craft that hovers at less than idling has nothing to hold */
    const double held_n = fmax(fmin(most_n - hover_n, hover_n - idle_n), 0);
    if (for_thrust(rig, idle_n, &hover, &idle, err) != PARE_OK ||
        for_thrust(rig, hover_n + held_n, &hover, &more, err) != PARE_OK ||
        for_thrust(rig, hover_n - held_n, &hover, &less, err) != PARE_OK)
        return PARE_BAD_DATA;
    double current, volts, ohm;
    const pare_motor_law *law = &flight->burst;
    pare_motor_run(law, hover.speed_rad_s, hover.torque_nm, &current, &volts, &ohm);
    const double lag_s =
        rig->spin_kg_m2 / (law->ke_v_s * law->ke_v_s / (ohm + law->on_ohm) +
                           law->ke_v_s * law->loss_a_s + 2 * hover.torque_nm / hover.speed_rad_s);
    const double half = flight->rotors / 2, izz = rig->inertia_zz_kg_m2;
    const double roll = rig->sum_y_m * step_n / rig->inertia_xx_kg_m2;
    const double yaw = half * (full.rotor.torque_nm - idle.torque_nm) / izz;
    *result = (pare_quickness){
        .roll_rad_s2 = roll,
        .pitch_rad_s2 = rig->sum_x_m * step_n / rig->inertia_yy_kg_m2,
        .yaw_rad_s2 = yaw,
        .yaw_start_rad_s2 = yaw + half * rig->spin_kg_m2 *
                                      (full.rotor.speed_rad_s - idle.speed_rad_s) / (lag_s * izz),
        .lag_s = lag_s,
        .rate_01_rad_s = pare_roll_rate(roll, lag_s, RATE_AT_S),
        .step_n = step_n,
        .step_held_n = held_n,
        .roll_held_rad_s2 = rig->sum_y_m * held_n / rig->inertia_xx_kg_m2,
        .pitch_held_rad_s2 = rig->sum_x_m * held_n / rig->inertia_yy_kg_m2,
        .yaw_held_rad_s2 = half * (more.torque_nm - less.torque_nm) / izz,
    };
    return PARE_OK;
}

pare_status pare_rig_quickness(const pare_rig *rig, double charge, pare_quickness *result,
                               pare_error *err)
{
    pare_flight flight;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK)
        return PARE_BAD_DATA;
    return pare_flight_quickness(&flight, charge, result, err);
}

/* ---- full throttle in the flow of a flight ---- */

/* Full throttle at a flight speed and tilt. The rotor speed is measured by the one at rest, and where
 * the flight speed is unknown, that by a guess. */
typedef struct dash {
    const pare_flight *flight;
    pare_throttle full;
    pare_lean lean;
    double rest_rad_s;
    double speed_m_s;
    double thrust_n, inplane_n, drag_n; /* T, H, D */
} dash;

static pare_status begin(pare_flight *flight, double charge, const char *must, dash *d,
                         pare_error *err)
{
    *d = (dash){.flight = flight};
    if (pare_burst_throttle(flight, charge, must, &d->full, err) != PARE_OK)
        return PARE_BAD_DATA;
    const pare_rotor_state *rest = &d->full.rotor;
    d->rest_rad_s = rest->speed_rad_s;
    d->thrust_n = flight->lift_share * rest->thrust_n;
    d->lean = (pare_lean){
        .flight = flight,
        .rotor_scale_rad_s = rest->speed_rad_s,
        .speed_scale_m_s = 1,
        .induced_m_s = pare_rotor_ideal_hover_w(rest->thrust_n, flight->rig->rotor.prop->diameter_m,
                                                flight->rig->air.density_kg_m3) /
                       rest->thrust_n};
    return PARE_OK;
}

static void set_flow(dash *d, double speed_m_s, double sine, double cosine)
{
    const pare_rig *rig = d->flight->rig;
    d->speed_m_s = speed_m_s;
    d->full.axial_m_s = speed_m_s * sine;
    d->full.inplane_m_s = fmax(speed_m_s * cosine, 0);
    d->drag_n = 0.5 * rig->air.density_kg_m3 * speed_m_s * speed_m_s * pare_drag_area(rig, sine);
}

static void read_forces(dash *d)
{
    d->thrust_n = d->flight->lift_share * d->full.rotor.thrust_n;
    d->inplane_n = d->flight->rotors * d->full.rotor.drag_n;
}

/* Forces at a joint's unknowns. */
static void lean_into(dash *d, double speed_m_s, const double x[])
{
    pare_lean_at(&d->lean, speed_m_s, x);
    d->speed_m_s = speed_m_s;
    d->full.rotor = d->lean.rotor;
    d->thrust_n = d->lean.thrust_n;
    d->inplane_n = d->lean.inplane_n;
    d->drag_n = d->lean.drag_n;
}

/* Equations that meet in more than one joint: what is left, and a row of slopes. */

static double throttle_equation(dash *d, const double x[], double slope[])
{
    const double left = pare_throttle_feed(&d->full);
    double with_speed, with_torque;
    pare_throttle_slopes(&d->full, &with_speed, &with_torque);
    for (int i = 0; i < PARE_JOINT_MOST; i++)
        slope[i] = with_torque * d->lean.torque[i];
    slope[PARE_LEAN_ROTOR] += with_speed / x[PARE_LEAN_ROTOR];
    return left;
}

static double height_equation(const dash *d, double slope[])
{
    const pare_lean *lean = &d->lean;
    const double over = 1 / d->flight->weight_n;
    for (int i = 0; i < PARE_JOINT_MOST; i++)
        slope[i] = over * (lean->thrust[i] * lean->cosine + lean->inplane[i] * lean->sine);
    slope[PARE_LEAN_TILT] +=
        over * (lean->thrust_n * lean->cosine_rise + lean->inplane_n * lean->sine_rise);
    return over * (lean->thrust_n * lean->cosine + lean->inplane_n * lean->sine) - 1;
}

/* The inner bracket: full throttle in the flow that is set. */
static bool find_in(dash *d)
{
    const double near_rad_s =
        d->full.rotor.speed_rad_s > 0 ? d->full.rotor.speed_rad_s : d->rest_rad_s;
    if (pare_throttle_find(&d->full, near_rad_s, NULL) != PARE_OK)
        return false;
    read_forces(d);
    return true;
}

static double height_left(const dash *d, double sine, double cosine)
{
    return (d->thrust_n * cosine + d->inplane_n * sine) / d->flight->weight_n - 1;
}

static double push_n(const dash *d, double sine, double cosine)
{
    return d->thrust_n * sine - d->inplane_n * cosine - d->drag_n;
}

/* ---- turn ---- */

static bool turn_left(void *context, const double x[], double left[],
                      double slope[][PARE_JOINT_MOST])
{
    dash *d = context;
    const pare_lean *lean = &d->lean;
    lean_into(d, d->speed_m_s, x);
    const double over = 1 / d->thrust_n, share = (d->drag_n + d->inplane_n) * over;
    for (int i = 0; i < 3; i++)
        slope[0][i] = over * (share * lean->thrust[i] - lean->drag[i] - lean->inplane[i]);
    slope[0][PARE_LEAN_TILT] += lean->sine_rise;
    left[0] = lean->sine - share;
    left[1] = throttle_equation(d, x, slope[1]);
    left[2] = pare_lean_inflow_left(lean, slope[2]);
    return d->thrust_n > 0;
}

static double turn_alone(void *context, double sine)
{
    dash *d = context;
    set_flow(d, d->speed_m_s, sine, sqrt(fmax(1 - sine * sine, 0)));
    if (!find_in(d) || !(d->thrust_n > 0))
        return -1;
    return sine - (d->drag_n + d->inplane_n) / d->thrust_n;
}

static pare_status turn_by_bracket(dash *d, double *sine, pare_error *err)
{
    const double flat = turn_alone(d, 0), steep = turn_alone(d, 1);
    if (!(steep > 0))
        return pare_fail(
            err, PARE_BAD_DATA,
            "at %g m/s drag is %.3g N and full throttle gives %.3g N: too fast to turn",
            d->speed_m_s, d->drag_n + d->inplane_n, d->thrust_n);
    *sine = flat < 0 ? pare_root(turn_alone, d, 0, flat, 1, steep, 1e-12) : 0;
    turn_alone(d, *sine);
    return PARE_OK;
}

static pare_status check_speed(double speed_m_s, pare_error *err)
{
    if (!(speed_m_s >= 0 && speed_m_s <= PARE_SPEED_MOST))
        return pare_fail(err, PARE_BAD_DATA, "a speed of %g m/s: 0 to %d m/s would be right",
                         speed_m_s, PARE_SPEED_MOST);
    return PARE_OK;
}

pare_status pare_flight_turn(pare_flight *flight, double speed_m_s, double charge,
                             pare_turn *result, pare_error *err)
{
    dash d;
    if (pare_charge_check(charge, err) != PARE_OK || check_speed(speed_m_s, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (speed_m_s < 1e-3)
        return pare_fail(err, PARE_BAD_DATA,
                         "a turn at %g m/s: it needs a speed, of 0.001 m/s or more", speed_m_s);
    if (begin(flight, charge, "hover", &d, err) != PARE_OK)
        return PARE_BAD_DATA;
    set_flow(&d, speed_m_s, 0, 1);
    const double guess = fmin(d.drag_n / d.thrust_n, 0.9);
    const double tangent = guess / sqrt(1 - guess * guess);
    pare_unknowns joint = {.count = 3,
                           .x = {tangent, 1, pare_lean_start_inflow(&d.lean, speed_m_s * guess)},
                           .low = {-0.1, 0.1, -5},
                           .high = {100, 5, 50}};
    double sine = 0;
    if (pare_unknowns_solve(&joint, turn_left, &d, LEFT_ENOUGH))
        sine = d.lean.sine;
    else if (turn_by_bracket(&d, &sine, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double load = d.thrust_n * sqrt(1 - sine * sine) / flight->weight_n;
    if (!(load > 1))
        return pare_fail(
            err, PARE_BAD_DATA,
            "at %g m/s full throttle holds %.3g of its weight: it cannot turn and keep "
            "height",
            speed_m_s, load);
    const double rate = PARE_GRAVITY_M_S2 * sqrt(load * load - 1) / speed_m_s;
    *result = (pare_turn){load, rate, speed_m_s / rate};
    return PARE_OK;
}

pare_status pare_rig_turn(const pare_rig *rig, double speed_m_s, double charge, pare_turn *result,
                          pare_error *err)
{
    pare_flight flight;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK)
        return PARE_BAD_DATA;
    return pare_flight_turn(&flight, speed_m_s, charge, result, err);
}

/* ---- acceleration at a speed, height held ---- */

static bool dash_left(void *context, const double x[], double left[],
                      double slope[][PARE_JOINT_MOST])
{
    dash *d = context;
    lean_into(d, d->speed_m_s, x);
    left[0] = height_equation(d, slope[0]);
    left[1] = throttle_equation(d, x, slope[1]);
    left[2] = pare_lean_inflow_left(&d->lean, slope[2]);
    return true;
}

static double dash_alone(void *context, double tilt)
{
    dash *d = context;
    const double sine = sin(tilt), cosine = cos(tilt);
    set_flow(d, d->speed_m_s, sine, cosine);
    return find_in(d) ? height_left(d, sine, cosine) : -1;
}

static bool dash_by_bracket(dash *d, double *tilt)
{
    const double flat = dash_alone(d, 0), steep = dash_alone(d, RIGHT_ANGLE);
    if (!(flat > 0 && steep < 0))
        return false;
    *tilt = pare_root(dash_alone, d, 0, flat, RIGHT_ANGLE, steep, 1e-12);
    return fabs(dash_alone(d, *tilt)) < 1e-6;
}

/* Acceleration at d's flow speed; false where height cannot be held. */
static bool dash_at(dash *d, double speed_m_s, double tilt_guess, double *acceleration_m_s2)
{
    d->speed_m_s = speed_m_s;
    pare_unknowns joint = {
        .count = 3,
        .x = {tan(tilt_guess), 1, pare_lean_start_inflow(&d->lean, speed_m_s * sin(tilt_guess))},
        .low = {-0.1, 0.1, -5},
        .high = {100, 5, 50}};
    double tilt = tilt_guess;
    if (pare_unknowns_solve(&joint, dash_left, d, LEFT_ENOUGH))
        tilt = atan(joint.x[PARE_LEAN_TILT]);
    else if (!dash_by_bracket(d, &tilt))
        return false;
    *acceleration_m_s2 = push_n(d, sin(tilt), cos(tilt)) / d->flight->rig->mass_kg;
    return true;
}

pare_status pare_rig_dash(const pare_rig *rig, double speed_m_s, double charge,
                          double *acceleration_m_s2, pare_error *err)
{
    pare_flight flight;
    dash d;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK ||
        pare_charge_check(charge, err) != PARE_OK || check_speed(speed_m_s, err) != PARE_OK ||
        begin(&flight, charge, "hover", &d, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double to_weight = d.thrust_n / flight.weight_n;
    if (speed_m_s == 0) {
        *acceleration_m_s2 = PARE_GRAVITY_M_S2 * sqrt(to_weight * to_weight - 1);
        return PARE_OK;
    }
    if (!dash_at(&d, speed_m_s, acos(1 / to_weight), acceleration_m_s2))
        return pare_fail(err, PARE_BAD_DATA,
                         "at %g m/s full throttle does not hold its height at any tilt", speed_m_s);
    return PARE_OK;
}

/* ---- top speed ---- */

static bool top_left(void *context, const double x[], double left[],
                     double slope[][PARE_JOINT_MOST])
{
    dash *d = context;
    const pare_lean *lean = &d->lean;
    lean_into(d, x[PARE_LEAN_SPEED] * lean->speed_scale_m_s, x);
    const double over = 1 / d->flight->weight_n;
    left[0] = height_equation(d, slope[0]);
    left[1] = throttle_equation(d, x, slope[1]);
    left[2] = pare_lean_inflow_left(lean, slope[2]);
    left[3] = over * push_n(d, lean->sine, lean->cosine);
    for (int i = 0; i < PARE_JOINT_MOST; i++)
        slope[3][i] =
            over * (lean->thrust[i] * lean->sine - lean->inplane[i] * lean->cosine - lean->drag[i]);
    slope[3][PARE_LEAN_TILT] +=
        over * (lean->thrust_n * lean->sine_rise - lean->inplane_n * lean->cosine_rise);
    return true;
}

static double top_alone(void *context, double speed_m_s)
{
    dash *d = context;
    double acceleration;
    return dash_at(d, speed_m_s, 1, &acceleration) ? acceleration : -1;
}

static pare_status top_by_bracket(dash *d, double *speed_m_s, pare_error *err)
{
    double low = 0, low_y = 1;
    for (double high = DASH_SPEED_FIRST_M_S; high < PARE_SPEED_MOST; high *= 1.3) {
        const double high_y = top_alone(d, high);
        if (high_y <= 0) {
            *speed_m_s = pare_root(top_alone, d, low, low_y, high, high_y, 1e-9);
            return PARE_OK;
        }
        low = high;
        low_y = high_y;
    }
    return pare_fail(err, PARE_BAD_DATA,
                     "at %.3g m/s it still gains %.3g m/s2: is a drag area of %g m2 right?", low,
                     low_y, d->flight->rig->drag_m2);
}

/* A first guess: most of the shaft power at rest goes into the drag of a craft nearly on its side. */
static double top_guess(const dash *d)
{
    const pare_rig *rig = d->flight->rig;
    const double shaft_w = d->flight->rotors * d->full.rotor.torque_nm * d->full.rotor.speed_rad_s;
    const double area = fmax(pare_drag_area(rig, 0.9), 1e-4);
    return fmin(cbrt(0.6 * shaft_w / (0.5 * rig->air.density_kg_m3 * area)), 200);
}

pare_status pare_flight_top_speed(pare_flight *flight, double charge, double *speed_m_s,
                                  pare_error *err)
{
    dash d;
    if (pare_charge_check(charge, err) != PARE_OK ||
        begin(flight, charge, "hover", &d, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double guess_m_s = top_guess(&d);
    d.lean.speed_scale_m_s = guess_m_s;
    set_flow(&d, guess_m_s, 0.9, 0.4);
    pare_unknowns joint = {.count = 4,
                           .x = {d.drag_n / flight->weight_n, 1.05,
                                 pare_lean_start_inflow(&d.lean, 0.85 * guess_m_s), 1},
                           .low = {0, 0.3, -5, 0.05},
                           .high = {100, 3, 50, 6}};
    if (pare_unknowns_solve(&joint, top_left, &d, LEFT_ENOUGH)) {
        *speed_m_s = d.speed_m_s;
        return PARE_OK;
    }
    d.full.rotor.speed_rad_s = d.rest_rad_s;
    return top_by_bracket(&d, speed_m_s, err);
}

pare_status pare_rig_top_speed(const pare_rig *rig, double charge, double *speed_m_s,
                               pare_error *err)
{
    pare_flight flight;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK)
        return PARE_BAD_DATA;
    return pare_flight_top_speed(&flight, charge, speed_m_s, err);
}

/* ---- climb ---- */

/* Unknown: rotor speed and advance ratio. Along the axis the inflow's equation is met by any. */
static bool climb_left(void *context, const double x[], double left[],
                       double slope[][PARE_JOINT_MOST])
{
    dash *d = context;
    const pare_rig *rig = d->flight->rig;
    const double weight_n = d->flight->weight_n, share = x[0], advance = x[1];
    pare_through through;
    pare_rotor_through(&rig->rotor, &rig->air, share * d->rest_rad_s, advance, 0, &through);
    const double climb_m_s = through.axial_m_s, lift = d->flight->lift_share;
    set_flow(d, climb_m_s, 1, 0);
    d->full.rotor = through.rotor;
    read_forces(d);
    double with_speed, with_torque;
    left[0] = pare_throttle_feed(&d->full);
    pare_throttle_slopes(&d->full, &with_speed, &with_torque);
    left[1] = (d->thrust_n - d->drag_n) / weight_n - 1;
    const double drag_rise = 2 * d->drag_n / climb_m_s;
    slope[0][0] = (with_speed + with_torque * through.torque_nm.speed) / share;
    slope[0][1] = with_torque * through.torque_nm.advance;
    slope[1][0] =
        (lift * through.thrust_n.speed - drag_rise * through.axial.speed) / (weight_n * share);
    slope[1][1] = (lift * through.thrust_n.advance - drag_rise * through.axial.advance) / weight_n;
    return true;
}

static double climb_alone(void *context, double climb_m_s)
{
    dash *d = context;
    set_flow(d, climb_m_s, 1, 0);
    return find_in(d) ? (d->thrust_n - d->drag_n) / d->flight->weight_n - 1 : -1;
}

pare_status pare_flight_climb(pare_flight *flight, double charge, double *climb_m_s,
                              pare_error *err)
{
    const pare_rig *rig = flight->rig;
    dash d;
    if (pare_charge_check(charge, err) != PARE_OK ||
        begin(flight, charge, "climb", &d, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double spare = d.thrust_n / flight->weight_n - 1;
    pare_unknowns joint = {.count = 2,
                           .x = {1.05, pare_lean_start_inflow(&d.lean, 0.9 * top_guess(&d))},
                           .low = {0.1, 0.001},
                           .high = {5, 50}};
    if (pare_unknowns_solve(&joint, climb_left, &d, LEFT_ENOUGH)) {
        *climb_m_s = d.speed_m_s;
        return PARE_OK;
    }
    d.full.rotor.speed_rad_s = d.rest_rad_s;
    double low = 0, low_y = spare;
    for (double high = DASH_SPEED_FIRST_M_S; low < PARE_SPEED_MOST; high *= 1.4) {
        const double high_y = climb_alone(&d, high);
        if (high_y <= 0) {
            *climb_m_s = pare_root(climb_alone, &d, low, low_y, high, high_y, 1e-9);
            return PARE_OK;
        }
        low = high;
        low_y = high_y;
    }
    return pare_fail(
        err, PARE_BAD_DATA,
        "at %.3g m/s it still climbs with %.3g of its weight to spare: is a drag area of "
        "%g m2 from above right?",
        low, low_y, rig->drag_top_m2);
}

pare_status pare_rig_climb(const pare_rig *rig, double charge, double *climb_m_s, pare_error *err)
{
    pare_flight flight;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK)
        return PARE_BAD_DATA;
    return pare_flight_climb(&flight, charge, climb_m_s, err);
}
