/* motor.c: a brushless motor at a speed and torque.
 *
 * Equivalent circuit: a voltage Ke w behind a resistance, a torque Ke per ampere, and a loss current
 * that turns without giving torque. The loss is measured once, unloaded, at a stated voltage; part of
 * it (iron_share) is taken to rise with speed, as eddy currents do, the rest is constant, as
 * hysteresis and bearings are. The winding warms with copper and iron loss through one thermal
 * resistance that falls with size; its resistance rises with it, so that
 *
 *     R = Rw (1 + a (Ta - 20 + h Rth (Pfe + I^2 Rc))) + Re,   Rc the first term
 *
 * which is linear in Rc: no iteration. Its denominator 1 - a Rw h Rth I^2 reaches 0 at a finite
 * current: the winding then has no steady temperature. We stop believing it at 0.4 and say so.
 *
 * An ESC adds x R20 to the winding's own R20. A share e of that (excess_warms) is the winding's: the form
 * of its current, whose mean square is more than the square of its mean, and eddies in the copper. It
 * warms the winding and rises with it: Rw = R20 (1 + e x). The rest, Re = (1 - e) x R20, is lost in the
 * ESC's switches and diodes while they commutate, in leads, and in iron and magnets by the current's
 * own field, and warms no winding.
 * h is 1 in steady flight, 0.3 in a burst of a second or two, 0 for a cold winding.
 *
 * Read pare_motor_run() in motor_law.h first. Sources: circuit, Hendershot and Miller, Design of
 * Brushless Permanent-Magnet Motors, ch. 7 (from memory); copper 0.00393 1/K, IEC 60028; Rth, h and
 * iron_share are engineering estimates without a source. */
#include "physics/rig.h"

#include <math.h>

#include "physics/motor_law.h"

#define PI 3.14159265358979323846

#define HEAT_REFERENCE_K_PER_W 2.6 /* winding to air of a motor of HEAT_REFERENCE_KG; estimate */
#define HEAT_REFERENCE_KG      0.030

pare_motor_law pare_motor_law_of(const pare_motor *motor, double on_ohm, double heat)
{
    const double ke = 60 / (2 * PI * motor->kv_rpm_per_v);
    const double unloaded_rad_s =
        (motor->no_load_at_v - motor->no_load_a * motor->resistance_ohm) / ke;
    const double size = cbrt(motor->mass_kg / HEAT_REFERENCE_KG);
    const double k_per_w = HEAT_REFERENCE_K_PER_W / (size * size);
    const double excess_ohm = motor->resistance_ohm * motor->drive_excess;
    const double own_ohm = motor->resistance_ohm + motor->excess_warms * excess_ohm;
    return (pare_motor_law){
        .ke_v_s = ke,
        .loss_a = motor->no_load_a * (1 - motor->iron_share),
        .loss_a_s = motor->no_load_a * motor->iron_share / unloaded_rad_s,
        .cold_ohm = own_ohm * (1 + PARE_COPPER_PER_K * (motor->ambient_degc - 20)),
        .warming = heat > 0 ? PARE_COPPER_PER_K * own_ohm * heat * k_per_w : 0,
        .at_20_ohm = own_ohm,
        .extra_ohm = (1 - motor->excess_warms) * excess_ohm,
        .on_ohm = on_ohm,
        .pulse_a = motor->pulse_loss * motor->no_load_a,
        .k_per_w = heat * k_per_w,
    };
}

void pare_motor_fill(const pare_motor_law *law, double speed_rad_s, double torque_nm,
                     pare_motor_state *state)
{
    pare_motor_run(law, speed_rad_s, torque_nm, &state->current_a, &state->volts_v,
                   &state->resistance_ohm);
    state->winding_degc = pare_motor_degc(law, state->resistance_ohm);
    state->torque_nm = torque_nm;
    state->speed_rad_s = speed_rad_s;
}

pare_status pare_motor_bears(const pare_motor_law *law, double current_a, pare_error *err)
{
    if (!pare_motor_runs_away(law, current_a))
        return PARE_OK;
    return pare_fail(
        err, PARE_BAD_DATA,
        "at %.3g A a motor's winding heats itself without end: %.3g A is the most that "
        "it bears",
        current_a, sqrt((1 - PARE_WINDING_FLOOR) / law->warming));
}

static pare_status out_of_range(double value, const char *what, const char *right, pare_error *err)
{
    return pare_fail(err, PARE_BAD_DATA, "%s is %g: %s would be right", what, value, right);
}

