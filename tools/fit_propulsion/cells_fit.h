/* cells_fit.h: fitting one chemistry's constants to cells, and asking them for a run back. */
#ifndef FIT_CELLS_FIT_H
#define FIT_CELLS_FIT_H

#include "cells_data.h"
#include "physics/discharge.h"

/** Which runs and pulses of the data count. */
typedef struct cell_choice {
    bool run[CELL_RUNS];
    bool pulse[CELL_PULSES];
} cell_choice;

/** Fits open-circuit volts, resistance and warmth. What the data do not hold stays near `start`.
 * @param[in,out] cell  the start, and the answer
 * @return false where the solver failed, said on stderr */
bool cell_fit(const cell_data *data, const cell_choice *choice, pare_cell *cell);

/** Fits the open-circuit volts alone to cells of unlike resistance, with a factor on the resistance
 * for each; full stays at cell->open_v's last.
 * @param[in,out] cell
 * @param factor  [data->runs] out: that of each run's cell; 1 where it was not chosen */
bool cell_fit_open(const cell_data *data, const cell_choice *choice, pare_cell *cell,
                   double factor[]);

/** A run at one of its points, by the laws that ship.
 * @param factor  on the resistance; 1 */
pare_drained cell_predict(const pare_cell *cell, const cell_run *run, size_t point, double factor);

/** Charge drawn when the run's last volts are reached, Ah. */
double cell_predict_ah(const pare_cell *cell, const cell_run *run);

/** Resistance that a pulse sees. */
double cell_pulse_ohm(const pare_cell *cell, const cell_pulse *pulse);

#endif
