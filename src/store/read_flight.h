/* read_flight.h: a flight's record out of its text, and the flown profile that briefs have too. Inside the
 * room only. */
#ifndef PARE_STORE_READ_FLIGHT_H
#define PARE_STORE_READ_FLIGHT_H

#include "craft/flight_record.h"
#include "store/reading.h"

/** A list of {share, as | speed | thrust} whose shares make 1.
 * @param node        NULL: nothing said, and nothing is read
 * @param[out] flown  [PARE_FLOWN]
 * @return PARE_OK, or PARE_BAD_DATA with the place and what would be right */
pare_status pare_read_flown(const pare_reading *reading, const pare_node *node,
                            pare_flown flown[PARE_FLOWN], size_t *entries, pare_error *err);

/** @param node   of the right shape: see pare_record_check()
 * @param bench   has the pack, and lends the date
 * @param craft   whose flight it is */
pare_status pare_read_flight(const pare_reading *reading, const pare_node *node,
                             const pare_bench *bench, const pare_craft *craft,
                             pare_flight_record *flight, pare_error *err);

#endif
