/* pair.c: the model of a motor and its propeller bent to what a thrust stand measured (see pair.h).
 *
 * A table alone says nothing between and beyond its rows, in other air, on other volts or in flight;
 * the model says all that, but 10 to 15 % off. So the model keeps its form and gets few unknowns: the
 * factors on CT and CP at the four Reynolds numbers at which the propeller's table stands (so that
 * what is fitted is exactly what a look-up gives), one factor each on kV, winding and no-load current,
 * and two numbers of the ESC's curve from throttle to duty. Priors hold them: the propeller's factors
 * are a constant as uncertain as the model, thrust and power together, plus a slow change with ln Re
 * (a Gaussian process; away from the rows it goes back to the constant and its doubt grows, with no
 * edge to choose). Gauss and Newton's method with Marquardt's damping, differences for the slopes.
 *
 * Everything is compared as a logarithm of measured over computed: thrust at the measured speed,
 * torque at it, electrical power at it, and the volts on the motor against duty times supply. Rows
 * without a speed take the one that gives their thrust. Without torque only the power into the ESC
 * is known, and the split between propeller, copper and iron stays as uncertain as the priors leave
 * it, with a sum that is well known: the covariance carries that. Readings far off (Huber) count by
 * their size and not its square, and each kind of reading is weighed by the scatter that it shows.
 *
 * The factors hold at rest. What they are in flight is said at fold().
 *
 * Rejected: a spline through the table's rows (follows every reading's error and ends at the last
 * row), factors on thrust and current as functions of throttle (no meaning at another voltage).
 * Sources: Rasmussen and Williams, Gaussian Processes for Machine Learning, 2006, ch. 2; Huber, Ann.
 * Math. Stat. 35, 1964; Marquardt, J. SIAM 11, 1963. */
#include "physics/pair.h"

#include <math.h>
#include <stddef.h>

#include "physics/motor_law.h"
#include "physics/normal.h"
#include "physics/operate.h"
#include "physics/prop_table.h"

#define PI 3.14159265358979323846

enum { POINTS = PARE_PROP_TABLE_RE, SETS = PARE_PROP_TABLE_SETS, FACTORS = 2 * POINTS };

/* Where each unknown stands. */
enum {
    THRUST = 0,
    POWER = POINTS,
    KV = FACTORS,
    OHM = FACTORS + 1,
    LOSS = FACTORS + 2,
    SWITCHING = FACTORS + 3,
    ZERO = FACTORS + 4,
    SAG = FACTORS + 5,
    UNKNOWNS = FACTORS + 6
};
_Static_assert((int)UNKNOWNS == (int)PARE_PAIR_UNKNOWNS, "the header counts the unknowns");

/* Which Reynolds number a set of the table belongs to. */
static const int point_of[SETS] = {0, 1, 2, 3, 1, 2};

/* What the propeller's factors may do along ln Re [E]: twisting blades and boundary layers bend CT by
 * some per cent over an e-fold of speed. */
#define BEND_U        0.06
#define BEND_LENGTH   1.2
#define BEND_TOGETHER 0.5
/* The ESC's duty at throttle 0 and the sag of its curve: seen on 13 motors in 5 in, 2018 (MIT licence,
 * Cao and Strawson): 0.08 to 0.16 and 0 to 0.05. */
#define ZERO_DUTY   0.12
#define ZERO_DUTY_U 0.08
#define SAG_U       0.06
/* Of one motor and ESC about the typical (drive.h): what their resistance is over the winding's own, and
 * the loss in switching. Wide, as the priors of few rows must not hold back what many say. */
#define DROP_U         0.5
#define SWITCHING_U    0.2
#define SWITCHING_MOST 0.5

#define HUBER      2.5
#define STEPS      40
#define STOP       1e-7
#define DIFFERENCE 1e-6
#define LEAST_RISE (-1.5) /* of ln CT and ln CP with ln of the speed: thrust, torque still rise */

/* How well a kind of reading is taken to be measured until its own scatter says otherwise: a share of
 * the value and a share of the greatest one [E]. */
