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

/** What is known of a place's air; NAN: not known, and then the standard's. */
typedef struct pare_weather {
    double altitude_m;       /* geometric */
    double temperature_degc; /* -60 .. 60 */
    double pressure_pa;      /* at the place, as a barometer there shows: 15 to 110 kPa */
    double sea_level_pa; /* reduced to sea level, as a weather report says (QNH): 85 to 110 kPa; not
                                with pressure_pa */
    double humidity;     /* relative, 0 to 1 */
} pare_weather;

/** Nothing known but the altitude. */
pare_weather pare_weather_at(double altitude_m);

/** The air there.
 *
 * A pressure reduced to sea level is taken back up as it was brought down, through the standard
 * atmosphere. Where a humidity is said, the density is that of moist air (CIPM-2007) and sound goes with it;
 * viscosity stays that of dry air, which is within 1 %.
 * @return PARE_OK, or PARE_BAD_DATA naming what cannot be; the output is then untouched
 * Sources: NOAA-S/T 76-1562, 1976; ICAO Doc 7488 for the altimeter setting (from memory); physics/moist.h. */
pare_status pare_air_in(const pare_weather *weather, pare_air *air, pare_error *err);

/** The geometric altitude in the standard atmosphere that has this density.
 *
 * @return metres, from -5000 to 20000; NAN for a density beyond that */
double pare_air_density_altitude_m(double density_kg_m3);

#endif
