/* read_air.c: the air of a brief, a flight or a stand's table, out of its text. */
#include "store/read_air.h"

#include <math.h>

pare_status pare_read_air(const pare_reading *reading, const pare_node *node, pare_weather *weather,
                          pare_error *err)
{
    static const char *const keys[] = {"altitude", "temperature", "pressure", "sea_level_pressure",
                                       "humidity"};
    pare_weather air = pare_weather_at(0);
    const struct {
        pare_dimension dimension;
        double low, high;
        double *value;
    } of[] = {{PARE_DIM_LENGTH, -500, 10000, &air.altitude_m},
              {PARE_DIM_TEMPERATURE, -60, 60, &air.temperature_degc},
              {PARE_DIM_PRESSURE, 15e3, 110e3, &air.pressure_pa},
              {PARE_DIM_PRESSURE, 85e3, 110e3, &air.sea_level_pa},
              {PARE_DIM_SHARE, 0, 1, &air.humidity}};
    pare_status status = PARE_OK;
    if (node)
        status = pare_read_keys(reading, node, "air", PARE_COUNT(keys), keys, err);
    for (size_t i = 0; node && i < PARE_COUNT(keys) && status == PARE_OK; i++)
        status = pare_read_quantity(reading, pare_node_get(node, keys[i]), keys[i], of[i].dimension,
                                    of[i].low, of[i].high, of[i].value, err);
    if (status == PARE_OK && !isnan(air.pressure_pa) && !isnan(air.sea_level_pa))
        return pare_refuse(reading, pare_node_get(node, "sea_level_pressure"), PARE_BAD_DATA, err,
                           "air has a pressure at the place or a sea_level_pressure, as a weather "
                           "report says it; right would be one of them");
    if (status == PARE_OK)
        *weather = air;
    return status;
}
