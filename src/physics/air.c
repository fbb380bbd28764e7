/* air.c: the US Standard Atmosphere 1976 up to 20 km, and air at another temperature.
 *
 * The standard is defined in geopotential metres: temperature falls by 6.5 K a kilometre to 11 km
 * and is constant from there to 20 km; pressure follows from hydrostatics. A caller has geometric
 * metres (a map, a barometer's idea of height above the sea), so the first step is always
 * h = r0 z / (r0 + z). Both layers invert in closed form, so density altitude needs no search.
 *
 * The polynomial fits in circulation (p = p0 (1 - 2.25577e-5 h)^5.25588) differ by 1e-5 and more and
 * take geometric for geopotential; this costs one pow as well.
 * Source: U.S. Standard Atmosphere, 1976, NOAA-S/T 76-1562, equations 18, 23, 33, 42, 50, 51. */
#include "physics/air.h"

#include <math.h>

#include "physics/moist.h"

#define GRAVITY_M_S2       9.80665
#define GAS_J_KMOL_K       8314.32 /* the standard's own, table 2; not today's CODATA value */
#define AIR_KG_KMOL        28.9644
#define AIR_GAS_J_KG_K     (GAS_J_KMOL_K / AIR_KG_KMOL)
#define EARTH_M            6356766.0
#define SEA_K              288.15
#define SEA_PA             101325.0
#define LAPSE_K_M          0.0065
#define TROPOPAUSE_M       11000.0 /* geopotential */
#define TROPOPAUSE_K       (SEA_K - LAPSE_K_M * TROPOPAUSE_M)
#define HEAT_RATIO         1.4
#define SUTHERLAND_PA_S_K  1.458e-6 /* beta, kg/(s m K^0.5) */
#define SUTHERLAND_K       110.4
#define ICE_K              273.15
#define LEAST_ALTITUDE_M   (-2000.0)
#define MOST_ALTITUDE_M    11000.0
#define LEAST_DENSITY_AT_M (-5000.0)
#define MOST_DENSITY_AT_M  20000.0

/* g0 M / (R* L), 5.2559: the exponent of pressure over temperature in the lower layer. */
static const double pressure_power = GRAVITY_M_S2 / (AIR_GAS_J_KG_K * LAPSE_K_M);

static double geopotential_m(double geometric_m)
{
    return EARTH_M * geometric_m / (EARTH_M + geometric_m);
}

static double geometric_m(double geopotential)
{
    return EARTH_M * geopotential / (EARTH_M - geopotential);
}

static pare_air air_of(double kelvin, double pressure_pa)
{
    return (pare_air){
        .temperature_degc = kelvin - ICE_K,
        .pressure_pa = pressure_pa,
        .density_kg_m3 = pressure_pa / (AIR_GAS_J_KG_K * kelvin),
        .viscosity_pa_s = SUTHERLAND_PA_S_K * kelvin * sqrt(kelvin) / (kelvin + SUTHERLAND_K),
        .sound_m_s = sqrt(HEAT_RATIO * AIR_GAS_J_KG_K * kelvin),
    };
}

/* Both public functions stay below the tropopause: 11 km geometric is 10 981 m geopotential. */
static pare_status standard_at(double altitude_m, double *kelvin, double *pressure_pa,
                               pare_error *err)
{
    if (!(altitude_m >= LEAST_ALTITUDE_M && altitude_m <= MOST_ALTITUDE_M))
        return pare_fail(err, PARE_BAD_DATA, "altitude %g m is outside %g .. %g m", altitude_m,
                         LEAST_ALTITUDE_M, MOST_ALTITUDE_M);
    *kelvin = SEA_K - LAPSE_K_M * geopotential_m(altitude_m);
    *pressure_pa = SEA_PA * pow(*kelvin / SEA_K, pressure_power);
    return PARE_OK;
}

pare_status pare_air_standard(double altitude_m, pare_air *air, pare_error *err)
{
    double kelvin = 0, pressure_pa = 0;
    const pare_status status = standard_at(altitude_m, &kelvin, &pressure_pa, err);
    if (status == PARE_OK)
        *air = air_of(kelvin, pressure_pa);
    return status;
}

pare_status pare_air_at(double altitude_m, double temperature_degc, pare_air *air, pare_error *err)
{
    double kelvin = 0, pressure_pa = 0;
    const pare_status status = standard_at(altitude_m, &kelvin, &pressure_pa, err);
    if (status != PARE_OK)
        return status;
    if (!(temperature_degc >= -60 && temperature_degc <= 60))
        return pare_fail(err, PARE_BAD_DATA, "air temperature %g degC is outside -60 .. 60 degC",
                         temperature_degc);
    *air = air_of(temperature_degc + ICE_K, pressure_pa);
    return PARE_OK;
}

