/* pair.c: how well a measured pair is carried to a voltage at which it was not measured.
 *
 * Nothing is fitted for the program here: each pair of the open bench was run on two voltages, so one
 * is left out and predicted from the other, by the model alone, by the model bent to the table
 * (src/physics/pair.h) and by the table's rows alone, interpolated and run on straight past its ends. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "craft/law.h"
#include "page.h"
#include "physics/pair.h"
#include "subjects.h"
#include "table.h"

#define PI              3.14159265358979323846
#define INCH            0.0254
#define GRAM_FORCE_N    9.80665e-3
#define DENSITY_KG_M3   1.2 /* not written down by those who measured */
#define DENSITY_U       0.02
#define SPEED_LEAST_RPM 2000.0
#define PULSE_LOW_US    1000.0
#define PULSE_SPAN_US   1000.0
#define KV_U            0.03
#define RESISTANCE_U    0.30
#define NO_LOAD_U       0.40

static const struct bench_motor {
    char letter;
    double stator_mm, height_mm, kv_rpm_per_v;
} motors[] = {
    {'a', 22, 5, 2600}, {'b', 18, 6, 2500}, {'c', 22, 6, 2450}, {'d', 22, 4, 2300},
    {'e', 22, 5, 2400}, {'f', 22, 6, 2350}, {'g', 22, 6, 2000}, {'h', 18, 4, 2400},
    {'i', 18, 6, 2300}, {'j', 23, 6, 2400}, {'k', 23, 6, 2400}, {'l', 18, 6, 2800},
    {'m', 18, 6, 2400},
};

static const struct bench_prop {
    char number;
    double pitch_in;
    int blades;
} props[] = {{'1', 4.0, 3}, {'2', 4.5, 3}, {'3', 4.5, 3}, {'4', 4.0, 2},
             {'5', 4.0, 4}, {'6', 4.5, 2}, {'7', 4.0, 3}};

enum {
    MOTORS = sizeof motors / sizeof motors[0],
    PROPS = sizeof props / sizeof props[0],
    ROWS = 64
};

enum { VOLTAGES = 2 };
static const char *const nominal[VOLTAGES] = {"7", "11"};

typedef struct run {
    size_t rows;
    pare_stand_row row[ROWS];
} run;

static bool read_run(const char *folder, char motor, char prop, const char *volts, run *out)
{
    char path[4096];
    const int length = snprintf(path, sizeof path, "%s/student-5inch-bench/rawdata/%c%c_%s.csv",
                                folder, motor, prop, volts);
    FILE *there = length > 0 && (size_t)length < sizeof path ? fopen(path, "r") : NULL;
    if (!there)
        return false; /* not every motor was run with every propeller */
    fclose(there);
    fit_table table;
    if (!fit_table_read(path, &table))
        return false;
    out->rows = 0;
    for (size_t r = 0; r < table.rows && out->rows < ROWS && table.columns >= 9; r++) {
        const double rpm = fit_table_at(&table, r, 8);
        if (rpm >= SPEED_LEAST_RPM)
            out->row[out->rows++] = (pare_stand_row){
                .throttle = (fit_table_at(&table, r, 1) - PULSE_LOW_US) / PULSE_SPAN_US,
                .thrust_n = fit_table_at(&table, r, 5) * GRAM_FORCE_N,
                .volts_v = fit_table_at(&table, r, 6),
                .current_a = fit_table_at(&table, r, 7),
                .speed_rad_s = rpm * 2 * PI / 60,
                .torque_nm = NAN};
    }
    fit_table_free(&table);
    return out->rows > 0;
}

static pare_pair_model model_of(const struct bench_motor *motor, const pare_prop *blade,
                                const pare_prop_table *table)
{
    const double diameter_m = motor->stator_mm * 1e-3, height_m = motor->height_mm * 1e-3;
    pare_rig usual;
    pare_rig_defaults(&usual);
    pare_pair_model model = {.table = table,
                             .doubt = pare_prop_model_doubt(blade, false, 1),
                             .motor = usual.motor,
                             .kv_u = KV_U,
                             .resistance_u = RESISTANCE_U,
                             .no_load_u = NO_LOAD_U,
                             .esc = usual.esc};
    model.motor.kv_rpm_per_v = motor->kv_rpm_per_v;
    model.motor.resistance_ohm =
        pare_law_winding_ohm(motor->kv_rpm_per_v, diameter_m, height_m).value;
    model.motor.no_load_a = pare_law_no_load_a(motor->kv_rpm_per_v, diameter_m, height_m).value;
    model.motor.mass_kg = pare_law_motor_kg(diameter_m, height_m).value;
    model.motor.ambient_degc = 20;
    return model;
}

