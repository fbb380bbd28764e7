/* chain_foretell.c: see chain_foretell.h. */
#include "chain_foretell.h"

#include <math.h>

#include "physics/motor_law.h"

#define STAND_U    0.025 /* of a reading: air that nobody wrote down, steps not settled */
#define BISECTIONS 60

static chain off_by(const chain *base, const chain_doubts *d, int source, double z)
{
    chain c = *base;
    switch (source) {
    case CHAIN_BLADE:
        c.rotor.thrust_factor *= exp(z * d->blade.thrust_u);
        c.rotor.power_factor *= exp(z * d->blade.correlation * d->blade.power_u);
        break;
    case CHAIN_BLADE_POWER:
        c.rotor.power_factor *=
            exp(z * d->blade.power_u * sqrt(1 - d->blade.correlation * d->blade.correlation));
        break;
    case CHAIN_KV:
        c.motor.kv_rpm_per_v *= exp(z * d->u[CHAIN_KV]);
        break;
    case CHAIN_WINDING:
        c.motor.resistance_ohm *= exp(z * d->u[CHAIN_WINDING]);
        break;
    case CHAIN_NO_LOAD:
        c.motor.no_load_a *= exp(z * d->u[CHAIN_NO_LOAD]);
        break;
    case CHAIN_PULSES:
        c.motor.pulse_loss *= exp(z * d->u[CHAIN_PULSES]);
        break;
    case CHAIN_SWITCHING:
        c.esc.switching *= 1 + z * d->u[CHAIN_SWITCHING];
        break;
    default:
        c.esc.on_ohm *= 1 + z * d->u[CHAIN_ESC_OHM];
        break;
    }
    return c;
}

static pare_rotor_state at_speed(const chain *c, double speed_rad_s)
{
    pare_rotor_state state;
    pare_rotor_at(&c->rotor, &c->air, speed_rad_s, 0, 0, &state);
    return state;
}

/* Electrical power at a rotor's state; how far the motor's volts are below the ESC's. */
static double power_w(const chain *c, const pare_rotor_state *state, double volts_v,
                      double *spare_v)
{
    const pare_motor_law law = pare_motor_law_of(&c->motor, c->esc.on_ohm, c->heat);
    double current_a, motor_v, ohm;
    pare_motor_run(&law, state->speed_rad_s, state->torque_nm, &current_a, &motor_v, &ohm);
    *spare_v = volts_v - motor_v;
    const double spare = fmax(*spare_v / volts_v, 0);
    return motor_v * current_a + c->esc.switching * current_a * volts_v * spare +
           c->esc.idle_a * volts_v + pare_motor_pulse_w(&law, state->speed_rad_s) * spare;
}

static double full_thrust_n(const chain *c, double volts_v)
{
    double low = 0, high = 1.2 * volts_v * c->motor.kv_rpm_per_v * DRIVE_PI / 30;
    for (int i = 0; i < BISECTIONS; i++) {
        const double middle = (low + high) / 2;
        const pare_rotor_state state = at_speed(c, middle);
        double spare_v;
        power_w(c, &state, volts_v, &spare_v);
        *(spare_v > 0 ? &low : &high) = middle;
    }
    return at_speed(c, low).thrust_n;
}

double chain_foretold(const chain *c, const drive_row *row, int figure)
{
    pare_rotor_state state;
    double spare_v;
    if (figure == CHAIN_THRUST)
        return log(at_speed(c, row->speed_rad_s).thrust_n);
    if (figure == CHAIN_FULL_THRUST)
        return log(full_thrust_n(c, row->volts_v));
    if (pare_rotor_for_thrust(&c->rotor, &c->air, row->thrust_n, 0, 0, 0, &state, NULL) != PARE_OK)
        return (double)NAN;
    return log(power_w(c, &state, row->volts_v, &spare_v));
}

double chain_measured(const drive_row *row, int figure)
{
    return log(figure == CHAIN_POWER ? row->volts_v * row->current_a : row->thrust_n);
}

double chain_foretold_u(const chain *base, const chain_doubts *d, const drive_row *row, int figure)
{
    double squares = STAND_U * STAND_U;
    for (int source = 0; source < CHAIN_SOURCES; source++) {
        const chain up = off_by(base, d, source, 1), down = off_by(base, d, source, -1);
        const double moved =
            (chain_foretold(&up, row, figure) - chain_foretold(&down, row, figure)) / 2;
        squares += moved * moved;
    }
    return sqrt(squares);
}
