/* curve.h: how a craft's flight changes with its mass, its speed and its charge: points to draw. */
#ifndef PARE_CRAFT_CURVE_H
#define PARE_CRAFT_CURVE_H

#include "craft/sheet.h"

typedef enum pare_curve_of {
    PARE_CURVE_MINUTES, /* s as flown, by kg all-up: grams added or taken at the centre of mass */
    PARE_CURVE_CURRENT, /* A of the pack, by m/s of level flight, at half charge */
    PARE_CURVE_POWER,   /* W of the pack, by the same */
    PARE_CURVE_THRUST,  /* thrust to weight at full throttle from rest, by charge */
    PARE_CURVE_VOLTS, /* V of one cell, by charge: at rest, in hover, at full throttle from rest */
    PARE_CURVES
} pare_curve_of;

enum { PARE_CURVE_POINTS = 49, PARE_CURVE_LINES = 3, PARE_CURVE_MARKS = 8 };

/** One line: only points that exist, x rising. */
typedef struct pare_curve_line {
    const char *name; /* "in hover"; NULL where there is one line only */
    size_t points;
    double x[PARE_CURVE_POINTS], y[PARE_CURVE_POINTS];
} pare_curve_line;

/** A working point of the craft on a line. */
typedef struct pare_curve_mark {
    const char *name; /* "now", "limit", "hover", "best range", "as flown", "landing" ... */
    double x, y;
} pare_curve_mark;

/** SI throughout; charge 0 to 1. */
typedef struct pare_curve_chart {
    size_t lines;
    pare_curve_line line[PARE_CURVE_LINES];
    size_t marks;
    pare_curve_mark mark[PARE_CURVE_MARKS];
    double level;       /* a y at which flying ends: the landing's cell volts; NAN: none */
    char why[PARE_WHY]; /* where no line has a point: why not */
} pare_curve_chart;

/** Seconds as flown by the brief if the craft weighed so much, grams added or taken at the centre of
 * mass; NAN where it cannot fly, the error then saying why. */
double pare_flown_s_at(const pare_craft *craft, const pare_sheet *sheet, double mass_kg,
                       pare_error *err);

/** All curves of a craft, by its own rig: every point is a full evaluation of the flight model.
 *
 * A curve without points says why; nothing fails.
 * @param craft  settled and loaded, as its sheet was computed from
 * Costs a few hundred operating points. Allocates nothing. */
void pare_curves_of(const pare_craft *craft, const pare_sheet *sheet,
                    pare_curve_chart curve[PARE_CURVES]);

#endif
