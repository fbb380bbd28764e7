/* wire_heat.h: how hot an insulated wire gets. */
#ifndef PARE_PHYSICS_WIRE_HEAT_H
#define PARE_PHYSICS_WIRE_HEAT_H

#include <stddef.h>

#include "base/error.h"

/** Share of a wire's rise that the laws of convection are good for (their authors). */
#define PARE_CONVECTION_U 0.15

/** A wire lying level in air, alone. */
typedef struct pare_wire_load {
    double gauge;        /* AWG, 4 .. 40 */
    double outer_m;      /* over the insulation; 0: the usual one for the gauge */
    double current_a;    /* 0 .. 2000 */
    double ambient_degc; /* -60 .. 100 */
    double pressure_pa;  /* 101325 */
    double flow_m_s;     /* air across the wire; 0: still */
} pare_wire_load;

/** 25 degC at sea level, in still air; gauge and current are the caller's. */
pare_wire_load pare_wire_load_defaults(void);

typedef struct pare_wire_heat {
    double conductor_degc, surface_degc;
} pare_wire_heat;

/** Where it settles.
 *
 * @return PARE_OK, or PARE_BAD_DATA for a load that cannot be (naming it), an outside diameter below
 *         the strands', or a conductor past 1000 degC: copper then melts
 * Accuracy: 1e-6 K of the equations; the convection laws are good to some 15 % (their authors). */
pare_status pare_wire_steady(const pare_wire_load *load, pare_wire_heat *heat, pare_error *err);

/** After so many seconds of the load, copper and insulation starting at one temperature.
 *
 * @param start_degc  -60 .. 300
 * @param seconds     0 .. 3600
 * Accuracy: 1e-3 K of the equations. Cost: some 0.2 us a step, a hundred steps and more. */
pare_status pare_wire_after(const pare_wire_load *load, double start_degc, double seconds,
                            pare_wire_heat *heat, pare_error *err);

/** From one temperature through stretches of constant current, quickly: what a flight does to a lead.
 *
 * @param load      current_a is not read
 * @param stretches [stretches] of current_a and seconds, each as above
 * @param[out] hottest_degc  of the conductor at the ends of the stretches; may be NULL
 * Accuracy: 0.5 K of pare_wire_after() for flights below 200 degC. Cost: some 2 us a stretch, each
 * shorter than 20 s; longer ones are divided. */
typedef struct pare_wire_stretch {
    double current_a, seconds;
} pare_wire_stretch;
pare_status pare_wire_flown(const pare_wire_load *load, double start_degc, size_t stretches,
                            const pare_wire_stretch stretch[], pare_wire_heat *heat,
                            double *hottest_degc, pare_error *err);

/** Settled on the load, then a burst of another current: the same, in one question. */
pare_status pare_wire_burst(const pare_wire_load *load, double burst_a, double seconds,
                            pare_wire_heat *settled, pare_wire_heat *burst, pare_error *err);

/** Heat that a cylinder in air loses by convection, W/(m2 K): what the laws above use.
 * @param surface_degc, ambient_degc  apart or alike; @param flow_m_s across it, 0: still */
double pare_cylinder_convection(double diameter_m, double surface_degc, double ambient_degc,
                                double pressure_pa, double flow_m_s);

#endif
