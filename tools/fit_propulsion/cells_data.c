/* cells_data.c: reading the cell sets (see cells_data.h).
 *
 * Each table has its own columns and its own traps: discharge currents are negative, a current of
 * 3.4E+38 stands where none was taken, the C/20 file goes on to a charge and another chamber. Charge
 * is counted by current times time, or from the table's own count, on the capacity that the maker
 * states, since that is what a builder knows. A cell's pulses begin where the current jumps from 0. */
#include "cells_data.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "table.h"

#define NOT_TAKEN    1e6 /* a current above this is none */
#define STEP         0.02
#define FLOWS_A      0.05
#define PULSE_A      0.5
#define PULSE_MOST_S 30

/* One table brought to volts over Ah drawn. */
typedef struct trace {
    size_t rows;
    double *ah, *volts, *degc;
} trace;

static bool trace_room(trace *t, size_t rows)
{
    *t = (trace){0, calloc(rows, sizeof(double)), calloc(rows, sizeof(double)),
                 calloc(rows, sizeof(double))};
    return t->ah && t->volts && t->degc;
}

static void trace_free(trace *t)
{
    free(t->ah);
    free(t->volts);
    free(t->degc);
}

static void put(trace *t, double ah, double volts, double degc)
{
    t->ah[t->rows] = ah;
    t->volts[t->rows] = volts;
    t->degc[t->rows] = degc;
    t->rows++;
}

static bool between(const trace *t, double ah, double *volts, double *degc)
{
    for (size_t i = 1; i < t->rows; i++)
        if (t->ah[i] >= ah && t->ah[i - 1] <= ah && t->ah[i] > t->ah[i - 1]) {
            const double share = (ah - t->ah[i - 1]) / (t->ah[i] - t->ah[i - 1]);
            *volts = t->volts[i - 1] + share * (t->volts[i] - t->volts[i - 1]);
            *degc = t->degc[i - 1] + share * (t->degc[i] - t->degc[i - 1]);
            return true;
        }
    return false;
}

static void thin(const trace *t, cell_run *run, bool ends)
{
    run->points = 0;
    for (int i = 1; i < CELL_POINTS; i++) {
        const double charge = i == 1 ? 1 - STEP / 2 : 1 - (i - 1) * STEP;
        double volts, degc;
        if (charge < 0 || !between(t, (1 - charge) * run->ah, &volts, &degc))
            continue;
        run->point[run->points].charge = charge;
        run->point[run->points].volts = volts;
        run->point[run->points].degc = degc;
        run->points++;
    }
    run->used_ah = ends ? t->ah[t->rows - 1] : (double)NAN;
    run->last_v = t->volts[t->rows - 1];
}

static bool add_run(cell_data *data, const trace *t, const cell_run *as, bool ends)
{
    if (data->runs == CELL_RUNS || t->rows == 0)
        return false;
    cell_run *run = &data->run[data->runs++];
    *run = *as;
    thin(t, run, ends);
    return run->points > 0;
}

static bool read_in(const char *folder, const char *name, fit_table *table)
{
    char path[4096];
    const int length = snprintf(path, sizeof path, "%s/%s", folder, name);
    return length > 0 && (size_t)length < sizeof path && fit_table_read(path, table);
}

/* Time, current, volts, power, temperature of the cell, strain, temperature of the air. */
static bool read_30q(const char *folder, cell_data *data)
{
    static const struct {
        const char *name, *cell;
        double rate;
    } file[] = {
        {"Q30_S001_1C.csv", "30Q-1", 1},          {"Q30_S001_2C.csv", "30Q-1", 2},
        {"Q30_S001_3C.csv", "30Q-1", 3},          {"Q30_S002_C10.csv", "30Q-2", 0.1},
        {"Q30_S002_1C.csv", "30Q-2", 1},          {"Q30_S002_2C.csv", "30Q-2", 2},
        {"Q30_S002_3C.csv", "30Q-2", 3},          {"Q30_S003_1C.csv", "30Q-3", 1},
        {"Q30_S003_2.33C.csv", "30Q-3", 7.0 / 3}, {"Q30_S003_3C.csv", "30Q-3", 3},
    };
    bool fine = true;
    for (size_t f = 0; f < sizeof file / sizeof file[0] && fine; f++) {
        fit_table table;
        trace t;
        if (!read_in(folder, file[f].name, &table))
            return false;
        fine = trace_room(&t, table.rows);
        double ah = 0;
        for (size_t i = 1; i < table.rows && fine; i++) {
            const double amps = -fit_table_at(&table, i, 1);
            if (!(fabs(amps) < NOT_TAKEN))
                continue;
            ah += amps * (fit_table_at(&table, i, 0) - fit_table_at(&table, i - 1, 0)) / 3600;
            put(&t, ah, fit_table_at(&table, i, 2), fit_table_at(&table, i, 4));
        }
        const cell_run as = {.cell = file[f].cell,
                             .type = "INR18650-30Q",
                             .rate = file[f].rate,
                             .ah = 3.0,
                             .air_degc = fit_table_at(&table, 0, 4)};
        fine = fine && add_run(data, &t, &as, true);
        trace_free(&t);
        fit_table_free(&table);
    }
    return fine;
}