/* What is predicted, and by what. */
enum { THRUST_AT_SPEED, THRUST_AT_THROTTLE, POWER_AT_THRUST, FIGURES };
enum { BY_MODEL, BY_PAIR, BY_ROWS, WAYS };
static const char *const figure_name[FIGURES] = {"thrust at a speed", "thrust at a throttle",
                                                 "power at a thrust"};
static const char *const way_name[WAYS] = {"model alone", "model bent to the table", "rows alone"};

enum { ERRORS = 4096 };
typedef struct errors {
    size_t count;
    double error[ERRORS];
} errors;

static void note(errors *to, double predicted, double measured)
{
    if (to->count < ERRORS && isfinite(predicted))
        to->error[to->count++] = predicted / measured - 1;
}

static int by_size(const void *a, const void *b)
{
    const double x = fabs(*(const double *)a), y = fabs(*(const double *)b);
    return (x > y) - (x < y);
}

static void print(FILE *out, errors *of)
{
    qsort(of->error, of->count, sizeof of->error[0], by_size);
    fprintf(out, " %.1f / %.1f |", 100 * fabs(of->error[of->count / 2]),
            100 * fabs(of->error[of->count * 9 / 10]));
}

static double field(const pare_stand_row *row, int figure, bool from)
{
    if (figure == THRUST_AT_SPEED)
        return from ? row->speed_rad_s : row->thrust_n;
    if (figure == THRUST_AT_THROTTLE)
        return from ? row->throttle : row->thrust_n;
    return from ? row->thrust_n : row->volts_v * row->current_a;
}

/* A straight line between the two rows about a place, or through the two at the end it is past. */
static double by_rows(const run *known, int figure, double at)
{
    size_t order[ROWS];
    for (size_t i = 0; i < known->rows; i++) {
        size_t place = i;
        while (place > 0 && field(&known->row[order[place - 1]], figure, true) >
                                field(&known->row[i], figure, true)) {
            order[place] = order[place - 1];
            place--;
        }
        order[place] = i;
    }
    if (known->rows < 2)
        return NAN;
    size_t upper = 1;
    while (upper + 1 < known->rows && field(&known->row[order[upper]], figure, true) < at)
        upper++;
    const pare_stand_row *a = &known->row[order[upper - 1]], *b = &known->row[order[upper]];
    const double from = field(a, figure, true), to = field(b, figure, true);
    const double share = (at - from) / (to - from);
    return field(a, figure, false) + share * (field(b, figure, false) - field(a, figure, false));
}

static double thrust_at(const pare_pair_fit *fit, const pare_air *air, double speed_rad_s)
{
    double ct, cp;
    pare_prop_table_coefficients(&fit->table, 0, speed_rad_s, air, &ct, &cp);
    const double d2 = fit->table.diameter_m * fit->table.diameter_m;
    const double turns = speed_rad_s / (2 * PI);
    return ct * air->density_kg_m3 * turns * turns * d2 * d2;
}

static double by_fit(const pare_pair_fit *fit, const pare_air *air, int figure,
                     const pare_stand_row *row)
{
    pare_pair_state state;
    if (figure == THRUST_AT_SPEED)
        return thrust_at(fit, air, row->speed_rad_s);
    if (figure == THRUST_AT_THROTTLE)
        return pare_pair_at(fit, air, row->volts_v, row->throttle, &state, NULL) == PARE_OK
                   ? state.thrust_n
                   : (double)NAN;
    return pare_pair_for_thrust(fit, air, row->volts_v, row->thrust_n, &state, NULL) == PARE_OK
               ? state.current_a * row->volts_v
               : (double)NAN;
}

typedef struct tally {
    errors of[VOLTAGES][FIGURES][WAYS];
    double zero, zero2, bend, bend2, kv, kv2;
    double within[2]; /* rows within one and two of the uncertainty said of thrust at a speed */
    size_t fits, said;
} tally;