typedef enum kind { OF_THRUST, OF_TORQUE, OF_POWER, OF_DUTY, KINDS } kind;
static const struct {
    double share, of_most;
} reading_u[KINDS] = {{0.015, 0.004}, {0.02, 0.004}, {0.025, 0.004}, {0.03, 0.015}};
#define SCATTER_LEAST 0.5 /* of these: few rows that agree by chance do not make a perfect stand */
#define SCATTER_MOST  4.0

/* What no scatter within one table shows. The same propeller from motor to motor on that bench: 1.5 to
 * 3 %; the stand's own calibration and a motor's copies [E]. */
#define COPY_U          0.02
#define COPY_TOGETHER   0.7
#define STAND_THRUST_U  0.01
#define STAND_POWER_U   0.015
#define MOTOR_KV_U      0.01
#define MOTOR_OHM_U     0.05
#define MOTOR_NO_LOAD_U 0.10

/* What is left of the model's error in flight once that at rest is put right: on 113 propellers of the
 * UIUC Propeller Data Site 5 % of thrust and of power in the median where J is below 0.3 of the pitch
 * over the diameter, 10 and 9 % at twice that; over 0.6745, between the two. */
#define CARRY_THRUST_U 0.10
#define CARRY_POWER_U  0.09

/* A pair at rest with all its numbers put in. */
typedef struct bent {
    const pare_prop_table *table; /* for its axes */
    double still[SETS][2];        /* CT and CP at J = 0 */
    pare_motor_law law;
    pare_esc esc;
    pare_air air;
    double zero, sag;
} bent;

static double duty_of(double zero, double sag, double throttle)
{
    return zero + (1 - zero) * throttle - sag * throttle * (1 - throttle);
}

static pare_motor motor_of(const pare_motor *model, const double x[UNKNOWNS])
{
    pare_motor motor = *model;
    motor.kv_rpm_per_v *= exp(x[KV]);
    motor.resistance_ohm *= exp(x[OHM]);
    motor.no_load_a *= exp(x[LOSS]);
    return motor;
}

static pare_esc esc_of(const pare_esc *model, const double x[UNKNOWNS])
{
    pare_esc esc = *model;
    esc.switching = fmin(esc.switching * exp(x[SWITCHING]), SWITCHING_MOST);
    return esc;
}

static void bend(const pare_pair_model *model, const double x[UNKNOWNS], bent *b)
{
    b->table = model->table;
    double factor[POINTS][2];
    for (int k = 0; k < POINTS; k++) {
        factor[k][0] = exp(x[THRUST + k]);
        factor[k][1] = exp(x[POWER + k]);
    }
    for (int set = 0; set < SETS; set++)
        for (int which = 0; which < 2; which++)
            b->still[set][which] =
                model->table->piece[0][0][set][which] * factor[point_of[set]][which];
    const pare_motor motor = motor_of(&model->motor, x);
    b->law = pare_motor_law_of(&motor, model->esc.on_ohm, PARE_BURST_HEAT);
    b->esc = esc_of(&model->esc, x);
    b->zero = x[ZERO];
    b->sag = x[SAG];
}

static void as_fitted(const pare_pair_fit *fit, const pare_air *air, bent *b)
{
    b->table = &fit->table;
    for (int set = 0; set < SETS; set++)
        for (int which = 0; which < 2; which++)
            b->still[set][which] = fit->table.piece[0][0][set][which];
    b->law = pare_motor_law_of(&fit->motor, fit->esc.on_ohm, PARE_BURST_HEAT);
    b->esc = fit->esc;
    b->air = *air;
    b->zero = fit->unknown[ZERO];
    b->sag = fit->unknown[SAG];
}

static pare_pair coefficients(const bent *b, double speed_rad_s)
{
    pare_prop_slice slice;
    pare_prop_slice_take(&slice, b->table, speed_rad_s, &b->air);
    pare_pair sum = pare_both(0);
    for (int set = 0; set < SETS; set++)
        sum += slice.weight[set] * (pare_pair){b->still[set][0], b->still[set][1]};
    return sum;
}

