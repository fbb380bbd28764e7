/* csv_log.c: rows of a flight's log (see csv_log.h).
 *
 * Ten million rows become 240 bins while they are read, so memory and the bench do not grow with them.
 * What makes a row's neighbours doubtful as well (a time that runs back, no number, another unit) stops
 * the reading, and nothing goes in: a log that was misread once was misread all along. What loggers do
 * every day is counted and said instead: rows at one time, rows without a reading, gaps. */
#include "store/csv_log.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/csv_record.h"
#include "store/tree_edit.h"

#define DAY_S      86400.0
#define SHORTEST_S 2.0

enum { DIGITS = 6, TIME_DIGITS = 8 };

static const char *unit_of(const pare_csv_column *column)
{
    return column->unit ? column->unit : column->target->dimension == PARE_DIM_SHARE ? "%" : NULL;
}

/* ---- the columns ---- */

static pare_status find_unit(const pare_csv_plan *plan, pare_units *units, int at,
                             pare_csv_log *log, pare_error *err)
{
    const pare_csv_column *column = log->of[at].column;
    const char *unit = column ? unit_of(column) : NULL;
    char text[48];
    log->of[at].one = 1;
    if (!column)
        return PARE_OK;
    if (!unit && at == PARE_LOG_TIME)
        return PARE_OK; /* times of day need none; what is no such is refused in its row */
    if (!unit)
        return pare_csv_refuse(
            plan, column, plan->line, err,
            "no unit over this column; right would be like '%s (%s)', of %s, or --map %zu=-",
            column->target->name,
            at == PARE_LOG_VOLTS     ? "V"
            : at == PARE_LOG_CURRENT ? "A"
                                     : "m",
            pare_dimension_units(column->target->dimension), (size_t)(column - plan->column) + 1);
    snprintf(text, sizeof text, "0 %.24s", unit);
    pare_status status =
        pare_quantity(units, text, column->target->dimension, &log->of[at].zero, err);
    snprintf(text, sizeof text, "1 %.24s", unit);
    if (status == PARE_OK)
        status = pare_quantity(units, text, column->target->dimension, &log->of[at].one, err);
    log->of[at].one -= log->of[at].zero;
    return status == PARE_OK ? PARE_OK : pare_csv_refused_at(plan, column, plan->line, err);
}

pare_status pare_csv_begin_log(const pare_csv_plan *plan, pare_units *units, pare_csv_log *log,
                               pare_error *err)
{
    static const char *const told[] = {"craft", "date"};
    static const pare_log_column needed[] = {PARE_LOG_TIME, PARE_LOG_VOLTS, PARE_LOG_CURRENT};
    pare_status status = PARE_OK;
    for (int at = 0; at < PARE_LOG_COLUMNS && status == PARE_OK; at++) {
        log->of[at].column = pare_csv_column_of(plan, pare_log_titles[at].name);
        status = find_unit(plan, units, at, log, err);
    }
    for (size_t i = 0; i < PARE_COUNT(needed) && status == PARE_OK; i++)
        if (!log->of[needed[i]].column)
            status = pare_fail(err, PARE_BAD_DATA,
                               "%s:%d: no column of %s; right would be time, volts and current, "
                               "each with its unit, or --map COLUMN=WHAT",
                               plan->name, plan->line, pare_log_titles[needed[i]].name);
    for (size_t i = 0; i < PARE_COUNT(told) && status == PARE_OK; i++)
        if (!pare_csv_column_of(plan, told[i]))
            status =
                pare_fail(err, PARE_BAD_DATA, "%s: the log of which %s? right would be --set %s=%s",
                          plan->name, i ? "day" : "craft", told[i], i ? "2026-04-13" : "NAME");
    return status;
}

/* ---- numbers ---- */

/* "14:03:21.25", where no unit says otherwise. @return false: it is none */
static bool time_of_day(const char *cell, double *time_s)
{
    char *end = NULL;
    const long hours = strtol(cell, &end, 10);
    if (end == cell || *end != ':' || hours < 0 || hours > 23)
        return false;
    const char *at = end + 1;
    const long minutes = strtol(at, &end, 10);
    if (end == at || *end != ':' || minutes < 0 || minutes > 59)
        return false;
    at = end + 1;
    char digits[PARE_CSV_DIGITS];
    bool ambiguous = false;
    const char *rest = pare_csv_number(at, PARE_DECIMAL_POINT, digits, &ambiguous);
    if (!rest || *rest)
        return false;
    const double seconds = strtod(digits, NULL);
    if (!(seconds >= 0 && seconds < 61)) /* 60 in a leap second */
        return false;
    *time_s = 3600.0 * (double)hours + 60.0 * (double)minutes + seconds;
    return true;
}

