/* air.h: the air a craft flies in: the US Standard Atmosphere 1976, and departures from it. */
#ifndef PARE_PHYSICS_AIR_H
#define PARE_PHYSICS_AIR_H

#include "base/error.h"

typedef struct pare_air {
    double temperature_degc, pressure_pa, density_kg_m3, viscosity_pa_s, sound_m_s;
} pare_air;

/** The US Standard Atmosphere 1976 at a geometric altitude.
 *
 * @param altitude_m  geometric metres above sea level, -2000 .. 11000 (the troposphere)
 * @return PARE_OK, or PARE_BAD_DATA outside that range; the output is then untouched
 * Accuracy: 1e-6 of the published tables. Source: NOAA-S/T 76-1562, 1976. */
pare_status pare_air_standard(double altitude_m, pare_air *air, pare_error *err);

/** The standard's pressure at an altitude, at another temperature (dry air, ideal gas).
 *
 * @param temperature_degc  -60 .. 60 */
pare_status pare_air_at(double altitude_m, double temperature_degc, pare_air *air, pare_error *err);

/** The geometric altitude in the standard atmosphere that has this density.
 *
 * @return metres, from -5000 to 20000; NAN for a density beyond that */
double pare_air_density_altitude_m(double density_kg_m3);

#endif
