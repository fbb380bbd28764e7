/* read_log.c: what a flight's log said (see read_log.h). */
#include "store/read_log.h"

#include <math.h>

enum { ROWS_MOST = 500 };

const pare_table_title pare_log_titles[PARE_LOG_COLUMNS] = {
    [PARE_LOG_TIME] = {"time", PARE_DIM_TIME},
    [PARE_LOG_LASTS] = {"lasts", PARE_DIM_TIME},
    [PARE_LOG_VOLTS] = {"volts", PARE_DIM_VOLTAGE},
    [PARE_LOG_CURRENT] = {"current", PARE_DIM_CURRENT},
    [PARE_LOG_THROTTLE] = {"throttle", PARE_DIM_SHARE},
    [PARE_LOG_HEIGHT] = {"height", PARE_DIM_LENGTH},
};

/* A current sensor's zero may lie a little below nothing, a height below where it began. */
const pare_log_range pare_log_ranges[PARE_LOG_COLUMNS] = {
    [PARE_LOG_TIME] = {0, 1e5},        [PARE_LOG_LASTS] = {0, 1e5},
    [PARE_LOG_VOLTS] = {0, 120},       [PARE_LOG_CURRENT] = {-20, 2000},
    [PARE_LOG_THROTTLE] = {-0.1, 1.1}, [PARE_LOG_HEIGHT] = {-1000, 10000},
};

static pare_status check_shape(const pare_reading *reading, const pare_node *node, pare_error *err)
{
    static const char *const keys[] = {"columns", "rows"};
    static const pare_log_column needed[] = {PARE_LOG_TIME, PARE_LOG_VOLTS, PARE_LOG_CURRENT};
    pare_status status = pare_read_keys(reading, node, "logged", PARE_COUNT(keys), keys, err);
    if (status != PARE_OK)
        return status;
    const pare_node *columns = pare_node_get(node, "columns"), *rows = pare_node_get(node, "rows");
    if (!columns || !rows)
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "logged without %s; right would be what pare import LOG.csv writes",
                           columns ? "rows" : "columns");
    status = pare_check_columns(reading, columns, PARE_LOG_COLUMNS, pare_log_titles, err);
    for (size_t i = 0; i < PARE_COUNT(needed) && status == PARE_OK; i++)
        if (!pare_node_get(columns, pare_log_titles[needed[i]].name))
            status = pare_refuse(reading, columns, PARE_BAD_DATA, err,
                                 "a log without a column of %s", pare_log_titles[needed[i]].name);
    if (status == PARE_OK)
        status = pare_check_rows(reading, rows, columns->count, err);
    if (status == PARE_OK && (rows->count < 2 || rows->count > ROWS_MOST))
        status = pare_refuse(reading, rows, PARE_BAD_DATA, err,
                             "a log of %zu rows; right would be 2 to %d: pare import LOG.csv makes "
                             "few of many",
                             rows->count, ROWS_MOST);
    return status;
}

/* Until when a row without a length of its own lasts: the next, and the last as long as the one before. */
static void put_lasts(size_t rows, double value[])
{
    for (size_t i = 0; i < rows; i++) {
        const size_t from = i + 1 < rows ? i : i - 1;
        double *row = &value[i * PARE_LOG_COLUMNS];
        const double *begins = &value[from * PARE_LOG_COLUMNS];
        if (isnan(row[PARE_LOG_LASTS]))
            row[PARE_LOG_LASTS] = begins[PARE_LOG_COLUMNS + PARE_LOG_TIME] - begins[PARE_LOG_TIME];
    }
}

static pare_status check_row(const pare_reading *reading, const pare_node *node, size_t row,
                             const double value[], pare_error *err)
{
    const double *now = &value[row * PARE_LOG_COLUMNS];
    for (int c = 0; c < PARE_LOG_COLUMNS; c++)
        if (now[c] < pare_log_ranges[c].low || now[c] > pare_log_ranges[c].high)
            return pare_refuse(reading, node, PARE_BAD_DATA, err,
                               "%s of %.6g in SI; right would be %g to %g", pare_log_titles[c].name,
                               now[c], pare_log_ranges[c].low, pare_log_ranges[c].high);
    if (!(now[PARE_LOG_LASTS] > 0))
        return pare_refuse(
            reading, node, PARE_BAD_DATA, err,
            "a row that lasts %.6g s; right would be more than 0, and times that rise",
            now[PARE_LOG_LASTS]);
    if (row > 0 && !(now[PARE_LOG_TIME] > (now - PARE_LOG_COLUMNS)[PARE_LOG_TIME]))
        return pare_refuse(reading, node, PARE_BAD_DATA, err,
                           "a time of %.6g s after %.6g s; right would be a later one",
                           now[PARE_LOG_TIME], (now - PARE_LOG_COLUMNS)[PARE_LOG_TIME]);
    return PARE_OK;
}

pare_status pare_read_log(const pare_reading *reading, const pare_node *node, pare_arena *arena,
                          const pare_flight_log **log, pare_error *err)
{
    pare_status status = check_shape(reading, node, err);
    if (status != PARE_OK)
        return status;
    const pare_node *rows = pare_node_get(node, "rows"), *row = rows->first;
    double *value = pare_arena_array(reading->arena, rows->count * PARE_LOG_COLUMNS, sizeof *value);
    pare_log_bin *bin = pare_arena_array(arena, rows->count, sizeof *bin);
    pare_flight_log *made = pare_arena_zeros(arena, sizeof *made);
    if (!value || !bin || !made)
        return pare_no_memory(err);
    status = pare_read_table(reading, pare_node_get(node, "columns"), rows, PARE_LOG_COLUMNS,
                             pare_log_titles, value, err);
    if (status == PARE_OK)
        put_lasts(rows->count, value);
    for (size_t i = 0; i < rows->count && status == PARE_OK; i++, row = row->next) {
        const double *v = &value[i * PARE_LOG_COLUMNS];
        status = check_row(reading, row, i, value, err);
        bin[i] = (pare_log_bin){v[PARE_LOG_TIME],    v[PARE_LOG_LASTS],    v[PARE_LOG_VOLTS],
                                v[PARE_LOG_CURRENT], v[PARE_LOG_THROTTLE], v[PARE_LOG_HEIGHT]};
    }
    *made = (pare_flight_log){rows->count, bin};
    *log = made;
    return status;
}