static void turn(const bent *b, double speed_rad_s, double *thrust_n, double *torque_nm)
{
    const double diameter_m = b->table->diameter_m;
    const double nd_m_s = speed_rad_s * diameter_m / (2 * PI);
    const double force_n = b->air.density_kg_m3 * nd_m_s * nd_m_s * diameter_m * diameter_m;
    const pare_pair c = coefficients(b, speed_rad_s);
    *thrust_n = force_n * c[0];
    *torque_nm = force_n * diameter_m / (2 * PI) * c[1];
}

static double fastest(const bent *b)
{
    return 2 * b->air.sound_m_s / b->table->diameter_m;
}

/* The speed of a thrust; NAN where none gives it. Thrust goes nearly with the square. */
static double speed_for(const bent *b, double thrust_n)
{
    double speed = 0.25 * fastest(b);
    for (int step = 0; step < 60; step++) {
        double here, torque;
        turn(b, speed, &here, &torque);
        if (!(here > 0))
            return NAN;
        const double share = sqrt(thrust_n / here);
        speed *= share;
        if (!(speed > 0 && speed < 2 * fastest(b)))
            return NAN;
        if (fabs(share - 1) < 1e-12)
            break;
    }
    return speed <= fastest(b) ? speed : (double)NAN;
}

static double supply_a(const bent *b, double speed_rad_s, double motor_v, double motor_a,
                       double volts_v)
{
    const pare_draw draw =
        pare_esc_draw(&b->esc, motor_v, motor_a, pare_motor_pulse_w(&b->law, speed_rad_s));
    return draw.always_a + pare_draw_w(draw, volts_v) / volts_v;
}

static bool measured(double value)
{
    return value > 0 && isfinite(value);
}

/* ln of measured over computed, each kind; NAN where there is nothing to compare. */
typedef struct compared {
    double left[KINDS];
    double speed_rad_s;
} compared;

static compared compare(bent *b, const pare_air *air, const pare_stand_row *row)
{
    b->air = *air;
    compared c = {{NAN, NAN, NAN, NAN}, NAN};
    const bool timed = measured(row->speed_rad_s);
    if (!timed && !measured(row->thrust_n))
        return c;
    c.speed_rad_s = timed ? row->speed_rad_s : speed_for(b, row->thrust_n);
    if (!(c.speed_rad_s > 0 && c.speed_rad_s <= fastest(b)))
        return c;
    double thrust_n, torque_nm, motor_a, motor_v, ohm;
    turn(b, c.speed_rad_s, &thrust_n, &torque_nm);
    if (timed && measured(row->thrust_n))
        c.left[OF_THRUST] = log(row->thrust_n / thrust_n);
    if (measured(row->torque_nm))
        c.left[OF_TORQUE] = log(row->torque_nm / torque_nm);
    if (!measured(row->volts_v))
        return c;
    pare_motor_run(&b->law, c.speed_rad_s, torque_nm, &motor_a, &motor_v, &ohm);
    if (measured(row->current_a))
        c.left[OF_POWER] =
            log(row->current_a / supply_a(b, c.speed_rad_s, motor_v, motor_a, row->volts_v));
    if (measured(row->throttle) && row->throttle <= 1)
        c.left[OF_DUTY] = log(duty_of(b->zero, b->sag, row->throttle) * row->volts_v / motor_v);
    return c;
}

/* ---- the fit ---- */

typedef struct fitting {
    const pare_pair_model *model;
    size_t runs, rows; /* rows of all runs */
    const pare_pair_run *run;
    double most[KINDS];    /* the greatest reading of a kind */
    double scatter[KINDS]; /* on the kind's uncertainty */
    double prior[UNKNOWNS];
    pare_normal held; /* the priors' precision */
} fitting;

typedef struct placed {
    const pare_air *air;
    const pare_stand_row *row;
} placed;

static placed row_at(const fitting *f, size_t r)
{
    const pare_pair_run *run = f->run;
    while (r >= run->rows)
        r -= run++->rows;
    return (placed){&run->air, &run->row[r]};
}

static double value_of(const pare_stand_row *row, kind of)
{
    switch (of) {
    case OF_THRUST:
        return row->thrust_n;
    case OF_TORQUE:
        return row->torque_nm;
    case OF_POWER:
        return row->current_a;
    default:
        return row->throttle;
    }
}

