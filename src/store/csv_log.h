/* csv_log.h: rows of a flight's log into the flight's record. Inside the room only. */
#ifndef PARE_STORE_CSV_LOG_H
#define PARE_STORE_CSV_LOG_H

#include "craft/flight_log.h"
#include "store/csv_import.h"
#include "store/csv_part.h"
#include "store/read_log.h"

/** A log under way. Zero-initialise. */
typedef struct pare_csv_log {
    pare_node *flight; /* what is told of the flight, by the first row; NULL before */
    struct {
        const pare_csv_column *column; /* NULL: not logged */
        double zero, one;              /* of its unit, in SI */
    } of[PARE_LOG_COLUMNS];
    double day_s; /* of midnights passed by times of day */
    int last_line;
    int gap_line;      /* of the row before the longest gap */
    size_t left_out;   /* rows without volts or current */
    int left_out_line; /* of the first */
    int cut_line;      /* of a last row that is too short; 0: none */
    pare_log_reducer reducer;
} pare_csv_log;

/** Whether the columns can be those of a log, and their units. */
pare_status pare_csv_begin_log(const pare_csv_plan *plan, pare_units *units, pare_csv_log *log,
                               pare_error *err);

/** Takes a row.
 * @param rows  their arena keeps what the first row tells of the flight
 * @return PARE_OK; PARE_BAD_DATA with row and column: no reading behind it is worth having */
pare_status pare_csv_take_log(const pare_csv_rows *rows, const pare_csv_row *row, pare_csv_log *log,
                              pare_error *err);

/** After the last row: the flight with its log, in the text form.
 * @return PARE_OK; PARE_BAD_DATA: too little of it */
pare_status pare_csv_end_log(const pare_csv_rows *rows, pare_csv_log *log, const char *file,
                             pare_node **flight, pare_error *err);

/** What was left out or supposed.
 * @param flight  as it is kept @param[out] remark  in the arena @return how many */
size_t pare_csv_log_remarks(const pare_node *flight, const pare_csv_log *log, pare_arena *arena,
                            pare_list_remark remark[PARE_LIST_REMARKS]);

#endif
