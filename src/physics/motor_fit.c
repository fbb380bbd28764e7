/* motor_fit.c: three numbers of a motor from a stand's readings (see motor_fit.h).
 *
 * Unknown are the logarithms of kV, winding and unloaded current over what was stated, each held by how
 * well it was stated. The readings fix them through the flight's own motor (motor_law.h):
 *
 *     at full throttle        V = Ke w + I (R + Ron),  I = into the ESC less its idling
 *     with torque measured    I = Q / Ke + loss        at full throttle
 *                             V I = all power in       below it
 *
 * A speed that is off by a share moves the first as Ke w does, so it counts in that row's uncertainty.
 * Gauss and Newton's method with Marquardt's damping; slopes by differences. kV and winding hang
 * together, since a table of one propeller holds a narrow range of currents: the correlation tells.
 *
 * Rejected: a straight line of w/V over I/V, since heating bends it and it cannot take torque.
 * Sources: Marquardt, J. SIAM 11, 1963; uncertainty from scatter, Birge, Phys. Rev. 40, 1932. */
#include "physics/motor_fit.h"

#include <math.h>

#include "physics/motor_law.h"
#include "physics/normal.h"
#include "physics/operate.h"

enum { KV, OHM, LOSS, UNKNOWNS };

#define FULL        0.995
#define ROWS_MOST   10000
#define STEPS       60
#define DIFFERENCE  1e-5
#define STOP        1e-9
#define VOLTS_U     0.005 /* of a hobby stand; estimates */
#define CURRENT_U   0.015
#define SPEED_U     0.003
#define TORQUE_U    0.02
#define LEAST_V     0.01
#define LEAST_A     0.03
#define FASTER_MOST 1.3 /* times the stated kV, or four of its uncertainties */

static bool is_full(const pare_stand_row *row)
{
    return row->throttle >= FULL;
}

static bool has_torque(const pare_stand_row *row)
{
    return !isnan(row->torque_nm);
}

static pare_status check_row(size_t number, const pare_stand_row *row,
                             const pare_motor_prior *prior, pare_error *err)
{
    const struct {
        double value;
        const char *what, *unit;
    } needed[] = {{row->volts_v, "volts", "V"},
                  {row->current_a, "current", "A"},
                  {row->speed_rad_s, "speed", "rad/s"}};
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++)
        if (!(needed[i].value > 0 && needed[i].value <= 1e6))
            return pare_fail(err, PARE_BAD_DATA,
                             "row %zu: its %s is %g %s: more than 0 would be right", number,
                             needed[i].what, needed[i].value, needed[i].unit);
    if (row->throttle < 0 || row->throttle > 1)
        return pare_fail(err, PARE_BAD_DATA, "row %zu: a throttle of %g: 0 to 1 would be right",
                         number, row->throttle);
    if (has_torque(row) && !(row->torque_nm >= 0 && row->torque_nm <= 1e4))
        return pare_fail(err, PARE_BAD_DATA, "row %zu: a torque of %g N m: 0 and up would be right",
                         number, row->torque_nm);
    const double most = fmax(FASTER_MOST, 1 + 4 * prior->kv_u) * prior->motor.kv_rpm_per_v;
    const double rpm = row->speed_rad_s * 30 / 3.14159265358979323846;
    if (rpm > most * row->volts_v)
        return pare_fail(err, PARE_BAD_DATA,
                         "row %zu: %.6g rpm on %.4g V: a motor of %.5g rpm/V does not turn faster "
                         "than about %.5g rpm unloaded",
                         number, rpm, row->volts_v, prior->motor.kv_rpm_per_v,
                         prior->motor.kv_rpm_per_v * row->volts_v);
    return PARE_OK;
}

