/* operate.c: where rotor, motor, ESC and pack agree.
 *
 * A thrust fixes the rotor's speed and torque, those the motor's volts and current, and those what
 * the pack must give: with duty d = Vm/Vb the ESC passes I (d + ks (1 - d)) + Iq, so that
 *
 *     Vb^2 - (E - R n (ks I + Iq)) Vb + R (n (1 - ks) Vm I + Pav) = 0
 *
 * of which we want the larger root; what the pulses lose in the iron, Ke w Ip (1 - d) a motor, goes
 * with Vm I and is found by passes. No root, or d over 1: there is no such point, and we say what
 * full throttle would give instead. At full throttle d is 1 and the rotor speed is the unknown.
 *
 * Full throttle is one equation with a good slope at hand (torque goes nearly with the square of
 * speed), so secant steps kept inside a bracket find it in four or five evaluations. Level flight is in
 * trim.c.
 *
 * Read pare_give() first. Source: momentum balance of a rigid craft; the ESC's form is an estimate
 * of switching loss that fades with duty. */
#include "physics/operate.h"

#include <math.h>

#include "physics/aloft.h"
#include "physics/trim.h"

#define LEFT_NOISE 1e-7 /* what rounding in the blade elements may leave */
#define TURN_MOST  3.0  /* rotor speed over the pack's open volts over Ke: beyond any windmill */

pare_load pare_load_on(const pare_flight *flight, pare_source source, double speed_rad_s,
                       double motor_v, double motor_a)
{
    const pare_given given = pare_give(source, pare_draw_of(flight, speed_rad_s, motor_v, motor_a));
    if (!(given.pack_v > 0))
        return (pare_load){.exists = false};
    const double duty = motor_v / given.pack_v;
    return (pare_load){given.pack_v, given.pack_a, duty, duty <= 1};
}

/* ---- full throttle ---- */

double pare_throttle_left(pare_throttle *throttle, double speed_rad_s)
{
    const pare_rig *rig = throttle->flight->rig;
    pare_rotor_at(&rig->rotor, &rig->air, speed_rad_s, throttle->axial_m_s, throttle->inplane_m_s,
                  &throttle->rotor);
    return pare_throttle_feed(throttle);
}

double pare_throttle_feed(pare_throttle *throttle)
{
    const pare_flight *flight = throttle->flight;
    const pare_rig *rig = flight->rig;
    const double ohm = throttle->source.ohm;
    double motor_ohm;
    pare_motor_run(throttle->law, throttle->rotor.speed_rad_s, throttle->rotor.torque_nm,
                   &throttle->motor_a, &throttle->motor_v, &motor_ohm);
    const double motors_a = flight->rotors * (throttle->motor_a + rig->esc.idle_a);
    const double b = throttle->source.open_v - ohm * motors_a;
    const double under_root_v2 = b * b - 4 * ohm * rig->always_w;
    /* a pack that cannot feed the electronics is far below the motor's volts: keep the curve falling */
    throttle->pack_v = b > 0 && under_root_v2 > 0 ? (b + sqrt(under_root_v2)) / 2 : b / 2;
    throttle->pack_a = motors_a + (throttle->pack_v > 0 ? rig->always_w / throttle->pack_v : 0);
    return (throttle->pack_v - throttle->motor_v) / throttle->source.open_v;
}