static double reading_doubt(const fitting *f, const pare_stand_row *row, kind of)
{
    return f->scatter[of] *
           hypot(reading_u[of].share, reading_u[of].of_most * f->most[of] / value_of(row, of));
}

/* Of the propeller's factors: the constant's doubt and the slow change's. */
static bool hold_factors(const pare_pair_model *model, pare_normal *held)
{
    static const double at[POINTS] = {-PARE_CHEBYSHEV_OUTER, -PARE_CHEBYSHEV_INNER,
                                      PARE_CHEBYSHEV_INNER, PARE_CHEBYSHEV_OUTER};
    const double u[2] = {model->doubt.thrust_u, model->doubt.power_u};
    double covariance[PARE_UNKNOWNS][PARE_UNKNOWNS] = {{0}}, root[PARE_UNKNOWNS][PARE_UNKNOWNS];
    for (int i = 0; i < FACTORS; i++)
        for (int j = 0; j < FACTORS; j++) {
            /* The table's axis is about half of ln Re over its span (prop_table.h). */
            const double apart =
                2 * (at[i % POINTS] - at[j % POINTS]) / (model->table->per_span * BEND_LENGTH);
            const bool same = i / POINTS == j / POINTS;
            covariance[i][j] =
                (same ? 1 : model->doubt.correlation) * u[i / POINTS] * u[j / POINTS] +
                (same ? 1 : BEND_TOGETHER) * BEND_U * BEND_U * exp(-0.5 * apart * apart);
            if (i == j)
                covariance[i][j] += 1e-8;
        }
    if (!pare_cholesky(FACTORS, covariance, root))
        return false;
    pare_cholesky_inverse(FACTORS, root, held->a);
    return true;
}

static bool hold(fitting *f)
{
    const double u[UNKNOWNS - KV] = {f->model->kv_u,      hypot(f->model->resistance_u, DROP_U),
                                     f->model->no_load_u, SWITCHING_U,
                                     ZERO_DUTY_U,         SAG_U};
    f->held = (pare_normal){.n = UNKNOWNS};
    for (int i = KV; i < UNKNOWNS; i++) {
        const double known_to = fmax(u[i - KV], 1e-4);
        f->held.a[i][i] = 1 / (known_to * known_to);
        f->prior[i] = i == ZERO ? ZERO_DUTY : 0;
    }
    return hold_factors(f->model, &f->held);
}

/* Huber's loss of a scaled residual and the weight that stands for it in a square. */
static double huber_weight(double scaled)
{
    const double size = fabs(scaled);
    return size > HUBER ? HUBER / size : 1;
}

static double huber_loss(double scaled)
{
    const double size = fabs(scaled);
    return size > HUBER ? HUBER * (2 * size - HUBER) : scaled * scaled;
}

static double loss(const fitting *f, const double x[UNKNOWNS])
{
    double sum = 0;
    for (int i = 0; i < UNKNOWNS; i++)
        for (int j = 0; j < UNKNOWNS; j++)
            sum += (x[i] - f->prior[i]) * f->held.a[i][j] * (x[j] - f->prior[j]);
    bent b;
    bend(f->model, x, &b);
    for (size_t r = 0; r < f->rows; r++) {
        const placed at = row_at(f, r);
        const compared c = compare(&b, at.air, at.row);
        for (int of = 0; of < KINDS; of++)
            if (isfinite(c.left[of]))
                sum += huber_loss(c.left[of] / reading_doubt(f, at.row, (kind)of));
    }
    return sum;
}