static pare_status check(size_t count, const pare_stand_row row[], const pare_motor_prior *prior,
                         pare_error *err)
{
    if (pare_motor_check(&prior->motor, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(prior->motor.resistance_ohm > 0 && prior->motor.no_load_a > 0))
        return pare_fail(err, PARE_BAD_DATA,
                         "a motor of %g ohm and %g A unloaded: both must be more than 0 to start "
                         "from",
                         prior->motor.resistance_ohm, prior->motor.no_load_a);
    if (!(prior->kv_u > 0 && prior->resistance_u > 0 && prior->no_load_u > 0))
        return pare_fail(err, PARE_BAD_DATA,
                         "kV, winding and unloaded current are known to %g, %g, %g of themselves: "
                         "each must be more than 0",
                         prior->kv_u, prior->resistance_u, prior->no_load_u);
    if (!(prior->heat >= 0 && prior->heat <= 1))
        return pare_fail(err, PARE_BAD_DATA, "a heating of %g: 0 to 1 would be right", prior->heat);
    if (count < 1 || count > ROWS_MOST)
        return pare_fail(err, PARE_BAD_DATA, "%zu rows: 1 to %d would be right", count, ROWS_MOST);
    bool says = false;
    for (size_t i = 0; i < count; i++) {
        if (check_row(i + 1, &row[i], prior, err) != PARE_OK)
            return PARE_BAD_DATA;
        says = says || is_full(&row[i]) || has_torque(&row[i]);
    }
    if (!says)
        return pare_fail(err, PARE_BAD_DATA,
                         "no row is at full throttle or has a torque: they say nothing of the "
                         "motor by itself");
    return PARE_OK;
}

static pare_motor motor_of(const pare_motor_prior *prior, const double x[UNKNOWNS])
{
    pare_motor motor = prior->motor;
    motor.kv_rpm_per_v *= exp(x[KV]);
    motor.resistance_ohm *= exp(x[OHM]);
    motor.no_load_a *= exp(x[LOSS]);
    return motor;
}

static double or_else(double given, double otherwise)
{
    return given > 0 ? given : otherwise;
}

/* What is left of a row in its own uncertainties: volts, then current; 0 where it does not say. */
static void left_of(const pare_motor_prior *prior, const pare_motor_law *law,
                    const pare_stand_row *row, double left[2])
{
    const double speed = row->speed_rad_s, volts = row->volts_v;
    const double current_u = or_else(prior->current_u, CURRENT_U);
    left[0] = left[1] = 0;
    if (is_full(row)) {
        const double motor_a = fmax(row->current_a - prior->esc.idle_a, 0);
        const double loss_a = pare_motor_loss_a(law, speed);
        const double ohm =
            pare_motor_ohm(law, speed, loss_a, pare_motor_left(law, motor_a)) + law->on_ohm;
        const double own_v = law->ke_v_s * speed;
        const double u =
            hypot(hypot(or_else(prior->volts_u, VOLTS_U) * volts, LEAST_V),
                  hypot(or_else(prior->speed_u, SPEED_U) * own_v, current_u * motor_a * ohm));
        left[0] = (volts - own_v - motor_a * ohm) / u;
    }
    if (!has_torque(row))
        return;
    double motor_a, motor_v, ohm;
    pare_motor_run(law, speed, row->torque_nm, &motor_a, &motor_v, &ohm);
    const pare_draw draw =
        pare_esc_draw(&prior->esc, motor_v, motor_a, pare_motor_pulse_w(law, speed));
    const double into_a = is_full(row) ? motor_a + prior->esc.idle_a
                                       : draw.always_a + pare_draw_w(draw, volts) / volts;
    const double torque_a = or_else(prior->torque_u, TORQUE_U) * row->torque_nm / law->ke_v_s;
    const double by_torque_a = is_full(row) ? torque_a : torque_a * fmin(motor_v / volts, 1);
    left[1] =
        (row->current_a - into_a) / hypot(hypot(current_u * row->current_a, LEAST_A), by_torque_a);
}

typedef struct fitting {
    const pare_motor_prior *prior;
    size_t count;
    const pare_stand_row *row;
} fitting;

static double prior_u(const pare_motor_prior *prior, int p)
{
    return p == KV ? prior->kv_u : p == OHM ? prior->resistance_u : prior->no_load_u;
}

/* Chi-square of the readings; where asked, the normal equations of them and of the priors. */
static double chi_square(const fitting *f, const double x[UNKNOWNS], pare_normal *normal,
                         int *readings)
{
    pare_motor_law law[1 + 2 * UNKNOWNS];
    for (int k = 0; k <= 2 * UNKNOWNS && (k == 0 || normal); k++) {
        double moved[UNKNOWNS] = {x[KV], x[OHM], x[LOSS]};
        if (k > 0)
            moved[(k - 1) / 2] += k % 2 ? DIFFERENCE : -DIFFERENCE;
        const pare_motor motor = motor_of(f->prior, moved);
        law[k] = pare_motor_law_of(&motor, f->prior->esc.on_ohm, f->prior->heat);
    }
    double sum = 0;
    *readings = 0;
    for (size_t i = 0; i < f->count; i++) {
        double left[1 + 2 * UNKNOWNS][2];
        for (int k = 0; k <= 2 * UNKNOWNS && (k == 0 || normal); k++)
            left_of(f->prior, &law[k], &f->row[i], left[k]);
        *readings += is_full(&f->row[i]) + has_torque(&f->row[i]);
        for (int which = 0; which < 2; which++) {
            sum += left[0][which] * left[0][which];
            double slope[UNKNOWNS];
            for (int p = 0; normal && p < UNKNOWNS; p++)
                slope[p] = (left[1 + 2 * p][which] - left[2 + 2 * p][which]) / (2 * DIFFERENCE);
            if (normal)
                pare_normal_add(normal, slope, -left[0][which], 1);
        }
    }
    for (int p = 0; normal && p < UNKNOWNS; p++) {
        const double u = prior_u(f->prior, p);
        normal->a[p][p] += 1 / (u * u);
        normal->b[p] -= x[p] / (u * u);
    }
    return sum;
}

static double cost(const fitting *f, const double x[UNKNOWNS])
{
    int readings;
    double sum = chi_square(f, x, NULL, &readings);
    for (int p = 0; p < UNKNOWNS; p++) {
        const double off = x[p] / prior_u(f->prior, p);
        sum += off * off;
    }
    return sum;
}

static bool solve(const fitting *f, double x[UNKNOWNS])
{
    double damping = 1e-3, here = cost(f, x);
    for (int step = 0; step < STEPS; step++) {
        pare_normal normal = {.n = UNKNOWNS};
        double root[PARE_UNKNOWNS][PARE_UNKNOWNS], by[UNKNOWNS], next[UNKNOWNS], size = 0;
        int readings;
        chi_square(f, x, &normal, &readings);
        for (int p = 0; p < UNKNOWNS; p++)
            normal.a[p][p] *= 1 + damping;
        if (!pare_cholesky(UNKNOWNS, normal.a, root))
            return false;
        pare_cholesky_solve(UNKNOWNS, root, normal.b, by);
        for (int p = 0; p < UNKNOWNS; p++) {
            next[p] = x[p] + fmin(fmax(by[p], -1), 1);
            size = fmax(size, fabs(next[p] - x[p]));
        }
        const double there = cost(f, next);
        if (there <= here) {
            for (int p = 0; p < UNKNOWNS; p++)
                x[p] = next[p];
            here = there;
            damping *= 0.1;
        } else {
            damping *= 10;
        }
        if (size < STOP || damping > 1e12)
            return isfinite(here);
    }
    return isfinite(here);
}

pare_status pare_motor_fit(size_t count, const pare_stand_row row[], const pare_motor_prior *prior,
                           pare_motor_fitted *fitted, pare_error *err)
{
    if (check(count, row, prior, err) != PARE_OK)
        return PARE_BAD_DATA;
    const fitting f = {prior, count, row};
    double x[UNKNOWNS] = {0}, root[PARE_UNKNOWNS][PARE_UNKNOWNS], c[PARE_UNKNOWNS][PARE_UNKNOWNS];
    pare_normal normal = {.n = UNKNOWNS};
    int readings;
    const bool solved = solve(&f, x);
    const double chi = chi_square(&f, x, &normal, &readings);
    if (!solved || !pare_cholesky(UNKNOWNS, normal.a, root))
        return pare_fail(err, PARE_BAD_DATA, "the readings fit no motor near the one stated");
    pare_cholesky_inverse(UNKNOWNS, root, c);
    const int freedom = readings - UNKNOWNS;
    const double grown = freedom > 0 ? fmax(chi / freedom, 1) : 1;
    const double u[UNKNOWNS] = {sqrt(c[KV][KV]), sqrt(c[OHM][OHM]), sqrt(c[LOSS][LOSS])};
    *fitted = (pare_motor_fitted){
        .motor = motor_of(prior, x),
        .kv_u = fmin(sqrt(grown) * u[KV], prior->kv_u),
        .resistance_u = fmin(sqrt(grown) * u[OHM], prior->resistance_u),
        .no_load_u = fmin(sqrt(grown) * u[LOSS], prior->no_load_u),
        .kv_resistance = c[KV][OHM] / (u[KV] * u[OHM]),
        .kv_no_load = c[KV][LOSS] / (u[KV] * u[LOSS]),
        .resistance_no_load = c[OHM][LOSS] / (u[OHM] * u[LOSS]),
        .chi_square = chi,
        .freedom = freedom,
        .kv_ratio = exp(x[KV]),
    };
    fitted->kv_ratio_u = fitted->kv_ratio * fitted->kv_u;
    return PARE_OK;
}
