/* read_air.h: the air of a brief, a flight or a stand's table, out of its text. */
#ifndef PARE_STORE_READ_AIR_H
#define PARE_STORE_READ_AIR_H

#include "physics/air.h"
#include "store/reading.h"

/** Reads {altitude, temperature, pressure | sea_level_pressure, humidity}, each optional.
 *
 * @param node          NULL: nothing said, which is sea level
 * @param[out] weather  what was not said is NAN, but the altitude 0; untouched on failure
 * @return PARE_OK; PARE_UNKNOWN for another key; PARE_BAD_DATA; each with the place */
pare_status pare_read_air(const pare_reading *reading, const pare_node *node, pare_weather *weather,
                          pare_error *err);

#endif