static void linearise(const fitting *f, const double x[UNKNOWNS], pare_normal *normal)
{
    *normal = f->held;
    for (int i = 0; i < UNKNOWNS; i++)
        for (int j = 0; j < UNKNOWNS; j++)
            normal->b[i] -= f->held.a[i][j] * (x[j] - f->prior[j]);
    bent here, moved[UNKNOWNS];
    bend(f->model, x, &here);
    for (int i = 0; i < UNKNOWNS; i++) {
        double other[UNKNOWNS];
        for (int j = 0; j < UNKNOWNS; j++)
            other[j] = x[j] + (i == j ? DIFFERENCE : 0);
        bend(f->model, other, &moved[i]);
    }
    for (size_t r = 0; r < f->rows; r++) {
        const placed at = row_at(f, r);
        const compared c = compare(&here, at.air, at.row);
        compared other[UNKNOWNS];
        for (int i = 0; i < UNKNOWNS; i++)
            other[i] = compare(&moved[i], at.air, at.row);
        for (int of = 0; of < KINDS; of++) {
            double slope[UNKNOWNS];
            bool fine = isfinite(c.left[of]);
            for (int i = 0; i < UNKNOWNS; i++) {
                slope[i] = (c.left[of] - other[i].left[of]) / DIFFERENCE;
                fine = fine && isfinite(slope[i]);
            }
            if (!fine)
                continue;
            const double u = reading_doubt(f, at.row, (kind)of);
            pare_normal_add(normal, slope, c.left[of], huber_weight(c.left[of] / u) / (u * u));
        }
    }
}

/* Marquardt: the normal equations with a heavier diagonal until a step gains. */
static void descend(const fitting *f, double x[UNKNOWNS])
{
    double best = loss(f, x), damping = 1e-3;
    for (int step = 0; step < STEPS; step++) {
        pare_normal normal;
        linearise(f, x, &normal);
        double moved = 0;
        bool gained = false;
        while (!gained && damping < 1e8) {
            pare_normal heavier = normal;
            for (int i = 0; i < UNKNOWNS; i++)
                heavier.a[i][i] *= 1 + damping;
            double root[PARE_UNKNOWNS][PARE_UNKNOWNS], by[UNKNOWNS], next[UNKNOWNS];
            if (pare_cholesky(UNKNOWNS, heavier.a, root)) {
                pare_cholesky_solve(UNKNOWNS, root, heavier.b, by);
                moved = 0;
                for (int i = 0; i < UNKNOWNS; i++) {
                    next[i] = x[i] + by[i];
                    moved = fmax(moved, fabs(by[i]));
                }
                const double then = loss(f, next);
                gained = then <= best;
                if (gained) {
                    best = then;
                    for (int i = 0; i < UNKNOWNS; i++)
                        x[i] = next[i];
                }
            }
            damping *= gained ? 0.1 : 10;
        }
        if (!gained || moved < STOP)
            return;
    }
}

/* The scatter of each kind about a fit, in its own uncertainty; a reading far off counts as Huber's. */
static void weigh_kinds(fitting *f, const double x[UNKNOWNS])
{
    bent b;
    bend(f->model, x, &b);
    for (int of = 0; of < KINDS; of++) {
        double sum = 0;
        size_t count = 0;
        for (size_t r = 0; r < f->rows; r++) {
            const placed at = row_at(f, r);
            const double left = compare(&b, at.air, at.row).left[of];
            if (!isfinite(left))
                continue;
            const double scaled = left / reading_doubt(f, at.row, (kind)of);
            sum += huber_weight(scaled) * scaled * scaled;
            count++;
        }
        /* As one row more that scatters as taken: one or two say little. */
        const double seen = sqrt((sum + 1) / ((double)count + 1));
        f->scatter[of] = fmin(fmax(seen, SCATTER_LEAST), SCATTER_MOST);
    }
}

/* ---- what is kept ---- */

/* In flight the factor on thrust stays and that on power fades with the thrust: of 113 two-blade
 * propellers whose error at rest was put right so (UIUC Propeller Data Site, volumes 1 to 4), CT and CP
 * running are 10.0 and 8.8 % off in the median, of 12.5 and 10.1 %; with the whole factor on CP 10.0. */
static void fold(const pare_prop_table *model, const double x[UNKNOWNS], pare_prop_table *table)
{
    pare_prop_change factors;
    for (int k = 0; k < POINTS; k++) {
        const double still = model->piece[0][0][k][0];
        for (int j = 0; j <= PARE_PROP_TABLE_J; j++) {
            const double ct = j < PARE_PROP_TABLE_J ? model->piece[j][0][k][0] : 0;
            const double left = still > 0 ? fmin(fmax(ct / still, 0), 1) : 1;
            factors.at[j][k][0] = exp(x[THRUST + k]);
            factors.at[j][k][1] = exp(left * x[POWER + k]);
        }
    }
    pare_prop_table_scale(model, &factors, table);
}