pare_status pare_motor_check(const pare_motor *motor, pare_error *err)
{
    if (!(motor->kv_rpm_per_v > 0 && motor->kv_rpm_per_v <= 1e6))
        return out_of_range(motor->kv_rpm_per_v, "the motor's kV", "more than 0 rpm/V", err);
    if (!(motor->resistance_ohm >= 0 && motor->resistance_ohm <= 100))
        return out_of_range(motor->resistance_ohm, "the motor's winding", "0 to 100 ohm", err);
    if (!(motor->no_load_a >= 0 && motor->no_load_a <= 1000))
        return out_of_range(motor->no_load_a, "the motor's no-load current", "0 to 1000 A", err);
    if (!(motor->no_load_at_v > 0 && motor->no_load_at_v <= 1000))
        return out_of_range(motor->no_load_at_v, "the volts of the motor's no-load current",
                            "more than 0, to 1000 V", err);
    if (!(motor->mass_kg > 0 && motor->mass_kg <= 100))
        return out_of_range(motor->mass_kg, "the motor's mass in kg", "more than 0, to 100", err);
    if (!(motor->iron_share >= 0 && motor->iron_share <= 1))
        return out_of_range(motor->iron_share,
                            "the share of the motor's loss that rises with speed", "0 to 1", err);
    if (!(motor->drive_excess >= 0 && motor->drive_excess <= 20))
        return out_of_range(motor->drive_excess,
                            "what driving adds to the motor's resistance, of itself,", "0 to 20",
                            err);
    if (!(motor->excess_warms >= 0 && motor->excess_warms <= 1))
        return out_of_range(motor->excess_warms,
                            "the share of what driving adds that is the winding's", "0 to 1", err);
    if (!(motor->pulse_loss >= 0 && motor->pulse_loss <= 20))
        return out_of_range(motor->pulse_loss,
                            "what pulses add to the motor's no-load loss, of itself,", "0 to 20",
                            err);
    if (!(motor->ambient_degc >= -100 && motor->ambient_degc <= 150))
        return out_of_range(motor->ambient_degc, "the air at the motor", "-100 to 150 degC", err);
    if (motor->no_load_a * motor->resistance_ohm >= motor->no_load_at_v)
        return pare_fail(
            err, PARE_BAD_DATA,
            "%g A through %g ohm takes %g V, more than the %g V at which the motor turns "
            "unloaded",
            motor->no_load_a, motor->resistance_ohm, motor->no_load_a * motor->resistance_ohm,
            motor->no_load_at_v);
    return PARE_OK;
}

static pare_status check_heat(double heat, pare_error *err)
{
    if (!(heat >= 0 && heat <= 1))
        return out_of_range(heat, "the share of the winding's heating", "0 to 1", err);
    return PARE_OK;
}