/* Time, volts, current, Ah, Wh, temperature of the cell, of the chamber. The first discharge alone. */
static bool read_pf_run(const char *folder, const char *name, double rate, cell_data *data)
{
    fit_table table;
    trace t;
    if (!read_in(folder, name, &table))
        return false;
    bool fine = trace_room(&t, table.rows);
    double from = (double)NAN, air_degc = (double)NAN;
    for (size_t i = 0; i < table.rows && fine; i++) {
        const bool flows = fit_table_at(&table, i, 2) < -FLOWS_A;
        if (!flows && t.rows > 0)
            break;
        if (!flows)
            continue;
        if (t.rows == 0) {
            from = fit_table_at(&table, i, 3);
            air_degc = fit_table_at(&table, i, 5);
        }
        put(&t, from - fit_table_at(&table, i, 3), fit_table_at(&table, i, 1),
            fit_table_at(&table, i, 5));
    }
    const cell_run as = {
        .cell = "PF-1", .type = "NCR18650PF", .rate = rate, .ah = 2.9, .air_degc = air_degc};
    fine = fine && add_run(data, &t, &as, true);
    trace_free(&t);
    fit_table_free(&table);
    return fine;
}

static void put_pulse(const fit_table *table, size_t rest, double seconds, cell_data *data)
{
    size_t nearest = 0;
    double best = HUGE_VAL;
    const double start_s = fit_table_at(table, rest, 0);
    for (size_t i = rest + 1; i < table->rows; i++) {
        if (fit_table_at(table, i, 2) > -PULSE_A || fit_table_at(table, i, 0) > start_s + 20)
            break;
        const double off = fabs(fit_table_at(table, i, 0) - start_s - seconds);
        if (off < best) {
            best = off;
            nearest = i;
        }
    }
    if (!(best < 0.5) || data->pulses == CELL_PULSES)
        return;
    const double amps = -fit_table_at(table, nearest, 2);
    data->pulse[data->pulses++] = (cell_pulse){
        .cell = "PF-1",
        .ah = 2.9,
        .charge = 1 + fit_table_at(table, rest, 3) / 2.9,
        .rate = amps / 2.9,
        .degc = fit_table_at(table, rest, 5),
        .seconds = fit_table_at(table, nearest, 0) - start_s,
        .ohm = (fit_table_at(table, rest, 1) - fit_table_at(table, nearest, 1)) / amps};
}

static bool read_pf_pulses(const char *folder, cell_data *data)
{
    fit_table table;
    if (!read_in(folder, "25C_HPPC_5pulse_thinned.csv", &table))
        return false;
    for (size_t i = 1; i < table.rows; i++) {
        const bool begins =
            fit_table_at(&table, i, 2) < -PULSE_A && fit_table_at(&table, i - 1, 2) > -FLOWS_A;
        if (!begins)
            continue;
        size_t end = i;
        while (end < table.rows && fit_table_at(&table, end, 2) < -PULSE_A)
            end++;
        const double lasts_s = fit_table_at(&table, end - 1, 0) - fit_table_at(&table, i - 1, 0);
        if (lasts_s < PULSE_MOST_S) {
            put_pulse(&table, i - 1, 0.1, data);
            put_pulse(&table, i - 1, 1, data);
            put_pulse(&table, i - 1, 10, data);
        }
        i = end;
    }
    fit_table_free(&table);
    return data->pulses > 0;
}

static bool read_kokam(const char *folder, const char *name, double rate, cell_data *data)
{
    fit_table table;
    trace t;
    if (!read_in(folder, name, &table))
        return false;
    bool fine = trace_room(&t, table.rows);
    for (size_t i = 0; i < table.rows && fine; i++)
        put(&t, fit_table_at(&table, i, 0), fit_table_at(&table, i, 1), (double)NAN);
    const cell_run as = {
        .cell = "pouch-7.5", .type = "7.5 Ah pouch", .rate = rate, .ah = 7.5, .air_degc = 25};
    fine = fine && add_run(data, &t, &as, true);
    trace_free(&t);
    fit_table_free(&table);
    return fine;
}

/* Rate, time, volts: two discharges in one table, of which only the beginning is there. */
static bool read_enertech(const char *folder, cell_data *data)
{
    fit_table table;
    if (!read_in(folder, "enertech_2.28Ah_1C_2C_first_part.csv", &table))
        return false;
    bool fine = true;
    for (int rate = 1; rate <= 2 && fine; rate++) {
        trace t;
        fine = trace_room(&t, table.rows);
        for (size_t i = 0; i < table.rows && fine; i++)
            if (fabs(fit_table_at(&table, i, 0) - rate) < 0.5)
                put(&t, 2.28 * rate * fit_table_at(&table, i, 1) / 3600, fit_table_at(&table, i, 2),
                    (double)NAN);
        const cell_run as = {.cell = "pouch-2.28",
                             .type = "2.28 Ah pouch",
                             .rate = rate,
                             .ah = 2.28,
                             .air_degc = 25};
        fine = fine && add_run(data, &t, &as, false);
        trace_free(&t);
    }
    fit_table_free(&table);
    return fine;
}

static bool below(const char *folder, const char *name, char *path, size_t size)
{
    const int length = snprintf(path, size, "%s/%s", folder, name);
    return length > 0 && (size_t)length < size;
}

bool cell_data_read(const char *folder, cell_data *data)
{
    char path[4096];
    data->runs = data->pulses = 0;
    return below(folder, "cells/samsung-30q-discharge", path, sizeof path) &&
           read_30q(path, data) &&
           below(folder, "cells/panasonic-18650pf-kollmeyer", path, sizeof path) &&
           read_pf_run(path, "25C_C20_OCV_test.csv", 0.05, data) &&
           read_pf_run(path, "25C_1C_discharge_start_a.csv", 1, data) &&
           read_pf_pulses(path, data) && below(folder, "cells/pouch", path, sizeof path) &&
           read_kokam(path, "kokam_slpb75106100_1C_25C.csv", 1, data) &&
           read_kokam(path, "kokam_slpb75106100_5C_25C.csv", 5, data) && read_enertech(path, data);
}