void pare_throttle_slopes(const pare_throttle *throttle, double *with_speed, double *with_torque)
{
    const pare_flight *flight = throttle->flight;
    const pare_motor_law *law = throttle->law;
    const double open_v = throttle->source.open_v, ohm = throttle->source.ohm;
    const double current_a = throttle->motor_a, speed = throttle->rotor.speed_rad_s;
    const double left = pare_motor_left(law, current_a);
    const double loss_a = pare_motor_loss_a(law, speed);
    const double motor_ohm = pare_motor_ohm(law, speed, loss_a, left);
    const double warming_ohm = motor_ohm - law->extra_ohm;
    const double ohm_with_a =
        left > PARE_WINDING_FLOOR ? 2 * warming_ohm * law->warming * current_a / left : 0;
    const double ohm_with_speed =
        law->warming * law->ke_v_s * speed * (loss_a + law->loss_a_s * speed) / left;
    const double motor_with_a = motor_ohm + law->on_ohm + current_a * ohm_with_a;
    const double b = open_v - ohm * flight->rotors * (current_a + flight->rig->esc.idle_a);
    const double under_root_v2 = b * b - 4 * ohm * flight->rig->always_w;
    const double share = b > 0 && under_root_v2 > 0 ? 0.5 * (1 + b / sqrt(under_root_v2)) : 0.5;
    const double with_a = -(share * ohm * flight->rotors + motor_with_a) / open_v;
    *with_torque = with_a / law->ke_v_s;
    *with_speed = with_a * law->loss_a_s * speed -
                  (law->ke_v_s * speed + current_a * ohm_with_speed) / open_v;
}

/* Where full throttle would be if torque went with the square of speed from the state filled in: the
 * pack's volts less all resistances' drop are the motor's own, a quadratic in speed. */
static double with_square_torque(const pare_throttle *throttle)
{
    const pare_motor_law *law = throttle->law;
    const pare_rig *rig = throttle->flight->rig;
    const double speed = throttle->rotor.speed_rad_s, n = throttle->flight->rotors;
    const double drop_a = throttle->pack_a - n * throttle->motor_a; /* ESCs and electronics */
    const double motor_ohm = throttle->motor_a > 0
                                 ? (throttle->motor_v - law->ke_v_s * speed) / throttle->motor_a
                                 : law->cold_ohm + law->extra_ohm + rig->esc.on_ohm;
    const double ohm = motor_ohm + n * throttle->source.ohm;
    const double a = ohm * fmax(throttle->rotor.torque_nm, 0) / (speed * speed * law->ke_v_s);
    const double b = law->ke_v_s + ohm * law->loss_a_s;
    const double c = throttle->source.open_v - throttle->source.ohm * drop_a - ohm * law->loss_a;
    return 2 * c / (b + sqrt(b * b + 4 * a * c));
}

pare_status pare_throttle_find(pare_throttle *throttle, double near_rad_s, pare_error *err)
{
    const double unloaded = throttle->source.open_v / throttle->law->ke_v_s;
    double low = 0, high = TURN_MOST * unloaded;
    double speed = near_rad_s > 0 && near_rad_s < high ? near_rad_s : 0.7 * unloaded;
    double was = 0, was_left = 0, left = 0;
    for (int i = 0; i < 80; i++) {
        left = pare_throttle_left(throttle, speed);
        if (fabs(left) <= PARE_LEFT_MOST)
            return PARE_OK;
        if (!isfinite(left))
            break;
        if (left > 0)
            low = speed;
        else
            high = speed;
        double next = i == 0 ? with_square_torque(throttle)
                             : speed - left * (speed - was) / (left - was_left);
        if (!(next > low && next < high) || (i > 12 && i % 2 == 0))
            next = (low + high) / 2;
        if (fabs(next - speed) <= 1e-13 * speed)
            break;
        was = speed;
        was_left = left;
        speed = next;
    }
    if (fabs(left) <= LEFT_NOISE)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA,
                     "at full throttle motor and propeller find no common speed up to %.4g rad/s, "
                     "with %.4g V from the pack",
                     high, throttle->source.open_v);
}

/* A little below 1 must not print as 1. */
static double short_of_1(double share)
{
    return share < 1 ? fmin(share, 0.999) : share;
}

