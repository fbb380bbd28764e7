/* cells_fit.c: one chemistry's constants by least squares (see cells_fit.h).
 *
 * The laws are those of src/physics themselves, with the candidate constants put into a pack: what is
 * fitted is what ships. A volt's residual is in units of 1 % of it; each cell weighs the same however
 * many runs it has, since runs of a cell share its own deviation. Physics enters as priors: a cell at
 * 0 degC has some two and a half times the resistance (measured on 18650 cells), a cell's heat
 * capacity is some 0.9 J/(g K) (from memory), a full cell rests near 4.18 V, and what is slow has set in
 * after minutes, not hours. Cold alone cannot tell a large share that falls with warmth from a small one
 * that falls fast; of the two the small one predicts rates that were left out (3 C: 0.6 / 1.2 % against
 * 1.0 / 2.3 %), so the priors lean to it. */
#include "cells_fit.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "physics/discharge.h"
#include "solve.h"

#define VOLT_SHARE   0.01
#define PULSE_SHARE  0.10
#define DEGC_U       3.0
#define FULL_U_V     0.005 /* full is where the charger stops, less what a cell settles by */
#define OPEN_U_V     0.1   /* of a knot before any data */
#define FACTOR_FIRST 6.0   /* a pouch cell that is not made for high rates, over a flight pack */
#define FACTOR_LN_U  1.0
#define COLD_RATIO   2.5 /* resistance at 0 over that at 25 degC: two to three times */
#define COLD_LN_U    0.15
#define PULSE_FROM_S 0.5 /* a shorter one is not what ohm_ah means */

/* Volts at full, and below it the logarithm of each fall to the next knot, so that they cannot cross. */
enum { FULL = PARE_PACK_KNOTS - 1 };

enum {
    OHM_AH = PARE_PACK_KNOTS,
    RISE,
    RISE_CHARGE,
    SLOW,
    SLOW_S,
    WARM_SHARE,
    ACTIVATION,
    HEAT,
    COOLING,
    PARAMETERS
};

typedef struct fit_context {
    const cell_data *data;
    const cell_choice *choice;
    const pare_cell *start;
    double run_weight[CELL_RUNS], pulse_weight[CELL_PULSES];
} fit_context;

static pare_cell cell_of(const pare_cell *start, const double x[])
{
    pare_cell cell = *start;
    cell.open_v[FULL] = x[FULL];
    for (int i = FULL; i > 0; i--)
        cell.open_v[i - 1] = cell.open_v[i] - exp(x[i - 1]);
    cell.ohm_ah = exp(x[OHM_AH]);
    cell.rise = exp(x[RISE]);
    cell.rise_charge = exp(x[RISE_CHARGE]);
    cell.slow = exp(x[SLOW]);
    cell.slow_s = exp(x[SLOW_S]);
    cell.warm_share = 1 / (1 + exp(-x[WARM_SHARE]));
    cell.activation_k = exp(x[ACTIVATION]);
    cell.heat_j_per_k_ah = exp(x[HEAT]);
    cell.cooling_s = exp(x[COOLING]);
    return cell;
}

static void parameters_of(const pare_cell *cell, double x[])
{
    x[FULL] = cell->open_v[FULL];
    for (int i = FULL; i > 0; i--)
        x[i - 1] = log(cell->open_v[i] - cell->open_v[i - 1]);
    x[OHM_AH] = log(cell->ohm_ah);
    x[RISE] = log(cell->rise);
    x[RISE_CHARGE] = log(cell->rise_charge);
    x[SLOW] = log(cell->slow);
    x[SLOW_S] = log(cell->slow_s);
    x[WARM_SHARE] = log(cell->warm_share / (1 - cell->warm_share));
    x[ACTIVATION] = log(cell->activation_k);
    x[HEAT] = log(cell->heat_j_per_k_ah);
    x[COOLING] = log(cell->cooling_s);
}

static pare_pack pack_of(const pare_cell *cell, double ah, double degc, double factor)
{
    return (pare_pack){.chemistry = PARE_LIION,
                       .cells = 1,
                       .capacity_c = ah * 3600,
                       .temperature_degc = degc,
                       .resistance_factor = factor,
                       .cell = cell};
}