/* One number in SI; a unit behind it must be the column's. */
static pare_status read_number(const pare_csv_rows *rows, const pare_csv_row *row,
                               const pare_csv_log *log, int at, double *value, pare_error *err)
{
    const pare_csv_column *column = log->of[at].column;
    const char *cell = pare_csv_cell(rows->plan, column, row);
    const char *due = unit_of(column);
    char digits[PARE_CSV_DIGITS];
    bool ambiguous = false;
    if (!due && time_of_day(cell, value))
        return PARE_OK;
    const char *end = pare_csv_number(cell, rows->plan->decimal, digits, &ambiguous);
    const char *unit = end ? end + strspn(end, " ") : "";
    if (!end)
        return pare_csv_refuse(rows->plan, column, row->line, err,
                               "'%.40s' is no number; right would be one, or nothing where the "
                               "logger had none",
                               cell);
    if (ambiguous)
        return pare_csv_refuse(rows->plan, column, row->line, err,
                               "'%.40s' can be two numbers; right would be --decimal point or "
                               "--decimal comma",
                               cell);
    if (!due)
        return pare_csv_refuse(rows->plan, column, row->line, err,
                               "'%.40s' without a unit; right would be 'time (s)' over them, of "
                               "s, ms, us, or times of day like 14:03:21.5",
                               cell);
    if (*unit && strcmp(pare_csv_unit(unit, column->target->dimension), due) != 0)
        return pare_csv_refuse(rows->plan, column, row->line, err,
                               "'%.40s' in another unit than its column; right would be %s", cell,
                               due);
    *value = log->of[at].zero + strtod(digits, NULL) * log->of[at].one;
    /* A logger may count from any day. */
    if (at != PARE_LOG_TIME &&
        !(*value >= pare_log_ranges[at].low && *value <= pare_log_ranges[at].high))
        return pare_csv_refuse(rows->plan, column, row->line, err,
                               "%.40s %s is no such reading; right would be %g to %g %s", cell, due,
                               (pare_log_ranges[at].low - log->of[at].zero) / log->of[at].one,
                               (pare_log_ranges[at].high - log->of[at].zero) / log->of[at].one,
                               due);
    return PARE_OK;
}

/* ---- rows ---- */

/* A time of day that starts anew is past midnight. */
static double over_midnight(pare_csv_log *log, double time_s)
{
    const bool of_day = unit_of(log->of[PARE_LOG_TIME].column) == NULL;
    time_s += log->day_s;
    if (of_day && log->reducer.rows > 0 && log->reducer.last.time_s - time_s > DAY_S / 2) {
        log->day_s += DAY_S;
        time_s += DAY_S;
    }
    return time_s;
}

pare_status pare_csv_take_log(const pare_csv_rows *rows, const pare_csv_row *row, pare_csv_log *log,
                              pare_error *err)
{
    double value[PARE_LOG_COLUMNS];
    pare_status status = PARE_OK;
    if (!log->flight)
        status = pare_csv_make_record(rows, row, &log->flight, err);
    for (int at = 0; at < PARE_LOG_COLUMNS && status == PARE_OK; at++) {
        const pare_csv_column *column = log->of[at].column;
        value[at] = (double)NAN;
        if (!column)
            continue;
        if (at != PARE_LOG_TIME && pare_csv_is_nothing(pare_csv_cell(rows->plan, column, row)))
            continue;
        status = read_number(rows, row, log, at, &value[at], err);
    }
    if (status != PARE_OK)
        return status;
    if (isnan(value[PARE_LOG_VOLTS]) || isnan(value[PARE_LOG_CURRENT])) {
        if (log->left_out++ == 0)
            log->left_out_line = row->line;
        return PARE_OK;
    }
    const double longest_s = log->reducer.longest_s, until_s = log->reducer.last.time_s;
    const pare_log_row taken = {over_midnight(log, value[PARE_LOG_TIME]), value[PARE_LOG_VOLTS],
                                value[PARE_LOG_CURRENT], value[PARE_LOG_THROTTLE],
                                value[PARE_LOG_HEIGHT]};
    if (!pare_log_take(&log->reducer, &taken))
        return pare_csv_refuse(rows->plan, log->of[PARE_LOG_TIME].column, row->line, err,
                               "time runs back by %.6g s from line %d; right would be one log, in "
                               "the order in which it was written",
                               until_s - taken.time_s, log->last_line);
    if (taken.time_s - log->reducer.first_s > pare_log_ranges[PARE_LOG_TIME].high)
        return pare_csv_refuse(rows->plan, log->of[PARE_LOG_TIME].column, row->line, err,
                               "%.6g s after the first row; right would be the log of one flight",
                               taken.time_s - log->reducer.first_s);
    if (log->reducer.longest_s > longest_s)
        log->gap_line = log->last_line;
    log->last_line = row->line;
    return PARE_OK;
}

/* ---- the flight ---- */