/* Thrust and torque of the table at rest rise with speed, over its span of Reynolds numbers. */
static bool rises(const pare_prop_table *table)
{
    enum { GRID = 32 };
    for (int i = 0; i <= GRID; i++) {
        /* Half of ln Re is u over per_span, and ln Re goes with ln of the speed. */
        const pare_prop_place at = {.u = 2.0 * i / GRID - 1, .u_rise = 0.5 * table->per_span};
        pare_prop_slice value, slope;
        pare_prop_slice_weigh(&value, table, at.u, 0);
        pare_prop_slice_weigh_slopes(&slope, table, &at);
        const pare_pair c = pare_prop_slice_still(&value), rise = pare_prop_slice_still(&slope);
        if (!(c[0] > 0 && c[1] > 0 && rise[0] >= LEAST_RISE * c[0] && rise[1] >= LEAST_RISE * c[1]))
            return false;
    }
    return true;
}

/* Factors that would let thrust or torque fall with speed are drawn towards their mean. */
static void keep_rising(const pare_prop_table *model, double x[UNKNOWNS])
{
    pare_prop_table table;
    fold(model, x, &table);
    for (int step = 0; step < 8 && !rises(&table); step++) {
        for (int first = THRUST; first <= POWER; first += POINTS) {
            double mean = 0;
            for (int k = 0; k < POINTS; k++)
                mean += x[first + k] / POINTS;
            for (int k = 0; k < POINTS; k++)
                x[first + k] = mean + (step < 7 ? 0.5 : 0) * (x[first + k] - mean);
        }
        fold(model, x, &table);
    }
    x[ZERO] = fmin(fmax(x[ZERO], -0.3), 0.6);
    const double most = 0.9 * (1 - x[ZERO]);
    x[SAG] = fmin(fmax(x[SAG], -most), most);
}

static void widen(double value, double *low, double *high)
{
    *low = *high > 0 ? fmin(*low, value) : value;
    *high = fmax(*high, value);
}

static void summarise(const fitting *f, const double x[UNKNOWNS], pare_pair_fit *fit)
{
    bent b;
    bend(f->model, x, &b);
    double thrust2 = 0, power2 = 0;
    size_t thrusts = 0, powers = 0;
    for (size_t r = 0; r < f->rows; r++) {
        const placed at = row_at(f, r);
        const compared c = compare(&b, at.air, at.row);
        const bool torque = isfinite(c.left[OF_TORQUE]), power = isfinite(c.left[OF_POWER]);
        if (isfinite(c.left[OF_THRUST])) {
            thrust2 += c.left[OF_THRUST] * c.left[OF_THRUST];
            thrusts++;
        }
        if (torque || power) {
            const double left = c.left[torque ? OF_TORQUE : OF_POWER];
            power2 += left * left;
            powers++;
        }
        if (!isfinite(c.left[OF_THRUST]) && !torque && !power)
            continue;
        fit->rows++;
        fit->torques += torque;
        widen(c.speed_rad_s, &fit->low_rad_s, &fit->high_rad_s);
        if (measured(at.row->volts_v))
            widen(at.row->volts_v, &fit->low_v, &fit->high_v);
    }
    fit->thrust_rms = thrusts > 0 ? sqrt(thrust2 / (double)thrusts) : 0;
    fit->power_rms = powers > 0 ? sqrt(power2 / (double)powers) : 0;
}

