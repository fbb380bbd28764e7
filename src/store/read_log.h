/* read_log.h: what a flight's log said, out of the bench's text. Inside the room only. */
#ifndef PARE_STORE_READ_LOG_H
#define PARE_STORE_READ_LOG_H

#include "craft/flight_log.h"
#include "store/read_table.h"

/** What a column of a log may be, in the order in which it is written. */
typedef enum pare_log_column {
    PARE_LOG_TIME,
    PARE_LOG_LASTS, /* that a row's means cover; without it until the next row */
    PARE_LOG_VOLTS,
    PARE_LOG_CURRENT,
    PARE_LOG_THROTTLE,
    PARE_LOG_HEIGHT,
    PARE_LOG_COLUMNS
} pare_log_column;
extern const pare_table_title pare_log_titles[PARE_LOG_COLUMNS];

/** What a log may hold, in SI: a reading beyond that is in another unit, or no reading. */
typedef struct pare_log_range {
    double low, high;
} pare_log_range;
extern const pare_log_range pare_log_ranges[PARE_LOG_COLUMNS];

/** Reads {columns: {...}, rows: [[...], ...]}.
 * @param arena  holds the log
 * @return PARE_OK; PARE_BAD_DATA with the place: a column that is missing, times that do not rise, a
 *         number out of range */
pare_status pare_read_log(const pare_reading *reading, const pare_node *node, pare_arena *arena,
                          const pare_flight_log **log, pare_error *err);

#endif
