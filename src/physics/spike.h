/* spike.h: how far the volts at an ESC rise when its current stops short. */
#ifndef PARE_PHYSICS_SPIKE_H
#define PARE_PHYSICS_SPIKE_H

#include "base/error.h"

/** From the pack through its leads to the capacitors at the ESC. */
typedef struct pare_spike_path {
    double open_v;       /* the pack's, 0 .. 500 */
    double ohm;          /* pack, leads and contacts, 0 .. 10 */
    double henry;        /* of leads and pack, 1e-9 .. 1e-3 */
    double farad;        /* at the ESC, 1e-7 .. 1 */
    double series_ohm;   /* the capacitors' own, 0 .. 10 */
    double from_a, to_a; /* before and after; negative: braking sends current back. -5000 .. 5000 */
} pare_spike_path;

typedef struct pare_spike {
    double peak_v;    /* highest at the ESC */
    double peak_s;    /* when, after the step; INFINITY: it creeps up to where it stays */
    double settled_v; /* once the ring is over */
    double ring_hz;   /* 0: too much resistance to ring */
} pare_spike;

/** The current stops at once, far sooner than the leads can follow.
 *
 * @return PARE_OK, or PARE_BAD_DATA naming what is out of its range
 * Accuracy: rounding only, of a circuit of one coil and one capacitor. */
pare_status pare_spike_of(const pare_spike_path *path, pare_spike *spike, pare_error *err);

/** Of two parallel round wires, current out and back. External and internal inductance.
 *
 * @param way_m     length of one wire
 * @param copper_m  diameter of the conductor
 * @param apart_m   between the middles; no less than copper_m counts
 * Source: Rosa, Bull. Bureau of Standards 4 (1908), p. 305, without the ends: right for wires far
 * longer than they are apart. */
double pare_lead_henry(double way_m, double copper_m, double apart_m);

/** A capacitor beside a smaller one without resistance, as one: their sum, and the resistance that
 * burns as much of a slow ring. @return ohm */
double pare_beside_ohm(double farad, double series_ohm, double beside_farad);

#endif