static pare_drain drain_of(const cell_run *run)
{
    return (pare_drain){.current_a = run->rate * run->ah, .from = 1, .warms = true};
}

pare_drained cell_predict(const pare_cell *cell, const cell_run *run, size_t point, double factor)
{
    const pare_pack pack = pack_of(cell, run->ah, run->air_degc, factor);
    const pare_drain drain = drain_of(run);
    pare_drained drained = {.volts_v = (double)NAN, .degc = (double)NAN};
    pare_pack_drain(&pack, &drain, run->point[point].charge, &drained, NULL);
    return drained;
}

double cell_predict_ah(const pare_cell *cell, const cell_run *run)
{
    const pare_pack pack = pack_of(cell, run->ah, run->air_degc, 1);
    const pare_drain drain = drain_of(run);
    double charge = (double)NAN;
    pare_pack_drain_to(&pack, &drain, run->last_v, &charge, NULL);
    return (1 - charge) * run->ah;
}

double cell_pulse_ohm(const pare_cell *cell, const cell_pulse *pulse)
{
    const pare_pack pack = pack_of(cell, pulse->ah, pulse->degc, 1);
    return pare_pack_ohm(&pack, pulse->charge, pare_pack_steady(&pack, pulse->seconds));
}

static void residual(const void *lent, const double x[], double r[])
{
    const fit_context *c = lent;
    const pare_cell cell = cell_of(c->start, x);
    size_t n = 0;
    for (size_t i = 0; i < c->data->runs; i++) {
        const cell_run *run = &c->data->run[i];
        if (!c->choice->run[i])
            continue;
        for (size_t p = 0; p < run->points; p++) {
            const pare_drained at = cell_predict(&cell, run, p, 1);
            r[n++] = c->run_weight[i] * (at.volts_v / run->point[p].volts - 1) / VOLT_SHARE;
            r[n++] = isfinite(run->point[p].degc)
                         ? c->run_weight[i] * (at.degc - run->point[p].degc) / DEGC_U
                         : 0;
        }
    }
    for (size_t i = 0; i < c->data->pulses; i++)
        if (c->choice->pulse[i])
            r[n++] = c->pulse_weight[i] *
                     log(cell_pulse_ohm(&cell, &c->data->pulse[i]) / c->data->pulse[i].ohm) /
                     PULSE_SHARE;
    r[n++] = log(pare_cell_warmth(&cell, 0) / COLD_RATIO) / COLD_LN_U;
}

static size_t residuals_of(const cell_data *data, const cell_choice *choice)
{
    size_t n = 1;
    for (size_t i = 0; i < data->runs; i++)
        n += choice->run[i] ? 2 * data->run[i].points : 0;
    for (size_t i = 0; i < data->pulses; i++)
        n += choice->pulse[i];
    return n;
}

/* Each cell counts as twenty independent volts, shared by its runs and, as one more run, its pulses. */
static void weigh(fit_context *c)
{
    const double worth = 20;
    for (size_t i = 0; i < c->data->runs; i++) {
        const char *cell = c->data->run[i].cell;
        size_t runs = 0, pulses = 0;
        for (size_t k = 0; k < c->data->runs; k++)
            runs += c->choice->run[k] && strcmp(c->data->run[k].cell, cell) == 0;
        for (size_t k = 0; k < c->data->pulses; k++)
            pulses += c->choice->pulse[k] && strcmp(c->data->pulse[k].cell, cell) == 0;
        const double shares = (double)runs + (pulses > 0);
        c->run_weight[i] = shares > 0 ? sqrt(worth / shares / (double)c->data->run[i].points) : 0;
        for (size_t k = 0; k < c->data->pulses; k++)
            if (pulses > 0 && strcmp(c->data->pulse[k].cell, cell) == 0)
                c->pulse_weight[k] = sqrt(worth / shares / (double)pulses);
    }
}

