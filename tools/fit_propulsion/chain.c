/* chain.c: how often the whole chain's intervals hold what a thrust stand measured.
 *
 * Nothing is fitted for the program here. Motors and propellers of the open 5 in stand are taken as a
 * builder knows them: the propeller by its size, with its line and without, the motor by its stated kV and stator, its winding and
 * unloaded current by the laws, the ESC as usual. From the volts at the ESC the chain foretells
 * electrical power at a thrust, thrust at full throttle and, the propeller alone, thrust at a speed; the
 * doubts of all pieces are carried through to an interval each, by central differences in logarithms.
 * Motors are foretold by a drive that was fitted without them; the propellers' model is the shipped one.
 *
 * Readings of a pair at one voltage lie along one curve and share its error, so a run of a pair counts
 * as one, however many its readings. Even so the runs share 12 motors and 7 propellers: the share inside
 * an interval is known to 10 % at best.
 *
 * Source of the readings: Cao and Strawson, student bench data, 2018, MIT licence. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "drive_judge.h"
#include "physics/motor_law.h"
#include "physics/prop.h"
#include "physics/rotor.h"
#include "subjects.h"

#define STAND_U    0.025 /* of a reading: air that nobody wrote down, steps not settled */
#define ESC_MOST_U 0.7   /* as in a sheet */
#define NORMAL_50  0.6745
#define NORMAL_90  1.6449
#define HIGH_V     9.0 /* between the stand's two voltages */
#define BISECTIONS 60

enum { POWER_AT_THRUST, FULL_THRUST, THRUST_AT_SPEED, FIGURES };
static const char *const figure_name[FIGURES] = {"electrical power at a thrust",
                                                 "thrust at full throttle", "thrust at a speed"};

/* All that is believed of one reading's motor, ESC and propeller. */
typedef struct chain {
    pare_motor motor;
    pare_esc esc;
    pare_rotor rotor;
    double heat;
    pare_air air;
} chain;

/* What may be off, by independent deviates. */
enum { BLADE, BLADE_POWER, KV, WINDING, NO_LOAD, PULSES, SWITCHING, ESC_OHM, SOURCES };

typedef struct doubts {
    pare_prop_doubt blade;
    drive_scatter motors;
    double u[SOURCES]; /* of what needs no more than one number */
} doubts;

