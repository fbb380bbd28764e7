/* film.h: dry air between a hot surface and the air around, at the mean of both temperatures. */
#ifndef PARE_PHYSICS_FILM_H
#define PARE_PHYSICS_FILM_H

#include <math.h>

#include "base/error.h"

typedef struct pare_film {
    double kelvin;
    double conducts_w_m_k;
    double viscosity_m2_s; /* kinematic */
    double prandtl;
} pare_film;

/** Whether air is such that bodies in it are worked out: -60 to 100 degC, 10 to 200 kPa, to 150 m/s.
 * @return PARE_BAD_DATA naming what is not, and what would be right */
pare_status pare_film_check(double ambient_degc, double pressure_pa, double flow_m_s,
                            pare_error *err);

/** Sutherland's viscosity, the conductivity of the US Standard Atmosphere 1976, and 1006 J/(kg K). Here, so
 * that a solver's steps pay for no call; powers of 3/2 by a root, which is half the work. */
static inline pare_film pare_film_at(double surface_degc, double ambient_degc, double pressure_pa)
{
    const double kelvin = 0.5 * (surface_degc + ambient_degc) + 273.15;
    const double power_15 = kelvin * sqrt(kelvin);
    const double viscosity =
        1.716e-5 / (273.15 * sqrt(273.15)) * power_15 * 383.55 / (kelvin + 110.4);
    const double ln_10 = 2.302585092994046;
    const double conducts = 2.64638e-3 * power_15 / (kelvin + 245.4 * exp(-12 * ln_10 / kelvin));
    const double density = pressure_pa / (287.05 * kelvin);
    return (pare_film){kelvin, conducts, viscosity / density, 1006 * viscosity / conducts};
}

#endif
