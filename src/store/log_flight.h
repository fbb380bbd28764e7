/* log_flight.h: the flight on the bench that a log was written in. Inside the room only. */
#ifndef PARE_STORE_LOG_FLIGHT_H
#define PARE_STORE_LOG_FLIGHT_H

#include "store/reading.h"
#include "store/sql.h"

/** A flight of that craft and day, which says nothing else than the log does, becomes one with its log;
 * where there is none, the log makes a flight of its own.
 *
 * @param log    the flight as the log tells it
 * @param[out] row     that it takes the place of; 0: none
 * @param[out] merged  in the reading's arena
 * @return PARE_OK; PARE_BAD_DATA: it may be that of more than one */
pare_status pare_log_find_flight(const pare_store *store, const pare_reading *reading,
                                 const pare_node *log, long long *row, pare_node **merged,
                                 pare_error *err);

#endif
