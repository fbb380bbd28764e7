/* wire_heat.h: how hot an insulated wire gets. */
#ifndef PARE_PHYSICS_WIRE_HEAT_H
#define PARE_PHYSICS_WIRE_HEAT_H

#include "base/error.h"

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

/** Heat that a cylinder in air loses by convection, W/(m2 K): what the laws above use.
 * @param surface_degc, ambient_degc  apart or alike; @param flow_m_s across it, 0: still */
double pare_cylinder_convection(double diameter_m, double surface_degc, double ambient_degc,
                                double pressure_pa, double flow_m_s);

#endif