pare_status pare_motor_at(const pare_motor *motor, double on_ohm, double speed_rad_s,
                          double torque_nm, double heat, pare_motor_state *state, pare_error *err)
{
    pare_motor_state found;
    if (pare_motor_check(motor, err) != PARE_OK || check_heat(heat, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(on_ohm >= 0 && on_ohm <= 100))
        return out_of_range(on_ohm, "the ESC's resistance", "0 to 100 ohm", err);
    if (!(speed_rad_s >= 0 && speed_rad_s <= 1e6))
        return out_of_range(speed_rad_s, "the motor's speed", "0 to 1e6 rad/s", err);
    if (!(torque_nm >= 0 && torque_nm <= 1e4))
        return out_of_range(torque_nm, "the motor's torque", "0 to 10000 N m", err);
    const pare_motor_law law = pare_motor_law_of(motor, on_ohm, heat);
    pare_motor_fill(&law, speed_rad_s, torque_nm, &found);
    if (pare_motor_bears(&law, found.current_a, err) != PARE_OK)
        return PARE_BAD_DATA;
    *state = found;
    return PARE_OK;
}

/* Volts over a motor that stands still. */
static double stall_v(const pare_motor_law *law, double current_a)
{
    return current_a * pare_motor_ohm(law, 0, 0, pare_motor_left(law, current_a));
}

/* Speed on fixed volts: V = Ke w + I R(w), where R has a term in w and one in w^2 from iron loss. The
 * quadratic's root is written so that it also holds when the square term is 0. */
static double speed_on(const pare_motor_law *law, double volts_v, double current_a)
{
    const double left = pare_motor_left(law, current_a);
    const double iron = current_a * law->warming * law->ke_v_s / left;
    const double a = iron * law->loss_a_s;
    const double b = law->ke_v_s + iron * law->loss_a;
    const double c = stall_v(law, current_a) - volts_v;
    return -2 * c / (b + sqrt(b * b - 4 * a * c));
}

pare_status pare_motor_on(const pare_motor *motor, double volts_v, double current_a, double heat,
                          pare_motor_state *state, pare_error *err)
{
    if (pare_motor_check(motor, err) != PARE_OK || check_heat(heat, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(volts_v > 0 && volts_v <= 1000))
        return out_of_range(volts_v, "the volts on the motor", "more than 0, to 1000 V", err);
    if (!(current_a >= 0 && current_a <= 1e4))
        return out_of_range(current_a, "the motor's current", "0 to 10000 A", err);
    const pare_motor_law law = pare_motor_law_of(motor, 0, heat);
    if (pare_motor_bears(&law, current_a, err) != PARE_OK)
        return PARE_BAD_DATA;
    const double still_v = stall_v(&law, current_a);
    if (still_v >= volts_v)
        return pare_fail(err, PARE_BAD_DATA,
                         "%g A through the winding takes %.4g V, %g V is there: the motor stands "
                         "still",
                         current_a, still_v, volts_v);
    const double speed = speed_on(&law, volts_v, current_a);
    const double loss_a = pare_motor_loss_a(&law, speed);
    if (current_a < loss_a)
        return pare_fail(err, PARE_BAD_DATA,
                         "%g A is less than the %.4g A that the motor draws unloaded on %g V",
                         current_a, loss_a, volts_v);
    pare_motor_fill(&law, speed, law.ke_v_s * (current_a - loss_a), state);
    return PARE_OK;
}

static double efficiency_on(const pare_motor_law *law, double volts_v, double current_a)
{
    const double speed = speed_on(law, volts_v, current_a);
    return law->ke_v_s * (current_a - pare_motor_loss_a(law, speed)) * speed /
           (volts_v * current_a);
}

/* Efficiency rises and falls once between the unloaded current and the stall, so golden section finds
 * its top; the current is then good to about 1e-7 of itself, since the top is flat. With neither heat
 * nor iron loss that rises with speed the top is at sqrt(V I0 / R), to rounding. */
pare_status pare_motor_best(const pare_motor *motor, double volts_v, double heat, double *current_a,
                            double *efficiency, pare_error *err)
{
    const double golden = 0.61803398874989485;
    if (pare_motor_check(motor, err) != PARE_OK || check_heat(heat, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(volts_v > 0 && volts_v <= 1000))
        return out_of_range(volts_v, "the volts on the motor", "more than 0, to 1000 V", err);
    if (!(motor->no_load_a > 0 && motor->resistance_ohm > 0))
        return pare_fail(
            err, PARE_BAD_DATA,
            "a motor of %g ohm and %g A no-load has no current of best efficiency: both "
            "must be more than 0",
            motor->resistance_ohm, motor->no_load_a);
    const pare_motor_law law = pare_motor_law_of(motor, 0, heat);
    const double cold_ohm = law.cold_ohm + law.extra_ohm;
    double high = volts_v / cold_ohm;
    if (law.warming > 0)
        high = fmin(high, sqrt((1 - PARE_WINDING_FLOOR) / law.warming));
    double low = law.loss_a > 0 ? law.loss_a : 1e-6 * high;
    if (low >= high)
        return pare_fail(err, PARE_BAD_DATA,
                         "the motor needs %.4g A to turn unloaded and %g V gives at most %.4g A",
                         low, volts_v, high);
    double left = high - golden * (high - low), right = low + golden * (high - low);
    double at_left = efficiency_on(&law, volts_v, left);
    double at_right = efficiency_on(&law, volts_v, right);
    for (int i = 0; i < 90 && high - low > 1e-9 * high; i++) {
        if (at_left >= at_right) {
            high = right;
            right = left, at_right = at_left;
            left = high - golden * (high - low);
            at_left = efficiency_on(&law, volts_v, left);
        } else {
            low = left;
            left = right, at_left = at_right;
            right = low + golden * (high - low);
            at_right = efficiency_on(&law, volts_v, right);
        }
    }
    const bool plain = law.warming == 0 && law.loss_a_s == 0;
    const double best = plain ? sqrt(volts_v * law.loss_a / cold_ohm) : (low + high) / 2;
    const double most = efficiency_on(&law, volts_v, best);
    if (!(most > 0))
        return pare_fail(err, PARE_BAD_DATA, "on %g V the motor does no work at any current",
                         volts_v);
    *current_a = best;
    *efficiency = most;
    return PARE_OK;
}