bool cell_fit(const cell_data *data, const cell_choice *given, pare_cell *cell)
{
    cell_choice choice = *given;
    for (size_t i = 0; i < data->pulses; i++)
        choice.pulse[i] = choice.pulse[i] && data->pulse[i].seconds > PULSE_FROM_S &&
                          data->pulse[i].charge > 0.03;
    fit_context context = {.data = data, .choice = &choice, .start = cell};
    weigh(&context);
    double start[PARAMETERS], prior_u[PARAMETERS], x[PARAMETERS];
    parameters_of(cell, start);
    for (int i = 0; i < PARE_PACK_KNOTS; i++)
        prior_u[i] = i < FULL ? 1 : FULL_U_V;
    prior_u[OHM_AH] = prior_u[SLOW] = 2;
    prior_u[RISE] = prior_u[RISE_CHARGE] = 1;
    prior_u[SLOW_S] = 0.15;
    prior_u[WARM_SHARE] = 0.3;
    prior_u[ACTIVATION] = 0.2;
    prior_u[HEAT] = 0.2;
    prior_u[COOLING] = 0.5;
    const fit_problem problem = {.parameters = PARAMETERS,
                                 .residuals = residuals_of(data, &choice),
                                 .start = start,
                                 .prior = start,
                                 .prior_u = prior_u,
                                 .residual = residual,
                                 .context = &context,
                                 .steps = 60};
    if (!fit_solve(&problem, x, NULL))
        return false;
    *cell = cell_of(cell, x);
    return true;
}

/* ---- open-circuit volts alone ---- */

enum { FREE_KNOTS = PARE_PACK_KNOTS - 1, FACTORS = 4 };

typedef struct open_context {
    const cell_data *data;
    const cell_choice *choice;
    const pare_cell *start;
    int factor_of[CELL_RUNS];
    int factors;
} open_context;

static pare_cell opened(const pare_cell *start, const double x[])
{
    pare_cell cell = *start;
    memcpy(cell.open_v, x, FREE_KNOTS * sizeof x[0]);
    return cell;
}

static void open_residual(const void *lent, const double x[], double r[])
{
    const open_context *c = lent;
    const pare_cell cell = opened(c->start, x);
    size_t n = 0;
    for (size_t i = 0; i < c->data->runs; i++)
        for (size_t p = 0; c->choice->run[i] && p < c->data->run[i].points; p++) {
            const double factor = exp(x[FREE_KNOTS + c->factor_of[i]]);
            const double volts = cell_predict(&cell, &c->data->run[i], p, factor).volts_v;
            r[n++] = (volts / c->data->run[i].point[p].volts - 1) / VOLT_SHARE;
        }
}

static void name_factors(open_context *c)
{
    for (size_t i = 0; i < c->data->runs; i++) {
        c->factor_of[i] = -1;
        for (size_t k = 0; k < i && c->choice->run[i]; k++)
            if (c->choice->run[k] && strcmp(c->data->run[k].cell, c->data->run[i].cell) == 0)
                c->factor_of[i] = c->factor_of[k];
        if (c->choice->run[i] && c->factor_of[i] < 0 && c->factors < FACTORS)
            c->factor_of[i] = c->factors++;
    }
}

bool cell_fit_open(const cell_data *data, const cell_choice *choice, pare_cell *cell,
                   double factor[])
{
    open_context context = {.data = data, .choice = choice, .start = cell};
    name_factors(&context);
    double start[FREE_KNOTS + FACTORS] = {0}, prior_u[FREE_KNOTS + FACTORS],
                              x[FREE_KNOTS + FACTORS];
    memcpy(start, cell->open_v, FREE_KNOTS * sizeof start[0]);
    for (int i = 0; i < FACTORS; i++)
        start[FREE_KNOTS + i] = log(FACTOR_FIRST);
    size_t residuals = 0;
    for (size_t i = 0; i < data->runs; i++)
        residuals += choice->run[i] ? data->run[i].points : 0;
    for (int i = 0; i < FREE_KNOTS; i++)
        prior_u[i] = OPEN_U_V;
    for (int i = 0; i < FACTORS; i++)
        prior_u[FREE_KNOTS + i] = FACTOR_LN_U;
    const fit_problem problem = {.parameters = FREE_KNOTS + (size_t)context.factors,
                                 .residuals = residuals,
                                 .start = start,
                                 .prior = start,
                                 .prior_u = prior_u,
                                 .residual = open_residual,
                                 .context = &context};
    if (!fit_solve(&problem, x, NULL))
        return false;
    *cell = opened(cell, x);
    for (size_t i = 0; i < data->runs; i++)
        factor[i] = choice->run[i] ? exp(x[FREE_KNOTS + context.factor_of[i]]) : 1;
    return true;
}
