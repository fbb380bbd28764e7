/* record.h: what was measured: scales, weigh-ins, flights, stand tables. Kept as typed; checked to be
 * of the right shape, with known keys and right units. Inside the room only. */
#ifndef PARE_STORE_RECORD_H
#define PARE_STORE_RECORD_H

#include "store/reading.h"

typedef enum pare_record {
    PARE_RECORD_SCALE,
    PARE_RECORD_WEIGH_IN,
    PARE_RECORD_FLIGHT,
    PARE_RECORD_STAND_TABLE,
    PARE_RECORDS
} pare_record;

/** The key of the list that they stand in: "weigh_ins". */
const char *pare_record_list(pare_record record);

/** Checks one. */
pare_status pare_record_check(const pare_reading *reading, pare_record record,
                              const pare_node *node, pare_error *err);

#endif