static pare_status begin(const pare_pair_model *model, size_t runs, const pare_pair_run run[],
                         fitting *f, pare_error *err)
{
    *f = (fitting){.model = model, .runs = runs, .run = run, .scatter = {1, 1, 1, 1}};
    for (size_t i = 0; i < runs; i++)
        f->rows += run[i].rows;
    if (pare_motor_check(&model->motor, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!hold(f))
        return pare_fail(err, PARE_BAD_DATA, "the propeller's own doubt is no number");
    bent b;
    bend(model, f->prior, &b);
    size_t telling = 0;
    for (size_t r = 0; r < f->rows; r++) {
        const placed at = row_at(f, r);
        const compared c = compare(&b, at.air, at.row);
        telling += isfinite(c.left[OF_THRUST]) || isfinite(c.left[OF_TORQUE]) ||
                   isfinite(c.left[OF_POWER]);
        for (int of = 0; of < KINDS; of++)
            if (isfinite(c.left[of]))
                f->most[of] = fmax(f->most[of], value_of(at.row, (kind)of));
    }
    if (telling == 0)
        return pare_fail(
            err, PARE_BAD_DATA,
            "none of its %zu rows has a thrust or torque with a speed, or a current and volts "
            "with a thrust or a speed: one that has would be right",
            f->rows);
    return PARE_OK;
}

pare_status pare_pair_fit_runs(const pare_pair_model *model, size_t runs, const pare_pair_run run[],
                               pare_pair_fit *fit, pare_error *err)
{
    fitting f;
    if (begin(model, runs, run, &f, err) != PARE_OK)
        return PARE_BAD_DATA;
    double x[UNKNOWNS];
    for (int i = 0; i < UNKNOWNS; i++)
        x[i] = f.prior[i];
    descend(&f, x);
    weigh_kinds(&f, x);
    descend(&f, x);
    pare_normal normal;
    double root[PARE_UNKNOWNS][PARE_UNKNOWNS], covariance[PARE_UNKNOWNS][PARE_UNKNOWNS];
    linearise(&f, x, &normal);
    if (!pare_cholesky(UNKNOWNS, normal.a, root))
        return pare_fail(err, PARE_BAD_DATA, "its readings contradict each other too far to fit");
    pare_cholesky_inverse(UNKNOWNS, root, covariance);
    keep_rising(model->table, x);
    *fit = (pare_pair_fit){.motor = motor_of(&model->motor, x), .esc = esc_of(&model->esc, x)};
    for (size_t i = 0; i < runs; i++)
        fit->air_u = fmax(fit->air_u, run[i].air_u);
    fold(model->table, x, &fit->table);
    for (int i = 0; i < UNKNOWNS; i++) {
        fit->unknown[i] = x[i];
        for (int j = 0; j < UNKNOWNS; j++)
            fit->covariance[i][j] = covariance[i][j];
    }
    summarise(&f, x, fit);
    return PARE_OK;
}

/* ---- what is asked of a fit ---- */

static double square(double value)
{
    return value * value;
}

void pare_pair_doubt_at(const pare_pair_fit *fit, const pare_air *air, double speed_rad_s,
                        bool running, pare_pair_doubt *doubt)
{
    bent b;
    as_fitted(fit, air, &b);
    pare_prop_slice slice;
    pare_prop_slice_take(&slice, &fit->table, speed_rad_s, air);
    const pare_pair c = coefficients(&b, speed_rad_s);
    /* How each number moves with the unknowns. */
    double by[PARE_PAIR_NUMBERS][UNKNOWNS] = {{0}};
    for (int set = 0; set < SETS; set++) {
        by[PARE_PAIR_THRUST][THRUST + point_of[set]] +=
            slice.weight[set][0] * b.still[set][0] / c[0];
        by[PARE_PAIR_POWER][POWER + point_of[set]] += slice.weight[set][1] * b.still[set][1] / c[1];
    }
    by[PARE_PAIR_KV][KV] = by[PARE_PAIR_RESISTANCE][OHM] = by[PARE_PAIR_NO_LOAD][LOSS] = 1;

    double covariance[PARE_UNKNOWNS][PARE_UNKNOWNS], root[PARE_UNKNOWNS][PARE_UNKNOWNS];
    for (int p = 0; p < PARE_PAIR_NUMBERS; p++)
        for (int q = 0; q < PARE_PAIR_NUMBERS; q++) {
            covariance[p][q] = p == q ? 1e-12 : 0;
            for (int i = 0; i < UNKNOWNS; i++)
                for (int j = 0; j < UNKNOWNS; j++)
                    covariance[p][q] += by[p][i] * fit->covariance[i][j] * by[q][j];
        }
    const double air2 = square(fit->air_u), copy2 = square(COPY_U);
    covariance[PARE_PAIR_THRUST][PARE_PAIR_THRUST] +=
        air2 + copy2 + square(STAND_THRUST_U) + (running ? square(CARRY_THRUST_U) : 0);
    covariance[PARE_PAIR_POWER][PARE_PAIR_POWER] +=
        air2 + copy2 + square(STAND_POWER_U) + (running ? square(CARRY_POWER_U) : 0);
    covariance[PARE_PAIR_THRUST][PARE_PAIR_POWER] += air2 + COPY_TOGETHER * copy2;
    covariance[PARE_PAIR_POWER][PARE_PAIR_THRUST] = covariance[PARE_PAIR_THRUST][PARE_PAIR_POWER];
    covariance[PARE_PAIR_KV][PARE_PAIR_KV] += square(MOTOR_KV_U);
    covariance[PARE_PAIR_RESISTANCE][PARE_PAIR_RESISTANCE] += square(MOTOR_OHM_U);
    covariance[PARE_PAIR_NO_LOAD][PARE_PAIR_NO_LOAD] += square(MOTOR_NO_LOAD_U);
    *doubt = (pare_pair_doubt){{{0}}};
    const bool fine = pare_cholesky(PARE_PAIR_NUMBERS, covariance, root);
    for (int p = 0; p < PARE_PAIR_NUMBERS; p++)
        for (int s = 0; s <= p; s++)
            doubt->root[p][s] = fine ? root[p][s] : (double)NAN;
}

static void give(const bent *b, double speed_rad_s, double volts_v, pare_pair_state *state)
{
    double motor_a, motor_v, ohm;
    state->speed_rad_s = speed_rad_s;
    turn(b, speed_rad_s, &state->thrust_n, &state->torque_nm);
    pare_motor_run(&b->law, speed_rad_s, state->torque_nm, &motor_a, &motor_v, &ohm);
    state->current_a = supply_a(b, speed_rad_s, motor_v, motor_a, volts_v);
    state->duty = motor_v / volts_v;
}

static double volts_at(const bent *b, double speed_rad_s)
{
    double thrust_n, torque_nm, motor_a, motor_v, ohm;
    turn(b, speed_rad_s, &thrust_n, &torque_nm);
    pare_motor_run(&b->law, speed_rad_s, torque_nm, &motor_a, &motor_v, &ohm);
    return motor_v;
}

static pare_status volts_check(double volts_v, pare_error *err)
{
    if (volts_v >= 0.1 && volts_v <= 1000)
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA, "%g V at the ESC: 0.1 to 1000 V would be right", volts_v);
}

