/* cells_data.h: discharges and pulses of single cells, read into one shape. */
#ifndef FIT_CELLS_DATA_H
#define FIT_CELLS_DATA_H

#include <stdbool.h>
#include <stddef.h>

enum { CELL_POINTS = 60, CELL_RUNS = 24, CELL_PULSES = 160 };

/** A discharge at a constant current from full, thinned to even steps of charge. */
typedef struct cell_run {
    const char *cell, *type;
    double rate;     /* current over stated capacity, 1/h */
    double ah;       /* stated capacity: charge is counted on it */
    double air_degc; /* and the cell's at the start */
    double used_ah;  /* down to its last volts; NAN: the table ends before */
    double last_v;
    size_t points;
    struct {
        double charge, volts;
        double degc; /* NAN: not measured */
    } point[CELL_POINTS];
} cell_run;

/** A current pulse from rest. */
typedef struct cell_pulse {
    const char *cell;
    double ah, charge, rate, degc, seconds;
    double ohm; /* volts lost over current */
} cell_pulse;

typedef struct cell_data {
    size_t runs, pulses;
    cell_run run[CELL_RUNS];
    cell_pulse pulse[CELL_PULSES];
} cell_data;

/** Reads the folders samsung-30q-discharge, panasonic-18650pf-kollmeyer and pouch below a folder.
 * @return false where one is missing, said on stderr */
bool cell_data_read(const char *folder, cell_data *data);

#endif