pare_weather pare_weather_at(double altitude_m)
{
    return (pare_weather){.altitude_m = altitude_m,
                          .temperature_degc = (double)NAN,
                          .pressure_pa = (double)NAN,
                          .sea_level_pa = (double)NAN,
                          .humidity = (double)NAN};
}

static pare_status check(double value, double low, double high, const char *what, const char *unit,
                         double scale, pare_error *err)
{
    if (isnan(value) || (value >= low && value <= high))
        return PARE_OK;
    return pare_fail(err, PARE_BAD_DATA, "%s %g%s is outside %g .. %g%s", what, scale * value, unit,
                     scale * low, scale * high, unit);
}

/* An altimeter set so shows the altitude: the standard's column, moved to start from that pressure. */
static double brought_up_pa(double sea_level_pa, double altitude_m)
{
    const double share = pow(sea_level_pa / SEA_PA, 1 / pressure_power) -
                         LAPSE_K_M * geopotential_m(altitude_m) / SEA_K;
    return SEA_PA * pow(share, pressure_power);
}

pare_status pare_air_in(const pare_weather *weather, pare_air *air, pare_error *err)
{
    double kelvin = 0, pressure_pa = 0;
    if (standard_at(weather->altitude_m, &kelvin, &pressure_pa, err) != PARE_OK ||
        check(weather->temperature_degc, -60, 60, "air temperature", " degC", 1, err) != PARE_OK ||
        check(weather->pressure_pa, 15e3, 110e3, "air pressure", " hPa", 0.01, err) != PARE_OK ||
        check(weather->sea_level_pa, 85e3, 110e3, "air pressure at sea level", " hPa", 0.01, err) !=
            PARE_OK ||
        check(weather->humidity, 0, 1, "humidity", " %", 100, err) != PARE_OK)
        return PARE_BAD_DATA;
    if (!isnan(weather->pressure_pa) && !isnan(weather->sea_level_pa))
        return pare_fail(err, PARE_BAD_DATA,
                         "air has a pressure at the place or one reduced to sea level, not both");
    if (!isnan(weather->temperature_degc))
        kelvin = weather->temperature_degc + ICE_K;
    if (!isnan(weather->pressure_pa))
        pressure_pa = weather->pressure_pa;
    if (!isnan(weather->sea_level_pa))
        pressure_pa = brought_up_pa(weather->sea_level_pa, weather->altitude_m);
    pare_air found = air_of(kelvin, pressure_pa);
    if (!isnan(weather->humidity)) {
        if (pare_moist_share(kelvin, pressure_pa, weather->humidity) > PARE_MOIST_MOST)
            return pare_fail(err, PARE_BAD_DATA,
                             "humidity %g %% at %g degC and %g hPa is more water than air holds",
                             100 * weather->humidity, kelvin - ICE_K, 0.01 * pressure_pa);
        found.density_kg_m3 = pare_moist_kg_m3(kelvin, pressure_pa, weather->humidity);
        found.sound_m_s = sqrt(HEAT_RATIO * pressure_pa / found.density_kg_m3);
    }
    *air = found;
    return PARE_OK;
}

double pare_air_density_altitude_m(double density_kg_m3)
{
    const double sea_kg_m3 = SEA_PA / (AIR_GAS_J_KG_K * SEA_K);
    if (!(density_kg_m3 > 0) || !isfinite(density_kg_m3))
        return NAN;
    const double kelvin = SEA_K * pow(density_kg_m3 / sea_kg_m3, 1 / (pressure_power - 1));
    double altitude_m = (SEA_K - kelvin) / LAPSE_K_M;
    if (altitude_m > TROPOPAUSE_M) {
        const double pause_kg_m3 = sea_kg_m3 * pow(TROPOPAUSE_K / SEA_K, pressure_power - 1);
        altitude_m = TROPOPAUSE_M + log(pause_kg_m3 / density_kg_m3) * AIR_GAS_J_KG_K *
                                        TROPOPAUSE_K / GRAVITY_M_S2;
    }
    altitude_m = geometric_m(altitude_m);
    if (!(altitude_m >= LEAST_DENSITY_AT_M && altitude_m <= MOST_DENSITY_AT_M))
        return NAN;
    return altitude_m;
}