/* Predicts one voltage from the other. */
static void leave_out(const pare_pair_model *model, const run *known, const run *asked, int voltage,
                      tally *t)
{
    pare_pair_fit fit;
    pare_error err = {0};
    pare_pair_run measured = {.air_u = DENSITY_U, .rows = known->rows, .row = known->row};
    pare_air_at(0, 20, &measured.air, NULL);
    measured.air.density_kg_m3 = DENSITY_KG_M3;
    const pare_air *air = &measured.air;
    if (pare_pair_fit_runs(model, 1, &measured, &fit, &err) != PARE_OK) {
        printf("  %s\n", err.text);
        return;
    }
    pare_pair_fit unfitted = fit;
    unfitted.table = *model->table;
    unfitted.motor = model->motor;
    for (size_t r = 0; r < asked->rows; r++) {
        const pare_stand_row *row = &asked->row[r];
        for (int figure = 0; figure < FIGURES; figure++) {
            const double truth = field(row, figure, false);
            errors *of = t->of[voltage][figure];
            note(&of[BY_MODEL], by_fit(&unfitted, air, figure, row), truth);
            note(&of[BY_PAIR], by_fit(&fit, air, figure, row), truth);
            note(&of[BY_ROWS], by_rows(known, figure, field(row, figure, true)), truth);
        }
        pare_pair_doubt doubt;
        pare_pair_doubt_at(&fit, air, row->speed_rad_s, false, &doubt);
        const double off = fabs(thrust_at(&fit, air, row->speed_rad_s) / row->thrust_n - 1);
        t->within[0] += off <= doubt.root[0][0];
        t->within[1] += off <= 2 * doubt.root[0][0];
        t->said++;
    }
    const double zero = fit.unknown[PARE_PAIR_UNKNOWNS - 2],
                 bend = fit.unknown[PARE_PAIR_UNKNOWNS - 1];
    const double kv = fit.motor.kv_rpm_per_v / model->motor.kv_rpm_per_v;
    t->zero += zero, t->zero2 += zero * zero;
    t->bend += bend, t->bend2 += bend * bend;
    t->kv += kv, t->kv2 += kv * kv;
    t->fits++;
}

static double spread(double sum, double sum2, size_t count)
{
    const double mean = sum / (double)count;
    return sqrt(fmax(sum2 / (double)count - mean * mean, 0));
}

static bool report(tally *t, const char *page)
{
    fit_block block;
    if (!fit_block_open(&block))
        return false;
    fprintf(block.out, "| foretold | left out |");
    for (int way = 0; way < WAYS; way++)
        fprintf(block.out, " %s |", way_name[way]);
    fprintf(block.out, " rows |\n| --- | --- | --- | --- | --- | --- |\n");
    for (int figure = 0; figure < FIGURES; figure++)
        for (int v = 0; v < VOLTAGES; v++) {
            fprintf(block.out, "| %s | %s V |", figure_name[figure], nominal[v]);
            for (int way = 0; way < WAYS; way++)
                print(block.out, &t->of[v][figure][way]);
            fprintf(block.out, " %zu |\n", t->of[v][figure][BY_PAIR].count);
        }
    const double n = (double)t->fits;
    printf("Measured pairs, one voltage foretold from the other; median / nine tenths in %%.\n");
    const bool fine = fit_block_close(&block, page, "pairs");
    printf("\nduty at throttle 0: %.3f +- %.3f, sag %.3f +- %.3f, kV factor %.3f +- %.3f\n",
           t->zero / n, spread(t->zero, t->zero2, t->fits), t->bend / n,
           spread(t->bend, t->bend2, t->fits), t->kv / n, spread(t->kv, t->kv2, t->fits));
    printf("thrust within the uncertainty said: %.0f %%, within twice: %.0f %%\n",
           100 * t->within[0] / (double)t->said, 100 * t->within[1] / (double)t->said);
    return fine;
}

bool fit_pair(const char *data_folder, const fit_to *to)
{
    tally *t = calloc(1, sizeof *t);
    pare_prop_table *table = calloc(PROPS, sizeof *table);
    pare_prop blade[PROPS];
    bool fine = t != NULL && table != NULL;
    for (int p = 0; p < PROPS && fine; p++) {
        const pare_prop_size size = {
            .diameter_m = 5 * INCH, .pitch_m = props[p].pitch_in * INCH, .blades = props[p].blades};
        fine = pare_prop_from_size(&size, &pare_prop_family, &blade[p], NULL) == PARE_OK;
        if (fine)
            pare_prop_table_build(&blade[p], &table[p]);
    }
    for (int m = 0; m < MOTORS && fine; m++)
        for (int p = 0; p < PROPS; p++) {
            run both[VOLTAGES];
            const bool faulty = motors[m].letter == 'b' && props[p].number == '4';
            if (faulty)
                continue;
            bool here = true;
            for (int v = 0; v < VOLTAGES; v++)
                here = here && read_run(data_folder, motors[m].letter, props[p].number, nominal[v],
                                        &both[v]);
            if (!here)
                continue;
            const pare_pair_model model = model_of(&motors[m], &blade[p], &table[p]);
            leave_out(&model, &both[0], &both[1], 1, t);
            leave_out(&model, &both[1], &both[0], 0, t);
        }
    fine = fine && t->fits > 0 && report(t, to->page);
    if (!fine)
        fprintf(stderr, "%s: the pairs of the 5 in bench were not judged\n", data_folder);
    free(table);
    free(t);
    return fine;
}