pare_status pare_rest_throttle(pare_flight *flight, double charge, pare_throttle *throttle,
                               pare_error *err)
{
    for (int i = 0; i < flight->rests; i++)
        if (flight->rest[i].charge == charge) {
            *throttle = flight->rest[i].throttle;
            return PARE_OK;
        }
    *throttle = (pare_throttle){
        .flight = flight, .law = &flight->burst, .source = pare_source_at(flight, charge, 0)};
    if (pare_throttle_find(throttle, 0, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (flight->rests < PARE_RESTS) {
        flight->rest[flight->rests].charge = charge;
        flight->rest[flight->rests++].throttle = *throttle;
    }
    return PARE_OK;
}

pare_status pare_burst_throttle(pare_flight *flight, double charge, const char *must,
                                pare_throttle *throttle, pare_error *err)
{
    if (pare_rest_throttle(flight, charge, throttle, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double to_weight = pare_throttle_to_weight(throttle);
    if (!(to_weight > 1))
        return pare_fail(err, PARE_BAD_DATA,
                         "full throttle gives %.3g of its weight: it does not %s",
                         short_of_1(to_weight), must);
    return PARE_OK;
}

/* ---- a point held ---- */

pare_status pare_hold(const pare_flight *flight, double weights, double near_rad_s,
                      pare_rotor_state *rotor, pare_error *err)
{
    const pare_rig *rig = flight->rig;
    return pare_rotor_for_thrust(&rig->rotor, &rig->air,
                                 weights * flight->weight_n / flight->lift_share, 0, 0, near_rad_s,
                                 rotor, err);
}

/* Half of the rotors that much above the mean and half below it: exact where the centre of mass is off
 * along one axis of a craft of two pairs, and right to the second order of the deviation elsewhere. */
pare_status pare_uneven_pair(const pare_flight *flight, double mean_n, double axial_m_s,
                             double inplane_m_s, double near_rad_s, pare_rotor_state pair[2],
                             pare_error *err)
{
    const pare_rig *rig = flight->rig;
    const double uneven = fmin(rig->uneven, PARE_UNEVEN_MOST);
    for (int side = 0; side < 2; side++) {
        const double share = side == 0 ? 1 + uneven : 1 - uneven;
        if (pare_rotor_for_thrust(&rig->rotor, &rig->air, mean_n * share, axial_m_s, inplane_m_s,
                                  near_rad_s * sqrt(share), &pair[side], err) != PARE_OK)
            return PARE_BAD_DATA;
    }
    return PARE_OK;
}

static pare_status uneven(pare_flight *flight, pare_error *err)
{
    if (!pare_is_uneven(flight->rig))
        return PARE_OK;
    pare_rotor_state pair[2];
    if (pare_uneven_pair(flight, flight->hover.thrust_n, 0, 0, flight->hover.speed_rad_s, pair,
                         err) != PARE_OK)
        return PARE_BAD_DATA;
    double mean_a, mean_v, ohm, sum_a = 0, sum_w = 0, sum_pulse = 0, sum_pulse_v = 0;
    pare_motor_run(&flight->steady, flight->hover.speed_rad_s, flight->hover.torque_nm, &mean_a,
                   &mean_v, &ohm);
    for (int side = 0; side < 2; side++) {
        double motor_a, motor_v;
        pare_motor_run(&flight->steady, pair[side].speed_rad_s, pair[side].torque_nm, &motor_a,
                       &motor_v, &ohm);
        sum_a += motor_a;
        sum_w += motor_v * motor_a;
        sum_pulse += pair[side].speed_rad_s;
        sum_pulse_v += pair[side].speed_rad_s * motor_v;
    }
    flight->more_a = sum_a / (2 * mean_a);
    flight->more_w = sum_w / (2 * mean_v * mean_a);
    flight->more_pulse_w = sum_pulse / (2 * flight->hover.speed_rad_s);
    flight->more_pulse_v = sum_pulse_v / (sum_pulse * mean_v);
    return PARE_OK;
}

pare_status pare_hover(pare_flight *flight, pare_rotor_state *hover, pare_error *err)
{
    if (!flight->hover_known && pare_hold(flight, 1, 0, &flight->hover, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!flight->hover_known && uneven(flight, err) != PARE_OK)
        return PARE_BAD_DATA;
    flight->hover_known = true;
    *hover = flight->hover;
    return PARE_OK;
}

static void fill(const pare_flight *flight, const pare_rotor_state *rotor,
                 const pare_motor_law *law, const pare_load *load, pare_operating *point)
{
    *point = (pare_operating){.rotor = *rotor,
                              .duty = load->duty,
                              .pack_v = load->pack_v,
                              .pack_a = load->pack_a,
                              .pack_w = load->pack_v * load->pack_a};
    pare_motor_fill(law, rotor->speed_rad_s, rotor->torque_nm, &point->motor);
    point->motor.winding_degc +=
        law->k_per_w * pare_motor_pulse_w(law, rotor->speed_rad_s) * (1 - load->duty);
    point->efficiency = flight->rotors * rotor->torque_nm * rotor->speed_rad_s / point->pack_w;
}

/* Motors and pack at a rotor's state. Where there is no such point, load says in how far. */
static pare_status feed(const pare_flight *flight, const pare_rotor_state *rotor, double charge,
                        pare_load *load, pare_operating *point, pare_error *err)
{
    const pare_source source = pare_source_at(flight, charge, 1);
    double motor_a, motor_v, ohm;
    pare_motor_run(&flight->steady, rotor->speed_rad_s, rotor->torque_nm, &motor_a, &motor_v, &ohm);
    if (pare_motor_bears(&flight->steady, motor_a, err) != PARE_OK)
        return PARE_BAD_DATA;
    *load = pare_load_on(flight, source, rotor->speed_rad_s, motor_v, motor_a);
    if (!load->exists) {
        const double most_w = pare_pack_most_w(source.open_v, source.ohm);
        const double power_w = flight->rotors * motor_v * motor_a + flight->rig->always_w;
        if (load->pack_v > 0)
            return pare_fail(
                err, PARE_BAD_DATA,
                "it needs %.1f %% output at %.3g V from the pack: 100 %% is all there is",
                ceil(1000 * load->duty) / 10, load->pack_v);
        return pare_fail(err, PARE_BAD_DATA, "it needs %.4g W, the pack gives at most %.4g W",
                         power_w, most_w);
    }
    fill(flight, rotor, &flight->steady, load, point);
    return PARE_OK;
}

pare_status pare_too_much(const pare_flight *flight, double weights, double charge, pare_error *err)
{
    pare_throttle full = {
        .flight = flight, .law = &flight->steady, .source = pare_source_at(flight, charge, 1)};
    if (pare_throttle_find(&full, 0, NULL) != PARE_OK)
        return PARE_BAD_DATA;
    const double given = pare_throttle_to_weight(&full);
    if (!(given < weights))
        return PARE_BAD_DATA;
    if (weights == 1)
        return pare_fail(err, PARE_BAD_DATA,
                         "full throttle gives %.3g of its weight: it does not hover",
                         short_of_1(given));
    return pare_fail(err, PARE_BAD_DATA,
                     "full throttle gives %.3g times its weight, %.4g times asked", given, weights);
}

pare_status pare_flight_thrust(pare_flight *flight, double weights, double charge,
                               pare_operating *point, pare_error *err)
{
    pare_rotor_state rotor;
    pare_load load;
    if (pare_charge_check(charge, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(weights > 0 && weights <= 1000))
        return pare_fail(err, PARE_BAD_DATA,
                         "a thrust of %g times the weight: more than 0, to 1000, would be right",
                         weights);
    if (weights != 1 && pare_is_uneven(flight->rig) && pare_hover(flight, &rotor, err) != PARE_OK)
        return PARE_BAD_DATA;
    const pare_status held =
        weights == 1 ? pare_hover(flight, &rotor, err) : pare_hold(flight, weights, 0, &rotor, err);
    if (held != PARE_OK)
        return PARE_BAD_DATA;
    if (feed(flight, &rotor, charge, &load, point, err) == PARE_OK)
        return PARE_OK;
    return pare_too_much(flight, weights, charge, err);
}

pare_status pare_rig_thrust(const pare_rig *rig, double weights, double charge,
                            pare_operating *point, pare_error *err)
{
    pare_flight flight;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK)
        return PARE_BAD_DATA;
    return pare_flight_thrust(&flight, weights, charge, point, err);
}

/* ---- level flight ---- */

static pare_status check_speed(double speed_m_s, pare_error *err)
{
    if (!(speed_m_s >= 0 && speed_m_s <= PARE_SPEED_MOST))
        return pare_fail(err, PARE_BAD_DATA, "a speed of %g m/s: 0 to %d m/s would be right",
                         speed_m_s, PARE_SPEED_MOST);
    return PARE_OK;
}

pare_status pare_rig_level(const pare_rig *rig, double speed_m_s, double charge,
                           pare_operating *point, pare_error *err)
{
    pare_flight flight;
    pare_rotor_state hover;
    pare_trim trim;
    pare_load load;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK ||
        pare_charge_check(charge, err) != PARE_OK || check_speed(speed_m_s, err) != PARE_OK ||
        pare_hover(&flight, &hover, err) != PARE_OK)
        return PARE_BAD_DATA;
    pare_trim_begin(&flight, &hover, &trim);
    if (pare_trim_at(&trim, speed_m_s, PARE_LEFT_MOST, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (feed(&flight, &trim.rotor, charge, &load, point, err) != PARE_OK)
        return pare_within(err, "level flight at %g m/s", speed_m_s);
    point->tilt_rad = trim.tilt_rad;
    point->drag_n = trim.drag_n;
    return PARE_OK;
}

static pare_status fill_full(const pare_throttle *full, pare_operating *point, pare_error *err)
{
    if (pare_motor_bears(full->law, full->motor_a, err) != PARE_OK)
        return PARE_BAD_DATA;
    const pare_load load = {full->pack_v, full->pack_a, 1, true};
    fill(full->flight, &full->rotor, full->law, &load, point);
    return PARE_OK;
}

pare_status pare_flight_rest(pare_flight *flight, double charge, pare_operating *point,
                             pare_error *err)
{
    pare_throttle full;
    if (pare_charge_check(charge, err) != PARE_OK ||
        pare_rest_throttle(flight, charge, &full, err) != PARE_OK)
        return PARE_BAD_DATA;
    return fill_full(&full, point, err);
}

pare_status pare_rig_full(const pare_rig *rig, double charge, double heat, double steady,
                          double axial_m_s, double inplane_m_s, pare_operating *point,
                          pare_error *err)
{
    pare_flight flight;
    if (pare_flight_begin(rig, &flight, err) != PARE_OK ||
        pare_charge_check(charge, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(heat >= 0 && heat <= 1 && steady >= 0 && steady <= 1))
        return pare_fail(err, PARE_BAD_DATA,
                         "heat %g and steadiness %g: each 0 to 1 would be right", heat, steady);
    if (!(fabs(axial_m_s) <= PARE_SPEED_MOST))
        return pare_fail(err, PARE_BAD_DATA, "a climb of %g m/s: %d m/s up or down is the most",
                         axial_m_s, PARE_SPEED_MOST);
    if (check_speed(inplane_m_s, err) != PARE_OK)
        return PARE_BAD_DATA;
    pare_motor_law law = flight.steady;
    law.warming *= heat;
    pare_throttle full = {.flight = &flight,
                          .law = &law,
                          .source = pare_source_at(&flight, charge, steady),
                          .axial_m_s = axial_m_s,
                          .inplane_m_s = inplane_m_s};
    if (pare_throttle_find(&full, 0, err) != PARE_OK)
        return PARE_BAD_DATA;
    return fill_full(&full, point, err);
}

double pare_rig_thrust_to_weight(const pare_rig *rig, const pare_operating *full)
{
    return rig->rotors * (1 - rig->blockage) * full->rotor.thrust_n /
           (rig->mass_kg * PARE_GRAVITY_M_S2);
}