static chain off_by(const chain *base, const doubts *d, int source, double z)
{
    chain c = *base;
    switch (source) {
    case BLADE:
        c.rotor.thrust_factor *= exp(z * d->blade.thrust_u);
        c.rotor.power_factor *= exp(z * d->blade.correlation * d->blade.power_u);
        break;
    case BLADE_POWER:
        c.rotor.power_factor *=
            exp(z * d->blade.power_u * sqrt(1 - d->blade.correlation * d->blade.correlation));
        break;
    case KV:
        c.motor.kv_rpm_per_v *= exp(z * d->motors.kv);
        break;
    case WINDING:
        c.motor.resistance_ohm *= exp(z * d->motors.winding);
        c.motor.no_load_a *= exp(z * d->motors.correlation * d->motors.no_load);
        break;
    case NO_LOAD:
        c.motor.no_load_a *=
            exp(z * d->motors.no_load * sqrt(1 - d->motors.correlation * d->motors.correlation));
        break;
    case PULSES:
        c.motor.pulse_loss *= exp(z * d->u[PULSES]);
        break;
    case SWITCHING:
        c.esc.switching *= 1 + z * d->u[SWITCHING];
        break;
    default:
        c.esc.on_ohm *= 1 + z * d->u[ESC_OHM];
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

/* ln of a figure; NAN where the chain has none. */
static double foretold(const chain *c, const drive_row *row, int figure)
{
    pare_rotor_state state;
    double spare_v;
    if (figure == THRUST_AT_SPEED)
        return log(at_speed(c, row->speed_rad_s).thrust_n);
    if (figure == FULL_THRUST)
        return log(full_thrust_n(c, row->volts_v));
    if (pare_rotor_for_thrust(&c->rotor, &c->air, row->thrust_n, 0, 0, 0, &state, NULL) != PARE_OK)
        return (double)NAN;
    return log(power_w(c, &state, row->volts_v, &spare_v));
}

static double measured(const drive_row *row, int figure)
{
    return log(figure == POWER_AT_THRUST ? row->volts_v * row->current_a : row->thrust_n);
}

static double foretold_u(const chain *base, const doubts *d, const drive_row *row, int figure)
{
    double squares = STAND_U * STAND_U;
    for (int source = 0; source < SOURCES; source++) {
        const chain up = off_by(base, d, source, 1), down = off_by(base, d, source, -1);
        const double moved = (foretold(&up, row, figure) - foretold(&down, row, figure)) / 2;
        squares += moved * moved;
    }
    return sqrt(squares);
}

/* One run of a pair: its readings' errors. */
typedef struct run {
    int readings;
    double error, within[2];
} run;

enum { RUNS = DRIVE_SMALL_MOTORS * DRIVE_PROPELLERS * 2 };

/* What is known of the propellers. */
enum { SIZE_AND_LINE, SIZE, WAYS };
static const char *const way_name[WAYS] = {"size and line", "size"};

typedef struct propellers {
    pare_prop blade[DRIVE_PROPELLERS];
    pare_prop_table table[DRIVE_PROPELLERS];
} propellers;

static bool make(bool with_line, propellers *all)
{
    for (int p = 0; p < DRIVE_PROPELLERS; p++) {
        pare_prop_size size = drive_propeller[p];
        if (!with_line)
            size.line = PARE_LINE_UNKNOWN;
        if (pare_prop_from_size(&size, pare_prop_set(false, size.line), &all->blade[p], NULL) !=
            PARE_OK)
            return false;
        pare_prop_table_build(&all->blade[p], &all->table[p]);
    }
    return true;
}

static bool counts(const drive_row *row, int motor, int figure)
{
    return row->motor == motor && row->propeller >= 0 && (figure != FULL_THRUST || row->top);
}

static void judge_motor(const drive_model *model, const double x[], const doubts *motors,
                        const propellers *all, run runs[FIGURES][RUNS])
{
    chain c = {.motor = drive_model_motor(model, x, model->without),
               .esc = {pare_drive_published.esc.on_ohm, x[AT_SWITCHING], exp(x[AT_IDLE])},
               .heat = fmax(x[AT_HEAT], 0)};
    if (pare_air_standard(0, &c.air, NULL) != PARE_OK)
        return;
    c.air.density_kg_m3 = DRIVE_AIR_KG_M3;
    for (size_t i = 0; i < model->bench->rows; i++) {
        const drive_row *row = &model->bench->row[i];
        for (int figure = 0; figure < FIGURES; figure++) {
            if (!counts(row, model->without, figure))
                continue;
            const int p = row->propeller;
            doubts d = *motors;
            d.blade = pare_prop_model_doubt(&all->blade[p], false);
            c.rotor = (pare_rotor){&all->blade[p], &all->table[p], 1, 1};
            const double off = foretold(&c, row, figure) - measured(row, figure);
            const double u = foretold_u(&c, &d, row, figure);
            if (!isfinite(off) || !isfinite(u))
                continue;
            run *its =
                &runs[figure][(row->motor * DRIVE_PROPELLERS + p) * 2 + (row->volts_v > HIGH_V)];
            its->readings++;
            its->error += fabs(off);
            its->within[0] += fabs(off) < NORMAL_50 * u;
            its->within[1] += fabs(off) < NORMAL_90 * u;
        }
    }
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void print_figure(const char *name, const run runs[RUNS])
{
    double error[RUNS], within[2] = {0};
    int count = 0;
    for (int i = 0; i < RUNS; i++) {
        if (runs[i].readings == 0)
            continue;
        error[count++] = runs[i].error / runs[i].readings;
        for (int k = 0; k < 2; k++)
            within[k] += runs[i].within[k] / runs[i].readings;
    }
    qsort(error, (size_t)count, sizeof error[0], by_size);
    printf("  %-28s %3d runs: %4.1f / %4.1f %%; in 50 %% %2.0f %%, in 90 %% %2.0f %%\n", name,
           count, 100 * error[count / 2], 100 * error[9 * (count - 1) / 10],
           100 * within[0] / count, 100 * within[1] / count);
}

bool fit_chain(const char *data_folder, FILE *constants)
{
    (void)constants;
    drive_bench bench;
    if (!drive_bench_read(data_folder, &bench))
        return false;
    propellers *ways = malloc(WAYS * sizeof *ways);
    run(*runs)[FIGURES][RUNS] = calloc(WAYS, sizeof *runs);
    bool fine = ways && runs;
    for (int way = 0; fine && way < WAYS; way++)
        fine = make(way == SIZE_AND_LINE, &ways[way]);
    for (int m = 0; fine && m < DRIVE_SMALL_MOTORS - 1; m++) { /* the last is no such motor */
        drive_model model;
        double x[DRIVE_PARAMETERS], u[DRIVE_PARAMETERS];
        drive_model_make(&bench, DRIVE_WITH_PULSES, m, &model);
        fine = drive_model_fit(&model, x, u);
        doubts d = {.motors = drive_scatter_of(&model, x, u)};
        d.u[PULSES] = pare_drive_fitted.pulse_loss_u;
        d.u[SWITCHING] = ESC_MOST_U;
        d.u[ESC_OHM] = pare_drive_fitted.on_u_ohm / pare_drive_fitted.esc.on_ohm;
        for (int way = 0; fine && way < WAYS; way++)
            judge_motor(&model, x, &d, &ways[way], runs[way]);
    }
    if (fine)
        printf(
            "the whole chain, motors left out, by run of a pair (median / 90th percentile of its "
            "mean error; share of its readings inside):\n");
    for (int way = 0; fine && way < WAYS; way++) {
        printf(" propellers by their %s\n", way_name[way]);
        for (int figure = 0; figure < FIGURES; figure++)
            print_figure(figure_name[figure], runs[way][figure]);
    }
    free(ways);
    free(runs);
    drive_bench_free(&bench);
    return fine;
}
