/* flight_log.h: what a craft's own sensors wrote in flight, in so many bins of time. */
#ifndef PARE_CRAFT_FLIGHT_LOG_H
#define PARE_CRAFT_FLIGHT_LOG_H

#include <stdbool.h>
#include <stddef.h>

enum { PARE_LOG_BINS = 240 };

/** Means over a stretch of time, as the sensors said them. */
typedef struct pare_log_bin {
    double time_s;  /* from the beginning of the log to that of the stretch */
    double lasts_s; /* that readings cover of it */
    double volts_v, current_a;
    double throttle; /* 0 to 1; NAN: not logged */
    double height_m; /* NAN: not logged */
} pare_log_bin;

typedef struct pare_flight_log {
    size_t bins;             /* 2 or more */
    const pare_log_bin *bin; /* [bins] by time; between two of them nothing may be known */
} pare_flight_log;

/** One row of a log. */
typedef struct pare_log_row {
    double time_s;             /* from any beginning, not less than that of the row before */
    double volts_v, current_a; /* finite */
    double throttle, height_m; /* NAN: not logged */
} pare_log_row;

/** Rows on their way into bins: memory that does not grow with them. Zero-initialise. */
typedef struct pare_log_reducer {
    double width_s; /* of a bin; doubled whenever the last one is passed */
    double first_s, until_s;
    double usual_s; /* between two rows, so far */
    pare_log_row last;
    size_t rows;
    size_t repeated; /* rows at the time of the one before */
    size_t gaps;     /* longer than any that is usual in this log */
    double gaps_s, longest_s;
    size_t longest_row; /* the row, from 1, before the longest */
    struct {
        double lasts_s, volt_s, charge_c;
        double throttle_s, throttle_lasts_s, height_s, height_lasts_s;
    } sum[PARE_LOG_BINS];
} pare_log_reducer;

/** Takes a row. @return false: its time is before that of the row before, and it was not taken */
bool pare_log_take(pare_log_reducer *reducer, const pare_log_row *row);

/** The bins so far, those with nothing in them left out.
 * @param[out] bin  [PARE_LOG_BINS] @return how many */
size_t pare_log_bins(const pare_log_reducer *reducer, pare_log_bin bin[PARE_LOG_BINS]);

#endif