pare_status pare_pair_at(const pare_pair_fit *fit, const pare_air *air, double volts_v,
                         double throttle, pare_pair_state *state, pare_error *err)
{
    if (volts_check(volts_v, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!(throttle >= 0 && throttle <= 1))
        return pare_fail(err, PARE_BAD_DATA, "a throttle of %g: 0 to 1 would be right", throttle);
    bent b;
    as_fitted(fit, air, &b);
    const double motor_v = fmax(duty_of(b.zero, b.sag, throttle), 0) * volts_v;
    double low = 1e-3, high = fastest(&b);
    if (volts_at(&b, low) >= motor_v) { /* too little to turn it */
        *state = (pare_pair_state){.current_a = fit->esc.idle_a, .duty = motor_v / volts_v};
        return PARE_OK;
    }
    /* Volts rise with speed; bisection, since this is asked for by the dozen at most. */
    for (int step = 0; step < 60; step++) {
        const double middle = 0.5 * (low + high);
        if (volts_at(&b, middle) < motor_v)
            low = middle;
        else
            high = middle;
    }
    give(&b, 0.5 * (low + high), volts_v, state);
    return PARE_OK;
}

pare_status pare_pair_for_thrust(const pare_pair_fit *fit, const pare_air *air, double volts_v,
                                 double thrust_n, pare_pair_state *state, pare_error *err)
{
    if (volts_check(volts_v, err) != PARE_OK)
        return PARE_BAD_DATA;
    bent b;
    as_fitted(fit, air, &b);
    const double speed = thrust_n > 0 ? speed_for(&b, thrust_n) : (double)NAN;
    if (!(speed > 0))
        return pare_fail(err, PARE_BAD_DATA, "no speed below that of sound at the tips gives %g N",
                         thrust_n);
    give(&b, speed, volts_v, state);
    return PARE_OK;
}