static bool put_rows(pare_arena *arena, const pare_csv_log *log, size_t bins,
                     const pare_log_bin bin[], pare_node *list)
{
    bool made = true;
    for (size_t i = 0; i < bins && made; i++) {
        pare_node *row = pare_node_made(arena, PARE_NODE_LIST, NULL, NULL);
        made = row && pare_node_append_number(arena, row, TIME_DIGITS, bin[i].time_s) &&
               pare_node_append_number(arena, row, DIGITS, bin[i].lasts_s) &&
               pare_node_append_number(arena, row, DIGITS, bin[i].volts_v) &&
               pare_node_append_number(arena, row, DIGITS, bin[i].current_a);
        /* Where one stretch has none, it is as before: a row has a number for each column. */
        const double throttle = isfinite(bin[i].throttle) ? bin[i].throttle : 0;
        const double height_m = isfinite(bin[i].height_m) ? bin[i].height_m : 0;
        if (made && log->of[PARE_LOG_THROTTLE].column)
            made = pare_node_append_number(arena, row, DIGITS, 100 * throttle);
        if (made && log->of[PARE_LOG_HEIGHT].column)
            made = pare_node_append_number(arena, row, DIGITS, height_m);
        if (made)
            pare_node_append(list, row);
    }
    return made;
}

static bool put_logged(pare_arena *arena, const pare_csv_log *log, size_t bins,
                       const pare_log_bin bin[], const char *file, pare_node *flight)
{
    static const char *const units[PARE_LOG_COLUMNS] = {"s", "s", "V", "A", "%", "m"};
    pare_node *logged = pare_node_made(arena, PARE_NODE_MAP, "logged", NULL);
    pare_node *columns = pare_node_made(arena, PARE_NODE_MAP, "columns", NULL);
    pare_node *list = pare_node_made(arena, PARE_NODE_LIST, "rows", NULL);
    bool made = logged && columns && list && pare_node_put_text(arena, flight, "log", file);
    for (int at = 0; at < PARE_LOG_COLUMNS && made; at++)
        if (at == PARE_LOG_LASTS || log->of[at].column)
            made = pare_node_put_text(arena, columns, pare_log_titles[at].name, units[at]);
    if (!made || !put_rows(arena, log, bins, bin, list))
        return false;
    pare_node_set(logged, columns);
    pare_node_set(logged, list);
    pare_node_set(flight, logged);
    return true;
}

pare_status pare_csv_end_log(const pare_csv_rows *rows, pare_csv_log *log, const char *file,
                             pare_node **flight, pare_error *err)
{
    const pare_log_reducer *r = &log->reducer;
    pare_log_bin bin[PARE_LOG_BINS];
    const size_t bins = pare_log_bins(r, bin);
    if (!log->flight || r->rows < 2)
        return pare_fail(err, PARE_BAD_DATA,
                         "%s:%d: a log of %zu row%s with volts and current; right would be two or "
                         "more",
                         rows->plan->name, rows->plan->line, r->rows, r->rows == 1 ? "" : "s");
    const double covers_s = r->until_s - r->first_s - r->gaps_s;
    if (bins < 2 || covers_s < SHORTEST_S)
        return pare_csv_refuse(rows->plan, log->of[PARE_LOG_TIME].column, log->last_line, err,
                               "%zu rows that cover %.6g s; right would be %g s or more", r->rows,
                               covers_s, SHORTEST_S);
    *flight = log->flight;
    return put_logged(rows->reading->arena, log, bins, bin, file, log->flight)
               ? PARE_OK
               : pare_no_memory(err);
}

/* ---- what is said of it ---- */

static void add(pare_list_remark remark[], size_t *count, const char *label, const char *text)
{
    if (text && *count < PARE_LIST_REMARKS)
        remark[(*count)++] = (pare_list_remark){label, text};
}

size_t pare_csv_log_remarks(const pare_node *flight, const pare_csv_log *log, pare_arena *arena,
                            pare_list_remark remark[PARE_LIST_REMARKS])
{
    const pare_log_reducer *r = &log->reducer;
    size_t count = 0;
    if (!pare_node_get(flight, "flown"))
        add(remark, &count, "flown", "as the brief says; nothing but hovering: --set flown=hover");
    if (!pare_node_get(flight, "put_back"))
        add(remark, &count, "charge",
            "only the log's own: --set put_back=905mAh, what the charger put back, tells how far "
            "its current sensor is off");
    if (r->gaps)
        add(remark, &count, "gaps",
            pare_arena_printf(arena,
                              "%zu without rows, %.3g s together, the longest %.3g s after line "
                              "%d: what was drawn there is guessed, and doubted",
                              r->gaps, r->gaps_s, r->longest_s, log->gap_line));
    if (r->repeated)
        add(remark, &count, "times",
            pare_arena_printf(arena, "%zu row%s at the time of the one before: the last counts",
                              r->repeated, r->repeated == 1 ? "" : "s"));
    if (log->left_out)
        add(remark, &count, "rows",
            pare_arena_printf(arena, "%zu without volts or current left out, the first in line %d",
                              log->left_out, log->left_out_line));
    if (log->cut_line)
        add(remark, &count, "end",
            pare_arena_printf(arena, "the last row, line %d, is cut off and left out",
                              log->cut_line));
    return count;
}
