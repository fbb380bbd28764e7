/* cells_report.h: how far predictions were off, as tables, and what that makes of the doubt. */
#ifndef FIT_CELLS_REPORT_H
#define FIT_CELLS_REPORT_H

#include <stdio.h>

#include "cells_data.h"
#include "cells_fit.h"

/** A run as it was predicted and as it was. */
typedef struct cell_judged_run {
    size_t points; /* 0: not judged */
    struct {
        double charge, volts, drop_v, measured_v, off_k;
    } point[CELL_POINTS];
} cell_judged_run;

typedef struct cell_judged {
    cell_judged_run run[CELL_RUNS];
} cell_judged;

/** From full down to a charge of 0.1. @param factor  on the resistance */
void cell_judge(const pare_cell *cell, const cell_run *run, double factor, cell_judged_run *judged);

/** The same with the drop times the factor that suits the run best. */
void cell_judge_sized(const cell_judged_run *left_out, cell_judged_run *judged);

/** From the left-out cells: how far each one's resistance was off, and its volts beside that. */
pare_pack_doubt cell_doubt(const cell_data *data, const cell_judged *left_out);

/** Scales it so that half and nine tenths of the volts left out are within 0.6745 and 1.645 of it: the
 * middle of the factors with which 45 to 55 and 85 to 95 % are, as far as both allow. */
void cell_calibrate(const cell_judged *left_out, pare_pack_doubt *doubt);

double cell_rms_v(const cell_judged *judged);

void cell_print_errors(const char *what, const cell_data *data, const cell_judged *judged);
void cell_print_capacity(const cell_data *data, const pare_cell *cell);
void cell_print_pulses(const cell_data *data, const pare_cell *cell);
void cell_print_factors(const cell_data *data, const double factor[], const pare_cell *cell);
void cell_print_intervals(FILE *out, const cell_judged *left_out, const pare_pack_doubt *doubt);

/** A table by rate: its heads, and a row of medians and 90th percentiles. */
void cell_print_heads(FILE *out);
void cell_print_row(FILE *out, const char *what, const cell_data *data, const cell_judged *judged);

/** Pictures: cells_ion.svg of lithium-ion cells left out, cells_pouch.svg of the pouch cells. */
bool cell_draw_ion(const char *folder, const cell_data *data, const cell_judged *left_out);
bool cell_draw_pouch(const char *folder, const cell_data *data, const cell_judged *judged);

/** Writes the constants as C. */
bool cell_write(FILE *out, const pare_cell cell[PARE_CHEMISTRIES]);

#endif
